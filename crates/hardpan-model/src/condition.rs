//! What the ground is like by station: handed from one measure to the next.

use crate::SoilClass;
use hardpan_quantity::{BearingRatio, Length, Ratio};

/// The band a wheel runs in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Lane {
    /// Left main wheels, looking up the stations.
    Left,
    /// Nose wheels.
    Nose,
    /// Right main wheels.
    Right,
}

impl Lane {
    /// All lanes from left to right.
    pub const ALL: [Self; 3] = [Self::Left, Self::Nose, Self::Right];

    /// The word people see.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left main",
            Self::Nose => "nose",
            Self::Right => "right main",
        }
    }
}

/// The rolling surface by station, rising, evenly spaced or not.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Condition {
    /// Points by strictly rising station.
    pub points: Vec<GroundPoint>,
}

/// The rolling surface at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundPoint {
    /// Station.
    pub station: Length,
    /// Elevation of the centre line, smoothed for the run.
    pub elevation: Length,
    /// Rolling resistance coefficient.
    pub rolling: Ratio,
    /// Braking coefficient that the aeroplane reaches, anti-skid included.
    pub braking: Ratio,
    /// Depth of standing water.
    pub water: Length,
}

/// Strength of the ground along one lane.
#[derive(Debug, Clone, PartialEq)]
pub struct StrengthLane {
    /// Which lane.
    pub lane: Lane,
    /// Its offset.
    pub offset: Length,
    /// Points by rising station.
    pub points: Vec<StrengthPoint>,
}

/// Strength at one station of a lane: bearing ratios from the surface down.
#[derive(Debug, Clone, PartialEq)]
pub struct StrengthPoint {
    /// Station.
    pub station: Length,
    /// Tops of the layers and their bearing ratio, from the surface down; empty
    /// where no sounding reaches.
    pub layers: Vec<(Length, BearingRatio)>,
    /// Depth to which the soundings here went.
    pub known_to: Length,
    /// Distance to the nearest sounding that this rests on.
    pub nearest: Length,
    /// Distances to the soundings on either side, the one behind first; one
    /// where there is one side only or the sounding is at the station, none
    /// where this rests on other tests alone.
    pub away: Vec<Length>,
    /// Soil class under the surfacing.
    pub soil: SoilClass,
    /// Index into the strip's soundings of those that this rests on.
    pub soundings: Vec<usize>,
    /// Index into the strip's other strength tests of those that this rests on.
    pub strength_tests: Vec<usize>,
}
