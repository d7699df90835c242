//! A wrong entry is corrected or withdrawn, from its page and by programs: another takes
//! its place, and it stays readable.

use crate::driver::{Served, request};
use crate::{entries, get, json, port, status, token, with_book};
use serde_json::{Value, json};

fn session(served: &Served) -> String {
    let session = json_of(&get(served, "/api/session"));
    session["token"].as_str().expect("a token").to_owned()
}

fn json_of(answer: &(String, String)) -> Value {
    json(answer)
}

/// What a program sends about an entry.
fn send(served: &Served, what: &str, body: &Value) -> (String, String) {
    let token = session(served);
    let own = [("Origin", served.url.as_str()), ("X-Hardpan-Token", &*token)];
    let path = format!("/api/books/north/entries/{what}");
    request(port(served), "POST", &path, &own, &body.to_string())
}

/// What a form of the page sends.
fn submit(served: &Served, what: &str, form: &str) -> (String, String) {
    let body = format!("{form}&token={}", token(served));
    let own = [("Origin", served.url.as_str())];
    request(port(served), "POST", &format!("/books/north/entries/{what}"), &own, &body)
}

fn entry(served: &Served, id: i64) -> Value {
    json(&get(served, &format!("/api/books/north/entries/{id}")))
}

#[test]
fn a_program_corrects_an_entry_and_withdraws_it() {
    let (_folder, served) = with_book();
    let deeper = json!({ "fields": { "rut": "12 mm", "rut_station": "640 m",
        "rut_lane": "nose" }, "why": "read from the wrong line", "by": "Ben" });
    let answer = send(&served, "1/correct", &deeper);
    assert_eq!(status(&answer), "201", "{}", answer.1);
    assert_eq!(json(&answer), json!({ "entry": 2, "supersedes": 1 }));
    let (old, new) = (entry(&served, 1), entry(&served, 2));
    assert_eq!(old["fields"]["rut"], "0 m");
    assert_eq!(
        (&new["fields"]["rut"], &new["fields"]["water"]),
        (&json!("0.012 m"), &json!("0 m"))
    );
    assert_eq!(new["fields"]["at"], old["fields"]["at"]);
    assert_eq!(
        (&new["supersedes"], &new["why"], &new["recorded_by"]),
        (&json!(1), &json!("read from the wrong line"), &json!("Ben"))
    );
    // Somebody else had the old one before them.
    for what in ["1/correct", "1/withdraw"] {
        let mut late = deeper.clone();
        if what.ends_with("withdraw") {
            late = json!({ "why": "twice", "by": "Cy" });
        }
        let answer = send(&served, what, &late);
        assert_eq!(status(&answer), "409", "{}", answer.1);
        let said = json(&answer)["error"].as_str().unwrap_or_default().to_owned();
        assert!(said.contains("entry 1 is superseded by entry 2 already"), "{said}");
    }
    let gone = json!({ "fields": { "rut": "0 mm", "rut_station": "", "rut_lane": "" },
        "why": "it was another strip", "by": "Ben" });
    let answer = send(&served, "2/correct", &gone);
    assert_eq!(status(&answer), "201", "{}", answer.1);
    assert_eq!(entry(&served, 3)["fields"].get("rut_station"), None);
    let answer =
        send(&served, "3/withdraw", &json!({ "why": "it was another strip", "by": "Ben" }));
    assert_eq!(json(&answer), json!({ "entry": 4, "supersedes": 3 }), "{}", answer.1);
    assert_eq!(entry(&served, 4)["kind"], "withdrawal");
    let answer = send(&served, "4/withdraw", &json!({ "why": "no", "by": "Ben" }));
    assert_eq!(status(&answer), "409", "{}", answer.1);
}

#[test]
fn what_cannot_take_the_place_of_an_entry_is_told_and_nothing_is_recorded() {
    let (_folder, served) = with_book();
    for (what, body, code, words) in [
        ("1/correct", json!({ "fields": { "rut": "12" }, "why": "x", "by": "B" }), "422", "unit"),
        (
            "1/correct",
            json!({ "fields": { "rut": "0 mm" }, "why": "x", "by": "B" }),
            "422",
            "differs",
        ),
        (
            "1/correct",
            json!({ "fields": { "colour": "red" }, "why": "x", "by": "B" }),
            "422",
            "colour",
        ),
        (
            "1/correct",
            json!({ "fields": { "at": "" }, "why": "x", "by": "B" }),
            "422",
            "not stated",
        ),
        ("1/correct", json!({ "fields": { "rut": "9 mm" }, "why": " ", "by": "B" }), "422", "why"),
        ("1/correct", json!({ "fields": { "rut": "9 mm" }, "why": "x" }), "422", "who"),
        ("1/correct", json!({ "fields": {}, "why": "x", "by": "B", "mark": 1 }), "400", "mark"),
        ("1/correct", json!({ "why": "x", "by": "B" }), "400", "fields"),
        ("1/withdraw", json!({ "by": "B" }), "400", "why"),
        ("1/withdraw", json!({ "why": "", "by": "B" }), "422", "why"),
        ("7/withdraw", json!({ "why": "x", "by": "B" }), "404", "no entry 7"),
        ("x/withdraw", json!({ "why": "x", "by": "B" }), "404", "whole numbers"),
    ] {
        let answer = send(&served, what, &body);
        assert_eq!(status(&answer), code, "{what} {body}: {}", answer.1);
        let said = json(&answer)["error"].as_str().unwrap_or_default().to_lowercase();
        assert!(said.contains(words) && said.ends_with('.'), "{what} {body}: {said}");
    }
    let no_token = [("Origin", served.url.as_str())];
    let path = "/api/books/north/entries/1/withdraw";
    let answer = request(port(&served), "POST", path, &no_token, "{\"why\":\"x\",\"by\":\"B\"}");
    assert_eq!(status(&answer), "403");
    assert_eq!(entries(&served), 1, "something was recorded");
}

#[test]
fn the_page_of_an_entry_corrects_it_and_links_both() {
    let (_folder, served) = with_book();
    let (_, book) = get(&served, "/books/north");
    assert!(book.contains("href=\"/books/north/entries/1\""), "{book}");
    let (_, page) = get(&served, "/books/north/entries/1");
    for filled in ["value=\"2026-06-18T09:00:00Z\"", "value=\"North\"", "value=\"0 m\""] {
        assert!(page.contains(filled), "the form does not hold {filled}: {page}");
    }
    let form = "strip=North&at=2026-06-18T09%3A00%3A00Z&water=0+m&by=Ben&why=it+was+seen+later";
    for (wrong, words) in [
        ("rut=12", "unit"),
        ("rut=0+m", "No value differs"),
        ("rut=1+mm&why=", "Say why"),
        ("rut=1+mm&by=", "Say who"),
    ] {
        let names: Vec<&str> = wrong.split('&').filter_map(|one| one.split('=').next()).collect();
        let rest = form
            .split('&')
            .filter(|one| !names.iter().any(|name| one.starts_with(&format!("{name}="))));
        let body = format!("{}&{wrong}", rest.collect::<Vec<_>>().join("&"));
        let answer = submit(&served, "1/correct", &body);
        assert_eq!(status(&answer), "422", "{wrong}: {}", answer.1);
        assert!(
            answer.1.contains("Not recorded.") && answer.1.contains(words),
            "{wrong}: {}",
            answer.1
        );
        assert!(
            answer.1.contains("<details class=\"log\" id=\"correct\" open>"),
            "{wrong}: {}",
            answer.1
        );
    }
    assert_eq!(entries(&served), 1, "something was recorded");
    let answer = submit(
        &served,
        "1/correct",
        &format!("{form}&rut=12+mm&rut_station=640+m&rut_lane=nose&remarks=soft"),
    );
    assert_eq!(status(&answer), "303", "{}", answer.1);
    assert!(answer.0.contains("/books/north/entries/2"), "{}", answer.0);
    let (_, new) = get(&served, "/books/north/entries/2");
    for words in ["href=\"/books/north/entries/1\"", "it was seen later", "12\u{a0}mm", "soft"] {
        assert!(new.replace("12 mm", "12\u{a0}mm").contains(words), "{words}: {new}");
    }
    let (_, old) = get(&served, "/books/north/entries/1");
    for words in ["No longer stands", "Ben corrected it", "href=\"/books/north/entries/2\""] {
        assert!(old.contains(words), "{words}: {old}");
    }
    assert!(!old.contains("<form"), "an entry that no longer stands has no form");
    let late = submit(&served, "1/correct", &format!("{form}&rut=20+mm"));
    assert_eq!(status(&late), "409", "{}", late.1);
    assert!(late.1.contains("superseded by entry 2 already"), "{}", late.1);
    let answer = submit(&served, "2/withdraw", "by=Ben&why=another+strip");
    assert_eq!(status(&answer), "303", "{}", answer.1);
    let (_, gone) = get(&served, "/books/north/entries/2");
    assert!(gone.contains("Ben withdrew it") && gone.contains("another strip"), "{gone}");
    let (_, last) = get(&served, "/books/north/entries/3");
    assert!(last.contains("withdrawal") && !last.contains("<form"), "{last}");
    for (path, code) in [
        ("/books/north/entries/9", "404"),
        ("/books/north/entries/x", "404"),
        ("/books/south/entries/1", "404"),
    ] {
        assert_eq!(status(&get(&served, path)), code, "{path}");
    }
}
