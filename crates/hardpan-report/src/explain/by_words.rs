//! Figures picked by words of their names, each with the steps behind it.

use super::{figure_title, opened_basis, step_text};
use crate::text::{Paint, TextStyle};
use crate::wrap::hanging;
use hardpan_assess::{CAUTION, FigureBasis, formulas};
use hardpan_quantity::UnitSystem;

/// The figures whose names have some words in them, each down to what it came from; every
/// figure without words. None where no name has them.
pub(crate) fn by_words(
    figures: &[FigureBasis],
    words: &str,
    (units, style): (UnitSystem, TextStyle),
) -> Option<String> {
    let paint = Paint::new(style);
    let wanted = words.to_lowercase();
    let mut out = String::new();
    for figure in figures {
        let title = figure_title(figure, units);
        if !title.to_lowercase().contains(&wanted) {
            continue;
        }
        out.push_str(&hanging(&title, paint.width(), ""));
        for (number, step) in opened_basis(figure, &formulas(), units).iter().enumerate() {
            out.push_str(&step_text(number, step, paint.width()));
        }
        out.push('\n');
    }
    (!out.is_empty()).then(|| out + &hanging(CAUTION, paint.width(), ""))
}
