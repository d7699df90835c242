//! Which checks hold where: one bar for each finding with a place.

use super::axis::Axis;
use crate::desk::Judged;
use hardpan_model::{Finding, Verdict};
use hardpan_quantity::{Quantity as _, counted};
use hardpan_report::{Report, verdict_symbol};
use maud::{Markup, html};

/// Height of a row of bars, pixels.
const ROW: f64 = 19.0;
/// Room that the least bar and its words take, as a share of the page.
const LEAST: f64 = 0.066;
/// Share of the strip from which a check counts as one of the whole strip.
const WHOLE: f64 = 0.9;
/// Most rows.
const MOST: usize = 8;

struct Bar<'a> {
    index: usize,
    finding: &'a Finding,
    from: f64,
    to: f64,
    row: usize,
}

/// The bars, the worst first in the upper rows; whole-strip checks are counted.
pub(super) fn band(axis: &Axis, report: &Report, judged: &Judged) -> Markup {
    let findings = &judged.assessment.findings;
    let mut placed: Vec<(usize, &Finding, f64, f64)> = findings
        .iter()
        .enumerate()
        .filter_map(|(index, finding)| {
            let place = finding.place?;
            let ends = (axis.share(place.from.si()), axis.share(place.to.si()));
            Some((index, finding, ends.0.min(ends.1), ends.0.max(ends.1)))
        })
        .collect();
    placed.sort_by(|a, b| b.1.verdict.cmp(&a.1.verdict).then(a.2.total_cmp(&b.2)));
    let whole = placed.iter().filter(|(.., from, to)| to - from >= WHOLE).count();
    placed.retain(|(.., from, to)| to - from < WHOLE);
    let placed_count = placed.len();
    let bars = stacked(placed);
    let crowded = placed_count - bars.len();
    let rows = bars.iter().map(|bar| bar.row + 1).max().unwrap_or(0);
    html! {
        div.band.band-checks {
            div.name {
                h3 { "Checks by place" }
                @if whole > 0 { p.size { (counted(whole, "more holds", "more hold")) " for the whole strip" } }
                @if crowded > 0 {
                    p.size { (counted(crowded, "has", "have")) " no room here; every check stands below" }
                }
            }
            div.plot {
                @if bars.is_empty() { p.nothing { "no check has a place of its own" } }
                @else {
                    svg width="100%" height=(rows as f64 * ROW + 4.0) role="group"
                        aria-label="Checks by place, each a link to its finding" {
                        @for bar in &bars { (show(axis, report, bar)) }
                    }
                }
            }
        }
    }
}

/// Bars in as few rows as leave room for their words.
fn stacked(placed: Vec<(usize, &Finding, f64, f64)>) -> Vec<Bar<'_>> {
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut bars = Vec::new();
    for (index, finding, from, to) in placed {
        let (from_drawn, end) = room(from, to);
        let free = |row: &Vec<(f64, f64)>| row.iter().all(|(a, b)| end <= *a || from_drawn >= *b);
        let row = taken.iter().position(free).unwrap_or(taken.len());
        if row >= MOST {
            continue;
        }
        if row == taken.len() {
            taken.push(Vec::new());
        }
        if let Some(row) = taken.get_mut(row) {
            row.push((from_drawn, end));
        }
        bars.push(Bar { index, finding, from, to, row });
    }
    bars
}

/// From where to where a bar and its words reach. The words of a narrow bar
/// stand after it, or before it near the end of the strip.
fn room(from: f64, to: f64) -> (f64, f64) {
    match (to - from < LEAST, from > 1.0 - LEAST) {
        (false, _) => (from, to),
        (true, false) => (from, to + LEAST),
        (true, true) => (from - LEAST, to),
    }
}

fn show(axis: &Axis, report: &Report, bar: &Bar<'_>) -> Markup {
    let y = bar.row as f64 * ROW + 2.0;
    let width = (bar.to - bar.from).max(0.004);
    let words = report
        .findings
        .get(bar.index)
        .map(|row| format!("{} {}: {}", row.code, row.title, bar.finding.verdict.word()));
    let narrow = bar.to - bar.from < LEAST;
    let at_end = bar.from > 1.0 - LEAST;
    let x = if narrow && !at_end { bar.to.max(bar.from + 0.004) } else { bar.from };
    let station = (bar.from + bar.to) / 2.0 * axis.last();
    let quiet = if bar.finding.verdict == Verdict::Pass { " quiet" } else { "" };
    html! {
        a.bar href={ "#f-" (bar.index) } data-at=(format!("{station:.1}"))
            aria-label=[words.clone()] {
            title { (words.unwrap_or_default()) }
            rect class={ "bar-body v-" (bar.finding.verdict.word()) }
                x=(super::axis::percent(bar.from)) y=(y)
                width=(super::axis::percent(width)) height=(ROW - 4.0) {}
            text class={ "bar-word" (quiet) } x=(super::axis::percent(x)) y=(y + 11.5)
                dx=(if at_end { "-3" } else { "3" })
                text-anchor=(if at_end { "end" } else { "start" }) {
                (verdict_symbol(bar.finding.verdict)) " " (bar.finding.code)
            }
        }
    }
}
