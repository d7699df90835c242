//! MEASURE: what a levelled survey says of a strip, by station: bumps, ruts,
//! gradients, crossfall, and how much survey noise and gaps leave unproven.

mod annex;
mod catalogue;
mod centre;
mod chord;
mod corrugation;
mod crossfall;
mod design_grade;
mod detail;
mod error;
mod event;
mod measure;
mod noise;
mod pond;
mod profile;
mod repair;
mod report;
mod ride;
mod roughness_index;
mod rules;
mod single_event;
mod slope;
mod spectrum;
mod straightedge;
mod vertical;

pub use annex::{Cited, CodeLetter, CodeNumber};
pub use catalogue::FORMULAS;
pub use centre::{CENTRE_WINDOW_M, centre_lines_of, centre_profile};
pub use chord::{EventKind, greatest_deviation, mid_chord_offsets};
pub use corrugation::{Corrugation, CorrugationRules, CorrugationSeverity, corrugations};
pub use crossfall::graded::{GradedSide, SlopeAcross, graded_sides};
pub use crossfall::{CrossSection, Crossfall, crossfalls};
pub use design_grade::{design_grade, without_design_grade};
pub use detail::{DetailRules, LineClass, LineDetail, SurfaceDetail, detail};
pub use error::Error;
pub use event::{Edge, Event, events};
pub use measure::measure;
pub use noise::{NoiseFloor, noise_floor};
pub use pond::{Pond, WaterDepths, ponds, water_depths};
pub use profile::{Profile, Resampled, Stretch, natural_spacing, resample};
pub use repair::{Repair, RepairAction, repairs, volumes};
pub use report::{EdgeLine, EdgeReport, Grade, LineSlopes, SurfaceReport};
pub use ride::strut::{Oleo, Support};
pub use ride::{
    Course, Extremes, Lanes, Motion, Pace, Ride, RigidAeroplane, cockpit_limit, ride,
    ride_by_speed, ride_courses, ride_grounds, ride_lanes,
};
pub use roughness_index::{RoughnessIndex, line_index, profile_index};
pub use rules::{EdgeRule, EvennessRules, IrregularityGrade, irregularity_grade};
pub use single_event::{SingleEvent, SingleEvents, single_events};
pub use slope::{Gradient, SlopeAt, elevation_at, gradient, local_slopes, slope_changes};
pub use spectrum::{
    RoughnessClass, SpectralLine, SpectrumFit, fit_spectrum, made_profile, noise_profile, spectrum,
};
pub use straightedge::greatest_gap;
pub use vertical::sight::sight_clearance;
pub use vertical::{VerticalCurve, vertical_curves};
