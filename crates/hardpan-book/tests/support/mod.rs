//! Invented records for the tests.
#![allow(dead_code)]

use hardpan_book::{Audit, Fields, Kind, Record};
use jiff::Timestamp;

/// Words of a caution.
pub(crate) const CAUTION: &str = "Planning aid only.";

pub(crate) fn moment(text: &str) -> Timestamp {
    text.parse().expect("a moment")
}

pub(crate) fn audit() -> Audit {
    Audit { by: "A. Keeper".to_owned(), at: moment("2026-07-01T12:00Z") }
}

pub(crate) fn fields(pairs: &[(&str, &str)]) -> Fields {
    pairs.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
}

pub(crate) fn record(kind: Kind, pairs: &[(&str, &str)]) -> Record {
    Record::from_fields(kind, &fields(pairs)).expect("values that fit")
}

pub(crate) fn movement(kind: &str, at: &str) -> Record {
    record(
        Kind::Movement,
        &[("strip", "North"), ("tail", "XX-ONE"), ("kind", kind), ("at", at), ("mass", "39.6 t")],
    )
}

pub(crate) fn inspection(at: &str, rut: &str, water: &str) -> Record {
    let places = [("rut_station", "300 m"), ("rut_lane", "left"), ("water_station", "420 m")];
    let values = [("strip", "North"), ("at", at), ("rut", rut), ("water", water)];
    record(Kind::Inspection, &[&places[..], &values[..]].concat())
}

pub(crate) fn closure(action: &str, from: &str) -> Record {
    let values = [("strip", "North"), ("action", action), ("from", from), ("reason", "thaw")];
    record(Kind::Closure, &values)
}

pub(crate) fn equipment(item: &str, state: &str, at: &str, due: &str) -> Record {
    let values = [("tail", "XX-ONE"), ("item", item), ("state", state), ("at", at), ("due", due)];
    record(Kind::Equipment, &[&values[..], &[("remarks", "hinge cracked")]].concat())
}

pub(crate) fn survey(what: &str, date: &str, due: &str) -> Record {
    let digest = "0f".repeat(32);
    let values = [("strip", "North"), ("what", what), ("date", date), ("file", "survey.csv")];
    let rest = [("due", due), ("digest", &digest), ("remarks", "by total station")];
    record(Kind::Survey, &[&values[..], &rest[..]].concat())
}

/// One record of each kind that stands alone, with every value stated.
pub(crate) fn one_of_each() -> Vec<Record> {
    vec![
        record(
            Kind::Movement,
            &[
                ("strip", "North"),
                ("tail", "XX-ONE"),
                ("kind", "take-off"),
                ("at", "2026-06-18T15:00Z"),
                ("mass", "39.6 t"),
                ("pressure", "100 psi"),
                ("direction", "25"),
                ("rolled_from", "1900 m"),
                ("rolled_to", "700 m"),
                ("remarks", "  dust, \"heavy\"\nsecond line "),
            ],
        ),
        record(
            Kind::Inspection,
            &[
                ("strip", "North"),
                ("at", "2026-06-17T08:30:12.25Z"),
                ("rut", "1.5 in"),
                ("rut_station", "300 m"),
                ("rut_lane", "left wheel path"),
                ("loose", "12 mm"),
                ("loose_station", "500 ft"),
                ("water", "0 mm"),
                ("water_station", "0 m"),
                ("photos", "rut-300.jpg"),
                ("remarks", "après la pluie"),
            ],
        ),
        record(
            Kind::Damage,
            &[
                ("tail", "XX-ONE"),
                ("strip", "North"),
                ("date", "2026-06-18"),
                ("zone", "flap, left inner"),
                ("phase", "not known"),
                ("size", "18 mm"),
                ("stone", "1 in"),
                ("station", "640 m"),
                ("photos", "flap.jpg, stone.jpg"),
                ("remarks", "dent"),
            ],
        ),
        record(
            Kind::Repair,
            &[
                ("strip", "North"),
                ("date", "2026-06-10"),
                ("from", "250 m"),
                ("to", "420 m"),
                ("what", "graded and compacted"),
            ],
        ),
        closure("closed", "2026-08-01T00:00Z"),
        record(
            Kind::Assessment,
            &[
                ("flight", "Demo"),
                ("strip", "North"),
                ("tail", "XX-ONE"),
                ("at", "2026-06-18T12:00Z"),
                ("verdict", "conditional"),
                ("identifier", "0123456789ab"),
                ("json", "{\"verdict\": \"conditional\"}"),
                ("program", "hardpan 0.1.0"),
                ("inputs", "{\"flight\": \"flight.toml\", \"files\": {}}"),
                ("versions", "{\"strip\": \"00\"}"),
            ],
        ),
        equipment("gravel deflector", "unserviceable", "2026-06-18T12:00Z", "2026-09-01"),
        survey("strength tests", "2026-05-04", "2027-05-04"),
        version(Kind::Aeroplane, &[("tail", "XX-ONE")], "abc"),
        version(Kind::Strip, &[("strip", "North")], "abc"),
        version(Kind::Day, &[("day", "2026-06-18"), ("strip", "North")], "abc"),
        version(Kind::Flight, &[("flight", "Demo"), ("strip", "North"), ("tail", "XX-ONE")], "abc"),
    ]
}

/// A version of one file. The digest of `abc` is that of [FIPS-180-4]'s example;
/// that of the list is what `sha256sum` prints of a list of `sha256sum`.
pub(crate) fn version(kind: Kind, names: &[(&str, &str)], text: &str) -> Record {
    let files = format!("{{\"file.toml\": {{\"text\": \"{text}\"}}}}");
    let digest = match text {
        "abc" => LIST_OF_ABC,
        "abd" => LIST_OF_ABD,
        other => panic!("no digest is known of {other}"),
    };
    let rest = [("file", "folder/file.toml"), ("digest", digest), ("files", &*files)];
    record(kind, &[names, &rest[..]].concat())
}

pub(crate) const LIST_OF_ABC: &str =
    "24766e168b427a7b5fd979150e8173f9f314b28874318b0bf55624eb6bbf65a9";
pub(crate) const LIST_OF_ABD: &str =
    "d416ca8415b2170190ae3bb16e2c306be7f51268a55d37050f20360eb589dce3";
