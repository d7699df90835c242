//! Thrust of the engines and propellers.

pub(crate) mod cycle_fit;
pub(crate) mod pressure_ratio;
pub(crate) mod propeller;
pub(crate) mod schedule;
pub(crate) mod thrust;
pub(crate) mod turbofan;
