//! The weeks in which a strip carries a mass, as people and programs read them.

mod json;
mod text;

pub use json::{WEEKS_FORMAT, WEEKS_VERSION, weeks_json, weeks_schema};
pub use text::weeks_text;

/// The answer of a week in words.
pub(crate) fn answer_word(carried: Option<bool>) -> &'static str {
    match carried {
        Some(true) => "carried",
        Some(false) => "not carried",
        None => "not known",
    }
}
