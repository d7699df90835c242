//! Obstacles and areas by longitude and latitude, as GeoJSON.
//!
//! Source: [RFC-7946]: WGS 84, longitude before latitude.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Files, Page};
use crate::strip::ends::{Lacking, axis_on_globe};
use crate::strip::features::area_kinds;
use crate::strip::load;
use crate::table::cursor::{Entry, Table};
use crate::table::moments::date_of;
use crate::table::plausible::{self, Bounds};
use hardpan_model::{Area, AreaOutline, AxisPoint, Given, Obstacle, ObstacleTop, Strip};
use hardpan_quantity::{
    Amount, Length, Quantity, UnitSystem, degrees, feet, inches, metres, millimetres,
};
use hardpan_survey::{Geographic, GlobeAxis};
use serde_json::Value;
use std::ops::Range;

/// Most corners of one area.
const MOST_CORNERS: usize = 10_000;

/// Nothing that is built or grows beside a strip stands higher: judgement.
const HIGH_M: f64 = 300.0;

/// Endings of a key, and the unit that each says.
type Units = [(&'static str, fn(f64) -> Length); 2];
const HEIGHTS: Units = [("_m", metres), ("_ft", feet)];
const DEPTHS: Units = [("_mm", millimetres), ("_in", inches)];

/// Add the places of a file to those of the strip.
pub(super) fn add(t: &Table<'_>, files: &mut Files<'_>, entry: &Entry<'_>, strip: &mut Strip) {
    let lacking = Lacking { t, entry, what: "places lie on the globe" };
    for (end, key, example) in [
        (&strip.low_end, "low_end.latitude", "\"52.1000 deg\" and its longitude"),
        (&strip.high_end, "high_end.latitude", "\"52.1064 deg\" and its longitude"),
    ] {
        lacking.unless(end.latitude.is_some() && end.longitude.is_some(), key, example);
    }
    let axis = match axis_on_globe(strip) {
        Some(Ok(axis)) => axis,
        Some(Err(error)) => {
            let why = error.to_string();
            t.page().report(entry.span.clone(), &Mistake::NotPlaces { why });
            return;
        }
        None => return,
    };
    let Some((file, text)) = load(t.page(), files, entry) else { return };
    let page = Page::new(&file, &text);
    if let Some(found) = collection(&page) {
        let spans = spans(&text);
        for (index, feature) in found.iter().enumerate() {
            let span = spans.get(index).cloned().unwrap_or(0..0);
            Place { page: &page, span, feature, axis: &axis }.add(strip);
        }
    }
    files.close(page);
}

fn collection(page: &Page<'_>) -> Option<Vec<Value>> {
    let wrong = |at: Range<usize>, why: &str| {
        page.report(at, &Mistake::NotPlaces { why: why.to_owned() });
        None
    };
    let mut whole = match serde_json::from_str::<Value>(page.text) {
        Ok(whole) => whole,
        Err(error) => {
            let line = u32::try_from(error.line()).unwrap_or(1).max(1);
            let at = page.lines.line_span(page.text, page.lines.start(line));
            return wrong(at, &error.to_string());
        }
    };
    if whole.get("type").and_then(Value::as_str) != Some("FeatureCollection") {
        return wrong(0..0, "it is no FeatureCollection");
    }
    match whole.get_mut("features").map(Value::take) {
        Some(Value::Array(features)) => Some(features),
        _ => wrong(0..0, "it has no list `features`"),
    }
}

/// Bytes of each member of the list `features`, at the top of a text that is
/// known to be sound.
fn spans(text: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let (mut depth, mut quote, mut start, mut key) = (0_u32, None, 0, "");
    let mut inside = false;
    let mut escaped = false;
    for (at, byte) in text.bytes().enumerate() {
        if let Some(opened) = quote {
            match byte {
                _ if escaped => escaped = false,
                b'\\' => escaped = true,
                b'"' => {
                    if depth == 1 {
                        key = text.get(opened + 1..at).unwrap_or("");
                    }
                    quote = None;
                }
                _ => {}
            }
            continue;
        }
        match byte {
            b'"' => quote = Some(at),
            b'{' | b'[' => {
                if depth == 1 && byte == b'[' {
                    inside = key == "features";
                }
                if inside && depth == 2 && byte == b'{' {
                    start = at;
                }
                depth += 1;
            }
            b'}' | b']' => {
                depth = depth.saturating_sub(1);
                if inside && depth == 2 && byte == b'}' {
                    found.push(start..at + 1);
                }
                inside &= depth > 1;
            }
            _ => {}
        }
    }
    found
}

/// One member of the collection.
struct Place<'p> {
    page: &'p Page<'p>,
    span: Range<usize>,
    feature: &'p Value,
    axis: &'p GlobeAxis,
}

impl Place<'_> {
    fn wrong(&self, what: &str, wanted: &str, advice: &str) {
        let (what, wanted, advice) = (what.to_owned(), wanted.to_owned(), advice.to_owned());
        let first = self.page.lines.line_span(self.page.text, self.span.start);
        let span = self.span.start..first.end.min(self.span.end).max(self.span.start);
        self.page.report(span, &Mistake::PlaceWithout { what, wanted, advice });
    }

    fn given<T>(&self, key: &str, value: T) -> Given<T> {
        let origin = self.page.origin(self.span.start, key);
        Given { value, origin, source: None }
    }

    fn property(&self, key: &str) -> Option<&Value> {
        self.feature.get("properties")?.get(key).filter(|value| !value.is_null())
    }

    fn words(&self, key: &str) -> Option<&str> {
        self.property(key)?.as_str().map(str::trim).filter(|text| !text.is_empty())
    }

    /// Type and coordinates.
    fn geometry(&self) -> Option<(&str, &Value)> {
        let geometry = self.feature.get("geometry")?;
        Some((geometry.get("type")?.as_str()?, geometry.get("coordinates")?))
    }

    fn name(&self) -> Option<Given<String>> {
        self.words("name").map(|name| self.given("name", name.to_owned()))
    }

    fn add(&self, strip: &mut Strip) {
        // What this product found by itself is nobody's report.
        if self.property("found").and_then(Value::as_bool) == Some(true) {
            return;
        }
        let kinds = area_kinds();
        match self.words("kind") {
            Some("obstacle") => {
                if let Some(obstacle) = self.obstacle() {
                    self.reaches_up(&obstacle, strip);
                    strip.obstacles.get_or_insert_default().push(obstacle);
                }
            }
            Some(word) if kinds.iter().any(|(known, _)| *known == word) => {
                let kind = kinds.iter().find(|(known, _)| *known == word);
                let outlines = self.outlines();
                let reported_on = self.reported_on();
                let depth = self.length("depth", DEPTHS, plausible::RUT_DEPTH);
                let sinkage = self.length("sinkage", DEPTHS, plausible::SINKAGE);
                for (outline, (_, kind)) in outlines.into_iter().zip(kind.into_iter().cycle()) {
                    strip.areas.push(Area {
                        name: self.name(),
                        kind: self.given("kind", *kind),
                        outline,
                        depth: depth.map(|depth| self.given("depth", depth)),
                        sinkage: sinkage.map(|depth| self.given("sinkage", depth)),
                        reported_on: reported_on.clone(),
                    });
                }
            }
            _ => self.wrong(
                "this place does not say what it is",
                "a property `kind`: obstacle, soft, loose, wet, rutted or closed",
                "add \"kind\": \"soft\" to its properties",
            ),
        }
    }

    fn reported_on(&self) -> Option<Given<jiff::civil::Date>> {
        let text = self.property("reported_on")?;
        let date = text.as_str().and_then(date_of);
        if date.is_none() {
            self.wrong(
                "`reported_on` is not a date",
                "a date as year-month-day",
                "write \"reported_on\": \"2026-05-01\"",
            );
        }
        date.map(|date| self.given("reported_on", date))
    }

    fn obstacle(&self) -> Option<Obstacle> {
        let Some(("Point", coordinates)) = self.geometry() else {
            self.wrong(
                "this obstacle is not a point",
                "a Point at its edge nearest to the strip",
                "draw one point for each tree, mast or end of a row",
            );
            return None;
        };
        let at = self.located(coordinates)?;
        let height = self.length("height", HEIGHTS, plausible::OBSTACLE_HEIGHT);
        let elevation = self.length("elevation", HEIGHTS, plausible::OBSTACLE_ELEVATION);
        let top = match (height, elevation) {
            (Some(height), None) => ObstacleTop::OverThreshold(height),
            (None, Some(elevation)) => ObstacleTop::OverSea(elevation),
            (both, _) => {
                let what = if both.is_some() {
                    "this obstacle has both a height and an elevation"
                } else {
                    "this obstacle has no height that can be read"
                };
                self.wrong(
                    what,
                    "one of `height_m`, `height_ft` over the low end, `elevation_m`, `elevation_ft` over the sea",
                    "add \"height_m\": 12.5 to its properties",
                );
                return None;
            }
        };
        Some(Obstacle {
            name: self.name(),
            station: self.given("station", at.station),
            offset: self.given("offset", at.offset),
            top: self.given("height", top),
        })
    }

    /// A top that stands higher over the strip than it is away from it is most
    /// likely of another unit than its key says.
    fn reaches_up(&self, obstacle: &Obstacle, strip: &Strip) {
        let over = match (obstacle.top.value, &strip.elevation) {
            (ObstacleTop::OverThreshold(height), _) => height,
            (ObstacleTop::OverSea(top), Some(strip)) => top - strip.value,
            (ObstacleTop::OverSea(_), None) => return,
        };
        let Some(length) = &strip.length else { return };
        let (station, length) = (obstacle.station.value.si(), length.value.si());
        let beyond = (-station).max(station - length).max(0.0);
        let away = metres(beyond.hypot(obstacle.offset.value.si()));
        if over > metres(HIGH_M) && over > away {
            let what = format!(
                "the top of this obstacle stands {} over the strip and {} from it",
                Amount::from(over).show(UnitSystem::Metric),
                Amount::from(away).show(UnitSystem::Metric)
            );
            let wanted = "a height or an elevation in the unit that its key ends in";
            self.wrong(&what, wanted, "check the number, and whether it is in metres or in feet");
        }
    }

    /// A length under a key that ends in its unit.
    fn length(&self, key: &str, units: Units, bounds: Bounds) -> Option<Length> {
        for (unit, make) in units {
            let Some(value) = self.property(&format!("{key}{unit}")) else { continue };
            let Some(length) = value.as_f64().map(make) else {
                let what = format!("`{key}{unit}` is not a number");
                self.wrong(&what, "a number without a unit", "write it without quotation marks");
                return None;
            };
            let amount = Amount::from(length);
            if bounds.hold(amount.si) {
                return Some(length);
            }
            let what = format!("`{key}{unit}` is {}", amount.show(UnitSystem::Metric));
            self.wrong(&what, "a number that can be right", "check the number and its unit");
            return None;
        }
        None
    }

    fn outlines(&self) -> Vec<AreaOutline> {
        let rings: Vec<&Vec<Value>> = match self.geometry() {
            Some(("Polygon", polygon)) => outer(polygon).into_iter().collect(),
            Some(("MultiPolygon", polygons)) => {
                polygons.as_array().into_iter().flatten().filter_map(outer).collect()
            }
            _ => Vec::new(),
        };
        if rings.is_empty() {
            self.wrong(
                "this area is not a polygon",
                "a Polygon or MultiPolygon",
                "draw its outline",
            );
        }
        rings.into_iter().filter_map(|ring| self.outline(ring)).collect()
    }

    fn outline(&self, ring: &[Value]) -> Option<AreaOutline> {
        if !(4..=MOST_CORNERS).contains(&ring.len()) {
            let what = format!("an outline of this area has {} places", ring.len());
            self.wrong(&what, "4 to 10000 places, the first repeated as the last", "draw it again");
            return None;
        }
        let corners: Option<Vec<AxisPoint>> =
            ring.iter().skip(1).map(|position| self.located(position)).collect();
        Some(AreaOutline::Polygon(corners?))
    }

    fn located(&self, position: &Value) -> Option<AxisPoint> {
        let number = |at: usize| position.get(at).and_then(Value::as_f64);
        let (Some(longitude), Some(latitude)) = (number(0), number(1)) else {
            self.wrong("a place has no two coordinates", "longitude and latitude", "draw it again");
            return None;
        };
        let place = Geographic { latitude: degrees(latitude), longitude: degrees(longitude) };
        match self.axis.locate(place) {
            Ok((station, offset)) => Some(AxisPoint { station, offset }),
            Err(error) => {
                self.wrong(
                    &error.to_string(),
                    "longitude and latitude of a place near the strip, in degrees",
                    "check their order: longitude stands before latitude",
                );
                None
            }
        }
    }
}

/// The outer ring of a polygon.
fn outer(polygon: &Value) -> Option<&Vec<Value>> {
    polygon.get(0)?.as_array()
}
