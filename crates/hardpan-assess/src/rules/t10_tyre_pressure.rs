//! T10: tyre pressure within what tyre, chart and rating allow.

use crate::context::Context;
use crate::draft::{Draft, computed, given, plain_step};
use crate::ground::LegKind;
use crate::measured::Known;
use crate::rule::Rule;
use crate::tyres::{LeastBy, TyrePressure};
use hardpan_model::{Finding, Mark, Phase, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "T10",
    name: "Tyre pressure",
    checks: "The pressure set, or the one chosen, against the approved chart at the heavier planned \
             mass or, where none is entered, the maker's table or the pressure that the rating asks \
             at the wheel load; against the least and the greatest pressure of the tyre.",
    why: "Below it the tyre deflects too far, runs hot and may leave the rim; above it the ground \
          gives way sooner.",
    limit: "Tyre maker's and operator's data as entered. An approved chart may allow more \
            deflection than the rating; it then decides.",
    applies: "Main and nose tyres of every flight.",
    source: Source::new("SMILEY-HORNE-1958", "load at rated deflection", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let main = check(context, LegKind::Main, &context.measured.main_tyre);
    let nose = check(context, LegKind::Nose, &context.measured.nose_tyre);
    vec![main, nose]
}

fn check(context: &Context<'_>, kind: LegKind, tyre: &Known<TyrePressure>) -> Finding {
    let title = format!("{} tyre pressure", kind.word());
    let draft = Draft::new(&RULE, title, Phase::Always);
    let tyre = match tyre {
        Ok(tyre) => tyre,
        Err(why) => return draft.unavailable(why),
    };
    let draft = draft.value(tyre.set);
    let least = match &tyre.least {
        Ok(least) => least,
        Err(why) => return draft.unavailable(why),
    };
    let data = &kind.leg(context.flight).tyre;
    let (mark, source, by) = match least.by {
        LeastBy::Minimum => (Mark::Approved, APPROVED, "the least pressure of the tyre"),
        LeastBy::Chart => (Mark::Approved, APPROVED, "the approved chart at this mass"),
        LeastBy::Table => (Mark::Approved, APPROVED, "the maker's table at this wheel load"),
        LeastBy::Rating => (Mark::PlanningOnly, RULE.source, "the rating at this wheel load"),
    };
    let mut inputs = match &tyre.given {
        Some(set) => vec![given("pressure set", set)],
        None => vec![computed(
            "pressure chosen",
            tyre.set,
            "least allowed, or the highest where the ground carries it",
        )],
    };
    inputs.push(computed("least pressure", least.pressure, by));
    let chart = data.chart.iter().map(|row| given("chart", &row.pressure));
    let table = data.load_table.iter().map(|row| given("table", &row.pressure));
    match least.by {
        LeastBy::Chart => inputs.extend(chart),
        LeastBy::Table => inputs.extend(table),
        LeastBy::Minimum => {
            inputs.extend(data.minimum_pressure.iter().map(|one| given("minimum", one)))
        }
        LeastBy::Rating => {
            inputs.extend(data.rated_load.iter().map(|one| given("rated load", one)));
            inputs.extend(data.rated_pressure.iter().map(|one| given("rated pressure", one)));
        }
    }
    let draft = draft.mark(mark).at_least(least.pressure).step(plain_step(
        "tyre pressure",
        "least pressure ≤ pressure ≤ greatest pressure",
        source,
        inputs,
        tyre.set,
    ));
    if let Some(highest) = &data.maximum_pressure
        && tyre.set > highest.value
    {
        return draft
            .at_most(highest.value)
            .fail("the pressure is above the greatest that the tyre allows");
    }
    draft.judged(format!("not below {by}"), format!("the pressure is below {by}"))
}

const APPROVED: Source =
    Source::new("", "tyre maker's or operator's data, as entered", Tier::Approved);
