//! Cross-sections along the strip, all at one scale.

use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::palette::{GREY, INK};
use super::super::panel::Panel;
use super::{StripFigure, WIDTH};
use crate::measure::{station_number, station_unit};
use hardpan_assess::{SectionShape, StripDossier};
use hardpan_quantity::{Quantity, UnitSystem};

const COLUMNS: usize = 3;
const SIZE: (f64, f64) = (50.0, 15.0);
const PITCH: (f64, f64) = (60.0, 26.0);

/// The sections; none without a survey of two lines or more.
pub(super) fn draw(dossier: &StripDossier, units: UnitSystem) -> Option<StripFigure> {
    let sections = &dossier.sections;
    if sections.is_empty() {
        return None;
    }
    let flat: Vec<Vec<(f64, f64)>> = sections.iter().map(levelled).collect();
    let points = || flat.iter().flatten();
    let widest = points().map(|point| point.0.abs()).fold(1.0, f64::max);
    let low = points().map(|point| point.1).fold(0.0, f64::min);
    let high = points().map(|point| point.1).fold(0.0, f64::max);
    let room = ((high - low) * 0.1).max(0.02);
    let mut canvas = Canvas::new(WIDTH);
    let (symbol, unit) = station_unit(units);
    for (index, (section, points)) in sections.iter().zip(&flat).enumerate() {
        let corner =
            (13.0 + (index % COLUMNS) as f64 * PITCH.0, 5.0 + (index / COLUMNS) as f64 * PITCH.1);
        let panel = Panel::new(corner, SIZE, (-widest, widest), (low - room, high + room));
        panel.ticks_up(&mut canvas, unit, 3);
        let middle = panel.at(0.0, low - room);
        canvas.line(middle, panel.at(0.0, high + room), Pen::new(GREY, 0.2).dashed("0.6 0.6"));
        panel.path(&mut canvas, points, Pen::new(INK, 0.45));
        for (x, y) in points {
            canvas.circle(panel.at(*x, *y), 0.5, INK, None);
        }
        let form = section.form.map_or(String::new(), |form| format!(", {form}"));
        let station = station_number(section.station, units);
        panel.frame(&mut canvas, &format!("station {station} {symbol}{form}"));
        panel.ticks_across(&mut canvas, unit, 5);
    }
    let y = 5.0 + sections.len().div_ceil(COLUMNS) as f64 * PITCH.1;
    let exaggeration = (SIZE.1 / (high - low + 2.0 * room)) / (SIZE.0 / (2.0 * widest));
    let text = format!(
        "Offset and height over the line nearest the centre, {symbol}; heights drawn {:.0} times \
         too large; left side at the left, looking up the stations.",
        exaggeration
    );
    canvas.text((13.0, y - 1.0), &text, Type::new(2.4, Anchor::Start).coloured(GREY));
    let words = format!("{} cross-sections at one scale.", sections.len());
    let svg = canvas.finish(y + 1.0, "Cross-sections", &words);
    Some(StripFigure { name: "cross-sections", title: "Cross-sections", words, svg })
}

/// Offsets and heights over the level nearest to the centre.
fn levelled(section: &SectionShape) -> Vec<(f64, f64)> {
    let plain: Vec<(f64, f64)> =
        section.levels.iter().map(|(offset, level)| (offset.si(), level.si())).collect();
    let centre = plain.iter().min_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
    let base = centre.map_or(0.0, |centre| centre.1);
    plain.iter().map(|(offset, level)| (*offset, level - base)).collect()
}
