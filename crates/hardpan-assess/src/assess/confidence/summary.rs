//! From draws to probabilities, ranges of mass and shares of variance.

use super::both::both_at_level;
use super::inputs::Inputs;
use super::trial::{Moving, Named, Trial, movements};
use super::two_level::TwoLevel;
use super::{Chance, InputShare, LimitChance, MassChance, Outcome, Tally};
use crate::phrase::Phrase;
use hardpan_math::{binomial_limits, variance_share};
use hardpan_model::{Flight, Need, Verdict};
use hardpan_quantity::{Mass, Quantity, Ratio, kilograms, ratio};

/// Both one-sided limits of a probability at 95 %.
const BOTH_SIDES: f64 = 0.90;
/// Range of mass that is told: nine draws in ten.
pub(super) const RANGE: (f64, f64) = (0.05, 0.95);
/// Step to which a mass is rounded down, kg.
const ROUND_KG: f64 = 10.0;

pub(super) struct Summary<'a> {
    pub(super) flight: &'a Flight,
    pub(super) names: &'a [Named],
    /// Draws in full that all else rests on.
    pub(super) outcomes: &'a [Outcome],
    /// All draws by a fit to those; none where those are all.
    pub(super) fit: Option<&'a TwoLevel<'a>>,
    pub(super) assessed: [Option<Mass>; 2],
}

/// Whether a draw exceeds no limit that can be judged as planned and bears on safety.
pub(super) fn is_held(names: &[Named], trial: &Trial) -> bool {
    let is_meant = |name: &Named| name.is_known && !name.advises;
    names.iter().zip(&trial.holds).all(|(name, holds)| !is_meant(name) || *holds == Some(true))
}

/// A share of so many with its limits.
pub(super) fn chance(count: usize, of: usize) -> Chance {
    let share = if of == 0 { 0.0 } else { count as f64 / of as f64 };
    let whole = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let (low, high) = binomial_limits(whole(count), whole(of), BOTH_SIDES).unwrap_or((0.0, 1.0));
    let tally = Tally { counted: count, missed: 0, wrongly: 0, draws: of, fitted_to: of };
    Chance { share: ratio(share), between: (ratio(low), ratio(high)), tally }
}

/// The verdict of the draws alone: shown where even the lower limit is at the
/// level, failed where not even the upper one is.
pub(super) fn judged(level: f64, holds: &Chance, is_complete: bool) -> Verdict {
    let (low, high) = (holds.between.0.si(), holds.between.1.si());
    match is_complete {
        _ if high < level => Verdict::Fail,
        true if low >= level => Verdict::Pass,
        _ => Verdict::Unproven,
    }
}

/// Why the answer is what it is.
pub(super) fn sentence(
    assessed: Verdict,
    drawn: Verdict,
    level: f64,
    holds: &Chance,
    is_complete: bool,
) -> Phrase {
    let share = holds.share.into();
    let level = ratio(level).into();
    match drawn {
        _ if assessed > Verdict::Conditional => Phrase::new(
            format!(
                "The assessment itself gives {}, and no certainty mends that; in {{}} of the draws \
                 no limit is exceeded{}, where {{}} is asked for.",
                assessed.word(),
                if is_complete { "" } else { " by what is known" }
            ),
            [share, level],
        ),
        Verdict::Fail => Phrase::new(
            "Not sure enough: in {} of the draws no limit is exceeded, where {} is asked for.",
            [share, level],
        ),
        Verdict::Unproven if is_complete => Phrase::new(
            "Too close to tell by so many draws: in {} of them no limit is exceeded, where {} is \
             asked for.",
            [share, level],
        ),
        Verdict::Unproven => Phrase::new(
            "Not shown: something is missing. In {} of the draws no limit is exceeded by what is \
             known, where {} is asked for.",
            [share, level],
        ),
        _ => Phrase::new(
            "Sure enough: in {} of the draws no limit is exceeded, where {} is asked for.",
            [share, level],
        ),
    }
}

impl Summary<'_> {
    /// Share of the draws in which every limit that can be judged as planned
    /// holds; one that a draw takes beyond its data does not hold there.
    pub(super) fn holds(&self) -> Chance {
        if let Some(fit) = self.fit {
            return fit.holds();
        }
        let held = self.outcomes.iter().filter(|outcome| is_held(self.names, &outcome.trial));
        chance(held.count(), self.outcomes.len())
    }

    pub(super) fn limits(&self) -> Vec<LimitChance> {
        let mut limits: Vec<LimitChance> = self
            .names
            .iter()
            .enumerate()
            .map(|(at, name)| LimitChance {
                code: name.code,
                title: name.title.clone(),
                moving: name.moving,
                exceeded: name.is_known.then(|| self.exceeded(at)),
                is_fitted: self.fit.is_some_and(|fit| fit.exceeded(at).is_some()),
                advises: name.advises,
                not_judged: name.is_known.then(|| self.not_judged(at)),
            })
            .collect();
        let key = |limit: &LimitChance| limit.exceeded.map_or(2.0, |chance| chance.share.si());
        limits.sort_by(|a, b| key(b).total_cmp(&key(a)).then(a.code.cmp(b.code)));
        limits
    }

    /// Of a limit without a fit only the draws in full tell.
    fn exceeded(&self, at: usize) -> Chance {
        let by_fit = self.fit.and_then(|fit| fit.exceeded(at));
        by_fit.unwrap_or_else(|| {
            let fails = |outcome: &&Outcome| outcome.trial.holds.get(at) != Some(&Some(true));
            chance(self.outcomes.iter().filter(fails).count(), self.outcomes.len())
        })
    }

    /// Share of the draws in full of which nothing can be said.
    fn not_judged(&self, at: usize) -> Ratio {
        let is_not = |outcome: &&Outcome| outcome.trial.holds.get(at).copied().flatten().is_none();
        chance(self.outcomes.iter().filter(is_not).count(), self.outcomes.len()).share
    }

    /// What nobody says how sure it is, and limits that lack data.
    pub(super) fn missing(&self, inputs: &Inputs) -> Vec<Need> {
        let mut missing = inputs.missing.clone();
        for name in self.names.iter().filter(|name| !name.is_known && !name.advises) {
            missing.push(Need {
                what: match name.moving {
                    Some(moving) => format!("{} {}, {}", name.code, name.title, moving.word()),
                    None => format!("{} {}", name.code, name.title),
                },
                how: "data are missing; the assessment lists them".to_owned(),
            });
        }
        if self.names.is_empty() {
            missing.push(Need {
                what: "flight: landing, take_off".to_owned(),
                how: "no movement is planned".to_owned(),
            });
        }
        missing
    }

    pub(super) fn masses(&self, level: f64) -> Vec<MassChance> {
        let moving = movements(self.flight);
        let mut masses: Vec<MassChance> =
            moving.into_iter().map(|moving| self.mass(moving, level)).collect();
        if let [landing, take_off] = masses.as_mut_slice() {
            let both = self.both(level, [landing.held, take_off.held]);
            [landing.held_together, take_off.held_together] =
                both.map_or([None; 2], |pair| pair.map(Some));
        }
        masses
    }

    /// The masses of both movements that hold together, none above what holds by itself.
    fn both(&self, level: f64, held: [Option<Mass>; 2]) -> Option<[Mass; 2]> {
        let by_fit = self.fit.and_then(TwoLevel::largest_by_draw);
        let spared = |fit: &TwoLevel<'_>| {
            [Moving::Landing, Moving::TakeOff]
                .into_iter()
                .map(|moving| fit.steps_spared(moving, level))
                .max()
        };
        let spared = self.fit.filter(|_| by_fit.is_some()).and_then(spared).unwrap_or(0);
        let in_full = || {
            let none = |mass: Option<f64>| mass.unwrap_or(f64::NEG_INFINITY);
            self.outcomes.iter().map(|one| one.trial.largest.map(none)).collect()
        };
        let draws: Vec<[f64; 2]> = by_fit.unwrap_or_else(in_full);
        let [landing, take_off] = both_at_level(&draws, level, spared)?.map(rounded_down);
        Some([landing.min(held[0]?), take_off.min(held[1]?)])
    }

    fn mass(&self, moving: Moving, level: f64) -> MassChance {
        let in_full = || sorted(self.outcomes.iter().map(|one| one.trial.largest[moving as usize]));
        let by_fit = self.fit.and_then(|fit| Some((fit.largest(moving)?, fit)));
        let (found, held) = match by_fit {
            Some((found, fit)) => (found, fit.at_level(moving, level)),
            None => {
                let found = in_full();
                let held = at_level(&found, level);
                (found, held)
            }
        };
        let planned = match moving {
            Moving::Landing => self.flight.landing.as_ref().and_then(|plan| plan.mass.as_ref()),
            Moving::TakeOff => self.flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref()),
        };
        let assessed = self.assessed[moving as usize];
        let held = held.map(rounded_down);
        MassChance {
            moving,
            planned: planned.map(|mass| mass.value),
            assessed,
            held: held.zip(assessed).map(|(held, assessed)| held.min(assessed)),
            held_together: None,
            range: [RANGE.0, 0.5, RANGE.1].map(|share| quantile(&found, share).map(rounded_down)),
        }
    }

    /// Each input with its share of the variance of each largest mass.
    pub(super) fn shares(&self, inputs: &Inputs) -> Vec<InputShare> {
        let moving = movements(self.flight);
        let of_mass = |moving: Moving, axis: usize| {
            let found: Vec<Option<f64>> =
                self.outcomes.iter().map(|one| one.trial.largest[moving as usize]).collect();
            let least = found.iter().flatten().copied().reduce(f64::min)?;
            let masses: Vec<f64> = found.iter().map(|one| one.unwrap_or(least)).collect();
            let drawn: Vec<f64> = self.outcomes.iter().map(|one| one.point[axis]).collect();
            variance_share(&drawn, &masses).map(Ratio::from_si)
        };
        let share = |(at, axis): (usize, &super::inputs::Axis)| InputShare {
            name: axis.name.clone(),
            deviation: axis.shown,
            is_share: axis.is_share,
            source: axis.source.clone(),
            from: axis.from.clone(),
            stretch: axis.stretch,
            shares: moving.iter().map(|moving| (*moving, of_mass(*moving, at))).collect(),
        };
        inputs.axes.iter().enumerate().map(share).collect()
    }
}

/// Rising; a draw in which no mass holds counts as the least of all.
pub(super) fn sorted(found: impl Iterator<Item = Option<f64>>) -> Vec<f64> {
    let mut found: Vec<f64> = found.map(|one| one.unwrap_or(f64::NEG_INFINITY)).collect();
    found.sort_by(f64::total_cmp);
    found
}

/// The greatest value that at least a share of the draws reach.
pub(super) fn at_level(sorted: &[f64], level: f64) -> Option<f64> {
    // A hair on the safe side keeps 1 - 0.95 from rounding up.
    let short = ((1.0 - level) * sorted.len() as f64 - 1e-9).floor().max(0.0);
    sorted.get(short as usize).copied().filter(|found| found.is_finite())
}

/// A sample quantile, the lower neighbour.
fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let at = (share * sorted.len() as f64).floor() as usize;
    sorted.get(at.min(sorted.len().saturating_sub(1))).copied().filter(|found| found.is_finite())
}

fn rounded_down(kg: f64) -> Mass {
    kilograms((kg / ROUND_KG + 1e-9).floor() * ROUND_KG)
}

#[cfg(test)]
mod tests {
    use super::{at_level, chance, judged, quantile};
    use hardpan_math::{EvenPoints, normal_quantile};
    use hardpan_model::Verdict;
    use hardpan_quantity::Quantity;

    /// Sums of ten normal errors, drawn by one seed: each sum is normal with a
    /// deviation of the root of ten.
    fn sums(count: u32, seed: u32) -> Vec<f64> {
        let points = EvenPoints::new(10, seed).expect("few axes");
        let sum = |point: Vec<f64>| point.iter().filter_map(|x| normal_quantile(*x)).sum();
        let mut sums: Vec<f64> = (0..count).filter_map(|i| points.point(i)).map(sum).collect();
        sums.sort_by(f64::total_cmp);
        sums
    }

    /// Closed form of the linear case: a limit two deviations above the mean is
    /// exceeded with 2.275 % (printed tables, from memory). The stated limits of
    /// the probability must hold it at least as often as they say.
    #[test]
    fn limits_of_a_probability_hold_the_closed_form() {
        let held = (0..200)
            .filter(|seed| {
                let limit = 2.0 * 10.0_f64.sqrt();
                let count = sums(512, *seed).iter().filter(|sum| **sum > limit).count();
                let chance = chance(count, 512);
                (chance.between.0.si()..=chance.between.1.si()).contains(&0.022_750)
            })
            .count();
        assert!(held >= 180, "{held} of 200");
    }

    /// Coverage of the range that is told: the share of fresh independent draws
    /// that fall inside is nine in ten.
    #[test]
    fn the_range_covers_nine_in_ten() {
        let inside: Vec<f64> = (0..50)
            .map(|seed| {
                let found = sums(1024, seed);
                let low = quantile(&found, 0.05).expect("some");
                let high = quantile(&found, 0.95).expect("some");
                let fresh = sums(4096, seed + 1000);
                let count = fresh.iter().filter(|sum| **sum >= low && **sum <= high).count();
                count as f64 / 4096.0
            })
            .collect();
        let mean = inside.iter().sum::<f64>() / 50.0;
        assert!((mean - 0.90).abs() < 0.003, "{mean}");
        // Each alone within three deviations of a share of 90 % from 1,024.
        assert!(inside.iter().all(|one| (one - 0.9).abs() < 0.03));
    }

    /// Closed form of a product: the logarithm of a product of lognormal factors
    /// is normal, so that its lower 5 % lies at exp(-1.644854 σ).
    #[test]
    fn the_mass_at_the_level_is_the_closed_form_of_a_product() {
        for seed in 0..20 {
            let mut products: Vec<f64> =
                sums(4096, seed).iter().map(|sum| (0.05 * sum).exp()).collect();
            products.sort_by(f64::total_cmp);
            let exact = (-1.644_854 * 0.05 * 10.0_f64.sqrt()).exp();
            let found = at_level(&products, 0.95).expect("some");
            assert!((found - exact).abs() < 0.01, "{found} for {exact}");
            let reached = products.iter().filter(|one| **one >= found).count();
            assert!(reached as f64 >= 0.95 * 4096.0);
        }
    }

    #[test]
    fn a_draw_in_which_nothing_holds_is_the_least_of_all() {
        let found = super::sorted([Some(2.0), None, Some(1.0)].into_iter());
        assert_eq!(found[1..], [1.0, 2.0]);
        assert_eq!(at_level(&found, 0.95), None);
    }

    #[test]
    fn the_answer_counts_only_when_even_its_lower_limit_does() {
        let complete = true;
        assert_eq!(judged(0.95, &chance(1024, 1024), complete), Verdict::Pass);
        assert_eq!(judged(0.95, &chance(1024, 1024), !complete), Verdict::Unproven);
        assert_eq!(judged(0.95, &chance(975, 1024), complete), Verdict::Unproven);
        assert_eq!(judged(0.95, &chance(900, 1024), complete), Verdict::Fail);
        assert_eq!(judged(0.95, &chance(900, 1024), !complete), Verdict::Fail);
    }
}
