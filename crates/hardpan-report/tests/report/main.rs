//! Everything that the report writes, from invented assessments.

mod card;
mod figure;
mod json;
mod sample;
mod text;
