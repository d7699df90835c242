//! The load of a leg as a step of a basis: standing, and where the runs bring more.

use super::LegKind;
use crate::context::Context;
use crate::draft::{beside, computed, derived, given, given_as, gravity, plain_step};
use crate::run_basis::by_station;
use hardpan_model::{BasisInput, Step};
use hardpan_quantity::{Amount, Force};

/// Name of the figure that holds the static loads.
pub(crate) const MOMENTS: &str = "moments about the main gear";
const OF_RUNS: &str =
    "the landing, the take-off and the rejected take-off, station by station: lift, drag, brakes";

/// Loads that differ by less than this share are the same.
const ALIKE: f64 = 1e-9;

/// A load that comes to a station of the ground, from standing and from the runs.
pub(crate) fn load_there(context: &Context<'_>, kind: LegKind, name: &str, load: Force) -> Step {
    let (rule, inputs) = there(context, kind, load);
    plain_step(name, rule, derived(MOMENTS), inputs, load)
}

fn there(context: &Context<'_>, kind: LegKind, load: Force) -> (&'static str, Vec<BasisInput>) {
    let standing = standing(context, kind);
    let input = |standing: Force| computed("static load", standing, MOMENTS).under("static load");
    let run = || beside("greatest of the runs", load, OF_RUNS).under("run");
    let runs = [true, false].into_iter().filter_map(|one| by_station(context.measured, one));
    let (rule, mut inputs) = match standing {
        Some(standing) if standing == load => {
            ("static load; no run brings more there", vec![input(standing)])
        }
        Some(standing) if standing < load => {
            ("greater of run and static load", vec![run(), input(standing)])
        }
        _ => ("run; the aeroplane does not taxi there", vec![run()]),
    };
    inputs.extend(runs);
    (rule, inputs)
}

fn standing(context: &Context<'_>, kind: LegKind) -> Option<Force> {
    let standing = context.measured.standing.as_ref().ok()?;
    Some(match kind {
        LegKind::Main => standing.main_leg,
        LegKind::Nose => standing.nose_leg,
    })
}

/// The load as planned beneath what a rule makes of it.
pub(crate) fn as_planned(context: &Context<'_>, kind: LegKind, load: Force) -> BasisInput {
    let is_same = |one: &Force| (*one - load).abs() <= load.abs() * ALIKE;
    let input = match standing(context, kind).filter(is_same) {
        Some(standing) => computed("load as planned", standing, MOMENTS),
        None => beside("load as planned", load, OF_RUNS),
    };
    input.under("load as planned")
}

/// A standing load of a leg, from a mass and a centre of gravity; none where the
/// aeroplane file does not tell the arms.
pub(crate) fn standing_steps(
    context: &Context<'_>,
    kind: LegKind,
    name: &str,
    (mass, centre): (BasisInput, BasisInput),
    load: Force,
) -> Option<[Step; 2]> {
    let (balance, gear) = (&context.flight.aeroplane.balance, &context.flight.aeroplane.gear);
    let legs = kind.leg(context.flight).legs.as_ref()?;
    let weight =
        Amount::new(hardpan_quantity::Dimension::Force, mass.amount.si * gravity().amount.si);
    let of_weight = plain_step(
        "weight",
        "mass × gravity",
        derived("weight of a mass"),
        vec![mass.under("mass"), gravity().under("gravity")],
        weight,
    );
    let rule = match kind {
        LegKind::Main => "W × (1 − (main gear − centre) × chord / wheelbase) / legs",
        LegKind::Nose => "W × (main gear − centre) × chord / wheelbase / legs",
    };
    let inputs = vec![
        crate::ground::two_layers::from_step("weight", weight, 0).under("W"),
        given("main gear on the chord", balance.main_gear_at.as_ref()?).under("main gear"),
        centre.under("centre"),
        given("mean chord", balance.mean_chord.as_ref()?).under("chord"),
        given("wheelbase", gear.wheelbase.as_ref()?).under("wheelbase"),
        given_as("legs", legs, Amount::count(f64::from(legs.value))).under("legs"),
    ];
    Some([of_weight, plain_step(name, rule, derived(MOMENTS), inputs, load)])
}
