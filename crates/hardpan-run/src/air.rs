//! The air at the strip on the day.

pub(crate) mod airspeed;
pub(crate) mod atmosphere;
pub(crate) mod sun;
pub(crate) mod wind;

use crate::Error;
use crate::air::atmosphere::{
    SEA_LEVEL_DENSITY, SEA_LEVEL_PRESSURE_PA, SEA_LEVEL_TEMPERATURE_K, air_density,
    density_altitude, pressure_altitude, speed_of_sound, standard_pressure, standard_temperature,
    station_pressure,
};
use crate::need::Needs;
use hardpan_model::{Day, Need, Strip};
use hardpan_quantity::{Density, Length, Pressure, Quantity, Speed, Temperature};

/// Pressures that [`Air`] takes: above the tropopause's, below any ever measured.
const PRESSURE_PA: std::ops::RangeInclusive<f64> = 30_000.0..=110_000.0;
/// Temperatures that [`Air`] takes, wider than any ever measured at a strip.
const TEMPERATURE_K: std::ops::RangeInclusive<f64> = 183.15..=333.15;

/// Dry air of one pressure and temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    pub(crate) pressure_pa: f64,
    pub(crate) temperature_k: f64,
    pub(crate) density: f64,
    pub(crate) sound: f64,
}

impl Air {
    /// Air of a pressure (300 to 1100 hPa) and temperature (-90 to 60 °C).
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside these ranges.
    pub fn new(pressure: Pressure, temperature: Temperature) -> Result<Self, Error> {
        let pressure_pa = Error::check_air_pressure("pressure of the air", pressure, PRESSURE_PA)?;
        let temperature_k = Error::check("temperature of the air", temperature, TEMPERATURE_K)?;
        Ok(Self {
            pressure_pa,
            temperature_k,
            density: air_density(pressure_pa, temperature_k),
            sound: speed_of_sound(temperature_k),
        })
    }

    /// Air of the standard atmosphere at an altitude, off standard temperature
    /// by `warmer_k` kelvin.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] above about 9 km or off any plausible temperature.
    pub fn standard(altitude: Length, warmer_k: f64) -> Result<Self, Error> {
        Self::new(
            Pressure::from_si(standard_pressure(altitude.si())),
            Temperature::from_si(standard_temperature(altitude.si()) + warmer_k),
        )
    }

    /// The air at the reference threshold of the strip on the day.
    ///
    /// # Errors
    /// A [`Need`] for each of elevation, temperature and altimeter setting that
    /// is missing or implausible.
    pub fn at(strip: &Strip, day: &Day) -> Result<Self, Vec<Need>> {
        let mut needs = Needs::default();
        let elevation = needs.quantity(
            "strip: elevation",
            strip.elevation.as_ref(),
            -500.0..=6000.0,
            "pressure at the strip follows from altimeter setting and elevation",
        );
        let sea_level = needs.quantity(
            "day: sea_level_pressure",
            day.sea_level_pressure.as_ref(),
            85_000.0..=110_000.0,
            "thrust and lift depend on the pressure of the air",
        );
        let temperature = needs.quantity(
            "day: temperature",
            day.temperature.as_ref(),
            TEMPERATURE_K,
            "thrust and lift depend on the temperature of the air",
        );
        let pressure = needs.finish(station_pressure(sea_level, elevation))?;
        Self::new(Pressure::from_si(pressure), Temperature::from_si(temperature)).map_err(|error| {
            vec![Need { what: "strip: elevation".to_owned(), how: error.to_string() }]
        })
    }

    /// Pressure at the strip.
    #[must_use]
    pub fn pressure(&self) -> Pressure {
        Pressure::from_si(self.pressure_pa)
    }

    /// Temperature.
    #[must_use]
    pub fn temperature(&self) -> Temperature {
        Temperature::from_si(self.temperature_k)
    }

    /// Density.
    #[must_use]
    pub fn density(&self) -> Density {
        Density::from_si(self.density)
    }

    /// Speed of sound.
    #[must_use]
    pub fn speed_of_sound(&self) -> Speed {
        Speed::from_si(self.sound)
    }

    /// Pressure altitude.
    #[must_use]
    pub fn pressure_altitude(&self) -> Length {
        Length::from_si(pressure_altitude(self.pressure_pa))
    }

    /// Density altitude.
    #[must_use]
    pub fn density_altitude(&self) -> Length {
        Length::from_si(density_altitude(self.pressure_pa, self.temperature_k))
    }

    /// Kelvin above the standard temperature of the pressure altitude; negative below.
    #[must_use]
    pub fn warmer_than_standard_k(&self) -> f64 {
        self.temperature_k - standard_temperature(pressure_altitude(self.pressure_pa))
    }

    /// Density over standard sea-level density.
    #[must_use]
    pub fn density_ratio(&self) -> f64 {
        self.density / SEA_LEVEL_DENSITY
    }

    pub(crate) fn pressure_ratio(&self) -> f64 {
        self.pressure_pa / SEA_LEVEL_PRESSURE_PA
    }

    pub(crate) fn temperature_ratio(&self) -> f64 {
        self.temperature_k / SEA_LEVEL_TEMPERATURE_K
    }
}
