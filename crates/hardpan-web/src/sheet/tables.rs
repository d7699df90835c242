//! Masses, tyres, speeds, distances, air, what turns the answer and what helps.

use crate::desk::{Judged, Wanted};
use crate::page::verdict_mark;
use hardpan_report::{MassBlock, Report, glued};
use maud::{Markup, html};

/// Conditions to keep and what is missing.
pub(super) fn conditions(report: &Report) -> Markup {
    let block = |name: &str, lines: &[String], class: &str| {
        html! {
            @if !lines.is_empty() {
                section class=(class) {
                    h2 { (name) }
                    ul { @for line in lines { li { (line) } } }
                }
            }
        }
    };
    html! {
        (block("Conditions to keep", &report.answer.conditions, "conditions"))
        (block("What is missing", &report.answer.missing, "missing"))
    }
}

/// The tables side by side.
pub(super) fn tables(report: &Report) -> Markup {
    html! {
        @for mass in &report.masses { (masses(mass)) }
        (tyre(report))
        (speeds(report))
        (distances(report))
        (day(report))
        (stones(report))
    }
}

/// What would turn the answer and what would help, once it was tried.
pub(super) fn advice(judged: &Judged, report: &Report) -> Markup {
    html! {
        div.tables.by-sight #advice {
            @if judged.wanted == Wanted::Answer {
                p.wide { "What would turn the answer, and what would help, is being tried." }
            }
            (turning(report))
            (states(report))
            (remedies(report))
        }
    }
}

fn table(name: &str, head: &[&str], rows: &[Vec<Option<String>>]) -> Markup {
    noted(name, head, rows, "sheet-table", "")
}

fn noted(
    name: &str,
    head: &[&str],
    rows: &[Vec<Option<String>>],
    class: &str,
    note: &str,
) -> Markup {
    html! {
        @if !rows.is_empty() {
            section class=(class) {
                h2 { (name) }
                div.scroll { table {
                    thead { tr { @for cell in head { th scope="col" { (cell) } } } }
                    tbody { @for row in rows { tr {
                        @for (index, cell) in row.iter().enumerate() {
                            @let text = glued(cell.as_deref().unwrap_or("–"));
                            @if index == 0 { th scope="row" { (text) } } @else { td { (text) } }
                        }
                    } } }
                } }
                @if !note.is_empty() { p.because-tyre { (note) } }
            }
        }
    }
}

fn masses(mass: &MassBlock) -> Markup {
    let rows = mass.limits.iter().map(|limit| {
        let most = limit.mass.clone().or_else(|| Some("no mass holds".to_owned()));
        vec![Some(limit.code.to_owned()), Some(limit.title.clone()), most]
    });
    let name = format!("Limits of {}", mass.name);
    let note = match (&mass.load, &mass.largest) {
        (Some(load), _) => {
            format!("The largest mass leaves {load} of load with the fuel planned.")
        }
        (None, None) => format!("Largest {}: {}.", mass.name, mass.largest_or_why()),
        (None, Some(_)) => String::new(),
    };
    let head = ["rule", "limit", "largest mass"];
    noted(&name, &head, &rows.collect::<Vec<_>>(), "sheet-table", &note)
}

fn tyre(report: &Report) -> Markup {
    let rows = report
        .tyre
        .table
        .iter()
        .map(|line| vec![Some(line.pressure.clone()), line.ground.clone(), line.tyre.clone()]);
    let head = ["pressure", "ground carries", "tyre allows"];
    noted("Tyre pressure", &head, &rows.collect::<Vec<_>>(), "sheet-table", &report.tyre.because)
}

fn speeds(report: &Report) -> Markup {
    let rows = report.speeds.iter().map(|line| {
        vec![Some(line.symbol.to_owned()), Some(line.name.to_owned()), Some(line.speed.clone())]
    });
    table("Speeds", &["", "speed", "calibrated"], &rows.collect::<Vec<_>>())
}

fn distances(report: &Report) -> Markup {
    let rows = report.distances.iter().map(|line| {
        vec![Some(line.name.clone()), Some(line.needed.clone()), line.available.clone()]
    });
    table("Distances", &["", "needed", "available"], &rows.collect::<Vec<_>>())
}

fn day(report: &Report) -> Markup {
    let rows = report
        .day
        .iter()
        .map(|line| vec![Some(line.name.clone()), Some(line.value.clone()), line.limit.clone()]);
    table("Air and wind", &["", "value", "limit"], &rows.collect::<Vec<_>>())
}

fn turning(report: &Report) -> Markup {
    let rows = report.turning.iter().map(|line| {
        vec![Some(line.what.to_owned()), Some(line.now.clone()), Some(line.sentence.clone())]
    });
    table("What would turn the answer", &["", "now", "until"], &rows.collect::<Vec<_>>())
}

fn states(report: &Report) -> Markup {
    html! {
        @if !report.states.is_empty() {
            section.sheet-table {
                h2 { "In another state of the surface" }
                div.scroll { table { tbody { @for line in &report.states { tr {
                    th scope="row" { (line.state) }
                    td { (verdict_mark(line.verdict)) }
                    td { (glued(&line.by)) }
                } } } } }
            }
        }
    }
}

fn remedies(report: &Report) -> Markup {
    html! {
        @if !report.remedies.is_empty() {
            section.sheet-table.wide {
                h2 { "What would help" }
                div.scroll { table {
                    thead { tr { th scope="col" { "do" } th scope="col" { "brings" }
                        th scope="col" { "then" } th scope="col" { "mends" }
                        th scope="col" { "still fails" } } }
                    tbody { @for line in &report.remedies { tr {
                        th scope="row" { (glued(&line.action)) }
                        td { (glued(&line.effect)) }
                        td { (verdict_mark(line.verdict_after)) }
                        td { (glued(&line.mends)) }
                        td { (glued(&line.left)) }
                    } } }
                } }
            }
        }
    }
}

fn stones(report: &Report) -> Markup {
    let rows = report.stones_by_handling.iter().map(|line| {
        vec![
            Some(line.name.clone()),
            line.thrown.clone(),
            line.swallowed.clone(),
            line.strikes.clone(),
        ]
    });
    let head = ["handling", "thrown stones", "under an inlet", "strikes in 1,000 movements"];
    noted("Stones by handling", &head, &rows.collect::<Vec<_>>(), "sheet-table wide", "")
}

/// Limits and handling as the crew meets them.
pub(super) fn handling(report: &Report) -> Markup {
    html! {
        @if !report.phases.is_empty() {
            section.handling.by-sight aria-labelledby="handling-name" {
                h2 #handling-name { "Limits and handling by phase" }
                @for block in &report.phases {
                    h3 { (block.phase) }
                    ul { @for line in &block.lines {
                        li {
                            span.sign aria-hidden="true" { (line.sign()) }
                            span { (line.text) }
                            span.source { (line.kind_word()) ", " (line.source) }
                        }
                    } }
                }
            }
        }
    }
}
