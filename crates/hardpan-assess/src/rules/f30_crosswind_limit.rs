//! F30: whether a crosswind limit holds on this surface at all.

use crate::context::{Context, bounds_today};
use crate::draft::{Draft, computed, given_as, need, plain_step};
use crate::measured::Known;
use crate::rule::Rule;
use hardpan_model::{ApprovedLimit, Bound, Finding, Mark, Phase, Source, Tier};
use hardpan_run::WindComponents;

pub(super) const RULE: Rule = Rule {
    code: "F30",
    name: "Crosswind limit of the surface",
    checks: "That the operator has an approved crosswind limit for the surface of the strip in the \
             state of the day, for each movement.",
    why: "The crosswind of certification is shown on a hard dry runway. Loose or wet ground holds \
          the wheels less, and nobody may rely on the nose wheel there.",
    limit: "The least of the approved limits that hold; L10 judges each.",
    applies: "Each planned movement. A limit with a surface or a state holds on that alone.",
    source: Source::new("CFR-25-237", "(a), dry runways", Tier::Secondary),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let measured = context.measured;
    let movements = [
        (Phase::Landing, &measured.landing_wind, "crosswind limit, landing"),
        (Phase::TakeOff, &measured.take_off_wind, "crosswind limit, take-off"),
    ];
    let flown = movements.into_iter().filter_map(|(phase, wind, title)| {
        let wind = wind.as_ref()?;
        Some(one(context, (phase, title), wind))
    });
    flown.collect()
}

fn one(
    context: &Context<'_>,
    (phase, title): (Phase, &str),
    wind: &Known<WindComponents>,
) -> Finding {
    let flight = context.flight;
    let of_phase = |limit: &&ApprovedLimit| {
        let before = phase == Phase::TakeOff && limit.phase == Phase::BeforeBrakeRelease;
        limit.quantity.value == "crosswind"
            && limit.bound == Bound::AtMost
            && (limit.phase == phase || limit.phase == Phase::Always || before)
    };
    let stated: Vec<&ApprovedLimit> = flight.aeroplane.limits.iter().filter(of_phase).collect();
    let holding = stated.iter().filter(|limit| bounds_today(flight, limit));
    let least = holding.min_by(|a, b| a.value.value.si.total_cmp(&b.value.value.si));
    let draft = Draft::new(&RULE, title, phase).mark(Mark::Approved);
    let crosswind = match wind {
        Ok(wind) => wind.crosswind,
        Err(why) => return draft.unavailable(why),
    };
    let draft = draft.value(crosswind);
    let Some(least) = least else {
        let because = match stated.is_empty() {
            true => "no approved crosswind limit is stated",
            false => "the approved crosswind limits are for other surfaces or states",
        };
        let how = "crosswind of this movement on this surface in its state, from the manual";
        return draft.unproven(because, [need("aeroplane: [[limit]] crosswind", how)]);
    };
    draft
        .limit(Bound::AtMost, least.value.value)
        .step(plain_step(
            "crosswind, gusts included",
            "at most the least of the approved limits that hold",
            Source::new("", "approved manual, as entered", Tier::Approved),
            vec![
                computed("crosswind", crosswind, "wind of the day"),
                given_as("least approved limit", &least.value, least.value.value),
            ],
            crosswind,
        ))
        .judged("a limit holds and is kept", "over the limit that holds")
}
