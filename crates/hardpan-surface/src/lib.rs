//! MEASURE: what a levelled survey says of a strip, by station: bumps and ruts
//! under chords and straightedges, gradients, slopes, crossfall, and how much
//! of it survey noise and gaps leave unproven.

mod annex;
mod centre;
mod chord;
mod crossfall;
mod design_grade;
mod error;
mod event;
mod measure;
mod noise;
mod profile;
mod report;
mod rules;
mod slope;
mod straightedge;
mod window_hull;

pub use annex::{Cited, CodeLetter, CodeNumber};
pub use centre::centre_profile;
pub use chord::{EventKind, greatest_deviation, mid_chord_offsets};
pub use crossfall::{CrossSection, Crossfall, crossfalls};
pub use design_grade::{design_grade, without_design_grade};
pub use error::Error;
pub use event::{Edge, Event, events};
pub use measure::measure;
pub use noise::{NoiseFloor, noise_floor};
pub use profile::{Profile, Resampled, Stretch, natural_spacing, resample};
pub use report::{EdgeLine, EdgeReport, Grade, LineSlopes, SurfaceReport};
pub use rules::{EdgeRule, EvennessRules, IrregularityGrade, irregularity_grade};
pub use slope::{Gradient, SlopeAt, elevation_at, gradient, local_slopes, slope_changes};
pub use straightedge::greatest_gap;
