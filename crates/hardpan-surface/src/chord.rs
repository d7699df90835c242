//! How far the ground stands off a chord: at its middle, and at the worst
//! point anywhere under it, bumps and ruts apart.

pub(crate) mod furthest;

use crate::error::{Error, setting};
use crate::profile::Profile;
use crate::straightedge::window_hull::highest_over_chord;
use hardpan_quantity::{Length, Quantity, metres};

/// Which way the ground stands off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum EventKind {
    /// Above the chord.
    Bump,
    /// Below it: a rut across the line, a dip, a hole.
    Rut,
}

/// One position of a chord or straightedge and the worst point under it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bearing {
    pub(crate) kind: EventKind,
    pub(crate) height_m: f64,
    pub(crate) at: usize,
    pub(crate) left: usize,
    pub(crate) right: usize,
}

/// Whole intervals of a chord on a profile.
pub(crate) fn chord_intervals(profile: &Profile, chord: Length) -> Result<usize, Error> {
    let length_m = setting("chord", chord.si(), 2.0 * profile.spacing_m()..=10_000.0, "m")?;
    let intervals = profile.intervals(length_m, 2);
    let needed_m = intervals as f64 * profile.spacing_m();
    if intervals >= profile.elevations_m().len() {
        return Err(Error::TooShort { method: "a chord", length_m: profile.length_m(), needed_m });
    }
    Ok(intervals)
}

/// Signed offset of the ground from the middle of a sliding chord, by station
/// of the middle; positive above the chord.
///
/// `d(x) = z(x) − ½ [z(x − L/2) + z(x + L/2)]`
///
/// The chord is rounded to a whole even number of sample intervals.
///
/// # Errors
/// [`Error`] when the chord is shorter than two intervals or longer than the profile.
pub fn mid_chord_offsets(profile: &Profile, chord: Length) -> Result<Vec<(Length, Length)>, Error> {
    let intervals = chord_intervals(profile, chord)?;
    let half = (intervals as f64 / 2.0).round() as usize;
    let z = profile.elevations_m();
    if 2 * half >= z.len() {
        return Err(Error::TooShort {
            method: "a chord with a sample at its middle",
            length_m: profile.length_m(),
            needed_m: 2.0 * half as f64 * profile.spacing_m(),
        });
    }
    Ok(z.windows(2 * half + 1)
        .enumerate()
        .filter_map(|(start, window)| {
            let offset = window.get(half)? - 0.5 * (window.first()? + window.last()?);
            Some((metres(profile.station_m(start + half)), metres(offset)))
        })
        .collect())
}

/// Greatest height above and depth below every sliding chord.
pub(crate) fn bearings(profile: &Profile, intervals: usize) -> Vec<Bearing> {
    let bearing = |kind: EventKind, start: usize, (height_m, at): (f64, usize)| Bearing {
        kind,
        height_m,
        at,
        left: start,
        right: start + intervals,
    };
    let z = profile.elevations_m();
    let upside_down: Vec<f64> = z.iter().map(|level| -level).collect();
    let bumps = highest_over_chord(z, intervals);
    let ruts = highest_over_chord(&upside_down, intervals);
    let bumps =
        bumps.into_iter().enumerate().map(|(at, found)| bearing(EventKind::Bump, at, found));
    let ruts = ruts.into_iter().enumerate().map(|(at, found)| bearing(EventKind::Rut, at, found));
    bumps.chain(ruts).collect()
}

/// Height above or depth below the middle of every sliding chord.
pub(crate) fn mid_bearings(profile: &Profile, intervals: usize) -> Result<Vec<Bearing>, Error> {
    let half = (intervals as f64 / 2.0).round() as usize;
    let chord = metres(2.0 * half as f64 * profile.spacing_m());
    let offsets = mid_chord_offsets(profile, chord)?;
    Ok(offsets
        .into_iter()
        .enumerate()
        .map(|(left, (_, offset))| Bearing {
            kind: if offset.si() < 0.0 { EventKind::Rut } else { EventKind::Bump },
            height_m: offset.si().abs(),
            at: left + half,
            left,
            right: left + 2 * half,
        })
        .collect())
}

/// Greatest height above (bumps) and depth below (ruts) any sliding chord, at
/// any point under it.
///
/// # Errors
/// As [`mid_chord_offsets`].
pub fn greatest_deviation(profile: &Profile, chord: Length) -> Result<(Length, Length), Error> {
    let intervals = chord_intervals(profile, chord)?;
    let greatest = |kind| {
        let all = bearings(profile, intervals);
        all.iter()
            .filter(|bearing| bearing.kind == kind)
            .fold(0.0, |most: f64, bearing| most.max(bearing.height_m))
    };
    Ok((metres(greatest(EventKind::Bump)), metres(greatest(EventKind::Rut))))
}
