//! How sure the answer is: the flight drawn many times as it might really be.
//!
//! Each uncertain input has a spread by a source or by the user's choice. Points
//! that fill the unit cube evenly, scrambled by a seed, are turned into draws of
//! the inputs; each draw is held against the very limits that the largest masses
//! are searched with. A limit of an approved manual, and the factors of a rule,
//! stay as they are. The answer can only become stricter than the assessment's.

mod both;
pub(crate) mod by_rule;
mod draw;
mod findings;
mod help;
mod inputs;
mod levels;
pub(crate) mod method;
mod opened;
mod search;
mod summary;
mod trial;
mod two_level;

pub use by_rule::{NotDrawn, not_drawn};
pub use trial::Moving;

use crate::assess::Core;
use crate::assessment::{FigureBasis, Identity};
use crate::draft::given;
use crate::figures::identity;
use crate::measure::Standing;
use crate::measured::Measured;
use crate::phrase::Phrase;
use draw::Start;
use findings::{Findings, Wanted};
use hardpan_math::{EvenPoints, MOST_POINTS, normal_quantile};
use hardpan_model::{Flight, InputFrom, Need, Source, Tier, Verdict};
use hardpan_quantity::{Amount, Length, Mass, Quantity, Ratio, kilograms};
use inputs::{Inputs, Kind, RestsOn};
use levels::{LevelLimit, level_limits};
use rayon::prelude::*;
use search::Lines;
use std::sync::mpsc::channel;
use summary::Summary;
use trial::{Limits, Named, Trial, movements, named, slopes, trial};
use two_level::TwoLevel;

/// Fewest draws.
pub const FEWEST_DRAWS: u32 = 128;
/// Most draws.
pub const MOST_DRAWS: u32 = MOST_POINTS;
/// Most draws that are all calculated in full where no number is given.
const MOST_ALL_IN_FULL: u32 = 1024;
/// Draws that are calculated in full of more than those.
const IN_FULL_OF_MANY: u32 = 512;
/// Level of the decision where the flight states none; no flight may state less.
pub const LEAST_LEVEL: f64 = 0.95;

/// Draws that are calculated in full of so many, where no number is given: all up to
/// 1024, and 512 of more.
#[must_use]
pub const fn draws_in_full(draws: u32) -> u32 {
    if draws <= MOST_ALL_IN_FULL { MOST_ALL_IN_FULL } else { IN_FULL_OF_MANY }
}

/// How a flight is to be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sampling {
    /// How many draws; the next power of two is taken, which is the most even.
    pub draws: u32,
    /// How many of them are calculated in full, likewise; where they are fewer, a
    /// smooth fit to them tells the rest.
    pub in_full: u32,
    /// Any number: the same gives the same draws.
    pub seed: u32,
    /// How many threads share the work; the outcome does not depend on it.
    pub threads: usize,
}

impl Sampling {
    /// Draws that are made: a power of two within the bounds.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.draws.clamp(FEWEST_DRAWS, MOST_DRAWS).next_power_of_two()
    }

    /// Draws that are calculated in full before any other.
    /// Too few for a fit over so many axes are doubled until they are enough, or all.
    fn first(&self, axes: usize) -> u32 {
        let mut first = self.in_full.clamp(FEWEST_DRAWS, MOST_DRAWS).next_power_of_two();
        while first < self.count() && !two_level::is_enough(first, axes) {
            first *= 2;
        }
        first.min(self.count())
    }
}

/// How sure the answer to a flight is.
#[derive(Debug, Clone, PartialEq)]
pub struct Confidence {
    /// Who, where, when.
    pub identity: Identity,
    /// Probability that no safety limit is exceeded at which the answer counts.
    pub level: Ratio,
    /// Where that comes from.
    pub level_from: InputFrom,
    /// Draws made.
    pub draws: u32,
    /// How those are told that are not calculated in full; none where all are.
    pub fitted: Option<Fitted>,
    /// Seed of the draws.
    pub seed: u32,
    /// Verdict of the assessment itself, without draws.
    pub assessed: Verdict,
    /// The worse of that and of what the draws say.
    pub verdict: Verdict,
    /// Why, in one sentence.
    pub sentence: Phrase,
    /// Share of the draws in which no limit is exceeded.
    pub holds: Chance,
    /// Each limit, the likeliest to be exceeded first.
    pub limits: Vec<LimitChance>,
    /// The largest masses.
    pub masses: Vec<MassChance>,
    /// What is uncertain.
    pub inputs: Vec<InputShare>,
    /// What would make the answer surer or raise the mass that holds, what helps most
    /// first.
    pub help: Vec<Help>,
    /// What nobody says how sure it is, and what the limits lack.
    pub missing: Vec<Need>,
}

/// Draws told by a smooth fit to draws that were calculated in full.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// Draws that were calculated in full.
    pub in_full: u32,
    /// Share of those that a fit without them judges otherwise as a whole, not
    /// counting such as lie so near a limit that they are calculated in full.
    pub misjudged: Ratio,
    /// Root mean square error of each largest mass by a fit without the draw.
    pub mass_errors: Vec<(Moving, Mass)>,
    /// Draws in full for each measurement that is tried.
    pub help_draws: u32,
    /// How the probability that no limit is exceeded came about.
    pub worked: FigureBasis,
}

/// A probability from the draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// Share of the draws.
    pub share: Ratio,
    /// Exact one-sided limits at 95 %, as if each draw were independent.
    pub between: (Ratio, Ratio),
    /// What it was counted from.
    pub tally: Tally,
}

/// Draws that a probability was counted from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tally {
    /// Draws that count, in full or by a fit.
    pub counted: usize,
    /// Draws fitted to that count, and that a fit without them misses.
    pub missed: usize,
    /// Draws fitted to that do not count, and that a fit without them counts.
    pub wrongly: usize,
    /// All draws.
    pub draws: usize,
    /// Draws that the fit rests on; all where there is no fit.
    pub fitted_to: usize,
}

/// One limit and how likely it is exceeded.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitChance {
    /// Code of the rule.
    pub code: &'static str,
    /// What it is.
    pub title: String,
    /// Of which movement; none where it is of both.
    pub moving: Option<Moving>,
    /// Probability that it is exceeded as planned; none where data are missing.
    pub exceeded: Option<Chance>,
    /// Whether a fit tells it of draws that are not calculated in full; where it does
    /// not, the probability rests on those in full alone.
    pub is_fitted: bool,
    /// Whether it only advises: it counts for no answer.
    pub advises: bool,
    /// Share of the draws in full of which nothing can be said, and which count as
    /// exceeded; none where data are missing.
    pub not_judged: Option<Ratio>,
}

/// The largest mass of a movement that may be planned.
#[derive(Debug, Clone, PartialEq)]
pub struct MassChance {
    /// Which movement.
    pub moving: Moving,
    /// Mass planned.
    pub planned: Option<Mass>,
    /// Largest mass of the assessment itself.
    pub assessed: Option<Mass>,
    /// Largest mass that holds at the level, and never above that of the
    /// assessment; none where none does or data are missing.
    pub held: Option<Mass>,
    /// The same where both movements are to hold together in as many draws; none where
    /// only one is planned as well.
    pub held_together: Option<Mass>,
    /// Range of nine draws in ten, and the middle; none where no mass holds.
    pub range: [Option<Mass>; 3],
}

/// One uncertain input.
#[derive(Debug, Clone, PartialEq)]
pub struct InputShare {
    /// In words.
    pub name: String,
    /// Standard deviation.
    pub deviation: Amount,
    /// Whether that is over the value.
    pub is_share: bool,
    /// Where it comes from.
    pub source: String,
    /// The place where it stands, or the judgement.
    pub from: InputFrom,
    /// Stretch that one sounding speaks for.
    pub stretch: Option<(Length, Length)>,
    /// Share of the variance of the largest mass that it alone explains, by
    /// movement; none where that mass does not vary.
    pub shares: Vec<(Moving, Option<Ratio>)>,
}

/// What one more measurement, or softer tyres, would bring, as drawn afresh.
#[derive(Debug, Clone, PartialEq)]
pub struct Help {
    /// What to do.
    pub action: Phrase,
    /// The mass that it raises; none where it raises none by as much as is worth naming,
    /// or by less than its error.
    pub raised: Option<Raised>,
    /// Share of the same draws in which no limit is exceeded, without it.
    pub without: Ratio,
    /// The same with it.
    pub holds: Ratio,
    /// Standard error of the difference of the two.
    pub error: Ratio,
}

/// By how much a mass that holds is raised.
#[derive(Debug, Clone, PartialEq)]
pub struct Raised {
    /// Of which movement.
    pub moving: Moving,
    /// By how much.
    pub gain: Mass,
    /// Standard error of that.
    pub error: Mass,
    /// What holds at the level in the same draws, without it and with it.
    pub between: (Mass, Mass),
}

/// Everything that the draws of one flight share.
struct Case<'a> {
    rests_on: RestsOn,
    inputs: &'a Inputs,
    measured: &'a Measured,
    start: &'a Start<'a>,
    levels: &'a [LevelLimit],
    findings: &'a Findings,
    slopes: [Option<Lines>; 2],
    about: [Option<f64>; 2],
    sampling: Sampling,
}

/// A draw and what it came to.
struct Outcome {
    point: Vec<f64>,
    trial: Trial,
}

/// Draw a flight many times; `done` is called with how many draws are made and
/// how many there are to be.
///
/// Same flight, same sampling, same bits, whatever the number of threads.
#[must_use]
pub fn confidence(
    flight: &Flight,
    sampling: Sampling,
    mut done: impl FnMut(usize, usize),
) -> Confidence {
    let standing = Standing::of(flight);
    let core = Core::of(flight, &standing);
    on_case(flight, (standing, &core), sampling, |case, names| drawn(case, &core, names, &mut done))
}

/// What the draws of a flight come to, with all that they share made ready.
fn on_case<T>(
    flight: &Flight,
    (standing, core): (Standing, &Core),
    sampling: Sampling,
    then: impl FnOnce(&Case<'_>, &[Named]) -> T,
) -> T {
    let levels = level_limits(flight, &core.measured, &core.findings);
    let rests_on = RestsOn::of(&core.findings, !levels.is_empty());
    let inputs = Inputs::of(flight, rests_on);
    let about = assessed(core).map(|mass| mass.map(|mass| mass.si()));
    let deviations: Vec<f64> = inputs.axes.iter().map(|axis| axis.deviation).collect();
    let measured = &core.measured;
    let start = Start::new(flight, &inputs, standing, measured);
    let mut middle = start.at(&vec![0.5; inputs.axes.len()], &deviations);
    let findings = Findings::of(&mut middle);
    let names = named(&middle, &levels, &findings);
    let slopes = slopes(&middle, about);
    let case = Case {
        rests_on,
        inputs: &inputs,
        measured,
        start: &start,
        levels: &levels,
        findings: &findings,
        slopes,
        about,
        sampling,
    };
    then(&case, &names)
}

/// Largest masses of the assessment.
fn assessed(core: &Core) -> [Option<Mass>; 2] {
    let largest = [&core.landing_mass, &core.take_off_mass];
    largest.map(|answer| answer.as_ref().and_then(|answer| answer.largest))
}

fn drawn(
    case: &Case<'_>,
    core: &Core,
    names: &[Named],
    done: &mut dyn FnMut(usize, usize),
) -> Confidence {
    let (flight, sampling, inputs) = (case.start.flight(), case.sampling, case.inputs);
    let deviations = case.deviations();
    let count = sampling.count();
    let first = sampling.first(inputs.axes.len());
    let is_fitted = first < count;
    let near = if is_fitted { two_level::most_near(first) } else { 0 };
    let helping = help::MOST_TRIED * help::draws(first, is_fitted);
    let every = (first + near + helping) as usize;
    let numbers: Vec<u32> = (0..first).collect();
    let outcomes = case.draw((&deviations, Wanted::All), &numbers, |made| done(made, every));
    let level = level(flight);
    let more = |made| done(first as usize + made, every);
    let fit = case.fit((names, &outcomes), &deviations, level, more);
    let (draws, fit) = (if fit.is_some() { count } else { first }, fit.as_ref());
    let assessed = assessed(core);
    let summary = Summary { flight, names, outcomes: &outcomes, fit, assessed };
    let mut masses = summary.masses(level);
    let shares = summary.shares(inputs);
    let before = (first + near) as usize;
    let on = help::On { case, core, summary: &summary, level };
    let help = help::help(&on, &shares, |made| done(before + made, every));
    let holds = summary.holds();
    let limits = summary.limits();
    let missing = summary.missing(inputs);
    if !missing.is_empty() {
        masses.iter_mut().for_each(|mass| {
            (mass.held, mass.held_together) = (None, None);
        });
    }
    let judged = summary::judged(level, &holds, missing.is_empty());
    Confidence {
        identity: identity(flight),
        level: Ratio::from_si(level),
        level_from: level_from(flight),
        draws,
        fitted: fit.map(|fit| fitted(flight, fit, help::draws(first, is_fitted))),
        seed: sampling.seed,
        assessed: core.verdict,
        verdict: core.verdict.max(judged),
        sentence: summary::sentence(core.verdict, judged, level, &holds, missing.is_empty()),
        holds,
        limits,
        masses,
        inputs: shares,
        help,
        missing,
    }
}

fn fitted(flight: &Flight, fit: &TwoLevel<'_>, help_draws: u32) -> Fitted {
    let errors = movements(flight).into_iter();
    Fitted {
        in_full: u32::try_from(fit.in_full()).unwrap_or(MOST_DRAWS),
        misjudged: Ratio::from_si(fit.misjudged()),
        mass_errors: errors
            .filter_map(|moving| Some((moving, kilograms(fit.mass_error(moving)?))))
            .collect(),
        help_draws,
        worked: fit.worked(),
    }
}

fn level(flight: &Flight) -> f64 {
    let stated = flight.uncertainty.level.as_ref().map(|level| level.value.si());
    stated.unwrap_or(LEAST_LEVEL).max(LEAST_LEVEL)
}

/// No flight may state less.
const LEAST: Source = Source::new("", "the least level that an answer counts at", Tier::Judgement);

fn level_from(flight: &Flight) -> InputFrom {
    let stated = flight.uncertainty.level.as_ref();
    let stated = stated.filter(|level| level.value.si() >= LEAST_LEVEL);
    stated.map_or(InputFrom::Constant(LEAST), |level| given("level", level).from)
}

impl Case<'_> {
    fn deviations(&self) -> Vec<f64> {
        self.inputs.axes.iter().map(|axis| axis.deviation).collect()
    }

    /// The points of all draws as normal variables.
    fn normals(&self, count: u32) -> Vec<Vec<f64>> {
        let Some(points) = EvenPoints::new(self.inputs.axes.len(), self.sampling.seed) else {
            return Vec::new();
        };
        let normal = |point: Vec<f64>| {
            point.into_iter().map(|one| normal_quantile(one).unwrap_or(0.0)).collect()
        };
        (0..count).into_par_iter().filter_map(|at| points.point(at)).map(normal).collect()
    }

    /// All draws told by a fit to the first of them, with more in full where they lie
    /// near a limit; none where the first are all or the fit cannot be made.
    fn fit<'b>(
        &self,
        (names, outcomes): (&'b [Named], &'b [Outcome]),
        deviations: &[f64],
        level: f64,
        done: impl FnMut(usize),
    ) -> Option<TwoLevel<'b>> {
        let count = self.sampling.count();
        if outcomes.len() >= count as usize {
            return None;
        }
        let mut fit = TwoLevel::new(names, outcomes, &self.normals(count), level)?;
        let wanted = fit.wanted();
        let more = self.draw((deviations, Wanted::All), &wanted, done);
        fit.add(&wanted, more);
        Some(fit)
    }

    /// The outcome of each draw of these numbers, in their order.
    fn draw(
        &self,
        (deviations, wanted): (&[f64], Wanted),
        numbers: &[u32],
        mut done: impl FnMut(usize),
    ) -> Vec<Outcome> {
        let Some(points) = EvenPoints::new(self.inputs.axes.len(), self.sampling.seed) else {
            return Vec::new();
        };
        let threads = self.sampling.threads.clamp(1, 64);
        let mut outcomes: Vec<Option<Outcome>> = numbers.iter().map(|_| None).collect();
        std::thread::scope(|scope| {
            let (sender, made) = channel();
            for first in 0..threads {
                let sender = sender.clone();
                scope.spawn(move || {
                    for (index, number) in numbers.iter().enumerate().skip(first).step_by(threads) {
                        let Some(point) = points.point(*number) else { return };
                        let mut drawn = self.start.at(&point, deviations);
                        let (levels, findings) = (self.levels, self.findings);
                        let limits = Limits { levels, findings, wanted };
                        let trial = trial(&mut drawn, &limits, self.about, &self.slopes);
                        if sender.send((index, Outcome { point, trial })).is_err() {
                            return;
                        }
                    }
                });
            }
            drop(sender);
            for (received, (index, outcome)) in made.iter().enumerate() {
                outcomes[index] = Some(outcome);
                done(received + 1);
            }
        });
        outcomes.into_iter().flatten().collect()
    }
}

/// Whether an axis is one that more measuring would narrow.
fn can_be_measured(kind: Kind) -> bool {
    kind != Kind::Levels
}
