//! The unit table: exact factors to SI by international definition.
//!
//! Source: [NIST-SP-811] appendix B: 1 ft = 0.3048 m, 1 in = 25.4 mm,
//! 1 nmi = 1852 m, 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s².

use crate::{Dimension, STANDARD_GRAVITY_M_PER_S2};

const POUND_KG: f64 = 0.453_592_37;
const POUND_FORCE_N: f64 = POUND_KG * STANDARD_GRAVITY_M_PER_S2;
const INCH_M: f64 = 0.0254;
const FOOT_M: f64 = 0.3048;
const PSI_PA: f64 = POUND_FORCE_N / (INCH_M * INCH_M);
/// Conventional inch of mercury (at 0 °C), 3386.389 Pa. Source: [NIST-SP-811] B.8.
const INCH_MERCURY_PA: f64 = 3386.389;

/// One way to write a quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As written after the number.
    pub symbol: &'static str,
    /// SI value of one of it.
    pub factor: f64,
    /// SI value of zero of it (temperature scales only).
    pub offset: f64,
}

const fn unit(symbol: &'static str, factor: f64) -> Unit {
    Unit { symbol, factor, offset: 0.0 }
}

const LENGTH: &[Unit] = &[
    unit("m", 1.0),
    unit("ft", FOOT_M),
    unit("in", INCH_M),
    unit("mm", 1e-3),
    unit("cm", 1e-2),
    unit("km", 1e3),
    unit("nm", 1852.0),
];
const AREA: &[Unit] = &[
    unit("m2", 1.0),
    unit("m²", 1.0),
    unit("ft2", FOOT_M * FOOT_M),
    unit("in2", INCH_M * INCH_M),
    unit("mm2", 1e-6),
    unit("cm2", 1e-4),
];
const VOLUME: &[Unit] =
    &[unit("m3", 1.0), unit("m³", 1.0), unit("ft3", FOOT_M * FOOT_M * FOOT_M), unit("L", 1e-3)];
const MASS: &[Unit] = &[unit("kg", 1.0), unit("t", 1e3), unit("lb", POUND_KG), unit("g", 1e-3)];
const FORCE: &[Unit] = &[unit("N", 1.0), unit("kN", 1e3), unit("lbf", POUND_FORCE_N)];
const PRESSURE: &[Unit] = &[
    unit("kPa", 1e3),
    unit("psi", PSI_PA),
    unit("bar", 1e5),
    unit("MPa", 1e6),
    unit("Pa", 1.0),
    unit("hPa", 1e2),
    unit("GPa", 1e9),
];
const AIR_PRESSURE: &[Unit] = &[
    unit("hPa", 1e2),
    unit("inHg", INCH_MERCURY_PA),
    unit("mbar", 1e2),
    unit("kPa", 1e3),
    unit("Pa", 1.0),
];
const SPEED: &[Unit] = &[
    unit("kt", 1852.0 / 3600.0),
    unit("m/s", 1.0),
    unit("km/h", 1.0 / 3.6),
    unit("ft/s", FOOT_M),
    unit("mph", 1609.344 / 3600.0),
];
const TEMPERATURE: &[Unit] = &[
    Unit { symbol: "degC", factor: 1.0, offset: 273.15 },
    Unit { symbol: "°C", factor: 1.0, offset: 273.15 },
    Unit { symbol: "degF", factor: 5.0 / 9.0, offset: 273.15 - 32.0 * 5.0 / 9.0 },
    Unit { symbol: "°F", factor: 5.0 / 9.0, offset: 273.15 - 32.0 * 5.0 / 9.0 },
    unit("K", 1.0),
];
const ANGLE: &[Unit] = &[
    unit("deg", std::f64::consts::PI / 180.0),
    unit("°", std::f64::consts::PI / 180.0),
    unit("rad", 1.0),
];
const RATIO: &[Unit] = &[unit("%", 1e-2)];
const TIME: &[Unit] = &[unit("s", 1.0), unit("min", 60.0), unit("h", 3600.0), unit("d", 86_400.0)];
const ACCELERATION: &[Unit] = &[unit("m/s2", 1.0), unit("g", STANDARD_GRAVITY_M_PER_S2)];
const DENSITY: &[Unit] =
    &[unit("kg/m3", 1.0), unit("lb/ft3", POUND_KG / (FOOT_M * FOOT_M * FOOT_M))];
const ENERGY: &[Unit] =
    &[unit("MJ", 1e6), unit("kJ", 1e3), unit("J", 1.0), unit("ft-lb", POUND_FORCE_N * FOOT_M)];
const TORQUE: &[Unit] =
    &[unit("kN m", 1e3), unit("N m", 1.0), unit("ft-lb", POUND_FORCE_N * FOOT_M)];
const POWER: &[Unit] =
    &[unit("kW", 1e3), unit("hp", 550.0 * POUND_FORCE_N * FOOT_M), unit("MW", 1e6), unit("W", 1.0)];
const MASS_FLOW: &[Unit] = &[unit("kg/s", 1.0), unit("lb/s", POUND_KG)];
const BEARING: &[Unit] = &[unit("%", 1.0)];
const PENETRATION: &[Unit] = &[unit("mm/blow", 1e-3), unit("in/blow", INCH_M)];

/// Every unit that may be written for a dimension, the preferred one first.
/// Empty for coefficients and counts, which take a plain number.
#[must_use]
pub fn units_of(dimension: Dimension) -> &'static [Unit] {
    match dimension {
        Dimension::Length => LENGTH,
        Dimension::Area => AREA,
        Dimension::Volume => VOLUME,
        Dimension::Mass => MASS,
        Dimension::Force => FORCE,
        Dimension::Pressure => PRESSURE,
        Dimension::AirPressure => AIR_PRESSURE,
        Dimension::Speed => SPEED,
        Dimension::Temperature => TEMPERATURE,
        Dimension::Angle => ANGLE,
        Dimension::Ratio => RATIO,
        Dimension::Time => TIME,
        Dimension::Acceleration => ACCELERATION,
        Dimension::Density => DENSITY,
        Dimension::Energy => ENERGY,
        Dimension::Torque => TORQUE,
        Dimension::Power => POWER,
        Dimension::MassFlow => MASS_FLOW,
        Dimension::BearingRatio => BEARING,
        Dimension::PenetrationRate => PENETRATION,
        Dimension::Coefficient | Dimension::Count => &[],
    }
}

/// Every dimension that is written with a unit.
pub const WITH_UNITS: &[Dimension] = &[
    Dimension::Length,
    Dimension::Area,
    Dimension::Volume,
    Dimension::Mass,
    Dimension::Force,
    Dimension::Pressure,
    Dimension::AirPressure,
    Dimension::Speed,
    Dimension::Temperature,
    Dimension::Angle,
    Dimension::Ratio,
    Dimension::Time,
    Dimension::Acceleration,
    Dimension::Density,
    Dimension::Energy,
    Dimension::Torque,
    Dimension::Power,
    Dimension::MassFlow,
    Dimension::PenetrationRate,
];
