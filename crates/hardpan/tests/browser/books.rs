//! The pages of a book, of passes and ruts, of what is due, and of the field log:
//! readable in light and dark, on a phone and on paper.

use crate::contrast;
use crate::driver::{Browser, Served};
use serde_json::json;
use std::path::Path;
use std::process::{Command, Stdio};

const ENTRIES: [&[&str]; 7] = [
    &[
        "movement",
        "tail=101",
        "kind=landing",
        "at=2026-06-17T15:00:00Z",
        "mass=39.6 t",
        "pressure=100 psi",
    ],
    &[
        "movement",
        "tail=101",
        "kind=take-off",
        "at=2026-06-18T15:00:00Z",
        "mass=38.2 t",
        "pressure=100 psi",
    ],
    &[
        "inspection",
        "at=2026-06-18T17:00:00Z",
        "rut=12 mm",
        "rut_station=600 m",
        "rut_lane=left main",
        "water=0 mm",
    ],
    &["damage", "date=2026-06-18", "tail=101", "zone=inner flap", "phase=landing", "size=14 mm"],
    &["repair", "date=2026-06-10", "what=grading", "from=500 m", "to=700 m"],
    &[
        "equipment",
        "tail=101",
        "item=nose gear deflector",
        "state=serviceable",
        "at=2026-06-18T12:00:00Z",
        "due=2026-09-01",
    ],
    &["closure", "action=closed", "from=2026-07-01T06:00:00Z", "reason=grading"],
];

/// The demo with a book of its strip.
pub(crate) fn demo_with_book(folder: &Path) {
    let run = |arguments: &[&str]| {
        let done = Command::new(env!("CARGO_BIN_EXE_hardpan"))
            .args(arguments)
            .stdout(Stdio::null())
            .status();
        assert!(done.expect("the program starts").success(), "{arguments:?}");
    };
    let place = folder.to_string_lossy();
    run(&["new", "demo", &place]);
    let book = format!("{place}/long.book");
    for entry in ENTRIES {
        let strip: &[&str] = if entry[0] == "equipment" { &[] } else { &["strip=Long Gravel"] };
        run(&[&["book", &book, "add"], entry, strip, &["--by", "Ada"]].concat());
    }
}

#[test]
fn the_pages_of_a_book_can_be_read_everywhere() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_with_book(&flights);
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(1280, 900);
    let pages = [
        ("book", "/books/long"),
        ("ruts", "/books/long/ruts?flight=flight"),
        ("field", "/books/long/field"),
        ("calendar", "/flights/flight/year"),
        ("lesson", "/flights/flight/lesson"),
        ("plan", "/plan"),
    ];
    contrast::holds(&browser, &served, &pages.map(|(_, page)| page));
    browser.colours("light");
    let due = || browser.text("table.due");
    for (name, page) in pages {
        browser.resize(1280, 900);
        browser.go(&format!("{}{page}", served.url));
        browser.picture(&format!("{name}-page"));
        if name == "ruts" {
            assert!(browser.text("main").contains("For the passes of"));
        }
        if name == "book" {
            assert!(due().contains("nose gear deflector"), "{}", due());
            browser.run("document.querySelector('table.due').scrollIntoView(); return true");
            browser.picture("due-page");
        }
        browser.paper(true);
        let cut = browser.run(
            "return [...document.querySelectorAll('table')].filter((one) =>
               one.getBoundingClientRect().right > innerWidth + 1).length",
        );
        assert_eq!(cut, json!(0), "{page}: a table is wider than the paper");
        browser.paper(false);
        let paper = browser.print();
        assert!(paper.starts_with(b"%PDF-"), "{page}");
        browser.keep(&format!("{name}.pdf"), &paper);
        browser.resize(390, 844);
        browser.picture(&format!("{name}-phone"));
        let wide = browser.run("return document.documentElement.scrollWidth - window.innerWidth");
        assert!(
            wide.as_i64().is_some_and(|over| over <= 0),
            "{page}: wider than a phone by {wide}"
        );
    }
    assert!(browser.complaints().is_empty());
}
