//! One check, down to the measurements.

use super::document::VerdictJson;
use super::quantity::Quantity;
use crate::measure::bound_word;
use crate::report::mark_word;
use hardpan_model::{
    BasisInput, EntryRange, FigureBasis, Finding, InputFrom, Source, Step, Weight,
};
use schemars::JsonSchema;
use serde::Serialize;

/// One check with its outcome.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Finding")]
pub(crate) struct FindingJson {
    /// Permanent code of the rule.
    code: String,
    /// What was checked.
    title: String,
    /// Phase in which it matters.
    phase: String,
    /// Whether it bears on safety; only such a check can hold up the answer.
    bears_on_safety: bool,
    /// The answer.
    verdict: VerdictJson,
    /// Value found.
    value: Option<Quantity>,
    /// Limit it is held against.
    limit: Option<LimitJson>,
    /// How far inside the limit the value lies; negative when outside.
    margin: Option<Quantity>,
    /// Where on the strip.
    place: Option<PlaceJson>,
    /// Why, in one sentence.
    because: String,
    /// What must be done.
    instruction: Option<String>,
    /// `approved`, `measured` or `planning only`.
    mark: String,
    /// What is missing.
    needs: Vec<NeedJson>,
    /// Reasons to trust it less.
    caveats: Vec<String>,
    /// Steps behind the value, in the order of computation.
    basis: Vec<StepJson>,
}

/// A limit.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Limit")]
struct LimitJson {
    /// `at most` or `at least`.
    bound: String,
    /// The limiting value.
    value: Quantity,
}

/// Where on the strip.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Place")]
struct PlaceJson {
    /// First station.
    from: Quantity,
    /// Last station.
    to: Quantity,
    /// `left main`, `nose` or `right main`.
    lane: Option<String>,
}

/// What is missing and how to supply it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Need")]
struct NeedJson {
    /// Key to fill in or thing to measure.
    what: String,
    /// Why, or how to get it.
    how: String,
}

/// One step: a formula with its inputs and its result.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Step")]
pub(crate) struct StepJson {
    /// What is computed.
    computes: String,
    /// Name of the formula in the catalogue.
    formula: Option<String>,
    /// The formula or rule of comparison.
    expression: String,
    /// Where it is published.
    source: SourceJson,
    /// What went in.
    inputs: Vec<InputJson>,
    /// What came out.
    result: Quantity,
}

/// A citation.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Source")]
struct SourceJson {
    /// Key of the document; empty for common practice and judgement.
    key: String,
    /// Place in it.
    locator: String,
    /// How sure.
    tier: String,
}

/// One input of a step.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Input")]
struct InputJson {
    /// Name in words.
    name: String,
    /// Value used.
    value: Quantity,
    /// Where it comes from.
    from: FromJson,
    /// Symbol that stands for it in the expression of the step.
    #[serde(skip_serializing_if = "Option::is_none")]
    symbol: Option<&'static str>,
}

/// Where an input comes from.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "From")]
enum FromJson {
    /// A value in a file.
    File {
        /// Path as the user named it.
        file: String,
        /// Line, from 1; 0 when it was stated in code.
        line: u32,
        /// Column in characters, from 1.
        column: u32,
        /// Key or column name.
        key: String,
        /// The user's source.
        source: Option<String>,
    },
    /// An earlier step, by its place from 0.
    Step(usize),
    /// A constant or planning value of the product.
    Constant(SourceJson),
    /// A computation of its own, or one with the rest of the step, in words.
    Computed(String),
    /// Entries of a book, by rising numbers.
    Entries(Vec<EntriesJson>),
}

/// Entries of a book one after the other.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Entries")]
struct EntriesJson {
    /// Number of the first.
    first: i64,
    /// Number of the last.
    last: i64,
}

impl FindingJson {
    pub(crate) fn new(finding: &Finding) -> Self {
        let needs = finding.needs.iter();
        Self {
            code: finding.code.to_owned(),
            title: finding.title.clone(),
            phase: finding.phase.word().to_owned(),
            bears_on_safety: finding.weight == Weight::Safety,
            verdict: finding.verdict.into(),
            value: finding.value.map(Quantity::new),
            limit: finding.limit.map(|limit| LimitJson {
                bound: bound_word(limit.bound).to_owned(),
                value: Quantity::new(limit.amount),
            }),
            margin: finding.margin().map(Quantity::new),
            place: finding.place.map(|place| PlaceJson {
                from: Quantity::of(place.from),
                to: Quantity::of(place.to),
                lane: place.lane.map(|lane| lane.word().to_owned()),
            }),
            because: finding.because.clone(),
            instruction: finding.instruction.clone(),
            mark: mark_word(finding.mark).to_owned(),
            needs: needs
                .map(|need| NeedJson { what: need.what.clone(), how: need.how.clone() })
                .collect(),
            caveats: finding.caveats.iter().map(|caveat| caveat.text.clone()).collect(),
            basis: finding.basis.steps.iter().map(StepJson::new).collect(),
        }
    }
}

/// A figure of the answer that is no finding, with the steps behind it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Figure")]
pub(crate) struct FigureJson {
    /// What it is.
    name: String,
    /// The figure.
    value: Quantity,
    /// Steps behind it, in the order of computation; the last gives it.
    basis: Vec<StepJson>,
}

impl FigureJson {
    pub(crate) fn new(figure: &FigureBasis) -> Self {
        Self {
            name: figure.name.clone(),
            value: Quantity::new(figure.amount),
            basis: figure.basis.steps.iter().map(StepJson::new).collect(),
        }
    }
}

/// A figure with the steps behind it, as it stands in every document.
#[must_use]
pub fn figure_json(figure: &FigureBasis) -> serde_json::Value {
    let told = crate::told::figure(figure, hardpan_quantity::UnitSystem::Metric);
    serde_json::to_value(FigureJson::new(&told))
        .expect("the figure is made of structs, strings and numbers, which always serialise")
}

impl StepJson {
    pub(crate) fn new(step: &Step) -> Self {
        Self {
            computes: step.computes.clone(),
            formula: step.formula.map(str::to_owned),
            expression: step.expression.clone(),
            source: source(step.source),
            inputs: step.inputs.iter().map(input).collect(),
            result: Quantity::new(step.result),
        }
    }
}

fn input(input: &BasisInput) -> InputJson {
    let from = match &input.from {
        InputFrom::File { origin, source } => FromJson::File {
            file: origin.file.to_string(),
            line: origin.line,
            column: origin.column,
            key: origin.key.to_string(),
            source: source.clone(),
        },
        InputFrom::Step(step) => FromJson::Step(*step),
        InputFrom::Constant(constant) => FromJson::Constant(source(*constant)),
        InputFrom::Computed(what) => FromJson::Computed(what.clone()),
        InputFrom::Entries(entries) => FromJson::Entries(entries.iter().map(range).collect()),
        InputFrom::Beside(how) => FromJson::Computed((*how).to_owned()),
    };
    InputJson {
        name: input.name.clone(),
        value: Quantity::new(input.amount),
        from,
        symbol: input.symbol,
    }
}

fn range(entries: &EntryRange) -> EntriesJson {
    EntriesJson { first: entries.first, last: entries.last }
}

fn source(source: Source) -> SourceJson {
    SourceJson {
        key: source.key.to_owned(),
        locator: source.locator.to_owned(),
        tier: source.tier.label().to_owned(),
    }
}
