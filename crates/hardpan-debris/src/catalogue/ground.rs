//! Blast, reverse thrust, clearances and cables.

use super::{argument, derived, kernel};
use crate::blast::{
    blast_pressure_kernel, equal_diameter, jet_reach, jet_speed, momentum_diameter,
    speed_of_pressure,
};
use crate::clearance::{cable_wave, edge_push, lowering};
use crate::reverse::{captured_radius, cut_off_kernel, penetration};
use hardpan_model::{Argument, Formula, Source, Tier};

use hardpan_quantity::Dimension::{
    Angle, Coefficient, Count, Density, Force, Length, Pressure, Ratio, Speed,
};

const NOZZLE: Argument = argument("nozzle_diameter", "D", Length, 0.01, 6.0);
const JET: Argument = argument("jet_speed", "Uj", Speed, 0.0, 1_000.0);
const DENSITY_RATIO: Argument = argument("density_ratio", "rho_j/rho", Ratio, 0.1, 2.0);
const STREAM: Argument = argument("airspeed", "V", Speed, 0.1, 200.0);
const DROP_NOSE: Argument = argument("nose_drop", "Dn", Length, -1.0, 3.0);
const DROP_LEFT: Argument = argument("left_drop", "DL", Length, -1.0, 3.0);
const DROP_RIGHT: Argument = argument("right_drop", "DR", Length, -1.0, 3.0);

fn jet_at(speed: f64, diameter: f64, density: f64, count: f64, distance: f64, decay: f64) -> f64 {
    jet_speed(speed, equal_diameter(diameter, density, count), distance, decay)
}

/// Jet decay.
pub(crate) static JET_SPEED: Formula = Formula {
    name: "jet-centre-speed",
    computes: "greatest speed of a jet at a distance behind the nozzle",
    expression: "U = min(1, B De/x) Uj, De = D sqrt(n rho_j/rho); B 6.2 free, 6 along the ground",
    arguments: &[
        JET,
        NOZZLE,
        DENSITY_RATIO,
        argument("count", "n", Count, 1.0, 8.0),
        argument("distance", "x", Length, 0.1, 5_000.0),
        argument("decay", "B", Coefficient, 5.5, 7.0),
    ],
    result: Speed,
    source: Source::new("POPE-2000", "round jet, decay constant", Tier::Memory),
    scatter: "published constants 5.8 to 6.2; one measured 6.11",
    evaluate: kernel!(jet_at, speed, diameter, density, count, distance, decay),
};

fn reach(speed: f64, diameter: f64, count: f64, lowest: f64, decay: f64) -> f64 {
    jet_reach(speed, equal_diameter(diameter, 1.0, count), lowest, decay)
}

/// Reach of a jet.
pub(crate) static JET_REACH: Formula = Formula {
    name: "jet-reach",
    computes: "distance behind the nozzle at which the greatest speed of a jet falls to another",
    expression: "x = B De Uj/U, De = D sqrt(n); B 6.2 free, 6 along the ground",
    arguments: &[
        JET,
        NOZZLE,
        argument("count", "n", Count, 1.0, 8.0),
        argument("lowest_speed", "U", Speed, 0.5, 340.0),
        argument("decay", "B", Coefficient, 5.5, 7.0),
    ],
    result: Length,
    source: Source::new("POPE-2000", "round jet, decay constant", Tier::Memory),
    scatter: "published constants 5.8 to 6.2; one measured 6.11",
    evaluate: kernel!(reach, speed, diameter, count, lowest, decay),
};

/// Jet of a thrust.
pub(crate) static MOMENTUM_DIAMETER: Formula = Formula {
    name: "jet-equal-diameter",
    computes: "diameter of a jet of air with the momentum of a thrust",
    expression: "De = sqrt(4 F/(pi rho))/Uj",
    arguments: &[
        argument("thrust", "F", Force, 1.0, 1e6),
        argument("jet_speed", "Uj", Speed, 1.0, 1_000.0),
        argument("air_density", "rho", Density, 0.3, 2.0),
    ],
    result: Length,
    source: derived("momentum of a jet"),
    scatter: "exact far behind the nozzle",
    evaluate: kernel!(momentum_diameter, thrust, speed, air),
};

/// Blast pressure.
pub(crate) static BLAST_PRESSURE: Formula = Formula {
    name: "blast-pressure",
    computes: "pressure of a blast of a speed",
    expression: "P = 0.00256 V², psf and mph",
    arguments: &[argument("speed", "V", Speed, 0.0, 340.0)],
    result: Pressure,
    source: Source::new("FAA-AC-150-5300-13", "chapter 8", Tier::Published),
    scatter: "mean; peaks come 2 to 6 times a second",
    evaluate: kernel!(blast_pressure_kernel, speed),
};

/// Speed of a dynamic pressure.
pub(crate) static SPEED_OF_PRESSURE: Formula = Formula {
    name: "speed-of-dynamic-pressure",
    computes: "speed of a stream with a dynamic pressure",
    expression: "V = sqrt(2 q/rho)",
    arguments: &[
        argument("dynamic_pressure", "q", Pressure, 0.0, 1e5),
        argument("air_density", "rho", Density, 0.3, 2.0),
    ],
    result: Speed,
    source: derived("definition of dynamic pressure"),
    scatter: "exact",
    evaluate: kernel!(speed_of_pressure, pressure, density),
};

/// Jet in a counterflow.
pub(crate) static PENETRATION: Formula = Formula {
    name: "reverse-efflux-reach",
    computes: "how far a reversed jet reaches ahead against a stream",
    expression: "x = k De (Uj cos b/V0) sqrt(rho_j/rho)",
    arguments: &[
        argument("constant", "k", Coefficient, 2.4, 2.8),
        NOZZLE,
        JET,
        argument("angle", "b", Angle, 0.0, std::f64::consts::FRAC_PI_2),
        STREAM,
        DENSITY_RATIO,
    ],
    result: Length,
    source: Source::new("YODA-FIEDLER-1996", "round jet in a counterflow", Tier::Memory),
    scatter: "constants of 2.4 to 2.8 are published; unconfined, 2 to 20 times the stream",
    evaluate: kernel!(penetration, k, diameter, speed, angle, stream, density),
};

/// Reverse cut-off.
pub(crate) static REVERSE_CUT_OFF: Formula = Formula {
    name: "reverse-cut-off-speed",
    computes: "airspeed below which a sheet of reversed efflux along the ground reaches the inlet",
    expression: "V = k D Uj/L",
    arguments: &[
        argument("constant", "k", Coefficient, 0.1, 2.0),
        NOZZLE,
        JET,
        argument("distance_to_lip", "L", Length, 0.1, 50.0),
    ],
    result: Speed,
    source: Source::new("", "ground separation ahead of an impinging jet", Tier::Memory),
    scatter: "constant 0.5 to 1.0 over moving ground, at even odds",
    evaluate: kernel!(cut_off_kernel, k, diameter, speed, ahead),
};

/// Captured stream.
pub(crate) static CAPTURED_RADIUS: Formula = Formula {
    name: "captured-stream-radius",
    computes: "radius of the stream that an inlet captures",
    expression: "r = D/2 sqrt(Vi/V0)",
    arguments: &[
        argument("inlet_diameter", "D", Length, 0.05, 6.0),
        argument("inlet_velocity", "Vi", Speed, 0.0, 330.0),
        STREAM,
    ],
    result: Length,
    source: derived("continuity, constant density"),
    scatter: "exact for constant density",
    evaluate: kernel!(captured_radius, diameter, inside, stream),
};

/// Lowering of a point.
pub(crate) static LOWERING: Formula = Formula {
    name: "body-point-lowering",
    computes: "how far a point of the airframe comes down when the axles do",
    expression: "dz = Dn (1 − x/B) + x/B ((DL + DR)/2 + (DR − DL) y/T)",
    arguments: &[
        argument("wheelbase", "B", Length, 0.5, 60.0),
        argument("track", "T", Length, 0.3, 25.0),
        argument("aft", "x", Length, -30.0, 100.0),
        argument("right", "y", Length, -50.0, 50.0),
        DROP_NOSE,
        DROP_LEFT,
        DROP_RIGHT,
    ],
    result: Length,
    source: derived("plane through three points"),
    scatter: "exact for small angles",
    evaluate: kernel!(lowering, base, track, aft, right, nose, left_drop, right_drop),
};

/// Cable wave.
pub(crate) static CABLE_WAVE: Formula = Formula {
    name: "cable-wave-speed",
    computes: "speed of a wave along an arrester cable",
    expression: "c = sqrt(F/m); m kg/m",
    arguments: &[
        argument("tension", "F", Force, 1.0, 1e6),
        argument("mass_per_metre", "m", Coefficient, 0.1, 50.0),
    ],
    result: Speed,
    source: derived("wave on a string"),
    scatter: "exact for a flexible cable",
    evaluate: kernel!(cable_wave, tension, mass),
};

/// Push over an edge.
pub(crate) static EDGE_PUSH: Formula = Formula {
    name: "edge-push",
    computes: "push over wheel load that climbs an edge from rest",
    expression: "F/W = sqrt(2 R h − h²)/(R − h)",
    arguments: &[
        argument("wheel_radius", "R", Length, 0.05, 1.5),
        argument("edge_height", "h", Length, 0.0, 1.3),
    ],
    result: Ratio,
    source: derived("rigid wheel about an edge"),
    scatter: "a tyre wraps round the edge and needs less",
    evaluate: kernel!(edge_push, radius, edge),
};
