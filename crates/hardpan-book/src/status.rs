//! Whether a strip is open, as far as the record tells.

use crate::closures::{closed_times, moment};
use crate::counts::{day_of, last_inspection};
use crate::{Entry, GradingLimits, Inspection, Record, Survey, SurveyedThing, grading};
use hardpan_quantity::{Length, Quantity as _, Time, millimetres};
use jiff::Timestamp;
use jiff::civil::Date;
use std::collections::BTreeMap;

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
    /// Closures that lie ahead, one sentence each.
    pub ahead: Vec<String>,
    /// When it was last inspected.
    pub inspected: Option<Timestamp>,
}

/// State of a strip at `now`. An inspection older than `longest` restricts it; so
/// does one that a closure followed. A rut of 3 in or more restricts it
/// [CFR-14-139-307]; that any standing water does is a judgement, and so does a
/// growth of ruts that leads to the limit by now. Levels, and soundings or strength
/// tests, must be recorded, each with a day by which it must be measured again that
/// is not past, or no older than `surveyed`. A strip that was never inspected is
/// never open.
#[must_use]
pub fn status(
    entries: &[&Entry],
    strip: &str,
    now: Timestamp,
    longest: Time,
    surveyed: Option<Time>,
) -> Status {
    let inspection = last_inspection(entries, strip, now);
    let closures = closed_times(entries, strip);
    let inspected = inspection.map(|one| one.at);
    let ahead = closures.iter().filter(|one| one.from > now).map(|one| one.words()).collect();
    let closed = closures.iter().filter(|one| one.holds_at(now));
    let reasons: Vec<String> = closed.map(|one| one.words()).collect();
    if !reasons.is_empty() {
        return Status { state: State::Closed, reasons, ahead, inspected };
    }
    let Some(inspection) = inspection else {
        let reasons = vec!["no inspection is recorded".to_owned()];
        return Status { state: State::NotKnown, reasons, ahead, inspected };
    };
    let mut reasons = against_use(inspection);
    reasons.extend(overdue(inspection, now, longest));
    reasons.extend(stale_surveys(entries, strip, day_of(now), surveyed));
    reasons.extend(grown(entries, strip, now));
    reasons.extend(not_seen_since(entries, strip, now, inspection));
    if reasons.is_empty() {
        let reasons = vec![format!(
            "inspected {}; nothing recorded stands against it",
            moment(inspection.at)
        )];
        Status { state: State::Open, reasons, ahead, inspected }
    } else {
        Status { state: State::Restricted, reasons, ahead, inspected }
    }
}

/// That nobody has inspected the strip since it was last closed.
pub(crate) fn not_seen_since(
    entries: &[&Entry],
    strip: &str,
    now: Timestamp,
    inspection: &Inspection,
) -> Option<String> {
    let closures = closed_times(entries, strip);
    let last = closures.iter().rev().find(|one| one.from <= now)?;
    (last.from >= inspection.at).then(|| {
        format!("not inspected since the closure of {} ({})", moment(last.from), last.reason)
    })
}

/// What stands against the surveys of a strip.
fn stale_surveys(
    entries: &[&Entry],
    strip: &str,
    today: Date,
    surveyed: Option<Time>,
) -> Vec<String> {
    let mut newest: BTreeMap<&'static str, &Survey> = BTreeMap::new();
    for entry in entries {
        let Record::Survey(one) = &entry.record else { continue };
        if one.strip == strip && one.date <= today {
            let known = newest.entry(one.what.words()).or_insert(one);
            if one.date >= known.date {
                *known = one;
            }
        }
    }
    let mut reasons = Vec::new();
    let [levels, soundings, tests] =
        [SurveyedThing::Levels, SurveyedThing::Soundings, SurveyedThing::StrengthTests]
            .map(SurveyedThing::words);
    if !newest.contains_key(levels) {
        reasons.push("no survey of levels is recorded, so nobody knows how old it is".to_owned());
    }
    if !newest.contains_key(soundings) && !newest.contains_key(tests) {
        reasons.push(
            "no soundings or strength tests are recorded, so nobody knows how old they are".into(),
        );
    }
    reasons.extend(newest.values().filter_map(|one| stale(one, today, surveyed)));
    reasons
}

fn stale(one: &Survey, today: Date, surveyed: Option<Time>) -> Option<String> {
    let age = f64::from((today - one.date).get_days());
    match (one.due, surveyed.map(|longest| longest.si() / DAY)) {
        (Some(due), _) if due < today => {
            Some(format!("{} should have been measured again by {due}", one.what))
        }
        (_, Some(longest)) if longest.is_nan() || age > longest => {
            Some(format!("{} of {} are {age} d old, more than {longest} d", one.what, one.date))
        }
        (None, None) => Some(format!(
            "{} of {} state no day by which they must be measured again, and no greatest age is \
             asked for",
            one.what, one.date
        )),
        _ => None,
    }
}

/// Where the growth of ruts leads to the limit by now, though none was found yet.
pub(crate) fn grown(entries: &[&Entry], strip: &str, now: Timestamp) -> Vec<String> {
    let found = grading(entries, strip, now, &GradingLimits::default());
    let places = found.map(|found| found.places).unwrap_or_default();
    let met = places
        .iter()
        .filter(|one| one.last.0 < one.limit && one.passes_left[0].is_some_and(|left| left <= 0.0));
    met.map(|one| {
        let limit = depth(one.limit);
        format!("{}: its growth leads to {limit} by now; inspect and grade it", one.place())
    })
    .collect()
}

/// What an inspection found against unrestricted use.
pub(crate) fn against_use(inspection: &Inspection) -> Vec<String> {
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
    reasons
}

fn overdue(inspection: &Inspection, now: Timestamp, longest: Time) -> Option<String> {
    let age = now.duration_since(inspection.at).as_secs_f64();
    let is_recent = age <= longest.si();
    let (age, longest) = (age / DAY, longest.si() / DAY);
    (!is_recent).then(|| format!("last inspected {age:.1} d ago, more than {longest} d"))
}

fn depth(depth: Length) -> String {
    format!("{:.0} mm", depth.si() * 1e3)
}

fn station(station: Option<Length>) -> String {
    station.map_or_else(String::new, |station| format!(" at station {:.0} m", station.si()))
}
