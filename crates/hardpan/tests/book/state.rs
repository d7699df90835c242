//! What a book says of the strip of a flight, and its answers as JSON.

use super::{book, laid_out};
use serde_json::Value;
use snapbox::cmd::{Command, cargo_bin};
use std::path::Path;

fn closure(action: &str, from: &str) -> [String; 8] {
    let value = |name: &str, text: &str| format!("{name}={text}");
    [
        "add".to_owned(),
        "closure".to_owned(),
        "strip=Long Gravel".to_owned(),
        value("action", action),
        value("from", from),
        "reason=works on the culvert".to_owned(),
        "--by".to_owned(),
        "Ada".to_owned(),
    ]
}

fn add(file: &Path, arguments: &[String]) {
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let (code, _, err) = book(file, &arguments);
    assert_eq!(code, Some(0), "{err}");
}

fn inspection(file: &Path, at: &str, rut: &str) {
    let rut = format!("rut={rut}");
    let seen = ["add", "inspection", "strip=Long Gravel", at, &rut, "rut_station=640 m"];
    let (code, _, err) =
        book(file, &[&seen[..], &["rut_lane=left main", "water=0 mm", "--by", "Ada"]].concat());
    assert_eq!(code, Some(0), "{err}");
}

/// Exit code, and the finding of S70 of a flight with a book.
fn assessed(flight: &Path, file: &Path) -> (Option<i32>, Value) {
    let output = Command::new(cargo_bin!("hardpan"))
        .arg("assess")
        .arg(flight)
        .args(["--json", "--book"])
        .arg(file)
        .output()
        .expect("it runs");
    let err = String::from_utf8_lossy(&output.stderr).into_owned();
    let document: Value = serde_json::from_slice(&output.stdout).unwrap_or(Value::Null);
    let findings = document["findings"].as_array().cloned().unwrap_or_default();
    let found = findings.into_iter().find(|one| one["code"] == "S70").unwrap_or(err.into());
    (output.status.code(), found)
}

fn says(finding: &Value, verdict: &str, words: &str) {
    assert_eq!(finding["verdict"], verdict, "{finding}");
    let because = finding["because"].as_str().unwrap_or_default();
    assert!(because.contains(words), "{because}");
}

#[test]
fn a_closed_strip_fails_the_flight_and_says_who_closed_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let file = folder.path().join("long.book");
    add(&file, &closure("closed", "2026-06-17T00:00:00Z"));
    let (code, found) = assessed(&flight, &file);
    assert_eq!(code, Some(1), "{found}");
    let told = "closed from 2026-06-17 00:00Z, no reopening is recorded: works on the culvert \
                (recorded by Ada)";
    says(&found, "fail", told);
    assert!(found.to_string().contains("entry 1"), "{found}");
    // Opened again, and seen since: what the flight is without a book.
    add(&file, &closure("reopened", "2026-06-18T06:00:00Z"));
    says(&assessed(&flight, &file).1, "conditional", "no inspection is recorded");
    inspection(&file, "at=2026-06-18T09:00:00Z", "9 mm");
    let (code, found) = assessed(&flight, &file);
    assert_eq!(code, Some(4), "{found}");
    says(&found, "pass", "inspected 2026-06-18 09:00Z");
    // The flight lands at 15:00Z and leaves 90 minutes later.
    add(&file, &closure("closed", "2026-06-18T17:00:00Z"));
    says(&assessed(&flight, &file).1, "conditional", "it will be closed from 2026-06-18 17:00Z");
    add(&file, &closure("closed", "2026-06-18T16:00:00Z"));
    says(&assessed(&flight, &file).1, "fail", "closed from 2026-06-18 16:00Z");
}

#[test]
fn a_restricted_strip_is_a_condition_and_an_unknown_one_unproven() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let file = folder.path().join("long.book");
    inspection(&file, "at=2026-06-18T09:00:00Z", "82 mm");
    let (code, found) = assessed(&flight, &file);
    assert_eq!(code, Some(4), "{found}");
    says(&found, "conditional", "rut of 82 mm at station 640 m");
    let other = folder.path().join("other.book");
    let north =
        closure("closed", "2026-06-17T00:00:00Z").map(|one| one.replace("Long Gravel", "North"));
    add(&other, &north);
    let (code, found) = assessed(&flight, &other);
    assert_eq!(code, Some(3), "{found}");
    says(&found, "unproven", "it tells of North");
    // Strikes of the book beside those of the flight file.
    let landing = ["add", "movement", "strip=Long Gravel", "tail=101", "kind=landing"];
    let rest = ["at=2026-06-18T08:00:00Z", "mass=39.6 t", "--by", "Ada"];
    assert_eq!(book(&file, &[&landing[..], &rest].concat()).0, Some(0));
    let (code, said) = assessed(&flight, &file);
    assert_eq!(code, Some(2));
    assert!(said.as_str().is_some_and(|said| said.contains("two records of one thing")), "{said}");
}

#[test]
fn what_the_book_said_is_kept_with_the_assessment() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let file = folder.path().join("long.book");
    inspection(&file, "at=2026-06-18T09:00:00Z", "82 mm");
    add(&file, &closure("closed", "2026-06-18T09:30:00Z"));
    let out = Command::new(cargo_bin!("hardpan"))
        .arg("assess")
        .arg(&flight)
        .args(["--by", "Ada", "--keep"])
        .arg(&file)
        .arg("--book")
        .arg(&file)
        .output()
        .expect("it runs");
    assert_eq!(out.status.code(), Some(1), "{}", String::from_utf8_lossy(&out.stderr));
    add(&file, &closure("reopened", "2026-06-18T10:00:00Z"));
    let (code, out, err) = book(&file, &["again", "3"]);
    assert_eq!(code, Some(0), "{out}{err}");
}

#[test]
fn a_strip_that_the_book_does_not_know_is_told_with_those_it_knows() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("long.book");
    add(&file, &closure("closed", "2999-06-17T00:00:00Z".replace("2999", "2099").as_str()));
    for asked in [
        &["status", "Nowhere", "--inspected-within", "7 d"][..],
        &["status", "Nowhere", "--inspected-within", "7 d", "--json"],
        &["grading", "Nowhere"],
        &["grading", "long gravel", "--json"],
        &["damage", "Nowhere"],
        &["passes", "Nowhere", "--json"],
        &["ruts", "Nowhere"],
    ] {
        let (code, out, err) = book(&file, asked);
        assert_eq!((code, out.as_str()), (Some(2), ""), "{asked:?}");
        assert!(err.contains("knows no strip") && err.contains("it knows Long Gravel"), "{err}");
    }
    let (_, out, _) = book(&file, &["status", "Long Gravel", "--inspected-within", "7 d"]);
    assert!(out.contains("ahead: closed from 2099-06-17"), "{out}");
    let missing = folder.path().join("none.book");
    let (_, _, err) = book(&missing, &["due"]);
    assert!(err.contains("the first record makes one") && err.contains(" add "), "{err}");
    let small =
        closure("closed", "2026-06-17T00:00:00Z").map(|one| one.replace("Long G", "long g"));
    let small: Vec<&str> = small.iter().map(String::as_str).collect();
    let (code, _, err) = book(&file, &small);
    assert!(code == Some(2) && err.contains("write `Long Gravel`"), "{err}");
}

#[test]
fn answers_as_json_bear_the_caution() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("long.book");
    for (day, rut) in [("16", "9 mm"), ("17", "12 mm"), ("18", "15 mm")] {
        let landing = ["add", "movement", "strip=Long Gravel", "tail=101", "kind=landing"];
        let at = format!("at=2026-06-{day}T08:00:00Z");
        let (code, _, err) =
            book(&file, &[&landing[..], &[&at, "mass=39.6 t", "--by", "Ada"]].concat());
        assert_eq!(code, Some(0), "{err}");
        inspection(&file, &format!("at=2026-06-{day}T09:00:00Z"), rut);
    }
    let json = |asked: &[&str]| {
        let (code, out, err) = book(&file, asked);
        assert_eq!(code, Some(0), "{asked:?} {err}");
        let value: Value = serde_json::from_str(&out).unwrap_or_else(|why| panic!("{why}: {out}"));
        let caution = value["caution"].as_str().unwrap_or_default();
        assert!(caution.contains("Planning aid only"), "{asked:?}");
        value
    };
    let grading = json(&["grading", "Long Gravel", "--json"]);
    assert_eq!(grading["places"][0]["inspections"], 3);
    let damage = json(&["damage", "Long Gravel", "--json"]);
    assert_eq!((&damage["reports"], &damage["movements"]), (&0.into(), &3.into()));
    let passes = json(&["passes", "Long Gravel", "--json"]);
    assert_eq!(
        (passes["stretches"].as_array().map(Vec::len), &passes["passes"]),
        (Some(7), &3.into())
    );
    assert!(json(&["due", "--json"])["due"].is_array());
    assert!(json(&["kept", "--json"])["versions"].is_array());
    assert!(json(&["export"])["movement"].is_array());
    let status = json(&["status", "Long Gravel", "--inspected-within", "7 d", "--json"]);
    assert_eq!(status["grading"]["places"], grading["places"]);
}
