//! The first points of cells whose ground is not settled yet, side by side in
//! whole blocks: memory that is one piece for thousands of cells, used again
//! when a cell settles, and given back as one.

/// Pilots of a block.
const BLOCK: usize = 4096;
/// Steps to each side of the middle of a cell that a place is told in.
const STEPS: f32 = 32_000.0;

/// One point: its place in 32 000ths of the half-sides of its cell, and its
/// height over the first point of the cell.
#[derive(Debug, Clone, Copy, Default)]
struct PilotPoint {
    s: i16,
    o: i16,
    z: f32,
}

/// The pilots of all cells, each of `points` points.
#[derive(Debug, Clone)]
pub(crate) struct Pilots {
    points: usize,
    half_sides: (f32, f32),
    blocks: Vec<Vec<PilotPoint>>,
    free: Vec<u32>,
    opened: u32,
}

impl Pilots {
    /// No pilot yet; each will hold `points` of a cell of that length and width.
    pub(super) fn new(points: usize, (length_m, width_m): (f64, f64)) -> Self {
        let half_sides = (0.5 * length_m as f32, 0.5 * width_m as f32);
        Self { points, half_sides, blocks: Vec::new(), free: Vec::new(), opened: 0 }
    }

    /// Points of a pilot.
    pub(super) fn points(&self) -> usize {
        self.points
    }

    /// A pilot for a cell.
    pub(super) fn open(&mut self) -> u32 {
        self.free.pop().unwrap_or_else(|| {
            if self.opened as usize == self.blocks.len() * BLOCK {
                self.blocks.push(vec![PilotPoint::default(); BLOCK * self.points]);
            }
            self.opened += 1;
            self.opened - 1
        })
    }

    /// Gives a pilot back.
    pub(super) fn close(&mut self, pilot: u32) {
        self.free.push(pilot);
    }

    /// Keeps the point of that number.
    pub(super) fn keep(&mut self, (pilot, index): (u32, usize), (s, o, z): (f64, f64, f64)) {
        let step = |place: f64, half: f32| (place as f32 / half * STEPS).round() as i16;
        let point = PilotPoint {
            s: step(s, self.half_sides.0),
            o: step(o, self.half_sides.1),
            z: z as f32,
        };
        let (block, first) = self.place(pilot);
        if let Some(slot) = self.blocks.get_mut(block).and_then(|b| b.get_mut(first + index)) {
            *slot = point;
        }
    }

    /// The first `count` points: place along and across the cell, and height.
    pub(super) fn kept(
        &self,
        pilot: u32,
        count: usize,
    ) -> impl Iterator<Item = (f64, f64, f64)> + '_ {
        let (block, first) = self.place(pilot);
        let points = self.blocks.get(block).and_then(|block| block.get(first..first + count));
        let (length, width) = self.half_sides;
        let metres = |step: i16, half: f32| f64::from(f32::from(step) / STEPS * half);
        points
            .unwrap_or_default()
            .iter()
            .map(move |point| (metres(point.s, length), metres(point.o, width), f64::from(point.z)))
    }

    fn place(&self, pilot: u32) -> (usize, usize) {
        let pilot = pilot as usize;
        (pilot / BLOCK, pilot % BLOCK * self.points)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pilot_gives_back_what_it_was_given_and_is_used_again() {
        let mut pilots = Pilots::new(4, (0.5, 1.0));
        let all: Vec<u32> = (0..5000).map(|_| pilots.open()).collect();
        assert_eq!(pilots.blocks.len(), 2);
        let (one, other) = (all[3], all[4500]);
        pilots.keep((one, 0), (0.25, -0.5, 1.5));
        pilots.keep((other, 0), (-0.1, 0.3, -2.25));
        let kept: Vec<_> = pilots.kept(one, 1).collect();
        assert_eq!(kept, [(0.25, -0.5, 1.5)]);
        let (s, o, z) = pilots.kept(other, 1).next().expect("a point");
        // A cell of half a metre is told in steps of 8 µm.
        assert!((s + 0.1).abs() < 8e-6 && (o - 0.3).abs() < 16e-6);
        assert_eq!(z, -2.25);
        pilots.close(one);
        assert_eq!(pilots.open(), one);
    }
}
