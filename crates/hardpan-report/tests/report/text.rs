//! What people read at a terminal.

use crate::sample::{self, UnitSystem, report};
use hardpan_assess::Opening;
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;
use hardpan_report::{Report, RuleSection, RuleText, TextStyle, explain, rule_text, text};

/// Stands in for the catalogue; its name and symbols are those of the sample.
const FORMULA: Formula = Formula {
    name: "cbr-webster-1992",
    computes: "bearing ratio",
    expression: "CBR = 292 / DN^1.12",
    arguments: &[Argument::new("penetration_rate", "DN", Dimension::PenetrationRate, 0.0, 1.0)],
    result: Dimension::BearingRatio,
    source: Source::new("", "", Tier::Memory),
    scatter: "",
    evaluate: |_| 0.0,
};

fn plain(width: usize) -> TextStyle {
    TextStyle { width, colour: false }
}

#[test]
fn conditional_at_100_columns() {
    let report = report(&sample::conditional(), UnitSystem::Metric);
    insta::assert_snapshot!(text(&report, plain(100)));
}

#[test]
fn failing_at_80_columns_in_imperial_units() {
    let report = report(&sample::failing(), UnitSystem::Imperial);
    insta::assert_snapshot!(text(&report, plain(80)));
}

#[test]
fn unproven_at_80_columns() {
    let report = report(&sample::unproven(), UnitSystem::Metric);
    insta::assert_snapshot!(text(&report, plain(80)));
}

#[test]
fn nothing_known() {
    let report = report(&sample::empty(), UnitSystem::Metric);
    insta::assert_snapshot!(text(&report, plain(80)));
}

/// What a finding opens to where nothing lies behind it.
fn opening(report: &Report, index: usize) -> Opening {
    let own = report.assessment().findings[index].basis.steps.clone();
    Opening { own, ..Opening::default() }
}

#[test]
fn explained_finding() {
    let report = report(&sample::conditional(), UnitSystem::Metric);
    insta::assert_snapshot!(explain(&report, 2, &opening(&report, 2), &[&FORMULA], 80).unwrap());
}

#[test]
fn explained_finding_without_a_figure() {
    let report = report(&sample::unproven(), UnitSystem::Metric);
    insta::assert_snapshot!(explain(&report, 2, &opening(&report, 2), &[], 80).unwrap());
}

#[test]
fn no_such_finding() {
    let report = report(&sample::conditional(), UnitSystem::Metric);
    assert_eq!(explain(&report, 99, &Opening::default(), &[], 80), None);
}

#[test]
fn rule() {
    let sections = [
        RuleSection { heading: "Checks", text: "That the ground carries the wheels." },
        RuleSection { heading: "Limit", text: "The bearing ratio needed.\n\nBy station." },
    ];
    let rule = RuleText { code: "G20", title: "ground strength", sections: &sections };
    insta::assert_snapshot!(rule_text(&rule, 80));
}

#[test]
fn lines_keep_within_the_width() {
    for width in [80, 100, 132] {
        let report = report(&sample::conditional(), UnitSystem::Metric);
        for line in text(&report, plain(width)).lines() {
            assert!(line.chars().count() <= width, "{width}: {line}");
        }
    }
}

#[test]
fn colour_adds_nothing_but_colour() {
    let report = report(&sample::failing(), UnitSystem::Metric);
    let coloured = text(&report, TextStyle { width: 100, colour: true });
    assert!(coloured.contains("\u{1b}["));
    let mut stripped = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once('\u{1b}') {
        stripped.push_str(before);
        rest = after.split_once('m').unwrap().1;
    }
    stripped.push_str(rest);
    assert_eq!(stripped, text(&report, plain(100)));
}

#[test]
fn terminal_commands_in_user_text_are_shown_not_obeyed() {
    let mut assessment = sample::conditional();
    assessment.identity.strip = "\u{1b}[2Jgone\u{7}\u{202e}".to_owned();
    assessment.answer.conditions = vec!["line\nfeed \u{9b}1m".to_owned()];
    let written = text(&report(&assessment, UnitSystem::Metric), plain(80));
    assert!(!written.contains(['\u{1b}', '\u{7}', '\u{9b}', '\u{202e}']));
}
