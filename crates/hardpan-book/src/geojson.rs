//! A strip's book on a map, as GeoJSON.
//!
//! Source: [RFC-7946]: WGS 84, longitude before latitude.

use crate::ruts::LANES;
use crate::{Entry, Record};
use hardpan_quantity::{Angle, Length, Quantity as _};
use serde_json::{Map, Value, json};

/// Latitude and longitude of a station and an offset, positive to the right when
/// looking along rising stations.
pub type OnGlobe<'g> = dyn Fn(Length, Length) -> Option<(Angle, Angle)> + 'g;

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

/// The axis of a strip and what its book tells at a station: ruts, loose
/// material, standing water, repairs, and the stretches that aeroplanes rolled
/// over; damage, whose station nobody knows, as a feature without a place. Depths
/// are in millimetres, stations in metres. A rut lies in its lane where `lane` is
/// known, else on the axis.
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
                    ("depth_mm", json!((depth.si() * 1e6).round() / 1e3)),
                    ("at", json!(one.at.to_string())),
                ];
                if let (true, Some(lane)) = (kind == "rut", &one.rut_lane) {
                    properties.push(("lane", json!(lane)));
                }
                Some((ground.point(station, Length::from_si(offset)), kind, properties))
            });
            deep.collect()
        }
        Record::Repair(one) => vec![(
            ground.line(one.from, one.to),
            "repair",
            vec![
                ("from_m", metres(one.from)),
                ("to_m", metres(one.to)),
                ("date", json!(one.date.to_string())),
                ("what", json!(one.what)),
            ],
        )],
        Record::Movement(one) => match (one.rolled_from, one.rolled_to) {
            (Some(from), Some(to)) => vec![(
                ground.line(from, to),
                "movement",
                vec![
                    ("movement", json!(one.kind.to_string())),
                    ("tail", json!(one.tail)),
                    ("at", json!(one.at.to_string())),
                    ("mass_kg", json!(one.mass.si())),
                    ("from_m", metres(from)),
                    ("to_m", metres(to)),
                ],
            )],
            _ => Vec::new(),
        },
        Record::Damage(one) => vec![(
            Value::Null,
            "damage",
            vec![
                ("tail", json!(one.tail)),
                ("date", json!(one.date.to_string())),
                ("zone", json!(one.zone)),
                ("phase", json!(one.phase.to_string())),
                ("size_m", one.size.map_or(Value::Null, metres)),
                ("stone_m", one.stone.map_or(Value::Null, metres)),
            ],
        )],
        _ => Vec::new(),
    }
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
