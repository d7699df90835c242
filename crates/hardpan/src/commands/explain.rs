//! `hardpan explain`: a figure opened, or a rule in words.

use super::{assess as changing, reading};
use crate::failure::Failure;
use crate::screen;
use hardpan_assess::{Answered, Rule, formulas, rules};
use hardpan_files::Disk;
use hardpan_model::{Finding, Phase};
use hardpan_quantity::UnitSystem;
use hardpan_report::{Report, RuleSection, RuleText, names_to_open, rule_text};

/// Explain a rule by its code, what answers to a name in a flight, or without a name
/// what there is.
pub(crate) fn run(
    subject: &str,
    wanted: Option<&str>,
    change: &[String],
    system: UnitSystem,
) -> Result<u8, Failure> {
    if let (Some(rule), None) = (rule_of(subject), wanted) {
        screen::say(&in_words(rule));
        return Ok(0);
    }
    if wanted.is_none() && is_code(subject) {
        return Err(Failure::NoSuchFinding { asked: subject.to_owned(), known: codes() });
    }
    let (flight, identifier) = reading::flight(&Disk::default(), subject)?;
    let changes = changing::pairs(change)?;
    let (flight, identifier) = changing::changed(flight, identifier, &changes)?;
    let answered = Answered::of(flight);
    let assessment = answered.whole();
    let report = Report::new(&assessment, system, reading::produced(&identifier));
    let Some(wanted) = wanted else {
        screen::say(&known(&report));
        return Ok(0);
    };
    let chosen = numbers(&assessment.findings, |finding| answers(finding, wanted));
    let figures = numbers(&assessment.figures, |figure| is_named(&figure.name, wanted));
    if chosen.is_empty() && figures.is_empty() {
        return Err(Failure::NoSuchFinding { asked: wanted.to_owned(), known: known(&report) });
    }
    let (catalogue, width) = (formulas(), screen::width());
    let openings = answered.openings(&assessment);
    let opened = chosen.into_iter().filter_map(|index| {
        let opening = openings.of_finding(index)?;
        hardpan_report::explain(&report, index, &opening, &catalogue, width)
    });
    let others = figures.into_iter().filter_map(|index| {
        let opening = openings.of_figure(index)?;
        hardpan_report::explain_figure(&report, index, &opening, &catalogue, width)
    });
    screen::say(&opened.chain(others).collect::<Vec<_>>().join("\n"));
    Ok(0)
}

/// Places of those that are meant.
fn numbers<T>(all: &[T], is_meant: impl Fn(&T) -> bool) -> Vec<usize> {
    all.iter().enumerate().filter(|(_, one)| is_meant(one)).map(|(index, _)| index).collect()
}

/// Whether words name a figure, such as `V1` or `density altitude`.
fn is_named(name: &str, wanted: &str) -> bool {
    let (name, wanted) = (name.to_lowercase(), wanted.to_lowercase());
    let symbol = name.split([',', ' ']).next();
    symbol == Some(wanted.as_str()) || (wanted.len() > 3 && name.contains(&wanted))
}

fn rule_of(code: &str) -> Option<&'static Rule> {
    rules().iter().find(|rule| rule.code.eq_ignore_ascii_case(code))
}

/// A letter and digits, and no such file.
fn is_code(text: &str) -> bool {
    let mut characters = text.chars();
    characters.next().is_some_and(|first| first.is_ascii_alphabetic())
        && !characters.as_str().is_empty()
        && characters.all(|one| one.is_ascii_digit())
}

fn answers(finding: &Finding, wanted: &str) -> bool {
    finding.code.eq_ignore_ascii_case(wanted)
        || (wanted.len() > 3 && finding.title.to_lowercase().contains(&wanted.to_lowercase()))
}

/// The rules, one to a line.
fn codes() -> String {
    rules()
        .iter()
        .map(|rule| format!("  {} {}", rule.code, rule.name))
        .collect::<Vec<_>>()
        .join("\n")
}

/// What a flight has to open, one to an entry: its checks by phase and its figures.
fn known(report: &Report) -> String {
    let mut parts = Vec::new();
    for phase in Phase::ALL {
        let of_phase = report.findings.iter().filter(|row| row.phase == phase.word());
        let mut checks: Vec<String> =
            of_phase.map(|row| format!("{} {}", row.code, row.title)).collect();
        checks.dedup();
        parts.push((format!("checks, {}", phase.word()), checks));
    }
    let figures = &report.assessment().figures;
    let mut names: Vec<String> = figures.iter().map(|one| one.name.clone()).collect();
    names.dedup();
    parts.push(("other figures".to_owned(), names));
    names_to_open(&parts, screen::width())
}

fn in_words(rule: &Rule) -> String {
    let source = rule.source.to_string();
    let sections = [
        RuleSection { heading: "Checks", text: rule.checks },
        RuleSection { heading: "Why it matters", text: rule.why },
        RuleSection { heading: "Limit", text: rule.limit },
        RuleSection { heading: "Applies when", text: rule.applies },
        RuleSection { heading: "Source", text: &source },
    ];
    let text = RuleText { code: rule.code, title: rule.name, sections: &sections };
    format!("{}\n{}\n", rule_text(&text, screen::width()), hardpan_assess::CAUTION)
}
