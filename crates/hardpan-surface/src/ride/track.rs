//! One ride on its way over the levels under its wheels.

use crate::ride::Lanes;
use crate::ride::body::{Body, Moment, State, Under};
use crate::ride::roads::Roads;
use wide::f64x2;

/// Where the aeroplane is, how fast, and with which share of its weight on the
/// wing.
#[derive(Clone, Copy)]
pub(super) struct Now {
    pub(super) station: f64,
    pub(super) speed: f64,
    pub(super) share: f64,
}

/// One ride on its way; without roads under nose and main gear, over level ground.
#[derive(Clone)]
pub(super) struct Track<'a> {
    roads: Option<Roads<'a>>,
    pub(super) state: State,
    /// Where the next stage is looked at.
    pub(super) trial: State,
    pub(super) rates: State,
    /// Rates at the first stage, for a step that is taken again.
    pub(super) first: State,
    sum: State,
}

impl<'a> Track<'a> {
    pub(super) fn at_rest(body: &Body, lanes: Option<Lanes<'a>>, now: Now) -> Self {
        let mut track = Self {
            roads: lanes.map(Roads::of),
            state: [f64x2::ZERO; 4],
            trial: [f64x2::ZERO; 4],
            rates: [f64x2::ZERO; 4],
            first: [f64x2::ZERO; 4],
            sum: [f64x2::ZERO; 4],
        };
        track.state = body.at_rest_on(track.under(body, now.station, now.speed));
        track.trial = track.state;
        track
    }

    #[inline(always)]
    fn under(&self, body: &Body, station: f64, speed: f64) -> Under {
        match &self.roads {
            None => (f64x2::ZERO, f64x2::ZERO),
            Some(roads) => {
                let (levels, slopes) = roads.at(f64x2::splat(station) + body.ahead);
                (levels, slopes * f64x2::splat(speed))
            }
        }
    }

    /// What the body does in the trial state, some time on.
    // Most callers want the rates alone: inside them the rest is not even stored.
    #[inline(always)]
    pub(super) fn look(&mut self, body: &Body, now: Now, time: f64) -> Moment {
        let under = self.under(body, now.station + time * now.speed, now.speed);
        let moment = body.moment(&self.trial, now.share, under);
        self.rates = moment.rates;
        moment
    }

    /// Accelerations of nose and main wheels.
    #[inline(always)]
    pub(super) fn wheels(&self) -> f64x2 {
        let [.., wheels] = self.rates;
        wheels
    }

    /// How much the wheels' accelerations differ from those of the stage before.
    #[inline(always)]
    pub(super) fn strayed(&self, before: f64x2) -> f64 {
        let [nose, main] = (self.wheels() - before).abs().to_array();
        nose.max(main)
    }

    /// Go back to the beginning of the step.
    pub(super) fn again(&mut self) {
        (self.trial, self.rates, self.sum) = (self.state, self.first, [f64x2::ZERO; 4]);
    }

    /// Count a stage that was looked at, and go where the next one stands.
    #[inline(always)]
    pub(super) fn count(&mut self, weight: f64, reach: f64) {
        let (weight, reach) = (f64x2::splat(weight), f64x2::splat(reach));
        let states = self.state.iter().zip(&self.rates);
        for ((sum, trial), (state, rate)) in self.sum.iter_mut().zip(&mut self.trial).zip(states) {
            *sum += weight * *rate;
            *trial = *state + reach * *rate;
        }
    }

    /// Stand in a state.
    pub(super) fn begin(&mut self, state: State) {
        (self.state, self.trial, self.sum) = (state, state, [f64x2::ZERO; 4]);
    }

    pub(super) fn finish(&mut self, step: f64) {
        let sixth = f64x2::splat(step / 6.0);
        for (state, sum) in self.state.iter_mut().zip(&self.sum) {
            *state += sixth * *sum;
        }
        (self.trial, self.sum) = (self.state, [f64x2::ZERO; 4]);
    }
}
