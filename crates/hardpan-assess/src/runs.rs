//! Runs by mass, each computed once, and kept for every change that leaves the
//! movement as it is.

use crate::ground::StationLoads;
use crate::measured::Known;
use crate::movements::{LandingCase, TakeOffCase};
use hardpan_model::RunTrace;
use hardpan_quantity::{Mass, Quantity};
use hardpan_run::{LandingRun, TakeOffRun};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// A movement that can be run at any mass.
pub(crate) trait Case: Clone + Send + Sync {
    /// What a run comes to.
    type Run: std::fmt::Debug + Send + Sync;

    /// The run at a mass, with its traces where they are wanted.
    fn at(&self, mass: Mass, traces: Traces) -> Known<Self::Run>;

    /// The traces of a run.
    fn traces(run: &Self::Run) -> Vec<&RunTrace>;
}

/// Whether a run is wanted by station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Traces {
    Wanted,
    Spared,
}

type ByMass<T> = Mutex<BTreeMap<u64, Arc<Known<T>>>>;

/// The runs of one movement by mass.
#[derive(Debug)]
pub(crate) struct Runs<C: Case> {
    case: Known<C>,
    bare: ByMass<C::Run>,
    traced: ByMass<C::Run>,
    loads: ByMass<StationLoads>,
}

impl<C: Case> Runs<C> {
    fn new(case: Known<C>) -> Self {
        Self { case, bare: ByMass::default(), traced: ByMass::default(), loads: ByMass::default() }
    }

    /// Whether nothing is missing: a run that has no result is then refused.
    pub(crate) fn is_known(&self) -> bool {
        self.case.is_ok()
    }

    /// What is wanted of the run at a mass; it may have no traces.
    pub(crate) fn at<R>(&self, mass: Mass, wanted: impl FnOnce(&C::Run) -> R) -> Known<R> {
        let traced = locked(&self.traced).get(&mass.si().to_bits()).cloned();
        let run =
            traced.unwrap_or_else(|| once(&self.bare, mass, || self.run(mass, Traces::Spared)));
        run.as_ref().as_ref().map(wanted).map_err(Clone::clone)
    }

    /// What is wanted of the run at a mass with its traces.
    pub(crate) fn traced<R>(&self, mass: Mass, wanted: impl FnOnce(&C::Run) -> R) -> Known<R> {
        let run = once(&self.traced, mass, || self.run(mass, Traces::Wanted));
        run.as_ref().as_ref().map(wanted).map_err(Clone::clone)
    }

    /// The loads that the run at a mass brings by station, as first computed
    /// from its traces.
    pub(crate) fn loads(
        &self,
        mass: Mass,
        of: impl FnOnce(&[&RunTrace]) -> Known<StationLoads>,
    ) -> Arc<Known<StationLoads>> {
        once(&self.loads, mass, || self.traced(mass, |run| of(&C::traces(run)))?)
    }

    fn run(&self, mass: Mass, traces: Traces) -> Known<C::Run> {
        self.case.as_ref().map_err(Clone::clone)?.at(mass, traces)
    }
}

fn once<T>(done: &ByMass<T>, mass: Mass, make: impl FnOnce() -> Known<T>) -> Arc<Known<T>> {
    let key = mass.si().to_bits();
    if let Some(found) = locked(done).get(&key) {
        return Arc::clone(found);
    }
    let made = Arc::new(make());
    locked(done).insert(key, Arc::clone(&made));
    made
}

/// What is kept is whole whenever a holder of the lock gives up.
fn locked<T>(kept: &Mutex<T>) -> MutexGuard<'_, T> {
    kept.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The runs of every movement tried on one strip with one aeroplane: each kept
/// under what it was planned with.
#[derive(Debug)]
pub(crate) struct RunStore<K, C: Case> {
    kept: Mutex<Vec<(K, Arc<Runs<C>>)>>,
}

impl<K, C: Case> Default for RunStore<K, C> {
    fn default() -> Self {
        Self { kept: Mutex::default() }
    }
}

impl<K: PartialEq, C: Case> RunStore<K, C> {
    /// The runs of a movement, those of before where the plan is the same.
    pub(crate) fn of(&self, plan: K, case: &Known<C>) -> Arc<Runs<C>> {
        let mut kept = locked(&self.kept);
        if let Some((_, runs)) = kept.iter().find(|(kept, _)| *kept == plan) {
            return Arc::clone(runs);
        }
        let runs = Arc::new(Runs::new(case.clone()));
        kept.push((plan, Arc::clone(&runs)));
        runs
    }
}

impl Case for TakeOffCase {
    type Run = TakeOffRun;

    fn at(&self, mass: Mass, traces: Traces) -> Known<TakeOffRun> {
        self.run(mass, traces == Traces::Wanted)
    }

    fn traces(run: &TakeOffRun) -> Vec<&RunTrace> {
        [&run.trace, &run.rejected_trace].into_iter().flatten().collect()
    }
}

impl Case for LandingCase {
    type Run = LandingRun;

    fn at(&self, mass: Mass, traces: Traces) -> Known<LandingRun> {
        self.run(mass, traces == Traces::Wanted)
    }

    fn traces(run: &LandingRun) -> Vec<&RunTrace> {
        run.trace.iter().collect()
    }
}
