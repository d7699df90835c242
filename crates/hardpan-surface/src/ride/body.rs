//! A rigid body on two legs: its motion in heave and pitch.

use crate::error::{Error, setting};
use crate::ride::RigidAeroplane;
use crate::ride::leg::{Leg, Push};
use hardpan_quantity::{Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2};

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
        let wheelbase = self.wheelbase();
        let pitch = (main.0 - nose.0) / wheelbase;
        let pitch_rate = (main.1 - nose.1) / wheelbase;
        let z = main.0 + self.main.ahead * pitch;
        let z_rate = main.1 + self.main.ahead * pitch_rate;
        [z, pitch, nose.0, main.0, z_rate, pitch_rate, nose.1, main.1]
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
