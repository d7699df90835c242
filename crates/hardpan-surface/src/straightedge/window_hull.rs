//! The point that stands highest over the chord of every sliding window, in
//! O(n log m): a window is the tail of one block and the head of the next, and
//! each part keeps the upper hull of its points (Andrew's monotone chain), on
//! which the point furthest in the chord's normal is found by bisection.

/// Upper hull of points that arrive in one direction along the profile.
struct Hull<'a> {
    z: &'a [f64],
    points: Vec<Point>,
    removed: Vec<Point>,
    removals: Vec<usize>,
}

/// A point of the hull, and the slope to it from the one before; that of the first
/// is never asked for.
#[derive(Clone, Copy)]
struct Point {
    at: usize,
    slope: f64,
}

impl<'a> Hull<'a> {
    fn new(z: &'a [f64]) -> Self {
        Self { z, points: Vec::new(), removed: Vec::new(), removals: Vec::new() }
    }

    fn level(&self, at: usize) -> f64 {
        self.z.get(at).copied().unwrap_or(f64::NEG_INFINITY)
    }

    fn slope(&self, a: usize, b: usize) -> f64 {
        (self.level(b) - self.level(a)) / (b as f64 - a as f64)
    }

    fn push(&mut self, new: usize) {
        let mut removals = 0;
        let mut slope = f64::NAN;
        while let Some(last) = self.points.last().copied() {
            slope = self.slope(last.at, new);
            let keeps = if new > last.at { last.slope > slope } else { last.slope < slope };
            if keeps || self.points.len() < 2 {
                break;
            }
            self.removed.push(last);
            self.points.pop();
            removals += 1;
        }
        self.removals.push(removals);
        self.points.push(Point { at: new, slope });
    }

    fn undo(&mut self) {
        self.points.pop();
        for _ in 0..self.removals.pop().unwrap_or(0) {
            if let Some(point) = self.removed.pop() {
                self.points.push(point);
            }
        }
    }

    /// The point with the greatest `z - slope * index`.
    fn extreme(&self, slope: f64) -> Option<usize> {
        let [first, after @ ..] = self.points.as_slice() else { return None };
        let along = after.first().is_some_and(|next| next.at > first.at);
        let rises = |next: &Point| if along { next.slope > slope } else { next.slope < slope };
        let risen = after.partition_point(rises);
        self.points.get(risen).map(|point| point.at)
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
    let mut first = 0;
    while first < windows {
        let mut tail = Hull::new(z);
        (first..first + block).rev().for_each(|at| tail.push(at));
        let mut head = Hull::new(z);
        for start in first..(first + block).min(windows) {
            if start > first {
                head.push(start + intervals);
            }
            found.push(best(&tail, &head, start, intervals));
            tail.undo();
        }
        first += block;
    }
    found
}

fn best(tail: &Hull<'_>, head: &Hull<'_>, start: usize, intervals: usize) -> (f64, usize) {
    let slope = tail.slope(start, start + intervals);
    let base = tail.level(start);
    let mut best = (0.0, start);
    for at in [tail.extreme(slope), head.extreme(slope)].into_iter().flatten() {
        let above = tail.level(at) - (base + slope * (at as f64 - start as f64));
        if above > best.0 && at > start && at < start + intervals {
            best = (above, at);
        }
    }
    best
}
