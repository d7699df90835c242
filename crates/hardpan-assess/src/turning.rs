//! What on the day would turn the answer: each figure is moved in whole steps
//! until a fresh assessment gives another verdict.

mod figure;
mod search;

use crate::assess::{Core, judge_the_whole};
use crate::context::Context;
use crate::ground::strength_finding::stretch;
use crate::measure::{Standing, measure};
use crate::measured::Measured;
use crate::phrase::Phrase;
use crate::rides::Asked;
use figure::{Figure, WeakPlace, Weaker, figures};
use hardpan_ground::PointJudgement;
use hardpan_model::{Flight, SurfaceState, Verdict};
use hardpan_quantity::Amount;
use rayon::prelude::*;
use search::first_step;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// What on the day would turn the answer.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Turning {
    /// Figures that turn it, or hold as far as they were moved.
    pub points: Vec<TurningPoint>,
    /// Other states of the surface, and the verdict in each.
    pub states: Vec<StateChange>,
}

/// A figure of the day, and how far it may move before the answer turns.
///
/// Everything else stays as planned. Where the answer is a fail the figure is
/// moved the helpful way, to the first step at which nothing fails.
#[derive(Debug, Clone, PartialEq)]
pub struct TurningPoint {
    /// What is moved, in a few words.
    pub what: &'static str,
    /// Its value in the plan; a headwind is positive.
    pub now: Amount,
    /// The last value, in whole steps, at which the answer holds.
    pub holds_to: Amount,
    /// The next value, at which it no longer does; as far as was tried when
    /// nothing turns.
    pub beyond: Amount,
    /// What fails there; none where the answer holds as far as was tried.
    pub turn: Option<Turn>,
    /// The same in one sentence.
    pub sentence: Phrase,
    /// How far it holds, in a few words.
    pub short: Phrase,
}

/// The check that turns the answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Turn {
    /// Verdict of the whole on the far side.
    pub verdict: Verdict,
    /// Code of the finding that gives it.
    pub code: &'static str,
    /// What it checks.
    pub title: String,
}

/// The answer in another state of the surface, all else as planned.
#[derive(Debug, Clone, PartialEq)]
pub struct StateChange {
    /// The state.
    pub state: SurfaceState,
    /// Verdict of the whole in it.
    pub verdict: Verdict,
    /// Code of the finding that governs there and what it checks; none if
    /// nothing was judged.
    pub governed_by: Option<(&'static str, String)>,
}

/// Asked before each flight that is tried: whether nobody waits for what is found any
/// more. What is found after that is thrown away.
pub(crate) type GivenUp<'a> = &'a (dyn Fn() -> bool + Sync);

/// Move each figure of the day until the answer turns.
pub(crate) fn turning(
    flight: &Flight,
    standing: &Standing,
    core: &Core,
    is_given_up: GivenUp<'_>,
) -> Turning {
    let now = core.verdict;
    let figures = figures(flight, now, weak_place(&core.measured));
    // The ride of the plan would keep every step failing.
    let ride = if now == Verdict::Fail && core.turns_on_the_ride() {
        Ride::Afresh
    } else {
        Ride::OfThePlan
    };
    let sought = |figure| point(figure, standing, (now, ride), is_given_up);
    let points = || figures.par_iter().filter_map(sought).collect();
    let (points, states) = rayon::join(points, || states(flight, standing, now, is_given_up));
    Turning { points, states }
}

/// Where the ground under the main wheels is nearest to its limit.
fn weak_place(measured: &Measured) -> Option<WeakPlace> {
    let (worst, _) = measured.main_carried.as_ref().ok()?;
    let PointJudgement::Known(demand) = &worst.judgement else { return None };
    let (from, to) = stretch(measured.ground.as_ref().ok()?, worst, demand.station);
    Some(WeakPlace { from, to, bearing: demand.available })
}

/// Verdict of the whole, and code and title of the first finding that has it.
type Judged = (Verdict, Option<(&'static str, String)>);

fn judged(flight: &Flight, standing: &Standing) -> Judged {
    let measured = measure(flight, standing, &[]);
    judge_the_whole(&Context::tried(flight, &measured, Asked::Verdict))
}

/// The turning point of a figure: sought on the ride of the plan where that will do, as
/// fresh ones cost time, and sought again on these where the first is not borne out.
fn point(
    figure: &Figure<'_>,
    standing: &Standing,
    (now, ride): (Verdict, Ride),
    is_given_up: GivenUp<'_>,
) -> Option<TurningPoint> {
    let sought = |ride: Ride| {
        let tried: RefCell<BTreeMap<usize, Judged>> = RefCell::default();
        let at = |step: usize| {
            if is_given_up() {
                return (now, None);
            }
            let known = tried.borrow().get(&step).cloned();
            known.unwrap_or_else(|| {
                let found = moved(figure, standing, step, ride);
                tried.borrow_mut().insert(step, found.clone());
                found
            })
        };
        found(figure, now, at)
    };
    let first = sought(ride);
    let is_fresh = matches!(ride, Ride::Afresh) || !figure.changes_the_runs();
    let holds = first.as_ref().map_or(0, |(_, holds)| *holds);
    let holds_afresh = || {
        if is_given_up() {
            return true;
        }
        let verdict = moved(figure, standing, holds, Ride::Afresh).0;
        if now == Verdict::Fail { verdict < now } else { verdict <= now }
    };
    let borne_out = is_fresh || first.is_none() || holds_afresh();
    let point = if borne_out { first } else { sought(Ride::Afresh) };
    point.map(|(point, _)| point)
}

/// Which ride a moved figure is judged on.
#[derive(Clone, Copy)]
enum Ride {
    OfThePlan,
    Afresh,
}

fn moved(figure: &Figure<'_>, standing: &Standing, step: usize, ride: Ride) -> Judged {
    let (flight, weaker) = figure.moved(step);
    let standing = match ride {
        Ride::OfThePlan => standing.clone(),
        Ride::Afresh => standing.riding_afresh(),
    };
    match weaker {
        Weaker::Everywhere(share) => judged(&flight, &standing.with_strength(share)),
        Weaker::At(place, share) => {
            judged(&flight, &standing.with_strength_between(place.from, place.to, share))
        }
        Weaker::Nowhere => judged(&flight, &standing),
    }
}

/// The point, and the step up to which the answer holds.
fn found(
    figure: &Figure<'_>,
    now: Verdict,
    at: impl Fn(usize) -> Judged,
) -> Option<(TurningPoint, usize)> {
    if at(0).0 != now {
        return None;
    }
    let mending = now == Verdict::Fail;
    let turned = |step: usize| {
        let verdict = at(step).0;
        if mending { verdict < now } else { verdict > now }
    };
    let Some(step) = first_step(figure.steps, turned) else {
        let last = figure.value(figure.steps);
        let steady = TurningPoint {
            what: figure.what,
            now: figure.value(0),
            holds_to: last,
            beyond: last,
            turn: None,
            sentence: figure.steady(),
            short: figure.short(figure.steps),
        };
        return figure.tells_if_steady(now).then_some((steady, figure.steps));
    };
    let (holds, fails) = if mending { (step, step - 1) } else { (step - 1, step) };
    let (verdict, first) = at(fails);
    let (code, title) = first?;
    let point = TurningPoint {
        what: figure.what,
        now: figure.value(0),
        holds_to: figure.value(holds),
        beyond: figure.value(fails),
        short: figure.short(holds),
        sentence: figure.sentence(holds, &format!("{code} {title}"), (now, verdict)),
        turn: Some(Turn { verdict, code, title }),
    };
    Some((point, holds))
}

/// The verdict in each state of the surface but the one of the day.
fn states(
    flight: &Flight,
    standing: &Standing,
    now: Verdict,
    is_given_up: GivenUp<'_>,
) -> Vec<StateChange> {
    let Some(present) = &flight.day.surface_state else { return Vec::new() };
    let others: Vec<SurfaceState> =
        SurfaceState::ALL.into_iter().filter(|state| *state != present.value).collect();
    let change = |state: SurfaceState| {
        let mut changed = flight.clone();
        changed.day.surface_state = Some(present.clone().map(|_| state));
        let (mut verdict, mut governed_by) = judged(&changed, standing);
        if verdict <= now {
            (verdict, governed_by) = judged(&changed, &standing.riding_afresh());
        }
        StateChange { state, verdict, governed_by }
    };
    let wanted = |_: &SurfaceState| !is_given_up();
    others.into_par_iter().filter(wanted).map(change).collect()
}
