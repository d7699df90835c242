//! Strength tests besides the penetrometer, one layer at one place each.

use crate::{Given, SurfaceState};
use hardpan_quantity::{BearingRatio, Length, Pressure, Ratio};
use jiff::civil::Date;

/// How a strength test is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StrengthTestKind {
    /// Bearing ratio in place.
    FieldBearingRatio,
    /// Bearing ratio of a specimen, at the moisture it was compacted with.
    LaboratoryBearingRatio,
    /// Bearing ratio of a specimen after soaking.
    SoakedBearingRatio,
    /// Stiffness from a plate loaded by steps.
    Plate,
    /// Stiffness from a falling weight carried by hand.
    LightPlate,
    /// Index of the airfield cone penetrometer.
    ConeIndex,
}

impl StrengthTestKind {
    /// All, in the order shown to people.
    pub const ALL: [Self; 6] = [
        Self::FieldBearingRatio,
        Self::LaboratoryBearingRatio,
        Self::SoakedBearingRatio,
        Self::Plate,
        Self::LightPlate,
        Self::ConeIndex,
    ];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::FieldBearingRatio => "field CBR",
            Self::LaboratoryBearingRatio => "laboratory CBR",
            Self::SoakedBearingRatio => "soaked CBR",
            Self::Plate => "plate",
            Self::LightPlate => "light plate",
            Self::ConeIndex => "cone index",
        }
    }
}

/// What a strength test gave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StrengthFigure {
    /// Bearing ratio.
    BearingRatio(BearingRatio),
    /// Stiffness.
    Modulus(Pressure),
    /// Cone index, on the scale of its instrument.
    Index(f64),
}

/// One strength test of one layer.
#[derive(Debug, Clone, PartialEq)]
pub struct StrengthTest {
    /// How it was made, with the place of the row.
    pub kind: Given<StrengthTestKind>,
    /// Station.
    pub station: Given<Length>,
    /// Offset.
    pub offset: Length,
    /// Day of the test.
    pub date: Option<Given<Date>>,
    /// Top of the layer that it stands for, below the surface.
    pub top: Length,
    /// Bottom of that layer.
    pub bottom: Length,
    /// What it gave.
    pub figure: Given<StrengthFigure>,
    /// Water content of the layer then, mass of water over dry mass.
    pub moisture: Option<Given<Ratio>>,
    /// State of the running surface then.
    pub state: Option<Given<SurfaceState>>,
}
