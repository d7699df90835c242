//! What was found on a strip as GeoJSON, for a map or a receiver in the field.
//!
//! Source: [RFC-7946]: WGS 84, longitude before latitude, outlines
//! anticlockwise.

use super::DossierReport;
use hardpan_assess::{CAUTION, StripPlace, StripRepair};
use hardpan_model::{Area, AreaOutline, AxisPoint, Obstacle, ObstacleTop, Strip};
use hardpan_quantity::{Amount, Angle, Length, Quantity, UnitSystem};
use serde_json::{Value, json};

/// Latitude and longitude of a station and offset; none for a place that the
/// plane of the strip does not reach.
pub type OnGlobe<'g> = dyn Fn(AxisPoint) -> Option<(Angle, Angle)> + 'g;

/// The axis, the worst places, what to cut and fill, and the obstacles and areas
/// of the strip file. What was found here bears `found`, so that a strip file
/// that names this one takes back only what somebody reported.
#[must_use]
pub fn dossier_places(report: &DossierReport, strip: &Strip, on_globe: &OnGlobe<'_>) -> String {
    let dossier = &report.dossier;
    let draw = Draw { on_globe };
    let length = strip.length.as_ref().map(|given| given.value);
    let mut features: Vec<Value> =
        length.map(|length| draw.axis(report, length)).into_iter().collect();
    let numbered = dossier.places.iter().enumerate();
    features.extend(numbered.map(|(index, place)| draw.place(index + 1, place)));
    features.extend(dossier.repairs.iter().flatten().map(|repair| draw.repair(repair)));
    let half = strip.width.as_ref().map_or(Length::from_si(0.0), |width| 0.5 * width.value);
    features.extend(strip.areas.iter().map(|area| draw.area(area, half)));
    features.extend(strip.obstacles.iter().flatten().map(|obstacle| draw.obstacle(obstacle)));
    let collection = json!({
        "type": "FeatureCollection",
        "caution": CAUTION,
        "strip": dossier.name,
        "produced_by": report.produced.by,
        "inputs": report.produced.identifier,
        "features": features,
    });
    collection.to_string() + "\n"
}

struct Draw<'g> {
    on_globe: &'g OnGlobe<'g>,
}

impl Draw<'_> {
    fn axis(&self, report: &DossierReport, length: Length) -> Value {
        let (low, high) = &report.dossier.designators;
        let ends =
            [Length::from_si(0.0), length].map(|station| corner(station, Length::from_si(0.0)));
        let properties = [("kind", "axis".into()), ("name", format!("{low}/{high}").into())];
        found(self.line(&ends), properties)
    }

    fn place(&self, number: usize, place: &StripPlace) -> Value {
        let mut properties = vec![
            ("kind", place.kind.word().into()),
            ("number", number.into()),
            ("over_limit", place.over.into()),
            ("words", place.words.show(UnitSystem::Metric).into()),
        ];
        both(&mut properties, ["size_metric", "size_imperial"], place.size);
        if let Some(limit) = place.limit {
            both(&mut properties, ["limit_metric", "limit_imperial"], limit);
        }
        stretch(&mut properties, place.from, place.to);
        found(self.stretch((place.from, place.to), place.offsets), properties)
    }

    fn repair(&self, repair: &StripRepair) -> Value {
        let mut properties =
            vec![("kind", repair.action.into()), ("checks", repair.checks.clone().into())];
        both(&mut properties, ["greatest_metric", "greatest_imperial"], repair.greatest.into());
        both(&mut properties, ["volume_metric", "volume_imperial"], repair.volume.into());
        stretch(&mut properties, repair.from, repair.to);
        found(self.stretch((repair.from, repair.to), repair.offsets), properties)
    }

    fn area(&self, area: &Area, half_width: Length) -> Value {
        let mut properties: Vec<(&str, Value)> = vec![("kind", area.kind.value.word().into())];
        if let Some(name) = &area.name {
            properties.push(("name", name.value.as_str().into()));
        }
        if let Some(date) = &area.reported_on {
            properties.push(("reported_on", date.value.to_string().into()));
        }
        if let Some(depth) = &area.depth {
            properties.push(("depth_mm", rounded(1e3 * depth.value.si(), 1e3).into()));
        }
        let geometry = match &area.outline {
            AreaOutline::Across { from, to } => {
                self.stretch((*from, *to), (-half_width, half_width))
            }
            AreaOutline::Polygon(corners) => self.polygon(corners),
        };
        feature(geometry, properties)
    }

    fn obstacle(&self, obstacle: &Obstacle) -> Value {
        let (key, top) = match obstacle.top.value {
            ObstacleTop::OverThreshold(height) => ("height_m", height),
            ObstacleTop::OverSea(elevation) => ("elevation_m", elevation),
        };
        let mut properties: Vec<(&str, Value)> =
            vec![("kind", "obstacle".into()), (key, rounded(top.si(), 1e3).into())];
        if let Some(name) = &obstacle.name {
            properties.push(("name", name.value.as_str().into()));
        }
        let at = self.position(corner(obstacle.station.value, obstacle.offset.value));
        feature(at.map(point), properties)
    }

    fn position(&self, at: AxisPoint) -> Option<[f64; 2]> {
        let (latitude, longitude) = (self.on_globe)(at)?;
        Some([longitude, latitude].map(|angle| rounded(angle.si().to_degrees(), 1e9)))
    }

    fn positions(&self, places: &[AxisPoint]) -> Option<Vec<[f64; 2]>> {
        places.iter().map(|place| self.position(*place)).collect()
    }

    fn line(&self, places: &[AxisPoint]) -> Option<Value> {
        self.positions(places).map(|line| json!({ "type": "LineString", "coordinates": line }))
    }

    /// A stretch by its offsets: a point, a line or an outline.
    fn stretch(
        &self,
        (from, to): (Length, Length),
        (left, right): (Length, Length),
    ) -> Option<Value> {
        match (from < to, left < right) {
            (false, false) => self.position(corner(from, left)).map(point),
            (true, false) => self.line(&[corner(from, left), corner(to, left)]),
            (false, true) => self.line(&[corner(from, left), corner(from, right)]),
            (true, true) => self.polygon(&[
                corner(from, right),
                corner(to, right),
                corner(to, left),
                corner(from, left),
            ]),
        }
    }

    fn polygon(&self, corners: &[AxisPoint]) -> Option<Value> {
        let mut corners = corners.to_vec();
        if turns_right(&corners) {
            corners.reverse();
        }
        let mut ring = self.positions(&corners)?;
        ring.push(*ring.first()?);
        Some(json!({ "type": "Polygon", "coordinates": [ring] }))
    }
}

/// Whether corners by station and offset run clockwise on the ground, offset
/// being to the right of rising stations.
fn turns_right(corners: &[AxisPoint]) -> bool {
    let next = corners.iter().cycle().skip(1);
    let twice: f64 = corners
        .iter()
        .zip(next)
        .map(|(a, b)| a.station.si() * b.offset.si() - b.station.si() * a.offset.si())
        .sum();
    twice > 0.0
}

fn corner(station: Length, offset: Length) -> AxisPoint {
    AxisPoint { station, offset }
}

fn rounded(value: f64, to: f64) -> f64 {
    (value * to).round() / to
}

fn both(properties: &mut Vec<(&'static str, Value)>, keys: [&'static str; 2], amount: Amount) {
    for (key, units) in keys.into_iter().zip([UnitSystem::Metric, UnitSystem::Imperial]) {
        properties.push((key, amount.show(units).into()));
    }
}

fn stretch(properties: &mut Vec<(&'static str, Value)>, from: Length, to: Length) {
    properties.push(("from_m", rounded(from.si(), 1e2).into()));
    properties.push(("to_m", rounded(to.si(), 1e2).into()));
}

fn found<'k>(
    geometry: Option<Value>,
    properties: impl IntoIterator<Item = (&'k str, Value)>,
) -> Value {
    feature(geometry, properties.into_iter().chain([("found", true.into())]))
}

fn feature<'k>(
    geometry: Option<Value>,
    properties: impl IntoIterator<Item = (&'k str, Value)>,
) -> Value {
    let properties: serde_json::Map<String, Value> =
        properties.into_iter().map(|(key, value)| (key.to_owned(), value)).collect();
    json!({ "type": "Feature", "properties": properties, "geometry": geometry })
}

fn point(at: [f64; 2]) -> Value {
    json!({ "type": "Point", "coordinates": at })
}
