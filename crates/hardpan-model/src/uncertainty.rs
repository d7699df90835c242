//! How sure the inputs of a flight are.

use crate::Given;
use hardpan_quantity::{Angle, Pressure, Ratio, Speed};

/// Standard deviations of the inputs of a flight, by their sources or the user's
/// choice. What is missing is not known to be exact.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Uncertainty {
    /// Probability that no safety limit is exceeded at which the answer counts
    /// as shown.
    pub level: Option<Given<Ratio>>,
    /// Of the bearing ratio by the law of the penetrometer, the same everywhere
    /// on a strip, over the mean of the law.
    pub penetrometer_law: Option<Given<Ratio>>,
    /// Of the strength that the thickness law asks of unsurfaced ground, the same
    /// everywhere on a strip, over its mean.
    pub bearing_law: Option<Given<Ratio>>,
    /// Of the depth of ruts that the laws of ruts give, the same everywhere on a
    /// strip, over its mean.
    pub rut_law: Option<Given<Ratio>>,
    /// Of the strain in weak ground over the strain allowed there, that the laws of
    /// stiffness and the criterion of strain give, likewise.
    pub strain_law: Option<Given<Ratio>>,
    /// Of one sounding about the ground that it stands for, over its mean.
    pub sounding: Option<Given<Ratio>>,
    /// Of the rolling coefficient, over its value.
    pub rolling_friction: Option<Given<Ratio>>,
    /// Of the braking coefficient, over its value.
    pub braking_friction: Option<Given<Ratio>>,
    /// Of the wind that the movement meets about the wind reported.
    pub wind_speed: Option<Given<Speed>>,
    /// Of its direction.
    pub wind_direction: Option<Given<Angle>>,
    /// Of the temperature, in kelvins.
    pub temperature_kelvins: Option<Given<f64>>,
    /// Of the air pressure.
    pub air_pressure: Option<Given<Pressure>>,
    /// Of the mass about the mass planned, over it.
    pub mass: Option<Given<Ratio>>,
    /// Of the thrust or power, over its value.
    pub thrust: Option<Given<Ratio>>,
}
