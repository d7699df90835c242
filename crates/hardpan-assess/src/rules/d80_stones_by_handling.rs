//! D80: the stones that a flight meets, by how the crew handles the aeroplane.

use crate::assessment::{HandlingRow, HandlingTable};
use crate::context::Context;
use crate::draft::{Draft, beside, given, given_as, plain_step};
use crate::rule::Rule;
use hardpan_debris::THROW_TIER;
use hardpan_model::{BasisInput, DamageRecord, Finding, Flight, Given, Mark, Phase, Source};
use hardpan_quantity::{Amount, Quantity, counted, ratio};

pub(super) const RULE: Rule = Rule {
    code: "D80",
    name: "Stones by handling",
    checks: "The loose stones that tyre edges throw at the airframe over landing, take-off and \
             taxiing, and those under an inlet vortex, for the handling planned and for each \
             other choice: when thrust is set, flaps and thrust while taxiing, reverse, and each \
             deflector.",
    why: "Crew and operator choose the handling: it is the cheapest protection there is.",
    limit: "None: choices are compared. No rate of damage is published, and none is given: only \
            ratios, unless a damage record says what stones did so far.",
    applies: "Flights over counted loose stones. Differences of less than a tenth are not told \
              apart, and full thrust at brake release is compared and never advised. Screening, as D70 and D20; the width of ground \
              that a tyre edge throws from is judged, and cancels in the ratios. A rate takes \
              the movements of the record to have been as the one planned.",
    source: COMPARED,
    judge,
};

const COMPARED: Source =
    Source::new("NGUYEN-LOFTING", "launch by tyre edges, summed over the ground", THROW_TIER);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = || {
        Draft::new(&RULE, "stones by handling", Phase::Always)
            .advice()
            .mark(Mark::PlanningOnly)
            .caveat("screening only; for comparing, not for predicting")
    };
    match context.handling {
        None => Vec::new(),
        Some(Err(why)) => vec![draft().unavailable(why)],
        Some(Ok(table)) => {
            let mut findings = vec![advised(context.flight, table, draft())];
            findings.extend(rate(context.flight, table));
            findings
        }
    }
}

fn advised(flight: &Flight, table: &HandlingTable, draft: Draft) -> Finding {
    let shown = table.best.as_ref().or(table.worst.as_ref());
    let thrown = shown.and_then(|row| row.thrown).unwrap_or(ratio(1.0));
    let mut inputs = handling_inputs(flight);
    inputs.push(beside(
        "stones under tyre edges that would reach the airframe, as planned",
        Amount::coefficient(table.reach),
        "ground rolled over, D70",
    ));
    let draft = draft.value(thrown).step(plain_step(
        "stones thrown at the airframe, over those of the handling planned",
        "Σ n · 2 d · e · s · P(V), over the same as planned; P from the draw of D70",
        COMPARED,
        inputs,
        thrown,
    ));
    match (&table.best, &table.worst) {
        (Some(best), _) => draft
            .instruct(format!("{}: {}", best.name, against(table, best)))
            .conditional("another handling meets fewer stones than the one planned"),
        (None, Some(worst)) => draft
            .instruct(format!(
                "keep to the handling planned: {} meets {}",
                worst.name,
                against(table, worst)
            ))
            .conditional("no choice compared meets fewer stones than the handling planned"),
        (None, None) => draft.pass("no choice of the crew meets a tenth fewer stones or more"),
    }
}

/// What a choice meets against the plan, in words.
fn against(table: &HandlingTable, row: &HandlingRow) -> String {
    let planned = table.rows.first().and_then(|row| row.swallowed);
    let thrown = row
        .thrown
        .map(|share| format!("{:.2} times the stones thrown at the airframe", share.si()));
    let other = row.swallowed.zip(planned).filter(|(with, planned)| with.ceil() != planned.ceil());
    let swallowed = other.map(|(with, planned)| {
        let stones = counted(format!("{:.0}", with.ceil()), "stone", "stones");
        format!("{stones} under an inlet vortex in place of {:.0}", planned.ceil())
    });
    [thrown, swallowed].into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

fn handling_inputs(flight: &Flight) -> Vec<BasisInput> {
    let technique = &flight.technique;
    let mut inputs = Vec::new();
    inputs.extend(technique.taxi_speed.as_ref().map(|speed| given("taxi speed", speed)));
    inputs.extend(technique.taxi_thrust.as_ref().map(|share| given("taxi thrust", share)));
    inputs.extend(technique.reverse_until.as_ref().map(|speed| given("reverse until", speed)));
    for patch in flight.day.loose_material.iter().flatten() {
        inputs.push(given("patch from", &patch.from));
        for size in &patch.sizes {
            let count = &size.stones_per_square_metre;
            inputs.push(given("stones up to", &size.up_to));
            inputs.push(given_as("on a square metre", count, Amount::count(count.value)));
        }
        if patch.sizes.is_empty() {
            inputs.extend(patch.largest_stone.as_ref().map(|size| given("largest stone", size)));
            inputs.extend(
                patch
                    .stones_per_square_metre
                    .as_ref()
                    .map(|count| given_as("on a square metre", count, Amount::count(count.value))),
            );
        }
    }
    inputs
}

/// The rate of the damage record, for the handling planned.
fn rate(flight: &Flight, table: &HandlingTable) -> Option<Finding> {
    let record = flight.damage_record.as_ref()?;
    let [low, mean, high] = table.rows.first()?.strikes?;
    let value = Amount::coefficient(mean);
    let draft = Draft::new(&RULE, "strikes for each 1,000 movements", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("holds if the movements of the record were as the one planned")
        .value(value)
        .step(plain_step(
            "strikes for each 1,000 movements, with 90 % limits",
            "1000 × strikes / movements; limits χ²(5 %; 2 n)/2 and χ²(95 %; 2 n + 2)/2",
            Source::new("GARWOOD-1936", "exact limits", hardpan_model::Tier::Secondary),
            record_inputs(record, [low, high]),
            value,
        ));
    Some(draft.pass(format!(
        "{} on {}: {mean:.1}, with 90 % confidence from {low:.1} to {high:.1}",
        counted(record.strikes.value, "strike", "strikes"),
        counted(record.movements.value, "movement", "movements")
    )))
}

fn record_inputs(record: &DamageRecord, [low, high]: [f64; 2]) -> Vec<BasisInput> {
    let count = |name: &str, given: &Given<u32>| {
        given_as(name, given, Amount::count(f64::from(given.value)))
    };
    vec![
        count("movements", &record.movements).under("movements"),
        count("strikes", &record.strikes).under("strikes"),
        beside("lower limit", Amount::coefficient(low), "limits of the count"),
        beside("upper limit", Amount::coefficient(high), "limits of the count"),
    ]
}
