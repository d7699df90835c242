//! TOML files: form, tables, and values by kind.

pub(crate) mod cursor;
pub(crate) mod moments;
pub(crate) mod plausible;
pub(crate) mod toml_text;
mod unit_advice;
mod values;
