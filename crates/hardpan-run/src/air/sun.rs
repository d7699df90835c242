//! Where does the sun stand?
//!
//! Days since noon of 1 January 2000, latitude, longitude → elevation of the
//! sun, sunrise and sunset. Good to about 0.01° from 1900 to 2100, which is
//! half a minute of sunrise at 60° of latitude.

use crate::entry::{argument, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Angle, Dimension, Quantity};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

const MEEUS_SUN: Source = Source::new("MEEUS-1998", "chapter 25, low accuracy", Tier::Memory);
const MEEUS_TIME: Source = Source::new("MEEUS-1998", "chapter 28, formula of Smart", Tier::Memory);
const SPHERE: Source =
    Source::new("TEXTBOOK-PHYSICS", "spherical triangle of pole, zenith and sun", Tier::Derived);

/// Elevation at which sunrise and sunset are reckoned: the upper limb on a level
/// horizon with mean refraction, −0.833° [MEEUS-1998].
const RISE_RAD: f64 = -0.833 * PI / 180.0;

/// Mean longitude, mean anomaly, longitude of the node (rad), and centuries.
fn mean(days: f64) -> (f64, f64, f64, f64) {
    let t = days / 36_525.0;
    let degrees = [
        280.466_46 + t * (36_000.769_83 + 0.000_303_2 * t),
        357.529_11 + t * (35_999.050_29 - 0.000_153_7 * t),
        125.04 - 1934.136 * t,
    ];
    let [longitude, anomaly, node] = degrees.map(|angle| angle.rem_euclid(360.0).to_radians());
    (longitude, anomaly, node, t)
}

/// Obliquity of the ecliptic, corrected for the place that is seen, rad.
fn obliquity(node: f64, t: f64) -> f64 {
    (23.439_291_1 - 0.013_004_17 * t + 0.002_56 * node.cos()).to_radians()
}

/// Declination of the sun, rad.
fn declination(days: f64) -> f64 {
    let (longitude, anomaly, node, t) = mean(days);
    let centre = (1.914_602 - 0.004_817 * t) * anomaly.sin()
        + (0.019_993 - 0.000_101 * t) * (2.0 * anomaly).sin()
        + 0.000_289 * (3.0 * anomaly).sin();
    let seen = longitude + (centre - 0.005_69 - 0.004_78 * node.sin()).to_radians();
    (obliquity(node, t).sin() * seen.sin()).asin()
}

/// Apparent less mean solar time, as an angle, rad.
fn equation_of_time(days: f64) -> f64 {
    let (longitude, anomaly, node, t) = mean(days);
    let eccentricity = 0.016_708_634 - 0.000_042_037 * t;
    let y = (0.5 * obliquity(node, t)).tan().powi(2);
    y * (2.0 * longitude).sin() - 2.0 * eccentricity * anomaly.sin()
        + 4.0 * eccentricity * y * anomaly.sin() * (2.0 * longitude).cos()
        - 0.5 * y * y * (4.0 * longitude).sin()
        - 1.25 * eccentricity * eccentricity * (2.0 * anomaly).sin()
}

/// Elevation of the sun's middle, rad.
fn elevation(hour_angle: f64, latitude: f64, declination: f64) -> f64 {
    let sine =
        latitude.sin() * declination.sin() + latitude.cos() * declination.cos() * hour_angle.cos();
    sine.clamp(-1.0, 1.0).asin()
}

/// Hour angle of the sun from south, rad; from −π to π.
fn hour_angle(days: f64, longitude: f64) -> f64 {
    // Days count from noon, so that their fraction is the time since noon.
    let mean_time = TAU * days.rem_euclid(1.0);
    (mean_time + longitude + equation_of_time(days) + PI).rem_euclid(TAU) - PI
}

/// Elevation of the middle of the sun over a level horizon, without refraction.
///
/// | argument    | meaning                                         | valid          |
/// |-------------|-------------------------------------------------|----------------|
/// | `days`      | days since 12:00 UTC of 1 January 2000          | ±36 525        |
/// | `latitude`  | north positive                                  | −90° to 90°    |
/// | `longitude` | east positive                                   | −180° to 180°  |
#[must_use]
pub fn sun_elevation(days: f64, latitude: Angle, longitude: Angle) -> Angle {
    let angle = hour_angle(days, longitude.si());
    Angle::from_si(elevation(angle, latitude.si(), declination(days)))
}

/// Whether the upper limb of the sun stands over a level horizon.
#[must_use]
pub fn is_daylight(days: f64, latitude: Angle, longitude: Angle) -> bool {
    sun_elevation(days, latitude, longitude).si() >= RISE_RAD
}

/// Elevation of the middle of the sun at sunrise and sunset.
#[must_use]
pub fn sunrise_elevation() -> Angle {
    Angle::from_si(RISE_RAD)
}

/// Share of a day between sunrise and sunset, by the declination at a moment.
#[must_use]
pub fn day_length(days: f64, latitude: Angle) -> f64 {
    let (latitude, sun) = (latitude.si(), declination(days));
    let cosine = (RISE_RAD.sin() - latitude.sin() * sun.sin()) / (latitude.cos() * sun.cos());
    if cosine.is_nan() { 0.5 } else { cosine.clamp(-1.0, 1.0).acos() / PI }
}

/// Declination of the sun.
pub(crate) static SUN_DECLINATION: Formula = Formula {
    name: "sun-declination",
    computes: "declination of the sun",
    expression: "sin δ = sin ε sin λ; λ = L0 + C − 0.00569° − 0.00478° sin Ω",
    arguments: &[argument("days", "d", Dimension::Coefficient, -36_525.0, 36_525.0)],
    result: Dimension::Angle,
    source: MEEUS_SUN,
    scatter: "0.01° from 1900 to 2100",
    evaluate: kernel!(declination, days),
};

/// The equation of time.
pub(crate) static EQUATION_OF_TIME: Formula = Formula {
    name: "equation-of-time",
    computes: "apparent less mean solar time, as an angle",
    expression: "y sin 2L0 − 2e sin M + 4ey sin M cos 2L0 − y²/2 sin 4L0 − 5/4 e² sin 2M",
    arguments: &[argument("days", "d", Dimension::Coefficient, -36_525.0, 36_525.0)],
    result: Dimension::Angle,
    source: MEEUS_TIME,
    scatter: "a few seconds",
    evaluate: kernel!(equation_of_time, days),
};

/// Elevation of the sun.
pub(crate) static SUN_ELEVATION: Formula = Formula {
    name: "sun-elevation",
    computes: "elevation of the middle of the sun over a level horizon",
    expression: "sin h = sin φ sin δ + cos φ cos δ cos H",
    arguments: &[
        argument("hour_angle", "H", Dimension::Angle, -PI, PI),
        argument("latitude", "φ", Dimension::Angle, -FRAC_PI_2, FRAC_PI_2),
        argument("declination", "δ", Dimension::Angle, -0.42, 0.42),
    ],
    result: Dimension::Angle,
    source: SPHERE,
    scatter: "refraction lifts the sun by about 0.57° at the horizon",
    evaluate: kernel!(elevation, hour_angle, latitude, declination),
};

#[cfg(test)]
mod tests {
    use super::{day_length, declination, equation_of_time, is_daylight, sun_elevation};
    use hardpan_quantity::{Angle, Quantity, degrees};

    /// 1992 October 13.0, example 25.a of [MEEUS-1998]: declination −7.78507°;
    /// and 28.b: equation of time 3.427825°. Both from memory.
    const OCTOBER: f64 = -2636.5;

    #[test]
    fn declination_and_equation_of_time_are_the_published_ones() {
        assert!((declination(OCTOBER).to_degrees() + 7.785_07).abs() < 2e-4);
        assert!((equation_of_time(OCTOBER).to_degrees() - 3.427_825).abs() < 1e-3);
    }

    /// Common knowledge, no source: the sun stands over the tropic of Cancer at
    /// the June solstice, as far north as the obliquity of the ecliptic, and over
    /// the equator at the equinoxes. Times of both from memory. 0.01° is what the
    /// series leaves out.
    #[test]
    fn solstice_and_equinox_lie_where_calendars_put_them() {
        // 2024 June 20, 20:51 UTC and 2024 March 20, 03:06 UTC, in days from noon
        // of 2000 January 1.
        assert!((declination(8937.369).to_degrees() - 23.436).abs() < 0.01);
        assert!(declination(8844.629).to_degrees().abs() < 0.01);
    }

    #[test]
    fn the_sun_is_highest_at_local_noon_and_never_sets_in_a_polar_summer() {
        let (latitude, east) = (degrees(60.0), degrees(30.0));
        // Local mean noon at 30° east is 10:00 UTC.
        let noon = sun_elevation(8936.0 - 2.0 / 24.0, latitude, east);
        let expected = 90.0 - 60.0 + 23.43;
        assert!((noon.si().to_degrees() - expected).abs() < 0.1);
        assert!(!is_daylight(8936.5 - 2.0 / 24.0, latitude, east));
        let polar = degrees(72.0);
        assert!((0..24).all(|hour| is_daylight(8936.0 + f64::from(hour) / 24.0, polar, east)));
        assert!((0..24).all(|hour| !is_daylight(8753.0 + f64::from(hour) / 24.0, polar, east)));
    }

    /// At the equator the sun is up for 12 h 6 to 8 min the whole year.
    #[test]
    fn day_length_is_known_at_the_equator_and_at_the_poles() {
        for day in 0..365 {
            let minutes = 1440.0 * day_length(8766.0 + f64::from(day), Angle::from_si(0.0));
            assert!((725.5..728.5).contains(&minutes), "{minutes}");
        }
        assert!(day_length(8936.0, degrees(80.0)) >= 1.0);
        assert!(day_length(8753.0, degrees(80.0)) <= 0.0);
    }
}
