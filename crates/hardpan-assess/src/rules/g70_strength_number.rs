//! G70: the strength number that the aerodrome publishes.

use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{
    Draft, computed, constant, given, given_as, need, plain_step, wheel_count, wheel_distance,
};
use crate::ground::LegKind;
use crate::ground::strength_number::{Classification, classification};
use crate::ground::two_layers::from_step;
use crate::rule::Rule;
use hardpan_ground::{FLEXIBLE_ACN_1983, FLEXIBLE_ACN_2007};
use hardpan_model::{Finding, Formula, Given, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Mass, Pressure, Ratio};

pub(super) const RULE: Rule = Rule {
    code: "G70",
    name: "Strength number",
    checks: "The flexible classification number of the aeroplane at each planned mass and the \
             pressure set, on ground of the published category, against the strength number that \
             the aerodrome publishes; and the main tyre pressure against the published limit.",
    why: "The number is the aerodrome's own word on what its surface carries; more load needs its \
          permission.",
    limit: "As published by the aerodrome. The number of the aeroplane is not rounded. It has the \
            load repetition factors in force since October 2007; where only those before put it \
            over the published number, it holds on condition.",
    applies: "Strips whose file states a strength number (PCN, flexible). Without one, nothing.",
    source: Source::new("ICAO-9157-3", "flexible ACN, second edition", Tier::Memory),
    judge,
};

const PUBLISHED: Source = Source::new("", "as the aerodrome publishes it", Tier::Approved);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let strength = &flight.strip.strength;
    let mut findings = Vec::new();
    if let Some(number) = &strength.number {
        let take_off = flight.take_off.as_ref();
        let landing = flight.landing.as_ref();
        let plans = [
            landing.map(|plan| (Phase::Landing, "landing", &plan.mass, &plan.centre_of_gravity)),
            take_off.map(|plan| (Phase::TakeOff, "take-off", &plan.mass, &plan.centre_of_gravity)),
        ];
        findings.extend(plans.into_iter().flatten().map(|(phase, word, mass, centre)| {
            let draft = Draft::new(&RULE, format!("classification number, {word}"), phase);
            check(draft, context, number, mass.as_ref(), centre.as_ref())
        }));
    }
    if let Some(limit) = &strength.tyre_pressure_limit {
        findings.push(pressure(context, limit));
    }
    findings
}

fn check(
    draft: Draft,
    context: &Context<'_>,
    number: &Given<f64>,
    mass: Option<&Given<Mass>>,
    centre: Option<&Given<Ratio>>,
) -> Finding {
    let (flight, measured) = (context.flight, context.measured);
    let draft = draft
        .mark(Mark::PlanningOnly)
        .at_most(Amount::count(number.value))
        .caveat(format!("the number of the aeroplane is computed: {}", FLEXIBLE_ACN_2007.scatter));
    let (Some(mass), Some(centre)) = (mass, centre) else {
        return draft.unproven(
            "the mass or the centre of gravity is not stated",
            [need("flight: mass, centre_of_gravity", "as planned")],
        );
    };
    let set = match &measured.main_tyre {
        Ok(tyre) => tyre.set,
        Err(why) => return draft.unavailable(why),
    };
    let found = match classification(flight, measured, mass.value, centre.value, set) {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let told = Amount::count(found.number);
    let mut draft = draft
        .value(told)
        .step(step(context, mass, set, (&FLEXIBLE_ACN_2007, &found, found.number)))
        .step(plain_step(
            "classification number against the published one",
            "number of the aeroplane ≤ number published",
            PUBLISHED,
            vec![
                from_step("of the aeroplane", told, 0),
                given_as("published", number, Amount::count(number.value)),
            ],
            told,
        ));
    if found.number_before > found.number {
        let before = (&FLEXIBLE_ACN_1983, &found, found.number_before);
        draft = draft.step(step(context, mass, set, before));
    }
    if found.number <= number.value && found.number_before > number.value {
        return draft.conditional(format!(
            "within the number that the aerodrome publishes, but over it with {} by the load \
             repetition factors in force before October 2007: ask which its number goes with",
            Amount::count(found.number_before).told(),
        ));
    }
    draft.judged(
        "within the number that the aerodrome publishes",
        "over the number that the aerodrome publishes: only with its permission",
    )
}

fn step(
    context: &Context<'_>,
    mass: &Given<Mass>,
    set: Pressure,
    (formula, found, number): (&Formula, &Classification, f64),
) -> Step {
    let leg = LegKind::Main.leg(context.flight);
    let subgrade = &context.flight.strip.strength.subgrade;
    let bearing = match subgrade {
        Some(category) => given_as("bearing_ratio", category, found.bearing_ratio.into()),
        None => constant("bearing_ratio", found.bearing_ratio, PUBLISHED),
    };
    let inputs = vec![
        given("mass", mass),
        computed("share_on_one_main_leg", found.share, "moments about the main gear"),
        computed("pressure", set, "T10"),
        wheel_count(leg.wheels.as_ref()),
        wheel_distance("wheel_spacing", leg.spacing.as_ref()),
        wheel_distance("tandem_spacing", leg.tandem_spacing.as_ref()),
        bearing,
    ];
    Step {
        computes: "classification number of the aeroplane".to_owned(),
        ..catalogued(formula, inputs, Amount::count(number))
    }
}

fn pressure(context: &Context<'_>, limit: &Given<Pressure>) -> Finding {
    let draft = Draft::new(&RULE, "tyre pressure, published limit", Phase::Always)
        .mark(Mark::Measured)
        .at_most(limit.value);
    let set = match &context.measured.main_tyre {
        Ok(tyre) => tyre.set,
        Err(why) => return draft.unavailable(why),
    };
    draft
        .value(set)
        .step(plain_step(
            "main tyre pressure",
            "pressure ≤ limit published",
            PUBLISHED,
            vec![computed("pressure", set, "T10"), given("published limit", limit)],
            set,
        ))
        .judged(
            "within the limit that the aerodrome publishes",
            "over the limit that the aerodrome publishes: only with its permission",
        )
}
