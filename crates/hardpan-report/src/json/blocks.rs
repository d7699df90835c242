//! Masses, tyre pressure, speeds, distances, air, remedies and card lines.

use super::document::VerdictJson;
use super::quantity::Quantity;
use hardpan_assess::{Assessment, CardLineKind, MassAnswer, MassLimit};
use hardpan_quantity::UnitSystem;
use schemars::JsonSchema;
use serde::Serialize;

/// Largest mass and what sets it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Mass")]
pub(super) struct MassJson {
    /// Mass planned.
    planned: Option<Quantity>,
    /// Largest mass at which every safety check holds.
    largest: Option<Quantity>,
    /// Load that the largest mass leaves over operating mass and the fuel planned.
    load: Option<Quantity>,
    /// Limits by rising mass; the first sets the answer, unless one is not known.
    limits: Vec<MassLimitJson>,
    /// The first limit that cannot be told for want of data; null where each is known, or
    /// no mass holds in any case.
    unknown: Option<MassLimitJson>,
}

/// One limit on mass.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MassLimit")]
struct MassLimitJson {
    /// Code of the rule that sets it.
    code: String,
    /// In words.
    title: String,
    /// Largest mass that it allows; null when it allows none.
    mass: Option<Quantity>,
}

/// Main tyre pressure.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Tyre")]
pub(super) struct TyreJson {
    /// Pressure to set.
    set: Option<Quantity>,
    /// Why that pressure.
    because: String,
    /// Least pressure that tyre and chart allow at the planned mass.
    least: Option<Quantity>,
    /// Greatest pressure that the ground carries at the planned mass.
    greatest: Option<Quantity>,
    /// Largest masses by pressure.
    table: Vec<PressureJson>,
}

/// What one tyre pressure allows.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Pressure")]
struct PressureJson {
    /// Main tyre pressure.
    pressure: Quantity,
    /// Largest mass that the ground carries.
    ground: Option<Quantity>,
    /// Largest mass that tyre and chart allow.
    tyre: Option<Quantity>,
}

/// One speed.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Speed")]
pub(super) struct SpeedJson {
    /// Symbol of the trade.
    symbol: String,
    /// In words.
    name: String,
    /// Calibrated airspeed.
    speed: Quantity,
}

/// One distance needed against what is available.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Distance")]
pub(super) struct DistanceJson {
    /// Code of the rule.
    code: String,
    /// In words.
    name: String,
    /// Needed, factors included.
    needed: Quantity,
    /// Available, if declared.
    available: Option<Quantity>,
}

/// A named figure.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Named")]
pub(super) struct NamedJson {
    /// In words.
    name: String,
    /// Value.
    value: Quantity,
}

/// A change that would help.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Remedy")]
pub(super) struct RemedyJson {
    /// What to do.
    action: String,
    /// What it brings.
    effect: String,
    /// Verdict of the whole after it, as assessed afresh.
    verdict_after: VerdictJson,
    /// Codes of the findings that it mends.
    mends: Vec<String>,
    /// Codes of the findings that still fail.
    still_failing: Vec<String>,
}

/// One line of the card.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CardLine")]
pub(super) struct CardLineJson {
    /// Phase in which it applies.
    phase: String,
    /// Kind.
    kind: CardLineKindJson,
    /// What to do or hold, with its figure.
    text: String,
    /// The figure of an approved limit by itself.
    value: Option<Quantity>,
    /// Where it comes from.
    source: String,
}

/// Kind of a line on the card.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "CardLineKind")]
enum CardLineKindJson {
    /// An approved limit that the crew holds.
    Limit,
    /// A computed limit: planning only.
    Computed,
    /// Handling in the operator's words.
    Handling,
}

pub(super) fn mass(answer: &MassAnswer) -> MassJson {
    let limit = |limit: &MassLimit| MassLimitJson {
        code: limit.code.to_owned(),
        title: limit.title.clone(),
        mass: limit.mass.map(Quantity::of),
    };
    MassJson {
        planned: answer.planned.map(Quantity::of),
        largest: answer.largest.map(Quantity::of),
        load: answer.load.map(Quantity::of),
        limits: answer.limits.iter().map(limit).collect(),
        unknown: answer.unknown.as_ref().map(limit),
    }
}

pub(super) fn tyre(assessment: &Assessment) -> TyreJson {
    let tyre = &assessment.tyre;
    let table = tyre.table.iter().map(|row| PressureJson {
        pressure: Quantity::of(row.pressure),
        ground: row.ground.map(Quantity::of),
        tyre: row.tyre.map(Quantity::of),
    });
    TyreJson {
        set: tyre.set.map(Quantity::of),
        because: tyre.because.clone(),
        least: tyre.least.map(Quantity::of),
        greatest: tyre.greatest.map(Quantity::of),
        table: table.collect(),
    }
}

pub(super) fn speeds(assessment: &Assessment) -> Vec<SpeedJson> {
    let rows = assessment.speeds.iter().map(|row| SpeedJson {
        symbol: row.symbol.to_owned(),
        name: row.name.to_owned(),
        speed: Quantity::of(row.speed),
    });
    rows.collect()
}

pub(super) fn distances(assessment: &Assessment) -> Vec<DistanceJson> {
    let rows = assessment.distances.iter().map(|row| DistanceJson {
        code: row.code.to_owned(),
        name: row.name.clone(),
        needed: Quantity::of(row.needed),
        available: row.available.map(Quantity::of),
    });
    rows.collect()
}

pub(super) fn day(assessment: &Assessment) -> Vec<NamedJson> {
    let rows = assessment.day.rows.iter();
    rows.map(|(name, amount)| NamedJson { name: name.clone(), value: Quantity::new(*amount) })
        .collect()
}

pub(super) fn remedies(assessment: &Assessment) -> Vec<RemedyJson> {
    let rows = assessment.remedies.iter().map(|remedy| RemedyJson {
        action: remedy.action.show(UnitSystem::Metric),
        effect: remedy.effect.show(UnitSystem::Metric),
        verdict_after: remedy.verdict_after.into(),
        mends: remedy.mends.iter().map(|code| (*code).to_owned()).collect(),
        still_failing: remedy.left.iter().map(|code| (*code).to_owned()).collect(),
    });
    rows.collect()
}

pub(super) fn card_lines(assessment: &Assessment) -> Vec<CardLineJson> {
    let rows = assessment.card_lines.iter().map(|line| CardLineJson {
        phase: line.phase.word().to_owned(),
        kind: match line.kind {
            CardLineKind::Limit => CardLineKindJson::Limit,
            CardLineKind::Computed => CardLineKindJson::Computed,
            CardLineKind::Handling => CardLineKindJson::Handling,
        },
        text: line.text.clone(),
        value: line.amount.map(Quantity::new),
        source: line.source.clone(),
    });
    rows.collect()
}
