//! Landing, take-off and rejected take-off over the ribbon, and what happens where.

use super::axis::{Axis, percent};
use super::label::{anchor, class, shown};
use super::plot::stretched;
use hardpan_assess::Sketch;
use hardpan_model::{RunEvent, RunTrace};
use hardpan_quantity::Quantity as _;
use hardpan_report::{event_label, event_word, station_number, station_unit};
use maud::{Markup, html};

/// Height of one row, pixels, and of the line in it.
const ROW: (f64, f64) = (30.0, 22.0);
/// Height over the ground from which a run is drawn as flown, metres.
const FLOWN: f64 = 0.02;
/// Lines of runs as classes, in the order of the runs.
pub(super) const CLASSES: [&str; 3] = ["run-0", "run-1", "run-2"];

/// One row a run.
pub(super) fn rows(axis: &Axis, sketch: &Sketch) -> Markup {
    html! {
        @if sketch.runs.is_empty() {
            div.band.band-run {
                div.name { h3 { "Runs" } }
                div.plot { p.nothing { "no run was computed" } }
            }
        }
        @for (name, run) in sketch.runs.iter().take(CLASSES.len()) {
            div.band.band-run {
                div.name { h3 { (name) } }
                div.plot role="img" aria-label=(words(axis, name, run)) { (row(axis, run)) }
            }
        }
    }
}

fn row(axis: &Axis, run: &RunTrace) -> Markup {
    let (height, y) = ROW;
    let stations = || run.points.iter().map(|point| point.station.si()).filter(|s| s.is_finite());
    let (first, last) = (stations().next(), stations().next_back());
    html! {
        svg width="100%" height=(height) aria-hidden="true" focusable="false" {
            (stretched(height, &html! {
                @for (flown, from, to) in parts(run) {
                    path class=(if flown { "way flown" } else { "way" })
                        d={ "M" (inside(axis, from)) " " (y) "H" (inside(axis, to)) } {}
                }
            }))
            @if let (Some(first), Some(last)) = (first, last) {
                @let way = if last < first { "M8 -5L0 0L8 5Z" } else { "M-8 -5L0 0L-8 5Z" };
                svg.arrow x=(axis.at(last)) y=(y) width="1" height="1" overflow="visible" {
                    path d=(way) {}
                }
            }
            (events(axis, run, y))
        }
    }
}

fn inside(axis: &Axis, station: f64) -> String {
    super::plot::number(axis.across(station.clamp(0.0, axis.last())))
}

/// The run cut where the wheels leave or meet the ground.
fn parts(run: &RunTrace) -> Vec<(bool, f64, f64)> {
    let mut out: Vec<(bool, f64, f64)> = Vec::new();
    let points = run.points.iter().filter(|point| point.station.si().is_finite());
    let points: Vec<(f64, bool)> =
        points.map(|point| (point.station.si(), point.height.si() > FLOWN)).collect();
    for pair in points.windows(2) {
        let [(from, up), (to, still_up)] = pair else { continue };
        let flown = *up || *still_up;
        match out.last_mut() {
            Some((before, _, end)) if *before == flown => *end = *to,
            _ => out.push((flown, *from, *to)),
        }
    }
    out
}

fn on_strip<'a>(axis: &Axis, run: &'a RunTrace) -> Vec<&'a RunEvent> {
    let within = |event: &&RunEvent| (-1e-6..=axis.last() + 1e-6).contains(&event.station.si());
    let mut events: Vec<&RunEvent> = run.events.iter().filter(within).collect();
    events.sort_by_key(|event| event_label(event.kind).1);
    events
}

fn events(axis: &Axis, run: &RunTrace, y: f64) -> Markup {
    let events = on_strip(axis, run);
    let texts: Vec<(f64, String)> = events
        .iter()
        .map(|event| {
            let station = station_number(event.station, axis.units());
            let text = format!("{} {station}", event_label(event.kind).0);
            (axis.share(event.station.si()), text)
        })
        .collect();
    let wanted: Vec<(f64, &str)> = texts.iter().map(|(at, text)| (*at, text.as_str())).collect();
    html! {
        @for ((share, text), fits) in texts.iter().zip(shown(&wanted)) {
            @let place = percent(*share);
            line.event x1=(place) x2=(place) y1=(y - 5.0) y2=(y + 5.0) {}
            text class=(class(fits)) x=(place) y="12" text-anchor=(anchor(*share)) { (text) }
        }
    }
}

fn words(axis: &Axis, name: &str, run: &RunTrace) -> String {
    let (symbol, _) = station_unit(axis.units());
    let events = run.events.iter().map(|event| {
        let station = station_number(event.station, axis.units());
        format!(" {} at {station} {symbol}", event_word(event.kind))
    });
    format!("{name}:{}", events.collect::<Vec<_>>().join(","))
}
