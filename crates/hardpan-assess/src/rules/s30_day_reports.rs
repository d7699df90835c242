//! S30: the reports of the day are there and fresh.

use super::e10_protective_equipment::days_between;
use crate::context::Context;
use crate::draft::{Draft, given_as, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, Tier};
use hardpan_quantity::{Amount, Dimension};

pub(super) const RULE: Rule = Rule {
    code: "S30",
    name: "Reports of the day",
    checks: "Age of the weather report against the operator's limit, and that somebody went over \
             the whole strip on the day.",
    why: "Soil changes with one shower and wind with the hour: an old report proves nothing.",
    limit: "`report_age` of the flight file, as the operator sets it.",
    applies: "Every flight.",
    source: Source::new("", "reports no older than the operator allows", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    vec![weather(context), inspection(context)]
}

fn weather(context: &Context<'_>) -> Finding {
    let flight = context.flight;
    let draft = Draft::new(&RULE, "age of the weather report", Phase::Always);
    let (Some(observed), Some(time), Some(allowed)) =
        (&flight.day.observed_utc, &flight.day.time_utc, &flight.report_hours)
    else {
        let rows = [
            (flight.day.observed_utc.is_none(), "day: metar", "a report with its time"),
            (flight.day.time_utc.is_none(), "day: time_utc", "time of the movement, 14:30Z"),
            (flight.report_hours.is_none(), "flight: report_age", "oldest report allowed, 2 h"),
        ];
        let needs = rows.iter().filter(|row| row.0).map(|row| need(row.1, row.2));
        return draft.unproven("the age of the weather report is not known", needs);
    };
    let hours = time.value.duration_since(observed.value).as_secs_f64() / 3600.0;
    let as_time = |hours: f64| Amount::new(Dimension::Time, hours * 3600.0);
    let draft = draft.value(as_time(hours)).at_most(as_time(allowed.value)).step(plain_step(
        "age of the weather report",
        "movement − report; both counted from the report, at most the age allowed",
        RULE.source,
        vec![
            given_as("age allowed", allowed, as_time(allowed.value)),
            given_as("report", observed, as_time(0.0)).under("report"),
            given_as("movement", time, as_time(hours)).under("movement"),
        ],
        as_time(hours),
    ));
    if hours < -0.5 {
        return draft.unproven(
            "the weather report is later than the movement",
            [need("day: time_utc", "the time of the movement")],
        );
    }
    if hours > allowed.value {
        return draft.unproven(
            "the weather report is older than the operator allows",
            [need("day: metar", "a fresh report")],
        );
    }
    draft.pass("the weather report is fresh enough")
}

fn inspection(context: &Context<'_>) -> Finding {
    let draft = Draft::new(&RULE, "strip inspected on the day", Phase::Always);
    match &context.flight.day.inspected {
        Some(inspected) if inspected.value => draft
            .step(plain_step(
                "inspection of the strip",
                "somebody went over the whole strip on the day",
                RULE.source,
                vec![given_as("inspected", inspected, Amount::count(1.0))],
                Amount::count(1.0),
            ))
            .pass("somebody went over the whole strip on the day"),
        _ => draft.unproven(
            "nobody says that the strip was inspected on the day",
            [need("day: inspected", "true once somebody has gone over the whole strip")],
        ),
    }
}

/// A finding that data of a given day are no older than the flight allows.
pub(super) fn judge_age(
    draft: Draft,
    context: &Context<'_>,
    taken: Option<&hardpan_model::Given<jiff::civil::Date>>,
    key: &str,
) -> Finding {
    let flight = context.flight;
    let (Some(taken), Some(today), Some(allowed)) = (taken, &flight.day.date, &flight.survey_days)
    else {
        let rows = [
            (taken.is_none(), key, "the day it was made"),
            (flight.day.date.is_none(), "day: date", "the day of the flight"),
            (flight.survey_days.is_none(), "flight: survey_age", "oldest data allowed, 365 d"),
        ];
        let needs = rows.iter().filter(|row| row.0).map(|row| need(row.1, row.2));
        return draft.unproven("the age of the data is not known", needs);
    };
    let age = Amount::from(days_between(taken.value, today.value));
    let limit = Amount::new(Dimension::Time, allowed.value * 86_400.0);
    let draft = draft.value(age).at_most(limit).step(plain_step(
        "age of the data",
        "days from the data to the day of the flight; at most the age allowed",
        RULE.source,
        vec![given_as("made", taken, age), given_as("age allowed", allowed, limit)],
        age,
    ));
    if age.si < 0.0 {
        return draft.unproven("the data are dated after the flight", [need(key, "check the day")]);
    }
    if age.si > limit.si {
        return draft
            .unproven("the data are older than the operator allows", [need(key, "measure again")]);
    }
    draft.pass("recent enough")
}

#[cfg(test)]
mod tests {
    use super::days_between;
    use hardpan_quantity::Quantity;
    use jiff::civil::date;

    #[test]
    fn days_count_across_a_leap_day() {
        let days = days_between(date(2028, 2, 28), date(2028, 3, 1)).si() / 86_400.0;
        assert!((days - 2.0).abs() < 1e-12);
    }
}
