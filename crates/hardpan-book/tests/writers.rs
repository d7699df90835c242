//! Killed writers and two writers at once lose nothing that was acknowledged.

mod support;

use hardpan_book::{Book, BookError, Entry, Kind, PictureFile, Shown};
use std::io::{BufRead as _, BufReader, Write as _};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use support::{audit, inspection, movement};

const BOOK: &str = "HARDPAN_TEST_BOOK";
const COUNT: &str = "HARDPAN_TEST_COUNT";
const PREFIX: &str = "acknowledged ";

fn record_some(path: &Path, count: usize) -> Result<(), BookError> {
    let mut book = Book::open(path)?;
    // Each of them with a picture, on the same terms: a movement, then an inspection
    // and what was seen at it.
    let mut shades = 0_u32..;
    for number in 0..count {
        let entry = match number % 3 {
            0 => book.add(movement("landing", "2026-06-18T15:00Z"), audit())?,
            1 => book.add(inspection("2026-06-20T08:00Z", "0 mm", "0 mm"), audit())?,
            _ => seen(&mut book, shades.next().unwrap_or_default())?,
        };
        let mut out = std::io::stdout().lock();
        writeln!(out, "{PREFIX}{}", entry.id).and_then(|()| out.flush()).expect("a reader");
    }
    Ok(())
}

/// A picture of the newest inspection, unlike all others.
fn seen(book: &mut Book, shade: u32) -> Result<Entry, BookError> {
    let entries = book.entries()?;
    let is_seen = |entry: &&Entry| entry.record.kind() == Kind::Inspection;
    let newest = entries.iter().rev().find(is_seen).expect("one was recorded before");
    let mut bytes = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x08\0\0\0\x06".to_vec();
    bytes.extend(shade.to_be_bytes());
    bytes.extend(newest.id.to_be_bytes());
    bytes.extend(std::process::id().to_be_bytes());
    bytes.resize(30_000, 7);
    let shown = Shown { of_entry: newest.id, what: "the place", file: None };
    let once = book.add_picture(shown, PictureFile::read(bytes)?, None, audit())?;
    Ok(once.entry().clone())
}

/// The writer that the other tests start as a process of its own; without them
/// it has nothing to do.
#[test]
fn child() {
    let Some(path) = std::env::var_os(BOOK) else { return };
    let count = std::env::var(COUNT).expect("the parent says how many");
    record_some(Path::new(&path), count.parse().expect("a number")).expect("it records");
}

fn start(path: &Path, count: usize) -> Child {
    Command::new(std::env::current_exe().expect("this program"))
        .args(["--exact", "child", "--nocapture"])
        .env(BOOK, path)
        .env(COUNT, count.to_string())
        .stdout(Stdio::piped())
        .spawn()
        .expect("it starts")
}

fn acknowledged(child: &mut Child) -> Vec<i64> {
    let out = BufReader::new(child.stdout.take().expect("a pipe"));
    let lines = out.lines().map_while(Result::ok);
    lines
        .filter_map(|line| line.split(PREFIX).nth(1).and_then(|id| id.trim().parse().ok()))
        .collect()
}

#[test]
fn what_was_acknowledged_outlives_a_kill() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("north.book");
    drop(Book::create(&path).expect("a new record"));
    let mut seed = 20_260_618_u64;
    let mut all = Vec::new();
    for round in 0..10 {
        let mut child = start(&path, 1_000_000);
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        std::thread::sleep(Duration::from_millis(60 + (seed >> 33) % 400));
        child.kill().expect("it was running");
        all.extend(acknowledged(&mut child));
        child.wait().expect("it ended");
        let read = Book::open(&path).and_then(|book| book.verify()).expect("it is whole");
        let ids: Vec<i64> = read.iter().map(|entry| entry.id).collect();
        let lost: Vec<&i64> = all.iter().filter(|id| !ids.contains(id)).collect();
        assert!(lost.is_empty(), "round {round}: {lost:?} of {}", all.len());
    }
    assert!(all.len() > 10, "only {} were recorded", all.len());
}

#[test]
fn two_writers_at_once_lose_nothing() {
    const EACH: usize = 100;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("north.book");
    drop(Book::create(&path).expect("a new record"));
    let mut children = [start(&path, EACH), start(&path, EACH)];
    let mut ids: Vec<i64> = children.iter_mut().flat_map(acknowledged).collect();
    assert!(children.iter_mut().all(|child| child.wait().expect("it ended").success()));
    ids.sort_unstable();
    assert_eq!(ids, (1..=200).collect::<Vec<i64>>());
    let read = Book::open(&path).and_then(|book| book.verify()).expect("it is whole");
    assert_eq!(read.len(), 2 * EACH);
}
