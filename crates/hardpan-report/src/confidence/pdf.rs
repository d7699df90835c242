//! How sure an answer is, as pages to print.

use super::{ADVICE, AS_IT_IS, ConfidenceReport, part_text, stretch};
use crate::report::verdict_symbol;
use crate::typeset::{TypesetError, TypesetWorld, compile, pdf, printable};
use hardpan_assess::CAUTION;
use hardpan_quantity::Quantity;
use serde::Serialize;

const TEMPLATE: &str = include_str!("../../assets/confidence.typ");

/// Everything on the page, as strings; shares for the bars as numbers.
#[derive(Debug, Serialize)]
struct PageData {
    title: String,
    subtitle: String,
    verdict: String,
    sentence: String,
    drawn: String,
    caution: String,
    as_it_is: String,
    produced: String,
    missing: Vec<(String, String)>,
    limits: Vec<LimitData>,
    never: String,
    advice: &'static str,
    without: Vec<(String, &'static str)>,
    held_heading: String,
    masses: Vec<Vec<String>>,
    meant: String,
    movements: Vec<String>,
    inputs: Vec<InputData>,
    inputs_left: usize,
    help: Vec<String>,
}

#[derive(Debug, Serialize)]
struct LimitData {
    code: String,
    title: String,
    exceeded: String,
    at_most: String,
}

#[derive(Debug, Serialize)]
struct InputData {
    name: String,
    place: String,
    deviation: String,
    source: String,
    shares: Vec<(f64, String)>,
}

/// What the draws say as a tagged PDF of as many A4 pages as it takes. The same
/// report gives the same bytes.
///
/// # Errors
/// [`TypesetError`] when it cannot be typeset or written.
pub fn confidence_pdf(report: &ConfidenceReport) -> Result<Vec<u8>, TypesetError> {
    let world = TypesetWorld::new(TEMPLATE, &data(report), [])?;
    pdf(&compile(&world)?, &report.produced.by)
}

fn data(report: &ConfidenceReport) -> PageData {
    let produced = &report.produced;
    let verdict = report.verdict();
    let (inputs, inputs_left) = report.inputs();
    PageData {
        title: printable(&report.title()),
        subtitle: printable(&report.subtitle()),
        verdict: printable(&format!(
            "{} {}",
            verdict_symbol(verdict),
            verdict.word().to_uppercase()
        )),
        sentence: printable(&report.sentence()),
        drawn: printable(&report.drawn()),
        caution: CAUTION.to_owned(),
        as_it_is: AS_IT_IS.to_owned(),
        produced: printable(&format!(
            "{} · {} · {}",
            produced.by, produced.at, produced.identifier
        )),
        missing: report
            .missing()
            .into_iter()
            .map(|(what, how)| (printable(&what), printable(&how)))
            .collect(),
        limits: report
            .limits()
            .into_iter()
            .map(|row| LimitData {
                code: row.code.to_owned(),
                title: printable(&row.title),
                exceeded: printable(&row.exceeded),
                at_most: printable(&row.at_most),
            })
            .collect(),
        never: printable(&report.never().unwrap_or_default()),
        advice: ADVICE,
        without: report
            .without()
            .into_iter()
            .map(|(rules, because)| (printable(&rules), because))
            .collect(),
        held_heading: printable(&report.held_heading()),
        masses: report
            .mass_rows()
            .into_iter()
            .map(|row| row.iter().map(|cell| printable(cell)).collect())
            .collect(),
        meant: printable(&report.meant().join(" ")),
        movements: report.found.masses.iter().map(|one| one.moving.word().to_owned()).collect(),
        inputs: inputs.into_iter().map(|input| input_data(report, input)).collect(),
        inputs_left,
        help: report.help().iter().map(|line| printable(line)).collect(),
    }
}

fn input_data(report: &ConfidenceReport, input: &hardpan_assess::InputShare) -> InputData {
    InputData {
        name: printable(&report.told(&input.name)),
        place: printable(&stretch(input, report.units)),
        deviation: printable(&report.deviation(input)),
        source: printable(&input.source),
        shares: input
            .shares
            .iter()
            .map(|(_, share)| match share {
                Some(share) => (share.si(), printable(&part_text(*share))),
                None => (0.0, "–".to_owned()),
            })
            .collect(),
    }
}
