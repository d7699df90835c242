//! The sections around the table of findings.

use super::paint::{Paint, table_text, verdict_text};
use crate::report::{MassBlock, PhaseBlock};
use crate::wrap::{entry, hanging, sentence};
use crate::{FindingRow, Report};
use hardpan_model::Verdict;

const LABEL: usize = 13;

pub(super) fn answer(report: &Report, paint: &Paint) -> Option<String> {
    let answer = &report.answer;
    let mut out = paint.answer(answer.verdict, &answer.sentence);
    if let Some(line) = &answer.governing_line {
        out.push_str(&hanging(&format!("Governed by {line}"), paint.width(), "  "));
    }
    if !report.is_usable() {
        let word = answer.verdict.word();
        let line = format!("The answer is {word}: the figures below are not for use.");
        out.push_str(&hanging(&line, paint.width(), "  "));
    }
    Some(out)
}

/// Columns of the longest question.
const ASKED: usize = 22;

pub(super) fn account(report: &Report, paint: &Paint) -> Option<String> {
    if report.account.is_empty() {
        return None;
    }
    let mut out = paint.heading("Why, in plain words");
    for (asked, said) in &report.account {
        out.push_str(&entry(asked, said, ASKED, paint.width()));
    }
    Some(out)
}

pub(super) fn identity(report: &Report, paint: &Paint) -> Option<String> {
    let rows = report.identity.iter();
    Some(rows.map(|row| entry(row.label, &row.value, LABEL, paint.width())).collect())
}

pub(super) fn masses(report: &Report, paint: &Paint) -> Option<String> {
    if report.masses.is_empty() {
        return None;
    }
    let mut out = paint.heading("Masses");
    for mass in &report.masses {
        out.push_str(&hanging(&mass_line(mass), paint.width(), "  "));
        if let Some(load) = &mass.load {
            let line = format!("leaves {load} of load with the fuel planned");
            out.push_str(&hanging(&line, paint.width(), "    "));
        }
        for (place, limit) in mass.limits.iter().take(3).enumerate() {
            let order = match (place, mass.set_by()) {
                (0, Some(_)) => "set by",
                (0, None) => "known:",
                _ => "then",
            };
            let value = limit.mass.as_deref().unwrap_or("no mass holds");
            let line = format!("{} {}: {value}", limit.code, limit.title);
            out.push_str(&hanging(&line, paint.width(), &format!("    {order:<7}")));
        }
    }
    Some(out)
}

fn mass_line(mass: &MassBlock) -> String {
    let largest = mass.largest_or_why();
    match &mass.planned {
        Some(planned) => format!("Largest {}: {largest} (planned: {planned})", mass.name),
        None => format!("Largest {}: {largest} (none planned)", mass.name),
    }
}

pub(super) fn tyre(report: &Report, paint: &Paint) -> Option<String> {
    let tyre = &report.tyre;
    let mut out = paint.heading("Main tyre pressure");
    match &tyre.set {
        Some(set) if tyre.because.is_empty() => {
            out.push_str(&hanging(&format!("Set {set}"), paint.width(), "  "));
        }
        Some(set) => {
            let line = format!("Set {set}: {}", tyre.because);
            out.push_str(&hanging(&line, paint.width(), "  "));
        }
        None => out.push_str("  No pressure was found to hold.\n"),
    }
    if let Some(range) = &tyre.range {
        let line = format!("Range at the planned mass: {range}");
        out.push_str(&hanging(&line, paint.width(), "  "));
    }
    if !tyre.table.is_empty() {
        let header = ["  At pressure", "Ground carries", "Tyre and chart allow"];
        let mut table = paint.table(&header, &[0, 1, 2]);
        for row in &tyre.table {
            let or_none = |mass: &Option<String>| mass.clone().unwrap_or("none".to_owned());
            table.add_row([row.pressure.clone(), or_none(&row.ground), or_none(&row.tyre)]);
        }
        out.push('\n');
        out.push_str(&table_text(&table));
    }
    Some(out)
}

pub(super) fn speeds(report: &Report, paint: &Paint) -> Option<String> {
    if report.speeds.is_empty() {
        return None;
    }
    let mut out = paint.heading("Speeds");
    for row in &report.speeds {
        let line = format!("{}, {}", row.speed, row.name);
        out.push_str(&entry(row.symbol, &line, 5, paint.width()));
    }
    Some(out)
}

pub(super) fn distances(report: &Report, paint: &Paint) -> Option<String> {
    if report.distances.is_empty() {
        return None;
    }
    let mut out = paint.heading("Distances");
    let mut table = paint.table(&["Code", "Distance", "Needed", "Available"], &[2, 3]);
    for row in &report.distances {
        let available = row.available.clone().unwrap_or_else(|| "not declared".to_owned());
        table.add_row([row.code.to_owned(), row.name.clone(), row.needed.clone(), available]);
    }
    out.push_str(&table_text(&table));
    Some(out)
}

pub(super) fn day(report: &Report, paint: &Paint) -> Option<String> {
    if report.day.is_empty() {
        return None;
    }
    let mut out = paint.heading("Air and wind");
    for row in &report.day {
        let limit = row.limit.as_ref().map_or(String::new(), |limit| format!(" ({limit})"));
        let line = format!("{}: {}{limit}", row.name, row.value);
        out.push_str(&hanging(&line, paint.width(), "  "));
    }
    Some(out)
}

/// Handling compared by the stones that it meets.
pub(super) fn stones(report: &Report, paint: &Paint) -> Option<String> {
    let rows = &report.stones_by_handling;
    if rows.len() < 2 {
        return None;
    }
    let mut out = paint.heading("Stones by handling");
    let logged = rows.iter().any(|row| row.strikes.is_some());
    let mut header = vec!["Handling", "Thrown at the airframe", "Under an inlet vortex"];
    let mut right = vec![1, 2];
    if logged {
        header.push("Strikes in 1,000 movements, by the log");
        right.push(3);
    }
    let mut table = paint.table(&header, &right);
    for row in rows {
        let none = || "–".to_owned();
        let mut cells = vec![
            row.name.clone(),
            row.thrown.clone().unwrap_or_else(none),
            row.swallowed.clone().unwrap_or_else(none),
        ];
        if logged {
            cells.push(row.strikes.clone().unwrap_or_else(none));
        }
        table.add_row(cells);
    }
    out.push_str(&table_text(&table));
    let note = if logged {
        "◇ planning only: ratios to the handling planned. The log counts with its 90 % limits, as \
         if its movements had been as the one planned."
    } else {
        "◇ planning only: ratios to the handling planned. No rate of damage is published; a damage \
         record gives strikes."
    };
    out.push_str(&hanging(note, paint.width(), "  "));
    Some(out)
}

pub(super) fn missing(report: &Report, paint: &Paint) -> Option<String> {
    let unproven = |row: &&FindingRow| row.verdict == Verdict::Unproven || !row.needs.is_empty();
    let rows: Vec<&FindingRow> = report.findings.iter().filter(unproven).collect();
    if rows.is_empty() && report.answer.missing.is_empty() {
        return None;
    }
    let mut out = paint.heading("What is missing");
    for line in &report.answer.missing {
        out.push_str(&hanging(line, paint.width(), "  ? "));
    }
    for row in rows {
        out.push_str(&entry(
            row.code,
            &format!("{}: {}", row.title, row.because),
            4,
            paint.width(),
        ));
        for (what, how) in &row.needs {
            let line = if how.is_empty() { what.clone() } else { format!("{what}: {how}") };
            out.push_str(&hanging(&line, paint.width(), "       supply  "));
        }
    }
    Some(out)
}

pub(super) fn remedies(report: &Report, paint: &Paint) -> Option<String> {
    if report.remedies.is_empty() {
        return None;
    }
    let mut out = paint.heading("What would help");
    for (place, remedy) in report.remedies.iter().enumerate() {
        let after = verdict_text(remedy.verdict_after);
        let mends =
            if remedy.mends.is_empty() { String::new() } else { format!(" ({})", remedy.mends) };
        let (action, effect) = (sentence(&remedy.action), sentence(&remedy.effect));
        let line = format!("{action} {effect} Then: {after}{mends}");
        out.push_str(&hanging(&line, paint.width(), &format!("  {}. ", place + 1)));
    }
    Some(paint.verdicts(&out))
}

pub(super) fn conditions(report: &Report, paint: &Paint) -> Option<String> {
    if report.answer.conditions.is_empty() {
        return None;
    }
    let mut out = paint.heading("Conditions to be kept");
    for condition in &report.answer.conditions {
        out.push_str(&hanging(condition, paint.width(), "  ! "));
    }
    Some(out)
}

pub(super) fn handling(report: &Report, paint: &Paint) -> Option<String> {
    if report.phases.is_empty() {
        return None;
    }
    let mut out = paint.heading("Limits and handling");
    out.push_str("  ■ approved limit   ◇ computed, planning only   – operator\n");
    for block in &report.phases {
        out.push_str(&phase(block, paint));
    }
    Some(out)
}

fn phase(block: &PhaseBlock, paint: &Paint) -> String {
    let mut out = format!("  {}\n", block.phase);
    for line in &block.lines {
        let text = if line.source.is_empty() {
            line.text.clone()
        } else {
            format!("{} [{}]", line.text, line.source)
        };
        out.push_str(&hanging(&text, paint.width(), &format!("    {} ", line.sign())));
    }
    out
}

pub(super) fn basis(report: &Report, paint: &Paint) -> Option<String> {
    let produced = &report.produced;
    let mut out = paint.heading("Basis");
    out.push_str(&hanging(&format!("{}.", report.basis.line()), paint.width(), "  "));
    let parts = [&produced.by, &produced.at, &produced.identifier];
    let parts: Vec<&str> =
        parts.into_iter().map(String::as_str).filter(|p| !p.is_empty()).collect();
    if !parts.is_empty() {
        out.push_str(&hanging(&parts.join(" · "), paint.width(), "  "));
    }
    Some(out)
}
