//! The classification number of the aeroplane, to be held against the strength
//! number that the aerodrome publishes.

use crate::ground::LegKind;
use crate::measured::{Known, Measured, Unavailable};
use hardpan_ground::{LegGeometry, RepetitionFactors, flexible_acn};
use hardpan_model::{Flight, Need, SubgradeCategory};
use hardpan_quantity::{
    BearingRatio, Mass, Pressure, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2, bearing_percent,
};

/// A classification number, and what it was computed with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Classification {
    /// Not rounded.
    pub(crate) number: f64,
    /// The same with the factors in force before October 2007.
    pub(crate) number_before: f64,
    pub(crate) share: Ratio,
    pub(crate) bearing_ratio: BearingRatio,
}

/// Bearing ratio that stands for a category.
///
/// Source: [ICAO-9157-3], subgrade categories.
fn standard(category: SubgradeCategory) -> BearingRatio {
    bearing_percent(match category {
        SubgradeCategory::A => 15.0,
        SubgradeCategory::B => 10.0,
        SubgradeCategory::C => 6.0,
        SubgradeCategory::D => 3.0,
    })
}

/// Classification number of the aeroplane on the ground of the category that
/// the aerodrome publishes, at a mass, centre of gravity and tyre pressure.
pub(crate) fn classification(
    flight: &Flight,
    measured: &Measured,
    mass: Mass,
    centre: Ratio,
    pressure: Pressure,
) -> Known<Classification> {
    let Some(subgrade) = &flight.strip.strength.subgrade else {
        let need = Need {
            what: "strip: strength.subgrade".to_owned(),
            how: "letter A to D that stands beside the published number".to_owned(),
        };
        return Err(Unavailable::missing("the classification number", vec![need]));
    };
    let arms = measured.arms.as_ref().map_err(Clone::clone)?;
    let standing = arms.standing(mass, centre)?;
    let weight = mass.si() * STANDARD_GRAVITY_M_PER_S2;
    let share = Ratio::from_si(standing.main_leg.si() / weight);
    let geometry = LegGeometry::of_leg(LegKind::Main.leg(flight), LegKind::Main.key())?;
    let bearing_ratio = standard(subgrade.value);
    let number = |factors: RepetitionFactors| {
        let found = flexible_acn(mass, share, &geometry, pressure, bearing_ratio, factors);
        found.map(|found| found.number)
    };
    Ok(Classification {
        number: number(RepetitionFactors::Of2007)?,
        number_before: number(RepetitionFactors::Of1983)?,
        share,
        bearing_ratio,
    })
}
