//! What is the flexible aircraft classification number (ACN) of a gear?
//!
//! Thickness that the gear needs by the square-root equation with its
//! equivalent single wheel at that depth, 10,000 coverages; then twice the
//! single wheel at 1.25 MPa, in tonnes, that needs the same thickness. For
//! comparing with a reported pavement classification number; at tyre pressures
//! of 0.3 MPa on strong ground the published tables differ from the equation.
//! Numbers: `validation/cases/ground/icao-acn.toml`.

use crate::demand::unsurfaced::{PRESSURE, cover};
use crate::error::{positive, within};
use crate::formulas::{argument, kernel};
use crate::wheel::equivalent_wheel::{SPACING, TANDEM, WHEELS, deflection_ratio, geometry_of};
use crate::wheel::tyre::contact_radius;
use crate::{Error, LegGeometry};
use hardpan_math::bracketed_root;
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{
    BearingRatio, Dimension, Length, Mass, Pressure, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2,
};
use std::f64::consts::PI;

/// Which set of load repetition factors at 10,000 coverages is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RepetitionFactors {
    /// The original set.
    Of1983,
    /// The set in force since October 2007.
    Of2007,
}

impl RepetitionFactors {
    /// The factor by the number of wheels of one leg; a number between those
    /// published takes the factor of fewer wheels, which is larger.
    ///
    /// Source: [HAYHOE-2007] abstract.
    #[must_use]
    pub fn at_wheels(self, wheels: u32) -> f64 {
        let [four, six, eight, twelve] = match self {
            Self::Of1983 => [0.825, 0.788, 0.755, 0.722],
            Self::Of2007 => [0.800, 0.720, 0.690, 0.660],
        };
        match wheels {
            0 | 1 => 0.995,
            2 | 3 => 0.900,
            4 | 5 => four,
            6 | 7 => six,
            8..=11 => eight,
            _ => twelve,
        }
    }
}

const ARGUMENTS: &[Argument] = &[
    argument("mass", "m", Dimension::Mass, 500.0, 700_000.0),
    argument("share_on_one_main_leg", "k", Dimension::Ratio, 0.01, 1.0),
    PRESSURE,
    WHEELS,
    SPACING,
    TANDEM,
    argument("bearing_ratio", "CBR", Dimension::BearingRatio, 3.0, 15.0),
];
const EXPRESSION: &str = "ACN = (t^2/1000) / (0.878/CBR - 0.01249), t = 2.54 alpha \
                          sqrt(ESWL(t)/(8.1 CBR) - A/pi), A = (k m g/N)/p, ESWL of N wheels at \
                          spacing s, tandem s_t; t cm, ESWL lbf, A in^2; a spacing of 0 stands \
                          for none";
const SOURCE: Source = Source::new("ICAO-9157-3", "flexible ACN, second edition", Tier::Memory);
const SCATTER: &str = "tables of the annex are rounded to 1; square-root and cubic form differ at \
                       low tyre pressure on strong ground";

/// With the factors of 1983.
pub static FLEXIBLE_ACN_1983: Formula = Formula {
    name: "flexible-acn-1983",
    computes: "flexible aircraft classification number, load repetition factors of 1983",
    expression: EXPRESSION,
    arguments: ARGUMENTS,
    result: Dimension::Count,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|mass, share, pressure, wheels, spacing, tandem, cbr| geometry_of(
        wheels, spacing, tandem
    )
    .map_or(f64::NAN, |leg| number(mass * share, &leg, pressure, cbr, RepetitionFactors::Of1983)
        .0)),
};

/// With the factors of 2007.
pub static FLEXIBLE_ACN_2007: Formula = Formula {
    name: "flexible-acn-2007",
    computes: "flexible aircraft classification number, load repetition factors of 2007",
    expression: EXPRESSION,
    arguments: ARGUMENTS,
    result: Dimension::Count,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|mass, share, pressure, wheels, spacing, tandem, cbr| geometry_of(
        wheels, spacing, tandem
    )
    .map_or(f64::NAN, |leg| number(mass * share, &leg, pressure, cbr, RepetitionFactors::Of2007)
        .0)),
};

/// Number and thickness in metres; NaN where the equation has no solution.
fn number(
    leg_mass: f64,
    leg: &LegGeometry,
    pressure: f64,
    cbr: f64,
    factors: RepetitionFactors,
) -> (f64, f64) {
    let wheel = leg_mass * STANDARD_GRAVITY_M_PER_S2 / f64::from(leg.wheels());
    let radius = contact_radius(wheel, pressure);
    let alpha = factors.at_wheels(leg.wheels());
    let short = |depth: f64| {
        let load = wheel * deflection_ratio(leg, radius, depth);
        depth - cover(load, PI * radius * radius, cbr, alpha)
    };
    let Ok(thickness) = bracketed_root(short, 1e-4, 20.0, 1e-7) else {
        return (f64::NAN, f64::NAN);
    };
    let centimetres = thickness * 1e2;
    (centimetres * centimetres / 1e3 / (0.878 / cbr - 0.01249), thickness)
}

/// A flexible classification number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlexibleAcn {
    /// The number, not rounded.
    pub number: f64,
    /// Reference thickness.
    pub thickness: Length,
}

/// Flexible classification number of an aeroplane of `mass` with `share` of it
/// on one main leg, over ground of a bearing ratio (15, 10, 6 or 3 for the
/// categories A to D).
///
/// # Errors
/// [`Error::NotPositive`] and [`Error::OutOfRange`] for values outside their
/// ranges, [`Error::NoSolution`] where the equation asks for no thickness.
pub fn flexible_acn(
    mass: Mass,
    share: Ratio,
    leg: &LegGeometry,
    pressure: Pressure,
    bearing_ratio: BearingRatio,
    factors: RepetitionFactors,
) -> Result<FlexibleAcn, Error> {
    let mass = positive("mass", "kg", mass.si())?;
    let share = within("share on one main leg", "", share.si(), 0.01, 1.0)?;
    let pressure = positive("pressure of the tyres", "Pa", pressure.si())?;
    let cbr = within("bearing ratio", "%", bearing_ratio.percent(), 3.0, 15.0)?;
    let (number, thickness) = number(mass * share, leg, pressure, cbr, factors);
    if number.is_finite() {
        Ok(FlexibleAcn { number, thickness: Length::from_si(thickness) })
    } else {
        Err(Error::NoSolution { what: "reference thickness", low: 1e-4, high: 20.0, unit: "m" })
    }
}
