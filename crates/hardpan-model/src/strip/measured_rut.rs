//! Ruts as somebody measured them, with the traffic that made them.

use crate::{Given, Lane};
use hardpan_quantity::{Length, Mass, Pressure};
use jiff::civil::Date;

/// One rut at one place.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredRut {
    /// Place along the strip.
    pub station: Given<Length>,
    /// Lane in which it lies.
    pub lane: Lane,
    /// Day on which it was measured.
    pub date: Option<Given<Date>>,
    /// Depth under a straightedge across it.
    pub depth: Given<Length>,
    /// Passes since the place was last made level.
    pub passes: Given<f64>,
    /// Mass of the aeroplane that made them.
    pub mass: Given<Mass>,
    /// Its main tyre pressure.
    pub pressure: Given<Pressure>,
}
