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

/// Force of one brake at the ground, N: the wheel neither gains nor loses speed of
/// turning, so that the moments about its axle balance.
pub(crate) fn force_of_torque(torque: f64, loaded_radius: f64) -> f64 {
    torque / loaded_radius
}

/// Force at the ground from the torque of a brake.
pub(crate) static BRAKE_FORCE_OF_TORQUE: Formula = Formula {
    name: "brake-force-of-torque",
    computes: "greatest force of one brake at the ground",
    expression: "F = T/r",
    arguments: &[
        argument("torque", "T", Dimension::Torque, 10.0, 1e6),
        argument("loaded_radius", "r", Dimension::Length, 0.05, 1.5),
    ],
    result: Dimension::Force,
    source: Source::new("TEXTBOOK-PHYSICS", "moments about the axle", Tier::Derived),
    scatter: "the axle stands lower in soft tyres, which gives more force; what turning wheels \
              take is not counted",
    evaluate: kernel!(force_of_torque, torque, loaded_radius),
};

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
