//! What the ground still carries, and what is said beside the decision on it.

mod support;

use hardpan_assess::Assessment;
use hardpan_model::{Finding, Verdict, Weight};
use hardpan_quantity::Quantity;
use support::{assessed, change};

fn finding<'a>(assessment: &'a Assessment, code: &str) -> &'a Finding {
    assessment.findings.iter().find(|finding| finding.code == code).expect(code)
}

fn asking(passes: &str) -> Assessment {
    assessed(&[change("flight.toml", "passes = 60", &format!("passes = {passes}"))])
}

#[test]
fn exact_the_passes_left_are_carried_and_two_more_are_not() {
    let planned = assessed(&[]);
    let left = finding(&planned, "G40");
    let value = left.value.expect("a number").si;
    assert_eq!((left.weight, left.verdict), (Weight::Advice, Verdict::Pass));
    assert!(value >= 60.0);
    let set = planned.tyre.set.expect("a pressure").si();
    let at = |passes: f64| {
        let pressure = format!("main_tyre_pressure = \"{set} Pa\"\npasses = {passes}");
        assessed(&[change("flight.toml", "passes = 60", &pressure)])
    };
    assert_eq!(finding(&at(value), "G20").verdict, Verdict::Pass);
    assert_eq!(finding(&at(value + 2.0), "G20").verdict, Verdict::Fail);
}

#[test]
fn ground_that_fails_names_every_stretch_and_the_gravel_that_mends_it() {
    let failed = asking("200");
    let ground = finding(&failed, "G20");
    assert_eq!(ground.verdict, Verdict::Fail);
    let instruction = ground.instruction.as_deref().expect("what to lay");
    assert!(instruction.contains("of gravel of at least CBR"), "{instruction}");
    assert!(ground.because.contains("do not hold: 545 m to 725 m"), "{}", ground.because);
    assert_eq!(finding(&failed, "G40").verdict, Verdict::Fail);
}

#[test]
fn passes_left_are_unproven_where_the_ground_or_the_passes_are_not_known() {
    let silent = assessed(&[change("flight.toml", "passes = 60\n", "")]);
    let unknown = assessed(&[change("strip.toml", "value = \"60 m\"", "value = \"20 m\"")]);
    for assessment in [silent, unknown] {
        let left = finding(&assessment, "G40");
        assert_eq!((left.verdict, left.value), (Verdict::Unproven, None));
        assert!(!left.needs.is_empty());
    }
}
