//! The stones that the tyres of a flight throw: what reaches which part of the
//! aeroplane, and what each deflector stops.

pub(crate) mod rolled;
pub(crate) mod stone_geometry;
pub(crate) mod stone_picture;
pub(crate) mod suction;
pub(crate) mod technique;

use crate::draft::{given, need};
use crate::ground::LegKind;
use crate::measured::{Known, Measured, Unavailable};
use crate::stones::stone_geometry::{FlapPlace, Guard, StoneGeometry};
use hardpan_debris::{DamageBand, Hits, StonePath, Thrown};
use hardpan_model::{BasisInput, Flight, Given, Patch, Zone, ZonePart};
use hardpan_quantity::{Energy, Length, Quantity, Ratio, Speed, ratio};

/// Stones of the largest size seen, thrown at the greatest speeds of the flight.
#[derive(Debug, Clone)]
pub(crate) struct Stones {
    pub(crate) geometry: StoneGeometry,
    pub(crate) thrown: Thrown,
    /// What comes to each part of the airframe, in the order of the file.
    pub(crate) strikes: Vec<Strike>,
    /// What each deflector stops, in the order of the file.
    pub(crate) stops: Vec<Stop>,
    pub(crate) fastest: Speed,
    pub(crate) stone: Given<Length>,
    /// The same of each smaller size that was counted.
    smaller: Vec<(Length, Thrown)>,
}

/// What comes to one part of the airframe.
#[derive(Debug, Clone)]
pub(crate) struct Strike {
    pub(crate) zone: Zone,
    /// With the deflectors that are fitted and work.
    pub(crate) with: Hits,
    /// Without any.
    pub(crate) without: Hits,
    /// Of the stones that come with the deflectors, those of the nose tyres.
    pub(crate) nose: Ratio,
    pub(crate) band: DamageBand,
}

/// What one deflector does by itself.
#[derive(Debug, Clone)]
pub(crate) struct Stop {
    pub(crate) guard: Guard,
    /// Stones that would strike and that it stops, of all thrown.
    pub(crate) share: Ratio,
    /// The same, of those that would strike.
    pub(crate) of_strikes: Ratio,
}

impl Stones {
    /// Of a flight; none where nothing moves or no loose stones are known of.
    pub(crate) fn of(flight: &Flight, measured: &Measured) -> Option<Known<Self>> {
        let patches = flight.day.loose_material.as_ref().filter(|patches| !patches.is_empty())?;
        if flight.landing.is_none() && flight.take_off.is_none() {
            return None;
        }
        Some(Self::drawn(flight, measured, patches))
    }

    fn drawn(flight: &Flight, measured: &Measured, patches: &[Patch]) -> Known<Self> {
        let stone = largest_stone(patches).ok_or_else(|| {
            let wanted = need("day: loose_material: largest_stone", "in each patch, measured");
            Unavailable::missing("the energy of thrown stones", vec![wanted])
        })?;
        let geometry = StoneGeometry::of(flight)?;
        let fastest = fastest(measured)?;
        let air = measured.air.as_ref().map_err(Clone::clone)?.density();
        let thrown = geometry.draw(stone.value, air, fastest)?;
        let zones = geometry.zones.iter().enumerate();
        let strikes = zones
            .map(|(index, zone)| Strike::of(&geometry, &thrown, index, zone))
            .collect::<Known<Vec<_>>>()?;
        let guards = geometry.guards.iter().enumerate();
        let stops =
            guards.map(|(index, guard)| Stop::of(&geometry, &thrown, index, guard)).collect();
        let counted = patches.iter().flat_map(|patch| &patch.sizes).map(|size| size.up_to.value);
        let alone = patches.iter().filter(|patch| patch.sizes.is_empty());
        let largest = alone.filter_map(|patch| Some(patch.largest_stone.as_ref()?.value));
        let mut sizes: Vec<Length> =
            counted.chain(largest).filter(|size| *size != stone.value).collect();
        sizes.sort_by(|a, b| a.si().total_cmp(&b.si()));
        sizes.dedup();
        let smaller = sizes.into_iter().map(|size| Ok((size, geometry.draw(size, air, fastest)?)));
        let smaller = smaller.collect::<Known<Vec<_>>>()?;
        Ok(Self { geometry, thrown, strikes, stops, fastest, stone, smaller })
    }

    /// The draw of one size that was counted.
    pub(crate) fn of_size(&self, size: Length) -> Option<&Thrown> {
        if size == self.stone.value {
            return Some(&self.thrown);
        }
        self.smaller.iter().find(|(one, _)| *one == size).map(|(_, thrown)| thrown)
    }

    /// Whether any deflector counts.
    pub(crate) fn is_guarded(&self) -> bool {
        self.geometry.guards.iter().any(|guard| guard.is_working)
    }

    /// The largest stone and the tyres, as inputs.
    pub(crate) fn stone_inputs(&self, flight: &Flight) -> Vec<BasisInput> {
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

impl Strike {
    fn of(geometry: &StoneGeometry, thrown: &Thrown, index: usize, zone: &Zone) -> Known<Self> {
        let on_zone = |path: &StonePath, guarded: &dyn Fn(usize) -> bool| -> Option<Energy> {
            let stands = |surface| geometry.stands(surface, FlapPlace::Down, guarded);
            let end = path.end(stands)?;
            let is_here = geometry.zone_of(end.surface()) == Some(index);
            let blade =
                zone.blade_speed.as_ref().filter(|_| zone.part == Some(ZonePart::Propeller));
            let energy = match blade {
                Some(speed) => thrown.energy_across(end, speed.value).ok()?,
                None => end.energy(),
            };
            is_here.then_some(energy)
        };
        let hits = |guarded: &dyn Fn(usize) -> bool| {
            let energies = thrown.paths().iter().filter_map(|path| on_zone(path, guarded));
            Hits {
                share: thrown.share(|path| on_zone(path, guarded).is_some()),
                greatest: energies.fold(Energy::from_si(0.0), Energy::max),
            }
        };
        let working = |guard| geometry.is_working(guard);
        let with = hits(&working);
        let refused = |error| Unavailable::refused("thrown stones", &error);
        let nose = thrown.share(|path| {
            geometry.leg(path) == Some(LegKind::Nose) && on_zone(path, &working).is_some()
        });
        Ok(Self {
            zone: zone.clone(),
            without: hits(&|_| false),
            nose: if with.share.si() > 0.0 { nose / with.share.si() } else { ratio(0.0) },
            band: DamageBand::of(with.greatest).map_err(refused)?,
            with,
        })
    }

    /// Order by name, for strikes of one energy.
    pub(crate) fn order(&self, other: &Self) -> std::cmp::Ordering {
        self.zone.name.value.cmp(&other.zone.name.value)
    }
}

impl Stop {
    fn of(geometry: &StoneGeometry, thrown: &Thrown, index: usize, guard: &Guard) -> Self {
        let strikes = |path: &StonePath, guarded: &dyn Fn(usize) -> bool| {
            let end = path.end(|surface| geometry.stands(surface, FlapPlace::Down, guarded));
            end.is_some_and(|end| geometry.zone_of(end.surface()).is_some())
        };
        let all = thrown.share(|path| strikes(path, &|_| false));
        let left = thrown.share(|path| strikes(path, &|guard| guard == index));
        let share = all - left;
        let of_strikes = if all.si() > 0.0 { share / all.si() } else { ratio(0.0) };
        Self { guard: guard.clone(), share, of_strikes }
    }
}

/// Loose stones on a square metre of a patch: as stated, or those of its sizes.
pub(crate) fn stones_per_square_metre(patch: &Patch) -> Option<f64> {
    let stated = patch.stones_per_square_metre.as_ref().map(|given| given.value);
    let by_size = || patch.sizes.iter().map(|size| size.stones_per_square_metre.value).sum();
    stated.or_else(|| (!patch.sizes.is_empty()).then(by_size))
}

/// The largest stone of all patches; none where one of them does not say.
pub(crate) fn largest_stone(patches: &[Patch]) -> Option<Given<Length>> {
    let sizes: Option<Vec<&Given<Length>>> =
        patches.iter().map(|patch| patch.largest_stone.as_ref()).collect();
    sizes?.into_iter().reduce(|a, b| if b.value > a.value { b } else { a }).cloned()
}

/// The greatest ground speed of the planned movements.
fn fastest(measured: &Measured) -> Known<Speed> {
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
