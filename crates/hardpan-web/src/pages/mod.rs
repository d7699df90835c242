//! Pages besides the sheet.

pub(crate) mod start;
pub(crate) mod strip;
