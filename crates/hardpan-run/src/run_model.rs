//! The aeroplane as the runs need it: every figure present and in range.

use crate::Air;
use crate::engine::schedule::ThrustSchedule;
use crate::engine::turbofan::{Fall, after_bleed, day_lapse};
use crate::grip::contaminant::{Wading, WadingLeg};
use crate::held::steering;
use crate::motion::brake_energy::force_of_torque;
use crate::motion::net_path::ClimbAway;
use crate::motion::polar::Polar;
use crate::motion::steering::Steering;
use crate::need::Needs;
use crate::reverse::ReverseThrust;
use hardpan_model::{Aeroplane, EngineKind, FlapSetting, Leg, Need};
use hardpan_quantity::{Length, Quantity, Ratio, ratio};

/// Which movement a [`RunModel`] was prepared for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Movement {
    TakeOff,
    Landing,
    GoAround,
}

/// One aeroplane with one flap setting, ready for take-offs or for landings.
#[derive(Debug, Clone, PartialEq)]
pub struct RunModel {
    pub(crate) movement: Movement,
    pub(crate) area: f64,
    pub(crate) lift_maximum: f64,
    pub(crate) lift_rolling: f64,
    pub(crate) lift_stopping: f64,
    pub(crate) polar: Polar,
    pub(crate) engine_out_drag: f64,
    pub(crate) engines: u32,
    pub(crate) drive: Drive,
    pub(crate) flat_rated_to: f64,
    pub(crate) idle_share: f64,
    pub(crate) bleed_loss: f64,
    pub(crate) balance: BalanceFigures,
    pub(crate) speeds: SpeedFigures,
    pub(crate) braked_wheels: f64,
    /// Greatest force of all brakes, N; infinite where it is not stated.
    pub(crate) brake_force: f64,
    /// Reverse thrust that is counted in a stop.
    pub(crate) reverse: Option<ReverseThrust>,
    pub(crate) rotation_time: f64,
    pub(crate) brake_delay: f64,
    pub(crate) schedule: ThrustSchedule,
    pub(crate) away: ClimbAway,
    /// What the crew sets of the thrust of the day.
    pub(crate) thrust_share: f64,
    /// Wheels in standing water; none where their tyres are not described.
    pub(crate) wading: Option<Wading>,
    /// What holds the aeroplane straight; none where that is not all stated.
    pub(crate) steering: Option<Steering>,
}

/// What turns fuel into thrust; one engine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Drive {
    Turbofan { static_thrust: f64, bypass: f64, fall: Fall },
    Turboprop { power: f64, diameter: f64, efficiency: f64 },
}

/// Gear geometry and mean chord.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct BalanceFigures {
    pub(crate) chord: f64,
    pub(crate) main_gear_at: f64,
    pub(crate) height: f64,
    pub(crate) wheelbase: f64,
    pub(crate) main_legs: f64,
    pub(crate) main_wheels: f64,
    pub(crate) nose_legs: f64,
}

/// Speed ratios and control speeds; those of the other movement stay unset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SpeedFigures {
    pub(crate) rotation: f64,
    pub(crate) lift_off: f64,
    pub(crate) safety: f64,
    pub(crate) reference: f64,
    pub(crate) touchdown: f64,
    /// None for one engine.
    pub(crate) control: Option<ControlSpeeds>,
    /// Minimum unstick speed over the stall speed, where it is stated.
    pub(crate) unstick: Option<f64>,
    /// Minimum control speed in the approach, calibrated, where it is stated.
    pub(crate) control_in_approach: Option<f64>,
}

/// Minimum control speeds, calibrated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ControlSpeeds {
    pub(crate) ground: f64,
    pub(crate) air: f64,
}

const POSITION: std::ops::RangeInclusive<f64> = -1.0..=2.0;

impl RunModel {
    /// Prepare take-offs with a flap setting.
    ///
    /// # Errors
    /// A [`Need`] for every figure that is missing or out of range, all at once.
    pub fn for_take_off(aeroplane: &Aeroplane, flap: &FlapSetting) -> Result<Self, Vec<Need>> {
        Self::prepare(aeroplane, flap, Movement::TakeOff)
    }

    /// Prepare landings with a flap setting.
    ///
    /// # Errors
    /// As [`Self::for_take_off`].
    pub fn for_landing(aeroplane: &Aeroplane, flap: &FlapSetting) -> Result<Self, Vec<Need>> {
        Self::prepare(aeroplane, flap, Movement::Landing)
    }

    /// Prepare the climb of a go-around with a flap setting.
    ///
    /// # Errors
    /// As [`Self::for_take_off`].
    pub(crate) fn for_go_around(
        aeroplane: &Aeroplane,
        flap: &FlapSetting,
    ) -> Result<Self, Vec<Need>> {
        Self::prepare(aeroplane, flap, Movement::GoAround)
    }

    /// The same, with thrust set by a schedule on the take-off roll, before and
    /// after an engine failure alike.
    #[must_use]
    pub fn with_schedule(self, schedule: ThrustSchedule) -> Self {
        Self { schedule, ..self }
    }

    /// The same, with reverse thrust counted in its stops.
    #[must_use]
    pub fn with_reverse(self, reverse: ReverseThrust) -> Self {
        Self { reverse: Some(reverse), ..self }
    }

    /// The same with wheel brakes alone.
    #[must_use]
    pub fn without_reverse(self) -> Self {
        Self { reverse: None, ..self }
    }

    /// The same with thrust set to a share of static thrust, or of shaft power,
    /// in air of standard pressure; never more than the engines give on the day.
    #[must_use]
    pub fn set_to(self, share: Ratio, air: &Air) -> Self {
        let full = self.full_share(air).si();
        let thrust_share = if full > 0.0 { (share.si() / full).min(1.0) } else { 0.0 };
        Self { thrust_share, ..self }
    }

    /// All that the engines give on the day, as a share of static thrust, or of
    /// shaft power, in air of standard pressure.
    #[must_use]
    pub fn full_share(&self, air: &Air) -> Ratio {
        let (delta, theta) = (air.pressure_ratio(), air.temperature_ratio());
        let rated = self.flat_rated_to / crate::air::atmosphere::SEA_LEVEL_TEMPERATURE_K;
        let fall = match self.drive {
            Drive::Turbofan { fall, .. } => fall,
            Drive::Turboprop { .. } => Fall::Steep,
        };
        ratio(after_bleed(day_lapse(delta, theta, rated, fall), self.bleed_loss) / delta)
    }

    /// What the crew sets of it.
    #[must_use]
    pub fn set_share(&self, air: &Air) -> Ratio {
        self.full_share(air) * self.thrust_share
    }

    /// The same, levelled off at a height over the surface after a take-off with
    /// one engine out; never below 400 ft, the least of the rule.
    #[must_use]
    pub fn with_level_off(self, height: Length) -> Self {
        Self { away: self.away.with_level_off(height), ..self }
    }

    /// How many engines the aeroplane has.
    #[must_use]
    pub fn engines(&self) -> u32 {
        self.engines
    }

    fn prepare(
        aeroplane: &Aeroplane,
        flap: &FlapSetting,
        movement: Movement,
    ) -> Result<Self, Vec<Need>> {
        let mut needs = Needs::default();
        let wing = &aeroplane.wing;
        let reason = "lift and drag follow from it";
        let area = needs.quantity("aeroplane: wing.area", wing.area.as_ref(), 1.0..=2000.0, reason);
        let span = needs.quantity("aeroplane: wing.span", wing.span.as_ref(), 2.0..=120.0, reason);
        let height =
            needs.quantity("aeroplane: wing.height", wing.height.as_ref(), 0.05..=30.0, reason);
        let gear = needs.coefficient(
            "aeroplane: wing.gear_drag",
            wing.gear_drag.as_ref(),
            0.0..=0.5,
            reason,
        );
        let engines = engine_count(&mut needs, aeroplane);
        let engine_out_drag = if engines > 1 && movement != Movement::Landing {
            let key = "aeroplane: wing.engine_out_drag";
            let why = "drag after an engine failure follows from it";
            needs.coefficient(key, wing.engine_out_drag.as_ref(), 0.0..=0.5, why)
        } else {
            0.0
        };
        let lift = flap_lift(&mut needs, flap);
        let drag = flap_drag(&mut needs, flap);
        let drive = drive(&mut needs, aeroplane, movement);
        let (idle_share, flat_rated_to, bleed_loss) = rating(&mut needs, aeroplane, movement);
        let balance = balance(&mut needs, aeroplane);
        let braked_wheels = braked_wheels(&mut needs, aeroplane, &balance);
        let brake_force = brake_force(&mut needs, aeroplane, braked_wheels);
        let speeds = speed_figures(&mut needs, aeroplane, movement, engines);
        let (rotation_time, brake_delay) = times(&mut needs, aeroplane, movement);
        let [zero_lift, spoilers, induced] = drag;
        let [lift_maximum, lift_rolling, lift_stopping] = lift;
        let polar = Polar::new([zero_lift, gear, spoilers, induced], area, span, height);
        needs.finish_with(drive, |drive| Self {
            movement,
            area,
            lift_maximum,
            lift_rolling,
            lift_stopping,
            polar,
            engine_out_drag,
            engines,
            drive,
            flat_rated_to,
            idle_share,
            bleed_loss,
            balance,
            speeds,
            braked_wheels,
            brake_force,
            reverse: None,
            rotation_time,
            brake_delay,
            schedule: ThrustSchedule::full(),
            thrust_share: 1.0,
            wading: wading(aeroplane),
            steering: steering(aeroplane),
            away: ClimbAway::of(aeroplane.speeds.gear_up_after.as_ref().map(|given| given.value)),
        })
    }
}

fn wading(aeroplane: &Aeroplane) -> Option<Wading> {
    let gear = &aeroplane.gear;
    let of_leg = |leg: &Leg| {
        let tyre = &leg.tyre;
        let (width, diameter) = (tyre.width.as_ref()?.value, tyre.diameter.as_ref()?.value);
        let shape = (width.si(), diameter.si(), tyre.loaded_radius.as_ref()?.value.si());
        WadingLeg::new((leg.legs.as_ref()?.value, leg.wheels.as_ref()?.value), shape)
    };
    Some(Wading([of_leg(&gear.main)?, of_leg(&gear.nose)?]))
}

fn engine_count(needs: &mut Needs, aeroplane: &Aeroplane) -> u32 {
    let count = aeroplane.engines.count.as_ref();
    let why = "thrust and engine-failure rules follow from it";
    let read = needs.count("aeroplane: engines.count", count, 1.0..=8.0, why);
    count.map_or(0, |given| if read.is_finite() { given.value } else { 0 })
}

fn flap_lift(needs: &mut Needs, flap: &FlapSetting) -> [f64; 3] {
    let name = &flap.name.value;
    let mut get = |key: &str, given, range, why| {
        needs.coefficient(&format!("aeroplane: flap \"{name}\": {key}"), given, range, why)
    };
    [
        get("lift_maximum", flap.lift_maximum.as_ref(), 0.3..=5.0, "stall speed follows from it"),
        get("lift_rolling", flap.lift_rolling.as_ref(), -0.5..=3.0, "wheel load follows from it"),
        get("lift_stopping", flap.lift_stopping.as_ref(), -1.0..=3.0, "braking follows from it"),
    ]
}

fn flap_drag(needs: &mut Needs, flap: &FlapSetting) -> [f64; 3] {
    let name = &flap.name.value;
    let mut get = |key: &str, given, range, why| {
        needs.coefficient(&format!("aeroplane: flap \"{name}\": {key}"), given, range, why)
    };
    [
        get("drag_zero_lift", flap.drag_zero_lift.as_ref(), 0.001..=0.5, "drag follows from it"),
        get("drag_spoilers", flap.drag_spoilers.as_ref(), 0.0..=0.5, "stopping follows from it"),
        get("induced_factor", flap.induced_factor.as_ref(), 0.005..=0.5, "drag follows from it"),
    ]
}

fn drive(needs: &mut Needs, aeroplane: &Aeroplane, movement: Movement) -> Option<Drive> {
    let engines = &aeroplane.engines;
    let why = match movement {
        Movement::TakeOff => "take-off thrust follows from it",
        Movement::Landing => "idle thrust follows from it",
        Movement::GoAround => "thrust to go around follows from it",
    };
    match needs.present("aeroplane: engines.kind", engines.kind.as_ref(), why)? {
        EngineKind::Turbofan => {
            let static_thrust = needs.quantity(
                "aeroplane: engines.static_thrust",
                engines.static_thrust.as_ref(),
                100.0..=1e6,
                why,
            );
            let bypass = needs.coefficient(
                "aeroplane: engines.bypass_ratio",
                engines.bypass_ratio.as_ref(),
                0.0..=15.0,
                "the fall of thrust with speed follows from it",
            );
            Some(Drive::Turbofan { static_thrust, bypass, fall: Fall::of_bypass(bypass) })
        }
        EngineKind::Turboprop => Some(Drive::Turboprop {
            power: needs.quantity(
                "aeroplane: engines.shaft_power",
                engines.shaft_power.as_ref(),
                1e4..=2e7,
                why,
            ),
            diameter: needs.quantity(
                "aeroplane: engines.propeller_diameter",
                engines.propeller_diameter.as_ref(),
                0.5..=10.0,
                why,
            ),
            efficiency: needs.quantity(
                "aeroplane: engines.propeller_efficiency",
                engines.propeller_efficiency.as_ref(),
                0.3..=0.95,
                why,
            ),
        }),
    }
}

fn rating(needs: &mut Needs, aeroplane: &Aeroplane, movement: Movement) -> (f64, f64, f64) {
    let engines = &aeroplane.engines;
    let idle = needs.quantity(
        "aeroplane: engines.idle_share",
        engines.idle_share.as_ref(),
        0.0..=0.3,
        "idle thrust pushes against the brakes",
    );
    if movement == Movement::Landing {
        return (idle, f64::NAN, 0.0);
    }
    let flat = needs.quantity(
        "aeroplane: engines.flat_rated_to",
        engines.flat_rated_to.as_ref(),
        253.15..=333.15,
        "thrust on a hot day follows from it",
    );
    let bleed = needs.quantity(
        "aeroplane: engines.bleed_loss",
        engines.bleed_loss.as_ref(),
        0.0..=0.5,
        "thrust lost to bleeds must be stated, as 0 % if none is taken",
    );
    (idle, flat, bleed)
}

fn balance(needs: &mut Needs, aeroplane: &Aeroplane) -> BalanceFigures {
    let (balance, gear) = (&aeroplane.balance, &aeroplane.gear);
    let why = "the loads on nose and main wheels follow from it";
    BalanceFigures {
        chord: needs.quantity(
            "aeroplane: balance.mean_chord",
            balance.mean_chord.as_ref(),
            0.3..=20.0,
            why,
        ),
        main_gear_at: needs.quantity(
            "aeroplane: balance.main_gear_at",
            balance.main_gear_at.as_ref(),
            POSITION,
            why,
        ),
        height: needs.quantity(
            "aeroplane: balance.centre_of_gravity_height",
            balance.centre_of_gravity_height.as_ref(),
            0.2..=15.0,
            "braking moves load to the nose in proportion to it",
        ),
        wheelbase: needs.quantity(
            "aeroplane: gear.wheelbase",
            gear.wheelbase.as_ref(),
            1.0..=50.0,
            why,
        ),
        main_legs: needs.count(
            "aeroplane: gear.main.legs",
            gear.main.legs.as_ref(),
            1.0..=6.0,
            why,
        ),
        main_wheels: needs.count(
            "aeroplane: gear.main.wheels",
            gear.main.wheels.as_ref(),
            1.0..=12.0,
            why,
        ),
        nose_legs: needs.count(
            "aeroplane: gear.nose.legs",
            gear.nose.legs.as_ref(),
            1.0..=2.0,
            why,
        ),
    }
}

fn braked_wheels(needs: &mut Needs, aeroplane: &Aeroplane, balance: &BalanceFigures) -> f64 {
    let why = "braking force and energy of each brake follow from it";
    let key = "aeroplane: brakes.wheels";
    let braked = needs.count(key, aeroplane.brakes.wheels.as_ref(), 1.0..=72.0, why);
    let wheels = balance.main_legs * balance.main_wheels;
    if braked > wheels {
        needs.add(key, format!("{braked} braked wheels on {wheels} main wheels"));
    }
    braked
}

fn brake_force(needs: &mut Needs, aeroplane: &Aeroplane, braked: f64) -> f64 {
    let (why, brakes) = ("the brakes give no more than this", &aeroplane.brakes);
    let mut most = f64::INFINITY;
    if let Some(stated) = &brakes.force_limit {
        let key = "aeroplane: brakes.force_limit";
        most = needs.quantity(key, Some(stated), 100.0..=1e6, why);
    }
    if let Some(stated) = &brakes.torque_limit {
        let key = "aeroplane: brakes.torque_limit";
        let torque = needs.quantity(key, Some(stated), 10.0..=1e6, why);
        let key = "aeroplane: gear.main.tyre.loaded_radius";
        let radius = aeroplane.gear.main.tyre.loaded_radius.as_ref();
        let how = "the force of the brakes at the ground follows from their torque and it";
        let radius = needs.quantity(key, radius, 0.05..=1.5, how);
        most = most.min(force_of_torque(torque, radius));
    }
    braked * most
}

fn speed_figures(
    needs: &mut Needs,
    aeroplane: &Aeroplane,
    movement: Movement,
    engines: u32,
) -> SpeedFigures {
    let speeds = &aeroplane.speeds;
    let mut ratio = |wanted: &[Movement], key: &str, given, range| {
        if !wanted.contains(&movement) {
            return f64::NAN;
        }
        needs.quantity(&format!("aeroplane: speeds.{key}"), given, range, "speeds follow from it")
    };
    let figures = SpeedFigures {
        rotation: ratio(&[Movement::TakeOff], "rotation", speeds.rotation.as_ref(), 0.8..=2.0),
        lift_off: ratio(&[Movement::TakeOff], "lift_off", speeds.lift_off.as_ref(), 0.8..=2.0),
        safety: ratio(&[Movement::TakeOff], "safety", speeds.safety.as_ref(), 0.8..=2.0),
        reference: ratio(
            &[Movement::Landing, Movement::GoAround],
            "reference",
            speeds.reference.as_ref(),
            0.8..=2.0,
        ),
        touchdown: ratio(&[Movement::Landing], "touchdown", speeds.touchdown.as_ref(), 0.7..=1.0),
        control: None,
        unstick: None,
        control_in_approach: None,
    };
    let figures = optional_bounds(needs, aeroplane, movement, figures);
    if engines < 2 || movement != Movement::TakeOff {
        return figures;
    }
    let why = "with an engine out the rudder must hold the aeroplane";
    let control = ControlSpeeds {
        ground: needs.quantity(
            "aeroplane: speeds.minimum_control_ground",
            speeds.minimum_control_ground.as_ref(),
            5.0..=120.0,
            why,
        ),
        air: needs.quantity(
            "aeroplane: speeds.minimum_control_air",
            speeds.minimum_control_air.as_ref(),
            5.0..=120.0,
            why,
        ),
    };
    SpeedFigures { control: Some(control), ..figures }
}

/// Bounds that count where the file states them.
fn optional_bounds(
    needs: &mut Needs,
    aeroplane: &Aeroplane,
    movement: Movement,
    figures: SpeedFigures,
) -> SpeedFigures {
    let speeds = &aeroplane.speeds;
    let why = "speeds follow from it";
    match movement {
        Movement::TakeOff => {
            let given = speeds.minimum_unstick.as_ref();
            let key = "aeroplane: speeds.minimum_unstick";
            let unstick = given.map(|given| needs.quantity(key, Some(given), 0.7..=1.5, why));
            SpeedFigures { unstick, ..figures }
        }
        Movement::Landing | Movement::GoAround => {
            let given = speeds.minimum_control_approach.as_ref();
            let key = "aeroplane: speeds.minimum_control_approach";
            let control = given.map(|given| needs.quantity(key, Some(given), 5.0..=120.0, why));
            SpeedFigures { control_in_approach: control, ..figures }
        }
    }
}

fn times(needs: &mut Needs, aeroplane: &Aeroplane, movement: Movement) -> (f64, f64) {
    let speeds = &aeroplane.speeds;
    match movement {
        Movement::GoAround => (0.0, 0.0),
        Movement::TakeOff => {
            let key = "aeroplane: speeds.rotation_time";
            let given = speeds.rotation_time.as_ref();
            (needs.quantity(key, given, 0.0..=15.0, "distance while rotating follows from it"), 0.0)
        }
        Movement::Landing => {
            let key = "aeroplane: speeds.brake_delay";
            let given = speeds.brake_delay.as_ref();
            (0.0, needs.quantity(key, given, 0.0..=15.0, "distance before braking follows from it"))
        }
    }
}
