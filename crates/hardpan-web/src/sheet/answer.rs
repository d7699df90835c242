//! The answer with what governs it and the margins, always in sight.

use crate::desk::{Judged, Wanted};
use crate::page::verdict_mark;
use crate::query::Query;
use hardpan_report::{DistanceLine, MassBlock, Report, glued};
use maud::{Markup, html};

/// The answer with what the books say of the strip; it stays at the top of the page.
pub(super) fn answer(judged: &Judged, report: &Report, query: &Query, books: &Markup) -> Markup {
    let verdict = report.answer.verdict;
    html! {
        section #answer class={ "answer v-" (verdict.word()) } aria-labelledby="verdict"
            data-took=(format!("{:.2}", judged.took.as_secs_f64())) {
            div.stamp #verdict { (verdict_mark(verdict)) }
            div.said {
                p.sentence { (report.answer.sentence) }
                @if let (Some(line), Some(index)) =
                    (&report.answer.governing_line, report.answer.governing) {
                    p.governs { "Governs: " a href={ "#f-" (index) } { (glued(line)) } }
                }
                (books)
                @if !query.changes.is_empty() {
                    p.changed {
                        "With changes that no file has: " (query.words()) ". "
                        a href={ "?" (query.unchanged().text().trim_start_matches('?')) } {
                            "As in the files"
                        }
                    }
                }
            }
            dl.margins { (margins(report)) }
            div.why {
                @if !report.account.is_empty() || judged.wanted == Wanted::Answer {
                    details.account #why {
                        summary { "Why, in plain words" }
                        @if report.account.is_empty() { p { "This is on its way." } }
                        dl { @for (asked, said) in &report.account { dt { (asked) } dd { (said) } } }
                    }
                }
                p.old-word role="status" {}
            }
            p.caution { (report.caution) }
        }
    }
}

fn margins(report: &Report) -> Markup {
    let tightest = report
        .distances
        .iter()
        .filter(|line| line.share.is_some())
        .max_by(|a, b| a.share.unwrap_or(0.0).total_cmp(&b.share.unwrap_or(0.0)));
    html! {
        @for mass in &report.masses { (mass_margin(mass)) }
        div {
            dt { "tyre pressure" }
            dd { strong { (report.tyre.set.as_deref().unwrap_or("not known")) } }
            @if let Some(range) = &report.tyre.range {
                dd.of { @if !range.starts_with("at ") { "of " } (range) }
            }
        }
        @if let Some(line) = tightest { (distance_margin(line)) }
        @if let Some(row) = report.governing() {
            @if let Some(margin) = &row.margin {
                div { dt { "margin of " (row.code) } dd { strong { (margin) } } }
            }
        }
    }
}

fn mass_margin(mass: &MassBlock) -> Markup {
    html! {
        div {
            dt { (mass.name) }
            dd { strong { (mass.planned.as_deref().unwrap_or("not stated")) } }
            dd.of {
                @match &mass.largest {
                    Some(largest) => { "at most " (largest) }
                    None => { "largest: " (mass.largest_or_why()) }
                }
            }
        }
    }
}

fn distance_margin(line: &DistanceLine) -> Markup {
    html! {
        div {
            dt { (line.name) }
            dd { strong { (line.needed) } }
            @if let Some(available) = &line.available { dd.of { "of " (available) } }
        }
    }
}
