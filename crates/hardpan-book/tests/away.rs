//! Records written away from the book: sent twice they stand once, and what may
//! be told already is said.

mod support;

use hardpan_book::{
    Audit, Book, BookError, Ground, Kind, Once, conflict, current, geojson_value, passes_by_stretch,
};
use hardpan_quantity::{degrees, metres};
use support::{audit, closure, fields, inspection, movement, record};

fn book() -> (tempfile::TempDir, Book) {
    let folder = tempfile::tempdir().expect("a folder");
    let book = Book::create(&folder.path().join("north.book")).expect("a new record");
    (folder, book)
}

#[test]
fn what_is_sent_twice_stands_once() {
    let (_folder, mut book) = book();
    let landing = movement("landing", "2026-06-18T15:00Z");
    let first = book.add_once("field-0001", landing.clone(), audit()).expect("it fits");
    let Once::New(entry) = &first else { panic!("{first:?}") };
    assert_eq!(entry.mark.as_deref(), Some("field-0001"));
    let later = Audit { at: support::moment("2026-07-03T12:00Z"), ..audit() };
    let again = book.add_once("field-0001", landing.clone(), later).expect("it is known");
    assert_eq!(again, Once::Known(entry.clone()), "the first sending stands");
    let other = movement("take-off", "2026-06-18T15:00Z");
    assert!(matches!(
        book.add_once("field-0001", other.clone(), audit()),
        Err(BookError::Mark { .. })
    ));
    for mark in ["short", "with a space", &"x".repeat(65), "semi;colon"] {
        let refused = book.add_once(mark, other.clone(), audit());
        assert!(matches!(refused, Err(BookError::Mark { .. })), "{mark}");
    }
    assert!(matches!(book.add_once("field-0002", landing, audit()), Ok(Once::New(_))));
    assert_eq!(book.verify().expect("it is whole").len(), 2);
}

#[test]
fn a_mark_is_part_of_what_the_digest_holds() {
    let (_folder, mut book) = book();
    book.add_once("field-0001", movement("landing", "2026-06-18T15:00Z"), audit())
        .expect("it fits");
    let path = book.path().to_owned();
    drop(book);
    let connection = rusqlite::Connection::open(&path).expect("it opens");
    let change = "DROP TRIGGER entry_is_not_changed; UPDATE entry SET mark = 'field-0009'";
    connection.execute_batch(change).expect("from outside");
    drop(connection);
    assert!(matches!(Book::open(&path).and_then(|b| b.verify()), Err(BookError::Corrupt { .. })));
}

#[test]
fn what_may_be_told_already_is_said() {
    let (_folder, mut book) = book();
    book.add(movement("landing", "2026-06-18T15:00Z"), audit()).expect("it fits");
    book.add(inspection("2026-06-18T08:00Z", "10 mm", "0 mm"), audit()).expect("it fits");
    book.add(closure("closed", "2026-06-19T00:00Z"), audit()).expect("it fits");
    let all = book.entries().expect("it is whole");
    let standing = current(&all);
    let said = |record| conflict(&standing, &record);
    let same = said(movement("landing", "2026-06-18T15:09Z")).expect("nine minutes are close");
    assert!(same.contains("entry 1 by A. Keeper"), "{same}");
    assert_eq!(said(movement("landing", "2026-06-18T15:11Z")), None);
    assert_eq!(said(movement("take-off", "2026-06-18T15:01Z")), None);
    assert!(said(inspection("2026-06-18T08:05Z", "12 mm", "0 mm")).is_some());
    let closed = said(movement("landing", "2026-06-20T15:00Z")).expect("it was closed");
    assert!(closed.contains("closed from") && closed.contains("thaw"), "{closed}");
}

#[test]
fn texts_stand_as_they_were_written_and_names_have_no_outer_spaces() {
    let (_folder, mut book) = book();
    let text = "  two spaces before, one after \n";
    let told = [
        ("strip", "North"),
        ("date", "2026-06-10"),
        ("from", "250 m"),
        ("to", "420 m"),
        ("what", text),
    ];
    book.add(record(Kind::Repair, &told), audit()).expect("it fits");
    let all = book.verify().expect("it is whole");
    assert_eq!(all[0].record.fields()["what"], text);
    let csv = hardpan_book::csv_text(&all, Kind::Repair).expect("text");
    let back = hardpan_book::records_of_csv(Kind::Repair, &csv).expect("as exported");
    assert_eq!(back[0].record.fields()["what"], text);
    let mut spaced = fields(&told);
    spaced.insert("strip".to_owned(), "North ".to_owned());
    let why = hardpan_book::Record::from_fields(Kind::Repair, &spaced).expect_err("a name");
    assert!(why.to_string().contains("begins or ends with a space"), "{why}");
}

fn rolled(at: &str, from: &str, to: &str) -> hardpan_book::Record {
    let values = [("strip", "North"), ("tail", "XX-ONE"), ("kind", "landing"), ("at", at)];
    let rest = [("mass", "39.6 t"), ("rolled_from", from), ("rolled_to", to)];
    record(Kind::Movement, &[&values[..], &rest[..]].concat())
}

#[test]
fn passes_are_counted_where_they_rolled_and_since_it_was_mended() {
    let (_folder, mut book) = book();
    let repair = [
        ("strip", "North"),
        ("date", "2026-06-15"),
        ("from", "200 m"),
        ("to", "400 m"),
        ("what", "graded"),
    ];
    for one in [
        rolled("2026-06-10T15:00Z", "1000 m", "250 m"),
        movement("take-off", "2026-06-12T15:00Z"),
        record(Kind::Repair, &repair),
        rolled("2026-06-18T15:00Z", "100 m", "650 m"),
        inspection("2026-06-20T08:00Z", "14 mm", "0 mm"),
        inspection("2026-06-21T08:00Z", "16 mm", "0 mm"),
    ] {
        book.add(one, audit()).expect("it fits");
    }
    let all = book.entries().expect("it is whole");
    let found =
        passes_by_stretch(&current(&all), "North", Some(metres(200.0)), Some(metres(1000.0)))
            .expect("it can be cut");
    let counts: Vec<(usize, usize)> =
        found.iter().map(|one| (one.passes, one.everywhere)).collect();
    assert_eq!(counts, [(2, 1), (1, 0), (3, 1), (3, 1), (2, 1)]);
    assert_eq!(found[1].since.map(|day| day.to_string()).as_deref(), Some("2026-06-15"));
    assert_eq!(found[1].ruts.len(), 1, "the newest of the lane");
    assert_eq!(found[1].ruts[0].depth, hardpan_quantity::millimetres(16.0));
    let unknown = passes_by_stretch(&current(&all), "North", Some(metres(200.0)), None)
        .expect("it can be cut");
    assert_eq!(unknown.len(), 5, "to the furthest station that is recorded");
    // A rut at the end of the strip, and one further on, belong to its last stretch.
    let short =
        passes_by_stretch(&current(&all), "North", Some(metres(200.0)), Some(metres(200.0)))
            .expect("it can be cut");
    assert_eq!((short.len(), short[0].ruts.len()), (1, 1));
    let cut = |strip: &str, step: f64, end: Option<f64>| {
        passes_by_stretch(&current(&all), strip, Some(metres(step)), end.map(metres))
    };
    assert!(cut("South", 200.0, None).is_ok_and(|found| found.is_empty()));
    for step in [0.0, 2.0, f64::NAN] {
        let refused = cut("North", step, Some(1000.0));
        assert!(matches!(refused, Err(BookError::Step { .. })), "{step}: {refused:?}");
    }
}

/// Positions by a plane of our own: longitude 10 degrees and a thousandth for each
/// 100 m of station, latitude 60 degrees and as much for each 100 m of offset.
#[test]
fn the_book_on_a_map_is_geojson() {
    let (_folder, mut book) = book();
    for one in support::one_of_each() {
        book.add(one, audit()).expect("it fits");
    }
    let seen = [
        ("strip", "North"),
        ("at", "2026-06-17T09:00:00Z"),
        ("rut", "20 mm"),
        ("rut_station", "600 m"),
        ("rut_lane", "right main"),
        ("water", "0 mm"),
    ];
    book.add(record(Kind::Inspection, &seen), audit()).expect("it fits");
    let all = book.entries().expect("it is whole");
    let on_globe = |station: hardpan_quantity::Length, offset: hardpan_quantity::Length| {
        use hardpan_quantity::Quantity as _;
        Some((degrees(60.0 + offset.si() * 1e-5), degrees(10.0 + station.si() * 1e-5)))
    };
    let ground = Ground {
        strip: "North",
        length: metres(1980.0),
        lane: Some(metres(2.5)),
        on_globe: &on_globe,
    };
    let map = geojson_value(&current(&all), &ground);
    let text = map.to_string();
    let read: geojson::FeatureCollection = text.parse().expect("GeoJSON as another reads it");
    let kinds: Vec<String> = read
        .features
        .iter()
        .map(|one| one.property("kind").and_then(|kind| kind.as_str()).unwrap_or("").to_owned())
        .collect();
    let first = ["axis", "movement", "inspection", "rut", "loose", "damage", "repair"];
    assert_eq!(kinds, [&first[..], &["closure", "inspection", "rut"]].concat());
    let last = &map["features"][9];
    assert_eq!(last["geometry"]["coordinates"], serde_json::json!([10.006, 60.000_025]));
    assert_eq!(last["properties"]["depth_mm"], 20.0);
    let damage = &map["features"][5]["geometry"]["coordinates"];
    assert_eq!(*damage, serde_json::json!([10.0064, 60.0]), "at station 640 m");
}
