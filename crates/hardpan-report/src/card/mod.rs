//! The crew card: one A4 page, typeset.
//!
//! The template is an asset; what people wrote reaches it as data in a JSON
//! file of its own little world, never as markup, so no text can be run. The
//! same report gives the same bytes.

mod blocks;
mod data;
mod density;
mod places;
mod world;

use crate::{Report, strip_sketch};
use data::CardData;
use density::LEVELS;
use typst::diag::SourceDiagnostic;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};
use world::CardWorld;

/// Why there is no card.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum CardError {
    /// The typesetter refused the card.
    #[error("the card could not be typeset: {reasons}")]
    Typeset {
        /// What it said.
        reasons: String,
    },
    /// The PDF could not be written.
    #[error("the PDF of the card could not be written: {reasons}")]
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

/// The crew card as a tagged PDF of exactly one A4 page. Long lists are cut,
/// and say how much they leave out.
///
/// # Errors
/// [`CardError`] when the page cannot be typeset or written.
pub fn card_pdf(report: &Report) -> Result<Vec<u8>, CardError> {
    let document = typeset(report)?;
    let standards = PdfStandards::new(&[PdfStandard::Ua_1])
        .map_err(|why| CardError::Export { reasons: why.message().to_string() })?;
    let options = PdfOptions {
        creator: typst::foundations::Smart::Custom(Some(report.produced.by.clone())),
        standards,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&document, &options)
        .map_err(|reasons| CardError::Export { reasons: joined(&reasons) })
}

/// How many pages the card takes: 1, or an error.
///
/// # Errors
/// [`CardError`] when the page cannot be typeset.
pub fn card_page_count(report: &Report) -> Result<usize, CardError> {
    typeset(report).map(|document| document.pages().len())
}

/// The card at the most generous level at which it takes one page.
fn typeset(report: &Report) -> Result<PagedDocument, CardError> {
    let sketch = strip_sketch(report);
    let mut pages = 0;
    for density in LEVELS {
        let data = CardData::new(report, density);
        let document = compile(&CardWorld::new(&data, &sketch)?)?;
        pages = document.pages().len();
        if pages == 1 {
            return Ok(document);
        }
    }
    Err(CardError::TooLong { pages })
}

fn compile(world: &CardWorld) -> Result<PagedDocument, CardError> {
    let outcome = typst::compile::<PagedDocument>(world).output;
    typst::comemo::evict(8);
    outcome.map_err(|reasons| CardError::Typeset { reasons: joined(&reasons) })
}

fn joined(reasons: &[SourceDiagnostic]) -> String {
    let messages: Vec<&str> = reasons.iter().map(|reason| reason.message.as_str()).collect();
    messages.join("; ")
}
