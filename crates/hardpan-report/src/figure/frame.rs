//! What all bands share: the station axis, the sizes of type, the sketch.

use super::canvas::Canvas;
use super::scale::Scale;
use crate::Report;
use hardpan_assess::Sketch;
use hardpan_quantity::{Length, Quantity, UnitSystem};

/// The two sizes of the figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Size {
    Card,
    Full,
}

/// What all bands share.
pub(super) struct Frame<'a> {
    pub(super) size: Size,
    pub(super) units: UnitSystem,
    pub(super) sketch: &'a Sketch,
    pub(super) stations: Scale,
    /// Whether the length of the strip is known.
    pub(super) length_known: bool,
}

impl<'a> Frame<'a> {
    pub(super) fn new(report: &'a Report, size: Size, canvas: &Canvas) -> Self {
        let sketch = &report.assessment.sketch;
        let (left, right) = match size {
            Size::Card => (29.0, 9.0),
            Size::Full => (36.0, 14.0),
        };
        let length = sketch.length.map(Length::si).filter(|l| l.is_finite() && *l > 0.0);
        let last = length.unwrap_or_else(|| farthest(sketch));
        Self {
            size,
            units: report.units,
            sketch,
            stations: Scale::new((0.0, last), (left, canvas.width() - right)),
            length_known: length.is_some(),
        }
    }

    /// What the names of patterns and clips begin with.
    pub(super) fn prefix(&self) -> &'static str {
        match self.size {
            Size::Card => "hardpan-card",
            Size::Full => "hardpan-full",
        }
    }

    /// Size of plain type.
    pub(super) fn type_size(&self) -> f64 {
        match self.size {
            Size::Card => 2.55,
            Size::Full => 3.0,
        }
    }

    /// Size of type that must be read first.
    pub(super) fn large(&self) -> f64 {
        match self.size {
            Size::Card => 3.1,
            Size::Full => 3.4,
        }
    }

    /// Place of a station, held within the axis.
    pub(super) fn at(&self, station: Length) -> f64 {
        self.stations.within(station.si())
    }

    /// Left and right end of the axis.
    pub(super) fn ends(&self) -> (f64, f64) {
        self.stations.places()
    }

    /// Height of the bands for profile, strength and speed together.
    pub(super) fn bands_height(&self) -> f64 {
        super::profile::HEIGHT + super::strength::HEIGHT + super::speed::HEIGHT
    }
}

/// The farthest station that anything is known of.
fn farthest(sketch: &Sketch) -> f64 {
    let profile = sketch.profile.iter().map(|(station, _)| *station);
    let strength = sketch.strength.iter().map(|sample| sample.station);
    let marks = sketch.marks.iter().map(|mark| mark.to);
    let runs = sketch.runs.iter().flat_map(|(_, run)| run.points.iter().map(|point| point.station));
    profile
        .chain(strength)
        .chain(marks)
        .chain(runs)
        .map(Length::si)
        .filter(|station| station.is_finite())
        .fold(1.0, f64::max)
}
