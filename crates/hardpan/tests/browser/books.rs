//! The pages of a book, of passes and ruts, of what is due, and of the field log:
//! readable in light and dark, on a phone and on paper.

use crate::contrast;
use crate::demo_book::demo_with_book;
use crate::driver::{Browser, OVER_THE_EDGE, Served};
use serde_json::json;

/// What can be typed into or pressed.
const USELESS_ON_PAPER: &str =
    "return [...document.querySelectorAll('button, select, input, .act, .add-picture')]
       .filter((one) => one.getClientRects().length).map((one) => one.outerHTML)";

/// Headings less than a line below what stands before them.
const STUCK: &str = "return [...document.querySelectorAll('main > h2')].filter((one) =>
    one.getBoundingClientRect().top - one.previousElementSibling.getBoundingClientRect().bottom < 16)
    .map((one) => one.textContent)";

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
        ("entry", "/books/long/entries/3"),
        ("keep", "/flights/flight/keep?take_off.mass=38+t"),
        ("calendar", "/flights/flight/year"),
        ("lesson", "/flights/flight/lesson"),
        ("confidence", "/flights/flight/confidence"),
        ("remedies", "/flights/flight/remedies?take_off.mass=42.6+t"),
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
            let close = browser.run(STUCK);
            assert_eq!(close, json!([]), "a heading sticks to what stands above it");
            browser.run(
                "[...document.querySelectorAll('h2')].at(-1).scrollIntoView({ block: 'center' });
                 return true",
            );
            browser.picture("ruts-headings");
        }
        if name == "book" {
            assert!(due().contains("nose gear deflector"), "{}", due());
            browser.run("document.querySelector('table.due').scrollIntoView(); return true");
            browser.picture("due-page");
            browser.run("document.querySelector('#files').scrollIntoView(); return true");
            browser.picture("files-page");
            browser.colours("dark");
            browser.picture("files-dark");
            browser.colours("light");
        }
        browser.paper(true);
        let cut = browser.run(
            "return [...document.querySelectorAll('table')].filter((one) =>
               one.getBoundingClientRect().right > innerWidth + 1).length",
        );
        assert_eq!(cut, json!(0), "{page}: a table is wider than the paper");
        if name != "plan" {
            let idle = browser.run(USELESS_ON_PAPER);
            assert_eq!(idle, json!([]), "{page}: paper cannot use it");
        }
        let over = browser.run(OVER_THE_EDGE);
        assert_eq!(over, json!([]), "{page}: sticks out of the paper");
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

/// Cells in which a number and its unit could come apart; what opens in a cell is prose.
const APART: &str = "const told = (one) => {
      const copy = one.cloneNode(true);
      copy.querySelectorAll('details').forEach((part) => part.remove());
      return copy.textContent;
    };
    return [...document.querySelectorAll('td, th')].map(told)
    .filter((text) => /[0-9] (%|kt|kg|lb|t|m|ft|mm|in|km|kPa|psi|hPa|MPa|°C|°F|kN|d)(?![a-z])/
      .test(text))";

#[test]
fn a_number_in_a_table_keeps_to_its_unit() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_with_book(&flights);
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(1280, 900);
    for page in [
        "/flights/flight",
        "/flights/flight?units=imperial",
        "/flights/flight/masses?temperatures=14+degC&headwinds=9+kt",
        "/flights/flight/year",
        "/aeroplanes/aeroplane",
        "/compare?flight=flight",
        "/books/long?strip=Long+Gravel&inspected-within=7+d",
        "/books/long/ruts?flight=flight",
        "/books/long/entries/3",
    ] {
        browser.go(&format!("{}{page}", served.url));
        let cells = browser.run("return document.querySelectorAll('td').length");
        assert!(cells.as_u64().is_some_and(|count| count > 1), "{page}: {cells} cells");
        assert_eq!(browser.run(APART), json!([]), "{page}");
    }
}

#[test]
fn a_wrong_entry_is_found_in_the_history_and_put_right() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_with_book(&flights);
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(390, 844);
    browser.go(&format!("{}/books/long", served.url));
    browser.click("#entry-1 .audit a");
    browser.wait("the entry", "return document.title.startsWith('Entry 1 ')");
    browser.click("#correct summary");
    let stands = "return document.querySelector('#movement-mass').value";
    assert_eq!(browser.run(stands), json!("39600 kg"));
    browser.run("document.querySelector('#movement-mass').value = ''; return true");
    browser.keys("#movement-mass", "39.9");
    browser.keys("#movement-why", "the load sheet was wrong");
    browser.keys("#movement-by", "Ben");
    browser.click("#correct button");
    browser.wait("the mistake", "return !!document.querySelector('#correct[open] .wrong')");
    assert!(browser.text("#movement-mass-wrong").contains("no unit"));
    let kept = browser.run("return document.querySelector('#movement-why').value");
    assert_eq!(kept, json!("the load sheet was wrong"), "what was typed stays");
    browser.keys("#movement-mass", " t");
    browser.click("#correct button");
    browser.wait("the new entry", "return document.title.startsWith('Entry 8 ')");
    browser.picture("entry-corrected");
    let told = browser.text("main").replace(['\u{a0}', '\u{202f}'], " ");
    for words in ["39 900 kg", "Ben", "entry 1", "the load sheet was wrong"] {
        assert!(told.contains(words), "{words}: {told}");
    }
    browser.click("main table a");
    browser.wait("the old entry", "return document.title.startsWith('Entry 1 ')");
    assert!(browser.text("main").contains("No longer stands"), "{}", browser.text("main"));
    assert_eq!(browser.run("return document.querySelectorAll('main form').length"), json!(0));
}
