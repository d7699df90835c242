//! What people read when something cannot be computed.

use hardpan_ground::Error;
use hardpan_model::Need;
use rstest::rstest;

#[rstest]
#[case(Error::SoundingEmpty { station_m: 640.0, line: 12 },
    "the sounding at station 640 m (line 12) has no reading")]
#[case(Error::SoundingNoBlows { station_m: 640.0, line: 12 },
    "the sounding at station 640 m (line 12) has no blow: the cone only sank, so it gives no strength")]
#[case(Error::SoundingDepth { station_m: 640.0, line: 14, depth_mm: 80.0, before_mm: 95.0 },
    "the reading on line 14 of the sounding at station 640 m is at 80 mm, which is not below the one before at 95 mm")]
#[case(Error::SoundingTooDeep { station_m: 640.0, line: 14, depth_mm: 12_000.0, limit_mm: 10_000.0 },
    "the reading on line 14 of the sounding at station 640 m is at 12000 mm; such a test ends above 10000 mm")]
#[case(Error::SoundingPlace { number: 3, line: 12 },
    "sounding 3 (line 12) has a station or offset that is not finite")]
#[case(Error::NotPositive { what: "wheelbase", value: 0.0, unit: "m" },
    "wheelbase is 0 m; it must be above zero and finite")]
#[case(Error::OutOfRange { what: "bearing ratio", value: 2.0, minimum: 3.0, maximum: 15.0, unit: "%" },
    "bearing ratio is 2 %, outside 3 to 15 %")]
#[case(Error::TooManyStations { wanted: 2e6, limit: 100_000 },
    "2000000 stations are asked for; at most 100000 are computed")]
#[case(Error::NoValues, "there is no bearing ratio to characterise")]
#[case(Error::Missing { needs: vec![need("aeroplane: gear.wheelbase"), need("aeroplane: gear.main.legs")] },
    "missing: aeroplane: gear.wheelbase, aeroplane: gear.main.legs")]
#[case(Error::CentreBehindGear { centre_percent: 46.0, gear_percent: 45.0 },
    "the centre of gravity at 46 % of the chord is not ahead of the main gear at 45 %")]
#[case(Error::LegNotCovered { wheels: 3, abreast: 2, limit: 12 },
    "a leg of 3 wheels in rows of 2 is not covered; 1 to 12 wheels are")]
#[case(Error::TyreOverloaded { load_kn: 101.0, rated_kn: 100.0 },
    "the tyre carries 101 kN, more than its rated 100 kN")]
#[case(Error::ChartNotRising { row: 2 },
    "row 2 of the tyre chart does not have more mass and at least the pressure of the row before")]
#[case(Error::ChartEmpty, "the tyre chart has no row")]
#[case(Error::ChartOutside { what: "mass", value: 9e3, low: 1e4, high: 2e4, unit: "kg" },
    "mass 9000 kg is outside the tyre chart, which runs from 10000 to 20000 kg")]
#[case(Error::NoSolution { what: "reference thickness", low: 0.0, high: 20.0, unit: "m" },
    "reference thickness has no solution between 0 and 20 m")]
fn wording(#[case] error: Error, #[case] text: &str) {
    assert_eq!(error.to_string(), text);
}

fn need(what: &str) -> Need {
    Need { what: what.to_owned(), how: String::new() }
}
