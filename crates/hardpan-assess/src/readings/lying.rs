//! Water, loose material, loose stones and marks at a station, down to who reported them.

use super::{Reading, told};
use crate::assessment::Assessment;
use crate::draft::{derived, given, given_as, plain_step};
use hardpan_model::{BasisInput, FigureBasis, Flight, Given, Patch, StoneSize};
use hardpan_quantity::{Amount, Length, Quantity};

/// How far beyond its ends a patch still counts as being at a station, metres.
const NEAR: f64 = 0.5;

fn is_here(from: Length, to: Length, station: Length) -> bool {
    from.si() - NEAR <= station.si() && station.si() <= to.si() + NEAR
}

pub(super) fn readings(flight: &Flight, found: &Assessment, station: Length) -> Vec<Reading> {
    let day = &flight.day;
    vec![
        depth(("water", "water"), day.standing_water.as_deref(), station),
        depth(("loose", "loose material"), day.loose_material.as_deref(), station),
        stones(flight, station),
        marks(found, station),
    ]
}

/// The deepest patch there.
fn depth((id, name): (&str, &str), patches: Option<&[Patch]>, station: Length) -> Reading {
    let none = match patches {
        None => "nobody looked",
        Some(_) => "looked for, and none seen there",
    };
    let here = patches.unwrap_or_default().iter();
    let here: Vec<&Patch> =
        here.filter(|patch| is_here(patch.from.value, patch.to, station)).collect();
    let deepest = here.iter().map(|patch| patch.depth.value);
    let deepest = deepest.max_by(|a, b| a.si().total_cmp(&b.si()));
    let figure = deepest.map(|deepest| {
        let input = |patch: &&Patch| {
            let stretch = Amount::from(patch.from.value).told_to(patch.to.into());
            given(&format!("depth {stretch}"), &patch.depth)
        };
        let name = format!("{name} at {}", told(station));
        let rule = "the deepest of the stretches reported there";
        let inputs = here.iter().map(input).collect();
        let step = plain_step(&name, rule, derived("report of the day"), inputs, deepest);
        FigureBasis::new(name, deepest, vec![step])
    });
    Reading::new(id, name, figure.into_iter().collect(), none)
}

/// What somebody counted on one stretch.
struct Counted<'a> {
    from: Length,
    to: Length,
    each: Option<&'a Given<f64>>,
    largest: Option<&'a Given<Length>>,
    sizes: &'a [StoneSize],
}

fn stones(flight: &Flight, station: Length) -> Reading {
    let of_day = |patch: &'_ Patch| is_here(patch.from.value, patch.to, station);
    let counted: Vec<Counted<'_>> = match &flight.day.loose_material {
        Some(patches) => patches
            .iter()
            .filter(|patch| of_day(patch))
            .map(|patch| Counted {
                from: patch.from.value,
                to: patch.to,
                each: patch.stones_per_square_metre.as_ref(),
                largest: patch.largest_stone.as_ref(),
                sizes: &patch.sizes,
            })
            .collect(),
        None => flight
            .strip
            .loose_stones
            .iter()
            .filter(|stones| is_here(stones.from.value, stones.to, station))
            .map(|stones| Counted {
                from: stones.from.value,
                to: stones.to,
                each: stones.stones_per_square_metre.as_ref(),
                largest: stones.largest_stone.as_ref(),
                sizes: &stones.sizes,
            })
            .collect(),
    };
    let none = match &flight.day.loose_material {
        Some(_) => "looked for, and none counted there",
        None => "nobody looked",
    };
    let figures = counted.iter().flat_map(figures).collect();
    Reading::new("stones", "loose stones", figures, none)
}

/// Stones on a square metre, and the largest of them.
fn figures(counted: &Counted<'_>) -> Vec<FigureBasis> {
    let stretch = Amount::from(counted.from).told_to(counted.to.into());
    let mut all = Vec::new();
    let mut take = |name: String, inputs: Vec<BasisInput>, rule: &str, amount: Amount| {
        let step = plain_step(&name, rule, derived("count of loose stones"), inputs, amount);
        all.push(FigureBasis::new(name, amount, vec![step]));
    };
    let number =
        |given: &Given<f64>, of: &str| given_as(of, given, Amount::coefficient(given.value));
    let sizes = counted.sizes;
    let of_sizes: Vec<BasisInput> = sizes
        .iter()
        .map(|size| {
            let largest = Amount::from(size.up_to.value).told();
            number(&size.stones_per_square_metre, &format!("stones up to {largest}"))
        })
        .collect();
    let name = format!("loose stones on a square metre, {stretch}");
    match counted.each {
        Some(each) => {
            take(name, vec![number(each, "stones")], "as counted", Amount::coefficient(each.value));
        }
        None if !sizes.is_empty() => {
            let sum = sizes.iter().map(|size| size.stones_per_square_metre.value).sum();
            take(name, of_sizes, "sum of the sizes counted", Amount::coefficient(sum));
        }
        None => {}
    }
    let of_size = sizes.iter().map(|size| &size.up_to);
    let largest =
        counted.largest.or_else(|| of_size.max_by(|a, b| a.value.si().total_cmp(&b.value.si())));
    if let Some(largest) = largest {
        let name = format!("largest loose stone, {stretch}");
        take(name, vec![given("diameter", largest)], "as measured", largest.value.into());
    }
    all
}

/// Marks of the strip there, as the assessment opens them.
fn marks(found: &Assessment, station: Length) -> Reading {
    let here = found.sketch.marks.iter().filter(|mark| is_here(mark.from, mark.to, station));
    let mut figures: Vec<FigureBasis> = Vec::new();
    for mark in here {
        let stretch = Amount::from(mark.from).told_to(mark.to.into());
        let name = format!("{} at {stretch}", mark.label);
        let mut opened = found.figures.iter();
        let opened = opened.find(|one| one.name == name && Some(one.amount) == mark.amount);
        figures.extend(opened.cloned().filter(|one| !figures.contains(one)));
    }
    Reading::new("lying", "marked here", figures, "nothing with a figure is marked there")
}
