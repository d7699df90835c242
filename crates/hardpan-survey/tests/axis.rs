//! Places on the axis: the compass points, there and back, and what is refused.

use hardpan_quantity::{Quantity, metres};
use hardpan_survey::{Error, PlanePoint, StationAxis};
use proptest::prelude::*;

fn point(easting: f64, northing: f64) -> PlanePoint {
    PlanePoint { easting: metres(easting), northing: metres(northing) }
}

#[test]
fn right_of_an_axis_to_the_north_is_east() {
    let axis = StationAxis::between(point(500.0, 100.0), point(500.0, 1100.0)).expect("an axis");
    let (station, offset) = axis.place(point(512.0, 350.0));
    assert_eq!((station.si(), offset.si()), (250.0, 12.0));
    assert_eq!(axis.length().si(), 1000.0);
    assert_eq!(axis.grid_bearing().si(), 0.0);
}

#[test]
fn right_of_an_axis_to_the_west_is_north() {
    let axis = StationAxis::between(point(0.0, 0.0), point(-800.0, 0.0)).expect("an axis");
    let (station, offset) = axis.place(point(-100.0, 7.0));
    assert_eq!((station.si(), offset.si()), (100.0, 7.0));
    assert!((axis.grid_bearing().si() - 1.5 * std::f64::consts::PI).abs() < 1e-12);
}

#[test]
fn thresholds_at_one_place_or_nowhere_are_refused() {
    let same = StationAxis::between(point(1.0, 1.0), point(1.0, 1.0));
    assert!(matches!(same, Err(Error::ThresholdsApart { .. })));
    let nowhere = StationAxis::between(point(f64::NAN, 1.0), point(1.0, 1.0));
    assert!(matches!(nowhere, Err(Error::CoordinateOutOfRange { .. })));
}

proptest! {
    #[test]
    fn a_point_comes_back(
        low in (-1e6..1e6_f64, -1e7..1e7_f64),
        along in (-3000.0..3000.0_f64, 20.0..3000.0_f64),
        place in (-100.0..4000.0_f64, -200.0..200.0_f64),
    ) {
        let high = point(low.0 + along.0, low.1 + along.1);
        let axis = StationAxis::between(point(low.0, low.1), high).expect("an axis");
        let there = axis.point(metres(place.0), metres(place.1));
        let (station, offset) = axis.place(there);
        prop_assert!((station.si() - place.0).abs() < 1e-6);
        prop_assert!((offset.si() - place.1).abs() < 1e-6);
    }
}
