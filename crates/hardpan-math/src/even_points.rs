//! Points that fill the unit cube evenly.

use sobol_burley::{NUM_DIMENSIONS, sample};

/// Most points of one sequence.
pub const MOST_POINTS: u32 = 1 << 16;

/// Most dimensions of one sequence.
pub const MOST_DIMENSIONS: u32 = NUM_DIMENSIONS;

/// Half the step between the single-precision values of the generator, so that
/// no coordinate is 0 or 1.
const HALF_STEP: f64 = 1.0 / (1u32 << 25) as f64;

/// A sequence of Sobol points in the open unit cube, scrambled after Owen by a
/// seed: the same seed gives the same points, another seed independent ones.
///
/// A power of two of points is the most even; with any other number the parts of
/// the cube are not filled alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EvenPoints {
    dimensions: u32,
    seed: u32,
}

impl EvenPoints {
    /// A sequence; none for more dimensions than [`MOST_DIMENSIONS`].
    #[must_use]
    pub fn new(dimensions: usize, seed: u32) -> Option<Self> {
        let dimensions = u32::try_from(dimensions).ok().filter(|count| *count <= MOST_DIMENSIONS);
        dimensions.map(|dimensions| Self { dimensions, seed })
    }

    /// One point; none from [`MOST_POINTS`] on.
    #[must_use]
    pub fn point(&self, index: u32) -> Option<Vec<f64>> {
        let coordinate =
            |dimension: u32| f64::from(sample(index, dimension, self.seed)) + HALF_STEP;
        (index < MOST_POINTS).then(|| (0..self.dimensions).map(coordinate).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::{EvenPoints, MOST_DIMENSIONS, MOST_POINTS};

    /// Mean of a function over the points.
    fn mean(points: u32, dimensions: usize, seed: u32, of: impl Fn(&[f64]) -> f64) -> f64 {
        let sequence = EvenPoints::new(dimensions, seed).expect("few dimensions");
        let sum: f64 = (0..points).map(|i| of(&sequence.point(i).expect("few points"))).sum();
        sum / f64::from(points)
    }

    #[test]
    fn every_slice_of_each_axis_holds_one_point() {
        let sequence = EvenPoints::new(20, 9).expect("few dimensions");
        let points: Vec<_> = (0..256).filter_map(|i| sequence.point(i)).collect();
        for axis in 0..20 {
            let mut slices: Vec<usize> =
                points.iter().map(|point| (256.0 * point[axis]) as usize).collect();
            slices.sort_unstable();
            assert_eq!(slices, (0..256).collect::<Vec<_>>());
        }
    }

    /// Closed form: the mean of the product of (1 + c (x − 1/2)) is 1, that of
    /// the sum of x is half the number of axes.
    #[test]
    fn means_of_a_sum_and_of_a_product_are_met() {
        for seed in 0..8 {
            let sum = mean(1024, 12, seed, |x| x.iter().sum());
            assert!((sum - 6.0).abs() < 2e-4, "{sum}");
            let product =
                mean(1024, 12, seed, |x| x.iter().map(|x| 1.0 + 0.5 * (x - 0.5)).product());
            assert!((product - 1.0).abs() < 3e-3, "{product}");
        }
    }

    /// The root mean square error of independent draws falls as one over the root
    /// of their number; that of these points must be far below it.
    #[test]
    fn error_is_far_below_that_of_independent_draws() {
        let squares = (0..32).map(|seed| {
            let found = mean(1024, 6, seed, |x| x.iter().map(|x| 2.0 * x).product());
            (found - 1.0).powi(2)
        });
        let error = (squares.sum::<f64>() / 32.0).sqrt();
        // The variance of the product is (4/3)^6 - 1.
        let independent = (((4.0_f64 / 3.0).powi(6) - 1.0) / 1024.0).sqrt();
        assert!(error < independent / 5.0, "{error} against {independent}");
    }

    #[test]
    fn a_seed_gives_the_same_points_and_another_does_not() {
        let one = EvenPoints::new(3, 5).expect("few dimensions");
        assert_eq!(one.point(77), one.point(77));
        assert_ne!(one.point(77), EvenPoints::new(3, 6).expect("few dimensions").point(77));
        let inside = |point: Vec<f64>| point.iter().all(|x| *x > 0.0 && *x < 1.0);
        assert!((0..MOST_POINTS).step_by(97).all(|i| one.point(i).is_some_and(inside)));
        assert_eq!(one.point(MOST_POINTS), None);
        assert_eq!(EvenPoints::new(MOST_DIMENSIONS as usize + 1, 0), None);
    }
}
