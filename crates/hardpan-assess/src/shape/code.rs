//! The code number and letter that the norms of slope and crossfall go by.

use crate::draft::{given_as, need};
use hardpan_model::{BasisInput, Flight, Need, Strip};
use hardpan_quantity::Amount;
use hardpan_surface::{CodeLetter, CodeNumber};

/// The code number: as the strip file states it, else by the length of the strip.
pub(crate) fn code_number(strip: &Strip) -> Option<(CodeNumber, BasisInput)> {
    const NAME: &str = "code number";
    if let Some(code) = &strip.reference_code {
        let digit = code.value.number;
        let input = given_as(NAME, code, Amount::count(f64::from(digit)));
        return Some((CodeNumber::of_digit(digit)?, input));
    }
    let length = strip.length.as_ref()?;
    let code = CodeNumber::of_length(length.value);
    let digit = Amount::count(code as u8 as f64 + 1.0);
    Some((code, given_as("code number, of the length", length, digit)))
}

/// The code letter: as the strip file states it, else by the span of the aeroplane.
pub(crate) fn code_letter(
    flight: &Flight,
) -> Result<(CodeLetter, BasisInput), (String, Vec<Need>)> {
    if let Some(code) = &flight.strip.reference_code
        && let Some(letter) = CodeLetter::of_char(code.value.letter)
    {
        let rank = Amount::count(letter as u8 as f64 + 1.0);
        return Ok((letter, given_as("code letter, A counted as 1", code, rank)));
    }
    let Some(span) = &flight.aeroplane.wing.span else {
        let wanted = [
            need("aeroplane: wing.span", "the code letter is taken from it"),
            need("strip: reference_code", "or the code that the strip is laid out for"),
        ];
        return Err(("the code letter is not known".to_owned(), wanted.into()));
    };
    match CodeLetter::of_span(span.value) {
        Some(letter) => Ok((letter, crate::draft::given("span", span))),
        None => Err(("no code letter has such a span".to_owned(), Vec::new())),
    }
}
