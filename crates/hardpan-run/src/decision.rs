//! The decision speed V1: balanced, fitted to the declared distances, and
//! bounded by control on the ground and by rotation.
//!
//! A later failure shortens the distance to go on and lengthens that to stop.
//! The search runs over the speed at the failure, one second before V1.
//!
//! Where control on the ground sets V1, it lies one second of acceleration
//! above the control speed: a heavier aeroplane then stops from a slightly
//! lower V1, and with idle thrust on poor brakes its stop may be a little shorter.

use crate::error::Error;
use crate::motion::brake_energy::energy_per_brake;
use crate::motion::departure::{AllEngineRoll, Departure, Failure, Running};
use crate::situation::Loaded;
use crate::take_off::{CarriedOn, TakeOffPlan};
use hardpan_math::root_between;
use hardpan_quantity::{Energy, Length, Quantity, Speed};
use std::cell::{Cell, OnceCell};

const SPEED_TOLERANCE: f64 = 1e-5;
/// Where balance is looked for first, as a share of the way from the earliest
/// failure to the latest.
const FIRST_LOOK: f64 = 0.8;
/// Speed times the change of the imbalance by speed, over the distance to a
/// stop: 2 while everything grows with the square of the speed; going on adds.
const EXPECTED_CHANGE: f64 = 2.5;
const MOST_LOOKS: u32 = 8;

/// How the decision speed was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum DecisionChoice {
    /// Distance to go on equals distance to stop.
    Balanced,
    /// The lowest that control on the ground allows; stopping is the longer.
    LowestAllowed,
    /// Rotation speed; going on is the longer, or cannot be done.
    RotationSpeed,
    /// Raised from balance until going on fits the take-off distance declared.
    FittedToTakeOffDistance,
    /// Lowered from balance until stopping fits the accelerate-stop distance declared.
    FittedToAccelerateStop,
    /// Lowered until the brakes can take the stop.
    BrakeEnergy,
    /// Stated; distances are those of the nearest speed between the lowest and
    /// the highest.
    Stated,
}

/// Decision speeds that the declared distances allow.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum DecisionRange {
    /// No distance is declared.
    NotDeclared,
    /// From one calibrated airspeed to another.
    Between(Speed, Speed),
    /// None: both distances cannot be kept.
    Empty,
}

/// Decision speed and what comes of an engine failure; distances from brake release.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Decision {
    /// Decision speed, calibrated.
    pub speed: Speed,
    /// Ground speed then.
    pub ground_speed: Speed,
    /// How it was chosen.
    pub choice: DecisionChoice,
    /// Speed at the engine failure, calibrated.
    pub failure_speed: Speed,
    /// Lowest decision speed that control on the ground allows, calibrated.
    pub lowest: Speed,
    /// Highest decision speed, which is at most rotation speed, calibrated.
    pub highest: Speed,
    /// Decision speeds that the declared distances allow.
    pub range: DecisionRange,
    /// Highest speed from which the brakes can take the stop on level ground,
    /// drag not credited, calibrated; none where their limit is not known.
    pub brake_limit: Option<Speed>,
    /// Carried on with one engine out; none when it does not reach the screen.
    pub carried_on: Option<CarriedOn>,
    /// Distance to a stop after the failure.
    pub stop: Length,
    /// Distance to a stop from the decision speed with all engines running.
    pub stop_all_engines: Length,
}

/// The failure chosen, and the bounds of the choice as ground speeds at V1.
#[derive(Debug, Clone)]
pub(crate) struct Chosen {
    pub(crate) failure: Failure,
    choice: DecisionChoice,
    stated: Option<Speed>,
    lowest: f64,
    highest: f64,
    range: FailureRange,
    brakes: Option<f64>,
}

/// What the brakes can take in a rejected take-off.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BrakeLimit<'a> {
    loaded: &'a Loaded<'a>,
    /// Energy of one brake, J.
    most: f64,
}

impl<'a> BrakeLimit<'a> {
    pub(crate) fn new(loaded: &'a Loaded<'a>, most: Energy) -> Self {
        Self { loaded, most: most.si().max(0.0) }
    }

    /// Ground speed whose kinetic energy fills the brakes.
    fn speed(&self) -> f64 {
        (2.0 * self.loaded.model.braked_wheels * self.most / self.loaded.mass).sqrt()
    }

    /// Share of the limit that a failure leaves, of the stop that takes more.
    fn spare(&self, failure: &Failure) -> f64 {
        let work = failure.stop.brake_work.max(failure.stop_all.brake_work);
        let taken = energy_per_brake(self.loaded, failure.decision.speed, work);
        (self.most - taken) / self.most.max(1.0)
    }
}

#[derive(Debug, Clone, Copy)]
enum FailureRange {
    NotDeclared,
    Between(f64, f64),
    Empty,
}

impl Decision {
    pub(crate) fn new(chosen: &Chosen, loaded: &Loaded, start: f64) -> Self {
        let failure = &chosen.failure;
        let calibrated = |ground_speed: f64| {
            Speed::from_si(loaded.air.calibrated_si(ground_speed + loaded.headwind))
        };
        Self {
            speed: chosen.stated.unwrap_or_else(|| calibrated(failure.decision.speed)),
            ground_speed: Speed::from_si(failure.decision.speed),
            choice: chosen.choice,
            failure_speed: calibrated(failure.failure.speed),
            lowest: calibrated(chosen.lowest),
            highest: calibrated(chosen.highest),
            range: match chosen.range {
                FailureRange::NotDeclared => DecisionRange::NotDeclared,
                FailureRange::Empty => DecisionRange::Empty,
                FailureRange::Between(low, high) => {
                    DecisionRange::Between(calibrated(low), calibrated(high))
                }
            },
            brake_limit: chosen.brakes.map(calibrated),
            carried_on: failure.carried.map(|carried| CarriedOn::new(&carried, start)),
            stop: Length::from_si(failure.stop.distance - start),
            stop_all_engines: Length::from_si(failure.stop_all.distance - start),
        }
    }
}

/// One end of the search.
#[derive(Debug, Clone, Copy)]
enum End {
    Earliest,
    Latest,
}

/// One search for the decision speed.
struct Search<'a> {
    departure: &'a Departure<'a>,
    roll: &'a AllEngineRoll,
    one_out: &'a Running<'a>,
    earliest: f64,
    latest: f64,
    /// The failure looked at last.
    seen: Cell<Option<Failure>>,
    /// Those at both ends, once they are asked for.
    ends: [OnceCell<Failure>; 2],
}

/// Choose the decision speed, given the ground speed of minimum control; or take
/// the one that is stated, as a ground speed.
pub(crate) fn decide(
    departure: &Departure,
    roll: &AllEngineRoll,
    one_out: &Running,
    ((control, stated), brakes): ((f64, Option<f64>), Option<BrakeLimit>),
    plan: &TakeOffPlan,
) -> Result<Chosen, Error> {
    let latest = departure.latest_failure(roll, one_out, control);
    let search = Search {
        departure,
        roll,
        one_out,
        earliest: control,
        latest,
        seen: Cell::new(None),
        ends: [OnceCell::new(), OnceCell::new()],
    };
    let (balanced, choice) = search.balanced()?;
    let available = |length: Option<Length>| length.map(|length| length.si());
    let (go, stop) =
        (available(plan.available.take_off_distance), available(plan.available.accelerate_stop));
    let (range, fitted, choice) = match (go, stop) {
        (None, None) => (FailureRange::NotDeclared, balanced, choice),
        _ => search.fitted((go, stop), (balanced, choice))?,
    };
    let (fitted, choice) = match (&brakes, range) {
        (None, _) | (_, FailureRange::Empty) => (fitted, choice),
        (Some(brakes), FailureRange::NotDeclared) => {
            search.within_brakes(brakes, control, (fitted, choice))?
        }
        (Some(brakes), FailureRange::Between(low, _)) => {
            search.within_brakes(brakes, low, (fitted, choice))?
        }
    };
    let range = match range {
        FailureRange::Between(low, high) => {
            FailureRange::Between(search.decision_speed(low)?, search.decision_speed(high)?)
        }
        other => other,
    };
    let (fitted, choice) = match stated {
        Some(stated) => (search.failure_before(stated)?, DecisionChoice::Stated),
        None => (fitted, choice),
    };
    Ok(Chosen {
        failure: search.at(fitted)?,
        choice,
        stated: plan.decision_speed,
        lowest: search.decision_speed(control)?,
        highest: search.decision_speed(latest)?,
        range,
        brakes: brakes.map(|brakes| brakes.speed()),
    })
}

impl Search<'_> {
    fn at(&self, failure_speed: f64) -> Result<Failure, Error> {
        if let Some(seen) = self.seen.get()
            && seen.failure.speed == failure_speed
        {
            return Ok(seen);
        }
        let failure = self.departure.failure(self.roll, self.one_out, failure_speed)?;
        self.seen.set(Some(failure));
        Ok(failure)
    }

    fn decision_speed(&self, failure_speed: f64) -> Result<f64, Error> {
        let failure = self.roll.at_speed(self.departure, failure_speed)?;
        Ok(self.departure.decision(self.one_out, failure)?.speed)
    }

    /// Failure speed that leads to a ground speed at the decision, as far as the
    /// range goes.
    fn failure_before(&self, decision: f64) -> Result<f64, Error> {
        let over = |failure: f64| Ok(self.decision_speed(failure)? - decision);
        let low = (self.earliest, over(self.earliest)?);
        let high = (self.latest, over(self.latest)?);
        if low.1 >= 0.0 {
            return Ok(low.0);
        }
        if high.1 <= 0.0 {
            return Ok(high.0);
        }
        let at = |failure: f64| over(failure).unwrap_or(f64::NAN);
        Ok(root_between(at, low, high, SPEED_TOLERANCE).unwrap_or(high.0))
    }

    fn end(&self, end: End) -> Result<&Failure, Error> {
        let (index, speed) = match end {
            End::Earliest => (0, self.earliest),
            End::Latest => (1, self.latest),
        };
        if let Some(known) = self.ends[index].get() {
            return Ok(known);
        }
        let failure = self.at(speed)?;
        Ok(self.ends[index].get_or_init(|| failure))
    }

    /// Failure speed at which going on is as long as stopping.
    fn balanced(&self) -> Result<(f64, DecisionChoice), Error> {
        if let Some(root) = self.balanced_within() {
            return Ok((root, DecisionChoice::Balanced));
        }
        if imbalance(self.end(End::Earliest)?) >= 0.0 {
            return Ok((self.earliest, DecisionChoice::LowestAllowed));
        }
        if imbalance(self.end(End::Latest)?) <= 0.0 {
            return Ok((self.latest, DecisionChoice::RotationSpeed));
        }
        let root = self.root(imbalance)?;
        Ok((root.unwrap_or(self.latest), DecisionChoice::Balanced))
    }

    /// The same by secants from within; none when they lead out of the range.
    fn balanced_within(&self) -> Option<f64> {
        let mut speed = self.earliest + FIRST_LOOK * (self.latest - self.earliest);
        let mut before: Option<(f64, f64)> = None;
        for _ in 0..MOST_LOOKS {
            let failure = self.at(speed).ok()?;
            failure.carried?;
            let value = imbalance(&failure);
            let change = match before {
                None => EXPECTED_CHANGE / (speed * failure.stopped_at().max(1.0)),
                Some((at, was)) => (value - was) / (speed - at),
            };
            let step = value / change;
            if step.abs() <= SPEED_TOLERANCE {
                return Some(speed);
            }
            before = Some((speed, value));
            speed -= step;
            let is_within = change > 0.0 && (self.earliest..=self.latest).contains(&speed);
            if !is_within {
                return None;
            }
        }
        None
    }

    /// Failure speeds from which going on and stopping fit, and the one among
    /// them that is nearest to balance.
    fn fitted(
        &self,
        (go, stop): (Option<f64>, Option<f64>),
        (balanced, choice): (f64, DecisionChoice),
    ) -> Result<(FailureRange, f64, DecisionChoice), Error> {
        let spare_go = |failure: &Failure| go.map_or(1.0, |go| nearness(failure) - 1.0 / go);
        let spare_stop = |failure: &Failure| stop.map_or(1.0, |stop| stop - failure.stopped_at());
        let low = self.bound(spare_go, End::Earliest)?;
        let high = self.bound(spare_stop, End::Latest)?;
        Ok(match (low, high) {
            (Some(low), Some(high)) if low <= high => {
                let range = FailureRange::Between(low, high);
                if balanced < low {
                    (range, low, DecisionChoice::FittedToTakeOffDistance)
                } else if balanced > high {
                    (range, high, DecisionChoice::FittedToAccelerateStop)
                } else {
                    (range, balanced, choice)
                }
            }
            _ => (FailureRange::Empty, balanced, choice),
        })
    }

    /// The highest failure speed from which the brakes take the stop, no lower than
    /// `low`; the one chosen where they take it anyway, or take it from none.
    fn within_brakes(
        &self,
        brakes: &BrakeLimit,
        low: f64,
        (chosen, choice): (f64, DecisionChoice),
    ) -> Result<(f64, DecisionChoice), Error> {
        let at_choice = brakes.spare(&self.at(chosen)?);
        if at_choice >= 0.0 || low >= chosen {
            return Ok((chosen, choice));
        }
        let at_low = brakes.spare(&self.at(low)?);
        if at_low < 0.0 {
            return Ok((chosen, choice));
        }
        let spare = |speed: f64| self.at(speed).map_or(f64::NAN, |at| brakes.spare(&at));
        let root = root_between(spare, (low, at_low), (chosen, at_choice), SPEED_TOLERANCE);
        let inward = |root: f64| (root - 2.0 * SPEED_TOLERANCE).clamp(low, chosen);
        Ok(root.map_or((chosen, choice), |root| (inward(root), DecisionChoice::BrakeEnergy)))
    }

    /// The failure speed nearest to one end that leaves something to spare,
    /// safely on the side that does; none when not even the other end does.
    fn bound(&self, spare: impl Fn(&Failure) -> f64, end: End) -> Result<Option<f64>, Error> {
        let (other, speed, inward) = match end {
            End::Earliest => (End::Latest, self.earliest, 2.0 * SPEED_TOLERANCE),
            End::Latest => (End::Earliest, self.latest, -2.0 * SPEED_TOLERANCE),
        };
        if spare(self.end(end)?) >= 0.0 {
            return Ok(Some(speed));
        }
        if spare(self.end(other)?) < 0.0 {
            return Ok(None);
        }
        let root = self.root(spare)?;
        Ok(root.map(|root| (root + inward).clamp(self.earliest, self.latest)))
    }

    /// Failure speed at which a figure of the failure is zero.
    fn root(&self, figure: impl Fn(&Failure) -> f64) -> Result<Option<f64>, Error> {
        let low = (self.earliest, figure(self.end(End::Earliest)?));
        let high = (self.latest, figure(self.end(End::Latest)?));
        let at = |speed: f64| self.at(speed).map_or(f64::NAN, |failure| figure(&failure));
        Ok(root_between(at, low, high, SPEED_TOLERANCE).ok())
    }
}

/// Inverse distance to the screen; zero when it is never reached.
fn nearness(failure: &Failure) -> f64 {
    failure.carried.map_or(0.0, |carried| 1.0 / carried.screen_at().max(1.0))
}

/// Negative while going on is longer than stopping.
fn imbalance(failure: &Failure) -> f64 {
    nearness(failure) - 1.0 / failure.stopped_at().max(1.0)
}
