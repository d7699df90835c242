//! What the levels of a survey were made from, where it is no table of levels.

mod cloud_facts;

pub use cloud_facts::{CloudFacts, GroundFrom, Hole};

use hardpan_quantity::{Angle, Length};

/// What became of what the surveyor delivered.
#[derive(Debug, Clone, PartialEq)]
pub enum SurveyFrom {
    /// A point cloud.
    Cloud(Box<CloudFacts>),
    /// Single positions of a satellite receiver.
    Positions(PositionFacts),
    /// A grid of levels.
    Grid(GridFacts),
}

impl SurveyFrom {
    /// The facts of a cloud.
    #[must_use]
    pub fn cloud(&self) -> Option<&CloudFacts> {
        match self {
            Self::Cloud(facts) => Some(facts),
            _ => None,
        }
    }
}

/// How the axis was laid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AxisFrom {
    /// Through both thresholds.
    Thresholds,
    /// Along the points themselves.
    Fitted {
        /// Bearing that was found, from the north of the frame: for positions the
        /// true bearing.
        bearing: Angle,
        /// How far the middles of cross-sections stand off it, as a standard
        /// deviation.
        spread: Length,
    },
}

/// Counts and measures of single positions.
#[derive(Debug, Clone, PartialEq)]
pub struct PositionFacts {
    /// How the axis was laid.
    pub axis: AxisFrom,
    /// Positions in the file.
    pub positions: u64,
    /// Positions that made levels.
    pub used: u64,
    /// Positions before the low end or beyond the high end.
    pub beyond: u64,
    /// Positions on the way from one line to the next.
    pub between: u64,
    /// Scatter of a level about the line through its neighbours; none where
    /// levels stand too far apart to tell.
    pub scatter: Option<Length>,
    /// What wandering across the crossfall adds to a level.
    pub wander: Length,
    /// Least noise that such a level is credited with.
    pub least: Length,
}

/// Counts of a grid of levels.
#[derive(Debug, Clone, PartialEq)]
pub struct GridFacts {
    /// How the axis was laid.
    pub axis: AxisFrom,
    /// Longer side of a cell.
    pub cell: Length,
    /// Columns of the file.
    pub columns: u64,
    /// Rows of the file.
    pub rows: u64,
    /// Places of the strip that were looked up.
    pub places: u64,
    /// Places without a level: not surveyed.
    pub unsurveyed: u64,
}
