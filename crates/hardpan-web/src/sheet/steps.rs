//! The steps of a figure, and the way from them down to the files.

use crate::pages::basis::address;
use crate::query::Query;
use hardpan_report::{OpenedStep, OpenedWhole};
use maud::{Markup, html};

/// Where the figures of a flight open down to the files.
pub(super) struct Way<'a> {
    pub(super) slug: &'a str,
    pub(super) query: &'a Query,
}

impl Way<'_> {
    /// The address of a check or figure.
    pub(super) fn to(&self, figure: &str) -> String {
        address(self.slug, self.query, figure)
    }
}

/// The steps of a figure itself; the script of the sheet puts those behind them in their
/// place when they are asked for at their address.
pub(super) fn basis(steps: &[OpenedStep], deeper: Option<&str>) -> Markup {
    html! {
        @if !steps.is_empty() {
            div.basis {
                h3.part { "How the figure comes about" }
                (listed(steps))
                @if let Some(address) = deeper {
                    p { a.deeper href=(address) { "All the way down to the files" } }
                }
            }
        }
    }
}

/// A figure opened to the end: its own steps, then those that they rest on.
pub(super) fn down(opened: &OpenedWhole) -> Markup {
    html! {
        @if !opened.own.is_empty() {
            div.basis {
                h3.part { "How the figure comes about" }
                (listed(&opened.own))
                @for ((of, steps), first) in opened.further.iter().zip(opened.first_numbers()) {
                    h4.part { "From " (of) }
                    (numbered(steps, first))
                }
            }
        }
    }
}

/// Steps in the order of computation.
pub(super) fn listed(steps: &[OpenedStep]) -> Markup {
    numbered(steps, 1)
}

fn numbered(steps: &[OpenedStep], first: usize) -> Markup {
    html! {
        ol.steps start=[(first > 1).then_some(first)] { @for step in steps {
            li {
                p.computes { (step.title) }
                dl { @for (label, text) in &step.lines {
                    div class={ "step-" (label) } { dt { (label) } dd { (text) } }
                } }
            }
        } }
    }
}
