//! Propellers over loose ground: slipstream by momentum theory, and the ground
//! vortex of an actuator disc, which outside its wake is a sink of twice the
//! induced speed.

use crate::error::{Error, within};
use crate::inlet_flow::Air;
use crate::stagnation::{WindSide, disc_strength};
use crate::vortex::{Assurance, RunWind, VortexState, relative_wind};
use hardpan_model::Tier;
use hardpan_quantity::{
    Force, Length, Power, Pressure, Quantity, Ratio, Speed, metres, metres_per_second, newtons,
    pascals,
};

/// The weakest source behind the propeller's vortex: an inviscid equivalence
/// derived here, with the judged band of the inlet vortex.
pub const PROPELLER_VORTEX_TIER: Tier = Tier::Judgement;

/// One propeller near the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Propeller {
    /// Diameter.
    pub diameter: Length,
    /// Height of its axis over the ground.
    pub height: Length,
}

/// What a propeller does to the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slipstream {
    /// Speed added at the disc.
    pub induced: Speed,
    /// Speed of the contracted slipstream behind.
    pub far_speed: Speed,
    /// Diameter of the contracted slipstream.
    pub far_diameter: Length,
    /// Thrust over disc area.
    pub disc_loading: Pressure,
}

/// `−V/2 + √(V²/4 + T/2ρA)`: induced speed at the disc.
pub(crate) fn induced_speed(thrust: f64, diameter: f64, speed: f64, density: f64) -> f64 {
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    -0.5 * speed + (0.25 * speed * speed + thrust / (2.0 * density * area)).sqrt()
}

/// `D √((V + v)/(V + 2v))`: diameter of the contracted slipstream.
pub(crate) fn contracted_diameter(thrust: f64, diameter: f64, speed: f64, density: f64) -> f64 {
    let induced = induced_speed(thrust, diameter, speed, density);
    if induced <= 0.0 {
        return diameter;
    }
    diameter * ((speed + induced) / (speed + 2.0 * induced)).sqrt()
}

/// `(2 ρ A (f P)²)^⅓`: static thrust of a shaft power with figure of merit f.
pub(crate) fn static_thrust_kernel(power: f64, merit: f64, diameter: f64, density: f64) -> f64 {
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    (2.0 * density * area * (merit * power) * (merit * power)).cbrt()
}

/// Wind at which `2 v/V` falls to the strength of the disc bound:
/// `√(T/2ρA / [(K/2)(1 + K/2)])`; NaN outside the heights of the bound.
pub(crate) fn blow_away_speed_kernel(thrust: f64, diameter: f64, height: f64, density: f64) -> f64 {
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    let half = 0.5 * disc_strength(height / diameter, WindSide::Ahead);
    (thrust / (2.0 * density * area) / (half * (1.0 + half))).sqrt()
}

/// `2ρA V² (K/2)(1 + K/2)`: thrust whose vortex a wind just blows away, the
/// inverse of the above; NaN outside the heights of the bound.
pub(crate) fn free_thrust_kernel(wind: f64, diameter: f64, height: f64, density: f64) -> f64 {
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    let half = 0.5 * disc_strength(height / diameter, WindSide::Ahead);
    2.0 * density * area * wind * wind * half * (1.0 + half)
}

/// The slipstream at a thrust and airspeed.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn slipstream(
    thrust: Force,
    diameter: Length,
    airspeed: Speed,
    air: &Air,
) -> Result<Slipstream, Error> {
    let thrust = within("thrust of one propeller", thrust, 0.0..=1e6)?;
    let across = within("propeller diameter", diameter, 0.3..=10.0)?;
    let speed = within("airspeed", airspeed, 0.0..=250.0)?;
    let density = air.density()?;
    let induced = induced_speed(thrust, across, speed, density);
    Ok(Slipstream {
        induced: metres_per_second(induced),
        far_speed: metres_per_second(speed + 2.0 * induced),
        far_diameter: metres(contracted_diameter(thrust, across, speed, density)),
        disc_loading: pascals(thrust / (std::f64::consts::FRAC_PI_4 * across * across)),
    })
}

/// Static thrust of a shaft power; the figure of merit is 65 % to 75 % for
/// common propellers (judgement).
///
/// # Errors
/// [`Error`] for values out of range.
pub fn static_thrust(
    power: Power,
    merit: Ratio,
    diameter: Length,
    air: &Air,
) -> Result<Force, Error> {
    let power = within("shaft power", power, 0.0..=20e6)?;
    let merit = within("figure of merit", merit, 0.3..=1.0)?;
    let diameter = within("propeller diameter", diameter, 0.3..=10.0)?;
    Ok(newtons(static_thrust_kernel(power, merit, diameter, air.density()?)))
}

impl Propeller {
    /// Relative wind from ahead below which a ground vortex is possible at a
    /// thrust. Inviscid: real vortices last to a somewhat higher speed.
    ///
    /// # Errors
    /// [`Error`] for values out of range; the height over the diameter must be
    /// 0.55 to 5.
    pub fn blow_away_speed(&self, thrust: Force, air: &Air) -> Result<Speed, Error> {
        let thrust = within("thrust of one propeller", thrust, 0.0..=1e6)?;
        let (diameter, height) = self.checked()?;
        let speed = blow_away_speed_kernel(thrust, diameter, height, air.density()?);
        Ok(metres_per_second(speed))
    }

    /// Lowest ground speed at which a thrust may be set with the assurance
    /// asked for: the blow-away speed over the risk index, less the headwind.
    ///
    /// # Errors
    /// As [`Self::blow_away_speed`].
    pub fn lowest_speed_for(
        &self,
        thrust: Force,
        air: &Air,
        wind: &RunWind,
        assurance: Assurance,
    ) -> Result<Speed, Error> {
        relative_wind(metres_per_second(0.0), wind)?;
        let needed = self.blow_away_speed(thrust, air)? / assurance.index();
        Ok((needed - wind.headwind).max(metres_per_second(0.0)))
    }

    /// Greatest thrust of the propeller at a ground speed with the assurance
    /// asked for; nothing without wind from ahead.
    ///
    /// # Errors
    /// As [`Self::blow_away_speed`].
    pub fn greatest_thrust(
        &self,
        air: &Air,
        ground_speed: Speed,
        wind: &RunWind,
        assurance: Assurance,
    ) -> Result<Force, Error> {
        let (ahead, _) = relative_wind(ground_speed, wind)?;
        let (diameter, height) = self.checked()?;
        let blown = assurance.index() * ahead;
        Ok(newtons(free_thrust_kernel(blown, diameter, height, air.density()?)))
    }

    fn checked(&self) -> Result<(f64, f64), Error> {
        let diameter = within("propeller diameter", self.diameter, 0.3..=10.0)?;
        let height = within("height of the propeller axis", self.height, 0.1..=30.0)?;
        within(
            "height of the propeller axis over its diameter",
            self.height / self.diameter,
            0.55..=5.0,
        )?;
        Ok((diameter, height))
    }

    /// Whether a ground vortex stands under the propeller. The crosswind is not
    /// credited.
    ///
    /// # Errors
    /// As [`Self::blow_away_speed`].
    pub fn vortex(
        &self,
        thrust: Force,
        air: &Air,
        ground_speed: Speed,
        wind: &RunWind,
    ) -> Result<VortexState, Error> {
        let (ahead, _) = relative_wind(ground_speed, wind)?;
        let critical = self.blow_away_speed(thrust, air)?.si();
        let index = match (critical > 0.0, ahead > 0.0) {
            (false, _) => 0.0,
            (true, false) => f64::INFINITY,
            (true, true) => critical / ahead,
        };
        Ok(VortexState::of_index(index))
    }
}
