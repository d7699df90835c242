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
use serde_json::Value;
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

/// Every text of the card as it is handed to the typesetter, figures with their units,
/// and the whole of each list: for whoever holds the card against what it opens to.
#[must_use]
pub fn card_texts(report: &Report) -> Vec<String> {
    let mut texts = Vec::new();
    let front = CardData::front(report, LEVELS[0]);
    let points = OVERLEAF[0];
    let uncut = [lists::conditions(report), lists::missing(report)].concat();
    texts.extend(uncut.into_iter().map(|(_, text)| text));
    let data = serde_json::to_value(front.with_overleaf(report, points));
    gather(&data.unwrap_or_default(), &mut texts);
    texts
}

/// The texts of a value; a number and its unit, set apart, as one.
fn gather(value: &Value, texts: &mut Vec<String>) {
    match value {
        Value::String(text) => texts.push(text.clone()),
        Value::Array(all) => all.iter().for_each(|one| gather(one, texts)),
        Value::Object(all) => {
            let part = |name: &str| all.get(name).and_then(Value::as_str);
            match (part("number"), part("unit")) {
                (Some(number), Some(unit)) => texts.push(format!("{number} {unit}")),
                _ => all.values().for_each(|one| gather(one, texts)),
            }
        }
        _ => {}
    }
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
