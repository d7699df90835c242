//! D60: whether propellers, pods, deflectors and belly stay clear of the ground.

use crate::context::Context;
use crate::draft::{Draft, beside, constant, need, plain_step};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::shape::survey_noise::{NOISE_SHARE, SURELY, quieter};
use crate::wheels_down::{Ground, Wheels, clearance, inputs};
use hardpan_debris::{NoseOrTail, propeller_clearance_rule};
use hardpan_model::{ClearancePoint, Finding, LowPart, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, metres};

pub(super) const RULE: Rule = Rule {
    code: "D60",
    name: "Clearances",
    checks: "Each low point of the aeroplane file over the ground, wheels in the deepest rut and \
             the highest bump of the survey under it: with sound tyres and struts, and with all \
             tyres of one leg flat and its strut bottomed. Propellers besides: 7 in standing on \
             level ground, and clear of level ground with a leg down.",
    why: "A blade or a deflector that touches throws the stones it was to keep off, and a pod \
          that touches ends the flight.",
    limit: "Clear of the ground; for propellers the published 7 in. With a leg down in a rut, an \
            instruction to stop.",
    applies: "Every flight. Geometry, derived for small angles; a bump counts in full under the \
              point, as if the wheels did not ride it. What is missing is advice; contact with \
              sound wheels, or of a propeller against its rule, fails; contact that noise of the \
              survey may have made is unproven. Pitch by braking and roll by wind are not in it.",
    source: Source::new("CFR-14-25-925", "(a), and a plane through three wheels", Tier::Derived),
    judge,
};

const PLANE: Source = Source::new("", "plane through three points, small angles", Tier::Derived);
const PROPELLER_RULE: Source =
    Source::new("CFR-14-25-925", "(a), nose wheel aeroplanes", Tier::Published);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    if flight.landing.is_none() && flight.take_off.is_none() {
        return Vec::new();
    }
    let points = &flight.aeroplane.clearances;
    if points.is_empty() {
        return vec![draft("clearances").advice().unproven(
            "the aeroplane file lists no low points",
            [need("aeroplane: [[clearance]]", "propeller tips, pods, deflectors, belly, antennas")],
        )];
    }
    points.iter().map(|point| judge_point(context, point)).collect()
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always).mark(Mark::PlanningOnly)
}

/// Least clearances of one point.
struct Found {
    ground: Ground,
    level: Length,
    rough: Length,
    flat_level: Known<Length>,
    flat_rough: Known<Length>,
}

fn judge_point(context: &Context<'_>, point: &ClearancePoint) -> Finding {
    let draft = draft(&format!("clearance of {}", point.name.value));
    let least = |ground, wheels| clearance(context.flight, point, ground, wheels);
    let found = Ground::surveyed(context).and_then(|ground| {
        Ok(Found {
            ground,
            level: least(Ground::level(), Wheels::Sound)?,
            rough: least(ground, Wheels::Sound)?,
            flat_level: least(Ground::level(), Wheels::OneLegDown),
            flat_rough: least(ground, Wheels::OneLegDown),
        })
    });
    match found {
        Ok(found) => told(context, draft, point, &found),
        Err(why) => draft.advice().unavailable(&why),
    }
}

fn told(context: &Context<'_>, draft: Draft, point: &ClearancePoint, found: &Found) -> Finding {
    let name = &point.name.value;
    let mut given = inputs(context.flight, point);
    given.extend(found.ground.inputs());
    let lowering = point.height.value - found.ground.bump - found.rough;
    given.push(beside("lowering there", lowering, "of the wheels, carried to the point"));
    for (name, symbol) in [
        ("height of the point", "height"),
        ("highest bump", "bump"),
        ("lowering there", "lowering"),
    ] {
        let named = given.iter_mut().find(|input| input.name == name);
        named.into_iter().for_each(|input| input.symbol = Some(symbol));
    }
    let with_leg = [
        ("with a leg down on level ground", &found.flat_level),
        ("with a leg down in the ruts", &found.flat_rough),
    ];
    for (what, known) in with_leg {
        given.extend(known.as_ref().ok().map(|known| beside(what, *known, "the same plane")));
    }
    let mut draft = draft.value(found.rough).at_least(metres(0.0)).step(plain_step(
        "least clearance with sound wheels",
        "height − lowering − bump; the lowering of the plane through the wheels in the deepest rut",
        PLANE,
        given,
        found.rough,
    ));
    let touches = found.rough <= metres(0.0);
    let noise = found.ground.noise;
    let noisy = noise > NOISE_SHARE * found.level.abs();
    let may_be_noise =
        found.level > metres(0.0) && noisy && found.rough + SURELY * noise > metres(0.0);
    if touches && !may_be_noise {
        return draft
            .fail(format!("{name} touches the ground with wheels in the ruts of the strip"));
    }
    if point.part == LowPart::Propeller {
        let least = propeller_clearance_rule(NoseOrTail::NoseWheel);
        draft = draft.step(plain_step(
            "standing clearance of the propeller",
            "as stated; at least 7 in on level ground",
            PROPELLER_RULE,
            vec![
                crate::draft::given("height of the point", &point.height),
                constant("least", least, PROPELLER_RULE),
            ],
            point.height.value,
        ));
        if point.height.value < least {
            return draft.fail(format!("{name} stands lower than the published 7 in"));
        }
        if let Ok(level) = &found.flat_level
            && *level <= metres(0.0)
        {
            return draft.fail(format!(
                "{name} touches level ground with a tyre flat and a strut bottomed"
            ));
        }
    }
    if may_be_noise {
        let why = if touches {
            format!("{name} would touch, by ruts and bumps that may be noise of the survey")
        } else {
            format!(
                "{name} clears ruts and bumps of a survey whose noise alone shows {}",
                shown(noise)
            )
        };
        return draft.unproven(why, [quieter()]);
    }
    match (&found.flat_level, &found.flat_rough) {
        (Ok(_), Ok(rough)) if *rough <= metres(0.0) => draft
            .advice()
            .instruct(format!(
                "after a flat tyre or a collapsed strut stop on the strip, engines off: {name} \
                 touches"
            ))
            .conditional(format!(
                "{} with sound wheels; with a leg down in the ruts it touches",
                shown(found.rough)
            )),
        (Ok(_), Ok(rough)) => draft.advice().pass(format!(
            "{} with sound wheels, {} with a leg down in the ruts",
            shown(found.rough),
            shown(*rough)
        )),
        (Err(why), _) | (_, Err(why)) => draft.advice().unavailable(&Unavailable {
            because: format!("clear with sound wheels; {}", why.because),
            needs: why.needs.clone(),
        }),
    }
}

fn shown(length: Length) -> String {
    Amount::from(length).told()
}
