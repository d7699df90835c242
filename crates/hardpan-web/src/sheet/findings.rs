//! Every check, phase by phase, each opening to its basis.

use crate::page::verdict_mark;
use hardpan_assess::{Rule, formulas, rules};
use hardpan_model::{FigureBasis, Phase};
use hardpan_quantity::UnitSystem;
use hardpan_report::{
    DossierReport, FindingRow, OpenedStep, Report, figure_title, opened, opened_basis,
    opened_figure, title_of_figure,
};
use maud::{Markup, html};

/// Which findings come with what they open to.
#[derive(Debug, Clone, Copy)]
pub(super) enum Opened<'a> {
    /// Each.
    Each,
    /// Those of these numbers; that of the others follows.
    Only(&'a [usize]),
}

impl Opened<'_> {
    fn has(self, index: usize) -> bool {
        match self {
            Self::Each => true,
            Self::Only(some) => some.contains(&index),
        }
    }
}

/// All findings with a line for each phase; the worst come first.
pub(super) fn findings(report: &Report, with: Opened<'_>) -> Markup {
    let catalogue = formulas();
    let of = |phase: Phase| {
        let mut rows: Vec<(usize, &FindingRow)> = report
            .findings
            .iter()
            .enumerate()
            .filter(|(_, row)| row.phase == phase.word())
            .collect();
        rows.sort_by_key(|(_, row)| std::cmp::Reverse(row.verdict));
        rows
    };
    html! {
        section.findings.by-sight aria-labelledby="findings-name" {
            h2 #findings-name { "Every check" }
            button.open-all type="button" aria-pressed="false" { "Open every check" }
            @for phase in Phase::ALL {
                @let rows = of(phase);
                @if !rows.is_empty() {
                    h3 { (phase.word()) }
                    @for (index, row) in rows {
                        @if with.has(index) {
                            (finding(row, index, &opened(report, index, &catalogue).unwrap_or_default(),
                                station(report, index)))
                        } @else {
                            (closed(row, index))
                        }
                    }
                }
            }
        }
    }
}

/// The figures of the answer that are no checks, each opening to its basis.
pub(crate) fn figures(report: &Report) -> Markup {
    let all = &report.assessment().figures;
    let catalogue = formulas();
    html! {
        div #other-figures { @if !all.is_empty() {
            section.findings.by-sight aria-labelledby="figures-name" {
                h2 #figures-name { "Every other figure" }
                @for index in 0..all.len() {
                    (one_figure(
                        &title_of_figure(report, index).unwrap_or_default(),
                        &opened_figure(report, index, &catalogue).unwrap_or_default(),
                    ))
                }
            }
        } }
    }
}

/// The figures of the answer of one name, open; none where there is no such figure.
pub(crate) fn named_figures(report: &Report, name: &str) -> Option<Markup> {
    let all = report.assessment().figures.iter().enumerate();
    let named: Vec<usize> = all
        .filter(|(_, figure)| figure.name.eq_ignore_ascii_case(name))
        .map(|(at, _)| at)
        .collect();
    let catalogue = formulas();
    (!named.is_empty()).then(|| {
        html! {
            @for index in named {
                p.lead { strong { (title_of_figure(report, index).unwrap_or_default()) } }
                (basis(&opened_figure(report, index, &catalogue).unwrap_or_default()))
            }
        }
    })
}

/// Figures, each opening to its basis.
pub(crate) fn bases(figures: &[FigureBasis], units: UnitSystem) -> Markup {
    let catalogue = formulas();
    html! {
        @for figure in figures {
            details.finding {
                summary { span.title { (figure_title(figure, units)) } }
                div.opened { (listed(&opened_basis(figure, &catalogue, units))) }
            }
        }
    }
}

fn one_figure(title: &str, steps: &[OpenedStep]) -> Markup {
    html! {
        details.finding {
            summary { span.title { (title) } }
            div.opened { (basis(steps)) }
        }
    }
}

/// The findings of one rule, open to their basis.
pub(crate) fn of_code(report: &Report, code: &str) -> Markup {
    let catalogue = formulas();
    let rows = report.findings.iter().enumerate().filter(|(_, row)| row.code == code);
    html! {
        section.findings {
            @for (index, row) in rows {
                (finding(row, index, &opened(report, index, &catalogue).unwrap_or_default(), None))
            }
        }
    }
}

/// Findings of a strip by itself, each opening to its basis.
pub(crate) fn plain_rows(report: &DossierReport) -> Markup {
    let catalogue = formulas();
    let mut rows: Vec<(usize, &FindingRow)> = report.findings().iter().enumerate().collect();
    rows.sort_by_key(|(_, row)| std::cmp::Reverse(row.verdict));
    html! {
        section.findings {
            @for (index, row) in rows {
                (finding(row, index, &report.opened(index, &catalogue).unwrap_or_default(), None))
            }
        }
    }
}

/// Station in the middle of a finding's place, metres.
fn station(report: &Report, index: usize) -> Option<f64> {
    use hardpan_quantity::Quantity as _;
    let place = report.assessment().findings.get(index)?.place?;
    Some((place.from.si() + place.to.si()) / 2.0)
}

/// A finding whose basis is on its way.
fn closed(row: &FindingRow, index: usize) -> Markup {
    html! {
        details.finding id={ "f-" (index) } {
            (summary(row))
            div.opened.follows { p { "How this comes about is on its way." } }
        }
    }
}

fn summary(row: &FindingRow) -> Markup {
    html! {
        summary {
            (verdict_mark(row.verdict))
            span.code { (row.code) }
            span.title { (row.title) }
            span.figures {
                @if let Some(value) = &row.value { span.value { (value) } }
                @if let Some(limit) = &row.limit_short { span.limit { (limit) } }
                @if let Some(margin) = &row.margin { span.margin { "margin " (margin) } }
            }
            @if let Some(place) = &row.place_text { span.place { (place) } }
        }
    }
}

fn finding(row: &FindingRow, index: usize, steps: &[OpenedStep], station: Option<f64>) -> Markup {
    html! {
        details.finding id={ "f-" (index) } {
            (summary(row))
            div.opened {
                p { (row.because) }
                @if let Some(instruction) = &row.instruction {
                    p.instruction { strong { "Do: " } (instruction) }
                }
                @if let Some(station) = station {
                    p { a.show-at href="#section" data-at=(format!("{station:.1}")) {
                        "Show it along the strip"
                    } }
                }
                p.use { (row.mark) ", " (row.weight) }
                (list("Reasons to trust it less", &row.caveats))
                @if !row.needs.is_empty() {
                    h3.part { "What is missing" }
                    dl.needs { @for (what, how) in &row.needs { dt { (what) } dd { (how) } } }
                }
                (basis(steps))
                @if let Some(rule) = rules().iter().find(|rule| rule.code == row.code) {
                    (rule_words(rule))
                }
            }
        }
    }
}

fn list(title: &str, lines: &[String]) -> Markup {
    html! {
        @if !lines.is_empty() {
            h3.part { (title) }
            ul { @for line in lines { li { (line) } } }
        }
    }
}

fn basis(steps: &[OpenedStep]) -> Markup {
    html! {
        @if !steps.is_empty() {
            h3.part { "How the figure comes about" }
            (listed(steps))
        }
    }
}

/// Steps in the order of computation.
fn listed(steps: &[OpenedStep]) -> Markup {
    html! {
        ol.steps { @for step in steps {
            li {
                p.computes { (step.title) }
                dl { @for (label, text) in &step.lines {
                    div class={ "step-" (label) } { dt { (label) } dd { (text) } }
                } }
            }
        } }
    }
}

fn rule_words(rule: &Rule) -> Markup {
    let source = rule.source.to_string();
    let parts = [
        ("Checks", rule.checks),
        ("Why it matters", rule.why),
        ("Limit", rule.limit),
        ("Applies when", rule.applies),
        ("Source", source.as_str()),
    ];
    html! {
        details.rule {
            summary { "The rule " (rule.code) ", " (rule.name) }
            dl { @for (name, text) in parts { dt { (name) } dd { (text) } } }
        }
    }
}
