//! A smooth function through values at many points, with its error at points that
//! it was not fitted to.

use nalgebra::{DMatrix, DVector, Dyn, linalg::Cholesky};

/// Axes of which squares and products are taken, besides the line of every axis.
const MOST_BENT: usize = 6;
/// Points for each coefficient.
const LEAST_POINTS: usize = 2;

/// The points of a fit, whatever the values there.
#[derive(Debug, Clone)]
pub struct Design {
    rows: DMatrix<f64>,
    normal: Cholesky<f64, Dyn>,
    bent: usize,
}

/// A plane over all axes with squares and products of those that matter most,
/// fitted by least squares, and what it says of each of its own points when it
/// is fitted to all others.
///
/// ```text
/// β = (ZᵀZ)⁻¹ Zᵀ y,   h = diag(Z (ZᵀZ)⁻¹ Zᵀ)
/// ŷ without the point itself = y - (y - ŷ) / (1 - h)        [ALLEN-1974]
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct SmoothFit {
    axes: Vec<usize>,
    coefficients: Vec<f64>,
    /// What the others say of each point.
    pub held_out: Vec<f64>,
    /// Root mean square of what they err there.
    pub error: f64,
}

/// Squares and products of some axes.
fn products(point: impl Fn(usize) -> f64, axes: &[usize]) -> Vec<f64> {
    let of = |(at, first): (usize, &usize)| {
        let first = point(*first);
        axes[at..].iter().map(|second| first * point(*second)).collect::<Vec<_>>()
    };
    axes.iter().enumerate().flat_map(of).collect()
}

impl Design {
    /// None where the points are fewer than two for each axis, not all as long as
    /// the first, or all in one plane.
    #[must_use]
    pub fn new(points: &[Vec<f64>]) -> Option<Self> {
        let axes = points.first()?.len();
        let count = points.len();
        if count < LEAST_POINTS * (axes + 1) || points.iter().any(|one| one.len() != axes) {
            return None;
        }
        let rows = DMatrix::from_fn(count, axes + 1, |row, column| match column {
            0 => 1.0,
            _ => points[row][column - 1],
        });
        let normal = Cholesky::new(rows.tr_mul(&rows))?;
        let is_enough = |bent: usize| {
            bent <= axes && count >= LEAST_POINTS * (axes + 1 + bent * (bent + 1) / 2)
        };
        let bent = (0..=MOST_BENT).rev().find(|bent| is_enough(*bent))?;
        Some(Self { rows, normal, bent })
    }

    /// The fit of the value at each point; none where there are not as many, or
    /// one is not finite.
    #[must_use]
    pub fn fit(&self, values: &[f64]) -> Option<SmoothFit> {
        let count = self.rows.nrows();
        if values.len() != count || values.iter().any(|value| !value.is_finite()) {
            return None;
        }
        let values = DVector::from_column_slice(values);
        let plane = self.normal.solve(&self.rows.tr_mul(&values));
        let mut axes: Vec<usize> = (0..plane.len() - 1).collect();
        axes.sort_by(|a, b| plane[b + 1].abs().total_cmp(&plane[a + 1].abs()).then(a.cmp(b)));
        axes.truncate(self.bent);
        let more: Vec<Vec<f64>> =
            (0..count).map(|row| products(|axis| self.rows[(row, axis + 1)], &axes)).collect();
        let (lines, bent) = (self.rows.ncols(), more.first().map_or(0, Vec::len));
        let all = DMatrix::from_fn(count, lines + bent, |row, column| {
            if column < lines { self.rows[(row, column)] } else { more[row][column - lines] }
        });
        let normal = Cholesky::new(all.tr_mul(&all))?;
        let coefficients = normal.solve(&all.tr_mul(&values));
        let half = normal.l().solve_lower_triangular(&all.transpose())?;
        let said = &all * &coefficients;
        let held_out: Vec<f64> = (0..count)
            .map(|at| {
                let own = half.column(at).norm_squared().min(1.0 - 1e-9);
                values[at] - (values[at] - said[at]) / (1.0 - own)
            })
            .collect();
        let square: f64 = held_out.iter().zip(values.iter()).map(|(a, b)| (a - b).powi(2)).sum();
        let error = (square / count as f64).sqrt();
        let coefficients = coefficients.iter().copied().collect();
        Some(SmoothFit { axes, coefficients, held_out, error })
    }
}

impl SmoothFit {
    /// What the fit says of a point.
    #[must_use]
    pub fn at(&self, point: &[f64]) -> f64 {
        let axis = |axis: usize| point.get(axis).copied().unwrap_or(0.0);
        let more = products(axis, &self.axes);
        let features = std::iter::once(1.0).chain(point.iter().copied()).chain(more);
        self.coefficients.iter().zip(features).map(|(a, b)| a * b).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::Design;
    use crate::{EvenPoints, normal_quantile};

    fn normals(count: u32, axes: usize, seed: u32) -> Vec<Vec<f64>> {
        let points = EvenPoints::new(axes, seed).expect("few axes");
        let normal = |point: Vec<f64>| point.into_iter().filter_map(normal_quantile).collect();
        (0..count).filter_map(|i| points.point(i)).map(normal).collect()
    }

    /// Closed form: a quadratic of few axes is met everywhere, without error.
    #[test]
    fn a_quadratic_is_met_at_points_of_its_own_and_at_others() {
        let of = |z: &[f64]| 3.0 + 2.0 * z[0] - z[1] + 0.5 * z[0] * z[1] + 0.2 * z[1] * z[1];
        let points = normals(256, 8, 1);
        let values: Vec<f64> = points.iter().map(|z| of(z)).collect();
        let fit = Design::new(&points).and_then(|design| design.fit(&values)).expect("it fits");
        assert!(fit.error < 1e-9, "{}", fit.error);
        for other in normals(64, 8, 2) {
            assert!((fit.at(&other) - of(&other)).abs() < 1e-9);
        }
    }

    /// The definition: the fit to all points but one, at that one.
    #[test]
    fn what_is_held_out_is_the_fit_to_all_others() {
        let points = normals(64, 2, 3);
        let values: Vec<f64> = points.iter().map(|z| (z[0] + 0.3 * z[1]).exp()).collect();
        let fit = Design::new(&points).and_then(|design| design.fit(&values)).expect("it fits");
        for at in [0, 17, 63] {
            let without = |all: &[f64]| [&all[..at], &all[at + 1..]].concat();
            let others = [&points[..at], &points[at + 1..]].concat();
            let other = Design::new(&others).and_then(|design| design.fit(&without(&values)));
            let said = other.expect("it fits").at(&points[at]);
            assert!((said - fit.held_out[at]).abs() < 1e-9, "{said} for {}", fit.held_out[at]);
        }
    }

    /// Closed form: of exp(s z) a square in z leaves the third and higher terms of
    /// its Hermite series, exp(s²) (exp(s²) - 1 - s² - s⁴/2) of variance.
    #[test]
    fn the_error_at_held_out_points_is_that_of_the_series_cut_short() {
        let s = 0.3_f64;
        let points = normals(4096, 1, 5);
        let values: Vec<f64> = points.iter().map(|z| (s * z[0]).exp()).collect();
        let fit = Design::new(&points).and_then(|design| design.fit(&values)).expect("it fits");
        let square = s * s;
        let cut = square.exp() * (square.exp() - 1.0 - square - square * square / 2.0);
        assert!((fit.error / cut.sqrt() - 1.0).abs() < 0.05, "{} for {}", fit.error, cut.sqrt());
    }

    #[test]
    fn too_few_points_and_values_that_are_none_are_refused() {
        let points = normals(16, 8, 1);
        assert!(Design::new(&points).is_none());
        let points = normals(64, 8, 1);
        let design = Design::new(&points).expect("enough");
        assert!(design.fit(&[1.0; 63]).is_none());
        assert!(design.fit(&[f64::NAN; 64]).is_none());
        assert!(Design::new(&vec![vec![1.0, 2.0]; 64]).is_none());
    }
}
