//! The stones that the tyres of a flight throw at the zones of its aeroplane.

use crate::context::Context;
use crate::draft::{given, need};
use crate::measured::{Known, Unavailable};
use hardpan_debris::{DamageBand, Hits, Surface, Throw, Tyre};
use hardpan_model::{BasisInput, Flight, Given, Leg, Patch, Zone, ZoneKind};
use hardpan_quantity::{Length, Speed, metres};
use std::cmp::Ordering;

/// Stones drawn for one finding.
pub(crate) const STONES: u32 = 10_000;

/// What comes to one zone of the airframe.
#[derive(Debug, Clone)]
pub(crate) struct Strike {
    pub(crate) zone: Zone,
    /// With the deflectors that are fitted and work.
    pub(crate) with: Hits,
    /// Without any.
    pub(crate) without: Hits,
    /// Whether any deflector counts.
    pub(crate) is_guarded: bool,
    pub(crate) band: DamageBand,
    pub(crate) fastest: Speed,
    stone: Given<Length>,
}

impl Strike {
    /// Order by name, for strikes of one energy.
    pub(crate) fn order(&self, other: &Self) -> Ordering {
        self.zone.name.value.cmp(&other.zone.name.value)
    }

    /// The largest stone and the tyres, as inputs.
    pub(crate) fn stone_input(&self, flight: &Flight) -> Vec<BasisInput> {
        let gear = &flight.aeroplane.gear;
        let rows = [
            Some(given("largest stone", &self.stone)),
            gear.main.tyre.diameter.as_ref().map(|value| given("main tyre diameter", value)),
            gear.nose.tyre.diameter.as_ref().map(|value| given("nose tyre diameter", value)),
            gear.wheelbase.as_ref().map(|value| given("wheelbase", value)),
            gear.track.as_ref().map(|value| given("track", value)),
        ];
        rows.into_iter().flatten().collect()
    }
}

/// The largest stone of all patches; none where one of them does not say.
pub(crate) fn largest_stone(patches: &[Patch]) -> Option<Given<Length>> {
    let sizes: Option<Vec<&Given<Length>>> =
        patches.iter().map(|patch| patch.largest_stone.as_ref()).collect();
    sizes?.into_iter().reduce(|a, b| if b.value > a.value { b } else { a }).cloned()
}

/// What comes to each zone of the airframe.
pub(crate) fn strikes(context: &Context<'_>, stone: Given<Length>) -> Known<Vec<Strike>> {
    let flight = context.flight;
    let zones = &flight.aeroplane.zones;
    let airframe: Vec<&Zone> =
        zones.iter().filter(|zone| zone.kind == ZoneKind::Airframe).collect();
    if airframe.is_empty() {
        let wanted = need("aeroplane: [[zone]]", "the parts of the underside, by drawing");
        return Err(Unavailable::missing("where thrown stones strike", vec![wanted]));
    }
    let guards: Vec<&Zone> = zones
        .iter()
        .filter(|zone| zone.kind == ZoneKind::Deflector && is_working(flight, zone))
        .collect();
    let tyres = tyres(flight)?;
    let fastest = fastest(context)?;
    let air = context.measured.air.as_ref().map_err(Clone::clone)?.density();
    let throw = Throw { tyres: &tyres, stone: stone.value, air, fastest };
    let refused = |error: hardpan_debris::Error| Unavailable::refused("thrown stones", &error);
    let of = |zones: &[&Zone]| {
        let owned = zones.iter().enumerate().flat_map(|(index, zone)| {
            surfaces(zone).into_iter().map(move |surface| (index, surface))
        });
        let (owners, plates): (Vec<usize>, Vec<Surface>) = owned.unzip();
        throw.hits(&plates, STONES).map(|hits| gathered(&owners, &hits)).map_err(refused)
    };
    let without = of(&airframe)?;
    let with = of(&[airframe.clone(), guards.clone()].concat())?;
    airframe
        .iter()
        .zip(with.into_iter().zip(without))
        .map(|(zone, (with, without))| {
            Ok(Strike {
                zone: (*zone).clone(),
                band: DamageBand::of(with.greatest).map_err(refused)?,
                with,
                without,
                is_guarded: !guards.is_empty(),
                fastest,
                stone: stone.clone(),
            })
        })
        .collect()
}

/// Both sides of a zone together, by the position of the zone.
fn gathered(owners: &[usize], hits: &[Hits]) -> Vec<Hits> {
    let mut sums: Vec<Hits> = Vec::new();
    for (owner, hit) in owners.iter().zip(hits) {
        match sums.get_mut(*owner) {
            Some(sum) => {
                sum.share += hit.share;
                sum.greatest = sum.greatest.max(hit.greatest);
            }
            None => sums.push(*hit),
        }
    }
    sums
}

fn is_working(flight: &Flight, zone: &Zone) -> bool {
    let is_true = |given: &Option<Given<bool>>| given.as_ref().is_some_and(|given| given.value);
    flight.aeroplane.equipment.iter().any(|item| {
        item.name.value == zone.name.value && is_true(&item.fitted) && is_true(&item.serviceable)
    })
}

fn surfaces(zone: &Zone) -> Vec<Surface> {
    let half = 0.5 * zone.width.value;
    let offset = zone.offset.as_ref().map_or(metres(0.0), |offset| offset.value);
    let at = |middle: Length| Surface {
        from: zone.from.value,
        to: zone.to.value,
        left: middle - half,
        right: middle + half,
        height: zone.height.value,
    };
    if offset > metres(0.0) { vec![at(-offset), at(offset)] } else { vec![at(offset)] }
}

fn tyres(flight: &Flight) -> Known<Vec<Tyre>> {
    let gear = &flight.aeroplane.gear;
    let missing = || {
        let wanted = need(
            "aeroplane: gear.wheelbase, track; gear.main and gear.nose: wheels, spacing, \
             tyre.diameter, tyre.width",
            "where stones are thrown from",
        );
        Unavailable::missing("thrown stones", vec![wanted])
    };
    let (Some(wheelbase), Some(track)) = (&gear.wheelbase, &gear.track) else {
        return Err(missing());
    };
    let half = 0.5 * track.value;
    let mut all = Vec::new();
    for (leg, aft, middle) in [
        (&gear.nose, metres(0.0), metres(0.0)),
        (&gear.main, wheelbase.value, -half),
        (&gear.main, wheelbase.value, half),
    ] {
        all.extend(leg_tyres(leg, aft, middle).ok_or_else(missing)?);
    }
    Ok(all)
}

/// The tyres of one leg that stand side by side.
fn leg_tyres(leg: &Leg, aft: Length, middle: Length) -> Option<Vec<Tyre>> {
    let radius = 0.5 * leg.tyre.diameter.as_ref()?.value;
    let width = leg.tyre.width.as_ref()?.value;
    let at = |right: Length| Tyre { aft, right, radius, width };
    if leg.wheels.as_ref()?.value < 2 {
        return Some(vec![at(middle)]);
    }
    let half = 0.5 * leg.spacing.as_ref()?.value;
    Some(vec![at(middle - half), at(middle + half)])
}

/// The greatest ground speed of the planned movements.
fn fastest(context: &Context<'_>) -> Known<Speed> {
    let measured = context.measured;
    let take_off = measured
        .take_off
        .as_ref()
        .map(|run| run.as_ref().map(|run| run.lift_off_ground_speed).map_err(Clone::clone));
    let landing = measured
        .landing
        .as_ref()
        .map(|run| run.as_ref().map(|run| run.touchdown_ground_speed).map_err(Clone::clone));
    let mut most = Speed::default();
    for speed in [take_off, landing].into_iter().flatten() {
        most = most.max(speed?);
    }
    Ok(most)
}
