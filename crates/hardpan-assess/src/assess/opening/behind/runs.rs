//! What the integrated runs give besides their distances.

use super::{after, figure, results, speeds};
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::context::Context;
use crate::draft::{derived, given, plain_step};
use crate::run_basis::{
    FULL_THRUST, LANDING_RUN, MOTION, TAKE_OFF_RUN, run_step, rut_input, thrust_inputs,
};
use hardpan_model::{BasisInput, RunTrace, Step};
use hardpan_quantity::{Amount, Quantity, Speed, percent};
use hardpan_run::{CarriedOn, ClimbPath, LandingRun, TakeOffRun};

const SAME_RUN: &str = "of the same run, by station";

pub(super) fn figures(context: &Context<'_>) -> Vec<FigureBasis> {
    let measured = context.measured;
    let take_off = measured.take_off.as_ref().and_then(|run| run.as_ref().ok());
    let landing = measured.landing.as_ref().and_then(|run| run.as_ref().ok());
    let full = full_thrust(context);
    [
        take_off.and_then(|run| figure(TAKE_OFF_RUN, take_off_steps(context, run))),
        full.and_then(|run| figure(FULL_THRUST, full_thrust_steps(context, &run))),
        landing.and_then(|run| figure(LANDING_RUN, landing_steps(context, run))),
        figure("the go-around", go_around(context)),
        figure("thrust of the runs", thrust(context)),
        figure("distances declared", declared(context)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The step of the run itself, and one for each of its results.
fn of_run(run: Step, named: Vec<(&'static str, Amount)>) -> Vec<Step> {
    let whole = [of_step("the run", run.result, 0)];
    [run].into_iter().chain(results(&whole, (SAME_RUN, MOTION), named)).collect()
}

fn take_off_inputs(context: &Context<'_>) -> Vec<BasisInput> {
    let flight = context.flight;
    let plan = flight.take_off.as_ref();
    let mass = plan.and_then(|plan| plan.mass.as_ref()).map(|mass| given("take-off mass", mass));
    let centre = plan.and_then(|plan| plan.centre_of_gravity.as_ref());
    let centre = centre.map(|centre| given("centre of gravity", centre));
    mass.into_iter()
        .chain(centre)
        .chain(thrust_inputs(flight))
        .chain(rut_input(context.measured))
        .collect()
}

fn take_off_steps(context: &Context<'_>, run: &TakeOffRun) -> Vec<Step> {
    let plan = context.flight.take_off.as_ref();
    let flap = plan.and_then(|plan| plan.flap.as_ref());
    let what = "all-engine distance to the screen";
    let inputs = take_off_inputs(context);
    let whole =
        run_step(what, context.flight, context.measured, flap, inputs, run.all_engines.screen);
    let mut named: Vec<(&'static str, Amount)> = plan
        .and_then(|plan| plan.mass.as_ref())
        .map(|one| ("mass", one.value.into()))
        .into_iter()
        .collect();
    named.extend(carried(&run.all_engines));
    named.extend(speeds(run));
    if let Some(decision) = &run.decision {
        named.extend(decision.carried_on.as_ref().map(carried).into_iter().flatten());
        named.extend([
            ("decision speed", decision.speed.into()),
            ("ground speed at the decision", decision.ground_speed.into()),
            ("lowest decision speed", decision.lowest.into()),
            ("highest decision speed", decision.highest.into()),
            ("distance to a stop after the failure", decision.stop.into()),
            ("distance to a stop on all engines", decision.stop_all_engines.into()),
        ]);
        named.extend(decision.brake_limit.map(|one| ("highest speed for the brakes", one.into())));
    }
    named.extend(run.distance_needed.map(|one| ("take-off distance needed", one.into())));
    named.extend(run.run_needed.map(|one| ("take-off run needed", one.into())));
    named.extend(run.accelerate_stop_needed.map(|one| ("accelerate-stop distance", one.into())));
    named.extend(
        run.side_grip
            .as_ref()
            .map(|grip| ("coefficient across", Amount::coefficient(grip.coefficient.si()))),
    );
    named.push(("energy of one brake", run.brake_energy.into()));
    named.extend(at_thrust(context, run));
    named.extend(climb(run));
    named.extend(run.climb_path.as_ref().map(path).into_iter().flatten());
    named.extend(fastest([&run.trace, &run.rejected_trace]));
    of_run(whole, named)
}

fn carried(carried: &CarriedOn) -> [(&'static str, Amount); 5] {
    [
        ("distance to rotation", carried.rotation.into()),
        ("distance to lift-off", carried.lift_off.into()),
        ("distance to the screen", carried.screen.into()),
        ("distance to half way between lift-off and screen", carried.half_way.into()),
        ("ground speed at lift-off", carried.lift_off_ground_speed.into()),
    ]
}

fn speeds(run: &TakeOffRun) -> Vec<(&'static str, Amount)> {
    let all = &run.speeds;
    let bounded = [Some(all.rotation), Some(all.lift_off), Some(all.safety), all.control];
    let mut named: Vec<(&'static str, Amount)> = bounded
        .into_iter()
        .flatten()
        .flat_map(|speed| {
            [
                ("calibrated airspeed", speed.calibrated.into()),
                ("true airspeed of it in the air of the day", speed.true_airspeed.into()),
            ]
        })
        .collect();
    named.push(("greatest ground speed on the wheels", run.lift_off_ground_speed.into()));
    named
}

fn at_thrust(context: &Context<'_>, run: &TakeOffRun) -> Vec<(&'static str, Amount)> {
    let full = run.full_thrust.at(Speed::default());
    let engines = context.flight.aeroplane.engines.count.as_ref().map_or(1, |count| count.value);
    vec![
        ("thrust of all engines, standing", full.into()),
        ("thrust of one engine, standing", (full / f64::from(engines.max(1))).into()),
    ]
}

fn climb(run: &TakeOffRun) -> Vec<(&'static str, Amount)> {
    let mut named = vec![("gradient on all engines", run.climb.all_engines.into())];
    if let Some(climb) = run.climb.engine_out {
        named.push(("gradient with one engine out, gear down", climb.gear_down.into()));
        named.push(("gradient with one engine out, gear up", climb.gear_up.into()));
    }
    named
}

fn path(path: &ClimbPath) -> Vec<(&'static str, Amount)> {
    let [down, up] = path.gross_gradients();
    let mut named = vec![
        ("gross gradient over the ground, gear down", Amount::from(down)),
        ("gross gradient over the ground, gear up", up.into()),
        ("what the rule takes off, by the number of engines", path.reduction().into()),
    ];
    named.extend(path.gear_up_beyond().map(|at| ("gear is up beyond it at", at.into())));
    named.extend(path.level_beyond().map(|at| ("levelled off beyond it at", at.into())));
    named
}

/// Ground speeds of a trace, point by point: any of them may be asked for.
fn fastest<'a>(
    traces: impl IntoIterator<Item = &'a Option<RunTrace>>,
) -> Vec<(&'static str, Amount)> {
    let points = traces.into_iter().flatten().flat_map(|trace| &trace.points);
    points.map(|point| ("ground speed at a station", point.ground_speed.into())).collect()
}

fn full_thrust(context: &Context<'_>) -> Option<TakeOffRun> {
    let mass = context.flight.take_off.as_ref()?.mass.as_ref()?.value;
    let case = context.measured.take_off_case.as_ref()?.as_ref().ok()?;
    case.at_full_thrust().run(mass, false).ok()
}

fn full_thrust_steps(context: &Context<'_>, run: &TakeOffRun) -> Vec<Step> {
    let plan = context.flight.take_off.as_ref();
    let flap = plan.and_then(|plan| plan.flap.as_ref());
    let mass = plan.and_then(|plan| plan.mass.as_ref()).map(|mass| given("take-off mass", mass));
    let inputs = mass.into_iter().chain(rut_input(context.measured)).collect();
    let what = "all-engine distance to the screen, full thrust at brake release";
    let whole =
        run_step(what, context.flight, context.measured, flap, inputs, run.all_engines.screen);
    let needed = run.distance_needed.map(|one| ("take-off distance needed", one.into()));
    of_run(whole, needed.into_iter().collect())
}

fn landing_steps(context: &Context<'_>, run: &LandingRun) -> Vec<Step> {
    let plan = context.flight.landing.as_ref();
    let mass = plan.and_then(|plan| plan.mass.as_ref()).map(|mass| given("landing mass", mass));
    let centre = plan.and_then(|plan| plan.centre_of_gravity.as_ref());
    let centre = centre.map(|centre| given("centre of gravity", centre));
    let target = plan.and_then(|plan| plan.brake_target.as_ref());
    let target = target.map(|target| given("target of the automatic brakes", target));
    let inputs = mass.into_iter().chain(centre).chain(target).collect();
    let flap = plan.and_then(|plan| plan.flap.as_ref());
    let whole =
        run_step("landing distance", context.flight, context.measured, flap, inputs, run.stop);
    let mut named = vec![
        ("reference speed", Amount::from(run.reference.calibrated)),
        ("true airspeed of it", run.reference.true_airspeed.into()),
        ("speed over the threshold", run.threshold_speed.into()),
        ("touchdown speed", run.touchdown_speed.into()),
        ("ground speed at touchdown", run.touchdown_ground_speed.into()),
        ("distance to touchdown", run.touchdown.into()),
        ("distance to where the brakes act", run.brakes_on.into()),
        ("distance needed", run.distance_needed.into()),
        ("energy of one brake", run.brake_energy.into()),
    ];
    named
        .extend(run.late_stop.map(|one| ("distance to a stop after a late touchdown", one.into())));
    named.extend(fastest([&run.trace]));
    of_run(whole, named)
}

fn go_around(context: &Context<'_>) -> Vec<Step> {
    let mass = context.flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
    let case = context.measured.landing_case.as_ref().and_then(|case| case.as_ref().ok());
    let climb = case.zip(mass).and_then(|(case, mass)| case.go_around(mass.value).ok());
    let (Some(climb), Some(mass)) = (climb, mass) else {
        return Vec::new();
    };
    let plan = context.flight.landing.as_ref();
    let flaps = plan.map(|plan| [plan.go_around_flap.as_ref(), plan.flap.as_ref()]);
    let [going_around, landing] = flaps.unwrap_or_default();
    let mut steps = Vec::new();
    let climbs = climb.engine_out.map(|one| (going_around, one));
    for (flap, climb) in climbs.into_iter().chain([(landing, climb.all_engines)]) {
        let found = speeds::climbing(context, (Some(mass), flap), climb.true_airspeed);
        steps.extend(after(steps.len(), found));
    }
    steps
}

/// Shares of static thrust that the engines give and that are set.
fn thrust(context: &Context<'_>) -> Vec<Step> {
    let flight = context.flight;
    let case = context.measured.take_off_case.as_ref().and_then(|case| case.as_ref().ok());
    let Some(case) = case else { return Vec::new() };
    let [full, set] = case.thrust_shares();
    let rows = flight.take_off.iter().flat_map(|plan| &plan.thrust);
    let rows: Vec<Amount> = rows.map(|row| (set * row.share.value.si()).into()).collect();
    let mut inputs = crate::run_basis::day_inputs(flight);
    inputs.extend(thrust_inputs(flight));
    let engines = &flight.aeroplane.engines;
    inputs.extend(engines.static_thrust.as_ref().map(|one| given("static thrust", one)));
    inputs.extend(engines.flat_rated_to.as_ref().map(|one| given("flat rated to", one)));
    let named =
        [("all that the engines give on the day", Amount::from(full)), ("set of it", set.into())];
    let by_speed = rows.into_iter().map(|share| ("set of it by the schedule", share));
    let named = named.into_iter().chain([("all of it", percent(100.0).into())]).chain(by_speed);
    results(&inputs, ("share of static thrust in the air of the day", MOTION), named)
}

/// The shortest of the distances declared for each movement.
fn declared(context: &Context<'_>) -> Vec<Step> {
    let ends = [&context.flight.strip.low_end, &context.flight.strip.high_end];
    ends.into_iter()
        .flat_map(|end| {
            let all = &end.declared;
            [&all.take_off_distance, &all.accelerate_stop, &all.landing_distance, &all.take_off_run]
        })
        .flatten()
        .map(|one| {
            let input = vec![given("declared", one)];
            plain_step("distance declared", "as declared", derived("strip file"), input, one.value)
        })
        .collect()
}
