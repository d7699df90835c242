//! The axis of a strip whose thresholds lie on the globe.

use super::{Geographic, LocalPlane, StationAxis};
use crate::Error;
use hardpan_quantity::Length;

/// The axis and the plane that it is laid in.
#[derive(Debug)]
pub struct GlobeAxis {
    plane: LocalPlane,
    axis: StationAxis,
}

impl GlobeAxis {
    /// The axis between two thresholds, its stations distances on the ground at
    /// a height.
    ///
    /// # Errors
    /// [`Error`] for places that are none of a strip, or that lie too close
    /// together or too far apart.
    pub fn between(low: Geographic, high: Geographic, height: Length) -> Result<Self, Error> {
        let plane = LocalPlane::centred(low, high, height)?;
        let axis = StationAxis::between(plane.project(low)?, plane.project(high)?)?;
        Ok(Self { plane, axis })
    }

    /// An axis that was laid in a plane otherwise.
    #[must_use]
    pub const fn laid(plane: LocalPlane, axis: StationAxis) -> Self {
        Self { plane, axis }
    }

    /// The axis in its plane.
    #[must_use]
    pub fn axis(&self) -> &StationAxis {
        &self.axis
    }

    /// Station and offset of a place.
    ///
    /// # Errors
    /// [`Error`] for a place that is not on the globe or far from the strip.
    pub fn locate(&self, place: Geographic) -> Result<(Length, Length), Error> {
        Ok(self.axis.place(self.plane.project(place)?))
    }

    /// The place at a station and offset.
    ///
    /// # Errors
    /// [`Error`] for a place more than 100 km from the strip.
    pub fn place(&self, station: Length, offset: Length) -> Result<Geographic, Error> {
        self.plane.place(self.axis.point(station, offset))
    }
}
