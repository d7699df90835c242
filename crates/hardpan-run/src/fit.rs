//! Calibrating the free constants of the model to the operator's approved
//! charts of distances.
//!
//! Thrust, greatest lift and drag of the file, and rolling and braking of each
//! surface that a chart is for, are each multiplied by a factor. The factors
//! are those with which the runs come nearest to the charts, held to one by
//! what is taken of the file's figures: a standard deviation of a fifth. The
//! runs at the charts' points are those of the assessment. What comes out is a
//! model for planning; the charts bind.

mod chart_points;
mod constants;
mod least_squares;

use crate::fit::chart_points::{Charted, charted};
use crate::fit::constants::{Constant, Constants};
use crate::fit::least_squares::{OF_A_CONSTANT, solve};
use hardpan_model::{Aeroplane, ChartFigure, Fitted, Need};
use hardpan_quantity::{Amount, Length, Quantity};
use std::sync::Arc;

/// Most points of one chart that the factors are looked for with; the residuals
/// are of all.
const MOST_POINTS: usize = 48;

/// The model calibrated to the charts.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibration {
    /// The constants, in the order of the file.
    pub constants: Vec<CalibratedConstant>,
    /// How near the runs come to each chart.
    pub charts: Vec<ChartResiduals>,
    /// Charts that are not of a distance on a stated surface, by their file.
    pub left_out: Vec<Arc<str>>,
    /// What an aeroplane file takes in.
    pub fitted: Fitted,
}

impl Calibration {
    /// Constants that the charts pull so far that they are not to be used as
    /// found: by more than two of the deviations that they are held with.
    #[must_use]
    pub fn moved_far(&self) -> Vec<&CalibratedConstant> {
        let is_far = |constant: &&CalibratedConstant| {
            let factor = constant.calibrated.si / constant.stated.si;
            factor.ln().abs() > 2.0 * OF_A_CONSTANT
        };
        self.constants.iter().filter(is_far).collect()
    }
}

/// One free constant.
#[derive(Debug, Clone, PartialEq)]
pub struct CalibratedConstant {
    /// The key of the file, or what it is.
    pub name: String,
    /// As stated, or as planned where nothing is stated.
    pub stated: Amount,
    /// As calibrated.
    pub calibrated: Amount,
    /// Standard deviation of the calibrated value, as a share of it.
    pub deviation: f64,
}

/// How near the runs come to one chart; shares are of the chart's value.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartResiduals {
    /// File of the chart.
    pub file: Arc<str>,
    /// What it gives.
    pub gives: ChartFigure,
    /// Flap for which it holds.
    pub flap: String,
    /// Points at which the model has a run.
    pub points: usize,
    /// Points at which it has none, or too high or fast for it.
    pub without: usize,
    /// With the constants as stated.
    pub before: Residuals,
    /// With the calibrated constants.
    pub after: Residuals,
    /// Where the run is farthest from the chart after calibration.
    pub worst: Option<WorstPoint>,
}

/// Run less chart as shares of the chart.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Residuals {
    /// Mean.
    pub mean: f64,
    /// Root of the mean square.
    pub root_mean_square: f64,
    /// Greatest shortfall: how much shorter a run is than the chart.
    pub shortest: f64,
    /// Greatest excess.
    pub longest: f64,
}

/// One point of a chart beside its run.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstPoint {
    /// Arguments of the chart.
    pub arguments: Vec<(&'static str, Amount)>,
    /// What the chart gives.
    pub chart: Length,
    /// What the calibrated run gives.
    pub run: Length,
}

/// Calibrate the free constants of an aeroplane to its charts of take-off,
/// accelerate-stop and demonstrated landing distance.
///
/// # Errors
/// A [`Need`] for every figure that the runs lack; one for a chart when no
/// chart is of a distance on a stated surface.
pub fn calibrate(aeroplane: &Aeroplane) -> Result<Calibration, Vec<Need>> {
    let (charts, left_out) = charted(aeroplane)?;
    if charts.is_empty() {
        return Err(vec![Need {
            what: "aeroplane: [[chart]]".to_owned(),
            how: "a chart of take-off, accelerate-stop or landing distance with flap, surface and \
                  surface_state"
                .to_owned(),
        }]);
    }
    let constants = Constants::of(aeroplane, &charts)?;
    let stated = vec![0.0; constants.list.len()];
    let thinned: Vec<Charted> = charts.iter().map(|chart| chart.thinned(MOST_POINTS)).collect();
    let found = solve(&constants, &thinned);
    let residuals = charts.iter().map(|chart| {
        let before = constants.errors(chart, &stated);
        let after = constants.errors(chart, &found.logarithms);
        chart_residuals(chart, &before, &after)
    });
    let shown = |(index, constant): (usize, &Constant)| CalibratedConstant {
        name: constant.name.clone(),
        stated: constant.stated,
        calibrated: Amount::new(
            constant.stated.dimension,
            constant.stated.si * found.logarithms.get(index).copied().unwrap_or(0.0).exp(),
        ),
        deviation: found.deviations.get(index).copied().unwrap_or(f64::INFINITY),
    };
    Ok(Calibration {
        charts: residuals.collect(),
        constants: constants.list.iter().enumerate().map(shown).collect(),
        left_out,
        fitted: constants.fitted(&found.logarithms, &found.deviations),
    })
}

fn chart_residuals(
    chart: &Charted,
    before: &[Option<f64>],
    after: &[Option<f64>],
) -> ChartResiduals {
    let farthest = after
        .iter()
        .enumerate()
        .filter_map(|(index, error)| Some((index, (*error)?)))
        .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
    let worst = farthest.and_then(|(index, error)| {
        let point = chart.points.get(index)?;
        Some(WorstPoint {
            arguments: point.arguments.clone(),
            chart: Length::from_si(point.value),
            run: Length::from_si(point.value * (1.0 + error)),
        })
    });
    ChartResiduals {
        file: chart.file.clone(),
        gives: chart.gives,
        flap: chart.flap.name.value.clone(),
        points: after.iter().flatten().count(),
        without: after.iter().filter(|error| error.is_none()).count(),
        before: residuals(before),
        after: residuals(after),
        worst,
    }
}

fn residuals(errors: &[Option<f64>]) -> Residuals {
    let known: Vec<f64> = errors.iter().flatten().copied().collect();
    let count = known.len().max(1) as f64;
    Residuals {
        mean: known.iter().sum::<f64>() / count,
        root_mean_square: (known.iter().map(|error| error * error).sum::<f64>() / count).sqrt(),
        shortest: known.iter().copied().fold(0.0, f64::min),
        longest: known.iter().copied().fold(0.0, f64::max),
    }
}
