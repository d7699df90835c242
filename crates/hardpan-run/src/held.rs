//! Control on the ground: the lowest speed at which the rudder holds an engine
//! failure on the day, and the wind from the side that is held.

use crate::error::Error;
use crate::motion::roll::Wheels;
use crate::motion::steering::{Steering, WheelGrip};
use crate::run_model::{Movement, RunModel};
use crate::situation::{Loaded, Situation};
use crate::speeds::{Bounded, SpeedBound, TakeOffSpeedsSi, landing_speeds};
use hardpan_math::root_between;
use hardpan_model::{Aeroplane, GroundControl, Need};
use hardpan_quantity::{Quantity, Ratio, Speed};

/// Range of airspeeds over which the balance is looked for, m/s.
const SLOWEST: f64 = 1.0;
const FASTEST: f64 = 150.0;
const TOLERANCE: f64 = 1e-6;
/// Steps of ground speed between standstill and the fastest on the wheels.
const STEPS: u32 = 40;

/// The greatest wind from the side that is held all along a roll with all
/// engines running and brakes off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrosswindHeld {
    /// The wind.
    pub limit: Speed,
    /// Ground speed at which it is least.
    pub ground_speed: Speed,
    /// Whether the main wheels slide there before rudder and nose wheel are used up.
    pub by_grip: bool,
    /// Coefficient across the wheels.
    pub coefficient: Ratio,
}

/// The side grip of the main wheels after an engine failure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideGrip {
    /// Share of it that is used.
    pub used: Ratio,
    /// Coefficient across the wheels.
    pub coefficient: Ratio,
}

/// What is missing of the balance of rudder, engine and wind; none when nothing is.
#[must_use]
pub fn steering_needs(aeroplane: &Aeroplane) -> Vec<Need> {
    let (control, gear) = (&aeroplane.control, &aeroplane.gear);
    let stated = [
        ("control.rudder_force_area", control.rudder_force_area.is_some()),
        ("control.rudder_arm", control.rudder_arm.is_some()),
        ("control.engine_arm", control.engine_arm.is_some()),
        ("control.side_force_behind", control.side_force_behind.is_some()),
        ("gear.side_force_area", gear.side_force_area.is_some()),
        ("gear.wheelbase", gear.wheelbase.is_some()),
    ];
    let missing = stated.into_iter().filter(|(_, stated)| !stated);
    let need = |(key, _): (&str, bool)| Need {
        what: format!("aeroplane: {key}"),
        how: "from the maker: rudder, engine and wind are balanced with it".to_owned(),
    };
    missing.map(need).collect()
}

pub(crate) fn steering(aeroplane: &Aeroplane) -> Option<Steering> {
    let GroundControl {
        rudder_force_area,
        rudder_arm,
        engine_arm,
        side_force_behind,
        nose_side_factor,
    } = &aeroplane.control;
    let gear = &aeroplane.gear;
    Some(Steering {
        rudder_area: rudder_force_area.as_ref()?.value.si(),
        rudder_arm: rudder_arm.as_ref()?.value.si(),
        engine_arm: engine_arm.as_ref()?.value.si(),
        side_area: gear.side_force_area.as_ref()?.value.si(),
        side_behind: side_force_behind.as_ref()?.value.si(),
        nose_factor: nose_side_factor.as_ref().map(|given| given.value),
        wheelbase: gear.wheelbase.as_ref()?.value.si(),
    })
}

/// Full thrust of one engine by true airspeed, and the drag of one that failed
/// over the dynamic pressure.
struct Failed<'a> {
    loaded: &'a Loaded<'a>,
    thrust: crate::engine::thrust::Thrust,
    drag_area: f64,
}

impl<'a> Failed<'a> {
    /// The crew may put the levers forward, so a lower setting is not counted.
    fn new(loaded: &'a Loaded<'a>, speeds: &TakeOffSpeedsSi) -> Result<Self, Error> {
        let model = loaded.model;
        let thrust = loaded.take_off_thrust(speeds.lift_off.0, speeds.safety.0)?;
        let set = model.thrust_share.max(f64::MIN_POSITIVE);
        let one = thrust.share(1.0 / (f64::from(model.engines) * set));
        Ok(Self { loaded, thrust: one, drag_area: model.engine_out_drag * model.area })
    }

    fn at(&self, airspeed: f64) -> (f64, f64) {
        (self.thrust.at(airspeed), self.drag_area)
    }

    fn spare(&self, steering: &Steering, airspeed: f64) -> f64 {
        let loaded = self.loaded;
        steering.spare(loaded.air.density, airspeed, loaded.crosswind, self.at(airspeed))
    }
}

/// The lowest true airspeed of control on the ground: as published, or where the
/// rudder alone holds full thrust and the wind of the day, if that is faster.
pub(crate) fn lowest(loaded: &Loaded, speeds: &TakeOffSpeedsSi) -> Result<Option<Bounded>, Error> {
    let (Some(published), Some(steering)) = (speeds.control_ground, &loaded.model.steering) else {
        return Ok(speeds.control_ground);
    };
    let failed = Failed::new(loaded, speeds)?;
    let spare = |airspeed: f64| failed.spare(steering, airspeed);
    let (slow, fast) = (spare(SLOWEST), spare(FASTEST));
    if slow >= 0.0 {
        return Ok(Some(published));
    }
    let held = root_between(spare, (SLOWEST, slow), (FASTEST, fast), TOLERANCE)
        .map_err(|_| Error::NotHeldByRudder)?;
    let balance = (held, SpeedBound::RudderBalance);
    Ok(Some(if held > published.0 { balance } else { published }))
}

fn grip(loaded: &Loaded, airspeed: f64) -> WheelGrip {
    let lifted = loaded.model.lift_rolling * loaded.half_density_area() * airspeed * airspeed;
    let load = (loaded.weight() - lifted).max(0.0);
    let Wheels { nose_share, .. } = loaded.wheels;
    let nose_load = (nose_share * load).clamp(0.0, load);
    let coefficient = loaded.ground.least_braking();
    WheelGrip { nose_load, main_load: load - nose_load, coefficient }
}

/// Side grip of the main wheels that is used at a ground speed after an engine
/// failure, the wind from the side that asks for more of it.
pub(crate) fn side_grip(
    loaded: &Loaded,
    speeds: &TakeOffSpeedsSi,
    ground_speed: f64,
) -> Result<Option<SideGrip>, Error> {
    let Some(steering) = &loaded.model.steering else { return Ok(None) };
    let airspeed = (ground_speed + loaded.headwind).max(0.0);
    let failed = Failed::new(loaded, speeds)?.at(airspeed);
    let across = steering.across(loaded.air.density, airspeed, loaded.crosswind, failed);
    let grip = grip(loaded, airspeed);
    let held = grip.coefficient * grip.main_load;
    Ok((held > 0.0).then(|| SideGrip {
        used: Ratio::from_si(across / held),
        coefficient: Ratio::from_si(grip.coefficient),
    }))
}

/// The greatest wind from the side that rudder, nose wheel and the grip of the
/// main wheels hold from standstill to rotation, or from touchdown to standstill;
/// none where the aeroplane does not state all that it takes.
///
/// # Errors
/// [`Error`] when a figure is outside the model.
pub fn crosswind_held(
    model: &RunModel,
    situation: &Situation,
) -> Result<Option<CrosswindHeld>, Error> {
    let loaded = Loaded::new(model, situation)?;
    let Some(steering) = &model.steering else { return Ok(None) };
    if steering.nose_factor.is_none() {
        return Ok(None);
    }
    let fastest = match model.movement {
        Movement::TakeOff => TakeOffSpeedsSi::new(model, loaded.mass, &loaded.air, None).rotation.0,
        Movement::Landing | Movement::GoAround => {
            let (_, (reference, _)) = landing_speeds(model, loaded.mass, &loaded.air);
            model.speeds.touchdown * reference
        }
    };
    let fastest = loaded.ground_speed(fastest);
    let at = |step: u32| {
        let ground_speed = fastest * f64::from(step) / f64::from(STEPS);
        let airspeed = (ground_speed + loaded.headwind).max(0.0);
        let grip = grip(&loaded, airspeed);
        let held = steering.held(loaded.air.density, airspeed, &grip);
        CrosswindHeld {
            limit: Speed::from_si(held.speed),
            ground_speed: Speed::from_si(ground_speed),
            by_grip: held.by_grip,
            coefficient: Ratio::from_si(grip.coefficient),
        }
    };
    let least = (0..=STEPS).map(at).min_by(|a, b| a.limit.si().total_cmp(&b.limit.si()));
    Ok(least.filter(|held| held.limit.si().is_finite()))
}
