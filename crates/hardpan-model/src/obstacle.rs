//! Obstacles about a strip.

use crate::Given;
use hardpan_quantity::Length;

/// Something that stands up, on the strip or beyond its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// What it is.
    pub name: Option<Given<String>>,
    /// Station from the reference threshold: below zero before it, above the
    /// length of the strip beyond the other end.
    pub station: Given<Length>,
    /// Offset of its nearest edge from the axis, positive to the right when
    /// looking up the stations.
    pub offset: Given<Length>,
    /// How high its top is.
    pub top: Given<ObstacleTop>,
}

/// How high the top of an obstacle is, over what the user measured it from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ObstacleTop {
    /// Over the elevation of the reference threshold.
    OverThreshold(Length),
    /// Over mean sea level.
    OverSea(Length),
}

impl ObstacleTop {
    /// Height over the reference threshold; none when that needs the elevation
    /// of the threshold and nobody gave it.
    #[must_use]
    pub fn over_threshold(self, threshold: Option<Length>) -> Option<Length> {
        match self {
            Self::OverThreshold(height) => Some(height),
            Self::OverSea(elevation) => threshold.map(|threshold| elevation - threshold),
        }
    }
}
