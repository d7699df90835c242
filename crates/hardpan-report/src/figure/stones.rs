//! Stones thrown at the aeroplane, from the side and from above: parts as bars,
//! deflectors hatched, paths as they fly, each end with its own sign.

use super::canvas::{Anchor, Canvas, Pen, Type};
use super::labels::fitted;
use super::palette::{ALERT, FAINT, GREY, INK, PALE, PAPER};
use super::scale::Scale;
use crate::Report;
use crate::measure::{quantity_text, station_unit, whole};
use hardpan_assess::{PathEnd, PictureZone, StonePath, StonePicture, ZoneUse};
use hardpan_quantity::{Length, Quantity as _, UnitSystem};

const WIDTH: f64 = 260.0;
const LEFT: f64 = 22.0;
const RIGHT: f64 = 8.0;
/// Letters of the caution on a line.
const CAUTION_LETTERS: usize = 135;
/// Of a part seen from the side.
const THICK: f64 = 1.3;
const HATCH: &str = "hardpan-stones-deflector";

/// Stones thrown at the aeroplane from the side and from above, about 260 mm
/// wide, with what comes to each part in words.
///
/// A self-contained SVG document. Where no stones are thrown it says so.
#[must_use]
pub fn stone_figure(report: &Report) -> String {
    let mut canvas = Canvas::new(WIDTH);
    canvas.raw(&format!(
        "<defs><pattern id=\"{HATCH}\" width=\"1.2\" height=\"1.2\" \
         patternUnits=\"userSpaceOnUse\"><rect width=\"1.2\" height=\"1.2\" fill=\"{PAPER}\"/>\
         <path d=\"M-.3 .3L.3 -.3M0 1.2L1.2 0M.9 1.5L1.5 .9\" stroke=\"{INK}\" \
         stroke-width=\".4\"/></pattern></defs>"
    ));
    let Some(picture) = report.assessment.stones.as_ref().filter(|one| !one.zones.is_empty())
    else {
        let how = Type::new(3.4, Anchor::Middle).coloured(GREY);
        canvas.text((WIDTH / 2.0, 12.0), "no thrown stones are computed", how);
        return canvas.finish(20.0, "Thrown stones", "No thrown stones are computed.");
    };
    let view = View::new(picture, report.units);
    let y = heading(&mut canvas, picture, report.units);
    let y = side(&mut canvas, &view, y);
    let y = plan(&mut canvas, &view, y);
    let y = axis(&mut canvas, &view, y);
    let y = legend(&mut canvas, y);
    let y = words(&mut canvas, picture, report.units, y);
    let caution = Type::new(2.6, Anchor::Start).coloured(GREY);
    let mut y = y + 2.0;
    for line in textwrap::wrap(report.caution, CAUTION_LETTERS) {
        canvas.text((LEFT, y), &line, caution);
        y += 3.8;
    }
    canvas.finish(y + 1.0, "Thrown stones", &describe(picture, report.units))
}

/// The scale that both views share, so that shapes keep their proportions.
struct View<'a> {
    picture: &'a StonePicture,
    along: Scale,
    size: f64,
    units: UnitSystem,
    /// Greatest height and greatest distance to the side that are drawn.
    reach: (f64, f64),
}

impl<'a> View<'a> {
    fn new(picture: &'a StonePicture, units: UnitSystem) -> Self {
        let zones = || picture.zones.iter();
        let tyres = || picture.tyres.iter();
        let fold = |values: Vec<f64>, first: f64, pick: fn(f64, f64) -> f64| {
            values.into_iter().filter(|value| value.is_finite()).fold(first, pick)
        };
        let front = zones().map(|zone| zone.along.0.si());
        let front =
            fold(front.chain(tyres().map(|t| t[0].si() - t[2].si())).collect(), 0.0, f64::min);
        let back = zones().map(|zone| zone.along.1.si());
        let back =
            fold(back.chain(tyres().map(|t| t[0].si() + t[2].si())).collect(), 1.0, f64::max);
        let top = fold(zones().map(|zone| zone.height.si()).collect(), 0.5, f64::max);
        let edges = zones().flat_map(|zone| &zone.across);
        let edges = edges.flat_map(|(left, right)| [left.si().abs(), right.si().abs()]);
        let tyre_sides = tyres().map(|t| t[1].si().abs() + t[3].si());
        let aside = fold(edges.chain(tyre_sides).collect(), 1.0, f64::max);
        let along = Scale::new((front - 0.5, back + 0.5), (LEFT, WIDTH - RIGHT));
        let size = along.at(1.0) - along.at(0.0);
        Self { picture, along, size, units, reach: (top * 1.15 + 0.2, aside * 1.1) }
    }

    fn x(&self, aft: Length) -> f64 {
        self.along.at(aft.si())
    }
}

fn heading(canvas: &mut Canvas, picture: &StonePicture, units: UnitSystem) -> f64 {
    let text = format!(
        "Stones of {} thrown by tyre edges at up to {}, seen from the aeroplane",
        quantity_text(picture.stone, units),
        quantity_text(picture.fastest, units)
    );
    canvas.text((LEFT, 5.5), &text, Type::new(3.6, Anchor::Start).strong());
    let how = Type::new(2.8, Anchor::Start).coloured(GREY);
    let shown = "Planning only: launch by judged ranges. Parts are level bars, as in the aeroplane \
                 file; some of the paths are drawn.";
    canvas.text((LEFT, 9.8), shown, how);
    12.0
}

/// From the side, nose at the left.
fn side(canvas: &mut Canvas, view: &View<'_>, y: f64) -> f64 {
    let ground = y + 5.0 + view.reach.0 * view.size;
    let up = |height: Length| ground - height.si() * view.size;
    canvas.text((1.5, y + 6.0), "side", Type::new(3.0, Anchor::Start).strong());
    let (left, right) = view.along.places();
    canvas.line((left, ground), (right, ground), Pen::new(INK, 0.5));
    for path in &view.picture.paths {
        let place = |point: &[Length; 3]| (view.x(point[0]), up(point[2]));
        flight(canvas, path, &path.points.iter().map(place).collect::<Vec<_>>());
    }
    for tyre in &view.picture.tyres {
        let (x, r) = (view.x(tyre[0]), tyre[2].si() * view.size);
        if x.is_finite() && r.is_finite() {
            canvas.raw(&format!(
                r#"<circle cx="{x:.2}" cy="{:.2}" r="{r:.2}" fill="none" stroke="{GREY}" stroke-width=".4"/>"#,
                ground - r
            ));
        }
    }
    for zone in &view.picture.zones {
        let (from, to) = (view.x(zone.along.0), view.x(zone.along.1));
        bar(canvas, zone, (from, up(zone.height) - THICK), (to - from, THICK));
    }
    for (index, zone) in view.picture.zones.iter().enumerate() {
        let place = (view.x(zone.along.1) - 2.6, up(zone.height) - 3.0 - THICK);
        badge(canvas, place, index + 1);
    }
    ground + 4.0
}

/// From above, nose at the left, the right side of the aeroplane on top.
fn plan(canvas: &mut Canvas, view: &View<'_>, y: f64) -> f64 {
    let half = view.reach.1 * view.size;
    let centre = y + 3.0 + half;
    let across = |right: Length| centre - right.si() * view.size;
    canvas.text((1.5, y + 6.0), "from above", Type::new(3.0, Anchor::Start).strong());
    let (left, right) = view.along.places();
    for (index, zone) in view.picture.zones.iter().enumerate() {
        let (from, to) = (view.x(zone.along.0), view.x(zone.along.1));
        for (low, high) in &zone.across {
            let top = across(*high);
            bar(canvas, zone, (from, top), (to - from, across(*low) - top));
        }
        if let Some((_, high)) = zone.across.last() {
            badge(canvas, (to - 2.6, across(*high) + 2.9), index + 1);
        }
    }
    canvas.line((left, centre), (right, centre), Pen::new(GREY, 0.25).dashed("4 1 1 1"));
    for tyre in &view.picture.tyres {
        let (length, width) = (2.0 * tyre[2].si() * view.size, tyre[3].si() * view.size);
        let corner = (view.x(tyre[0]) - length / 2.0, across(tyre[1]) - width / 2.0);
        canvas.rectangle(corner, (length, width), PAPER, Some(Pen::new(GREY, 0.4)));
    }
    for path in &view.picture.paths {
        let place = |point: &[Length; 3]| (view.x(point[0]), across(point[1]));
        flight(canvas, path, &path.points.iter().map(place).collect::<Vec<_>>());
    }
    centre + half + 3.0
}

/// A path and the sign of its end: a cross for a strike, a ring for a stop.
fn flight(canvas: &mut Canvas, path: &StonePath, points: &[(f64, f64)]) {
    let strike = path.end == PathEnd::Strike;
    let pen = if strike { Pen::new(ALERT, 0.3) } else { Pen::new(GREY, 0.22).dashed("1 .7") };
    canvas.path(points, pen, "");
    if let Some(end) = points.last() {
        sign(canvas, *end, path.end);
    }
}

fn sign(canvas: &mut Canvas, (x, y): (f64, f64), end: PathEnd) {
    match end {
        PathEnd::Strike => {
            let arm = 0.9;
            canvas.line((x - arm, y - arm), (x + arm, y + arm), Pen::new(ALERT, 0.45));
            canvas.line((x - arm, y + arm), (x + arm, y - arm), Pen::new(ALERT, 0.45));
        }
        PathEnd::Stopped if x.is_finite() && y.is_finite() => canvas.raw(&format!(
            r#"<circle cx="{x:.2}" cy="{y:.2}" r=".7" fill="{PAPER}" stroke="{INK}" stroke-width=".3"/>"#
        )),
        PathEnd::Stopped => {}
    }
}

fn bar(canvas: &mut Canvas, zone: &PictureZone, corner: (f64, f64), size: (f64, f64)) {
    let hatch = format!("url(#{HATCH})");
    let (fill, pen) = match zone.does {
        ZoneUse::Airframe { .. } => (FAINT, Pen::new(INK, 0.4)),
        ZoneUse::Deflector { works: true, .. } => (hatch.as_str(), Pen::new(INK, 0.5)),
        ZoneUse::Deflector { works: false, .. } => ("none", Pen::new(GREY, 0.4).dashed("1.2 .8")),
    };
    canvas.rectangle(corner, size, fill, Some(pen));
}

/// The number of a zone.
fn badge(canvas: &mut Canvas, (x, y): (f64, f64), number: usize) {
    canvas.rectangle((x - 1.9, y - 1.9), (3.8, 3.8), PAPER, Some(Pen::new(PALE, 0.2)));
    canvas.text((x, y + 1.0), &number.to_string(), Type::new(2.9, Anchor::Middle).strong());
}

fn axis(canvas: &mut Canvas, view: &View<'_>, y: f64) -> f64 {
    let (unit, size) = station_unit(view.units);
    let (left, right) = view.along.places();
    canvas.line((left, y), (right, y), Pen::new(INK, 0.3));
    for (shown, place) in view.along.ticks(size, 10) {
        let x = view.along.at(place);
        canvas.line((x, y), (x, y + 1.0), Pen::new(INK, 0.3));
        canvas.text((x, y + 4.4), &whole(shown), Type::new(2.8, Anchor::Middle));
    }
    let name = Type::new(2.8, Anchor::End).coloured(GREY);
    canvas.text((right, y + 8.2), &format!("aft of the nose wheels, {unit}"), name);
    y + 10.0
}

fn legend(canvas: &mut Canvas, y: f64) -> f64 {
    let plain = Type::new(2.8, Anchor::Start);
    let mut entry = |x: f64, text: &str, end: Option<PathEnd>, zone: Option<bool>| {
        if let Some(end) = end {
            let path = StonePath { points: Vec::new(), end, from_nose: false };
            flight(canvas, &path, &[(x, y), (x + 7.0, y)]);
        }
        if let Some(guard) = zone {
            let hatch = format!("url(#{HATCH})");
            let fill = if guard { hatch.as_str() } else { FAINT };
            canvas.rectangle((x, y - 1.4), (7.0, 2.6), fill, Some(Pen::new(INK, 0.4)));
        }
        canvas.text((x + 9.5, y + 1.0), text, plain);
    };
    entry(LEFT, "strikes", Some(PathEnd::Strike), None);
    entry(LEFT + 34.0, "stopped by a deflector", Some(PathEnd::Stopped), None);
    entry(LEFT + 88.0, "part of the airframe", None, Some(false));
    entry(LEFT + 138.0, "deflector (dashed: does not work)", None, Some(true));
    y + 7.0
}

/// What comes to each part, by its number.
fn words(canvas: &mut Canvas, picture: &StonePicture, units: UnitSystem, top: f64) -> f64 {
    let mut y = top;
    for (index, zone) in picture.zones.iter().enumerate() {
        badge(canvas, (LEFT + 1.9, y - 1.0), index + 1);
        let text = format!("{}: {}", zone.name, zone_text(zone, units));
        let how = Type::new(3.0, Anchor::Start);
        canvas.text((LEFT + 6.5, y), &fitted(&text, 3.0, false, WIDTH - LEFT - RIGHT - 8.0), how);
        y += 5.2;
    }
    y
}

fn zone_text(zone: &PictureZone, units: UnitSystem) -> String {
    match zone.does {
        ZoneUse::Airframe { share, bare, .. } if share.si() <= 0.0 => {
            format!("no stone drawn reaches it; {} without deflectors", quantity_text(bare, units))
        }
        ZoneUse::Airframe { share, bare, nose, greatest, band } => format!(
            "{} of the stones thrown reach it ({} without deflectors), {:.0} in 100 from the nose \
             tyres; at most {}, band {band}",
            quantity_text(share, units),
            quantity_text(bare, units),
            nose.si() * 100.0,
            quantity_text(greatest, units)
        ),
        ZoneUse::Deflector { works: true, stops } => {
            format!("stops {} of the strikes by itself", quantity_text(stops, units))
        }
        ZoneUse::Deflector { works: false, stops } => format!(
            "not fitted or not working; it would stop {} of the strikes",
            quantity_text(stops, units)
        ),
    }
}

fn describe(picture: &StonePicture, units: UnitSystem) -> String {
    let zones = picture.zones.iter();
    let zones = zones.map(|zone| format!("{}: {}.", zone.name, zone_text(zone, units)));
    let ends = |end| picture.paths.iter().filter(|path| path.end == end).count();
    format!(
        "Side view and view from above. Of the paths drawn {} strike and {} are stopped. {}",
        ends(PathEnd::Strike),
        ends(PathEnd::Stopped),
        zones.collect::<Vec<_>>().join(" ")
    )
}
