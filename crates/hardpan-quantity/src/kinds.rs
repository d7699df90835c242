//! The quantity types and the trait that joins them to their SI value.

use crate::Dimension;
use uom::si::{
    acceleration::meter_per_second_squared, angle::radian, area::square_meter, energy::joule,
    force::newton, length::meter, mass::kilogram, mass_density::kilogram_per_cubic_meter,
    mass_rate::kilogram_per_second, power::watt, pressure::pascal, ratio::ratio,
    thermodynamic_temperature::kelvin, time::second, torque::newton_meter,
    velocity::meter_per_second, volume::cubic_meter,
};

pub use uom::si::f64::{
    Acceleration, Angle, Area, Energy, Force, Length, Mass, MassDensity as Density,
    MassRate as MassFlow, Power, Pressure, Ratio, ThermodynamicTemperature as Temperature, Time,
    Torque, Velocity as Speed, Volume,
};

/// A typed quantity with a known SI unit.
pub trait Quantity: Copy + Sized {
    /// What it measures.
    const DIMENSION: Dimension;
    /// The quantity from its value in the SI unit of [`Self::DIMENSION`].
    fn from_si(value: f64) -> Self;
    /// The value in the SI unit of [`Self::DIMENSION`].
    fn si(self) -> f64;
}

macro_rules! quantity {
    ($($type:ident, $dimension:ident, $unit:ident;)+) => {$(
        impl Quantity for $type {
            const DIMENSION: Dimension = Dimension::$dimension;
            fn from_si(value: f64) -> Self {
                $type::new::<$unit>(value)
            }
            fn si(self) -> f64 {
                self.get::<$unit>()
            }
        }
    )+};
}

quantity! {
    Acceleration, Acceleration, meter_per_second_squared;
    Angle, Angle, radian;
    Area, Area, square_meter;
    Density, Density, kilogram_per_cubic_meter;
    Energy, Energy, joule;
    Force, Force, newton;
    Length, Length, meter;
    Mass, Mass, kilogram;
    MassFlow, MassFlow, kilogram_per_second;
    Power, Power, watt;
    Pressure, Pressure, pascal;
    Ratio, Ratio, ratio;
    Speed, Speed, meter_per_second;
    Temperature, Temperature, kelvin;
    Time, Time, second;
    Torque, Torque, newton_meter;
    Volume, Volume, cubic_meter;
}

/// California bearing ratio: resistance of the ground to a standard plunger as
/// a share of that of crushed stone, in per cent.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct BearingRatio(f64);

impl BearingRatio {
    /// The value in per cent.
    #[must_use]
    pub fn percent(self) -> f64 {
        self.0
    }
}

impl Quantity for BearingRatio {
    const DIMENSION: Dimension = Dimension::BearingRatio;
    fn from_si(value: f64) -> Self {
        Self(value)
    }
    fn si(self) -> f64 {
        self.0
    }
}

/// Penetration of a dynamic cone for one blow of the 8 kg hammer, metres per blow.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct PenetrationRate(f64);

impl PenetrationRate {
    /// The value in millimetres per blow.
    #[must_use]
    pub fn millimetres_per_blow(self) -> f64 {
        self.0 * 1e3
    }
}

impl Quantity for PenetrationRate {
    const DIMENSION: Dimension = Dimension::PenetrationRate;
    fn from_si(value: f64) -> Self {
        Self(value)
    }
    fn si(self) -> f64 {
        self.0
    }
}
