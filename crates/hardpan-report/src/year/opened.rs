//! One hour of the calendar opened, at a terminal and for a program.

use super::json::without;
use super::{hour_word, largest_word};
use crate::explain::{Meant, explain_basis, explain_meant, opened_for_programs};
use crate::json::FigureJson;
use crate::measure::{at_most_text, quantity_text};
use crate::report::Report;
use crate::wrap::{hanging, plain};
use crate::{Produced, title_of_figure};
use hardpan_assess::{AssessedHour, Assessment, CAUTION, HourState, OpenedHour, formulas};
use hardpan_quantity::{Quantity as _, UnitSystem};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Codes of what sets the largest masses of an hour, and of what is too heavy in it.
#[must_use]
pub fn hour_codes(found: &OpenedHour) -> BTreeSet<&'static str> {
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
    for (words, assessed) in
        [("at the largest masses", &found.largest), ("at the masses asked for", &found.asked)]
    {
        let Some(assessed) = assessed else { continue };
        let report = report(&assessed.found, units);
        let codes: Vec<&str> = hour_codes(found).into_iter().collect();
        out.push_str(&format!("\nWhat sets the masses, {words}\n"));
        let meant = Meant::of_codes(&report, &codes, false);
        out.push_str(&explain_meant(&report, &assessed.openings, &meant, &formulas(), width));
    }
    if let Some(asked) = &found.asked {
        out.push_str("\nEvery other figure at the masses asked for; --figure opens it\n");
        let report = report(&asked.found, units);
        let titles = (0..asked.found.figures.len()).filter_map(|at| title_of_figure(&report, at));
        titles.for_each(|title| out.push_str(&hanging(&title, width, "  ")));
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, width, ""));
    out
}

fn report(of: &Assessment, units: UnitSystem) -> Report {
    let none = String::new;
    Report::new(of, units, Produced { by: none(), at: none(), identifier: none() })
}

/// A check or figure of an hour at the masses asked for, down to the files; none where
/// nothing has such words, or no mass is worked out in the hour.
#[must_use]
pub fn hour_figure_text(
    found: &OpenedHour,
    words: &str,
    units: UnitSystem,
    width: usize,
) -> Option<String> {
    let asked = found.asked.as_ref()?;
    let report = report(&asked.found, units);
    let meant = Meant::by(&report, words);
    let text = || explain_meant(&report, &asked.openings, &meant, &formulas(), width);
    (!meant.is_empty()).then(|| format!("{}\n{}", text(), hanging(CAUTION, width, "")))
}

/// The same as the text of a JSON file in SI units.
#[must_use]
pub fn hour_json(found: &OpenedHour, hour: u8) -> String {
    let (from, to) = found.days;
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
    let codes: Vec<&str> = hour_codes(found).into_iter().collect();
    let opened = |of: &Option<AssessedHour>| {
        let of = of.as_ref()?;
        let report = report(&of.found, UnitSystem::Metric);
        let meant = Meant::of_codes(&report, &codes, true);
        let told = report.assessment();
        let (findings, figures) = opened_for_programs(told, &of.openings, report.units, &meant);
        Some(json!({ "findings": findings, "figures": figures }))
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
