//! Several rides of one aeroplane at the same motion, step by step together:
//! they share the motion, the length of the steps, and the run over level
//! ground that each is held against.

use crate::error::{Error, setting};
use crate::ride::body::{Body, lift_share_of};
use crate::ride::log::Log;
use crate::ride::pacer::Pacer;
use crate::ride::track::{Now, Track};
use crate::ride::{Course, Lanes, Pace, Ride, RigidAeroplane};
use hardpan_quantity::{Length, Quantity, metres};
use wide::f64x2;

/// Most that the two middle stages of a step may differ by in the speed that they
/// give a wheel, m/s.
const STRAYED: f64 = 0.02;
/// Change of the lift, as a share of the weight each second, that the aeroplane
/// follows at rest: begun or ended at once, it would move it by some 0.005 g.
const SLOW: f64 = 0.03;
/// Speed, m/s, and acceleration, m/s², below which the aeroplane on level ground
/// has come to rest: what is left swings by less than 0.004 g.
const AT_REST: (f64, f64) = (5e-3, 0.01);
/// Places at which the lift of a course is looked at beforehand.
const LOOKS: u32 = 256;

/// Time, weight and reach of each stage of the classical fourth-order step.
const STAGES: [(f64, f64, f64); 4] =
    [(0.0, 1.0, 0.5), (0.5, 2.0, 0.5), (0.5, 2.0, 1.0), (1.0, 1.0, 0.0)];

/// What all lanes have in common.
struct Common {
    from: f64,
    to: f64,
    spacing: f64,
}

impl Common {
    fn of(lanes: &[Lanes<'_>]) -> Self {
        let none = Self { from: f64::NEG_INFINITY, to: f64::INFINITY, spacing: f64::INFINITY };
        lanes.iter().flat_map(|lanes| [lanes.nose, lanes.main]).fold(none, |common, profile| {
            let stretch = profile.stretch();
            Self {
                from: common.from.max(stretch.from.si()),
                to: common.to.min(stretch.to.si()),
                spacing: common.spacing.min(profile.spacing_m()),
            }
        })
    }
}

/// Ride over the ground of each pair of lanes, on each of several courses that are
/// the same up to a station; the rides run over what all lanes have.
pub(crate) fn ride_in_step(
    aeroplane: &RigidAeroplane,
    lanes: &[Lanes<'_>],
    courses: &[Course<'_>],
    part_at: Length,
    pace: Pace,
) -> Result<Vec<Vec<Ride>>, Error> {
    let Some(any) = courses.first() else { return Ok(Vec::new()) };
    let common = Common::of(lanes);
    let first = common.from + aeroplane.main_behind.si();
    let body = Body::of(aeroplane, (any.motion)(metres(first)).lift_share)?;
    let needed_m = 2.0 * body.wheelbase();
    if common.to - common.from < needed_m {
        let length_m = common.to - common.from;
        return Err(Error::TooShort { method: "a ride", length_m, needed_m });
    }
    let end = |course: &Course<'_>| (common.to - body.nose.ahead).min(course.to.si());
    let pacer = Pacer::of(&body, pace, common.spacing);
    let mut together = Way::at_rest(&body, lanes, any.at(first)?);
    let off_stops = body.stands_off_up_to();
    together.rides.may_rest =
        courses.iter().all(|course| course.most_lift(first, end(course)) <= off_stops);
    if courses.len() > 1 {
        let shortest = courses.iter().map(end).fold(f64::INFINITY, f64::min);
        together.go(&pacer, any, part_at.si().min(shortest))?;
    }
    let ridden = courses.iter().map(|course| {
        let mut way = together.clone();
        way.go(&pacer, course, end(course))?;
        way.rides.finish()
    });
    ridden.collect()
}

impl Course<'_> {
    fn most_lift(&self, from: f64, to: f64) -> f64 {
        let station = |part: u32| from + (to - from) * f64::from(part) / f64::from(LOOKS);
        let lift = |part| (self.motion)(metres(station(part))).lift_share.si();
        (0..=LOOKS).map(lift).fold(0.0, f64::max)
    }

    fn at(&self, station: f64) -> Result<Now, Error> {
        let motion = (self.motion)(metres(station));
        let speed = setting("speed of the ride", motion.speed.si(), 1.0..=150.0, "m/s")?;
        Ok(Now { station, speed, share: lift_share_of(motion.lift_share)? })
    }
}

/// All rides on their way.
#[derive(Clone)]
struct Way<'a> {
    rides: Rides<'a>,
    now: Now,
    /// Time of the last step.
    gone: f64,
    steps: u32,
}

impl<'a> Way<'a> {
    fn at_rest(body: &'a Body, lanes: &[Lanes<'a>], now: Now) -> Self {
        Self { rides: Rides::at_rest(body, lanes, now), now, gone: 0.0, steps: 0 }
    }

    fn go(&mut self, pacer: &Pacer, course: &Course<'_>, end: f64) -> Result<(), Error> {
        while self.now.station < end {
            let now = course.at(self.now.station)?;
            let fastest = self.rides.first_stage(now, self.gone, pacer.soon);
            let step = pacer.step(fastest, now.speed);
            self.gone = self.rides.other_stages(now, step, pacer.shortest);
            self.now = Now { station: now.station + self.gone * now.speed, ..now };
            self.steps += 1;
            setting("steps of the ride", f64::from(self.steps), 0.0..=2e7, "")?;
        }
        Ok(())
    }
}

/// The rides, with the run over level ground beside them.
#[derive(Clone)]
struct Rides<'a> {
    body: &'a Body,
    /// One over each ground, and at the end what a change of lift alone does.
    tracks: Vec<Track<'a>>,
    logs: Vec<Log>,
    /// Whether the level run moves, or rests under the lift.
    moves: bool,
    share: f64,
    /// How fast the lift changed last, 1/s.
    rate: f64,
    /// Whether it may rest while the lift changes: not where the lift lets a leg
    /// out to its stop, which is felt.
    may_rest: bool,
}

impl<'a> Rides<'a> {
    fn at_rest(body: &'a Body, lanes: &[Lanes<'a>], now: Now) -> Self {
        let grounds = lanes.iter().copied().map(Some).chain([None]);
        Self {
            body,
            tracks: grounds.map(|ground| Track::at_rest(body, ground, now)).collect(),
            logs: lanes.iter().map(|_| Log::new(now.station)).collect(),
            moves: false,
            share: now.share,
            rate: 0.0,
            may_rest: false,
        }
    }

    fn finish(self) -> Result<Vec<Ride>, Error> {
        for track in &self.tracks {
            let [height, _] = track.state[0].to_array();
            setting("height at the end of the ride", height, -2e4..=2e4, "m")?;
        }
        Ok(self.logs.into_iter().map(Log::ride).collect())
    }

    /// Heave and pitch of the level run now, and how fast it changes. It rests
    /// while the lift changes slowly.
    fn beside(&mut self, now: Now, gone: f64, soon: f64) -> ((f64, f64), f64) {
        let before = std::mem::replace(&mut self.share, now.share);
        let changes = (now.share - before).abs();
        let slowly = self.may_rest && changes <= SLOW * gone;
        let Some(level) = self.tracks.last_mut() else { return ((0.0, 0.0), 0.0) };
        if !self.moves {
            if changes == 0.0 || slowly {
                self.rate = if gone > 0.0 { (now.share - before) / gone } else { 0.0 };
                return ((0.0, 0.0), 0.0);
            }
            self.moves = true;
            level.begin(self.body.drifting_under(before, self.rate));
        }
        let moment = level.look(self.body, now, 0.0);
        let [_, _, body, wheels] = level.state.map(f64x2::to_array);
        let [_, _, [heave, turning], _] = moment.rates.map(f64x2::to_array);
        let ([z, pitch], [nose, main]) = (body, wheels);
        let (speed, acceleration) = AT_REST;
        let rests = [z, pitch * self.body.cockpit, nose, main].iter().all(|v| v.abs() < speed)
            && [heave, turning * self.body.cockpit].iter().all(|a| a.abs() < acceleration);
        self.moves = !(slowly && rests);
        ((heave, turning), self.body.pace(&level.trial, soon))
    }

    /// Look where all stand and write it down; gives the fastest change.
    fn first_stage(&mut self, now: Now, gone: f64, soon: f64) -> f64 {
        let body = self.body;
        let (beside, mut fastest) = self.beside(now, gone, soon);
        for (track, log) in self.tracks.iter_mut().zip(&mut self.logs) {
            let moment = track.look(body, now, 0.0);
            log.note(body, &moment, beside, (now.station, gone));
            fastest = fastest.max(body.pace(&track.trial, soon));
        }
        fastest
    }

    /// The stages after the first, all rides at each: they do not wait for one
    /// another. A step whose two middle stages differ too much is taken again at
    /// half its length; gives the length that was taken.
    fn other_stages(&mut self, now: Now, wanted: f64, shortest: f64) -> f64 {
        let body = self.body;
        let moving = self.logs.len() + usize::from(self.moves);
        let all = self.tracks.get_mut(..moving).unwrap_or_default();
        for track in all.iter_mut() {
            track.first = track.rates;
        }
        let mut step = wanted;
        loop {
            let strayed = stages(body, all, now, step);
            if step * strayed <= STRAYED || step <= shortest {
                break;
            }
            step = (0.5 * step).max(shortest);
            for track in all.iter_mut() {
                track.again();
            }
        }
        for track in all {
            track.finish(step);
        }
        step
    }
}

/// All stages of a step after the first was looked at; gives how much the wheels'
/// accelerations differ between the two in the middle.
fn stages(body: &Body, all: &mut [Track<'_>], now: Now, step: f64) -> f64 {
    let mut strayed = 0.0_f64;
    for (index, (time, weight, reach)) in STAGES.into_iter().enumerate() {
        for track in all.iter_mut() {
            if index > 0 {
                let before = track.wheels();
                track.look(body, now, time * step);
                if index == 2 {
                    strayed = strayed.max(track.strayed(before));
                }
            }
            track.count(weight, reach * step);
        }
    }
    strayed
}
