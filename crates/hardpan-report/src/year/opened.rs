//! One hour of the calendar opened, at a terminal and for a program.

use super::json::without;
use super::{hour_word, largest_word};
use crate::explain::{explain, explain_basis};
use crate::json::{FigureJson, FindingJson};
use crate::measure::{at_most_text, quantity_text};
use crate::report::Report;
use crate::wrap::{hanging, plain};
use crate::{Produced, explain_figure};
use hardpan_assess::{Assessment, CAUTION, HourState, OpenedHour, Opening, formulas};
use hardpan_model::{Basis, Finding};
use hardpan_quantity::{Quantity as _, UnitSystem};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Codes of what sets the largest masses of an hour.
fn codes(found: &OpenedHour) -> BTreeSet<&'static str> {
    let set = found.limits().filter_map(|(_, answer)| Some(answer.set_by()?.code));
    let heavy = match &found.hour.state {
        HourState::TooHeavy(code, _) => Some(*code),
        _ => None,
    };
    set.chain(heavy).collect()
}

/// An hour with how its light, warmth and ground were reckoned, its largest masses, and
/// the checks that set them, for a person at a terminal of `width` columns.
#[must_use]
pub fn hour_text(found: &OpenedHour, hour: u8, units: UnitSystem, width: usize) -> String {
    let (from, to) = found.days;
    let state = match &found.hour.state {
        HourState::NotKnown(why) => format!("not known: {why}"),
        HourState::TooHeavy(code, what) => format!("too heavy: {what} ({code})"),
        state => hour_word(state).to_owned(),
    };
    let title = format!("{from} to {to}, {hour:02} UTC: {}", plain(&state));
    let mut out = hanging(&title, width, "");
    for (name, answer) in found.limits() {
        let largest = largest_word(answer.most(), |mass| at_most_text(mass, units));
        let by = answer.set_by().map_or_else(String::new, |limit| {
            format!(", by {} ({})", plain(&limit.title), limit.code)
        });
        let asked = answer.planned.map_or_else(String::new, |mass| {
            format!("; asked for: {}", quantity_text(mass, units))
        });
        out.push_str(&hanging(&format!("Largest {name} mass: {largest}{by}{asked}"), width, "  "));
    }
    out.push_str("\nWhat the hour is reckoned with, in calm air of 1013 hPa\n");
    for figure in &found.reckoned {
        out.push_str(&explain_basis(figure, &formulas(), units, width));
    }
    let opened =
        [("at the largest masses", &found.largest), ("at the masses asked for", &found.asked)];
    for (words, assessment) in opened {
        let Some(assessment) = assessment else { continue };
        out.push_str(&format!("\nWhat sets the masses, {words}\n"));
        out.push_str(&checks(found, assessment, units, width));
    }
    if let Some(asked) = &found.asked {
        out.push_str("\nEvery other figure at the masses asked for\n");
        let report = report(asked, units);
        let all = asked.figures.iter().enumerate().filter_map(|(index, one)| {
            explain_figure(&report, index, &alone(&one.basis), &formulas(), width)
        });
        out.push_str(&all.collect::<String>());
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, width, ""));
    out
}

fn report(of: &Assessment, units: UnitSystem) -> Report {
    let none = String::new;
    Report::new(of, units, Produced { by: none(), at: none(), identifier: none() })
}

/// The steps of a figure of an hour.
fn alone(basis: &Basis) -> Opening {
    Opening { own: basis.steps.clone(), ..Opening::default() }
}

fn checks(found: &OpenedHour, of: &Assessment, units: UnitSystem, width: usize) -> String {
    let (report, codes) = (report(of, units), codes(found));
    let meant = of.findings.iter().enumerate().filter(|(_, one)| codes.contains(one.code));
    let opened = |(index, one): (usize, &Finding)| {
        explain(&report, index, &alone(&one.basis), &formulas(), width)
    };
    meant.filter_map(opened).collect()
}

/// The same as the text of a JSON file in SI units.
#[must_use]
pub fn hour_json(found: &OpenedHour, hour: u8) -> String {
    let (from, to) = found.days;
    let codes = codes(found);
    let (code, why) = match &found.hour.state {
        HourState::TooHeavy(code, title) => (Some(*code), Some(title.clone())),
        HourState::NotKnown(why) => (None, Some((*why).to_owned())),
        HourState::Works | HourState::Dark => (None, None),
    };
    let masses: serde_json::Map<String, Value> = found
        .limits()
        .map(|(name, answer)| {
            let set = answer.set_by();
            let of = json!({
                "asked_kg": answer.planned.map(|mass| mass.si()),
                "largest_kg": answer.largest.map(|mass| mass.si()),
                "without": without(answer.most()),
                "by": set.map(|limit| limit.code),
                "limit": set.map(|limit| limit.title.clone()),
            });
            (name.to_owned(), of)
        })
        .collect();
    let opened = |of: &Option<Assessment>| {
        let of = &crate::told::assessment(of.as_ref()?, UnitSystem::Metric);
        let checks = of.findings.iter().filter(|one| codes.contains(one.code));
        let checks: Vec<FindingJson> = checks.map(FindingJson::new).collect();
        let figures: Vec<FigureJson> = of.figures.iter().map(FigureJson::new).collect();
        Some(json!({ "findings": checks, "figures": figures }))
    };
    let reckoned: Vec<FigureJson> = found.reckoned.iter().map(FigureJson::new).collect();
    let value = json!({
        "caution": CAUTION,
        "from": from.to_string(), "to": to.to_string(), "hour": hour,
        "state": hour_word(&found.hour.state), "code": code, "why": why,
        "masses": masses,
        "reckoned": reckoned,
        "at_the_largest_masses": opened(&found.largest),
        "at_the_masses_asked_for": opened(&found.asked),
    });
    format!("{value:#}\n")
}
