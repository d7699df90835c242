//! What goes in comes out, and nothing that went in goes away.

mod support;

use hardpan_book::{Audit, Book, BookError, Kind, Record, Withdrawal, current};
use support::{audit, fields, inspection, moment, movement, one_of_each, record};

fn book() -> (tempfile::TempDir, Book) {
    let folder = tempfile::tempdir().expect("a folder");
    let book = Book::create(&folder.path().join("north.book")).expect("a new record");
    (folder, book)
}

#[test]
fn every_record_comes_back_as_it_went_in() {
    let (_folder, mut book) = book();
    let path = book.path().to_owned();
    let records = one_of_each();
    for record in &records {
        book.add(record.clone(), audit()).expect("it fits");
    }
    drop(book);
    let read = Book::open(&path).and_then(|book| book.verify()).expect("it is whole");
    let numbers: Vec<i64> = read.iter().map(|entry| entry.id).collect();
    assert_eq!(numbers, (1..=12).collect::<Vec<_>>());
    assert_eq!(read.iter().map(|entry| entry.record.clone()).collect::<Vec<_>>(), records);
    assert!(read.iter().all(|entry| entry.audit == audit() && entry.supersedes.is_none()));
}

#[test]
fn values_as_text_make_the_same_record() {
    for record in one_of_each() {
        let again = Record::from_fields(record.kind(), &record.fields());
        assert_eq!(again.expect("it fits"), record);
    }
}

#[test]
fn a_correction_keeps_what_was_there_and_says_why() {
    let (_folder, mut book) = book();
    let old = movement("landing", "2026-06-18T15:00Z");
    let new = movement("take-off", "2026-06-18T15:00Z");
    let first = book.add(old.clone(), audit()).expect("it fits");
    let later = Audit { by: "B. Checker".to_owned(), at: moment("2026-07-02T09:00Z") };
    let second = book.correct(first.id, new.clone(), "it took off", later).expect("it fits");
    let all = book.verify().expect("it is whole");
    assert_eq!(all.len(), 2);
    assert_eq!(all[0].record, old);
    assert_eq!(all[1].supersedes, Some(first.id));
    assert_eq!(all[1].why.as_deref(), Some("it took off"));
    assert_eq!(all[1].audit.by, "B. Checker");
    let standing = current(&all);
    assert_eq!(standing.len(), 1);
    assert_eq!((standing[0].id, &standing[0].record), (second.id, &new));
}

#[test]
fn a_correction_of_what_cannot_be_corrected_is_refused() {
    let (_folder, mut book) = book();
    let landing = movement("landing", "2026-06-18T15:00Z");
    book.add(landing.clone(), audit()).expect("it fits");
    let seen = inspection("2026-06-18T15:00Z", "0 mm", "0 mm");
    assert!(matches!(
        book.correct(9, landing.clone(), "why", audit()),
        Err(BookError::NoEntry { id: 9 })
    ));
    assert!(matches!(
        book.correct(1, seen, "why", audit()),
        Err(BookError::OtherKind { id: 1, .. })
    ));
    assert!(matches!(
        book.correct(1, landing.clone(), "  ", audit()),
        Err(BookError::NotSaid { .. })
    ));
    book.correct(1, Record::Withdrawal(Withdrawal {}), "never happened", audit()).expect("it fits");
    assert!(matches!(
        book.correct(1, landing.clone(), "why", audit()),
        Err(BookError::Superseded { id: 1, by: 2 })
    ));
    assert!(matches!(book.correct(2, landing, "why", audit()), Err(BookError::OtherKind { .. })));
    let all = book.verify().expect("it is whole");
    assert!(current(&all).is_empty());
}

#[test]
fn who_records_must_be_said_and_nothing_lies_ahead() {
    let (_folder, mut book) = book();
    let nobody = Audit { by: " ".to_owned(), ..audit() };
    let landing = movement("landing", "2026-06-18T15:00Z");
    assert!(matches!(book.add(landing, nobody), Err(BookError::NotSaid { .. })));
    let ahead = movement("landing", "2026-07-01T12:00:01Z");
    assert!(matches!(book.add(ahead, audit()), Err(BookError::Value { field: "at", .. })));
    assert!(matches!(
        book.add(Record::Withdrawal(Withdrawal {}), audit()),
        Err(BookError::NotSaid { .. })
    ));
    assert!(book.verify().expect("it is whole").is_empty());
}

#[test]
fn values_that_do_not_fit_are_refused_with_a_sentence() {
    let whole = [
        ("strip", "North"),
        ("tail", "XX-ONE"),
        ("kind", "landing"),
        ("at", "2026-06-18T15:00Z"),
        ("mass", "39.6 t"),
    ];
    let cases = [
        ("mass", "39.6", "has no unit"),
        ("mass", "0 t", "more than 0"),
        ("mass", "-1 t", "more than 0"),
        ("mass", "NaN t", "number"),
        ("at", "yesterday", "2026-06-18T15:00Z"),
        ("at", "2026-06-18T15:00", "offset"),
        ("kind", "touch", "landing, take-off"),
        ("strip", " ", "nothing is written"),
        ("tail", "\u{1b}[2J", "control"),
        ("wing", "left", "has no value"),
    ];
    for (name, text, told) in cases {
        let mut values = fields(&whole);
        values.insert(name.to_owned(), text.to_owned());
        let error = Record::from_fields(Kind::Movement, &values).expect_err(name).to_string();
        assert!(error.contains(told), "{name}={text}: {error}");
    }
    for (name, _) in whole {
        let mut values = fields(&whole);
        values.remove(name);
        let error = Record::from_fields(Kind::Movement, &values).expect_err(name).to_string();
        assert!(error.contains(name) && error.contains("not stated"), "{error}");
    }
}

#[test]
fn an_inspection_says_where_and_a_repair_runs_forward() {
    let seen = fields(&[
        ("strip", "North"),
        ("at", "2026-06-18T15:00Z"),
        ("rut", "40 mm"),
        ("water", "0 mm"),
    ]);
    let error = Record::from_fields(Kind::Inspection, &seen).expect_err("no station");
    assert!(matches!(error, BookError::Value { field: "rut_station", .. }));
    let mended = fields(&[
        ("strip", "North"),
        ("date", "2026-06-18"),
        ("from", "400 m"),
        ("to", "300 m"),
        ("what", "graded"),
    ]);
    let error = Record::from_fields(Kind::Repair, &mended).expect_err("runs back");
    assert!(matches!(error, BookError::Value { field: "to", .. }));
}

#[test]
fn a_backup_holds_everything_and_overwrites_nothing() {
    let (folder, mut book) = book();
    for record in one_of_each() {
        book.add(record, audit()).expect("it fits");
    }
    let copy = folder.path().join("copy.book");
    assert_eq!(book.backup(&copy).expect("a copy"), 12);
    let read = Book::open(&copy).and_then(|copy| copy.verify()).expect("it is whole");
    assert_eq!(read, book.verify().expect("it is whole"));
    assert!(matches!(book.backup(&copy), Err(BookError::Exists { .. })));
    assert!(!folder.path().join("copy.book.part").exists());
    book.add(
        record(
            Kind::Movement,
            &[
                ("strip", "North"),
                ("tail", "XX-TWO"),
                ("kind", "landing"),
                ("at", "2026-06-20T15:00Z"),
                ("mass", "30 t"),
            ],
        ),
        audit(),
    )
    .expect("the record goes on");
}

#[test]
fn exports_carry_units_and_superseded_entries() {
    let (_folder, mut book) = book();
    for record in one_of_each() {
        book.add(record, audit()).expect("it fits");
    }
    let take_off = movement("landing", "2026-06-18T15:00Z");
    book.correct(1, take_off, "=it landed", audit()).expect("it fits");
    let entries = book.verify().expect("it is whole");
    let text = hardpan_book::csv_text(&entries, Kind::Movement).expect("text");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headings: Vec<String> =
        reader.headers().expect("headings").iter().map(str::to_owned).collect();
    assert!(headings.iter().any(|one| one == "mass_kg"), "{headings:?}");
    assert!(headings.iter().any(|one| one == "pressure_pa"), "{headings:?}");
    let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    assert_eq!(rows.len(), 2);
    assert_eq!((&rows[0][0], &rows[0][4], &rows[1][3]), ("1", "13", "1"));
    assert_eq!(&rows[1][5], "'=it landed");
    let json = hardpan_book::json_value(&entries, support::CAUTION);
    assert_eq!(json["movement"][0]["mass_kg"], 39_600.0);
    assert_eq!(json["movement"][1]["why"], "=it landed");
    assert_eq!(json["closure"].as_array().map(Vec::len), Some(1));
}
