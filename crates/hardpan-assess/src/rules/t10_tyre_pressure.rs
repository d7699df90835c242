//! T10: tyre pressure within what tyre, chart and rating allow.

use crate::context::Context;
use crate::draft::{Draft, beside, given, given_as, plain_step};
use crate::ground::LegKind;
use crate::ground::strength_finding::load_inputs;
use crate::measured::Known;
use crate::rule::Rule;
use crate::tyres::{LeastBy, TyrePressure};
use hardpan_model::{BasisInput, Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::Amount;

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
        None => chosen(context, kind, tyre),
    };
    inputs.push(beside("least pressure", least.pressure, by));
    inputs.extend(least_inputs(context, kind, least.by));
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

/// The pressure that is chosen where the crew states none, and what it is chosen from.
fn chosen(context: &Context<'_>, kind: LegKind, tyre: &TyrePressure) -> Vec<BasisInput> {
    let how = "the highest of the tyre where the ground carries it, else the least rounded up to \
               5 psi, no more than the ground carries";
    let mut inputs = vec![beside("pressure chosen", tyre.set, how)];
    let data = &kind.leg(context.flight).tyre;
    let highest = data.maximum_pressure.as_ref().or(data.rated_pressure.as_ref());
    inputs.extend(highest.map(|highest| given("highest of the tyre", highest)));
    if let Ok(Some(carried)) = &tyre.greatest {
        let how = "search over pressure for the criterion of G20 with these passes and loads";
        inputs.push(beside("greatest that the ground carries", *carried, how));
        let passes = context.flight.passes.iter();
        inputs.extend(passes.map(|one| given_as("passes", one, Amount::count(one.value))));
    }
    inputs
}

/// What the least pressure comes from.
fn least_inputs(context: &Context<'_>, kind: LegKind, by: LeastBy) -> Vec<BasisInput> {
    let data = &kind.leg(context.flight).tyre;
    let masses = || load_inputs(context.flight);
    match by {
        LeastBy::Chart => {
            let rows = data.chart.iter().flat_map(|row| {
                [given("mass of the chart", &row.mass), given("chart", &row.pressure)]
            });
            rows.chain(masses()).collect()
        }
        LeastBy::Table => {
            let rows = data.load_table.iter().flat_map(|row| {
                [given("load of the table", &row.load), given("table", &row.pressure)]
            });
            rows.chain(masses()).collect()
        }
        LeastBy::Minimum => data.minimum_pressure.iter().map(|one| given("minimum", one)).collect(),
        LeastBy::Rating => {
            let load = data.rated_load.iter().map(|one| given("rated load", one));
            let pressure = data.rated_pressure.iter().map(|one| given("rated pressure", one));
            load.chain(pressure).chain(masses()).collect()
        }
    }
}

const APPROVED: Source =
    Source::new("", "tyre maker's or operator's data, as entered", Tier::Approved);
