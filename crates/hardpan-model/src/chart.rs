//! Approved performance charts, as the operator copies them from its manual.

use crate::{Given, SurfaceKind, SurfaceState};
use hardpan_quantity::Dimension;
use std::sync::Arc;

/// What a chart gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChartFigure {
    /// Take-off distance needed, all factors of the manual included.
    TakeOffDistance,
    /// Take-off run needed, likewise.
    TakeOffRun,
    /// Accelerate-stop distance needed.
    AccelerateStop,
    /// Landing distance as demonstrated, which the rule of the flight lengthens.
    LandingDistance,
    /// Landing distance needed, with the factor of the rule in it.
    LandingDistanceRequired,
    /// Greatest take-off mass.
    TakeOffMass,
    /// Greatest landing mass.
    LandingMass,
}

impl ChartFigure {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::TakeOffDistance,
        Self::TakeOffRun,
        Self::AccelerateStop,
        Self::LandingDistance,
        Self::LandingDistanceRequired,
        Self::TakeOffMass,
        Self::LandingMass,
    ];

    /// The word for it, in files and for people.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::TakeOffDistance => "take-off distance",
            Self::TakeOffRun => "take-off run",
            Self::AccelerateStop => "accelerate-stop distance",
            Self::LandingDistance => "landing distance",
            Self::LandingDistanceRequired => "landing distance required",
            Self::TakeOffMass => "take-off mass",
            Self::LandingMass => "landing mass",
        }
    }

    /// Whether it is a greatest mass rather than a distance.
    #[must_use]
    pub const fn is_mass(self) -> bool {
        matches!(self, Self::TakeOffMass | Self::LandingMass)
    }

    /// Whether it is of the take-off rather than of the landing.
    #[must_use]
    pub const fn is_of_take_off(self) -> bool {
        matches!(
            self,
            Self::TakeOffDistance | Self::TakeOffRun | Self::AccelerateStop | Self::TakeOffMass
        )
    }
}

/// What a chart is entered with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ChartArgument {
    /// Mass of the aeroplane, kg.
    Mass,
    /// Pressure altitude, m.
    PressureAltitude,
    /// Outside temperature, K.
    Temperature,
    /// Headwind, m/s; negative for a tailwind.
    Headwind,
    /// Slope in the direction of movement, uphill positive.
    Slope,
    /// Distance available, m: for a take-off the shorter of take-off and
    /// accelerate-stop distance less what lining up takes.
    Available,
}

impl ChartArgument {
    /// The word for it, for people.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::PressureAltitude => "pressure altitude",
            Self::Temperature => "temperature",
            Self::Headwind => "headwind",
            Self::Slope => "slope",
            Self::Available => "distance available",
        }
    }

    /// What kind of quantity it is.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Mass => Dimension::Mass,
            Self::PressureAltitude | Self::Available => Dimension::Length,
            Self::Temperature => Dimension::Temperature,
            Self::Headwind => Dimension::Speed,
            Self::Slope => Dimension::Ratio,
        }
    }
}

/// Which headwind a chart is entered with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChartWind {
    /// The component as reported: the chart has half of a headwind and one and
    /// a half times a tailwind in it.
    Reported,
    /// The component that the rule lets count.
    Credited,
}

/// One approved chart on a full grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What it gives.
    pub gives: Given<ChartFigure>,
    /// Flap setting for which it holds; every setting when not stated.
    pub flap: Option<Given<String>>,
    /// Surface for which it holds; every surface when not stated.
    pub surface: Option<Given<SurfaceKind>>,
    /// State of the surface for which it holds; every state when not stated.
    pub state: Option<Given<SurfaceState>>,
    /// Setting of the bleeds for which it holds, in the operator's words; every
    /// setting when not stated.
    pub bleeds: Option<Given<String>>,
    /// Which headwind it is entered with.
    pub wind: Option<Given<ChartWind>>,
    /// File that holds its rows.
    pub file: Arc<str>,
    /// Rows of each argument in SI units, rising.
    pub arguments: Vec<(ChartArgument, Vec<f64>)>,
    /// Values in SI units, the last argument running fastest.
    pub values: Vec<f64>,
}
