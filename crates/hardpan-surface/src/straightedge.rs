//! The gap under a real straightedge: it rests on the ground's upper hull, so
//! a crest tips it and never shows as a gap.

pub(crate) mod growing_hull;
pub(crate) mod window_hull;

use crate::chord::{Bearing, EventKind, chord_intervals};
use crate::error::Error;
use crate::profile::Profile;
use hardpan_quantity::{Length, metres};

/// Every pair of points on which a straightedge of `intervals` can rest, with
/// the deepest gap between them.
///
/// From each left support the edge tips until it meets the steepest point
/// within its reach; any other resting place lies below one of these edges, so
/// no deeper gap is missed. O(n m), meant for edges of a few metres.
pub(crate) fn bearings(profile: &Profile, intervals: usize) -> Vec<Bearing> {
    let z = profile.elevations_m();
    let mut found = Vec::new();
    for left in 0..z.len().saturating_sub(1) {
        let Some([first, reach @ ..]) = z.get(left..(left + intervals + 1).min(z.len())) else {
            continue;
        };
        let steepest = reach
            .iter()
            .enumerate()
            .map(|(step, level)| (step + 1, (level - first) / (step + 1) as f64))
            .fold((0, f64::NEG_INFINITY), |best, next| if next.1 >= best.1 { next } else { best });
        let mut bearing = Bearing {
            kind: EventKind::Rut,
            height_m: 0.0,
            at: left,
            left,
            right: left + steepest.0,
        };
        for (step, level) in reach.iter().take(steepest.0).enumerate() {
            let gap = first + steepest.1 * (step + 1) as f64 - level;
            if gap > bearing.height_m {
                bearing.height_m = gap;
                bearing.at = left + step + 1;
            }
        }
        found.push(bearing);
    }
    found
}

/// The deepest gap under a straightedge laid anywhere along the profile.
///
/// # Errors
/// [`Error`] when the edge is shorter than two sample intervals or longer than
/// the profile.
pub fn greatest_gap(profile: &Profile, straightedge: Length) -> Result<Length, Error> {
    let intervals = chord_intervals(profile, straightedge)?;
    let deepest =
        bearings(profile, intervals).iter().fold(0.0, |most: f64, b| most.max(b.height_m));
    Ok(metres(deepest))
}
