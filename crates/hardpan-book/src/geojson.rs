//! A strip's book on a map, as GeoJSON.
//!
//! Source: [RFC-7946]: WGS 84, longitude before latitude.

use crate::export::json_cell;
use crate::ruts::{LANES, rounded};
use crate::{Entry, Record};
use hardpan_quantity::{Angle, Length, Quantity as _};
use serde_json::{Map, Value, json};

/// Latitude and longitude of a station and an offset, positive to the right when
/// looking along rising stations.
pub type OnGlobe<'g> = dyn Fn(Length, Length) -> Option<(Angle, Angle)> + 'g;

/// Station, metres, and offset of a latitude and a longitude, degrees.
pub type OffGlobe<'g> = dyn Fn(f64, f64) -> Option<(f64, f64)> + 'g;

/// A strip as its file has it.
#[derive(Clone, Copy)]
pub struct Ground<'g> {
    /// Name.
    pub strip: &'g str,
    /// Length.
    pub length: Length,
    /// Offset of the main wheels to either side, for what is told by lane.
    pub lane: Option<Length>,
    /// Where its places are.
    pub on_globe: &'g OnGlobe<'g>,
}

/// The axis of a strip and what its book tells of it: inspections, with a feature
/// for each rut, loose and wet place that they found, damage, repairs, closures and
/// movements, each with all its values, so that the map can be taken over by another
/// book. What has no station stands in it without a place. A rut lies in its lane
/// where `lane` is known, else on the axis.
#[must_use]
pub fn geojson_value(entries: &[&Entry], ground: &Ground<'_>) -> Value {
    let mut features = vec![feature(
        ground.line(Length::from_si(0.0), ground.length),
        "axis",
        vec![("name", json!(ground.strip))],
    )];
    let mine = entries.iter().filter(|entry| entry.record.strip() == Some(ground.strip));
    for entry in mine {
        for (geometry, kind, mut properties) in of_record(&entry.record, ground) {
            properties.push(("entry", json!(entry.id)));
            properties.push(("recorded_by", json!(entry.audit.by)));
            features.push(feature(geometry, kind, properties));
        }
    }
    json!({ "type": "FeatureCollection", "strip": ground.strip, "features": features })
}

type Told = (Value, &'static str, Vec<(&'static str, Value)>);

fn of_record(record: &Record, ground: &Ground<'_>) -> Vec<Told> {
    let metres = |length: Length| json!(length.si());
    match record {
        Record::Inspection(one) => {
            // The record itself has several places, or none; what it found is shown.
            let mut all = vec![whole(record, "inspection", Value::Null)];
            let rut_offset = one.rut_lane.as_deref().map_or(0.0, |lane| ground.offset(lane));
            let found = [
                ("rut", Some(one.rut), one.rut_station, rut_offset),
                ("loose", one.loose, one.loose_station, 0.0),
                ("water", Some(one.water), one.water_station, 0.0),
            ];
            let deep = found.into_iter().filter_map(|(kind, depth, station, offset)| {
                let (depth, station) = (depth.filter(|depth| depth.si() > 0.0)?, station?);
                let mut properties = vec![
                    ("station_m", metres(station)),
                    ("depth_mm", json!(rounded(depth.si() * 1e3))),
                    ("at", json!(one.at.to_string())),
                ];
                if let (true, Some(lane)) = (kind == "rut", &one.rut_lane) {
                    properties.push(("lane", json!(lane)));
                }
                Some((ground.point(station, Length::from_si(offset)), kind, properties))
            });
            all.extend(deep);
            all
        }
        Record::Repair(one) => vec![whole(record, "repair", ground.line(one.from, one.to))],
        Record::Movement(one) => {
            let rolled = one.rolled_from.zip(one.rolled_to);
            let line = rolled.map_or(Value::Null, |(from, to)| ground.line(from, to));
            vec![whole(record, "movement", line)]
        }
        Record::Damage(one) => {
            let at = one.station.map(|at| ground.point(at, Length::from_si(0.0)));
            vec![whole(record, "damage", at.unwrap_or(Value::Null))]
        }
        Record::Closure(_) => {
            vec![whole(record, "closure", ground.line(Length::from_si(0.0), ground.length))]
        }
        _ => Vec::new(),
    }
}

/// A record with all its values, in SI units as the headings of an export say.
fn whole(record: &Record, word: &'static str, geometry: Value) -> Told {
    let columns = record.kind().columns().iter().copied();
    let values = columns.zip(record.store()).map(|(name, value)| {
        // `kind` says what the feature is.
        let name = if name == "kind" { "movement" } else { name };
        (name, json_cell(value))
    });
    (geometry, word, values.filter(|(_, value)| !value.is_null()).collect())
}

impl Ground<'_> {
    /// Offset of a lane, metres.
    fn offset(&self, lane: &str) -> f64 {
        let side = self.lane.map_or(0.0, |lane| lane.si());
        let [left, right] = LANES;
        match lane {
            lane if lane == left => -side,
            lane if lane == right => side,
            _ => 0.0,
        }
    }

    fn position(&self, station: Length, offset: Length) -> Option<[f64; 2]> {
        let (latitude, longitude) = (self.on_globe)(station, offset)?;
        // A nanodegree is a tenth of a millimetre.
        Some([longitude, latitude].map(|one| (one.si().to_degrees() * 1e9).round() / 1e9))
    }

    fn point(&self, station: Length, offset: Length) -> Value {
        let at = self.position(station, offset);
        at.map_or(Value::Null, |at| json!({ "type": "Point", "coordinates": at }))
    }

    fn line(&self, from: Length, to: Length) -> Value {
        let axis = Length::from_si(0.0);
        let ends = self.position(from, axis).zip(self.position(to, axis));
        ends.map_or(
            Value::Null,
            |(from, to)| json!({ "type": "LineString", "coordinates": [from, to] }),
        )
    }
}

fn feature(geometry: Value, kind: &str, properties: Vec<(&'static str, Value)>) -> Value {
    let mut all: Map<String, Value> =
        properties.into_iter().map(|(name, value)| (name.to_owned(), value)).collect();
    all.insert("kind".to_owned(), json!(kind));
    json!({ "type": "Feature", "geometry": geometry, "properties": all })
}
