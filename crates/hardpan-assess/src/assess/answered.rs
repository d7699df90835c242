//! The answer of a flight, and what the next answer can go on from.

use super::opening::Openings;
use super::{Core, answered, explained};
use crate::assessment::{Assessment, Remedy};
use crate::context::Context;
use crate::measure::Standing;
use crate::remedies::remedies;
use crate::rides::Asked;
use crate::turning::{GivenUp, Turning, turning};
use hardpan_model::{Day, Flight, Landing, TakeOff};

/// How many answers go on from the runs of the first: they are kept by mass, and that
/// bounds the memory that they take.
const SHARED_RUNS: u32 = 64;

/// A flight that has its answer: the whole is worked out from there, so that nothing
/// of the answer is done twice.
pub struct Answered {
    flight: Flight,
    footing: Footing,
    core: Core,
}

/// What an aeroplane finds on a strip whatever its masses, tyre pressures, flap and day
/// are: kept from an answer for the next.
#[derive(Clone)]
pub struct Footing {
    /// All of the flight that it was worked out from.
    bare: Flight,
    runs: RunsOf,
    standing: Standing,
    used: u32,
}

/// What the runs that were kept were planned with, their masses apart.
#[derive(Clone, PartialEq)]
struct RunsOf {
    landing: Option<Landing>,
    take_off: Option<TakeOff>,
    day: Day,
}

impl Answered {
    /// Work out the answer.
    #[must_use]
    pub fn of(flight: Flight) -> Self {
        let (runs, bare) = (RunsOf::of(&flight), bare(&flight));
        let (standing, core) = Core::afresh(&flight, &bare);
        Self { footing: Footing { bare, runs, standing, used: 0 }, flight, core }
    }

    /// The same answer, from what was found for one before where it still counts.
    #[must_use]
    pub fn after(flight: Flight, before: &Footing) -> Self {
        let Some(footing) = before.again(&flight) else { return Self::of(flight) };
        let core = Core::of(&flight, &footing.standing);
        Self { flight, footing, core }
    }

    /// What the next answer may go on from.
    #[must_use]
    pub fn footing(&self) -> Footing {
        self.footing.clone()
    }

    /// What [`super::answer_alone`] gives.
    #[must_use]
    pub fn alone(&self) -> Assessment {
        answered(&self.flight, &self.core)
    }

    /// What [`super::assess`] gives.
    #[must_use]
    pub fn whole(&self) -> Assessment {
        let (turning, remedies) = self.advice(&|| false);
        self.with_advice(turning, remedies)
    }

    /// The same, as long as somebody waits for it: none once `is_given_up` has said so,
    /// which is asked before each flight that is tried for the advice. What was given up
    /// stays given up.
    #[must_use]
    pub fn whole_unless(&self, is_given_up: &(dyn Fn() -> bool + Sync)) -> Option<Assessment> {
        let (turning, remedies) = self.advice(is_given_up);
        (!is_given_up()).then(|| self.with_advice(turning, remedies))
    }

    /// What the figures of `found`, which is the answer or the whole of this flight,
    /// open to.
    #[must_use]
    pub fn openings(&self, found: &Assessment) -> Openings {
        let context = Context::tried(&self.flight, &self.core.measured, Asked::Whole);
        Openings::of(found, &context, &self.footing.standing)
    }

    fn advice(&self, is_given_up: GivenUp<'_>) -> (Turning, Vec<Remedy>) {
        let Self { flight, footing: Footing { standing, .. }, core } = self;
        rayon::join(
            || turning(flight, standing, core, is_given_up),
            || remedies(flight, standing, core, is_given_up),
        )
    }

    fn with_advice(&self, turning: Turning, remedies: Vec<Remedy>) -> Assessment {
        let found = Assessment { turning, remedies, ..self.alone() };
        explained(&self.flight, &self.core, found)
    }
}

impl Footing {
    /// The same for another flight; none where anything is another that it rests on.
    fn again(&self, flight: &Flight) -> Option<Self> {
        if bare(flight) != self.bare {
            return None;
        }
        let runs = RunsOf::of(flight);
        let goes_on = runs == self.runs && self.used < SHARED_RUNS;
        let standing = if goes_on { self.standing.clone() } else { self.standing.with_no_runs() };
        let used = if goes_on { self.used + 1 } else { 0 };
        Some(Self { bare: self.bare.clone(), runs, standing: standing.for_another(), used })
    }
}

impl RunsOf {
    fn of(flight: &Flight) -> Self {
        let landing = flight.landing.clone().map(|plan| Landing { mass: None, ..plan });
        let take_off = flight.take_off.clone().map(|plan| TakeOff { mass: None, ..plan });
        Self { landing, take_off, day: flight.day.clone() }
    }
}

/// A flight without what changes from one answer to the next. Nothing that is left out
/// can count in what is worked out from it.
fn bare(flight: &Flight) -> Flight {
    Flight {
        name: None,
        day: Day::default(),
        landing: None,
        take_off: None,
        main_tyre_pressure: None,
        nose_tyre_pressure: None,
        ..flight.clone()
    }
}
