//! Every check and figure, each opening to its basis.

use super::steps::{Way, basis, down, listed};
use crate::page::verdict_mark;
use hardpan_assess::{Opening, Openings, Rule, formulas, rules};
use hardpan_model::{FigureBasis, Phase};
use hardpan_quantity::UnitSystem;
use hardpan_report::{
    DossierReport, FindingRow, Meant, Report, figure_title, opened, opened_apart, opened_basis,
    opened_figure, opened_whole, title_of_figure,
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
pub(super) fn findings(report: &Report, with: Opened<'_>, way: &Way<'_>) -> Markup {
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
                            @let steps = opened(report, index, &catalogue).unwrap_or_default();
                            (finding(row, index, &Below {
                                steps: basis(&steps, Some(&way.to(row.code.as_ref()))),
                                station: station(report, index),
                                is_open: false,
                            }))
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
pub(super) fn figures(report: &Report, way: &Way<'_>) -> Markup {
    let all = &report.assessment().figures;
    let catalogue = formulas();
    html! {
        div #other-figures { @if !all.is_empty() {
            section.findings.by-sight aria-labelledby="figures-name" {
                h2 #figures-name { "Every other figure" }
                @for (index, figure) in all.iter().enumerate() {
                    @let steps = opened_figure(report, index, &catalogue).unwrap_or_default();
                    (one_figure(
                        &title_of_figure(report, index).unwrap_or_default(),
                        &basis(&steps, Some(&way.to(&figure.name))),
                        false,
                    ))
                }
            }
        } }
    }
}

/// What is meant of a report, open and down to the files.
pub(crate) fn whole(report: &Report, openings: &Openings, meant: &Meant) -> Markup {
    let catalogue = formulas();
    let of_finding = |index: usize| {
        let row = report.findings.get(index)?;
        let opening = openings.of_finding(index)?;
        let steps = down(&opened_whole(report, &opening, &catalogue));
        Some(finding(row, index, &Below { steps, station: None, is_open: true }))
    };
    let of_figure = |index: usize| {
        let title = title_of_figure(report, index)?;
        let opening = openings.of_figure(index)?;
        Some(one_figure(&title, &down(&opened_whole(report, &opening, &catalogue)), true))
    };
    html! {
        section.findings {
            @for index in &meant.findings { @if let Some(one) = of_finding(*index) { (one) } }
            @for index in &meant.figures { @if let Some(one) = of_figure(*index) { (one) } }
        }
    }
}

/// Figures, each opening to its basis.
pub(crate) fn bases(figures: &[FigureBasis], units: UnitSystem) -> Markup {
    let catalogue = formulas();
    html! {
        @for figure in figures {
            @let steps = listed(&opened_basis(figure, &catalogue, units));
            (one_figure(&figure_title(figure, units), &steps, false))
        }
    }
}

/// Figures of no assessment, each opening down to the files.
pub(crate) fn bases_down(
    figures: &[FigureBasis],
    openings: &[Opening],
    units: UnitSystem,
) -> Markup {
    let catalogue = formulas();
    html! {
        @for (figure, opening) in figures.iter().zip(openings) {
            @let steps = down(&opened_apart(opening, &catalogue, units));
            (one_figure(&figure_title(figure, units), &steps, false))
        }
    }
}

fn one_figure(title: &str, steps: &Markup, is_open: bool) -> Markup {
    html! {
        details.finding open[is_open] {
            summary { span.title { (title) } }
            div.opened { (steps) }
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
                @let steps = report.opened(index, &catalogue).unwrap_or_default();
                (finding(row, index, &Below {
                    steps: basis(&steps, None),
                    station: None,
                    is_open: false,
                }))
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

/// What stands below a finding.
struct Below {
    steps: Markup,
    /// Where to show it along the strip, metres.
    station: Option<f64>,
    is_open: bool,
}

fn finding(row: &FindingRow, index: usize, below: &Below) -> Markup {
    html! {
        details.finding id=[(!below.is_open).then(|| format!("f-{index}"))] open[below.is_open] {
            (summary(row))
            div.opened {
                p { (row.because) }
                @if let Some(instruction) = &row.instruction {
                    p.instruction { strong { "Do: " } (instruction) }
                }
                @if let Some(station) = below.station {
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
                (below.steps)
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
