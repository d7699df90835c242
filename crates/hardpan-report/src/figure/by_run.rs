//! Ground speed of the runs by station.

use super::axis::{self, Band};
use super::canvas::{Anchor, Canvas, Pen, Type};
use super::frame::Frame;
use super::labels::{fitted, text_width};
use super::palette::{GREY, INK};
use super::scale::Scale;
use crate::wrap::plain;
use hardpan_model::RunTrace;
use hardpan_quantity::{Dimension, Quantity, units_of};

/// Height of the band with its title.
pub(super) const HEIGHT: f64 = 40.0;

const TITLE: &str = "Ground speed, kt";
const DASHES: [&str; 4] = ["", "2.4 1", "0.6 0.8", "3 0.8 0.6 0.8"];

/// The band; returns the place below it.
pub(super) fn draw(canvas: &mut Canvas, frame: &Frame<'_>, top: f64) -> f64 {
    let (upper, lower) = (top + 8.0, top + HEIGHT - 2.0);
    let runs: Vec<(&str, Vec<(f64, f64)>)> = frame
        .sketch
        .runs
        .iter()
        .take(DASHES.len())
        .map(|(name, run)| (name.as_str(), points(run)))
        .filter(|(_, points)| points.len() > 1)
        .collect();
    if runs.is_empty() {
        axis::nothing(canvas, frame, (upper, lower), TITLE);
        return top + HEIGHT;
    }
    let fastest = runs.iter().flat_map(|(_, points)| points).map(|p| p.1).fold(0.0, f64::max);
    let scale = Scale::new((0.0, (fastest * 1.08).max(1.0)), (lower, upper));
    axis::values(canvas, frame, &Band { title: TITLE, scale, unit: knot() });
    let clip = axis::clip(canvas, frame, "speed", (upper, lower));
    for ((_, points), dash) in runs.iter().zip(DASHES) {
        let path: Vec<(f64, f64)> =
            points.iter().map(|(s, v)| (frame.stations.at(*s), scale.at(*v))).collect();
        canvas.path(&path, Pen::new(INK, 0.5).dashed(dash), &clip);
    }
    key(canvas, frame, upper, &runs);
    top + HEIGHT
}

fn knot() -> f64 {
    let unit = units_of(Dimension::Speed).iter().find(|unit| unit.symbol == "kt");
    unit.map_or(1.0, |unit| unit.factor)
}

fn points(run: &RunTrace) -> Vec<(f64, f64)> {
    run.points
        .iter()
        .map(|point| (point.station.si(), point.ground_speed.si()))
        .filter(|(station, speed)| station.is_finite() && speed.is_finite())
        .collect()
}

fn key(canvas: &mut Canvas, frame: &Frame<'_>, upper: f64, runs: &[(&str, Vec<(f64, f64)>)]) {
    let mut x = frame.ends().0 + 32.0;
    let y = upper - 2.3;
    for ((name, _), dash) in runs.iter().zip(DASHES) {
        let name = fitted(&plain(name), 2.8, false, 40.0);
        canvas.line((x, y), (x + 9.0, y), Pen::new(INK, 0.5).dashed(dash));
        canvas.text((x + 10.5, y + 0.9), &name, Type::new(2.8, Anchor::Start));
        x += 16.0 + text_width(&name, 2.8, false);
    }
    let how = Type::new(2.6, Anchor::End).coloured(GREY);
    canvas.text((frame.ends().1, y + 0.9), "read each run in its own direction", how);
}
