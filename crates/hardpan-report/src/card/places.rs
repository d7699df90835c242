//! The places on the strip that the crew must have in mind.

use super::blocks::{Figure, WatchData, WatchPlace};
use super::data::Cut;
use crate::Report;
use crate::figure::mark_word;
use crate::measure::{amount_text, stretch_text};
use crate::wrap::plain;
use hardpan_assess::{SketchMark, SketchMarkKind};
use hardpan_quantity::{Quantity, UnitSystem};

/// Places shown at most.
const MOST: usize = 2;

/// The marked places over their limit, soft ground first; where there are
/// none, the place of the governing finding.
pub(super) fn watch(report: &Report, cut: Cut) -> WatchData {
    let mut marks: Vec<&SketchMark> =
        report.assessment.sketch.marks.iter().filter(|mark| mark.over).collect();
    marks.sort_by(|a, b| {
        let from = |mark: &SketchMark| mark.from.si();
        order(a.kind).cmp(&order(b.kind)).then(from(a).total_cmp(&from(b)))
    });
    let mut places: Vec<WatchPlace> =
        marks.iter().take(MOST).map(|mark| place(mark, report.units, cut)).collect();
    if places.is_empty() {
        places.extend(governing(report, cut));
    }
    WatchData { places, more: marks.len().saturating_sub(MOST) }
}

const fn order(kind: SketchMarkKind) -> u8 {
    match kind {
        SketchMarkKind::Soft => 0,
        SketchMarkKind::Water => 1,
        SketchMarkKind::Bump => 2,
        SketchMarkKind::Rut => 3,
        SketchMarkKind::Unknown => 4,
        SketchMarkKind::Loose => 5,
    }
}

fn place(mark: &SketchMark, units: UnitSystem, cut: Cut) -> WatchPlace {
    let label = plain(&mark.label);
    let label = if label.is_empty() { mark_word(mark.kind).to_owned() } else { label };
    let what = match mark.amount {
        Some(amount) => format!("{label}, {}", amount_text(amount, units)),
        None => label,
    };
    WatchPlace {
        stretch: split(&stretch_text(mark.from, mark.to, units)),
        what: cut.words(&what, 40),
    }
}

fn governing(report: &Report, cut: Cut) -> Option<WatchPlace> {
    let row = report.governing()?;
    let place = row.place?;
    let stretch = split(&stretch_text(place.from, place.to, report.units));
    Some(WatchPlace { stretch, what: cut.words(&format!("{} {}", row.code, row.title), 40) })
}

fn split(stretch: &str) -> Figure {
    match stretch.rsplit_once('\u{a0}') {
        Some((number, unit)) => Figure { number: number.to_owned(), unit: unit.to_owned() },
        None => Figure { number: stretch.to_owned(), unit: String::new() },
    }
}
