//! The screens of the guide: each is looked at anew, and must still say what its
//! picture shows.

use crate::demo_book::demo_with_book;
use crate::driver::{Browser, Served};
use crate::guide;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

const ANSWERED: &str = "return !!document.querySelector('#answer .verdict')
    && !document.body.classList.contains('is-old')
    && !document.body.classList.contains('rest-is-old')";

/// The words that the window shows, in the order of the page.
const SHOWN: &str = "const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const words = [];
    while (walk.nextNode()) {
      const text = walk.currentNode.textContent.trim();
      const place = document.createRange();
      place.selectNodeContents(walk.currentNode);
      const box = place.getBoundingClientRect();
      const isSeen = box.width > 1 && box.height > 1 && box.bottom > 0 && box.top < innerHeight;
      if (text && isSeen && !walk.currentNode.parentElement.closest('.unseen')) words.push(text);
    }
    return words.join('\\n')";

/// Keep what a window shows, and compare its words with those that its picture was taken
/// of. Figures change with the clock and are left out.
///
/// `SNAPSHOTS=overwrite` takes words and picture anew; look at them.
fn screen(browser: &Browser, name: &str) {
    let mut words = String::new();
    let shown = browser.run(SHOWN);
    for letter in shown.as_str().expect("words").chars() {
        match letter {
            digit if digit.is_ascii_digit() => {
                if !words.ends_with('#') {
                    words.push('#');
                }
            }
            other => words.push(other),
        }
    }
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/guide/screens");
    snapbox::Assert::new()
        .action_env("SNAPSHOTS")
        .eq(words + "\n", snapbox::Data::read_from(&kept.join(format!("{name}.txt")), None));
    let picture = guide().join("screens").join(format!("{name}.png"));
    if std::env::var("SNAPSHOTS").is_ok_and(|wanted| wanted == "overwrite") {
        std::fs::write(&picture, browser.window()).expect("the guide is writable");
    }
    assert!(picture.exists(), "{}", picture.display());
}

#[test]
fn the_screens_of_the_guide_are_those_of_the_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_with_book(&flights);
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(1280, 900);
    browser.colours("light");
    browser.resize(1280, 900);
    browser.go(&format!("{}/books/long?inspected-within=7+d", served.url));
    screen(&browser, "book");
    browser.run("document.querySelector('table.due').scrollIntoView(); return true");
    screen(&browser, "due");
    browser.go(&format!("{}/books/long/ruts?flight=flight&tail=101", served.url));
    screen(&browser, "ruts");
    browser.resize(1440, 900);
    browser.go(&format!("{}/flights/flight", served.url));
    browser.wait("the sheet", ANSWERED);
    screen(&browser, "sheet");
}

#[test]
fn the_pages_of_the_guide_are_those_that_are_served() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_with_book(&flights);
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(1280, 900);
    browser.colours("light");
    browser.resize(1280, 900);
    for (name, address) in [
        ("aeroplane", "aeroplanes/aeroplane"),
        ("remedies", "flights/flight/remedies?take_off.mass=43.2+t"),
        ("lesson", "flights/flight/lesson"),
        ("year", "flights/flight/year?landing.mass=36+t&take_off.mass=36+t"),
        ("import", "books/long/import"),
    ] {
        browser.go(&format!("{}/{address}", served.url));
        browser.wait(name, "return document.querySelectorAll('main h1').length === 1");
        screen(&browser, name);
    }
}

#[test]
fn the_forms_of_the_guide_are_those_of_the_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_with_book(&flights);
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(1280, 900);
    browser.colours("light");
    browser.resize(1280, 900);
    browser.go(&format!("{}/plan?strip=strip&aeroplane=aeroplane", served.url));
    screen(&browser, "plan");
    browser.go(&format!("{}/strips/strip/bring", served.url));
    screen(&browser, "bring");
    let accounts = folder.path().join("accounts.json");
    let mut add = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("account")
        .arg(&accounts)
        .args(["add", "Ada", "--role", "dispatcher"])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .spawn()
        .expect("it starts");
    writeln!(add.stdin.take().expect("a pipe"), "gravel, grass and dirt").expect("it reads");
    assert!(add.wait().expect("it ends").success());
    let file = |name: &str| format!("{}/tests/certificate/{name}", env!("CARGO_MANIFEST_DIR"));
    let (certificate, key) = (file("for_tests_only.pem"), file("for_tests_only.key"));
    let (place, accounts) = (flights.to_string_lossy(), accounts.to_string_lossy());
    let guarded = Served::with(&[
        &place,
        "--accounts",
        &accounts,
        "--certificate",
        &certificate,
        "--key",
        &key,
    ]);
    browser.resize(900, 560);
    browser.go(&guarded.url);
    browser.wait("the form", "return !!document.querySelector('#password')");
    screen(&browser, "sign-in");
}

#[test]
fn the_field_log_of_the_guide_is_that_of_the_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let made = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("book")
        .arg(folder.path().join("north.book"))
        .args(["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z", "rut=0 mm"])
        .args(["water=0 mm", "--by", "Ada"])
        .output();
    assert!(made.expect("it runs").status.success());
    let served = Served::with(&[&folder.path().to_string_lossy()]);
    let field = format!("{}/books/north/field", served.url);
    let browser = Browser::open(390, 844);
    browser.colours("light");
    browser.resize(390, 844);
    browser.go(&field);
    browser.wait_for_the_kept_log();
    drop(served);
    browser.go(&field);
    browser.wait(
        "that it is said",
        "return document.querySelector('#link-state')?.textContent.includes('No connection')",
    );
    browser.keys("#by", "Ada");
    let set = |field: &str, value: &str| {
        browser.run(&format!("document.querySelector('{field}').value = '{value}'; return true"));
    };
    browser.click("#log-movement summary");
    browser.keys("#movement-kind", "landing");
    browser.keys("#movement-tail", "101");
    set("#movement-at", "2026-06-18T15:00:00Z");
    browser.keys("#movement-mass", "39.6 t");
    browser.click("#log-movement button");
    browser.click("#log-inspection summary");
    set("#inspection-at", "2026-06-18T17:00:00Z");
    browser.keys("#inspection-rut", "12 mm");
    browser.keys("#inspection-rut_station", "640 m");
    browser.keys("#inspection-rut_lane", "left main");
    browser.keys("#inspection-water", "0 mm");
    browser.click("#log-inspection button");
    browser.wait("two records", "return document.querySelectorAll('.waiting li').length === 2");
    browser.run("scrollTo(0, 0); return true");
    screen(&browser, "field");
}
