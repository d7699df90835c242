//! The factors of least squares, by Levenberg and Marquardt.

use crate::fit::chart_points::Charted;
use crate::fit::constants::Constants;
use levenberg_marquardt::{LeastSquaresProblem, LevenbergMarquardt};
use nalgebra::storage::Owned;
use nalgebra::{DMatrix, DVector, Dyn};

/// What is taken of a constant of the file: its logarithm has this standard
/// deviation. Judgement, no document.
pub(super) const OF_A_CONSTANT: f64 = 0.20;
/// What is taken of a run beside a chart: its share has this standard deviation.
/// Judgement, no document.
const OF_A_RUN: f64 = 0.03;
/// Standard deviations beyond which a point counts less and less, as under a
/// Cauchy distribution: where one engine hardly climbs, a run says little.
const LONG_TAIL: f64 = 3.0;
/// A point without a run counts as one with a run of four times the chart.
const WITHOUT_A_RUN: f64 = 3.0;
/// Step of the derivatives, in the logarithm.
const STEP: f64 = 1e-3;
/// No factor leaves a fifth to five times.
const FARTHEST: f64 = 1.6;

/// The logarithms of the factors and their standard deviations.
#[derive(Debug, Clone)]
pub(super) struct Solution {
    pub(super) logarithms: Vec<f64>,
    pub(super) deviations: Vec<f64>,
}

struct Problem<'a> {
    constants: &'a Constants<'a>,
    charts: &'a [Charted],
    at: DVector<f64>,
}

impl Problem<'_> {
    /// Weighted residuals: of the charts, then of the constants.
    fn weighted(&self, at: &DVector<f64>) -> DVector<f64> {
        let held: Vec<f64> = at.iter().map(|one| one.clamp(-FARTHEST, FARTHEST)).collect();
        let mut all = Vec::new();
        for chart in self.charts {
            let errors = self.constants.errors(chart, &held);
            all.extend(errors.iter().map(|error| of_a_point(*error)));
        }
        all.extend(at.iter().map(|one| one / OF_A_CONSTANT));
        DVector::from_vec(all)
    }

    fn derivatives(&self) -> DMatrix<f64> {
        let columns: Vec<DVector<f64>> = (0..self.at.len())
            .map(|index| {
                let moved = |by: f64| {
                    let mut at = self.at.clone();
                    at[index] += by;
                    self.weighted(&at)
                };
                (moved(STEP) - moved(-STEP)) / (2.0 * STEP)
            })
            .collect();
        DMatrix::from_columns(&columns)
    }
}

/// Weighted residual of one point: the logarithm of run over chart in standard
/// deviations, its square growing as the logarithm far out.
fn of_a_point(error: Option<f64>) -> f64 {
    let share = 1.0 + error.unwrap_or(WITHOUT_A_RUN);
    let deviations = share.max(1e-3).ln() / OF_A_RUN;
    let far = deviations / LONG_TAIL;
    if far.abs() < 1e-6 {
        return deviations;
    }
    (LONG_TAIL * (far * far).ln_1p().sqrt()).copysign(deviations)
}

impl LeastSquaresProblem<f64, Dyn, Dyn> for Problem<'_> {
    type ResidualStorage = Owned<f64, Dyn>;
    type JacobianStorage = Owned<f64, Dyn, Dyn>;
    type ParameterStorage = Owned<f64, Dyn>;

    fn set_params(&mut self, x: &DVector<f64>) {
        self.at.copy_from(x);
    }

    fn params(&self) -> DVector<f64> {
        self.at.clone()
    }

    fn residuals(&self) -> Option<DVector<f64>> {
        Some(self.weighted(&self.at))
    }

    fn jacobian(&self) -> Option<DMatrix<f64>> {
        Some(self.derivatives())
    }
}

/// The factors with which the runs come nearest to the charts.
pub(super) fn solve(constants: &Constants, charts: &[Charted]) -> Solution {
    let at = DVector::zeros(constants.list.len());
    let problem = Problem { constants, charts, at };
    let search = LevenbergMarquardt::new().with_ftol(1e-6).with_xtol(1e-5).with_patience(12);
    let (problem, _) = search.minimize(problem);
    let derivatives = problem.derivatives();
    let normal = derivatives.transpose() * &derivatives;
    let spread = normal.try_inverse();
    let deviation = |index: usize| {
        let variance = spread.as_ref().map(|spread| spread[(index, index)]);
        variance.filter(|variance| *variance >= 0.0).map_or(f64::INFINITY, f64::sqrt)
    };
    Solution {
        deviations: (0..problem.at.len()).map(deviation).collect(),
        logarithms: problem.at.iter().map(|one| one.clamp(-FARTHEST, FARTHEST)).collect(),
    }
}
