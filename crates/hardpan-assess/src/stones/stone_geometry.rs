//! The tyres that throw stones and the parts that stones meet, as surfaces.

use crate::draft::need;
use crate::ground::LegKind;
use crate::measured::{Known, Unavailable};
use hardpan_debris::{StonePath, Surface, Throw, Thrown, Tyre};
use hardpan_model::{Flight, Given, Leg, Zone, ZoneKind, ZonePart};
use hardpan_quantity::{Density, Length, Speed, metres};

/// Stones drawn of one size.
pub(crate) const STONES: u32 = 10_000;

/// Where the flaps stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum FlapPlace {
    /// As set for the movement.
    Down,
    /// Up, where the file says how high that is.
    Up,
}

/// What a surface belongs to; the number is its place in the list of zones or guards.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Owner {
    Zone(usize),
    ZoneUp(usize),
    Guard(usize),
}

/// A deflector, and whether it is fitted and works.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Guard {
    pub(crate) zone: Zone,
    pub(crate) is_working: bool,
}

/// The tyres that throw stones and the parts that stones meet.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StoneGeometry {
    pub(crate) zones: Vec<Zone>,
    pub(crate) guards: Vec<Guard>,
    pub(crate) tyres: Vec<Tyre>,
    legs: Vec<LegKind>,
    surfaces: Vec<Surface>,
    owners: Vec<Owner>,
}

impl StoneGeometry {
    /// Of the aeroplane of a flight.
    pub(crate) fn of(flight: &Flight) -> Known<Self> {
        let all = &flight.aeroplane.zones;
        let of_kind = |kind| all.iter().filter(move |zone| zone.kind == kind).cloned();
        let zones: Vec<Zone> = of_kind(ZoneKind::Airframe).collect();
        if zones.is_empty() {
            let wanted = need("aeroplane: [[zone]]", "the parts of the underside, by drawing");
            return Err(Unavailable::missing("where thrown stones strike", vec![wanted]));
        }
        let guard = |zone: Zone| Guard { is_working: is_working(flight, &zone), zone };
        let guards: Vec<Guard> = of_kind(ZoneKind::Deflector).map(guard).collect();
        let mut owned: Vec<(Owner, Surface)> = Vec::new();
        for (index, zone) in zones.iter().enumerate() {
            owned.extend(at_height(zone, zone.height.value).map(|one| (Owner::Zone(index), one)));
            if let Some(up) = height_up(zone) {
                owned.extend(at_height(zone, up).map(|one| (Owner::ZoneUp(index), one)));
            }
        }
        for (index, guard) in guards.iter().enumerate() {
            let zone = &guard.zone;
            owned.extend(at_height(zone, zone.height.value).map(|one| (Owner::Guard(index), one)));
        }
        let (owners, surfaces) = owned.into_iter().unzip();
        let (legs, tyres) = tyres(flight)?.into_iter().unzip();
        Ok(Self { zones, guards, tyres, legs, surfaces, owners })
    }

    /// Stones of one size thrown at all parts and deflectors.
    pub(crate) fn draw(&self, stone: Length, air: Density, fastest: Speed) -> Known<Thrown> {
        Throw { tyres: &self.tyres, stone, air, fastest, seed: 0 }
            .thrown(&self.surfaces, STONES)
            .map_err(|error| Unavailable::refused("thrown stones", &error))
    }

    /// The leg that threw a stone.
    pub(crate) fn leg(&self, path: &StonePath) -> Option<LegKind> {
        self.legs.get(path.tyre()).copied()
    }

    /// Whether a surface stands, with the flaps and with the deflectors wanted.
    pub(crate) fn stands(
        &self,
        surface: usize,
        flaps: FlapPlace,
        guarded: impl Fn(usize) -> bool,
    ) -> bool {
        let moves = |index: &usize| self.zones.get(*index).and_then(height_up).is_some();
        match self.owners.get(surface) {
            Some(Owner::Zone(index)) => flaps == FlapPlace::Down || !moves(index),
            Some(Owner::ZoneUp(_)) => flaps == FlapPlace::Up,
            Some(Owner::Guard(index)) => guarded(*index),
            None => false,
        }
    }

    /// The part of the airframe that a surface belongs to.
    pub(crate) fn zone_of(&self, surface: usize) -> Option<usize> {
        match self.owners.get(surface)? {
            Owner::Zone(index) | Owner::ZoneUp(index) => Some(*index),
            Owner::Guard(_) => None,
        }
    }

    /// Whether a deflector that is fitted works.
    pub(crate) fn is_working(&self, guard: usize) -> bool {
        self.guards.get(guard).is_some_and(|guard| guard.is_working)
    }
}

/// Height of a flap that is up.
fn height_up(zone: &Zone) -> Option<Length> {
    let up = zone.height_up.as_ref()?;
    (zone.part == Some(ZonePart::Flap)).then_some(up.value)
}

fn is_working(flight: &Flight, zone: &Zone) -> bool {
    let is_true = |given: &Option<Given<bool>>| given.as_ref().is_some_and(|given| given.value);
    flight.aeroplane.equipment.iter().any(|item| {
        item.name.value == zone.name.value && is_true(&item.fitted) && is_true(&item.serviceable)
    })
}

fn at_height(zone: &Zone, height: Length) -> impl Iterator<Item = Surface> {
    let half = 0.5 * zone.width.value;
    let offset = zone.offset.as_ref().map_or(metres(0.0), |offset| offset.value);
    let at = |middle: Length| Surface {
        from: zone.from.value,
        to: zone.to.value,
        left: middle - half,
        right: middle + half,
        height,
    };
    let both = [at(-offset), at(offset)];
    both.into_iter().skip(usize::from(offset <= metres(0.0)))
}

fn tyres(flight: &Flight) -> Known<Vec<(LegKind, Tyre)>> {
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
    for (kind, leg, aft, middle) in [
        (LegKind::Nose, &gear.nose, metres(0.0), metres(0.0)),
        (LegKind::Main, &gear.main, wheelbase.value, -half),
        (LegKind::Main, &gear.main, wheelbase.value, half),
    ] {
        let tyres = leg_tyres(leg, aft, middle).ok_or_else(missing)?;
        all.extend(tyres.into_iter().map(|tyre| (kind, tyre)));
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
