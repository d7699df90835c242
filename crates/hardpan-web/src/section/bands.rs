//! The bands under the ribbon.

use super::axis::Axis;
use super::plot::{Band, drawing, nothing, path, stretched};
use super::runs::CLASSES;
use hardpan_assess::{Assessment, SketchMarkKind, StrengthSample};
use hardpan_model::RunPoint;
use hardpan_quantity::{Dimension, Length, Quantity as _, UnitSystem, units_of};
use hardpan_report::{Scale, station_unit};
use maud::{Markup, html};

/// Height of a band, pixels.
const HEIGHT: f64 = 92.0;

/// Stations with a value each.
type Points = Vec<(f64, f64)>;

pub(super) fn scale(low: f64, high: f64, height: f64) -> Scale {
    Scale::new((low, high), (height - 3.0, 6.0))
}

fn lowest_and_highest(points: impl Iterator<Item = f64>) -> (f64, f64) {
    points.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| (low.min(z), high.max(z)))
}

/// Level of the centre line.
pub(super) fn level(axis: &Axis, assessment: &Assessment) -> Band {
    let (unit, size) = station_unit(axis.units());
    let points: Points = assessment
        .sketch
        .profile
        .iter()
        .map(|(station, level)| (station.si(), level.si()))
        .filter(|(station, level)| station.is_finite() && level.is_finite())
        .collect();
    let (low, high) = lowest_and_highest(points.iter().map(|point| point.1));
    let band = |drawing: Markup, words: String| Band {
        id: "level",
        name: "Level of the centre line",
        unit,
        keys: vec![("solid", "level".to_owned(), Some("level".to_owned()))],
        drawing,
        words,
    };
    if points.len() < 2 {
        return band(nothing("no survey"), "No survey.".to_owned());
    }
    let room = ((high - low) * 0.1).max(0.25);
    let scale = scale(low - room, high + room, HEIGHT);
    let line = path(axis, &scale, &points);
    let last = points.last().map_or(0.0, |point| axis.across(point.0));
    let first = points.first().map_or(0.0, |point| axis.across(point.0));
    let under = format!("{line}L{last:.1} {HEIGHT}L{first:.1} {HEIGHT}Z");
    let inside = stretched(
        HEIGHT,
        &html! {
            path.earth d=(under) {}
            path.line.solid d=(line) {}
        },
    );
    let words = format!("Level between {:.1} and {:.1} {unit}.", low / size, high / size);
    band(drawing(HEIGHT, Some((&scale, size)), &inside), words)
}

/// Strength available against strength needed.
pub(super) fn strength(axis: &Axis, assessment: &Assessment) -> Band {
    let samples = &assessment.sketch.strength;
    let value = |pick: fn(&StrengthSample) -> Option<f64>| -> Vec<(f64, Option<f64>)> {
        samples.iter().map(|one| (one.station.si(), pick(one).filter(|v| v.is_finite()))).collect()
    };
    let available = value(|one| one.available.map(|ratio| ratio.si()));
    let needed = value(|one| one.needed.map(|ratio| ratio.si()));
    let most = |of: &[(f64, Option<f64>)]| of.iter().filter_map(|p| p.1).fold(0.0_f64, f64::max);
    let key = |word: &str, row: &str| (word.to_owned(), Some(row.to_owned()));
    let band = |drawing: Markup, words: String| {
        let ((have, have_row), (need, need_row)) =
            (key("available", "available"), key("needed", "needed"));
        Band {
            id: "strength",
            name: "Bearing ratio",
            unit: "%",
            keys: vec![
                ("solid", have, have_row),
                ("dashed alert", need, need_row),
                ("fill m-deficit", "too weak".to_owned(), None),
                ("fill m-unknown", "not known".to_owned(), None),
            ],
            drawing,
            words,
        }
    };
    let (have, need) = (most(&available), most(&needed));
    if have <= 0.0 && need <= 0.0 {
        return band(
            nothing("no sounding, or no load to hold it against"),
            "Not known.".to_owned(),
        );
    }
    let top = if need > 0.0 { have.min(need * 3.0).max(need) } else { have } * 1.1;
    let scale = scale(0.0, top, HEIGHT);
    let lines = |of: &[(f64, Option<f64>)], class: &str| {
        html! { @for part in unbroken(of) { path class={ "line " (class) } d=(path(axis, &scale, &part)) {} } }
    };
    let inside = html! {
        @for (class, from, to) in stretches(samples) {
            @let (x, width) = axis.stretch(Length::from_si(from), Length::from_si(to));
            rect class={ "stretch " (class) } x=(x) y="6" width=(width) height=(HEIGHT - 7.0) {}
        }
        (stretched(HEIGHT, &html! {
            (lines(&available, "solid")) (lines(&needed, "dashed alert"))
        }))
    };
    let weak =
        samples.iter().filter(|one| one.utilisation.is_some_and(|ratio| ratio < 1.0)).count();
    let words = match weak {
        0 => "Everywhere known, at least as strong as needed.".to_owned(),
        _ => format!("Weaker than needed at {weak} of {} stations.", samples.len()),
    };
    band(drawing(HEIGHT, Some((&scale, 1.0)), &inside), words)
}

fn unbroken(values: &[(f64, Option<f64>)]) -> Vec<Points> {
    let mut parts: Vec<Points> = vec![Vec::new()];
    for (station, value) in values {
        match (value, parts.last_mut()) {
            (Some(value), Some(part)) => part.push((*station, *value)),
            _ => parts.push(Vec::new()),
        }
    }
    parts.retain(|part| part.len() > 1);
    parts
}

/// Stretches that are too weak or not known, each as far as half way to its
/// neighbours.
fn stretches(samples: &[StrengthSample]) -> Vec<(&'static str, f64, f64)> {
    let class = |one: &StrengthSample| match (one.available, one.needed) {
        (None, _) => Some("m-unknown"),
        (Some(have), Some(need)) if have < need => Some("m-deficit"),
        _ => None,
    };
    let stations: Vec<f64> = samples.iter().map(|one| one.station.si()).collect();
    let mut out: Vec<(&'static str, f64, f64)> = Vec::new();
    for (index, (one, at)) in samples.iter().zip(&stations).enumerate() {
        let Some(class) = class(one) else { continue };
        let before = index.checked_sub(1).and_then(|i| stations.get(i)).unwrap_or(at);
        let after = stations.get(index + 1).unwrap_or(at);
        let (from, to) = ((before + at) / 2.0, (at + after) / 2.0);
        match out.last_mut() {
            Some((last, _, end)) if *last == class && from - *end < 1e-6 => *end = to,
            _ => out.push((class, from, to)),
        }
    }
    out
}

/// Ground speed of the runs.
pub(super) fn speed(axis: &Axis, assessment: &Assessment) -> Band {
    let unit = Unit { kind: Dimension::Speed, symbol: "kt" };
    by_run(axis, assessment, ("speed", "Ground speed", unit), false, |point| {
        point.ground_speed.si()
    })
}

/// Thrust of the runs, over loose stones.
pub(super) fn thrust(axis: &Axis, assessment: &Assessment) -> Band {
    by_run(axis, assessment, ("thrust", "Thrust, all engines", force(axis)), true, |point| {
        point.thrust.si()
    })
}

/// Drag of the wheels over their load.
pub(super) fn friction(axis: &Axis, assessment: &Assessment) -> Band {
    let unit = Unit { kind: Dimension::Coefficient, symbol: "" };
    by_run(axis, assessment, ("friction", "Drag of the wheels over their load", unit), false, |p| {
        p.friction.si()
    })
}

/// Load that one main leg brings to the ground.
pub(super) fn load(axis: &Axis, assessment: &Assessment) -> Band {
    by_run(axis, assessment, ("load", "Load on one main leg", force(axis)), false, |point| {
        point.main_leg_load.si()
    })
}

struct Unit {
    kind: Dimension,
    symbol: &'static str,
}

fn force(axis: &Axis) -> Unit {
    let symbol = match axis.units() {
        UnitSystem::Metric => "kN",
        UnitSystem::Imperial => "lbf",
    };
    Unit { kind: Dimension::Force, symbol }
}

fn by_run(
    axis: &Axis,
    assessment: &Assessment,
    (id, name, unit): (&'static str, &'static str, Unit),
    over_stones: bool,
    value: fn(&RunPoint) -> f64,
) -> Band {
    let runs: Vec<(&str, Points)> = assessment
        .sketch
        .runs
        .iter()
        .take(CLASSES.len())
        .map(|(name, run)| {
            let points = run.points.iter().map(|point| (point.station.si(), value(point)));
            (name.as_str(), points.filter(|p| p.0.is_finite() && p.1.is_finite()).collect())
        })
        .collect();
    let keys = runs.iter().zip(CLASSES).enumerate().map(|(index, ((name, _), class))| {
        (class, (*name).to_owned(), Some(format!("{id}-{index}")))
    });
    let mut keys: Vec<_> = keys.collect();
    if over_stones {
        keys.push(("fill m-loose", "loose stones".to_owned(), None));
    }
    let (low, high) = lowest_and_highest(runs.iter().flat_map(|(_, p)| p).map(|point| point.1));
    let factor = units_of(unit.kind).iter().find(|known| known.symbol == unit.symbol);
    let factor = factor.map_or(1.0, |known| known.factor);
    let scale = scale(low.min(0.0), (high * 1.1).max(low + 0.01 * factor), HEIGHT);
    let loose = assessment
        .sketch
        .marks
        .iter()
        .filter(|mark| over_stones && mark.kind == SketchMarkKind::Loose);
    let inside = html! {
        @for mark in loose {
            @let (x, width) = axis.stretch(mark.from, mark.to);
            rect.stretch.m-loose x=(x) y="6" width=(width) height=(HEIGHT - 7.0) {}
        }
        (stretched(HEIGHT, &html! {
            @for ((_, points), class) in runs.iter().zip(CLASSES) {
                path class={ "line " (class) } d=(path(axis, &scale, points)) {}
            }
        }))
    };
    let shown = runs.iter().any(|(_, points)| points.len() > 1);
    Band {
        id,
        name,
        unit: unit.symbol,
        keys,
        words: if shown {
            format!(
                "{name} of {} by station.",
                runs.iter().map(|r| r.0).collect::<Vec<_>>().join(", ")
            )
        } else {
            "No run was computed.".to_owned()
        },
        drawing: if shown {
            drawing(HEIGHT, Some((&scale, factor)), &inside)
        } else {
            nothing("no run was computed")
        },
    }
}
