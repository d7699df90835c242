//! One aeroplane at one mass in the air, wind and on the ground of the day.

use crate::engine::propeller::{Propeller, static_counted};
use crate::engine::schedule::ThrustSchedule;
use crate::engine::thrust::Thrust;
use crate::engine::turbofan::{FASTEST_MACH, Fall, after_bleed, day_lapse, speed_terms};
use crate::error::Error;
use crate::motion::ground::Ground;
use crate::motion::roll::{Brakes, ROLLING_CREDIT_IN_A_STOP, Roll, Wheels};
use crate::reverse::Reversing;
use crate::run_model::{Drive, RunModel};
use crate::{Air, WindComponents};
use hardpan_quantity::{Mass, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};

/// What a run is computed for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Situation<'a> {
    /// Mass of the aeroplane.
    pub mass: Mass,
    /// Centre of gravity on the mean chord.
    pub centre_of_gravity: Ratio,
    /// Air at the strip.
    pub air: Air,
    /// Wind; its credited headwind is what the run meets.
    pub wind: WindComponents,
    /// Ground ahead.
    pub ground: &'a Ground,
}

/// A situation in SI, checked.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Loaded<'a> {
    pub(crate) model: &'a RunModel,
    pub(crate) ground: &'a Ground,
    pub(crate) air: Air,
    pub(crate) mass: f64,
    pub(crate) headwind: f64,
    /// Greatest wind from either side.
    pub(crate) crosswind: f64,
    pub(crate) wheels: Wheels,
}

impl<'a> Loaded<'a> {
    pub(crate) fn new(model: &'a RunModel, situation: &Situation<'a>) -> Result<Self, Error> {
        if situation.ground.has_water() && model.wading.is_none() {
            return Err(Error::TyresInWater);
        }
        let mass = Error::check("mass of the aeroplane", situation.mass, 100.0..=1e6)?;
        let headwind = situation.wind.credited.si();
        let headwind = Error::check(
            "wind along the strip",
            hardpan_quantity::Speed::from_si(headwind),
            -155.0..=103.0,
        )?;
        let crosswind = Error::check("wind from the side", situation.wind.crosswind, 0.0..=103.0)?;
        let balance = &model.balance;
        let at = Error::check("centre of gravity", situation.centre_of_gravity, -1.0..=2.0)?;
        let ahead = (balance.main_gear_at - at) * balance.chord / balance.wheelbase;
        Error::check("share of the weight on the nose gear", Ratio::from_si(ahead), 0.0..=0.6)?;
        let wheels = Wheels {
            nose_share: ahead,
            height: balance.height / balance.wheelbase,
            braked_share: model.braked_wheels / (balance.main_legs * balance.main_wheels),
        };
        Ok(Self {
            model,
            ground: situation.ground,
            air: situation.air,
            mass,
            headwind,
            crosswind,
            wheels,
        })
    }

    pub(crate) fn weight(&self) -> f64 {
        self.mass * GRAVITY
    }

    pub(crate) fn half_density_area(&self) -> f64 {
        0.5 * self.air.density * self.model.area
    }

    /// Ground speed of a true airspeed.
    pub(crate) fn ground_speed(&self, airspeed: f64) -> f64 {
        (airspeed - self.headwind).max(0.0)
    }

    /// Take-off thrust of all engines, for a lift-off airspeed.
    pub(crate) fn take_off_thrust(&self, lift_off: f64, safety: f64) -> Result<Thrust, Error> {
        let (delta, theta) = (self.air.pressure_ratio(), self.air.temperature_ratio());
        let rated = self.model.flat_rated_to / crate::air::atmosphere::SEA_LEVEL_TEMPERATURE_K;
        let engines = f64::from(self.model.engines);
        match self.model.drive {
            Drive::Turbofan { static_thrust, bypass, fall } => {
                let mach = Ratio::from_si(safety / self.air.sound);
                Error::check("Mach number at the safety speed", mach, 0.0..=FASTEST_MACH)?;
                let day = day_lapse(delta, theta, rated, fall);
                let set = self.model.thrust_share * static_thrust * day;
                let force = engines * after_bleed(set, self.model.bleed_loss);
                let (linear, square) = speed_terms(bypass);
                let sound = self.air.sound;
                Ok(Thrust::Polynomial([
                    force,
                    force * linear / sound,
                    force * square / (sound * sound),
                ]))
            }
            Drive::Turboprop { power, diameter, efficiency } => {
                let day = day_lapse(delta, theta, rated, Fall::Steep);
                let set = self.model.thrust_share * power * day;
                let power = after_bleed(set, self.model.bleed_loss);
                let density = self.air.density;
                Ok(Thrust::Propeller(Propeller::new(
                    engines, power, diameter, density, efficiency, lift_off,
                )))
            }
        }
    }

    /// Idle thrust of so many engines: the share of static thrust at sea level
    /// on a standard day, at all speeds, which errs towards a longer stop.
    pub(crate) fn idle_thrust(&self, engines: u32) -> Thrust {
        let one = match self.model.drive {
            Drive::Turbofan { static_thrust, .. } => static_thrust,
            Drive::Turboprop { power, diameter, .. } => {
                static_counted(power, diameter, crate::air::atmosphere::SEA_LEVEL_DENSITY)
            }
        };
        Thrust::constant(self.model.idle_share * one * f64::from(engines))
    }

    /// Rolling with brakes off and spoilers in.
    pub(crate) fn rolling(&self, thrust: Thrust, lift: f64, added_drag: f64) -> Roll {
        Roll {
            mass: self.mass,
            half_density_area: self.half_density_area(),
            lift,
            drag: self.model.polar.rolling(lift) + added_drag,
            thrust,
            schedule: self.model.schedule,
            headwind: self.headwind,
            wheels: self.wheels,
            brakes: Brakes::Off,
            rolling_limit: f64::INFINITY,
            brake_target: f64::INFINITY,
            brake_force: f64::INFINITY,
            wading: self.model.wading,
        }
    }

    /// Rolling at idle with brakes off, on the way to a stop.
    pub(crate) fn coasting(&self, engines: u32, lift: f64) -> Roll {
        Roll {
            schedule: ThrustSchedule::full(),
            rolling_limit: ROLLING_CREDIT_IN_A_STOP,
            wading: None,
            ..self.rolling(self.idle_thrust(engines), lift, 0.0)
        }
    }

    /// Reverse thrust in a stop with so many engines, where it is counted.
    pub(crate) fn reversing(&self, engines: u32) -> Option<Reversing<'a>> {
        self.model.reverse.as_ref()?.with(engines, self.model.engines)
    }

    /// Stopping with brakes on and ground spoilers out, engines at idle.
    pub(crate) fn stopping(&self, engines: u32, added_drag: f64) -> Roll {
        let lift = self.model.lift_stopping;
        Roll {
            lift,
            drag: self.model.polar.stopping(lift) + added_drag,
            brakes: Brakes::Ground,
            brake_force: self.model.brake_force,
            ..self.coasting(engines, lift)
        }
    }
}
