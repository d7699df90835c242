//! Distances to go on and to stop against the decision speed. Dashes, signs and
//! words carry the meaning.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::palette::{ALERT, FAINT, GREY, INK, PALE};
use super::scale::Scale;
use crate::Report;
use crate::measure::{quantity_text, station_unit, whole};
use hardpan_assess::DecisionPicture;
use hardpan_quantity::{Length, Quantity as _, Speed, UnitSystem};

const WIDTH: f64 = 200.0;
const LEFT: f64 = 22.0;
const RIGHT: f64 = 34.0;
const TOP: f64 = 20.0;
const HEIGHT: f64 = 92.0;
const KNOT: f64 = 1852.0 / 3600.0;
/// Letters of the caution on a line.
const CAUTION_LETTERS: usize = 100;

/// Distances to go on and to stop by decision speed, about 200 mm wide.
///
/// A self-contained SVG document. Where no decision speed is known it says so.
#[must_use]
pub fn decision_figure(report: &Report) -> String {
    let mut canvas = Canvas::new(WIDTH);
    let Some(picture) = &report.assessment.decision else {
        let how = Type::new(3.4, Anchor::Middle).coloured(GREY);
        canvas.text((WIDTH / 2.0, 12.0), "no decision speed is known", how);
        return canvas.finish(20.0, "Decision speed", "No decision speed is known.");
    };
    let view = View::new(picture, report.units);
    heading(&mut canvas, &view);
    axes(&mut canvas, &view);
    allowed(&mut canvas, &view);
    available(&mut canvas, &view);
    curves(&mut canvas, &view);
    speeds(&mut canvas, &view);
    let mut y = TOP + HEIGHT + 18.0;
    let caution = Type::new(2.6, Anchor::Start).coloured(GREY);
    for line in textwrap::wrap(report.caution, CAUTION_LETTERS) {
        canvas.text((LEFT, y), &line, caution);
        y += 3.8;
    }
    canvas.finish(y + 1.0, "Decision speed", &describe(picture, report.units))
}

struct View<'a> {
    picture: &'a DecisionPicture,
    units: UnitSystem,
    across: Scale,
    up: Scale,
}

impl<'a> View<'a> {
    fn new(picture: &'a DecisionPicture, units: UnitSystem) -> Self {
        let speeds = picture.points.iter().map(|point| point.speed.si());
        let speeds = speeds.chain([picture.chosen.si(), picture.rotation.si()]);
        let (slowest, fastest) =
            (speeds.clone().fold(f64::MAX, f64::min), speeds.fold(0.0, f64::max));
        let room = (0.04 * (fastest - slowest)).max(0.5 * KNOT);
        let available = [picture.take_off_distance, picture.accelerate_stop];
        let lengths = picture.points.iter().flat_map(|point| [point.go, Some(point.stop)]);
        let lengths = lengths.chain(available).chain([Some(picture.all_engines)]).flatten();
        let lengths = lengths.map(|length| length.si());
        let (least, most) = (lengths.clone().fold(f64::MAX, f64::min), lengths.fold(0.0, f64::max));
        let margin = (0.08 * (most - least)).max(20.0);
        Self {
            picture,
            units,
            across: Scale::new((slowest - room, fastest + room), (LEFT, WIDTH - RIGHT)),
            up: Scale::new((least - margin, most + margin), (TOP + HEIGHT, TOP)),
        }
    }

    fn x(&self, speed: Speed) -> f64 {
        self.across.at(speed.si())
    }

    fn y(&self, length: Length) -> f64 {
        self.up.at(length.si())
    }
}

fn heading(canvas: &mut Canvas, view: &View<'_>) {
    let title = "Distances from brake release by decision speed V1";
    canvas.text((LEFT, 5.5), title, Type::new(3.6, Anchor::Start).strong());
    let all = quantity_text(view.picture.all_engines, view.units);
    let words = format!(
        "Planning only. One engine fails a second before V1; all engines to the screen, with the \
         factor of the rule: {all}."
    );
    canvas.text((LEFT, 9.8), &words, Type::new(2.8, Anchor::Start).coloured(GREY));
}

fn axes(canvas: &mut Canvas, view: &View<'_>) {
    let (left, right) = view.across.places();
    let (bottom, top) = view.up.places();
    let (unit, size) = station_unit(view.units);
    for (shown, length) in view.up.ticks(size, 7) {
        let y = view.up.at(length);
        canvas.line((left, y), (right, y), Pen::new(PALE, 0.12));
        let how = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((left - 1.5, y + 0.9), &whole(shown), how);
    }
    let name = Type::new(2.6, Anchor::End).coloured(GREY);
    canvas.text((left - 1.5, top - 1.6), &format!("distance, {unit}"), name);
    canvas.line((left, bottom), (right, bottom), Pen::new(INK, 0.3));
    for (shown, speed) in view.across.ticks(KNOT, 8) {
        let x = view.across.at(speed);
        canvas.line((x, bottom), (x, bottom + 1.0), Pen::new(INK, 0.3));
        canvas.text((x, bottom + 4.2), &whole(shown), Type::new(2.8, Anchor::Middle));
    }
    let name = "decision speed V1, calibrated, kt";
    canvas.text((right, bottom + 9.4), name, Type::new(2.8, Anchor::End).coloured(GREY));
}

/// The speeds that the declared distances allow, as a band.
fn allowed(canvas: &mut Canvas, view: &View<'_>) {
    let Some((low, high)) = view.picture.allowed else { return };
    let (bottom, top) = view.up.places();
    let (left, right) = (view.x(low), view.x(high));
    canvas.rectangle((left, top), ((right - left).max(0.3), bottom - top), FAINT, None);
    for x in [left, right] {
        canvas.line((x, top), (x, bottom), Pen::new(GREY, 0.2));
    }
    let middle = (left + right) / 2.0;
    canvas.text((middle, top - 1.6), "allowed", Type::new(2.8, Anchor::Middle).coloured(GREY));
}

/// Declared distances, as level lines named at the right.
fn available(canvas: &mut Canvas, view: &View<'_>) {
    let (left, right) = view.across.places();
    let lines = [
        (view.picture.take_off_distance, "take-off", "distance available", ""),
        (view.picture.accelerate_stop, "accelerate-stop", "distance available", "1.6 1.1"),
    ];
    let mut last: Option<f64> = None;
    for (length, what, available, dash) in lines {
        let Some(length) = length else { continue };
        let y = view.y(length);
        canvas.line((left, y), (right, y), Pen::new(GREY, 0.35).dashed(dash));
        let how = Type::new(2.6, Anchor::Start).coloured(GREY);
        let near = last.is_some_and(|last| (y - last).abs() < 6.0);
        let at = if near { last.unwrap_or(y) + 6.4 } else { y };
        canvas.text((right + 1.5, at - 0.4), what, how);
        canvas.text((right + 1.5, at + 2.6), available, how);
        last = Some(at);
    }
}

fn curves(canvas: &mut Canvas, view: &View<'_>) {
    let points = view.picture.points.iter();
    let go: Vec<(f64, f64)> =
        points.clone().filter_map(|point| Some((view.x(point.speed), view.y(point.go?)))).collect();
    let stop: Vec<(f64, f64)> =
        points.map(|point| (view.x(point.speed), view.y(point.stop))).collect();
    canvas.path(&go, Pen::new(INK, 0.6), "");
    canvas.path(&stop, Pen::new(INK, 0.6).dashed("2.4 1.3"), "");
    let how = Type::new(2.8, Anchor::Start).strong();
    if let Some((x, y)) = go.first() {
        canvas.text((x + 1.0, y - 1.4), "to go on, one engine out", how);
    }
    if let Some((x, y)) = stop.first() {
        canvas.text((x + 1.0, y + 4.0), "to stop", how);
    }
    if go.is_empty() {
        let at = ((LEFT + WIDTH - RIGHT) / 2.0, TOP + 5.0);
        let how = Type::new(3.0, Anchor::Middle).strong().coloured(ALERT);
        canvas.text(at, "✗ with one engine out the screen is never reached", how);
    }
}

/// The decision speed chosen and rotation speed.
fn speeds(canvas: &mut Canvas, view: &View<'_>) {
    let (bottom, top) = view.up.places();
    let (chosen, rotation) = (view.x(view.picture.chosen), view.x(view.picture.rotation));
    canvas.line((chosen, top), (chosen, bottom), Pen::new(INK, 0.4));
    canvas.line((rotation, top), (rotation, bottom), Pen::new(GREY, 0.25).dashed("0.8 0.8"));
    let v1 = format!("V1 {}", quantity_text(view.picture.chosen, view.units));
    let vr = format!("VR {}", quantity_text(view.picture.rotation, view.units));
    let how = Type::new(2.8, Anchor::End).strong();
    canvas.text((chosen - 1.0, bottom - 1.6), &v1, how);
    let how = Type::new(2.8, Anchor::End).coloured(GREY);
    canvas.text((rotation - 1.0, bottom - 5.6), &vr, how);
    if view.picture.allowed.is_none() {
        let words = match (view.picture.take_off_distance, view.picture.accelerate_stop) {
            (None, None) => "no distance is declared: what is allowed is not known",
            _ => "✗ no decision speed allows both to go on and to stop",
        };
        let how = Type::new(2.8, Anchor::Start).strong().coloured(ALERT);
        canvas.text((LEFT, top - 1.6), words, how);
    }
}

fn describe(picture: &DecisionPicture, units: UnitSystem) -> String {
    let shown = |speed: Speed| quantity_text(speed, units);
    let allowed = match picture.allowed {
        Some((low, high)) => {
            format!("Allowed from {} to {}.", shown(low), shown(high))
        }
        None => "No decision speed is known to be allowed.".to_owned(),
    };
    format!("Decision speed {}. {allowed}", shown(picture.chosen))
}
