//! Which passes went over which stations, and what was measured there.

use crate::counts::{day_of, last_repair, movement_entries, tails};
use crate::opened::LaneCoverage;
use crate::{BookError, Entry, Inspection, Movement, Record};
use hardpan_model::{EntryRange, Lane};
use hardpan_quantity::{Length, Quantity as _};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// Most stretches that a strip is cut into.
const MOST: usize = 400;
/// Length of a stretch where nobody asks for another, metres.
const USUAL_STEP: f64 = 100.0;

/// Passes over one stretch since it was last mended, and what was last measured.
#[derive(Debug, Clone, PartialEq)]
pub struct StretchPasses {
    /// First station.
    pub from: Length,
    /// Last station; the last stretch holds what is recorded further on, too.
    pub to: Length,
    /// Landings and take-offs that rolled over it, each counted once, backtrack or
    /// not.
    pub passes: usize,
    /// How many of them do not state their stretch and are counted everywhere.
    pub everywhere: usize,
    /// Entries of those.
    pub entries_everywhere: Vec<EntryRange>,
    /// Entries of the passes by the name of the aeroplane.
    pub tails: BTreeMap<String, Vec<i64>>,
    /// Day of the last repair that covers it.
    pub since: Option<Date>,
    /// The entry of that repair.
    pub mended_by: Option<i64>,
    /// Ruts last measured in it since then, by lane.
    pub ruts: Vec<LastRut>,
}

/// The newest rut of a lane of a stretch.
#[derive(Debug, Clone, PartialEq)]
pub struct LastRut {
    /// The lane, as the inspection names it.
    pub lane: String,
    /// Its depth.
    pub depth: Length,
    /// The day on which it was found.
    pub date: Date,
    /// The entry of the inspection.
    pub entry: i64,
}

/// Coverages that one pass makes of each wheel lane, by aeroplanes of one gear.
#[derive(Debug, Clone, PartialEq)]
pub struct PassCoverages {
    /// Names of the aeroplanes in the book.
    pub tails: Vec<String>,
    /// Coverages of the busiest point of each lane.
    pub lanes: [LaneCoverage; 3],
}

impl PassCoverages {
    /// Coverages of the aeroplanes that were named, or of the aeroplane by its own name.
    /// A name that no movement has would count nothing and look like a figure: it is
    /// refused as soon as the book tells movements of others.
    ///
    /// # Errors
    /// [`BookError::NoTail`] with the aeroplanes of the book.
    pub fn of_aeroplanes(
        entries: &[&Entry],
        named: &[String],
        own: &str,
        lanes: [LaneCoverage; 3],
    ) -> Result<Self, BookError> {
        let known = tails(entries, None);
        let tails = if named.is_empty() { vec![own.to_owned()] } else { named.to_vec() };
        match tails.iter().find(|tail| !known.contains(tail)) {
            Some(asked) if !known.is_empty() => {
                Err(BookError::NoTail { asked: asked.clone(), known })
            }
            _ => Ok(Self { tails, lanes }),
        }
    }
}

/// Coverages of a stretch since it was last mended.
#[derive(Debug, Clone, PartialEq)]
pub struct StretchCoverages {
    /// Coverages of the busiest point of each lane.
    pub lanes: [(Lane, f64); 3],
    /// Passes that make them.
    pub passes: usize,
    /// Passes of other aeroplanes, whose gear is not known here: they come on top.
    pub others: usize,
}

impl StretchPasses {
    /// Passes turned into coverages, for the aeroplanes whose gear is known. The
    /// busiest point is in the same place for all passes, so that they add up.
    #[must_use]
    pub fn coverages(&self, of_one: &PassCoverages) -> StretchCoverages {
        let passes = self.of_aeroplanes(&of_one.tails).len();
        let lanes = of_one.lanes.each_ref().map(|of| (of.lane, of.coverages * passes as f64));
        StretchCoverages { lanes, passes, others: self.passes - passes }
    }

    /// Entries of the passes of some aeroplanes.
    pub(crate) fn of_aeroplanes(&self, tails: &[String]) -> Vec<i64> {
        let mine = self.tails.iter().filter(|(tail, _)| tails.contains(tail));
        mine.flat_map(|(_, entries)| entries.iter().copied()).collect()
    }
}

/// Whether a movement rolled over a station; one that does not state its stretch
/// is taken to have rolled over all of them.
pub(crate) fn rolled_over(one: &Movement, from: Length, to: Length) -> bool {
    match (one.rolled_from, one.rolled_to) {
        (Some(a), Some(b)) => {
            let (low, high) = if a <= b { (a, b) } else { (b, a) };
            low <= to && from <= high
        }
        _ => true,
    }
}

/// Passes by stretches of one length from station 0 to the end of the strip: `step`, or
/// 100 m where none is asked for, and longer where that is too short. The book knows no
/// length of a strip: `end` is that of its file, and the furthest station recorded where
/// it is not given. A repair makes new what it covers whole; movements on its day count.
///
/// # Errors
/// [`BookError::Step`] for a step that is not above zero, or that cuts the strip
/// into more than 400 stretches.
pub fn passes_by_stretch(
    entries: &[&Entry],
    strip: &str,
    step: Option<Length>,
    end: Option<Length>,
) -> Result<Vec<StretchPasses>, BookError> {
    let Some(end) = end.or_else(|| furthest(entries, strip)) else { return Ok(Vec::new()) };
    let places = cut(step, end)?.into_iter();
    Ok(places.map(|(from, to, is_last)| stretch(entries, strip, (from, to), is_last)).collect())
}

/// Stretches of one length from station 0 to an end, and which is the last.
pub(crate) fn cut(
    step: Option<Length>,
    end: Length,
) -> Result<Vec<(Length, Length, bool)>, BookError> {
    let end = end.si();
    let step = step.map_or_else(|| usual_step(end), |step| step.si());
    if !(step > 0.0 && end / step <= MOST as f64) {
        return Err(BookError::Step { step_m: step, end_m: end, most: MOST });
    }
    let mut stretches = Vec::new();
    let mut from = 0.0;
    while from < end {
        let to = f64::min(from + step, end);
        stretches.push((Length::from_si(from), Length::from_si(to), to >= end));
        from += step;
    }
    Ok(stretches)
}

/// 100 m, doubled until it cuts a strip into no more stretches than are told, metres.
fn usual_step(end: f64) -> f64 {
    let mut step = USUAL_STEP;
    while end / step > MOST as f64 {
        step *= 2.0;
    }
    step
}

fn stretch(
    entries: &[&Entry],
    strip: &str,
    (from, to): (Length, Length),
    is_last: bool,
) -> StretchPasses {
    let mended = last_repair(entries, strip, |one| one.from <= from && to <= one.to);
    let since = mended.map(|(_, one)| one.date);
    let after = |date: Date| since.is_none_or(|since| date >= since);
    let over: Vec<(i64, &Movement)> = movement_entries(entries, strip)
        .filter(|(_, one)| after(day_of(one.at)) && rolled_over(one, from, to))
        .collect();
    let everywhere = over.iter().filter(|(_, one)| one.rolled_from.is_none()).map(|(id, _)| *id);
    let everywhere: Vec<i64> = everywhere.collect();
    let mut tails: BTreeMap<String, Vec<i64>> = BTreeMap::new();
    for (id, one) in &over {
        tails.entry(one.tail.clone()).or_default().push(*id);
    }
    let inspections = entries.iter().filter_map(|entry| match &entry.record {
        Record::Inspection(one) if one.strip == strip && after(day_of(one.at)) => {
            Some((entry.id, one))
        }
        _ => None,
    });
    let ruts = ruts(inspections, |at| from <= at && (at < to || is_last));
    StretchPasses {
        from,
        to,
        passes: over.len(),
        everywhere: everywhere.len(),
        entries_everywhere: EntryRange::of(everywhere),
        tails,
        since,
        mended_by: mended.map(|(id, _)| id),
        ruts,
    }
}

/// The newest rut of each lane of a stretch.
fn ruts<'a>(
    inspections: impl Iterator<Item = (i64, &'a Inspection)>,
    is_here: impl Fn(Length) -> bool,
) -> Vec<LastRut> {
    let mut found: Vec<LastRut> = Vec::new();
    let mut seen: Vec<(i64, &Inspection)> =
        inspections.filter(|(_, one)| one.rut_station.is_some_and(&is_here)).collect();
    seen.sort_by_key(|(_, one)| one.at);
    for (entry, one) in seen {
        let Some(lane) = &one.rut_lane else { continue };
        found.retain(|known| known.lane != *lane);
        let date = day_of(one.at);
        found.push(LastRut { lane: lane.clone(), depth: one.rut, date, entry });
    }
    found.sort_by(|a, b| a.lane.cmp(&b.lane));
    found
}

pub(crate) fn furthest(entries: &[&Entry], strip: &str) -> Option<Length> {
    let stations = entries.iter().filter(|entry| entry.record.strip() == Some(strip));
    let stations = stations.flat_map(|entry| match &entry.record {
        Record::Movement(one) => vec![one.rolled_from, one.rolled_to],
        Record::Inspection(one) => vec![one.rut_station, one.loose_station, one.water_station],
        Record::Repair(one) => vec![Some(one.from), Some(one.to)],
        Record::Damage(one) => vec![one.station],
        _ => Vec::new(),
    });
    stations.flatten().max_by(|a, b| a.si().total_cmp(&b.si()))
}
