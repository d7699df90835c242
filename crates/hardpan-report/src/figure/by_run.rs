//! Figures of the runs by station, a dash for each run.

use super::axis::{self, Band};
use super::canvas::{Anchor, Canvas, Pen, Type};
use super::frame::Frame;
use super::labels::{fitted, text_width};
use super::palette::{GREY, INK};
use super::scale::Scale;
use crate::wrap::plain;
use hardpan_model::{RunPoint, RunTrace};
use hardpan_quantity::{Dimension, Quantity, UnitSystem, units_of};

/// Height of a band with its title.
pub(super) const HEIGHT: f64 = 40.0;

/// Room for a title over its width, where letters run wider than was reckoned.
const TITLE_ROOM: f64 = 1.12;

const DASHES: [&str; 4] = ["", "2.4 1", "0.6 0.8", "3 0.8 0.6 0.8"];

/// One figure of the runs.
pub(super) struct Figure {
    id: &'static str,
    name: &'static str,
    /// Its kind, and the unit that it is shown in.
    unit: fn(UnitSystem) -> (Dimension, &'static str),
    value: fn(&RunPoint) -> f64,
}

/// Ground speed.
pub(super) const SPEED: Figure = Figure {
    id: "speed",
    name: "Ground speed",
    unit: |_| (Dimension::Speed, "kt"),
    value: |point| point.ground_speed.si(),
};

/// Thrust; reverse thrust that is counted is below nought.
pub(super) const THRUST: Figure = Figure {
    id: "thrust",
    name: "Thrust of all engines, reverse below 0",
    unit: force,
    value: |point| point.thrust.si(),
};

/// Drag of the wheels over their load.
pub(super) const FRICTION: Figure = Figure {
    id: "friction",
    name: "Friction: drag of the wheels over their load",
    unit: |_| (Dimension::Coefficient, ""),
    value: |point| point.friction.si(),
};

/// Load that one main leg brings to the ground.
pub(super) const LOAD: Figure = Figure {
    id: "load",
    name: "Load on one main leg",
    unit: force,
    value: |point| point.main_leg_load.si(),
};

fn force(units: UnitSystem) -> (Dimension, &'static str) {
    match units {
        UnitSystem::Metric => (Dimension::Force, "kN"),
        UnitSystem::Imperial => (Dimension::Force, "lbf"),
    }
}

/// The band; returns the place below it.
pub(super) fn draw(canvas: &mut Canvas, frame: &Frame<'_>, top: f64, figure: &Figure) -> f64 {
    let (upper, lower) = (top + 8.0, top + HEIGHT - 2.0);
    let (kind, symbol) = (figure.unit)(frame.units);
    let title = match symbol {
        "" => figure.name.to_owned(),
        _ => format!("{}, {symbol}", figure.name),
    };
    let runs: Vec<(&str, Vec<(f64, f64)>)> = frame
        .sketch
        .runs
        .iter()
        .take(DASHES.len())
        .map(|(name, run)| (name.as_str(), points(run, figure)))
        .filter(|(_, points)| points.len() > 1)
        .collect();
    if runs.is_empty() {
        axis::nothing(canvas, frame, (upper, lower), &title);
        return top + HEIGHT;
    }
    let unit = units_of(kind).iter().find(|unit| unit.symbol == symbol);
    let unit = unit.map_or(1.0, |unit| unit.factor);
    let values = || runs.iter().flat_map(|(_, points)| points).map(|point| point.1);
    let (least, most) = (values().fold(0.0, f64::min), values().fold(0.0, f64::max));
    let room = 0.08 * (most - least);
    let low = if least < 0.0 { least - room } else { 0.0 };
    let scale = Scale::new((low, (most + room).max(low + 1e-3 * unit)), (lower, upper));
    axis::values(canvas, frame, &Band { title: &title, scale, unit });
    let clip = axis::clip(canvas, frame, figure.id, (upper, lower));
    if low < 0.0 {
        let (left, right) = frame.ends();
        canvas.line((left, scale.at(0.0)), (right, scale.at(0.0)), Pen::new(GREY, 0.2));
    }
    for ((_, points), dash) in runs.iter().zip(DASHES) {
        let path: Vec<(f64, f64)> =
            points.iter().map(|(s, v)| (frame.stations.at(*s), scale.at(*v))).collect();
        canvas.path(&path, Pen::new(INK, 0.5).dashed(dash), &clip);
    }
    key(canvas, frame, (upper, text_width(&title, 2.8, true)), &runs);
    top + HEIGHT
}

fn points(run: &RunTrace, figure: &Figure) -> Vec<(f64, f64)> {
    run.points
        .iter()
        .map(|point| (point.station.si(), (figure.value)(point)))
        .filter(|(station, value)| station.is_finite() && value.is_finite())
        .collect()
}

fn key(
    canvas: &mut Canvas,
    frame: &Frame<'_>,
    (upper, title): (f64, f64),
    runs: &[(&str, Vec<(f64, f64)>)],
) {
    let mut x = frame.ends().0 + (TITLE_ROOM * title + 6.0).max(32.0);
    let y = upper - 2.3;
    for ((name, _), dash) in runs.iter().zip(DASHES) {
        let name = fitted(&plain(name), 2.8, false, 40.0);
        canvas.line((x, y), (x + 9.0, y), Pen::new(INK, 0.5).dashed(dash));
        canvas.text((x + 10.5, y + 0.9), &name, Type::new(2.8, Anchor::Start));
        x += 16.0 + text_width(&name, 2.8, false);
    }
    let how = "read each run in its own direction";
    if x + text_width(how, 2.6, false) < frame.ends().1 {
        let style = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((frame.ends().1, y + 0.9), how, style);
    }
}
