//! Stones: mass, energy, launch and flight, and what a strike may do.

use super::{argument, derived, kernel};
use crate::damage::{delamination_load, dent_depth, plug_energy, small_mass_threshold};
use crate::stone::{LandingValue, impact_energy, landing_value, sphere_mass, stopping_length};
use crate::tyre_throw::{
    descent_speed_kernel, edge_stones, secant_stiffness, speed_to_reach, strike_distance,
};
use hardpan_model::{Argument, Formula, Source, Tier};

use hardpan_quantity::Dimension::{
    Acceleration, Angle, Coefficient, Density, Energy, Force, Length, Mass, Pressure, Speed, Time,
};

const DIAMETER: Argument = argument("diameter", "d", Length, 1e-5, 1.0);
const STONE: Argument = argument("stone_density", "rho_s", Density, 500.0, 9_000.0);
const AIR: Argument = argument("air_density", "rho", Density, 0.3, 2.0);
const DRAG: Argument = argument("drag_coefficient", "Cd", Coefficient, 0.05, 10.0);
const SPEED: Argument = argument("speed", "V", Speed, 0.0, 1_000.0);
const GRAVITY: Argument = argument("gravity", "g", Acceleration, 9.7, 9.9);
const FORWARD: Argument = argument("forward_launch_speed", "vx", Speed, -300.0, 300.0);
const UPWARD: Argument = argument("upward_launch_speed", "vz", Speed, 0.1, 300.0);
const STIFFNESS: Argument = argument("laminate_stiffness", "E", Pressure, 1e9, 1e12);
const LAMINATE: Argument = argument("laminate_thickness", "h", Length, 1e-4, 0.1);
const TOUGHNESS: Argument = argument("toughness", "G, J/m²", Coefficient, 1.0, 1e5);
const POISSON: Argument = argument("poisson_ratio", "nu", Coefficient, 0.0, 0.5);
const EXACT: &str = "exact for a sphere";
const FLIGHT: &str =
    "exact for a constant drag coefficient in still air; that of gravel is 0.7 to 1.4";
const NEWTON: &str = "point mass with drag along its path, classical Runge–Kutta";

/// Mass of a stone.
pub(crate) static SPHERE_MASS: Formula = Formula {
    name: "stone-mass",
    computes: "mass of a stone taken as a sphere",
    expression: "m = pi/6 rho_s d³",
    arguments: &[DIAMETER, STONE],
    result: Mass,
    source: derived("volume of a sphere"),
    scatter: EXACT,
    evaluate: kernel!(sphere_mass, diameter, density),
};

/// Energy of a stone.
pub(crate) static IMPACT_ENERGY: Formula = Formula {
    name: "stone-impact-energy",
    computes: "energy of a stone at a speed",
    expression: "E = m V²/2, m = pi/6 rho_s d³",
    arguments: &[DIAMETER, STONE, SPEED],
    result: Energy,
    source: derived("kinetic energy of a sphere"),
    scatter: EXACT,
    evaluate: kernel!(impact_energy, diameter, density, speed),
};

/// Stopping length.
pub(crate) static STOPPING_LENGTH: Formula = Formula {
    name: "stone-stopping-length",
    computes: "distance over which drag takes the speed of a stone down by e",
    expression: "L = 4/3 rho_s/rho d/Cd",
    arguments: &[DIAMETER, STONE, AIR, DRAG],
    result: Length,
    source: derived("drag without gravity"),
    scatter: FLIGHT,
    evaluate: kernel!(stopping_length, diameter, stone, air, drag),
};

/// Range with drag.
pub(crate) static FLIGHT_RANGE: Formula = Formula {
    name: "stone-flight-range",
    computes: "distance flown of a stone thrown from the ground, back on the ground",
    expression: "m dv/dt = m g − rho/2 Cd A |v| v",
    arguments: &[DIAMETER, STONE, AIR, DRAG, FORWARD, UPWARD],
    result: Length,
    source: derived(NEWTON),
    scatter: FLIGHT,
    evaluate: kernel!(
        |d, s, a, c, x, z| landing_value(d, s, a, c, x, z, LandingValue::Range),
        d,
        s,
        a,
        c,
        x,
        z
    ),
};

/// Apex with drag.
pub(crate) static FLIGHT_APEX: Formula = Formula {
    name: "stone-flight-apex",
    computes: "greatest height of a stone thrown from the ground, back on the ground",
    expression: "m dv/dt = m g − rho/2 Cd A |v| v",
    arguments: &[DIAMETER, STONE, AIR, DRAG, FORWARD, UPWARD],
    result: Length,
    source: derived(NEWTON),
    scatter: FLIGHT,
    evaluate: kernel!(
        |d, s, a, c, x, z| landing_value(d, s, a, c, x, z, LandingValue::Apex),
        d,
        s,
        a,
        c,
        x,
        z
    ),
};

/// Time in the air with drag.
pub(crate) static FLIGHT_TIME: Formula = Formula {
    name: "stone-flight-time",
    computes: "time in the air of a stone thrown from the ground, back on the ground",
    expression: "m dv/dt = m g − rho/2 Cd A |v| v",
    arguments: &[DIAMETER, STONE, AIR, DRAG, FORWARD, UPWARD],
    result: Time,
    source: derived(NEWTON),
    scatter: FLIGHT,
    evaluate: kernel!(
        |d, s, a, c, x, z| landing_value(d, s, a, c, x, z, LandingValue::Time),
        d,
        s,
        a,
        c,
        x,
        z
    ),
};

/// Landing speed with drag.
pub(crate) static FLIGHT_LANDING_SPEED: Formula = Formula {
    name: "stone-flight-landing-speed",
    computes: "speed at the landing of a stone thrown from the ground, back on the ground",
    expression: "m dv/dt = m g − rho/2 Cd A |v| v",
    arguments: &[DIAMETER, STONE, AIR, DRAG, FORWARD, UPWARD],
    result: Speed,
    source: derived(NEWTON),
    scatter: FLIGHT,
    evaluate: kernel!(
        |d, s, a, c, x, z| landing_value(d, s, a, c, x, z, LandingValue::Speed),
        d,
        s,
        a,
        c,
        x,
        z
    ),
};

/// Descent speed of the tread.
pub(crate) static DESCENT_SPEED: Formula = Formula {
    name: "tyre-descent-speed",
    computes: "speed at which the tread of a rolling tyre comes down on a stone",
    expression: "v = V sqrt(2 d/R − (d/R)²)",
    arguments: &[
        argument("ground_speed", "V", Speed, 0.0, 200.0),
        argument("stone_height", "d", Length, 0.0, 0.5),
        argument("tyre_radius", "R", Length, 0.05, 1.5),
    ],
    result: Speed,
    source: derived("rolling without slip"),
    scatter: "exact for a rigid round tyre",
    evaluate: kernel!(descent_speed_kernel, speed, stone, radius),
};

/// Speed to reach a height.
pub(crate) static SPEED_TO_REACH: Formula = Formula {
    name: "launch-speed-to-reach",
    computes: "upward speed that reaches a height without drag",
    expression: "v = sqrt(2 g h)",
    arguments: &[argument("height", "h", Length, 0.0, 50.0), GRAVITY],
    result: Speed,
    source: derived("free rise"),
    scatter: "a lower bound: drag asks for more",
    evaluate: kernel!(speed_to_reach, height, gravity),
};

/// Strike distance.
pub(crate) static STRIKE_DISTANCE: Formula = Formula {
    name: "stone-strike-distance",
    computes: "distance behind the wheel at which a stone first reaches a height, without drag",
    expression: "x = (V − vx)(vz − sqrt(vz² − 2 g h))/g",
    arguments: &[
        argument("ground_speed", "V", Speed, 0.0, 200.0),
        FORWARD,
        UPWARD,
        argument("height", "h", Length, 0.0, 50.0),
        GRAVITY,
    ],
    result: Length,
    source: derived("free rise"),
    scatter: "exact without drag",
    evaluate: kernel!(strike_distance, ground, forward, upward, height, gravity),
};

/// Stones under tyre edges.
pub(crate) static EDGE_STONES: Formula = Formula {
    name: "stones-under-tyre-edges",
    computes: "loose stones that come under the edges of tyres",
    expression: "N = n · 2 d · e · s",
    arguments: &[
        argument("stones_per_square_metre", "n", Coefficient, 0.0, 1e6),
        DIAMETER,
        argument("edges", "e", Coefficient, 1.0, 256.0),
        argument("rolled", "s", Length, 0.0, 40_000.0),
    ],
    result: Coefficient,
    source: Source::new("TEXTBOOK-PHYSICS", "area swept; width of a band judged", Tier::Judgement),
    scatter: "for comparing only: the width of two stones is a judgement",
    evaluate: kernel!(edge_stones, loose, stone, edges, rolled),
};

/// Secant stiffness of a tyre over a stone.
pub(crate) static SECANT_STIFFNESS: Formula = Formula {
    name: "tyre-secant-stiffness",
    computes: "stiffness of a tyre that gives a stone an energy over its diameter, N/m",
    expression: "k = 2 E/d²",
    arguments: &[argument("energy", "E", Energy, 0.0, 1e4), DIAMETER],
    result: Coefficient,
    source: derived("linear spring"),
    scatter: "a secant, not a law of the tyre",
    evaluate: kernel!(secant_stiffness, energy, diameter),
};

/// Perforation energy.
pub(crate) static PLUG_ENERGY: Formula = Formula {
    name: "plate-perforation-energy",
    computes: "energy at which a blunt stone shears a plug out of a metal plate",
    expression: "E = pi d Cs t²/cos² th",
    arguments: &[
        DIAMETER,
        argument("shear_strength", "Cs", Pressure, 1e6, 2e9),
        argument("plate_thickness", "t", Length, 1e-4, 0.05),
        argument("obliquity", "th", Angle, 0.0, 1.4),
    ],
    result: Energy,
    source: Source::new("FAA-AR-99-11", "plug shear of a plate", Tier::Memory),
    scatter: "a lower bound on thin skin, which dishes first",
    evaluate: kernel!(plug_energy, diameter, strength, thickness, obliquity),
};

/// Dent depth.
pub(crate) static DENT_DEPTH: Formula = Formula {
    name: "plate-dent-depth",
    computes: "depth of a dent in a thin metal plate",
    expression: "delta = sqrt(E ln(a/r)/(pi s0 t))",
    arguments: &[
        argument("energy", "E", Energy, 0.0, 1e4),
        argument("flow_stress", "s0", Pressure, 1e6, 2e9),
        argument("plate_thickness", "t", Length, 1e-4, 0.05),
        argument("span_ratio", "a/r", Coefficient, 1.5, 1e4),
    ],
    result: Length,
    source: derived("rigid-plastic membrane"),
    scatter: "screening only",
    evaluate: kernel!(dent_depth, energy, stress, thickness, span),
};

/// Delamination load.
pub(crate) static DELAMINATION_LOAD: Formula = Formula {
    name: "laminate-delamination-load",
    computes: "load that delaminates a laminate",
    expression: "Pc² = 8 pi² E h³ G/(9 (1 − nu²))",
    arguments: &[STIFFNESS, LAMINATE, TOUGHNESS, POISSON],
    result: Force,
    source: Source::new("DAVIES-1995", "threshold load for delamination", Tier::Memory),
    scatter: "screening only",
    evaluate: kernel!(delamination_load, stiffness, thickness, toughness, poisson),
};

/// Small-mass threshold.
pub(crate) static SMALL_MASS_SPEED: Formula = Formula {
    name: "laminate-small-mass-speed",
    computes: "speed of a small hard stone that delaminates a laminate",
    expression: "V = 1.213 Pc/(8 sqrt(rho h D)), D = E h³/(12 (1 − nu²))",
    arguments: &[
        STIFFNESS,
        LAMINATE,
        TOUGHNESS,
        POISSON,
        argument("laminate_density", "rho", Density, 500.0, 5_000.0),
    ],
    result: Speed,
    source: Source::new("OLSSON-2003", "dynamic threshold of small-mass impact", Tier::Memory),
    scatter: "rigid contact: low for small soft stones",
    evaluate: kernel!(small_mass_threshold, stiffness, thickness, toughness, poisson, density),
};
