//! Flights side by side, for a program.

use super::{FigureJson, ProducedJson, Quantity, VerdictJson};
use crate::{Candidate, Produced};
use hardpan_assess::{CAUTION, MassAnswer, Ranked, figure_names};
use hardpan_quantity::UnitSystem;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// Name of the format, as it stands in `format`.
pub const COMPARISON_FORMAT: &str = "hardpan-comparison";

/// Version of the format, as it stands in `version`. It rises when a key changes
/// its meaning or goes; new keys alone do not raise it.
pub const COMPARISON_VERSION: u32 = 1;

/// Flights ranked, the best first.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan comparison")]
struct Document {
    /// Always `hardpan-comparison`.
    #[schemars(extend("const" = COMPARISON_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = COMPARISON_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// The flights, the best first.
    flights: Vec<RankedJson>,
}

/// One flight in its place.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "RankedFlight")]
struct RankedJson {
    /// Its place, from 1.
    place: usize,
    /// Its name.
    name: String,
    /// Name of its aeroplane.
    aeroplane: String,
    /// Name of its strip.
    strip: String,
    /// Ends of the strip that it uses, in words.
    directions: String,
    /// Its verdict.
    verdict: VerdictJson,
    /// Take-off mass; null where no take-off is planned.
    take_off_mass: Option<PlannedMassJson>,
    /// Landing mass; null where no landing is planned.
    landing_mass: Option<PlannedMassJson>,
    /// Least mass to spare over the plan; null as long as the largest or the planned mass
    /// of a movement is not known.
    spare: Option<Quantity>,
    /// Why it stands where it does.
    reason: ReasonJson,
    /// What its figures open to.
    basis: OpensJson,
}

/// The flight in whose assessment the figures open, and those that are told here alone.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Opens")]
struct OpensJson {
    /// Its file, or its slug where a page was asked.
    flight: String,
    /// Values stated again to make it, by the keys of the files.
    changes: BTreeMap<String, String>,
    /// Code of the check that the reason names, as `hardpan explain` takes it.
    reason: Option<&'static str>,
    /// The masses planned, and what is to spare.
    figures: Vec<FigureJson>,
}

/// The mass of a movement.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PlannedMass")]
struct PlannedMassJson {
    /// As planned; null when not stated.
    planned: Option<Quantity>,
    /// The largest; null when none was found.
    largest: Option<Quantity>,
    /// The load that the largest leaves room for; null when not known.
    load: Option<Quantity>,
    /// Names under which `hardpan explain` opens them in the assessment of the flight.
    basis: NamesJson,
}

/// Names of figures, as `hardpan explain` takes them.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "FigureNames")]
struct NamesJson {
    /// Of the largest mass; null when none was found.
    largest: Option<String>,
    /// Of the load that it leaves; null when not known.
    load: Option<String>,
}

/// A sentence in each system of units.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Reason")]
struct ReasonJson {
    /// Metric.
    metric: String,
    /// Imperial.
    imperial: String,
}

/// A ranking as JSON, the best first; `candidates` are the flights as they were given.
#[must_use]
pub fn comparison_json(ranked: &[Ranked], candidates: &[Candidate], produced: &Produced) -> String {
    let document = Document {
        format: COMPARISON_FORMAT,
        version: COMPARISON_VERSION,
        produced: ProducedJson::of(produced),
        caution: CAUTION,
        flights: ranked
            .iter()
            .zip(1..)
            .map(|(one, place)| flight(one, place, candidates.get(one.given)))
            .collect(),
    };
    let text = serde_json::to_string_pretty(&document)
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// The JSON schema of [`comparison_json`], as the text of a file.
#[must_use]
pub fn comparison_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    format!("{:#}\n", settings.into_generator().into_root_schema_for::<Document>().to_value())
}

fn flight(one: &Ranked, place: usize, candidate: Option<&Candidate>) -> RankedJson {
    let candidate = candidate.cloned().unwrap_or_default();
    RankedJson {
        place,
        name: one.name.clone(),
        aeroplane: one.aeroplane.clone(),
        strip: one.strip.clone(),
        directions: one.directions.clone(),
        verdict: one.verdict.into(),
        take_off_mass: one.take_off_mass.as_ref().map(|one| mass(one, "take-off")),
        landing_mass: one.landing_mass.as_ref().map(|one| mass(one, "landing")),
        spare: one.spare.map(Quantity::of),
        reason: ReasonJson {
            metric: one.reason.show(UnitSystem::Metric),
            imperial: one.reason.show(UnitSystem::Imperial),
        },
        basis: OpensJson {
            flight: candidate.flight,
            changes: candidate.changes.into_iter().collect(),
            reason: one.reason_of,
            figures: one.figures.iter().map(FigureJson::new).collect(),
        },
    }
}

fn mass(answer: &MassAnswer, movement: &str) -> PlannedMassJson {
    let [largest, load] = figure_names(movement);
    PlannedMassJson {
        basis: NamesJson {
            largest: answer.largest.map(|_| largest),
            load: answer.load.map(|_| load),
        },
        planned: answer.planned.map(Quantity::of),
        largest: answer.largest.map(Quantity::of),
        load: answer.load.map(Quantity::of),
    }
}
