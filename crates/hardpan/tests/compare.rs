//! Two aeroplanes and two strips side by side for one load.

mod support;

use serde_json::Value;
use snapbox::cmd::{Command, cargo_bin};
use support::{Change, change, changed_files};
use tempfile::TempDir;

/// Exit code of a conditional answer.
const CONDITIONAL: i32 = 4;

fn hardpan() -> Command {
    Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1")
}

/// A copy of the demo with changes, and its flight file.
fn copy(changes: &[Change]) -> (TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in changed_files(changes) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let flight = folder.path().join("flight.toml").to_string_lossy().into_owned();
    (folder, flight)
}

/// The second aeroplane: heavier by 1.2 t without load, otherwise the same.
const HEAVIER: (&str, &str) = ("value = \"27.8 t\"", "value = \"29 t\"");

fn compared(arguments: &[&str]) -> (Option<i32>, Value) {
    let output = hardpan().arg("compare").args(arguments).arg("--json").output().expect("it runs");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    (output.status.code(), serde_json::from_slice(&output.stdout).expect(&said))
}

fn kilograms(value: &Value) -> f64 {
    value["value"].as_f64().expect("a mass")
}

#[test]
fn two_aeroplanes_with_one_load_are_ranked_by_what_they_have_to_spare() {
    let (_light, light) = copy(&[]);
    let (_heavy, heavy) = copy(&[
        change("aeroplane.toml", HEAVIER.0, HEAVIER.1),
        change("aeroplane.toml", "name = \"Tail 101\"", "name = \"Tail 102\""),
    ]);
    let load = "landing.load=6 t";
    let back = "take_off.load=7 t";
    let (code, found) = compared(&[&heavy, &light, "--change", load, "--change", back]);
    let flights = found["flights"].as_array().expect("a list");
    let names: Vec<&str> = flights.iter().filter_map(|one| one["aeroplane"].as_str()).collect();
    assert_eq!(names, ["Tail 101", "Tail 102"], "{found:#}");
    let planned = |one: &Value| kilograms(&one["landing_mass"]["planned"]);
    assert!((planned(&flights[0]) - (27_800.0 + 4_600.0 + 6_000.0)).abs() < 1e-6);
    assert!((planned(&flights[1]) - planned(&flights[0]) - 1_200.0).abs() < 1e-6);
    let spare = |one: &Value| kilograms(&one["spare"]);
    assert!((spare(&flights[0]) - spare(&flights[1]) - 1_200.0).abs() < 1e-6, "{found:#}");
    assert!(flights[0]["reason"]["metric"].as_str().is_some_and(|why| why.contains("to spare")));
    assert_eq!(code, Some(CONDITIONAL), "{found:#}");
}

#[test]
fn two_strips_with_one_load_are_ranked_with_the_reason() {
    let (_firm, firm) = copy(&[]);
    let (_short, short) = copy(&[
        change("strip.toml", "name = \"Long Gravel\"", "name = \"Short Gravel\""),
        change(
            "strip.toml",
            "accelerate_stop = \"1980 m\"\nlanding_distance = \"1980 m\"\n\n[[turning]]",
            "accelerate_stop = \"1980 m\"\nlanding_distance = \"1600 m\"\n\n[[turning]]",
        ),
    ]);
    let (_, found) = compared(&[&short, &firm, "--change", "landing.load=6 t"]);
    let flights = found["flights"].as_array().expect("a list");
    let strips: Vec<&str> = flights.iter().filter_map(|one| one["strip"].as_str()).collect();
    assert_eq!(strips, ["Long Gravel", "Short Gravel"], "{found:#}");
    assert_eq!(flights[1]["verdict"], "fail", "{found:#}");
    let why = flights[1]["reason"]["metric"].as_str().expect("a reason");
    assert!(why.contains("F15") || why.contains("F50"), "{why}");
}

#[test]
fn the_text_tells_aeroplanes_apart_and_the_load_that_each_may_carry() {
    let (_light, light) = copy(&[]);
    let (_heavy, heavy) = copy(&[
        change("aeroplane.toml", HEAVIER.0, HEAVIER.1),
        change("aeroplane.toml", "name = \"Tail 101\"", "name = \"Tail 102\""),
    ]);
    let output = hardpan().args(["compare", &light, &heavy]).output().expect("it runs");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    for part in ["Tail 101", "Tail 102", "load"] {
        assert!(text.contains(part), "{part}: {text}");
    }
}

#[test]
fn a_load_cannot_be_compared_where_an_operating_mass_is_missing() {
    let (_light, light) = copy(&[]);
    let (_unknown, unknown) = copy(&[change("aeroplane.toml", "operating = {", "# operating = {")]);
    let (_, found) = compared(&[&unknown, &light, "--change", "landing.load=6 t"]);
    let flights = found["flights"].as_array().expect("a list");
    assert_eq!(flights[1]["verdict"], "unproven", "{found:#}");
    let why = flights[1]["reason"]["metric"].as_str().expect("a reason");
    assert!(why.contains("not stated"), "{why}");
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("{value} is no text"))
}

/// Every figure of the ranking opens: here, or by the command that it names.
#[test]
fn every_figure_of_the_ranking_opens_in_the_flight_that_it_is_of() {
    let (_folder, flight) = copy(&[]);
    let (_, found) = compared(&[&flight, "--both-ends", "--change", "take_off.mass=40 t"]);
    let flights = found["flights"].as_array().expect("a list");
    assert_eq!(flights.len(), 4);
    let turned: Vec<&Value> = flights
        .iter()
        .filter(|one| one["basis"]["changes"]["take_off.direction"] == "07")
        .collect();
    assert_eq!(turned.len(), 2, "{found:#}");
    for one in flights {
        let basis = &one["basis"];
        assert_eq!(basis["flight"], flight.as_str());
        assert_eq!(basis["changes"]["take_off.mass"], "40 t");
        assert!(basis["reason"].is_string(), "{one:#}");
        let here = |name: &str, value: &Value| {
            let figures = basis["figures"].as_array().expect("figures");
            let figure = figures.iter().find(|figure| figure["name"] == name);
            let figure = figure.unwrap_or_else(|| panic!("{name} does not open"));
            assert_eq!(&figure["value"], value, "{name}");
            assert_eq!(
                figure["basis"].as_array().and_then(|all| all.last()).expect("a step")["result"],
                *value
            );
        };
        if !one["spare"].is_null() {
            here("mass to spare over the plan", &one["spare"]);
        }
        for (key, movement) in [("take_off_mass", "take-off"), ("landing_mass", "landing")] {
            let mass = &one[key];
            here(&format!("planned {movement} mass"), &mass["planned"]);
            for figure in ["largest", "load"] {
                assert_eq!(mass[figure].is_null(), mass["basis"][figure].is_null(), "{figure}");
            }
        }
    }
    // One of them by the command: the same mass.
    let one = turned[0];
    let changes = one["basis"]["changes"].as_object().expect("changes").iter();
    let changes =
        changes.flat_map(|(key, value)| ["--change".to_owned(), format!("{key}={}", text(value))]);
    let out = hardpan()
        .arg("explain")
        .arg(text(&one["basis"]["flight"]))
        .arg(text(&one["take_off_mass"]["basis"]["largest"]))
        .args(changes)
        .output()
        .expect("it runs");
    let said = String::from_utf8_lossy(&out.stdout).replace('\u{a0}', "");
    let largest = kilograms(&one["take_off_mass"]["largest"]).round();
    let opened = format!("largest take-off mass = {largest}kg");
    assert!(said.replace(' ', "").contains(&opened.replace(' ', "")), "{largest}: {said}");
}

#[test]
fn the_ranking_names_the_commands_that_open_it() {
    let (_folder, flight) = copy(&[]);
    let out = hardpan().args(["compare", &flight, "--both-ends"]).env("COLUMNS", "400").output();
    let said = String::from_utf8_lossy(&out.expect("it runs").stdout).into_owned();
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    let opens = "\"largest take-off mass\" --change take_off.direction=07";
    assert!(said.contains(&format!("hardpan explain {flight} {opens}")), "{said}");
    assert!(said.contains("mass to spare over the plan = "), "{said}");
    assert!(said.contains("flight.toml:"), "{said}");
}
