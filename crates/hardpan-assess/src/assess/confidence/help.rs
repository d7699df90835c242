//! Which measurement would raise the mass that holds, drawn afresh with it.

use super::inputs::{Axis, Kind};
use super::summary::{Summary, at_level, is_held, sorted};
use super::trial::{Moving, movements};
use super::{Case, Help, InputShare, Outcome, can_be_measured};
use crate::phrase::Phrase;
use hardpan_quantity::{Mass, Quantity, kilograms, ratio};

/// Measurements that are tried.
pub(super) const MOST_HELPED: u32 = 3;
/// Most draws for each.
const MOST_DRAWN: u32 = 1024;
/// Least share of the variance that is worth trying.
const WORTH_SHARE: f64 = 0.02;
/// Least gain that is worth naming, and the step it is rounded to, kg.
const WORTH_KG: f64 = 50.0;
/// What each measurement does to the deviation: three more of the same kind
/// beside the one there is.
const HALVED: f64 = 0.5;

/// Draws for each measurement that is tried.
pub(super) fn draws(count: u32) -> u32 {
    count.min(MOST_DRAWN)
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
    let count = draws(case.sampling.count());
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
        let halved = |(one, axis): (usize, &Axis)| {
            if one == at { HALVED * axis.deviation } else { axis.deviation }
        };
        let deviations: Vec<f64> = case.inputs.axes.iter().enumerate().map(halved).collect();
        let after = case.draw(&deviations, count, |drawn| done(made + drawn));
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
                    "three more soundings between {} and {}",
                    [from.into(), to.into()],
                );
            }
            "three more soundings there"
        }
        Kind::Law => "bearing ratios tested in place, which halve the doubt of the law",
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
    };
    words.into()
}
