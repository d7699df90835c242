//! Lift and drag coefficients on the ground and in the air.

use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Dimension, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};
use std::f64::consts::PI;

/// Induced drag near the ground over that out of its effect.
pub(crate) fn ground_effect(height: f64, span: f64) -> f64 {
    let ratio = 16.0 * height / span;
    ratio * ratio / (1.0 + ratio * ratio)
}

/// Drag polar of one flap setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Polar {
    /// At zero lift, gear up, spoilers in.
    pub(crate) zero_lift: f64,
    pub(crate) gear: f64,
    pub(crate) spoilers: f64,
    /// Factor of lift squared, out of ground effect.
    pub(crate) induced: f64,
    /// Part of it that the ground takes away during the roll.
    pub(crate) induced_lost: f64,
}

impl Polar {
    /// A polar from the figures of the file. The ground reduces only the
    /// induced drag of an ideal wing of that span; what the file's factor has
    /// beyond it is viscous and stays.
    pub(crate) fn new(drag: [f64; 4], area: f64, span: f64, height: f64) -> Self {
        let [zero_lift, gear, spoilers, induced] = drag;
        let ideal = (area / (PI * span * span)).min(induced);
        let induced_lost = ideal * (1.0 - ground_effect(height, span));
        Self { zero_lift, gear, spoilers, induced, induced_lost }
    }

    /// Rolling, gear down, spoilers in.
    pub(crate) fn rolling(&self, lift: f64) -> f64 {
        self.zero_lift + self.gear + (self.induced - self.induced_lost) * lift * lift
    }

    /// Rolling with the ground spoilers out.
    pub(crate) fn stopping(&self, lift: f64) -> f64 {
        self.rolling(lift) + self.spoilers
    }

    /// In the air, out of ground effect.
    pub(crate) fn airborne(&self, lift: f64, gear_down: bool) -> f64 {
        let gear = if gear_down { self.gear } else { 0.0 };
        self.zero_lift + gear + self.induced * lift * lift
    }
}

/// True airspeed at which a lift coefficient carries the weight.
pub(crate) fn speed_for_lift(mass: f64, area: f64, density: f64, lift: f64) -> f64 {
    (2.0 * mass * GRAVITY / (density * area * lift)).sqrt()
}

fn gear_flap_drag(weight: f64, area: f64, factor: f64, greatest_mass: f64) -> f64 {
    weight / area * factor * greatest_mass.powf(-0.215)
}

/// Induced drag in ground effect.
pub(crate) static GROUND_EFFECT: Formula = Formula {
    name: "ground-effect",
    computes: "induced drag near the ground over that far from it",
    expression: "G = (16 h/b)^2/[1 + (16 h/b)^2]",
    arguments: &[
        argument("wing_height", "h", Dimension::Length, 0.0, 100.0),
        argument("span", "b", Dimension::Length, 1.0, 120.0),
    ],
    result: Dimension::Coefficient,
    source: Source::new("ANDERSON-1999", "section 6.7.1, after McCormick", Tier::Published),
    scatter: "not stated",
    evaluate: kernel!(ground_effect, height, span),
};

/// Drag of gear and flaps.
pub(crate) static GEAR_FLAP_DRAG: Formula = Formula {
    name: "gear-flap-drag",
    computes: "zero-lift drag coefficient added by landing gear and flaps",
    expression: "(W/S) K m^-0.215, W/S in N/m2, m greatest mass in kg",
    arguments: &[
        argument("weight", "W", Dimension::Force, 1.0, 1e7),
        argument("wing_area", "S", Dimension::Area, 1.0, 2000.0),
        coefficient("flap_factor", "K", 1e-5, 1e-4),
        argument("greatest_mass", "m", Dimension::Mass, 100.0, 1e6),
    ],
    result: Dimension::Coefficient,
    source: Source::new("ANDERSON-1999", "eq. 6.93", Tier::Published),
    scatter: "not stated; K 5.81e-5 flaps up to 3.16e-5 flaps full",
    evaluate: kernel!(gear_flap_drag, weight, area, factor, mass),
};

/// Stall speed from the greatest lift coefficient.
pub(crate) static STALL_SPEED: Formula = Formula {
    name: "stall-speed",
    computes: "true airspeed at which a lift coefficient carries the weight",
    expression: "V = sqrt[2 m g/(rho S CL)]; g 9.80665 m/s2",
    arguments: &[
        argument("mass", "m", Dimension::Mass, 100.0, 1e6),
        argument("wing_area", "S", Dimension::Area, 1.0, 2000.0),
        argument("density", "rho", Dimension::Density, 0.3, 1.8),
        coefficient("lift_maximum", "CL", 0.1, 5.0),
    ],
    result: Dimension::Speed,
    source: Source::new("TEXTBOOK-PHYSICS", "lift equals weight", Tier::Derived),
    scatter: "as that of the lift coefficient, halved",
    evaluate: kernel!(speed_for_lift, mass, area, density, lift),
};
