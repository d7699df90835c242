//! The positions of a chord off which the ground stands furthest: positions side
//! by side are looked at one by one only where the ground under them all leaves
//! room for as much.

use crate::chord::{Bearing, EventKind};
use std::ops::Range;
use wide::f64x2;

/// Positions side by side, as a share of the chord.
const SHARE_OF_CHORD: usize = 8;
/// More than rounding takes from the bound, m.
const ROUNDING_M: f64 = 1e-9;

/// Above and below the chord.
const KINDS: [EventKind; 2] = [EventKind::Bump, EventKind::Rut];

/// Positions side by side, and the most by which the ground may stand off one of
/// them, by kind.
struct Block {
    positions: Range<usize>,
    at_most: [f64; 2],
}

/// All positions of a chord on levels.
pub(crate) struct Positions<'a> {
    z: &'a [f64],
    intervals: usize,
    ramp: Vec<f64>,
    blocks: Vec<Block>,
    /// How far the ground stands off each position, by kind; NaN for those that were
    /// not looked at.
    heights: [Vec<f64>; 2],
}

impl<'a> Positions<'a> {
    pub(crate) fn new(z: &'a [f64], intervals: usize) -> Self {
        let count = if intervals == 0 { 0 } else { z.len().saturating_sub(intervals) };
        let side_by_side = (intervals / SHARE_OF_CHORD).max(1);
        let ramp = (0..=intervals + side_by_side).map(|at| at as f64).collect();
        let heights = [vec![f64::NAN; count], vec![f64::NAN; count]];
        let mut all = Self { z, intervals, ramp, blocks: Vec::new(), heights };
        all.blocks = (0..count)
            .step_by(side_by_side)
            .map(|first| {
                let positions = first..(first + side_by_side).min(count);
                let at_most = all.room(&positions);
                Block { positions, at_most }
            })
            .collect();
        all
    }

    /// The most that the ground may stand off any position, by kind.
    pub(crate) fn at_most(&self) -> [f64; 2] {
        self.blocks.iter().fold([0.0; 2], |most, block| greater(most, block.at_most))
    }

    /// Every position off which the ground stands by more than the threshold of its
    /// kind, bumps first, each by rising station; with those between two that all
    /// share one worst point.
    pub(crate) fn over(&mut self, thresholds: [f64; 2]) -> Vec<Bearing> {
        let mut found = Vec::new();
        for (kind, threshold) in KINDS.into_iter().zip(thresholds) {
            self.look(kind, threshold);
            let heights = self.heights.get(kind as usize).map_or(&[][..], Vec::as_slice);
            let mut last: Option<Bearing> = None;
            for (left, height_m) in
                heights.iter().enumerate().filter(|(_, height)| **height > threshold)
            {
                let near = last.map(|last| last.at);
                let next = self.bearing((left, kind), near, *height_m);
                if let Some(last) = last.filter(|last| last.at == next.at) {
                    found.extend(self.between(last, next));
                }
                found.push(next);
                last = Some(next);
            }
        }
        found
    }

    /// The positions between two that share a worst point, if they all do.
    fn between(&self, last: Bearing, next: Bearing) -> Vec<Bearing> {
        let mut found = Vec::new();
        for left in last.left + 1..next.left {
            let z = self.z.get(left..=left + self.intervals).unwrap_or_default();
            let [bump, rut] = stands_off(z, &self.ramp);
            let height_m = of_kind([bump, rut], next.kind);
            let bearing = self.bearing((left, next.kind), Some(next.at), height_m);
            if bearing.at != next.at {
                return Vec::new();
            }
            found.push(bearing);
        }
        found
    }

    /// Look at every position that may be over a threshold: not at one whose ends lie
    /// so near the chord of another that what is known of that leaves no room for it.
    fn look(&mut self, kind: EventKind, threshold: f64) {
        let blocks = std::mem::take(&mut self.blocks);
        for block in blocks.iter().filter(|block| of_kind(block.at_most, kind) > threshold) {
            let mut known: Option<Known> = None;
            for left in block.positions.clone() {
                let room = known.as_mut().map(|known| known.room(self.z, left, self.intervals));
                if room.is_some_and(|room| room <= threshold) {
                    continue;
                }
                let z = self.z.get(left..=left + self.intervals).unwrap_or_default();
                let height = self.height(z, left, kind);
                known = Some(Known { line: chord(z), sign: sign(kind), left, height });
            }
        }
        self.blocks = blocks;
    }

    /// How far the ground stands off a position.
    fn height(&mut self, z: &[f64], left: usize, kind: EventKind) -> f64 {
        let of = |heights: &[Vec<f64>; 2], kind: EventKind| {
            heights.get(kind as usize).and_then(|heights| heights.get(left)).copied()
        };
        if of(&self.heights, kind).is_none_or(f64::is_nan) {
            for (heights, height) in self.heights.iter_mut().zip(stands_off(z, &self.ramp)) {
                if let Some(slot) = heights.get_mut(left) {
                    *slot = height;
                }
            }
        }
        of(&self.heights, kind).unwrap_or(0.0)
    }

    /// What the ground leaves room for over and under chords that begin side by
    /// side: held against one line, it stands over a chord by no more than over the
    /// lower of all their ends.
    fn room(&self, positions: &Range<usize>) -> [f64; 2] {
        let many = positions.len();
        let last = positions.end - 1 + self.intervals;
        let z = self.z.get(positions.start..=last).unwrap_or_default();
        let (starts, ends) = (z.get(..many), z.get(self.intervals..));
        let (Some(starts), Some(ends)) = (starts, ends) else { return [0.0; 2] };
        let middle = |part: &[f64]| part.get(many / 2).copied().unwrap_or(0.0);
        let slope = (middle(ends) - middle(starts)) / self.intervals as f64;
        let base = middle(starts) - slope * (many / 2) as f64;
        let after = self.ramp.get(self.intervals..).unwrap_or_default();
        let (low, high) = extremes(z, &self.ramp, (base, slope));
        let at_starts = extremes(starts, &self.ramp, (base, slope));
        let at_ends = extremes(ends, after, (base, slope));
        [high - at_starts.0.min(at_ends.0), at_starts.1.max(at_ends.1) - low]
            .map(|room| room + ROUNDING_M)
    }

    /// One position with the first sample that lies as far off it as the height says:
    /// the one that is near, or else it is looked for.
    fn bearing(
        &self,
        (left, kind): (usize, EventKind),
        near: Option<usize>,
        height_m: f64,
    ) -> Bearing {
        let right = left + self.intervals;
        let z = self.z.get(left..=right).unwrap_or_default();
        let (base, slope) = chord(z);
        let reaches = |(z, at): (&f64, &f64)| sign(kind) * (z - (base + slope * at)) >= height_m;
        let pair = |after: usize| z.get(after).zip(self.ramp.get(after));
        let near = near.and_then(|near| near.checked_sub(left));
        let after = near
            .filter(|near| pair(*near).is_some_and(reaches))
            .or_else(|| z.iter().zip(&self.ramp).position(reaches));
        Bearing { kind, height_m, at: left + after.unwrap_or(0), left, right }
    }
}

/// A position that was looked at.
struct Known {
    line: (f64, f64),
    sign: f64,
    left: usize,
    /// The most that the ground stands off its line, from its first sample to the end
    /// of the position asked for last.
    height: f64,
}

impl Known {
    /// The most by which the ground may stand off the position at `left`, that is the
    /// next after the one asked for before.
    fn room(&mut self, z: &[f64], left: usize, intervals: usize) -> f64 {
        let off = |at: usize| {
            let along = (at - self.left) as f64;
            self.sign * (z.get(at).copied().unwrap_or(0.0) - (self.line.0 + self.line.1 * along))
        };
        let (first, last, inside) = (off(left), off(left + intervals), off(left + intervals - 1));
        self.height = self.height.max(inside);
        self.height - first.min(last) + ROUNDING_M
    }
}

fn sign(kind: EventKind) -> f64 {
    if kind == EventKind::Bump { 1.0 } else { -1.0 }
}

fn of_kind(values: [f64; 2], kind: EventKind) -> f64 {
    let [bump, rut] = values;
    if kind == EventKind::Bump { bump } else { rut }
}

fn greater([a, b]: [f64; 2], [c, d]: [f64; 2]) -> [f64; 2] {
    [a.max(c), b.max(d)]
}

/// Level at the first sample and slope by sample of the chord over all of them.
fn chord(z: &[f64]) -> (f64, f64) {
    let (Some(first), Some(last)) = (z.first(), z.last()) else { return (0.0, 0.0) };
    (*first, (last - first) / z.len().saturating_sub(1).max(1) as f64)
}

/// Greatest height of the levels over their chord and depth under it.
fn stands_off(z: &[f64], ramp: &[f64]) -> [f64; 2] {
    let (low, high) = extremes(z, ramp, chord(z));
    [high.max(0.0), (-low).max(0.0)]
}

/// Least and greatest of the levels less a line, two by two.
fn extremes(z: &[f64], ramp: &[f64], (base, slope): (f64, f64)) -> (f64, f64) {
    let (fours, rest) = z.as_chunks::<4>();
    let (ramps, ramp_rest) = ramp.get(..z.len()).unwrap_or(ramp).as_chunks::<4>();
    let (bases, slopes) = (f64x2::splat(base), f64x2::splat(slope));
    let off = |z: [f64; 2], at: [f64; 2]| f64x2::from(z) - (bases + slopes * f64x2::from(at));
    let (mut low, mut high) =
        ([f64x2::splat(f64::INFINITY); 2], [f64x2::splat(f64::NEG_INFINITY); 2]);
    for ([a, b, c, d], [p, q, r, s]) in fours.iter().zip(ramps) {
        let (first, second) = (off([*a, *b], [*p, *q]), off([*c, *d], [*r, *s]));
        low = [low[0].fast_min(first), low[1].fast_min(second)];
        high = [high[0].fast_max(first), high[1].fast_max(second)];
    }
    let low = low[0].fast_min(low[1]).to_array();
    let high = high[0].fast_max(high[1]).to_array();
    let rest = rest.iter().zip(ramp_rest).map(|(z, at)| z - (base + slope * at));
    rest.map(|off| (off, off))
        .chain(low.into_iter().zip(high))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |all, next| {
            (all.0.min(next.0), all.1.max(next.1))
        })
}
