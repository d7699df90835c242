//! The calibration of the demo's aeroplane at the command line.

use snapbox::cmd::{Command, cargo_bin};
use std::path::Path;

fn hardpan(arguments: &[&str]) -> std::process::Output {
    let mut command = Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1");
    command = command.args(arguments);
    command.output().expect("it runs")
}

#[test]
fn the_demo_prints_constants_residuals_and_the_caution() {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/aeroplane.toml");
    let found = hardpan(&["fit", file]);
    let text = String::from_utf8_lossy(&found.stdout).into_owned();
    assert_eq!(found.status.code(), Some(0), "{text}");
    for words in [
        "engines.static_thrust",
        "braking on dry gravel",
        "accelerate-stop distance,",
        "Absence of data is never a pass.",
    ] {
        assert!(text.contains(words), "{words} is missing:\n{text}");
    }
}

#[test]
fn without_charts_it_says_what_is_missing() {
    let file = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/04-dirt-strip-turboprop/aeroplane.toml"
    );
    let found = hardpan(&["fit", file]);
    assert_eq!(found.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&found.stderr).contains("[[chart]]"));
}

/// The demo in a folder of its own with its chart of the landing alone, its
/// constants fitted to it and taken in.
fn fitted_demo(folder: &Path) {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo");
    for entry in std::fs::read_dir(demo).expect("the demo is there").flatten() {
        std::fs::copy(entry.path(), folder.join(entry.file_name())).expect("it is copied");
    }
    let aeroplane = folder.join("aeroplane.toml");
    let text = std::fs::read_to_string(&aeroplane).expect("it is there");
    let of_take_off = |part: &&str| part.contains("take_off_") || part.contains("stop_");
    let parts: Vec<&str> =
        text.split("[[chart]]\ngives").filter(|part| !of_take_off(part)).collect();
    let text = parts.join("[[chart]]\ngives");
    std::fs::write(&aeroplane, &text).expect("it is written");
    let file = folder.join("fitted.toml");
    let found = hardpan(&["fit", &aeroplane.to_string_lossy(), "--write", &file.to_string_lossy()]);
    assert_eq!(found.status.code(), Some(0), "{}", said(&found));
    let with = text.replacen("name = \"Tail", "fitted = \"fitted.toml\"\nname = \"Tail", 1);
    assert_ne!(with, text);
    std::fs::write(&aeroplane, with).expect("it is written");
}

fn said(found: &std::process::Output) -> String {
    let both = [&found.stdout, &found.stderr].map(|out| String::from_utf8_lossy(out).into_owned());
    both.join("\n")
}

#[test]
fn fitted_constants_are_taken_in_and_marked_with_their_charts() {
    let folder = tempfile::tempdir().expect("a folder");
    fitted_demo(folder.path());
    let flight = folder.path().join("flight.toml");
    let text = said(&hardpan(&["explain", &flight.to_string_lossy(), "F50"]));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in ["fitted.toml", "fitted to", "landing_40.csv", "root mean square"] {
        assert!(text.contains(words), "{words} is missing:\n{text}");
    }
}

#[test]
fn fitting_again_starts_from_what_is_stated() {
    let folder = tempfile::tempdir().expect("a folder");
    fitted_demo(folder.path());
    let path = |name: &str| folder.path().join(name).to_string_lossy().into_owned();
    let again = hardpan(&["fit", &path("aeroplane.toml"), "--write", &path("again.toml")]);
    assert_eq!(again.status.code(), Some(0), "{}", said(&again));
    let read = |name: &str| std::fs::read_to_string(path(name)).expect("it is there");
    assert_eq!(read("again.toml"), read("fitted.toml"));
}

#[test]
fn constants_far_from_the_file_are_written_nowhere() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("fitted.toml");
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/aeroplane.toml");
    let found = hardpan(&["fit", demo, "--write", &file.to_string_lossy()]);
    assert_eq!(found.status.code(), Some(2), "{}", said(&found));
    assert!(said(&found).contains("nothing is written"));
    assert!(!file.exists());
}

#[test]
fn fitted_flaps_that_the_aeroplane_lacks_are_refused_with_a_way_out() {
    let folder = tempfile::tempdir().expect("a folder");
    fitted_demo(folder.path());
    let file = folder.path().join("fitted.toml");
    let text = std::fs::read_to_string(&file).expect("it is there");
    std::fs::write(&file, text.replacen("name = \"15\"", "name = \"16\"", 1)).expect("written");
    let found = hardpan(&["check", &folder.path().join("aeroplane.toml").to_string_lossy()]);
    assert_eq!(found.status.code(), Some(2), "{}", said(&found));
    assert!(said(&found).contains("fitted.toml:") && said(&found).contains("fit again"));
}
