//! Landing, take-off and rejected take-off as arrows over the strip.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::frame::{Frame, Size};
use super::labels::{Wanted, fitted, spread, text_width};
use super::palette::{GREY, INK};
use crate::measure::station_number;
use crate::wrap::plain;
use hardpan_model::{RunEvent, RunEventKind, RunPoint, RunTrace};
use hardpan_quantity::{Length, Quantity};

/// Runs drawn at most.
const MOST: usize = 4;
/// Height over the ground from which a run is drawn as flown, metres.
const FLOWN: f64 = 0.02;

/// Word of an event.
#[must_use]
pub const fn event_word(kind: RunEventKind) -> &'static str {
    match kind {
        RunEventKind::BrakeRelease => "brake release",
        RunEventKind::EngineFailure => "engine failure",
        RunEventKind::Decision => "decision",
        RunEventKind::Rotation => "rotation",
        RunEventKind::LiftOff => "lift-off",
        RunEventKind::Screen => "screen height",
        RunEventKind::Touchdown => "touchdown",
        RunEventKind::BrakesOn => "brakes on",
        RunEventKind::Stop => "stop",
    }
}

/// Label and importance of an event, the least number first.
#[must_use]
pub const fn event_label(kind: RunEventKind) -> (&'static str, u8) {
    match kind {
        RunEventKind::Touchdown => ("touchdown", 0),
        RunEventKind::Stop => ("stop", 1),
        RunEventKind::Decision => ("V1", 2),
        RunEventKind::LiftOff => ("lift-off", 3),
        RunEventKind::Rotation => ("VR", 4),
        RunEventKind::BrakesOn => ("brakes on", 5),
        RunEventKind::Screen => ("screen", 6),
        RunEventKind::EngineFailure => ("engine fails", 7),
        RunEventKind::BrakeRelease => ("brakes off", 8),
    }
}

/// One row for each run; returns the place below the rows.
pub(super) fn draw(canvas: &mut Canvas, frame: &Frame<'_>, top: f64) -> f64 {
    let height = match frame.size {
        Size::Card => 6.0,
        Size::Full => 7.4,
    };
    let mut y = top;
    if frame.sketch.runs.is_empty() {
        let how = Type::new(frame.type_size(), Anchor::Start).coloured(GREY);
        canvas.text((frame.ends().0, top + height - 2.0), "no run was computed", how);
        return top + height;
    }
    for (name, run) in frame.sketch.runs.iter().take(MOST) {
        row(canvas, frame, y + height - 1.5, name, run);
        y += height;
    }
    y
}

fn row(canvas: &mut Canvas, frame: &Frame<'_>, y: f64, name: &str, run: &RunTrace) {
    let (left, _) = frame.ends();
    let size = frame.type_size();
    let text = fitted(&plain(name), size, false, left - 6.0);
    canvas.text((left - 5.5, y + 0.8), &text, Type::new(size, Anchor::End));
    for (flown, from, to) in parts(&run.points) {
        let pen = Pen::new(INK, if flown { 0.3 } else { 0.55 });
        let pen = if flown { pen.dashed("0.9 0.9") } else { pen };
        let (from, to) = (frame.stations.within(from), frame.stations.within(to));
        canvas.line((from, y), (to, y), pen);
    }
    arrow(canvas, frame, y, &run.points);
    events(canvas, frame, y, &run.events);
}

fn is_flown(point: &RunPoint) -> bool {
    point.height.si() > FLOWN
}

/// The run cut where the wheels leave or meet the ground, each part with
/// whether it is flown. The way between a point in the air and one on the
/// ground is flown.
fn parts(points: &[RunPoint]) -> Vec<(bool, f64, f64)> {
    let points: Vec<RunPoint> =
        points.iter().copied().filter(|point| point.station.si().is_finite()).collect();
    let mut out: Vec<(bool, f64, f64)> = Vec::new();
    for pair in points.windows(2) {
        let [from, to] = pair else { continue };
        let flown = is_flown(from) || is_flown(to);
        match out.last_mut() {
            Some((before, _, end)) if *before == flown => *end = to.station.si(),
            _ => out.push((flown, from.station.si(), to.station.si())),
        }
    }
    out
}

fn arrow(canvas: &mut Canvas, frame: &Frame<'_>, y: f64, points: &[RunPoint]) {
    let stations = || points.iter().map(|point| point.station.si()).filter(|s| s.is_finite());
    if let (Some(first), Some(last)) = (stations().next(), stations().next_back()) {
        let way = if last < first { -1.0 } else { 1.0 };
        let tip = frame.stations.within(last);
        let back = tip - way * 1.9;
        canvas.area(&[(tip, y), (back, y - 0.85), (back, y + 0.85)], INK, "");
    }
}

fn events(canvas: &mut Canvas, frame: &Frame<'_>, y: f64, events: &[RunEvent]) {
    let (low, high) = frame.stations.values();
    let size = frame.type_size();
    let mut shown: Vec<&RunEvent> = events
        .iter()
        .filter(|event| event.station.si() >= low - 1e-6 && event.station.si() <= high + 1e-6)
        .collect();
    shown.sort_by_key(|event| event_label(event.kind).1);
    let most = if frame.size == Size::Card { 4 } else { 8 };
    let texts: Vec<String> = shown.iter().map(|event| event_text(frame, event)).collect();
    let wanted: Vec<Wanted> = shown
        .iter()
        .zip(&texts)
        .map(|(event, text)| {
            let short = text_width(event_label(event.kind).0, size, true);
            Wanted { at: frame.at(event.station), widths: (text_width(text, size, true), short) }
        })
        .collect();
    let (left, right) = frame.ends();
    let placed = spread(&wanted, (left - 3.0, right + 8.0), 1);
    for (index, (event, text)) in shown.iter().zip(&texts).enumerate() {
        let x = frame.at(event.station);
        canvas.line((x, y - 0.9), (x, y + 0.9), Pen::new(INK, 0.35));
        if let (Some(Some(place)), true) = (placed.get(index), index < most) {
            let how = Type::new(size, Anchor::Middle).strong();
            let text = if place.short { event_label(event.kind).0 } else { text.as_str() };
            canvas.text((place.middle, y - 1.9), text, how);
        }
    }
    if events.is_empty() {
        let how = Type::new(size, Anchor::Start).coloured(GREY);
        canvas.text((left, y - 1.9), "no events known", how);
    }
}

fn event_text(frame: &Frame<'_>, event: &RunEvent) -> String {
    let station: Length = event.station;
    format!("{} {}", event_label(event.kind).0, station_number(station, frame.units))
}
