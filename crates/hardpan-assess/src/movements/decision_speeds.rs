//! Distances to go on and to stop over the range of decision speeds, for pictures.

use crate::measured::Measured;
use hardpan_model::Flight;
use hardpan_quantity::{Length, Speed};
use hardpan_run::{AtDecision, DecisionRange};

/// Steps of the curves.
const STEPS: u32 = 32;

/// What an engine failure comes to by decision speed; distances from brake release.
#[derive(Debug, Clone, PartialEq)]
pub struct DecisionPicture {
    /// By rising speed.
    pub points: Vec<AtDecision>,
    /// The decision speed that the take-off is judged with.
    pub chosen: Speed,
    /// Rotation speed.
    pub rotation: Speed,
    /// Speeds at which both fit what is declared; none when none does or
    /// nothing is declared.
    pub allowed: Option<(Speed, Speed)>,
    /// Take-off distance available.
    pub take_off_distance: Option<Length>,
    /// Accelerate-stop distance available.
    pub accelerate_stop: Option<Length>,
    /// All-engine distance with the factor of the rule.
    pub all_engines: Length,
}

/// The picture of a flight; none where no take-off accounts for an engine failure.
pub(crate) fn decision_picture(flight: &Flight, measured: &Measured) -> Option<DecisionPicture> {
    let case = measured.take_off_case.as_ref()?.as_ref().ok()?;
    let run = measured.take_off.as_ref()?.as_ref().ok()?;
    let decision = run.decision.as_ref()?;
    let mass = flight.take_off.as_ref()?.mass.as_ref()?.value;
    let points = case.sweep(mass, STEPS).ok().filter(|points| !points.is_empty())?;
    let [take_off_distance, accelerate_stop] = case.available();
    Some(DecisionPicture {
        points,
        chosen: decision.speed,
        rotation: run.speeds.rotation.calibrated,
        allowed: match decision.range {
            DecisionRange::Between(low, high) => Some((low, high)),
            _ => None,
        },
        take_off_distance,
        accelerate_stop,
        all_engines: run.all_engines.screen * run.factor,
    })
}
