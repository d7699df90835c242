//! G52: ruts by station, how they grow, and what they cost in rolling.

use crate::by_formula::{by_formula, catalogued};
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, given, given_as, need, plain_step};
use crate::ground::rut_drag::{LawRut, Rolling, RutDrag, RutPlace, over_ruts, stated_rolling};
use crate::ground::ruts_along::{RutStretch, ruts_along};
use crate::ground::two_layers::from_step;
use crate::measured::Known;
use crate::rule::Rule;
use hardpan_ground::{BARBER_RUT, FIRM_ROLLING_SOURCE, PASSES_TO_RUT, ROLLING_OF_RUTTING};
use hardpan_model::{Finding, Given, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, inches};

pub(super) const RULE: Rule = Rule {
    code: "G52",
    name: "Ruts along the strip",
    checks: "Ruts after the passes of the flight stretch by stretch along both main lanes, by the \
             regression of Barber, Odom and Patrick with the strength credited there; how they \
             grow; where they reach the limit first, and after how many passes; and the rolling \
             resistance that a take-off counts there.",
    why: "It tells where to look, where to grade first, and whether the run reckons with the drag \
          of ground that gives way.",
    limit: "3 in, the greatest depression that a published rule for unpaved surfaces allows. \
            Rolling has none. The coefficient of the day holds for the ground as it mostly is; \
            where the first pass presses a deeper rut, its work adds. A published coefficient \
            counts no less than firm ground with that work, and `friction.rolling_over_ruts` \
            counts in proportion to the rut after the passes. Sinking that somebody reported is the \
            same work: the greater of both counts. A stop counts on no help of ruts.",
    applies: "Stretches where a stronger layer lies over a weaker one; the others are counted and \
              say nothing. Advice: G20 decides. The walls of old ruts are not counted.",
    source: Source::new(
        "CFR-14-139-307",
        "holes or depressions at most 3 in deep",
        Tier::Published,
    ),
    judge,
};

/// Passes after which growth is told.
const TOLD: [f64; 4] = [1.0, 10.0, 100.0, 1000.0];
/// Most stretches that are told one by one.
const STRETCHES: usize = 5;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let ruts = draft("ruts along the strip").at_most(inches(3.0));
    let left = draft("passes until ruts reach the limit");
    let rolling = draft("rolling resistance of the ruts");
    let Some(passes) = &context.flight.passes else {
        let how = "how many passes the ground must carry before it is mended";
        let needs = || [need("flight: passes", how)];
        let because = "the flight does not say how many passes the ground must carry";
        return [ruts, left, rolling].map(|one| one.unproven(because, needs())).into();
    };
    let (stretches, all) = match ruts_along(context) {
        Ok(found) => found,
        Err(why) => {
            let silent = [ruts, left].map(|one| one.unavailable(&why));
            return silent.into_iter().chain([drag(rolling, context)]).collect();
        }
    };
    let mut by_depth: Vec<(&RutStretch, Length)> = stretches
        .iter()
        .filter_map(|stretch| Some((stretch, stretch.after(passes.value)?)))
        .collect();
    by_depth.sort_by(|a, b| b.1.si().total_cmp(&a.1.si()));
    let Some((deepest, rut)) = by_depth.first().copied() else {
        return [ruts, left, rolling].map(|one| one.unproven("the law does not hold", [])).into();
    };
    let silent = all - stretches.len();
    vec![
        along(ruts, deepest, (rut, passes), &by_depth, silent),
        until(left, deepest, (rut, passes)),
        drag(rolling, context),
    ]
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat(format!("spread of the law: {}", BARBER_RUT.scatter))
}

fn law(stretch: &RutStretch, passes: &Given<f64>, rut: Length) -> Step {
    let inputs = vec![
        computed("load", stretch.single, "stretches of the ruts"),
        computed("pressure", stretch.pressure, "T10"),
        given_as("passes", passes, Amount::coefficient(passes.value)),
        computed("thickness", stretch.thickness, "soundings of the strip"),
        computed("bearing_ratio_above", stretch.above, "soundings of the strip"),
        computed("bearing_ratio_below", stretch.below, "soundings of the strip"),
    ];
    Step { computes: "rut depth".to_owned(), ..catalogued(&BARBER_RUT, inputs, rut) }
}

fn told(stretch: &RutStretch) -> String {
    let (from, to) = (Amount::from(stretch.from), Amount::from(stretch.to));
    format!("{}, {}", from.told_to(to), stretch.lane.word())
}

fn along(
    draft: Draft,
    deepest: &RutStretch,
    (rut, passes): (Length, &Given<f64>),
    by_depth: &[(&RutStretch, Length)],
    silent: usize,
) -> Finding {
    let growth: Vec<String> = TOLD
        .iter()
        .filter_map(|after| {
            let rut = Amount::from(deepest.after(*after)?);
            Some(format!("{} after {}", rut.told(), Amount::count(*after).told()))
        })
        .collect();
    let next: Vec<String> = by_depth
        .iter()
        .skip(1)
        .take(STRETCHES - 1)
        .map(|(stretch, rut)| format!("{} at {}", Amount::from(*rut).told(), told(stretch)))
        .collect();
    let mut text = format!("there {} passes", growth.join(", "));
    if !next.is_empty() {
        text = format!("{text}; next {}", next.join(", "));
    }
    if silent > 0 {
        text = format!("{text}; of {silent} more stretches the law says nothing");
    }
    draft
        .value(rut)
        .place(deepest.from, deepest.to, Some(deepest.lane))
        .step(law(deepest, passes, rut))
        .judged(text.clone(), format!("deeper than allowed; {text}"))
}

fn until(draft: Draft, deepest: &RutStretch, (rut, passes): (Length, &Given<f64>)) -> Finding {
    let draft = draft.at_least(Amount::count(passes.value)).place(
        deepest.from,
        deepest.to,
        Some(deepest.lane),
    );
    let Some(left) = deepest.passes_to(inches(3.0)) else {
        return draft.unproven("the law does not hold at so many passes", []);
    };
    let limit = inches(3.0);
    let inputs = vec![
        from_step("rut", rut, 0),
        given_as("passes", passes, Amount::coefficient(passes.value)),
        constant("limit", limit, RULE.source),
    ];
    let step = match by_formula(PASSES_TO_RUT.name, inputs) {
        Ok(step) => step,
        Err(why) => return draft.unavailable(&why),
    };
    draft.value(Amount::count(left)).step(law(deepest, passes, rut)).step(step).judged(
        "on ground without ruts; the place that reaches the limit first",
        "fewer than the flight asks for: mend the ground before",
    )
}

/// The rolling coefficient of a take-off at the worst ruts, and how far it is
/// above the one credited.
fn drag(draft: Draft, context: &Context<'_>) -> Finding {
    let friction = match &context.measured.friction {
        Ok(friction) => friction,
        Err(why) => return draft.unavailable(why),
    };
    let Some(drag) = &context.measured.rut_drag else {
        return draft.unproven(
            "the mass, the centre of gravity or the tyres of a take-off are not stated",
            [need("flight: take_off.mass, take_off.centre_of_gravity", "as planned")],
        );
    };
    let draft = drag.left_out().into_iter().fold(draft, Draft::caveat);
    let Some(place) = &drag.worst else {
        return draft.unproven("no rut was measured, and of no stretch does the law speak", []);
    };
    let steps = match drag_steps(context, drag, place) {
        Ok(steps) => steps,
        Err(why) => return draft.unavailable(&why),
    };
    let draft = draft
        .value(place.rolling)
        .place(place.station, place.station, Some(place.lane))
        .steps(steps);
    let credited = Amount::from(friction.rolling.credited).told();
    if drag.raises() {
        let length = Amount::from(drag.raised_length()).told();
        return draft.pass(format!(
            "the take-off run counts no less there, and more than the {credited} of the day over \
             {length}; a stop counts on no help of it"
        ));
    }
    draft.pass(format!("no more than the {credited} that the run counts everywhere"))
}

fn drag_steps(context: &Context<'_>, drag: &RutDrag, place: &RutPlace) -> Known<Vec<Step>> {
    let of = &drag.of;
    let mut steps = Vec::new();
    let credited = computed("credited", of.credited, "friction of the day").under("credited");
    let mut counted = vec![credited];
    let mut rules = Vec::new();
    if let Some(law) = &place.law {
        steps.push(rut_step(of, law, 1.0)?);
        steps.push(by_formula(
            ROLLING_OF_RUTTING.name,
            vec![
                from_step("deepening", law.first, 0),
                computed("load", of.wheel, "stretches of the ruts"),
                computed("pressure", of.pressure, PRESSURE),
            ],
        )?);
        counted.push(from_step("pressing the rut", place.pressing, 1).under("pressing the rut"));
        let mostly = beside("pressing mostly", drag.mostly, "middle of all points, the same way");
        counted.push(mostly.under("pressing mostly"));
        rules.push("credited + (greater of pressing the rut − pressing mostly and 0)");
    } else {
        rules.push("credited");
    }
    if let Some(firm) = of.firm() {
        counted.push(constant("firm ground", firm, FIRM_ROLLING_SOURCE).under("firm ground"));
        rules.push(match place.law {
            Some(_) => "firm ground + pressing the rut",
            None => "firm ground",
        });
    }
    if let Some((step, over)) = stated_step(context, of, place, &mut steps)? {
        steps.push(step);
        counted.push(from_step("over the ruts", over, steps.len() - 1).under("over the ruts"));
        rules.push("over the ruts");
    }
    steps.push(plain_step(
        "rolling coefficient counted",
        &format!("least of 1 and the greatest of {}", rules.join(", ")),
        RULE.source,
        counted,
        place.rolling,
    ));
    Ok(steps)
}

/// The coefficient over ruts as stated, where it is; the rut goes before it.
fn stated_step(
    context: &Context<'_>,
    of: &Rolling,
    place: &RutPlace,
    steps: &mut Vec<Step>,
) -> Known<Option<(Step, Ratio)>> {
    let Some(stated) = over_ruts(context.flight) else { return Ok(None) };
    let mut inputs = vec![
        given("rolling over ruts", &stated.rolling).under("over ruts"),
        given("depth of those ruts", &stated.depth).under("depth of those ruts"),
        computed("credited", of.credited, "friction of the day").under("credited"),
    ];
    if let Some(law) = &place.law {
        steps.push(rut_step(of, law, of.passes)?);
        inputs.push(from_step("rut after the passes", law.after, steps.len() - 1));
    }
    inputs.extend(place.measured.map(|rut| computed("rut measured", rut, "stretches of the ruts")));
    let ruts = [place.law.map(|law| law.after), place.measured];
    Ok(ruts.into_iter().flatten().reduce(Length::max).map(|rut| {
        let over = stated_rolling(of, stated, rut);
        let deeper = inputs.iter_mut().skip(3).find(|one| one.amount == rut.into());
        deeper.into_iter().for_each(|one| one.symbol = Some("deeper rut"));
        let expression =
            "credited + (greater of over ruts − credited and 0) × deeper rut / depth of those ruts";
        let computes = "rolling coefficient over the ruts";
        (plain_step(computes, expression, STATED, inputs, over), over)
    }))
}

fn rut_step(of: &Rolling, law: &LawRut, passes: f64) -> Known<Step> {
    by_formula(
        BARBER_RUT.name,
        vec![
            computed("load", law.single, "stretches of the ruts"),
            computed("pressure", of.pressure, PRESSURE),
            computed("passes", Amount::coefficient(passes), "stretches of the ruts"),
            computed("thickness", law.thickness, "soundings of the strip"),
            computed("bearing_ratio_above", law.above, "soundings of the strip"),
            computed("bearing_ratio_below", law.below, "soundings of the strip"),
        ],
    )
}

const PRESSURE: &str = "stretches of the ruts: as stated, or no less than any mass sets";
const STATED: Source =
    Source::new("", "rolling over ruts as stated, in proportion to depth", Tier::Judgement);
