//! Areas of the ground that somebody reports.

use crate::Given;
use hardpan_quantity::Length;
use jiff::civil::Date;

/// A part of the ground that somebody reports as it looks or feels.
#[derive(Debug, Clone, PartialEq)]
pub struct Area {
    /// Name.
    pub name: Option<Given<String>>,
    /// What is reported of it.
    pub kind: Given<AreaKind>,
    /// Where it lies.
    pub outline: AreaOutline,
    /// Greatest depth of its ruts.
    pub depth: Option<Given<Length>>,
    /// How deep wheels of this load sink into it on one pass.
    pub sinkage: Option<Given<Length>>,
    /// Day of the report.
    pub reported_on: Option<Given<Date>>,
}

/// What may be reported of an area.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AreaKind {
    /// Gives under the foot or the wheel.
    Soft,
    /// Loose stones or deep loose gravel.
    Loose,
    /// Wet, with or without water standing on it.
    Wet,
    /// Ruts or tracks.
    Rutted,
    /// Closed to aeroplanes.
    Closed,
}

impl AreaKind {
    /// All kinds.
    pub const ALL: [Self; 5] = [Self::Soft, Self::Loose, Self::Wet, Self::Rutted, Self::Closed];

    /// The word written in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Soft => "soft",
            Self::Loose => "loose",
            Self::Wet => "wet",
            Self::Rutted => "rutted",
            Self::Closed => "closed",
        }
    }
}

/// Where an area lies.
#[derive(Debug, Clone, PartialEq)]
pub enum AreaOutline {
    /// Right across the strip.
    Across {
        /// First station.
        from: Length,
        /// Last station.
        to: Length,
    },
    /// Inside a polygon; its corners in order, the first not repeated.
    Polygon(Vec<AxisPoint>),
}

/// A place on the station axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxisPoint {
    /// Station.
    pub station: Length,
    /// Offset.
    pub offset: Length,
}
