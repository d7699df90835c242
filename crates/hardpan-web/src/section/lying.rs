//! What lies on the strip: water and loose material by depth, and the loose
//! stones that somebody counted.

use super::axis::Axis;
use super::bands::scale;
use super::plot::{Band, drawing, nothing};
use crate::desk::Judged;
use hardpan_model::{Flight, Patch, StoneSize};
use hardpan_quantity::{Dimension, Length, Quantity as _, UnitSystem, units_of};
use hardpan_report::{quantity_text, station_unit, stretch_text};
use maud::html;

/// Height of a low band, pixels.
const LOW: f64 = 46.0;
/// How far beyond its ends a patch still counts as being at the cursor, metres.
const NEAR: f64 = 0.5;

/// Water and loose material by depth, or that somebody looked and saw none.
pub(super) fn lying(axis: &Axis, judged: &Judged) -> Band {
    let day = &judged.flight.day;
    let both = [
        ("water", day.standing_water.as_deref(), "m-water"),
        ("loose material", day.loose_material.as_deref(), "m-loose"),
    ];
    let unit = match axis.units() {
        UnitSystem::Metric => "mm",
        UnitSystem::Imperial => "in",
    };
    let known = units_of(Dimension::Length).iter().find(|known| known.symbol == unit);
    let size = known.map_or(1.0, |known| known.factor);
    let deepest = both
        .iter()
        .flat_map(|(_, patches, _)| patches.unwrap_or_default())
        .map(|patch| patch.depth.value.si())
        .fold(0.0_f64, f64::max);
    let mut words = String::new();
    for (name, patches, _) in both {
        match patches {
            None => words.push_str(&format!("Nobody says whether {name} lies there. ")),
            Some([]) => words.push_str(&format!("Looked for {name}, none seen. ")),
            Some(patches) => patches.iter().for_each(|patch| {
                let stretch = stretch_text(patch.from.value, patch.to, axis.units());
                let depth = quantity_text(patch.depth.value, axis.units());
                words.push_str(&format!("{name} {depth}, {stretch}. "));
            }),
        }
    }
    let scale = scale(0.0, (deepest * 1.3).max(size), LOW);
    let bar = |patch: &Patch, class: &str| {
        let (x, width) = axis.stretch(patch.from.value, patch.to);
        let y = scale.at(patch.depth.value.si());
        html! { rect class={ "stretch " (class) } x=(x) y=(y) width=(width) height=(LOW - y) {} }
    };
    let inside = html! {
        @for (_, patches, class) in both {
            @for patch in patches.unwrap_or_default() { (bar(patch, class)) }
        }
    };
    let drawing = if deepest > 0.0 {
        drawing(LOW, Some((&scale, size)), &inside)
    } else {
        nothing(&words.to_lowercase())
    };
    Band {
        id: "lying",
        name: "Water and loose material",
        unit,
        keys: vec![
            ("fill m-water", "water".to_owned(), Some("water".to_owned())),
            ("fill m-loose", "loose material".to_owned(), Some("loose".to_owned())),
        ],
        drawing,
        words: words.trim_end().to_owned(),
    }
}

fn is_here(from: Length, to: Length, station: f64) -> bool {
    from.si() - NEAR <= station && station <= to.si() + NEAR
}

/// What is known of a depth at a station.
pub(super) fn depth_at(patches: Option<&[Patch]>, station: f64, axis: &Axis) -> String {
    let Some(patches) = patches else { return "nobody looked".to_owned() };
    let here = patches.iter().filter(|patch| is_here(patch.from.value, patch.to, station));
    let deepest = here.map(|patch| patch.depth.value).max_by(|a, b| a.si().total_cmp(&b.si()));
    deepest.map_or_else(|| "none seen".to_owned(), |depth| quantity_text(depth, axis.units()))
}

/// Loose stones on a stretch.
struct Counted {
    from: Length,
    to: Length,
    /// On a square metre; none where nobody counted.
    each: Option<f64>,
    largest: Option<Length>,
}

/// Stones of the day's patches; of the strip where nobody looked on the day.
fn counted(flight: &Flight) -> Vec<Counted> {
    let of_day = |patch: &Patch| Counted {
        from: patch.from.value,
        to: patch.to,
        each: patch.stones_per_square_metre.as_ref().map(|given| given.value).or(sum(&patch.sizes)),
        largest: patch.largest_stone.as_ref().map(|given| given.value).or(largest(&patch.sizes)),
    };
    let of_strip = |stones: &hardpan_model::LooseStones| Counted {
        from: stones.from.value,
        to: stones.to,
        each: stones.stones_per_square_metre.as_ref().map(|g| g.value).or(sum(&stones.sizes)),
        largest: stones.largest_stone.as_ref().map(|given| given.value).or(largest(&stones.sizes)),
    };
    match &flight.day.loose_material {
        Some(patches) => patches.iter().map(of_day).collect(),
        None => flight.strip.loose_stones.iter().map(of_strip).collect(),
    }
}

fn sum(sizes: &[StoneSize]) -> Option<f64> {
    let each = sizes.iter().map(|size| size.stones_per_square_metre.value).sum();
    (!sizes.is_empty()).then_some(each)
}

fn largest(sizes: &[StoneSize]) -> Option<Length> {
    sizes.iter().map(|size| size.up_to.value).max_by(|a, b| a.si().total_cmp(&b.si()))
}

/// Symbol of an area in the reader's units, and its size in square metres.
fn area(axis: &Axis) -> (&'static str, f64) {
    let (_, size) = station_unit(axis.units());
    match axis.units() {
        UnitSystem::Metric => ("m²", 1.0),
        UnitSystem::Imperial => ("ft²", size * size),
    }
}

fn count_text(stones: &Counted, axis: &Axis) -> String {
    let (symbol, size) = area(axis);
    let largest = stones.largest.map(|stone| quantity_text(stone, axis.units()));
    match (stones.each.filter(|each| each.is_finite()), largest) {
        (Some(each), Some(largest)) => {
            format!("{} per {symbol}, up to {largest}", rounded(each * size))
        }
        (Some(each), None) => format!("{} per {symbol}, size not known", rounded(each * size)),
        (None, Some(largest)) => format!("up to {largest}, not counted"),
        (None, None) => "not counted".to_owned(),
    }
}

fn rounded(count: f64) -> String {
    if count < 10.0 { format!("{count:.1}") } else { format!("{count:.0}") }
}

/// What is known of loose stones at a station.
pub(super) fn stones_at(flight: &Flight, station: f64, axis: &Axis) -> String {
    let here: Vec<String> = counted(flight)
        .iter()
        .filter(|stones| is_here(stones.from, stones.to, station))
        .map(|stones| count_text(stones, axis))
        .collect();
    match (here.is_empty(), flight.day.loose_material.is_some()) {
        (false, true) => here.join("; "),
        (false, false) => format!("{}, as counted before; nobody looked today", here.join("; ")),
        (true, true) => "none seen".to_owned(),
        (true, false) => "nobody looked".to_owned(),
    }
}

/// Loose stones by count; a patch that nobody counted is marked as unknown.
pub(super) fn stones(axis: &Axis, judged: &Judged) -> Band {
    let flight = &judged.flight;
    let all = counted(flight);
    let (symbol, size) = area(axis);
    let most = all.iter().filter_map(|one| one.each).filter(|each| each.is_finite());
    let most = most.fold(0.0_f64, f64::max);
    let scale = scale(0.0, (most * 1.3).max(1.0 / size), LOW);
    let bar = |one: &Counted| {
        let (x, width) = axis.stretch(one.from, one.to);
        let (class, y) = match one.each.filter(|each| each.is_finite()) {
            Some(each) => ("m-loose", scale.at(each)),
            None => ("m-unknown", 6.0),
        };
        html! { rect class={ "stretch " (class) } x=(x) y=(y) width=(width) height=(LOW - y) {} }
    };
    let mut words = String::new();
    for one in &all {
        let stretch = stretch_text(one.from, one.to, axis.units());
        words.push_str(&format!("{}, {stretch}. ", count_text(one, axis)));
    }
    if all.is_empty() {
        words = match flight.day.loose_material {
            Some(_) => "Looked for loose stones, none seen.".to_owned(),
            None => "Nobody says whether loose stones lie there.".to_owned(),
        };
    }
    Band {
        id: "stones",
        name: "Loose stones counted",
        unit: if axis.units() == UnitSystem::Metric { "per m²" } else { "per ft²" },
        keys: vec![
            ("fill m-loose", "stones".to_owned(), Some("stones".to_owned())),
            ("fill m-unknown", format!("no count per {symbol}"), None),
        ],
        drawing: if all.is_empty() {
            nothing(&words.to_lowercase())
        } else {
            drawing(LOW, Some((&scale, 1.0 / size)), &html! { @for one in &all { (bar(one)) } })
        },
        words: words.trim_end().to_owned(),
    }
}
