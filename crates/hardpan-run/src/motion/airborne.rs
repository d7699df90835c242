//! From lift-off to the screen.
//!
//! The distance is the greater of two: by energy, the climb and the gain of
//! speed that the excess thrust can pay for; and by the circular arc of a
//! pull-up at 1.19 g, sharper than which nobody rotates. With an engine out the
//! first rules, with all engines on a light aeroplane the second.

use crate::Error;
use crate::engine::thrust::Thrust;
use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{
    Amount, Dimension, Force, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2 as GRAVITY, ratio,
};

/// Load factor of the pull-up. Source: [ANDERSON-1999] section 6.7.2.
const PULL_UP_LOAD: f64 = 1.19;

/// Forces in the air with some engines running, gear down or up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Climb {
    pub(crate) weight: f64,
    pub(crate) half_density_area: f64,
    /// Drag coefficient at zero lift with everything that hangs out.
    pub(crate) zero_lift: f64,
    pub(crate) induced: f64,
    pub(crate) thrust: Thrust,
    pub(crate) engines: u32,
}

/// What a climb gradient comes from, besides mass, wing, air and speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClimbForces {
    /// Thrust of the engines that run, at the speed.
    pub thrust: Force,
    /// Drag coefficient at zero lift, with all that hangs out.
    pub drag_zero_lift: Ratio,
    /// Induced drag coefficient over the square of the lift coefficient.
    pub induced_factor: Ratio,
}

impl Climb {
    /// What the gradient at a true airspeed comes from.
    pub(crate) fn forces(&self, airspeed: f64) -> ClimbForces {
        ClimbForces {
            thrust: Force::from_si(self.thrust.at(airspeed)),
            drag_zero_lift: ratio(self.zero_lift),
            induced_factor: ratio(self.induced),
        }
    }

    /// Thrust less drag over weight at a true airspeed.
    pub(crate) fn gradient(&self, airspeed: f64) -> f64 {
        let pressure_area = self.half_density_area * airspeed * airspeed;
        let lift = self.weight / pressure_area;
        let drag = pressure_area * (self.zero_lift + self.induced * lift * lift);
        (self.thrust.at(airspeed) - drag) / self.weight
    }
}

/// Whether the pull-up is bounded by an arc.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum PullUp {
    Arc,
    Unbounded,
}

/// The airborne part of a take-off, over the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Airborne {
    pub(crate) distance: f64,
    pub(crate) time: f64,
}

/// From lift-off at one true airspeed to the screen at another, over ground
/// that rises at `rise`.
pub(crate) fn airborne(
    climb: &Climb,
    (lift_off, at_screen): (f64, f64),
    screen: f64,
    rise: f64,
    headwind: f64,
    pull_up: PullUp,
) -> Result<Airborne, Error> {
    let mean = 0.5 * (lift_off + at_screen);
    let excess = climb.gradient(mean) - rise.max(0.0);
    if excess.is_nan() || excess <= 0.0 {
        return Err(Error::CannotClimb {
            engines: climb.engines,
            speed: Amount::new(Dimension::Speed, mean),
            gradient: Amount::new(Dimension::Ratio, excess),
        });
    }
    let by_energy = energy_distance(lift_off, at_screen, screen, excess);
    let through_air = match pull_up {
        PullUp::Arc => by_energy.max(arc_distance(mean, screen, PULL_UP_LOAD)),
        PullUp::Unbounded => by_energy,
    };
    let time = through_air / mean;
    let distance = (through_air - headwind * time).max(0.0);
    if distance.is_finite() {
        Ok(Airborne { distance, time })
    } else {
        Err(Error::NotFinite { quantity: "airborne distance" })
    }
}

/// Air distance in which the excess pays for height and speed.
fn energy_distance(lift_off: f64, at_screen: f64, screen: f64, excess: f64) -> f64 {
    ((at_screen * at_screen - lift_off * lift_off) / (2.0 * GRAVITY) + screen) / excess
}

/// Horizontal distance on a circular arc to a height.
pub(crate) fn arc_distance(speed: f64, screen: f64, load: f64) -> f64 {
    let radius = speed * speed / (GRAVITY * (load - 1.0));
    if screen >= radius { radius } else { (screen * (2.0 * radius - screen)).sqrt() }
}

/// Air distance by energy.
pub(crate) static AIRBORNE_ENERGY: Formula = Formula {
    name: "airborne-energy",
    computes: "air distance from lift-off to the screen by energy",
    expression: "s = [(V_s^2 - V_LOF^2)/2g + h]/[(T - D)/W]",
    arguments: &[
        argument("lift_off", "V_LOF", Dimension::Speed, 1.0, 200.0),
        argument("at_screen", "V_s", Dimension::Speed, 1.0, 200.0),
        argument("screen", "h", Dimension::Length, 0.0, 100.0),
        argument("excess", "(T - D)/W", Dimension::Ratio, 1e-4, 1.0),
    ],
    result: Dimension::Length,
    source: Source::new("TORENBEEK-1982", "energy method", Tier::Memory),
    scatter: "not stated",
    evaluate: kernel!(energy_distance, lift_off, at_screen, screen, excess),
};

/// Air distance on an arc.
pub(crate) static AIRBORNE_ARC: Formula = Formula {
    name: "airborne-arc",
    computes: "air distance from lift-off to the screen on a circular arc",
    expression: "R = V^2/[g (n - 1)]; s = R sin(acos(1 - h/R)); V = 1.15 Vs, n = 1.19",
    arguments: &[
        argument("airspeed", "V", Dimension::Speed, 1.0, 200.0),
        argument("screen", "h", Dimension::Length, 0.0, 100.0),
        coefficient("load_factor", "n", 1.01, 2.0),
    ],
    result: Dimension::Length,
    source: Source::new("ANDERSON-1999", "section 6.7.2", Tier::Published),
    scatter: "not stated",
    evaluate: kernel!(arc_distance, speed, screen, load),
};

/// Climb gradient.
pub(crate) static CLIMB_GRADIENT: Formula = Formula {
    name: "climb-gradient",
    computes: "climb gradient",
    expression: "(T - D)/W, W = m g, CL = 2W/(rho S V^2), D = rho V^2 S (CD0 + k CL^2)/2; g 9.80665 m/s2",
    arguments: &[
        argument("mass", "m", Dimension::Mass, 100.0, 1e6),
        argument("wing_area", "S", Dimension::Area, 1.0, 2000.0),
        argument("density", "rho", Dimension::Density, 0.3, 1.8),
        argument("airspeed", "V", Dimension::Speed, 1.0, 200.0),
        argument("thrust", "T", Dimension::Force, 0.0, 1e7),
        coefficient("drag_zero_lift", "CD0", 0.0, 0.5),
        coefficient("induced_factor", "k", 0.0, 0.5),
    ],
    result: Dimension::Ratio,
    source: Source::new("TEXTBOOK-PHYSICS", "steady climb", Tier::Derived),
    scatter: "as those of thrust and drag",
    evaluate: kernel!(gradient_of, mass, area, density, speed, thrust, zero_lift, induced),
};

fn gradient_of(
    mass: f64,
    area: f64,
    density: f64,
    speed: f64,
    thrust: f64,
    zero_lift: f64,
    induced: f64,
) -> f64 {
    let climb = Climb {
        weight: mass * GRAVITY,
        half_density_area: 0.5 * density * area,
        zero_lift,
        induced,
        thrust: Thrust::constant(thrust),
        engines: 1,
    };
    climb.gradient(speed)
}
