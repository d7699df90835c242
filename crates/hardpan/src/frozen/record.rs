//! An assessment as a book keeps it.

use super::{Frozen, Inputs, digests, versions};
use crate::failure::Failure;
use hardpan_assess::Assessment;
use hardpan_book::{AssessmentRecord, Record};
use hardpan_quantity::UnitSystem;
use hardpan_report::{Produced, Report, json_text};
use jiff::Timestamp;

/// The record of an assessment, and the versions that it was made from.
pub(crate) fn frozen(
    assessment: &Assessment,
    produced: Produced,
    inputs: &Inputs,
    at: Timestamp,
) -> Result<(Record, Vec<Record>), Failure> {
    let report = Report::new(assessment, UnitSystem::Metric, produced.clone());
    let versions = versions(&Frozen::new(&inputs.files), &inputs.flight, None)?;
    let inputs = serde_json::to_string(inputs)
        .map_err(|error| Failure::Book { what: format!("the files cannot be kept: {error}") })?;
    let record = Record::Assessment(AssessmentRecord {
        flight: assessment.identity.flight.clone(),
        strip: assessment.identity.strip.clone(),
        tail: assessment.identity.aeroplane.clone(),
        at,
        verdict: assessment.answer.verdict,
        identifier: produced.identifier,
        json: json_text(&report),
        program: produced.by,
        inputs: Some(inputs),
        versions: Some(digests(&versions)),
    });
    Ok((record, versions))
}
