//! F15: what the operator's approved charts ask for.

use super::f10_take_off_distance::line_up_stated;
use crate::context::Context;
use crate::draft::{Draft, computed, constant, derived, given, lost, need, plain_step};
use crate::measured::Known;
use crate::movements::charts::{Approved, approved, available, factor, is_charted};
use crate::rule::Rule;
use hardpan_model::{BasisInput, ChartFigure, Finding, Flight, Given, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Mass, Quantity};

pub(super) const RULE: Rule = Rule {
    code: "F15",
    name: "Approved charts",
    checks: "Distances and greatest masses of the approved charts that the operator entered, read \
             for this flight, against what is declared and planned; and which of chart and model \
             asks for more.",
    why: "The approved manual decides. A model beside it may only ask for more.",
    limit: "Declared distance less what lining up takes, or the planned mass. Outside the rows of \
            a chart nothing is shown.",
    applies: "Each figure for which the aeroplane file has a chart.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    ChartFigure::ALL.into_iter().filter_map(|figure| check(context, figure)).collect()
}

fn check(context: &Context<'_>, figure: ChartFigure) -> Option<Finding> {
    let flight = context.flight;
    let (phase, planned) = match figure.is_of_take_off() {
        true => (Phase::TakeOff, flight.take_off.as_ref().map(|plan| plan.mass.as_ref())),
        false => (Phase::Landing, flight.landing.as_ref().map(|plan| plan.mass.as_ref())),
    };
    let planned = planned.filter(|_| is_charted(flight, figure))?;
    let draft =
        Draft::new(&RULE, format!("{}, approved chart", figure.word()), phase).mark(Mark::Approved);
    let Some(mass) = planned else {
        let what = if figure.is_of_take_off() { "take_off" } else { "landing" };
        let needs = [need(&format!("flight: {what}.mass"), "the mass planned")];
        return Some(draft.unproven("the planned mass is not stated", needs));
    };
    let read = approved(flight, context.measured, figure, mass.value)?;
    Some(match read {
        Err(why) => draft.unavailable(&why),
        Ok(read) if figure.is_mass() => greatest_mass(draft, mass, read),
        Ok(read) => distance(context, draft, figure, read),
    })
}

fn greatest_mass(draft: Draft, planned: &Given<Mass>, read: Approved) -> Finding {
    let limit = read.amount;
    draft
        .value(planned.value)
        .at_most(limit)
        .step(read.step)
        .step(plain_step(
            "mass planned",
            "planned mass ≤ mass of the chart",
            RULE.source,
            vec![given("planned", planned)],
            planned.value,
        ))
        .judged("within the mass of the chart", "over the mass of the chart")
}

fn distance(context: &Context<'_>, draft: Draft, figure: ChartFigure, read: Approved) -> Finding {
    let factor = factor(context.flight, figure);
    let needed = Amount::new(read.amount.dimension, read.amount.si * factor.unwrap_or(1.0));
    let mut draft = draft.value(needed).step(read.step);
    if let Some(factor) = factor {
        draft = draft.step(plain_step(
            "distance needed",
            "distance of the chart × factor of the rule",
            LANDING_RULE,
            vec![
                computed("distance of the chart", read.amount, "step above")
                    .under("distance of the chart"),
                constant("factor", Amount::coefficient(factor), LANDING_RULE)
                    .under("factor of the rule"),
            ],
            needed,
        ));
    } else if figure == ChartFigure::LandingDistance {
        return draft.unproven(
            "the chart gives the distance as demonstrated, and no rule is named that lengthens it",
            [need("flight: landing.rule", "rule that the operator works under")],
        );
    }
    let added = context.flight.landing.as_ref().and_then(|plan| plan.speed_addition.as_ref());
    if !figure.is_of_take_off() && added.is_some_and(|added| added.value.si() > 0.0) {
        draft = draft.caveat("the chart does not count the addition to the reference speed");
    }
    let (draft, binds) = beside_the_model(context, draft, figure, needed);
    let Some((available, line_up)) = available(context.flight, figure) else {
        return draft.unproven(
            "the declared distance of this direction is not stated",
            [need("strip: declared distances", "of the runway end used, from the authority")],
        );
    };
    let (draft, rule) = match figure.is_of_take_off() {
        true => (line_up_stated(draft, context), "declared − lost; lost by lining up"),
        false => (draft, "declared − lost; lost where the threshold is laid up the strip"),
    };
    draft
        .at_most(available.value - line_up)
        .step(plain_step(
            "distance available",
            rule,
            RULE.source,
            vec![
                given("declared", available).under("declared"),
                taken_off(context.flight, figure).under("lost"),
            ],
            available.value - line_up,
        ))
        .judged(
            format!("within what is declared by the approved chart; {binds}"),
            format!("longer than what is declared by the approved chart; {binds}"),
        )
}

/// The distance of the model beside that of the chart, and which of them binds.
fn beside_the_model(
    context: &Context<'_>,
    draft: Draft,
    figure: ChartFigure,
    needed: Amount,
) -> (Draft, &'static str) {
    let Some(model) = modelled(context, figure) else {
        return (draft, "the model gives no distance");
    };
    let (binds, governs) = if model.si() > needed.si {
        ("the model asks for more and binds", Amount::from(model))
    } else {
        ("the chart asks for more than the model and binds", needed)
    };
    let step = plain_step(
        "distance that binds",
        "greater of chart and model",
        derived("a model may only make the answer stricter"),
        vec![
            computed("by the approved chart", needed, "step above").under("chart"),
            computed("by the model", model, model_of(figure)).under("model"),
        ],
        governs,
    );
    (draft.step(step), binds)
}

const LANDING_RULE: Source = Source::new("CFR-121-195", "(b), (d)", Tier::Published);

/// What a movement loses of what is declared, as an input.
fn taken_off(flight: &Flight, figure: ChartFigure) -> BasisInput {
    if figure.is_of_take_off() {
        let line_up = flight.take_off.as_ref().and_then(|plan| plan.line_up.as_ref());
        return lost("line-up", line_up);
    }
    let laid = flight.landing.as_ref().and_then(|plan| plan.displaced_threshold.as_ref());
    lost("threshold laid up by", laid)
}

/// The rule that judges the same figure by the model.
const fn model_of(figure: ChartFigure) -> &'static str {
    match figure {
        ChartFigure::AccelerateStop => "F20",
        ChartFigure::LandingDistance | ChartFigure::LandingDistanceRequired => "F50",
        _ => "F10",
    }
}

/// The same figure by the model.
fn modelled(context: &Context<'_>, figure: ChartFigure) -> Option<Length> {
    fn run<T>(known: &Option<Known<T>>) -> Option<&T> {
        known.as_ref()?.as_ref().ok()
    }
    let measured = context.measured;
    match figure {
        ChartFigure::TakeOffDistance => run(&measured.take_off)?.distance_needed,
        ChartFigure::TakeOffRun => run(&measured.take_off)?.run_needed,
        ChartFigure::AccelerateStop => run(&measured.take_off)?.accelerate_stop_needed,
        ChartFigure::LandingDistance | ChartFigure::LandingDistanceRequired => {
            Some(run(&measured.landing)?.distance_needed)
        }
        ChartFigure::TakeOffMass | ChartFigure::LandingMass => None,
    }
}
