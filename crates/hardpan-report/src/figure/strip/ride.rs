//! How an aeroplane rides the strip: by steady speed, and how high waves of
//! each length may be.

use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::palette::{GREY, INK, PAPER};
use super::super::panel::{Panel, nth_pen};
use super::{StripFigure, WIDTH, small_unit};
use crate::measure::{amount_text, station_unit};
use hardpan_assess::StripDossier;
use hardpan_assess::ride_sheet::{RidePlace, RideSheet, WaveLimit};
use hardpan_quantity::{
    Length, Quantity, STANDARD_GRAVITY_M_PER_S2, Speed, UnitSystem, inches, knots, metres,
};

const SIZE: (f64, f64) = (72.0, 58.0);
const TOP: f64 = 8.0;
const LEFT: f64 = 13.0;
const RIGHT: f64 = 107.0;
const HEIGHT: f64 = 106.0;
/// Height that is drawn at least, metres.
const LEAST_TOP: f64 = 0.12;

/// The ride; none where no flight is given or its ride is not known.
pub(super) fn draw(dossier: &StripDossier, units: UnitSystem) -> Option<StripFigure> {
    let sheet = dossier.ride.as_ref()?.as_ref().ok()?;
    if sheet.by_speed.is_empty() {
        return None;
    }
    let mut canvas = Canvas::new(WIDTH);
    by_speed(&mut canvas, sheet);
    by_length(&mut canvas, sheet, units);
    let words = words(sheet);
    let svg = canvas.finish(HEIGHT, "Ride", &words);
    let title = "Ride against speed, and the waves that the cockpit bears";
    Some(StripFigure { name: "ride", title, words, svg })
}

fn in_g(acceleration: hardpan_quantity::Acceleration) -> f64 {
    acceleration.si() / STANDARD_GRAVITY_M_PER_S2
}

fn in_knots(speed: Speed) -> f64 {
    speed.si() / knots(1.0).si()
}

fn words(sheet: &RideSheet) -> String {
    let worst = |list: &[RidePlace]| list.iter().map(|one| in_g(one.cockpit)).fold(0.0, f64::max);
    format!(
        "At the cockpit of the {}: at most {:.2} g on the planned runs and {:.2} g at steady \
         speeds; {:.1} g is the limit where precise control is needed. A line of waves ends where \
         no height up to 300 mm (12 in) brings the limit.",
        sheet.aeroplane,
        worst(&sheet.runs),
        worst(&sheet.by_speed),
        in_g(sheet.limit)
    )
}

/// Acceleration over the whole strip at steady speeds, and that of the runs.
fn by_speed(canvas: &mut Canvas, sheet: &RideSheet) {
    let limit = in_g(sheet.limit);
    let all = || sheet.by_speed.iter().chain(&sheet.runs);
    let fastest = all().map(|one| in_knots(one.speed)).fold(1.0, f64::max);
    let most = all().map(|one| in_g(one.cockpit)).fold(limit, f64::max);
    let panel = Panel::new((LEFT, TOP), SIZE, (0.0, fastest * 1.04), (0.0, most * 1.15));
    panel.ticks_up(canvas, 1.0, 6);
    panel.ticks_across(canvas, 1.0, 7);
    panel.level(canvas, limit, Pen::new(INK, 0.45).dashed("3 1"));
    let limit_at = (panel.at(0.0, limit).0 + 1.0, panel.up.at(limit) - 0.8);
    let text = format!("limit {limit:.1} g");
    canvas.text(limit_at, &text, Type::new(2.4, Anchor::Start).strong());
    let path = |pick: fn(&RidePlace) -> f64| -> Vec<(f64, f64)> {
        sheet.by_speed.iter().map(|one| (in_knots(one.speed), pick(one))).collect()
    };
    panel.path(canvas, &path(|one| in_g(one.cockpit)), nth_pen(0));
    panel.path(canvas, &path(|one| in_g(one.centre)), nth_pen(1));
    for one in &sheet.by_speed {
        canvas.circle(panel.at(in_knots(one.speed), in_g(one.cockpit)), 0.7, INK, None);
    }
    let worst = worst_of_runs(sheet);
    for (index, one) in worst.iter().enumerate() {
        run_mark(canvas, panel.at(in_knots(one.speed), in_g(one.cockpit)), index);
    }
    panel.frame(canvas, "Greatest acceleration over the strip, g");
    under(canvas, LEFT, "steady ground speed, kt");
    let mut y = TOP + SIZE.1 + 12.0;
    for (pen, text) in [(nth_pen(0), "at the cockpit"), (nth_pen(1), "at the centre of gravity")] {
        canvas.line((LEFT, y), (LEFT + 9.0, y), pen);
        canvas.text((LEFT + 11.0, y + 0.8), text, Type::new(2.5, Anchor::Start));
        y += 4.2;
    }
    for (index, one) in worst.iter().enumerate() {
        run_mark(canvas, (LEFT + 4.5, y), index);
        let text = format!(
            "{} at its own speeds: {:.2} g at {:.0} kt",
            one.run,
            in_g(one.cockpit),
            in_knots(one.speed)
        );
        canvas.text((LEFT + 11.0, y + 0.8), &text, Type::new(2.5, Anchor::Start));
        y += 4.2;
    }
}

/// The worse lane of each run.
fn worst_of_runs(sheet: &RideSheet) -> Vec<&RidePlace> {
    let mut worst: Vec<&RidePlace> = Vec::new();
    for one in &sheet.runs {
        match worst.iter_mut().find(|known| known.run == one.run) {
            Some(known) if known.cockpit < one.cockpit => *known = one,
            Some(_) => {}
            None => worst.push(one),
        }
    }
    worst
}

/// A square, a diamond and a triangle: the shape tells the run.
fn run_mark(canvas: &mut Canvas, (x, y): (f64, f64), index: usize) {
    let r = 1.3;
    let corners: &[(f64, f64)] = match index {
        0 => &[(-r, -r), (r, -r), (r, r), (-r, r)],
        1 => &[(0.0, -1.5 * r), (1.5 * r, 0.0), (0.0, 1.5 * r), (-1.5 * r, 0.0)],
        _ => &[(0.0, -1.4 * r), (1.3 * r, r), (-1.3 * r, r)],
    };
    let at: Vec<(f64, f64)> = corners.iter().map(|(dx, dy)| (x + dx, y + dy)).collect();
    canvas.area(&at, PAPER, "");
    let around: Vec<(f64, f64)> = at.iter().chain(at.first()).copied().collect();
    canvas.path(&around, Pen::new(INK, 0.4), "");
}

fn under(canvas: &mut Canvas, left: f64, text: &str) {
    let at = (left + 0.5 * SIZE.0, TOP + SIZE.1 + 7.0);
    canvas.text(at, text, Type::new(2.5, Anchor::Middle).coloured(GREY));
}

/// Heights of single bumps at the limit by their length, a line for each speed,
/// and of three in a row at the greatest.
fn by_length(canvas: &mut Canvas, sheet: &RideSheet, units: UnitSystem) {
    let (small, size) = small_unit(units);
    let (symbol, unit) = station_unit(units);
    let longest = sheet.waves.iter().map(|one| one.length.si()).fold(1.0, f64::max);
    let drawn = sheet.waves.iter().flat_map(|one| [one.bump, one.row]).flatten();
    let top = drawn.map(|height| 1.1 * height.si()).fold(LEAST_TOP, f64::max);
    let panel = Panel::new((RIGHT, TOP), SIZE, (0.0, longest * 1.06), (0.0, top));
    panel.ticks_up(canvas, size, 6);
    panel.ticks_across(canvas, unit, 6);
    let mut speeds: Vec<Speed> = Vec::new();
    for one in &sheet.waves {
        if !speeds.contains(&one.speed) {
            speeds.push(one.speed);
        }
    }
    let line = |speed: Speed, pick: fn(&WaveLimit) -> Option<Length>| -> Vec<(f64, f64)> {
        let of_speed = sheet.waves.iter().filter(|one| one.speed == speed);
        of_speed.filter_map(|one| Some((one.length.si(), pick(one)?.si()))).collect()
    };
    let mut y = TOP + SIZE.1 + 12.0;
    for (index, speed) in speeds.iter().rev().enumerate() {
        panel.path(canvas, &line(*speed, |one| one.bump), nth_pen(index));
        canvas.line((RIGHT, y), (RIGHT + 9.0, y), nth_pen(index));
        let text = format!("single bump at {}", amount_text((*speed).into(), units));
        canvas.text((RIGHT + 11.0, y + 0.8), &text, Type::new(2.5, Anchor::Start));
        y += 4.2;
    }
    if let Some(fastest) = speeds.last() {
        let row = line(*fastest, |one| one.row);
        panel.path(canvas, &row, Pen::new(GREY, 0.3));
        for (length, height) in row {
            canvas.circle(panel.within(length, height), 0.9, PAPER, Some(Pen::new(INK, 0.3)));
        }
        canvas.circle((RIGHT + 4.5, y), 0.9, PAPER, Some(Pen::new(INK, 0.3)));
        let text = format!("each of three in a row at {}", amount_text((*fastest).into(), units));
        canvas.text((RIGHT + 11.0, y + 0.8), &text, Type::new(2.5, Anchor::Start));
        y += 4.2;
    }
    for (length, height) in [(metres(30.48), inches(3.0)), (metres(60.96), inches(4.0))] {
        cross(canvas, panel.within(length.si(), height.si()));
    }
    cross(canvas, (RIGHT + 4.5, y));
    let text = "3 in in 100 ft, 4 in in 200 ft, common practice";
    canvas.text((RIGHT + 11.0, y + 0.8), text, Type::new(2.5, Anchor::Start));
    panel.frame(canvas, &format!("Height of 1-cosine waves at the limit, {small}"));
    under(canvas, RIGHT, &format!("length of the wave, {symbol}"));
}

fn cross(canvas: &mut Canvas, (x, y): (f64, f64)) {
    let pen = Pen::new(INK, 0.4);
    canvas.line((x - 1.2, y - 1.2), (x + 1.2, y + 1.2), pen);
    canvas.line((x - 1.2, y + 1.2), (x + 1.2, y - 1.2), pen);
}
