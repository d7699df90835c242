//! `cargo dev`: what keeps the project honest about itself.
//!
//! - [`check`]: the direction of imports, sizes, sources, forbidden words, the
//!   doors to the outside, and whether the generated pages are up to date;
//! - [`generate`]: the pages and lists that are made from code and data;
//! - [`cases`]: the published values that the formulas must reproduce.
//!
//! Never shipped: it may read files and start `cargo`, `git` and `rustfmt`.

pub mod cases;
pub mod check;
pub mod generate;
mod problem;
mod sources;
mod workspace;

pub use problem::Problem;
pub use sources::{SourceEntry, SourceList};
pub use workspace::Workspace;
