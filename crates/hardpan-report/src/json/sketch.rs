//! The strip on its station axis: long rows of plain numbers, so the unit
//! stands in the key.

use super::quantity::{Quantity, finite};
use crate::figure::{event_word, mark_word};
use hardpan_assess::{Sketch, SketchMark};
use hardpan_model::RunTrace;
use hardpan_quantity::{Length, Quantity as Typed};
use schemars::JsonSchema;
use serde::Serialize;

/// The strip on its station axis.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sketch")]
pub(super) struct SketchJson {
    /// Length of the strip.
    length: Option<Quantity>,
    /// Width of the strip.
    width: Option<Quantity>,
    /// Designators at station 0 and at the last station.
    designators: [String; 2],
    /// Centre-line elevation by station.
    profile: Vec<ElevationJson>,
    /// Strength against demand by station.
    strength: Vec<StrengthJson>,
    /// Places worth marking.
    marks: Vec<MarkJson>,
    /// Landing and take-off runs.
    runs: Vec<RunJson>,
}

/// Elevation at one station.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Elevation")]
struct ElevationJson {
    /// Station, metres.
    station_m: Option<f64>,
    /// Elevation, metres.
    elevation_m: Option<f64>,
}

/// Strength at one station.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Strength")]
struct StrengthJson {
    /// Station, metres.
    station_m: Option<f64>,
    /// Bearing ratio credited, per cent; null where nothing is known.
    available_percent: Option<f64>,
    /// Bearing ratio needed, per cent.
    needed_percent: Option<f64>,
    /// Available over needed at the governing layer.
    utilisation: Option<f64>,
}

/// A place worth marking.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Mark")]
struct MarkJson {
    /// `soft`, `bump`, `rut`, `water`, `loose` or `unknown`.
    kind: String,
    /// First station, metres.
    from_m: Option<f64>,
    /// Last station, metres.
    to_m: Option<f64>,
    /// Label.
    label: String,
    /// Its figure.
    value: Option<Quantity>,
    /// Whether it is over its limit.
    over: bool,
}

/// One run.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Run")]
struct RunJson {
    /// Name.
    name: String,
    /// Events in the order of time.
    events: Vec<EventJson>,
    /// Points in the order of time.
    points: Vec<PointJson>,
}

/// An event of a run.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Event")]
struct EventJson {
    /// What, in words.
    event: String,
    /// Station, metres.
    station_m: Option<f64>,
    /// Time since the start of the run, seconds.
    time_s: Option<f64>,
    /// Ground speed, metres per second.
    ground_speed_m_per_s: Option<f64>,
}

/// A point of a run.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Point")]
struct PointJson {
    /// Station, metres.
    station_m: Option<f64>,
    /// Time since the start of the run, seconds.
    time_s: Option<f64>,
    /// Ground speed, metres per second.
    ground_speed_m_per_s: Option<f64>,
    /// Height of the wheels over the ground, metres.
    height_m: Option<f64>,
    /// Thrust of all engines, newtons; reverse thrust that is counted is negative.
    thrust_n: Option<f64>,
    /// Drag of the wheels on the ground, rolling and braking, over their load.
    friction: Option<f64>,
    /// Load on one main leg, newtons.
    main_leg_load_n: Option<f64>,
}

impl SketchJson {
    pub(super) fn new(sketch: &Sketch) -> Self {
        let profile = sketch.profile.iter().map(|(station, elevation)| ElevationJson {
            station_m: number(*station),
            elevation_m: number(*elevation),
        });
        let strength = sketch.strength.iter().map(|sample| StrengthJson {
            station_m: number(sample.station),
            available_percent: sample.available.and_then(number),
            needed_percent: sample.needed.and_then(number),
            utilisation: sample.utilisation.and_then(finite),
        });
        Self {
            length: sketch.length.map(Quantity::of),
            width: sketch.width.map(Quantity::of),
            designators: [sketch.designators.0.clone(), sketch.designators.1.clone()],
            profile: profile.collect(),
            strength: strength.collect(),
            marks: sketch.marks.iter().map(mark).collect(),
            runs: sketch.runs.iter().map(|(name, trace)| run(name, trace)).collect(),
        }
    }
}

fn number<Q: Typed>(quantity: Q) -> Option<f64> {
    finite(quantity.si())
}

fn mark(mark: &SketchMark) -> MarkJson {
    let station = |length: Length| number(length);
    MarkJson {
        kind: mark_word(mark.kind).to_owned(),
        from_m: station(mark.from),
        to_m: station(mark.to),
        label: mark.label.clone(),
        value: mark.amount.map(Quantity::new),
        over: mark.over,
    }
}

fn run(name: &str, trace: &RunTrace) -> RunJson {
    let events = trace.events.iter().map(|event| EventJson {
        event: event_word(event.kind).to_owned(),
        station_m: number(event.station),
        time_s: number(event.time),
        ground_speed_m_per_s: number(event.ground_speed),
    });
    let points = trace.points.iter().map(|point| PointJson {
        station_m: number(point.station),
        time_s: number(point.time),
        ground_speed_m_per_s: number(point.ground_speed),
        height_m: number(point.height),
        thrust_n: number(point.thrust),
        friction: number(point.friction),
        main_leg_load_n: number(point.main_leg_load),
    });
    RunJson { name: name.to_owned(), events: events.collect(), points: points.collect() }
}
