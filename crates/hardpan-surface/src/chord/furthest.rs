//! The positions of a chord off which the ground stands furthest: positions side
//! by side are looked at one by one only where the ground under them all leaves
//! room for as much.

use crate::chord::{Bearing, EventKind};
use std::ops::Range;

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
    looked_at: bool,
}

/// All positions of a chord on levels.
pub(crate) struct Positions<'a> {
    z: &'a [f64],
    intervals: usize,
    ramp: Vec<f64>,
    blocks: Vec<Block>,
    /// How far the ground stands off each position that was looked at, by kind.
    heights: [Vec<f64>; 2],
}

impl<'a> Positions<'a> {
    pub(crate) fn new(z: &'a [f64], intervals: usize) -> Self {
        let count = if intervals == 0 { 0 } else { z.len().saturating_sub(intervals) };
        let side_by_side = (intervals / SHARE_OF_CHORD).max(1);
        let ramp = (0..=intervals + side_by_side).map(|at| at as f64).collect();
        let heights = [vec![0.0; count], vec![0.0; count]];
        let mut all = Self { z, intervals, ramp, blocks: Vec::new(), heights };
        all.blocks = (0..count)
            .step_by(side_by_side)
            .map(|first| {
                let positions = first..(first + side_by_side).min(count);
                let at_most = all.room(&positions);
                Block { positions, at_most, looked_at: false }
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
            for (left, _) in heights.iter().enumerate().filter(|(_, height)| **height > threshold) {
                let next = self.bearing(left, kind);
                if let Some(last) = last.filter(|last| last.at == next.at) {
                    let between = (last.left + 1..left).map(|left| self.bearing(left, kind));
                    let between: Vec<Bearing> =
                        between.take_while(|bearing| bearing.at == next.at).collect();
                    if last.left + 1 + between.len() == left {
                        found.extend(between);
                    }
                }
                found.push(next);
                last = Some(next);
            }
        }
        found
    }

    /// Look at every position that may be over a threshold.
    fn look(&mut self, kind: EventKind, threshold: f64) {
        let mut blocks = std::mem::take(&mut self.blocks);
        let may_be_over =
            |block: &&mut Block| !block.looked_at && over(block.at_most, kind) > threshold;
        for block in blocks.iter_mut().filter(may_be_over) {
            block.looked_at = true;
            for left in block.positions.clone() {
                for (heights, height) in self.heights.iter_mut().zip(stands_off(
                    self.z.get(left..=left + self.intervals).unwrap_or_default(),
                    &self.ramp,
                )) {
                    if let Some(slot) = heights.get_mut(left) {
                        *slot = height;
                    }
                }
            }
        }
        self.blocks = blocks;
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

    /// One position with the sample that lies furthest off it.
    fn bearing(&self, left: usize, kind: EventKind) -> Bearing {
        let right = left + self.intervals;
        let z = self.z.get(left..=right).unwrap_or_default();
        let line = chord(z);
        let sign = if kind == EventKind::Bump { 1.0 } else { -1.0 };
        let off = z.iter().zip(&self.ramp).map(|(z, at)| sign * (z - (line.0 + line.1 * at)));
        let higher =
            |best: (usize, f64), next: (usize, f64)| if next.1 > best.1 { next } else { best };
        let (after, height_m) = off.enumerate().fold((0, 0.0), higher);
        Bearing { kind, height_m, at: left + after, left, right }
    }
}

fn over(values: [f64; 2], kind: EventKind) -> f64 {
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

/// Least and greatest of the levels less a line, four by four.
fn extremes(z: &[f64], ramp: &[f64], (base, slope): (f64, f64)) -> (f64, f64) {
    let off = |z: &f64, at: &f64| z - (base + slope * at);
    let (fours, rest) = z.as_chunks::<4>();
    let (ramps, ramp_rest) = ramp.get(..z.len()).unwrap_or(ramp).as_chunks::<4>();
    let (mut low, mut high) = ([f64::INFINITY; 4], [f64::NEG_INFINITY; 4]);
    for (z, at) in fours.iter().zip(ramps) {
        for (((low, high), z), at) in low.iter_mut().zip(&mut high).zip(z).zip(at) {
            let off = off(z, at);
            *low = if off < *low { off } else { *low };
            *high = if off > *high { off } else { *high };
        }
    }
    let rest = rest.iter().zip(ramp_rest).map(|(z, at)| off(z, at));
    rest.map(|off| (off, off))
        .chain(low.into_iter().zip(high))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |all, next| {
            (all.0.min(next.0), all.1.max(next.1))
        })
}
