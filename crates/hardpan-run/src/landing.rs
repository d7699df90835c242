//! The landing: from 50 ft over the threshold to standstill on wheel brakes.
//!
//! Air distance: seven seconds at the mean of threshold and touchdown speed
//! over the ground, or the path of a 3° approach with a flare at 1.2 g over
//! the falling ground, whichever is longer. Then rolling until the brakes act,
//! then braking, fully or at what automatic brakes hold. Reverse thrust only
//! where the model was given it.

use crate::Error;
use crate::motion::airborne::Airborne;
use crate::motion::approach::{approach_distance, timed_distance};
use crate::motion::brake_energy::energy_per_brake;
use crate::motion::integrate::{Pace, State, Until, advance};
use crate::motion::roll::Roll;
use crate::motion::trace::{Flown, Recorder};
use crate::regulation::{FIFTY_FEET_M, landing_factor};
use crate::reverse::to_standstill;
use crate::run_model::{Movement, RunModel};
use crate::situation::{Loaded, Situation};
use crate::speeds::{BoundedSpeed, SpeedBound, landing_speeds};
use hardpan_model::{FieldRule, RunEventKind, RunTrace, SurfaceState};
use hardpan_quantity::{Acceleration, Energy, Length, Quantity, Speed};

/// Stretch behind the threshold over which the ground's fall counts.
const FALL_OVER_M: f64 = 500.0;

/// How a landing is to be judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandingPlan {
    /// One of the landing rules.
    pub rule: FieldRule,
    /// The operator's own factor; it counts where it is greater than the rule's.
    pub own_factor: Option<f64>,
    /// State of the surface, for the factor of the rule.
    pub state: SurfaceState,
    /// Speed added to the reference speed over the threshold, calibrated.
    pub speed_addition: Speed,
    /// How much farther a late touchdown lies, if one is to be run as well.
    pub late_by: Option<Length>,
    /// Deceleration that automatic brakes hold where the ground allows more;
    /// none for brakes fully on.
    pub brake_target: Option<Acceleration>,
    /// Whether a trace is wanted.
    pub traces: bool,
}

/// A computed landing. Distances count from the threshold.
#[derive(Debug, Clone, PartialEq)]
pub struct LandingRun {
    /// Reference stall speed in landing flap, calibrated.
    pub stall: Speed,
    /// Landing reference speed.
    pub reference: BoundedSpeed,
    /// Speed over the threshold, addition included, calibrated.
    pub threshold_speed: Speed,
    /// Touchdown speed, calibrated.
    pub touchdown_speed: Speed,
    /// Ground speed at touchdown, the greatest on the wheels.
    pub touchdown_ground_speed: Speed,
    /// Distance from the threshold to touchdown.
    pub touchdown: Length,
    /// Distance to where the brakes act fully.
    pub brakes_on: Length,
    /// Ground speed there, from which the energy of the brakes counts.
    pub brakes_on_ground_speed: Speed,
    /// Distance to standstill: the landing distance without factor.
    pub stop: Length,
    /// Distance to standstill after a late touchdown, without factor; none
    /// where the plan has none.
    pub late_stop: Option<Length>,
    /// Factor that counts: of the rule, or the operator's own if that is greater.
    pub factor: f64,
    /// Landing distance needed, factor included.
    pub distance_needed: Length,
    /// Station of touchdown.
    pub touchdown_station: Length,
    /// Station of standstill.
    pub stop_station: Length,
    /// Energy of one brake.
    pub brake_energy: Energy,
    /// Whether the roll went beyond the ground that is described.
    pub beyond_survey: bool,
    /// Landing by station.
    pub trace: Option<RunTrace>,
}

/// The kernel of a landing: true airspeeds at the threshold and at touchdown.
struct Arrival<'a> {
    loaded: Loaded<'a>,
    over_threshold: f64,
    touchdown_speed: f64,
    air: Airborne,
    free: Roll,
    braked: Roll,
}

/// The states that a landing passes.
struct Landed {
    touchdown: State,
    brakes_on: State,
    stop: State,
}

/// Compute a landing.
///
/// # Errors
/// [`Error`] when a figure is outside the model or the aeroplane does not stop.
pub fn landing(
    model: &RunModel,
    situation: &Situation,
    plan: &LandingPlan,
) -> Result<LandingRun, Error> {
    if model.movement != Movement::Landing {
        return Err(Error::ModelOfOtherMovement { movement: "landing" });
    }
    let factor = landing_factor(plan.rule, plan.state)
        .ok_or(Error::RuleOfOtherMovement { movement: "landing" })?;
    let own = plan.own_factor.map(|own| {
        Error::check("the operator's own factor", hardpan_quantity::ratio(own), 1.0..=5.0)
    });
    let factor = own.transpose()?.map_or(factor, |own| factor.max(own));
    let loaded = Loaded::new(model, situation)?;
    let addition = Error::check("speed addition", plan.speed_addition, 0.0..=30.0)?;
    let (stall, reference) = landing_speeds(model, loaded.mass, &loaded.air);
    let air = loaded.air;
    let over_threshold = air.true_si(air.calibrated_si(reference.0) + addition);
    let target = |target| Error::check("target of the automatic brakes", target, 0.3..=8.0);
    let target = plan.brake_target.map(target).transpose()?;
    let arrival = Arrival::new(loaded, over_threshold, stall, target);
    let landed = arrival.land(Pace::Long, &mut |_, _| ())?;
    let late = plan.late_by.map(|late_by| arrival.late(late_by)).transpose()?;
    let ground = loaded.ground;
    let shown = |speed: f64| Speed::from_si(air.calibrated_si(speed));
    let station = |state: &State| Length::from_si(ground.station_si(state.distance));
    let energy = energy_per_brake(&loaded, landed.brakes_on.speed, landed.stop.brake_work);
    let farthest = late.as_ref().map_or(landed.stop.distance, |late| late.stop.distance);
    Ok(LandingRun {
        stall: shown(stall),
        reference: BoundedSpeed::new(&air, (reference.0, reference.1)),
        threshold_speed: shown(over_threshold),
        touchdown_speed: shown(arrival.touchdown_speed),
        touchdown_ground_speed: Speed::from_si(landed.touchdown.speed),
        touchdown: Length::from_si(landed.touchdown.distance),
        brakes_on: Length::from_si(landed.brakes_on.distance),
        brakes_on_ground_speed: Speed::from_si(landed.brakes_on.speed),
        stop: Length::from_si(landed.stop.distance),
        late_stop: late.as_ref().map(|late| Length::from_si(late.stop.distance)),
        factor,
        distance_needed: Length::from_si(factor * landed.stop.distance),
        touchdown_station: station(&landed.touchdown),
        stop_station: station(&landed.stop),
        brake_energy: Energy::from_si(energy),
        beyond_survey: !ground.covers(landed.touchdown.distance, farthest),
        trace: plan.traces.then(|| arrival.trace()),
    })
}

impl<'a> Arrival<'a> {
    fn new(loaded: Loaded<'a>, over_threshold: f64, stall: f64, target: Option<f64>) -> Self {
        let model = loaded.model;
        let touchdown_speed = model.speeds.touchdown * over_threshold;
        let mean = 0.5 * (over_threshold + touchdown_speed);
        let fall = (-loaded.ground.mean_grade(0.0, FALL_OVER_M)).max(0.0);
        let timed = timed_distance(over_threshold, touchdown_speed);
        let path = approach_distance(stall, FIFTY_FEET_M, fall);
        let through_air = timed.max(path);
        let time = through_air / mean;
        let air = Airborne { distance: (through_air - loaded.headwind * time).max(0.0), time };
        let free = loaded.coasting(model.engines, model.lift_rolling);
        let brake_target = target.unwrap_or(f64::INFINITY);
        let braked = Roll { brake_target, ..loaded.stopping(model.engines, 0.0) };
        Self { loaded, over_threshold, touchdown_speed, air, free, braked }
    }

    fn land(&self, pace: Pace, observer: &mut impl FnMut(&State, &Roll)) -> Result<Landed, Error> {
        let (ground, model) = (self.loaded.ground, self.loaded.model);
        let speed = self.loaded.ground_speed(self.touchdown_speed);
        let touchdown = State { time: self.air.time, ..State::at(self.air.distance, speed) };
        observer(&touchdown, &self.free);
        let until = Until::Elapsed(model.brake_delay);
        let brakes_on = advance((&self.free, ground), touchdown, until, pace, &mut |state| {
            observer(state, &self.free);
        })?;
        let reversing = self.loaded.reversing(model.engines);
        let stop = to_standstill((&self.braked, ground), reversing, brakes_on, pace, observer)?;
        Ok(Landed { touchdown, brakes_on, stop })
    }

    /// The same landing with its touchdown farther on.
    fn late(&self, by: Length) -> Result<Landed, Error> {
        let by = Error::check("distance of a late touchdown", by, 0.0..=2000.0)?;
        let over_ground = (self.touchdown_speed - self.loaded.headwind).max(1.0);
        let air =
            Airborne { distance: self.air.distance + by, time: self.air.time + by / over_ground };
        Self { air, ..*self }.land(Pace::Long, &mut |_, _| ())
    }

    /// The landing run again for its trace.
    fn trace(&self) -> RunTrace {
        let mut recorder = Recorder::new(&self.loaded);
        let threshold = State::at(0.0, self.loaded.ground_speed(self.over_threshold));
        recorder.event(RunEventKind::Screen, &threshold);
        let flown = Flown {
            from: threshold,
            heights: (FIFTY_FEET_M, 0.0),
            to_speed: self.loaded.ground_speed(self.touchdown_speed),
            air: self.air,
        };
        recorder.flown(&flown, &self.free.thrust);
        let landed = self.land(Pace::EachPoint, &mut |state, roll| recorder.rolled(state, roll));
        if let Ok(landed) = landed {
            recorder.event(RunEventKind::Touchdown, &landed.touchdown);
            recorder.event(RunEventKind::BrakesOn, &landed.brakes_on);
            recorder.event(RunEventKind::Stop, &landed.stop);
        }
        recorder.finish()
    }
}

impl LandingRun {
    /// What set the reference speed.
    #[must_use]
    pub fn reference_bound(&self) -> SpeedBound {
        self.reference.bound
    }
}
