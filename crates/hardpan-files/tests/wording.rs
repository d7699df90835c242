//! What people read: one small example for every code, as a snapshot.

mod cases;

use cases::{Case, OTHERS, TABLES, TOML};
use hardpan_files::{CODES, Memory, Reading, Sources, Unread, read_any, render};
use hardpan_quantity::seconds;
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

/// Why a reader has no answer, with the code of each.
fn unread() -> [(&'static str, Unread); 4] {
    [
        ("E432", Unread::Memory { limit: 4 << 30 }),
        ("E433", Unread::Time { limit: seconds(300.0) }),
        ("E434", Unread::Ended { how: "its reader ended with signal 11".to_owned() }),
        ("E435", Unread::NotStarted { reason: "no more processes".to_owned() }),
    ]
}

#[test]
fn wording_of_a_reading_without_an_end() {
    for (code, why) in unread() {
        let told = why.diagnostic("scan.laz");
        assert_eq!(told.code, code);
        insta::assert_snapshot!(code, render(&[told], &Sources::default(), false));
    }
}

#[test]
fn every_code_has_an_example_but_those_made_of_bytes() {
    let shown: Vec<&str> =
        [TOML, TABLES, OTHERS].into_iter().flatten().map(|case| case.code).collect();
    // Tested in `limits_of_reading.rs`, where the files are made.
    let made = ["E102", "E103", "E106", "E108"];
    let unread = unread().map(|(code, _)| code);
    for code in CODES {
        let all = [&*shown, &made, &unread];
        assert!(all.iter().any(|some| some.contains(&code.code)), "{code:?}");
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
