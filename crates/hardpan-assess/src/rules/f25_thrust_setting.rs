//! F25: what the crew sets for the thrust that the runs are made with.

use crate::context::{Context, bounds_today};
use crate::draft::{Draft, computed, given, given_as, plain_step};
use crate::measured::Unavailable;
use crate::movements::TakeOffCase;
use crate::movements::thrust_setting::{beyond, set_for};
use crate::rule::Rule;
use hardpan_model::{ApprovedLimit, BasisInput, Bound, Finding, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Dimension, Quantity, Ratio, percent};

pub(super) const RULE: Rule = Rule {
    code: "F25",
    name: "Thrust setting",
    checks: "What must be set, by the table of the aeroplane file from setting to thrust, for the \
             take-off thrust that the runs are made with, in the air of the day; and what is set \
             before brake release against the approved limit on it.",
    why: "The crew sets an instrument, not a thrust. Less thrust than the runs were made with \
          makes every distance longer.",
    limit: "An approved limit on `thrust before brake release, ` with the name of the parameter. \
            The table is not extrapolated.",
    applies: "Take-offs of an aeroplane whose file has the table. The thrust of the day is the \
              model's: the approved table of settings decides what is set.",
    source: Source::new("", "operator's table, linear between its rows", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let Some(case) = &context.measured.take_off_case else { return Vec::new() };
    let planned = flight.take_off.as_ref().and_then(|plan| plan.setting.as_ref());
    if flight.aeroplane.engines.setting.rows.is_empty() && planned.is_none() {
        return Vec::new();
    }
    match case {
        Err(why) => vec![draft("take-off thrust setting").unavailable(why)],
        Ok(case) => {
            let mut findings = vec![take_off(context, case)];
            findings.extend(before_release(context, case));
            findings
        }
    }
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::BeforeBrakeRelease).mark(Mark::PlanningOnly)
}

/// Name of the parameter as the file has it.
fn name<'a>(context: &'a Context<'_>) -> &'a str {
    let name = context.flight.aeroplane.engines.setting.name.as_ref();
    name.map_or("thrust setting", |name| name.value.as_str())
}

fn set(context: &Context<'_>, share: Ratio) -> Result<(f64, Step), Unavailable> {
    let table = &context.flight.aeroplane.engines.setting;
    let told = Amount::from(share).told();
    let value = set_for(table, share).ok_or_else(|| {
        let wanted = format!("{told} of static thrust");
        Unavailable::missing("the setting", vec![beyond(&wanted)])
    })?;
    let rows = table.rows.iter().map(|row| {
        let name = format!("thrust at {}", Amount::coefficient(row.value.value).told());
        given(&name, &row.share)
    });
    let mut inputs: Vec<BasisInput> = vec![computed("thrust wanted", share, "thrust of the runs")];
    inputs.extend(rows);
    let expression = "linear between the rows of the table";
    Ok((
        value,
        plain_step(name(context), expression, RULE.source, inputs, Amount::coefficient(value)),
    ))
}

fn take_off(context: &Context<'_>, case: &TakeOffCase) -> Finding {
    let draft = draft("take-off thrust setting");
    let [_, share] = case.thrust_shares();
    let (value, step) = match set(context, share) {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let rows = context.flight.take_off.iter().flat_map(|plan| &plan.thrust);
    let by_speed = rows.filter(|row| row.share.value < percent(100.0)).map(|row| {
        let (value, _) = set(context, share * row.share.value.si())?;
        let speed = Amount::from(row.ground_speed.value).told();
        Ok(format!("{} at {speed}", shown(value)))
    });
    let by_speed = match by_speed.collect::<Result<Vec<String>, Unavailable>>() {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let first = match by_speed.is_empty() {
        true => String::new(),
        false => format!("; first {}", by_speed.join(", then ")),
    };
    draft
        .value(Amount::coefficient(value))
        .step(step)
        .instruct(format!("set {} {}{first}", name(context), shown(value)))
        .conditional(
            "the distances hold only with this thrust; the approved table of settings decides",
        )
}

/// What is set at brake release against the approved limits on it.
fn before_release(context: &Context<'_>, case: &TakeOffCase) -> Option<Finding> {
    let flight = context.flight;
    let wanted = format!("thrust before brake release, {}", name(context));
    let limits = flight.aeroplane.limits.iter().filter(|limit| {
        limit.quantity.value == wanted
            && limit.bound == Bound::AtMost
            && bounds_today(flight, limit)
    });
    let limits: Vec<&ApprovedLimit> = limits.collect();
    let draft = draft("thrust before brake release").mark(Mark::Approved);
    let of_another = limits.iter().find(|one| one.value.value.dimension != Dimension::Coefficient);
    if let Some(limit) = of_another {
        let why = format!(
            "the limit is given as a {}, the table of settings has plain numbers",
            limit.value.value.dimension.name()
        );
        return Some(draft.unproven(why, []));
    }
    let least = limits.into_iter().min_by(|a, b| a.value.value.si.total_cmp(&b.value.value.si))?;
    let first = flight.take_off.as_ref()?.thrust.first();
    let [_, full] = case.thrust_shares();
    let share = first.map_or(full, |row| full * row.share.value.si());
    let (value, step) = match set(context, share) {
        Ok(found) => found,
        Err(why) => return Some(draft.unavailable(&why)),
    };
    let limit = plain_step(
        "approved limit before brake release",
        "what is set ≤ approved limit",
        RULE.source,
        vec![given_as("approved limit", &least.value, least.value.value)],
        least.value.value,
    );
    let draft = draft.value(Amount::coefficient(value)).limit(Bound::AtMost, least.value.value);
    Some(
        draft
            .step(step)
            .step(limit)
            .judged("within the approved limit", "more is set standing than is approved"),
    )
}

/// A setting to the digit that an instrument shows.
fn shown(value: f64) -> String {
    if value < 10.0 { format!("{value:.2}") } else { format!("{value:.1}") }
}
