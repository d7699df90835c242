//! Files that are foreign, damaged, newer or in use are told, never trusted.

mod support;

use hardpan_book::{Book, BookError};
use rusqlite::Connection;
use std::fs;
use std::path::{Path, PathBuf};
use support::{audit, movement};

fn filled(folder: &Path) -> PathBuf {
    let path = folder.join("north.book");
    let mut book = Book::create(&path).expect("a new record");
    for day in 1..=28 {
        let at = format!("2026-06-{day:02}T15:00Z");
        book.add(movement("landing", &at), audit()).expect("it fits");
    }
    path
}

fn whole(path: &Path) -> Result<usize, BookError> {
    Ok(Book::open(path)?.verify()?.len())
}

#[test]
fn a_new_file_is_a_record_and_is_not_started_twice() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("north.book");
    let book = Book::create(&path).expect("a new record");
    assert!(book.verify().expect("it is whole").is_empty());
    assert!(matches!(Book::create(&path), Err(BookError::Exists { .. })));
    assert_eq!(whole(&path).expect("it opens"), 0);
}

#[test]
fn what_is_no_record_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("file");
    assert!(matches!(whole(&path), Err(BookError::NotThere { .. })));
    for content in ["", "S", "SQLite format 3", "strip = \"North\"\n"] {
        fs::write(&path, content).expect("a writable folder");
        assert!(matches!(whole(&path), Err(BookError::Foreign { .. })), "{content:?}");
        assert_eq!(fs::read_to_string(&path).expect("it stands"), content);
    }
    assert!(whole(folder.path()).is_err());
    let other = folder.path().join("other");
    let connection = Connection::open(&other).expect("a database");
    connection.execute_batch("CREATE TABLE entry (id INTEGER)").expect("a table");
    drop(connection);
    assert!(matches!(whole(&other), Err(BookError::Foreign { .. })));
}

#[test]
fn a_newer_layout_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = filled(folder.path());
    let connection = Connection::open(&path).expect("a database");
    connection.pragma_update(None, "user_version", 999).expect("it can be set");
    drop(connection);
    assert!(matches!(whole(&path), Err(BookError::Newer { found: 999, .. })));
}

#[test]
fn a_cut_file_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = filled(folder.path());
    let bytes = fs::read(&path).expect("it stands");
    for part in 0..8 {
        fs::write(&path, &bytes[..bytes.len() * part / 8]).expect("a writable folder");
        let error = whole(&path).expect_err("cut");
        assert!(
            matches!(error, BookError::Foreign { .. } | BookError::Corrupt { .. }),
            "{part}: {error}"
        );
    }
}

#[test]
fn no_flipped_byte_is_read_as_another_record() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = filled(folder.path());
    let bytes = fs::read(&path).expect("it stands");
    let sound = Book::open(&path).and_then(|book| book.verify()).expect("it is whole");
    let mut told = 0;
    for at in (0..bytes.len()).step_by(211) {
        let mut flipped = bytes.clone();
        flipped[at] ^= 0x15;
        fs::write(&path, &flipped).expect("a writable folder");
        match Book::open(&path).and_then(|book| book.verify()) {
            Ok(read) => assert_eq!(read, sound, "byte {at}"),
            Err(error) => {
                told += 1;
                assert!(!error.to_string().is_empty());
            }
        }
    }
    assert!(told > 0, "no damage was noticed");
}

#[test]
fn a_value_changed_from_outside_does_not_fit_its_digest() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = filled(folder.path());
    let connection = Connection::open(&path).expect("a database");
    let change = "UPDATE movement SET mass_kg = 30000 WHERE id = 7";
    let refused = connection.execute_batch(change).expect_err("the table refuses");
    assert!(refused.to_string().contains("nothing is overwritten"), "{refused}");
    let refused = connection.execute_batch("DELETE FROM entry WHERE id = 28").expect_err("so here");
    assert!(refused.to_string().contains("nothing is deleted"), "{refused}");
    connection.execute_batch("DROP TRIGGER movement_is_not_changed").expect("by force");
    connection.execute_batch(change).expect("by force");
    drop(connection);
    let error = whole(&path).expect_err("changed").to_string();
    assert!(error.contains("entry 7 does not fit its digest"), "{error}");
}

#[test]
fn a_lock_is_told_after_the_wait_and_nothing_is_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = filled(folder.path());
    let other = Connection::open(&path).expect("a database");
    other.execute_batch("BEGIN IMMEDIATE").expect("the lock");
    let mut book = Book::open(&path).expect("readers are not kept out");
    let error = book.add(movement("landing", "2026-06-30T15:00Z"), audit()).expect_err("locked");
    assert!(matches!(error, BookError::Locked { .. }), "{error}");
    other.execute_batch("ROLLBACK").expect("the lock goes");
    assert_eq!(book.verify().expect("it is whole").len(), 28);
}
