//! What may be changed of a flight, and what changes cost.

use crate::Given;
use hardpan_quantity::{Length, Mass, Ratio};

/// What the operator allows to be changed beside what the other files allow.
/// Anything may be missing: what is not stated is not proposed.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Options {
    /// Fuel aboard at the landing as planned.
    pub landing_fuel: Option<Given<Mass>>,
    /// Least fuel that must be aboard at the landing.
    pub least_landing_fuel: Option<Given<Mass>>,
    /// Fuel aboard at the take-off as planned.
    pub take_off_fuel: Option<Given<Mass>>,
    /// Least fuel that must be aboard at the take-off.
    pub least_take_off_fuel: Option<Given<Mass>>,
    /// Another setting of the bleeds for the take-off.
    pub bleeds: Option<OtherBleeds>,
    /// How far the threshold of the landing may be laid up the strip.
    pub displaced_up_to: Option<Given<Length>>,
    /// What changes cost.
    pub costs: Costs,
}

/// Another setting of the bleeds.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherBleeds {
    /// Its name, by which charts are chosen.
    pub name: Given<String>,
    /// Share of thrust that it takes.
    pub loss: Given<Ratio>,
}

/// What changes cost, in one unit of money. Anything may be missing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Costs {
    /// The unit of money, as the user names it.
    pub unit: Option<Given<String>>,
    /// A tonne of load left behind.
    pub load_tonne: Option<Given<f64>>,
    /// An hour of waiting, or of going earlier.
    pub hour: Option<Given<f64>>,
    /// A cubic metre of gravel, laid and compacted.
    pub gravel_cubic_metre: Option<Given<f64>>,
    /// A cubic metre of ground, cut or filled.
    pub earth_cubic_metre: Option<Given<f64>>,
    /// A metre of ruts, filled and rolled.
    pub rolling_metre: Option<Given<f64>>,
    /// A metre of the strip, drained.
    pub draining_metre: Option<Given<f64>>,
    /// A square metre, cleared of loose stones.
    pub clearing_square_metre: Option<Given<f64>>,
}
