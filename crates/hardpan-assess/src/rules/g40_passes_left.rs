//! G40: how many passes are left before the ground gives way.

use crate::context::Context;
use crate::draft::{Draft, beside, computed, derived, need};
use crate::ground::LegKind;
use crate::ground::passes_left::{PassesLeft, passes_left};
use crate::ground::strength_finding::{
    load_steps, needed_step, strength_steps, stretch, wander_input,
};
use crate::measured::Known;
use crate::rule::Rule;
use hardpan_ground::PointJudgement;
use hardpan_model::{Finding, InputFrom, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::Amount;

pub(super) const RULE: Rule = Rule {
    code: "G40",
    name: "Passes left",
    checks: "The greatest number of passes at the planned load and tyre pressure that every \
             station of the wheel lanes carries, by the criterion of G20 and G30 turned round; \
             the place that gives first is named.",
    why: "A strip wears out: the number says when it must be sounded or mended again, before it \
          ruts.",
    limit: "The passes that the flight file asks for. Between 10 and 10 000 coverages, for which \
            the criterion is published.",
    applies: "Every flight. Advice: G20 and G30 decide. All passes count as passes of this \
              aeroplane at these loads.",
    source: Source::new("HAMMITT-1970", "thickness by coverages", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "passes left at the planned load", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly);
    let Some(asked) = &context.flight.passes else {
        return vec![draft.unproven(
            "the flight does not say how many passes the ground must carry",
            [need("flight: passes", "how many passes the ground must carry before it is mended")],
        )];
    };
    let draft = draft.at_least(Amount::count(asked.value));
    let fewer = left(context, LegKind::Main, asked.value).and_then(|main| {
        let nose = left(context, LegKind::Nose, asked.value)?;
        Ok(if nose.passes < main.passes { nose } else { main })
    });
    vec![match &fewer {
        Ok(left) => finding(draft, context, left),
        Err(why) => draft.unavailable(why),
    }]
}

fn left(context: &Context<'_>, leg: LegKind, asked: f64) -> Known<PassesLeft> {
    let measured = context.measured;
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let loads = measured.loads.as_ref().map_err(Clone::clone)?;
    let tyre = match leg {
        LegKind::Main => &measured.main_tyre,
        LegKind::Nose => &measured.nose_tyre,
    };
    let pressure = tyre.as_ref().map_err(Clone::clone)?.set;
    passes_left(ground, leg, pressure, loads.of(leg), asked)
}

fn finding(draft: Draft, context: &Context<'_>, left: &PassesLeft) -> Finding {
    let word = left.leg.word();
    let mut draft = draft.value(Amount::count(left.passes));
    let mut holds = format!("the {word} wheels may pass so often before a layer gives way");
    match (&left.gives, &context.measured.ground) {
        (Some((worst, table)), Ok(ground)) => {
            draft = draft.steps(load_steps(context, left.leg, worst));
            if let PointJudgement::Known(demand) = &worst.judgement {
                let (from, to) = stretch(ground, worst, demand.station);
                let credited = ground.point(worst.lane, worst.index);
                let credited = credited.map(|point| strength_steps(context, point, demand));
                let mut needed = needed_step(context, left.leg, worst, table, demand);
                for input in needed.inputs.iter_mut().filter(|one| one.name == "coverages") {
                    input.from = InputFrom::Beside("the first number that is no longer carried");
                }
                draft = draft
                    .place(from, to, Some(worst.lane))
                    .steps(credited.unwrap_or_default())
                    .step(needed);
            } else if let Some((from, to)) = worst.stretches.first() {
                holds = format!(
                    "the {word} wheels may pass so often; for more, the ground is not known deep \
                     enough"
                );
                draft = draft.place(*from, *to, Some(worst.lane));
            }
        }
        _ => holds = format!("the {word} wheels may pass at least so often"),
    }
    draft
        .step(passes_step(context, left))
        .judged(holds, format!("the {word} wheels may not pass so often as the flight asks"))
}

fn passes_step(context: &Context<'_>, left: &PassesLeft) -> Step {
    const WHAT: &str = "the greatest number at which every station holds, by bisection";
    Step {
        computes: "passes left".to_owned(),
        formula: None,
        expression: "coverages / coverages of one pass, rounded down".to_owned(),
        source: derived("coverages over coverages of one pass"),
        inputs: vec![
            beside("coverages", Amount::coefficient(left.coverages), WHAT).under("coverages"),
            computed(
                "coverages of one pass",
                Amount::coefficient(left.per_pass),
                "wander of the wheels",
            )
            .under("coverages of one pass"),
            wander_input(context.flight),
        ],
        result: Amount::count(left.passes),
    }
}
