//! MEASURE: from soundings to strength by station, and what a wheel asks of it.
//!
//! Soundings → strata → strength by station along each lane; aeroplane → leg
//! loads, equivalent wheels, coverages → bearing ratio needed by depth; both →
//! a demand at every point, the largest load, the largest pressure, the gravel
//! that would mend a place. Beside it: ruts, classification numbers, layered
//! elastic ground, frost depth and sheet flow. Every law is in [`FORMULAS`].

mod demand;
mod elastic;
mod error;
mod formulas;
mod pavement;
mod rut;
mod sounding;
mod weather;
mod wheel;

pub use demand::*;
pub use elastic::*;
pub use error::Error;
pub use formulas::FORMULAS;
pub use pavement::*;
pub use rut::*;
pub use sounding::*;
pub use weather::*;
pub use wheel::*;
