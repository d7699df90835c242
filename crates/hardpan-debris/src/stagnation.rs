//! Inviscid bounds on the onset of a ground vortex: when the flow toward the
//! inlet leaves a point of rest on the ground. Slow air near the ground comes
//! to rest earlier, so the real onset lies below the upper bounds.

use crate::error::{Error, number, within};
use crate::vortex::{height_ratio, point_sink_bound, streamtube_bound};
use hardpan_quantity::{Dimension, Length, Ratio, Speed, metres_per_second, ratio};

/// Height ratio, then the ratio of sink strength to relative wind at the first
/// point of rest under a uniform sink disc and its image, wind from ahead.
pub(crate) const DISC_HEADWIND: [(f64, f64); 16] = [
    (0.55, 3.96),
    (0.60, 5.34),
    (0.65, 6.73),
    (0.70, 8.20),
    (0.75, 9.75),
    (0.80, 11.39),
    (0.90, 14.97),
    (1.00, 18.95),
    (1.10, 23.33),
    (1.20, 28.13),
    (1.30, 33.34),
    (1.50, 44.99),
    (1.75, 61.89),
    (2.00, 81.38),
    (2.50, 128.2),
    (3.00, 185.3),
];

/// Likewise, wind across the axis.
pub(crate) const DISC_CROSSWIND: [(f64, f64); 9] = [
    (0.60, 5.89),
    (0.70, 8.70),
    (0.80, 11.87),
    (1.00, 19.41),
    (1.20, 28.58),
    (1.50, 45.43),
    (2.00, 81.82),
    (2.50, 128.6),
    (3.00, 185.8),
];

/// Where the wind comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum WindSide {
    /// Along the inlet's axis, from ahead.
    Ahead,
    /// Across it.
    Across,
}

/// Straight in the logarithms of height and strength between rows; the point sink above
/// the last row; NaN below the first.
pub(crate) fn disc_strength(height_ratio: f64, side: WindSide) -> f64 {
    let table: &[(f64, f64)] = match side {
        WindSide::Ahead => &DISC_HEADWIND,
        WindSide::Across => &DISC_CROSSWIND,
    };
    if table.last().is_some_and(|row| height_ratio > row.0) {
        return point_sink_bound(height_ratio);
    }
    let found = table.windows(2).find_map(|pair| {
        let [(h0, k0), (h1, k1)] = pair else { return None };
        let share = (height_ratio / h0).ln() / (h1 / h0).ln();
        (0.0..=1.0).contains(&share).then(|| k0 * (k1 / k0).powf(share))
    });
    found.unwrap_or(f64::NAN)
}

/// The velocity ratio at which each bound puts the onset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// The captured streamtube touches the ground: the onset is not below this.
    pub streamtube: Ratio,
    /// Sink disc with its image, wind from ahead, the excess flow counted: `1 + K`.
    pub disc_ahead: Ratio,
    /// Sink disc with its image, wind across: `K`.
    pub disc_across: Ratio,
    /// Point sink with its image: the onset is not above this.
    pub point_sink: Ratio,
}

/// Bounds on the velocity ratio at onset.
///
/// # Errors
/// [`Error`] for a height ratio outside 0.6 to 5.
pub fn bounds(height: Length, diameter: Length) -> Result<Bounds, Error> {
    let height = height_ratio(height, diameter)?;
    number("height of the inlet centre over its diameter", height, 0.6..=5.0, Dimension::Ratio)?;
    Ok(Bounds {
        streamtube: ratio(streamtube_bound(height)),
        disc_ahead: ratio(1.0 + disc_strength(height, WindSide::Ahead)),
        disc_across: ratio(disc_strength(height, WindSide::Across)),
        point_sink: ratio(point_sink_bound(height)),
    })
}

/// `V_i (D/H)² / (12 √3)`: greatest speed on the ground toward a point sink.
pub(crate) fn ground_speed_of_sink(inlet_velocity: f64, height_ratio: f64) -> f64 {
    inlet_velocity / point_sink_bound(height_ratio)
}

/// Greatest air speed along the ground toward the inlet without a vortex, at
/// 0.71 of the inlet's height beside the point under it.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn ground_inflow(
    inlet_velocity: Speed,
    height: Length,
    diameter: Length,
) -> Result<Speed, Error> {
    let inside = within("inlet velocity", inlet_velocity, 0.0..=330.0)?;
    let height = height_ratio(height, diameter)?;
    Ok(metres_per_second(ground_speed_of_sink(inside, height)))
}

/// `√(2/3 ρ_s/ρ g d)`: tangential speed of a vortex core whose pressure deficit
/// lifts a sphere no larger than the core.
pub(crate) fn core_speed_to_lift(
    diameter: f64,
    stone_density: f64,
    air_density: f64,
    gravity: f64,
) -> f64 {
    (2.0 / 3.0 * stone_density / air_density * gravity * diameter).sqrt()
}

/// `min(1, 6.2 d/s) U_j`: speed of a blow-down jet where it meets the ground.
pub(crate) fn dissipator_ground_speed(nozzle: f64, jet_speed: f64, path: f64) -> f64 {
    jet_speed * (6.2 * nozzle / path).min(1.0)
}

/// Speed of a blow-down jet where it meets the ground, over the inflow that it
/// must overcome. From 1.5 to 2 is thought enough (judgement).
///
/// # Errors
/// [`Error`] for values out of range or no inflow.
pub fn dissipator_strength(
    nozzle: Length,
    jet_speed: Speed,
    path: Length,
    inflow: Speed,
) -> Result<Ratio, Error> {
    let nozzle = within("nozzle diameter", nozzle, 1e-4..=0.5)?;
    let jet = within("jet speed", jet_speed, 0.0..=700.0)?;
    let path = within("path of the jet", path, 1e-3..=20.0)?;
    let inflow = within("inflow along the ground", inflow, 0.01..=330.0)?;
    Ok(ratio(dissipator_ground_speed(nozzle, jet, path) / inflow))
}

/// Stones met while a vortex stands: loose stones for each square metre times
/// the width of the footprint times the ground rolled over.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn stones_met(
    loose_per_square_metre: f64,
    width: Length,
    rolled: Length,
) -> Result<f64, Error> {
    let loose = number(
        "loose stones on a square metre",
        loose_per_square_metre,
        0.0..=1e6,
        Dimension::Count,
    )?;
    let width = within("width of the footprint", width, 0.0..=20.0)?;
    let rolled = within("distance rolled", rolled, 0.0..=20_000.0)?;
    Ok(loose * width * rolled)
}
