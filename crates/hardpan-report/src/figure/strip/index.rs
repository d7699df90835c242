//! Roughness index by 100 m.

use super::super::axis::{self, Band};
use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::frame::Ruler;
use super::super::labels::text_width;
use super::super::palette::{FAINT, GREY, INK};
use super::super::scale::Scale;
use super::{StripFigure, WIDTH, ruler};
use crate::dossier::{index_number, index_unit};
use crate::measure::offset_text;
use hardpan_assess::{IndexSegment, StripDossier};
use hardpan_quantity::{Length, Quantity, UnitSystem};

const HEIGHT: f64 = 38.0;

/// The worst line of each 100 m as a bar, every line as a dash.
pub(super) fn draw(dossier: &StripDossier, units: UnitSystem) -> StripFigure {
    let ruler = ruler(dossier, units, "hardpan-strip-index");
    let mut canvas = Canvas::new(WIDTH);
    let (symbol, unit) = index_unit(units);
    let title = format!("Roughness index by 100 m, {symbol}");
    let (upper, lower) = (5.0, HEIGHT - 2.0);
    let all: Vec<(Length, IndexSegment)> = dossier
        .lines
        .iter()
        .filter_map(|line| Some((line.offset, line.index.as_ref().ok()?)))
        .flat_map(|(offset, segments)| segments.iter().map(move |segment| (offset, *segment)))
        .filter(|(_, segment)| segment.index.si().is_finite())
        .collect();
    let words = if all.is_empty() {
        axis::nothing(&mut canvas, &ruler, (upper, lower), &title);
        let why = dossier.lines.iter().find_map(|line| line.index.as_ref().err());
        let why = why.map_or("there is no survey", String::as_str);
        format!("The roughness index is not known: {why}.")
    } else {
        let most = all.iter().map(|(_, segment)| segment.index.si()).fold(0.0, f64::max);
        let scale = Scale::new((0.0, most * 1.2), (lower, upper));
        axis::values(&mut canvas, &ruler, &Band { title: &title, scale, unit });
        bars(&mut canvas, &ruler, &all, &scale);
        format!("The worst 100 m have {} {symbol}.", index_number(most, units))
    };
    let y = axis::stations(&mut canvas, &ruler, HEIGHT);
    let svg = canvas.finish(y + 0.5, "Roughness index", &words);
    StripFigure { name: "roughness-index", title: "Roughness index by 100 m", words, svg }
}

fn bars(canvas: &mut Canvas, ruler: &Ruler, all: &[(Length, IndexSegment)], scale: &Scale) {
    let mut worst: Vec<(Length, IndexSegment)> = Vec::new();
    for (offset, segment) in all {
        let same =
            |known: &&mut (Length, IndexSegment)| (known.1.from - segment.from).abs().si() < 50.0;
        match worst.iter_mut().find(same) {
            Some(known) if known.1.index < segment.index => *known = (*offset, *segment),
            Some(_) => {}
            None => worst.push((*offset, *segment)),
        }
    }
    let bottom = scale.places().0;
    for (offset, segment) in &worst {
        let (from, to) = (ruler.at(segment.from), ruler.at(segment.to));
        let top = scale.at(segment.index.si());
        let edge = Some(Pen::new(GREY, 0.25));
        canvas.rectangle((from, top), (to - from, bottom - top), FAINT, edge);
        let text = index_number(segment.index.si(), ruler.units);
        if text_width(&text, 2.4, true) < to - from + 0.5 {
            let how = Type::new(2.4, Anchor::Middle).strong();
            canvas.text((0.5 * (from + to), top - 2.9), &text, how);
            let line = offset_text(*offset, ruler.units);
            if text_width(&line, 1.9, false) < to - from {
                let how = Type::new(1.9, Anchor::Middle).coloured(GREY);
                canvas.text((0.5 * (from + to), top - 0.7), &line, how);
            }
        }
    }
    for (_, segment) in all {
        let y = scale.at(segment.index.si());
        let (from, to) = (ruler.at(segment.from), ruler.at(segment.to));
        canvas.line((from + 0.3, y), (to - 0.3, y), Pen::new(INK, 0.3));
    }
    let how = Type::new(2.5, Anchor::End).coloured(GREY);
    let text = "each dash a line; the bar and its figure the worst, with its offset";
    canvas.text((ruler.ends().1, 3.7), text, how);
}
