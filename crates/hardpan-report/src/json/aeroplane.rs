//! An aeroplane by itself, for a program: what its file states, with the source and
//! the line of each value.

use super::{ProducedJson, Quantity};
use crate::Produced;
use hardpan_assess::CAUTION;
use hardpan_model::{
    Aeroplane, ApprovedLimit, Bound, Chart, Equipment, FlapSetting, Given, Handling, Leg, Origin,
};
use hardpan_quantity::Quantity as Typed;
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const AEROPLANE_FORMAT: &str = "hardpan-aeroplane";

/// Version of the format, as it stands in `version`. It rises when a key changes
/// its meaning or goes; new keys alone do not raise it.
pub const AEROPLANE_VERSION: u32 = 1;

/// An aeroplane by itself.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan aeroplane")]
struct Document {
    /// Always `hardpan-aeroplane`.
    #[schemars(extend("const" = AEROPLANE_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = AEROPLANE_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// Name of the tail; null when not stated.
    name: Option<String>,
    /// What it is, in words.
    description: Option<String>,
    /// Masses, balance, gear and tyres as stated, under the keys of the file; what is
    /// not stated is not listed.
    values: Vec<ValueJson>,
    /// Flap settings, in the order of the file.
    flaps: Vec<FlapJson>,
    /// Protective equipment.
    equipment: Vec<EquipmentJson>,
    /// Approved limits by phase.
    limits: Vec<LimitJson>,
    /// Approved charts.
    charts: Vec<ChartJson>,
    /// Handling by phase.
    handling: Vec<HandlingJson>,
}

/// Where a value stands.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Place")]
struct PlaceJson {
    /// File.
    file: String,
    /// Line, from 1.
    line: u32,
    /// Column, from 1.
    column: u32,
}

/// One value.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "AeroplaneValue")]
struct ValueJson {
    /// Key of the file, such as `mass.maximum_landing`.
    key: String,
    /// The value.
    value: Quantity,
    /// The document or person it comes from.
    source: Option<String>,
    /// Where it stands.
    at: PlaceJson,
}

/// A flap setting.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "FlapSetting")]
struct FlapJson {
    /// Name on the lever.
    name: String,
    /// Whether it is allowed for take-off from an unpaved strip; null when not stated.
    take_off: Option<bool>,
    /// Whether it is allowed for landing on one; null when not stated.
    landing: Option<bool>,
}

/// A piece of protective equipment.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ProtectiveEquipment")]
struct EquipmentJson {
    /// Its name.
    name: String,
    /// Surfaces on which it is required.
    required_on: Vec<&'static str>,
    /// Whether it is fitted; null when not stated.
    fitted: Option<bool>,
    /// Whether it is serviceable; null when not stated.
    serviceable: Option<bool>,
    /// Day of its last inspection.
    inspected_on: Option<String>,
    /// How often it is inspected.
    inspect_every: Option<Quantity>,
}

/// An approved limit.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ApprovedLimit")]
struct LimitJson {
    /// Phase of the movement.
    phase: &'static str,
    /// What is limited.
    quantity: String,
    /// `at most` or `at least`.
    bound: &'static str,
    /// The value.
    value: Quantity,
    /// Surface that it is for; null for all.
    surface: Option<&'static str>,
    /// State of the surface that it is for; null for all.
    state: Option<&'static str>,
    /// Condition in words.
    when: Option<String>,
    /// The document or person it comes from.
    source: Option<String>,
    /// Where it stands.
    at: PlaceJson,
}

/// An approved chart.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ApprovedChart")]
struct ChartJson {
    /// What it gives.
    gives: &'static str,
    /// Flap setting that it is for; null for all.
    flap: Option<String>,
    /// Surface that it is for; null for all.
    surface: Option<&'static str>,
    /// State of the surface that it is for; null for all.
    state: Option<&'static str>,
    /// Its file.
    file: String,
    /// The document or person it comes from.
    source: Option<String>,
}

/// What the crew does in a phase.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Handling")]
struct HandlingJson {
    /// Phase of the movement.
    phase: &'static str,
    /// What to do.
    say: String,
    /// The document or person it comes from.
    source: Option<String>,
}

/// An aeroplane as JSON: the text of a file, with a line feed at its end.
#[must_use]
pub fn aeroplane_json(one: &Aeroplane, produced: &Produced) -> String {
    let document = Document {
        format: AEROPLANE_FORMAT,
        version: AEROPLANE_VERSION,
        produced: ProducedJson::of(produced),
        caution: CAUTION,
        name: stated(one.name.as_ref()),
        description: stated(one.description.as_ref()),
        values: values(one),
        flaps: one.flaps.iter().map(flap).collect(),
        equipment: one.equipment.iter().map(equipment).collect(),
        limits: one.limits.iter().map(limit).collect(),
        charts: one.charts.iter().map(chart).collect(),
        handling: one.handling.iter().map(handling).collect(),
    };
    let text = serde_json::to_string_pretty(&document)
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// The JSON schema of [`aeroplane_json`], as the text of a file.
#[must_use]
pub fn aeroplane_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    format!("{:#}\n", settings.into_generator().into_root_schema_for::<Document>().to_value())
}

fn stated<T: Clone>(given: Option<&Given<T>>) -> Option<T> {
    given.map(|given| given.value.clone())
}

fn source<T>(given: &Given<T>) -> Option<String> {
    given.source.as_ref().map(ToString::to_string)
}

fn place(origin: &Origin) -> PlaceJson {
    PlaceJson { file: origin.file.to_string(), line: origin.line, column: origin.column }
}

fn value<Q: Typed>(given: Option<&Given<Q>>) -> Option<ValueJson> {
    given.map(|given| ValueJson {
        key: given.origin.key.to_string(),
        value: Quantity::of(given.value),
        source: source(given),
        at: place(&given.origin),
    })
}

fn values(one: &Aeroplane) -> Vec<ValueJson> {
    let (mass, balance, gear) = (&one.mass, &one.balance, &one.gear);
    let own = [
        value(mass.minimum.as_ref()),
        value(mass.maximum_take_off.as_ref()),
        value(mass.maximum_landing.as_ref()),
        value(mass.maximum_zero_fuel.as_ref()),
        value(mass.operating.as_ref()),
        value(balance.mean_chord.as_ref()),
        value(balance.main_gear_at.as_ref()),
        value(balance.forward_limit.as_ref()),
        value(balance.aft_limit.as_ref()),
        value(gear.wheelbase.as_ref()),
        value(gear.track.as_ref()),
    ];
    own.into_iter().chain(leg(&gear.main)).chain(leg(&gear.nose)).flatten().collect()
}

fn leg(leg: &Leg) -> [Option<ValueJson>; 9] {
    let tyre = &leg.tyre;
    [
        value(leg.spacing.as_ref()),
        value(leg.tandem_spacing.as_ref()),
        value(tyre.diameter.as_ref()),
        value(tyre.width.as_ref()),
        value(tyre.rated_load.as_ref()),
        value(tyre.rated_pressure.as_ref()),
        value(tyre.minimum_pressure.as_ref()),
        value(tyre.maximum_pressure.as_ref()),
        value(tyre.rated_speed.as_ref()),
    ]
}

fn flap(one: &FlapSetting) -> FlapJson {
    FlapJson {
        name: one.name.value.clone(),
        take_off: stated(one.take_off.as_ref()),
        landing: stated(one.landing.as_ref()),
    }
}

fn equipment(one: &Equipment) -> EquipmentJson {
    EquipmentJson {
        name: one.name.value.clone(),
        required_on: one.required_on.iter().map(|surface| surface.word()).collect(),
        fitted: stated(one.fitted.as_ref()),
        serviceable: stated(one.serviceable.as_ref()),
        inspected_on: one.inspected_on.as_ref().map(|day| day.value.to_string()),
        inspect_every: one.inspect_every.as_ref().map(|every| Quantity::of(every.value)),
    }
}

fn limit(one: &ApprovedLimit) -> LimitJson {
    LimitJson {
        phase: one.phase.word(),
        quantity: one.quantity.value.clone(),
        bound: match one.bound {
            Bound::AtMost => "at most",
            Bound::AtLeast => "at least",
        },
        value: Quantity::new(one.value.value),
        surface: one.surface.as_ref().map(|surface| surface.value.word()),
        state: one.state.as_ref().map(|state| state.value.word()),
        when: stated(one.when.as_ref()),
        source: source(&one.value),
        at: place(&one.value.origin),
    }
}

fn chart(one: &Chart) -> ChartJson {
    ChartJson {
        gives: one.gives.value.word(),
        flap: stated(one.flap.as_ref()),
        surface: one.surface.as_ref().map(|surface| surface.value.word()),
        state: one.state.as_ref().map(|state| state.value.word()),
        file: one.file.to_string(),
        source: source(&one.gives),
    }
}

fn handling(one: &Handling) -> HandlingJson {
    HandlingJson { phase: one.phase.word(), say: one.say.value.clone(), source: source(&one.say) }
}
