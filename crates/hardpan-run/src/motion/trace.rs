//! What a run did by station, for the measures that follow and for pictures.

use crate::engine::thrust::Thrust;
use crate::motion::airborne::Airborne;
use crate::motion::departure::{AllEngineRoll, Carried, Departure, Failure, added_at_decision};
use crate::motion::ground::Ground;
use crate::motion::integrate::{Pace, State, Until, advance};
use crate::motion::roll::Roll;
use crate::situation::Loaded;
use hardpan_model::{RunEvent, RunEventKind, RunPoint, RunTrace};
use hardpan_quantity::{Force, Length, Quantity, Speed, Time, ratio};

const AIRBORNE_POINTS: u32 = 8;

/// A trace in the making.
pub(crate) struct Recorder<'a> {
    ground: &'a Ground,
    main_legs: f64,
    nose_legs: f64,
    weight: f64,
    headwind: f64,
    trace: RunTrace,
}

/// A stretch in the air: from a state at the wheels' height to another.
pub(crate) struct Flown {
    pub(crate) from: State,
    pub(crate) heights: (f64, f64),
    pub(crate) to_speed: f64,
    pub(crate) air: Airborne,
}

impl<'a> Recorder<'a> {
    pub(crate) fn new(loaded: &Loaded<'a>) -> Self {
        Self {
            ground: loaded.ground,
            main_legs: loaded.model.balance.main_legs,
            nose_legs: loaded.model.balance.nose_legs,
            weight: loaded.weight(),
            headwind: loaded.headwind,
            trace: RunTrace { points: Vec::with_capacity(512), events: Vec::with_capacity(8) },
        }
    }

    pub(crate) fn event(&mut self, kind: RunEventKind, state: &State) {
        self.trace.events.push(RunEvent {
            kind,
            station: Length::from_si(self.ground.station_si(state.distance)),
            time: Time::from_si(state.time),
            ground_speed: Speed::from_si(state.speed),
        });
    }

    /// A point on the wheels.
    pub(crate) fn rolled(&mut self, state: &State, roll: &Roll) {
        let local = self.ground.local(state.distance, &mut { state.cursor });
        let forces = roll.forces(state.speed, local);
        let load = forces.main + forces.nose;
        let dragged = forces.rolling + forces.braking;
        let friction = if load > 0.0 { dragged / load } else { 0.0 };
        self.trace.points.push(RunPoint {
            station: Length::from_si(self.ground.station_si(state.distance)),
            time: Time::from_si(state.time),
            ground_speed: Speed::from_si(state.speed),
            airspeed: Speed::from_si(state.speed + self.headwind),
            thrust: Force::from_si(forces.thrust),
            lift: Force::from_si(forces.lift),
            braking: Force::from_si(forces.braking),
            friction: ratio(friction),
            main_leg_load: Force::from_si(forces.main / self.main_legs),
            nose_leg_load: Force::from_si(forces.nose / self.nose_legs),
            height: Length::from_si(0.0),
        });
    }

    /// A stretch in the air: the height is quadratic in the distance, flat at
    /// the end that is nearer to the ground. Both ends are included.
    pub(crate) fn flown(&mut self, flown: &Flown, thrust: &Thrust) -> State {
        let (from, air) = (&flown.from, &flown.air);
        let (low, high) = flown.heights;
        let at = |share: f64| State {
            distance: from.distance + share * air.distance,
            time: from.time + share * air.time,
            speed: from.speed + share * (flown.to_speed - from.speed),
            ..*from
        };
        for index in 0..=AIRBORNE_POINTS {
            let share = f64::from(index) / f64::from(AIRBORNE_POINTS);
            let state = at(share);
            let rising = if high >= low { share * share } else { share * (2.0 - share) };
            let airspeed = state.speed + self.headwind;
            self.trace.points.push(RunPoint {
                station: Length::from_si(self.ground.station_si(state.distance)),
                time: Time::from_si(state.time),
                ground_speed: Speed::from_si(state.speed),
                airspeed: Speed::from_si(airspeed),
                thrust: Force::from_si(thrust.at(airspeed)),
                lift: Force::from_si(self.weight),
                braking: Force::from_si(0.0),
                friction: ratio(0.0),
                main_leg_load: Force::from_si(0.0),
                nose_leg_load: Force::from_si(0.0),
                height: Length::from_si(low + rising * (high - low)),
            });
        }
        at(1.0)
    }

    pub(crate) fn finish(self) -> RunTrace {
        self.trace
    }
}

/// The all-engine take-off. A run that was computed once is run again, so it
/// cannot fail; if it did, the trace would end there.
pub(crate) fn take_off_trace(loaded: &Loaded, departure: &Departure) -> RunTrace {
    let mut recorder = Recorder::new(loaded);
    let start = State::at(departure.start, 0.0);
    recorder.event(RunEventKind::BrakeRelease, &start);
    recorder.rolled(&start, &departure.all.roll);
    let carried = departure.carry_on(&departure.all, start, Pace::EachPoint, &mut |state, roll| {
        recorder.rolled(state, roll);
    });
    if let Ok(carried) = carried {
        finish_in_the_air(&mut recorder, departure, &carried);
    }
    recorder.finish()
}

fn finish_in_the_air(recorder: &mut Recorder, departure: &Departure, carried: &Carried) {
    recorder.event(RunEventKind::Rotation, &carried.rotation);
    recorder.event(RunEventKind::LiftOff, &carried.lift_off);
    let flown = Flown {
        from: carried.lift_off,
        heights: (0.0, departure.screen),
        to_speed: (carried.screen_airspeed - departure.headwind).max(0.0),
        air: carried.air,
    };
    let screen = recorder.flown(&flown, &departure.all.climb.thrust);
    recorder.event(RunEventKind::Screen, &screen);
}

/// The rejected take-off that goes farther: after an engine failure or with
/// all engines, from V1; without an engine-failure rule from rotation speed.
pub(crate) fn rejected_trace(
    loaded: &Loaded,
    departure: &Departure,
    roll: &AllEngineRoll,
    failure: Option<&Failure>,
) -> RunTrace {
    let mut recorder = Recorder::new(loaded);
    let start = State::at(departure.start, 0.0);
    recorder.event(RunEventKind::BrakeRelease, &start);
    recorder.rolled(&start, &departure.all.roll);
    let failed = failure.filter(|failure| failure.stop.distance >= failure.stop_all.distance);
    let accelerate_to = match (failed, failure) {
        (Some(failure), _) => failure.failure.speed,
        (None, Some(failure)) => failure.decision.speed,
        (None, None) => roll.end().speed,
    };
    let all = &departure.all.roll;
    let until = Until::Faster(accelerate_to);
    let on = (all, departure.ground);
    let Ok(reached) =
        advance(on, start, until, Pace::EachPoint, &mut |state| recorder.rolled(state, all))
    else {
        return recorder.finish();
    };
    let (decision, stop) = match (failed, departure.one_out) {
        (Some(failure), Some(one_out)) => {
            recorder.event(RunEventKind::EngineFailure, &reached);
            recorder.rolled(&failure.decision, &one_out.roll);
            (failure.decision, one_out)
        }
        _ => (reached, departure.all),
    };
    recorder.event(RunEventKind::Decision, &decision);
    recorder.event(RunEventKind::BrakesOn, &added_at_decision(decision));
    let stopped = departure.stop(&stop, decision, Pace::EachPoint, &mut |state, roll| {
        recorder.rolled(state, roll);
    });
    if let Ok(stopped) = stopped {
        recorder.event(RunEventKind::Stop, &stopped);
    }
    recorder.finish()
}
