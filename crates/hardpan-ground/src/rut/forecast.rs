//! Two published laws of rut depth side by side, each with its own range.

use crate::rut::barber::BARBER_RUT;
use crate::rut::giroud_han::{GIROUD_HAN_RUT, RUTS_M};
use hardpan_model::FormulaError;
use hardpan_quantity::{Amount, BearingRatio, Force, Length, Pressure, Quantity, Ratio};
use std::f64::consts::PI;

/// What loads the ground, and the ground: surfacing over weaker ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RutLoading {
    /// Equivalent single wheel load at the bottom of the surfacing.
    pub load: Force,
    /// Tyre pressure.
    pub pressure: Pressure,
    /// Passes over one place.
    pub passes: f64,
    /// Thickness of the surfacing.
    pub thickness: Length,
    /// Bearing ratio of the surfacing, credited.
    pub above: BearingRatio,
    /// Bearing ratio under the surfacing, credited.
    pub below: BearingRatio,
    /// Ruts over those of the laws: 1 for what the laws themselves say.
    pub over_laws: Ratio,
}

/// A rut depth, or the side of a law's range on which it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RutEstimate {
    /// Less than the law can tell.
    Below(Length),
    /// About this deep.
    About(Length),
    /// More than the law can tell.
    Above(Length),
}

/// Two forecasts; either may be outside its range.
#[derive(Debug, Clone, PartialEq)]
pub struct RutForecast {
    /// Barber, Odom and Patrick 1978.
    pub barber: Result<Length, FormulaError>,
    /// Giroud and Han 2004 without reinforcement (bearing capacity factor π), for
    /// ruts of 50 to 100 mm.
    pub giroud_han: Result<RutEstimate, FormulaError>,
}

/// Rut depth after the passes, by both laws.
///
/// Each law stands for itself: where one is outside its range, the error names
/// the argument and the other still answers. They differ in what they know:
/// Barber in any ground with the stronger layer on top, Giroud and Han in
/// saturated fine-grained ground up to CBR 5.
#[must_use]
pub fn rut_forecast(loading: &RutLoading) -> RutForecast {
    let common = [
        Amount::from(loading.load),
        Amount::from(loading.pressure),
        Amount::coefficient(loading.passes),
        Amount::from(loading.thickness),
    ];
    let [load, pressure, passes, thickness] = common;
    let (above, below) = (Amount::from(loading.above), Amount::from(loading.below));
    let barber = BARBER_RUT.value(&[load, pressure, passes, thickness, above, below]);
    let unreinforced = [Amount::coefficient(0.0), Amount::coefficient(PI)];
    let [aperture, capacity] = unreinforced;
    let giroud_han = GIROUD_HAN_RUT
        .value(&[load, pressure, passes, thickness, below, above, aperture, capacity]);
    let over = loading.over_laws.si();
    RutForecast {
        barber: barber.map(|rut| Length::from_si(over * rut.si)),
        giroud_han: giroud_han.map(|rut| estimate(over * rut.si)),
    }
}

fn estimate(rut: f64) -> RutEstimate {
    let (least, greatest) = RUTS_M;
    if rut < least {
        RutEstimate::Below(Length::from_si(least))
    } else if rut > greatest {
        RutEstimate::Above(Length::from_si(greatest))
    } else {
        RutEstimate::About(Length::from_si(rut))
    }
}
