//! What kind of thing a number measures.

use serde::{Deserialize, Serialize};

/// The kind of quantity behind an [`Amount`](crate::Amount): it fixes the SI
/// unit of the stored value and the units that may be written or shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(description = "What kind of thing a number measures; it fixes the unit.")]
pub enum Dimension {
    /// Distance, height, thickness; metre.
    Length,
    /// Plane area; square metre.
    Area,
    /// Volume of soil or water; cubic metre.
    Volume,
    /// Mass; kilogram.
    Mass,
    /// Force; newton.
    Force,
    /// Tyre, contact and soil pressure, and stiffness; pascal.
    Pressure,
    /// Pressure of the air; pascal, shown in the units of weather reports.
    AirPressure,
    /// Air or ground speed; metre per second, shown in knots.
    Speed,
    /// Point on the temperature scale; kelvin.
    Temperature,
    /// Plane angle; radian.
    Angle,
    /// Slope, share, efficiency; dimensionless, written in per cent.
    Ratio,
    /// Friction, lift and drag coefficient; dimensionless, written as a plain number.
    Coefficient,
    /// Duration; second.
    Time,
    /// Acceleration; metre per second squared.
    Acceleration,
    /// Mass per volume; kilogram per cubic metre.
    Density,
    /// Energy; joule.
    Energy,
    /// Torque; newton metre.
    Torque,
    /// Power; watt.
    Power,
    /// Mass per time; kilogram per second.
    MassFlow,
    /// How many; dimensionless, written as a plain number.
    Count,
    /// California bearing ratio; per cent.
    BearingRatio,
    /// Penetration for one blow of the 8 kg hammer; metre per blow.
    PenetrationRate,
}

impl Dimension {
    /// The name people use for it in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Area => "area",
            Self::Volume => "volume",
            Self::Mass => "mass",
            Self::Force => "force",
            Self::Pressure => "pressure",
            Self::AirPressure => "air pressure",
            Self::Speed => "speed",
            Self::Temperature => "temperature",
            Self::Angle => "angle",
            Self::Ratio => "ratio",
            Self::Coefficient => "coefficient",
            Self::Time => "time",
            Self::Acceleration => "acceleration",
            Self::Density => "density",
            Self::Energy => "energy",
            Self::Torque => "torque",
            Self::Power => "power",
            Self::MassFlow => "mass flow",
            Self::Count => "count",
            Self::BearingRatio => "California bearing ratio",
            Self::PenetrationRate => "penetration rate",
        }
    }

    /// The name with its article, such as `an angle`.
    #[must_use]
    pub fn with_article(self) -> String {
        let name = self.name();
        let article = if name.starts_with(['a', 'e']) { "an" } else { "a" };
        format!("{article} {name}")
    }

    /// Whether a number of this kind is written without a unit.
    #[must_use]
    pub const fn is_unitless(self) -> bool {
        matches!(self, Self::Coefficient | Self::Count)
    }
}
