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
use crate::straightedge::window_hull::highest_over_chord;
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
/// `longest_edge`. O(n m log m) for edges of up to m intervals.
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
    let mut by_point: Vec<Option<Candidate>> = vec![None; z.len()];
    let mut by_length = [None; IRREGULARITIES.len()];
    let upside_down: Vec<f64> = z.iter().map(|level| -level).collect();
    for intervals in 2..=most {
        let up = highest_over_chord(z, intervals);
        let down = highest_over_chord(&upside_down, intervals);
        for (left, (bump, rut)) in up.into_iter().zip(down).enumerate() {
            let (kind, (height, at)) =
                if bump.0 >= rut.0 { (EventKind::Bump, bump) } else { (EventKind::Rut, rut) };
            let candidate = Candidate { kind, height, at, left, intervals };
            keep(&mut by_point, candidate, spacing);
            keep_by_length(&mut by_length, candidate, spacing);
        }
    }
    Ok(SingleEvents {
        worst: list(by_point.into_iter().flatten().collect(), profile, worst),
        by_length: by_length.map(|best| best.map(|best: Candidate| best.event(profile))),
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
            let share = |event: &SingleEvent| share_of_table(event.height.si(), event.length.si());
            if theirs
                .as_ref()
                .is_some_and(|new| mine.as_ref().is_none_or(|old| share(new) > share(old)))
            {
                *mine = theirs;
            }
        }
    }
}

/// Height over the greatest of the table at that length; lengths below its
/// first row count as that row.
fn share_of_table(height: f64, length: f64) -> f64 {
    let shortest = IRREGULARITIES.first().map_or(0.0, |row| row.0);
    irregularity_limits(length.max(shortest)).map_or(0.0, |limits| height / limits.0)
}

fn keep_by_length(by_length: &mut [Option<Candidate>], candidate: Candidate, spacing: f64) {
    let length = candidate.length(spacing);
    let row = IRREGULARITIES.partition_point(|row| row.0 < length - 1e-9);
    let Some(slot) = by_length.get_mut(row) else { return };
    let share = |one: &Candidate| share_of_table(one.height, one.length(spacing));
    if length > 0.0 && slot.as_ref().is_none_or(|best| share(&candidate) > share(best)) {
        *slot = Some(candidate);
    }
}

#[derive(Debug, Clone, Copy)]
struct Candidate {
    kind: EventKind,
    height: f64,
    at: usize,
    left: usize,
    intervals: usize,
}

impl Candidate {
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
            ratio: ratio(self.ratio(spacing)),
            edge_from: metres(profile.station_m(self.left)),
            edge_length: metres(self.intervals as f64 * spacing),
        }
    }

    fn ratio(&self, spacing: f64) -> f64 {
        let length = self.length(spacing);
        if length > 0.0 { self.height / acceptable_height(length) } else { 0.0 }
    }
}

fn keep(by_point: &mut [Option<Candidate>], candidate: Candidate, spacing: f64) {
    let Some(slot) = by_point.get_mut(candidate.at) else { return };
    let ratio = candidate.ratio(spacing);
    if ratio > slot.map_or(0.0, |best| best.ratio(spacing) * (1.0 + 1e-9)) {
        *slot = Some(candidate);
    }
}

fn list(mut candidates: Vec<Candidate>, profile: &Profile, worst: usize) -> Vec<SingleEvent> {
    let spacing = profile.spacing_m();
    // Mirror images tie but for rounding: nine digits decide, then the station.
    let key = |candidate: &Candidate| (candidate.ratio(spacing) * 1e9).round();
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
