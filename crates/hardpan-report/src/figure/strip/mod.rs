//! Figures of the strip alone. Those that run along the strip share one
//! station axis, so that they can be laid under one another.

mod above;
mod columns;
mod details;
mod elevation;
mod index;
mod ride;
mod sections;
mod spectrum;

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::frame::{Ruler, Size};
use super::labels::{Wanted, spread};
use super::palette::{GREY, INK, PAPER};
use super::scale::Scale;
use crate::measure::amount_text;
use crate::told;
use hardpan_assess::{StripDossier, StripPlace};
use hardpan_quantity::{Length, Quantity, UnitSystem};

/// Width of every figure of the strip, millimetres: an A4 page less its margins.
const WIDTH: f64 = 186.0;

/// A figure of the strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripFigure {
    /// Name of its file, without an ending.
    pub name: &'static str,
    /// Title.
    pub title: &'static str,
    /// What it shows, for those who cannot see it.
    pub words: String,
    /// A self-contained SVG document.
    pub svg: String,
}

/// Every figure of a strip, in the order of the dossier. What is not known is
/// said in words; figures of which nothing at all is known are left out.
#[must_use]
pub fn strip_figures(dossier: &StripDossier, units: UnitSystem) -> Vec<StripFigure> {
    let dossier = &told::dossier(dossier, units);
    let drawn = [
        Some(above::evenness(dossier, units)),
        Some(elevation::draw(dossier, units)),
        details::draw(dossier, units),
        sections::draw(dossier, units),
        Some(index::draw(dossier, units)),
        spectrum::draw(dossier, units),
        ride::draw(dossier, units),
        Some(above::water(dossier, units)),
        Some(columns::draw(dossier, units)),
    ];
    drawn.into_iter().flatten().collect()
}

/// The station axis that the figures share.
fn ruler(dossier: &StripDossier, units: UnitSystem, prefix: &'static str) -> Ruler {
    let length = dossier.length.map(Length::si).filter(|l| l.is_finite() && *l > 0.0);
    let surveyed = dossier.lines.iter().filter_map(|line| line.levels.last());
    let sounded = dossier.soundings.iter().map(|one| one.station.si());
    let last = length
        .unwrap_or_else(|| surveyed.map(|level| level.0.si()).chain(sounded).fold(1.0, f64::max));
    Ruler {
        size: Size::Card,
        units,
        stations: Scale::new((0.0, last), (27.0, WIDTH - 9.0)),
        length_known: length.is_some(),
        prefix,
    }
}

/// Numbers of the worst places in rows over a band, each with a leader down to
/// its station; returns the place below the rows. Where there is no room for a
/// number, it is left out here and stands in the list.
fn numbers(
    canvas: &mut Canvas,
    ruler: &Ruler,
    top: f64,
    places: &[(usize, &StripPlace)],
    reach: impl Fn(&StripPlace) -> f64,
) -> f64 {
    const ROWS: usize = 3;
    const STEP: f64 = 4.6;
    let wanted: Vec<Wanted> = places
        .iter()
        .map(|(_, place)| Wanted { at: ruler.at(place.worst), widths: (4.6, 4.6) })
        .collect();
    let (left, right) = ruler.ends();
    let placed = spread(&wanted, (left - 3.0, right + 5.0), ROWS);
    let rows = placed.iter().flatten().map(|place| place.row + 1).max().unwrap_or(0);
    let below = top + rows as f64 * STEP + 0.6;
    for ((number, place), placed) in places.iter().zip(&placed) {
        let Some(placed) = placed else { continue };
        let middle = below - 0.6 - (placed.row as f64 + 0.5) * STEP;
        let x = ruler.at(place.worst);
        canvas.line((x, middle), (x, below + reach(place)), Pen::new(INK, 0.2));
        marker(canvas, (placed.middle, middle), *number, place.over);
    }
    below
}

/// The number of a place in a ring; white on black where it is over its limit.
fn marker(canvas: &mut Canvas, at: (f64, f64), number: usize, over: bool) {
    let (fill, ink) = if over { (INK, PAPER) } else { (PAPER, INK) };
    canvas.circle(at, 2.0, fill, Some(Pen::new(INK, 0.3)));
    let how = Type::new(2.5, Anchor::Middle).strong().coloured(ink);
    canvas.text((at.0, at.1 + 0.9), &number.to_string(), how);
}

/// A line of small grey words.
fn note(canvas: &mut Canvas, at: (f64, f64), text: &str) {
    canvas.text(at, text, Type::new(2.5, Anchor::Start).coloured(GREY));
}

/// Height or depth in millimetres or inches.
fn small(length: Length, units: UnitSystem) -> String {
    amount_text(length.into(), units)
}

/// Symbol and size of the unit for heights that are small.
fn small_unit(units: UnitSystem) -> (&'static str, f64) {
    match units {
        UnitSystem::Metric => ("mm", 1e-3),
        UnitSystem::Imperial => ("in", 0.0254),
    }
}
