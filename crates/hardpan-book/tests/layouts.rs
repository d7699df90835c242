//! Books of earlier layouts are brought up to date and lose nothing.

mod support;

use hardpan_book::{Book, Kind, current};
use rusqlite::Connection;
use std::path::Path;
use support::{audit, equipment, survey};

const LAYOUT_1: &str = include_str!("support/layout_1.sql");

fn laid_out(path: &Path) {
    let connection = Connection::open(path).expect("a new file");
    connection.execute_batch(LAYOUT_1).expect("it is as the program wrote it");
}

#[test]
fn a_book_of_the_first_layout_keeps_every_entry_and_its_digest() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.book");
    laid_out(&path);
    let mut book = Book::open(&path).expect("it is brought up to date");
    let entries = book.verify().expect("every digest still fits");
    assert_eq!(entries.len(), 3);
    assert_eq!(entries[2].supersedes, Some(1));
    assert_eq!(current(&entries).len(), 2);
    book.add(
        equipment("gravel deflector", "serviceable", "2026-06-18T12:00Z", "2026-09-01"),
        audit(),
    )
    .expect("a kind that the first layout did not know");
    book.add(survey("levels", "2026-05-04", "2027-05-04"), audit()).expect("another");
    drop(book);
    let entries = Book::open(&path).and_then(|book| book.verify()).expect("it is whole");
    let kinds: Vec<Kind> = entries.iter().map(|entry| entry.record.kind()).collect();
    assert_eq!(
        kinds,
        [Kind::Movement, Kind::Inspection, Kind::Movement, Kind::Equipment, Kind::Survey]
    );
}

#[test]
fn after_the_change_of_layout_nothing_can_be_overwritten_or_deleted() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.book");
    laid_out(&path);
    let mut book = Book::open(&path).expect("it is brought up to date");
    book.add(survey("levels", "2026-05-04", "2027-05-04"), audit()).expect("it fits");
    drop(book);
    let connection = Connection::open(&path).expect("it opens");
    for change in [
        "DELETE FROM entry WHERE id = 1",
        "UPDATE entry SET recorded_by = 'B' WHERE id = 1",
        "UPDATE movement SET mass_kg = 1",
        "DELETE FROM inspection",
        "UPDATE survey SET date = '2027-01-01'",
        "DELETE FROM survey",
        "INSERT INTO entry SELECT 9, kind, recorded_at, recorded_by, NULL, NULL, digest FROM entry \
         WHERE id = 1",
    ] {
        assert!(connection.execute_batch(change).is_err(), "{change}");
    }
}
