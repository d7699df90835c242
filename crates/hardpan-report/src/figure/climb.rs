//! The path after take-off with one engine out over the obstacles ahead, from
//! the side and from above. Dashes, signs and words carry the meaning.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::labels::fitted;
use super::palette::{ALERT, FAINT, GREY, INK, PALE};
use super::scale::Scale;
use crate::Report;
use crate::measure::{quantity_text, station_unit, whole};
use crate::wrap::plain;
use hardpan_assess::{ClimbObstacle, ClimbPicture};
use hardpan_quantity::{Length, Quantity as _, UnitSystem};

const WIDTH: f64 = 260.0;
const LEFT: f64 = 22.0;
const RIGHT: f64 = 26.0;
const SIDE_HEIGHT: f64 = 78.0;
const PLAN_HEIGHT: f64 = 34.0;
/// Letters of the caution on a line.
const CAUTION_LETTERS: usize = 135;

/// The path with one engine out over the obstacles ahead, about 260 mm wide.
///
/// A self-contained SVG document. Where no path is known it says so.
#[must_use]
pub fn climb_figure(report: &Report) -> String {
    let mut canvas = Canvas::new(WIDTH);
    let Some(picture) = &report.assessment.climb else {
        let how = Type::new(3.4, Anchor::Middle).coloured(GREY);
        canvas.text((WIDTH / 2.0, 12.0), "no path over obstacles is known", how);
        return canvas.finish(20.0, "Path over obstacles", "No path over obstacles is known.");
    };
    let view = View::new(picture, report.units);
    heading(&mut canvas, &view);
    side(&mut canvas, &view);
    let mut y = plan(&mut canvas, &view, 16.0 + SIDE_HEIGHT + 12.0);
    let caution = Type::new(2.6, Anchor::Start).coloured(GREY);
    for line in textwrap::wrap(report.caution, CAUTION_LETTERS) {
        canvas.text((LEFT, y), &line, caution);
        y += 3.8;
    }
    canvas.finish(y + 1.0, "Path over obstacles", &describe(picture, report.units))
}

struct View<'a> {
    picture: &'a ClimbPicture,
    units: UnitSystem,
    along: Scale,
    up: Scale,
}

impl<'a> View<'a> {
    fn new(picture: &'a ClimbPicture, units: UnitSystem) -> Self {
        let last = picture.points.last().map_or(1.0, |point| point[0].si());
        let heights = picture.points.iter().map(|point| point[1].si());
        let tops = picture.obstacles.iter().map(|one| one.top.si());
        let highest = heights.chain(tops.clone()).fold(20.0, f64::max);
        let lowest = tops.fold(0.0, f64::min);
        let top = 16.0;
        Self {
            picture,
            units,
            along: Scale::new((0.0, last), (LEFT, WIDTH - RIGHT)),
            up: Scale::new((lowest, highest * 1.12), (top + SIDE_HEIGHT, top)),
        }
    }

    fn is_cleared(&self, obstacle: &ClimbObstacle) -> bool {
        obstacle.clearance.si() >= self.picture.clearance.si()
    }
}

fn heading(canvas: &mut Canvas, view: &View<'_>) {
    let title = "Path with one engine out over the obstacles ahead";
    canvas.text((LEFT, 5.5), title, Type::new(3.6, Anchor::Start).strong());
    let how = Type::new(2.8, Anchor::Start).coloured(GREY);
    let distance = quantity_text(view.picture.take_off_distance, view.units);
    let words = format!(
        "Planning only. From the end of the take-off distance ({distance} from brake release), \
         straight ahead; heights over the surface there."
    );
    canvas.text((LEFT, 9.8), &words, how);
}

fn side(canvas: &mut Canvas, view: &View<'_>) {
    let (left, right) = view.along.places();
    let (unit, size) = station_unit(view.units);
    for (shown, height) in view.up.ticks(size, 6) {
        let y = view.up.at(height);
        canvas.line((left, y), (right, y), Pen::new(PALE, 0.12));
        let how = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((left - 1.5, y + 0.9), &whole(shown), how);
    }
    let name = Type::new(2.6, Anchor::End).coloured(GREY);
    canvas.text((left - 1.5, view.up.places().1 - 1.6), &format!("height, {unit}"), name);
    let ground = view.up.at(0.0);
    canvas.line((left, ground), (right, ground), Pen::new(INK, 0.4));
    for (index, obstacle) in view.picture.obstacles.iter().enumerate() {
        standing(canvas, view, obstacle, index);
    }
    let line = |pick: fn(&[Length; 4]) -> f64, lower: f64| {
        let points = view.picture.points.iter();
        let place = |point| (view.along.at(point_at(point)), view.up.at(pick(point) - lower));
        points.map(place).collect::<Vec<(f64, f64)>>()
    };
    let clearance = view.picture.clearance.si();
    let gross = line(|point| point[1].si(), 0.0);
    let net = line(|point| point[2].si(), 0.0);
    let lower = line(|point| point[2].si(), clearance);
    let below = format!("net less {}", quantity_text(view.picture.clearance, view.units));
    for (points, pen, label) in [
        (gross, Pen::new(GREY, 0.3), "gross"),
        (net, Pen::new(INK, 0.6), "net"),
        (lower, Pen::new(INK, 0.3).dashed("1.6 1.1"), below.as_str()),
    ] {
        canvas.path(&points, pen, "");
        if let Some((x, y)) = points.last() {
            canvas.text((x + 1.5, y + 0.9), label, Type::new(2.8, Anchor::Start).strong());
        }
    }
    if let Some(at) = view.picture.gear_up {
        let x = view.along.at(at.si());
        canvas.line((x, ground), (x, ground - 2.2), Pen::new(INK, 0.3));
        canvas.text((x, ground + 3.6), "gear up", Type::new(2.6, Anchor::Middle).coloured(GREY));
    }
}

fn point_at(point: &[Length; 4]) -> f64 {
    point[0].si()
}

/// An obstacle from the side: a bar to its top, with a cross where the path
/// does not clear it and dashes where it stands beside the corridor.
fn standing(canvas: &mut Canvas, view: &View<'_>, obstacle: &ClimbObstacle, index: usize) {
    let x = view.along.at(obstacle.beyond.si());
    let (foot, top) = (view.up.at(view.up.values().0), view.up.at(obstacle.top.si()));
    let cleared = view.is_cleared(obstacle);
    let (pen, sign, colour) = match (obstacle.counts, cleared) {
        (false, _) => (Pen::new(GREY, 0.3).dashed("0.8 0.8"), "beside: ", GREY),
        (true, true) => (Pen::new(INK, 1.4), "", INK),
        (true, false) => (Pen::new(ALERT, 1.4), "✗ ", ALERT),
    };
    canvas.line((x, foot), (x, top), pen);
    let words = match obstacle.counts {
        true => format!(
            "{sign}{}, {} clear",
            plain(&obstacle.name),
            quantity_text(obstacle.clearance, view.units)
        ),
        false => format!("{sign}{}", plain(&obstacle.name)),
    };
    let (left, right) = view.along.places();
    let anchor = if x > (left + right) / 2.0 { Anchor::End } else { Anchor::Start };
    let beside = if anchor == Anchor::End { -1.6 } else { 1.6 };
    let lift = 0.6 + 3.2 * (index % 2) as f64;
    let how = Type::new(2.7, anchor).coloured(colour);
    canvas.text((x + beside, top - lift), &fitted(&words, 2.7, false, 80.0), how);
}

/// The corridor from above; returns the place below it.
fn plan(canvas: &mut Canvas, view: &View<'_>, y: f64) -> f64 {
    let picture = view.picture;
    let (left, right) = view.along.places();
    let half = picture.points.last().map_or(1.0, |point| point[3].si());
    let offsets = picture.obstacles.iter().map(|one| one.offset.si().abs());
    let reach = offsets.filter(|offset| *offset < 2.0 * half).fold(half, f64::max) * 1.1;
    let across = Scale::new((-reach, reach), (y, y + PLAN_HEIGHT));
    let corner = |x: f64, offset: f64| (x, across.at(offset));
    let edge = |side: f64| {
        let points = picture.points.iter();
        let place =
            |point: &[Length; 4]| corner(view.along.at(point[0].si()), side * point[3].si());
        points.map(place).collect::<Vec<(f64, f64)>>()
    };
    let (one, other) = (edge(-1.0), edge(1.0));
    let outline: Vec<(f64, f64)> = one.iter().chain(other.iter().rev()).copied().collect();
    canvas.area(&outline, FAINT, "");
    for side in [one, other] {
        canvas.path(&side, Pen::new(GREY, 0.25), "");
    }
    canvas.line(corner(left, 0.0), corner(right, 0.0), Pen::new(INK, 0.2).dashed("4 2"));
    canvas.text((1.5, y + 2.6), "from above", Type::new(2.8, Anchor::Start).strong());
    for obstacle in &picture.obstacles {
        if obstacle.offset.si().abs() > reach {
            continue;
        }
        let at = corner(view.along.at(obstacle.beyond.si()), obstacle.offset.si());
        match (obstacle.counts, view.is_cleared(obstacle)) {
            (true, true) => canvas.circle(at, 0.9, INK, None),
            (false, _) => canvas.circle(at, 0.9, "none", Some(Pen::new(GREY, 0.3))),
            (true, false) => {
                let how = Type::new(4.0, Anchor::Middle).strong().coloured(ALERT);
                canvas.text((at.0, at.1 + 1.4), "✗", how);
            }
        }
    }
    let below = y + PLAN_HEIGHT;
    let (unit, size) = station_unit(view.units);
    canvas.line((left, below), (right, below), Pen::new(INK, 0.3));
    for (shown, along) in view.along.ticks(size, 10) {
        let x = view.along.at(along);
        canvas.line((x, below), (x, below + 1.0), Pen::new(INK, 0.3));
        canvas.text((x, below + 4.2), &whole(shown), Type::new(2.8, Anchor::Middle));
    }
    let name = format!("beyond the take-off distance, {unit}");
    canvas.text((right, below + 8.2), &name, Type::new(2.8, Anchor::End).coloured(GREY));
    below + 14.0
}

fn describe(picture: &ClimbPicture, units: UnitSystem) -> String {
    let counted = picture.obstacles.iter().filter(|one| one.counts);
    let words: Vec<String> = counted
        .map(|one| {
            format!(
                "{} at {} beyond the take-off distance: net path {} over its top",
                plain(&one.name),
                quantity_text(one.beyond, units),
                quantity_text(one.clearance, units)
            )
        })
        .collect();
    if words.is_empty() {
        return "No obstacle stands in the corridor ahead of the take-off.".to_owned();
    }
    format!("{}.", words.join("; "))
}
