//! The load that a wind from the side moves to the lee leg.

use crate::draft::{computed, given, need, plain_step};
use crate::measure::heavier_mass;
use crate::measured::{Known, Measured, Unavailable};
use hardpan_model::{BasisInput, Flight, Gear, Source, Step, Tier};
use hardpan_quantity::{Force, Mass, Quantity, STANDARD_GRAVITY_M_PER_S2, Speed};
use hardpan_run::{Air, WindComponents};

pub(crate) const SOURCE: Source =
    Source::new("", "moments about the windward wheels", Tier::Derived);

/// Whether the aeroplane file tells how the wind leans it.
pub(crate) fn stated(gear: &Gear) -> bool {
    let force = gear.side_force_area.is_some() && gear.side_force_height.is_some();
    force || gear.crosswind_share.is_some()
}

/// The air that leans the aeroplane, and the winds of its movements.
#[derive(Clone, Copy)]
pub(crate) struct Blowing<'a> {
    pub(crate) air: &'a Known<Air>,
    pub(crate) winds: [&'a Option<Known<WindComponents>>; 2],
}

/// The load that the wind moves to the lee leg.
pub(crate) fn moved_load(flight: &Flight, measured: &Measured, mass: Mass) -> Known<Step> {
    let winds = [&measured.landing_wind, &measured.take_off_wind];
    moved_by(flight, Blowing { air: &measured.air, winds }, mass)
}

/// The same before the measures stand together.
pub(crate) fn moved_by(flight: &Flight, blowing: Blowing<'_>, mass: Mass) -> Known<Step> {
    let gear = &flight.aeroplane.gear;
    let by_force = side_force(blowing, gear).transpose()?;
    let by_share = match &gear.crosswind_share {
        Some(share) => {
            let weight = Force::from_si(mass.si() * STANDARD_GRAVITY_M_PER_S2);
            let inputs = vec![
                given("share", share).under("share"),
                computed("weight", weight, "the heavier planned movement").under("weight"),
            ];
            let moved = weight * share.value.si();
            Some(step("share × weight", inputs, moved))
        }
        None => None,
    };
    [by_force, by_share]
        .into_iter()
        .flatten()
        .max_by(|a, b| a.result.si.total_cmp(&b.result.si))
        .ok_or_else(|| Unavailable::missing("the load on the lee leg", Vec::new()))
}

fn side_force(blowing: Blowing<'_>, gear: &Gear) -> Option<Known<Step>> {
    let (area, height) = (gear.side_force_area.as_ref()?, gear.side_force_height.as_ref()?);
    let moved = || {
        let Some(track) = &gear.track else {
            let wanted = need("aeroplane: gear.track", "between the main legs");
            return Err(Unavailable::missing("the load on the lee leg", vec![wanted]));
        };
        let density = blowing.air.as_ref().map_err(Clone::clone)?.density();
        let wind = crosswind(blowing)?;
        let dynamic = 0.5 * density.si() * wind.si().powi(2);
        let moved = dynamic * area.value.si() * height.value.si() / track.value.si();
        let inputs = vec![
            computed("air density", density, "air of the day").under("ρ"),
            computed("crosswind", wind, "wind of the day, gusts included").under("v"),
            given("side force area", area).under("area"),
            given("height", height).under("height"),
            given("track", track).under("track"),
        ];
        Ok(step("ρ × v² / 2 × area × height / track", inputs, Force::from_si(moved)))
    };
    Some(moved())
}

fn step(expression: &str, inputs: Vec<BasisInput>, moved: Force) -> Step {
    plain_step("load that the wind moves to the lee leg", expression, SOURCE, inputs, moved)
}

/// The greatest crosswind of the movements planned.
fn crosswind(blowing: Blowing<'_>) -> Known<Speed> {
    let mut greatest = Speed::from_si(0.0);
    for wind in blowing.winds.into_iter().flatten() {
        let crosswind = wind.as_ref().map_err(Clone::clone)?.crosswind;
        greatest = greatest.max(Speed::from_si(crosswind.si().abs()));
    }
    Ok(greatest)
}

/// Loads of the main legs with that load on top wherever a wheel stands.
pub(crate) fn raised(loads: &[Force], moved: Force) -> Vec<Force> {
    let on_top = |load: &Force| if load.si() > 0.0 { *load + moved } else { *load };
    loads.iter().map(on_top).collect()
}

/// The heavier of the movements planned.
pub(crate) fn heaviest(flight: &Flight) -> Known<Mass> {
    heavier_mass(flight).ok_or_else(|| {
        Unavailable::missing("the weight", vec![need("flight: mass", "of each movement")])
    })
}
