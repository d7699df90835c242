//! Which measurement would raise the mass that holds, drawn afresh with it.

use super::draw::Start;
use super::findings::Wanted;
use super::inputs::{Axis, Inputs, Kind};
use super::summary::{Summary, at_level, is_held, sorted};
use super::trial::{Moving, movements};
use super::{Case, Help, InputShare, Outcome, can_be_measured};
use crate::phrase::Phrase;
use hardpan_model::Sounding;
use hardpan_quantity::{Length, Mass, Quantity, kilograms, ratio};

/// Measurements that are tried.
pub(super) const MOST_HELPED: u32 = 3;
/// Most draws for each.
const MOST_DRAWN: u32 = 1024;
/// One draw for so many in full where the rest are told by a fit.
const FITTED_PART: u32 = 4;
/// Least share of the variance that is worth trying.
const WORTH_SHARE: f64 = 0.02;
/// Least gain that is worth naming, and the step it is rounded to, kg.
const WORTH_KG: f64 = 50.0;
/// Where three more soundings go, as shares of their stretch.
const MORE_AT: [f64; 3] = [0.25, 0.5, 0.75];
/// What each other measurement does to the deviation.
const HALVED: f64 = 0.5;

/// Draws in full for each measurement that is tried, of so many in full: a part
/// of them where the rest of the draws are told by a fit.
pub(super) fn draws(full: u32, is_fitted: bool) -> u32 {
    if is_fitted { full / FITTED_PART } else { full.min(MOST_DRAWN) }
}

/// The measurements that bring most, tried on the inputs that explain most of
/// the mass whose margin is least.
pub(super) fn help(
    case: &Case<'_>,
    summary: &Summary<'_>,
    shares: &[InputShare],
    level: f64,
    mut done: impl FnMut(usize),
) -> Vec<Help> {
    let Some(moving) = tightest(summary, level) else { return Vec::new() };
    let full = u32::try_from(summary.outcomes.len()).unwrap_or(MOST_DRAWN);
    let count = draws(full, summary.fit.is_some());
    let numbers: Vec<u32> = (0..count).collect();
    let before = summary.outcomes.get(..count as usize).unwrap_or(summary.outcomes);
    let Some(held) = held(before, moving, level) else { return Vec::new() };
    let mut by_share: Vec<(usize, f64)> = shares
        .iter()
        .enumerate()
        .filter(|(at, _)| can_be_measured(case.inputs.axes[*at].kind))
        .filter_map(|(at, input)| {
            let share = input.shares.iter().find(|(of, _)| *of == moving)?.1?;
            (share.si() >= WORTH_SHARE).then_some((at, share.si()))
        })
        .collect();
    by_share.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    by_share.truncate(MOST_HELPED as usize);
    let mut help = Vec::new();
    let mut made = 0;
    for (at, _) in by_share {
        let after = match (case.inputs.axes[at].kind, case.inputs.axes[at].stretch) {
            (Kind::Soundings(..), Some(stretch)) => {
                sounded(case, stretch, &numbers, |drawn| done(made + drawn))
            }
            _ => {
                let halved = |(one, axis): (usize, &Axis)| {
                    if one == at { HALVED * axis.deviation } else { axis.deviation }
                };
                let deviations: Vec<f64> =
                    case.inputs.axes.iter().enumerate().map(halved).collect();
                case.draw((&deviations, Wanted::Safety), &numbers, |drawn| done(made + drawn))
            }
        };
        made += count as usize;
        let Some(then) = self::held(&after, moving, level) else { continue };
        let gain = ((then - held) / WORTH_KG).floor() * WORTH_KG;
        if gain < WORTH_KG {
            continue;
        }
        let held_draws = after.iter().filter(|one| is_held(summary.names, &one.trial));
        let holds = held_draws.count() as f64 / after.len() as f64;
        help.push(Help {
            action: action(&case.inputs.axes[at]),
            moving,
            gain: kilograms(gain),
            holds: ratio(holds),
        });
    }
    help.sort_by(|a, b| b.gain.si().total_cmp(&a.gain.si()));
    help
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
    let deviations: Vec<f64> = inputs.axes.iter().map(|axis| axis.deviation).collect();
    let slopes = case.slopes.clone();
    let case = Case { inputs: &inputs, start: &start, slopes, ..*case };
    case.draw((&deviations, Wanted::Safety), numbers, done)
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
