//! What all bands share: the station axis, the sizes of type, the sketch.

use super::canvas::Canvas;
use super::scale::Scale;
use crate::Report;
use hardpan_assess::Sketch;
use hardpan_quantity::{Length, Quantity, UnitSystem};
use std::ops::Deref;

/// The two sizes of the figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Size {
    Card,
    Full,
}

/// The station axis and the sizes of type.
pub(super) struct Ruler {
    pub(super) size: Size,
    pub(super) units: UnitSystem,
    pub(super) stations: Scale,
    /// Whether the length of the strip is known.
    pub(super) length_known: bool,
    /// What the names of patterns and clips begin with.
    pub(super) prefix: &'static str,
}

/// What all bands of a flight's figure share.
pub(super) struct Frame<'a> {
    ruler: Ruler,
    pub(super) sketch: &'a Sketch,
}

impl Deref for Frame<'_> {
    type Target = Ruler;

    fn deref(&self) -> &Ruler {
        &self.ruler
    }
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
        let ruler = Ruler {
            size,
            units: report.units,
            stations: Scale::new((0.0, last), (left, canvas.width() - right)),
            length_known: length.is_some(),
            prefix: match size {
                Size::Card => "hardpan-card",
                Size::Full => "hardpan-full",
            },
        };
        Self { ruler, sketch }
    }
}

impl Ruler {
    /// What the names of patterns and clips begin with.
    pub(super) fn prefix(&self) -> &'static str {
        self.prefix
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
