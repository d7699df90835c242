//! Inlet flow, ground vortex and propeller slipstream.

use super::{argument, derived, kernel};
use crate::inlet_flow::{inlet_velocity_kernel, mass_flux, part_thrust_flow_kernel, velocity};
use crate::propeller::{
    blow_away_speed_kernel, contracted_diameter, free_thrust_kernel, induced_speed,
    static_thrust_kernel,
};
use crate::stagnation::{
    WindSide, core_speed_to_lift, disc_strength, dissipator_ground_speed, ground_speed_of_sink,
};
use crate::vortex::{
    blow_away_on_line, critical_ratio_kernel, onset_line, point_sink_bound, streamtube_bound,
};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension::{
    Acceleration, AirPressure, Coefficient, Density, Force, Length, MassFlow, Power, Ratio, Speed,
    Temperature,
};

const PRESSURE: Argument = argument("air_pressure", "p0", AirPressure, 20e3, 120e3);
const TEMPERATURE: Argument = argument("air_temperature", "T0", Temperature, 180.0, 340.0);
const MACH: Argument = argument("mach", "M", Coefficient, 0.0, 1.0);
const HEIGHT_RATIO: Argument = argument("height_ratio", "h", Coefficient, 0.5, 5.0);
const INSIDE: Argument = argument("inlet_velocity", "Vi", Speed, 0.0, 330.0);
const AIR_DENSITY: Argument = argument("air_density", "rho", Density, 0.3, 2.0);
const EXACT: &str = "exact for one-dimensional flow";
const BOUND: &str = "exact for inviscid flow; a bound, not an onset";
const MOMENTUM: &str = "exact for an actuator disc; real slipstreams are unsteady and swirl";

/// Mass flux.
pub(crate) static INLET_MASS_FLUX: Formula = Formula {
    name: "inlet-mass-flux",
    computes: "air mass flow through one square metre of inlet, kg/s",
    expression: "W/A = p0 sqrt(1.4/(287.053 T0)) M/(1 + 0.2 M²)³",
    arguments: &[MACH, PRESSURE, TEMPERATURE],
    result: MassFlow,
    source: derived("one-dimensional compressible flow, ratio of specific heats 1.4"),
    scatter: EXACT,
    evaluate: kernel!(mass_flux, mach, pressure, temperature),
};

/// Air speed at a Mach number.
pub(crate) static INLET_VELOCITY_AT_MACH: Formula = Formula {
    name: "inlet-velocity-at-mach",
    computes: "mean air speed in the inlet at a Mach number",
    expression: "Vi = M sqrt(1.4 · 287.053 · T0/(1 + 0.2 M²))",
    arguments: &[MACH, TEMPERATURE],
    result: Speed,
    source: derived("one-dimensional compressible flow, ratio of specific heats 1.4"),
    scatter: EXACT,
    evaluate: kernel!(velocity, mach, temperature),
};

/// Inlet velocity from the flow.
pub(crate) static INLET_VELOCITY: Formula = Formula {
    name: "inlet-velocity",
    computes: "mean air speed in the inlet at the area of its inner diameter",
    expression: "Vi = M sqrt(1.4 R T0/(1 + 0.2 M²)), M from W/(pi D²/4) = p0 sqrt(1.4/(R T0)) M (1 + 0.2 M²)^-3; T0 in kelvin, R 287.053 J/(kg K)",
    arguments: &[
        argument("air_flow", "W", MassFlow, 0.0, 5_000.0),
        argument("inlet_diameter", "D", Length, 0.05, 6.0),
        PRESSURE,
        TEMPERATURE,
    ],
    result: Speed,
    source: derived("one-dimensional compressible flow, ratio of specific heats 1.4"),
    scatter: EXACT,
    evaluate: kernel!(inlet_velocity_kernel, flow, diameter, pressure, temperature),
};

/// Part-thrust flow.
pub(crate) static PART_THRUST_FLOW: Formula = Formula {
    name: "part-thrust-air-flow",
    computes: "air flow at a share of the static take-off thrust",
    expression: "W = W_max sqrt(F/F_max)",
    arguments: &[
        argument("full_air_flow", "W_max", MassFlow, 0.0, 5_000.0),
        argument("thrust_share", "F/F_max", Ratio, 0.0, 1.1),
    ],
    result: MassFlow,
    source: derived("jet speed in proportion to the flow"),
    scatter: "not published; some per cent of the flow",
    evaluate: kernel!(part_thrust_flow_kernel, flow, share),
};

const LINE: Source =
    Source::new("NAKAYAMA-JONES-1999", "pp. 508-510, compiled boundary", Tier::Memory);

/// The empirical line.
pub(crate) static ONSET_LINE: Formula = Formula {
    name: "ground-vortex-line-nakayama-jones-1999",
    computes: "ratio of inlet velocity to relative wind above which a ground vortex is possible",
    expression: "Vi/V0 = 24 H/D − 17",
    arguments: &[argument("height_ratio", "H/D", Coefficient, 0.7083, 3.0)],
    result: Coefficient,
    source: LINE,
    scatter: "not published; risk index 0.8 to 1.25 is taken as uncertain (judgement)",
    evaluate: kernel!(onset_line, height),
};

/// The line with its floor.
pub(crate) static CRITICAL_RATIO: Formula = Formula {
    name: "ground-vortex-critical-ratio",
    computes: "critical ratio of inlet velocity to relative wind, with the streamtube floor",
    expression: "r_crit = max(24 H/D − 17, 4 (H/D)²)",
    arguments: &[HEIGHT_RATIO],
    result: Coefficient,
    source: LINE,
    scatter: "not published; risk index 0.8 to 1.25 is taken as uncertain (judgement)",
    evaluate: kernel!(critical_ratio_kernel, height),
};

/// Blow-away wind.
pub(crate) static BLOW_AWAY_WIND: Formula = Formula {
    name: "ground-vortex-blow-away-wind",
    computes: "relative wind at which the line puts the end of the ground vortex",
    expression: "V0 = Vi/(24 H/D − 17)",
    arguments: &[INSIDE, argument("height_ratio", "H/D", Coefficient, 0.7084, 3.0)],
    result: Speed,
    source: LINE,
    scatter: "not published; risk index 0.8 to 1.25 is taken as uncertain (judgement)",
    evaluate: kernel!(blow_away_on_line, inside, height),
};

/// Lower bound.
pub(crate) static STREAMTUBE_BOUND: Formula = Formula {
    name: "ground-vortex-streamtube-bound",
    computes: "velocity ratio at which the captured streamtube touches the ground",
    expression: "Vi/V0 = 4 (H/D)²",
    arguments: &[HEIGHT_RATIO],
    result: Coefficient,
    source: derived("continuity, constant density"),
    scatter: BOUND,
    evaluate: kernel!(streamtube_bound, height),
};

/// Upper bound.
pub(crate) static POINT_SINK_BOUND: Formula = Formula {
    name: "ground-vortex-point-sink-bound",
    computes: "velocity ratio at which a point sink with its image has a point of rest on the ground",
    expression: "Vi/V0 = 12 sqrt(3) (H/D)²",
    arguments: &[HEIGHT_RATIO],
    result: Coefficient,
    source: derived("point sink and its image in the ground"),
    scatter: BOUND,
    evaluate: kernel!(point_sink_bound, height),
};

/// Disc bound, wind from ahead.
pub(crate) static DISC_BOUND_AHEAD: Formula = Formula {
    name: "ground-vortex-disc-bound-headwind",
    computes: "strength ratio at which a uniform sink disc with its image has a point of rest, wind from ahead",
    expression: "table of 16 heights, straight in ln K and ln(H/D) between them",
    arguments: &[argument("height_ratio", "H/D", Coefficient, 0.55, 5.0)],
    result: Coefficient,
    source: derived("uniform sink disc and its image, computed"),
    scatter: BOUND,
    evaluate: kernel!(|height| disc_strength(height, WindSide::Ahead), height),
};

/// Disc bound, wind across.
pub(crate) static DISC_BOUND_ACROSS: Formula = Formula {
    name: "ground-vortex-disc-bound-crosswind",
    computes: "strength ratio at which a uniform sink disc with its image has a point of rest, wind across",
    expression: "table of 9 heights, straight in ln K and ln(H/D) between them",
    arguments: &[argument("height_ratio", "H/D", Coefficient, 0.6, 5.0)],
    result: Coefficient,
    source: derived("uniform sink disc and its image, computed"),
    scatter: BOUND,
    evaluate: kernel!(|height| disc_strength(height, WindSide::Across), height),
};

/// Inflow along the ground.
pub(crate) static GROUND_INFLOW: Formula = Formula {
    name: "inlet-ground-inflow",
    computes: "greatest air speed along the ground toward an inlet without a vortex",
    expression: "u = Vi (D/H)²/(12 sqrt(3))",
    arguments: &[INSIDE, HEIGHT_RATIO],
    result: Speed,
    source: derived("point sink and its image in the ground"),
    scatter: "exact for inviscid flow without wind",
    evaluate: kernel!(ground_speed_of_sink, inside, height),
};

/// Core speed that lifts a stone.
pub(crate) static CORE_SPEED_TO_LIFT: Formula = Formula {
    name: "vortex-core-speed-to-lift",
    computes: "tangential speed of a vortex core whose pressure lifts a sphere no larger than the core",
    expression: "Vt = sqrt(2/3 rho_s/rho g d)",
    arguments: &[
        argument("diameter", "d", Length, 1e-5, 0.2),
        argument("stone_density", "rho_s", Density, 500.0, 5_000.0),
        AIR_DENSITY,
        argument("gravity", "g", Acceleration, 9.7, 9.9),
    ],
    result: Speed,
    source: derived("Rankine vortex, full pressure deficit on top of the sphere"),
    scatter: "a generous bound; no size law was published",
    evaluate: kernel!(core_speed_to_lift, diameter, stone, air, gravity),
};

/// Blow-down jet.
pub(crate) static DISSIPATOR_GROUND_SPEED: Formula = Formula {
    name: "vortex-dissipator-ground-speed",
    computes: "speed of a blow-down jet where it meets the ground",
    expression: "U = min(1, 6.2 d/s) Uj",
    arguments: &[
        argument("nozzle_diameter", "d", Length, 1e-4, 0.5),
        argument("jet_speed", "Uj", Speed, 0.0, 700.0),
        argument("path", "s", Length, 1e-3, 20.0),
    ],
    result: Speed,
    source: derived("free round jet, decay constant 6.2"),
    scatter: "decay constants of 5.8 to 6.2 are published",
    evaluate: kernel!(dissipator_ground_speed, nozzle, jet, path),
};

const THRUST: Argument = argument("thrust", "T", Force, 0.0, 1e6);
const DIAMETER: Argument = argument("propeller_diameter", "D", Length, 0.3, 10.0);
const AIRSPEED: Argument = argument("airspeed", "V", Speed, 0.0, 250.0);

/// Induced speed.
pub(crate) static PROPELLER_INDUCED_SPEED: Formula = Formula {
    name: "propeller-induced-speed",
    computes: "air speed added at the propeller disc",
    expression: "v = −V/2 + sqrt(V²/4 + T/(2 rho A))",
    arguments: &[THRUST, DIAMETER, AIRSPEED, AIR_DENSITY],
    result: Speed,
    source: derived("momentum theory of the actuator disc"),
    scatter: MOMENTUM,
    evaluate: kernel!(induced_speed, thrust, diameter, speed, density),
};

/// Slipstream diameter.
pub(crate) static PROPELLER_SLIPSTREAM_DIAMETER: Formula = Formula {
    name: "propeller-slipstream-diameter",
    computes: "diameter of the contracted slipstream",
    expression: "D sqrt((V + v)/(V + 2 v))",
    arguments: &[THRUST, DIAMETER, AIRSPEED, AIR_DENSITY],
    result: Length,
    source: derived("momentum theory of the actuator disc"),
    scatter: MOMENTUM,
    evaluate: kernel!(contracted_diameter, thrust, diameter, speed, density),
};

/// Static thrust.
pub(crate) static PROPELLER_STATIC_THRUST: Formula = Formula {
    name: "propeller-static-thrust",
    computes: "static thrust of a shaft power",
    expression: "T = (2 rho A (f P)²)^(1/3)",
    arguments: &[
        argument("shaft_power", "P", Power, 0.0, 20e6),
        argument("figure_of_merit", "f", Coefficient, 0.3, 1.0),
        DIAMETER,
        AIR_DENSITY,
    ],
    result: Force,
    source: derived("momentum theory of the actuator disc"),
    scatter: "figure of merit 0.65 to 0.75 is a judgement",
    evaluate: kernel!(static_thrust_kernel, power, merit, diameter, density),
};

/// Propeller blow-away speed.
pub(crate) static PROPELLER_BLOW_AWAY: Formula = Formula {
    name: "propeller-vortex-blow-away",
    computes: "relative wind below which a ground vortex under a propeller is possible",
    expression: "V0 = sqrt(T/(2 rho A)/((K/2)(1 + K/2))), A = pi D²/4, K of the sink disc at H/D; wind \
                 from ahead",
    arguments: &[THRUST, DIAMETER, argument("axis_height", "H", Length, 0.1, 30.0), AIR_DENSITY],
    result: Speed,
    source: derived("actuator disc as a sink disc of twice the induced speed"),
    scatter: "inviscid; real vortices last to a somewhat higher speed",
    evaluate: kernel!(blow_away_speed_kernel, thrust, diameter, height, density),
};

/// Thrust whose vortex a wind blows away.
pub(crate) static PROPELLER_FREE_THRUST: Formula = Formula {
    name: "propeller-vortex-free-thrust",
    computes: "thrust of a propeller whose ground vortex a relative wind just blows away",
    expression: "T = 2 rho A V0² (K/2)(1 + K/2), A = pi D²/4, K of the sink disc at H/D; wind from ahead",
    arguments: &[
        argument("relative_wind", "V0", Speed, 0.0, 200.0),
        DIAMETER,
        argument("axis_height", "H", Length, 0.1, 30.0),
        AIR_DENSITY,
    ],
    result: Force,
    source: derived("actuator disc as a sink disc of twice the induced speed"),
    scatter: "inviscid; real vortices last to a somewhat higher speed",
    evaluate: kernel!(free_thrust_kernel, wind, diameter, height, density),
};
