//! Typesetting: a template that ships with the program, data as JSON, pictures
//! as SVG; the same input gives the same bytes.

mod world;

pub use world::typefaces;
pub(crate) use world::{TypesetWorld, is_printable};

use typst::diag::SourceDiagnostic;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// Why there is no PDF.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TypesetError {
    /// The typesetter refused.
    #[error("the document could not be typeset: {reasons}")]
    Typeset {
        /// What it said.
        reasons: String,
    },
    /// The PDF could not be written.
    #[error("the PDF could not be written: {reasons}")]
    Export {
        /// What the writer said.
        reasons: String,
    },
    /// Even the shortest card takes more than its page.
    #[error("the card takes {pages} pages at its shortest; it must take 1")]
    TooLong {
        /// Pages taken.
        pages: usize,
    },
}

/// Pages of a world.
pub(crate) fn compile(world: &TypesetWorld) -> Result<PagedDocument, TypesetError> {
    let outcome = typst::compile::<PagedDocument>(world).output;
    typst::comemo::evict(8);
    outcome.map_err(|reasons| TypesetError::Typeset { reasons: joined(&reasons) })
}

/// A tagged PDF of the pages.
pub(crate) fn pdf(document: &PagedDocument, creator: &str) -> Result<Vec<u8>, TypesetError> {
    let standards = PdfStandards::new(&[PdfStandard::Ua_1])
        .map_err(|why| TypesetError::Export { reasons: why.message().to_string() })?;
    let options = PdfOptions {
        creator: typst::foundations::Smart::Custom(Some(creator.into())),
        standards,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(document, &options)
        .map_err(|reasons| TypesetError::Export { reasons: joined(&reasons) })
}

fn joined(reasons: &[SourceDiagnostic]) -> String {
    let messages: Vec<&str> = reasons.iter().map(|reason| reason.message.as_str()).collect();
    messages.join("; ")
}

/// Longest run of characters without a place to break.
const LONGEST_WORD: usize = 18;

/// The text with places to break in long words, a box for every sign that the
/// type does not have, and every number held to the unit after it.
pub(crate) fn printable(text: &str) -> String {
    let mut out = String::new();
    let mut unbroken = 0;
    for c in glued(text).chars() {
        unbroken = if matches!(c, ' ' | '\u{a0}') { 0 } else { unbroken + 1 };
        if unbroken > LONGEST_WORD {
            out.push('\u{200b}');
            unbroken = 1;
        }
        out.push(if is_printable(c) { c } else { '□' });
    }
    out
}

const UNITS: [&str; 28] = [
    "%", "kt", "kg", "lb", "t", "m", "ft", "mm", "in", "km", "kPa", "psi", "MPa", "hPa", "inHg",
    "°C", "°F", "kN", "lbf", "min", "m2", "ft2", "m3", "ft3", "m/km", "in/mi", "m²", "m³",
];

/// The text with every number held to the unit after it by a no-break space.
#[must_use]
pub fn glued(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for word in text.split(' ') {
        let unit = word.trim_end_matches(['.', ',', ';', ':', ')']);
        if !out.is_empty() {
            let held = UNITS.contains(&unit) && out.ends_with(|c: char| c.is_ascii_digit());
            out.push(if held { '\u{a0}' } else { ' ' });
        }
        out.push_str(word);
    }
    out
}
