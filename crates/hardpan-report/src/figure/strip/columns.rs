//! Soundings by station: strength under the surfacing, and what each shows by depth.

use super::super::axis::{self, Band};
use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::frame::Ruler;
use super::super::labels::text_width;
use super::super::palette::{GREY, INK, PAPER};
use super::super::patterns::{Hatch, WEAK, definitions};
use super::super::scale::Scale;
use super::{StripFigure, WIDTH, note, ruler, small_unit};
use hardpan_assess::{ColumnStrata, SoundingColumn, StripDossier};
use hardpan_quantity::{BearingRatio, Length, Quantity, UnitSystem};

const STRENGTH: f64 = 36.0;
const DEPTH: f64 = 46.0;
/// Breadth of a column at most and at least.
const BREADTH: (f64, f64) = (3.4, 0.9);

type Known<'a> = (&'a SoundingColumn, &'a ColumnStrata);

/// Strength and strata by station.
pub(super) fn draw(dossier: &StripDossier, units: UnitSystem) -> StripFigure {
    let ruler = ruler(dossier, units, "hardpan-strip-soundings");
    let mut canvas = Canvas::new(WIDTH);
    canvas.raw(&definitions(ruler.prefix(), &WEAK));
    let known: Vec<Known<'_>> =
        dossier.soundings.iter().filter_map(|one| Some((one, one.strata.as_ref().ok()?))).collect();
    let y = strength(&mut canvas, &ruler, &known);
    let y = strata(&mut canvas, &ruler, &known, y);
    let mut y = axis::stations(&mut canvas, &ruler, y);
    if !known.is_empty() {
        y = key(&mut canvas, &ruler, y + 1.0);
    }
    let words = match known.len() {
        0 => "Strength is not known: there are no soundings that can be used.".to_owned(),
        count => format!("{count} soundings by station with credited bearing ratios."),
    };
    let svg = canvas.finish(y + 1.0, "Strength by station", &words);
    StripFigure { name: "soundings", title: "Surfacing and strength by station", words, svg }
}

fn strength(canvas: &mut Canvas, ruler: &Ruler, known: &[Known<'_>]) -> f64 {
    const TITLE: &str = "Bearing ratio under the surfacing, credited, %";
    let (upper, lower) = (5.0, STRENGTH - 2.0);
    if known.is_empty() {
        axis::nothing(canvas, ruler, (upper, lower), TITLE);
        return STRENGTH;
    }
    let most = known.iter().map(|(_, strata)| strata.under.si()).fold(1.0, f64::max);
    let scale = Scale::new((0.0, most * 1.1), (lower, upper));
    axis::values(canvas, ruler, &Band { title: TITLE, scale, unit: 1.0 });
    for (one, strata) in known {
        let at = (ruler.at(one.station), scale.within(strata.under.si()));
        canvas.line((at.0, lower), at, Pen::new(GREY, 0.2));
        sign(canvas, at, one.offset);
    }
    let how = Type::new(2.5, Anchor::Start);
    let mut x = ruler.ends().0 + 78.0;
    for (name, offset) in [("left of the centre", -2.0), ("centre", 0.0), ("right", 2.0)] {
        sign(canvas, (x, 2.8), Length::from_si(offset));
        canvas.text((x + 2.2, 3.7), name, how);
        x += text_width(name, 2.5, false) + 8.0;
    }
    STRENGTH
}

/// Triangle at the left of the centre, circle near it, square at the right.
fn sign(canvas: &mut Canvas, at: (f64, f64), offset: Length) {
    let (x, y) = at;
    match offset.si() {
        left if left < -1.0 => {
            canvas.area(&[(x - 1.2, y + 1.0), (x, y - 1.2), (x + 1.2, y + 1.0)], INK, "");
        }
        right if right > 1.0 => {
            canvas.rectangle((x - 0.9, y - 0.9), (1.8, 1.8), INK, None);
        }
        _ => canvas.circle(at, 0.95, PAPER, Some(Pen::new(INK, 0.4))),
    }
}

fn strata(canvas: &mut Canvas, ruler: &Ruler, known: &[Known<'_>], top: f64) -> f64 {
    let (unit_name, unit) = small_unit(ruler.units);
    let title = format!("Depth of the soundings, {unit_name}");
    let (upper, lower) = (top + 6.0, top + DEPTH - 1.0);
    if known.is_empty() {
        axis::nothing(canvas, ruler, (upper, lower), &title);
        return top + DEPTH;
    }
    let deepest = known.iter().map(|(_, strata)| strata.known_to.si()).fold(0.1, f64::max);
    let scale = Scale::new((0.0, deepest * 1.04), (upper, lower));
    for (shown, value) in scale.ticks(unit, 5) {
        let y = scale.at(value);
        let how = Type::new(2.6, Anchor::End).coloured(GREY);
        canvas.text((ruler.ends().0 - 2.6, y + 0.9), &super::super::panel::tick(shown), how);
    }
    let (left, right) = ruler.ends();
    canvas.line((left, upper), (right, upper), Pen::new(INK, 0.35));
    canvas.text((left, upper - 1.4), &title, Type::new(2.8, Anchor::Start).strong());
    let mut next = f64::NEG_INFINITY;
    let breadth = breadth(ruler, known);
    for (one, strata) in known {
        let x = ruler.at(one.station).max(next);
        next = x + breadth;
        if x - ruler.at(one.station) > 3.0 * breadth {
            continue;
        }
        column(canvas, ruler, strata, (x - breadth / 2.0, breadth), &scale);
    }
    top + DEPTH
}

fn breadth(ruler: &Ruler, known: &[Known<'_>]) -> f64 {
    let (left, right) = ruler.ends();
    (0.85 * (right - left) / known.len().max(1) as f64).clamp(BREADTH.1, BREADTH.0)
}

fn column(canvas: &mut Canvas, ruler: &Ruler, strata: &ColumnStrata, x: (f64, f64), scale: &Scale) {
    for (from, to, ratio) in &strata.layers {
        let (upper, lower) = (scale.at(from.si()), scale.at(to.si()));
        let fill = class(*ratio).map_or(PAPER.to_owned(), |hatch| hatch.fill(ruler.prefix()));
        let edge = Some(Pen::new(INK, 0.15));
        canvas.rectangle((x.0, upper), (x.1, lower - upper), &fill, edge);
    }
    if let Some(surfacing) = strata.surfacing {
        let y = scale.at(surfacing.si());
        canvas.line((x.0 - 0.5, y), (x.0 + x.1 + 0.5, y), Pen::new(INK, 0.8));
    }
    if strata.refusal {
        let (y, middle) = (scale.at(strata.known_to.si()), x.0 + x.1 / 2.0);
        canvas.line((middle - 0.8, y - 0.8), (middle + 0.8, y + 0.8), Pen::new(INK, 0.35));
        canvas.line((middle - 0.8, y + 0.8), (middle + 0.8, y - 0.8), Pen::new(INK, 0.35));
    }
}

fn class(ratio: BearingRatio) -> Option<&'static Hatch> {
    let step = match ratio.si() {
        ratio if ratio < 5.0 => 0,
        ratio if ratio < 10.0 => 1,
        ratio if ratio < 20.0 => 2,
        ratio if ratio < 40.0 => 3,
        _ => return None,
    };
    WEAK.get(step)
}

fn key(canvas: &mut Canvas, ruler: &Ruler, top: f64) -> f64 {
    let mut x = ruler.ends().0;
    let names = ["under 5 %", "under 10 %", "under 20 %", "under 40 %"];
    let edge = Some(Pen::new(GREY, 0.2));
    for (hatch, name) in WEAK.iter().zip(names) {
        canvas.rectangle((x, top), (7.0, 3.4), &hatch.fill(ruler.prefix()), edge);
        canvas.text((x + 8.2, top + 2.6), name, Type::new(2.5, Anchor::Start));
        x += 11.0 + text_width(name, 2.5, false);
    }
    canvas.rectangle((x, top), (7.0, 3.4), PAPER, edge);
    canvas.text((x + 8.2, top + 2.6), "40 % or more", Type::new(2.5, Anchor::Start));
    let text = "Thick line: bottom of the surfacing as the cone shows it. Cross: refusal. A column \
                that finds no room stands in the table only.";
    note(canvas, (ruler.ends().0, top + 6.4), text);
    top + 7.4
}

#[cfg(test)]
mod tests {
    use super::class;
    use hardpan_quantity::bearing_percent;

    #[test]
    fn weaker_ground_is_hatched_closer() {
        let pitches: Vec<f64> = [3.0, 7.0, 15.0, 30.0]
            .into_iter()
            .filter_map(|ratio| Some(class(bearing_percent(ratio))?.pitch))
            .collect();
        assert!(pitches.len() == 4 && pitches.is_sorted());
        assert!(class(bearing_percent(60.0)).is_none());
    }
}
