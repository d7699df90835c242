//! Take-off and landing rolls of textbooks, with their own means and rounding.
//! They are compared with, never used for, an answer.

use crate::entry::{argument, coefficient, kernel};
use crate::motion::polar::{GEAR_FLAP_DRAG, ground_effect};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

/// Parasite drag, its part with lift squared, and induced drag in ground
/// effect, less what the lift takes off the wheels.
fn drag_less_relief(
    drags: [f64; 3],
    (area, span, efficiency, height): (f64, f64, f64, f64),
    lift: f64,
    friction: f64,
) -> f64 {
    let [zero_lift, gear, viscous] = drags;
    let aspect = span * span / area;
    let induced = ground_effect(height, span) / (PI * efficiency * aspect);
    zero_lift + gear + (viscous + induced) * lift * lift - friction * lift
}

#[expect(clippy::too_many_arguments, reason = "one for each argument of the formula")]
fn anderson_roll(
    weight: f64,
    area: f64,
    span: f64,
    efficiency: f64,
    height: f64,
    density: f64,
    gravity: f64,
    zero_lift: f64,
    viscous: f64,
    flap_factor: f64,
    lift: f64,
    friction: f64,
    static_excess: f64,
    speed: f64,
    free_time: f64,
) -> f64 {
    let gear = (GEAR_FLAP_DRAG.evaluate)(&[weight, area, flap_factor, weight / gravity]);
    let wing = (area, span, efficiency, height);
    let net = drag_less_relief([zero_lift, gear, viscous], wing, lift, friction);
    let per_square = -density * area / (2.0 * weight) * net;
    let roll = (per_square * speed * speed / static_excess).ln_1p() / (2.0 * gravity * per_square);
    roll.abs() + free_time * speed
}

#[expect(clippy::too_many_arguments, reason = "one for each argument of the formula")]
fn mean_speed_roll(
    weight: f64,
    area: f64,
    span: f64,
    efficiency: f64,
    height: f64,
    density: f64,
    gravity: f64,
    zero_lift: f64,
    lift: f64,
    friction: f64,
    thrust: f64,
) -> f64 {
    let stall = (2.0 * weight / (density * area * lift)).sqrt();
    let mean = 0.7 * 1.2 * stall;
    let pressure_area = 0.5 * density * mean * mean * area;
    let drag = pressure_area
        * drag_less_relief([zero_lift, 0.0, 0.0], (area, span, efficiency, height), lift, 0.0);
    let resistance = drag + friction * (weight - pressure_area * lift);
    1.44 * weight * weight / (gravity * density * area * lift * (thrust - resistance))
}

const WEIGHT: Argument = argument("weight", "W", Dimension::Force, 100.0, 1e7);
const AREA: Argument = argument("wing_area", "S", Dimension::Area, 1.0, 2000.0);
const SPAN: Argument = argument("span", "b", Dimension::Length, 1.0, 120.0);
const EFFICIENCY: Argument = coefficient("span_efficiency", "e", 0.3, 1.2);
const HEIGHT: Argument = argument("wing_height", "h", Dimension::Length, 0.0, 30.0);
const DENSITY: Argument = argument("density", "rho", Dimension::Density, 0.3, 1.8);
const GRAVITY: Argument = argument("gravity", "g", Dimension::Acceleration, 9.7, 9.9);
const ZERO_LIFT: Argument = coefficient("drag_zero_lift", "CD0", 0.0, 0.5);
const VISCOUS: Argument = coefficient("viscous_factor", "k1", 0.0, 0.5);
const FLAP_FACTOR: Argument = coefficient("flap_factor", "K", 1e-5, 1e-4);
const LIFT: Argument = coefficient("lift_coefficient", "CL", 0.01, 4.0);
const FRICTION: Argument = coefficient("friction", "mu", 0.0, 1.0);
const SPEED: Argument = argument("speed", "V", Dimension::Speed, 1.0, 150.0);
const FREE_TIME: Argument = argument("free_time", "N", Dimension::Time, 0.0, 10.0);

/// Rolls of the textbook of 1999, take-off and landing.
pub(crate) static ANDERSON_ROLL: Formula = Formula {
    name: "anderson-roll",
    computes: "take-off roll with rotation, or landing roll with its free roll",
    expression: "s = [1/(2 g K_A)] ln(1 + K_A V^2/K_T) + N V; K_A = -(rho S/2W)[CD0 + dCD0 + \
        (k1 + G/(pi e AR)) CL^2 - mu CL]; K_T = T/W - mu, for the stop -mu",
    arguments: &[
        WEIGHT,
        AREA,
        SPAN,
        EFFICIENCY,
        HEIGHT,
        DENSITY,
        GRAVITY,
        ZERO_LIFT,
        VISCOUS,
        FLAP_FACTOR,
        LIFT,
        FRICTION,
        coefficient("static_excess", "K_T", -1.0, 1.0),
        SPEED,
        FREE_TIME,
    ],
    result: Dimension::Length,
    source: Source::new("ANDERSON-1999", "eqs 6.95 and 6.119", Tier::Published),
    scatter: "not stated",
    evaluate: kernel!(
        anderson_roll,
        weight,
        area,
        span,
        efficiency,
        height,
        density,
        gravity,
        zero_lift,
        viscous,
        flap_factor,
        lift,
        friction,
        static_excess,
        speed,
        free_time
    ),
};

/// Take-off roll of the introductory textbook.
pub(crate) static ANDERSON_MEAN_ROLL: Formula = Formula {
    name: "anderson-mean-roll",
    computes: "take-off roll with the forces that hold at 0.7 of lift-off speed",
    expression: "s = 1.44 W^2/{g rho S CLmax [T - (D + mu (W - L))]}, L and D at 0.7 x 1.2 Vs",
    arguments: &[
        WEIGHT,
        AREA,
        SPAN,
        EFFICIENCY,
        HEIGHT,
        DENSITY,
        GRAVITY,
        ZERO_LIFT,
        LIFT,
        FRICTION,
        argument("thrust", "T", Dimension::Force, 100.0, 1e7),
    ],
    result: Dimension::Length,
    source: Source::new("ANDERSON-FLIGHT", "section 6.15, example 6.17", Tier::Secondary),
    scatter: "about 1 % short of the integral",
    evaluate: kernel!(
        mean_speed_roll,
        weight,
        area,
        span,
        efficiency,
        height,
        density,
        gravity,
        zero_lift,
        lift,
        friction,
        thrust
    ),
};
