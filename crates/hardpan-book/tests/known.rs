//! What stands in a book word for word is not recorded again when a file is taken over:
//! a movement that is counted twice would halve the damage per movement.

mod support;

use hardpan_book::{
    Book, ImportError, Kind, Record, TakenOver, Withdrawal, csv_text, history_of_json, json_value,
    records_of_csv,
};
use support::{audit, inspection, movement, one_of_each};

fn book(records: Vec<Record>) -> (tempfile::TempDir, Book) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = Book::create(&folder.path().join("north.book")).expect("a new record");
    book.add_all(records, &audit()).expect("they fit");
    (folder, book)
}

fn over(book: &mut Book, json: &str) -> Result<TakenOver, ImportError> {
    book.take_over(history_of_json(json).expect("as exported"), &[], &audit())
}

fn whole(book: &Book) -> String {
    json_value(&book.verify().expect("it is whole"), support::CAUTION).to_string()
}

/// Two landings, of which the first was a take-off and the second never came, and an
/// inspection.
fn kept() -> (tempfile::TempDir, Book) {
    let (folder, mut book) = book(vec![
        movement("landing", "2026-06-18T15:00Z"),
        movement("landing", "2026-06-19T15:00Z"),
        inspection("2026-06-20T08:00Z", "0 mm", "0 mm"),
    ]);
    let right = movement("take-off", "2026-06-18T15:00Z");
    book.correct(1, right, "it took off", audit()).expect("it fits");
    book.correct(2, Record::Withdrawal(Withdrawal {}), "it never came", audit()).expect("it fits");
    (folder, book)
}

#[test]
fn a_file_that_is_taken_over_twice_is_recorded_once() {
    let (_folder, mut mine) = kept();
    let json = whole(&mine);
    let told = over(&mut mine, &json).expect("it fits");
    assert_eq!((told.recorded.len(), told.known), (0, vec![1, 2, 3, 4, 5]));
    let (_other, mut other) = book(Vec::new());
    for (recorded, known) in [(5, 0), (0, 5)] {
        let told = over(&mut other, &json).expect("it fits");
        assert_eq!((told.recorded.len(), told.known.len()), (recorded, known));
    }
    let csv = csv_text(&mine.verify().expect("it is whole"), Kind::Movement).expect("text");
    let rows = records_of_csv(Kind::Movement, &csv).expect("as exported");
    assert_eq!(rows.len(), 1, "the take-off, which the table does not say to supersede anything");
    let told = mine.take_over(rows, &[], &audit()).expect("it fits");
    assert_eq!((told.recorded.len(), told.known), (0, vec![4]));
    assert_eq!(mine.verify().expect("it is whole").len(), 5);
}

/// A book that went on elsewhere brings only what is new, and its corrections find the
/// entries that stand here.
#[test]
fn what_is_new_of_another_book_finds_what_stands_here() {
    let (_folder, mut mine) = book(vec![inspection("2026-06-20T08:00Z", "0 mm", "0 mm")]);
    let (_other, mut other) = kept();
    over(&mut mine, &whole(&other)).expect("it fits");
    let count = mine.verify().expect("it is whole").len();
    assert_eq!(count, 5, "the inspection is the same");
    other.add(movement("landing", "2026-06-21T15:00Z"), audit()).expect("it fits");
    let later = movement("take-off", "2026-06-18T15:10Z");
    other.correct(4, later.clone(), "ten minutes later", audit()).expect("it fits");
    let told = over(&mut mine, &whole(&other)).expect("it fits");
    assert_eq!((told.recorded.len(), told.known.len()), (2, 5));
    let entries = mine.verify().expect("it is whole");
    let last = entries.last().expect("an entry");
    let before = last.supersedes.and_then(|id| entries.iter().find(|entry| entry.id == id));
    let before = before.expect("it is there");
    assert_eq!(before.record, movement("take-off", "2026-06-18T15:00Z"));
    assert_eq!(last.record, later);
}

/// Of two alike in a file two are recorded: two nicks of one landing.
#[test]
fn each_entry_answers_for_one_record_only() {
    let nick = |_: usize| one_of_each().into_iter().find(|one| one.kind() == Kind::Damage);
    let two: Vec<Record> = (0..2).filter_map(nick).collect();
    let (_folder, one) = book(two.iter().take(1).cloned().collect());
    let (_other, mut both) = book(two);
    let (_third, mut none) = book(Vec::new());
    assert_eq!(over(&mut none, &whole(&both)).expect("it fits").recorded.len(), 2);
    assert_eq!(over(&mut both, &whole(&one)).expect("it fits").recorded.len(), 0);
    let json = whole(&both);
    let mut one = one;
    let told = over(&mut one, &json).expect("it fits");
    assert_eq!((told.recorded.len(), told.known.len()), (1, 1));
}

/// What two books corrected each in its own way is told with its place.
#[test]
fn what_was_corrected_otherwise_here_is_told() {
    let (_folder, mut mine) = kept();
    let json = whole(&mine).replace("\"take-off\"", "\"landing\"");
    let told = over(&mut mine, &json).expect_err("corrected otherwise");
    let ImportError::File(mistakes) = told else { panic!("{told}") };
    assert!(mistakes.to_string().contains("entry 1 is superseded by entry 4"), "{mistakes}");
    assert_eq!(mine.verify().expect("it is whole").len(), 5);
}
