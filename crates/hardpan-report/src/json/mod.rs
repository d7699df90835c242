//! The assessment for a program: versioned, in SI units, with its schema.

mod aeroplane;
mod blocks;
mod document;
mod finding;
mod quantity;
mod ranking;
mod sketch;
mod stones;
mod turning;

pub(crate) use document::{ProducedJson, VerdictJson};
pub(crate) use finding::{FigureJson, FindingJson, StepJson};
pub(crate) use quantity::{Quantity, finite};

pub use aeroplane::{AEROPLANE_FORMAT, AEROPLANE_VERSION, aeroplane_json, aeroplane_schema};
pub use finding::figure_json;
pub use ranking::{COMPARISON_FORMAT, COMPARISON_VERSION, comparison_json, comparison_schema};

use crate::Report;
use document::Document;

/// Name of the format, as it stands in `format`.
pub const FORMAT: &str = "hardpan-assessment";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const VERSION: u32 = 1;

/// The assessment behind a report, whatever the report's units.
#[must_use]
pub fn json(report: &Report) -> serde_json::Value {
    serde_json::to_value(Document::new(report))
        .expect("the document is made of structs, strings and numbers, which always serialise")
}

/// The same as the text of a file: the format and its version first, a line
/// feed at the end.
#[must_use]
pub fn json_text(report: &Report) -> String {
    let text = serde_json::to_string_pretty(&Document::new(report))
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// The JSON schema of [`json`].
#[must_use]
pub fn schema() -> serde_json::Value {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    settings.into_generator().into_root_schema_for::<Document>().to_value()
}

/// The schema as the text of a file, with a line feed at its end.
#[must_use]
pub fn schema_text() -> String {
    format!("{:#}\n", schema())
}
