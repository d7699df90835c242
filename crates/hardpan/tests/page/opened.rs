//! Figures of the pages that open to what they came from.

use crate::driver::Served;
use crate::{get, status};
use std::path::Path;
use std::process::Command;

fn hardpan() -> Command {
    Command::new(env!("CARGO_BIN_EXE_hardpan"))
}

fn add(book: &Path, values: &[&str]) {
    let out =
        hardpan().arg("book").arg(book).arg("add").args(values).args(["--by", "Ada"]).output();
    let out = out.expect("it runs");
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
}

fn with_a_book() -> (tempfile::TempDir, Served) {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let made = hardpan().args(["new", "demo"]).arg(&flights).status().expect("it runs");
    assert!(made.success());
    let book = flights.join("long.book");
    let strip = "strip=Long Gravel";
    for (day, rut) in [("16", "rut=9 mm"), ("17", "rut=12 mm"), ("18", "rut=15.5 mm")] {
        let at = format!("at=2026-06-{day}T08:00:00Z");
        let moved = ["movement", strip, "tail=101", "kind=landing", &at, "mass=39.6 t"];
        add(&book, &[&moved[..], &["pressure=100 psi"]].concat());
        let at = format!("at=2026-06-{day}T09:00:00Z");
        let seen = ["inspection", strip, &at, rut, "rut_station=640 m", "rut_lane=left main"];
        add(&book, &[&seen[..], &["water=0 mm"]].concat());
    }
    let done = ["damage", strip, "tail=101", "date=2026-06-18", "zone=flap", "phase=landing"];
    add(&book, &done);
    let due = ["equipment", "tail=101", "item=deflector", "state=serviceable", "due=2099-09-01"];
    add(&book, &[&due[..], &["at=2026-06-18T12:00:00Z"]].concat());
    let served = Served::with(&[&flights.to_string_lossy()]);
    (folder, served)
}

#[test]
fn the_figures_of_a_book_open_to_its_entries() {
    let (_folder, served) = with_a_book();
    let (_, page) = get(&served, "/books/long?strip=Long+Gravel");
    for said in [
        "How the passes come about",
        "How the damage figures come about",
        "How the days of grading come about",
        "How the movements come about",
        "How the days that are left come about",
        "1000 × (1) / (3)",
        "GARWOOD-1936",
        "<a href=\"/books/long?strip=Long+Gravel#entry-7\">7</a>",
    ] {
        assert!(page.contains(said), "{said}: {page}");
    }
    assert!(page.contains("id=\"entry-7\""), "the link leads somewhere");
    let address = "/books/long/ruts?strip=Long+Gravel&flight=flight&tail=101";
    let answer = get(&served, address);
    assert_eq!(status(&answer), "200");
    for said in [
        "How the passes, ruts and coverages come about",
        "coverages of nose, station 0 to 100 m",
        "How the ruts and passes come about",
        "mean tyre pressure, left main at station 640 m on 2026-06-18",
        "HOSANG-1975",
        "#entry-6\">6</a>",
    ] {
        assert!(answer.1.contains(said), "{said}: {}", answer.1);
    }
}
