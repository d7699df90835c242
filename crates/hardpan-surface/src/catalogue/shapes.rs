//! The methods of this crate run over shapes whose answers are known.

use crate::chord::{greatest_deviation, mid_chord_offsets};
use crate::profile::Profile;
use crate::roughness_index::rectified_slopes;
use crate::single_event::single_events;
use crate::straightedge::greatest_gap;
use hardpan_quantity::{Length, Quantity, metres};
use std::f64::consts::TAU;

/// Most samples of a shape.
const MOST: f64 = 200_000.0;

fn shape(spacing: f64, length: f64, level: impl Fn(f64) -> f64) -> Option<Profile> {
    let count = (length / spacing).round();
    if !(2.0..=MOST).contains(&count) {
        return None;
    }
    let levels = (0..=count as usize).map(|index| level(index as f64 * spacing)).collect();
    Profile::from_metres(0.0, 0.0, spacing, levels).ok()
}

/// `h/2 (1 − cos 2π(x − a)/b)` over its base, level elsewhere.
fn cosine(x: f64, from: f64, base: f64, height: f64) -> f64 {
    if x < from || x > from + base {
        return 0.0;
    }
    0.5 * height * (1.0 - (TAU * (x - from) / base).cos())
}

fn triangle(x: f64, from: f64, base: f64, height: f64) -> f64 {
    height * (1.0 - ((x - from) / (0.5 * base) - 1.0).abs()).max(0.0)
}

/// The larger of greatest height and depth under a chord.
fn deviation(profile: Option<Profile>, chord: f64) -> f64 {
    let found = profile.and_then(|profile| greatest_deviation(&profile, metres(chord)).ok());
    found.map_or(f64::NAN, |(up, down)| up.max(down).si())
}

pub(crate) fn mid_chord_of_curve(radius: f64, chord: f64, spacing: f64) -> f64 {
    let curve = shape(spacing, 4.0 * chord, |x| x * x / (2.0 * radius));
    let offsets = curve.and_then(|curve| mid_chord_offsets(&curve, metres(chord)).ok());
    let depth = |offsets: Vec<(Length, Length)>| {
        offsets.iter().fold(0.0, |most: f64, (_, offset)| most.max(-offset.si()))
    };
    offsets.map_or(f64::NAN, depth)
}

pub(crate) fn chord_over_cosine(height: f64, base: f64, chord: f64, spacing: f64) -> f64 {
    let side = (1.5 * chord / spacing).ceil() * spacing;
    deviation(shape(spacing, base + 2.0 * side, |x| cosine(x, side, base, height)), chord)
}

pub(crate) fn chord_over_sine(amplitude: f64, wavelength: f64, chord: f64, spacing: f64) -> f64 {
    let length = 8.0 * wavelength + 3.0 * chord;
    deviation(shape(spacing, length, |x| amplitude * (TAU * x / wavelength).sin()), chord)
}

pub(crate) fn chord_over_triangle(height: f64, base: f64, chord: f64, spacing: f64) -> f64 {
    let side = (1.5 * chord / spacing).ceil() * spacing;
    deviation(shape(spacing, base + 2.0 * side, |x| triangle(x, side, base, height)), chord)
}

fn gap(profile: Option<Profile>, edge: f64) -> f64 {
    let found = profile.and_then(|profile| greatest_gap(&profile, metres(edge)).ok());
    found.map_or(f64::NAN, Length::si)
}

pub(crate) fn straightedge_over_triangle(height: f64, base: f64, edge: f64, spacing: f64) -> f64 {
    let side = (1.5 * edge / spacing).ceil() * spacing;
    gap(shape(spacing, base + 2.0 * side, |x| triangle(x, side, base, height)), edge)
}

pub(crate) fn straightedge_over_sine(
    amplitude: f64,
    wavelength: f64,
    edge: f64,
    spacing: f64,
) -> f64 {
    let length = 8.0 * wavelength + 3.0 * edge;
    gap(shape(spacing, length, |x| amplitude * (TAU * x / wavelength).sin()), edge)
}

/// The worst single irregularity of a cosine bump from 150 m in 400 m: ratio,
/// height, length, first station and length of the edge by `which`, 1 to 5.
pub(crate) fn single_event_of_cosine(height: f64, base: f64, spacing: f64, which: f64) -> f64 {
    single(spacing, |x| cosine(x, 150.0, base, height), which)
}

/// Likewise of a ramp that rises from 150 m and stays up.
pub(crate) fn single_event_of_ramp(height: f64, base: f64, spacing: f64, which: f64) -> f64 {
    single(spacing, |x| height * ((x - 150.0) / base).clamp(0.0, 1.0), which)
}

/// Likewise of a step at 150 m.
pub(crate) fn single_event_of_step(height: f64, spacing: f64, which: f64) -> f64 {
    single(spacing, |x| if x >= 150.0 { height } else { 0.0 }, which)
}

fn single(spacing: f64, level: impl Fn(f64) -> f64, which: f64) -> f64 {
    let profile = if spacing >= 0.25 { shape(spacing, 400.0, level) } else { None };
    let events = profile.and_then(|profile| single_events(&profile, metres(120.0), 1).ok());
    let Some(event) = events.and_then(|events| events.first().copied()) else {
        return f64::NAN;
    };
    match which {
        1.0 => event.ratio.si(),
        2.0 => event.height.si(),
        3.0 => event.length.si(),
        4.0 => event.edge_from.si(),
        5.0 => event.edge_length.si(),
        _ => f64::NAN,
    }
}

/// Roughness index of a sine: mean over 1 000 m after 200 m of lead-in.
pub(crate) fn index_of_sine(amplitude: f64, wavelength: f64, spacing: f64) -> f64 {
    let Some(sine) = shape(spacing, 1_210.0, |x| amplitude * (TAU * x / wavelength).sin()) else {
        return f64::NAN;
    };
    let rectified = rectified_slopes(sine.elevations_m(), spacing);
    let (from, to) = ((200.0 / spacing) as usize, (1_200.0 / spacing) as usize);
    let part = rectified.get(from..to).unwrap_or(&[]);
    part.iter().sum::<f64>() / part.len() as f64
}
