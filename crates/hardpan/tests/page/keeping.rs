//! An assessment that is kept from the page is the one that the command keeps, to the
//! last bit, and nothing is kept that nobody saw.

use crate::driver::{Served, request};
use crate::{get, json, port, status};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn hardpan(arguments: &[&str]) -> Output {
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan")).args(arguments).output();
    out.expect("the program starts")
}

fn done(arguments: &[&str]) {
    let out = hardpan(arguments);
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(matches!(out.status.code(), Some(0 | 1 | 3 | 4)), "{arguments:?}: {said}");
}

/// The demo with a book that tells of its strip.
fn with_demo() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let place = folder.path().join("demo");
    done(&["new", "demo", &place.to_string_lossy()]);
    let book = place.join("n.book");
    let seen = ["strip=Long Gravel", "at=2026-06-18T09:00:00Z", "rut=0 mm", "water=0 mm"];
    let book = book.to_string_lossy().into_owned();
    done(&[&["book", &book, "add", "inspection"], &seen[..], &["--by", "Ada"]].concat());
    (folder, place)
}

fn entries(place: &Path) -> Vec<Value> {
    let book = place.join("n.book").to_string_lossy().into_owned();
    let out = hardpan(&["book", &book, "export"]);
    let whole: Value = serde_json::from_slice(&out.stdout).expect("JSON");
    whole["assessment"].as_array().cloned().unwrap_or_default()
}

/// What a kept assessment holds but the moment, which no two have in common.
fn timeless(entry: &Value) -> Value {
    let mut entry = entry.clone();
    let text = entry["json"].as_str().expect("the assessment");
    let whole: Value = serde_json::from_str(text).expect("JSON");
    let at = whole["produced"]["at"].as_str().expect("a moment").to_owned();
    entry["json"] = text.replace(&at, "then").into();
    for name in ["id", "recorded_at", "at", "recorded_by"] {
        entry.as_object_mut().expect("an entry").remove(name);
    }
    entry
}

fn token(served: &Served) -> String {
    let session = json(&get(served, "/api/session"));
    session["token"].as_str().expect("a token").to_owned()
}

fn form(served: &Served, query: &str) -> (String, String) {
    let (_, page) = get(served, &format!("/flights/flight/keep{query}"));
    let value = |name: &str| {
        let rest = page.split(&format!("name=\"{name}\" value=\"")).nth(1);
        rest.and_then(|rest| rest.split('"').next()).unwrap_or_else(|| panic!("{name}: {page}"))
    };
    (value("token").to_owned(), value("identifier").to_owned())
}

#[test]
fn what_the_page_keeps_is_what_the_command_keeps_and_comes_out_again() {
    let (_folder, place) = with_demo();
    let here = |name: &str| place.join(name).to_string_lossy().into_owned();
    let (flight, book) = (here("flight.toml"), here("n.book"));
    let served = Served::with(&[&place.to_string_lossy()]);
    for (number, change) in ["", "take_off.mass=38 t"].into_iter().enumerate() {
        let query = match change {
            "" => String::new(),
            change => format!("?{}", change.replace(' ', "+")),
        };
        let mut arguments =
            vec!["assess", &flight, "--book", &book, "--keep", &book, "--by", "Ada"];
        if !change.is_empty() {
            arguments.extend(["--change", change]);
        }
        done(&arguments);
        let (token, identifier) = form(&served, &query);
        let body = format!("token={token}&identifier={identifier}&book=n&by=Ben");
        let own = [("Origin", served.url.as_str())];
        let path = format!("/flights/flight/keep{query}");
        let answer = request(port(&served), "POST", &path, &own, &body);
        assert_eq!(status(&answer), "303", "{}", answer.1);
        let kept = entries(&place);
        let [by_command, by_page] = &kept[2 * number..] else { panic!("{}", kept.len()) };
        assert_eq!(by_page["recorded_by"], "Ben");
        assert_eq!(timeless(by_command), timeless(by_page), "{change}");
        let inputs: Value =
            serde_json::from_str(by_page["inputs"].as_str().expect("inputs")).expect("JSON");
        assert_eq!(inputs["changes"].as_array().map(Vec::len), Some(usize::from(number == 1)));
        assert_eq!(inputs["state"].as_array().map(Vec::len), Some(1), "what the book said");
        let id = by_page["id"].to_string();
        let out = hardpan(&["book", &book, "again", &id]);
        let said = String::from_utf8_lossy(&out.stdout);
        assert_eq!(out.status.code(), Some(0), "{said}");
        assert!(said.contains("the same to the last bit"), "{said}");
        let entry = get(&served, &format!("/books/n/entries/{id}"));
        assert!(answer.0.contains(&format!("/books/n/entries/{id}")), "{}", answer.0);
        assert!(entry.1.contains("made again"), "{}", entry.1);
    }
}

#[test]
fn a_program_keeps_what_it_read_and_nothing_else_is_kept() {
    let (_folder, place) = with_demo();
    let served = Served::with(&[&place.to_string_lossy()]);
    let token = token(&served);
    let send = |query: &str, body: &Value| {
        let own = [("Origin", served.url.as_str()), ("X-Hardpan-Token", &*token)];
        let path = format!("/api/flights/flight/keep{query}");
        request(port(&served), "POST", &path, &own, &body.to_string())
    };
    let read = |query: &str| {
        let told = json(&get(&served, &format!("/api/flights/flight{query}")));
        told["produced"]["identifier"].as_str().expect("an identifier").to_owned()
    };
    let heavy = "?take_off.mass=41+t";
    let (plain, changed) = (read(""), read(heavy));
    let good = json!({ "book": "n", "identifier": plain, "by": "Ben" });
    let with = |name: &str, value: Value| {
        let mut body = good.clone();
        body[name] = value;
        body
    };
    for (query, body, code, words) in [
        (heavy, good.clone(), "409", "no longer"),
        ("", with("identifier", changed.into()), "409", "no longer"),
        ("", with("identifier", "".into()), "409", "no longer"),
        ("", with("book", "south".into()), "404", "no book"),
        ("", with("by", " ".into()), "422", "who keeps it"),
        ("", with("mark", "1".into()), "400", "mark"),
        ("?take_off.mass=41", good.clone(), "422", "unit"),
    ] {
        let answer = send(query, &body);
        assert_eq!(status(&answer), code, "{query} {body}: {}", answer.1);
        assert!(answer.1.to_lowercase().contains(words), "{query} {body}: {}", answer.1);
    }
    let no_token = [("Origin", served.url.as_str())];
    let path = "/api/flights/flight/keep";
    let answer = request(port(&served), "POST", path, &no_token, &good.to_string());
    assert_eq!(status(&answer), "403");
    // Somebody changes a file after it was read.
    let day = place.join("day.toml");
    let text = std::fs::read_to_string(&day).expect("a day");
    std::fs::write(&day, format!("{text}\n# looked at again\n")).expect("it is written");
    assert_eq!(status(&send("", &good)), "409");
    std::fs::write(&day, text).expect("it is written");
    assert!(entries(&place).is_empty(), "something was kept");
    let answer = send("", &good);
    assert_eq!(status(&answer), "201", "{}", answer.1);
    let told = json(&answer);
    let kept = get(&served, told["address"].as_str().expect("an address"));
    assert_eq!(json(&kept)["produced"]["identifier"], plain.as_str());
    assert_eq!(entries(&place).len(), 1);
}
