//! MEASURE: from soundings to strength by station, and what a wheel asks of it.
//!
//! Soundings → strata → strength by station along each lane; aeroplane → leg
//! loads, equivalent wheels, coverages → bearing ratio needed by depth; both →
//! a demand at every point, the largest load, the largest pressure, the gravel
//! that would mend a place.

mod along;
mod change_points;
mod characteristic;
mod classification_number;
mod coverages;
mod equivalent_wheel;
mod error;
mod flexible;
mod formulas;
mod gravel;
mod half_space;
mod judge;
mod largest;
mod leg_geometry;
pub mod penetrometer;
mod penetrometer_rivals;
mod requirement;
mod strata;
mod tyre;
mod tyre_chart;
mod unsurfaced;
mod wheel_load;

pub use along::*;
pub use characteristic::*;
pub use classification_number::*;
pub use coverages::*;
pub use equivalent_wheel::*;
pub use error::Error;
pub use flexible::*;
pub use formulas::FORMULAS;
pub use gravel::*;
pub use judge::*;
pub use largest::*;
pub use leg_geometry::LegGeometry;
pub use penetrometer_rivals::*;
pub use requirement::*;
pub use strata::*;
pub use tyre::*;
pub use tyre_chart::*;
pub use unsurfaced::*;
pub use wheel_load::*;
