//! The crew card: one A4 page, typeset.
//!
//! The template is an asset; what people wrote reaches it as data in a JSON
//! file of its own little world, never as markup, so no text can be run. The
//! same report gives the same bytes.

mod blocks;
mod data;
mod density;
mod places;

use crate::typeset::{TypesetError, TypesetWorld, compile, pdf};
use crate::{Report, strip_sketch};
use data::CardData;
use density::LEVELS;
use typst_layout::PagedDocument;

const TEMPLATE: &str = include_str!("../../assets/card.typ");

/// The crew card as a tagged PDF of exactly one A4 page. Long lists are cut,
/// and say how much they leave out.
///
/// # Errors
/// [`TypesetError`] when the page cannot be typeset or written.
pub fn card_pdf(report: &Report) -> Result<Vec<u8>, TypesetError> {
    pdf(&typeset(report)?, &report.produced.by)
}

/// How many pages the card takes: 1, or an error.
///
/// # Errors
/// [`TypesetError`] when the page cannot be typeset.
pub fn card_page_count(report: &Report) -> Result<usize, TypesetError> {
    typeset(report).map(|document| document.pages().len())
}

/// The card at the most generous level at which it takes one page.
fn typeset(report: &Report) -> Result<PagedDocument, TypesetError> {
    let sketch = strip_sketch(report);
    let mut pages = 0;
    for density in LEVELS {
        let data = CardData::new(report, density);
        let pictures = [("strip.svg".to_owned(), sketch.clone())];
        let document = compile(&TypesetWorld::new(TEMPLATE, &data, pictures)?)?;
        pages = document.pages().len();
        if pages == 1 {
            return Ok(document);
        }
    }
    Err(TypesetError::TooLong { pages })
}
