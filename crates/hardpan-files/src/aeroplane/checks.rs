//! Values of one aeroplane that do not go together.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::list;
use crate::diagnose::page::{Page, shortened};
use hardpan_model::{Aeroplane, EngineKind, Given, Leg, Origin};
use hardpan_quantity::{Amount, Quantity, UnitSystem};
use std::collections::BTreeMap;

/// Note what does not go together.
pub(crate) fn check(page: &Page<'_>, aeroplane: &Aeroplane) {
    masses(page, aeroplane);
    let balance = &aeroplane.balance;
    in_order(page, &balance.forward_limit, &balance.aft_limit);
    for leg in [&aeroplane.gear.main, &aeroplane.gear.nose] {
        pressures(page, leg);
    }
    let speeds = &aeroplane.speeds;
    in_order(page, &speeds.rotation, &speeds.lift_off);
    in_order(page, &speeds.lift_off, &speeds.safety);
    names(page, "flap", aeroplane.flaps.iter().map(|flap| &flap.name));
    names(page, "equipment", aeroplane.equipment.iter().map(|one| &one.name));
    names(page, "zone", aeroplane.zones.iter().map(|one| &one.name));
    names(page, "clearance", aeroplane.clearances.iter().map(|one| &one.name));
    for leg in [&aeroplane.gear.main, &aeroplane.gear.nose] {
        in_order(page, &leg.tyre.flat_radius, &leg.tyre.loaded_radius);
        in_order(page, &leg.tyre.flange_diameter, &leg.tyre.diameter);
    }
    engines(page, aeroplane);
    brakes(page, aeroplane);
    charts(page, aeroplane);
}

/// A chart holds for one of the aeroplane's flap settings.
fn charts(page: &Page<'_>, aeroplane: &Aeroplane) {
    let known: Vec<&str> = aeroplane.flaps.iter().map(|flap| flap.name.value.as_str()).collect();
    for flap in aeroplane.charts.iter().filter_map(|chart| chart.flap.as_ref()) {
        if !known.contains(&flap.value.as_str()) {
            let advice = "name one of the flap settings of this file".to_owned();
            let mistake =
                Mistake::UnknownFlap { flap: shortened(&flap.value), known: list(&known), advice };
            page.report(page.value_at(&flap.origin), &mistake);
        }
    }
}

fn masses(page: &Page<'_>, aeroplane: &Aeroplane) {
    let mass = &aeroplane.mass;
    in_order(page, &mass.minimum, &mass.maximum_take_off);
    in_order(page, &mass.minimum, &mass.maximum_landing);
    in_order(page, &mass.maximum_landing, &mass.maximum_take_off);
    in_order(page, &mass.maximum_zero_fuel, &mass.maximum_take_off);
    in_order(page, &mass.operating, &mass.maximum_zero_fuel);
    in_order(page, &mass.operating, &mass.maximum_take_off);
}

fn pressures(page: &Page<'_>, leg: &Leg) {
    let tyre = &leg.tyre;
    in_order(page, &tyre.minimum_pressure, &tyre.maximum_pressure);
    in_order(page, &tyre.minimum_pressure, &tyre.rated_pressure);
    let rows = tyre.chart.iter().map(|row| &row.pressure);
    for pressure in rows.chain(tyre.load_table.iter().map(|row| &row.pressure)) {
        let pressure = Some(pressure.clone());
        in_order(page, &tyre.minimum_pressure, &pressure);
        in_order(page, &pressure, &tyre.maximum_pressure);
    }
}

/// The first value must not exceed the second.
pub(crate) fn in_order<Q: Quantity>(
    page: &Page<'_>,
    low: &Option<Given<Q>>,
    high: &Option<Given<Q>>,
) {
    let (Some(low), Some(high)) = (low, high) else {
        return;
    };
    if low.value.si() <= high.value.si() {
        return;
    }
    let mistake = Mistake::OutOfOrder {
        lower: low.origin.key.to_string(),
        low: page.written(&low.origin),
        upper: high.origin.key.to_string(),
        high: page.written(&high.origin),
    };
    page.report_with(
        page.value_at(&low.origin),
        &mistake,
        page.value_at(&high.origin),
        "the other value",
    );
}

fn names<'n>(page: &Page<'_>, list: &str, names: impl Iterator<Item = &'n Given<String>>) {
    let mut seen: BTreeMap<&str, &Given<String>> = BTreeMap::new();
    for name in names {
        let Some(first) = seen.get(name.value.as_str()) else {
            seen.insert(&name.value, name);
            continue;
        };
        let mistake =
            Mistake::DuplicateName { list: list.to_owned(), name: shortened(&name.value) };
        let (here, other) = (page.value_at(&name.origin), page.value_at(&first.origin));
        page.report_with(here, &mistake, other, "the first of the two");
    }
}

fn engines(page: &Page<'_>, aeroplane: &Aeroplane) {
    let engines = &aeroplane.engines;
    let others: Vec<&Origin> = match engines.kind.as_ref().map(|kind| kind.value) {
        Some(EngineKind::Turbofan) => [
            engines.shaft_power.as_ref().map(|value| &value.origin),
            engines.propeller_diameter.as_ref().map(|value| &value.origin),
            engines.propeller_efficiency.as_ref().map(|value| &value.origin),
            engines.propeller_height.as_ref().map(|value| &value.origin),
        ]
        .into_iter()
        .flatten()
        .collect(),
        Some(EngineKind::Turboprop) => [
            engines.static_thrust.as_ref().map(|value| &value.origin),
            engines.bypass_ratio.as_ref().map(|value| &value.origin),
            engines.air_flow.as_ref().map(|value| &value.origin),
            engines.dissipators.as_ref().map(|value| &value.origin),
            engines.reverse.efflux_diameter.as_ref().map(|value| &value.origin),
        ]
        .into_iter()
        .flatten()
        .collect(),
        None => Vec::new(),
    };
    let kind = crate::aeroplane::ENGINE_KINDS
        .iter()
        .find(|(_, kind)| Some(*kind) == engines.kind.as_ref().map(|kind| kind.value));
    for origin in others {
        let kind = kind.map_or("", |(word, _)| word).to_owned();
        page.report(
            page.value_at(origin),
            &Mistake::OtherEngine { key: origin.key.to_string(), kind },
        );
    }
    if let (Some(height), Some(diameter)) = (&engines.inlet_height, &engines.inlet_diameter) {
        let radius = diameter.value / 2.0;
        if height.value.si() <= radius.si() {
            let show = |length| Amount::from(length).show(UnitSystem::Metric);
            let mistake =
                Mistake::InletBelowGround { height: show(height.value), radius: show(radius) };
            page.report(page.value_at(&height.origin), &mistake);
        }
    }
}

fn brakes(page: &Page<'_>, aeroplane: &Aeroplane) {
    let main = &aeroplane.gear.main;
    if let (Some(braked), Some(legs), Some(wheels)) =
        (&aeroplane.brakes.wheels, &main.legs, &main.wheels)
    {
        let wheels = legs.value.saturating_mul(wheels.value);
        if braked.value > wheels {
            page.report(
                page.value_at(&braked.origin),
                &Mistake::TooManyBrakes { braked: braked.value, wheels },
            );
        }
    }
}
