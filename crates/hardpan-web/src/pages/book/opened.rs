//! Figures of a book that open to their formula, source and entries.

use super::Shown;
use hardpan_book::{Opened, counting_formulas};
use hardpan_model::{BasisInput, EntryRange, FigureBasis, InputFrom};
use hardpan_quantity::UnitSystem;
use hardpan_report::{entries_text, figure_title, opened_basis};
use maud::{Markup, html};

/// Where the entries of a book are read.
pub(super) struct Entries<'a> {
    address: &'a str,
    units: UnitSystem,
}

impl<'a> Entries<'a> {
    pub(super) fn of(shown: &'a Shown, units: UnitSystem) -> Self {
        Self { address: &shown.address, units }
    }

    /// The page of an entry.
    fn place(&self, id: i64) -> String {
        let units = if self.units == UnitSystem::Imperial { "?units=imperial" } else { "" };
        format!("{}/entries/{id}{units}", self.address)
    }

    /// What an input comes from: entries are linked, each range by its ends.
    fn links(&self, ranges: &[EntryRange]) -> Markup {
        let link = |id: i64| html! { a href=(self.place(id)) { (id) } };
        html! {
            @match ranges {
                [] => "no entry",
                [one] if one.first == one.last => { "entry " (link(one.first)) },
                _ => { "entries " @for (at, one) in ranges.iter().enumerate() {
                    @if at > 0 { ", " }
                    (link(one.first)) @if one.last > one.first { " to " (link(one.last)) }
                } },
            }
        }
    }

    /// Figures that open, behind one line that says what they are.
    pub(super) fn how(&self, what: &str, figures: &[FigureBasis]) -> Markup {
        html! {
            @if !figures.is_empty() {
                details.how {
                    summary { "How " (what) " come about" }
                    section.findings { @for figure in figures { (self.figure(figure)) } }
                }
            }
        }
    }

    fn figure(&self, figure: &FigureBasis) -> Markup {
        let steps = opened_basis(figure, &counting_formulas(), self.units);
        html! {
            details.finding {
                summary { span.title { (figure_title(figure, self.units)) } }
                div.opened { ol.steps { @for (step, opened) in figure.basis.steps.iter().zip(&steps) {
                    li {
                        p.computes { (opened.title) }
                        @let first = opened.lines.len().saturating_sub(step.inputs.len());
                        dl { @for (at, (label, text)) in opened.lines.iter().enumerate() {
                            @let input = at.checked_sub(first).and_then(|at| step.inputs.get(at));
                            div class={ "step-" (label) } { dt { (label) } dd { (self.line(text, input)) } }
                        } }
                    }
                } } }
            }
        }
    }

    fn line(&self, text: &str, input: Option<&BasisInput>) -> Markup {
        if let Some(InputFrom::Entries(ranges)) = input.map(|input| &input.from)
            && let Some(before) = text.strip_suffix(&entries_text(ranges))
        {
            return html! { (before) (self.links(ranges)) };
        }
        html! { (text) }
    }
}

/// Figures without the names that their values have in JSON.
pub(super) fn figures(opened: Opened) -> Vec<FigureBasis> {
    opened.into_iter().map(|(_, figure)| figure).collect()
}
