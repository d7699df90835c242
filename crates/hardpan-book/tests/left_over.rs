//! What a power cut leaves half made blocks nobody, and nobody else's file is
//! taken for it.

mod support;

use hardpan_book::{Book, BookError, left_over, parts_of};
use std::fs;
use std::path::{Path, PathBuf};
use support::{audit, movement};

fn folder() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("north.book");
    (folder, path)
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let name = |entry: std::io::Result<fs::DirEntry>| {
        entry.expect("an entry").file_name().to_string_lossy().into_owned()
    };
    let mut names: Vec<String> = entries.map(name).collect();
    names.sort();
    names
}

/// The bytes of a record as far as a writer may have come.
fn beginnings() -> Vec<Vec<u8>> {
    let (_folder, path) = folder();
    let book = Book::create(&path).expect("a new record");
    drop(book);
    let whole = fs::read(&path).expect("it stands");
    let mut unmarked = whole[..200].to_vec();
    unmarked[68..72].fill(0);
    vec![Vec::new(), vec![0; 4096], whole[..512].to_vec(), unmarked, whole]
}

#[test]
fn a_part_of_a_run_that_was_cut_off_is_taken_over() {
    for (case, bytes) in beginnings().into_iter().enumerate() {
        let (folder, path) = folder();
        let parts = parts_of(&path);
        fs::write(&parts[0], &bytes).expect("a writable folder");
        for beside in &parts[1..] {
            fs::write(beside, b"of the run before").expect("a writable folder");
        }
        assert_eq!(left_over(&path).as_ref(), Some(&parts[0]), "case {case}");
        let mut book = Book::create(&path).unwrap_or_else(|error| panic!("case {case}: {error}"));
        book.add(movement("landing", "2026-06-18T15:00Z"), audit()).expect("it fits");
        assert_eq!(book.verify().expect("it is whole").len(), 1, "case {case}");
        assert_eq!(left_over(&path), None);
        let copy = folder.path().join("copy.book");
        fs::write(&parts_of(&copy)[0], &bytes).expect("a writable folder");
        assert_eq!(book.backup(&copy).expect("it copies"), 1, "case {case}");
        drop(book);
        assert_eq!(names(folder.path()), ["copy.book", "north.book"], "case {case}");
    }
}

#[test]
fn a_file_of_someone_else_is_left_alone() {
    let mut other = b"SQLite format 3\0".to_vec();
    other.resize(100, 7);
    for bytes in [b"half of a download".to_vec(), other] {
        let (folder, path) = folder();
        let part = &parts_of(&path)[0];
        fs::write(part, &bytes).expect("a writable folder");
        let error = Book::create(&path).expect_err("it is not ours");
        assert!(matches!(error, BookError::NotOurs { .. }), "{error}");
        assert!(error.to_string().contains("give it another name"), "{error}");
        assert_eq!(fs::read(part).expect("it stands"), bytes);
        assert_eq!(names(folder.path()), ["north.book.part"]);
    }
}

#[test]
fn a_file_that_is_being_made_is_not_taken_over() {
    let (_folder, path) = folder();
    let claim = parts_of(&path).pop().expect("the claim is the last");
    let held = fs::File::create(&claim).expect("a writable folder");
    held.lock().expect("nobody holds it");
    fs::write(&parts_of(&path)[0], b"").expect("a writable folder");
    let error = Book::create(&path).expect_err("another makes it");
    assert!(matches!(error, BookError::BeingMade { .. }), "{error}");
    assert!(parts_of(&path)[0].exists(), "the part of the other stands");
    drop(held);
    Book::create(&path).expect("the other is gone");
}

/// Of many that begin at once one makes it, and the others are told.
#[test]
fn of_many_makers_one_makes_it() {
    let (folder, path) = folder();
    let made = std::thread::scope(|scope| {
        let makers: Vec<_> = (0..8).map(|_| scope.spawn(|| Book::create(&path).is_ok())).collect();
        makers.into_iter().map(|one| one.join().expect("no panic")).filter(|ok| *ok).count()
    });
    assert_eq!(made, 1);
    assert!(Book::open(&path).and_then(|book| book.verify()).expect("whole").is_empty());
    assert!(!names(folder.path()).iter().any(|name| name.contains(".part")));
}
