//! One cell: a robust pilot from its first points, then sums of a plane, so
//! that memory is bounded by the cells and not by the points.

/// Points that are kept before the ground of the cell is settled.
const PILOT: usize = 32;
/// Points further from the pilot than this many of its deviations are left
/// out, but never those nearer than 60 mm (the slope within the cell and a
/// second pass of the scanner lie there) nor any beyond 300 mm. Source:
/// judgement.
const CLIP_DEVIATIONS: f64 = 4.0;
const CLIP_LEAST_M: f64 = 0.06;
const CLIP_MOST_M: f64 = 0.30;
/// Fewest points for a plane and a spread about it.
pub(crate) const PLANE_POINTS: u32 = 8;

#[derive(Debug, Clone, Default)]
pub(crate) struct Cell {
    pilot: Vec<[f32; 3]>,
    origin_m: f64,
    centre: f64,
    /// Half-width of what counts as ground; none while the pilot is open.
    band: Option<f64>,
    pub(crate) used: u32,
    pub(crate) rejected: u32,
    sums: Sums,
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
    pub(crate) fn add(&mut self, s: f64, o: f64, height_m: f64) {
        if let Some(band) = self.band {
            self.take(s, o, height_m - self.origin_m, band);
            return;
        }
        if self.pilot.is_empty() {
            self.origin_m = height_m;
        }
        self.pilot.push([s as f32, o as f32, (height_m - self.origin_m) as f32]);
        if self.pilot.len() == PILOT {
            self.settle();
        }
    }

    #[inline]
    fn take(&mut self, s: f64, o: f64, z: f64, band: f64) {
        if (z - self.centre).abs() > band {
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
    pub(crate) fn settle(&mut self) {
        if self.band.is_some() || self.pilot.is_empty() {
            return;
        }
        let pilot = std::mem::take(&mut self.pilot);
        let mut heights: Vec<f64> = pilot.iter().map(|point| f64::from(point[2])).collect();
        heights.sort_by(f64::total_cmp);
        let (middle, deviation) = shortest_half(&heights);
        let band = (CLIP_DEVIATIONS * deviation).clamp(CLIP_LEAST_M, CLIP_MOST_M);
        self.centre = middle;
        self.band = Some(band);
        for point in pilot {
            self.take(f64::from(point[0]), f64::from(point[1]), f64::from(point[2]), band);
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
        let mut cell = Cell::default();
        for step in 0..60 {
            let (s, o) = (f64::from(step % 7) * 0.05, f64::from(step % 5) * 0.15 - 0.2);
            cell.add(s, o, 100.0 + 0.03 * s - 0.015 * o);
        }
        cell.settle();
        let level = cell.level(3, 0.5, 1.0).expect("a level");
        assert!((level.elevation_m - 100.0).abs() < 1e-6);
        assert_eq!(level.points, 60);
    }
}
