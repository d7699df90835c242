//! One cell: a robust pilot from its first points, then sums of a plane, so
//! that memory is bounded by the cells and not by the points.

use super::pilots::Pilots;

/// Points further from the pilot than this many of its deviations are left
/// out, but never those nearer than 60 mm (the slope within the cell and a
/// second pass of the scanner lie there) nor any beyond 300 mm. Source:
/// judgement.
const CLIP_DEVIATIONS: f64 = 4.0;
const CLIP_LEAST_M: f64 = 0.06;
const CLIP_MOST_M: f64 = 0.30;
/// Fewest points for a plane and a spread about it.
pub(crate) const PLANE_POINTS: u32 = 8;

#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Cell {
    origin_m: f64,
    sums: Sums,
    state: State,
    pub(crate) used: u32,
    pub(crate) rejected: u32,
}

/// Whether the ground of a cell is settled.
#[derive(Debug, Clone, Copy, Default)]
enum State {
    /// No point yet.
    #[default]
    Empty,
    /// Its first points stand in a pilot.
    Open { pilot: u32, points: u32 },
    /// Heights within `band` of `centre` are ground.
    Settled { centre: f32, band: f32 },
}

/// Sums over station s, offset o (from the middle of the cell) and height z.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    s: f64,
    o: f64,
    z: f64,
    ss: f64,
    so: f64,
    oo: f64,
    sz: f64,
    oz: f64,
    zz: f64,
}

/// What a cell says of the ground at its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CellLevel {
    pub(crate) elevation_m: f64,
    pub(crate) points: u32,
    /// Variance of one point about the plane; none below [`PLANE_POINTS`].
    pub(crate) variance: Option<f64>,
}

impl Cell {
    /// Takes a point at `s` and `o` from the middle of the cell.
    #[inline]
    pub(crate) fn add(&mut self, (s, o): (f64, f64), height_m: f64, pilots: &mut Pilots) {
        if let State::Settled { centre, band } = self.state {
            self.take(s, o, height_m - self.origin_m, (centre, band));
            return;
        }
        self.keep((s, o), height_m, pilots);
    }

    fn keep(&mut self, (s, o): (f64, f64), height_m: f64, pilots: &mut Pilots) {
        let (pilot, points) = match self.state {
            State::Open { pilot, points } => (pilot, points),
            _ => {
                self.origin_m = height_m;
                (pilots.open(), 0)
            }
        };
        pilots.keep((pilot, points as usize), (s, o, height_m - self.origin_m));
        self.state = State::Open { pilot, points: points + 1 };
        if points as usize + 1 == pilots.points() {
            self.settle(pilots);
        }
    }

    #[inline]
    fn take(&mut self, s: f64, o: f64, z: f64, (centre, band): (f32, f32)) {
        if (z - f64::from(centre)).abs() > f64::from(band) {
            self.rejected = self.rejected.saturating_add(1);
            return;
        }
        self.used = self.used.saturating_add(1);
        let sums = &mut self.sums;
        sums.s += s;
        sums.o += o;
        sums.z += z;
        sums.ss += s * s;
        sums.so += s * o;
        sums.oo += o * o;
        sums.sz += s * z;
        sums.oz += o * z;
        sums.zz += z * z;
    }

    /// Closes the pilot: the shortest half of its heights is the ground.
    pub(crate) fn settle(&mut self, pilots: &mut Pilots) {
        let State::Open { pilot, points } = self.state else { return };
        let points: Vec<(f64, f64, f64)> = pilots.kept(pilot, points as usize).collect();
        pilots.close(pilot);
        let mut heights: Vec<f64> = points.iter().map(|point| point.2).collect();
        heights.sort_by(f64::total_cmp);
        let (middle, deviation) = shortest_half(&heights);
        let band = (CLIP_DEVIATIONS * deviation).clamp(CLIP_LEAST_M, CLIP_MOST_M);
        let ground = (middle as f32, band as f32);
        self.state = State::Settled { centre: ground.0, band: ground.1 };
        for (s, o, z) in points {
            self.take(s, o, z, ground);
        }
    }

    /// The level in the middle of a cell of the given size.
    pub(crate) fn level(&self, least: u32, length_m: f64, width_m: f64) -> Option<CellLevel> {
        if self.used < least.max(1) {
            return None;
        }
        let n = f64::from(self.used);
        let t = &self.sums;
        let mean = t.z / n;
        let flat =
            CellLevel { elevation_m: self.origin_m + mean, points: self.used, variance: None };
        let (ss, so, oo) = (t.ss - t.s * t.s / n, t.so - t.s * t.o / n, t.oo - t.o * t.o / n);
        let (sz, oz, zz) = (t.sz - t.s * t.z / n, t.oz - t.o * t.z / n, t.zz - t.z * t.z / n);
        let determinant = ss * oo - so * so;
        // Points spread evenly over the cell give n²·L²·W²/144; far less means
        // that they stand in a row, and a plane through them would tilt freely.
        let even = (n * length_m * width_m / 12.0).powi(2);
        if self.used < PLANE_POINTS || determinant < 0.05 * even {
            return Some(flat);
        }
        let along = (sz * oo - oz * so) / determinant;
        let across = (oz * ss - sz * so) / determinant;
        let left = (zz - along * sz - across * oz).max(0.0);
        Some(CellLevel {
            elevation_m: self.origin_m + mean - (along * t.s + across * t.o) / n,
            points: self.used,
            variance: Some(left / (n - 3.0)),
        })
    }
}

/// Middle and scale of the shortest half of a sorted sample.
///
/// ```text
/// middle = median of the shortest interval that holds h = ⌊n/2⌋ + 1 values
/// scale  = its length / 1.349        [ROUSSEEUW-LEROY-1987] section 4.1
/// ```
///
/// | symbol | argument  | meaning               | unit | valid |
/// |--------|-----------|-----------------------|------|-------|
/// | n      | `heights` | sorted, at least one  | m    | –     |
///
/// For a normal sample half the values lie within ±0.6745 σ. Up to half of the
/// values may be anything. Of halves equally short the lowest counts, because
/// what stands on the ground lies above it.
fn shortest_half(heights: &[f64]) -> (f64, f64) {
    let half = heights.len() / 2 + 1;
    let mut best = (f64::INFINITY, 0);
    for (start, window) in heights.windows(half.min(heights.len())).enumerate() {
        if let [first, .., last] = window
            && last - first < best.0
        {
            best = (last - first, start);
        }
    }
    let (length, start) = if best.0.is_finite() { best } else { (0.0, 0) };
    let middle = heights.get(start + half / 2).or(heights.last()).copied().unwrap_or(0.0);
    (middle, length / 1.349)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shortest_half_ignores_what_stands_above() {
        let heights = [0.0, 0.01, 0.02, 0.03, 0.5, 0.9, 1.4];
        let (middle, scale) = shortest_half(&heights);
        assert_eq!(middle, 0.02);
        assert!((scale - 0.03 / 1.349).abs() < 1e-12);
    }

    #[test]
    fn one_and_two_heights_are_a_half() {
        assert_eq!(shortest_half(&[3.0]), (3.0, 0.0));
        let (middle, _) = shortest_half(&[1.0, 2.0]);
        assert_eq!(middle, 2.0);
    }

    #[test]
    fn a_plane_is_met_in_the_middle_from_points_that_lean_to_one_side() {
        let (mut cell, mut pilots) = (Cell::default(), Pilots::new(32, (0.5, 1.0)));
        for step in 0..60 {
            let (s, o) = (f64::from(step % 7) * 0.04, f64::from(step % 5) * 0.15 - 0.2);
            cell.add((s, o), 100.0 + 0.03 * s - 0.015 * o, &mut pilots);
        }
        cell.settle(&mut pilots);
        let level = cell.level(3, 0.5, 1.0).expect("a level");
        // Places of the pilot are told to 16 µm, on a slope of 3 %.
        assert!((level.elevation_m - 100.0).abs() < 1e-6);
        assert_eq!(level.points, 60);
    }
}
