//! A book in a folder where nothing may be written is read as it stands, and never
//! without what stands beside it.

mod support;

use hardpan_book::{Book, BookError};
use std::path::{Path, PathBuf};
use support::{audit, closure, inspection};

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    name.into()
}

/// A book of two entries, beside which the database cannot make its files: whoever runs
/// this may write anywhere, so that a link that leads nowhere stands in their place.
#[cfg(unix)]
fn out_of_reach(folder: &Path) -> PathBuf {
    let path = folder.join("a book, 100 % #1?.book");
    let mut book = Book::create(&path).expect("a new book");
    book.add(inspection("2026-06-01T09:00Z", "0 mm", "0 mm"), audit()).expect("it is added");
    book.add(closure("closed", "2026-06-02T09:00Z"), audit()).expect("it is added");
    drop(book);
    assert!(!beside(&path, "-wal").exists(), "a book that is closed stands alone");
    let shared = beside(&path, "-shm");
    std::os::unix::fs::symlink(&shared, &shared).expect("a link");
    path
}

#[test]
#[cfg(unix)]
fn a_book_is_read_where_nothing_may_be_written_beside_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = out_of_reach(folder.path());
    let book = Book::open(&path).expect("it can be read");
    assert_eq!(book.verify().expect("each is as it was written").len(), 2);
    let mut book = Book::open(&path).expect("it can be read");
    let added = book.add(closure("reopened", "2026-06-03T09:00Z"), audit());
    assert!(matches!(added, Err(BookError::System { .. })), "{added:?}");
    assert_eq!(book.entries().expect("it can be read").len(), 2);
}

#[test]
#[cfg(unix)]
fn nothing_is_read_while_newer_entries_stand_beside_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = out_of_reach(folder.path());
    let book = Book::open(&path).expect("it can be read");
    std::fs::write(beside(&path, "-wal"), "newer").expect("a writable folder");
    let told = Book::open(&path).expect_err("a closure may stand there").to_string();
    assert!(told.contains("newest entries") && told.contains("out of reach"), "{told}");
    // The one that was opened before notices too.
    let told = book.entries().expect_err("a closure may stand there").to_string();
    assert!(told.contains("read it again"), "{told}");
    std::fs::remove_file(beside(&path, "-wal")).expect("a file");
    assert_eq!(book.entries().expect("it stands still").len(), 2);
    let file = std::fs::File::options().append(true).open(&path).expect("a file");
    file.set_len(file.metadata().expect("a file").len() + 4096).expect("a file");
    assert!(book.entries().is_err(), "it was written to");
}

/// The same by the rights of the system, for who is bound by them.
#[test]
#[cfg(unix)]
fn a_folder_without_the_right_to_write_holds_a_book_that_is_read() {
    use std::fs::Permissions;
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("north.book");
    let mut book = Book::create(&path).expect("a new book");
    book.add(closure("closed", "2026-06-02T09:00Z"), audit()).expect("it is added");
    drop(book);
    let rights = |mode| {
        let set = std::fs::set_permissions(folder.path(), Permissions::from_mode(mode));
        set.expect("rights can be set");
    };
    rights(0o555);
    let read = Book::open(&path).and_then(|book| book.verify());
    rights(0o755);
    assert_eq!(read.expect("it can be read").len(), 1);
}
