//! Weights, loads of the legs, and coverages.

use super::{figure, results};
use crate::assess::figure_basis::FigureBasis;
use crate::context::Context;
use crate::draft::{constant, derived, given, given_as, plain_step, wheel_count, wheel_distance};
use crate::ground::LegKind;
use crate::ground::strength_finding::{load_inputs, wander_input};
use crate::ground::strength_number::classification;
use crate::run_basis::by_station;
use hardpan_model::{BasisInput, Source, Step, Tier};
use hardpan_quantity::{Amount, Force, Quantity, STANDARD_GRAVITY_M_PER_S2};

const GRAVITY: Source = Source::new("TEXTBOOK-PHYSICS", "standard gravity, m/s²", Tier::Derived);
const BY_MOMENTS: &str = "N = W (x_main − x_cg) c / b, M = (W − N) / legs";

pub(super) fn figures(context: &Context<'_>) -> Vec<FigureBasis> {
    [
        figure("the heavier planned movement", weight(context)),
        figure("moments about the main gear", standing(context)),
        figure("loads of the legs", greatest(context)),
        figure("wander of the wheels", coverages(context)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn weight(context: &Context<'_>) -> Vec<Step> {
    let flight = context.flight;
    let masses = [
        flight.landing.as_ref().and_then(|plan| plan.mass.as_ref()),
        flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref()),
    ];
    let heaviest =
        masses.into_iter().flatten().max_by(|a, b| a.value.si().total_cmp(&b.value.si()));
    let Some(mass) = heaviest else { return Vec::new() };
    let gravity = Amount::coefficient(STANDARD_GRAVITY_M_PER_S2);
    vec![plain_step(
        "weight of the heavier planned movement",
        "mass × gravity",
        derived("weight of a mass"),
        vec![
            given("mass", mass).under("mass"),
            constant("gravity", gravity, GRAVITY).under("gravity"),
        ],
        Force::from_si(mass.value.si() * STANDARD_GRAVITY_M_PER_S2),
    )]
}

fn standing(context: &Context<'_>) -> Vec<Step> {
    let flight = context.flight;
    let inputs = load_inputs(flight);
    let mut named: Vec<(&'static str, Amount)> = Vec::new();
    if let Ok(standing) = &context.measured.standing {
        named.push(("static load of a main leg", standing.main_leg.into()));
        named.push(("static load of the nose leg", standing.nose_leg.into()));
    }
    let planned = [
        flight.landing.as_ref().map(|plan| (&plan.mass, &plan.centre_of_gravity)),
        flight.take_off.as_ref().map(|plan| (&plan.mass, &plan.centre_of_gravity)),
    ];
    if let Ok(tyre) = &context.measured.main_tyre {
        let share = |(mass, centre): (
            &Option<hardpan_model::Given<_>>,
            &Option<hardpan_model::Given<_>>,
        )| {
            let (mass, centre) = (mass.as_ref()?.value, centre.as_ref()?.value);
            let found = classification(flight, context.measured, mass, centre, tyre.set).ok()?;
            Some(("share of the weight on one main leg", found.share.into()))
        };
        named.extend(planned.into_iter().flatten().filter_map(share));
    }
    results(&inputs, (BY_MOMENTS, derived("moments about the main gear")), named)
}

fn greatest(context: &Context<'_>) -> Vec<Step> {
    let Ok(loads) = &context.measured.loads else { return Vec::new() };
    let mut inputs = load_inputs(context.flight);
    inputs.extend([true, false].into_iter().filter_map(|one| by_station(context.measured, one)));
    let named = [
        ("greatest load of a main leg", Amount::from(loads.greatest(LegKind::Main))),
        ("greatest load of the nose leg", loads.greatest(LegKind::Nose).into()),
    ];
    let how = "greatest of the landing, take-off and rejected take-off at any station, and the \
               static load where the aeroplane taxis";
    results(&inputs, (how, derived("moments about the main gear")), named)
}

fn coverages(context: &Context<'_>) -> Vec<Step> {
    let Ok(ground) = &context.measured.ground else { return Vec::new() };
    let flight = context.flight;
    let kinds = [
        (LegKind::Main, &context.measured.main_carried),
        (LegKind::Nose, &context.measured.nose_carried),
    ];
    let mut steps = Vec::new();
    for (kind, carried) in kinds {
        let leg = kind.leg(flight);
        let (coverages, per_pass) = ground.coverages(kind);
        let mut inputs: Vec<BasisInput> =
            leg.tyre.width.iter().map(|width| given("section width of a tyre", width)).collect();
        inputs.push(wander_input(flight));
        inputs.push(wheel_count(leg.wheels.as_ref()));
        inputs.push(wheel_distance("distance beside", leg.spacing.as_ref()));
        inputs.push(wheel_distance("distance behind", leg.tandem_spacing.as_ref()));
        inputs.extend(flight.aeroplane.gear.track.iter().map(|track| given("track", track)));
        steps.push(plain_step(
            &format!("coverages of one pass, {} wheels", kind.word()),
            "greatest sum over all tracks of the share of passes whose tyre covers a point, by \
             normal wander",
            hardpan_ground::PASSES_PER_COVERAGE.source,
            inputs,
            Amount::coefficient(per_pass),
        ));
        let of_one = steps.len() - 1;
        let passes = flight.passes.iter();
        let passes = passes.map(|one| given_as("passes", one, Amount::count(one.value)));
        let mut inputs: Vec<BasisInput> = passes.collect();
        inputs.push(crate::assess::figure_basis::of_step(
            "coverages of one pass",
            Amount::coefficient(per_pass),
            of_one,
        ));
        let least = carried.as_ref().map_or(coverages, |(_, table)| table.coverages());
        steps.push(plain_step(
            &format!("coverages of the passes, {} wheels", kind.word()),
            "passes × coverages of one pass; fewer than 10 count as 10",
            hardpan_ground::PASSES_PER_COVERAGE.source,
            inputs,
            Amount::coefficient(least),
        ));
    }
    steps
}
