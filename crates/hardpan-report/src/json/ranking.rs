//! Flights side by side, for a program.

use super::{ProducedJson, Quantity};
use crate::Produced;
use hardpan_assess::{CAUTION, MassAnswer, Ranked};
use serde_json::{Value, json};

/// Name of the format, as it stands in `format`.
pub const COMPARISON_FORMAT: &str = "hardpan-comparison";

/// Version of the format, as it stands in `version`. It rises when a key changes
/// its meaning or goes; new keys alone do not raise it.
pub const COMPARISON_VERSION: u32 = 1;

/// A ranking as JSON, the best first.
#[must_use]
pub fn comparison_json(ranked: &[Ranked], produced: &Produced) -> String {
    let flights: Vec<Value> = ranked
        .iter()
        .enumerate()
        .map(|(index, one)| {
            json!({
                "place": index + 1,
                "name": one.name,
                "aeroplane": one.aeroplane,
                "strip": one.strip,
                "directions": one.directions,
                "verdict": one.verdict.word(),
                "take_off_mass": mass(one.take_off_mass.as_ref()),
                "landing_mass": mass(one.landing_mass.as_ref()),
                "spare": one.spare.map(Quantity::of),
                "reason": {
                    "metric": one.reason.show(hardpan_quantity::UnitSystem::Metric),
                    "imperial": one.reason.show(hardpan_quantity::UnitSystem::Imperial),
                },
            })
        })
        .collect();
    let document = json!({
        "format": COMPARISON_FORMAT,
        "version": COMPARISON_VERSION,
        "produced": ProducedJson::of(produced),
        "caution": CAUTION,
        "flights": flights,
    });
    format!("{document:#}\n")
}

/// Planned and largest mass; null where the movement is not planned.
fn mass(answer: Option<&MassAnswer>) -> Value {
    answer.map_or(Value::Null, |answer| {
        json!({
            "planned": answer.planned.map(Quantity::of),
            "largest": answer.largest.map(Quantity::of),
            "load": answer.load.map(Quantity::of),
        })
    })
}
