//! One-line estimates of field length: a plausibility check beside the runs,
//! never an answer.

use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Dimension, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};

const FOOT: f64 = 0.3048;
const POUND_FORCE: f64 = 0.453_592_37 * GRAVITY;
const PSF: f64 = POUND_FORCE / (FOOT * FOOT);
const KNOT: f64 = 1852.0 / 3600.0;
const HORSEPOWER: f64 = 550.0 * POUND_FORCE * FOOT;

fn take_off_parameter(weight: f64, area: f64, sigma: f64, lift: f64, thrust: f64) -> f64 {
    37.5 * (weight / area / PSF) / (sigma * lift * thrust / weight) * FOOT
}

fn landing_parameter(weight: f64, area: f64, sigma: f64, lift: f64, air: f64) -> f64 {
    80.0 * (weight / area / PSF) / (sigma * lift) * FOOT + air
}

fn landing_field(approach: f64) -> f64 {
    let knots = approach / KNOT;
    0.3 * knots * knots * FOOT
}

fn jet_mean_thrust(static_thrust: f64, bypass: f64) -> f64 {
    0.75 * static_thrust * (5.0 + bypass) / (4.0 + bypass)
}

fn propeller_mean_thrust(power: f64, sigma: f64, engines: f64, diameter: f64) -> f64 {
    let (horsepower, feet) = (power / HORSEPOWER, diameter / FOOT);
    5.75 * horsepower * (sigma * engines * feet * feet / horsepower).cbrt() * POUND_FORCE
}

#[expect(clippy::too_many_arguments, reason = "one for each argument of the formula")]
fn balanced_field(
    weight: f64,
    area: f64,
    density: f64,
    gravity: f64,
    climb_lift: f64,
    screen: f64,
    mean_thrust: f64,
    friction: f64,
    excess_gradient: f64,
    sigma: f64,
) -> f64 {
    let loading = weight / area / (density * gravity * climb_lift);
    0.863 / (1.0 + 2.3 * excess_gradient)
        * (loading + screen)
        * (1.0 / (mean_thrust / weight - friction) + 2.7)
        + 655.0 * FOOT / sigma.sqrt()
}

const WEIGHT: Argument = argument("weight", "W", Dimension::Force, 1e3, 1e7);
const AREA: Argument = argument("wing_area", "S", Dimension::Area, 1.0, 2000.0);
const SIGMA: Argument = coefficient("density_ratio", "sigma", 0.3, 1.3);
const LIFT: Argument = coefficient("lift_maximum", "CL", 0.5, 5.0);

/// Take-off field length from the take-off parameter.
pub(crate) static TAKE_OFF_PARAMETER: Formula = Formula {
    name: "take-off-field-parameter",
    computes: "take-off field length of a large jet",
    expression: "s = 37.5 (W/S)/(sigma CLmax T/W), ft and lb/ft2",
    arguments: &[WEIGHT, AREA, SIGMA, LIFT, argument("thrust", "T", Dimension::Force, 1e2, 1e7)],
    result: Dimension::Length,
    source: Source::new("ROSKAM-1985", "take-off sizing, large aeroplanes", Tier::Secondary),
    scatter: "15 % and more between types; paved runways",
    evaluate: kernel!(take_off_parameter, weight, area, sigma, lift, thrust),
};

/// Landing distance from wing loading.
pub(crate) static LANDING_PARAMETER: Formula = Formula {
    name: "landing-distance-parameter",
    computes: "landing distance without factor",
    expression: "s = 80 (W/S)/(sigma CLmax) + Sa, ft and lb/ft2; Sa 1000, 600 or 450 ft",
    arguments: &[
        WEIGHT,
        AREA,
        SIGMA,
        LIFT,
        argument("air_distance", "Sa", Dimension::Length, 0.0, 1000.0),
    ],
    result: Dimension::Length,
    source: Source::new("RAYMER-2018", "eq. 5.11", Tier::Secondary),
    scatter: "15 % and more between types; paved runways",
    evaluate: kernel!(landing_parameter, weight, area, sigma, lift, air),
};

/// Landing field length from approach speed.
pub(crate) static LANDING_FIELD_FROM_APPROACH: Formula = Formula {
    name: "landing-field-from-approach",
    computes: "landing field length, factor included, from approach speed",
    expression: "s = 0.3 Va^2, ft and kt",
    arguments: &[argument("approach_speed", "Va", Dimension::Speed, 20.0, 100.0)],
    result: Dimension::Length,
    source: Source::new("LOFTIN-1980", "landing field correlation", Tier::Secondary),
    scatter: "15 % and more between types; paved runways",
    evaluate: kernel!(landing_field, approach),
};

/// Mean take-off thrust of a jet.
pub(crate) static JET_MEAN_THRUST: Formula = Formula {
    name: "jet-mean-thrust",
    computes: "mean thrust of a turbofan over the take-off",
    expression: "T = 0.75 T0 (5 + B)/(4 + B)",
    arguments: &[
        argument("static_thrust", "T0", Dimension::Force, 1e2, 1e7),
        coefficient("bypass_ratio", "B", 0.0, 15.0),
    ],
    result: Dimension::Force,
    source: Source::new("TORENBEEK-1982", "mean take-off thrust", Tier::Memory),
    scatter: "a few per cent",
    evaluate: kernel!(jet_mean_thrust, thrust, bypass),
};

/// Mean take-off thrust of propellers.
pub(crate) static PROPELLER_MEAN_THRUST: Formula = Formula {
    name: "propeller-mean-thrust",
    computes: "mean thrust of all propellers over the take-off",
    expression: "T = 5.75 P [sigma N D^2/P]^(1/3), lbf, hp, ft",
    arguments: &[
        argument("shaft_power", "P", Dimension::Power, 1e4, 1e8),
        SIGMA,
        argument("engines", "N", Dimension::Count, 1.0, 8.0),
        argument("diameter", "D", Dimension::Length, 0.5, 10.0),
    ],
    result: Dimension::Force,
    source: Source::new("RAYMER-2018", "eq. 17.113, mean propeller thrust", Tier::Secondary),
    scatter: "a few per cent",
    evaluate: kernel!(propeller_mean_thrust, power, sigma, engines, diameter),
};

/// Balanced field length in one line.
pub(crate) static TORENBEEK_BALANCED_FIELD: Formula = Formula {
    name: "torenbeek-balanced-field",
    computes: "balanced field length in one line",
    expression: "BFL = 0.863/(1 + 2.3 G) [(W/S)/(rho g CL) + h] [1/(T/W - U) + 2.7] + \
        655 ft/sqrt(sigma); U = 0.01 CLmax + 0.02; CL at 1.2 Vs; G = gamma - 0.024, 0.027, 0.030",
    arguments: &[
        WEIGHT,
        AREA,
        argument("density", "rho", Dimension::Density, 0.3, 1.8),
        argument("gravity", "g", Dimension::Acceleration, 9.7, 9.9),
        coefficient("climb_lift", "CL", 0.3, 4.0),
        argument("screen", "h", Dimension::Length, 0.0, 100.0),
        argument("mean_thrust", "T", Dimension::Force, 1e2, 1e7),
        coefficient("friction", "U", 0.0, 0.3),
        coefficient("excess_gradient", "G", -0.05, 0.3),
        SIGMA,
    ],
    result: Dimension::Length,
    source: Source::new("TORENBEEK-1982", "as Raymer eq. 17.113", Tier::Secondary),
    scatter: "10 % and more between types; paved runways, braking not in it",
    evaluate: kernel!(
        balanced_field,
        weight,
        area,
        density,
        gravity,
        climb_lift,
        screen,
        mean_thrust,
        friction,
        excess_gradient,
        sigma
    ),
};
