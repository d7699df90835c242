//! The strip from above: a ribbon with its ends, and the places worth marking.

use super::axis::Axis;
use super::label::{anchor, class, shown};
use hardpan_assess::{Sketch, SketchMark, SketchMarkKind};
use hardpan_quantity::Quantity as _;
use hardpan_report::{mark_label, mark_word, quantity_text, stretch_text};
use maud::{Markup, html};

/// Top and height of the ribbon in its drawing, pixels.
const RIBBON: (f64, f64) = (22.0, 50.0);

/// Kinds in the order in which they are laid over one another.
const KINDS: [SketchMarkKind; 6] = [
    SketchMarkKind::Unknown,
    SketchMarkKind::Loose,
    SketchMarkKind::Water,
    SketchMarkKind::Rut,
    SketchMarkKind::Soft,
    SketchMarkKind::Bump,
];

/// The ribbon with its key.
pub(super) fn band(axis: &Axis, sketch: &Sketch) -> Markup {
    let occurs = |kind: &SketchMarkKind| sketch.marks.iter().any(|mark| mark.kind == *kind);
    let size = [sketch.length, sketch.width]
        .into_iter()
        .flatten()
        .map(|length| quantity_text(length, axis.units()))
        .collect::<Vec<_>>()
        .join(" × ");
    html! {
        div.band.band-ribbon {
            div.name {
                h3 { "Plan" }
                p.size { (size) }
                dl.patterns-key {
                    @for kind in KINDS.into_iter().filter(occurs) {
                        div { dt {
                            svg.sample width="22" height="10" aria-hidden="true" {
                                rect class={ "stretch m-" (mark_word(kind)) }
                                    x="1" y="0.5" width="20" height="9" {}
                            }
                            (mark_word(kind))
                        } }
                    }
                }
            }
            div.plot role="img" aria-label=(words(axis, sketch)) { (drawing(axis, sketch)) }
        }
    }
}

fn drawing(axis: &Axis, sketch: &Sketch) -> Markup {
    let (top, height) = RIBBON;
    let middle = top + height / 2.0;
    html! {
        svg.ribbon width="100%" height=(top + height + 4.0) aria-hidden="true" focusable="false" {
            rect.ground x="0" y=(top) width="100%" height=(height) {}
            @for kind in KINDS {
                @for mark in sketch.marks.iter().filter(|mark| mark.kind == kind) {
                    (stretch(axis, mark))
                }
            }
            line.edge x1="0" x2="100%" y1=(top) y2=(top) {}
            line.edge x1="0" x2="100%" y1=(top + height) y2=(top + height) {}
            line.centre x1="5%" x2="95%" y1=(middle) y2=(middle) {}
            line.threshold x1="0.1%" x2="0.1%" y1=(top) y2=(top + height) {}
            line.threshold x1="99.9%" x2="99.9%" y1=(top) y2=(top + height) {}
            text.designator x="1%" y=(middle + 7.0) { (sketch.designators.0) }
            text.designator.far x="99%" y=(middle + 7.0) { (sketch.designators.1) }
            (labels(axis, sketch))
        }
    }
}

fn stretch(axis: &Axis, mark: &SketchMark) -> Markup {
    let (top, height) = RIBBON;
    let (x, width) = axis.stretch(mark.from, mark.to);
    let over = if mark.over { " over" } else { "" };
    html! {
        rect class={ "stretch m-" (mark_word(mark.kind)) (over) }
            x=(x) y=(top) width=(width) height=(height) {}
    }
}

fn labels(axis: &Axis, sketch: &Sketch) -> Markup {
    let mut marks: Vec<&SketchMark> = sketch.marks.iter().collect();
    marks.sort_by_key(|mark| !mark.over);
    let placed: Vec<(f64, String)> = marks
        .iter()
        .map(|mark| {
            let share = axis.share((mark.from.si() + mark.to.si()) / 2.0);
            (share, mark_label(mark, axis.units()))
        })
        .collect();
    let texts: Vec<(f64, &str)> = placed.iter().map(|(at, text)| (*at, text.as_str())).collect();
    let fits = shown(&texts);
    html! {
        @for ((mark, (share, text)), fits) in marks.iter().zip(&placed).zip(fits) {
            @let over = if mark.over { " over" } else { "" };
            text class={ (class(fits)) (over) } x=(super::axis::percent(*share)) y="15"
                text-anchor=(anchor(*share)) { (text) }
        }
    }
}

fn words(axis: &Axis, sketch: &Sketch) -> String {
    let mut out = format!(
        "Strip from above, {} at the left, {} at the right.",
        sketch.designators.0, sketch.designators.1
    );
    for mark in sketch.marks.iter().take(20) {
        let over = if mark.over { ", over its limit" } else { "" };
        let stretch = stretch_text(mark.from, mark.to, axis.units());
        out.push_str(&format!(" {}, {stretch}{over}.", mark_label(mark, axis.units())));
    }
    out
}
