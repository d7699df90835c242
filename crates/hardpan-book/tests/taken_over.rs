//! Records from files, ruts as a file, and what is due.

mod support;

use hardpan_book::{
    Book, Due, Entry, First, Kind, Record, Taken, csv_text, current, due_dates, history_of_json,
    json_value, measured_ruts, records_of_csv, taken_of,
};
use jiff::civil::date;
use proptest::prelude::*;
use support::{audit, equipment, inspection, movement, one_of_each, record, survey};

fn book_of(records: Vec<Record>) -> (tempfile::TempDir, Book) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = Book::create(&folder.path().join("north.book")).expect("a new record");
    book.add_all(records, &audit()).expect("they fit");
    (folder, book)
}

fn records(taken: Vec<Taken>) -> Vec<Record> {
    taken.into_iter().map(|one| one.record).collect()
}

fn entries(records: Vec<Record>) -> Vec<Entry> {
    book_of(records).1.entries().expect("it is whole")
}

#[test]
fn what_a_book_exports_another_takes_over() {
    let entries = entries(one_of_each());
    for kind in Kind::ALL.iter().filter(|kind| **kind != Kind::Withdrawal) {
        let text = csv_text(&entries, *kind).expect("text");
        let mine = entries.iter().filter(|entry| entry.record.kind() == *kind);
        let mine: Vec<Record> = mine.map(|entry| entry.record.clone()).collect();
        let taken = records_of_csv(*kind, &text).expect("as exported");
        let by = |one: &Taken| one.first.as_ref().map(|first| first.by.clone());
        assert!(taken.iter().all(|one| by(one) == Some(audit().by)), "{taken:?}");
        assert_eq!(records(taken), mine, "{text}");
    }
    let json = json_value(&entries, support::CAUTION).to_string();
    let taken = history_of_json(&json).expect("as exported");
    assert_eq!(records(taken), one_of_each());
}

/// What superseded what, and why, is taken over into a book that has entries of its
/// own, so that the numbers are others.
#[test]
fn a_history_is_taken_over_with_what_was_superseded_and_withdrawn() {
    let (_folder, mut book) = book_of(vec![
        movement("landing", "2026-06-18T15:00Z"),
        movement("landing", "2026-06-19T15:00Z"),
    ]);
    let right = movement("take-off", "2026-06-18T15:00Z");
    book.correct(1, right.clone(), "it took off", audit()).expect("it fits");
    let gone = Record::Withdrawal(hardpan_book::Withdrawal {});
    book.correct(2, gone, "it never came", audit()).expect("it fits");
    let json = json_value(&book.entries().expect("it is whole"), support::CAUTION).to_string();
    let (_other, mut book) = book_of(vec![inspection("2026-06-20T08:00Z", "0 mm", "0 mm")]);
    let taken = history_of_json(&json).expect("as exported");
    book.take_over(taken, &[], &audit()).expect("they fit");
    let entries = book.verify().expect("it is whole");
    let told: Vec<_> = entries.iter().map(|one| (one.supersedes, one.why.as_deref())).collect();
    let (off, never) = ((Some(2), Some("it took off")), (Some(3), Some("it never came")));
    assert_eq!(told, [(None, None), (None, None), (None, None), off, never]);
    let standing: Vec<&Record> = current(&entries).into_iter().map(|one| &one.record).collect();
    assert_eq!(standing[1..], [&right]);
}

#[test]
fn a_history_that_names_what_is_not_before_it_is_told() {
    let (_folder, mut book) = book_of(vec![movement("landing", "2026-06-18T15:00Z")]);
    let right = movement("take-off", "2026-06-18T15:00Z");
    book.correct(1, right, "it took off", audit()).expect("it fits");
    let whole = json_value(&book.entries().expect("it is whole"), support::CAUTION);
    for old in [2, 3, -1] {
        let mut json = whole.clone();
        json["movement"][1]["supersedes"] = old.into();
        let told = history_of_json(&json.to_string()).expect_err("refused").to_string();
        assert!(told.contains(&format!("entry {old}")), "{told}");
    }
    let mut json = whole;
    json["movement"][1]["why"] = serde_json::Value::Null;
    let taken = history_of_json(&json.to_string()).expect("rows");
    let error = book.take_over(taken, &[], &audit()).expect_err("no reason").to_string();
    assert!(error.contains("why"), "{error}");
    assert_eq!(book.verify().expect("it is whole").len(), 2);
}

#[test]
fn superseded_rows_of_one_kind_are_not_taken_over() {
    let (_folder, mut book) = book_of(vec![movement("landing", "2026-06-18T15:00Z")]);
    let right = movement("take-off", "2026-06-18T15:00Z");
    book.correct(1, right.clone(), "it took off", audit()).expect("it fits");
    let entries = book.entries().expect("it is whole");
    let csv = csv_text(&entries, Kind::Movement).expect("text");
    assert_eq!(records(records_of_csv(Kind::Movement, &csv).expect("rows")), [right]);
}

#[test]
fn a_file_of_the_users_own_has_units_in_its_cells() {
    let text = "strip,tail,kind,at,mass\nNorth,101,landing,2026-06-18T15:00Z,39.6 t\n\
                North,101,take-off,2026-06-18T17:00Z,87000 lb\n";
    assert_eq!(records_of_csv(Kind::Movement, text).expect("rows").len(), 2);
}

#[test]
fn what_cannot_be_taken_over_is_told_with_its_line_and_column() {
    let head = "strip,tail,kind,at,mass\n";
    let row = "North,101,landing,2026-06-18T15:00Z,39.6 t\n";
    for (text, place, word) in [
        (
            format!("{head}{row}North,101,landing,2026-06-18T15:00Z,39.6\n"),
            "line 3, column 37:",
            "mass",
        ),
        (
            format!("{head}{row}\nNorth,101,flight,2026-06-18T15:00Z,39.6 t\n"),
            "line 4, column 11:",
            "flight",
        ),
        (
            format!("{head}\"Nor\"\"th, old\",\"a\nb\",flight,2026-06-18T15:00Z,39.6 t\n"),
            "line 3, column 4:",
            "flight",
        ),
        (format!("{head}{row}North,101\n"), "line 3, column 1:", "CSV"),
        ("strip, wheel\nNorth,1\n".to_owned(), "line 1, column 8:", "wheel"),
        (format!("recorded_at,{head}yesterday,{row}"), "line 2, column 1:", "yesterday"),
    ] {
        let told = taken_of(&text, Some(Kind::Movement), None).expect_err("refused").to_string();
        assert!(told.starts_with(place) && told.contains(word), "{told}");
    }
    for text in ["", "[]", "{\"landing\": []}", "{\"movement\": 1}", "{\"movement\": [1]}", "{"] {
        assert!(history_of_json(text).is_err(), "{text}");
        assert!(taken_of(text, None, None).is_err(), "{text}");
    }
    for (text, place, word) in [
        ("{\n  \"landing\": []}", "line 2, column 3:", "landing"),
        (
            "{\"movement\": [\n  {\"id\": 1,\n   \"mass_kg\": \"heavy\"}]}",
            "line 2, column 3:",
            "movement",
        ),
        (
            "{\"closure\": [{\"id\": 1},\n  {\"id\": 2, \"wheel\": 1}]}",
            "line 1, column 14:",
            "strip",
        ),
        ("{\"closure\": [\n  {\"id\": 2, \"wheel\": 1}]}", "line 2, column 13:", "wheel"),
    ] {
        let told = history_of_json(text).expect_err("refused").to_string();
        assert!(told.starts_with(place) && told.contains(word), "{told}");
    }
}

/// What fits by itself and lies ahead of the day on which it is taken over is told with
/// its place too.
#[test]
fn a_movement_of_the_time_to_come_is_told_with_its_place() {
    let text = "strip,tail,kind,at,mass\nNorth,101,landing,2026-06-18T15:00Z,39.6 t\n\
                North,101,landing,2999-06-18T15:00Z,39.6 t\n";
    let taken = taken_of(text, Some(Kind::Movement), None).expect("it fits by itself");
    let (_folder, mut book) = book_of(Vec::new());
    let told = book.take_over(taken, &[], &audit()).expect_err("ahead").to_string();
    assert!(told.starts_with("line 3, column 1:") && told.contains("2999"), "{told}");
    assert!(book.verify().expect("it is whole").is_empty());
}

/// Who first wrote an entry, and when, is kept in it through every book that takes it
/// over; who takes it over stands beside.
#[test]
fn who_first_wrote_an_entry_is_kept_from_book_to_book() {
    let (_first, book) = book_of(vec![movement("landing", "2026-06-18T15:00Z")]);
    let mut json = json_value(&book.entries().expect("it is whole"), support::CAUTION).to_string();
    for by in ["Ada", "Ben"] {
        let (_folder, mut book) = book_of(Vec::new());
        let taken = history_of_json(&json).expect("as exported");
        let at = audit().at;
        let into = hardpan_book::Audit { by: by.to_owned(), at };
        book.take_over(taken, &[], &into).expect("they fit");
        let entries = book.verify().expect("it is whole");
        assert_eq!(entries[0].audit.by, by);
        let first = First { by: audit().by, at: Some(audit().at) };
        assert_eq!(entries[0].first, Some(first), "taken over by {by}");
        json = json_value(&entries, support::CAUTION).to_string();
    }
}

#[test]
fn all_records_are_added_or_none() {
    let (_folder, mut book) = book_of(vec![movement("landing", "2026-06-18T15:00Z")]);
    let ahead = movement("landing", "2030-06-18T15:00Z");
    let added = book.add_all(vec![movement("landing", "2026-06-19T15:00Z"), ahead], &audit());
    assert!(added.is_err());
    assert_eq!(book.verify().expect("it is whole").len(), 1);
}

#[test]
fn ruts_carry_the_passes_since_their_place_was_made_level() {
    let repair = |from: &str, to: &str| {
        let values = [("strip", "North"), ("date", "2026-06-10"), ("from", from), ("to", to)];
        record(Kind::Repair, &[&values[..], &[("what", "graded")]].concat())
    };
    let seen = |station: &str, lane: &str| {
        let values = [("strip", "North"), ("at", "2026-06-20T08:00Z"), ("rut", "20 mm")];
        let place = [("rut_station", station), ("rut_lane", lane), ("water", "0 mm")];
        record(Kind::Inspection, &[&values[..], &place[..]].concat())
    };
    let pass = |at: &str, mass: &str| {
        let values = [("strip", "North"), ("tail", "101"), ("kind", "landing"), ("at", at)];
        record(Kind::Movement, &[&values[..], &[("mass", mass), ("pressure", "690 kPa")]].concat())
    };
    let all = entries(vec![
        pass("2026-06-01T12:00Z", "36 t"),
        repair("200 m", "400 m"),
        pass("2026-06-12T12:00Z", "40 t"),
        pass("2026-06-21T12:00Z", "44 t"),
        seen("300 m", "left main"),
        seen("500 m", "right main"),
        seen("500 m", "in the middle"),
    ]);
    let ruts = measured_ruts(&current(&all), "North");
    assert_eq!(
        ruts.text,
        "station_m,lane,date,rut_mm,passes,mass_t,pressure_kpa\n\
         300,left main,2026-06-20,20,1,40.000,690.0\n\
         500,right main,2026-06-20,20,2,38.000,690.0\n"
    );
    assert_eq!(ruts.places, 2);
    assert!(ruts.left_out.len() == 1 && ruts.left_out[0].contains("in the middle"));
}

#[test]
fn the_newest_record_says_when_something_is_due() {
    let all = entries(vec![
        equipment("gravel deflector", "serviceable", "2026-06-18T12:00Z", "2026-09-01"),
        equipment("gravel deflector", "serviceable", "2026-06-20T12:00Z", "2026-12-01"),
        equipment("vortex dissipator", "removed", "2026-06-20T12:00Z", "2026-08-01"),
        survey("levels", "2026-05-04", "2026-08-04"),
        record(
            Kind::Survey,
            &[
                ("strip", "North"),
                ("what", "soundings"),
                ("date", "2026-05-04"),
                ("file", "soundings.csv"),
            ],
        ),
    ]);
    let due = due_dates(&current(&all));
    let told: Vec<(&str, Option<i32>)> =
        due.iter().map(|one: &Due| (&*one.what, one.days_left(date(2026, 8, 5)))).collect();
    assert_eq!(told, [("levels", Some(-1)), ("gravel deflector", Some(118)), ("soundings", None)]);
}

#[test]
fn a_survey_that_is_overdue_restricts_the_strip() {
    let now = "2026-08-05T12:00Z".parse().expect("a moment");
    let week = hardpan_quantity::seconds(7.0 * 86_400.0);
    let seen = inspection("2026-06-30T08:00Z", "0 mm", "0 mm");
    let tests = survey("strength tests", "2026-05-04", "2027-05-04");
    let of =
        |due: &str| entries(vec![seen.clone(), survey("levels", "2026-05-04", due), tests.clone()]);
    let long = hardpan_quantity::seconds(100.0 * 86_400.0);
    let state =
        |all: &[Entry], longest| hardpan_book::status(&current(all), "North", now, longest, None);
    assert_eq!(state(&of("2026-08-05"), long).state, hardpan_book::State::Open);
    let late = state(&of("2026-08-04"), long);
    assert_eq!(late.state, hardpan_book::State::Restricted);
    assert!(late.reasons[0].contains("levels") && late.reasons[0].contains("2026-08-04"));
    assert_eq!(state(&of("2026-08-04"), week).reasons.len(), 2);
}

proptest! {
    #[test]
    fn prop_no_text_makes_an_import_panic(text in any::<String>()) {
        for kind in Kind::ALL {
            let _ = records_of_csv(*kind, &text);
        }
        let _ = history_of_json(&text);
    }
}
