//! Water that ruts and depressions hold.

use super::{argument, derived, kernel};
use crate::pond::{Pond, ponds, rut_storage};
use hardpan_model::{Argument, Formula, Source, Survey, SurveyLine, SurveyPoint, Tier};
use hardpan_quantity::{Quantity, metres, millimetres};

use hardpan_quantity::Dimension::{Count, Length, Ratio, Volume};

const FLOOD: Source = Source::new("BARNES-2014", "priority flood", Tier::Memory);
const RANK: Argument = argument("rank", "k", Count, 1.0, 8.0);
const GROUND: &str = "priority flood of z = 0.05 sin(0.7x + 0.3y) + 0.04 cos(0.9y − 0.2x) + 0.03 \
                      sin(0.11x) cos(1.3y), x 0 to 60 m, y −5 to 5 m, every metre";

/// The depression of a rank by depth in ground made of three waves.
fn pond_of_waves(rank: f64) -> Option<Pond> {
    let level = |x: f64, y: f64| {
        0.05 * (0.7 * x + 0.3 * y).sin()
            + 0.04 * (0.9 * y - 0.2 * x).cos()
            + 0.03 * (0.11 * x).sin() * (1.3 * y).cos()
    };
    let line = |y: i32| SurveyLine {
        offset: metres(f64::from(y)),
        points: (0..=60)
            .map(f64::from)
            .map(|x| SurveyPoint {
                station: metres(x),
                elevation: metres(level(x, f64::from(y))),
                line: 1,
            })
            .collect(),
    };
    let survey = Survey {
        file: "waves".into(),
        date: None,
        level_noise: None,
        lines: (-5..=5).map(line).collect(),
    };
    let found = ponds(&survey, metres(1.0), metres(1.0), millimetres(5.0)).ok()?;
    found.get((rank - 1.0).round().max(0.0) as usize).copied()
}

fn depth_of_waves(rank: f64) -> f64 {
    pond_of_waves(rank).map_or(f64::NAN, |pond| pond.depth.si())
}

fn volume_of_waves(rank: f64) -> f64 {
    pond_of_waves(rank).map_or(f64::NAN, |pond| pond.volume.si())
}

/// Depth of depressions.
pub(crate) static DEPRESSION_DEPTH: Formula = Formula {
    name: "depression-depth-of-waves",
    computes: "greatest depth of the k-th deepest depression of a made ground, filled to the brim",
    expression: GROUND,
    arguments: &[RANK],
    result: Length,
    source: FLOOD,
    scatter: "exact on the grid",
    evaluate: kernel!(depth_of_waves, rank),
};

/// Volume of depressions.
pub(crate) static DEPRESSION_VOLUME: Formula = Formula {
    name: "depression-volume-of-waves",
    computes: "water that the k-th deepest depression of a made ground holds",
    expression: GROUND,
    arguments: &[RANK],
    result: Volume,
    source: FLOOD,
    scatter: "exact on the grid",
    evaluate: kernel!(volume_of_waves, rank),
};

/// Water in a rut.
pub(crate) static RUT_STORAGE: Formula = Formula {
    name: "rut-water-depth",
    computes: "depth of water that a rut holds along a level lane",
    expression: "r − b S; not below 0",
    arguments: &[
        argument("rut", "r", Length, 0.0, 1.0),
        argument("half_width", "b", Length, 0.0, 5.0),
        argument("crossfall", "S", Ratio, -0.2, 0.2),
    ],
    result: Length,
    source: derived("geometry of a rut on a slope"),
    scatter: "a flat-bottomed rut holds less",
    evaluate: kernel!(rut_storage, rut, half, crossfall),
};
