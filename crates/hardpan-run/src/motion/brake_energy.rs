//! Energy that each brake takes in a stop.

use crate::entry::{argument, kernel};
use crate::situation::Loaded;
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::Dimension;

const POUND: f64 = 0.453_592_37;
const KNOT: f64 = 1852.0 / 3600.0;
const FOOT_POUND: f64 = POUND * 9.806_65 * 0.3048;

/// Energy of one brake, J: the whole kinetic energy when the brakes come on,
/// drag not credited, or the work that the brakes did, if that is more, as on
/// a falling strip.
pub(crate) fn energy_per_brake(loaded: &Loaded, ground_speed: f64, work: f64) -> f64 {
    let kinetic = 0.5 * loaded.mass * ground_speed * ground_speed;
    kinetic.max(work) / loaded.model.braked_wheels
}

fn rule_energy(mass: f64, speed: f64, wheels: f64) -> f64 {
    let knots = speed / KNOT;
    0.0443 * (mass / POUND) * knots * knots / wheels * FOOT_POUND
}

fn kinetic_per_brake(mass: f64, speed: f64, wheels: f64) -> f64 {
    0.5 * mass * speed * speed / wheels
}

/// Brake energy by the rational formula of the rule.
pub(crate) static BRAKE_ENERGY_RULE: Formula = Formula {
    name: "brake-energy-rule",
    computes: "kinetic energy that one main wheel brake must absorb",
    expression: "KE = 0.0443 W V^2/N ft-lb, W in lb, V in kt",
    arguments: &[
        argument("mass", "W", Dimension::Mass, 100.0, 1e6),
        argument("ground_speed", "V", Dimension::Speed, 0.0, 150.0),
        argument("braked_wheels", "N", Dimension::Count, 1.0, 72.0),
    ],
    result: Dimension::Energy,
    source: Source::new("CFR-23-735", "(a)(1)", Tier::Published),
    scatter: "the printed constant is 0.07 % above the exact one; drag is not credited",
    evaluate: kernel!(rule_energy, mass, speed, wheels),
};

/// Kinetic energy shared by the brakes.
pub(crate) static KINETIC_ENERGY_PER_BRAKE: Formula = Formula {
    name: "kinetic-energy-per-brake",
    computes: "kinetic energy over the number of braked wheels",
    expression: "m V^2/(2 N)",
    arguments: &[
        argument("mass", "m", Dimension::Mass, 100.0, 1e6),
        argument("ground_speed", "V", Dimension::Speed, 0.0, 150.0),
        argument("braked_wheels", "N", Dimension::Count, 1.0, 72.0),
    ],
    result: Dimension::Energy,
    source: Source::new("TEXTBOOK-PHYSICS", "kinetic energy", Tier::Derived),
    scatter: "drag is not credited",
    evaluate: kernel!(kinetic_per_brake, mass, speed, wheels),
};
