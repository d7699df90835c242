//! A rigid body on two legs: its motion in heave and pitch.

use crate::error::{Error, setting};
use crate::ride::RigidAeroplane;
use crate::ride::leg::{Leg, Push};
use hardpan_quantity::{Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2};

/// Share of the weight between two states at rest that tell how one becomes the other.
const NEARBY: f64 = 1e-4;

/// Height, pitch (nose down), height of both wheels, and their rates.
pub(crate) type State = [f64; 8];

/// Height and slope of the ground by time under the nose and under the main gear.
pub(crate) type Under = ((f64, f64), (f64, f64));

pub(crate) struct Body {
    pub(crate) mass: f64,
    weight: f64,
    /// One over the mass, 1/kg, and over the inertia in pitch, 1/(kg m²).
    by_mass: f64,
    by_inertia: f64,
    pub(crate) cockpit: f64,
    pub(crate) nose: Leg,
    pub(crate) main: Leg,
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
        Ok(Self {
            mass,
            weight,
            by_mass: 1.0 / mass,
            by_inertia: 1.0 / (mass * gyration * gyration),
            cockpit,
            nose: Leg::new(
                &aeroplane.nose,
                ahead,
                carried * behind / wheelbase,
                weight * behind / wheelbase,
            )?,
            main: Leg::new(
                &aeroplane.main,
                -behind,
                carried * ahead / wheelbase,
                weight * ahead / wheelbase,
            )?,
        })
    }

    pub(crate) fn wheelbase(&self) -> f64 {
        self.nose.ahead - self.main.ahead
    }

    /// Accelerations and loads with a share of the weight on the wing.
    #[inline(always)]
    pub(crate) fn moment(&self, state: &State, share: f64, ground: Under) -> Moment {
        let [_, _, nose, main, z_rate, pitch_rate, nose_rate, main_rate] = *state;
        let nose_push = self.nose.push(over(&self.nose, state), (nose, nose_rate), ground.0);
        let main_push = self.main.push(over(&self.main, state), (main, main_rate), ground.1);
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

    /// How fast the legs change, 1/s; `soon` is how far ahead a step looks.
    pub(crate) fn pace(&self, state: &State, soon: f64) -> f64 {
        let [_, _, nose, main, _, _, nose_rate, main_rate] = *state;
        let nose = self.nose.pace(over(&self.nose, state), (nose, nose_rate), soon);
        nose.max(self.main.pace(over(&self.main, state), (main, main_rate), soon))
    }

    pub(crate) fn at_rest_on(&self, (nose, main): Under) -> State {
        let (z, pitch) = self.on_legs(nose.0, main.0);
        let (z_rate, pitch_rate) = self.on_legs(nose.1, main.1);
        [z, pitch, nose.0, main.0, z_rate, pitch_rate, nose.1, main.1]
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

/// Height and rate of the body over a leg.
#[inline]
fn over(leg: &Leg, state: &State) -> (f64, f64) {
    let [z, pitch, _, _, z_rate, pitch_rate, _, _] = *state;
    (z - leg.ahead * pitch, z_rate - leg.ahead * pitch_rate)
}

pub(crate) fn lift_share_of(share: Ratio) -> Result<f64, Error> {
    setting("share of lift", share.si(), 0.0..=0.95, "")
}
