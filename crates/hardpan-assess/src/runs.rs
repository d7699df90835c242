//! Runs by mass, each computed once.

use crate::measured::Known;
use crate::movements::{LandingCase, TakeOffCase};
use hardpan_model::RunTrace;
use hardpan_quantity::{Mass, Quantity};
use hardpan_run::{LandingRun, TakeOffRun};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Runs by mass, each computed once.
pub(crate) struct Runs<'a, T> {
    run: Box<dyn Fn(Mass) -> Known<T> + 'a>,
    done: RefCell<BTreeMap<u64, Known<T>>>,
}

impl<'a, T: Clone> Runs<'a, T> {
    fn new(run: impl Fn(Mass) -> Known<T> + 'a) -> Self {
        Self { run: Box::new(run), done: RefCell::default() }
    }

    /// What is wanted of the run at a mass.
    pub(crate) fn at<R>(&self, mass: Mass, wanted: impl FnOnce(&T) -> R) -> Known<R> {
        let mut done = self.done.borrow_mut();
        let run = done.entry(mass.si().to_bits()).or_insert_with(|| (self.run)(mass));
        run.as_ref().map(wanted).map_err(Clone::clone)
    }
}

/// Take-offs by mass.
pub(crate) fn take_off_runs(case: &Known<TakeOffCase>) -> Runs<'_, TakeOffRun> {
    Runs::new(move |mass| case.as_ref().map_err(Clone::clone)?.run(mass, true))
}

/// Landings by mass.
pub(crate) fn landing_runs(case: &Known<LandingCase>) -> Runs<'_, LandingRun> {
    Runs::new(move |mass| case.as_ref().map_err(Clone::clone)?.run(mass, true))
}

/// The traces of a take-off: as flown and rejected.
pub(crate) fn take_off_traces(run: &TakeOffRun) -> Vec<RunTrace> {
    [run.trace.clone(), run.rejected_trace.clone()].into_iter().flatten().collect()
}

/// The trace of a landing.
pub(crate) fn landing_traces(run: &LandingRun) -> Vec<RunTrace> {
    run.trace.clone().into_iter().collect()
}
