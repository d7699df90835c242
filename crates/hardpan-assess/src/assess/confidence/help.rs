//! What would make the answer surer or raise the mass that holds, drawn afresh with it.

use super::draw::Start;
use super::findings::Wanted;
use super::inputs::{Axis, Inputs, Kind};
use super::summary::{Summary, at_level, is_held, judged, sorted};
use super::trial::{Moving, Named, movements};
use super::{Case, Help, InputShare, Outcome, Raised, can_be_measured, on_case};
use crate::assess::Core;
use crate::ground::LegKind;
use crate::measure::Standing;
use crate::phrase::Phrase;
use hardpan_math::{error_by_parts, variance_share};
use hardpan_model::{Given, Sounding, Verdict};
use hardpan_quantity::{Amount, Length, Mass, Quantity, kilograms, ratio};

/// Measurements that are tried.
const MOST_MEASURED: usize = 4;
/// Those, and softer tyres.
pub(super) const MOST_TRIED: u32 = 5;
/// Most draws for each.
const MOST_DRAWN: u32 = 1024;
/// One draw for so many in full where the rest are told by a fit.
const FITTED_PART: u32 = 4;
/// Least share of the variance that is worth trying.
const WORTH_SHARE: f64 = 0.02;
/// Least gain that is worth naming, and the step it is rounded to, kg.
pub(super) const WORTH_KG: f64 = 50.0;
/// Parts that the draws are put into for the error of a gain.
pub(super) const PARTS: usize = 8;
/// Where three more soundings go, as shares of their stretch.
const MORE_AT: [f64; 3] = [0.25, 0.5, 0.75];
/// What each other measurement does to the deviation.
const HALVED: f64 = 0.5;

/// What help is looked for.
pub(super) struct On<'a> {
    pub(super) case: &'a Case<'a>,
    pub(super) core: &'a Core,
    pub(super) summary: &'a Summary<'a>,
    pub(super) level: f64,
}

/// Draws in full for each measurement that is tried, of so many in full: a part
/// of them where the rest of the draws are told by a fit.
pub(super) fn draws(full: u32, is_fitted: bool) -> u32 {
    if is_fitted { full / FITTED_PART } else { full.min(MOST_DRAWN) }
}

/// What helps most: measurements of the inputs that explain most of whether the limits
/// hold, or of the mass whose margin is least, and softer tyres. Where the plan is not
/// sure enough, what makes it surest comes first; elsewhere what raises the mass most.
pub(super) fn help(on: &On<'_>, shares: &[InputShare], mut done: impl FnMut(usize)) -> Vec<Help> {
    let (case, summary) = (on.case, on.summary);
    let full = u32::try_from(summary.outcomes.len()).unwrap_or(MOST_DRAWN);
    let count = draws(full, summary.fit.is_some());
    let numbers: Vec<u32> = (0..count).collect();
    let before = summary.outcomes.get(..count as usize).unwrap_or(summary.outcomes);
    let moving = tightest(summary, on.level);
    let mut help = Vec::new();
    let mut made = 0;
    for at in worth_trying(on, shares, moving) {
        let after = measured(case, at, &numbers, |drawn| done(made + drawn));
        made += count as usize;
        let action = action(&case.inputs.axes[at]);
        help.extend(gained(on, (moving, action), before, (&after, summary.names)));
    }
    help.extend(softer(on, before, &numbers, |drawn| done(made + drawn)));
    let is_sure = judged(on.level, &summary.holds(), true) == Verdict::Pass;
    let surer = |one: &Help| if is_sure { 0.0 } else { (one.holds - one.without).si() };
    let gain = |one: &Help| one.raised.as_ref().map_or(0.0, |raised| raised.gain.si());
    help.sort_by(|a, b| surer(b).total_cmp(&surer(a)).then(gain(b).total_cmp(&gain(a))));
    help
}

/// The inputs that can be measured and explain most, of the mass and, where the plan is
/// not sure enough, of whether the limits hold: the first of each, then the second.
fn worth_trying(on: &On<'_>, shares: &[InputShare], moving: Option<Moving>) -> Vec<usize> {
    let axes = &on.case.inputs.axes;
    let measurable = || (0..axes.len()).filter(|at| can_be_measured(axes[*at].kind));
    let of_mass = |at: usize| {
        let share = shares[at].shares.iter().find(|(of, _)| Some(*of) == moving)?.1?;
        Some((at, share.si())).filter(|one| one.1 >= WORTH_SHARE)
    };
    let (names, outcomes) = (on.summary.names, on.summary.outcomes);
    let held: Vec<f64> =
        outcomes.iter().map(|one| f64::from(u8::from(is_held(names, &one.trial)))).collect();
    let is_sure = judged(on.level, &on.summary.holds(), true) == Verdict::Pass;
    let chance = chance_of_a_share(outcomes.len());
    let of_answer = |at: usize| {
        let drawn: Vec<f64> = outcomes.iter().map(|one| one.point[at]).collect();
        let share = variance_share(&drawn, &held).filter(|_| !is_sure)?;
        Some((at, share)).filter(|one| one.1 >= WORTH_SHARE.max(chance))
    };
    let by_answer = falling(measurable().filter_map(of_answer).collect());
    let by_mass = falling(measurable().filter_map(of_mass).collect());
    let mut tried: Vec<usize> = Vec::new();
    for rank in 0..MOST_MEASURED {
        let both = [by_answer.get(rank), by_mass.get(rank)].into_iter().flatten();
        for at in both.copied() {
            if !tried.contains(&at) {
                tried.push(at);
            }
        }
    }
    tried.truncate(MOST_MEASURED);
    tried
}

fn falling(mut by_share: Vec<(usize, f64)>) -> Vec<usize> {
    by_share.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    by_share.into_iter().map(|(at, _)| at).collect()
}

/// Share of the variance that chance alone shows of so many draws: three standard
/// errors of a share of nothing, `3 √(2 B) / n` with `B` classes, about the root of `n`.
fn chance_of_a_share(draws: usize) -> f64 {
    let draws = draws.max(1) as f64;
    3.0 * (2.0 * draws.sqrt()).sqrt() / draws
}

/// The flight drawn afresh with one input measured better.
fn measured(case: &Case<'_>, at: usize, numbers: &[u32], done: impl FnMut(usize)) -> Vec<Outcome> {
    let axes = &case.inputs.axes;
    if let (Kind::Soundings(..), Some(stretch)) = (axes[at].kind, axes[at].stretch) {
        return sounded(case, stretch, numbers, done);
    }
    let mut deviations = case.deviations();
    deviations[at] *= HALVED;
    case.draw((&deviations, Wanted::Safety), numbers, done)
}

/// What something brings, draw by draw against the same draws without it; none where
/// that is no more than chance.
fn gained(
    on: &On<'_>,
    (moving, action): (Option<Moving>, Phrase),
    before: &[Outcome],
    (after, names): (&[Outcome], &[Named]),
) -> Option<Help> {
    let raised = moving.and_then(|moving| raised((before, after), moving, on.level));
    let is_held = |names: &[Named], one: &Outcome| f64::from(u8::from(is_held(names, &one.trial)));
    let without: Vec<f64> = before.iter().map(|one| is_held(on.summary.names, one)).collect();
    let with: Vec<f64> = after.iter().map(|one| is_held(names, one)).collect();
    let mean = |of: &[f64]| of.iter().sum::<f64>() / of.len().max(1) as f64;
    let (difference, error) = paired(&without, &with);
    (raised.is_some() || difference > error).then(|| Help {
        action,
        raised,
        without: ratio(mean(&without)),
        holds: ratio(mean(&with)),
        error: ratio(error),
    })
}

/// Mean difference of pairs, and its standard error as if they were independent.
fn paired(before: &[f64], after: &[f64]) -> (f64, f64) {
    let differences: Vec<f64> = before.iter().zip(after).map(|(one, then)| then - one).collect();
    let count = differences.len().max(2) as f64;
    let mean = differences.iter().sum::<f64>() / count;
    let squares: f64 = differences.iter().map(|one| (one - mean).powi(2)).sum();
    (mean, (squares / (count - 1.0) / count).sqrt())
}

/// By how much the mass that holds is raised, with the error by leaving a part of the
/// draws out at a time; none where it is not worth naming or within its error.
fn raised((before, after): (&[Outcome], &[Outcome]), moving: Moving, level: f64) -> Option<Raised> {
    let gain = |is_in: &dyn Fn(usize) -> bool| {
        let held = |outcomes: &[Outcome]| {
            let found = outcomes.iter().enumerate().filter(|(at, _)| is_in(*at));
            let largest = found.map(|(_, one)| one.trial.largest[moving as usize]);
            at_level(&sorted(largest), level)
        };
        Some(held(after)? - held(before)?)
    };
    let of_all = |outcomes: &[Outcome]| {
        let largest = outcomes.iter().map(|one| one.trial.largest[moving as usize]);
        at_level(&sorted(largest), level).map(kilograms)
    };
    let between = (of_all(before)?, of_all(after)?);
    let whole = ((between.1 - between.0).si() / WORTH_KG).floor() * WORTH_KG;
    let parts = (0..PARTS).map(|part| gain(&|at| at % PARTS != part));
    let error = error_by_parts(&parts.collect::<Option<Vec<f64>>>()?)?;
    (whole >= WORTH_KG && whole > error).then(|| Raised {
        moving,
        gain: kilograms(whole),
        error: kilograms(error),
        between,
    })
}

/// The flight with the tyres at the least pressure of the planned masses, where the
/// assessment chose more: what it does to the certainty of the plan.
fn softer(
    on: &On<'_>,
    before: &[Outcome],
    numbers: &[u32],
    done: impl FnMut(usize),
) -> Option<Help> {
    let mut flight = on.summary.flight.clone();
    let (mut words, mut amounts): (Vec<String>, Vec<Amount>) = (Vec::new(), Vec::new());
    let tyres = [
        (LegKind::Main, on.core.measured.main_tyre.as_ref()),
        (LegKind::Nose, on.core.measured.nose_tyre.as_ref()),
    ];
    for (leg, tyre) in tyres {
        let Some(least) = tyre.ok().and_then(|tyre| tyre.softer()) else { continue };
        *leg.given_mut(&mut flight) = Some(Given::stated(leg.pressure_key(), least));
        words.push(format!("the {} tyres at {{}}", leg.word()));
        amounts.push(least.into());
    }
    if words.is_empty() {
        return None;
    }
    let standing = Standing::of(&flight);
    let core = Core::of(&flight, &standing);
    if core.verdict > on.core.verdict {
        return None;
    }
    let action = Phrase::new(words.join(" and "), amounts);
    on_case(&flight, (standing, &core), on.case.sampling, |case, names| {
        let after = case.draw((&case.deviations(), Wanted::Safety), numbers, done);
        gained(on, (None, action), before, (&after, names))
    })
}

/// The flight drawn afresh with three more soundings along a stretch, each of which
/// finds what the nearest found and errs by itself.
fn sounded(
    case: &Case<'_>,
    (from, to): (Length, Length),
    numbers: &[u32],
    done: impl FnMut(usize),
) -> Vec<Outcome> {
    let mut flight = case.start.flight().clone();
    let found = flight.strip.soundings.clone();
    for share in MORE_AT {
        let station = from + share * (to - from);
        let off = |one: &&Sounding| (one.station.value - station).si().abs();
        let Some(nearest) = found.iter().min_by(|a, b| off(a).total_cmp(&off(b))) else { continue };
        let mut more = nearest.clone();
        more.station.value = station;
        flight.strip.soundings.push(more);
    }
    let inputs = Inputs::of(&flight, case.rests_on);
    let start = Start::new(&flight, &inputs, case.start.standing().clone(), case.measured);
    let slopes = case.slopes.clone();
    let case = Case { inputs: &inputs, start: &start, slopes, ..*case };
    case.draw((&case.deviations(), Wanted::Safety), numbers, done)
}

fn held(outcomes: &[Outcome], moving: Moving, level: f64) -> Option<f64> {
    at_level(&sorted(outcomes.iter().map(|one| one.trial.largest[moving as usize])), level)
}

/// The movement whose mass at the level lies least above the mass planned.
fn tightest(summary: &Summary<'_>, level: f64) -> Option<Moving> {
    let margin = |moving: Moving| {
        let held = held(summary.outcomes, moving, level)?;
        let planned: Option<Mass> = summary
            .masses(level)
            .into_iter()
            .find_map(|mass| (mass.moving == moving).then_some(mass.planned).flatten());
        Some(held - planned?.si())
    };
    let margins = movements(summary.flight).into_iter().filter_map(|one| Some((one, margin(one)?)));
    margins.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(moving, _)| moving)
}

fn action(axis: &Axis) -> Phrase {
    let words = match axis.kind {
        Kind::Soundings(..) => {
            if let Some((from, to)) = axis.stretch {
                return Phrase::new(
                    "three more soundings between {} and {} that find what is found there",
                    [from.into(), to.into()],
                );
            }
            "three more soundings there"
        }
        Kind::Law => "bearing ratios tested in place, which halve the doubt of the law",
        Kind::BearingLaw => "a trial with wheels as heavy until they rut, which halves its doubt",
        Kind::Rolling => "rolling friction known twice as well",
        Kind::Braking => "braking friction known twice as well",
        Kind::WindSpeed => "a wind speed known twice as well",
        Kind::WindDirection => "a wind direction known twice as well",
        Kind::Temperature => "a temperature known twice as well",
        Kind::AirPressure => "an air pressure known twice as well",
        Kind::Mass => "a mass known twice as well, such as by weighing",
        Kind::Thrust => "a thrust known twice as well, such as by a run-up",
        Kind::Touchdown => "a touchdown placed twice as well",
        Kind::Levels => "levels with half the noise",
        Kind::RutLaw => {
            "ruts measured after passes that were counted, which halve the doubt of their laws"
        }
        Kind::StrainLaw => {
            "the stiffness of the weak ground tested in place, which halves its doubt"
        }
    };
    words.into()
}
