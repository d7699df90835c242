//! E10: required protective equipment is fitted, works and is in date.

use crate::context::Context;
use crate::draft::{Draft, given_as, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Equipment, Finding, Mark, Phase, Source, SurfaceKind, Tier};
use hardpan_quantity::{Amount, Dimension, Quantity, Time};
use jiff::civil::Date;

pub(super) const RULE: Rule = Rule {
    code: "E10",
    name: "Protective equipment",
    checks: "Each piece of equipment that the aeroplane file requires on this surface is fitted, \
             serviceable and, where an interval is stated, inspected in time.",
    why: "Deflectors, dissipators and coatings are what keeps stones out of engines and off the \
          airframe; without one of them the approval to use the surface does not hold.",
    limit: "As entered from the operator's approved manual.",
    applies: "Every flight; equipment that is not required on the surface is not judged.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let all = &flight.aeroplane.equipment;
    if all.is_empty() {
        return vec![Draft::new(&RULE, "protective equipment", Phase::Always).unproven(
            "the aeroplane file lists no protective equipment",
            [need(
                "aeroplane: [[equipment]]",
                "list each piece with required_on, fitted, serviceable and inspected_on; list one \
                 with required_on = [] if none is required",
            )],
        )];
    }
    let Some(surface) = &flight.strip.surface else {
        return vec![Draft::new(&RULE, "protective equipment", Phase::Always).unproven(
            "the surface of the strip is not stated, so what is required is not known",
            [need("strip: surface", "gravel, dirt or grass")],
        )];
    };
    let date = flight.day.date.as_ref().map(|date| date.value);
    let required = all.iter().filter(|item| item.required_on.contains(&surface.value));
    required.map(|item| judge_item(item, surface.value, date)).collect()
}

fn judge_item(item: &Equipment, surface: SurfaceKind, date: Option<Date>) -> Finding {
    let name = &item.name.value;
    let draft =
        Draft::new(&RULE, name.clone(), Phase::Always).mark(Mark::Approved).step(plain_step(
            "required equipment",
            "fitted and serviceable and inspected within the interval",
            RULE.source,
            vec![given_as(name, &item.name, Amount::count(1.0))],
            Amount::count(1.0),
        ));
    match (&item.fitted, &item.serviceable) {
        (Some(fitted), _) if !fitted.value => {
            draft.fail(format!("{name} is required on {} and is not fitted", surface.word()))
        }
        (_, Some(works)) if !works.value => {
            draft.fail(format!("{name} is required on {} and does not work", surface.word()))
        }
        (Some(_), Some(_)) => judge_age(draft, item, date),
        _ => draft.unproven(
            format!("whether {name} is fitted and serviceable is not stated"),
            [need(
                &format!("aeroplane: equipment \"{name}\": fitted, serviceable"),
                "true or false, as found at the last check",
            )],
        ),
    }
}

fn judge_age(draft: Draft, item: &Equipment, date: Option<Date>) -> Finding {
    let name = &item.name.value;
    let Some(interval) = &item.inspect_every else {
        return draft.pass(format!("{name} is fitted and serviceable"));
    };
    let (Some(inspected), Some(date)) = (&item.inspected_on, date) else {
        return draft.unproven(
            format!("the age of the last inspection of {name} is not known"),
            [need(
                &format!("aeroplane: equipment \"{name}\": inspected_on; day: date"),
                "days in the form 2026-05-01",
            )],
        );
    };
    let age = days_between(inspected.value, date);
    let draft = draft
        .value(Amount::new(Dimension::Time, age.si()))
        .at_most(Amount::new(Dimension::Time, interval.value.si()));
    if age.si() < 0.0 {
        return draft.unproven(
            format!("{name} is said to be inspected after the day of the flight"),
            [need(&format!("aeroplane: equipment \"{name}\": inspected_on"), "check the day")],
        );
    }
    draft.judged(
        format!("{name} is fitted, serviceable and inspected in time"),
        format!("the inspection of {name} is overdue"),
    )
}

/// Whole days from the first to the second date.
pub(super) fn days_between(from: Date, to: Date) -> Time {
    let days = (to - from).get_days();
    Time::from_si(f64::from(days) * 86_400.0)
}
