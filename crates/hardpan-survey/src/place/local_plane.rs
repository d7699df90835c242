//! Between latitude and longitude and a plane in which distances are those on
//! the ground of the strip.

use super::PlanePoint;
use crate::Error;
use hardpan_quantity::{Angle, Length, Quantity, metres};
use proj4rs::Proj;
use std::f64::consts::PI;

/// Equatorial radius and flattening of the ellipsoid of WGS 84. Source:
/// [NGA-STND-0036] table 3.1.
const RADIUS_M: f64 = 6_378_137.0;
const FLATTENING: f64 = 1.0 / 298.257_223_563;
/// Nearer to a pole there is no strip, and east and north lose their meaning.
const LATITUDE_LIMIT_DEG: f64 = 88.0;
/// Further from the centre of the plane no point belongs to the strip.
const REACH_M: f64 = 100_000.0;
/// Ground lies between these heights.
const LOWEST_M: f64 = -1000.0;
const HIGHEST_M: f64 = 9000.0;

/// Latitude and longitude on WGS 84.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geographic {
    /// Latitude, north positive.
    pub latitude: Angle,
    /// Longitude, east positive.
    pub longitude: Angle,
}

/// A transverse Mercator plane centred between two places, its scale that of
/// the ground at a height over the ellipsoid.
///
/// Over a strip of 3 km its distances and bearings are those of the geodesic
/// to 0.3 mm and 0.02°, and at a height of 2 km its distances to 4 mm.
#[derive(Debug)]
pub struct LocalPlane {
    globe: Proj,
    plane: Proj,
    /// Longitudes count from here, so that no meridian cuts a strip in two.
    meridian: f64,
}

impl LocalPlane {
    /// The plane centred in the middle of two places.
    ///
    /// # Errors
    /// [`Error`] for a place that is not on the globe or within 2° of a pole,
    /// or a height that is no height of the ground.
    pub fn centred(one: Geographic, other: Geographic, height: Length) -> Result<Self, Error> {
        let (lat, lon) = radians(one)?;
        let (other_lat, other_lon) = radians(other)?;
        let height_m = height.si();
        if !(LOWEST_M..=HIGHEST_M).contains(&height_m) {
            return Err(Error::SettingOutOfRange {
                name: "height of the ground",
                value_m: height_m,
                least_m: LOWEST_M,
                most_m: HIGHEST_M,
            });
        }
        let apart = half_turn(other_lon - lon);
        Self::at(0.5 * (lat + other_lat), half_turn(lon + 0.5 * apart), height_m)
    }

    fn at(latitude: f64, meridian: f64, height_m: f64) -> Result<Self, Error> {
        let scale = 1.0 + height_m / gaussian_radius_m(latitude);
        let definition = format!(
            "+proj=tmerc +lat_0={} +lon_0=0 +k_0={scale} +x_0=0 +y_0=0 +ellps=WGS84 +units=m",
            latitude.to_degrees()
        );
        let made = |text: &str| Proj::from_proj_string(text).map_err(|error| refused(&error));
        let (globe, plane) = (made("+proj=longlat +ellps=WGS84")?, made(&definition)?);
        Ok(Self { globe, plane, meridian })
    }

    /// The point of the plane for a place.
    ///
    /// # Errors
    /// [`Error`] for a place that is not on the globe, or more than 100 km
    /// from the centre of the plane.
    pub fn project(&self, place: Geographic) -> Result<PlanePoint, Error> {
        let (latitude, longitude) = radians(place)?;
        let mut point = (half_turn(longitude - self.meridian), latitude, 0.0);
        proj4rs::transform::transform(&self.globe, &self.plane, &mut point)
            .map_err(|error| refused(&error))?;
        let (east, north) = (point.0, point.1);
        let away = east.hypot(north);
        if away.is_nan() || away > REACH_M {
            return Err(Error::FarFromTheStrip {
                latitude_deg: latitude.to_degrees(),
                longitude_deg: longitude.to_degrees(),
                reach_km: REACH_M / 1e3,
            });
        }
        Ok(PlanePoint { easting: metres(east), northing: metres(north) })
    }

    /// The place on the globe of a point of the plane.
    ///
    /// # Errors
    /// [`Error`] for a point more than 100 km from the centre of the plane.
    pub fn place(&self, point: PlanePoint) -> Result<Geographic, Error> {
        let (east, north) = (point.easting.si(), point.northing.si());
        let away = east.hypot(north);
        if away.is_nan() || away > REACH_M {
            let name = "distance from the centre of the plane";
            let value_m = east.hypot(north);
            return Err(Error::SettingOutOfRange { name, value_m, least_m: 0.0, most_m: REACH_M });
        }
        let mut place = (east, north, 0.0);
        proj4rs::transform::transform(&self.plane, &self.globe, &mut place)
            .map_err(|error| refused(&error))?;
        Ok(Geographic {
            latitude: Angle::from_si(place.1),
            longitude: Angle::from_si(half_turn(place.0 + self.meridian)),
        })
    }
}

fn refused(error: &proj4rs::errors::Error) -> Error {
    Error::Projection { why: error.to_string() }
}

/// The same angle between minus and plus half a turn.
fn half_turn(angle: f64) -> f64 {
    (angle + PI).rem_euclid(2.0 * PI) - PI
}

fn radians(place: Geographic) -> Result<(f64, f64), Error> {
    let (latitude, longitude) = (place.latitude.si(), place.longitude.si());
    if latitude.abs() <= LATITUDE_LIMIT_DEG.to_radians() && longitude.abs() <= 2.0 * PI {
        return Ok((latitude, longitude));
    }
    Err(Error::OffTheGlobe {
        latitude_deg: latitude.to_degrees(),
        longitude_deg: longitude.to_degrees(),
        limit_deg: LATITUDE_LIMIT_DEG,
    })
}

/// Mean radius of curvature of the ellipsoid, `√(M N)`.
fn gaussian_radius_m(latitude: f64) -> f64 {
    let square = FLATTENING * (2.0 - FLATTENING);
    let sine = latitude.sin();
    RADIUS_M * (1.0 - square).sqrt() / (1.0 - square * sine * sine)
}
