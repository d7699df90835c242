//! What does a tyre read after it is taken to another place and temperature?
//!
//! The gas in a tyre keeps its volume and its amount: absolute pressure goes
//! with absolute temperature, and the gauge reads it less the air around it.
//! Heat from rolling and braking comes on top and is not counted.

use crate::Error;
use crate::error::positive;
use crate::formulas::{argument, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Dimension, Pressure, Quantity, Temperature};

/// Gauge pressure at another place and temperature.
pub static TYRE_PRESSURE_GAS_LAW: Formula = Formula {
    name: "tyre-pressure-gas-law",
    computes: "gauge pressure of a tyre at another temperature and in other air",
    expression: "p2 = (p1 + a1) T2 / T1 - a2; T in kelvin",
    arguments: &[
        argument("gauge_pressure", "p1", Dimension::Pressure, 1e4, 3e6).printed_in("kPa"),
        argument("air_pressure", "a1", Dimension::AirPressure, 3e4, 1.1e5).printed_in("kPa"),
        argument("temperature", "T1", Dimension::Temperature, 193.15, 353.15).printed_in("K"),
        argument("air_pressure_there", "a2", Dimension::AirPressure, 3e4, 1.1e5).printed_in("kPa"),
        argument("temperature_there", "T2", Dimension::Temperature, 193.15, 353.15).printed_in("K"),
    ],
    result: Dimension::Pressure,
    source: Source::new("TEXTBOOK-PHYSICS", "ideal gas at constant volume", Tier::Derived),
    scatter: "exact for an ideal gas; the tyre's own stretch takes a little off the change",
    evaluate: kernel!(|gauge, air, from, air_there, to| (gauge + air) * to / from - air_there),
};

/// Air around a tyre, and the temperature that its gas has taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TyreAir {
    /// Pressure of the air.
    pub pressure: Pressure,
    /// Temperature of the gas in the tyre.
    pub temperature: Temperature,
}

/// Gauge pressure `there` of a tyre that reads `gauge` `here`.
///
/// # Errors
/// [`Error::NotPositive`] for a pressure or temperature that is not above
/// zero, the result included; [`Error::Formula`] outside the ranges.
pub fn gauge_pressure_there(
    gauge: Pressure,
    here: TyreAir,
    there: TyreAir,
) -> Result<Pressure, Error> {
    let air =
        |pressure: Pressure| hardpan_quantity::Amount::new(Dimension::AirPressure, pressure.si());
    let moved = TYRE_PRESSURE_GAS_LAW.value(&[
        gauge.into(),
        air(here.pressure),
        here.temperature.into(),
        air(there.pressure),
        there.temperature.into(),
    ])?;
    Ok(Pressure::from_si(positive("gauge pressure of the tyre there", "Pa", moved.si)?))
}
