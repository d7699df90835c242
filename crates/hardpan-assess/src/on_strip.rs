//! When a flight stands on the strip.

use hardpan_model::Flight;
use hardpan_quantity::Quantity as _;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::Offset;
use jiff::{SignedDuration, Timestamp};

/// The time for which a flight needs its strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnStrip {
    /// From when on.
    pub from: Timestamp,
    /// Until when.
    pub to: Timestamp,
    /// Whether the time of the movement is stated; else it is all of its day, wherever
    /// on the globe that is.
    pub is_timed: bool,
}

/// Hours by which a local day may begin before that of UTC, and end after it.
const EAST: SignedDuration = SignedDuration::from_hours(14);
const WEST: SignedDuration = SignedDuration::from_hours(12);

/// When a flight stands on its strip: from the movement on, through the time on the
/// ground where it lands and takes off again; all of its day without a time, and none
/// without a day.
#[must_use]
pub fn on_strip(flight: &Flight) -> Option<OnStrip> {
    if let Some(time) = &flight.day.time_utc {
        let from = of_utc(time.value)?;
        let is_both = flight.landing.is_some() && flight.take_off.is_some();
        let stay = flight.turn_round.as_ref().filter(|_| is_both);
        let stay = stay.map_or(0.0, |stay| stay.value.si().clamp(0.0, 1e9));
        let to = from.checked_add(SignedDuration::from_secs_f64(stay)).ok()?;
        return Some(OnStrip { from, to, is_timed: true });
    }
    let day: Date = flight.day.date.as_ref()?.value;
    let from = of_utc(day.to_datetime(Time::midnight()))?.checked_sub(EAST).ok()?;
    let next = day.tomorrow().ok()?.to_datetime(Time::midnight());
    let to = of_utc(next)?.checked_add(WEST).ok()?;
    Some(OnStrip { from, to, is_timed: false })
}

fn of_utc(time: DateTime) -> Option<Timestamp> {
    Offset::UTC.to_timestamp(time).ok()
}
