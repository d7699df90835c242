//! The worst bumps and ruts, each drawn over its own chord.

use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::palette::{ALERT, GREY, INK};
use super::super::panel::Panel;
use super::{StripFigure, WIDTH, marker, small_unit};
use crate::measure::{amount_text, offset_text, station_unit, stretch_text};
use hardpan_assess::{LineShape, PlaceKind, StripDossier, StripPlace};
use hardpan_quantity::{Length, Quantity, UnitSystem};

/// Panels at most, and panels side by side.
const MOST: usize = 6;
const COLUMNS: usize = 2;
/// Size of a panel without its words.
const SIZE: (f64, f64) = (76.0, 27.0);
const PITCH: (f64, f64) = (92.0, 42.0);
/// Ground shown beyond the bump on each side, metres.
const BESIDE: f64 = 25.0;

/// The worst uneven places; none where there is none.
pub(super) fn draw(dossier: &StripDossier, units: UnitSystem) -> Option<StripFigure> {
    let uneven = dossier.places.iter().enumerate().filter_map(|(at, place)| {
        let line = dossier.lines.iter().find(|line| line.offset == place.offsets.0)?;
        matches!(place.kind, PlaceKind::Bump | PlaceKind::Rut).then_some((at + 1, place, line))
    });
    let shown: Vec<_> = uneven.take(MOST).collect();
    if shown.is_empty() {
        return None;
    }
    let mut canvas = Canvas::new(WIDTH);
    for (index, (number, place, line)) in shown.iter().enumerate() {
        let corner =
            (14.0 + (index % COLUMNS) as f64 * PITCH.0, 6.5 + (index / COLUMNS) as f64 * PITCH.1);
        one(&mut canvas, corner, *number, (place, line), units);
    }
    let height = shown.len().div_ceil(COLUMNS) as f64 * PITCH.1;
    let words = format!("The {} worst bumps and ruts over and under their chords.", shown.len());
    let svg = canvas.finish(height, "Worst bumps and ruts", &words);
    Some(StripFigure { name: "worst-places", title: "Worst bumps and ruts", words, svg })
}

fn one(
    canvas: &mut Canvas,
    corner: (f64, f64),
    number: usize,
    shown: (&StripPlace, &LineShape),
    units: UnitSystem,
) {
    let (place, line) = shown;
    let (from, to) = (place.from.si(), place.to.si());
    let ends = (level(line, from), level(line, to));
    let chord = |station: f64| {
        let share = if to > from { (station - from) / (to - from) } else { 0.0 };
        ends.0 + share * (ends.1 - ends.0)
    };
    let seen = (from - BESIDE, to + BESIDE);
    let off = |levels: &[(Length, Length)]| -> Vec<(f64, f64)> {
        let within = levels.iter().map(|(s, z)| (s.si(), z.si()));
        within
            .filter(|(s, _)| (seen.0..=seen.1).contains(s))
            .map(|(s, z)| (s, z - chord(s)))
            .collect()
    };
    let (ground, grade) = (off(&line.levels), off(&line.grade));
    let limit = place.limit.map_or(0.0, |limit| limit.si);
    let most = ground.iter().map(|point| point.1.abs()).fold(limit, f64::max).max(0.01) * 1.15;
    let panel = Panel::new(corner, SIZE, seen, (-most, most));
    let (unit, size) = small_unit(units);
    panel.ticks_up(canvas, size, 4);
    let dotted = Pen::new(GREY, 0.3).dashed("0.6 0.6");
    panel.level(canvas, limit, dotted);
    panel.level(canvas, -limit, dotted);
    panel.level(canvas, 0.0, Pen::new(INK, 0.2));
    panel.path(canvas, &grade, Pen::new(ALERT, 0.35).dashed("2.2 1.1"));
    panel.path(canvas, &ground, Pen::new(INK, 0.5));
    let (a, b) = (panel.at(from, 0.0), panel.at(to, 0.0));
    canvas.line(a, b, Pen::new(INK, 0.7));
    let title = format!(
        "{}{unit} off the chord: {}, {}",
        "\u{a0}".repeat(8),
        amount_text(place.size, units),
        stretch_text(place.from, place.to, units)
    );
    panel.frame(canvas, &title);
    marker(canvas, (corner.0 + 2.2, corner.1 - 2.6), number, place.over);
    let (symbol, station) = station_unit(units);
    panel.ticks_across(canvas, station, 5);
    let how = Type::new(2.3, Anchor::End).coloured(GREY);
    let name = format!(
        "station, {symbol}; line at offset {}; dotted: the limit; dashed: design grade",
        offset_text(line.offset, units)
    );
    canvas.text((corner.0 + SIZE.0, corner.1 + SIZE.1 + 6.4), &name, how);
}

/// Elevation of a line at a station, straight between its levels.
fn level(line: &LineShape, station: f64) -> f64 {
    let after = line.levels.partition_point(|point| point.0.si() < station);
    let at = |index: usize| line.levels.get(index).map(|point| (point.0.si(), point.1.si()));
    match (after.checked_sub(1).and_then(at), at(after)) {
        (Some(a), Some(b)) if b.0 > a.0 => a.1 + (station - a.0) / (b.0 - a.0) * (b.1 - a.1),
        (_, Some(only)) | (Some(only), None) => only.1,
        (None, None) => 0.0,
    }
}
