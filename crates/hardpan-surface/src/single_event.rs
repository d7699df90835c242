//! The worst single irregularities: every pair of points within 120 m is a
//! straight edge; height is the greatest deviation under it, length the shorter
//! distance from there to an end, and the height is held against a curve by
//! length. It is blind to repeated bumps.
//!
//! Definition as a secondary document tells that of [FAA-AC-150-5380-9]; the
//! curve is from memory and for paved runways.

use crate::chord::EventKind;
use crate::error::{Error, setting};
use crate::profile::Profile;
use crate::rules::{IRREGULARITIES, irregularity_limits};
use crate::straightedge::growing_hull::GrowingHull;
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};

/// Longest edge of the definition.
const LONGEST_EDGE_M: f64 = 120.0;

/// One single irregularity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingleEvent {
    /// Above or below its edge.
    pub kind: EventKind,
    /// Station of the greatest deviation.
    pub station: Length,
    /// Greatest deviation from the edge.
    pub height: Length,
    /// Shorter distance from there to an end of the edge.
    pub length: Length,
    /// Height over the acceptable height of that length.
    pub ratio: Ratio,
    /// First station of the edge.
    pub edge_from: Length,
    /// Length of the edge.
    pub edge_length: Length,
}

/// Acceptable height in metres by length of the irregularity in metres; NaN
/// outside 0 to 60 m.
pub(crate) fn acceptable_height(length: f64) -> f64 {
    if !(0.0..=60.0).contains(&length) {
        return f64::NAN;
    }
    let centimetres = if length <= 20.0 {
        1.713_187 + length * (0.800_872 + length * (-0.031_265 + length * 0.000_549))
    } else {
        6.4 + 0.16 * length
    };
    centimetres * 1e-2
}

/// The `worst` single irregularities by falling ratio; those within the length
/// of a worse one belong to it. Edges run from two sample intervals to
/// `longest_edge`. O(n m) for edges of up to m intervals, but for the few corners
/// that the hull of an edge has.
///
/// # Errors
/// [`Error`] for edges longer than 120 m or shorter than two intervals, or a
/// profile of fewer than three levels.
pub fn single_events(
    profile: &Profile,
    longest_edge: Length,
    worst: usize,
) -> Result<Vec<SingleEvent>, Error> {
    Ok(scan_single_events(profile, longest_edge, worst)?.worst)
}

/// As [`single_events`], with the highest by the lengths of the table besides.
///
/// # Errors
/// As [`single_events`].
pub(crate) fn scan_single_events(
    profile: &Profile,
    longest_edge: Length,
    worst: usize,
) -> Result<SingleEvents, Error> {
    let spacing = profile.spacing_m();
    let longest =
        setting("longest edge", longest_edge.si(), 2.0 * spacing..=LONGEST_EDGE_M + 1e-9, "m")?;
    let z = profile.elevations_m();
    if z.len() < 3 {
        return Err(Error::TooShort {
            method: "a single irregularity",
            length_m: profile.length_m(),
            needed_m: 2.0 * spacing,
        });
    }
    let most = profile.intervals(longest, 2).min(z.len() - 1);
    let accepted: Vec<Accepted> =
        (0..=most / 2).map(|half| Accepted::of(half as f64 * spacing)).collect();
    let mut by_point: Vec<Option<Candidate>> = vec![None; z.len()];
    let mut by_length = [None; IRREGULARITIES.len()];
    let (mut above, mut below) = (GrowingHull::new(false), GrowingHull::new(true));
    for (left, first) in z.iter().enumerate() {
        above.begin(*first);
        below.begin(*first);
        for (intervals, level) in z.iter().skip(left).enumerate().skip(1).take(most) {
            let (bump, rut) = (above.take(*level), below.take(*level));
            let (kind, (height, after)) =
                if bump.0 >= rut.0 { (EventKind::Bump, bump) } else { (EventKind::Rut, rut) };
            let half = after.min(intervals - after);
            let Some(accepted) = accepted.get(half).filter(|_| half > 0 && height > 0.0) else {
                continue;
            };
            let ratio = height / accepted.height;
            let at = left + after;
            let candidate = Candidate { kind, height, at, left, intervals, ratio };
            keep(&mut by_point, candidate);
            keep_by_length(&mut by_length, candidate, accepted);
        }
    }
    Ok(SingleEvents {
        worst: list(by_point.into_iter().flatten().collect(), profile, worst),
        by_length: by_length
            .map(|best| best.map(|(best, _): (Candidate, f64)| best.event(profile))),
    })
}

/// What the scan of single irregularities finds.
#[derive(Debug, Clone, PartialEq)]
pub struct SingleEvents {
    /// The worst by falling ratio.
    pub worst: Vec<SingleEvent>,
    /// For each length of the table of irregularities, from over the length
    /// before it, the one that is highest beside the limit of its length.
    pub by_length: [Option<SingleEvent>; IRREGULARITIES.len()],
}

impl SingleEvents {
    /// Joins what was found on two stretches of a line; `worst` is to be cut to
    /// length and sorted by the caller.
    pub(crate) fn join(&mut self, other: Self) {
        self.worst.extend(other.worst);
        for (mine, theirs) in self.by_length.iter_mut().zip(other.by_length) {
            let share = |event: &SingleEvent| {
                table_limit(event.length.si()).map_or(0.0, |limit| event.height.si() / limit)
            };
            if theirs
                .as_ref()
                .is_some_and(|new| mine.as_ref().is_none_or(|old| share(new) > share(old)))
            {
                *mine = theirs;
            }
        }
    }
}

/// The greatest height of the table at that length; lengths below its first row
/// count as that row.
fn table_limit(length: f64) -> Option<f64> {
    let shortest = IRREGULARITIES.first().map_or(0.0, |row| row.0);
    irregularity_limits(length.max(shortest)).map(|limits| limits.0)
}

/// What is accepted of one length, looked up once.
struct Accepted {
    height: f64,
    /// Row of the table that the length belongs to, and its limit there.
    row: usize,
    table: f64,
}

impl Accepted {
    fn of(length: f64) -> Self {
        let row = IRREGULARITIES.partition_point(|row| row.0 < length - 1e-9);
        let table = table_limit(length).unwrap_or(f64::INFINITY);
        Self { height: acceptable_height(length), row, table }
    }
}

fn keep_by_length(
    by_length: &mut [Option<(Candidate, f64)>],
    candidate: Candidate,
    accepted: &Accepted,
) {
    let Some(slot) = by_length.get_mut(accepted.row) else { return };
    let share = candidate.height / accepted.table;
    let better =
        |(best, most): &(Candidate, f64)| share > *most || share == *most && candidate.before(best);
    if slot.as_ref().is_none_or(better) {
        *slot = Some((candidate, share));
    }
}

#[derive(Debug, Clone, Copy)]
struct Candidate {
    kind: EventKind,
    height: f64,
    at: usize,
    left: usize,
    intervals: usize,
    /// Height over what is accepted of its length.
    ratio: f64,
}

impl Candidate {
    /// Of edges alike the shortest and first counts.
    fn before(&self, other: &Self) -> bool {
        (self.intervals, self.left) < (other.intervals, other.left)
    }

    fn length(&self, spacing: f64) -> f64 {
        let before = self.at - self.left;
        before.min(self.intervals - before) as f64 * spacing
    }

    fn event(&self, profile: &Profile) -> SingleEvent {
        let spacing = profile.spacing_m();
        SingleEvent {
            kind: self.kind,
            station: metres(profile.station_m(self.at)),
            height: metres(self.height),
            length: metres(self.length(spacing)),
            ratio: ratio(self.ratio),
            edge_from: metres(profile.station_m(self.left)),
            edge_length: metres(self.intervals as f64 * spacing),
        }
    }
}

fn keep(by_point: &mut [Option<Candidate>], candidate: Candidate) {
    let Some(slot) = by_point.get_mut(candidate.at) else { return };
    let alike = 1.0 + 1e-9;
    let better = |best: &Candidate| {
        candidate.ratio > best.ratio * alike
            || candidate.ratio * alike >= best.ratio && candidate.before(best)
    };
    if candidate.ratio > 0.0 && slot.as_ref().is_none_or(better) {
        *slot = Some(candidate);
    }
}

fn list(mut candidates: Vec<Candidate>, profile: &Profile, worst: usize) -> Vec<SingleEvent> {
    let spacing = profile.spacing_m();
    // Mirror images tie but for rounding: nine digits decide, then the station.
    let key = |candidate: &Candidate| (candidate.ratio * 1e9).round();
    candidates.sort_by(|a, b| key(b).total_cmp(&key(a)).then(a.at.cmp(&b.at)));
    let mut taken: Vec<SingleEvent> = Vec::new();
    for candidate in candidates {
        let station = profile.station_m(candidate.at);
        let belongs = |event: &SingleEvent| {
            (event.station.si() - station).abs() <= event.length.si().max(2.0 * spacing)
        };
        if taken.len() >= worst {
            break;
        }
        if taken.iter().any(belongs) {
            continue;
        }
        taken.push(candidate.event(profile));
    }
    taken
}
