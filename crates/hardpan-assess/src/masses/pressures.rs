//! Tyre pressures at which masses are tried.

use super::{Beside, missing};
use crate::ground::LegKind;
use crate::measured::{Known, Measured};
use crate::tyres::{highest, least};
use hardpan_model::{Flight, Given};
use hardpan_quantity::{Mass, Pressure, Ratio};

/// Pressure at which the ground is asked for a mass: the crew's, else the least that tyre
/// and chart allow at that mass and beside the other movement, else the highest of the
/// tyre; none where nothing tells it. What the tyre does not allow is a limit of the tyre,
/// not of the ground.
pub(super) fn pressure_at(
    flight: &Flight,
    measured: &Measured,
    (kind, beside): (LegKind, Beside),
    mass: Mass,
    centre: Option<&Given<Ratio>>,
) -> Known<Option<Pressure>> {
    let least = least_at(flight, measured, kind, mass, centre)?;
    let alone = set(measured, kind)?.or(least).or(highest(kind.leg(flight), kind.key()).ok());
    let other = beside.least(kind);
    Ok(alone.map(|alone| other.map_or(alone, |other| alone.max(other))))
}

/// The pressure of a movement with no other; none when the tyre does not allow it.
pub(super) fn pressure_alone(
    flight: &Flight,
    measured: &Measured,
    kind: LegKind,
    mass: Mass,
    centre: Option<&Given<Ratio>>,
) -> Known<Option<Pressure>> {
    let both = least_and_most(flight, measured, kind, mass, centre)?;
    let set = set(measured, kind)?;
    Ok(both.filter(|(least, most)| least <= most).map(|(least, _)| set.unwrap_or(least)))
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
    let Some(least) = least_at(flight, measured, kind, mass, centre)? else { return Ok(None) };
    let most = set(measured, kind)?.or(highest(kind.leg(flight), kind.key()).ok());
    Ok(Some((least, most.unwrap_or(least))))
}

fn least_at(
    flight: &Flight,
    measured: &Measured,
    kind: LegKind,
    mass: Mass,
    centre: Option<&Given<Ratio>>,
) -> Known<Option<Pressure>> {
    let arms = measured.arms.as_ref().map_err(Clone::clone)?;
    let centre = centre.ok_or_else(|| missing("the centre of gravity"))?;
    let standing = arms.standing(mass, centre.value)?;
    let load = match kind {
        LegKind::Main => standing.main_leg,
        LegKind::Nose => standing.nose_leg,
    };
    match least(flight, kind, mass, load) {
        Ok(least) => Ok(Some(least.pressure)),
        Err(why) if why.needs.is_empty() => Ok(None),
        Err(why) => Err(why),
    }
}

/// The crew's pressure, where they set one.
fn set(measured: &Measured, kind: LegKind) -> Known<Option<Pressure>> {
    let tyre = match kind {
        LegKind::Main => measured.main_tyre.as_ref(),
        LegKind::Nose => measured.nose_tyre.as_ref(),
    };
    let given = &tyre.map_err(Clone::clone)?.given;
    Ok(given.as_ref().map(|given| given.value))
}
