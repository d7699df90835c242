//! From thousands of overlapping chord positions to a short list of bumps and
//! ruts that a person can find and mend.

use crate::chord::furthest::Positions;
use crate::chord::{self, Bearing, EventKind, chord_intervals};
use crate::error::{Error, setting};
use crate::profile::Profile;
use crate::straightedge;
use hardpan_quantity::{Area, Length, Quantity, metres};

/// Heights below this are no event.
const LEAST_HEIGHT_M: f64 = 1e-6;
/// Share of a height down to which positions are looked at next.
const NEXT: f64 = 0.7;

/// What is laid on the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    /// An ideal chord between two points of the ground; shows bumps and ruts.
    Chord,
    /// The middle of an ideal chord only; shows bumps and ruts.
    MidChord,
    /// A rigid straightedge that rests on the ground; shows ruts.
    Straightedge,
}

/// One bump or rut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Event {
    /// Above or below the chord.
    pub kind: EventKind,
    /// First station that stands off the chord.
    pub from: Length,
    /// Last station that stands off the chord.
    pub to: Length,
    /// Station of the worst point.
    pub worst: Length,
    /// Offset of the survey line.
    pub offset: Length,
    /// Stations of the ends of the chord, or of the supports of the straightedge.
    pub ends: (Length, Length),
    /// Height above or depth below the chord, positive in both cases.
    pub height: Length,
    /// Length of the chord, or between the two supports of the straightedge.
    pub chord: Length,
    /// Area between the ground and the chord, from the first to the last
    /// station that stands off it.
    pub section: Area,
    /// Whether the height is over the limit.
    pub exceeds: bool,
}

/// Every bump and rut over `limit`, and the `worst` largest of each kind even
/// when inside it, by falling height.
///
/// A smaller deviation is the same event when its worst point lies on a larger
/// one of its kind. It is an artefact when an end of its chord rests on the
/// upper half of a larger event of the other kind: the flat ground beside a
/// bump lies below a chord that rests on the bump. Neither changes the largest
/// event, which alone decides.
///
/// # Errors
/// [`Error`] when the chord is shorter than two sample intervals or longer than
/// the profile, or the limit is not between 0 and 100 m.
pub fn events(
    profile: &Profile,
    edge: Edge,
    chord: Length,
    limit: Length,
    worst: usize,
) -> Result<Vec<Event>, Error> {
    let limit_m = setting("limit of the chord", limit.si(), 0.0..=100.0, "m")?;
    let intervals = chord_intervals(profile, chord)?;
    let bearings = match edge {
        Edge::Chord => return Ok(furthest_off(profile, intervals, (limit_m, worst))),
        Edge::MidChord => chord::mid_bearings(profile, intervals)?,
        Edge::Straightedge => straightedge::bearings(profile, intervals),
    };
    Ok(listed(profile, &bearings, (limit_m, worst)).0)
}

/// The events of a sliding chord, from the positions that stand out alone: fewer
/// and fewer millimetres are looked at until all are found that are to be listed.
fn furthest_off(profile: &Profile, intervals: usize, (limit_m, worst): (f64, usize)) -> Vec<Event> {
    let mut positions = Positions::new(profile.elevations_m(), intervals);
    let mut thresholds =
        positions.at_most().map(|most| limit_m.min(NEXT * most).max(LEAST_HEIGHT_M));
    loop {
        let (found, counts) = listed(profile, &positions.over(thresholds), (limit_m, worst));
        let mut is_whole = true;
        for (threshold, count) in thresholds.iter_mut().zip(counts) {
            if count < worst && *threshold > LEAST_HEIGHT_M {
                *threshold = (NEXT * *threshold).max(LEAST_HEIGHT_M);
                is_whole = false;
            }
        }
        if is_whole {
            return found;
        }
    }
}

/// The events among bearings, with how many there are of each kind.
fn listed(
    profile: &Profile,
    bearings: &[Bearing],
    (limit_m, worst): (f64, usize),
) -> (Vec<Event>, [usize; 2]) {
    let mut candidates = peaks(bearings);
    candidates.sort_by(|a, b| {
        b.height_m.total_cmp(&a.height_m).then(a.at.cmp(&b.at)).then(a.left.cmp(&b.left))
    });
    let mut taken = Taken::new(profile);
    let mut found = Vec::new();
    let mut counts = [0_usize; 2];
    for candidate in candidates {
        let exceeds = candidate.height_m > limit_m;
        let Some(count) = counts.get_mut(candidate.kind as usize) else { continue };
        if !exceeds && *count >= worst || taken.holds(&candidate) {
            continue;
        }
        *count += 1;
        found.push(taken.take(&candidate, exceeds));
    }
    (found, counts)
}

/// The highest bearing of each run that shares kind and worst point.
fn peaks(bearings: &[Bearing]) -> Vec<Bearing> {
    bearings
        .chunk_by(|a, b| a.kind == b.kind && a.at == b.at && a.left + 1 >= b.left)
        .filter_map(|run| run.iter().copied().max_by(|a, b| a.height_m.total_cmp(&b.height_m)))
        .filter(|bearing| bearing.height_m > LEAST_HEIGHT_M)
        .collect()
}

/// Which samples belong to an event already.
struct Taken<'a> {
    profile: &'a Profile,
    whole: [Vec<bool>; 2],
    upper_half: [Vec<bool>; 2],
}

impl<'a> Taken<'a> {
    fn new(profile: &'a Profile) -> Self {
        let none = || vec![false; profile.elevations_m().len()];
        Self { profile, whole: [none(), none()], upper_half: [none(), none()] }
    }

    fn holds(&self, bearing: &Bearing) -> bool {
        let marked = |masks: &[Vec<bool>; 2], kind: usize, at: usize| {
            masks.get(kind).and_then(|mask| mask.get(at)).copied().unwrap_or(false)
        };
        let (kind, other) = (bearing.kind as usize, 1 - bearing.kind as usize);
        marked(&self.whole, kind, bearing.at)
            || marked(&self.upper_half, other, bearing.left)
            || marked(&self.upper_half, other, bearing.right)
    }

    fn take(&mut self, bearing: &Bearing, exceeds: bool) -> Event {
        let (from, to) = self.extent(bearing, 0.0);
        let (half_from, half_to) = self.extent(bearing, 0.5 * bearing.height_m);
        let kind = bearing.kind as usize;
        mark(self.whole.get_mut(kind), from, to);
        mark(self.upper_half.get_mut(kind), half_from, half_to);
        Event {
            kind: bearing.kind,
            from: metres(self.profile.station_m(from)),
            to: metres(self.profile.station_m(to)),
            worst: metres(self.profile.station_m(bearing.at)),
            offset: self.profile.offset(),
            ends: (
                metres(self.profile.station_m(bearing.left)),
                metres(self.profile.station_m(bearing.right)),
            ),
            height: metres(bearing.height_m),
            chord: metres((bearing.right - bearing.left) as f64 * self.profile.spacing_m()),
            section: Area::from_si(self.section(bearing, from, to)),
            exceeds,
        }
    }

    /// Area between ground and chord from one sample to another.
    fn section(&self, bearing: &Bearing, from: usize, to: usize) -> f64 {
        let off = self.off(bearing);
        (from..=to).map(off).sum::<f64>() * self.profile.spacing_m()
    }

    /// How far a sample stands off the chord on the side of the event.
    fn off(&self, bearing: &Bearing) -> impl Fn(usize) -> f64 + '_ {
        let z = self.profile.elevations_m();
        let level = |at: usize| z.get(at).copied().unwrap_or(0.0);
        let run = (bearing.right - bearing.left).max(1) as f64;
        let slope = (level(bearing.right) - level(bearing.left)) / run;
        let (left, base) = (bearing.left as f64, level(bearing.left));
        let sign = if bearing.kind == EventKind::Bump { 1.0 } else { -1.0 };
        move |at| sign * (z.get(at).copied().unwrap_or(0.0) - base - slope * (at as f64 - left))
    }

    /// First and last sample about the worst point that stand off by more than `above_m`.
    fn extent(&self, bearing: &Bearing, above_m: f64) -> (usize, usize) {
        let off = self.off(bearing);
        let stands_off = |at: &usize| off(*at) > above_m;
        let from = (bearing.left..bearing.at).rev().take_while(&stands_off).last();
        let to = (bearing.at + 1..=bearing.right).take_while(stands_off).last();
        (from.unwrap_or(bearing.at), to.unwrap_or(bearing.at))
    }
}

fn mark(mask: Option<&mut Vec<bool>>, from: usize, to: usize) {
    if let Some(stretch) = mask.and_then(|mask| mask.get_mut(from..=to)) {
        stretch.fill(true);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn prop_the_positions_that_stand_out_tell_the_same_as_all_positions(
            steps in proptest::collection::vec(-0.05_f64..0.05, 60..400),
            intervals in 2_usize..50, limit_m in 0.0_f64..0.3, worst in 0_usize..6,
        ) {
            let level = |level: &mut f64, step: &f64| {
                *level = 0.95 * *level + step;
                Some(*level)
            };
            let levels = steps.iter().scan(0.0, level).collect();
            let profile = Profile::from_metres(0.0, 0.0, 1.0, levels).unwrap();
            let all = chord::bearings(&profile, intervals);
            let wanted = listed(&profile, &all, (limit_m, worst)).0;
            prop_assert_eq!(furthest_off(&profile, intervals, (limit_m, worst)), wanted);
        }
    }
}
