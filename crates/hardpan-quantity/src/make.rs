//! Short constructors, so that code reads `kilopascals(620.0)`.

use crate::kinds::{
    Angle, Area, BearingRatio, Energy, Force, Length, Mass, PenetrationRate, Pressure, Quantity,
    Ratio, Speed, Temperature, Time,
};
use crate::unit::units_of;

/// `value` of the unit written `symbol`; the table below names only units that exist.
fn of<Q: Quantity>(value: f64, symbol: &str) -> Q {
    let unit = units_of(Q::DIMENSION)
        .iter()
        .find(|unit| unit.symbol == symbol)
        .expect("every constructor names a unit of the table; a test calls them all");
    Q::from_si(value * unit.factor + unit.offset)
}

macro_rules! constructors {
    ($($name:ident, $type:ident, $symbol:literal;)+) => {$(
        #[doc = concat!("The quantity that is written `", $symbol, "`.")]
        #[must_use]
        pub fn $name(value: f64) -> $type {
            of(value, $symbol)
        }
    )+};
}

constructors! {
    bearing_percent, BearingRatio, "%";
    celsius, Temperature, "degC";
    degrees, Angle, "deg";
    feet, Length, "ft";
    hectopascals, Pressure, "hPa";
    inches, Length, "in";
    kelvins, Temperature, "K";
    kilograms, Mass, "kg";
    kilometres_per_hour, Speed, "km/h";
    kilonewtons, Force, "kN";
    kilopascals, Pressure, "kPa";
    knots, Speed, "kt";
    megajoules, Energy, "MJ";
    megapascals, Pressure, "MPa";
    metres, Length, "m";
    metres_per_second, Speed, "m/s";
    millimetres, Length, "mm";
    millimetres_per_blow, PenetrationRate, "mm/blow";
    newtons, Force, "N";
    pascals, Pressure, "Pa";
    percent, Ratio, "%";
    pounds, Mass, "lb";
    psi, Pressure, "psi";
    seconds, Time, "s";
    square_metres, Area, "m2";
    tonnes, Mass, "t";
}

/// A share or slope from its plain value (0.02 for two per cent).
#[must_use]
pub fn ratio(value: f64) -> Ratio {
    Ratio::from_si(value)
}
