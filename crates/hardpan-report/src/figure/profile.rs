//! Elevation of the centre line by station.

use super::axis::{self, Band};
use super::canvas::{Canvas, Pen};
use super::frame::Frame;
use super::palette::INK;
use super::scale::Scale;
use crate::measure::station_unit;
use hardpan_quantity::Quantity;

/// Height of the band with its title.
pub(super) const HEIGHT: f64 = 32.0;

/// The band; returns the place below it.
pub(super) fn draw(canvas: &mut Canvas, frame: &Frame<'_>, top: f64) -> f64 {
    let (unit_name, unit) = station_unit(frame.units);
    let title = format!("Elevation, {unit_name}");
    let (upper, lower) = (top + 8.0, top + HEIGHT - 2.0);
    let points: Vec<(f64, f64)> = frame
        .sketch
        .profile
        .iter()
        .map(|(station, elevation)| (station.si(), elevation.si()))
        .filter(|(station, elevation)| station.is_finite() && elevation.is_finite())
        .collect();
    if points.len() < 2 {
        axis::nothing(canvas, frame, (upper, lower), &title);
        return top + HEIGHT;
    }
    let low = points.iter().map(|point| point.1).fold(f64::INFINITY, f64::min);
    let high = points.iter().map(|point| point.1).fold(f64::NEG_INFINITY, f64::max);
    let room = ((high - low) * 0.08).max(0.25);
    let scale = Scale::new((low - room, high + room), (lower, upper));
    axis::values(canvas, frame, &Band { title: &title, scale, unit });
    let clip = axis::clip(canvas, frame, "profile", (upper, lower));
    let path: Vec<(f64, f64)> =
        points.iter().map(|(s, z)| (frame.stations.at(*s), scale.at(*z))).collect();
    canvas.path(&path, Pen::new(INK, 0.5), &clip);
    top + HEIGHT
}
