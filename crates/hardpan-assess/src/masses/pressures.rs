//! Tyre pressures at which masses are tried.

use super::{Beside, missing};
use crate::ground::LegKind;
use crate::measured::{Known, Measured};
use crate::tyres::least;
use hardpan_model::{Flight, Given};
use hardpan_quantity::{Mass, Pressure, Ratio};

/// Pressure at which a mass is tried: the crew's, or the least that tyre and
/// chart allow at that mass and beside the other movement; none when the tyre does not
/// allow it.
pub(super) fn pressure_at(
    flight: &Flight,
    measured: &Measured,
    (kind, beside): (LegKind, Beside),
    mass: Mass,
    centre: Option<&Given<Ratio>>,
) -> Known<Option<Pressure>> {
    let alone = pressure_alone(flight, measured, kind, mass, centre)?;
    let other = beside.least(kind);
    Ok(alone.map(|alone| other.map_or(alone, |other| alone.max(other))))
}

/// The same with no other movement.
pub(super) fn pressure_alone(
    flight: &Flight,
    measured: &Measured,
    kind: LegKind,
    mass: Mass,
    centre: Option<&Given<Ratio>>,
) -> Known<Option<Pressure>> {
    let both = least_and_most(flight, measured, kind, mass, centre)?;
    let is_set = match kind {
        LegKind::Main => measured.main_tyre.as_ref(),
        LegKind::Nose => measured.nose_tyre.as_ref(),
    };
    let is_set = is_set.is_ok_and(|tyre| tyre.given.is_some());
    Ok(both.filter(|(least, most)| least <= most).map(|(least, most)| match is_set {
        true => most,
        false => least,
    }))
}

/// The least pressure that tyre and chart allow at a mass, and the crew's or the
/// greatest of the tyre; none when the tyre does not bear the load at all.
pub(super) fn least_and_most(
    flight: &Flight,
    measured: &Measured,
    kind: LegKind,
    mass: Mass,
    centre: Option<&Given<Ratio>>,
) -> Known<Option<(Pressure, Pressure)>> {
    let tyre = match kind {
        LegKind::Main => measured.main_tyre.as_ref(),
        LegKind::Nose => measured.nose_tyre.as_ref(),
    };
    let tyre = tyre.map_err(Clone::clone)?;
    let arms = measured.arms.as_ref().map_err(Clone::clone)?;
    let centre = centre.ok_or_else(|| missing("the centre of gravity"))?;
    let standing = arms.standing(mass, centre.value)?;
    let load = match kind {
        LegKind::Main => standing.main_leg,
        LegKind::Nose => standing.nose_leg,
    };
    let least = match least(flight, kind, mass, load) {
        Ok(least) => least.pressure,
        Err(why) if why.needs.is_empty() => return Ok(None),
        Err(why) => return Err(why),
    };
    let data = &kind.leg(flight).tyre;
    let highest = data.maximum_pressure.as_ref().or(data.rated_pressure.as_ref());
    let highest = highest.map_or(least, |given| given.value);
    Ok(Some((least, tyre.given.as_ref().map_or(highest, |set| set.value))))
}
