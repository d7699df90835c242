//! Why the answer is what it is, in the order in which a captain asks.

use crate::assessment::{Assessment, MassAnswer, SpeedRow};
use hardpan_model::{Bound, Finding, Verdict, Weight};
use hardpan_quantity::{Amount, Mass, Pressure, Quantity, kilograms};

/// Conditions that are named outright; the rest are counted.
const NAMED_CONDITIONS: usize = 3;
/// Checks that are named where several fail or are unproven.
const NAMED_CHECKS: usize = 3;
/// Remedies that are named where the answer is a fail.
const NAMED_REMEDIES: usize = 2;

/// What the answer does not tell by itself.
const HOW_SURE: &str = "Every figure counts as it is given or reckoned. How likely it is that a \
    limit is exceeded nonetheless is told apart, by draws (confidence), and may be the harder \
    answer.";

/// A question, and its answer in plain words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AccountLine {
    /// What a captain asks.
    pub asked: &'static str,
    /// The answer, one sentence or a few.
    pub said: String,
}

/// The questions and their answers.
pub(super) fn account(found: &Assessment) -> Vec<AccountLine> {
    let line = |asked, said: Option<String>| Some(AccountLine { asked, said: said? });
    [
        line("Can I go?", Some(may_go(found))),
        line("How heavy?", how_heavy(found)),
        line("What limits it?", what_limits(found)),
        line("What must hold?", what_must_hold(found)),
        line("What would change it?", what_would_change(found)),
        line("How sure is it?", Some(HOW_SURE.to_owned())),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn safety(found: &Assessment, verdict: Verdict) -> Vec<&Finding> {
    let of = |finding: &&Finding| finding.weight == Weight::Safety && finding.verdict == verdict;
    found.findings.iter().filter(of).collect()
}

fn may_go(found: &Assessment) -> String {
    let all = found.findings.iter().filter(|finding| finding.weight == Weight::Safety).count();
    let bad = safety(found, found.answer.verdict);
    let verb =
        |one: &str, more: &str| if bad.len() == 1 { one.to_owned() } else { more.to_owned() };
    match found.answer.verdict {
        Verdict::Pass => format!("Yes, as planned: all {all} checks that bear on safety hold."),
        Verdict::Conditional => format!(
            "Yes, while every condition is kept: all {all} checks that bear on safety hold, {} of \
             them with a condition.",
            bad.len()
        ),
        Verdict::Unproven => format!(
            "That cannot be shown: {} of {all} checks that bear on safety {} data. {}",
            bad.len(),
            verb("lacks", "lack"),
            named(&bad)
        ),
        Verdict::Fail => format!(
            "No, not as planned: {} of {all} checks that bear on safety {}. {}",
            bad.len(),
            verb("fails", "fail"),
            named(&bad)
        ),
    }
}

/// The first few checks with what they say.
fn named(bad: &[&Finding]) -> String {
    let one = |finding: &&Finding| {
        let because = finding.because.trim_end_matches('.');
        format!("{} {}: {because}", finding.code, finding.title)
    };
    let mut words: Vec<String> = bad.iter().take(NAMED_CHECKS).map(one).collect();
    if bad.len() > NAMED_CHECKS {
        words.push(format!("and {} more", bad.len() - NAMED_CHECKS));
    }
    words.join("; ") + "."
}

fn masses(found: &Assessment) -> Vec<(&'static str, &MassAnswer)> {
    let of = |word, answer| Option::map(Option::as_ref(answer), |answer| (word, answer));
    [of("land", &found.landing_mass), of("take off", &found.take_off_mass)]
        .into_iter()
        .flatten()
        .collect()
}

fn how_heavy(found: &Assessment) -> Option<String> {
    let one = |(word, answer): &(&str, &MassAnswer)| {
        let Some(largest) = answer.largest else {
            return match &answer.unknown {
                Some(unknown) => format!(
                    "no mass to {word} at can be told, as {} ({}) lacks data",
                    unknown.title, unknown.code
                ),
                None => format!("no mass to {word} at holds"),
            };
        };
        let most = format!("{word} at no more than {}", told(largest));
        let Some(planned) = answer.planned else { return most };
        let spare = (largest - planned).si();
        let apart = Amount::from(kilograms(spare.abs()));
        let (apart, word) = match spare < 0.0 {
            true => (apart.told_no_less(), "too much"),
            false => (apart.told_no_more(), "to spare"),
        };
        let load = answer.load.map_or_else(String::new, |load| {
            format!(", which with the fuel planned leaves {} of load", told(load))
        });
        let planned = Amount::from(planned).told();
        format!("{most}{load}; {planned} is planned, {apart} {word}")
    };
    let parts: Vec<String> = masses(found).iter().map(one).collect();
    let first = parts.first()?;
    let rest = parts.iter().skip(1).map(|part| format!(". {}", capital(part)));
    let said: String = std::iter::once(capital(first)).chain(rest).collect();
    let rider = match found.answer.verdict {
        Verdict::Pass | Verdict::Conditional => String::new(),
        other => format!(" Not for use while the answer is {}.", other.word()),
    };
    let pressure = found
        .tyre
        .set
        .map_or_else(String::new, |set| format!(" Main tyres at {}.", pressure(set, found)));
    Some(format!("{said}.{pressure}{rider}"))
}

/// The pressure set, told no lower where the least of the tyre binds.
fn pressure(set: Pressure, found: &Assessment) -> String {
    let is_least = found.tyre.least.is_some_and(|least| set <= least);
    if is_least { Amount::from(set).told_no_less() } else { Amount::from(set).told() }
}

fn what_limits(found: &Assessment) -> Option<String> {
    let limited = |(word, answer): &(&str, &MassAnswer)| {
        let Some(first) = answer.set_by() else {
            let known = answer.limits.iter().find_map(|limit| Some((limit, limit.mass?)));
            return known.map(|(limit, mass)| {
                format!(
                    "Of what is known {} ({}) lets it {word} at {} at most.",
                    limit.title,
                    limit.code,
                    told(mass)
                )
            });
        };
        let next = answer.limits.iter().skip(1).find_map(|limit| Some((limit, limit.mass?)));
        let then = next.map_or_else(String::new, |(limit, mass)| {
            format!(", then {} ({}) at {}", limit.title, limit.code, told(mass))
        });
        Some(format!("To {word} it is {} ({}) that sets the mass{then}.", first.title, first.code))
    };
    let mut parts: Vec<String> = masses(found).iter().filter_map(limited).collect();
    let governing = found.answer.governing.and_then(|index| found.findings.get(index));
    parts.extend(governing.map(|finding| nearest(found, finding)));
    (!parts.is_empty()).then(|| parts.join(" "))
}

/// The check that governs, with its value and its limit.
fn nearest(found: &Assessment, finding: &Finding) -> String {
    let place = finding.place.map_or_else(String::new, |place| {
        format!(" at {}", Amount::from(place.from).told_to(place.to.into()))
    });
    let figures = match (finding.value, finding.limit) {
        (Some(value), Some(limit)) => {
            let bound = match limit.bound {
                Bound::AtMost => "at most",
                Bound::AtLeast => "at least",
            };
            let is_needed = found.distances.iter().any(|row| value == row.needed.into());
            let told = if is_needed { value.told_no_less() } else { value.told() };
            format!(": {told} where {bound} {} is allowed", limit.amount.told())
        }
        _ => String::new(),
    };
    format!("Of all checks {} {} governs{place}{figures}.", finding.code, finding.title)
}

fn what_must_hold(found: &Assessment) -> Option<String> {
    let conditions = &found.answer.conditions;
    if found.answer.verdict == Verdict::Unproven {
        let missing = &found.answer.missing;
        let first: Vec<&str> = missing.iter().take(NAMED_CONDITIONS).map(String::as_str).collect();
        let more = match missing.len().saturating_sub(NAMED_CONDITIONS) {
            0 => String::new(),
            1 => "; and one more that is listed".to_owned(),
            more => format!("; and {more} more that are listed"),
        };
        return (!first.is_empty())
            .then(|| format!("Before anything else supply {}{more}.", first.join("; ")));
    }
    let all = conditions.len();
    let first: Vec<&str> =
        conditions.iter().take(NAMED_CONDITIONS).map(|text| text.trim_end_matches('.')).collect();
    Some(match all {
        0 => format!("Nothing beyond the manual; it counts {}.", found.identity.validity),
        _ if all <= NAMED_CONDITIONS => format!("{}.", capital(&first.join("; "))),
        _ => {
            let more = match all - NAMED_CONDITIONS {
                1 => "one more condition".to_owned(),
                more => format!("{more} more conditions, each"),
            };
            let first = capital(&first.join("; "));
            format!("{first}; and {more} in full under the conditions to be kept.")
        }
    })
}

fn what_would_change(found: &Assessment) -> Option<String> {
    let mut parts = Vec::new();
    if found.answer.verdict == Verdict::Fail {
        let remedies = found.remedies.iter().filter(|one| one.verdict_after < Verdict::Fail);
        let named: Vec<String> = remedies
            .take(NAMED_REMEDIES)
            .map(|one| format!("{}: then {}", one.action.told(), one.verdict_after.word()))
            .collect();
        if !named.is_empty() {
            parts.push(format!("It would turn if you {}.", named.join("; or ")));
        }
    }
    let turns: Vec<String> = found
        .turning
        .points
        .iter()
        .filter_map(|point| Some((point.short.told(), point.turn.as_ref()?)))
        .map(|(short, turn)| format!("{short} ({}, {})", turn.code, turn.verdict.word()))
        .collect();
    if !turns.is_empty() {
        let opening = if found.answer.verdict == Verdict::Fail {
            "All else as planned it would hold from"
        } else {
            "All else as planned the answer turns beyond any one of"
        };
        parts.push(format!("{opening}: {}.", turns.join("; ")));
    }
    let states: Vec<String> = found
        .turning
        .states
        .iter()
        .map(|change| format!("{} {}", change.state.word(), change.verdict.word()))
        .collect();
    if !states.is_empty() {
        parts.push(format!("On a surface in another state: {}.", states.join(", ")));
    }
    (!parts.is_empty()).then(|| parts.join(" "))
}

/// A mass that is allowed.
fn told(mass: Mass) -> String {
    Amount::from(mass).told_no_more()
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Speeds are told by symbol and words.
pub(super) fn speed_name(row: &SpeedRow) -> String {
    format!("{}, {}", row.symbol, row.name)
}
