//! Many draws from few: some calculated in full, the rest told by a smooth fit to
//! them, and what the fit errs at draws that it was not fitted to.
//!
//! The share of all draws that exceed a limit is the share by the fit plus the mean
//! error of the fit, in shares, at the draws in full, each told by a fit without
//! itself: a control variate [GLYNN-SZECHTMAN-2002] whose own mean is of more draws
//! [GORODETSKY-2018], without bias. Draws that lie
//! nearest to a limit by the fit are calculated in full as well.

use super::method::{share, worked};
use super::summary::{is_held, sorted};
use super::trial::{Moving, Named};
use super::{Chance, Outcome, Tally};
use crate::assessment::FigureBasis;
use hardpan_math::{Design, binomial_limits};
use hardpan_quantity::ratio;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Errors of the fit within which a draw is calculated in full.
const NEAR: f64 = 2.0;
/// Of the draws that the fit rests on, one more for so many is calculated so.
const FULL_FOR_NEAR: u32 = 4;
/// Least share of the draws in full that have a value, for a fit.
const LEAST_KNOWN: f64 = 0.75;
/// Both limits together at 95 % each side where they are the sum of two.
const EACH_SIDE: f64 = 0.95;

/// Most draws that are calculated in full since they lie near a limit.
pub(super) const fn most_near(full: u32) -> u32 {
    full / FULL_FOR_NEAR
}

/// Whether draws in full are enough to fit over so many axes.
pub(super) const fn is_enough(full: u32, axes: usize) -> bool {
    full as usize >= 2 * (axes + 1)
}

/// Of one quantity: what the fit says of every draw, and of each draw in full
/// without itself.
struct Told {
    all: Vec<f64>,
    held_out: Vec<f64>,
    error: f64,
}

/// What is known of all draws.
pub(super) struct TwoLevel<'a> {
    names: &'a [Named],
    /// Draws in full that the fit rests on, the first of all.
    full: &'a [Outcome],
    /// Further ones by number.
    near: BTreeMap<usize, Outcome>,
    count: usize,
    /// Errors from a limit below which draws are in full.
    cut: f64,
    /// Whether each draw in full would be left to the fit.
    left: Vec<bool>,
    limits: Vec<Option<Told>>,
    masses: [Option<Told>; 2],
    middles: [f64; 2],
}

/// How often the fit exceeds what the calculation in full does not, and the other
/// way about, at draws that would be left to the fit.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Wrong {
    over: usize,
    under: usize,
}

/// The fit of the values that there are, where they are nearly all; what it says of
/// the other draws is counted as error like any.
fn told(design: &Design, points: &[Vec<f64>], values: &[Option<f64>]) -> Option<Told> {
    let known: Vec<f64> = values.iter().flatten().copied().collect();
    if (known.len() as f64) < LEAST_KNOWN * values.len() as f64 {
        return None;
    }
    let fit = if known.len() == values.len() {
        design.fit(&known)?
    } else {
        let own = points.iter().zip(values).filter(|(_, value)| value.is_some());
        Design::new(&own.map(|(point, _)| point.clone()).collect::<Vec<_>>())?.fit(&known)?
    };
    let mut left_out = fit.held_out.iter();
    let held_out = points.iter().zip(values).map(|(point, value)| {
        let own = value.and_then(|_| left_out.next().copied());
        own.unwrap_or_else(|| fit.at(point))
    });
    let held_out = held_out.collect();
    let all = points.par_iter().map(|point| fit.at(point)).collect();
    Some(Told { all, held_out, error: fit.error })
}

/// Masses by a fit, to the gram: one that does not vary is then the same by the fit and
/// in full, where the least rounding would have the fit err in every draw.
fn in_grams(told: Told) -> Told {
    let to_the_gram = |masses: Vec<f64>| masses.iter().map(|kg| (kg * 1e3).round() / 1e3).collect();
    Told { all: to_the_gram(told.all), held_out: to_the_gram(told.held_out), ..told }
}

impl<'a> TwoLevel<'a> {
    /// Fit all that varies; none where the draws in full are too few for it.
    pub(super) fn new(
        names: &'a [Named],
        full: &'a [Outcome],
        points: &[Vec<f64>],
        level: f64,
    ) -> Option<Self> {
        let design = Design::new(points.get(..full.len())?)?;
        let fit = |value: &dyn Fn(&Outcome) -> Option<f64>| {
            let values: Vec<Option<f64>> = full.iter().map(value).collect();
            told(&design, points, &values)
        };
        let limits: Vec<Option<Told>> = (0..names.len())
            .into_par_iter()
            .map(|at| {
                let margin = |one: &Outcome| *one.trial.margins.get(at)?;
                names[at].is_known.then(|| fit(&margin))?
            })
            .collect();
        let masses = [Moving::Landing, Moving::TakeOff]
            .map(|of| fit(&|one: &Outcome| one.trial.largest[of as usize]).map(in_grams));
        let middles = [0, 1].map(|of: usize| {
            let all = masses[of].as_ref().map_or(&[][..], |told: &Told| &told.all);
            let all = sorted(all.iter().copied().map(Some));
            let at = ((1.0 - level) * all.len() as f64) as usize;
            all.get(at).copied().unwrap_or(f64::NAN)
        });
        let count = points.len();
        let (near, left) = (BTreeMap::new(), vec![true; full.len()]);
        Some(Self { names, full, near, count, cut: 0.0, left, limits, masses, middles })
    }

    /// Draws that lie so near a limit, or the mass that holds, that they are to be
    /// calculated in full: the nearest first, so many at most.
    pub(super) fn wanted(&mut self) -> Vec<u32> {
        let most = self.full.len() / FULL_FOR_NEAR as usize;
        let mut near: Vec<(f64, usize)> = (self.full.len()..self.count)
            .map(|at| (self.errors_off(|told| told.all[at]), at))
            .filter(|(off, _)| *off < NEAR)
            .collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        self.cut = near.get(most).map_or(NEAR, |(off, _)| *off);
        near.truncate(most);
        near.into_iter().map(|(_, at)| at as u32).collect()
    }

    /// Take in the draws that were wanted.
    pub(super) fn add(&mut self, at: &[u32], outcomes: Vec<Outcome>) {
        self.near.extend(at.iter().map(|at| *at as usize).zip(outcomes));
        let is_left = |at| self.errors_off(|told| told.held_out[at]) >= self.cut;
        self.left = (0..self.full.len()).map(is_left).collect();
    }

    /// Draws calculated in full.
    pub(super) fn in_full(&self) -> usize {
        self.full.len() + self.near.len()
    }

    /// How many errors of its fit the nearest limit is off.
    fn errors_off(&self, value: impl Fn(&Told) -> f64) -> f64 {
        let limits = self.on_safety().map(|told| value(told).abs() / told.error);
        let masses = self.masses.iter().zip(self.middles);
        let masses = masses.filter_map(|(told, middle)| {
            let told = told.as_ref()?;
            Some((value(told) - middle).abs() / told.error)
        });
        limits.chain(masses).filter(|off| !off.is_nan()).fold(f64::INFINITY, f64::min)
    }

    fn outcome(&self, at: usize) -> Option<&Outcome> {
        self.full.get(at).or_else(|| self.near.get(&at))
    }

    /// How many draws are over something, in full or by the fit.
    fn over(&self, exact: impl Fn(&Outcome) -> bool, fitted: impl Fn(usize) -> bool) -> usize {
        let over = |at: &usize| self.outcome(*at).map_or_else(|| fitted(*at), &exact);
        (0..self.count).filter(over).count()
    }

    fn wrong(&self, exact: impl Fn(&Outcome) -> bool, held_out: impl Fn(usize) -> bool) -> Wrong {
        let mut wrong = Wrong::default();
        for (at, outcome) in self.full.iter().enumerate() {
            match (exact(outcome), held_out(at)) {
                (true, false) if self.left[at] => wrong.under += 1,
                (false, true) if self.left[at] => wrong.over += 1,
                _ => (),
            }
        }
        wrong
    }

    /// Draws for each one that the fit rests on.
    fn weight(&self) -> f64 {
        (self.count - self.full.len()) as f64 / self.full.len() as f64
    }

    /// Share of all draws that are over something, with limits that hold what the
    /// draws and what the fit may err.
    fn chance(&self, over: usize, wrong: Wrong) -> Chance {
        let (count, full) = (self.count as f64, self.full.len());
        let part = (count - full as f64) / count;
        let limits = |k: usize, n: usize| {
            let whole = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
            binomial_limits(whole(k), whole(n), EACH_SIDE).unwrap_or((0.0, 1.0))
        };
        let (low, high) = limits(over, self.count);
        let most = |wrong: usize| part * limits(wrong, full).1;
        let share = share(over as f64, wrong.under as f64, wrong.over as f64, count, full as f64);
        Chance {
            share: ratio(share),
            between: (
                ratio((low - most(wrong.over)).max(0.0)),
                ratio((high + most(wrong.under)).min(1.0)),
            ),
            tally: Tally {
                counted: over,
                missed: wrong.under,
                wrongly: wrong.over,
                draws: self.count,
                fitted_to: full,
            },
        }
    }

    /// Probability that a limit is exceeded; none where it has no fit.
    pub(super) fn exceeded(&self, limit: usize) -> Option<Chance> {
        let told = self.limits.get(limit)?.as_ref()?;
        let exact = |one: &Outcome| one.trial.holds.get(limit) != Some(&Some(true));
        let over = self.over(exact, |at| told.all[at] < 0.0);
        Some(self.chance(over, self.wrong(exact, |at| told.held_out[at] < 0.0)))
    }

    /// Limits with a fit that bear on safety.
    fn on_safety(&self) -> impl Iterator<Item = &Told> {
        let both = self.names.iter().zip(&self.limits).filter(|(name, _)| !name.advises);
        both.filter_map(|(_, told)| told.as_ref())
    }

    /// Whether no limit with a fit is exceeded by it.
    fn is_fitted_held(&self, value: impl Fn(&Told) -> f64) -> bool {
        self.on_safety().all(|told| value(told) >= 0.0)
    }

    fn wrong_at_all(&self) -> Wrong {
        let exact = |one: &Outcome| !is_held(self.names, &one.trial);
        self.wrong(exact, |at| !self.is_fitted_held(|told| told.held_out[at]))
    }

    /// Draws in which some limit is exceeded.
    fn over_at_all(&self) -> usize {
        let exact = |one: &Outcome| !is_held(self.names, &one.trial);
        self.over(exact, |at| !self.is_fitted_held(|told| told.all[at]))
    }

    /// How the probability that no limit is exceeded came about.
    pub(super) fn worked(&self) -> FigureBasis {
        worked(&self.chance(self.over_at_all(), self.wrong_at_all()))
    }

    /// Probability that no limit is exceeded.
    pub(super) fn holds(&self) -> Chance {
        let exceeded = self.chance(self.over_at_all(), self.wrong_at_all());
        let less = |share: hardpan_quantity::Ratio| ratio(1.0) - share;
        let (low, high) = exceeded.between;
        let between = (less(high), less(low));
        Chance { share: less(exceeded.share), between, ..exceeded }
    }

    /// Share of the draws in full that the fit, without them, judges otherwise.
    pub(super) fn misjudged(&self) -> f64 {
        let wrong = self.wrong_at_all();
        (wrong.over + wrong.under) as f64 / self.full.len() as f64
    }

    /// What the fit of a largest mass errs, kg; none where it has no fit.
    pub(super) fn mass_error(&self, moving: Moving) -> Option<f64> {
        self.masses[moving as usize].as_ref().map(|told| told.error)
    }

    /// Largest mass of every draw, rising; none where it has no fit.
    pub(super) fn largest(&self, moving: Moving) -> Option<Vec<f64>> {
        let told = self.masses[moving as usize].as_ref()?;
        let mass = |at: usize| match self.outcome(at) {
            Some(one) => one.trial.largest[moving as usize],
            None => told.all.get(at).copied(),
        };
        Some(sorted((0..self.count).map(mass)))
    }

    /// Largest landing and take-off mass of every draw, in their order; none where one
    /// of them has no fit.
    pub(super) fn largest_by_draw(&self) -> Option<Vec<[f64; 2]>> {
        let [landing, take_off] = &self.masses;
        let (landing, take_off) = (landing.as_ref()?, take_off.as_ref()?);
        let masses = |at: usize| match self.outcome(at) {
            Some(one) => Some(one.trial.largest.map(|mass| mass.unwrap_or(f64::NEG_INFINITY))),
            None => Some([*landing.all.get(at)?, *take_off.all.get(at)?]),
        };
        (0..self.count).map(masses).collect()
    }

    /// Steps by which [`Self::at_level`] stays below the plain count of the draws.
    pub(super) fn steps_spared(&self, moving: Moving, level: f64) -> usize {
        let (Some(all), Some(held)) = (self.largest(moving), self.at_level(moving, level)) else {
            return 0;
        };
        let most = ((1.0 - level) * all.len() as f64 - 1e-9).floor().max(0.0) as usize;
        most.saturating_sub(all.partition_point(|mass| *mass < held))
    }

    /// The greatest mass that at least a share of the draws reach, with those added
    /// that the fit takes for too heavy; what it takes for too light is not taken off.
    pub(super) fn at_level(&self, moving: Moving, level: f64) -> Option<f64> {
        let told = self.masses[moving as usize].as_ref()?;
        let all = self.largest(moving)?;
        let most = (1.0 - level) * all.len() as f64 - 1e-9;
        let short = |at: usize| {
            let mass = all[at];
            let exact = |one: &Outcome| one.trial.largest[moving as usize] < Some(mass);
            let wrong = self.wrong(exact, |at| told.held_out[at] < mass);
            at as f64 + self.weight() * wrong.under as f64
        };
        let from = (most.floor().max(0.0) as usize).min(all.len().saturating_sub(1));
        (0..=from).rev().find(|at| short(*at) <= most.max(0.0)).map(|at| all[at])
    }
}

#[cfg(test)]
mod tests;
