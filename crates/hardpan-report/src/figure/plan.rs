//! The strip from above, its marks and their labels.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::frame::{Frame, Size};
use super::labels::{Placed, Wanted, fitted, spread, text_width};
use super::palette::{ALERT, FAINT, GREY, INK, KINDS, PAPER, fill, mark_word};
use crate::measure::{amount_text, quantity_text, stretch_text};
use crate::wrap::plain;
use hardpan_assess::{Sketch, SketchMark, SketchMarkKind};
use hardpan_quantity::{Quantity, UnitSystem};

/// Least width of a mark on paper, so that a short place is seen.
const LEAST: f64 = 1.6;

/// Rows of labels at most.
const ROWS: usize = 3;

/// Strip, marks and labels; returns the place below them.
pub(super) fn draw(canvas: &mut Canvas, frame: &Frame<'_>, top: f64) -> f64 {
    let height = match frame.size {
        Size::Card => 9.0,
        Size::Full => 14.0,
    };
    let (left, right) = frame.ends();
    let edge = Pen::new(INK, 0.45);
    let edge = if frame.length_known { edge } else { edge.dashed("1.5 1") };
    let known = is_strength_known(frame);
    let ground =
        if known { FAINT.to_owned() } else { fill(frame.prefix(), SketchMarkKind::Unknown) };
    canvas.rectangle((left, top), (right - left, height), &ground, None);
    for kind in KINDS {
        for mark in frame.sketch.marks.iter().filter(|mark| mark.kind == kind) {
            patch(canvas, frame, mark, (top, height));
        }
    }
    canvas.rectangle((left, top), (right - left, height), "none", Some(edge));
    if !known {
        plate(canvas, ((left + right) / 2.0, top + height / 2.0), "strength not known");
    }
    ends(canvas, frame, top + height / 2.0);
    labels(canvas, frame, top + height)
}

/// Whether the strength of the ground is known anywhere: an empty strip must
/// not look like a sound one.
fn is_strength_known(frame: &Frame<'_>) -> bool {
    let known = |ratio: Option<hardpan_quantity::BearingRatio>| {
        ratio.is_some_and(|ratio| ratio.si().is_finite())
    };
    frame.sketch.strength.iter().any(|sample| known(sample.available))
}

/// A text on a white plate.
fn plate(canvas: &mut Canvas, middle: (f64, f64), text: &str) {
    let width = text_width(text, 3.1, true) + 4.0;
    canvas.rectangle((middle.0 - width / 2.0, middle.1 - 2.6), (width, 5.2), PAPER, None);
    let how = Type::new(3.1, Anchor::Middle).strong();
    canvas.text((middle.0, middle.1 + 1.1), text, how);
}

fn patch(canvas: &mut Canvas, frame: &Frame<'_>, mark: &SketchMark, band: (f64, f64)) {
    let Some((from, to)) = span(frame, mark) else { return };
    let pen = if mark.over { Pen::new(ALERT, 0.6) } else { Pen::new(GREY, 0.25) };
    let pattern = fill(frame.prefix(), mark.kind);
    canvas.rectangle((from, band.0), (to - from, band.1), &pattern, Some(pen));
    if mark.kind == SketchMarkKind::Bump {
        let (middle, base) = ((from + to) / 2.0, band.0 + band.1 * 0.72);
        let tip = band.0 + band.1 * 0.28;
        canvas.area(&[(middle - 2.2, base), (middle, tip), (middle + 2.2, base)], PAPER, "");
        canvas.area(
            &[(middle - 1.7, base - 0.4), (middle, tip + 0.9), (middle + 1.7, base - 0.4)],
            INK,
            "",
        );
    }
}

/// Where a mark lies on paper; none when its stations are not finite.
fn span(frame: &Frame<'_>, mark: &SketchMark) -> Option<(f64, f64)> {
    let (first, last) = (mark.from.si(), mark.to.si());
    if !first.is_finite() || !last.is_finite() {
        return None;
    }
    let (left, right) = frame.ends();
    let (from, to) = (frame.at(mark.from), frame.at(mark.to));
    let (from, to) = (from.min(to), from.max(to));
    let middle = (from + to) / 2.0;
    let half = ((to - from) / 2.0).max(LEAST / 2.0);
    Some(((middle - half).max(left), (middle + half).min(right)))
}

fn ends(canvas: &mut Canvas, frame: &Frame<'_>, middle: f64) {
    let (left, right) = frame.ends();
    let size = 4.6;
    let (low, high) = &frame.sketch.designators;
    let low = fitted(&plain(low), size, true, left - 4.0);
    let high = fitted(&plain(high), size, true, canvas.width() - right - 1.5);
    let y = middle + size * 0.36;
    canvas.text((left - 1.8, y), &low, Type::new(size, Anchor::End).strong());
    canvas.text((right + 1.8, y), &high, Type::new(size, Anchor::Start).strong());
    if let Some(width) = frame.sketch.width.filter(|_| frame.size == Size::Full) {
        let text = format!("{} wide", quantity_text(width, frame.units));
        let how = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((left - 1.8, middle + 6.0), &text, how);
    }
}

fn labels(canvas: &mut Canvas, frame: &Frame<'_>, below: f64) -> f64 {
    let mut marks: Vec<(&SketchMark, (f64, f64))> =
        frame.sketch.marks.iter().filter_map(|mark| Some((mark, span(frame, mark)?))).collect();
    marks.sort_by(|(a, x), (b, y)| b.over.cmp(&a.over).then(x.0.total_cmp(&y.0)));
    let size = |mark: &SketchMark| if mark.over { frame.large() } else { frame.type_size() };
    let (left, right) = frame.ends();
    let ends = (left - 18.0, right + 8.0);
    let texts: Vec<[String; 2]> = marks
        .iter()
        .map(|(mark, _)| {
            [label(mark, frame.units), mark_label(mark, frame.units)]
                .map(|text| fitted(&text, size(mark), mark.over, 60.0))
        })
        .collect();
    let wanted: Vec<Wanted> = marks
        .iter()
        .zip(&texts)
        .map(|((mark, (from, to)), texts)| {
            let [full, short] =
                texts.each_ref().map(|text| text_width(text, size(mark), mark.over));
            Wanted { at: (from + to) / 2.0, widths: (full, short) }
        })
        .collect();
    let placed = spread(&wanted, ends, ROWS);
    let step = frame.large() + 0.8;
    for (((mark, (from, to)), [full, short]), place) in marks.iter().zip(&texts).zip(&placed) {
        if let Some(place) = place {
            let at = ((from + to) / 2.0, below);
            let how = Type::new(size(mark), Anchor::Middle);
            let how = if mark.over { how.strong().coloured(ALERT) } else { how };
            let text = if place.short { short } else { full };
            label_text(canvas, at, text, *place, (step, how));
        }
    }
    let used = placed.iter().flatten().map(|place| place.row + 1).max().unwrap_or(0);
    let mut y = below + 1.6 + used as f64 * step;
    let dropped = placed.iter().filter(|place| place.is_none()).count();
    if dropped > 0 {
        let how = Type::new(frame.type_size(), Anchor::End).coloured(GREY);
        canvas.text((right + 8.0, y + 2.0), &more(dropped), how);
        y += step;
    }
    y
}

fn more(places: usize) -> String {
    match places {
        1 => "… and 1 more place".to_owned(),
        _ => format!("… and {places} more places"),
    }
}

fn label_text(canvas: &mut Canvas, at: (f64, f64), text: &str, place: Placed, set: (f64, Type)) {
    let (step, how) = set;
    let base = at.1 + 1.2 + (place.row as f64 + 1.0) * step - 0.6;
    let top = base - how.size * 0.85;
    canvas.line((at.0, at.1), (at.0, top), Pen::new(how.colour, 0.25));
    canvas.text((place.middle, base), text, how);
}

/// Label, figure and stretch, such as `soft 9.1 %, 600–690 m`.
fn label(mark: &SketchMark, units: UnitSystem) -> String {
    format!("{}, {}", mark_label(mark, units), stretch_text(mark.from, mark.to, units))
}

/// Label and figure of a mark, such as `soft 9.1 %`.
#[must_use]
pub fn mark_label(mark: &SketchMark, units: UnitSystem) -> String {
    let label = plain(&mark.label);
    let label = if label.is_empty() { mark_word(mark.kind).to_owned() } else { label };
    match mark.amount {
        Some(amount) => format!("{label} {}", amount_text(amount, units)),
        None => label,
    }
}

/// Faint columns under the marks, through all bands.
pub(super) fn guides(canvas: &mut Canvas, frame: &Frame<'_>, top: f64, bottom: f64) {
    for mark in &frame.sketch.marks {
        if let Some((from, to)) = span(frame, mark) {
            canvas.rectangle((from, top), (to - from, bottom - top), FAINT, None);
        }
    }
}

/// What each pattern means, for the kinds that occur; returns the place below.
pub(super) fn legend(canvas: &mut Canvas, frame: &Frame<'_>, top: f64) -> f64 {
    let occurs = |kind: &SketchMarkKind| frame.sketch.marks.iter().any(|mark| mark.kind == *kind);
    let kinds: Vec<SketchMarkKind> = KINDS.into_iter().filter(occurs).collect();
    if kinds.is_empty() {
        return top + 1.0;
    }
    let mut x = frame.ends().0;
    for kind in kinds {
        let edge = Some(Pen::new(GREY, 0.2));
        canvas.rectangle((x, top + 1.0), (6.0, 3.6), &fill(frame.prefix(), kind), edge);
        canvas.text((x + 7.4, top + 3.9), mark_word(kind), Type::new(2.8, Anchor::Start));
        x += 9.6 + text_width(mark_word(kind), 2.8, false) + 4.0;
    }
    canvas.rectangle((x, top + 1.0), (6.0, 3.6), PAPER, Some(Pen::new(ALERT, 0.6)));
    canvas.text((x + 7.4, top + 3.9), "over its limit", Type::new(2.8, Anchor::Start));
    top + 6.0
}

/// The strip and its marks in words.
pub(super) fn describe(sketch: &Sketch, units: UnitSystem) -> String {
    let (low, high) = &sketch.designators;
    let length = sketch.length.map_or("length not known".to_owned(), |l| quantity_text(l, units));
    let mut out = format!("Strip {}/{}, {length}.", plain(low), plain(high));
    for mark in sketch.marks.iter().take(20) {
        let over = if mark.over { ", over its limit" } else { "" };
        out.push_str(&format!(" {}{over}.", label(mark, units)));
    }
    out
}
