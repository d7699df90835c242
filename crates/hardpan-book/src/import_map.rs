//! Records from GeoJSON: inspections, damage, repairs, closures and movements as
//! features. Source: [RFC-7946].

use crate::import::{Column, Taken, no_json};
use crate::import_book::{at_cause, tell};
use crate::json_place::{Part, parts_of_list, whole};
use crate::{BookError, Fields, First, Kind, Mistakes, OffGlobe, Place, Record};
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
/// [`Mistakes`]: everything that cannot be used, with line and column.
pub fn records_of_geojson(
    text: &str,
    off_globe: Option<&OffGlobe<'_>>,
) -> Result<Vec<Taken>, Mistakes> {
    let wrong = |what: &str| Mistakes::alone(Place::BEGIN, what.to_owned());
    let value: Value = serde_json::from_str(text).map_err(|error| no_json(text, &error))?;
    if value.get("type").and_then(Value::as_str) != Some("FeatureCollection") {
        return Err(wrong("an object with \"type\": \"FeatureCollection\" is wanted"));
    }
    let features = value.get("features").and_then(Value::as_array);
    let features = features.ok_or_else(|| wrong("`features` must hold a list"))?;
    let mut mistakes = Mistakes::default();
    if !features.iter().all(Value::is_object) {
        let what = "each feature must be an object".to_owned();
        mistakes.form(|| whole(text).at_name(&["features"]), what);
    }
    let parts = parts_of_list(text, "features");
    let mut taken = Vec::new();
    for (value, part) in features.iter().filter(|one| one.is_object()).zip(parts) {
        taken.extend(record(&Feature { value, part }, off_globe, &mut mistakes));
    }
    mistakes.or(taken)
}

/// A feature and the part of the text that it stands in.
struct Feature<'t> {
    value: &'t Value,
    part: Part<'t>,
}

fn record(
    feature: &Feature<'_>,
    off_globe: Option<&OffGlobe<'_>>,
    mistakes: &mut Mistakes,
) -> Option<Taken> {
    let part = &feature.part;
    let Some(properties) = feature.value.get("properties").and_then(Value::as_object) else {
        mistakes.form(|| part.at(), "a feature has no `properties`".to_owned());
        return None;
    };
    let Some(word) = properties.get("kind").and_then(Value::as_str) else {
        let what = format!("a feature states no `kind`; it is one of {}", known());
        mistakes.form(|| part.at(), what);
        return None;
    };
    if SHOWN.contains(&word) {
        if properties.get("entry").is_none() && word != "axis" {
            let what = format!(
                "`{word}` alone is no record; write kind `inspection` with the depths of rut and \
                 water, which are 0 where none was found"
            );
            mistakes.form(|| part.at_name(&["kind"]), what);
        }
        return None;
    }
    let Some(kind) = Kind::of_word(word).filter(|kind| KINDS.contains(kind)) else {
        let what = format!("`{word}` is no kind of feature; it is one of {}", known());
        mistakes.form(|| part.at_name(&["kind"]), what);
        return None;
    };
    let (mut fields, is_whole) = values(kind, properties, part, mistakes);
    let mut is_placed = true;
    match stations(kind, &fields, feature, off_globe) {
        Ok(ends) => place(kind, &mut fields, &ends),
        Err(what) => {
            is_placed = false;
            mistakes.form(|| part.at_name(&["geometry"]), what);
        }
    }
    let mut wrong = Vec::new();
    let record = Record::of_fields(kind, &fields, &mut wrong);
    let is_of_place = |cause: &BookError| match cause {
        BookError::Value { field, .. } => places(kind).contains(field),
        _ => false,
    };
    wrong.retain(|cause| is_placed || !is_of_place(cause));
    tell(wrong, (kind, &fields, is_whole), mistakes, |cause| at_movement(kind, part, cause));
    let by = properties.get("recorded_by").and_then(Value::as_str).map(str::trim);
    let first = by.filter(|by| !by.is_empty()).map(|by| First { by: by.to_owned(), at: None });
    Some(Taken { record: record?, supersedes: None, first, at: part.at() })
}

/// Stations of the points of a geometry, where a value needs them.
fn stations(
    kind: Kind,
    fields: &Fields,
    feature: &Feature<'_>,
    off_globe: Option<&OffGlobe<'_>>,
) -> Result<Vec<f64>, String> {
    let is_needed = places(kind).iter().any(|name| !fields.contains_key(*name));
    let Some(off_globe) = off_globe.filter(|_| is_needed) else { return Ok(Vec::new()) };
    let station = |point: [f64; 2]| {
        let found = off_globe(point[1], point[0]);
        found
            .map(|(station, _)| station)
            .ok_or_else(|| format!("{}, {} does not lie on the strip", point[1], point[0]))
    };
    points(feature.value.get("geometry"))?.into_iter().map(station).collect()
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

/// The values that the properties state, and whether each of them is one of the kind.
fn values(
    kind: Kind,
    properties: &Map<String, Value>,
    part: &Part<'_>,
    mistakes: &mut Mistakes,
) -> (Fields, bool) {
    let (mut fields, mut is_whole) = (Fields::new(), true);
    let mut columns: Vec<Column> = Vec::new();
    for (key, value) in properties.iter().filter(|(key, _)| !ABOUT.contains(&key.as_str())) {
        // `kind` of a feature says what it is, so that a movement says otherwise
        // whether it landed.
        let name = match key.as_str() {
            "movement" if kind == Kind::Movement => "kind",
            other => other,
        };
        let cell = match value {
            Value::Null => continue,
            Value::String(text) if text.trim().is_empty() => continue,
            Value::String(text) => Ok(text.clone()),
            Value::Number(number) => Ok(number.to_string()),
            _ => Err(format!("`{name}` must be a text or a number")),
        };
        let read = cell.and_then(|cell| {
            let column = Column::of(kind, name)?;
            match column.doubled(columns.iter()) {
                Some(what) => Err(what),
                None => Ok((column, cell)),
            }
        });
        match read {
            Ok((column, cell)) => {
                fields.extend(column.field(&cell));
                columns.push(column);
            }
            Err(what) => {
                is_whole = false;
                mistakes.form(|| part.at_name(&[key]), what);
            }
        }
    }
    (fields, is_whole)
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
