//! What a value can be at all. Outside these bounds lies a slip of the pen or
//! of the unit, never a real aeroplane or strip. They are wide on purpose and
//! are no limits of operation. Source: judgement, no document.

use hardpan_quantity::STANDARD_GRAVITY_M_PER_S2;

/// Least and greatest value, in the SI unit of the key's kind, both allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bounds {
    pub(crate) low: f64,
    pub(crate) high: f64,
}

impl Bounds {
    pub(crate) fn hold(self, si: f64) -> bool {
        si >= self.low && si <= self.high
    }
}

const fn between(low: f64, high: f64) -> Bounds {
    Bounds { low, high }
}

const KNOT: f64 = 1852.0 / 3600.0;
const DEGREE: f64 = std::f64::consts::PI / 180.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;
const ZERO_CELSIUS: f64 = 273.15;

pub(crate) const MASS: Bounds = between(500.0, 700e3);
pub(crate) const CHORD: Bounds = between(0.5, 20.0);
pub(crate) const CHORD_PLACE: Bounds = between(-0.5, 2.0);
pub(crate) const CENTRE_HEIGHT: Bounds = between(0.2, 10.0);
pub(crate) const WING_AREA: Bounds = between(5.0, 1000.0);
pub(crate) const SPAN: Bounds = between(5.0, 90.0);
pub(crate) const WING_HEIGHT: Bounds = between(0.3, 15.0);
pub(crate) const DRAG: Bounds = between(0.0, 0.5);
pub(crate) const LIFT_MAXIMUM: Bounds = between(0.5, 5.0);
pub(crate) const LIFT_ON_GROUND: Bounds = between(-1.0, 3.0);
pub(crate) const INDUCED: Bounds = between(0.005, 0.5);

pub(crate) const THRUST: Bounds = between(500.0, 600e3);
pub(crate) const BYPASS: Bounds = between(0.0, 20.0);
pub(crate) const TEMPERATURE: Bounds = between(ZERO_CELSIUS - 80.0, ZERO_CELSIUS + 60.0);
pub(crate) const POWER: Bounds = between(50e3, 15e6);
pub(crate) const PROPELLER: Bounds = between(0.8, 8.0);
pub(crate) const EFFICIENCY: Bounds = between(0.1, 0.95);
pub(crate) const IDLE_SHARE: Bounds = between(0.0, 0.3);
pub(crate) const INLET_DIAMETER: Bounds = between(0.1, 5.0);
pub(crate) const INLET_HEIGHT: Bounds = between(0.1, 12.0);
pub(crate) const AIR_FLOW: Bounds = between(0.5, 2000.0);
pub(crate) const BLEED_LOSS: Bounds = between(0.0, 0.3);

pub(crate) const EFFLUX: Bounds = between(5.0, 700.0);
pub(crate) const LIP_DISTANCE: Bounds = between(0.1, 50.0);

pub(crate) const WHEELBASE: Bounds = between(1.0, 50.0);
pub(crate) const TRACK: Bounds = between(1.0, 20.0);
pub(crate) const SIDE_FORCE_AREA: Bounds = between(1.0, 1000.0);
pub(crate) const SIDE_FORCE_HEIGHT: Bounds = between(0.3, 15.0);
pub(crate) const SIDE_FORCE_BEHIND: Bounds = between(0.05, 30.0);
pub(crate) const RUDDER_FORCE_AREA: Bounds = between(0.1, 500.0);
pub(crate) const RUDDER_ARM: Bounds = between(0.5, 60.0);
pub(crate) const ENGINE_ARM: Bounds = between(0.0, 50.0);
pub(crate) const NOSE_SIDE_FACTOR: Bounds = between(0.0, 2.0);
pub(crate) const CROSSWIND_SHARE: Bounds = between(0.0, 0.5);
pub(crate) const WHEEL_SPACING: Bounds = between(0.1, 4.0);
pub(crate) const PISTON_AREA: Bounds = between(1e-4, 0.2);
pub(crate) const PRELOAD: Bounds = between(50e3, 2e7);
pub(crate) const GAS_VOLUME: Bounds = between(1e-5, 0.2);
pub(crate) const POLYTROPIC: Bounds = between(1.0, 1.4);
pub(crate) const DAMPING_FORCE: Bounds = between(100.0, 5e6);
pub(crate) const STROKE_RATE: Bounds = between(0.1, 10.0);
pub(crate) const UNSPRUNG_MASS: Bounds = between(2.0, 5e3);
pub(crate) const GYRATION: Bounds = between(0.3, 30.0);
pub(crate) const COCKPIT_PLACE: Bounds = between(-30.0, 20.0);
pub(crate) const TYRE_DIAMETER: Bounds = between(0.15, 2.5);
pub(crate) const FLANGE_DIAMETER: Bounds = between(0.08, 1.6);
pub(crate) const AXLE_HEIGHT: Bounds = between(0.04, 1.3);
pub(crate) const STROKE: Bounds = between(0.0, 1.0);
pub(crate) const TYRE_WIDTH: Bounds = between(0.05, 1.2);
pub(crate) const TYRE_LOAD: Bounds =
    between(100.0 * STANDARD_GRAVITY_M_PER_S2, 50e3 * STANDARD_GRAVITY_M_PER_S2);
pub(crate) const TYRE_PRESSURE: Bounds = between(50e3, 3e6);
pub(crate) const TYRE_SPEED: Bounds = between(40.0 * KNOT, 300.0 * KNOT);
pub(crate) const BRAKING: Bounds = between(0.01, 0.9);
pub(crate) const FITTED_DEVIATION: Bounds = between(0.0, 0.4);
pub(crate) const ROLLING: Bounds = between(0.005, 0.5);
pub(crate) const CONTROL_SWING: Bounds = between(0.0, 30.0);
pub(crate) const BRAKE_FORCE: Bounds = between(500.0, 500e3);
pub(crate) const BRAKE_TORQUE: Bounds = between(100.0, 300e3);
pub(crate) const REVERSE_FORCE: Bounds = between(0.0, 300e3);
pub(crate) const BRAKE_ENERGY: Bounds = between(0.05e6, 250e6);
pub(crate) const SPEED_RATIO: Bounds = between(0.7, 2.0);
pub(crate) const CONTROL_SPEED: Bounds = between(20.0 * KNOT, 250.0 * KNOT);
pub(crate) const SHORT_TIME: Bounds = between(0.0, 30.0);
pub(crate) const TURN_ROUND: Bounds = between(60.0, 30.0 * DAY);
pub(crate) const COOLING: Bounds = between(0.0, DAY);
/// Fuel or load aboard, a threshold laid up the strip, and money for one of anything.
pub(crate) const FUEL: Bounds = between(0.0, 300e3);
pub(crate) const DISPLACED: Bounds = between(0.0, 3000.0);
pub(crate) const COST: Bounds = between(0.0, 1e9);
/// Level of a decision: it may be raised above the least, never lowered.
pub(crate) const LEVEL: Bounds = between(0.95, 0.999);
/// Standard deviations, over the value or in its unit; 0 says that it is exact.
pub(crate) const UNSURE: Bounds = between(0.0, 1.0);
pub(crate) const UNSURE_LOAD: Bounds = between(0.0, 0.2);
pub(crate) const UNSURE_WIND: Bounds = between(0.0, 30.0 * KNOT);
pub(crate) const UNSURE_DIRECTION: Bounds = between(0.0, 90.0 * DEGREE);
pub(crate) const UNSURE_KELVINS: Bounds = between(0.0, 20.0);
pub(crate) const UNSURE_AIR_PRESSURE: Bounds = between(0.0, 3000.0);
pub(crate) const LANDING_FACTOR: Bounds = between(1.0, 5.0);
pub(crate) const CONTINUOUS_SHARE: Bounds = between(0.3, 1.0);
pub(crate) const TOUCHDOWN_SCATTER: Bounds = between(1.0, 400.0);
pub(crate) const BRAKE_TARGET: Bounds = between(0.3, 8.0);
/// Pressure ratio, fan speed in per cent or a number a minute, torque.
pub(crate) const SETTING: Bounds = between(0.1, 1e5);
pub(crate) const WIND_GRADIENT: Bounds = between(0.0, 0.5);
/// From the screen of a wet take-off to that of a dry one.
pub(crate) const WET_SCREEN: Bounds = between(4.572, 10.668);
pub(crate) const GEAR_TIME: Bounds = between(1.0, 120.0);
pub(crate) const LEVEL_OFF: Bounds = between(120.0, 1500.0);
pub(crate) const BODY_PLACE: Bounds = between(-30.0, 90.0);
pub(crate) const BODY_HEIGHT: Bounds = between(0.02, 15.0);
pub(crate) const BODY_WIDTH: Bounds = between(0.02, 90.0);
pub(crate) const BODY_OFFSET: Bounds = between(0.0, 45.0);
pub(crate) const BLADE_SPEED: Bounds = between(10.0, 350.0);
pub(crate) const INSPECTION: Bounds = between(HOUR, 3660.0 * DAY);

pub(crate) const STRIP_ELEVATION: Bounds = between(-450.0, 5600.0);
pub(crate) const STRIP_LENGTH: Bounds = between(100.0, 6000.0);
pub(crate) const STRIP_WIDTH: Bounds = between(5.0, 200.0);
pub(crate) const CIRCLE: Bounds = between(0.0, std::f64::consts::TAU * (1.0 + 1e-12));
pub(crate) const SURFACING: Bounds = between(0.0, 2.0);
pub(crate) const DECLARED: Bounds = between(50.0, 8000.0);
pub(crate) const SOUNDING_REACH: Bounds = between(0.5, 1000.0);
pub(crate) const WHEEL_WANDER: Bounds = between(0.05, 5.0);
pub(crate) const SOUNDING_SPACING: Bounds = between(1.0, 2000.0);
/// Half of the strengths lie below the middle one: more would flatter.
pub(crate) const STRENGTH_PERCENTILE: Bounds = between(0.01, 0.5);
pub(crate) const CORRELATION_LENGTH: Bounds = between(0.5, 1000.0);
/// Numbers of the rating in classes of 100 (PCR) lie above, and must not be
/// taken for a PCN.
pub(crate) const STRENGTH_NUMBER: Bounds = between(1.0, 130.0);
/// From clay to fine sand.
pub(crate) const DUST_GRAIN: Bounds = between(1e-6, 0.5e-3);
pub(crate) const CABLE_TOP: Bounds = between(0.01, 0.5);
pub(crate) const CABLE_TENSION: Bounds = between(100.0, 500e3);
pub(crate) const CABLE_MASS: Bounds = between(0.1, 30.0);
/// Rut or bump at a cable.
pub(crate) const AT_CABLE: Bounds = between(0.0, 0.5);
pub(crate) const LEVEL_NOISE: Bounds = between(0.0, 0.2);
pub(crate) const EDGE_LENGTH: Bounds = between(0.5, 200.0);
pub(crate) const EDGE_LIMIT: Bounds = between(0.001, 1.0);
/// Cells that a cloud is gridded in.
pub(crate) const CLOUD_CELL: Bounds = between(0.05, 20.0);
/// Coordinates of any plane frame.
pub(crate) const COORDINATE: Bounds = between(-1e8, 1e8);
/// No strip lies nearer to a pole.
pub(crate) const LATITUDE: Bounds = between(-88.0 * DEGREE, 88.0 * DEGREE);
pub(crate) const LONGITUDE: Bounds = between(-360.0 * DEGREE, 360.0 * DEGREE);
pub(crate) const STATION: Bounds = between(0.0, 10e3);
pub(crate) const OFFSET: Bounds = between(-200.0, 200.0);
pub(crate) const OBSTACLE_STATION: Bounds = between(-30e3, 40e3);
pub(crate) const OBSTACLE_OFFSET: Bounds = between(-10e3, 10e3);
pub(crate) const OBSTACLE_HEIGHT: Bounds = between(-1000.0, 3000.0);
pub(crate) const OBSTACLE_ELEVATION: Bounds = between(-450.0, 8900.0);
pub(crate) const AREA_STATION: Bounds = between(-1000.0, 10e3);
pub(crate) const SOUNDING_DEPTH: Bounds = between(0.0, 5.0);
pub(crate) const TURN_RADIUS: Bounds = between(1.0, 200.0);
pub(crate) const TURN_SPEED: Bounds = between(0.5 * KNOT, 40.0 * KNOT);
pub(crate) const BEARING_RATIO: Bounds = between(0.05, 300.0);
pub(crate) const MODULUS: Bounds = between(0.5e6, 5e9);
/// The trafficability scale ends at 300, the airfield scale at 15.
pub(crate) const CONE_INDEX: Bounds = between(0.0, 300.0);
pub(crate) const MOISTURE: Bounds = between(0.0, 3.0);
pub(crate) const BLOWS: Bounds = between(0.0, 1000.0);

pub(crate) const CHART_DISTANCE: Bounds = between(10.0, 20_000.0);
pub(crate) const CHART_ALTITUDE: Bounds = between(-1000.0, 6000.0);
pub(crate) const CHART_DEGREES: Bounds = between(-80.0, 80.0);
pub(crate) const CHART_WIND: Bounds = between(-60.0 * KNOT, 120.0 * KNOT);
pub(crate) const CHART_SLOPE: Bounds = between(-0.1, 0.1);
pub(crate) const WIND: Bounds = between(0.0, 120.0 * KNOT);
/// Records of reduced air pressure lie inside.
pub(crate) const SEA_LEVEL_PRESSURE: Bounds = between(850e2, 1100e2);
/// The wettest hour on record brought about 0.4 m.
pub(crate) const RAIN_IN_AN_HOUR: Bounds = between(0.0, 0.5);
pub(crate) const RUT_DEPTH: Bounds = between(0.001, 1.0);
pub(crate) const SINKAGE: Bounds = between(0.001, 0.3);
pub(crate) const PATCH_DEPTH: Bounds = between(0.0005, 1.0);
pub(crate) const STONES_PER_SQUARE_METRE: Bounds = between(0.0, 1e5);
pub(crate) const STONE: Bounds = between(0.0005, 0.5);

pub(crate) const DAILY_RANGE: Bounds = between(0.0, 40.0);
pub(crate) const DAILY_CELSIUS: Bounds = between(-65.0, 65.0);
pub(crate) const DAILY_FAHRENHEIT: Bounds = between(-85.0, 149.0);
pub(crate) const RECOVERY: Bounds = between(DAY, 365.0 * DAY);
pub(crate) const MONTHLY_MEAN: Bounds = between(ZERO_CELSIUS - 60.0, ZERO_CELSIUS + 45.0);
pub(crate) const SURFACE_FACTOR: Bounds = between(0.1, 3.0);
pub(crate) const CONDUCTIVITY: Bounds = between(0.1, 5.0);
pub(crate) const DRY_DENSITY: Bounds = between(500.0, 2500.0);
pub(crate) const WATER_CONTENT: Bounds = between(0.005, 2.0);
pub(crate) const SEASON_STRENGTH: Bounds = between(0.02, 1.0);
pub(crate) const RUT: Bounds = between(0.0, 0.6);
pub(crate) const PASSES: Bounds = between(1.0, 1e6);
pub(crate) const REPORT_AGE: Bounds = between(60.0, 7.0 * DAY);
pub(crate) const SURVEY_AGE: Bounds = between(DAY, 20.0 * 366.0 * DAY);
pub(crate) const SPEED_ADDITION: Bounds = between(0.0, 40.0 * KNOT);
pub(crate) const TAXI_SPEED: Bounds = between(0.5 * KNOT, 60.0 * KNOT);
pub(crate) const LINE_UP: Bounds = between(0.0, 500.0);
pub(crate) const DECISION_SPEED: Bounds = between(30.0 * KNOT, 250.0 * KNOT);
pub(crate) const SCHEDULE_SPEED: Bounds = between(0.0, 200.0 * KNOT);
pub(crate) const THRUST_SHARE: Bounds = between(0.01, 1.0);
/// A limit may be a limit of anything.
pub(crate) const ANYTHING: Bounds = between(-1e12, 1e12);
/// First and last year of a date.
pub(crate) const YEARS: (i16, i16) = (2000, 2099);
