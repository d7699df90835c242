//! Versions of aeroplanes, strips, days and flights.

mod support;

use hardpan_book::{
    Book, BookError, Kind, Record, Version, current, history_of_json, holdings, json_value,
    versions_used,
};
use support::{LIST_OF_ABC, LIST_OF_ABD, audit, equipment, fields, record, version};

fn book(folder: &tempfile::TempDir) -> Book {
    Book::create(&folder.path().join("a.book")).expect("a new book")
}

fn strip(text: &str) -> Record {
    version(Kind::Strip, &[("strip", "North")], text)
}

#[test]
fn a_newer_version_supersedes_and_the_same_is_not_kept_twice() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = book(&folder);
    let other = version(Kind::Strip, &[("strip", "South")], "abc");
    let first = book.keep(None, vec![strip("abc"), other], &audit()).expect("both are new");
    assert_eq!(first.iter().map(|entry| entry.id).collect::<Vec<_>>(), [1, 2]);
    assert!(book.keep(None, vec![strip("abc")], &audit()).expect("it fits").is_empty());
    let newer = book.keep(None, vec![strip("abd")], &audit()).expect("it changed");
    assert_eq!((newer[0].id, newer[0].supersedes), (3, Some(1)));
    assert!(newer[0].why.is_some());
    let entries = book.verify().expect("it is whole");
    let standing: Vec<i64> = current(&entries).iter().map(|entry| entry.id).collect();
    assert_eq!(standing, [2, 3]);
    let back = book.keep(None, vec![strip("abc")], &audit()).expect("as it was before");
    assert_eq!(back[0].supersedes, Some(3), "the way back is a version too");
}

#[test]
fn the_digest_is_that_of_the_list_of_the_files() {
    let record = strip("abc");
    let version = Version::of(&record).expect("a version");
    // [FIPS-180-4], example of the one-block message `abc`, as NIST prints it.
    let of_abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assert_eq!(version.files()["file.toml"].digest, of_abc);
    assert_eq!(version.digest, LIST_OF_ABC);
    let mut values = record.fields();
    values.insert("digest".to_owned(), LIST_OF_ABD.to_owned());
    let refused = Record::from_fields(Kind::Strip, &values);
    assert!(matches!(refused, Err(BookError::Value { field: "digest", .. })), "{refused:?}");
}

#[test]
fn what_is_no_list_of_files_is_refused() {
    let long = format!("{{\"a\": {{\"sha256\": \"{}\"}}}}", "g".repeat(64));
    for files in ["", "{", "[]", "{}", "{\"a\": 1}", "{\"a\": {}}", long.as_str()] {
        let values =
            fields(&[("strip", "North"), ("file", "a"), ("digest", LIST_OF_ABC), ("files", files)]);
        let refused = Record::from_fields(Kind::Strip, &values);
        assert!(matches!(refused, Err(BookError::Value { field: "files", .. })), "{files}");
    }
}

#[test]
fn an_assessment_leads_to_the_versions_that_it_used() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = book(&folder);
    let versions = format!("{{\"strip\": \"{LIST_OF_ABC}\", \"aeroplane\": \"{LIST_OF_ABD}\"}}");
    let assessment = record(
        Kind::Assessment,
        &[
            ("flight", "Demo"),
            ("strip", "North"),
            ("tail", "XX-ONE"),
            ("at", "2026-06-18T12:00Z"),
            ("verdict", "fail"),
            ("identifier", "0123456789ab"),
            ("json", "{}"),
            ("program", "hardpan 0.1.0"),
            ("versions", &versions),
        ],
    );
    book.keep(Some(assessment), vec![strip("abc")], &audit()).expect("both");
    book.add(
        equipment("gravel deflector", "unserviceable", "2026-06-18T12:00Z", "2026-09-01"),
        audit(),
    )
    .expect("it fits");
    book.keep(None, vec![version(Kind::Aeroplane, &[("tail", "XX-ONE")], "abc")], &audit())
        .expect("it is new");
    let entries = book.verify().expect("it is whole");
    let used = versions_used(&entries, &versions);
    let told: Vec<_> = used.iter().map(|(kind, _, at)| (*kind, at.map(|one| one.id))).collect();
    assert_eq!(told, [(Kind::Aeroplane, None), (Kind::Strip, Some(2))]);
    let held = holdings(&entries);
    assert_eq!(held.len(), 2);
    assert_eq!(held[0].equipment.len(), 1, "the state of its equipment");
    assert_eq!(held[1].assessments, [1]);
    // Exported and taken over, it is the same.
    let taken =
        history_of_json(&json_value(&entries, support::CAUTION).to_string()).expect("an export");
    let taken: Vec<Record> = taken.into_iter().map(|one| one.record).collect();
    assert_eq!(taken, entries.iter().map(|entry| entry.record.clone()).collect::<Vec<_>>());
}
