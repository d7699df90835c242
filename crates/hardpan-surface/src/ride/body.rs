//! A rigid body on two legs: its motion in heave and pitch.

use crate::error::{Error, setting};
use crate::ride::RigidAeroplane;
use crate::ride::both_legs::BothLegs;
use crate::ride::leg::{Leg, Push};
use hardpan_quantity::{Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2};
use wide::f64x2;

/// Share of the weight between two states at rest that tell how one becomes the other.
const NEARBY: f64 = 1e-4;

/// Height, pitch (nose down), height of both wheels, and their rates.
pub(crate) type State = [f64; 8];

/// Heights of the ground under nose and main gear, and their slopes by time.
pub(crate) type Under = (f64x2, f64x2);

pub(crate) struct Body {
    pub(crate) mass: f64,
    weight: f64,
    /// One over the mass, 1/kg, and over the inertia in pitch, 1/(kg m²).
    by_mass: f64,
    by_inertia: f64,
    pub(crate) cockpit: f64,
    pub(crate) nose: Leg,
    pub(crate) main: Leg,
    /// Nose and main gear ahead of the centre of gravity.
    pub(super) ahead: f64x2,
    /// Both legs together; none where one is a spring.
    both: Option<BothLegs>,
}

pub(crate) struct Moment {
    pub(crate) rates: State,
    pub(crate) nose: Push,
    pub(crate) main: Push,
}

impl Body {
    pub(crate) fn of(aeroplane: &RigidAeroplane, lift_share: Ratio) -> Result<Self, Error> {
        let mass = setting("mass above the struts", aeroplane.mass.si(), 100.0..=1e6, "kg")?;
        let gyration = setting("radius of gyration", aeroplane.gyration.si(), 0.1..=50.0, "m")?;
        let ahead = setting("nose gear ahead", aeroplane.nose_ahead.si(), 0.1..=60.0, "m")?;
        let behind = setting("main gear behind", aeroplane.main_behind.si(), 0.01..=20.0, "m")?;
        let cockpit = setting("cockpit ahead", aeroplane.cockpit_ahead.si(), -60.0..=60.0, "m")?;
        let share = lift_share_of(lift_share)?;
        let weight = mass * STANDARD_GRAVITY_M_PER_S2;
        let carried = weight * (1.0 - share);
        let wheelbase = ahead + behind;
        let leg = |support, at, arm| {
            Leg::new(support, at, carried * arm / wheelbase, weight * arm / wheelbase)
        };
        let nose = leg(&aeroplane.nose, ahead, behind)?;
        let main = leg(&aeroplane.main, -behind, ahead)?;
        Ok(Self {
            mass,
            weight,
            by_mass: 1.0 / mass,
            by_inertia: 1.0 / (mass * gyration * gyration),
            cockpit,
            ahead: [nose.ahead, main.ahead].into(),
            both: BothLegs::of(&nose, &main),
            nose,
            main,
        })
    }

    pub(crate) fn wheelbase(&self) -> f64 {
        self.nose.ahead - self.main.ahead
    }

    /// Accelerations and loads with a share of the weight on the wing.
    #[inline(always)]
    pub(crate) fn moment(&self, state: &State, share: f64, ground: Under) -> Moment {
        let [_, _, _, _, z_rate, pitch_rate, nose_rate, main_rate] = *state;
        let (nose_push, main_push) = self.pushes(state, ground);
        let force = nose_push.on_body + main_push.on_body + share * self.weight;
        let turning = -self.nose.ahead * nose_push.on_body - self.main.ahead * main_push.on_body;
        let rates = [
            z_rate,
            pitch_rate,
            nose_rate,
            main_rate,
            force * self.by_mass - STANDARD_GRAVITY_M_PER_S2,
            turning * self.by_inertia,
            nose_push.wheel_acceleration,
            main_push.wheel_acceleration,
        ];
        Moment { rates, nose: nose_push, main: main_push }
    }

    /// What both legs do.
    #[inline(always)]
    fn pushes(&self, state: &State, ground: Under) -> (Push, Push) {
        if let Some(both) = &self.both {
            let [z, pitch, nose, main, z_rate, pitch_rate, nose_rate, main_rate] = *state;
            let height = f64x2::splat(z) - self.ahead * f64x2::splat(pitch);
            let rate = f64x2::splat(z_rate) - self.ahead * f64x2::splat(pitch_rate);
            let wheels = ([nose, main].into(), [nose_rate, main_rate].into());
            if let Some(pushes) = both.push((height, rate), wheels, ground.0) {
                return pushes;
            }
        }
        self.pushes_one_by_one(state, ground)
    }

    #[cold]
    fn pushes_one_by_one(&self, state: &State, ground: Under) -> (Push, Push) {
        let [_, _, nose, main, _, _, nose_rate, main_rate] = *state;
        let [(nose_level, main_level), (nose_slope, main_slope)] = pairs(ground);
        (
            self.nose.push(over(&self.nose, state), (nose, nose_rate), (nose_level, nose_slope)),
            self.main.push(over(&self.main, state), (main, main_rate), (main_level, main_slope)),
        )
    }

    /// How fast the legs change, 1/s; `soon` is how far ahead a step looks.
    pub(crate) fn pace(&self, state: &State, soon: f64) -> f64 {
        let [_, _, nose, main, _, _, nose_rate, main_rate] = *state;
        let nose = self.nose.pace(over(&self.nose, state), (nose, nose_rate), soon);
        nose.max(self.main.pace(over(&self.main, state), (main, main_rate), soon))
    }

    pub(crate) fn at_rest_on(&self, ground: Under) -> State {
        let [levels, rates] = pairs(ground);
        let (z, pitch) = self.on_legs(levels.0, levels.1);
        let (z_rate, pitch_rate) = self.on_legs(rates.0, rates.1);
        [z, pitch, levels.0, levels.1, z_rate, pitch_rate, rates.0, rates.1]
    }

    /// The state on level ground with another share of the weight on the wing, that
    /// changes slowly at a rate.
    pub(crate) fn drifting_under(&self, share: f64, rate: f64) -> State {
        let now = self.settled(share);
        let next = self.settled(share + NEARBY);
        let drift = |at: usize| (next[at] - now[at]) / NEARBY * rate;
        [now[0], now[1], now[2], now[3], drift(0), drift(1), drift(2), drift(3)]
    }

    /// Heave, pitch and both wheels at rest with a share of the weight on the wing.
    fn settled(&self, share: f64) -> [f64; 4] {
        let carried = self.weight * (1.0 - share);
        let wheelbase = self.wheelbase();
        let nose = self.nose.settled(carried * -self.main.ahead / wheelbase);
        let main = self.main.settled(carried * self.nose.ahead / wheelbase);
        let (z, pitch) = self.on_legs(nose.0, main.0);
        [z, pitch, nose.1, main.1]
    }

    /// Share of the weight on the wing up to which both legs stand off their stops.
    pub(crate) fn stands_off_up_to(&self) -> f64 {
        let wheelbase = self.wheelbase();
        let legs = [(&self.nose, -self.main.ahead), (&self.main, self.nose.ahead)];
        let most =
            |(leg, arm): (&Leg, f64)| 1.0 - leg.stands_off_at() * wheelbase / (self.weight * arm);
        legs.map(most).into_iter().fold(1.0, f64::min)
    }

    /// Heave and pitch from the height of the body over nose and main gear.
    fn on_legs(&self, nose: f64, main: f64) -> (f64, f64) {
        let pitch = (main - nose) / self.wheelbase();
        (main + self.main.ahead * pitch, pitch)
    }
}

/// Levels and slopes, each under nose and main gear.
fn pairs(ground: Under) -> [(f64, f64); 2] {
    [ground.0.to_array().into(), ground.1.to_array().into()]
}

/// Height and rate of the body over a leg.
#[inline]
fn over(leg: &Leg, state: &State) -> (f64, f64) {
    let [z, pitch, _, _, z_rate, pitch_rate, _, _] = *state;
    (z - leg.ahead * pitch, z_rate - leg.ahead * pitch_rate)
}

pub(crate) fn lift_share_of(share: Ratio) -> Result<f64, Error> {
    setting("share of lift", share.si(), 0.0..=0.95, "")
}
