//! What thrown stones do to the aeroplane of the demo, with changes.

mod support;

use hardpan_assess::Assessment;
use hardpan_model::{Finding, Verdict, Weight};
use support::{assessed, change};

fn named<'a>(assessment: &'a Assessment, title: &str) -> &'a Finding {
    let mut findings = assessment.findings.iter();
    findings.find(|finding| finding.code == "D70" && finding.title == title).expect(title)
}

fn value(finding: &Finding) -> f64 {
    finding.value.expect("a value").si
}

const NOSE: &str = "stones stopped by nose gear deflector";
const MAIN: &str = "stones stopped by main gear deflectors";

#[test]
fn each_deflector_says_what_it_stops_by_itself() {
    let planned = assessed(&[]);
    let [nose, main] = [NOSE, MAIN].map(|title| value(named(&planned, title)));
    assert!(nose > main && main > 0.0 && nose + main <= 1.0, "{nose} {main}");
    assert_eq!(named(&planned, NOSE).weight, Weight::Advice);
}

#[test]
fn a_deflector_out_of_service_stops_none() {
    let line = |works: &str| {
        format!(
            "source = \"Technical log of 11 May 2026 (invented)\"\n\
             required_on = [\"gravel\", \"dirt\"]\nfitted = true\nserviceable = {works}\n\
             inspected_on = 2026-05-11"
        )
    };
    let nose = |works: &str| format!("name = \"nose gear deflector\"\n{}", line(works));
    let without = assessed(&[change("aeroplane.toml", &nose("true"), &nose("false"))]);
    let planned = assessed(&[]);
    assert_eq!(named(&without, NOSE).verdict, Verdict::Conditional);
    let belly = "stones on rear belly";
    assert!(value(named(&without, belly)) >= value(named(&planned, belly)));
}

#[test]
fn a_blade_is_struck_harder_the_faster_it_turns() {
    let with = |keys: &str| {
        let part = "part = \"belly\"";
        value(named(&assessed(&[change("aeroplane.toml", part, keys)]), "stones on rear belly"))
    };
    let still = with("part = \"propeller\"");
    let turning = with("part = \"propeller\"\nblade_speed = \"180 m/s\"");
    assert!(turning > 2.0 * still, "{turning} {still}");
}

#[test]
fn stones_in_an_inlet_are_swallowed() {
    let inlet = assessed(&[change("aeroplane.toml", "part = \"antenna\"", "part = \"inlet\"")]);
    let found = named(&inlet, "stones on belly antennas");
    assert!(found.verdict == Verdict::Pass || found.because.contains("swallowed"), "{found:?}");
}
