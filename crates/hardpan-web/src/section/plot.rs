//! One band of the section: its name and figures at the left, its drawing at
//! the right.

use super::axis::{Axis, WIDTH};
use super::values::Values;
use hardpan_report::Scale;
use maud::{Markup, html};
use std::fmt::Write as _;

/// A band of the section.
pub(super) struct Band {
    pub(super) id: &'static str,
    pub(super) name: &'static str,
    /// Unit of the scale at its left edge.
    pub(super) unit: &'static str,
    /// What each line or fill means, with its class and the row of values that
    /// belongs to it.
    pub(super) keys: Vec<(&'static str, String, Option<String>)>,
    /// The drawing, or why there is none.
    pub(super) drawing: Markup,
    /// What the drawing shows, for those who cannot see it.
    pub(super) words: String,
}

impl Band {
    pub(super) fn show(&self, values: &Values, start: usize) -> Markup {
        html! {
            div class={ "band band-" (self.id) } {
                div.name {
                    h3 { (self.name) @if !self.unit.is_empty() { ", " (self.unit) } }
                    dl {
                        @for (class, word, row) in &self.keys {
                            div {
                                dt { (sample(class)) (word) }
                                @if let Some(row) = row {
                                    dd data-row=(row) { (values.value(row, start)) }
                                }
                            }
                        }
                    }
                }
                div.plot role="img" aria-label=(self.words) { (self.drawing) }
            }
        }
    }
}

/// A short piece of a line or a fill.
fn sample(class: &str) -> Markup {
    html! {
        svg.sample width="22" height="10" aria-hidden="true" focusable="false" {
            @if let Some(fill) = class.strip_prefix("fill ") {
                rect class={ "stretch " (fill) } x="1" y="0.5" width="20" height="9" {}
            } @else {
                line class={ "line " (class) } x1="0" x2="22" y1="5" y2="5" {}
            }
        }
    }
}

/// A drawing of a height in pixels with a scale of values, and what lies in it.
pub(super) fn drawing(height: f64, scale: Option<(&Scale, f64)>, inside: &Markup) -> Markup {
    let ticks = scale.map(|(scale, unit)| scale.ticks(unit, 3)).unwrap_or_default();
    html! {
        svg width="100%" height=(height) aria-hidden="true" focusable="false" {
            @if let Some((scale, _)) = scale {
                @for (_, value) in &ticks {
                    @let y = number(scale.at(*value));
                    line.grid x1="0" x2="100%" y1=(y) y2=(y) {}
                }
            }
            (inside)
            line.axis x1="0" x2="100%" y1=(number(height - 0.5)) y2=(number(height - 0.5)) {}
            @if let Some((scale, _)) = scale {
                @for (shown, value) in &ticks {
                    text.scale-number x="3" y=(number(scale.at(*value) - 3.0)) { (shown_number(*shown)) }
                }
            }
        }
    }
}

/// Lines that stretch with the page.
pub(super) fn stretched(height: f64, lines: &Markup) -> Markup {
    html! {
        svg.stretched x="0" y="0" width="100%" height=(height)
            viewBox={ "0 0 " (WIDTH) " " (height) } preserveAspectRatio="none" { (lines) }
    }
}

/// A line through points of station and value.
pub(super) fn path(axis: &Axis, scale: &Scale, points: &[(f64, f64)]) -> String {
    let mut out = String::new();
    for (index, (station, value)) in points.iter().enumerate() {
        let letter = if index == 0 { 'M' } else { 'L' };
        let (x, y) = (axis.across(*station), scale.at(*value));
        let _ = write!(out, "{letter}{} {}", number(x), number(y));
    }
    out
}

/// A band without figures says so.
pub(super) fn nothing(words: &str) -> Markup {
    html! { p.nothing { (words) } }
}

pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or_else(|| text.clone(), str::to_owned)
}

fn shown_number(value: f64) -> String {
    let text = if (value - value.round()).abs() < 1e-6 {
        format!("{value:.0}")
    } else {
        format!("{value:.2}").trim_end_matches('0').to_owned()
    };
    text.replace('-', "−")
}
