//! The climb of the final take-off segment: one engine out, gear up, in the flap
//! of the end of the take-off, on maximum continuous thrust.
//!
//! Flown at the least final take-off speed of the rule, out of ground effect; the
//! thrust is that at the level-off height, in air so cold that it errs low.

use crate::ClimbAtSpeed;
use crate::error::Error;
use crate::motion::airborne::Climb;
use crate::motion::net_path::pressure_share;
use crate::motion::polar::speed_for_lift;
use crate::regulation::{FINAL_OVER_STALL, final_climb_gradient};
use crate::run_model::RunModel;
use crate::situation::{Loaded, Situation};
use hardpan_model::{Aeroplane, FlapSetting, Need};
use hardpan_quantity::{Length, Quantity, Ratio, Speed, ratio};

/// One aeroplane ready for the final segment.
#[derive(Debug, Clone, PartialEq)]
pub struct FinalClimbModel {
    model: RunModel,
    continuous: f64,
    height: f64,
}

impl FinalClimbModel {
    /// Prepare the final segment in a flap setting, with maximum continuous thrust
    /// as a share of take-off thrust, from a level-off height.
    ///
    /// # Errors
    /// A [`Need`] for every figure that is missing or out of range, all at once.
    pub fn new(
        aeroplane: &Aeroplane,
        flap: &FlapSetting,
        continuous: Ratio,
        height: Length,
    ) -> Result<Self, Vec<Need>> {
        let model = RunModel::for_go_around(aeroplane, flap)?;
        Ok(Self { model, continuous: continuous.si(), height: height.si() })
    }

    /// The climb at a mass in the air of the day; none with one engine.
    ///
    /// # Errors
    /// [`Error`] when a figure is outside the model.
    pub fn climb(&self, situation: &Situation) -> Result<Option<ClimbAtSpeed>, Error> {
        let model = &self.model;
        let loaded = Loaded::new(model, situation)?;
        if model.engines < 2 {
            return Ok(None);
        }
        let density = loaded.air.density;
        let stall = speed_for_lift(loaded.mass, model.area, density, model.lift_maximum);
        let speed = FINAL_OVER_STALL * stall;
        let thrust = loaded.take_off_thrust(speed, speed)?;
        let left = f64::from(model.engines - 1) / f64::from(model.engines);
        let climb = Climb {
            weight: loaded.weight(),
            half_density_area: loaded.half_density_area(),
            zero_lift: model.polar.airborne(0.0, false) + model.engine_out_drag,
            induced: model.polar.induced,
            thrust: thrust.share(left * self.continuous * pressure_share(self.height)),
            engines: model.engines - 1,
        };
        Ok(Some(ClimbAtSpeed {
            true_airspeed: Speed::from_si(speed),
            gradient: ratio(climb.gradient(speed)),
            forces: climb.forces(speed),
            required: final_climb_gradient(model.engines),
        }))
    }
}
