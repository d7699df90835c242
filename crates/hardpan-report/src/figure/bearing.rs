//! Mass against tyre pressure by numbers of passes, one panel for a movement.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::palette::{ALERT, GREY, INK};
use super::panel::{Panel, nth_pen};
use crate::bearing::{MARK, coverages_text, passes_text, point_text};
use crate::measure::{at_most_text, quantity_text};
use crate::wrap::plain;
use hardpan_assess::{BearingCurve, BearingCurves, CAUTION, MovementCurves, StoppedBy};
use hardpan_quantity::{Dimension, Quantity, UnitSystem, units_of};

const WIDTH: f64 = 186.0;
const SIZE: (f64, f64) = (112.0, 72.0);
const LEFT: f64 = 20.0;
const LEGEND: f64 = LEFT + SIZE.0 + 6.0;
/// Letters of the small print on a line.
const LETTERS: usize = 120;
const TYRE: Pen = Pen::new(GREY, 1.0);

/// The curves as a self-contained SVG document, 186 mm wide.
#[must_use]
pub fn bearing_figure(curves: &BearingCurves, units: UnitSystem) -> String {
    let mut canvas = Canvas::new(WIDTH);
    let title = format!("{}: {}", plain(&curves.strip), plain(&curves.aeroplane));
    canvas.text((4.0, 6.0), &title, Type::new(3.6, Anchor::Start).strong());
    let mark = format!("{MARK}; largest mass under the main wheels as they roll");
    canvas.text((4.0, 10.4), &mark, Type::new(2.8, Anchor::Start).coloured(GREY));
    let mut y = 14.0;
    for movement in &curves.movements {
        y = draw(&mut canvas, movement, units, y);
    }
    let small = curves.caveats.iter().map(String::as_str).chain([CAUTION]);
    for text in small {
        for line in textwrap::wrap(text, LETTERS) {
            canvas.text((4.0, y), &line, Type::new(2.5, Anchor::Start).coloured(GREY));
            y += 3.5;
        }
        y += 0.8;
    }
    canvas.finish(y, "Mass against tyre pressure", &describe(curves, units))
}

fn unit(dimension: Dimension, units: UnitSystem) -> (&'static str, f64) {
    let wanted = match (dimension, units) {
        (Dimension::Mass, UnitSystem::Metric) => "t",
        (Dimension::Mass, UnitSystem::Imperial) => "lb",
        (_, UnitSystem::Metric) => "kPa",
        (_, UnitSystem::Imperial) => "psi",
    };
    let found = units_of(dimension).iter().find(|unit| unit.symbol == wanted);
    (wanted, found.map_or(1.0, |unit| unit.factor))
}

fn known(curve: &BearingCurve) -> Vec<(f64, f64)> {
    let points = curve.by_pressure.iter();
    points.filter_map(|point| Some((point.at.si(), point.largest?.si()))).collect()
}

fn draw(canvas: &mut Canvas, movement: &MovementCurves, units: UnitSystem, top: f64) -> f64 {
    let pressures = movement.curves.first().map_or(&[][..], |one| one.by_pressure.as_slice());
    let ends = pressures.first().zip(pressures.last());
    let across = ends.map_or((0.0, 1.0), |(low, high)| (low.at.si(), high.at.si()));
    let (low, high) = (movement.masses.0.si(), movement.masses.1.si());
    let room = 0.04 * (high - low);
    let panel = Panel::new((LEFT, top + 5.0), SIZE, across, (low - room, high + room));
    let (mass_unit, mass) = unit(Dimension::Mass, units);
    let (pressure_unit, pressure) = unit(Dimension::Pressure, units);
    panel.ticks_up(canvas, mass, 8);
    panel.ticks_across(canvas, pressure, 8);
    if let Ok(rows) = &movement.tyre {
        let rows = rows.iter().filter_map(|(at, mass)| Some((at.si(), (*mass)?.si())));
        panel.path(canvas, &rows.collect::<Vec<_>>(), TYRE);
    }
    for (index, curve) in movement.curves.iter().enumerate() {
        panel.path(canvas, &known(curve), nth_pen(index));
    }
    if let Some(planned) = movement.planned {
        panel.level(canvas, planned.si(), Pen::new(ALERT, 0.3).dashed("0.4 1.2"));
        let at = (LEFT + SIZE.0 - 1.0, panel.up.within(planned.si()) - 0.8);
        let text = format!("planned {}", quantity_text(planned, units));
        canvas.text(at, &text, Type::new(2.5, Anchor::End).coloured(ALERT));
    }
    panel.frame(canvas, &format!("{}, mass in {mass_unit}", movement.movement));
    let below = panel.up.places().0;
    let middle = LEFT + 0.5 * SIZE.0;
    let name = format!("main tyre pressure, {pressure_unit}");
    canvas.text((middle, below + 7.0), &name, Type::new(2.5, Anchor::Middle).coloured(GREY));
    legend(canvas, movement, units, top + 8.0);
    below + 14.0
}

fn legend(canvas: &mut Canvas, movement: &MovementCurves, units: UnitSystem, top: f64) {
    let mut y = top;
    let mut entry = |pen: Pen, name: &str, lines: &[String]| {
        canvas.line((LEGEND, y), (LEGEND + 9.0, y), pen);
        canvas.text((LEGEND + 10.5, y + 0.4), name, Type::new(2.6, Anchor::Start).strong());
        for line in lines {
            y += 3.4;
            canvas.text(
                (LEGEND + 10.5, y + 0.4),
                line,
                Type::new(2.3, Anchor::Start).coloured(GREY),
            );
        }
        y += 5.6;
    };
    let tyre = if movement.tyre.is_ok() { "" } else { "not known" };
    entry(TYRE, "tyre and chart allow", &[tyre.to_owned()]);
    for (index, curve) in movement.curves.iter().enumerate() {
        let made = coverages_text(curve.coverages, curve.counted);
        let (made, counted) = made.split_once(", ").unwrap_or((&made, ""));
        let gives = gives(curve, units);
        let lines = [made.to_owned(), counted.to_owned(), reach(curve, units), gives];
        let lines: Vec<String> = lines.into_iter().filter(|line| !line.is_empty()).collect();
        entry(nth_pen(index), &passes_text(curve.passes), &lines);
    }
    canvas.text((LEGEND, y), "allowed: under both", Type::new(2.5, Anchor::Start).coloured(INK));
}

/// The place that gives first at the greatest pressure, if one does.
fn gives(curve: &BearingCurve, units: UnitSystem) -> String {
    let last = curve.by_pressure.last();
    let ground = last.filter(|point| matches!(point.stops, StoppedBy::Ground(_)));
    ground.map_or_else(String::new, |point| {
        format!("gives first at {}", point_text(point, "", units).1)
    })
}

/// Least and greatest mass of a curve, in words.
fn reach(curve: &BearingCurve, units: UnitSystem) -> String {
    let masses: Vec<_> = curve.by_pressure.iter().filter_map(|point| point.largest).collect();
    match (masses.last(), masses.first()) {
        (Some(least), Some(most)) if least < most => {
            format!("{} to {}", at_most_text(*least, units), at_most_text(*most, units))
        }
        (Some(only), _) => at_most_text(*only, units),
        _ => "nothing is carried".to_owned(),
    }
}

fn describe(curves: &BearingCurves, units: UnitSystem) -> String {
    let sentence = |movement: &MovementCurves, curve: &BearingCurve| {
        format!("{}, {}: {}.", movement.movement, passes_text(curve.passes), reach(curve, units))
    };
    let movements = curves.movements.iter();
    let all = movements.flat_map(|one| one.curves.iter().map(move |curve| sentence(one, curve)));
    format!("Largest mass by main tyre pressure. {}", all.collect::<Vec<_>>().join(" "))
}
