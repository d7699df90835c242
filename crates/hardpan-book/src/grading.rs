//! By when a strip must be graded: growth of ruts and loose material over the
//! passes, and passes in the time to come.

use crate::counts::{day_of, last_repair, movement_entries};
use crate::line::{Crossing, Line, line_through};
use crate::stretch::rolled_over;
use crate::{BookError, Entry, Inspection, LARGEST_RUT_MILLIMETRES, Record, Repair};
use hardpan_math::poisson_limits;
use hardpan_model::EntryRange;
use hardpan_quantity::{Length, Quantity as _, millimetres};
use jiff::Timestamp;
use jiff::civil::Date;
use std::collections::BTreeMap;

/// Confidence of the growth and of the passes each; both hold with 90 % or more
/// (Bonferroni).
pub(crate) const CONFIDENCE: f64 = 0.95;
/// Days of the record from which passes are counted forward. Judgement: a season.
const WINDOW_DAYS: f64 = 91.0;
/// Length of a stretch whose inspections are taken together, metres.
const STRETCH_METRES: f64 = 100.0;
/// Days beyond which no day is told.
const FURTHEST_DAYS: f64 = 3650.0;
const DAY_SECONDS: f64 = 86_400.0;

/// Depths at which a strip is graded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GradingLimits {
    /// Depth of a rut.
    pub rut: Length,
    /// Depth of loose material; none if nobody states one.
    pub loose: Option<Length>,
}

impl Default for GradingLimits {
    /// A rut of 3 in, rounded down [CFR-14-139-307]; no limit of loose material is
    /// published.
    fn default() -> Self {
        Self { rut: millimetres(LARGEST_RUT_MILLIMETRES), loose: None }
    }
}

/// Passes in a week: the best value with its interval.
#[derive(Debug, Clone, PartialEq)]
pub struct PassesPerWeek {
    /// Movements counted.
    pub movements: usize,
    /// Their entries.
    pub entries: Vec<EntryRange>,
    /// Days over which they were counted.
    pub days: f64,
    /// Passes in a week.
    pub mean: f64,
    /// Lower limit.
    pub lower: f64,
    /// Upper limit.
    pub upper: f64,
}

/// By when a place meets its limit.
#[derive(Debug, Clone, PartialEq)]
pub struct GradingDue {
    /// `rut` or `loose`.
    pub what: &'static str,
    /// Wheel lane of a rut; none for the deepest anywhere and for loose material.
    pub lane: Option<String>,
    /// The stretch; none for the deepest anywhere.
    pub stretch: Option<(Length, Length)>,
    /// Inspections that it is told from.
    pub inspections: usize,
    /// Depth found last, and when.
    pub last: (Length, Date),
    /// Growth in each 1,000 passes.
    pub growth: Length,
    /// Limit.
    pub limit: Length,
    /// Passes left from now on: best value, fewest and most; none where the growth
    /// does not lead there.
    pub passes_left: [Option<f64>; 3],
    /// The day: best value, earliest and latest; none where it cannot be told.
    pub days: [Option<Date>; 3],
    /// What it is told from.
    pub told_from: Growth,
}

/// The inspections of a place since it was mended, and the line through them.
#[derive(Debug, Clone, PartialEq)]
pub struct Growth {
    /// The inspections, in the order of the book.
    pub found: Vec<Found>,
    /// The line of depth, metres, over passes.
    pub line: Line,
    /// Entries of the passes until now.
    pub so_far: Vec<EntryRange>,
    /// How many those are.
    pub passes: usize,
    /// The day of asking.
    pub today: Date,
}

/// What one inspection found at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Its entry.
    pub entry: i64,
    /// Depth that it found.
    pub depth: Length,
    /// When.
    pub at: Timestamp,
    /// Entries of the passes until then.
    pub passes: Vec<EntryRange>,
    /// How many those are.
    pub count: usize,
}

/// What the record tells of grading.
#[derive(Debug, Clone, PartialEq)]
pub struct Grading {
    /// Passes in a week; none without a movement.
    pub passes: Option<PassesPerWeek>,
    /// Places, the earliest day first; what has no day stands last.
    pub places: Vec<GradingDue>,
    /// Why something cannot be told, one sentence each.
    pub not_told: Vec<String>,
}

/// What was found, the lane of a rut, and the number of the stretch.
type Place = (&'static str, Option<String>, Option<u32>);

/// By when the ruts and the loose material of a strip meet their limits. The
/// depths that inspections found since a place was mended are taken as a straight
/// line over the passes until then; three inspections at least are needed. Growth
/// that bends upwards, as on ground that softens, comes earlier than the line.
///
/// # Errors
/// [`BookError::Confidence`] never; it is that of the counts.
pub fn grading(
    entries: &[&Entry],
    strip: &str,
    now: Timestamp,
    limits: &GradingLimits,
) -> Result<Grading, BookError> {
    let passes = passes_per_week(entries, strip, now)?;
    let mut series: BTreeMap<Place, Vec<Found>> = BTreeMap::new();
    let mut note = |key, depth: Found| series.entry(key).or_default().push(depth);
    for (entry, one) in inspections(entries, strip, now) {
        let found = |station: Option<Length>, depth: Length| {
            let passes = passes_until(entries, strip, station, one.at);
            let count = passes.len();
            Found { entry, depth, at: one.at, passes: EntryRange::of(passes), count }
        };
        if since_mended(entries, strip, None, now, one.at) {
            note(("rut", None, None), found(None, one.rut));
        }
        for (what, depth, station, lane) in [
            ("rut", Some(one.rut), one.rut_station, one.rut_lane.clone()),
            ("loose", one.loose, one.loose_station, None),
        ] {
            let (Some(depth), Some(at)) = (depth, station) else { continue };
            if since_mended(entries, strip, Some(at), now, one.at) {
                let stretch = (at.si() / STRETCH_METRES).floor().clamp(0.0, 1e6);
                note((what, lane, Some(stretch as u32)), found(Some(at), depth));
            }
        }
    }
    let mut all = Grading { passes: None, places: Vec::new(), not_told: Vec::new() };
    for ((what, lane, stretch), depths) in series {
        let limit = if what == "rut" { Some(limits.rut) } else { limits.loose };
        let station = stretch.map(|one| Length::from_si((f64::from(one) + 0.5) * STRETCH_METRES));
        let so_far = passes_until(entries, strip, station, now);
        let place = (what, lane, stretch);
        match due(place, depths, limit, so_far, passes.as_ref(), day_of(now)) {
            Ok(due) => all.places.push(due),
            Err(why) => all.not_told.push(why),
        }
    }
    all.passes = passes;
    if all.places.is_empty() && all.not_told.is_empty() {
        all.not_told.push("no inspection is recorded since the strip was mended".to_owned());
    }
    all.places.sort_by_key(|one| (one.days[0].is_none(), one.days[0], one.days[1]));
    Ok(all)
}

fn due(
    (what, lane, stretch): Place,
    found: Vec<Found>,
    limit: Option<Length>,
    so_far: Vec<i64>,
    passes: Option<&PassesPerWeek>,
    today: Date,
) -> Result<GradingDue, String> {
    let stretch = stretch.map(|one| {
        let from = f64::from(one) * STRETCH_METRES;
        (Length::from_si(from), Length::from_si(from + STRETCH_METRES))
    });
    let place = place_words(what, lane.as_deref(), stretch);
    let limit = limit.ok_or_else(|| format!("{place}: no limit is stated"))?;
    let point = |one: &Found| (one.count as f64, one.depth.si());
    let points: Vec<(f64, f64)> = found.iter().map(point).collect();
    let line: Line = line_through(&points).ok_or_else(|| {
        let found = match found.len() {
            1 => "one inspection".to_owned(),
            count => format!("{count} inspections"),
        };
        format!("{place}: {found} since it was mended; three with passes between them are needed")
    })?;
    let last = found.iter().max_by_key(|one| one.at);
    let last = last.map_or((limit, today), |one| (one.depth, day_of(one.at)));
    let count = so_far.len();
    let (so_far, entries_so_far) = (count as f64, EntryRange::of(so_far));
    let crossing = line.crossing(limit.si(), so_far, CONFIDENCE);
    let none = Crossing { best: None, earliest: None, latest: None };
    let Crossing { best, earliest, latest } = crossing.unwrap_or(none);
    let is_met = last.0 >= limit;
    let left = |at: Option<f64>| if is_met { Some(0.0) } else { at.map(|at| at - so_far) };
    let passes_left = [left(best), left(earliest), left(latest)];
    let week = |rate: fn(&PassesPerWeek) -> f64| passes.map(rate);
    let rates = [week(|one| one.mean), week(|one| one.upper), week(|one| one.lower)];
    let mut days = [None; 3];
    for ((day, left), rate) in days.iter_mut().zip(passes_left).zip(rates) {
        *day = left.and_then(|left| day_after(today, left, rate));
    }
    let growth = Length::from_si(line.slope * 1000.0);
    let inspections = found.len();
    let told_from = Growth { found, line, so_far: entries_so_far, passes: count, today };
    Ok(GradingDue {
        what,
        lane,
        stretch,
        inspections,
        last,
        growth,
        limit,
        passes_left,
        days,
        told_from,
    })
}

/// The place of a growth in words.
fn place_words(what: &str, lane: Option<&str>, stretch: Option<(Length, Length)>) -> String {
    let lane = lane.map_or_else(String::new, |lane| format!(" {lane}"));
    match stretch {
        Some((from, to)) => format!("{what}{lane}, station {:.0} to {:.0} m", from.si(), to.si()),
        None => format!("{what}, deepest anywhere"),
    }
}

impl GradingDue {
    /// Its place in words.
    #[must_use]
    pub fn place(&self) -> String {
        place_words(self.what, self.lane.as_deref(), self.stretch)
    }
}

fn day_after(today: Date, passes: f64, per_week: Option<f64>) -> Option<Date> {
    if passes <= 0.0 {
        return Some(today);
    }
    let days = passes / per_week.filter(|rate| *rate > 0.0)? * 7.0;
    if days.is_nan() || days > FURTHEST_DAYS {
        return None;
    }
    // The day before the limit is met is the last that is free of it.
    today.checked_add(jiff::Span::new().days(days.floor() as i64)).ok()
}

fn passes_per_week(
    entries: &[&Entry],
    strip: &str,
    now: Timestamp,
) -> Result<Option<PassesPerWeek>, BookError> {
    let age = |at: Timestamp| now.duration_since(at).as_secs_f64() / DAY_SECONDS;
    let ages = movement_entries(entries, strip).map(|(id, one)| (id, age(one.at)));
    let ages: Vec<(i64, f64)> = ages.filter(|(_, age)| *age >= 0.0).collect();
    let oldest = ages.iter().map(|(_, age)| *age).max_by(f64::total_cmp);
    let Some(oldest) = oldest else { return Ok(None) };
    let days = oldest.clamp(1.0, WINDOW_DAYS);
    let recent = ages.iter().filter(|(_, age)| *age <= days).map(|(id, _)| *id);
    let recent: Vec<i64> = recent.collect();
    let count = recent.len();
    let number = u32::try_from(count).unwrap_or(u32::MAX);
    let (lower, upper) = poisson_limits(number, CONFIDENCE)
        .ok_or(BookError::Confidence { percent: CONFIDENCE * 100.0 })?;
    let [mean, lower, upper] = [f64::from(number), lower, upper].map(|one| one * 7.0 / days);
    let entries = EntryRange::of(recent);
    Ok(Some(PassesPerWeek { movements: count, entries, days, mean, lower, upper }))
}

fn inspections<'a>(
    entries: &'a [&Entry],
    strip: &'a str,
    now: Timestamp,
) -> impl Iterator<Item = (i64, &'a Inspection)> {
    entries.iter().filter_map(move |entry| match &entry.record {
        Record::Inspection(one) if one.strip == strip && one.at <= now => Some((entry.id, one)),
        _ => None,
    })
}

/// Day of the last repair that makes a place new, by `until`; anywhere for none.
fn mended(entries: &[&Entry], strip: &str, at: Option<Length>, until: Date) -> Option<Date> {
    let covers = |one: &Repair| at.is_none_or(|at| one.from <= at && at <= one.to);
    let is_meant = |one: &Repair| one.date <= until && covers(one);
    last_repair(entries, strip, is_meant).map(|(_, one)| one.date)
}

/// Whether an inspection saw a place as it is since it was last mended.
fn since_mended(
    entries: &[&Entry],
    strip: &str,
    at: Option<Length>,
    now: Timestamp,
    seen: Timestamp,
) -> bool {
    mended(entries, strip, at, day_of(now)).is_none_or(|day| day_of(seen) >= day)
}

fn passes_until(entries: &[&Entry], strip: &str, at: Option<Length>, until: Timestamp) -> Vec<i64> {
    let since = mended(entries, strip, at, day_of(until));
    let over = movement_entries(entries, strip).filter(|(_, one)| {
        one.at <= until
            && since.is_none_or(|since| day_of(one.at) >= since)
            && at.is_none_or(|at| rolled_over(one, at, at))
    });
    over.map(|(id, _)| id).collect()
}
