//! What comes of an engine failure over the range of decision speeds.

use crate::error::Error;
use crate::run_model::RunModel;
use crate::situation::{Loaded, Situation};
use crate::take_off::{TakeOffPlan, prepare, screens};
use hardpan_model::FieldRule;
use hardpan_quantity::{Length, Quantity, Speed};

/// What comes of an engine failure at one decision speed; distances from brake
/// release.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtDecision {
    /// Decision speed, calibrated.
    pub speed: Speed,
    /// Carried on to the screen with one engine out; none when it is never reached.
    pub go: Option<Length>,
    /// To a stop, the longer of one engine out and all running.
    pub stop: Length,
}

/// The distances to go on and to stop from the lowest decision speed that
/// control on the ground allows to rotation, in so many equal steps of the
/// speed at the failure; empty under the all-engines rule.
///
/// # Errors
/// As [`take_off`](crate::take_off).
pub fn decision_sweep(
    model: &RunModel,
    situation: &Situation,
    plan: &TakeOffPlan,
    steps: u32,
) -> Result<Vec<AtDecision>, Error> {
    let screens = screens(model, plan)?;
    let loaded = Loaded::new(model, situation)?;
    let start = Error::check("line-up distance", plan.line_up, 0.0..=5000.0)?;
    let (speeds, departure, roll) = prepare(&loaded, start, screens)?;
    let (FieldRule::LargeTakeOff, Some(one_out), Some(control)) =
        (plan.rule, &departure.one_out, speeds.control_ground)
    else {
        return Ok(Vec::new());
    };
    let earliest = loaded.ground_speed(control.0);
    let latest = departure.latest_failure(&roll, one_out, earliest);
    let steps = steps.clamp(1, 500);
    let at = |index: u32| {
        let share = f64::from(index) / f64::from(steps);
        let failure = departure.failure(&roll, one_out, earliest + share * (latest - earliest))?;
        let airspeed = failure.decision.speed + loaded.headwind;
        Ok(AtDecision {
            speed: Speed::from_si(loaded.air.calibrated_si(airspeed)),
            go: failure.carried.map(|carried| Length::from_si(carried.screen_at() - start)),
            stop: Length::from_si(failure.stopped_at() - start),
        })
    };
    (0..=steps).map(at).collect()
}
