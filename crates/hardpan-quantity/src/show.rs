//! Writing amounts for people: the unit and the digits that the trade uses.

use crate::unit::units_of;
use crate::{Amount, Dimension};

/// Which units people see. Speeds are in knots and angles in degrees in both.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSystem {
    /// Metres, kilograms, kilopascals, degrees Celsius.
    #[default]
    Metric,
    /// Feet, pounds, pounds per square inch, degrees Fahrenheit.
    Imperial,
}

impl UnitSystem {
    fn unit(self, amount: Amount) -> &'static str {
        let imperial = self == Self::Imperial;
        let small = amount.si.abs() < 0.5;
        match amount.dimension {
            Dimension::Length if small && !amount.is_no_length() => {
                if imperial {
                    "in"
                } else {
                    "mm"
                }
            }
            Dimension::Length => {
                if imperial {
                    "ft"
                } else {
                    "m"
                }
            }
            Dimension::Area => {
                if imperial {
                    "ft2"
                } else {
                    "m2"
                }
            }
            Dimension::Volume => {
                if imperial {
                    "ft3"
                } else {
                    "m3"
                }
            }
            Dimension::Mass => {
                if imperial {
                    "lb"
                } else {
                    "kg"
                }
            }
            Dimension::Force => {
                if imperial {
                    "lbf"
                } else {
                    "kN"
                }
            }
            Dimension::Pressure if amount.si.abs() >= 5e6 => "MPa",
            Dimension::Pressure => {
                if imperial {
                    "psi"
                } else {
                    "kPa"
                }
            }
            Dimension::AirPressure => {
                if imperial {
                    "inHg"
                } else {
                    "hPa"
                }
            }
            Dimension::Speed => "kt",
            Dimension::Temperature => {
                if imperial {
                    "°F"
                } else {
                    "°C"
                }
            }
            Dimension::Angle => "°",
            Dimension::Ratio | Dimension::BearingRatio => "%",
            Dimension::Time if amount.si.abs() >= 172_800.0 => "d",
            Dimension::Time if amount.si.abs() >= 180.0 => "min",
            Dimension::Time => "s",
            Dimension::Acceleration => "m/s2",
            Dimension::Density => {
                if imperial {
                    "lb/ft3"
                } else {
                    "kg/m3"
                }
            }
            Dimension::Energy if amount.si.abs() < 1e3 => "J",
            Dimension::Energy if amount.si.abs() < 1e6 => "kJ",
            Dimension::Energy => "MJ",
            Dimension::Torque if imperial => "ft-lb",
            Dimension::Torque => "kN m",
            Dimension::Power if imperial => "hp",
            Dimension::Power => "kW",
            Dimension::MassFlow if imperial => "lb/s",
            Dimension::MassFlow => "kg/s",
            Dimension::PenetrationRate => {
                if imperial {
                    "in/blow"
                } else {
                    "mm/blow"
                }
            }
            Dimension::Coefficient | Dimension::Count => "",
        }
    }
}

impl Amount {
    /// The value for people, such as `1 240 m`, `90 psi`, `CBR 12.5 %`.
    #[must_use]
    pub fn show(self, system: UnitSystem) -> String {
        let (number, symbol) = self.show_parts(system);
        joined(&number, symbol)
    }

    /// Number and unit apart, for tables and pictures.
    #[must_use]
    pub fn show_parts(self, system: UnitSystem) -> (String, &'static str) {
        let symbol = system.unit(self);
        let value = self.in_unit(symbol);
        let decimals = match self.is_no_length() {
            true => 0,
            false => decimals(self.dimension, symbol, value),
        };
        (grouped(value, decimals), symbol)
    }

    /// The value in the unit in which another of its kind is shown, where both
    /// stand in one line.
    #[must_use]
    pub fn show_beside(self, other: Self, system: UnitSystem) -> String {
        if self.dimension != other.dimension {
            return self.show(system);
        }
        if self.is_no_length() {
            return joined("0", system.unit(other));
        }
        let symbol = system.unit(other);
        let value = self.in_unit(symbol);
        joined(&grouped(value, decimals(self.dimension, symbol, value)), symbol)
    }

    /// Number in a unit of its kind with so many decimals, grouped; the SI value
    /// for a unit that the kind does not have.
    #[must_use]
    pub fn show_with(self, unit: &str, decimals: usize) -> String {
        grouped(self.in_unit(unit), decimals)
    }

    /// A length that is shown as nothing at all.
    fn is_no_length(self) -> bool {
        self.dimension == Dimension::Length && self.si.abs() < LEAST_LENGTH_M
    }

    fn in_unit(self, symbol: &str) -> f64 {
        match units_of(self.dimension).iter().find(|unit| unit.symbol == symbol) {
            Some(unit) => (self.si - unit.offset) / unit.factor,
            None => self.si,
        }
    }
}

/// Shorter lengths have no digit other than zero in millimetres.
const LEAST_LENGTH_M: f64 = 5e-8;

fn joined(number: &str, symbol: &str) -> String {
    match symbol {
        "" => number.to_owned(),
        "°" => format!("{number}°"),
        _ => format!("{number} {symbol}"),
    }
}

/// Most decimals that a small value is given, so that it is not shown as zero.
const MOST_DECIMALS: usize = 4;

fn decimals(dimension: Dimension, symbol: &str, value: f64) -> usize {
    let size = value.abs();
    let usual = usual_decimals(dimension, symbol, value);
    let is_shown =
        |decimals: &usize| format!("{size:.decimals$}").contains(|c| matches!(c, '1'..='9'));
    (usual..=MOST_DECIMALS).find(is_shown).unwrap_or(usual)
}

fn usual_decimals(dimension: Dimension, symbol: &str, value: f64) -> usize {
    let size = value.abs();
    match (dimension, symbol) {
        (Dimension::Length, "m") => usize::from(size < 100.0) + usize::from(size < 10.0),
        (Dimension::Length, "ft") => usize::from(size < 30.0),
        (Dimension::Length, "in") => 1,
        (Dimension::Length, "mm") => usize::from(size < 10.0),
        (Dimension::Mass | Dimension::Pressure, _) => usize::from(size < 10.0),
        (Dimension::Force, "kN") | (Dimension::Torque, "kN m") => 1,
        (Dimension::AirPressure, "inHg") => 2,
        (Dimension::Speed, _) => usize::from(size < 10.0 && (size - size.round()).abs() > 1e-6),
        (Dimension::Temperature, _) => usize::from((value - value.round()).abs() > 0.05),
        (Dimension::Ratio, _) => {
            if size < 10.0 {
                2
            } else {
                1
            }
        }
        (Dimension::BearingRatio, _) => usize::from(size < 100.0),
        (Dimension::Time, "s") => 1,
        (Dimension::Time, "min") => usize::from(size < 10.0),
        (Dimension::Acceleration | Dimension::Area | Dimension::Volume, _) => 2,
        (Dimension::Energy | Dimension::MassFlow, _) | (Dimension::PenetrationRate, "mm/blow") => 1,
        (Dimension::PenetrationRate, _) => 2,
        (Dimension::Coefficient, _) if size >= 100.0 => 0,
        (Dimension::Density, _) if size >= 10.0 => 0,
        (Dimension::Coefficient | Dimension::Density, _) => 3,
        (Dimension::Count, _) => usize::from(value.fract() != 0.0),
        _ => 0,
    }
}

/// Digits in threes with a no-break space, as [ISO-80000-1] 7.3.1 asks for.
fn grouped(value: f64, decimals: usize) -> String {
    if value.is_nan() {
        return "not a number".to_owned();
    }
    if value.is_infinite() {
        return if value > 0.0 { "∞" } else { "−∞" }.to_owned();
    }
    let text = format!("{value:.decimals$}");
    let (sign, digits) = match text.strip_prefix('-') {
        Some(digits) if digits.chars().any(|c| c.is_ascii_digit() && c != '0') => ("−", digits),
        Some(digits) => ("", digits),
        None => ("", text.as_str()),
    };
    let (whole, fraction) = digits.split_once('.').map_or((digits, ""), |(w, f)| (w, f));
    let mut out = String::from(sign);
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && whole.len() > 4 && (whole.len() - index).is_multiple_of(3) {
            out.push('\u{a0}');
        }
        out.push(digit);
    }
    if !fraction.is_empty() {
        out.push('.');
        out.push_str(fraction);
    }
    out
}
