//! Typed quantities, and the text people write them as.
//!
//! Every number that crosses a crate boundary is one of these types: the
//! dimensions come from `uom`, the unit table is our own and exact. Kernels
//! take the SI value with [`Quantity::si`] on their first line and give a
//! typed result back on their last.

mod amount;
mod counted;
mod dimension;
mod kinds;
mod make;
mod parse;
mod show;
mod told;
mod unit;

pub use amount::Amount;
pub use counted::counted;
pub use dimension::Dimension;
pub use kinds::{
    Acceleration, Angle, Area, BearingRatio, Density, Energy, Force, Length, Mass, MassFlow,
    PenetrationRate, Power, Pressure, Quantity, Ratio, Speed, Temperature, Time, Torque, Volume,
};
pub use make::{
    bearing_percent, celsius, degrees, feet, hectopascals, inches, kelvins, kilograms,
    kilometres_per_hour, kilonewtons, kilopascals, knots, megajoules, megapascals, metres,
    metres_per_second, millimetres, millimetres_per_blow, newtons, pascals, percent, pounds, psi,
    ratio, seconds, square_metres, tonnes,
};
pub use parse::{ParseError, parse, parse_amount};
pub use show::UnitSystem;
pub use told::tell;
pub use unit::{Unit, WITH_UNITS, units_of};

/// Standard acceleration of free fall, 9.80665 m/s² exactly.
///
/// Source: [ISO-2533] table of primary constants.
pub const STANDARD_GRAVITY_M_PER_S2: f64 = 9.806_65;
