//! Damage by place, and records as features of a map.

mod support;

use hardpan_book::{
    Entry, Ground, Kind, Record, current, damage_places, geojson_value, records_of_geojson,
};
use hardpan_quantity::{Angle, Length, Quantity as _, metres, percent};
use proptest::prelude::*;
use support::{audit, fields, movement, one_of_each, record};

fn entries(records: Vec<Record>) -> Vec<Entry> {
    let entry = |(id, record)| Entry {
        id,
        audit: audit(),
        supersedes: None,
        why: None,
        mark: None,
        first: None,
        record,
    };
    (1..).zip(records).map(entry).collect()
}

fn damage(zone: &str, station: Option<&str>) -> Record {
    let values = [
        ("tail", "XX-ONE"),
        ("strip", "North"),
        ("date", "2026-06-18"),
        ("zone", zone),
        ("phase", "landing"),
    ];
    let place: Vec<(&str, &str)> = station.map(|at| ("station", at)).into_iter().collect();
    record(Kind::Damage, &[&values[..], &place[..]].concat())
}

/// 95 % limits of a count of 1, 0.0253 and 5.5716, as tables of [GARWOOD-1936] form
/// print them (from memory), and of 0: 3.689 above, as a public page prints it.
#[test]
fn damage_is_told_by_stretch_and_zone() {
    let rolled = |from: &str, to: &str| {
        let mut values = movement("landing", "2026-06-18T15:00Z").fields();
        values.extend(fields(&[("rolled_from", from), ("rolled_to", to)]));
        Record::from_fields(Kind::Movement, &values).expect("values that fit")
    };
    let far = std::iter::repeat_n(rolled("0 m", "250 m"), 400);
    let near = std::iter::repeat_n(rolled("0 m", "150 m"), 100);
    let reports =
        [damage("flap", Some("220 m")), damage("Flap ", None), damage("belly", Some("90 m"))];
    let entries = entries(far.chain(near).chain(reports).collect());
    let found =
        damage_places(&current(&entries), "North", Some(metres(100.0)), None, percent(95.0));
    let found = found.expect("it can be told");
    let told: Vec<(usize, usize)> =
        found.stretches.iter().map(|one| (one.rate.reports, one.rate.movements)).collect();
    assert_eq!(told, [(1, 500), (0, 500), (1, 400)]);
    let limits = found.stretches[2].rate.limits.expect("there are movements");
    assert_eq!(found.stretches[2].rate.rate, Some(2.5));
    assert!((limits.lower - 2.5 * 0.0253).abs() < 2.5 * 5e-5, "{limits:?}");
    assert!((limits.upper - 2.5 * 5.5716).abs() < 2.5 * 5e-5, "{limits:?}");
    let none = found.stretches[1].rate.limits.expect("there are movements");
    assert!(none.lower == 0.0 && (none.upper - 2.0 * 3.689).abs() < 2.0 * 5e-4, "{none:?}");
    assert_eq!(found.without_station, 1);
    let zones: Vec<(&str, usize)> =
        found.zones.iter().map(|(zone, rate)| (zone.as_str(), rate.reports)).collect();
    assert_eq!(zones, [("flap", 2), ("belly", 1)]);
}

#[test]
fn a_map_is_taken_over_by_another_book() {
    let kinds = [Kind::Movement, Kind::Inspection, Kind::Damage, Kind::Repair, Kind::Closure];
    let records: Vec<Record> =
        one_of_each().into_iter().filter(|one| kinds.contains(&one.kind())).collect();
    let entries = entries(records.clone());
    let on_globe = |station: Length, _: Length| {
        Some((Angle::from_si(1.0), Angle::from_si(station.si() * 1e-6)))
    };
    let ground = Ground { strip: "North", length: metres(2000.0), lane: None, on_globe: &on_globe };
    let map = geojson_value(&current(&entries), &ground).to_string();
    let _: geojson::FeatureCollection = map.parse().expect("GeoJSON");
    let taken = records_of_geojson(&map, None).expect("it holds records");
    assert!(taken.iter().all(|one| one.first.is_some()), "who recorded it is kept");
    let back: Vec<Record> = taken.into_iter().map(|one| one.record).collect();
    assert_eq!(back, records);
}

#[test]
fn a_place_is_taken_from_the_geometry() {
    let off_globe = |latitude: f64, longitude: f64| {
        ((latitude - 60.0).abs() < 0.01).then_some((longitude * 1000.0, 0.0))
    };
    let feature = |geometry: &str, properties: &str| {
        format!(
            "{{\"type\": \"FeatureCollection\",\n\"features\": [\n{{\"type\": \"Feature\",\n\
                 \"geometry\": {geometry}, \"properties\": {properties}}}]}}"
        )
    };
    let damage = "{\"kind\": \"damage\", \"strip\": \"North\", \"tail\": \"101\", \"zone\": \"flap\", \
                  \"date\": \"2026-06-18\", \"phase\": \"taxi\"}";
    let point = "{\"type\": \"Point\", \"coordinates\": [0.64, 60.0]}";
    let found = records_of_geojson(&feature(point, damage), Some(&off_globe)).expect("it fits");
    let Record::Damage(one) = &found[0].record else { panic!("{found:?}") };
    assert_eq!(one.station.map(|at| at.si()), Some(640.0));
    let repair = "{\"kind\": \"repair\", \"strip\": \"North\", \"date\": \"2026-06-18\", \
                  \"what\": \"graded\"}";
    let line = "{\"type\": \"LineString\", \"coordinates\": [[0.69, 60.0], [0.6, 60.0]]}";
    let found = records_of_geojson(&feature(line, repair), Some(&off_globe)).expect("it fits");
    let Record::Repair(one) = &found[0].record else { panic!("{found:?}") };
    assert_eq!((one.from.si(), one.to.si()), (600.0, 690.0));
    let rut = "{\"kind\": \"inspection\", \"strip\": \"North\", \"at\": \"2026-06-18T08:00Z\", \
               \"rut\": \"12 mm\", \"rut_lane\": \"left main\", \"water\": \"0 mm\"}";
    let found = records_of_geojson(&feature(point, rut), Some(&off_globe)).expect("it fits");
    assert!(matches!(&found[0].record, Record::Inspection(one) if one.rut_station.is_some()));
    let away = "{\"type\": \"Point\", \"coordinates\": [0.64, 61.0]}";
    for (geometry, properties, said) in [
        (away, damage, "line 4, column 1: 61, 0.64 does not lie on the strip"),
        ("{\"type\": \"Polygon\"}", damage, "line 4, column 1: a geometry must be a Point"),
        ("{\"type\": \"Point\", \"coordinates\": [640]}", damage, "longitude and latitude"),
        ("null", "{}", "line 3, column 1: a feature states no `kind`"),
        ("null", "null", "line 3, column 1: a feature has no `properties`"),
        (
            "null",
            "{\"kind\": \"pond\"}",
            "line 4, column 34: `pond` is no kind of feature; it is one of inspection",
        ),
        ("null", "{\"kind\": \"rut\", \"depth_mm\": 3}", "`rut` alone is no record"),
        (
            "null",
            "{\"kind\": \"damage\", \"tail\": [1]}",
            "line 4, column 52: `tail` must be a text or a number",
        ),
        ("null", "{\"kind\": \"damage\", \"tall\": \"1\"}", "line 4, column 52: column `tall`"),
        (
            "null",
            "{\"kind\": \"damage\", \"tail\": \"1\", \"strip\": \"N\",\n  \"size_m\": -1, \"date\": \
             \"2026-06-18\", \"zone\": \"belly\", \"phase\": \"taxi\"}",
            "line 5, column 3: damage, size",
        ),
        ("null", "{\"kind\": \"damage\", \"tail\": \"1\"}", "line 3, column 1: damage, strip"),
    ] {
        let error = records_of_geojson(&feature(geometry, properties), Some(&off_globe));
        let error = error.expect_err(properties).to_string();
        assert!(error.contains(said), "{error} | {said}");
    }
    for (text, said) in [
        ("{", "line 1, column 1: this is no JSON"),
        ("[]", "FeatureCollection"),
        ("{\"type\": \"FeatureCollection\"}", "`features` must hold a list"),
    ] {
        let error = records_of_geojson(text, None).expect_err(text).to_string();
        assert!(error.contains(said), "{error}");
    }
}

proptest! {
    /// Whatever stands in the file, it is taken or refused.
    #[test]
    fn prop_no_text_panics(text in ".{0,200}") {
        let _ = records_of_geojson(&text, None);
    }

    #[test]
    fn prop_no_feature_panics(kind in "(damage|repair|inspection|closure|movement|rut|x)",
                              name in "(at|station|station_m|from|rut|kind|movement|é)",
                              value in "(null|1e400|-1|\"\"|\"12 mm\"|[1]|1e9)",
                              east in "(0|-181|null|\"a\"|1e9)") {
        let off = |_: f64, east: f64| Some((east * 1e300, f64::NAN));
        let text = format!(
            "{{\"type\": \"FeatureCollection\", \"features\": [{{\"geometry\": {{\"type\": \
             \"LineString\", \"coordinates\": [[{east}, 1], [{east}, 2]]}}, \"properties\": \
             {{\"kind\": \"{kind}\", \"{name}\": {value}}}}}, 7, null]}}"
        );
        let _ = records_of_geojson(&text, Some(&off));
    }
}
