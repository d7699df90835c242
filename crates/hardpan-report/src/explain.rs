//! One finding or figure opened: value, steps, numbers in place, sources, inputs.

use crate::measure::amount_text;
use crate::report::verdict_symbol;
use crate::wrap::{entry, hanging, plain};
use crate::{FindingRow, Report};
use hardpan_assess::FigureBasis;
use hardpan_model::{Argument, BasisInput, Formula, InputFrom, Step};
use hardpan_quantity::UnitSystem;

const LABEL: usize = 9;

/// The finding at `index` of the report, from its value down to the files, for
/// a person at a terminal of `width` columns; none when there is no such
/// finding. `formulas` is the catalogue in which the symbols of a formula are
/// looked up, so that its numbers can be put in place.
#[must_use]
pub fn explain(
    report: &Report,
    index: usize,
    formulas: &[&Formula],
    width: usize,
) -> Option<String> {
    let row = report.findings.get(index)?;
    let steps = opened(report, index, formulas)?;
    let mut out = head(row, width);
    if steps.is_empty() {
        out.push_str("\nNo figure was computed for this finding.\n");
    } else {
        out.push_str("\nHow the figure comes about\n");
    }
    for (number, step) in steps.iter().enumerate() {
        out.push_str(&step_text(number, step, width));
    }
    out.push_str(&tail(row, width));
    Some(out)
}

/// A figure of the answer that is no finding, from its value down to the files;
/// `index` counts those of the assessment. None when there is no such figure.
#[must_use]
pub fn explain_figure(
    report: &Report,
    index: usize,
    formulas: &[&Formula],
    width: usize,
) -> Option<String> {
    let figure = report.assessment.figures.get(index)?;
    let title = figure_title(figure, report.units);
    let mut out = hanging(&title, width, "");
    out.push_str("\nHow the figure comes about\n");
    for (number, step) in opened_figure(report, index, formulas)?.iter().enumerate() {
        out.push_str(&step_text(number, step, width));
    }
    Some(out)
}

/// Name and value of a figure.
#[must_use]
pub fn figure_title(figure: &FigureBasis, units: UnitSystem) -> String {
    format!("{} = {}", plain(&figure.name), amount_text(figure.amount, units))
}

/// The steps behind the figure at `index`, in the order of computation.
#[must_use]
pub fn opened_figure(
    report: &Report,
    index: usize,
    formulas: &[&Formula],
) -> Option<Vec<OpenedStep>> {
    let figure = report.assessment.figures.get(index)?;
    Some(opened_basis(figure, formulas, report.units))
}

/// The steps behind a figure, in the order of computation. For `formulas` see [`explain`].
#[must_use]
pub fn opened_basis(
    figure: &FigureBasis,
    formulas: &[&Formula],
    units: UnitSystem,
) -> Vec<OpenedStep> {
    opened_steps(&figure.basis.steps, formulas, units)
}

pub(crate) fn opened_steps(
    steps: &[Step],
    formulas: &[&Formula],
    units: UnitSystem,
) -> Vec<OpenedStep> {
    let open = |step: &Step| {
        let formula = formulas.iter().copied().find(|known| Some(known.name) == step.formula);
        opened_step(step, formula, units)
    };
    steps.iter().map(open).collect()
}

fn head(row: &FindingRow, width: usize) -> String {
    let verdict = format!("{} {}", verdict_symbol(row.verdict), row.verdict.word());
    let mut out = hanging(&format!("{}  {}: {verdict}", row.code, row.title), width, "");
    out.push('\n');
    let facts = [
        ("value", row.value.as_deref()),
        ("limit", row.limit.as_deref()),
        ("margin", row.margin.as_deref()),
        ("place", row.place_text.as_deref()),
        ("phase", Some(row.phase)),
        ("use", Some(row.mark)),
        ("weight", Some(row.weight)),
        ("because", Some(row.because.as_str())),
        ("do", row.instruction.as_deref()),
    ];
    for (label, text) in facts {
        if let Some(text) = text.filter(|text| !text.is_empty()) {
            out.push_str(&entry(label, text, LABEL, width));
        }
    }
    out
}

fn tail(row: &FindingRow, width: usize) -> String {
    let mut out = String::new();
    if !row.caveats.is_empty() {
        out.push_str("\nReasons to trust it less\n");
        for caveat in &row.caveats {
            out.push_str(&hanging(caveat, width, "  – "));
        }
    }
    if !row.needs.is_empty() {
        out.push_str("\nWhat is missing\n");
        for (what, how) in &row.needs {
            out.push_str(&hanging(&format!("{what}: {how}"), width, "  ? "));
        }
    }
    out
}

pub(crate) fn step_text(number: usize, step: &OpenedStep, width: usize) -> String {
    let mut out = hanging(&step.title, width, &format!("  {}. ", number + 1));
    for (label, text) in &step.lines {
        out.push_str(&hanging(text, width, &format!("     {label:<LABEL$} ")));
    }
    out
}

/// One step behind a figure, in the reader's units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenedStep {
    /// What was computed and what came out.
    pub title: String,
    /// Formula, rule, numbers in place, source and inputs, each with its label.
    pub lines: Vec<(&'static str, String)>,
}

/// The steps behind the finding at `index` of the report, in the order of
/// computation; none when there is no such finding. For `formulas` see [`explain`].
#[must_use]
pub fn opened(report: &Report, index: usize, formulas: &[&Formula]) -> Option<Vec<OpenedStep>> {
    let finding = report.assessment.findings.get(index)?;
    Some(opened_steps(&finding.basis.steps, formulas, report.units))
}

fn opened_step(step: &Step, formula: Option<&Formula>, units: UnitSystem) -> OpenedStep {
    let expression = plain(&step.expression);
    let mut lines = Vec::new();
    lines.extend(step.formula.map(|name| ("formula", name.to_owned())));
    let filled = formula.and_then(|formula| filled(&expression, formula, step, units));
    lines.push(("rule", expression));
    lines.extend(filled.map(|filled| ("numbers", filled)));
    lines.push(("source", step.source.to_string()));
    lines.extend(step.inputs.iter().map(|input| {
        let value = amount_text(input.amount, units);
        ("with", format!("{} = {value}, {}", plain(&input.name), from_text(&input.from)))
    }));
    let title = format!("{} = {}", plain(&step.computes), amount_text(step.result, units));
    OpenedStep { title, lines }
}

pub(crate) fn from_text(from: &InputFrom) -> String {
    match from {
        InputFrom::File { origin, source: None } => plain(&origin.to_string()),
        InputFrom::File { origin, source: Some(source) } => plain(&format!("{origin}; {source}")),
        InputFrom::Step(step) => format!("step {}", step + 1),
        InputFrom::Constant(source) => format!("constant, {source}"),
        InputFrom::Computed(what) => format!("computed: {}", plain(what)),
    }
}

/// The expression with every symbol replaced by its value and unit; none
/// unless each argument of the formula stands among the inputs by name.
pub(crate) fn filled(
    expression: &str,
    formula: &Formula,
    step: &Step,
    units: UnitSystem,
) -> Option<String> {
    let mut values = Vec::new();
    for argument in formula.arguments {
        let input = input_of(argument, &step.inputs)?;
        values.push((argument.symbol, amount_text(input.amount, units)));
    }
    let mut out = String::new();
    let mut found = 0_usize;
    for token in tokens(expression) {
        match values.iter().find(|(symbol, _)| *symbol == token) {
            Some((_, value)) => {
                found += 1;
                out.push_str(&format!("({value})"));
            }
            None => out.push_str(token),
        }
    }
    (found > 0).then_some(out)
}

fn input_of<'a>(argument: &Argument, inputs: &'a [BasisInput]) -> Option<&'a BasisInput> {
    let name = argument.name.replace('_', " ");
    inputs.iter().find(|input| {
        input.amount.dimension == argument.dimension && input.name.eq_ignore_ascii_case(&name)
    })
}

/// The expression cut where a run of letters, digits and underscores begins or ends.
fn tokens(expression: &str) -> Vec<&str> {
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let mut out = Vec::new();
    let mut start = 0;
    let mut before: Option<bool> = None;
    for (at, c) in expression.char_indices() {
        let word = is_word(c);
        if before.is_some_and(|before| before != word) {
            out.extend(expression.get(start..at));
            start = at;
        }
        before = Some(word);
    }
    out.extend(expression.get(start..));
    out
}
