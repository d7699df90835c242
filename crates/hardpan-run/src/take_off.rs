//! The take-off: distances, speeds, decision speed, climb, brake energy, traces.
//!
//! All engines to the screen, one engine failed at the decision speed and
//! carried on or stopped, on wheel brakes and what reverse thrust the model was
//! given. The dry rules are used on
//! every surface: 35 ft screen; with one engine out the screen may
//! be as low as 15 ft where the plan says that this is approved.

use crate::decision::{BrakeLimit, Chosen, Decision, decide};
use crate::engine::thrust::{FullThrust, Thrust};
use crate::error::Error;
use crate::held::{SideGrip, lowest, side_grip};
use crate::motion::airborne::{Climb, PullUp};
use crate::motion::brake_energy::energy_per_brake;
use crate::motion::climb::{ClimbFigures, climb_figures};
use crate::motion::departure::{AllEngineRoll, Carried, Departure, Running};
use crate::motion::integrate::{Pace, State};
use crate::motion::net_path::ClimbPath;
use crate::motion::roll::Roll;
use crate::motion::trace::{rejected_trace, take_off_trace};
use crate::regulation::{
    ALL_ENGINE_FACTOR, FIFTY_FEET_M, TAKE_OFF_SCREEN_M, WET_SCREEN_M, all_engines_rule_factor,
};
use crate::run_model::{Movement, RunModel};
use crate::situation::{Loaded, Situation};
use crate::speeds::{BoundedSpeed, TakeOffSpeedsSi};
use hardpan_model::{FieldRule, RunTrace};
use hardpan_quantity::{Energy, Length, Quantity, Speed};

/// How a take-off is to be judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TakeOffPlan {
    /// [`FieldRule::LargeTakeOff`] or [`FieldRule::AllEnginesTakeOff`].
    pub rule: FieldRule,
    /// Distance from the threshold to the point of brake release.
    pub line_up: Length,
    /// Distances declared from the threshold; the decision speed is fitted to
    /// them where it can be.
    pub available: Available,
    /// Screen with one engine out on a wet strip, where that is approved: V2 is
    /// reached there already, and the climb starts at 35 ft all the same.
    pub wet_screen: Option<Length>,
    /// Decision speed, calibrated, where it is not to be chosen.
    pub decision_speed: Option<Speed>,
    /// Energy that one brake may take in the stop, what it took before taken off.
    pub brake_allowance: Option<Energy>,
    /// Whether traces are wanted.
    pub traces: bool,
}

/// Declared distances from the threshold of the take-off.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Available {
    /// Take-off distance available.
    pub take_off_distance: Option<Length>,
    /// Accelerate-stop distance available.
    pub accelerate_stop: Option<Length>,
}

/// A computed take-off. Distances count from brake release.
#[derive(Debug, Clone, PartialEq)]
pub struct TakeOffRun {
    /// Speeds.
    pub speeds: TakeOffSpeeds,
    /// All engines running, without factor.
    pub all_engines: CarriedOn,
    /// Factor of the rule on the all-engine distance.
    pub factor: f64,
    /// Decision speed and what comes of a failure; none under the all-engines rule.
    pub decision: Option<Decision>,
    /// Take-off distance needed, factors included; none when the take-off
    /// cannot be carried on after an engine failure at any allowed speed.
    pub distance_needed: Option<Length>,
    /// Take-off run needed, to half way between lift-off and screen, factors
    /// included; none likewise.
    pub run_needed: Option<Length>,
    /// Accelerate-stop distance needed; none under the all-engines rule.
    pub accelerate_stop_needed: Option<Length>,
    /// Climb gradients.
    pub climb: ClimbFigures,
    /// Path after the screen with one engine out; none under the all-engines
    /// rule and where it cannot be carried on.
    pub climb_path: Option<ClimbPath>,
    /// Greatest energy of one brake in a rejected take-off: from the decision
    /// speed, or from rotation speed under the all-engines rule.
    pub brake_energy: Energy,
    /// Ground speed from which it counts.
    pub rejected_ground_speed: Speed,
    /// Greatest ground speed on the wheels.
    pub lift_off_ground_speed: Speed,
    /// Distance to a stop on all engines from rotation speed, for information
    /// under the all-engines rule.
    pub stop_from_rotation: Length,
    /// Take-off thrust by airspeed, without the schedule.
    pub full_thrust: FullThrust,
    /// Side grip of the main wheels from the decision speed on; none where it is
    /// not asked for, or the balance of the rudder not stated.
    pub side_grip: Option<SideGrip>,
    /// Whether a run went beyond the ground that is described.
    pub beyond_survey: bool,
    /// All-engine take-off by station.
    pub trace: Option<RunTrace>,
    /// Rejected take-off by station.
    pub rejected_trace: Option<RunTrace>,
}

/// Speeds of a take-off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TakeOffSpeeds {
    /// Reference stall speed, calibrated.
    pub stall: Speed,
    /// Rotation speed.
    pub rotation: BoundedSpeed,
    /// Lift-off speed.
    pub lift_off: BoundedSpeed,
    /// Take-off safety speed.
    pub safety: BoundedSpeed,
    /// Lowest speed of control on the ground with an engine out; none with one engine.
    pub control: Option<BoundedSpeed>,
}

/// A take-off carried on to the screen; distances from brake release.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CarriedOn {
    /// To rotation.
    pub rotation: Length,
    /// To lift-off.
    pub lift_off: Length,
    /// To the screen.
    pub screen: Length,
    /// To half way between lift-off and screen.
    pub half_way: Length,
    /// Ground speed at lift-off.
    pub lift_off_ground_speed: Speed,
}

impl CarriedOn {
    pub(crate) fn new(carried: &Carried, start: f64) -> Self {
        let from_start = |distance: f64| Length::from_si(distance - start);
        Self {
            rotation: from_start(carried.rotation.distance),
            lift_off: from_start(carried.lift_off.distance),
            screen: from_start(carried.screen_at()),
            half_way: from_start(carried.half_way_to_screen()),
            lift_off_ground_speed: Speed::from_si(carried.lift_off.speed),
        }
    }
}

impl TakeOffRun {
    /// The same with no distance shorter than that of another, as a wet strip
    /// may not need less than a dry one.
    ///
    /// Source: [CFR-25-113] (b)(1), (c)(1); [CFR-25-109] (b).
    #[must_use]
    pub fn no_shorter_than(self, other: &Self) -> Self {
        let longer = |one: Option<Length>, other: Option<Length>| Some(one?.max(other?));
        Self {
            distance_needed: longer(self.distance_needed, other.distance_needed),
            run_needed: longer(self.run_needed, other.run_needed),
            accelerate_stop_needed: longer(
                self.accelerate_stop_needed,
                other.accelerate_stop_needed,
            ),
            ..self
        }
    }
}

/// Compute a take-off.
///
/// # Errors
/// [`Error`] when a figure is outside the model or the aeroplane does not reach
/// its speeds, does not climb with all engines, or does not stop.
pub fn take_off(
    model: &RunModel,
    situation: &Situation,
    plan: &TakeOffPlan,
) -> Result<TakeOffRun, Error> {
    let screens = screens(model, plan)?;
    let loaded = Loaded::new(model, situation)?;
    let start = Error::check("line-up distance", plan.line_up, 0.0..=5000.0)?;
    let (speeds, departure, roll) = prepare(&loaded, start, screens)?;
    let nothing = &mut |_: &State, _: &Roll| ();
    let carried = departure.carry_on(&departure.all, roll.end(), Pace::Long, nothing)?;
    let chosen = match (plan.rule, &departure.one_out, speeds.control_ground) {
        (FieldRule::LargeTakeOff, Some(one_out), Some(control)) => {
            let stated = plan.decision_speed.map(|speed| loaded.air.true_si(speed.si()));
            let speeds = (loaded.ground_speed(control.0), stated.map(|at| loaded.ground_speed(at)));
            let brakes = plan.brake_allowance.map(|most| BrakeLimit::new(&loaded, most));
            Some(decide(&departure, &roll, one_out, (speeds, brakes), plan)?)
        }
        _ => None,
    };
    let from_rotation = departure.stop(&departure.all, roll.end(), Pace::Long, nothing)?;
    let computed = Computed { loaded, speeds, departure, roll, carried, chosen, from_rotation };
    Ok(computed.summary(plan))
}

/// Everything that a take-off came to, in SI.
struct Computed<'a> {
    loaded: Loaded<'a>,
    speeds: TakeOffSpeedsSi,
    departure: Departure<'a>,
    roll: AllEngineRoll,
    carried: Carried,
    chosen: Option<Chosen>,
    from_rotation: State,
}

impl Computed<'_> {
    fn summary(&self, plan: &TakeOffPlan) -> TakeOffRun {
        let start = self.departure.start;
        let factor = factor_of(plan.rule, self.loaded.model.engines);
        let failure = self.chosen.as_ref().map(|chosen| &chosen.failure);
        let one_out = failure.and_then(|failure| failure.carried);
        let (rejected_from, stops) = self.stops();
        let brake_energy = stops
            .iter()
            .map(|stop| energy_per_brake(&self.loaded, rejected_from, stop.brake_work))
            .fold(0.0, f64::max);
        let lift_offs = [Some(self.carried), one_out];
        let lift_offs = lift_offs.iter().flatten().map(|carried| carried.lift_off);
        let farthest =
            lift_offs.clone().chain(stops).map(|state| state.distance).fold(start, f64::max);
        let on_wheels = lift_offs.map(|state| state.speed).fold(0.0, f64::max);
        let from_start = |distance: f64| Length::from_si(distance - start);
        // On a wet strip the run ends at the screen. Source: [CFR-25-113] (c).
        let end_of_run = match plan.wet_screen {
            Some(_) => Carried::screen_at,
            None => Carried::half_way_to_screen,
        };
        TakeOffRun {
            speeds: self.shown_speeds(),
            all_engines: CarriedOn::new(&self.carried, start),
            factor,
            decision: self.chosen.as_ref().map(|chosen| Decision::new(chosen, &self.loaded, start)),
            distance_needed: self.needed(factor, Carried::screen_at, Carried::screen_at),
            run_needed: self.needed(factor, Carried::half_way_to_screen, end_of_run),
            accelerate_stop_needed: failure.map(|failure| from_start(failure.stopped_at())),
            climb: climb_figures(&self.loaded, &self.departure),
            climb_path: one_out
                .and_then(|carried| ClimbPath::new(&self.loaded, &self.departure, &carried)),
            brake_energy: Energy::from_si(brake_energy),
            rejected_ground_speed: Speed::from_si(rejected_from),
            lift_off_ground_speed: Speed::from_si(on_wheels),
            stop_from_rotation: from_start(self.from_rotation.distance),
            full_thrust: FullThrust(self.departure.all.roll.thrust),
            side_grip: plan.traces.then(|| self.side_grip()).flatten(),
            beyond_survey: !self.loaded.ground.covers(start, farthest),
            trace: plan.traces.then(|| take_off_trace(&self.loaded, &self.departure)),
            rejected_trace: plan
                .traces
                .then(|| rejected_trace(&self.loaded, &self.departure, &self.roll, failure)),
        }
    }

    fn side_grip(&self) -> Option<SideGrip> {
        let from = self.chosen.as_ref()?.failure.decision.speed;
        side_grip(&self.loaded, &self.speeds, from).ok().flatten()
    }

    /// Ground speed at which a rejected take-off starts to brake, and where it
    /// may end.
    fn stops(&self) -> (f64, Vec<State>) {
        match &self.chosen {
            Some(Chosen { failure, .. }) => {
                (failure.decision.speed, vec![failure.stop, failure.stop_all])
            }
            None => (self.roll.end().speed, vec![self.from_rotation]),
        }
    }

    /// The greater of the factored all-engine distance and that with an engine
    /// failed; none when it cannot be carried on.
    fn needed(
        &self,
        factor: f64,
        to: fn(&Carried) -> f64,
        one_out_to: fn(&Carried) -> f64,
    ) -> Option<Length> {
        let start = self.departure.start;
        let factored = factor * (to(&self.carried) - start);
        let needed = match &self.chosen {
            None => Some(factored),
            Some(chosen) => {
                chosen.failure.carried.map(|carried| factored.max(one_out_to(&carried) - start))
            }
        };
        needed.map(Length::from_si)
    }

    fn shown_speeds(&self) -> TakeOffSpeeds {
        let air = &self.loaded.air;
        TakeOffSpeeds {
            stall: Speed::from_si(air.calibrated_si(self.speeds.stall)),
            rotation: BoundedSpeed::new(air, self.speeds.rotation),
            lift_off: BoundedSpeed::new(air, self.speeds.lift_off),
            safety: BoundedSpeed::new(air, self.speeds.safety),
            control: self.speeds.control_ground.map(|control| BoundedSpeed::new(air, control)),
        }
    }
}

/// Heights at which a take-off distance ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Screens {
    all_engines: f64,
    one_out: f64,
}

/// The screens of a plan.
pub(crate) fn screens(model: &RunModel, plan: &TakeOffPlan) -> Result<Screens, Error> {
    let all_engines = check(model, plan.rule)?;
    let wet = |height| Error::check("screen on a wet strip", height, WET_SCREEN_M..=all_engines);
    let one_out = plan.wet_screen.map(wet).transpose()?;
    Ok(Screens { all_engines, one_out: one_out.unwrap_or(all_engines) })
}

fn check(model: &RunModel, rule: FieldRule) -> Result<f64, Error> {
    if model.movement != Movement::TakeOff {
        return Err(Error::ModelOfOtherMovement { movement: "take-off" });
    }
    match rule {
        FieldRule::LargeTakeOff if model.engines < 2 => Err(Error::RuleNeedsTwoEngines),
        FieldRule::LargeTakeOff => Ok(TAKE_OFF_SCREEN_M),
        FieldRule::AllEnginesTakeOff => Ok(FIFTY_FEET_M),
        _ => Err(Error::RuleOfOtherMovement { movement: "take-off" }),
    }
}

fn factor_of(rule: FieldRule, engines: u32) -> f64 {
    match rule {
        FieldRule::AllEnginesTakeOff => all_engines_rule_factor(engines),
        _ => ALL_ENGINE_FACTOR,
    }
}

/// Speeds and roll; rotation is raised once if the lowest decision speed lies
/// above it.
pub(crate) fn prepare<'a>(
    loaded: &Loaded<'a>,
    start: f64,
    screens: Screens,
) -> Result<(TakeOffSpeedsSi, Departure<'a>, AllEngineRoll), Error> {
    let mut speeds = TakeOffSpeedsSi::new(loaded.model, loaded.mass, &loaded.air, None);
    speeds.control_ground = lowest(loaded, &speeds)?;
    let departure = departure(loaded, &speeds, start, screens)?;
    let roll = departure.roll()?;
    let (Some((control, bound)), Some(one_out)) = (speeds.control_ground, &departure.one_out)
    else {
        return Ok((speeds, departure, roll));
    };
    let failure = roll.at_speed(&departure, loaded.ground_speed(control))?;
    let first = departure.decision(one_out, failure)?.speed + loaded.headwind;
    let first = first.max(control);
    if first <= speeds.rotation.0 {
        return Ok((speeds, departure, roll));
    }
    let raised = TakeOffSpeedsSi::new(loaded.model, loaded.mass, &loaded.air, Some(first));
    let speeds = TakeOffSpeedsSi { control_ground: Some((control, bound)), ..raised };
    let departure = self::departure(loaded, &speeds, start, screens)?;
    let roll = departure.roll()?;
    Ok((speeds, departure, roll))
}

fn departure<'a>(
    loaded: &Loaded<'a>,
    speeds: &TakeOffSpeedsSi,
    start: f64,
    screens: Screens,
) -> Result<Departure<'a>, Error> {
    let model = loaded.model;
    let (lift_off, safety) = (speeds.lift_off.0, speeds.safety.0);
    let thrust = loaded.take_off_thrust(lift_off, safety)?;
    let running = |engines: u32, added_drag: f64| {
        let share = f64::from(engines) / f64::from(model.engines);
        let screen = if engines < model.engines { screens.one_out } else { screens.all_engines };
        Running { screen, ..running(loaded, thrust.share(share), engines, added_drag, lift_off) }
    };
    Ok(Departure {
        ground: loaded.ground,
        start,
        headwind: loaded.headwind,
        rotation: speeds.rotation.0,
        lift_off,
        safety,
        rotation_time: model.rotation_time,
        screen: screens.all_engines,
        pull_up: PullUp::Arc,
        all: running(model.engines, 0.0),
        one_out: (model.engines > 1).then(|| running(model.engines - 1, model.engine_out_drag)),
    })
}

fn running<'a>(
    loaded: &Loaded<'a>,
    thrust: Thrust,
    engines: u32,
    added_drag: f64,
    lift_off: f64,
) -> Running<'a> {
    let half_density_area = loaded.half_density_area();
    let lifting = loaded.weight() / (half_density_area * lift_off * lift_off);
    let polar = &loaded.model.polar;
    Running {
        roll: loaded.rolling(thrust, loaded.model.lift_rolling, added_drag),
        rotated: loaded.rolling(thrust, lifting, added_drag),
        climb: Climb {
            weight: loaded.weight(),
            half_density_area,
            zero_lift: polar.airborne(0.0, true) + added_drag,
            induced: polar.induced,
            thrust,
            engines,
        },
        stop: loaded.stopping(engines, added_drag),
        reversing: loaded.reversing(engines),
        screen: TAKE_OFF_SCREEN_M,
    }
}
