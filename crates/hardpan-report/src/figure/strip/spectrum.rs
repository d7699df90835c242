//! Power spectrum of the survey lines over the classes.

use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::palette::{GREY, PALE};
use super::super::panel::{Panel, nth_pen};
use super::{StripFigure, WIDTH};
use crate::measure::{offset_text, station_unit};
use hardpan_assess::{LineSpectrum, StripDossier, class_bounds};
use hardpan_quantity::{Length, Quantity, UnitSystem};

/// Lines drawn at most.
const MOST: usize = 6;
const SIZE: (f64, f64) = (116.0, 78.0);

/// The spectra; none where no line has one.
pub(super) fn draw(dossier: &StripDossier, units: UnitSystem) -> Option<StripFigure> {
    let all: Vec<(Length, &LineSpectrum)> = dossier
        .lines
        .iter()
        .filter_map(|line| Some((line.offset, line.spectrum.as_ref().ok()?)))
        .collect();
    let every = all.len().div_ceil(MOST).max(1);
    let shown: Vec<_> = all.iter().copied().step_by(every).collect();
    let points = |one: &LineSpectrum| -> Vec<(f64, f64)> {
        let lines = one.lines.iter().map(|(length, density)| (length.si(), density.si()));
        lines.filter(|(w, d)| *w > 0.0 && *d > 0.0).map(|(w, d)| (-w.log10(), d.log10())).collect()
    };
    let drawn: Vec<Vec<(f64, f64)>> = shown.iter().map(|(_, one)| points(one)).collect();
    let ends = |pick: fn(&(f64, f64)) -> f64| {
        let values = || drawn.iter().flatten().map(pick);
        (values().fold(f64::INFINITY, f64::min), values().fold(f64::NEG_INFINITY, f64::max))
    };
    let (x, y) = (ends(|point| point.0), ends(|point| point.1));
    if !(x.0.is_finite() && y.0.is_finite()) {
        return None;
    }
    let up = (y.0.max(-9.0).floor(), y.1.max(y.0.max(-9.0) + 1.0).ceil());
    let mut canvas = Canvas::new(WIDTH);
    let panel = Panel::new((20.0, 5.0), SIZE, x, up);
    decades(&mut canvas, &panel, units);
    classes(&mut canvas, &panel);
    for (index, points) in drawn.iter().enumerate() {
        panel.path(&mut canvas, points, nth_pen(index));
    }
    panel.frame(&mut canvas, "Displacement density, m² per cycle per metre");
    for (index, (offset, one)) in shown.iter().enumerate() {
        let y = 10.0 + index as f64 * 9.0;
        canvas.line((148.0, y), (157.0, y), nth_pen(index));
        let how = Type::new(2.6, Anchor::Start);
        let name = format!("offset {}", offset_text(*offset, units));
        canvas.text((158.5, y + 0.4), &name, how.strong());
        let rest = format!("class {}, exponent {:.1}", one.class, one.exponent);
        canvas.text((158.5, y + 3.8), &rest, how.coloured(GREY));
    }
    if all.len() > shown.len() {
        let text = format!("{} of {} lines drawn", shown.len(), all.len());
        canvas.text((148.0, 82.0), &text, Type::new(2.4, Anchor::Start).coloured(GREY));
    }
    let classes: Vec<String> = shown.iter().map(|(_, one)| one.class.to_string()).collect();
    let words = format!("Power spectra; classes of the lines shown: {}.", classes.join(", "));
    let svg = canvas.finish(96.0, "Power spectrum", &words);
    Some(StripFigure { name: "spectrum", title: "Power spectrum and its class", words, svg })
}

/// Wavelengths below, powers of ten at the left.
fn decades(canvas: &mut Canvas, panel: &Panel, units: UnitSystem) {
    let (symbol, unit) = station_unit(units);
    let (bottom, top) = panel.up.places();
    for wavelength in [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0] {
        let at = -(wavelength * unit).log10();
        let (low, high) = panel.across.values();
        if (low..=high).contains(&at) {
            let x = panel.across.at(at);
            canvas.line((x, top), (x, bottom + 0.8), Pen::new(PALE, 0.12));
            let how = Type::new(2.4, Anchor::Middle).coloured(GREY);
            canvas.text((x, bottom + 3.6), &super::super::panel::tick(wavelength), how);
        }
    }
    let how = Type::new(2.5, Anchor::Middle).coloured(GREY);
    let (left, right) = panel.across.places();
    canvas.text((0.5 * (left + right), bottom + 7.4), &format!("wavelength, {symbol}"), how);
    let (low, high) = panel.up.values();
    for power in (low as i32)..=(high as i32) {
        let y = panel.up.at(f64::from(power));
        canvas.line((left, y), (right, y), Pen::new(PALE, 0.12));
        let how = Type::new(2.4, Anchor::End).coloured(GREY);
        canvas.text((left - 3.4, y + 0.9), "10", how);
        let text = crate::measure::minus(&power.to_string());
        canvas.text((left - 3.2, y - 0.3), &text, Type::new(1.8, Anchor::Start).coloured(GREY));
    }
}

/// Bounds of the classes, falling with the square of wave number, and the
/// letter between two of them.
fn classes(canvas: &mut Canvas, panel: &Panel) {
    let (left, right) = panel.across.values();
    let (low, high) = panel.up.values();
    for (letter, bound) in class_bounds() {
        let at = |x: f64| bound.si().log10() - 2.0 * (x + 1.0);
        // Where the bound enters and leaves the panel.
        let enters = left.max(0.5 * (bound.si().log10() - high) - 1.0);
        let leaves = right.min(0.5 * (bound.si().log10() - low) - 1.0);
        if enters >= leaves {
            continue;
        }
        let (from, to) = (panel.at(enters, at(enters)), panel.at(leaves, at(leaves)));
        canvas.line(from, to, Pen::new(GREY, 0.25).dashed("1.4 0.9"));
        let x = leaves - 0.035 * (right - left);
        let y = at(x) - 0.3;
        if x > left && (low..=high).contains(&y) {
            let how = Type::new(3.0, Anchor::Middle).strong().coloured(GREY);
            canvas.text(panel.at(x, y), &letter.to_string(), how);
        }
    }
}
