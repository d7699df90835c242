//! One finding or figure opened: value, steps, numbers in place, sources, inputs.

mod arithmetic;
mod by_words;
pub(crate) mod in_place;
mod json;
mod meant;
mod whole;

pub use arithmetic::line_gives;
pub(crate) use by_words::by_words;
pub use json::{OPENED_FORMAT, OPENED_VERSION, names_json, opened_json, opened_schema};
pub(crate) use json::{opened as opened_for_programs, opened_apart_json};
pub use meant::Meant;
pub use whole::{OpenedWhole, opened_apart, opened_whole};

use crate::measure::{Rounding, amount_text, rounded};
use crate::report::{Needed, verdict_symbol};
use crate::wrap::{entry, hanging, plain};
use crate::{FindingRow, Report};
use hardpan_assess::{Opening, Openings};
use hardpan_model::{EntryRange, FigureBasis, Formula, InputFrom, Step};
use hardpan_quantity::{Dimension, UnitSystem};
use in_place::{in_place, level_text};

const LABEL: usize = 9;

/// The finding at `index` of the report, from its value down to the files as it
/// opens, for a person at a terminal of `width` columns; none when there is no such
/// finding. `formulas` is the catalogue in which the symbols of a formula are
/// looked up, so that its numbers can be put in place.
#[must_use]
pub fn explain(
    report: &Report,
    index: usize,
    opening: &Opening,
    formulas: &[&Formula],
    width: usize,
) -> Option<String> {
    let row = report.findings.get(index)?;
    let mut out = head(row, width);
    if opening.own.is_empty() {
        out.push_str("\nNo figure was computed for this finding.\n");
    }
    let (own, further) = down(report, opening, formulas, width);
    out.push_str(&own);
    out.push_str(&tail(row, width));
    out.push_str(&further);
    Some(out)
}

/// A figure of the answer that is no finding, from its value down to the files as it
/// opens; `index` counts those of the assessment. None when there is no such figure.
#[must_use]
pub fn explain_figure(
    report: &Report,
    index: usize,
    opening: &Opening,
    formulas: &[&Formula],
    width: usize,
) -> Option<String> {
    let mut out = hanging(&title_of_figure(report, index)?, width, "");
    let (own, further) = down(report, opening, formulas, width);
    out.push_str(&own);
    out.push_str(&further);
    Some(out)
}

/// What is meant of a report, each down to the files, for a person at a terminal of
/// `width` columns. For `formulas` see [`explain`].
#[must_use]
pub fn explain_meant(
    report: &Report,
    openings: &Openings,
    meant: &Meant,
    formulas: &[&Formula],
    width: usize,
) -> String {
    let findings = meant
        .findings
        .iter()
        .filter_map(|at| explain(report, *at, &openings.of_finding(*at)?, formulas, width));
    let figures = meant
        .figures
        .iter()
        .filter_map(|at| explain_figure(report, *at, &openings.of_figure(*at)?, formulas, width));
    findings.chain(figures).collect::<Vec<_>>().join("\n")
}

/// Names of what can be opened under their headings, one to an entry, within `width`.
#[must_use]
pub fn names_to_open(parts: &[(String, Vec<String>)], width: usize) -> String {
    let mut out = String::new();
    for (heading, names) in parts.iter().filter(|(_, names)| !names.is_empty()) {
        out.push_str(&hanging(&format!("{heading}:"), width, ""));
        names.iter().for_each(|name| out.push_str(&hanging(&plain(name), width, "  ")));
    }
    out
}

/// The steps of a figure itself and those that it rests on, as text; steps count
/// through.
fn down(
    report: &Report,
    opening: &Opening,
    formulas: &[&Formula],
    width: usize,
) -> (String, String) {
    down_text(&opened_whole(report, opening, formulas), width)
}

fn down_text(opened: &OpenedWhole, width: usize) -> (String, String) {
    let text = |steps: &[OpenedStep], first: usize| {
        let numbered = steps.iter().enumerate();
        numbered.map(|(at, step)| step_text(first + at, step, width)).collect::<String>()
    };
    let own = match text(&opened.own, 0) {
        steps if steps.is_empty() => String::new(),
        steps => format!("\nHow the figure comes about\n{steps}"),
    };
    let mut further = String::new();
    for ((of, steps), first) in opened.further.iter().zip(opened.first_numbers()) {
        further.push_str(&hanging(of, width, "\nFrom "));
        further.push_str(&text(steps, first - 1));
    }
    (own, further)
}

/// Name and value of a figure.
#[must_use]
pub fn figure_title(figure: &FigureBasis, units: UnitSystem) -> String {
    let name = hardpan_quantity::tell(&figure.name, units);
    format!("{} = {}", plain(&name), amount_text(figure.amount, units))
}

/// Name and value of the figure at `index` of the report; a distance that a run
/// needs is rounded up.
#[must_use]
pub fn title_of_figure(report: &Report, index: usize) -> Option<String> {
    let figure = report.assessment.figures.get(index)?;
    let value = match on_the_safe_side(figure) {
        Rounding::Nearest => Needed::of(&report.assessment).text(figure.amount, report.units),
        way => amount_text(rounded(figure.amount, way, report.units), report.units),
    };
    Some(format!("{} = {value}", plain(&figure.name)))
}

/// How a figure is rounded as the answer tells it: what is allowed down, what is needed
/// up.
fn on_the_safe_side(figure: &FigureBasis) -> Rounding {
    match figure.amount.dimension {
        Dimension::Mass if figure.name.ends_with("too much") => Rounding::Up,
        Dimension::Mass => Rounding::Down,
        Dimension::Pressure if figure.name.starts_with("least") => Rounding::Up,
        Dimension::Pressure if figure.name.starts_with("greatest") => Rounding::Down,
        _ => Rounding::Nearest,
    }
}

/// The steps behind the figure at `index`, in the order of computation.
#[must_use]
pub fn opened_figure(
    report: &Report,
    index: usize,
    formulas: &[&Formula],
) -> Option<Vec<OpenedStep>> {
    let figure = report.assessment.figures.get(index)?;
    let needed = Needed::of(&report.assessment);
    Some(opened_steps(&figure.basis.steps, formulas, report.units, &needed))
}

/// The steps behind a figure, in the order of computation. For `formulas` see [`explain`].
#[must_use]
pub fn opened_basis(
    figure: &FigureBasis,
    formulas: &[&Formula],
    units: UnitSystem,
) -> Vec<OpenedStep> {
    opened_apart(&alone(figure), formulas, units).own
}

/// A figure that opens to its own steps.
fn alone(figure: &FigureBasis) -> Opening {
    Opening { own: figure.basis.steps.clone(), ..Opening::default() }
}

pub(crate) fn opened_steps(
    steps: &[Step],
    formulas: &[&Formula],
    units: UnitSystem,
    needed: &Needed,
) -> Vec<OpenedStep> {
    let open = |step: &Step| {
        let formula = formulas.iter().copied().find(|known| Some(known.name) == step.formula);
        opened_step(step, formula, units, needed)
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
    let needed = Needed::of(&report.assessment);
    Some(opened_steps(&finding.basis.steps, formulas, report.units, &needed))
}

fn opened_step(
    step: &Step,
    formula: Option<&Formula>,
    units: UnitSystem,
    needed: &Needed,
) -> OpenedStep {
    let mut lines = Vec::new();
    lines.extend(step.formula.map(|name| ("formula", name.to_owned())));
    lines.push(("rule", plain(&step.expression)));
    let worked = in_place(step, formula, units, needed);
    lines.extend(worked.as_ref().map(|worked| ("numbers", plain(&worked.numbers))));
    lines.push(("source", step.source.to_string()));
    let told = worked.map(|worked| worked.told).unwrap_or_default();
    lines.extend(step.inputs.iter().enumerate().map(|(index, input)| {
        let under_symbol = told.get(index).cloned().flatten();
        let text = || level_text(input, units).unwrap_or_else(|| needed.text(input.amount, units));
        let value = || format!("{} = {}", input.name, text());
        let told = plain(&under_symbol.unwrap_or_else(value));
        ("with", format!("{told}, {}", from_text(&input.from)))
    }));
    let title = format!("{} = {}", plain(&step.computes), needed.text(step.result, units));
    OpenedStep { title, lines }
}

pub(crate) fn from_text(from: &InputFrom) -> String {
    match from {
        InputFrom::File { origin, source: None } => plain(&origin.to_string()),
        InputFrom::File { origin, source: Some(source) } => plain(&format!("{origin}; {source}")),
        InputFrom::Step(step) => format!("step {}", step + 1),
        InputFrom::Constant(source) => format!("constant, {source}"),
        InputFrom::Computed(what) => format!("computed: {}", plain(what)),
        InputFrom::Entries(entries) => entries_text(entries),
        InputFrom::Beside(how) => format!("found with the rest of this step: {how}"),
    }
}

/// Entries of a book in words, such as `entries 3, 5 to 9`.
#[must_use]
pub fn entries_text(entries: &[EntryRange]) -> String {
    let range = |one: &EntryRange| match one.first == one.last {
        true => one.first.to_string(),
        false => format!("{} to {}", one.first, one.last),
    };
    let ranges: Vec<String> = entries.iter().map(range).collect();
    match entries {
        [] => "no entry".to_owned(),
        [one] if one.first == one.last => format!("entry {}", one.first),
        _ => format!("entries {}", ranges.join(", ")),
    }
}

/// A figure that is of no report, from its value down to the files as it opens. For
/// `formulas` see [`explain`].
pub(crate) fn explain_apart(
    figure: &FigureBasis,
    opening: &Opening,
    formulas: &[&Formula],
    units: UnitSystem,
    width: usize,
) -> String {
    let (own, further) = down_text(&opened_apart(opening, formulas, units), width);
    hanging(&figure_title(figure, units), width, "") + &own + &further
}

/// A figure by itself, from its value down to what it was counted or read from, for a
/// person at a terminal of `width` columns. For `formulas` see [`explain`].
#[must_use]
pub fn explain_basis(
    figure: &FigureBasis,
    formulas: &[&Formula],
    units: UnitSystem,
    width: usize,
) -> String {
    explain_apart(figure, &alone(figure), formulas, units, width)
}
