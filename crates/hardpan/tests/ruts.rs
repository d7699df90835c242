//! Measured ruts and the rut law held to them.

mod support;

use hardpan_assess::Assessment;
use hardpan_model::{Finding, Verdict, Weight};
use hardpan_quantity::Quantity;
use support::{Change, assessed, change, demo_text};

fn of<'a>(assessment: &'a Assessment, title: &str) -> &'a Finding {
    let mut findings = assessment.findings.iter().filter(|finding| finding.code == "G55");
    findings.find(|finding| finding.title.starts_with(title)).expect(title)
}

const FACTOR: &str = "measured ruts over";
const AFTER: &str = "rut after the passes";
const LEFT: &str = "passes until";

fn value(assessment: &Assessment, title: &str) -> f64 {
    of(assessment, title).value.expect(title).si
}

/// All ruts of the demo at other depths.
fn ruts(deep: impl Fn(f64) -> f64) -> Change {
    let text = demo_text("ruts.csv");
    let row = |line: &str| {
        let mut cells: Vec<String> = line.split(',').map(str::to_owned).collect();
        if let Some(Ok(depth)) = cells.get(3).map(|cell| cell.parse::<f64>()) {
            cells[3] = deep(depth).to_string();
        }
        cells.join(",")
    };
    let changed: Vec<String> = text.lines().map(row).collect();
    change("ruts.csv", &text, &(changed.join("\n") + "\n"))
}

#[test]
fn deeper_ruts_make_the_forecast_deeper_by_as_much() {
    let (plain, deeper) = (assessed(&[]), assessed(&[ruts(|depth| 1.5 * depth)]));
    assert!((value(&deeper, FACTOR) / value(&plain, FACTOR) - 1.5).abs() < 1e-9);
    assert!((value(&deeper, AFTER) / value(&plain, AFTER) - 1.5).abs() < 1e-9);
    assert!(value(&deeper, LEFT) < value(&plain, LEFT));
    assert_eq!(of(&plain, AFTER).weight, Weight::Advice);
}

#[test]
fn more_passes_ahead_make_deeper_ruts_and_bring_the_limit_no_nearer() {
    let more = assessed(&[change("flight.toml", "passes = 60", "passes = 80")]);
    let plain = assessed(&[]);
    // More passes may ask for softer tyres: the rut goes with passes and with
    // pressure, and within a half per cent with the wheels' joint footprint.
    let set = |assessment: &Assessment| assessment.tyre.set.expect("a pressure").si();
    let growth = (144.0f64 / 124.0).powf(0.2476) * (set(&more) / set(&plain)).powf(0.5695);
    let grown = value(&more, AFTER) / value(&plain, AFTER);
    assert!((grown - growth).abs() < 0.005, "{grown} and {growth}");
    assert!(grown > 1.0 && value(&more, LEFT) >= value(&plain, LEFT) - 1.0);
}

#[test]
fn two_ruts_are_too_few_and_shallow_ones_are_set_aside() {
    let few = assessed(&[ruts(|depth| if depth < 20.0 { 0.0 } else { depth })]);
    assert_eq!(of(&few, FACTOR).verdict, Verdict::Pass, "three are left");
    assert!(of(&few, FACTOR).caveats.iter().any(|caveat| caveat.text.contains("no rut was found")));
    let few = assessed(&[ruts(|depth| if depth < 25.0 { 0.0 } else { depth })]);
    for title in [FACTOR, AFTER, LEFT] {
        let finding = of(&few, title);
        assert_eq!((finding.verdict, finding.value), (Verdict::Unproven, None), "{title}");
        assert!(finding.needs.iter().any(|need| need.what == "strip: ruts"));
    }
}

#[test]
fn without_a_file_of_ruts_there_is_no_finding() {
    let line = demo_text("strip.toml")
        .lines()
        .find(|line| line.starts_with("ruts ="))
        .map(|line| format!("{line}\n"))
        .expect("the demo has ruts");
    let without = assessed(&[change("strip.toml", &line, "")]);
    assert!(without.findings.iter().all(|finding| finding.code != "G55"));
}
