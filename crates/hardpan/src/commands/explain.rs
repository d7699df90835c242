//! `hardpan explain`: a figure opened, or a rule in words.

use super::{assess as changing, reading};
use crate::failure::Failure;
use crate::screen;
use hardpan_assess::{Answered, Rule, formulas, rules};
use hardpan_files::Disk;
use hardpan_model::Phase;
use hardpan_quantity::UnitSystem;
use hardpan_report::{
    Meant, Report, RuleSection, RuleText, explain_meant, names_json, names_to_open, opened_json,
    rule_text, rules_json,
};

/// What to explain, and how.
pub(crate) struct Wanted<'a> {
    /// A flight file, or the code of a rule.
    pub(crate) subject: &'a str,
    /// What to open of a flight.
    pub(crate) words: Option<&'a str>,
    pub(crate) change: &'a [String],
    pub(crate) json: bool,
    pub(crate) system: UnitSystem,
}

/// Explain a rule by its code, what answers to a name in a flight, or without a name
/// what there is.
pub(crate) fn run(wanted: &Wanted<'_>) -> Result<u8, Failure> {
    let Wanted { subject, words, change, json, system } = *wanted;
    if let (Some(rule), None) = (rule_of(subject), words) {
        screen::say(&if json { rules_json([rule]) } else { in_words(rule) });
        return Ok(0);
    }
    if words.is_none() && is_code(subject) {
        return Err(Failure::NoSuchFinding { asked: subject.to_owned(), known: codes() });
    }
    let (flight, identifier) = reading::flight(&Disk::default(), subject)?;
    let changes = changing::pairs(change)?;
    let (flight, identifier) = changing::changed(flight, identifier, &changes)?;
    let answered = Answered::of(flight);
    let assessment = answered.whole();
    let report = Report::new(&assessment, system, reading::produced(&identifier));
    let Some(words) = words else {
        screen::say(&if json { names_json(&report) } else { known(&report) });
        return Ok(0);
    };
    let meant = Meant::by(&report, words);
    if meant.is_empty() {
        return Err(Failure::NoSuchFinding { asked: words.to_owned(), known: known(&report) });
    }
    let openings = answered.openings(&assessment);
    screen::say(&match json {
        true => opened_json(&report, &openings, &meant),
        false => {
            let width = screen::width();
            let text = explain_meant(&report, &openings, &meant, &formulas(), width);
            format!("{text}\n{}\n", hardpan_assess::CAUTION)
        }
    });
    Ok(0)
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
