//! Mistakes: their wording, their places, and how they are shown.

pub(crate) mod catalogue;
pub(crate) mod diagnostic;
pub(crate) mod lines;
pub(crate) mod mistake;
pub(crate) mod nearest;
pub(crate) mod page;
pub(crate) mod render;
mod spans;
