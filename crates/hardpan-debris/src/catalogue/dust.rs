//! Dust and stones in a stream: thresholds, settling and carriage.

use super::{argument, derived, kernel};
use crate::dust::{
    clearing_time_kernel, cloud_time_kernel, drag_haider_levenspiel, haider_levenspiel_constants,
    settling_explicit, settling_ferguson_church, settling_haider_levenspiel, settling_stokes,
    sheet_speed, single_stone_size, single_stone_threshold, speed_in_stream, threshold_bagnold,
    threshold_shao_lu, vehicle_dust, wind_at_height,
};
use hardpan_model::{Argument, Formula, Source, Tier};

use hardpan_quantity::Dimension::{
    Acceleration, Coefficient, Count, Density, Length, Mass, Ratio, Speed, Time,
};

const DIAMETER: Argument = argument("diameter", "d", Length, 1e-6, 0.2);
const GRAIN: Argument = argument("grain_density", "rho_s", Density, 500.0, 9_000.0);
const AIR: Argument = argument("air_density", "rho", Density, 0.3, 2.0);
const GRAVITY: Argument = argument("gravity", "g", Acceleration, 9.7, 9.9);
const VISCOSITY: Argument = argument("viscosity", "mu", Coefficient, 1e-5, 3e-5);
const SPHERICITY: Argument = argument("sphericity", "p", Coefficient, 0.5, 1.0);
const FRICTION_VELOCITY: Argument = argument("friction_velocity", "u*", Speed, 0.0, 20.0);
const DRAG_LAW: Source =
    Source::new("HAIDER-LEVENSPIEL-1989", "four-constant drag law", Tier::Secondary);
const SHAPE: &str = "about ±20 % by shape of the grain";

fn constant(sphericity: f64, index: f64) -> f64 {
    let [a, b, c, d] = haider_levenspiel_constants(sphericity);
    match index {
        1.0 => a,
        2.0 => b,
        3.0 => c,
        4.0 => d,
        _ => f64::NAN,
    }
}

/// Shao and Lu.
pub(crate) static SHAO_LU: Formula = Formula {
    name: "threshold-friction-velocity-shao-lu-2000",
    computes: "friction velocity at which loose dry grains start to move",
    expression: "u*t = sqrt(0.0123 (rho_s/rho g d + G/(rho d)))",
    arguments: &[
        argument("diameter", "d", Length, 1e-5, 0.05),
        GRAIN,
        AIR,
        GRAVITY,
        argument("cohesion", "G, kg/s²", Coefficient, 1.65e-4, 5e-4),
    ],
    result: Speed,
    source: Source::new("SHAO-LU-2000", "eq. 22", Tier::Secondary),
    scatter: "G was fitted between 1.65e-4 and 5e-4; spheres of 0.05 mm to 2 mm, beyond that extrapolated",
    evaluate: kernel!(threshold_shao_lu, diameter, grain, air, gravity, cohesion),
};

/// Bagnold.
pub(crate) static BAGNOLD: Formula = Formula {
    name: "threshold-friction-velocity-bagnold",
    computes: "friction velocity at which loose dry grains start to move",
    expression: "u*t = 0.1 sqrt((rho_s − rho)/rho g d)",
    arguments: &[argument("diameter", "d", Length, 1e-4, 0.05), GRAIN, AIR, GRAVITY],
    result: Speed,
    source: Source::new("BAGNOLD-1941", "fluid threshold", Tier::Memory),
    scatter: "grains above 0.1 mm",
    evaluate: kernel!(threshold_bagnold, diameter, grain, air, gravity),
};

/// Sheet speed.
pub(crate) static SHEET_SPEED: Formula = Formula {
    name: "sheet-speed-of-friction-velocity",
    computes: "speed of a sheet of air along the ground at a friction velocity",
    expression: "U = u* sqrt(2/Cf)",
    arguments: &[FRICTION_VELOCITY, argument("skin_friction", "Cf", Coefficient, 1e-3, 0.05)],
    result: Speed,
    source: derived("definition of the skin friction coefficient"),
    scatter: "Cf of 0.005 to 0.01 is a judgement",
    evaluate: kernel!(sheet_speed, friction, coefficient),
};

/// Wind at a height.
pub(crate) static WIND_AT_HEIGHT: Formula = Formula {
    name: "wind-at-height",
    computes: "wind at a height at a friction velocity",
    expression: "U = u*/0.4 ln(z/z0), z0 = max(d/30, 10 µm)",
    arguments: &[FRICTION_VELOCITY, argument("height", "z", Length, 0.1, 100.0), DIAMETER],
    result: Speed,
    source: derived("logarithmic law of the wall"),
    scatter: "neutral air",
    evaluate: kernel!(wind_at_height, friction, height, grain),
};

/// Single stone.
pub(crate) static SINGLE_STONE: Formula = Formula {
    name: "single-stone-threshold",
    computes: "stream that rolls a single stone lying proud on a hard flat surface",
    expression: "U = sqrt(4/3 f rho_s/rho g d/(Cd + f Cl)), f 0.5, Cd 0.6, Cl 0.2",
    arguments: &[DIAMETER, GRAIN, AIR, GRAVITY],
    result: Speed,
    source: derived("balance of drag, lift and friction"),
    scatter: "coefficients to ±30 % in speed",
    evaluate: kernel!(single_stone_threshold, diameter, grain, air, gravity),
};

/// Largest single stone.
pub(crate) static SINGLE_STONE_SIZE: Formula = Formula {
    name: "single-stone-size",
    computes: "largest single stone, proud on a hard flat surface, that a stream rolls",
    expression: "d = U² (Cd + f Cl)/(4/3 f rho_s/rho g), f 0.5, Cd 0.6, Cl 0.2",
    arguments: &[argument("stream_speed", "U", Speed, 0.0, 340.0), GRAIN, AIR, GRAVITY],
    result: Length,
    source: derived("balance of drag, lift and friction"),
    scatter: "coefficients to ±30 % in speed",
    evaluate: kernel!(single_stone_size, speed, grain, air, gravity),
};

/// Settling of a cloud.
pub(crate) static CLOUD_TIME: Formula = Formula {
    name: "dust-settling-time",
    computes: "time after which no more than a share of a stirred dust cloud is in the air",
    expression: "t = z/w ln(1/c)",
    arguments: &[
        argument("settling_speed", "w", Speed, 1e-5, 100.0),
        argument("share_left", "c", Ratio, 1e-4, 1.0),
        argument("cloud_height", "z", Length, 0.1, 10_000.0),
    ],
    result: Time,
    source: derived("stirred cloud over a ground that keeps what falls"),
    scatter: "real clouds are neither stirred nor of one grain",
    evaluate: kernel!(cloud_time_kernel, settling, share, height),
};

/// Clearing by the wind.
pub(crate) static CLEARING_TIME: Formula = Formula {
    name: "dust-clearing-time",
    computes: "time in which a crosswind carries a dust cloud off the strip",
    expression: "t = (b + c)/V",
    arguments: &[
        argument("strip_half_width", "b", Length, 0.0, 500.0),
        argument("cloud_half_width", "c", Length, 0.0, 500.0),
        argument("crosswind", "V", Speed, 0.01, 60.0),
    ],
    result: Time,
    source: derived("drift with the wind"),
    scatter: "exact for a cloud that moves with the wind and does not grow",
    evaluate: kernel!(clearing_time_kernel, strip, cloud, wind),
};

/// Speed in a stream.
pub(crate) static SPEED_IN_STREAM: Formula = Formula {
    name: "stone-speed-in-stream",
    computes: "speed of a stone after a distance in a steady stream, from rest",
    expression: "s/L = 1/(1 − b) − 1 + ln(1 − b), b = v/U, L = 4/3 rho_s/rho d/Cd",
    arguments: &[
        argument("stream_speed", "U", Speed, 0.0, 700.0),
        argument("distance", "s", Length, 0.0, 1_000.0),
        DIAMETER,
        GRAIN,
        AIR,
        argument("drag_coefficient", "Cd", Coefficient, 0.1, 10.0),
    ],
    result: Speed,
    source: derived("drag on a sphere in a uniform stream"),
    scatter: "drag coefficient of gravel 0.7 to 1.4",
    evaluate: kernel!(speed_in_stream, stream, distance, diameter, grain, air, drag),
};

/// Stokes.
pub(crate) static STOKES: Formula = Formula {
    name: "settling-speed-stokes",
    computes: "settling speed of a small sphere in still air",
    expression: "w = (rho_s − rho) g d²/(18 mu); mu in Pa s",
    arguments: &[argument("diameter", "d", Length, 1e-7, 1.1e-4), GRAIN, AIR, VISCOSITY, GRAVITY],
    result: Speed,
    source: derived("creeping flow, Reynolds number below 0.5"),
    scatter: "5 % high at 50 µm",
    evaluate: kernel!(settling_stokes, diameter, grain, air, viscosity, gravity),
};

/// Ferguson and Church.
pub(crate) static FERGUSON_CHURCH: Formula = Formula {
    name: "settling-speed-ferguson-church-2004",
    computes: "settling speed of a grain in still air",
    expression: "w = R g d²/(C1 mu/rho + sqrt(0.75 C2 R g d³)), R = (rho_s − rho)/rho; mu in Pa s",
    arguments: &[
        DIAMETER,
        GRAIN,
        AIR,
        VISCOSITY,
        GRAVITY,
        argument("viscous_constant", "C1", Coefficient, 18.0, 24.0),
        argument("drag_constant", "C2", Coefficient, 0.4, 1.2),
    ],
    result: Speed,
    source: Source::new("FERGUSON-CHURCH-2004", "eq. 4", Tier::Secondary),
    scatter: SHAPE,
    evaluate: kernel!(settling_ferguson_church, diameter, grain, air, viscosity, gravity, c1, c2),
};

/// Constants of the drag law.
pub(crate) static HAIDER_LEVENSPIEL_CONSTANT: Formula = Formula {
    name: "haider-levenspiel-constant",
    computes: "one of the four constants of the drag law",
    expression: "A, B, C, D by sphericity",
    arguments: &[SPHERICITY, argument("which", "1 to 4", Count, 1.0, 4.0)],
    result: Coefficient,
    source: DRAG_LAW,
    scatter: SHAPE,
    evaluate: kernel!(constant, sphericity, index),
};

/// Drag law.
pub(crate) static HAIDER_LEVENSPIEL_DRAG: Formula = Formula {
    name: "drag-haider-levenspiel-1989",
    computes: "drag coefficient of a particle",
    expression: "Cd = 24/Re (1 + A Re^B) + C/(1 + D/Re)",
    arguments: &[argument("reynolds", "Re", Coefficient, 1e-6, 2.6e5), SPHERICITY],
    result: Coefficient,
    source: DRAG_LAW,
    scatter: SHAPE,
    evaluate: kernel!(drag_haider_levenspiel, reynolds, sphericity),
};

/// Settling by the drag law.
pub(crate) static HAIDER_LEVENSPIEL: Formula = Formula {
    name: "settling-speed-haider-levenspiel-1989",
    computes: "settling speed at which weight and drag balance",
    expression: "w² = 4/3 R g d/Cd(Re)",
    arguments: &[DIAMETER, GRAIN, AIR, VISCOSITY, GRAVITY, SPHERICITY],
    result: Speed,
    source: DRAG_LAW,
    scatter: SHAPE,
    evaluate: kernel!(
        settling_haider_levenspiel,
        diameter,
        grain,
        air,
        viscosity,
        gravity,
        sphericity
    ),
};

/// Explicit settling.
pub(crate) static SETTLING_EXPLICIT: Formula = Formula {
    name: "settling-speed-explicit-1989",
    computes: "settling speed of a particle, explicit form",
    expression: "u = 1/(18/d² + (2.335 − 1.744 p)/sqrt d), d and u without dimension",
    arguments: &[DIAMETER, GRAIN, AIR, VISCOSITY, GRAVITY, SPHERICITY],
    result: Speed,
    source: Source::new("HAIDER-LEVENSPIEL-1989", "explicit form", Tier::Memory),
    scatter: SHAPE,
    evaluate: kernel!(settling_explicit, diameter, grain, air, viscosity, gravity, sphericity),
};

/// Vehicle dust.
pub(crate) static VEHICLE_DUST: Formula = Formula {
    name: "vehicle-dust-ap-42",
    computes: "dust raised by a vehicle on an unpaved road, kg for each metre",
    expression: "E = k (s/0.12)^a (W/3)^0.45 lb/mile, W in short tons",
    arguments: &[
        argument("constant", "k", Coefficient, 0.01, 10.0),
        argument("exponent", "a", Coefficient, 0.5, 1.2),
        argument("silt_share", "s", Ratio, 0.018, 0.252),
        argument("vehicle_mass", "W", Mass, 1_800.0, 263_000.0),
    ],
    result: Coefficient,
    source: Source::new("EPA-AP-42", "13.2.2 eq. 1a", Tier::Memory),
    scatter: "road vehicles; nothing is claimed for aeroplanes",
    evaluate: kernel!(vehicle_dust, k, exponent, silt, mass),
};
