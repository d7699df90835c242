//! Records from GeoJSON: inspections, damage, repairs, closures and movements as
//! features. Source: [RFC-7946].

use crate::import::{Column, ImportError, Place, Taken, no_json};
use crate::import_book::at_cause;
use crate::json_place::{Part, parts_of_list, whole};
use crate::{BookError, Fields, First, Kind, OffGlobe, Record};
use serde_json::{Map, Value};

/// Kinds that a feature may hold.
const KINDS: [Kind; 5] =
    [Kind::Inspection, Kind::Damage, Kind::Repair, Kind::Closure, Kind::Movement];
/// What a map of this program shows besides; it holds no record of its own.
const SHOWN: [&str; 4] = ["axis", "rut", "loose", "water"];
/// Properties of every feature that are no value of its record.
const ABOUT: [&str; 3] = ["kind", "entry", "recorded_by"];

/// Records of a collection of features. `kind` of the properties says what a
/// feature is; the other properties are values, as headings of CSV are. A place that
/// the properties do not state is taken from the geometry, where `off_globe` tells
/// station and offset of a latitude and longitude. Features that only show what
/// others hold are left out.
///
/// # Errors
/// [`ImportError`] with line and column of the first feature that cannot be used.
pub fn records_of_geojson(
    text: &str,
    off_globe: Option<&OffGlobe<'_>>,
) -> Result<Vec<Taken>, ImportError> {
    let wrong = |what: &str| ImportError::Form { at: whole(text).at(), what: what.to_owned() };
    let value: Value = serde_json::from_str(text).map_err(|error| no_json(&error))?;
    if value.get("type").and_then(Value::as_str) != Some("FeatureCollection") {
        return Err(wrong("an object with \"type\": \"FeatureCollection\" is wanted"));
    }
    let features = value.get("features").and_then(Value::as_array);
    let features = features.ok_or_else(|| wrong("`features` must hold a list"))?;
    let parts = parts_of_list(text, "features");
    let mut taken = Vec::new();
    for (index, value) in features.iter().enumerate() {
        let part = parts.get(index).copied().unwrap_or(whole(text));
        taken.extend(record(&Feature { value, part }, off_globe)?);
    }
    Ok(taken)
}

/// A feature and the part of the text that it stands in.
struct Feature<'t> {
    value: &'t Value,
    part: Part<'t>,
}

fn record(
    feature: &Feature<'_>,
    off_globe: Option<&OffGlobe<'_>>,
) -> Result<Option<Taken>, ImportError> {
    let wrong = |what: String| ImportError::Form { at: feature.part.at(), what };
    let wrong_at =
        |name: &str, what: String| ImportError::Form { at: feature.part.at_name(&[name]), what };
    let properties = feature.value.get("properties").and_then(Value::as_object);
    let properties = properties.ok_or_else(|| wrong("a feature has no `properties`".into()))?;
    let told = properties.get("kind").and_then(Value::as_str);
    let Some(word) = told else {
        return Err(wrong(format!("a feature states no `kind`; it is one of {}", known())));
    };
    if SHOWN.contains(&word) {
        return match properties.get("entry") {
            None if word != "axis" => {
                let what = format!(
                    "`{word}` alone is no record; write kind `inspection` with the depths of rut \
                     and water, which are 0 where none was found"
                );
                Err(wrong_at("kind", what))
            }
            _ => Ok(None),
        };
    }
    let kind = Kind::of_word(word).filter(|kind| KINDS.contains(kind));
    let kind = kind.ok_or_else(|| {
        wrong_at("kind", format!("`{word}` is no kind of feature; it is one of {}", known()))
    })?;
    let mut fields = values(kind, properties, feature)?;
    let mut ends = Vec::new();
    let needed = places(kind).iter().any(|name| !fields.contains_key(*name));
    if let Some(off_globe) = off_globe.filter(|_| needed) {
        for point in
            points(feature.value.get("geometry")).map_err(|what| wrong_at("geometry", what))?
        {
            let found = off_globe(point[1], point[0]);
            let (station, _) = found.ok_or_else(|| {
                let what = format!("{}, {} does not lie on the strip", point[1], point[0]);
                wrong_at("geometry", what)
            })?;
            ends.push(station);
        }
    }
    place(kind, &mut fields, &ends);
    let record = Record::from_fields(kind, &fields).map_err(|cause| ImportError::Record {
        at: at_movement(kind, &feature.part, &cause),
        cause,
    })?;
    let by = properties.get("recorded_by").and_then(Value::as_str).map(str::trim);
    let first = by.filter(|by| !by.is_empty()).map(|by| First { by: by.to_owned(), at: None });
    Ok(Some(Taken { record, supersedes: None, first, at: feature.part.at() }))
}

/// Where the value stands that a record cannot be made of.
fn at_movement(kind: Kind, part: &Part<'_>, cause: &BookError) -> Place {
    match cause {
        BookError::Value { field: "kind", .. } => part.at_name(&["movement"]),
        cause => at_cause(kind, part, cause),
    }
}

fn known() -> String {
    KINDS.map(Kind::word).join(", ")
}

fn values(
    kind: Kind,
    properties: &Map<String, Value>,
    feature: &Feature<'_>,
) -> Result<Fields, ImportError> {
    let mut fields = Fields::new();
    for (name, value) in properties {
        if ABOUT.contains(&name.as_str()) && !(kind == Kind::Movement && name == "kind") {
            continue;
        }
        let at = || feature.part.at_name(&[name]);
        // `kind` of a feature says what it is, so that a movement says otherwise
        // whether it landed.
        let name = match name.as_str() {
            "kind" => continue,
            "movement" if kind == Kind::Movement => "kind",
            other => other,
        };
        let cell = match value {
            Value::Null => continue,
            Value::String(text) if text.trim().is_empty() => continue,
            Value::String(text) => text.clone(),
            Value::Number(number) => number.to_string(),
            _ => {
                let what = format!("`{name}` must be a text or a number");
                return Err(ImportError::Form { at: at(), what });
            }
        };
        let column = Column::of(kind, name).map_err(|error| error.at(at()))?;
        fields.extend(column.field(&cell));
    }
    Ok(fields)
}

/// Values that a geometry may tell.
const fn places(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::Inspection => &["rut_station", "water_station", "loose_station"],
        Kind::Damage => &["station"],
        Kind::Repair => &["from", "to"],
        Kind::Movement => &["rolled_from", "rolled_to"],
        _ => &[],
    }
}

fn place(kind: Kind, fields: &mut Fields, stations: &[f64]) {
    let low = stations.iter().copied().reduce(f64::min);
    let high = stations.iter().copied().reduce(f64::max);
    let (Some(low), Some(high)) = (low, high) else { return };
    let mut put = |name: &str, station: f64| {
        // Half a decimetre behind the threshold is on it.
        fields.entry(name.to_owned()).or_insert_with(|| format!("{} m", station.max(0.0)));
    };
    match kind {
        Kind::Inspection => places(kind).iter().for_each(|name| put(name, low)),
        Kind::Damage => put("station", low),
        Kind::Repair => {
            put("from", low);
            put("to", high);
        }
        Kind::Movement if stations.len() > 1 => {
            put("rolled_from", stations.first().copied().unwrap_or(low));
            put("rolled_to", stations.last().copied().unwrap_or(high));
        }
        _ => {}
    }
}

/// Longitude and latitude of the points of a geometry.
fn points(geometry: Option<&Value>) -> Result<Vec<[f64; 2]>, String> {
    let Some(geometry) = geometry.filter(|one| !one.is_null()) else { return Ok(Vec::new()) };
    let coordinates = geometry.get("coordinates");
    let list = match geometry.get("type").and_then(Value::as_str) {
        Some("Point") => coordinates.map(|one| vec![one.clone()]),
        Some("LineString" | "MultiPoint") => {
            coordinates.and_then(Value::as_array).map(|all| all.to_vec())
        }
        _ => return Err("a geometry must be a Point, a MultiPoint or a LineString".to_owned()),
    };
    let list = list.ok_or("a geometry has no `coordinates`")?;
    let point = |one: &Value| {
        let number = |at: usize, most: f64| {
            one.get(at).and_then(Value::as_f64).filter(|number| number.abs() <= most)
        };
        number(0, 180.0).zip(number(1, 90.0)).map(|(east, north)| [east, north])
    };
    let wanted = "a place must be longitude and latitude, in degrees";
    list.iter().map(|one| point(one).ok_or_else(|| wanted.to_owned())).collect()
}
