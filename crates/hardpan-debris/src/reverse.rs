//! Reverse thrust: whether the engine breathes its own efflux and the stones in it.

use crate::error::{Error, number, within};
use hardpan_model::Tier;
use hardpan_quantity::{Angle, Dimension, Length, Ratio, Speed, knots, metres, metres_per_second};

/// The weakest source behind the cut-off speed: the ground constant is from
/// memory at even odds, the floor of 60 kt practice without a printed source.
pub const REVERSE_TIER: Tier = Tier::CommonPractice;

/// One lobe of reversed efflux.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Efflux {
    /// Diameter of a circle with the lobe's exit area.
    pub diameter: Length,
    /// Efflux speed.
    pub speed: Speed,
    /// Angle between the efflux and straight ahead.
    pub angle: Angle,
    /// Density of the efflux over that of the air.
    pub density_ratio: Ratio,
}

/// `k D (U cos β/V) √(ρ_j/ρ)`: how far a free jet reaches ahead against a stream.
pub(crate) fn penetration(
    k: f64,
    diameter: f64,
    speed: f64,
    angle: f64,
    stream: f64,
    density_ratio: f64,
) -> f64 {
    k * diameter * speed * angle.cos() / stream * density_ratio.sqrt()
}

/// `k_g D U/L`: speed below which a sheet along the ground reaches ahead by L.
pub(crate) fn cut_off_kernel(k: f64, diameter: f64, speed: f64, ahead: f64) -> f64 {
    k * diameter * speed / ahead
}

/// `D/2 √(V_i/V)`: radius of the captured streamtube.
pub(crate) fn captured_radius(inlet_diameter: f64, inlet_velocity: f64, stream: f64) -> f64 {
    0.5 * inlet_diameter * (inlet_velocity / stream).sqrt()
}

impl Efflux {
    fn checked(&self) -> Result<(f64, f64), Error> {
        Ok((
            within("diameter of the efflux", self.diameter, 0.01..=5.0)?,
            within("efflux speed", self.speed, 0.0..=700.0)?,
        ))
    }

    /// How far the efflux reaches ahead of its exit as a free jet, with the
    /// published constant of 2.5 (from memory; 2.4 to 2.8). An upper bound:
    /// real lobes leave sideways too.
    ///
    /// # Errors
    /// [`Error`] for values out of range, or an efflux not between 2 and 20
    /// times the airspeed.
    pub fn reach(&self, airspeed: Speed) -> Result<Length, Error> {
        let (diameter, speed) = self.checked()?;
        let stream = within("airspeed", airspeed, 0.1..=200.0)?;
        let angle = within("angle of the efflux", self.angle, 0.0..=std::f64::consts::FRAC_PI_2)?;
        let density =
            within("density of the efflux over the air's", self.density_ratio, 0.1..=2.0)?;
        number("efflux speed over airspeed", speed / stream, 2.0..=20.0, Dimension::Coefficient)?;
        Ok(metres(penetration(2.5, diameter, speed, angle, stream, density)))
    }

    /// Airspeed below which a sheet of efflux along the ground reaches from its
    /// strike point to the point under the lip, `ahead` of it. The constant is
    /// from memory at even odds: 0.5 to 1.0 over moving ground.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn cut_off(&self, ground_constant: f64, ahead: Length) -> Result<Speed, Error> {
        let (diameter, speed) = self.checked()?;
        let k = number("ground constant", ground_constant, 0.1..=2.0, Dimension::Coefficient)?;
        let ahead = within("distance to the lip", ahead, 0.1..=50.0)?;
        Ok(metres_per_second(cut_off_kernel(k, diameter, speed, ahead)))
    }

    /// Speed below which reverse thrust is to be off where nothing approved says
    /// more: the greater of 60 kt (practice without a source) and the cut-off
    /// with the largest ground constant.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn planning_cut_off(&self, ahead: Length) -> Result<Speed, Error> {
        Ok(self.cut_off(1.0, ahead)?.max(knots(60.0)))
    }
}

/// Radius of the stream that an inlet captures.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn captured_stream_radius(
    inlet_diameter: Length,
    inlet_velocity: Speed,
    airspeed: Speed,
) -> Result<Length, Error> {
    let diameter = within("inlet diameter", inlet_diameter, 0.05..=6.0)?;
    let inside = within("inlet velocity", inlet_velocity, 0.0..=330.0)?;
    let stream = within("airspeed", airspeed, 0.1..=200.0)?;
    Ok(metres(captured_radius(diameter, inside, stream)))
}
