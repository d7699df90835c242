//! The calibration of the demo's aeroplane at the command line.

use snapbox::cmd::{Command, cargo_bin};

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
