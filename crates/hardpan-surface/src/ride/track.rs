//! One ride on its way over the levels under its wheels.

use crate::profile::Profile;
use crate::ride::Lanes;
use crate::ride::body::{Body, Moment, State, Under};

/// Where the aeroplane is, how fast, and with which share of its weight on the
/// wing.
#[derive(Clone, Copy)]
pub(super) struct Now {
    pub(super) station: f64,
    pub(super) speed: f64,
    pub(super) share: f64,
}

/// Levels under one wheel, ready to be asked often.
#[derive(Clone, Copy)]
pub(super) struct Road<'a> {
    levels: &'a [f64],
    begin: f64,
    per_metre: f64,
    /// Index of the last level.
    last: f64,
}

/// One ride on its way; without roads under nose and main gear, over level ground.
#[derive(Clone)]
pub(super) struct Track<'a> {
    roads: Option<(Road<'a>, Road<'a>)>,
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
            roads: lanes.map(|lanes| (Road::of(lanes.nose), Road::of(lanes.main))),
            state: [0.0; 8],
            trial: [0.0; 8],
            rates: [0.0; 8],
            first: [0.0; 8],
            sum: [0.0; 8],
        };
        track.state = body.at_rest_on(track.under(body, now.station, now.speed));
        track.trial = track.state;
        track
    }

    #[inline]
    fn under(&self, body: &Body, station: f64, speed: f64) -> Under {
        let Some((nose, main)) = &self.roads else { return ((0.0, 0.0), (0.0, 0.0)) };
        let (nose, nose_slope) = nose.at(station + body.nose.ahead);
        let (main, main_slope) = main.at(station + body.main.ahead);
        ((nose, nose_slope * speed), (main, main_slope * speed))
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

    /// How much the wheels' accelerations differ from those of the stage before.
    pub(super) fn strayed(&self, before: &State) -> f64 {
        let [.., nose_before, main_before] = before;
        let [.., nose, main] = self.rates;
        (nose - nose_before).abs().max((main - main_before).abs())
    }

    /// Go back to the beginning of the step.
    pub(super) fn again(&mut self) {
        (self.trial, self.rates, self.sum) = (self.state, self.first, [0.0; 8]);
    }

    /// Count a stage that was looked at, and go where the next one stands.
    pub(super) fn count(&mut self, weight: f64, reach: f64) {
        let states = self.state.iter().zip(&self.rates);
        for ((sum, trial), (state, rate)) in self.sum.iter_mut().zip(&mut self.trial).zip(states) {
            *sum += weight * rate;
            *trial = state + reach * rate;
        }
    }

    /// Stand in a state.
    pub(super) fn begin(&mut self, state: State) {
        (self.state, self.trial, self.sum) = (state, state, [0.0; 8]);
    }

    pub(super) fn finish(&mut self, step: f64) {
        for (state, sum) in self.state.iter_mut().zip(&self.sum) {
            *state += step / 6.0 * sum;
        }
        (self.trial, self.sum) = (self.state, [0.0; 8]);
    }
}

impl<'a> Road<'a> {
    fn of(profile: &'a Profile) -> Self {
        let levels = profile.elevations_m();
        Self {
            levels,
            begin: profile.station_m(0),
            per_metre: 1.0 / profile.spacing_m(),
            last: levels.len().saturating_sub(1) as f64,
        }
    }

    /// Level and slope, straight between the levels and level beyond them.
    #[inline]
    fn at(&self, station: f64) -> (f64, f64) {
        let at = (station - self.begin) * self.per_metre;
        if at >= 0.0 && at < self.last {
            let index = at as usize;
            if let Some([a, b]) = self.levels.get(index..index + 2) {
                return (a + (b - a) * (at - index as f64), (b - a) * self.per_metre);
            }
        }
        let end = if at < 0.0 { self.levels.first() } else { self.levels.last() };
        (end.copied().unwrap_or(0.0), 0.0)
    }
}
