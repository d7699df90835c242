//! Vertical curves, slope changes and lines of sight.

use super::{argument, derived, kernel};
use crate::profile::Profile;
use crate::vertical::sight::{
    crest_radius, curve_length, distance_between_changes, sight_clearance,
};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Quantity, metres};

use hardpan_quantity::Dimension::{Length, Ratio};

const RADIUS: Argument = argument("radius", "R", Length, 100.0, 1e6);
const CHANGE: Argument = argument("slope_change", "Δg", Ratio, 0.0, 0.2);
const HEIGHT: Argument = argument("eye_height", "h", Length, 0.1, 20.0);

/// Least clearance of the lines of sight over a crest of `±grade` at the
/// middle of a runway, rounded by a vertical curve.
fn clearance_over_crest(length: f64, grade: f64, radius: f64, distance: f64, height: f64) -> f64 {
    let half_curve = grade * radius;
    let level = |x: f64| {
        let from = (x - 0.5 * length).abs();
        if from >= half_curve {
            -grade * from
        } else {
            -(from * from / radius + half_curve * grade) * 0.5
        }
    };
    let levels = (0..=length.min(20_000.0) as usize).map(|x| level(x as f64)).collect();
    let clearance = Profile::from_metres(0.0, 0.0, 1.0, levels)
        .and_then(|profile| sight_clearance(&profile, metres(distance), metres(height)));
    clearance.map_or(f64::NAN, Quantity::si)
}

/// Rate of change of slope over 30 m on a radius.
fn change_per_30_m(radius: f64) -> f64 {
    30.0 / radius
}

/// Crest radius for sight.
pub(crate) static CREST_RADIUS: Formula = Formula {
    name: "sight-crest-radius",
    computes: "least radius of a crest that hides nothing between two points",
    expression: "R = S²/(8 h)",
    arguments: &[argument("distance", "S", Length, 10.0, 10_000.0), HEIGHT],
    result: Length,
    source: derived("sagitta of a parabola"),
    scatter: "exact where both points are on the curve",
    evaluate: kernel!(crest_radius, distance, height),
};

/// Sight over a crest.
pub(crate) static SIGHT_CLEARANCE: Formula = Formula {
    name: "sight-clearance-over-crest",
    computes: "least clearance of the lines of sight over a rounded crest at the middle of a runway",
    expression: "h − greatest height over a chord of the sight distance",
    arguments: &[
        argument("length", "l", Length, 100.0, 10_000.0),
        argument("grade", "g", Ratio, 0.0, 0.05),
        RADIUS,
        argument("distance", "S", Length, 10.0, 10_000.0),
        HEIGHT,
    ],
    result: Length,
    source: derived("geometry of the crest"),
    scatter: "exact but for sampling",
    evaluate: kernel!(clearance_over_crest, length, grade, radius, distance, height),
};

/// Length of a vertical curve.
pub(crate) static CURVE_LENGTH: Formula = Formula {
    name: "vertical-curve-length",
    computes: "length of a vertical curve",
    expression: "R Δg",
    arguments: &[RADIUS, CHANGE],
    result: Length,
    source: derived("parabolic vertical curve"),
    scatter: "exact for small slopes",
    evaluate: kernel!(curve_length, radius, change),
};

/// Rate of change of slope.
pub(crate) static CHANGE_PER_30_M: Formula = Formula {
    name: "slope-change-per-30-m",
    computes: "rate of change of slope over 30 m on a vertical curve",
    expression: "30 m/R",
    arguments: &[RADIUS],
    result: Ratio,
    source: derived("parabolic vertical curve"),
    scatter: "exact for small slopes",
    evaluate: kernel!(change_per_30_m, radius),
};

/// Distance between slope changes.
pub(crate) static DISTANCE_BETWEEN_CHANGES: Formula = Formula {
    name: "distance-between-slope-changes",
    computes: "least distance between two slope changes",
    expression: "max(45 m, K Σ|Δg|)",
    arguments: &[
        argument("per_change", "K", Length, 1_000.0, 50_000.0),
        argument("total_change", "Σ|Δg|", Ratio, 0.0, 0.2),
    ],
    result: Length,
    source: Source::new("ICAO-ANNEX-14", "3.1.18", Tier::Memory),
    scatter: "a design rule",
    evaluate: kernel!(distance_between_changes, per_change, total),
};
