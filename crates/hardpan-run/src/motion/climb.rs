//! Climb gradients after take-off, out of ground effect.

use crate::motion::airborne::{Climb, ClimbForces};
use crate::motion::departure::Departure;
use crate::regulation::engine_out_gradients;
use crate::situation::Loaded;
use hardpan_quantity::{Ratio, ratio};

/// Gross climb gradients.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClimbFigures {
    /// All engines, gear down, at the take-off safety speed.
    pub all_engines: Ratio,
    /// One engine out; none for one engine.
    pub engine_out: Option<EngineOutClimb>,
}

/// Gross climb gradients with one engine out, and what the rule asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EngineOutClimb {
    /// Gear down at lift-off speed.
    pub gear_down: Ratio,
    /// Least gradient with the gear down; with two engines it must be positive.
    pub gear_down_required: Ratio,
    /// What it comes from with the gear down.
    pub gear_down_forces: ClimbForces,
    /// Gear up at the take-off safety speed.
    pub gear_up: Ratio,
    /// Least gradient with the gear up.
    pub gear_up_required: Ratio,
    /// What it comes from with the gear up.
    pub gear_up_forces: ClimbForces,
}

pub(crate) fn climb_figures(loaded: &Loaded, departure: &Departure) -> ClimbFigures {
    let engine_out = departure.one_out.map(|one_out| {
        let gear_up =
            Climb { zero_lift: one_out.climb.zero_lift - loaded.model.polar.gear, ..one_out.climb };
        let (gear_down_required, gear_up_required) = engine_out_gradients(loaded.model.engines);
        EngineOutClimb {
            gear_down: ratio(one_out.climb.gradient(departure.lift_off)),
            gear_down_required,
            gear_down_forces: one_out.climb.forces(departure.lift_off),
            gear_up: ratio(gear_up.gradient(departure.safety)),
            gear_up_required,
            gear_up_forces: gear_up.forces(departure.safety),
        }
    });
    let all_engines = ratio(departure.all.climb.gradient(departure.safety));
    ClimbFigures { all_engines, engine_out }
}
