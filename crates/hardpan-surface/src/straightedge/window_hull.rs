//! The point that stands highest over the chord of every sliding window, in
//! O(n): a window is the tail of one block and the head of the next, and each
//! part keeps the upper hull of its points (Andrew's monotone chain). The point
//! furthest in the chord's normal moves little from one window to the next, so
//! it is looked for from where it stood.

/// Upper hull of points that arrive in one direction along the profile.
#[derive(Default)]
struct Hull {
    corners: Vec<Corner>,
    removed: Vec<Corner>,
    removals: Vec<u32>,
    /// The corner that stood furthest over the chord before.
    furthest: usize,
}

/// A corner of the hull, and the slope to it from the one before, along the way
/// in which they arrive; the first has none.
#[derive(Clone, Copy)]
struct Corner {
    at: f64,
    level: f64,
    slope: f64,
}

impl Hull {
    fn clear(&mut self) {
        self.corners.clear();
        self.removed.clear();
        self.removals.clear();
        self.furthest = 0;
    }

    /// Takes the next point of the profile.
    #[inline]
    fn push(&mut self, at: f64, level: f64) {
        let mut removals = 0;
        let mut before = (at, level);
        while let [.., last] = self.corners.as_slice() {
            let last = *last;
            before = (last.at, last.level);
            // The slopes in turn, without a division to wait for.
            let (rise, run) = (level - last.level, at - last.at);
            if last.slope * run > rise || self.corners.len() < 2 {
                break;
            }
            self.removed.push(last);
            self.corners.pop();
            removals += 1;
        }
        self.removals.push(removals);
        let slope = (level - before.1) / (at - before.0);
        self.corners.push(Corner { at, level, slope });
    }

    /// Takes back the last point.
    #[inline]
    fn undo(&mut self) {
        self.corners.pop();
        for _ in 0..self.removals.pop().unwrap_or(0) {
            if let Some(corner) = self.removed.pop() {
                self.corners.push(corner);
            }
        }
    }

    /// The corner with the greatest `level - slope * at`.
    #[inline]
    fn extreme<const ALONG: bool>(&mut self, slope: f64) -> Option<Corner> {
        let rises =
            |corner: &Corner| if ALONG { corner.slope > slope } else { corner.slope < slope };
        let corners = self.corners.as_slice();
        let mut at = self.furthest.min(corners.len().checked_sub(1)?);
        while corners.get(at + 1).is_some_and(rises) {
            at += 1;
        }
        while at > 0 && !corners.get(at).is_some_and(rises) {
            at -= 1;
        }
        self.furthest = at;
        corners.get(at).copied()
    }
}

/// For every window of `intervals` intervals, by rising first sample: how far
/// the profile stands above the chord at most, and at which sample. The height
/// is never negative, because the profile touches the chord at its ends.
/// Empty when the profile has no such window.
pub(crate) fn highest_over_chord(z: &[f64], intervals: usize) -> Vec<(f64, usize)> {
    let windows = if intervals == 0 { 0 } else { z.len().saturating_sub(intervals) };
    let mut found = Vec::with_capacity(windows);
    let block = intervals + 1;
    let (mut tail, mut head) = (Hull::default(), Hull::default());
    let mut first = 0;
    while first < windows {
        tail.clear();
        head.clear();
        let levels = z.get(first..first + block).unwrap_or_default();
        for (after, level) in levels.iter().enumerate().rev() {
            tail.push((first + after) as f64, *level);
        }
        let ends = z.get(first + intervals..).unwrap_or_default();
        for (after, (base, end)) in levels.iter().zip(ends).enumerate() {
            let start = (first + after) as f64;
            let stop = start + intervals as f64;
            if after > 0 {
                head.push(stop, *end);
            }
            let slope = (end - base) / (stop - start);
            let mut best = (0.0, start);
            let furthest = [tail.extreme::<false>(slope), head.extreme::<true>(slope)];
            for corner in furthest.into_iter().flatten() {
                let above = corner.level - (base + slope * (corner.at - start));
                if above > best.0 && corner.at > start && corner.at < stop {
                    best = (above, corner.at);
                }
            }
            found.push((best.0, best.1 as usize));
            tail.undo();
        }
        first += block;
    }
    found
}
