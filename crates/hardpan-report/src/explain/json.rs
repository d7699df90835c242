//! Figures opened to the end, for programs.

use super::Meant;
use crate::Report;
use crate::json::{FigureJson, FindingJson, ProducedJson, StepJson};
use hardpan_assess::{Assessment, CAUTION, FigureBasis, Opening, Openings};
use hardpan_model::{Basis, Finding};
use hardpan_quantity::UnitSystem;
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const OPENED_FORMAT: &str = "hardpan-opened";

/// Version of the format. It rises when a key changes its meaning or goes.
pub const OPENED_VERSION: u32 = 1;

/// Checks and figures of an assessment, each opened down to the files.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan opened figures")]
struct Document {
    /// Always `hardpan-opened`.
    #[schemars(extend("const" = OPENED_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = OPENED_VERSION))]
    version: u32,
    /// What produced the document and when.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// The checks that were asked for.
    findings: Vec<OpenedFinding>,
    /// The other figures that were asked for.
    figures: Vec<OpenedFigure>,
}

/// A check opened to the end: `basis` has its own steps, the last of which gives the value.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct OpenedFinding {
    #[serde(flatten)]
    finding: FindingJson,
    /// What its steps rest on. Steps count through: `step` is a place among those of
    /// `basis` and of all parts of `further` after each other, from 0.
    further: Vec<Part>,
}

/// A figure opened to the end, likewise.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct OpenedFigure {
    #[serde(flatten)]
    figure: FigureJson,
    /// What its steps rest on, as with a check.
    further: Vec<Part>,
}

/// Steps behind a value of an earlier step.
#[derive(Debug, Serialize, JsonSchema)]
struct Part {
    /// The check or figure that they belong to.
    of: String,
    /// The steps, of which the last gives the value.
    steps: Vec<StepJson>,
}

/// What is meant of a report, each down to the files, as the text of a file: figures in
/// SI units, sentences in the units of the report.
#[must_use]
pub fn opened_json(report: &Report, openings: &Openings, meant: &Meant) -> String {
    let (findings, figures) = opened(report.assessment(), openings, report.units, meant);
    let document = Document {
        format: OPENED_FORMAT,
        version: OPENED_VERSION,
        produced: ProducedJson::of(&report.produced),
        caution: CAUTION,
        findings,
        figures,
    };
    let text = serde_json::to_string_pretty(&document)
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// What is meant of an assessment whose sentences are told in these units.
pub(crate) fn opened(
    told: &Assessment,
    openings: &Openings,
    units: UnitSystem,
    meant: &Meant,
) -> (Vec<OpenedFinding>, Vec<OpenedFigure>) {
    let in_units = |opening: Opening| crate::told::opening(&opening, units);
    let finding = |at: &usize| {
        let opening = in_units(openings.of_finding(*at)?);
        let basis = Basis { steps: opening.own.clone() };
        let finding = Finding { basis, ..told.findings.get(*at)?.clone() };
        Some(OpenedFinding { finding: FindingJson::new(&finding), further: parts(&opening) })
    };
    let figure = |at: &usize| {
        let opening = in_units(openings.of_figure(*at)?);
        let basis = Basis { steps: opening.own.clone() };
        let figure = FigureBasis { basis, ..told.figures.get(*at)?.clone() };
        Some(OpenedFigure { figure: FigureJson::new(&figure), further: parts(&opening) })
    };
    let findings = meant.findings.iter().filter_map(finding).collect();
    (findings, meant.figures.iter().filter_map(figure).collect())
}

/// A figure that is of no report, opened, with sentences in metric units.
pub(crate) fn opened_apart_json(figure: &FigureBasis, opening: &Opening) -> serde_json::Value {
    let told = crate::told::opening(opening, UnitSystem::Metric);
    let figure = crate::told::figure(figure, UnitSystem::Metric);
    let figure = FigureBasis { basis: Basis { steps: told.own.clone() }, ..figure };
    let opened = OpenedFigure { figure: FigureJson::new(&figure), further: parts(&told) };
    serde_json::to_value(opened)
        .expect("the figure is made of structs, strings and numbers, which always serialise")
}

fn parts(opening: &Opening) -> Vec<Part> {
    let part = |one: &hardpan_assess::Further| Part {
        of: one.of.clone(),
        steps: one.steps.iter().map(StepJson::new).collect(),
    };
    opening.further.iter().map(part).collect()
}

/// The names of what can be opened, as the text of a file.
#[must_use]
pub fn names_json(report: &Report) -> String {
    let checks = report
        .findings
        .iter()
        .map(|row| serde_json::json!({ "code": row.code, "title": row.title, "phase": row.phase }));
    let figures = report.assessment().figures.iter().map(|one| one.name.as_str());
    let value = serde_json::json!({
        "caution": CAUTION,
        "checks": checks.collect::<Vec<_>>(),
        "figures": figures.collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}

/// The JSON schema of [`opened_json`], as the text of a file.
#[must_use]
pub fn opened_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    format!("{:#}\n", settings.into_generator().into_root_schema_for::<Document>().to_value())
}
