//! The strip from above: bumps and ruts, and water.

use super::super::axis;
use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::frame::Ruler;
use super::super::labels::text_width;
use super::super::palette::{self, FAINT, GREY, INK};
use super::super::patterns::{ABOVE, BELOW, Hatch, WATER, definitions};
use super::super::scale::Scale;
use super::{StripFigure, WIDTH, note, numbers, ruler, small};
use crate::measure::{quantity_text, station_unit};
use hardpan_assess::{MapRow, PlaceKind, SketchMarkKind, StripDossier, StripPlace};
use hardpan_quantity::{Length, Quantity, UnitSystem, metres};

const HEIGHT: f64 = 34.0;

/// Bumps and ruts from above, the worst places numbered.
pub(super) fn evenness(dossier: &StripDossier, units: UnitSystem) -> StripFigure {
    let ruler = ruler(dossier, units, "hardpan-strip-evenness");
    let mut canvas = Canvas::new(WIDTH);
    let hatches = [ABOVE, BELOW].concat();
    canvas.raw(&palette::definitions(ruler.prefix()));
    canvas.raw(&definitions(ruler.prefix(), &hatches));
    let places: Vec<(usize, &StripPlace)> =
        dossier.places.iter().enumerate().map(|(at, place)| (at + 1, place)).collect();
    let rows = dossier.deviations.as_ref().map_or(&[][..], |map| &map.rows);
    let across = across(dossier, rows);
    let reach = |place: &StripPlace| (middle_of(place, &across, 0.0)).clamp(0.0, HEIGHT);
    let top = numbers(&mut canvas, &ruler, 0.5, &places, reach);
    let across = shifted(&across, top);
    let words = match &dossier.deviations {
        Ok(map) => {
            let stations = (map.first, map.step);
            let limit = map.limit.si();
            cells(&mut canvas, &ruler, &map.rows, &across, stations, |value| {
                class(value.si() / limit)
            });
            format!(
                "Bumps and ruts under the middle of a chord of {}; limit {}.",
                quantity_text(map.chord, units),
                small(map.limit, units)
            )
        }
        Err(why) => unknown(&mut canvas, &ruler, top, why),
    };
    dots(&mut canvas, &ruler, &places, &across);
    edges(&mut canvas, &ruler, dossier, (top, top + HEIGHT), &across);
    let mut y = axis::stations(&mut canvas, &ruler, top + HEIGHT);
    if let Ok(map) = &dossier.deviations {
        y = evenness_key(&mut canvas, &ruler, y + 1.0, map.limit);
    }
    let svg = canvas.finish(y + 1.0, "Evenness from above", &words);
    StripFigure { name: "evenness", title: "Evenness from above", words, svg }
}

/// Water from above, the depth of the deepest ponds written over them.
pub(super) fn water(dossier: &StripDossier, units: UnitSystem) -> StripFigure {
    let ruler = ruler(dossier, units, "hardpan-strip-water");
    let mut canvas = Canvas::new(WIDTH);
    canvas.raw(&palette::definitions(ruler.prefix()));
    canvas.raw(&definitions(ruler.prefix(), &WATER));
    let rows = dossier.water.as_ref().map_or(&[][..], |map| &map.rows);
    let ponds = dossier.ponds.as_ref().map_or(&[][..], Vec::as_slice);
    let top = depths(&mut canvas, &ruler, ponds, units);
    let across = shifted(&across(dossier, rows), top);
    let words = match &dossier.water {
        Ok(map) => {
            let stations = (map.first, map.step);
            cells(&mut canvas, &ruler, &map.rows, &across, stations, depth_class);
            ringed(&mut canvas, &ruler, ponds, &across);
            match ponds.len() {
                0 => "The shape holds no water between the lines surveyed.".to_owned(),
                1 => "Water that the shape would hold, in 1 place.".to_owned(),
                count => format!("Water that the shape would hold, in {count} places."),
            }
        }
        Err(why) => unknown(&mut canvas, &ruler, top, why),
    };
    edges(&mut canvas, &ruler, dossier, (top, top + HEIGHT), &across);
    let mut y = axis::stations(&mut canvas, &ruler, top + HEIGHT);
    if dossier.water.is_ok() {
        let bounds = [10.0, 25.0, 50.0, 100.0].map(|depth| metres(depth * 1e-3));
        let names: Vec<String> =
            bounds.iter().map(|depth| format!("over {}", small(*depth, units))).collect();
        let keyed: Vec<(&Hatch, String)> = WATER.iter().zip(names).collect();
        y = key(&mut canvas, &ruler, y + 1.0, &keyed);
    }
    let svg = canvas.finish(y + 1.0, "Standing water by the shape", &words);
    StripFigure { name: "water", title: "Standing water by the shape", words, svg }
}

/// Offsets to places: the left side of the strip lies at the top.
fn across(dossier: &StripDossier, rows: &[MapRow]) -> Scale {
    let half = dossier.width.map_or(0.0, |width| 0.5 * width.si());
    let edges = rows.iter().flat_map(|row| [row.band.0.si(), row.band.1.si()]);
    let most = edges.map(f64::abs).fold(half, f64::max);
    Scale::new((-most.max(1.0), most.max(1.0)), (0.0, HEIGHT))
}

fn shifted(scale: &Scale, top: f64) -> Scale {
    Scale::new(scale.values(), (top, top + HEIGHT))
}

fn middle_of(place: &StripPlace, across: &Scale, top: f64) -> f64 {
    across.within(0.5 * (place.offsets.0.si() + place.offsets.1.si())) - top
}

type Class = Option<&'static Hatch>;

fn class(share: f64) -> Class {
    let step = match share.abs() {
        share if share > 1.0 => 2,
        share if share > 0.5 => 1,
        share if share > 0.25 => 0,
        _ => return None,
    };
    if share > 0.0 { ABOVE.get(step) } else { BELOW.get(step) }
}

fn depth_class(depth: Length) -> Class {
    let step = match depth.si() {
        depth if depth > 0.1 => 3,
        depth if depth > 0.05 => 2,
        depth if depth > 0.025 => 1,
        depth if depth > 0.01 => 0,
        _ => return None,
    };
    WATER.get(step)
}

/// The cells of a map, neighbours of one class as one.
fn cells(
    canvas: &mut Canvas,
    ruler: &Ruler,
    rows: &[MapRow],
    across: &Scale,
    stations: (Length, Length),
    class: impl Fn(Length) -> Class,
) {
    let unknown = palette::fill(ruler.prefix(), SketchMarkKind::Unknown);
    for row in rows {
        let (upper, lower) = (across.within(row.band.0.si()), across.within(row.band.1.si()));
        let mut at = 0;
        let seen: Vec<Option<Class>> = row.cells.iter().map(|cell| cell.map(&class)).collect();
        for run in seen.chunk_by(|a, b| name(a) == name(b)) {
            let from = ruler.at(stations.0 + stations.1 * at as f64);
            at += run.len();
            let to = ruler.at(stations.0 + stations.1 * at as f64);
            let fill = match run.first() {
                Some(Some(None)) => continue,
                Some(Some(Some(hatch))) => hatch.fill(ruler.prefix()),
                _ => unknown.clone(),
            };
            canvas.rectangle((from, upper), (to - from, lower - upper), &fill, None);
        }
    }
}

fn name(cell: &Option<Class>) -> &'static str {
    match cell {
        None => "unknown",
        Some(None) => "",
        Some(Some(hatch)) => hatch.name,
    }
}

/// A ring round every pond, so that a small one is seen.
fn ringed(canvas: &mut Canvas, ruler: &Ruler, ponds: &[StripPlace], across: &Scale) {
    const ROOM: f64 = 0.8;
    for pond in ponds {
        let (from, to) = (ruler.at(pond.from) - ROOM, ruler.at(pond.to) + ROOM);
        let upper = across.within(pond.offsets.0.si()) - ROOM;
        let lower = across.within(pond.offsets.1.si()) + ROOM;
        let pen = Some(Pen::new(INK, 0.25));
        canvas.rectangle((from, upper), (to - from, lower - upper), "none", pen);
    }
}

fn unknown(canvas: &mut Canvas, ruler: &Ruler, top: f64, why: &str) -> String {
    let (left, right) = ruler.ends();
    let fill = palette::fill(ruler.prefix(), SketchMarkKind::Unknown);
    canvas.rectangle((left, top), (right - left, HEIGHT), &fill, None);
    let (text, size) = ("not known", 3.1);
    let width = text_width(text, size, true) + 4.0;
    let middle = ((left + right) / 2.0, top + HEIGHT / 2.0);
    canvas.rectangle((middle.0 - width / 2.0, middle.1 - 2.6), (width, 5.2), FAINT, None);
    canvas.text((middle.0, middle.1 + 1.1), text, Type::new(size, Anchor::Middle).strong());
    format!("Not known: {why}.")
}

/// Outline, designators, offsets of the lines.
fn edges(
    canvas: &mut Canvas,
    ruler: &Ruler,
    dossier: &StripDossier,
    y: (f64, f64),
    across: &Scale,
) {
    let (left, right) = ruler.ends();
    canvas.rectangle((left, y.0), (right - left, y.1 - y.0), "none", Some(Pen::new(INK, 0.35)));
    let (unit, size) = station_unit(ruler.units);
    let mut last = f64::NEG_INFINITY;
    for line in &dossier.lines {
        let at = across.within(line.offset.si());
        canvas.line((left - 0.9, at), (left, at), Pen::new(GREY, 0.2));
        if at - last > 2.7 {
            last = at;
            let text = crate::measure::minus(&format!("{:+.1}", line.offset.si() / size));
            let how = Type::new(2.3, Anchor::End).coloured(GREY);
            canvas.text((left - 1.4, at + 0.8), text.trim_start_matches('+'), how);
        }
    }
    let how = Type::new(2.3, Anchor::Start).coloured(GREY);
    canvas.text((1.0, y.0 + 2.2), &format!("offset, {unit}"), how);
    canvas.text((1.0, y.0 + 5.4), "left side", how);
    canvas.text((1.0, y.1 - 0.4), "right side", how);
    let strong = Type::new(3.4, Anchor::Start).strong();
    let low = crate::wrap::plain(&dossier.designators.0);
    let high = crate::wrap::plain(&dossier.designators.1);
    canvas.text((1.0, 0.5 * (y.0 + y.1) + 1.2), &low, strong);
    canvas.text((right + 1.5, 0.5 * (y.0 + y.1) + 1.2), &high, strong);
}

fn dots(canvas: &mut Canvas, ruler: &Ruler, places: &[(usize, &StripPlace)], across: &Scale) {
    for (_, place) in places {
        let at = (ruler.at(place.worst), middle_of(place, across, 0.0));
        canvas.circle(at, 0.75, palette::PAPER, Some(Pen::new(INK, 0.3)));
        canvas.circle(at, 0.3, INK, None);
    }
}

fn evenness_key(canvas: &mut Canvas, ruler: &Ruler, top: f64, limit: Length) -> f64 {
    let shares = [("¼", 0.25), ("½", 0.5), ("all", 1.0)];
    let named = |side: &str| -> Vec<String> {
        let name = |(word, share): &(&str, f64)| {
            let over = small(limit * *share, ruler.units);
            if *word == "all" {
                format!("{side} over the limit, {over}")
            } else {
                format!("over {over}")
            }
        };
        shares.iter().map(name).collect()
    };
    let above: Vec<(&Hatch, String)> = ABOVE.iter().zip(named("bump")).collect();
    let below: Vec<(&Hatch, String)> = BELOW.iter().zip(named("rut")).collect();
    let y = key(canvas, ruler, top, &above);
    let y = key(canvas, ruler, y, &below);
    let (left, _) = ruler.ends();
    let how = "Upright lines: above the chord. Level lines: below it. Crossed: not surveyed \
               closely enough. Black numbers: over a limit.";
    note(canvas, (left, y + 2.2), how);
    y + 3.2
}

fn key(canvas: &mut Canvas, ruler: &Ruler, top: f64, hatches: &[(&Hatch, String)]) -> f64 {
    let mut x = ruler.ends().0;
    for (hatch, text) in hatches {
        let edge = Some(Pen::new(GREY, 0.2));
        canvas.rectangle((x, top), (7.0, 3.4), &hatch.fill(ruler.prefix()), edge);
        canvas.text((x + 8.2, top + 2.6), text, Type::new(2.5, Anchor::Start));
        x += 8.2 + text_width(text, 2.5, false) + 5.0;
    }
    top + 4.2
}

/// The depths of the deepest ponds in a row over the plan.
fn depths(canvas: &mut Canvas, ruler: &Ruler, ponds: &[StripPlace], units: UnitSystem) -> f64 {
    const DEEPEST: usize = 8;
    use super::super::labels::{Wanted, spread};
    let deepest: Vec<&StripPlace> =
        ponds.iter().filter(|p| p.kind == PlaceKind::Pond).take(DEEPEST).collect();
    let texts: Vec<String> =
        deepest.iter().map(|pond| crate::measure::amount_text(pond.size, units)).collect();
    let wanted: Vec<Wanted> = deepest
        .iter()
        .zip(&texts)
        .map(|(pond, text)| {
            let width = text_width(text, 2.7, true);
            Wanted { at: ruler.at(pond.worst), widths: (width, width) }
        })
        .collect();
    let (left, right) = ruler.ends();
    let placed = spread(&wanted, (left - 6.0, right + 8.0), 2);
    let rows = placed.iter().flatten().map(|place| place.row + 1).max().unwrap_or(0);
    let below = 1.0 + rows as f64 * 3.8;
    for ((pond, text), place) in deepest.iter().zip(&texts).zip(&placed) {
        let Some(place) = place else { continue };
        let base = below - 0.9 - place.row as f64 * 3.8;
        let x = ruler.at(pond.worst);
        canvas.line((x, base + 0.4), (x, below), Pen::new(INK, 0.2));
        canvas.text((place.middle, base), text, Type::new(2.7, Anchor::Middle).strong());
    }
    below
}
