//! The curves for a program: versioned, in SI units, with their schema.

use super::MARK;
use crate::Produced;
use crate::json::{ProducedJson, finite};
use hardpan_assess::{
    BearingCurve, BearingCurves, BearingPoint, CAUTION, MovementCurves, StoppedBy,
};
use hardpan_quantity::Quantity;
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const BEARING_FORMAT: &str = "hardpan-bearing";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const BEARING_VERSION: u32 = 1;

/// What a strip carries of an aeroplane under its main wheels.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan bearing curves")]
struct Document {
    /// Always `hardpan-bearing`.
    #[schemars(extend("const" = BEARING_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = BEARING_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// Name of the strip.
    strip: String,
    /// Name of the aeroplane.
    aeroplane: String,
    /// What the figures may be used for.
    mark: &'static str,
    /// What the reader must know of these figures.
    caveats: Vec<String>,
    /// Each movement planned.
    movements: Vec<MovementJson>,
}

/// The curves of one movement.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Movement")]
struct MovementJson {
    /// `take-off` or `landing`.
    movement: &'static str,
    /// The mass planned, kilograms.
    planned_kg: Option<f64>,
    /// Lightest mass searched, kilograms.
    lightest_kg: Option<f64>,
    /// Heaviest mass searched, kilograms.
    heaviest_kg: Option<f64>,
    /// Largest mass that tyre and approved chart allow; null when not known.
    tyre: Option<Vec<TyreJson>>,
    /// Why that is not known.
    tyre_unproven: Option<String>,
    /// One for each number of passes.
    curves: Vec<CurveJson>,
}

/// What the tyre allows.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Tyre")]
struct TyreJson {
    /// Pressure, pascals.
    pressure_pa: Option<f64>,
    /// Largest mass, kilograms; null when not even the lightest is allowed.
    mass_kg: Option<f64>,
}

/// One number of passes.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Curve")]
struct CurveJson {
    /// Passes.
    passes: Option<f64>,
    /// Coverages that they make of the busiest point.
    coverages: Option<f64>,
    /// Coverages counted.
    coverages_counted: Option<f64>,
    /// Largest mass in kilograms (`largest`) by pressure in pascals (`at`).
    mass_by_pressure: Vec<PointJson>,
    /// Largest pressure in pascals (`largest`) by mass in kilograms (`at`).
    pressure_by_mass: Vec<PointJson>,
}

/// The largest of one quantity at another, and what stops there.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Point")]
struct PointJson {
    /// Where on the curve.
    at: Option<f64>,
    /// The largest; null when not even the least is carried.
    largest: Option<f64>,
    /// `ground`, `not known deep enough`, `end` of the range, or `run`.
    stops: &'static str,
    /// Lane of the place that gives first.
    lane: Option<&'static str>,
    /// Its station, metres.
    station_m: Option<f64>,
    /// Top of the layer that gives, metres.
    depth_m: Option<f64>,
    /// Why the movement cannot be made beyond it.
    because: Option<String>,
}

/// The curves as the text of a file, with a line feed at its end.
#[must_use]
pub fn bearing_json(curves: &BearingCurves, produced: &Produced) -> String {
    let document = Document {
        format: BEARING_FORMAT,
        version: BEARING_VERSION,
        produced: ProducedJson::of(produced),
        caution: CAUTION,
        strip: curves.strip.clone(),
        aeroplane: curves.aeroplane.clone(),
        mark: MARK,
        caveats: curves.caveats.clone(),
        movements: curves.movements.iter().map(movement).collect(),
    };
    let text = serde_json::to_string_pretty(&document)
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// The JSON schema of [`bearing_json`], as the text of a file.
#[must_use]
pub fn bearing_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    format!("{:#}\n", settings.into_generator().into_root_schema_for::<Document>().to_value())
}

fn movement(one: &MovementCurves) -> MovementJson {
    let row = |(pressure, mass): &(hardpan_quantity::Pressure, Option<hardpan_quantity::Mass>)| {
        TyreJson { pressure_pa: number(*pressure), mass_kg: mass.and_then(number) }
    };
    MovementJson {
        movement: one.movement,
        planned_kg: one.planned.and_then(number),
        lightest_kg: number(one.masses.0),
        heaviest_kg: number(one.masses.1),
        tyre: one.tyre.as_ref().ok().map(|rows| rows.iter().map(row).collect()),
        tyre_unproven: one.tyre.as_ref().err().map(|why| why.because.clone()),
        curves: one.curves.iter().map(curve).collect(),
    }
}

fn curve(one: &BearingCurve) -> CurveJson {
    CurveJson {
        passes: finite(one.passes),
        coverages: finite(one.coverages),
        coverages_counted: finite(one.counted),
        mass_by_pressure: one.by_pressure.iter().map(point).collect(),
        pressure_by_mass: one.by_mass.iter().map(point).collect(),
    }
}

fn point<At: Quantity, Found: Quantity>(point: &BearingPoint<At, Found>) -> PointJson {
    let place = match &point.stops {
        StoppedBy::Ground(place) => Some(place),
        StoppedBy::End | StoppedBy::Run(_) => None,
    };
    PointJson {
        at: number(point.at),
        largest: point.largest.and_then(number),
        stops: stops_word(&point.stops),
        lane: place.map(|place| place.lane.word()),
        station_m: place.and_then(|place| number(place.station)),
        depth_m: place.and_then(|place| place.depth).and_then(number),
        because: match &point.stops {
            StoppedBy::Run(why) => Some(why.clone()),
            _ => None,
        },
    }
}

/// What stops, as one word of the format.
pub(crate) fn stops_word(stops: &StoppedBy) -> &'static str {
    match stops {
        StoppedBy::Ground(place) if place.depth.is_none() => "not known deep enough",
        StoppedBy::Ground(_) => "ground",
        StoppedBy::End => "end",
        StoppedBy::Run(_) => "run",
    }
}

fn number<Q: Quantity>(quantity: Q) -> Option<f64> {
    finite(quantity.si())
}
