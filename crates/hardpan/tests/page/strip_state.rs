//! What the books of the folder say of a strip, on the sheet, the page of the strip and
//! the start page.

use crate::driver::Served;
use crate::{get, json, status};
use std::path::Path;
use std::process::Command;

fn hardpan() -> Command {
    Command::new(env!("CARGO_BIN_EXE_hardpan"))
}

fn add(book: &Path, values: &[&str]) {
    let out = hardpan().arg("book").arg(book).arg("add").args(values).output().expect("it runs");
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
}

fn demo() -> (tempfile::TempDir, std::path::PathBuf, Served) {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let made = hardpan().args(["new", "demo"]).arg(&flights).status().expect("it runs");
    assert!(made.success());
    let served = Served::with(&[&flights.to_string_lossy()]);
    (folder, flights, served)
}

fn closed(book: &Path, from: &str) {
    let from = format!("from={from}");
    let values = ["closure", "strip=Long Gravel", "action=closed", &from, "reason=thaw"];
    add(book, &[&values[..], &["--by", "Ada"]].concat());
}

#[test]
fn a_closed_strip_is_said_wherever_its_flights_stand() {
    let (_folder, flights, served) = demo();
    let before = json(&get(&served, "/api/flights/flight"));
    assert_eq!(before["answer"]["verdict"], "conditional");
    let book = flights.join("long.book");
    closed(&book, "2026-06-17T00:00:00Z");
    let (_, sheet) = get(&served, "/flights/flight");
    let answer =
        sheet.split("id=\"answer\"").nth(1).and_then(|rest| rest.split("</section>").next());
    let answer = answer.expect("the area of the answer");
    assert!(answer.contains("Not usable as planned"), "{answer}");
    for words in ["closed from 2026-06-17 00:00Z", "thaw", "Ada", "/books/long?strip=Long+Gravel"] {
        assert!(answer.contains(words), "{words}: {answer}");
    }
    let after = json(&get(&served, "/api/flights/flight"));
    assert_eq!(after["answer"]["verdict"], "fail");
    assert_ne!(after["produced"]["identifier"], before["produced"]["identifier"]);
    for page in ["/", "/strips/strip"] {
        let (_, text) = get(&served, page);
        assert!(text.contains("closed") && text.contains("/books/long?strip="), "{page}: {text}");
    }
    // Opened again and seen since, nothing stands against it.
    let from = "from=2026-06-17T06:00:00Z";
    add(
        &book,
        &["closure", "strip=Long Gravel", "action=reopened", from, "reason=dry", "--by", "Ada"],
    );
    let seen = ["inspection", "strip=Long Gravel", "at=2026-06-18T09:00:00Z", "rut=0 mm"];
    add(&book, &[&seen[..], &["water=0 mm", "--by", "Ada"]].concat());
    let again = json(&get(&served, "/api/flights/flight"));
    assert_eq!(again["answer"]["verdict"], "conditional", "{}", again["answer"]);
}

#[test]
fn a_closure_since_the_flight_is_said_beside_its_answer() {
    let (_folder, flights, served) = demo();
    closed(&flights.join("long.book"), "2026-08-01T00:00:00Z");
    let (_, sheet) = get(&served, "/flights/flight");
    assert!(sheet.contains("closed now"), "{sheet}");
    assert!(sheet.contains("closed from 2026-08-01 00:00Z"));
}

#[test]
fn a_book_that_cannot_be_read_leaves_its_flights_unproven() {
    let (_folder, flights, served) = demo();
    std::fs::write(flights.join("long.book"), "no book").expect("a writable folder");
    let found = json(&get(&served, "/api/flights/flight"));
    assert_eq!(found["answer"]["verdict"], "unproven");
    let (_, sheet) = get(&served, "/flights/flight");
    assert!(sheet.contains("book cannot be read"), "{sheet}");
}

/// A link that leads nowhere keeps the database from making its files beside the book,
/// as a folder without the right to write does.
#[test]
#[cfg(unix)]
fn a_book_beside_which_nothing_may_be_written_is_heeded() {
    let (_folder, flights, served) = demo();
    let book = flights.join("long.book");
    closed(&book, "2026-06-17T00:00:00Z");
    let shared = flights.join("long.book-shm");
    std::os::unix::fs::symlink(&shared, &shared).expect("a link");
    let found = json(&get(&served, "/api/flights/flight"));
    assert_eq!(found["answer"]["verdict"], "fail", "{}", found["answer"]);
    let of_book = || {
        let flight = flights.join("flight.toml");
        hardpan().arg("assess").arg(flight).arg("--book").arg(&book).output().expect("it runs")
    };
    assert_eq!(of_book().status.code(), Some(1));
    std::fs::write(flights.join("long.book-wal"), "newer").expect("a writable folder");
    let found = json(&get(&served, "/api/flights/flight"));
    assert_eq!(found["answer"]["verdict"], "unproven");
    let (_, sheet) = get(&served, "/flights/flight");
    assert!(sheet.contains("newest entries") && sheet.contains("give that right"), "{sheet}");
    let out = of_book();
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.code() == Some(2) && said.contains("out of reach"), "{said}");
}

#[test]
fn books_are_asked_one_question_at_a_time() {
    let (_folder, flights, served) = demo();
    closed(&flights.join("long.book"), "2026-06-17T00:00:00Z");
    for path in ["grading", "damage", "passes", "due"] {
        let told = json(&get(&served, &format!("/api/books/long/{path}")));
        let caution = told["caution"].as_str().unwrap_or_default();
        assert!(caution.contains("Planning aid only"), "{path}: {told}");
    }
    for path in ["grading", "damage", "passes", "status"] {
        let answer = get(&served, &format!("/api/books/long/{path}?strip=Nowhere"));
        assert_eq!(status(&answer), "404", "{path}");
        let said = json(&answer)["error"].as_str().unwrap_or_default().to_owned();
        assert!(said.contains("knows no strip `Nowhere`; it knows Long Gravel"), "{said}");
    }
    assert_eq!(status(&get(&served, "/api/books/long/due?strip=Nowhere")), "422");
    for page in ["/books/long?strip=Nowhere", "/books/long/ruts?strip=Nowhere"] {
        let answer = get(&served, page);
        assert_eq!(status(&answer), "404", "{page}");
        assert!(answer.1.contains("Nowhere") && answer.1.contains("Long Gravel"), "{page}");
    }
}
