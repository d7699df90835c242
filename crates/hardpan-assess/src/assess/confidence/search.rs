//! The largest mass of a draw, looked for where its margins say that it lies.

use crate::masses::Check;
use hardpan_quantity::kilograms;

/// Step in which the largest mass of a draw is found, kg.
const STEP_KG: f64 = 20.0;
/// Trials that go where the margins point before halves are tried.
const MOST_AIMED: u32 = 6;
/// Least difference of the logarithm of mass from which a slope is taken.
const APART: f64 = 1e-5;
/// Masses apart at which slopes are first taken, over the mass.
const SPREAD: f64 = 0.02;

/// What is left of each limit as a straight line over the logarithm of mass.
#[derive(Debug, Clone, Default)]
pub(super) struct Lines(Vec<Line>);

#[derive(Debug, Clone, Copy, Default)]
struct Line {
    slope: Option<f64>,
    at: Option<(f64, f64)>,
}

impl Lines {
    /// The slopes about a mass, kg.
    pub(super) fn about(checks: &[Check<'_>], mass: f64) -> Self {
        let mut lines = Self(vec![Line::default(); checks.len()]);
        for mass in [mass * (1.0 - SPREAD), mass * (1.0 + SPREAD)] {
            for (at, check) in checks.iter().enumerate() {
                lines.saw(at, mass, check.margin_at(kilograms(mass)));
            }
        }
        lines
    }

    /// The same slopes through no point yet.
    pub(super) fn afresh(&self) -> Self {
        Self(self.0.iter().map(|line| Line { at: None, ..*line }).collect())
    }

    /// Take in what is left of a limit at a mass, kg.
    pub(super) fn saw(&mut self, check: usize, mass: f64, margin: Option<f64>) {
        let (Some(line), Some(margin)) = (self.0.get_mut(check), margin) else { return };
        let x = mass.ln();
        if let Some((before, then)) = line.at
            && (x - before).abs() > APART
        {
            let slope = (margin - then) / (x - before);
            if slope < 0.0 {
                line.slope = Some(slope);
            }
        }
        line.at = Some((x, margin));
    }

    /// The limit that is reached first, and at which mass, kg.
    fn first(&self) -> Option<(usize, f64)> {
        let crossing = |(at, line): (usize, &Line)| {
            let ((x, margin), slope) = (line.at?, line.slope?);
            Some((at, (x - margin / slope).exp())).filter(|(_, mass)| mass.is_finite())
        };
        self.0.iter().enumerate().filter_map(crossing).min_by(|a, b| a.1.total_cmp(&b.1))
    }
}

/// Masses in whole steps from the lightest to the heaviest.
struct Steps {
    low: f64,
    high: f64,
    last: i64,
}

impl Steps {
    fn new((low, high): (f64, f64)) -> Self {
        Self { low, high, last: ((high - low) / STEP_KG).ceil().clamp(0.0, 1e6) as i64 }
    }

    fn mass(&self, step: i64) -> f64 {
        if step >= self.last { self.high } else { self.low + STEP_KG * step as f64 }
    }

    /// The last step at or below a mass.
    fn below(&self, mass: f64) -> i64 {
        ((mass - self.low) / STEP_KG).floor().clamp(0.0, self.last as f64) as i64
    }
}

/// One after the other, the limit that is reached first before the rest.
fn hold(checks: &[Check<'_>], lines: &mut Lines, suspect: usize, mass: f64) -> Option<usize> {
    let rest = (0..checks.len()).filter(|at| *at != suspect);
    std::iter::once(suspect).chain(rest).find(|at| {
        let Some(check) = checks.get(*at) else { return false };
        let (holds, margin) = check.judged(kilograms(mass));
        lines.saw(*at, mass, margin);
        holds != Some(true)
    })
}

/// The largest of the masses in steps at which all limits hold, kg; none where
/// the lightest does not. Trials go where the lines cross nothing, and as far
/// around it as it takes to have one that holds next to one that does not.
pub(super) fn largest(
    checks: &[Check<'_>],
    range: (f64, f64),
    about: f64,
    lines: &mut Lines,
) -> Option<f64> {
    let steps = Steps::new(range);
    let (mut good, mut bad) = (-1, steps.last + 1);
    let (mut stride, mut turn, mut suspect) = (1, 0, 0);
    while bad - good > 1 {
        let first = lines.first();
        let aim = steps.below(first.map_or(about, |(_, mass)| mass));
        let is_between = good < aim && aim < bad;
        let next = if turn >= MOST_AIMED && good >= 0 && bad <= steps.last {
            good + (bad - good) / 2
        } else if is_between {
            aim
        } else {
            let step = if aim >= bad { bad - stride } else { good + stride };
            stride *= 2;
            step.clamp(good + 1, bad - 1)
        };
        if turn == 0 || is_between {
            suspect = first.map_or(suspect, |(at, _)| at);
        }
        match hold(checks, lines, suspect, steps.mass(next)) {
            None => good = next,
            Some(failed) => (bad, suspect) = (next, failed),
        }
        turn += 1;
    }
    (good >= 0).then(|| steps.mass(good))
}

#[cfg(test)]
mod tests {
    use super::{Check, Lines, Steps, largest};
    use hardpan_quantity::Quantity;
    use proptest::prelude::*;
    use std::sync::atomic::{AtomicU32, Ordering};

    const RANGE: (f64, f64) = (30_000.0, 50_010.0);

    /// The plain search: halves from the ends.
    pub(in crate::assess::confidence) fn plain(
        checks: &[Check<'_>],
        range: (f64, f64),
    ) -> Option<f64> {
        let steps = Steps::new(range);
        let holds = |step: i64| {
            let mass = hardpan_quantity::kilograms(steps.mass(step));
            checks.iter().all(|check| check.holds_at(mass))
        };
        let (mut good, mut bad) = (-1, steps.last + 1);
        while bad - good > 1 {
            let middle = good + (bad - good) / 2;
            if holds(middle) { good = middle } else { bad = middle }
        }
        (good >= 0).then(|| steps.mass(good))
    }

    /// A limit at a mass, whose margin bends, or has none.
    fn check<'a>(most: f64, bend: f64, has_margin: bool, trials: &'a AtomicU32) -> Check<'a> {
        let check = Check::new("A10", "limit", move |mass| {
            trials.fetch_add(1, Ordering::Relaxed);
            Ok(mass.si() <= most)
        });
        if !has_margin {
            return check;
        }
        check.with_margin(move |mass| {
            let left = 1.0 - mass.si() / most;
            Some(left * (1.0 + bend * left / (1.0 + left.abs())))
        })
    }

    proptest! {
        #[test]
        fn prop_the_same_mass_to_the_bit_as_the_plain_search(
            limits in prop::collection::vec(
                (20_000.0_f64..60_000.0, 0.0_f64..0.9, any::<bool>()), 1..6),
            about in 20_000.0_f64..60_000.0,
        ) {
            let trials = AtomicU32::new(0);
            let checks: Vec<Check<'_>> = limits
                .iter()
                .map(|(most, bend, has)| check(*most, *bend, *has, &trials))
                .collect();
            let mut lines = Lines::about(&checks, about);
            let found = largest(&checks, RANGE, about, &mut lines);
            let bits = |mass: Option<f64>| mass.map(f64::to_bits);
            prop_assert_eq!(bits(found), bits(plain(&checks, RANGE)));
        }
    }

    #[test]
    fn few_trials_are_enough_where_the_margin_is_nearly_a_line() {
        let trials = AtomicU32::new(0);
        let checks = [check(41_237.0, 0.3, true, &trials)];
        let mut lines = Lines::about(&checks, 38_000.0);
        trials.store(0, Ordering::Relaxed);
        let found = largest(&checks, RANGE, 38_000.0, &mut lines);
        assert_eq!(found, Some(41_220.0));
        let aimed = trials.swap(0, Ordering::Relaxed);
        assert_eq!(plain(&checks, RANGE), found);
        let plainly = trials.load(Ordering::Relaxed);
        assert!(aimed <= 5 && plainly >= 10, "{aimed} against {plainly}");
    }
}
