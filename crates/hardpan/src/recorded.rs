//! What a book says of the strip of a flight.

use hardpan_assess::on_strip;
use hardpan_book::{Entry, strip_told};
use hardpan_model::{Flight, StripRecord};
use jiff::Timestamp;

/// What the entries that stand in a book say of the strip of a flight, at its time; none
/// for a strip without a name.
pub(crate) fn recorded(standing: &[&Entry], book: &str, flight: &Flight) -> Option<StripRecord> {
    let strip = flight.strip.name.as_ref()?;
    let at = on_strip(flight).map_or(Timestamp::MAX, |stay| match stay.is_timed {
        true => stay.from,
        false => stay.to,
    });
    let told = strip_told(standing, book, &strip.value, at);
    Some(StripRecord { book: book.into(), told })
}
