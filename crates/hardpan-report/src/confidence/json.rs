//! How sure an answer is, for a program: versioned, in SI units, with its schema.

use super::{AS_IT_IS, ConfidenceReport};
use crate::json::{FigureJson, ProducedJson, Quantity, VerdictJson};
use hardpan_assess::{
    CAUTION, Chance, Fitted, Help, InputShare, LimitChance, MassChance, Moving, NotDrawn, not_drawn,
};
use hardpan_quantity::{Mass, Quantity as Typed, UnitSystem, tell};
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const CONFIDENCE_FORMAT: &str = "hardpan-confidence";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const CONFIDENCE_VERSION: u32 = 2;

/// How sure the answer to one flight is.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan confidence")]
struct Document {
    /// Always `hardpan-confidence`.
    #[schemars(extend("const" = CONFIDENCE_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = CONFIDENCE_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// What the draws leave as it is.
    left_as_it_is: &'static str,
    /// Name of the flight.
    flight: String,
    /// Name of the aeroplane.
    aeroplane: String,
    /// Name of the strip.
    strip: String,
    /// Probability that no safety limit is exceeded at which the answer counts.
    level: f64,
    /// Draws made.
    draws: u32,
    /// How those are told that are not calculated in full; null where all are.
    fitted: Option<FittedJson>,
    /// Seed of the draws.
    seed: u32,
    /// Verdict of the assessment without draws.
    assessed: VerdictJson,
    /// The worse of that and of what the draws say.
    verdict: VerdictJson,
    /// Why, in one sentence, metric.
    sentence: String,
    /// Probability that no limit is exceeded.
    holds: ChanceJson,
    /// Each limit, the likeliest to be exceeded first.
    limits: Vec<LimitJson>,
    /// What no probability is told of.
    without_probability: Vec<WithoutJson>,
    /// The largest masses.
    masses: Vec<MassJson>,
    /// What is uncertain.
    inputs: Vec<InputJson>,
    /// Which measurements would raise the mass that holds.
    help: Vec<HelpJson>,
    /// Every figure with the steps behind it.
    figures: Vec<FigureJson>,
    /// What nobody says how sure it is, and limits that lack data.
    missing: Vec<MissingJson>,
}

/// Draws told by a smooth fit to those calculated in full.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fitted")]
struct FittedJson {
    /// Draws calculated in full.
    in_full: u32,
    /// Share of them that a fit without them judges otherwise, beside such as lie
    /// so near a limit that they are calculated in full.
    misjudged: f64,
    /// Root mean square error of each largest mass by a fit without the draw.
    mass_errors: Vec<MassErrorJson>,
    /// Draws in full for each measurement that is tried.
    help_draws: u32,
    /// How the probability that no limit is exceeded came about, step by step.
    worked: FigureJson,
}

/// What the fit errs in a largest mass.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MassError")]
struct MassErrorJson {
    /// `landing` or `take-off`.
    movement: &'static str,
    /// Root mean square error.
    error: Quantity,
}

/// A probability from the draws.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Chance")]
struct ChanceJson {
    /// Share of the draws.
    share: f64,
    /// Lower one-sided limit at 95 %.
    at_least: f64,
    /// Upper one-sided limit at 95 %.
    at_most: f64,
}

/// One limit.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LimitChance")]
struct LimitJson {
    /// Code of the rule.
    code: &'static str,
    /// What it is.
    limit: String,
    /// `landing` or `take-off`; null where it is of both.
    movement: Option<&'static str>,
    /// Probability that it is exceeded; null where data are missing.
    exceeded: Option<ChanceJson>,
    /// Whether a fit tells it of draws that are not calculated in full; where it does
    /// not, the probability rests on those in full alone.
    by_fit: bool,
    /// Whether it only advises: it counts for no answer.
    advice: bool,
    /// Share of the draws in full of which nothing can be said, and which count as
    /// exceeding it; null where data are missing.
    not_known: Option<f64>,
}

/// A rule, or a part of one, that no probability is told of.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Without")]
struct WithoutJson {
    /// Code of the rule.
    code: &'static str,
    /// Its name.
    name: &'static str,
    /// Which part of it; null where it is all of it.
    part: Option<&'static str>,
    /// Why.
    because: &'static str,
}

/// The largest mass of a movement.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MassChance")]
struct MassJson {
    /// `landing` or `take-off`.
    movement: &'static str,
    /// Mass planned.
    planned: Option<Quantity>,
    /// Largest mass of the assessment.
    assessed: Option<Quantity>,
    /// Largest mass that holds at the level; null where none does or data are
    /// missing.
    held: Option<Quantity>,
    /// The same where both movements are to hold together in as many draws; null where
    /// only one is planned as well.
    held_together: Option<Quantity>,
    /// Mass below which one draw in twenty lies.
    low: Option<Quantity>,
    /// Mass of the middle draw.
    middle: Option<Quantity>,
    /// Mass above which one draw in twenty lies.
    high: Option<Quantity>,
}

/// One uncertain input.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Input")]
struct InputJson {
    /// In words.
    name: String,
    /// Standard deviation, or its share of the value.
    deviation: Quantity,
    /// Whether the deviation is a share of the value.
    of_value: bool,
    /// Where it comes from.
    source: String,
    /// First and last station that one sounding speaks for; null for the rest.
    stretch: Option<[Quantity; 2]>,
    /// What it alone explains of each largest mass.
    explains: Vec<ShareJson>,
}

/// Share of the variance of a largest mass.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Share")]
struct ShareJson {
    /// `landing` or `take-off`.
    movement: &'static str,
    /// Between 0 and 1; null where that mass does not vary.
    share: Option<f64>,
}

/// What one more measurement, or softer tyres, would bring.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Help")]
struct HelpJson {
    /// What to do, metric.
    action: String,
    /// Which movement's mass it raises; null where none by as much as is worth naming.
    movement: Option<&'static str>,
    /// By how much; null likewise.
    gain: Option<Quantity>,
    /// Standard error of the gain; null likewise.
    gain_error: Option<Quantity>,
    /// Share of the same draws in which no limit is exceeded, without it.
    without: f64,
    /// The same with it.
    holds: f64,
    /// Standard error of the difference of the two.
    holds_error: f64,
}

/// Something missing.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Missing")]
struct MissingJson {
    /// What.
    what: String,
    /// How to supply it.
    how: String,
}

fn document(report: &ConfidenceReport) -> Document {
    let found = &report.found;
    let missing = report.missing().into_iter();
    Document {
        format: CONFIDENCE_FORMAT,
        version: CONFIDENCE_VERSION,
        produced: ProducedJson::of(&report.produced),
        caution: CAUTION,
        left_as_it_is: AS_IT_IS,
        flight: found.identity.flight.clone(),
        aeroplane: found.identity.aeroplane.clone(),
        strip: found.identity.strip.clone(),
        level: found.level.si(),
        draws: found.draws,
        fitted: found.fitted.as_ref().map(fitted),
        seed: found.seed,
        assessed: found.assessed.into(),
        verdict: found.verdict.into(),
        sentence: found.sentence.show(UnitSystem::Metric),
        holds: chance(found.holds),
        limits: found.limits.iter().map(limit).collect(),
        without_probability: not_drawn().into_iter().map(without).collect(),
        masses: found.masses.iter().map(mass).collect(),
        inputs: found.inputs.iter().map(input).collect(),
        help: found.help.iter().map(help).collect(),
        figures: found.opened().iter().map(FigureJson::new).collect(),
        missing: missing.map(|(what, how)| MissingJson { what, how }).collect(),
    }
}

fn fitted(fitted: &Fitted) -> FittedJson {
    let error = |(moving, error): &(Moving, Mass)| MassErrorJson {
        movement: moving.word(),
        error: Quantity::of(*error),
    };
    FittedJson {
        in_full: fitted.in_full,
        misjudged: fitted.misjudged.si(),
        mass_errors: fitted.mass_errors.iter().map(error).collect(),
        help_draws: fitted.help_draws,
        worked: FigureJson::new(&fitted.worked),
    }
}

fn chance(chance: Chance) -> ChanceJson {
    let (low, high) = chance.between;
    ChanceJson { share: chance.share.si(), at_least: low.si(), at_most: high.si() }
}

fn limit(limit: &LimitChance) -> LimitJson {
    LimitJson {
        code: limit.code,
        limit: limit.title.clone(),
        movement: limit.moving.map(|moving| moving.word()),
        exceeded: limit.exceeded.map(chance),
        by_fit: limit.is_fitted,
        advice: limit.advises,
        not_known: limit.not_judged.map(Typed::si),
    }
}

fn without(not: NotDrawn) -> WithoutJson {
    let NotDrawn { code, name, part, because } = not;
    WithoutJson { code, name, part, because }
}

fn mass(mass: &MassChance) -> MassJson {
    let [low, middle, high] = mass.range.map(|mass| mass.map(Quantity::of));
    MassJson {
        movement: mass.moving.word(),
        planned: mass.planned.map(Quantity::of),
        assessed: mass.assessed.map(Quantity::of),
        held: mass.held.map(Quantity::of),
        held_together: mass.held_together.map(Quantity::of),
        low,
        middle,
        high,
    }
}

fn input(input: &InputShare) -> InputJson {
    InputJson {
        name: tell(&input.name, UnitSystem::Metric),
        deviation: Quantity::new(input.deviation),
        of_value: input.is_share,
        source: input.source.clone(),
        stretch: input.stretch.map(|(from, to)| [Quantity::of(from), Quantity::of(to)]),
        explains: input
            .shares
            .iter()
            .map(|(moving, share)| ShareJson {
                movement: moving.word(),
                share: share.map(Typed::si),
            })
            .collect(),
    }
}

fn help(help: &Help) -> HelpJson {
    let raised = help.raised.as_ref();
    HelpJson {
        action: help.action.show(UnitSystem::Metric),
        movement: raised.map(|raised| raised.moving.word()),
        gain: raised.map(|raised| Quantity::of(raised.gain)),
        gain_error: raised.map(|raised| Quantity::of(raised.error)),
        without: help.without.si(),
        holds: help.holds.si(),
        holds_error: help.error.si(),
    }
}

/// What the draws say as the text of a JSON file.
#[must_use]
pub fn confidence_json(report: &ConfidenceReport) -> String {
    let text = serde_json::to_string_pretty(&document(report))
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// Its schema as the text of a file.
#[must_use]
pub fn confidence_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    let schema = settings.into_generator().into_root_schema_for::<Document>();
    format!("{:#}\n", schema.to_value())
}
