//! Elevation of the centre line with its design grade, and crossfall, by station.

use super::super::axis::{self, Band};
use super::super::canvas::{Anchor, Canvas, Pen, Type};
use super::super::frame::Ruler;
use super::super::palette::{ALERT, GREY, INK};
use super::super::scale::Scale;
use super::{StripFigure, WIDTH, marker, ruler};
use crate::measure::{offset_text, station_unit};
use hardpan_assess::{CrossfallAt, LineShape, PlaceKind, StripDossier, StripPlace};
use hardpan_quantity::{Length, Quantity, Ratio, UnitSystem};

const ELEVATION: f64 = 40.0;
const CROSSFALL: f64 = 30.0;

/// Elevation and crossfall.
pub(super) fn draw(dossier: &StripDossier, units: UnitSystem) -> StripFigure {
    let ruler = ruler(dossier, units, "hardpan-strip-elevation");
    let mut canvas = Canvas::new(WIDTH);
    let centre =
        dossier.lines.iter().min_by(|a, b| a.offset.si().abs().total_cmp(&b.offset.si().abs()));
    let y = elevation(&mut canvas, &ruler, dossier, centre);
    let y = crossfall(&mut canvas, &ruler, &dossier.crossfall, y);
    let y = axis::stations(&mut canvas, &ruler, y);
    let words = match centre {
        Some(line) => format!(
            "Elevation of the line at offset {} with its design grade; crossfall by station.",
            offset_text(line.offset, units)
        ),
        None => "Neither elevation nor crossfall is known: there is no survey.".to_owned(),
    };
    let svg = canvas.finish(y + 0.5, "Elevation and crossfall", &words);
    StripFigure { name: "elevation", title: "Elevation and crossfall", words, svg }
}

fn elevation(
    canvas: &mut Canvas,
    ruler: &Ruler,
    dossier: &StripDossier,
    centre: Option<&LineShape>,
) -> f64 {
    let (unit_name, unit) = station_unit(ruler.units);
    let title = format!("Elevation, {unit_name}");
    let (upper, lower) = (5.0, ELEVATION - 2.0);
    let points = centre.map_or_else(Vec::new, |line| finite(&line.levels));
    if points.len() < 2 {
        axis::nothing(canvas, ruler, (upper, lower), &title);
        return ELEVATION;
    }
    let low = points.iter().map(|point| point.1).fold(f64::INFINITY, f64::min);
    let high = points.iter().map(|point| point.1).fold(f64::NEG_INFINITY, f64::max);
    let room = ((high - low) * 0.2).max(0.25);
    let scale = Scale::new((low - room * 0.4, high + room), (lower, upper));
    axis::values(canvas, ruler, &Band { title: &title, scale, unit });
    let line = |canvas: &mut Canvas, points: &[(f64, f64)], pen: Pen| {
        let places: Vec<(f64, f64)> =
            points.iter().map(|(s, z)| (ruler.stations.within(*s), scale.within(*z))).collect();
        canvas.path(&places, pen, "");
    };
    let grade = centre.map_or_else(Vec::new, |line| finite(&line.grade));
    line(canvas, &grade, Pen::new(ALERT, 0.45).dashed("2.2 1.1"));
    line(canvas, &points, Pen::new(INK, 0.4));
    key(canvas, ruler, upper, &["ground", "design grade"], "");
    for (at, place) in dossier.places.iter().enumerate() {
        if is_uneven(place) {
            let x = ruler.at(place.worst);
            let ground = level_at(&points, place.worst.si());
            let y = scale.within(ground);
            canvas.line((x, y), (x, y - 2.4), Pen::new(INK, 0.2));
            marker(canvas, (x, y - 4.2), at + 1, place.over);
        }
    }
    ELEVATION
}

fn is_uneven(place: &StripPlace) -> bool {
    matches!(place.kind, PlaceKind::Bump | PlaceKind::Rut | PlaceKind::Irregularity)
}

fn level_at(points: &[(f64, f64)], station: f64) -> f64 {
    let nearest =
        points.iter().min_by(|a, b| (a.0 - station).abs().total_cmp(&(b.0 - station).abs()));
    nearest.map_or(0.0, |point| point.1)
}

fn finite(levels: &[(Length, Length)]) -> Vec<(f64, f64)> {
    let plain = levels.iter().map(|(station, level)| (station.si(), level.si()));
    plain.filter(|(station, level)| station.is_finite() && level.is_finite()).collect()
}

fn key(canvas: &mut Canvas, ruler: &Ruler, upper: f64, names: &[&str; 2], rest: &str) {
    let y = upper - 1.6;
    let mut x = ruler.ends().0 + 42.0;
    let pens = [Pen::new(INK, 0.4), Pen::new(ALERT, 0.45).dashed("2.2 1.1")];
    for (name, pen) in names.iter().zip(pens) {
        canvas.line((x, y - 0.6), (x + 8.0, y - 0.6), pen);
        canvas.text((x + 9.2, y + 0.3), name, Type::new(2.5, Anchor::Start));
        x += 34.0;
    }
    let how = Type::new(2.5, Anchor::End).coloured(GREY);
    canvas.text((ruler.ends().1, y + 0.3), rest, how);
}

/// The fall to each side, or from edge to edge where there is no centre line.
fn crossfall(canvas: &mut Canvas, ruler: &Ruler, falls: &[CrossfallAt], top: f64) -> f64 {
    const TITLE: &str = "Crossfall, %";
    let (upper, lower) = (top + 6.0, top + CROSSFALL - 1.0);
    type Side = fn(&CrossfallAt) -> Option<Ratio>;
    let sides: [Side; 2] = if falls.iter().any(|fall| fall.left.is_some() || fall.right.is_some()) {
        [|fall| fall.left, |fall| fall.right]
    } else {
        [|fall| Some(fall.across), |_| None]
    };
    let of = |side: Side| -> Vec<(f64, f64)> {
        let pairs = falls.iter().filter_map(|fall| Some((fall.station.si(), side(fall)?.si())));
        pairs.filter(|(station, fall)| station.is_finite() && fall.is_finite()).collect()
    };
    let both = sides.map(of);
    let all = || both.iter().flatten().map(|point| point.1);
    if all().next().is_none() {
        axis::nothing(canvas, ruler, (upper, lower), TITLE);
        return top + CROSSFALL;
    }
    let low = all().fold(0.0_f64, f64::min).max(-0.1) * 1.1;
    let high = (all().fold(0.012_f64, f64::max) * 1.1).min(0.2);
    let scale = Scale::new((low, high), (lower, upper));
    axis::values(canvas, ruler, &Band { title: TITLE, scale, unit: 0.01 });
    let level = |canvas: &mut Canvas, value: f64, pen: Pen| {
        let (y, (left, right)) = (scale.within(value), ruler.ends());
        canvas.line((left, y), (right, y), pen);
    };
    level(canvas, 0.0, Pen::new(INK, 0.25));
    level(canvas, 0.01, Pen::new(GREY, 0.3).dashed("0.6 0.6"));
    let pens = [Pen::new(INK, 0.4), Pen::new(ALERT, 0.45).dashed("2.2 1.1")];
    for (points, pen) in both.iter().zip(pens) {
        let places: Vec<(f64, f64)> =
            points.iter().map(|(s, f)| (ruler.stations.within(*s), scale.within(*f))).collect();
        canvas.path(&places, pen, "");
    }
    key(canvas, ruler, upper, &["to the left", "to the right"], "dotted: 1 %; positive drains");
    top + CROSSFALL
}
