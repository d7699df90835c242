//! Every figure that a book tells opens, as JSON and at the terminal.

use super::{book, laid_out};
use serde_json::Value;
use std::path::Path;

/// Values that are no figures: where a stretch lies, and what was asked for.
const PLACES: [&str; 3] = ["from_m", "to_m", "confidence"];
/// Days, which are told as text.
const DAYS: [&str; 3] = ["day", "earliest", "latest"];

/// A book with movements, growing ruts, damage, a repair, equipment and a survey.
fn kept(file: &Path) {
    let add = |values: &[&str]| {
        let (code, _, err) = book(file, &[&["add"], values, &["--by", "Ada"]].concat());
        assert_eq!(code, Some(0), "{err}");
    };
    let strip = "strip=Long Gravel";
    let mended = ["repair", strip, "date=2026-05-01", "from=0 m", "to=2000 m", "what=graded"];
    add(&mended);
    for (day, rut) in [("16", "rut=9 mm"), ("17", "rut=12 mm"), ("18", "rut=15.5 mm")] {
        for (tail, rolled) in [("tail=101", "rolled_to=900 m"), ("tail=102", "rolled_to=1900 m")] {
            let at = format!("at=2026-06-{day}T08:00:00Z");
            let moved = ["movement", strip, tail, "kind=landing", &at, "mass=39.6 t"];
            add(&[&moved[..], &["pressure=100 psi", "rolled_from=0 m", rolled]].concat());
        }
        let at = format!("at=2026-06-{day}T09:00:00Z");
        let seen = ["inspection", strip, &at, rut, "rut_station=640 m", "rut_lane=left main"];
        add(&[&seen[..], &["water=0 mm"]].concat());
    }
    let done = ["damage", strip, "tail=101", "date=2026-06-18", "zone=flap", "phase=landing"];
    add(&done);
    add(&[&done[..], &["station=640 m"]].concat());
    let fitted = ["equipment", "tail=101", "item=gravel deflector", "state=serviceable"];
    add(&[&fitted[..], &["at=2026-06-18T12:00:00Z", "due=2099-09-01"]].concat());
    let survey = ["survey", strip, "what=levels", "date=2026-05-04", "file=survey.csv"];
    add(&[&survey[..], &["due=2099-05-04"]].concat());
}

fn json(file: &Path, asked: &[&str]) -> Value {
    let (code, out, err) = book(file, &[asked, &["--json"]].concat());
    assert_eq!(code, Some(0), "{asked:?} {err}");
    serde_json::from_str(&out).unwrap_or_else(|why| panic!("{why}: {out}"))
}

/// Walks all objects; each number in one must open to itself.
fn every_number_opens(value: &Value, path: &str, opened: &mut usize) {
    match value {
        Value::Array(list) => {
            for (at, one) in list.iter().enumerate() {
                every_number_opens(one, &format!("{path}[{at}]"), opened);
            }
        }
        Value::Object(values) => {
            for (key, one) in values.iter().filter(|(key, _)| *key != "basis") {
                let path = format!("{path}.{key}");
                let is_day = one.is_string() && DAYS.contains(&key.as_str());
                if (one.is_number() && !PLACES.contains(&key.as_str())) || is_day {
                    let basis = &value["basis"][key];
                    let steps = basis["basis"].as_array();
                    let last = steps.and_then(|steps| steps.last());
                    let last = last.unwrap_or_else(|| panic!("{path} does not open"));
                    assert_eq!(last["result"], basis["value"], "{path}");
                    assert!(!last["inputs"].as_array().is_none_or(Vec::is_empty), "{path}");
                    if let (Some(told), Some(of)) = (one.as_f64(), basis["value"]["value"].as_f64())
                    {
                        assert!(
                            (told - of).abs() <= 1e-9 * told.abs().max(1.0),
                            "{path} {told} {of}"
                        );
                    }
                    *opened += 1;
                }
                every_number_opens(one, &path, opened);
            }
        }
        _ => {}
    }
}

#[test]
fn every_figure_of_every_answer_opens() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let flight = flight.to_string_lossy();
    let file = folder.path().join("long.book");
    kept(&file);
    let of_gear = ["--flight", &flight, "--tail", "101"];
    for (asked, least) in [
        (&["grading", "Long Gravel"][..], 20),
        (&["damage", "Long Gravel"], 50),
        (&[&["passes", "Long Gravel"][..], &of_gear].concat(), 100),
        (&["due"], 2),
        (&[&["status", "Long Gravel", "--inspected-within", "7 d"][..], &of_gear].concat(), 150),
    ] {
        let mut opened = 0;
        every_number_opens(&json(&file, asked), "", &mut opened);
        assert!(opened >= least, "{asked:?}: only {opened}");
    }
}

/// A figure that opens to entries, a formula with its numbers, and a source.
#[test]
fn the_command_opens_a_figure_by_its_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let flight = flight.to_string_lossy();
    let file = folder.path().join("long.book");
    kept(&file);
    let opened = |words: &[&str]| {
        let asked = [&["explain", "Long Gravel"], words].concat();
        let (code, out, err) = book(&file, &asked);
        assert_eq!(code, Some(0), "{words:?}: {err}");
        assert!(out.contains("Planning aid only"), "{out}");
        out
    };
    let damage = opened(&["damage for each 1,000 movements"]);
    for said in ["1000 × (2) / (6)", "= 333", "GARWOOD-1936", "entries 11 to 12", "α = 10"] {
        assert!(damage.contains(said), "{said}: {damage}");
    }
    let left = opened(&["passes left of rut, deepest anywhere"]);
    for said in ["NIST-STRD", "FIELLER-1954", "entry 4", "CFR-14-139-307", "X + 1000 × (D − Y) / B"]
    {
        assert!(left.contains(said), "{said}: {left}");
    }
    let covered = opened(&["coverages of left main", "--flight", &flight, "--tail", "101"]);
    for said in ["HOSANG-1975", "passes of 101", "aeroplane.toml:"] {
        assert!(covered.contains(said), "{said}: {covered}");
    }
    let due = opened(&["gravel deflector"]);
    assert!(due.contains("due 2099-09-01") && due.contains("entry 13"), "{due}");
    let (code, _, err) = book(&file, &["explain", "Long Gravel", "no such words"]);
    assert_eq!(code, Some(2));
    assert!(err.contains("passes since the strip was mended"), "{err}");
}
