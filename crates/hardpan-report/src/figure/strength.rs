//! Strength available against strength needed by station.

use super::axis::{self, Band};
use super::canvas::{Anchor, Canvas, Pen, Type};
use super::frame::Frame;
use super::palette::{ALERT, GREY, INK, fill};
use super::scale::Scale;
use hardpan_assess::{SketchMarkKind, StrengthSample};
use hardpan_quantity::Quantity;

/// Height of the band with its title.
pub(super) const HEIGHT: f64 = 40.0;

const TITLE: &str = "Bearing ratio, %";

/// Station, available, needed.
type Known = (f64, Option<f64>, Option<f64>);
type Value = fn(&Known) -> Option<f64>;

/// The band; returns the place below it.
pub(super) fn draw(canvas: &mut Canvas, frame: &Frame<'_>, top: f64) -> f64 {
    let (upper, lower) = (top + 8.0, top + HEIGHT - 2.0);
    let samples: Vec<Known> = frame.sketch.strength.iter().filter_map(known).collect();
    if samples.iter().all(|(_, available, needed)| available.is_none() && needed.is_none()) {
        axis::nothing(canvas, frame, (upper, lower), TITLE);
        return top + HEIGHT;
    }
    let (ceiling, cut) = ceiling(&samples);
    let scale = Scale::new((0.0, ceiling), (lower, upper));
    axis::values(canvas, frame, &Band { title: TITLE, scale, unit: 1.0 });
    let clip = axis::clip(canvas, frame, "strength", (upper, lower));
    gaps(canvas, frame, &samples, (upper, lower));
    for shape in deficits(&samples) {
        let shape: Vec<(f64, f64)> =
            shape.iter().map(|(s, v)| (frame.stations.at(*s), scale.at(*v))).collect();
        canvas.area(&shape, &format!("url(#{}-deficit)", frame.prefix()), &clip);
    }
    let lines: [(Value, Pen); 2] = [
        (|sample| sample.1, Pen::new(INK, 0.55)),
        (|sample| sample.2, Pen::new(ALERT, 0.55).dashed("2 1")),
    ];
    for (value, pen) in lines {
        for part in unbroken(&samples, value) {
            let path: Vec<(f64, f64)> =
                part.iter().map(|(s, v)| (frame.stations.at(*s), scale.at(*v))).collect();
            canvas.path(&path, pen, &clip);
        }
    }
    key(canvas, frame, upper, cut.then_some(ceiling));
    top + HEIGHT
}

fn known(sample: &StrengthSample) -> Option<Known> {
    let finite = |value: f64| value.is_finite().then_some(value);
    let station = finite(sample.station.si())?;
    let value = |ratio: Option<hardpan_quantity::BearingRatio>| ratio.and_then(|r| finite(r.si()));
    Some((station, value(sample.available), value(sample.needed)))
}

/// Top of the axis, and whether stronger ground goes beyond it: what matters
/// lies around the strength needed.
fn ceiling(samples: &[Known]) -> (f64, bool) {
    let largest = |value: Value| samples.iter().filter_map(value).fold(0.0_f64, f64::max);
    let (available, needed) = (largest(|s| s.1), largest(|s| s.2));
    let shown = if needed > 0.0 { available.min(needed * 3.0) } else { available };
    let top = (shown.max(needed) * 1.08).max(1.0);
    (top, available > top)
}

fn unbroken(samples: &[Known], value: Value) -> Vec<Vec<(f64, f64)>> {
    let mut parts: Vec<Vec<(f64, f64)>> = vec![Vec::new()];
    for sample in samples {
        match (value(sample), parts.last_mut()) {
            (Some(value), Some(part)) => part.push((sample.0, value)),
            _ => parts.push(Vec::new()),
        }
    }
    parts.retain(|part| part.len() > 1);
    parts
}

/// Outlines between the two lines where less is available than needed; they
/// end where the lines cross.
fn deficits(samples: &[Known]) -> Vec<Vec<(f64, f64)>> {
    let mut shapes = Vec::new();
    for pair in samples.windows(2) {
        let [(s0, Some(a0), Some(n0)), (s1, Some(a1), Some(n1))] = pair else { continue };
        let (d0, d1) = (n0 - a0, n1 - a1);
        let share = d0 / (d0 - d1);
        let (s, v) = (s0 + share * (s1 - s0), a0 + share * (a1 - a0));
        match (d0 > 0.0, d1 > 0.0) {
            (true, true) => shapes.push(vec![(*s0, *a0), (*s0, *n0), (*s1, *n1), (*s1, *a1)]),
            (true, false) => shapes.push(vec![(*s0, *a0), (*s0, *n0), (s, v)]),
            (false, true) => shapes.push(vec![(s, v), (*s1, *n1), (*s1, *a1)]),
            (false, false) => {}
        }
    }
    shapes
}

/// Stretches without a known strength.
fn gaps(canvas: &mut Canvas, frame: &Frame<'_>, samples: &[Known], y: (f64, f64)) {
    let pattern = fill(frame.prefix(), SketchMarkKind::Unknown);
    let mut start: Option<f64> = None;
    let mut last_known = frame.stations.values().0;
    let end = (frame.stations.values().1, Some(0.0), None);
    for (station, available, _) in samples.iter().chain([&end]) {
        match (available, start) {
            (None, None) => start = Some(last_known),
            (Some(_), Some(from)) => {
                let x = (frame.stations.within(from), frame.stations.within(*station));
                canvas.rectangle((x.0, y.0), (x.1 - x.0, y.1 - y.0), &pattern, None);
                start = None;
            }
            _ => {}
        }
        last_known = *station;
    }
}

fn key(canvas: &mut Canvas, frame: &Frame<'_>, upper: f64, cut: Option<f64>) {
    let y = upper - 2.3;
    let mut x = frame.ends().0 + 32.0;
    let how = Type::new(2.8, Anchor::Start);
    canvas.line((x, y), (x + 9.0, y), Pen::new(INK, 0.55));
    canvas.text((x + 10.5, y + 0.9), "available", how);
    x += 30.0;
    canvas.line((x, y), (x + 9.0, y), Pen::new(ALERT, 0.55).dashed("2 1"));
    canvas.text((x + 10.5, y + 0.9), "needed", how);
    x += 28.0;
    canvas.rectangle((x, y - 1.3), (8.0, 2.8), &format!("url(#{}-deficit)", frame.prefix()), None);
    canvas.text((x + 9.5, y + 0.9), "too weak", how);
    x += 30.0;
    canvas.rectangle(
        (x, y - 1.3),
        (8.0, 2.8),
        &fill(frame.prefix(), SketchMarkKind::Unknown),
        Some(Pen::new(GREY, 0.2)),
    );
    canvas.text((x + 9.5, y + 0.9), "not known", how);
    if cut.is_some() {
        let how = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((frame.ends().1, y + 0.9), "stronger ground goes beyond the top", how);
    }
}
