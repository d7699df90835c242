//! Weights, loads of the legs, and coverages.

use super::{after, figure};
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::context::Context;
use crate::draft::{derived, given, given_as, gravity, plain_step, wheel_count, wheel_distance};
use crate::ground::LegKind;
use crate::ground::leg_load::{MOMENTS, load_there, standing_steps};
use crate::ground::strength_finding::wander_input;
use crate::ground::strength_number::classification;
use hardpan_model::{BasisInput, Flight, Given, Step};
use hardpan_quantity::{Amount, Force, Mass, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2};

pub(super) fn figures(context: &Context<'_>) -> Vec<FigureBasis> {
    [
        figure("the heavier planned movement", weight(context)),
        figure(MOMENTS, standing(context)),
        figure("loads at the limit of balance", at_limits(context)),
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
    vec![plain_step(
        "weight of the heavier planned movement",
        "mass × gravity",
        derived("weight of a mass"),
        vec![given("mass", mass).under("mass"), gravity().under("gravity")],
        Force::from_si(mass.value.si() * STANDARD_GRAVITY_M_PER_S2),
    )]
}

/// Static loads of the planned movements, and the greater of both.
fn standing(context: &Context<'_>) -> Vec<Step> {
    let mut steps = Vec::new();
    let Ok(greatest) = &context.measured.standing else { return steps };
    let mut of_both = [Vec::new(), Vec::new()];
    for (movement, mass, centre) in planned(context.flight) {
        let Ok(arms) = &context.measured.arms else { continue };
        let Ok(loads) = arms.standing(mass.value, centre.value) else { continue };
        let legs = [(LegKind::Nose, loads.nose_leg), (LegKind::Main, loads.main_leg)];
        for ((kind, load), of_both) in legs.into_iter().zip(&mut of_both) {
            let name = format!("static load of a {} leg, {movement}", kind.word());
            let inputs = (given(&format!("{movement} mass"), mass), centre_input(centre));
            let found = standing_steps(context, kind, &name, inputs, load);
            let found = after(steps.len(), found.into_iter().flatten().collect());
            steps.extend(found);
            of_both.push(of_step(movement, load, steps.len().saturating_sub(1)).under(movement));
        }
        steps.extend(share(context, (mass, centre), steps.len().saturating_sub(1)));
    }
    let legs = [("nose", greatest.nose_leg), ("main", greatest.main_leg)];
    for ((word, load), inputs) in legs.into_iter().zip(of_both).filter(|(_, one)| one.len() > 1) {
        let rule = "greater of landing and take-off";
        let name = format!("static load of a {word} leg");
        steps.push(plain_step(&name, rule, derived(MOMENTS), inputs, load));
    }
    steps
}

/// The planned movements with mass and centre of gravity.
fn planned(flight: &Flight) -> Vec<(&'static str, &Given<Mass>, &Given<Ratio>)> {
    let landing = flight.landing.as_ref();
    let landing = landing.map(|plan| ("landing", &plan.mass, &plan.centre_of_gravity));
    let take_off = flight.take_off.as_ref();
    let take_off = take_off.map(|plan| ("take-off", &plan.mass, &plan.centre_of_gravity));
    let both = landing.into_iter().chain(take_off);
    both.filter_map(|(name, mass, centre)| Some((name, mass.as_ref()?, centre.as_ref()?))).collect()
}

fn centre_input(centre: &Given<Ratio>) -> BasisInput {
    given("centre of gravity", centre)
}

/// The share of the weight on one main leg, whose load stands in the step before.
fn share(
    context: &Context<'_>,
    (mass, centre): (&Given<Mass>, &Given<Ratio>),
    leg: usize,
) -> Option<Step> {
    let set = context.measured.main_tyre.as_ref().ok()?.set;
    let found =
        classification(context.flight, context.measured, mass.value, centre.value, set).ok()?;
    let load = context.measured.arms.as_ref().ok()?.standing(mass.value, centre.value).ok()?;
    let weight = Force::from_si(mass.value.si() * STANDARD_GRAVITY_M_PER_S2);
    Some(plain_step(
        "share of the weight on one main leg",
        "leg / weight",
        derived("a ratio of two forces"),
        vec![
            of_step("load of the leg", load.main_leg, leg).under("leg"),
            of_step("weight", weight, leg.saturating_sub(1)).under("weight"),
        ],
        found.share,
    ))
}

fn greatest(context: &Context<'_>) -> Vec<Step> {
    let Ok(loads) = &context.measured.loads else { return Vec::new() };
    [(LegKind::Main, "a main leg"), (LegKind::Nose, "the nose leg")]
        .map(|(kind, leg)| {
            let name = format!("greatest load of {leg} at any station");
            load_there(context, kind, &name, loads.greatest(kind))
        })
        .into()
}

/// Loads with the centre of gravity at its limits.
fn at_limits(context: &Context<'_>) -> Vec<Step> {
    let balance = &context.flight.aeroplane.balance;
    let limits = [
        (LegKind::Main, balance.aft_limit.as_ref()),
        (LegKind::Nose, balance.forward_limit.as_ref()),
    ];
    let mut steps = Vec::new();
    for (kind, limit) in limits {
        let Some(limit) = limit else { continue };
        for (movement, mass, _) in planned(context.flight) {
            let Ok(arms) = &context.measured.arms else { continue };
            let Ok(loads) = arms.standing(mass.value, limit.value) else { continue };
            let load = if kind == LegKind::Main { loads.main_leg } else { loads.nose_leg };
            let name = format!("static load of a {} leg at the limit, {movement}", kind.word());
            let inputs = (given(&format!("{movement} mass"), mass), given("limit", limit));
            let found = standing_steps(context, kind, &name, inputs, load);
            steps.extend(after(steps.len(), found.into_iter().flatten().collect()));
        }
    }
    steps
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
        let mut inputs: Vec<BasisInput> = passes.map(|one| one.under("passes")).collect();
        let of_one = of_step("coverages of one pass", Amount::coefficient(per_pass), of_one);
        inputs.push(of_one.under("coverages of one pass"));
        let least = carried.as_ref().map_or(coverages, |(_, table)| table.coverages());
        steps.push(plain_step(
            &format!("coverages of the passes, {} wheels", kind.word()),
            "greater of passes × coverages of one pass and 10; fewer than 10 count as 10",
            hardpan_ground::PASSES_PER_COVERAGE.source,
            inputs,
            Amount::coefficient(least),
        ));
    }
    steps
}
