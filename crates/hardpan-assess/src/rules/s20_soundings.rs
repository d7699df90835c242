//! S20: the soundings are there, recent, and close enough together.

use super::s30_day_reports::judge_age;
use crate::context::Context;
use crate::draft::{Draft, computed, given, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, StrengthTest, Strip, Tier};
use hardpan_quantity::{Amount, Length, Quantity, metres};

pub(super) const RULE: Rule = Rule {
    code: "S20",
    name: "Soundings",
    checks: "Age of the oldest sounding or counted strength test, and the longest stretch of the \
             strip without one.",
    why: "The soft place is where nobody sounded.",
    limit: "`survey_age` of the flight file; twice the reach of a sounding between neighbours.",
    applies: "Every flight.",
    source: Source::new("", "soundings close together and recent", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let strip = &context.flight.strip;
    if strip.soundings.is_empty() && counted_tests(strip).next().is_none() {
        return vec![Draft::new(&RULE, "soundings", Phase::Always).unproven(
            "the strip has no soundings",
            [need("strip: soundings", "cone penetrometer tests along the wheel lanes, as CSV")],
        )];
    }
    let soundings = strip.soundings.iter().map(|sounding| sounding.date.as_ref());
    let dates: Vec<_> =
        soundings.chain(counted_tests(strip).map(|test| test.date.as_ref())).collect();
    let undated = dates.iter().any(Option::is_none);
    let oldest = dates.into_iter().flatten().min_by_key(|date| date.value);
    let age = judge_age(
        Draft::new(&RULE, "age of the oldest sounding", Phase::Always),
        context,
        if undated { None } else { oldest },
        "strip: soundings, column date",
    );
    vec![age, spacing(context)]
}

fn counted_tests(strip: &Strip) -> impl Iterator<Item = &StrengthTest> {
    strip.strength_tests.iter().filter(|test| hardpan_ground::counted(test).is_ok())
}

fn spacing(context: &Context<'_>) -> Finding {
    let strip = &context.flight.strip;
    let reach = context.measured.sounding_reach;
    let draft = Draft::new(&RULE, "longest stretch between soundings", Phase::Always)
        .at_most(reach + reach);
    let Some(length) = &strip.length else {
        return draft.unproven(
            "the length of the strip is not stated",
            [need("strip: length", "of the running surface")],
        );
    };
    let soundings = strip.soundings.iter().map(|sounding| sounding.station.value);
    let mut stations: Vec<Length> =
        soundings.chain(counted_tests(strip).map(|test| test.station.value)).collect();
    stations.sort_by(|a, b| a.si().total_cmp(&b.si()));
    let ends = [metres(0.0) - reach, length.value + reach];
    let before = std::iter::once(ends[0]).chain(stations.iter().copied());
    let after = stations.iter().copied().chain([ends[1]]);
    let widest = before.zip(after).max_by(|a, b| (a.1 - a.0).si().total_cmp(&(b.1 - b.0).si()));
    let Some((from, to)) = widest else {
        return draft.unproven("the strip has no soundings", []);
    };
    let (from, to) = (from.max(metres(0.0)), to.min(length.value));
    let gap = to - from;
    let at_an_end = from.si() <= 0.0 || to >= length.value;
    let counted = if at_an_end { gap + reach } else { gap };
    let draft = draft.value(gap).place(from, to, None).step(plain_step(
        "longest stretch between soundings",
        "distance between neighbours ≤ 2 × reach; to an end of the strip ≤ reach",
        RULE.source,
        vec![
            given("length", length),
            computed(
                "reach of a sounding",
                reach,
                "strip: sounding_reach, or the stated judgement",
            ),
            computed("soundings", Amount::count(stations.len() as f64), "soundings file"),
        ],
        gap,
    ));
    if counted <= reach + reach {
        draft.pass("no stretch is out of reach of a sounding")
    } else {
        draft.unproven(
            "part of the strip is out of reach of any sounding",
            [need(
                &format!("a sounding between {:.0} m and {:.0} m", from.si(), to.si()),
                "on a wheel lane",
            )],
        )
    }
}
