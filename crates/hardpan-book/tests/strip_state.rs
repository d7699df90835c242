//! What a book says of a strip for a flight, names that differ by a slip of the pen, and
//! stations of a slip of the pen.

mod support;

use hardpan_book::{
    Book, BookError, Entry, ImportError, Kind, NameOf, Record, closed_times, current,
    history_of_json, json_value, must_know, passes_by_stretch, status, strip_told, taken_of,
};
use hardpan_model::{StripState, StripTold};
use hardpan_quantity::{metres, seconds};
use support::{CAUTION, audit, closure, fields, inspection, moment, movement, record};

fn book_of(records: Vec<Record>) -> (tempfile::TempDir, Book) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = Book::create(&folder.path().join("north.book")).expect("a new book");
    for record in records {
        book.add(record, audit()).expect("it fits");
    }
    (folder, book)
}

fn told(records: Vec<Record>, at: &str) -> StripTold {
    let (_folder, book) = book_of(records);
    let entries = book.entries().expect("it is whole");
    strip_told(&current(&entries), "north.book", "north", moment(at))
}

fn state(records: Vec<Record>, at: &str) -> StripState {
    match told(records, at) {
        StripTold::State(state) => state,
        other => panic!("{other:?}"),
    }
}

#[test]
fn exact_a_closure_is_told_with_who_why_and_until_when_whatever_the_case_of_the_name() {
    let found = state(
        vec![
            movement("landing", "2026-06-10T15:00Z"),
            closure("closed", "2026-06-12T00:00Z"),
            closure("reopened", "2026-06-14T00:00Z"),
            closure("closed", "2026-07-20T00:00Z"),
        ],
        "2026-06-13T00:00Z",
    );
    let spans: Vec<_> = found
        .closures
        .iter()
        .map(|span| (span.from.value, span.until.as_ref().map(|until| until.value)))
        .collect();
    assert_eq!(
        spans,
        [
            (moment("2026-06-12T00:00Z"), Some(moment("2026-06-14T00:00Z"))),
            (moment("2026-07-20T00:00Z"), None),
        ]
    );
    let first = &found.closures[0];
    assert_eq!((first.reason.as_str(), first.by.as_str()), ("thaw", "A. Keeper"));
    assert_eq!(first.from.origin.to_string(), "north.book (entry 2)");
    assert_eq!(found.inspected, None);
}

#[test]
fn exact_what_the_last_inspection_holds_against_the_strip_is_told() {
    let found = state(
        vec![
            closure("closed", "2026-06-12T00:00Z"),
            closure("reopened", "2026-06-14T00:00Z"),
            inspection("2026-06-10T08:00Z", "80 mm", "3 mm"),
        ],
        "2026-06-20T00:00Z",
    );
    let held: Vec<&str> = found.restrictions.iter().map(|one| one.value.as_str()).collect();
    assert_eq!(held.len(), 3, "{held:?}");
    assert!(held[0].starts_with("rut of 80 mm at station 300 m"), "{held:?}");
    assert!(held[1].starts_with("standing water") && held[2].starts_with("not inspected since"));
    let earlier =
        state(vec![inspection("2026-06-10T08:00Z", "80 mm", "3 mm")], "2026-06-09T00:00Z");
    assert_eq!((earlier.inspected, earlier.restrictions), (None, Vec::new()));
}

#[test]
fn exact_a_book_of_other_strips_says_nothing_and_names_them() {
    let (_folder, book) = book_of(vec![movement("landing", "2026-06-10T15:00Z")]);
    let entries = book.entries().expect("it is whole");
    let standing = current(&entries);
    let told = strip_told(&standing, "n", "South", moment("2026-06-20T00:00Z"));
    assert_eq!(told, StripTold::Nothing(vec!["North".to_owned()]));
    let refused = must_know(&standing, NameOf::Strip, "South").expect_err("it is unknown");
    assert_eq!(refused.to_string(), "the book knows no strip `South`; it knows North");
    let refused = must_know(&standing, NameOf::Tail, "XX-TWO").expect_err("it is unknown");
    assert_eq!(refused.to_string(), "the book knows no aeroplane `XX-TWO`; it knows XX-ONE");
}

#[test]
fn exact_a_closure_that_lies_ahead_is_told() {
    let (_folder, book) = book_of(vec![
        inspection("2026-06-10T08:00Z", "0 mm", "0 mm"),
        closure("closed", "2026-07-03T06:00Z"),
    ]);
    let entries = book.entries().expect("it is whole");
    let at = |now: &str| {
        status(&current(&entries), "North", moment(now), seconds(1e9), Some(seconds(1e9)))
    };
    let before = at("2026-07-02T00:00Z");
    assert_eq!(before.state.words(), "restricted");
    assert_eq!(
        before.ahead,
        ["closed from 2026-07-03 06:00Z: thaw (A. Keeper, entry 2; no reopening is recorded)"]
    );
    let after = at("2026-07-03T06:00Z");
    assert_eq!((after.state.words(), after.ahead.len()), ("closed", 0));
    assert_eq!(closed_times(&current(&entries), "NORTH").len(), 1);
}

fn of_strip(name: &str) -> Record {
    record(
        Kind::Closure,
        &[("strip", name), ("action", "closed"), ("from", "2026-06-12T00:00Z"), ("reason", "thaw")],
    )
}

#[test]
fn a_name_that_differs_by_a_slip_of_the_pen_is_refused_with_the_known_one() {
    let (_folder, mut book) = book_of(vec![of_strip("Long Gravel")]);
    for name in ["long gravel", "Long-Gravel", "LongGravel"] {
        match book.add(of_strip(name), audit()) {
            Err(BookError::Value { field: "strip", what, .. }) => {
                assert!(what.contains("`Long Gravel`, which the book knows"), "{what}");
            }
            other => panic!("{name}: {other:?}"),
        }
    }
    book.add(of_strip("Long Gravel"), audit()).expect("the same name");
    book.add(of_strip("Long Gravel 2"), audit()).expect("another strip");
    // A wrong name may be put right.
    let wrong = book.add(of_strip("Shrt Gravel"), audit()).expect("it fits");
    let right = book.correct(wrong.id, of_strip("shrt gravel"), "case", audit());
    right.expect("the only entry of that name is the one that is corrected");
    assert_eq!(book.entries().expect("it is whole").len(), 5);
}

#[test]
fn a_file_with_such_a_name_changes_no_book() {
    let (_folder, mut book) = book_of(vec![of_strip("Long Gravel")]);
    let text = "strip,action,from,reason\nlong gravel,closed,2026-06-13T00:00Z,works\n";
    let taken = taken_of(text, Some(Kind::Closure), None).expect("it can be read");
    match book.take_over(taken, &[], &audit()) {
        Err(ImportError::File(mistakes)) => {
            assert!(mistakes.to_string().contains("line 2"), "{mistakes}");
            assert!(mistakes.to_string().contains("`Long Gravel`"), "{mistakes}");
        }
        other => panic!("{other:?}"),
    }
    let text = "strip,action,from,reason\nWest,closed,2026-06-13T00:00Z,works\n\
                WEST,reopened,2026-06-14T00:00Z,done\n";
    let taken = taken_of(text, Some(Kind::Closure), None).expect("it can be read");
    assert!(matches!(book.take_over(taken, &[], &audit()), Err(ImportError::File(_))));
    assert_eq!(book.entries().expect("it is whole").len(), 1);
}

#[test]
fn an_export_bears_the_caution_and_is_taken_over_with_what_was_corrected() {
    let (_folder, mut book) = book_of(vec![of_strip("long gravel")]);
    book.correct(1, of_strip("Long Gravel"), "case", audit()).expect("it fits");
    let entries = book.entries().expect("it is whole");
    let json = json_value(&entries, CAUTION);
    assert_eq!(json["caution"], CAUTION);
    // A value that lay outside all bounds, and was corrected, stands in books of before.
    let mut absurd = json_value(&entries_with_a_far_station(), CAUTION);
    absurd["inspection"][0]["rut_station_m"] = 99_999.0.into();
    let history = history_of_json(&absurd.to_string()).expect("what was superseded may be absurd");
    let (_other_folder, mut other) = book_of(Vec::new());
    other.take_over(history, &[], &audit()).expect("it fits");
    let history = history_of_json(&json.to_string()).expect("an export");
    let (_third_folder, mut third) = book_of(Vec::new());
    third.take_over(history, &[], &audit()).expect("it fits");
    assert_eq!(third.entries().expect("it is whole").len(), 2);
}

fn entries_with_a_far_station() -> Vec<Entry> {
    let (_folder, mut book) = book_of(vec![inspection("2026-06-10T08:00Z", "9 mm", "0 mm")]);
    let right = inspection("2026-06-10T08:00Z", "8 mm", "0 mm");
    book.correct(1, right, "the station", audit()).expect("it fits");
    book.entries().expect("it is whole")
}

#[test]
fn absurd_values_are_refused_with_their_range() {
    let values =
        [("strip", "North"), ("tail", "1"), ("kind", "landing"), ("at", "2026-06-18T15:00Z")];
    let heavy = fields(&[&values[..], &[("mass", "4000000 t")]].concat());
    let refused = Record::from_fields(Kind::Movement, &heavy).expect_err("no such aeroplane");
    assert_eq!(
        refused.to_string(),
        "movement, mass: `4000000 t` lies outside 500 kg to 700 t; check the number and its unit"
    );
}

#[test]
fn the_usual_stretch_grows_with_the_strip() {
    let (_folder, book) = book_of(vec![movement("landing", "2026-06-10T15:00Z")]);
    let entries = book.entries().expect("it is whole");
    let cut = |end: f64| passes_by_stretch(&current(&entries), "North", None, Some(metres(end)));
    for (end, stretches) in [(1000.0, 10), (40_000.0, 400), (40_001.0, 201), (99_999.0, 250)] {
        assert_eq!(cut(end).map(|found| found.len()).ok(), Some(stretches), "{end}");
    }
}
