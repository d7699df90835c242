//! What would turn an answer, for a program: versioned, in SI units, with its
//! schema.

use super::actions;
use crate::Produced;
use crate::json::{FigureJson, ProducedJson, Quantity, VerdictJson};
use hardpan_assess::{CAUTION, TradePoint, WayOut, WaysOut};
use hardpan_quantity::UnitSystem;
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const WAYS_FORMAT: &str = "hardpan-remedies";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const WAYS_VERSION: u32 = 1;

/// What would turn the answer to one flight.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan remedies")]
struct Document {
    /// Always `hardpan-remedies`.
    #[schemars(extend("const" = WAYS_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = WAYS_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// Name of the flight.
    flight: String,
    /// Name of the aeroplane.
    aeroplane: String,
    /// Name of the strip.
    strip: String,
    /// Verdict as planned.
    verdict: VerdictJson,
    /// Codes of the checks that fail as planned.
    failing: Vec<String>,
    /// The shortest list that turns the answer; null where none is needed or found.
    shortest: Option<WayJson>,
    /// The cheapest; null likewise and where no cost is stated.
    cheapest: Option<WayJson>,
    /// Every single change that helps.
    singles: Vec<WayJson>,
    /// Mass against repair.
    trade: Vec<TradeJson>,
    /// Every figure with the steps behind it.
    figures: Vec<FigureJson>,
    /// Unit of money; null where no cost is stated.
    unit_of_money: Option<String>,
    /// Lists of changes that were assessed.
    tried: usize,
    /// What the reader must know.
    notes: Vec<String>,
}

/// A list of changes.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Way")]
struct WayJson {
    /// What to do, metric.
    actions: Vec<String>,
    /// Verdict of the whole after it, as assessed afresh.
    verdict_after: VerdictJson,
    /// Codes of the findings that it mends.
    mends: Vec<String>,
    /// Codes of the findings that still fail.
    still_failing: Vec<String>,
    /// Largest landing mass after it.
    landing_mass: Option<Quantity>,
    /// Largest take-off mass after it.
    take_off_mass: Option<Quantity>,
    /// Decision speed after it.
    decision_speed: Option<Quantity>,
    /// Load left behind.
    load_left: Quantity,
    /// Cost; null where a part is not stated.
    cost: Option<f64>,
}

/// What a repair buys.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Trade")]
struct TradeJson {
    /// The repair, metric; null for the strip as it is.
    repair: Option<String>,
    /// Gravel laid, cubic metres.
    gravel_cubic_metres: f64,
    /// Cost; null where it is not stated.
    cost: Option<f64>,
    /// Largest landing mass.
    landing_mass: Option<Quantity>,
    /// Largest take-off mass.
    take_off_mass: Option<Quantity>,
    /// Mass over the plan of the movement that is limited most; may be negative.
    over_the_plan: Quantity,
}

fn codes(codes: &[&str]) -> Vec<String> {
    codes.iter().map(|code| (*code).to_owned()).collect()
}

fn way(way: &WayOut) -> WayJson {
    WayJson {
        actions: actions(&way.actions, UnitSystem::Metric),
        verdict_after: way.verdict_after.into(),
        mends: codes(&way.mends),
        still_failing: codes(&way.left),
        landing_mass: way.landing_mass.map(Quantity::of),
        take_off_mass: way.take_off_mass.map(Quantity::of),
        decision_speed: way.decision_speed.map(Quantity::of),
        load_left: Quantity::of(way.load_left),
        cost: way.cost,
    }
}

fn trade(point: &TradePoint) -> TradeJson {
    TradeJson {
        repair: point.repair.as_ref().map(|repair| repair.show(UnitSystem::Metric)),
        gravel_cubic_metres: point.cubic_metres,
        cost: point.cost,
        landing_mass: point.landing_mass.map(Quantity::of),
        take_off_mass: point.take_off_mass.map(Quantity::of),
        over_the_plan: Quantity::of(point.spare),
    }
}

/// The ways out as the text of a JSON file.
#[must_use]
pub fn ways_json(found: &WaysOut, produced: &Produced) -> String {
    let document = Document {
        format: WAYS_FORMAT,
        version: WAYS_VERSION,
        produced: ProducedJson::of(produced),
        caution: CAUTION,
        flight: found.identity.flight.clone(),
        aeroplane: found.identity.aeroplane.clone(),
        strip: found.identity.strip.clone(),
        verdict: found.verdict.into(),
        failing: codes(&found.failing),
        shortest: found.shortest.as_ref().map(way),
        cheapest: found.cheapest.as_ref().map(way),
        figures: found.opened().iter().map(FigureJson::new).collect(),
        singles: found.singles.iter().map(way).collect(),
        trade: found.trade.iter().map(trade).collect(),
        unit_of_money: Some(found.unit.clone()).filter(|unit| !unit.is_empty()),
        tried: found.tried,
        notes: found.notes.clone(),
    };
    let text = serde_json::to_string_pretty(&document)
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// Its schema as the text of a file.
#[must_use]
pub fn ways_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    let schema = settings.into_generator().into_root_schema_for::<Document>();
    format!("{:#}\n", schema.to_value())
}
