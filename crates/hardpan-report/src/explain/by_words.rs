//! Figures picked by words of their names, each with the steps behind it.

use super::{OpenedStep, step_text};
use crate::text::{Paint, TextStyle};
use crate::wrap::hanging;
use hardpan_assess::CAUTION;

/// The figures whose names have some words in them, each down to what it came from; every
/// figure without words. None where no name has them.
pub(crate) fn by_words(
    figures: Vec<(String, Vec<OpenedStep>)>,
    words: &str,
    style: TextStyle,
) -> Option<String> {
    let paint = Paint::new(style);
    let wanted = words.to_lowercase();
    let mut out = String::new();
    let meant = figures.into_iter();
    for (title, steps) in meant.filter(|(title, _)| title.to_lowercase().contains(&wanted)) {
        out.push_str(&hanging(&title, paint.width(), ""));
        for (number, step) in steps.iter().enumerate() {
            out.push_str(&step_text(number, step, paint.width()));
        }
        out.push('\n');
    }
    (!out.is_empty()).then(|| out + &hanging(CAUTION, paint.width(), ""))
}
