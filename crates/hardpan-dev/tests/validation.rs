//! The published values, as one test; and the reading of case files.

use hardpan_dev::cases::{State, evaluate, parse, validate};
use hardpan_dev::{Problem, Workspace};
use rstest::rstest;

fn lines(problems: &[Problem]) -> String {
    problems.iter().map(Problem::to_string).collect::<Vec<_>>().join("\n")
}

#[test]
fn validation_cases_hold() {
    if let Err(problems) = validate(&Workspace::here()) {
        panic!("published values missed:\n{}", lines(&problems));
    }
}

const FILE: &str = r#"
source = "NIST-SP-811"
kind = "verification"

[[case]]
id = "psi"
locator = "appendix B.8"
tier = "secondary"
text = "1 psi"
dimension = "pressure"
expect = "6894.757 Pa"
tolerance = "0.0005 Pa"
reason = "half the last printed digit"
"#;

fn state_of(text: &str) -> Result<State, String> {
    let file = parse("a.toml", text).map_err(|problems| lines(&problems))?;
    let case = file.cases.first().ok_or("no case")?;
    evaluate("a.toml", case, &[]).map(|outcome| outcome.state).map_err(|p| p.to_string())
}

#[test]
fn a_case_within_its_tolerance_passes() {
    assert_eq!(state_of(FILE), Ok(State::Pass));
}

#[test]
fn a_case_outside_its_tolerance_misses() {
    let text = FILE.replace("6894.757", "6894.758");
    assert_eq!(state_of(&text), Ok(State::Miss("outside the tolerance".to_owned())));
}

#[test]
fn a_stated_disagreement_must_exist() {
    let agreed = FILE.to_owned() + "known_disagreement = \"printed with a slip\"\n";
    assert!(matches!(state_of(&agreed), Ok(State::Miss(_))));
    let disagreed = agreed.replace("6894.757", "6894.758");
    assert_eq!(state_of(&disagreed), Ok(State::KnownDisagreement));
}

#[rstest]
#[case("-40 degF", "-40 degC", "0.5 degC")]
#[case("-40 degF", "-40 degF", "0.9 degF")]
#[case("-40 degF", "233.15 K", "0.5 K")]
fn a_tolerance_of_a_temperature_is_an_interval(
    #[case] text: &str,
    #[case] expect: &str,
    #[case] tolerance: &str,
) {
    let written = FILE
        .replace("1 psi", text)
        .replace("\"pressure\"", "\"temperature\"")
        .replace("6894.757 Pa", expect)
        .replace("0.0005 Pa", tolerance);
    assert_eq!(state_of(&written), Ok(State::Pass));
    let warm = written.replace(&format!("text = \"{text}\""), "text = \"-38 degF\"");
    assert!(matches!(state_of(&warm), Ok(State::Miss(_))), "{warm}");
}

#[rstest]
#[case("\"1 psi\"", "1", "invalid type")]
#[case("tier = \"secondary\"", "tier = \"certain\"", "unknown variant")]
#[case("reason", "excuse", "unknown field")]
#[case("dimension = \"pressure\"", "", "psi: needs `formula` with `input`")]
#[case("\"6894.757 Pa\"", "\"6894.757\"", "psi: expect: `6894.757` has no unit")]
#[case("\"0.0005 Pa\"", "\"-1 Pa\"", "psi: tolerance: `-1 Pa` is negative")]
#[case("NIST-SP-811", "", "psi: only common practice may go without a source")]
#[case("\"verification\"", "\"validation\"", "uncertainty")]
#[case(
    "text = \"1 psi\"\ndimension = \"pressure\"",
    "formula = \"none\"",
    "no formula is named none"
)]
fn a_faulty_case_says_what_to_mend(#[case] from: &str, #[case] to: &str, #[case] says: &str) {
    let told = state_of(&FILE.replace(from, to)).expect_err("the case is faulty");
    assert!(told.contains(says) && told.starts_with("a.toml"), "{told}");
}
