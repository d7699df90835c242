//! The axis of the strip in one plane projected frame.

use crate::Error;
use hardpan_quantity::{Angle, Length, Quantity, metres};

/// Coordinates beyond this are in no plane frame of the Earth.
const COORDINATE_LIMIT_M: f64 = 1e8;
/// Shortest and longest axis: no strip is shorter or longer.
const AXIS_LEAST_M: f64 = 10.0;
const AXIS_MOST_M: f64 = 100_000.0;

/// A point of a plane projected frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlanePoint {
    /// Easting.
    pub easting: Length,
    /// Northing.
    pub northing: Length,
}

/// The axis from the threshold of the low end to that of the high end.
///
/// Station counts from the low end along the axis; offset is positive to the
/// right when looking up the stations. Both are distances of the frame: a
/// projection whose scale differs from one shortens or stretches them alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StationAxis {
    easting_m: f64,
    northing_m: f64,
    /// Unit vector along the axis.
    east: f64,
    north: f64,
    length_m: f64,
}

impl StationAxis {
    /// The axis between two thresholds.
    ///
    /// # Errors
    /// [`Error`] for a coordinate that is not finite or beyond 100 000 km, or
    /// thresholds closer than 10 m or further apart than 100 km.
    pub fn between(low: PlanePoint, high: PlanePoint) -> Result<Self, Error> {
        let easting_m = coordinate("easting of the low end", low.easting)?;
        let northing_m = coordinate("northing of the low end", low.northing)?;
        let along_east = coordinate("easting of the high end", high.easting)? - easting_m;
        let along_north = coordinate("northing of the high end", high.northing)? - northing_m;
        let length_m = along_east.hypot(along_north);
        if !(AXIS_LEAST_M..=AXIS_MOST_M).contains(&length_m) {
            return Err(Error::ThresholdsApart {
                apart_m: length_m,
                least_m: AXIS_LEAST_M,
                most_m: AXIS_MOST_M,
            });
        }
        let (east, north) = (along_east / length_m, along_north / length_m);
        Ok(Self { easting_m, northing_m, east, north, length_m })
    }

    /// Distance between the thresholds in the frame.
    #[must_use]
    pub fn length(&self) -> Length {
        metres(self.length_m)
    }

    /// Bearing of the axis from grid north, 0 to 360 degrees.
    #[must_use]
    pub fn grid_bearing(&self) -> Angle {
        Angle::from_si(self.east.atan2(self.north).rem_euclid(std::f64::consts::TAU))
    }

    /// Station and offset of a point.
    #[must_use]
    pub fn place(&self, point: PlanePoint) -> (Length, Length) {
        let (station_m, offset_m) = self.place_m(point.easting.si(), point.northing.si());
        (metres(station_m), metres(offset_m))
    }

    /// The point at a station and offset.
    #[must_use]
    pub fn point(&self, station: Length, offset: Length) -> PlanePoint {
        let (station_m, offset_m) = (station.si(), offset.si());
        PlanePoint {
            easting: metres(self.easting_m + station_m * self.east + offset_m * self.north),
            northing: metres(self.northing_m + station_m * self.north - offset_m * self.east),
        }
    }

    /// Station and offset in metres of a point in metres.
    #[inline]
    pub(crate) fn place_m(&self, easting_m: f64, northing_m: f64) -> (f64, f64) {
        let (along, across) = (easting_m - self.easting_m, northing_m - self.northing_m);
        (along * self.east + across * self.north, along * self.north - across * self.east)
    }
}

fn coordinate(name: &'static str, value: Length) -> Result<f64, Error> {
    let value_m = value.si();
    if value_m.abs() <= COORDINATE_LIMIT_M {
        return Ok(value_m);
    }
    Err(Error::CoordinateOutOfRange { name, value_m, limit_m: COORDINATE_LIMIT_M })
}
