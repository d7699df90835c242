//! What a dossier of a strip is asked for.

use super::AskedError;
use hardpan_model::{Flight, Strip};
use hardpan_quantity::{Length, metres, parse};

/// Distances between main wheels that aeroplanes have, metres.
/// Source: common practice, no source.
const TRACKS_METRES: [f64; 2] = [0.3, 30.0];

/// Distance between the main wheels whose lanes a survey must cover.
///
/// # Errors
/// [`AskedError`] for a text that cannot be read, or one outside 0.3 m to 30 m.
pub fn wheel_track(text: &str) -> Result<Length, AskedError> {
    let wrong = |what| AskedError::Value { option: "track", what };
    let track: Length = parse(text).map_err(|error| wrong(error.to_string()))?;
    let [least, most] = TRACKS_METRES.map(metres);
    if (least..=most).contains(&track) {
        return Ok(track);
    }
    Err(wrong(format!("it is {text}, outside 0.3 m to 30 m between the main wheels")))
}

/// The flight over a strip as that strip's own file has it.
///
/// # Errors
/// [`AskedError`] when it uses a strip of another name.
pub fn flight_over(flight: Flight, strip: &Strip) -> Result<Flight, AskedError> {
    let named = |strip: &Strip| strip.name.as_ref().map(|name| name.value.clone());
    if named(&flight.strip) == named(strip) {
        return Ok(Flight { strip: strip.clone(), ..flight });
    }
    let name = |strip| named(strip).unwrap_or_else(|| "a strip without a name".to_owned());
    Err(AskedError::OtherStrip { flight: name(&flight.strip), strip: name(strip) })
}
