//! The standard atmosphere, and the air at a strip from altimeter setting,
//! elevation and temperature. Dry air: humidity is a formula of its own.
//!
//! Checked in `validation/cases/run`.

use crate::entry::{argument, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Dimension, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};

/// Sea-level temperature, K. Source: [ICAO-7488] table of primary constants.
pub(crate) const SEA_LEVEL_TEMPERATURE_K: f64 = 288.15;
/// Sea-level pressure, Pa. Source: [ICAO-7488] table of primary constants.
pub(crate) const SEA_LEVEL_PRESSURE_PA: f64 = 101_325.0;
/// Sea-level density, kg/m³. Source: [ICAO-7488] table of primary constants.
pub(crate) const SEA_LEVEL_DENSITY: f64 = 1.225;
/// Gas constant of dry air, J/(kg K). Source: [ICAO-7488] table of primary constants.
const GAS_CONSTANT: f64 = 287.052_87;
/// Fall of temperature with geopotential height, K/m. Source: [ICAO-7488].
const LAPSE_K_PER_M: f64 = 0.0065;
/// Ratio of specific heats. Source: [ICAO-7488].
pub(crate) const HEAT_RATIO: f64 = 1.4;
const TROPOPAUSE_M: f64 = 11_000.0;
const TROPOPAUSE_K: f64 = 216.65;
/// g0 / (R L), the exponent of pressure against temperature.
const PRESSURE_EXPONENT: f64 = GRAVITY / (GAS_CONSTANT * LAPSE_K_PER_M);

const ICAO: Source = Source::new("ICAO-7488", "standard atmosphere below 11 km", Tier::Memory);
const HYDROSTATIC: Source =
    Source::new("ICAO-7488", "hydrostatic equation below 11 km", Tier::Memory);

/// Temperature of the standard atmosphere, K, at a geopotential height up to 20 km.
pub(crate) fn standard_temperature(height: f64) -> f64 {
    (SEA_LEVEL_TEMPERATURE_K - LAPSE_K_PER_M * height).max(TROPOPAUSE_K)
}

/// Pressure of the standard atmosphere, Pa, at a geopotential height up to 20 km.
pub(crate) fn standard_pressure(height: f64) -> f64 {
    let below = height.min(TROPOPAUSE_M);
    let ratio = (standard_temperature(below) / SEA_LEVEL_TEMPERATURE_K).powf(PRESSURE_EXPONENT);
    let above = (height - TROPOPAUSE_M).max(0.0);
    SEA_LEVEL_PRESSURE_PA * ratio * (-GRAVITY * above / (GAS_CONSTANT * TROPOPAUSE_K)).exp()
}

/// Density of dry air, kg/m³.
pub(crate) fn air_density(pressure: f64, temperature: f64) -> f64 {
    pressure / (GAS_CONSTANT * temperature)
}

/// Density of humid air, kg/m³, with the vapour pressure of Magnus and Tetens.
fn humid_air_density(pressure: f64, temperature: f64, relative_humidity: f64) -> f64 {
    let celsius = temperature - 273.15;
    let vapour = relative_humidity * 610.78 * 10f64.powf(7.5 * celsius / (237.3 + celsius));
    air_density(pressure - 0.378 * vapour, temperature)
}

fn standard_density(height: f64) -> f64 {
    air_density(standard_pressure(height), standard_temperature(height))
}

/// Speed of sound, m/s.
pub(crate) fn speed_of_sound(temperature: f64) -> f64 {
    (HEAT_RATIO * GAS_CONSTANT * temperature).sqrt()
}

/// Pressure altitude, m, for a pressure above that of the tropopause.
pub(crate) fn pressure_altitude(pressure: f64) -> f64 {
    let ratio = (pressure / SEA_LEVEL_PRESSURE_PA).powf(1.0 / PRESSURE_EXPONENT);
    SEA_LEVEL_TEMPERATURE_K / LAPSE_K_PER_M * (1.0 - ratio)
}

/// Pressure at the elevation, Pa, from the altimeter setting reduced to sea level.
pub(crate) fn station_pressure(sea_level_pressure: f64, elevation: f64) -> f64 {
    let at_sea = (sea_level_pressure / SEA_LEVEL_PRESSURE_PA).powf(1.0 / PRESSURE_EXPONENT);
    let here = at_sea - LAPSE_K_PER_M * elevation / SEA_LEVEL_TEMPERATURE_K;
    SEA_LEVEL_PRESSURE_PA * here.powf(PRESSURE_EXPONENT)
}

/// Density over that of the standard atmosphere at sea level.
fn density_ratio(pressure: f64, temperature: f64) -> f64 {
    pressure / SEA_LEVEL_PRESSURE_PA * SEA_LEVEL_TEMPERATURE_K / temperature
}

/// Altitude of the standard atmosphere that has the same density, m.
pub(crate) fn density_altitude(pressure: f64, temperature: f64) -> f64 {
    let root = density_ratio(pressure, temperature).powf(1.0 / (PRESSURE_EXPONENT - 1.0));
    SEA_LEVEL_TEMPERATURE_K / LAPSE_K_PER_M * (1.0 - root)
}

/// Temperature of the standard atmosphere.
pub(crate) static STANDARD_TEMPERATURE: Formula = Formula {
    name: "standard-temperature",
    computes: "temperature of the standard atmosphere",
    expression: "T = T0 - L h; T0 = 288.15 K, L = 0.0065 K/m; 216.65 K from 11 000 m",
    arguments: &[argument("height", "h", Dimension::Length, -1000.0, 20_000.0)],
    result: Dimension::Temperature,
    source: ICAO,
    scatter: "none: a definition",
    evaluate: kernel!(standard_temperature, h),
};

/// Pressure of the standard atmosphere.
pub(crate) static STANDARD_PRESSURE: Formula = Formula {
    name: "standard-pressure",
    computes: "pressure of the standard atmosphere",
    expression: "p = p0 (T/T0)^5.25588; above 11 000 m p = p11 exp[-g0 (h - 11000)/(R 216.65)]",
    arguments: &[argument("height", "h", Dimension::Length, -1000.0, 20_000.0)],
    result: Dimension::AirPressure,
    source: ICAO,
    scatter: "none: a definition",
    evaluate: kernel!(standard_pressure, h),
};

/// Density of the standard atmosphere.
pub(crate) static STANDARD_DENSITY: Formula = Formula {
    name: "standard-density",
    computes: "density of the standard atmosphere",
    expression: "rho = p/(R T); R = 287.05287 J/(kg K)",
    arguments: &[argument("height", "h", Dimension::Length, -1000.0, 20_000.0)],
    result: Dimension::Density,
    source: ICAO,
    scatter: "none: a definition",
    evaluate: kernel!(standard_density, h),
};

/// Speed of sound in dry air.
pub(crate) static SPEED_OF_SOUND: Formula = Formula {
    name: "speed-of-sound",
    computes: "speed of sound in dry air",
    expression: "a = sqrt(1.4 R T)",
    arguments: &[argument("temperature", "T", Dimension::Temperature, 180.0, 340.0)],
    result: Dimension::Speed,
    source: ICAO,
    scatter: "none: a definition",
    evaluate: kernel!(speed_of_sound, t),
};

/// Pressure altitude.
pub(crate) static PRESSURE_ALTITUDE: Formula = Formula {
    name: "pressure-altitude",
    computes: "altitude of the standard atmosphere that has the pressure",
    expression: "hp = (T0/L) [1 - (p/p0)^0.1902631]; p0 1013.25 hPa, T0 288.15 K, L 0.0065 K/m",
    arguments: &[
        argument("pressure", "p", Dimension::AirPressure, 22_700.0, 110_000.0).printed_in("hPa")
    ],
    result: Dimension::Length,
    source: HYDROSTATIC,
    scatter: "none: a definition",
    evaluate: kernel!(pressure_altitude, p),
};

/// Station pressure from the altimeter setting.
pub(crate) static STATION_PRESSURE: Formula = Formula {
    name: "station-pressure",
    computes: "pressure of the air at the elevation of the strip",
    expression: "p = p0 [(QNH/p0)^0.1902631 - L elev/T0]^5.25588; p0 1013.25 hPa, T0 288.15 K, \
                 L 0.0065 K/m",
    arguments: &[
        argument("sea_level_pressure", "QNH", Dimension::AirPressure, 85_000.0, 110_000.0)
            .printed_in("hPa"),
        argument("elevation", "elev", Dimension::Length, -500.0, 6000.0).printed_in("m"),
    ],
    result: Dimension::AirPressure,
    source: HYDROSTATIC,
    scatter: "report rounded down by up to 1 hPa: up to 8 m of altitude",
    evaluate: kernel!(station_pressure, qnh, elevation),
};

/// Density of dry air over standard sea-level density.
pub(crate) static DENSITY_RATIO: Formula = Formula {
    name: "density-ratio",
    computes: "density of dry air over standard sea-level density",
    expression: "sigma = delta/theta",
    arguments: &[
        argument("pressure", "p", Dimension::AirPressure, 10_000.0, 110_000.0),
        argument("temperature", "T", Dimension::Temperature, 180.0, 340.0),
    ],
    result: Dimension::Coefficient,
    source: HYDROSTATIC,
    scatter: "humid air is up to 1.6 % thinner at 30 degC",
    evaluate: kernel!(density_ratio, p, t),
};

/// Density altitude.
pub(crate) static DENSITY_ALTITUDE: Formula = Formula {
    name: "density-altitude",
    computes: "altitude of the standard atmosphere that has the density",
    expression: "hd = (T0/L) [1 - sigma^0.234969], sigma = (p/p0)/(T/T0); p0 1013.25 hPa, \
                 T0 288.15 K, L 0.0065 K/m",
    arguments: &[
        argument("pressure", "p", Dimension::AirPressure, 22_700.0, 110_000.0).printed_in("hPa"),
        argument("temperature", "T", Dimension::Temperature, 180.0, 340.0).printed_in("K"),
    ],
    result: Dimension::Length,
    source: HYDROSTATIC,
    scatter: "humid air at 30 degC stands up to 165 m higher",
    evaluate: kernel!(density_altitude, p, t),
};

/// Density of humid air.
pub(crate) static HUMID_AIR_DENSITY: Formula = Formula {
    name: "humid-air-density",
    computes: "density of humid air",
    expression: "rho = (p - 0.378 e)/(R T), e = RH 610.78 10^(7.5 t/(237.3 + t)) Pa",
    arguments: &[
        argument("pressure", "p", Dimension::AirPressure, 50_000.0, 110_000.0),
        argument("temperature", "T", Dimension::Temperature, 253.15, 323.15),
        argument("relative_humidity", "RH", Dimension::Ratio, 0.0, 1.0),
    ],
    result: Dimension::Density,
    source: Source::new("MAGNUS-TETENS", "saturation pressure over water", Tier::Memory),
    scatter: "vapour pressure within 0.5 % between -20 and 50 degC",
    evaluate: kernel!(humid_air_density, p, t, rh),
};
