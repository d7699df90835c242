//! D50: how far behind the blast moves stones, at each thrust that is used.

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, given, need, plain_step};
use crate::jet::{BehindTheEngines, STONE_DENSITY, STONES_OF_ROCK, behind};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::stones::largest_stone;
use crate::vortex::taxi_thrust;
use hardpan_debris::{Grain, largest_stone_rolled, missile_speed};
use hardpan_model::{Finding, Given, Mark, Patch, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Density, Length, Quantity, Ratio, percent};

pub(super) const RULE: Rule = Rule {
    code: "D50",
    name: "Blast",
    checks: "For idle, taxi and take-off thrust, standing: the distance behind at which the jets \
             or the slipstream, merged along the ground, fall to 30 mph, above which loose \
             objects become missiles; the single stones that are still rolled there, and how far \
             behind the largest stone of the day is moved.",
    why: "What the blast picks up strikes whoever and whatever stands behind, and it digs the \
          strip where the aeroplane turns and runs up.",
    limit: "None that fails by itself: it becomes a distance to keep clear.",
    applies: "Take-offs. Screening: decay of a round jet from memory, all engines merged and \
              attached to the ground; the threshold of a single stone is derived, ±30 % in speed.",
    source: DECAY,
    judge,
};

const DECAY: Source =
    Source::new("POPE-2000", "decay of a round jet, 6 along the ground", Tier::Memory);
const MISSILES: Source =
    Source::new("FAA-AC-150-5300-13", "chapter 8, loose objects above 30 mph", Tier::Published);
const ALONG_GROUND: Source =
    Source::new("", "decay along the ground, momentum balance without friction", Tier::Derived);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    if context.flight.take_off.is_none() {
        return Vec::new();
    }
    let engines = &context.flight.aeroplane.engines;
    let settings = [
        ("idle", "engines.idle_share", engines.idle_share.as_ref(), Phase::Always),
        ("taxi thrust", "engines.taxi_share", taxi_thrust(context.flight), Phase::Taxi),
    ];
    let mut findings: Vec<Finding> = settings
        .into_iter()
        .map(|(name, key, share, phase)| match share {
            Some(share) => at(context, name, phase, share.value, Some(share)),
            None => draft(name, phase).unproven(
                format!("the thrust at {name} is not known"),
                [need(&format!("aeroplane: {key}"), "share of static take-off thrust")],
            ),
        })
        .collect();
    let full = percent(100.0);
    findings.push(at(context, "take-off thrust", Phase::BeforeBrakeRelease, full, None));
    findings
}

fn draft(name: &str, phase: Phase) -> Draft {
    Draft::new(&RULE, format!("blast behind at {name}"), phase)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; gusts in the blast come higher than its mean")
}

/// Distances behind at one thrust.
struct Reach {
    missiles: Length,
    rolled_there: Length,
    stone: Option<(Given<Length>, Length)>,
    steps: Vec<Step>,
}

fn at(
    context: &Context<'_>,
    name: &str,
    phase: Phase,
    share: Ratio,
    stated: Option<&Given<Ratio>>,
) -> Finding {
    let draft = draft(name, phase);
    let found = behind(context, share).and_then(|jets| reach(context, &jets));
    let found = match found {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let mut inputs = vec![
        computed("distance to 30 mph", found.missiles, "the step above").under("to 30 mph"),
        beside("largest single stone rolled there", found.rolled_there, "its threshold"),
    ];
    inputs.extend(stated.map(|share| given(&format!("thrust at {name}"), share)));
    if let Some((stone, far)) = &found.stone {
        inputs.push(given("largest stone of the day", stone));
        let rolled = beside("distance over which it is rolled", *far, "its threshold");
        inputs.push(rolled.under("to the last stone rolled"));
    }
    let far = found.stone.as_ref().map_or(found.missiles, |(_, far)| found.missiles.max(*far));
    let far_rule = match &found.stone {
        Some(_) => "greater of to 30 mph and to the last stone rolled",
        None => "to 30 mph",
    };
    let draft = draft.value(far).steps(found.steps.iter().cloned()).step(plain_step(
        "distance behind to keep clear",
        far_rule,
        DECAY,
        inputs,
        far,
    ));
    let stone = found.stone.as_ref().map_or_else(String::new, |(stone, far)| {
        format!("; the largest stone of the day, {}, over {}", shown(stone.value), shown(*far))
    });
    let because = format!(
        "the blast falls to 30 mph {} behind and rolls single stones to {} there{stone}",
        shown(found.missiles),
        shown(found.rolled_there)
    );
    let place =
        if phase == Phase::BeforeBrakeRelease { turning(context, far) } else { String::new() };
    if phase == Phase::Always {
        return draft.conditional(because);
    }
    draft
        .instruct(format!("at {name} nobody and nothing loose within {} behind{place}", shown(far)))
        .conditional(because)
}

fn reach(context: &Context<'_>, jets: &BehindTheEngines) -> Known<Reach> {
    let air = context.measured.air.as_ref().map_err(Clone::clone)?.density();
    let rock = Density::from_si(STONE_DENSITY);
    let refused = |error: hardpan_debris::Error| Unavailable::refused("the blast", &error);
    let mut steps = jets.steps.clone();
    let first = falls_to(jets, "speed at which objects fly", missile_speed().into(), MISSILES)?;
    let missiles: Length = result_of(&first)?;
    steps.push(first);
    let rolled_there = largest_stone_rolled(missile_speed(), rock, air).map_err(refused)?;
    let patches: &[Patch] = context.flight.day.loose_material.as_deref().unwrap_or_default();
    let mut stone = None;
    if let Some(largest) = largest_stone(patches) {
        let grain = Grain { diameter: largest.value, density: rock, air_density: air };
        let threshold = grain.single_stone_threshold().map_err(refused)?;
        let far = if jets.speed <= threshold {
            Length::default()
        } else {
            let source = STONES_OF_ROCK;
            let step = falls_to(jets, "speed that rolls the stone", threshold.into(), source)?;
            let far: Length = result_of(&step)?;
            steps.push(step);
            far
        };
        stone = Some((largest, far));
    }
    Ok(Reach { missiles, rolled_there, stone, steps })
}

/// The step that says where the blast has fallen to a speed.
fn falls_to(jets: &BehindTheEngines, what: &str, speed: Amount, source: Source) -> Known<Step> {
    by_formula(
        "jet-reach",
        vec![
            computed("jet speed", jets.speed, "of the engine at this thrust"),
            computed("diameter of an equal jet of air", jets.diameter, "momentum of the thrust"),
            constant("merged jets", Amount::count(f64::from(jets.count)), ALONG_GROUND),
            constant(what, speed, source),
            constant("decay along the ground", Amount::coefficient(6.0), ALONG_GROUND),
        ],
    )
}

/// Where to turn and run up: away from the loose material of the day.
fn turning(context: &Context<'_>, far: Length) -> String {
    let Some(patches) = &context.flight.day.loose_material else {
        return "; turn and run up only where the ground behind was swept".to_owned();
    };
    let places: Vec<String> = patches
        .iter()
        .map(|patch| Amount::from(patch.from.value).told_to(patch.to.into()))
        .collect();
    if places.is_empty() {
        return String::new();
    }
    format!(
        "; turn and run up with stations {} no nearer than {} behind",
        places.join(", "),
        shown(far)
    )
}

fn shown(length: Length) -> String {
    Amount::from(length).told()
}
