//! The field log: what is written while nothing answers is kept, sent once when
//! something does, and what may be told already is asked about.

use crate::contrast;
use crate::driver::{Browser, Served};
use serde_json::{Value, json};
use std::path::Path;
use std::process::{Command, Stdio};

pub(crate) fn book(file: &Path, arguments: &[&str]) -> String {
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("book")
        .arg(file)
        .args(arguments)
        .stderr(Stdio::inherit())
        .output()
        .expect("the program starts");
    assert!(out.status.success(), "{arguments:?}");
    String::from_utf8_lossy(&out.stdout).into_owned()
}

pub(crate) fn movements(file: &Path) -> Vec<Value> {
    let all: Value = serde_json::from_str(&book(file, &["export"])).expect("JSON");
    all["movement"].as_array().cloned().unwrap_or_default()
}

pub(crate) fn log_movement(browser: &Browser, tail: &str, at: &str) {
    browser.click("#log-movement summary");
    browser.keys("#movement-kind", "landing");
    browser.keys("#movement-tail", tail);
    browser.run(&format!("document.querySelector('#movement-at').value = '{at}'; return true"));
    browser.keys("#movement-mass", "39.6 t");
    browser.click("#log-movement button");
}

pub(crate) fn waits(browser: &Browser, count: usize) {
    let script = format!("return document.querySelectorAll('.waiting li').length === {count}");
    browser.wait(&format!("{count} records on the device"), &script);
}

#[test]
fn what_is_logged_without_a_connection_is_sent_once_it_is_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let seen = ["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z", "rut=0 mm"];
    book(&file, &[&seen[..], &["water=0 mm", "--by", "Ada"]].concat());
    let place = folder.path().to_string_lossy().into_owned();
    let served = Served::with(&[&place]);
    let url = served.url.clone();
    let address = url.trim_start_matches("http://").to_owned();
    let browser = Browser::open(390, 844);
    browser.go(&url);
    browser.click("a[href='/books/north/field']");
    browser.wait_for_the_kept_log();
    browser.keys("#by", "Ada");

    // Nothing answers any more, and the page is opened anew.
    drop(served);
    browser.go(&format!("{url}/books/north/field"));
    browser.wait(
        "that it is said",
        "return document.querySelector('#link-state')?.textContent
        .includes('No connection')",
    );
    browser.picture("field-away");
    browser.keys("#by", "Ada");
    browser.click("#log-movement summary");
    browser.keys("#movement-mass", "39.6");
    browser.click("#log-movement button");
    assert_eq!(browser.run("return document.querySelectorAll('.waiting li').length"), json!(0));
    browser.run("document.querySelector('#log-movement form').reset(); return true");
    browser.click("#log-movement summary");
    log_movement(&browser, "101", "2026-06-18T15:00:00Z");
    waits(&browser, 1);
    log_movement(&browser, "102", "2026-06-18T16:00:00Z");
    waits(&browser, 2);
    browser.click("#log-inspection summary");
    browser.keys("#inspection-rut", "12 mm");
    browser.keys("#inspection-water", "0 mm");
    browser.click("#log-inspection button");
    let held =
        browser.run("return document.querySelector('#inspection-rut_station').validationMessage");
    assert_eq!(held, json!("Say where it was found."));
    browser.keys("#inspection-rut_station", "640 m");
    browser.keys("#inspection-rut_lane", "left main");
    browser.click("#log-inspection button");
    waits(&browser, 3);
    browser.run("scrollTo(0, 0); return true");
    browser.picture("field-waiting");
    let wide = browser.run("return document.documentElement.scrollWidth - window.innerWidth");
    assert!(wide.as_i64().is_some_and(|over| over <= 0), "wider than the phone by {wide}");
    // Any other page says that there is no answer rather than an old one.
    browser.go(&format!("{url}/books/north"));
    assert!(browser.text("h1").contains("No connection"));
    contrast::shown(&browser, "the page without a connection");
    browser.click("a[href='/books/north/field']");
    waits(&browser, 3);

    // Meanwhile somebody else records one of them at the base.
    let tail = ["add", "movement", "strip=North", "tail=102", "kind=landing", "mass=39.6 t"];
    book(&file, &[&tail[..], &["at=2026-06-18T16:02:00Z", "--by", "Bob"]].concat());
    let _served = Served::at(&address, &[&place]);
    browser.click("#send");
    waits(&browser, 1);
    browser.wait(
        "a question",
        "return document.querySelector('.waiting li')?.dataset.state === 'asks'",
    );
    let asked = browser.text(".waiting li");
    assert!(
        asked.contains("entry 2 by Bob") && asked.contains("Record it all the same"),
        "{asked}"
    );
    browser.picture("field-asks");
    for scheme in ["dark", "light"] {
        browser.colours(scheme);
        contrast::shown(&browser, &format!("the field log that asks, {scheme}"));
    }
    assert_eq!(movements(&file).len(), 2, "one of Bob, one of the field");
    browser.run(
        "[...document.querySelectorAll('.waiting button')].find((one) =>
        one.textContent === 'Throw it away').click(); return true",
    );
    waits(&browser, 0);
    browser.go(&format!("{url}/books/north/field"));
    browser.wait(
        "that all is there",
        "return document.querySelector('#link-state').textContent
        .includes('everything is in the book')",
    );
    let sent = browser.run("return document.querySelectorAll('#sent li').length");
    assert_eq!(sent, json!(2));
    let kept = movements(&file);
    assert_eq!(kept.len(), 2, "{kept:#?}");
    assert!(kept.iter().any(|one| one["tail"] == "101" && one["recorded_by"] == "Ada"));
    assert!(book(&file, &["verify"]).contains("4 entries"));
}

/// The answer to a record is lost on its way: the browser sends it again, and the
/// book knows it.
#[test]
fn a_lost_answer_records_nothing_twice() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let seen = ["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z", "rut=0 mm"];
    book(&file, &[&seen[..], &["water=0 mm", "--by", "Ada"]].concat());
    let served = Served::with(&[&folder.path().to_string_lossy()]);
    let browser = Browser::open(390, 844);
    browser.go(&format!("{}/books/north/field", served.url));
    browser.keys("#by", "Ada");
    browser.run(
        "window.lost = 0; const real = window.fetch;
        window.fetch = async (address, asked) => {
          const answer = await real(address, asked);
          if (asked?.method === 'POST' && window.lost++ === 0) throw new TypeError('lost');
          return answer;
        }; return true",
    );
    log_movement(&browser, "101", "2026-06-18T15:00:00Z");
    browser.wait("the first sending", "return window.lost === 1");
    waits(&browser, 1);
    assert_eq!(movements(&file).len(), 1, "it is in the book, and the device does not know");
    browser.click("#send");
    waits(&browser, 0);
    assert_eq!(browser.run("return window.lost"), json!(2));
    assert_eq!(movements(&file).len(), 1);
}

/// A picture is chosen while nothing answers, stays on the device through a new start
/// of the page, and arrives with its record byte for byte.
#[test]
fn a_picture_taken_without_a_connection_arrives_with_its_record() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let seen = ["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z", "rut=0 mm"];
    book(&file, &[&seen[..], &["water=0 mm", "--by", "Ada"]].concat());
    let place = folder.path().to_string_lossy().into_owned();
    let served = Served::with(&[&place]);
    let url = served.url.clone();
    let address = url.trim_start_matches("http://").to_owned();
    let browser = Browser::open(390, 844);
    browser.go(&format!("{url}/books/north/field"));
    browser.wait_for_the_kept_log();
    drop(served);
    browser.go(&format!("{url}/books/north/field"));
    browser.wait(
        "that it is said",
        "return document.querySelector('#link-state')?.textContent
        .includes('No connection')",
    );
    let screens = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/src/screens");
    let picture = screens.join("due.png").canonicalize().expect("a picture");
    let none = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
    browser.keys("#by", "Ada");
    browser.click("#log-damage summary");
    browser.keys("#damage-pictures", &none.canonicalize().expect("a file").to_string_lossy());
    let wrong = browser.text("#log-damage .wrong");
    assert!(wrong.contains("Cargo.toml is no JPEG, PNG or WebP"), "{wrong}");
    browser.keys("#damage-pictures", &picture.to_string_lossy());
    assert_eq!(browser.text("#log-damage .shown label"), "what due.png shows");
    browser.keys("#damage-tail", "101");
    browser.run("document.querySelector('#damage-date').value = '2026-06-18'; return true");
    browser.keys("#damage-zone", "left inboard flap");
    browser.keys("#damage-phase", "landing");
    browser.click("#log-damage > form > button");
    let held = browser.run("return document.querySelectorAll('.waiting li').length");
    assert_eq!(held, json!(0), "the picture has no words yet");
    browser.keys("#damage-shown-0", "dent at the trailing edge");
    browser.picture("field-picture");
    browser.click("#log-damage > form > button");
    waits(&browser, 1);
    let told = browser.text(".waiting li");
    assert!(told.contains("1 picture: dent at the trailing edge"), "{told}");
    browser.go(&format!("{url}/books/north/field"));
    waits(&browser, 1);
    let _served = Served::at(&address, &[&place]);
    browser.click("#send");
    waits(&browser, 0);
    let to = folder.path().join("pictures");
    let told = book(&file, &["photos", "--to", &to.to_string_lossy(), "--of", "2"]);
    assert!(told.contains("entry 3 of entry 2: dent at the trailing edge"), "{told}");
    let written = std::fs::read_dir(&to).expect("a folder").flatten().next().expect("a file");
    let (sent, kept) = (std::fs::read(&picture), std::fs::read(written.path()));
    assert_eq!(sent.expect("it stands"), kept.expect("it stands"));
    assert!(book(&file, &["verify"]).contains("3 entries"));
    browser.go(&format!("{url}/books/north"));
    browser.click(".pictures summary");
    let shown = "return document.querySelector('.pictures img')?.naturalWidth > 0";
    browser.wait("the picture itself", shown);
    let words = browser.run("return document.querySelector('.pictures img').alt");
    let words = words.as_str().expect("words");
    assert!(words.contains("dent") && words.contains("aeroplane: left inboard flap"), "{words}");
    browser.picture("book-picture");
    contrast::shown(&browser, "the book with a picture");
    let wide = browser.run("return document.documentElement.scrollWidth - window.innerWidth");
    assert!(wide.as_i64().is_some_and(|over| over <= 0), "wider than the phone by {wide}");
    let complaints = browser.complaints();
    assert!(complaints.iter().all(|one| one.contains("ERR_CONNECTION")), "{complaints:?}");
}
