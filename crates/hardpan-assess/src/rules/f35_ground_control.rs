//! F35: control on the ground by rudder, nose wheel and the grip of the wheels.

use crate::context::Context;
use crate::draft::{Draft, beside, computed, derived, given, given_as, need, plain_step};
use crate::masses;
use crate::masses::sheet::SheetMovement;
use crate::rule::Rule;
use hardpan_math::bracketed_root;
use hardpan_model::{BasisInput, Finding, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Quantity, percent};
use hardpan_run::{CrosswindHeld, SideGrip, SpeedBound, TakeOffRun, steering_needs};

pub(super) const RULE: Rule = Rule {
    code: "F35",
    name: "Control on the ground",
    checks: "That the rudder alone holds an engine failure from the decision speed on, in the wind \
             of the day; that the main wheels grip enough for it; and that rudder, nose wheel and \
             grip hold the wind from the side on each roll.",
    why: "The published minimum control speed holds for a hard dry runway in calm air, with 30 ft \
          to swing. Loose or wet ground holds the wheels less, and a narrow strip has no 30 ft.",
    limit: "The greater of the published speed and that at which the rudder fully over balances \
            full thrust of the other side and the wind, without the nose wheel; all the grip of \
            the main wheels; the wind that is held at the worst speed between standstill and \
            rotation or touchdown. Across, a wheel is credited with the braking coefficient of \
            the day, a judgement.",
    applies: "Aeroplanes that state any key of `[control]`. Without it the decision speed rests on \
              the published minimum control speed alone, and F30 asks for an approved crosswind \
              limit. Braking and side force at once, propeller wash on the rudder and bank are \
              not counted.",
    source: Source::new("CFR-25-149", "(e), and a static balance of moments", Tier::Derived),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let aeroplane = &context.flight.aeroplane;
    if aeroplane.control == hardpan_model::GroundControl::default() {
        return Vec::new();
    }
    let missing = steering_needs(aeroplane);
    if !missing.is_empty() {
        let draft = Draft::new(&RULE, "control on the ground", Phase::Always);
        let because = "what balances the rudder is not all stated";
        return vec![draft.mark(Mark::PlanningOnly).unproven(because, missing)];
    }
    let measured = context.measured;
    let mut found = Vec::new();
    if let Some(Ok(run)) = &measured.take_off {
        found.extend(engine_failure(context, run));
    }
    let movements = [
        (Phase::Landing, &measured.landing_wind, landing_held(context)),
        (Phase::TakeOff, &measured.take_off_wind, take_off_held(context)),
    ];
    for (phase, wind, held) in movements {
        if let (Some(Ok(wind)), Some(held)) = (wind, held) {
            found.push(crosswind(context, phase, wind.crosswind, held));
        }
    }
    found
}

fn landing_held(context: &Context<'_>) -> Option<Option<CrosswindHeld>> {
    let mass = context.flight.landing.as_ref()?.mass.as_ref()?.value;
    context.measured.landing_case.as_ref()?.as_ref().ok()?.crosswind_held(mass).ok()
}

fn take_off_held(context: &Context<'_>) -> Option<Option<CrosswindHeld>> {
    let mass = context.flight.take_off.as_ref()?.mass.as_ref()?.value;
    context.measured.take_off_case.as_ref()?.as_ref().ok()?.crosswind_held(mass).ok()
}

/// What the aeroplane states for the balance.
fn stated(context: &Context<'_>) -> Vec<BasisInput> {
    let (control, gear) = (&context.flight.aeroplane.control, &context.flight.aeroplane.gear);
    let lengths = [
        ("rudder arm", &control.rudder_arm),
        ("engine arm", &control.engine_arm),
        ("side force behind the main wheels", &control.side_force_behind),
    ];
    let areas = [
        ("rudder force area", &control.rudder_force_area),
        ("side force area", &gear.side_force_area),
    ];
    let lengths = lengths.into_iter().filter_map(|(name, key)| Some(given(name, key.as_ref()?)));
    let areas = areas.into_iter().filter_map(|(name, key)| Some(given(name, key.as_ref()?)));
    lengths.chain(areas).collect()
}

fn engine_failure(context: &Context<'_>, run: &TakeOffRun) -> Vec<Finding> {
    let (Some(decision), Some(control)) = (&run.decision, &run.speeds.control) else {
        return Vec::new();
    };
    let mut inputs = stated(context);
    let published = context.flight.aeroplane.speeds.minimum_control_ground.as_ref();
    inputs.extend(published.map(|published| given("published on a hard runway", published)));
    if let Some(Ok(wind)) = &context.measured.take_off_wind {
        inputs.push(computed("crosswind", wind.crosswind, "wind of the day, gusts included"));
    }
    let by = match control.bound {
        SpeedBound::RudderBalance => "the rudder's balance in the wind of the day",
        _ => "the published minimum control speed",
    };
    let lowest = plain_step(
        "lowest speed of control on the ground",
        "the greater of the published speed and ½ρV² A_r r = (T + D) y + ½ρ √(V²+w²) w A a",
        RULE.source,
        inputs,
        control.calibrated,
    );
    let held = Draft::new(&RULE, "rudder after an engine failure", Phase::TakeOff)
        .mark(Mark::PlanningOnly)
        .value(decision.failure_speed)
        .at_least(control.calibrated)
        .step(lowest)
        .judged(
            format!("the failure that V1 allows for is held; set by {by}"),
            format!("an engine that fails this early is not held; set by {by}"),
        );
    let grip = run.side_grip.as_ref().map(|grip| side_grip(context, grip));
    std::iter::once(held).chain(grip).collect()
}

fn side_grip(context: &Context<'_>, grip: &SideGrip) -> Finding {
    let mut inputs = stated(context);
    let coefficient = Amount::coefficient(grip.coefficient.si());
    inputs.push(computed(
        "coefficient across",
        coefficient,
        "friction of the day: the least braking coefficient credited",
    ));
    Draft::new(&RULE, "side grip after an engine failure", Phase::TakeOff)
        .mark(Mark::PlanningOnly)
        .value(grip.used)
        .at_most(percent(100.0))
        .step(plain_step(
            "side grip used at the decision speed",
            "((T + D) y/r + ½ρ √(V²+w²) w A |1 − a/r|) / (μ N_main)",
            RULE.source,
            inputs,
            grip.used,
        ))
        .judged(
            "the main wheels hold what the rudder and the wind push across",
            "the main wheels slide across when the rudder holds an engine failure",
        )
}

fn crosswind(
    context: &Context<'_>,
    phase: Phase,
    wind: hardpan_quantity::Speed,
    held: Option<CrosswindHeld>,
) -> Finding {
    let title = match phase {
        Phase::Landing => "wind from the side, landing roll",
        _ => "wind from the side, take-off roll",
    };
    let draft = Draft::new(&RULE, title, phase).mark(Mark::PlanningOnly).value(wind);
    let factor = context.flight.aeroplane.control.nose_side_factor.as_ref();
    let (Some(held), Some(factor)) = (held, factor) else {
        let how = "side force of the nose wheel over its load and the braking coefficient";
        return draft.unproven(
            "what the nose wheel gives across is not stated",
            [need("aeroplane: control.nose_side_factor", how)],
        );
    };
    let heavier = if wind > held.limit { from_mass(context, phase, wind) } else { String::new() };
    draft.at_most(held.limit).step(limit_step(context, &held, factor)).judged(
        format!("held at every speed; least at {}", told(&held)),
        format!("more than is held at {}{heavier}", told(&held)),
    )
}

/// From which mass on the wind is held: wheels that carry more grip more.
fn from_mass(context: &Context<'_>, phase: Phase, wind: hardpan_quantity::Speed) -> String {
    let masses = &context.flight.aeroplane.mass;
    let (movement, most) = match phase {
        Phase::Landing => (SheetMovement::Landing, masses.maximum_landing.as_ref()),
        _ => (SheetMovement::TakeOff, masses.maximum_take_off.as_ref()),
    };
    let Some(most) = most.map(|given| given.value) else { return String::new() };
    let held = masses::held_by(context.measured, movement);
    let spare = |mass: f64| {
        let held = held(hardpan_quantity::Mass::from_si(mass));
        held.map_or(f64::NAN, |held| held.si() - wind.si())
    };
    let least = masses::lightest(context.flight, most).si();
    let lightest = spare(least);
    if lightest.is_nan() || lightest >= 0.0 {
        return String::new();
    }
    match bracketed_root(spare, least, most.si(), 1.0) {
        Ok(mass) => {
            let mass = Amount::from(hardpan_quantity::Mass::from_si(mass)).told();
            format!("; lighter aeroplanes hold less, it takes {mass}")
        }
        Err(_) => "; no mass up to the greatest holds it".to_owned(),
    }
}

fn limit_step(
    context: &Context<'_>,
    held: &CrosswindHeld,
    factor: &hardpan_model::Given<f64>,
) -> Step {
    let mut inputs = stated(context);
    inputs.push(given_as("nose side factor", factor, Amount::coefficient(factor.value)));
    let coefficient = Amount::coefficient(held.coefficient.si());
    inputs.push(computed(
        "coefficient across",
        coefficient,
        "friction of the day: the least braking coefficient credited",
    ));
    inputs.push(beside("ground speed", held.ground_speed, "where the least wind is held"));
    plain_step(
        "wind from the side that is held",
        "rudder, nose wheel and grip against ½ρ √(V²+w²) w A, moments about the main wheels",
        derived("a static balance of moments and side forces"),
        inputs,
        held.limit,
    )
}

fn told(held: &CrosswindHeld) -> String {
    let by = if held.by_grip { "the grip of the main wheels" } else { "rudder and nose wheel" };
    format!("{} on the ground, by {by}", Amount::from(held.ground_speed).told())
}
