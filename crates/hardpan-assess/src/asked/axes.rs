//! What a sheet of masses varies, as somebody writes it.

use super::AskedError;
use crate::masses::{FlapsTried, SheetAxes};
use hardpan_model::SurfaceState;
use hardpan_quantity::{Amount, Dimension, Pressure, Quantity, celsius, knots, parse};

/// Temperatures of the sheet when none are asked for, °C.
const TEMPERATURES: [f64; 6] = [-20.0, -10.0, 0.0, 10.0, 20.0, 30.0];
/// Headwinds of the sheet when none are asked for, kt.
const HEADWINDS: [f64; 4] = [-5.0, 0.0, 10.0, 20.0];
/// Air pressures that may be reduced to sea level anywhere.
/// Source: common practice, no source.
const AIR_PRESSURES_PA: std::ops::RangeInclusive<f64> = 87_000.0..=109_000.0;

/// Lists of values with their units; an empty one is as the sheet has it without.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AxesAsked {
    /// Outside temperatures; -20 °C to 30 °C without.
    pub temperatures: Vec<String>,
    /// Headwinds, negative from behind; -5 kt to 20 kt without.
    pub headwinds: Vec<String>,
    /// Main tyre pressures.
    pub pressures: Vec<String>,
    /// States of the surface.
    pub states: Vec<String>,
    /// Air pressures reduced to sea level.
    pub air_pressures: Vec<String>,
    /// Which flap settings are tried.
    pub flaps: FlapsTried,
}

impl AxesAsked {
    /// The lists as quantities, in rising order, each once, for a sheet of at most so many
    /// places.
    ///
    /// # Errors
    /// [`AskedError`] for a text that cannot be read, an air pressure outside 870 hPa to
    /// 1090 hPa, or too many places.
    pub fn read(&self, most: usize) -> Result<SheetAxes, AskedError> {
        let mut axes = SheetAxes {
            temperatures: quantities("temperatures", &self.temperatures)?,
            headwinds: quantities("headwinds", &self.headwinds)?,
            pressures: quantities("pressures", &self.pressures)?,
            states: self.states.iter().map(|word| state(word)).collect::<Result<_, _>>()?,
            air_pressures: air_pressures(&self.air_pressures)?,
            flaps: self.flaps,
        };
        if axes.temperatures.is_empty() {
            axes.temperatures = TEMPERATURES.map(celsius).to_vec();
        }
        if axes.headwinds.is_empty() {
            axes.headwinds = HEADWINDS.map(knots).to_vec();
        }
        let each = [axes.pressures.len(), axes.states.len(), axes.air_pressures.len()];
        let panels: usize = each.into_iter().map(|count| count.max(1)).product();
        let places = 2 * panels * axes.temperatures.len() * axes.headwinds.len();
        if places > most {
            return Err(AskedError::TooManyPlaces { places, most });
        }
        Ok(axes)
    }
}

fn wrong(option: &'static str, what: String) -> AskedError {
    AskedError::Value { option, what }
}

/// Values in rising order, each once.
fn quantities<Q: Quantity>(option: &'static str, texts: &[String]) -> Result<Vec<Q>, AskedError> {
    let mut values: Vec<Q> = Vec::new();
    for text in texts {
        values.push(parse(text).map_err(|error| wrong(option, error.to_string()))?);
    }
    values.sort_by(|a, b| a.si().total_cmp(&b.si()));
    values.dedup_by(|a, b| a.si() == b.si());
    Ok(values)
}

fn air_pressures(texts: &[String]) -> Result<Vec<Pressure>, AskedError> {
    let values: Vec<Pressure> = quantities("air-pressures", texts)?;
    match values.iter().find(|value| !AIR_PRESSURES_PA.contains(&value.si())) {
        None => Ok(values),
        Some(value) => {
            let read = Amount::new(Dimension::AirPressure, value.si()).told();
            let what = format!(
                "{read} is not an air pressure at sea level; write one from 870 hPa to 1090 hPa"
            );
            Err(wrong("air-pressures", what))
        }
    }
}

fn state(word: &str) -> Result<SurfaceState, AskedError> {
    let known = SurfaceState::ALL.into_iter().find(|state| state.word() == word.trim());
    known.ok_or_else(|| {
        let words = SurfaceState::ALL.map(SurfaceState::word).join(", ");
        wrong("states", format!("`{word}` is none of {words}"))
    })
}
