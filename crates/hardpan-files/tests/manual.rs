//! `docs/files.md` names every key, every code and every word.

use hardpan_files::{CODES, Memory, read_aeroplane, read_any, read_day, read_flight, read_strip};
use hardpan_model::{ApprovedLimit, Phase, SurfaceKind, SurfaceState};
use hardpan_quantity::{Dimension, units_of};

const MANUAL: &str = include_str!("../../../docs/files.md");

#[test]
fn the_manual_lists_every_code() {
    let listed: Vec<&str> = MANUAL.lines().filter(|line| line.starts_with("| E")).collect();
    let expected: Vec<String> = CODES
        .iter()
        .map(|code| format!("| {} | {} | {} |", code.code, code.severity.word(), code.about))
        .collect();
    assert_eq!(listed, expected, "the table of codes, line by line");
}

#[test]
fn the_manual_names_every_key() {
    let kind = |kind: &str| Memory::default().with("x.toml", format!("kind = \"{kind}\"\n"));
    let absent = [
        read_flight(&kind("flight"), "x.toml").absent,
        read_aeroplane(&kind("aeroplane"), "x.toml").absent,
        read_strip(&kind("strip"), "x.toml").absent,
        read_day(&kind("day"), "x.toml").absent,
    ];
    let keys: Vec<String> = absent.concat();
    assert!(keys.len() > 100, "{}", keys.len());
    for path in keys {
        let key = path.rsplit('.').next().unwrap_or(&path);
        let named = [format!("`{key}`"), format!(".{key}`"), format!("`[[{key}]]`")];
        assert!(named.iter().any(|name| MANUAL.contains(name)), "{path} is not in the manual");
    }
}

#[test]
fn the_manual_names_every_word_and_unit() {
    let surfaces = SurfaceKind::ALL.map(SurfaceKind::word);
    let states = SurfaceState::ALL.map(SurfaceState::word);
    let words = surfaces.iter().chain(&states).chain(&ApprovedLimit::CHECKED);
    let phases = Phase::ALL.map(Phase::word);
    for word in words.chain(&phases) {
        assert!(MANUAL.contains(&format!("`{word}`")), "{word} is not in the manual");
    }
    for dimension in [
        Dimension::Length,
        Dimension::Mass,
        Dimension::Force,
        Dimension::Pressure,
        Dimension::AirPressure,
        Dimension::Speed,
        Dimension::Temperature,
        Dimension::Angle,
        Dimension::Time,
        Dimension::Energy,
        Dimension::Torque,
        Dimension::Power,
        Dimension::MassFlow,
    ] {
        let row =
            MANUAL.lines().find(|line| line.starts_with(&format!("| {} |", dimension.name())));
        let row = row.unwrap_or_else(|| panic!("no row of units for {}", dimension.name()));
        for unit in units_of(dimension) {
            assert!(row.contains(&format!("`{}`", unit.symbol)), "{} is not in {row}", unit.symbol);
        }
    }
}

/// The examples of the manual are read as they stand.
#[test]
fn examples_of_the_manual_are_sound() {
    let block = |fence: &str, at: usize| {
        let part = MANUAL.split(fence).nth(at).expect("that many examples");
        part.split("```").next().expect("an end").to_owned()
    };
    for at in [1, 2, 3, 4] {
        let reading = read_any(&Memory::default().with("t.csv", block("```csv\n", at)), "t.csv");
        assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    }
    let tyre = format!("kind = \"aeroplane\"\n{}", block("```toml\n", 1));
    let reading = read_aeroplane(&Memory::default().with("a.toml", tyre), "a.toml");
    assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    let reading = read_flight(&Memory::default().with("f.toml", block("```toml\n", 2)), "f.toml");
    assert!(reading.diagnostics.iter().all(|one| one.code == "E101"), "only its files are missing");
}
