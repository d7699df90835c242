//! Minima, factors and allowances of the rules, each with its paragraph.

use crate::entry::{argument, coefficient, kernel};
use hardpan_model::{FieldRule, Formula, Source, SurfaceState, Tier};
use hardpan_quantity::{Dimension, Ratio, ratio};

/// Take-off screen, 35 ft. Source: [CFR-25-113] (a).
pub(crate) const TAKE_OFF_SCREEN_M: f64 = 35.0 * 0.3048;
/// Take-off screen with one engine out on a wet runway, 15 ft.
/// Source: [CFR-25-113] (b)(2).
pub(crate) const WET_SCREEN_M: f64 = 15.0 * 0.3048;
/// Landing screen and screen of the all-engines rule, 50 ft.
/// Source: [CFR-25-125] (a); [CAT-POL-A] (b).
pub(crate) const FIFTY_FEET_M: f64 = 50.0 * 0.3048;
/// Time from engine failure to the first action. Source: [AC-25-7] from memory.
pub(crate) const FAILURE_TO_ACTION_S: f64 = 1.0;
/// Time at constant speed that is added at V1. Source: [CFR-25-109] (a)(1)(iv), (a)(2)(iii).
pub(crate) const ADDED_AT_DECISION_S: f64 = 2.0;
/// All-engine take-off distance factor. Source: [CFR-25-113] (a)(2).
pub(crate) const ALL_ENGINE_FACTOR: f64 = 1.15;
/// V2 over reference stall speed. Source: [CFR-25-107] (b)(1).
pub const SAFETY_OVER_STALL: f64 = 1.13;
/// V2 over minimum control speed in the air. Source: [CFR-25-107] (b)(3).
pub const SAFETY_OVER_CONTROL: f64 = 1.10;
/// VR over minimum control speed in the air. Source: [CFR-25-107] (e)(1)(ii).
pub const ROTATION_OVER_CONTROL: f64 = 1.05;
/// Lift-off speed over minimum unstick speed, all engines; the 1.05 asked for
/// with one engine out is kept with it.
/// Source: [CFR-25-107] (e)(1)(iv), the figure from memory.
pub const LIFT_OFF_OVER_UNSTICK: f64 = 1.10;
/// VREF over reference stall speed in landing flap. Source: [CFR-25-125] (b)(2)(i).
pub const REFERENCE_OVER_STALL: f64 = 1.23;
/// Factor on wet strips over the landing factor. Source: [CFR-121-195] (d).
const WET_LANDING_FACTOR: f64 = 1.15;

/// Factor on the all-engine distance to 50 ft where engine failure is not
/// accounted for: 1.33 with two engines, 1.25 with three, 1.18 with four.
/// With one engine, for which the rule has no figure, the greatest of them.
///
/// Source: [CAT-POL-A] (b).
#[must_use]
pub fn all_engines_rule_factor(engines: u32) -> f64 {
    match engines {
        0..=2 => 1.33,
        3 => 1.25,
        _ => 1.18,
    }
}

/// Least climb gradient with one engine out, gear down and gear up.
///
/// Source: [CFR-25-121] (a) and (b): positive, 0.3 %, 0.5 % and 2.4 %, 2.7 %, 3.0 %.
#[must_use]
pub fn engine_out_gradients(engines: u32) -> (Ratio, Ratio) {
    match engines {
        0..=2 => (ratio(0.0), ratio(0.024)),
        3 => (ratio(0.003), ratio(0.027)),
        _ => (ratio(0.005), ratio(0.030)),
    }
}

/// Least final take-off speed over the reference stall speed.
///
/// Source: [CFR-25-107] (g), from memory.
pub const FINAL_OVER_STALL: f64 = 1.18;

/// Least climb gradient of the final take-off segment.
///
/// Source: [CFR-25-121] (c), and [CFR-25-111] (c)(3) from 400 ft on: 1.2 %, 1.5 %, 1.7 %.
#[must_use]
pub fn final_climb_gradient(engines: u32) -> Ratio {
    match engines {
        0..=2 => ratio(0.012),
        3 => ratio(0.015),
        _ => ratio(0.017),
    }
}

/// Least climb gradient of a go-around with one engine out, gear up.
///
/// Source: [CFR-25-121] (d), from memory: 2.1 %, 2.4 %, 2.7 %.
#[must_use]
pub fn approach_climb_gradient(engines: u32) -> Ratio {
    match engines {
        0..=2 => ratio(0.021),
        3 => ratio(0.024),
        _ => ratio(0.027),
    }
}

/// Least climb gradient in landing configuration on all engines.
///
/// Source: [CFR-25-119] (a), from memory: 3.2 %.
#[must_use]
pub fn landing_climb_gradient() -> Ratio {
    ratio(0.032)
}

/// Gradient that the rule takes off the gross climb path.
///
/// Source: [CFR-25-115] (b), from memory: 0.8 %, 0.9 %, 1.0 %.
#[must_use]
pub fn net_gradient_reduction(engines: u32) -> Ratio {
    match engines {
        0..=2 => ratio(0.008),
        3 => ratio(0.009),
        _ => ratio(0.010),
    }
}

/// Factor from the landing distance to the distance that must be available;
/// none for a take-off rule. On anything but a dry strip the dispatch rules
/// take another 15 %, here on the distance of the day's own friction.
///
/// Source: [CFR-121-195] (b) and (d), [CAT-POL-A], [FAA-SAFO-06012].
#[must_use]
pub fn landing_factor(rule: FieldRule, state: SurfaceState) -> Option<f64> {
    let wet = if state == SurfaceState::Dry { 1.0 } else { WET_LANDING_FACTOR };
    match rule {
        FieldRule::LandingSixtyPercent => Some(wet / 0.60),
        FieldRule::LandingSeventyPercent => Some(wet / 0.70),
        FieldRule::LandingFifteenPercent => Some(1.15),
        FieldRule::LargeTakeOff | FieldRule::AllEnginesTakeOff => None,
    }
}

fn within_share(distance: f64, share: f64) -> f64 {
    distance / share
}

fn lengthened(distance: f64, factor: f64) -> f64 {
    distance * factor
}

fn at_decision(speed: f64) -> f64 {
    ADDED_AT_DECISION_S * speed
}

fn net_gradient(gross: f64, reduction: f64) -> f64 {
    gross - reduction
}

fn equivalent_paved_length(gravel: f64, factor: f64) -> f64 {
    gravel / factor
}

fn crosswind_to_show(stall: f64) -> f64 {
    const KNOT: f64 = 1852.0 / 3600.0;
    (0.2 * stall).clamp(20.0 * KNOT, 25.0 * KNOT)
}

/// Landing within a share of the distance available.
pub(crate) static LANDING_WITHIN_SHARE: Formula = Formula {
    name: "landing-within-share",
    computes: "landing distance that must be available",
    expression: "distance / 0.60, or / 0.70",
    arguments: &[
        argument("landing_distance", "s", Dimension::Length, 0.0, 20_000.0),
        argument("share", "share", Dimension::Ratio, 0.4, 1.0),
    ],
    result: Dimension::Length,
    source: Source::new("CFR-121-195", "(b); 70 % in (c) and CAT.POL.A.230", Tier::Published),
    scatter: "none: a rule",
    evaluate: kernel!(within_share, distance, share),
};

/// A distance times a factor of a rule.
pub(crate) static FACTORED_DISTANCE: Formula = Formula {
    name: "factored-distance",
    computes: "distance lengthened by a factor of a rule",
    expression: "s x factor: 1.15 wet landing, arrival and all-engine take-off; 1.33, 1.25, 1.18",
    arguments: &[
        argument("distance", "s", Dimension::Length, 0.0, 20_000.0),
        coefficient("factor", "factor", 1.0, 3.0),
    ],
    result: Dimension::Length,
    source: Source::new("CFR-121-195", "(d); 25.113(a)(2); CAT.POL.A.400(b)", Tier::Published),
    scatter: "none: a rule",
    evaluate: kernel!(lengthened, distance, factor),
};

/// Distance added at the decision speed.
pub(crate) static DISTANCE_AT_DECISION: Formula = Formula {
    name: "distance-at-decision",
    computes: "distance added to the accelerate-stop distance at V1",
    expression: "2 s x V1",
    arguments: &[argument("decision_ground_speed", "V1", Dimension::Speed, 0.0, 150.0)],
    result: Dimension::Length,
    source: Source::new("CFR-25-109", "(a)(1)(iv)", Tier::Published),
    scatter: "none: a rule",
    evaluate: kernel!(at_decision, speed),
};

/// Net climb gradient.
pub(crate) static NET_GRADIENT: Formula = Formula {
    name: "net-gradient",
    computes: "net climb gradient",
    expression: "gross - 0.8 %, 0.9 % or 1.0 % with two, three or four engines",
    arguments: &[
        argument("gross", "gross", Dimension::Ratio, -0.5, 1.0),
        argument("reduction", "reduction", Dimension::Ratio, 0.0, 0.02),
    ],
    result: Dimension::Ratio,
    source: Source::new("CFR-25-115", "(b)", Tier::Memory),
    scatter: "none: a rule",
    evaluate: kernel!(net_gradient, gross, reduction),
};

/// Paved length that a gravel length stands for.
pub(crate) static GRAVEL_EQUIVALENT_LENGTH: Formula = Formula {
    name: "gravel-equivalent-length",
    computes: "paved length that a gravel runway counts for, propeller aeroplanes without \
        gravel data of their own",
    expression: "gravel length / 1.10 up to 5700 kg, / 1.15 above; at most 1524 m",
    arguments: &[
        argument("gravel_length", "s", Dimension::Length, 0.0, 20_000.0),
        coefficient("factor", "factor", 1.0, 1.5),
    ],
    result: Dimension::Length,
    source: Source::new("CARS-704", "704.46(6)", Tier::Published),
    scatter: "none: a rule",
    evaluate: kernel!(equivalent_paved_length, gravel, factor),
};

/// Crosswind to be demonstrated.
pub(crate) static CROSSWIND_TO_SHOW: Formula = Formula {
    name: "crosswind-to-show",
    computes: "crosswind in which certification shows the aeroplane safe on a dry runway",
    expression: "the greater of 20 kt and 0.2 VSR0, at most 25 kt",
    arguments: &[argument("landing_stall", "VSR0", Dimension::Speed, 0.0, 150.0)],
    result: Dimension::Speed,
    source: Source::new("CFR-25-237", "(a)", Tier::Secondary),
    scatter: "none: a rule, for hard dry runways",
    evaluate: kernel!(crosswind_to_show, stall),
};
