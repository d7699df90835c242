//! How long the steps of a ride are.

use crate::ride::Pace;
use crate::ride::body::Body;

/// Longest step, s: four to the wheel hop of a heavy leg at 15 Hz.
const LONGEST: f64 = 16e-3;
/// Share of the fastest change of the moment that a step may span: inside the
/// 2.7 that the fourth-order step can follow.
const SPAN: f64 = 2.2;
/// Share of the fastest change of all that an even step, and the shortest one, spans.
const SPAN_ON_STOP: f64 = 0.75;
/// Distances between two levels that a step may span.
const LEVELS: f64 = 1.2;
/// Longest even step, and longest that closely spaced levels ask for, s.
const EVEN: f64 = 1e-3;

/// How long each step is.
pub(super) struct Pacer {
    even: Option<f64>,
    spacing: f64,
    pub(super) shortest: f64,
    pub(super) soon: f64,
}

impl Pacer {
    pub(super) fn of(body: &Body, pace: Pace, spacing: f64) -> Self {
        let fastest = body.nose.fastest(body.mass).max(body.main.fastest(body.mass)).max(1.0);
        let even = (SPAN_ON_STOP / fastest).min(EVEN);
        let springs = body.nose.is_spring() || body.main.is_spring();
        Self {
            even: (pace == Pace::Even || springs).then_some(even),
            spacing,
            shortest: even,
            soon: LONGEST,
        }
    }

    pub(super) fn step(&self, fastest: f64, speed: f64) -> f64 {
        if let Some(even) = self.even {
            return even;
        }
        let levels = (LEVELS * self.spacing / speed).max(EVEN);
        (SPAN / fastest).max(self.shortest).min(LONGEST).min(levels)
    }
}
