//! Single positions of a satellite receiver, walked along the strip in lines or
//! taken in cross-sections.

mod scatter;
mod walked_lines;

pub use scatter::LEAST_NOISE_M;
pub use walked_lines::{PlacedPoint, WalkedLines, walked_lines};
