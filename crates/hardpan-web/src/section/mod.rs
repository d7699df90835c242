//! The strip laid across the page: every band lies over the same stations, one
//! cursor goes through all of them, and each band says what stands there.
//!
//! Lines stretch with the page and letters do not: places along the strip are
//! percentages of its length.

mod axis;
mod bands;
mod checks;
mod label;
mod lying;
mod pieces;
mod plot;
mod ribbon;
mod runs;
mod values;

use crate::desk::Judged;
use axis::Axis;
use hardpan_quantity::Quantity as _;
use hardpan_report::{Report, station_unit};
use maud::{Markup, PreEscaped, html};
use values::Values;

/// The section of a flight; a word in its place when the strip has no length. `opens` is
/// the address at which the readings of a station open, without the station.
pub(crate) fn section(judged: &Judged, report: &Report, opens: &str) -> Markup {
    let sketch = &judged.assessment.sketch;
    let Some(axis) = Axis::of(sketch, report.units) else {
        return html! {
            section.section.empty { p {
                "The strip file states no length and the survey has none, so that nothing can be \
                 laid along it."
            } }
        };
    };
    let values = Values::of(judged, &axis);
    let start = values.nearest(first_place(report, judged));
    let bands = [
        bands::level(&axis, &judged.assessment),
        bands::strength(&axis, &judged.assessment),
        lying::lying(&axis, judged),
        bands::speed(&axis, &judged.assessment),
        bands::thrust(&axis, &judged.assessment),
        lying::stones(&axis, judged),
        bands::friction(&axis, &judged.assessment),
        bands::load(&axis, &judged.assessment),
    ];
    html! {
        section.section #section aria-labelledby="section-name" data-start=(start) {
            h2 #section-name { "Along the strip" }
            (patterns())
            div.bands {
                div.cursor aria-hidden="true" { span.plumb {} }
                (runs::rows(&axis, sketch))
                (ribbon::band(&axis, sketch))
                (ruler(&axis, &values, start))
                (checks::band(&axis, report, judged))
                @for band in &bands { (band.show(&values, start)) }
            }
            (table(&values, start, opens))
            script #values type="application/json" { (PreEscaped(values.json())) }
        }
    }
}

/// Where the cursor stands first: at what governs, or else at the first mark.
fn first_place(report: &Report, judged: &Judged) -> f64 {
    let governs = report.answer.governing.and_then(|index| judged.assessment.findings.get(index));
    let place = governs.and_then(|finding| finding.place).map(|place| (place.from, place.to));
    let mark = judged.assessment.sketch.marks.first().map(|mark| (mark.from, mark.to));
    place.or(mark).map_or(0.0, |(from, to)| (from.si() + to.si()) / 2.0)
}

/// The station axis as something to take hold of.
fn ruler(axis: &Axis, values: &Values, start: usize) -> Markup {
    let (symbol, _) = station_unit(axis.units());
    let station = values.label(start);
    html! {
        div.band.ruler {
            div.name {
                label for="station" { "Station, " (symbol) }
                output.here for="station" { (station) }
            }
            div.plot {
                input #station type="range" min="0" max=(values.last()) step="1" value=(start)
                    aria-valuetext=(station)
                    aria-describedby="station-help";
                (axis.drawing())
                span #station-help .unseen {
                    "Arrow keys move the cursor along the strip, page keys move it further, Home \
                     and End to its ends."
                }
            }
        }
    }
}

/// Everything at the station of the cursor, as a table.
fn table(values: &Values, start: usize, opens: &str) -> Markup {
    html! {
        div.readout {
            h3 { "At station " output.here { (values.label(start)) } }
            p.live #live aria-live="polite" {}
            p { a #station-opened data-query data-opens=(opens)
                href={ (opens) (values.label(start).replace(' ', "+")) } {
                "How these readings come about"
            } }
            table {
                tbody {
                    @for row in values.rows() {
                        tr {
                            th scope="row" { (row.name) }
                            td data-row=(row.id) { (row.at(start)) }
                        }
                    }
                }
            }
        }
    }
}

/// Fills that say what a place is without colour, as on the card.
fn patterns() -> Markup {
    let tile = |id: &str, width: &str, height: &str, shape: Markup| {
        html! {
            pattern id=(id) width=(width) height=(height) patternUnits="userSpaceOnUse" {
                rect.tile width=(width) height=(height) {}
                g.mark { (shape) }
            }
        }
    };
    html! {
        svg.patterns width="0" height="0" aria-hidden="true" focusable="false" {
            defs {
                (tile("p-soft", "7", "7", html! { path d="M-2 2L2-2M0 7L7 0M5 9L9 5" {} }))
                (tile("p-bump", "4", "4", html! { path d="M2 0V4" {} }))
                (tile("p-rut", "10", "7", html! { path d="M0 3.5H7" {} }))
                (tile("p-water", "12", "7", html! { path d="M0 3.5Q3 .5 6 3.5T12 3.5" {} }))
                (tile("p-loose", "8", "8", html! {
                    circle cx="2" cy="2" r=".9" {} circle cx="6" cy="6" r=".9" {}
                }))
                (tile("p-unknown", "12", "12", html! { path d="M0 0L12 12M0 12L12 0" {} }))
                (tile("p-deficit", "5", "5", html! {
                    path.alert d="M-1 1L1-1M0 5L5 0M4 6L6 4" {}
                }))
            }
        }
    }
}
