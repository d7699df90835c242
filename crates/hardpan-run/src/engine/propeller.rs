//! Propeller thrust from shaft power.
//!
//! Three bounds, the least of which counts: a static limit at a stated figure
//! of merit, the power law `eta P / V`, and an actuator disc whose losses are
//! set so that it gives the aeroplane's own efficiency at lift-off. The disc
//! keeps the corner between the first two from being overstated.

use crate::entry::{argument, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

/// Static thrust over that of the ideal disc, the low end of the range 0.70 to
/// 0.85, so on the safe side. Source: [TEXTBOOK-PHYSICS], range from memory.
const STATIC_MERIT: f64 = 0.70;

/// All running propellers in the air of the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Propeller {
    running: f64,
    static_limit: f64,
    /// `2 rho A`, kg/m.
    disc: f64,
    /// Share of the shaft power that the disc turns into work, times the power.
    disc_power: f64,
    /// Efficiency times power.
    useful_power: f64,
    /// Airspeed below which the static limit rules.
    corner: f64,
}

impl Propeller {
    /// `running` propellers of a diameter on engines of a shaft power each,
    /// with an efficiency that holds at the lift-off airspeed.
    pub(crate) fn new(
        running: f64,
        power: f64,
        diameter: f64,
        density: f64,
        efficiency: f64,
        lift_off: f64,
    ) -> Self {
        let disc = 2.0 * density * PI * diameter * diameter / 4.0;
        let useful_power = efficiency * power;
        let at_lift_off = useful_power / lift_off;
        let induced = -0.5 * lift_off + (0.25 * lift_off * lift_off + at_lift_off / disc).sqrt();
        let disc_power = (at_lift_off * (lift_off + induced)).min(power);
        let static_limit = STATIC_MERIT * static_ideal(power, diameter, density);
        let mean = disc_power / static_limit;
        let corner = (mean - static_limit / (disc * mean)).max(0.0);
        Self { running, static_limit, disc, disc_power, useful_power, corner }
    }

    pub(crate) fn share(&self, share: f64) -> Self {
        Self { running: self.running * share, ..*self }
    }

    #[inline]
    pub(crate) fn thrust(&self, speed: f64) -> f64 {
        if speed <= self.corner {
            return self.running * self.static_limit;
        }
        let by_disc = disc_thrust(self.disc, self.disc_power, speed);
        self.running * by_disc.min(self.useful_power / speed).min(self.static_limit)
    }
}

/// Thrust of a disc of `2 rho A` that turns `power` into `T (V + u)`, where
/// `T = 2 rho A (V + u) u`; Newton from above, where it converges at every step.
fn disc_thrust(disc: f64, power: f64, speed: f64) -> f64 {
    let target = power / disc;
    let mut induced = target.cbrt().min(target / (speed * speed));
    for _ in 0..6 {
        let through = speed + induced;
        let excess = through * through * induced - target;
        let change = excess / (through * (through + 2.0 * induced));
        induced -= change;
        if change <= 1e-15 * induced {
            break;
        }
    }
    disc * (speed + induced) * induced
}

/// Static thrust of an ideal disc.
pub(crate) fn static_ideal(power: f64, diameter: f64, density: f64) -> f64 {
    (2.0 * density * PI * diameter * diameter / 4.0 * power * power).cbrt()
}

/// Static thrust that is counted on.
pub(crate) fn static_counted(power: f64, diameter: f64, density: f64) -> f64 {
    STATIC_MERIT * static_ideal(power, diameter, density)
}

fn one_propeller(
    power: f64,
    diameter: f64,
    density: f64,
    efficiency: f64,
    lift_off: f64,
    speed: f64,
) -> f64 {
    Propeller::new(1.0, power, diameter, density, efficiency, lift_off).thrust(speed)
}

const DISC: Source =
    Source::new("TEXTBOOK-PHYSICS", "momentum theory of the propeller", Tier::Derived);

/// Ideal static thrust of a propeller.
pub(crate) static PROPELLER_STATIC_IDEAL: Formula = Formula {
    name: "propeller-static-ideal",
    computes: "static thrust of an ideal propeller",
    expression: "T = (2 rho A P^2)^(1/3)",
    arguments: &[
        argument("shaft_power", "P", Dimension::Power, 1.0, 2e7),
        argument("diameter", "D", Dimension::Length, 0.5, 10.0),
        argument("density", "rho", Dimension::Density, 0.3, 1.8),
    ],
    result: Dimension::Force,
    source: DISC,
    scatter: "real propellers reach 0.70 to 0.85 of it",
    evaluate: kernel!(static_ideal, power, diameter, density),
};

/// Thrust of one propeller at speed.
pub(crate) static PROPELLER_THRUST: Formula = Formula {
    name: "propeller-thrust",
    computes: "thrust of one propeller at an airspeed",
    expression: "least of 0.70 (2 rho A P^2)^(1/3), eta P/V, and the disc T (V + u) = k P with \
        T = 2 rho A (V + u) u, k such that T = eta P/V at lift-off",
    arguments: &[
        argument("shaft_power", "P", Dimension::Power, 1.0, 2e7),
        argument("diameter", "D", Dimension::Length, 0.5, 10.0),
        argument("density", "rho", Dimension::Density, 0.3, 1.8),
        argument("efficiency", "eta", Dimension::Ratio, 0.3, 0.95),
        argument("lift_off_airspeed", "V_LOF", Dimension::Speed, 10.0, 150.0),
        argument("airspeed", "V", Dimension::Speed, 0.0, 150.0),
    ],
    result: Dimension::Force,
    source: DISC,
    scatter: "10 % between standstill and lift-off; exact at lift-off by construction",
    evaluate: kernel!(one_propeller, power, diameter, density, efficiency, lift_off, speed),
};
