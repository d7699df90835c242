//! Latitude and longitude on the plane of the strip, against an independent
//! library, [PROJ-9].

use hardpan_quantity::{Angle, Quantity, degrees, metres};
use hardpan_survey::{Error, Geographic, LocalPlane, PlanePoint, StationAxis};
use proptest::prelude::*;
use rstest::rstest;

fn at(latitude: f64, longitude: f64) -> Geographic {
    Geographic { latitude: degrees(latitude), longitude: degrees(longitude) }
}

fn axis(one: Geographic, other: Geographic, height_m: f64) -> (LocalPlane, StationAxis) {
    let plane = LocalPlane::centred(one, other, metres(height_m)).expect("a plane");
    let ends = [one, other].map(|end| plane.project(end).expect("a point"));
    let axis = StationAxis::between(ends[0], ends[1]).expect("an axis");
    (plane, axis)
}

// Distances between the ends at the height, from geocentric coordinates; the
// bearing that of the geodesic from the middle to the high end. [PROJ-9]
// `cart` and `geod`, printed to 0.1 mm. Half a digit, and 0.2 mm for the plane.
#[rstest]
#[case((52.1, -1.3), (52.1064, -1.2734), 0.0, 1956.8099, 68.652_877)]
#[case((52.1, -1.3), (52.1064, -1.2734), 1500.0, 1957.2693, 68.652_877)]
#[case((-8.5, 147.2), (-8.4840, 147.2080), 2000.0, 1977.3140, 26.463_665)]
#[case((65.30, -152.10), (65.3145, -152.1311), 300.0, 2171.9855, 318.116_979)]
#[case((0.001, 179.992), (0.001, -179.99), 0.0, 2003.7508, 90.0)]
fn distance_and_bearing_are_those_on_the_ground(
    #[case] low: (f64, f64),
    #[case] high: (f64, f64),
    #[case] height_m: f64,
    #[case] distance_m: f64,
    #[case] bearing_deg: f64,
) {
    let (_, axis) = axis(at(low.0, low.1), at(high.0, high.1), height_m);
    let apart = axis.length().si() - distance_m;
    // The scale takes one radius for all bearings; radii differ by 0.34 %.
    let raised = distance_m * height_m / 6.37e6 * 0.0034;
    assert!(apart.abs() < 3e-4 + raised, "{apart}");
    let turned = axis.grid_bearing().si().to_degrees() - bearing_deg;
    assert!(turned.abs() < 0.02, "{turned}");
}

/// [PROJ-9] `+proj=tmerc +lat_0=52.1032 +lon_0=-1.2867 +k=1`, printed to 0.1 mm.
#[test]
fn plane_coordinates_are_those_of_an_independent_library() {
    let (low, high) = (at(52.1, -1.3), at(52.1064, -1.2734));
    let plane = LocalPlane::centred(low, high, metres(0.0)).expect("a plane");
    for (place, east, north) in [(low, -911.3809, -355.9782), (high, 911.2505, 356.1454)] {
        let point = plane.project(place).expect("a point");
        assert!((point.easting.si() - east).abs() < 1e-4, "{}", point.easting.si());
        assert!((point.northing.si() - north).abs() < 1e-4, "{}", point.northing.si());
    }
}

// Along the geodesic between the ends, and square off it: [PROJ-9] `geod`
// forward, printed to 1e-9 degrees, which is 0.1 mm.
#[rstest]
#[case(52.100000000, -1.300000000, 0.0, 0.0)]
#[case(52.101635886, -1.293203948, 500.0, 0.0)]
#[case(52.103438799, -1.286513621, 1000.0, -20.0)]
#[case(52.104780913, -1.279530701, 1500.0, 15.0)]
#[case(52.106356809, -1.273479312, 1950.0, 2.5)]
fn stations_and_offsets_are_those_along_the_geodesic(
    #[case] latitude: f64,
    #[case] longitude: f64,
    #[case] station_m: f64,
    #[case] offset_m: f64,
) {
    let (plane, axis) = axis(at(52.1, -1.3), at(52.1064, -1.2734), 0.0);
    let point = plane.project(at(latitude, longitude)).expect("a point");
    let (station, offset) = axis.place(point);
    assert!((station.si() - station_m).abs() < 5e-4, "{}", station.si());
    assert!((offset.si() - offset_m).abs() < 5e-4, "{}", offset.si());
}

#[test]
fn what_is_no_place_of_a_strip_is_refused() {
    let here = at(52.1, -1.3);
    for place in [at(89.0, 0.0), at(f64::NAN, 0.0), at(10.0, 400.0), at(10.0, f64::INFINITY)] {
        let error = LocalPlane::centred(here, place, metres(0.0)).expect_err("no place");
        assert!(matches!(error, Error::OffTheGlobe { .. }), "{error}");
    }
    let high = LocalPlane::centred(here, here, metres(20_000.0)).expect_err("no ground");
    assert!(matches!(high, Error::SettingOutOfRange { .. }));
    let plane = LocalPlane::centred(here, here, metres(0.0)).expect("a plane");
    // Latitude and longitude exchanged.
    let far = plane.project(at(-1.3, 52.1)).expect_err("far away");
    assert!(far.to_string().contains("exchanged"), "{far}");
}

proptest! {
    #[test]
    fn a_place_comes_back(
        low in (-80.0..80.0_f64, -180.0..180.0_f64),
        away in (-0.02..0.02_f64, -0.02..0.02_f64),
        height in -400.0..5000.0_f64,
    ) {
        let (here, there) = (at(low.0, low.1), at(low.0 + away.0, low.1 + away.1));
        let plane = LocalPlane::centred(here, here, metres(height)).expect("a plane");
        let point: PlanePoint = plane.project(there).expect("near");
        let back = plane.place(point).expect("near");
        prop_assert!((back.latitude - there.latitude).si().abs() < 1e-11);
        let apart: Angle = back.longitude - there.longitude;
        prop_assert!(apart.si().sin().abs() < 1e-10);
    }
}
