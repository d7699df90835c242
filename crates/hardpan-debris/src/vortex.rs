//! Whether a vortex stands between the ground and an inlet.
//!
//! The empirical line of [NAKAYAMA-JONES-1999] (from memory) with a floor where
//! the captured streamtube no longer reaches the ground; bounds from inviscid
//! flow stand beside it. The onset differs on rising and falling power, so a
//! band around the line is neither on nor off.

use crate::error::{Error, within};
use crate::inlet_flow::{
    Air, corrected_flow, flow_of_velocity, inlet_velocity, part_thrust_flow_kernel,
};
use hardpan_model::Tier;
use hardpan_quantity::{Length, MassFlow, Quantity, Ratio, Speed, metres_per_second, ratio};

/// Below this risk index no vortex is expected. Judgement.
pub(crate) const OFF_BELOW: f64 = 0.8;
/// Above this risk index a vortex is expected. Judgement.
pub(crate) const ON_ABOVE: f64 = 1.25;
/// The weakest source behind every figure of this module but the bounds: the
/// line is from memory and the band is judgement.
pub const VORTEX_TIER: Tier = Tier::Judgement;

/// One inlet near the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inlet {
    /// Inner diameter.
    pub diameter: Length,
    /// Height of its centre over the ground, as it stands: with a flat tyre or
    /// a bottomed strut, less what that lowers it.
    pub height: Length,
    /// Air flow at static take-off thrust, standard sea level.
    pub take_off_flow: MassFlow,
}

/// Wind along and across the run; the tailwind counts as nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunWind {
    /// Headwind, negative for a tailwind. Give the least that is sure.
    pub headwind: Speed,
    /// Crosswind, either sign. Give the least that is sure.
    pub crosswind: Speed,
}

/// Whether a vortex is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum VortexState {
    /// None expected.
    Off,
    /// May be there: near the onset, which gusts and history move.
    Uncertain,
    /// Expected.
    On,
}

/// What must be reached for a thrust to be allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Assurance {
    /// The vortex is expected to be off.
    Off,
    /// The vortex is no longer expected to be on, but may be.
    NotOn,
}

impl Assurance {
    pub(crate) const fn index(self) -> f64 {
        match self {
            Self::Off => OFF_BELOW,
            Self::NotOn => ON_ABOVE,
        }
    }
}

impl VortexState {
    pub(crate) fn of_index(index: f64) -> Self {
        if index < OFF_BELOW {
            Self::Off
        } else if index <= ON_ABOVE {
            Self::Uncertain
        } else {
            Self::On
        }
    }
}

/// `24 H/D − 17`: the empirical line.
pub(crate) fn onset_line(height_ratio: f64) -> f64 {
    24.0 * height_ratio - 17.0
}

/// `4 (H/D)²`: the captured streamtube touches the ground.
pub(crate) fn streamtube_bound(height_ratio: f64) -> f64 {
    4.0 * height_ratio * height_ratio
}

/// `12 √3 (H/D)²`: a point sink with its image has a stagnation point.
pub(crate) fn point_sink_bound(height_ratio: f64) -> f64 {
    12.0 * 3.0_f64.sqrt() * height_ratio * height_ratio
}

/// The greater of line and streamtube bound.
pub(crate) fn critical_ratio_kernel(height_ratio: f64) -> f64 {
    onset_line(height_ratio).max(streamtube_bound(height_ratio))
}

/// `V_i / (24 H/D − 17)`: relative wind at which the line puts the end of the
/// vortex; NaN where the line has none.
pub(crate) fn blow_away_on_line(inlet_velocity: f64, height_ratio: f64) -> f64 {
    let line = onset_line(height_ratio);
    if line > 0.0 { inlet_velocity / line } else { f64::NAN }
}

/// Risk index: velocity ratio over the critical one. Headwind and motion are
/// held against the critical ratio; with the crosswind added they are held
/// against the bare line, which credits no more than was measured. The lower
/// index counts, so more wind never makes it higher.
pub(crate) fn risk_index_kernel(
    inlet_velocity: f64,
    height_ratio: f64,
    ahead: f64,
    across: f64,
) -> f64 {
    if inlet_velocity <= 0.0 {
        return 0.0;
    }
    let ahead = ahead.max(0.0);
    let index = |wind: f64, critical: f64| {
        if wind > 0.0 && critical > 0.0 {
            inlet_velocity / (wind * critical)
        } else {
            f64::INFINITY
        }
    };
    let along = index(ahead, critical_ratio_kernel(height_ratio));
    let oblique = index(ahead.hypot(across), onset_line(height_ratio));
    along.min(oblique)
}

/// Critical ratio of inlet velocity to relative wind for a height ratio.
///
/// # Errors
/// [`Error`] for a height ratio outside 0.5 to 5. The line was compiled for
/// about 0.7 to 3 (from memory).
pub fn critical_ratio(height: Length, diameter: Length) -> Result<Ratio, Error> {
    Ok(ratio(critical_ratio_kernel(height_ratio(height, diameter)?)))
}

pub(crate) fn height_ratio(height: Length, diameter: Length) -> Result<f64, Error> {
    let diameter = within("inlet diameter", diameter, 0.05..=6.0)?;
    let height = within("height of the inlet centre", height, 0.0..=30.0)?;
    within("height of the inlet centre over its diameter", ratio(height / diameter), 0.5..=5.0)
}

impl Inlet {
    /// Height of the centre over the inner diameter.
    ///
    /// # Errors
    /// [`Error`] outside 0.5 to 5.
    pub fn height_ratio(&self) -> Result<Ratio, Error> {
        height_ratio(self.height, self.diameter).map(ratio)
    }

    /// Mean velocity in the inlet at a share of the take-off thrust.
    ///
    /// # Errors
    /// [`Error`] for values out of range or a choked inlet.
    pub fn velocity(&self, share: Ratio, air: &Air) -> Result<Speed, Error> {
        let (pressure, temperature) = air.checked()?;
        let share = within("share of take-off thrust", share, 0.0..=1.1)?;
        let full = within("air mass flow", self.take_off_flow, 0.1..=5_000.0)?;
        let flow = part_thrust_flow_kernel(corrected_flow(full, pressure, temperature), share);
        inlet_velocity(MassFlow::from_si(flow), self.diameter, air)
    }

    /// Ratio of the velocity ratio to the critical one at a ground speed;
    /// infinite without any relative wind.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn risk_index(
        &self,
        share: Ratio,
        air: &Air,
        ground_speed: Speed,
        wind: &RunWind,
    ) -> Result<f64, Error> {
        self.risk_index_at(self.velocity(share, air)?, relative_wind(ground_speed, wind)?)
    }

    /// The same at a velocity in the inlet and a relative wind ahead and across.
    pub(crate) fn risk_index_at(
        &self,
        inside: Speed,
        (ahead, across): (f64, f64),
    ) -> Result<f64, Error> {
        let height = height_ratio(self.height, self.diameter)?;
        Ok(risk_index_kernel(inside.si(), height, ahead, across))
    }

    /// Whether a vortex stands under the inlet.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn vortex(
        &self,
        share: Ratio,
        air: &Air,
        ground_speed: Speed,
        wind: &RunWind,
    ) -> Result<VortexState, Error> {
        self.risk_index(share, air, ground_speed, wind).map(VortexState::of_index)
    }

    /// Greatest share of take-off thrust at a ground speed; no more than 100 %.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn greatest_share(
        &self,
        air: &Air,
        ground_speed: Speed,
        wind: &RunWind,
        assurance: Assurance,
    ) -> Result<Ratio, Error> {
        let (pressure, temperature) = air.checked()?;
        let (ahead, across) = relative_wind(ground_speed, wind)?;
        let height = height_ratio(self.height, self.diameter)?;
        let full = within("air mass flow", self.take_off_flow, 0.1..=5_000.0)?;
        let diameter = self.diameter.si();
        let unit = risk_index_kernel(1.0, height, ahead, across);
        let inside = assurance.index() / unit;
        let flow = flow_of_velocity(inside, diameter, pressure, temperature);
        let share = flow / corrected_flow(full, pressure, temperature);
        Ok(ratio((share * share).min(1.0)))
    }

    /// Lowest ground speed at which a share of take-off thrust may be set.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn lowest_speed_for(
        &self,
        share: Ratio,
        air: &Air,
        wind: &RunWind,
        assurance: Assurance,
    ) -> Result<Speed, Error> {
        let inside = self.velocity(share, air)?.si();
        let height = height_ratio(self.height, self.diameter)?;
        let (ahead, across) = relative_wind(metres_per_second(0.0), wind)?;
        let standing = risk_index_kernel(inside, height, ahead, across);
        if standing <= assurance.index() {
            return Ok(metres_per_second(0.0));
        }
        let along = inside / (assurance.index() * critical_ratio_kernel(height));
        let line = onset_line(height);
        let oblique = if line > 0.0 {
            let whole = inside / (assurance.index() * line);
            (whole * whole - across * across).max(0.0).sqrt()
        } else {
            f64::INFINITY
        };
        Ok(metres_per_second((along.min(oblique) - wind.headwind.si()).max(0.0)))
    }
}

/// Relative wind from ahead and from the side, m/s. What comes from behind is nothing.
pub(crate) fn relative_wind(ground_speed: Speed, wind: &RunWind) -> Result<(f64, f64), Error> {
    let ground_speed = within("ground speed", ground_speed, 0.0..=200.0)?;
    let headwind = within("headwind", wind.headwind, -60.0..=60.0)?;
    let across = within("crosswind", wind.crosswind, -60.0..=60.0)?;
    Ok(((ground_speed + headwind).max(0.0), across.abs()))
}
