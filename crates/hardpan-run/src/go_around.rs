//! The climb of a go-around: with one engine out in the flap of the go-around,
//! gear up, and on all engines in landing flap, gear down.
//!
//! Both are flown at the reference speed of their flap, out of ground effect,
//! on the thrust that the take-off model has at full setting.

use crate::error::Error;
use crate::motion::airborne::{Climb, ClimbForces};
use crate::regulation::{approach_climb_gradient, landing_climb_gradient};
use crate::run_model::RunModel;
use crate::situation::{Loaded, Situation};
use crate::speeds::landing_speeds;
use hardpan_model::{Aeroplane, FlapSetting, Need};
use hardpan_quantity::{Quantity, Ratio, Speed, ratio};

/// One aeroplane ready to go around from an approach.
#[derive(Debug, Clone, PartialEq)]
pub struct GoAroundModel {
    going_around: RunModel,
    landing: RunModel,
}

/// Gross climb gradients of a go-around, and what the rule asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GoAround {
    /// With one engine out in the flap of the go-around, gear up; none for one
    /// engine.
    pub engine_out: Option<ClimbAtSpeed>,
    /// On all engines in landing flap, gear down.
    pub all_engines: ClimbAtSpeed,
}

/// A gross climb gradient at a speed, and the least that the rule asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClimbAtSpeed {
    /// Reference speed of the flap, true airspeed.
    pub true_airspeed: Speed,
    /// Gradient.
    pub gradient: Ratio,
    /// Least gradient of the rule.
    pub required: Ratio,
    /// What the gradient comes from.
    pub forces: ClimbForces,
}

impl GoAroundModel {
    /// Prepare a go-around from landing flap to the flap of the go-around.
    ///
    /// # Errors
    /// A [`Need`] for every figure that is missing or out of range, all at once.
    pub fn new(
        aeroplane: &Aeroplane,
        flap: &FlapSetting,
        landing_flap: &FlapSetting,
    ) -> Result<Self, Vec<Need>> {
        let prepared = [flap, landing_flap].map(|flap| RunModel::for_go_around(aeroplane, flap));
        match prepared {
            [Ok(going_around), Ok(landing)] => Ok(Self { going_around, landing }),
            refused => {
                let mut needs = Vec::new();
                for need in refused.into_iter().filter_map(Result::err).flatten() {
                    if !needs.contains(&need) {
                        needs.push(need);
                    }
                }
                Err(needs)
            }
        }
    }

    /// The climb at a mass in the air of the day.
    ///
    /// # Errors
    /// [`Error`] when a figure is outside the model.
    pub fn climb(&self, situation: &Situation) -> Result<GoAround, Error> {
        let engines = self.landing.engines;
        let engine_out = match engines {
            0 | 1 => None,
            _ => {
                let loaded = Loaded::new(&self.going_around, situation)?;
                let required = approach_climb_gradient(engines);
                Some(climb(&loaded, engines - 1, false, required)?)
            }
        };
        let loaded = Loaded::new(&self.landing, situation)?;
        let all_engines = climb(&loaded, engines, true, landing_climb_gradient())?;
        Ok(GoAround { engine_out, all_engines })
    }
}

impl GoAround {
    /// Whether both climb as the rule asks.
    #[must_use]
    pub fn climbs(&self) -> bool {
        let both = self.engine_out.iter().chain([&self.all_engines]);
        both.into_iter().all(|climb| climb.gradient >= climb.required)
    }
}

fn climb(
    loaded: &Loaded,
    engines: u32,
    gear_down: bool,
    required: Ratio,
) -> Result<ClimbAtSpeed, Error> {
    let model = loaded.model;
    let (_, (speed, _)) = landing_speeds(model, loaded.mass, &loaded.air);
    let thrust = loaded.take_off_thrust(speed, speed)?;
    let share = f64::from(engines) / f64::from(model.engines);
    let added = if engines < model.engines { model.engine_out_drag } else { 0.0 };
    let climb = Climb {
        weight: loaded.weight(),
        half_density_area: loaded.half_density_area(),
        zero_lift: model.polar.airborne(0.0, gear_down) + added,
        induced: model.polar.induced,
        thrust: thrust.share(share),
        engines,
    };
    Ok(ClimbAtSpeed {
        true_airspeed: Speed::from_si(speed),
        gradient: ratio(climb.gradient(speed)),
        forces: climb.forces(speed),
        required,
    })
}
