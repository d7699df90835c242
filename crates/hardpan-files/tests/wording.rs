//! What people read: one small example for every code, as a snapshot.

mod cases;

use cases::{Case, OTHERS, TABLES, TOML};
use hardpan_files::{CODES, Memory, Reading, read_any, render};
use rstest::rstest;

fn shown(case: &Case) -> String {
    let files = case
        .files
        .iter()
        .fold(Memory::default(), |files, (path, text)| files.with(path, text.as_bytes().to_vec()));
    let path = case.files.first().map_or("missing.toml", |(path, _)| path);
    let Reading { diagnostics, sources, .. } = read_any(&files, path);
    assert!(diagnostics.iter().any(|one| one.code == case.code), "{}: {diagnostics:#?}", case.code);
    render(&diagnostics, &sources, false)
}

#[rstest]
#[case(TOML)]
#[case(TABLES)]
#[case(OTHERS)]
fn wording_of_every_mistake(#[case] cases: &[Case]) {
    for case in cases {
        insta::assert_snapshot!(case.code, shown(case));
    }
}

#[test]
fn every_code_has_an_example_but_those_made_of_bytes() {
    let shown: Vec<&str> =
        [TOML, TABLES, OTHERS].into_iter().flatten().map(|case| case.code).collect();
    // Tested in `limits_of_reading.rs`, where the files are made.
    let made = ["E102", "E103", "E106", "E108"];
    for code in CODES {
        assert!(shown.contains(&code.code) || made.contains(&code.code), "{code:?}");
    }
}

#[test]
fn codes_rise_and_are_unique() {
    let codes: Vec<&str> = CODES.iter().map(|code| code.code).collect();
    let mut sorted = codes.clone();
    sorted.sort_unstable();
    sorted.dedup();
    assert_eq!(codes, sorted);
}

#[test]
fn a_mark_in_colour_says_the_same() {
    let files = Memory::default().with("a.toml", "kind = \"aeroplane\"\n[wing]\narea = 92\n");
    let reading = read_any(&files, "a.toml");
    let coloured = render(&reading.diagnostics, &reading.sources, true);
    assert!(coloured.contains("\u{1b}["));
    assert!(coloured.contains("has no unit"));
}
