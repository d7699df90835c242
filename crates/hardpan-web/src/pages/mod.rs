//! Pages besides the sheet.

pub(crate) mod book;
pub(crate) mod compare;
pub(crate) mod masses;
pub(crate) mod start;
pub(crate) mod strip;
