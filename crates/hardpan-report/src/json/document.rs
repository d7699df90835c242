//! The document as a whole.

use super::blocks::{
    self, CardLineJson, DistanceJson, MassJson, NamedJson, RemedyJson, SpeedJson, TyreJson,
};
use super::finding::{FigureJson, FindingJson};
use super::sketch::SketchJson;
use super::stones::{self, HandlingJson, StonesJson};
use super::turning::TurningJson;
use super::{FORMAT, VERSION};
use crate::{Produced, Report};
use hardpan_assess::Assessment;
use hardpan_model::Verdict;
use schemars::JsonSchema;
use serde::Serialize;

/// An assessment of one flight at one unpaved strip.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan assessment")]
pub(super) struct Document {
    /// Always `hardpan-assessment`.
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// What produced the document and when.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// Who, where, when.
    identity: IdentityJson,
    /// The answer in short.
    answer: AnswerJson,
    /// Why, in the order in which a captain asks.
    account: Vec<AccountJson>,
    /// Largest take-off mass, if a take-off is planned.
    take_off_mass: Option<MassJson>,
    /// Largest landing mass, if a landing is planned.
    landing_mass: Option<MassJson>,
    /// Main tyre pressure.
    tyre: TyreJson,
    /// Speeds in the order of use.
    speeds: Vec<SpeedJson>,
    /// Distances needed against available.
    distances: Vec<DistanceJson>,
    /// Air and wind.
    day: Vec<NamedJson>,
    /// What on the day would turn the answer.
    turning: TurningJson,
    /// What would help, most effective first.
    remedies: Vec<RemedyJson>,
    /// Limits and handling by phase.
    card_lines: Vec<CardLineJson>,
    /// Every check.
    findings: Vec<FindingJson>,
    /// Every other figure of the answer with what it came from.
    figures: Vec<FigureJson>,
    /// The strip on its station axis.
    sketch: SketchJson,
    /// Stones thrown at the aeroplane; null where none are thrown.
    stones: Option<StonesJson>,
    /// Handling compared by the stones that it meets; likewise.
    handling: Option<HandlingJson>,
}

/// What produced the document and when.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Produced")]
pub(crate) struct ProducedJson {
    /// Program and version.
    by: String,
    /// Time, in words.
    at: String,
    /// What identifies the inputs.
    identifier: String,
}

/// Who, where, when; as the user wrote it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Identity")]
struct IdentityJson {
    /// Name of the flight.
    flight: String,
    /// Registration or name of the aeroplane.
    aeroplane: String,
    /// Name of the strip.
    strip: String,
    /// Surface and its state.
    surface: String,
    /// Local day.
    date: String,
    /// Time of the movement, UTC.
    time_utc: String,
    /// Until when the answer may be used, in words.
    validity: String,
    /// Runway designators.
    directions: String,
}

/// The answer in short.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Answer")]
struct AnswerJson {
    /// Verdict of the whole.
    verdict: VerdictJson,
    /// One sentence.
    sentence: String,
    /// Place in `findings`, from 0, of the one that governs.
    governing_finding: Option<usize>,
    /// Conditions to be kept.
    conditions: Vec<String>,
    /// What is missing.
    missing: Vec<String>,
}

/// A question, and its answer in plain words.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Account")]
struct AccountJson {
    /// What a captain asks.
    asked: &'static str,
    /// The answer, in the units of the report.
    said: String,
}

impl AccountJson {
    fn new((asked, said): &(&'static str, String)) -> Self {
        Self { asked, said: said.clone() }
    }
}

/// From best to worst: pass, conditional, unproven, fail.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "Verdict")]
pub(crate) enum VerdictJson {
    /// Holds without conditions.
    Pass,
    /// Holds while the stated condition is kept.
    Conditional,
    /// Cannot be shown.
    Unproven,
    /// Does not hold.
    Fail,
}

impl ProducedJson {
    pub(crate) fn of(produced: &Produced) -> Self {
        Self {
            by: produced.by.clone(),
            at: produced.at.clone(),
            identifier: produced.identifier.clone(),
        }
    }
}

impl Document {
    pub(super) fn new(report: &Report) -> Self {
        let assessment = &report.assessment;
        Self {
            format: FORMAT,
            version: VERSION,
            produced: ProducedJson::of(&report.produced),
            caution: report.caution,
            identity: identity(assessment),
            answer: answer(report),
            account: report.account.iter().map(AccountJson::new).collect(),
            take_off_mass: assessment.take_off_mass.as_ref().map(blocks::mass),
            landing_mass: assessment.landing_mass.as_ref().map(blocks::mass),
            tyre: blocks::tyre(assessment),
            speeds: blocks::speeds(assessment),
            distances: blocks::distances(assessment),
            day: blocks::day(assessment),
            turning: TurningJson::new(&assessment.turning),
            remedies: blocks::remedies(assessment),
            card_lines: blocks::card_lines(assessment),
            findings: assessment.findings.iter().map(FindingJson::new).collect(),
            figures: assessment.figures.iter().map(FigureJson::new).collect(),
            sketch: SketchJson::new(&assessment.sketch),
            stones: assessment.stones.as_ref().map(stones::stones),
            handling: assessment.handling.as_ref().map(stones::handling),
        }
    }
}

impl From<Verdict> for VerdictJson {
    fn from(verdict: Verdict) -> Self {
        match verdict {
            Verdict::Pass => Self::Pass,
            Verdict::Conditional => Self::Conditional,
            Verdict::Unproven => Self::Unproven,
            Verdict::Fail => Self::Fail,
        }
    }
}

fn identity(assessment: &Assessment) -> IdentityJson {
    let identity = assessment.identity.clone();
    IdentityJson {
        flight: identity.flight,
        aeroplane: identity.aeroplane,
        strip: identity.strip,
        surface: identity.surface,
        date: identity.date,
        time_utc: identity.time_utc,
        validity: identity.validity,
        directions: identity.directions,
    }
}

fn answer(report: &Report) -> AnswerJson {
    let answer = &report.assessment.answer;
    AnswerJson {
        verdict: answer.verdict.into(),
        sentence: answer.sentence.clone(),
        governing_finding: report.answer.governing,
        conditions: answer.conditions.clone(),
        missing: answer.missing.clone(),
    }
}
