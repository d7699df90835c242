//! Everything that the report writes, from invented assessments.

mod blocks;
mod card;
mod dossier;
mod figure;
mod json;
mod lesson;
mod sample;
mod text;
