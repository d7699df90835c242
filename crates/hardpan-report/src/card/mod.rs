//! The crew card: one A4 sheet, typeset: the answer on the front, how to fly by
//! it overleaf.
//!
//! The template is an asset; what people wrote reaches it as data in a JSON
//! file of its own little world, never as markup, so no text can be run. The
//! same report gives the same bytes.

mod blocks;
mod data;
mod density;
mod lists;
mod overleaf;
mod places;

use crate::typeset::{TypesetError, TypesetWorld, compile, pdf};
use crate::{Report, strip_sketch};
use data::CardData;
use density::{Density, LEVELS, OVERLEAF};
use typst_layout::PagedDocument;

const TEMPLATE: &str = include_str!("../../assets/card.typ");

/// The crew card as a tagged PDF: an A4 front, and overleaf limits and handling
/// by phase in full. Lists that the front cannot hold say how much they leave
/// out and stand overleaf whole; overleaf nothing is cut, and it takes one page
/// unless there is too much for one.
///
/// # Errors
/// [`TypesetError`] when the card cannot be typeset or written.
pub fn card_pdf(report: &Report) -> Result<Vec<u8>, TypesetError> {
    pdf(&typeset(report)?, &report.produced.by)
}

/// How many pages the card takes: the front and at least one overleaf.
///
/// # Errors
/// [`TypesetError`] when the card cannot be typeset.
pub fn card_page_count(report: &Report) -> Result<usize, TypesetError> {
    typeset(report).map(|document| document.pages().len())
}

/// The card with its front at the most generous level at which it takes one
/// page, and the largest type overleaf at which that takes one page too.
fn typeset(report: &Report) -> Result<PagedDocument, TypesetError> {
    let sketch = strip_sketch(report);
    let print = |data: &CardData| {
        let pictures = [("strip.svg".to_owned(), sketch.clone())];
        compile(&TypesetWorld::new(TEMPLATE, data, pictures)?)
    };
    let density = front_level(report, print)?;
    let mut kept: Option<PagedDocument> = None;
    for points in OVERLEAF {
        let both = print(&CardData::front(report, density).with_overleaf(report, points))?;
        let pages = both.pages().len();
        if kept.as_ref().is_none_or(|kept| pages < kept.pages().len()) {
            kept = Some(both);
        }
        if pages == 2 || pages > WORTH_A_SMALLER_TYPE {
            break;
        }
    }
    kept.ok_or(TypesetError::TooLong { pages: 0 })
}

/// Pages beyond which smaller type overleaf is not tried.
const WORTH_A_SMALLER_TYPE: usize = 3;

fn front_level(
    report: &Report,
    print: impl Fn(&CardData) -> Result<PagedDocument, TypesetError>,
) -> Result<Density, TypesetError> {
    let mut pages = 0;
    for density in LEVELS {
        pages = print(&CardData::front(report, density))?.pages().len();
        if pages == 1 {
            return Ok(density);
        }
    }
    Err(TypesetError::TooLong { pages })
}
