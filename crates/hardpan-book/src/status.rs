//! Whether a strip is open, as far as the record tells.

use crate::counts::{day_of, last_inspection};
use crate::due::due_dates;
use crate::{Closure, ClosureAction, Entry, Inspection, Record};
use hardpan_quantity::{Length, Quantity as _, Time, millimetres};
use jiff::Timestamp;

/// A rut of this depth or more restricts a strip, millimetres: 3 in, rounded
/// down. [CFR-14-139-307] allows holes and depressions of 3 in at most.
pub const LARGEST_RUT_MILLIMETRES: f64 = 76.0;

/// Seconds of a day.
const DAY: f64 = 86_400.0;

/// State of a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Nothing recorded stands against its use.
    Open,
    /// Something recorded, or overdue, stands against unrestricted use.
    Restricted,
    /// Closed by a record.
    Closed,
    /// Never inspected, so nothing is known.
    NotKnown,
}

impl State {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Restricted => "restricted",
            Self::Closed => "closed",
            Self::NotKnown => "not known",
        }
    }
}

/// State of a strip, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct Status {
    /// The state.
    pub state: State,
    /// Why, one sentence each.
    pub reasons: Vec<String>,
    /// When it was last inspected.
    pub inspected: Option<Timestamp>,
}

/// State of a strip at `now`. An inspection older than `longest` restricts it;
/// so does one that a closure followed, and a survey whose day is past. A rut of 3 in or more restricts it
/// [CFR-14-139-307]; that any standing water does is a judgement. A strip that
/// was never inspected is never open.
#[must_use]
pub fn status(entries: &[&Entry], strip: &str, now: Timestamp, longest: Time) -> Status {
    let inspection = last_inspection(entries, strip, now);
    let closures = closures(entries, strip, now);
    let inspected = inspection.map(|one| one.at);
    if let Some(last) = closures.last().filter(|one| one.action == ClosureAction::Closed) {
        let reasons = vec![format!("closed from {}: {}", last.from, last.reason)];
        return Status { state: State::Closed, reasons, inspected };
    }
    let Some(inspection) = inspection else {
        let reasons = vec!["no inspection is recorded".to_owned()];
        return Status { state: State::NotKnown, reasons, inspected };
    };
    let mut reasons = against(inspection, now, longest);
    let today = day_of(now);
    for due in due_dates(entries).into_iter().filter(|due| due.subject == strip) {
        if let Some(date) = due.date.filter(|date| *date < today) {
            reasons.push(format!("{} should have been measured again by {date}", due.what));
        }
    }
    let closed = closures.iter().rev().find(|one| one.action == ClosureAction::Closed);
    if let Some(closed) = closed.filter(|closed| closed.from >= inspection.at) {
        reasons.push(format!(
            "not inspected since the closure of {} ({})",
            closed.from, closed.reason
        ));
    }
    if reasons.is_empty() {
        let reasons =
            vec![format!("inspected {}; nothing recorded stands against it", inspection.at)];
        Status { state: State::Open, reasons, inspected }
    } else {
        Status { state: State::Restricted, reasons, inspected }
    }
}

/// Closures and reopenings in force by `now`, in the order of time; at one
/// moment a closure counts as the later.
fn closures<'a>(entries: &'a [&Entry], strip: &str, now: Timestamp) -> Vec<&'a Closure> {
    let of_strip = |entry: &&'a Entry| match &entry.record {
        Record::Closure(one) if one.strip == strip && one.from <= now => Some(one),
        _ => None,
    };
    let mut found: Vec<&Closure> = entries.iter().filter_map(of_strip).collect();
    found.sort_by_key(|one| (one.from, one.action == ClosureAction::Closed));
    found
}

fn against(inspection: &Inspection, now: Timestamp, longest: Time) -> Vec<String> {
    let mut reasons = Vec::new();
    if inspection.rut >= millimetres(LARGEST_RUT_MILLIMETRES) {
        reasons.push(format!(
            "rut of {}{}; {LARGEST_RUT_MILLIMETRES} mm (3 in) is the limit",
            depth(inspection.rut),
            station(inspection.rut_station)
        ));
    }
    if inspection.water.si() > 0.0 {
        reasons.push(format!(
            "standing water, {}{}",
            depth(inspection.water),
            station(inspection.water_station)
        ));
    }
    let age = now.duration_since(inspection.at).as_secs_f64();
    let is_recent = age <= longest.si();
    if !is_recent {
        reasons.push(format!(
            "last inspected {:.1} d ago, more than {} d",
            age / DAY,
            longest.si() / DAY
        ));
    }
    reasons
}

fn depth(depth: Length) -> String {
    format!("{:.0} mm", depth.si() * 1e3)
}

fn station(station: Option<Length>) -> String {
    station.map_or_else(String::new, |station| format!(" at station {:.0} m", station.si()))
}
