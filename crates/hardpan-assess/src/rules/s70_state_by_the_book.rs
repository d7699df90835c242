//! S70: the state of the strip as its book records it.

use crate::context::Context;
use crate::draft::{Draft, given_as, need, plain_step};
use crate::on_strip::{OnStrip, on_strip};
use crate::rule::Rule;
use hardpan_model::{
    BasisInput, ClosedSpan, Finding, Phase, Source, StripRecord, StripState, StripTold, Tier,
};
use hardpan_quantity::Amount;
use jiff::{SignedDuration, Timestamp};
use std::fmt::Write as _;

pub(super) const RULE: Rule = Rule {
    code: "S70",
    name: "State by the book",
    checks: "What each book that was asked records of the strip at the time of the flight: a \
             closure from the movement until the aeroplane is off again, one within a day after, \
             and what the last inspection by then found against unrestricted use.",
    why: "A strip that is closed may not be used, however smooth, thick and dry it is; what the \
          figures rest on may have been closed for good reason since.",
    limit: "No closure in force. A rut of 3 in or more, standing water, growth of ruts that leads \
            there by now, no inspection at all and none since the last closure are conditions. A \
            book that cannot be read, or that records nothing of the strip, proves nothing.",
    applies: "Flights for which a book was asked. Closures may be told elsewhere too, by notices \
              to airmen or by who owns the strip: a book that knows of none is no permission. A \
              flight without a time counts for all of its day.",
    source: Source::new(
        "",
        "the authority of the aerodrome opens and closes",
        Tier::CommonPractice,
    ),
    judge,
};

/// A closure that begins so soon after the flight is told. Judgement.
const SOON: SignedDuration = SignedDuration::from_hours(24);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let records = &context.flight.strip_records;
    let stay = on_strip(context.flight);
    records.iter().map(|record| judge_book(record, stay)).collect()
}

fn judge_book(record: &StripRecord, stay: Option<OnStrip>) -> Finding {
    let book = file_name(&record.book);
    let draft = Draft::new(&RULE, format!("state of the strip by {book}"), Phase::Always);
    match &record.told {
        StripTold::Unreadable(why) => draft.unproven(
            format!(
                "the book cannot be read, so that nobody knows whether the strip is closed: {why}"
            ),
            [need(
                &format!("the book {book}"),
                "mend it, or take it away if it is of no strip here",
            )],
        ),
        StripTold::Nothing(known) => {
            let known = match known.as_slice() {
                [] => "it tells of no strip".to_owned(),
                names => format!("it tells of {}", names.join(", ")),
            };
            draft.unproven(
                format!("nothing is recorded of the strip under its name; {known}"),
                [need(
                    &format!("the book {book}: a record of the strip"),
                    "the name of the strip file as the book has it, or another book",
                )],
            )
        }
        StripTold::State(state) => judge_state(draft, state, stay),
    }
}

fn judge_state(draft: Draft, state: &StripState, stay: Option<OnStrip>) -> Finding {
    let Some(stay) = stay else {
        if !state.closures.is_empty() {
            let when = need("day: date, time_utc", "when the movement is planned");
            return draft
                .unproven("closures are recorded, and no day of the flight is stated", [when]);
        }
        return open(draft, state, None);
    };
    let meets = |span: &&ClosedSpan| {
        span.from.value <= stay.to
            && span.until.as_ref().is_none_or(|until| stay.from < until.value)
    };
    let met: Vec<&ClosedSpan> = state.closures.iter().filter(meets).collect();
    if met.is_empty() {
        let soon = state.closures.iter().find(|span| {
            span.from.value > stay.to && span.from.value.duration_since(stay.to) <= SOON
        });
        return open(draft, state, soon);
    }
    let words: Vec<String> = met.iter().map(|span| closed(span)).collect();
    let draft = draft.step(step(
        met.iter().map(|span| given_as("closure in force", &span.from, Amount::count(1.0))),
        met.len(),
    ));
    let is_all_day = met.iter().any(|span| {
        span.from.value <= stay.from
            && span.until.as_ref().is_none_or(|until| stay.to <= until.value)
    });
    if !stay.is_timed && !is_all_day {
        return draft.unproven(
            format!("{}; no time of the flight is stated", words.join("; ")),
            [need("day: time_utc", "time of the movement, 14:30Z, outside the closure")],
        );
    }
    draft
        .instruct("do not use this strip: it is closed")
        .fail(format!("the strip is {}", words.join("; ")))
}

/// A strip that no closure holds at the time of the flight.
fn open(draft: Draft, state: &StripState, soon: Option<&ClosedSpan>) -> Finding {
    let mut against: Vec<String> = state.restrictions.iter().map(|one| one.value.clone()).collect();
    let mut instructions = Vec::new();
    if !against.is_empty() {
        instructions
            .push("look at what the book holds against the strip before using it".to_owned());
    }
    if state.inspected.is_none() {
        against.push("no inspection is recorded by the time of the flight".to_owned());
        instructions.push("ask who keeps the strip whether it is open".to_owned());
    }
    if let Some(span) = soon {
        against.push(format!("it will be {}", closed(span)));
        instructions.push(format!("be off the strip before {}", moment(span.from.value)));
    }
    let seen = state.inspected.iter().map(|seen| given_as("inspection", seen, Amount::count(1.0)));
    let held = state
        .restrictions
        .iter()
        .map(|one| given_as("held against it", one, Amount::count(1.0)))
        .chain(soon.map(|span| given_as("closure ahead", &span.from, Amount::count(1.0))));
    let draft = draft.step(step(seen.chain(held), 0));
    match state.inspected.as_ref().filter(|_| against.is_empty()) {
        Some(seen) => draft.pass(format!(
            "inspected {}; no closure is recorded for the time of the flight",
            moment(seen.value)
        )),
        None => draft.instruct(instructions.join("; ")).conditional(against.join("; ")),
    }
}

fn step(inputs: impl Iterator<Item = BasisInput>, closures: usize) -> hardpan_model::Step {
    plain_step(
        "closures in force at the time of the flight",
        "count of closures whose time meets that from the movement until the take-off",
        RULE.source,
        inputs.collect(),
        Amount::count(closures as f64),
    )
}

/// A closure in words.
fn closed(span: &ClosedSpan) -> String {
    let mut words = format!("closed from {}", moment(span.from.value));
    let _ = match &span.until {
        Some(until) => write!(words, " until {}", moment(until.value)),
        None => write!(words, ", no reopening is recorded"),
    };
    let reason = span.reason.split_whitespace().collect::<Vec<_>>().join(" ");
    format!("{words}: {reason} (recorded by {})", span.by)
}

fn moment(at: Timestamp) -> String {
    at.strftime("%Y-%m-%d %H:%MZ").to_string()
}

/// The last part of a path.
fn file_name(path: &str) -> &str {
    path.rsplit(['/', '\\']).next().unwrap_or(path)
}
