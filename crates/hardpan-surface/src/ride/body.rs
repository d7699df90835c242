//! A rigid body on two legs: its motion in heave and pitch.

use crate::error::{Error, setting};
use crate::ride::RigidAeroplane;
use crate::ride::both_legs::{BothLegs, Pushes};
use crate::ride::leg::{Leg, Push};
use hardpan_quantity::{Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2};
use wide::f64x2;

/// Share of the weight between two states at rest that tell how one becomes the other.
const NEARBY: f64 = 1e-4;

/// Height and pitch (nose down), heights of both wheels, and the rates of these.
pub(crate) type State = [f64x2; 4];

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
    pub(super) on_ground: f64x2,
    pub(super) bottomed: f64x2,
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
        let [_, _, body_rates, wheel_rates] = *state;
        let Pushes { on_body, on_ground, wheels, bottomed } = self.pushes(state, ground);
        let [nose, main] = on_body.to_array();
        let [nose_turns, main_turns] = (self.ahead * on_body).to_array();
        let force = nose + main + share * self.weight;
        let heave = force * self.by_mass - STANDARD_GRAVITY_M_PER_S2;
        let turning = -(nose_turns + main_turns) * self.by_inertia;
        let rates = [body_rates, wheel_rates, [heave, turning].into(), wheels];
        Moment { rates, on_ground, bottomed }
    }

    /// What both legs do.
    #[inline(always)]
    fn pushes(&self, state: &State, ground: Under) -> Pushes {
        if let Some(both) = &self.both {
            let [body, wheels, body_rates, wheel_rates] = *state;
            let ends = (self.over_legs(body), self.over_legs(body_rates));
            if let Some(pushes) = both.push(ends, (wheels, wheel_rates), ground.0) {
                return pushes;
            }
        }
        self.pushes_one_by_one(state, ground)
    }

    /// What the body does over nose and main gear.
    #[inline(always)]
    fn over_legs(&self, body: f64x2) -> f64x2 {
        let [z, pitch] = body.to_array();
        f64x2::splat(z) - self.ahead * f64x2::splat(pitch)
    }

    #[cold]
    fn pushes_one_by_one(&self, state: &State, ground: Under) -> Pushes {
        let [nose_ends, main_ends] = self.ends(state);
        let [nose_ground, main_ground] = by_leg(ground.0, ground.1);
        let nose = self.nose.push(nose_ends.0, nose_ends.1, nose_ground);
        let main = self.main.push(main_ends.0, main_ends.1, main_ground);
        let each = |value: fn(&Push) -> f64| f64x2::from([value(&nose), value(&main)]);
        Pushes {
            on_body: each(|push| push.on_body),
            on_ground: each(|push| push.on_ground),
            wheels: each(|push| push.wheel_acceleration),
            bottomed: each(|push| if push.bottomed { f64::from_bits(u64::MAX) } else { 0.0 }),
        }
    }

    /// Height and rate of the body over each leg, and of its wheel.
    fn ends(&self, state: &State) -> [((f64, f64), (f64, f64)); 2] {
        let [body, wheels, body_rates, wheel_rates] = *state;
        let [nose, main] = by_leg(self.over_legs(body), self.over_legs(body_rates));
        let [nose_wheel, main_wheel] = by_leg(wheels, wheel_rates);
        [(nose, nose_wheel), (main, main_wheel)]
    }

    /// How fast the legs change, 1/s; `soon` is how far ahead a step looks.
    pub(crate) fn pace(&self, state: &State, soon: f64) -> f64 {
        let [nose, main] = self.ends(state);
        self.nose.pace(nose.0, nose.1, soon).max(self.main.pace(main.0, main.1, soon))
    }

    pub(crate) fn at_rest_on(&self, (levels, rates): Under) -> State {
        [self.on_legs(levels), levels, self.on_legs(rates), rates]
    }

    /// The state on level ground with another share of the weight on the wing, that
    /// changes slowly at a rate.
    pub(crate) fn drifting_under(&self, share: f64, rate: f64) -> State {
        let now = self.settled(share);
        let next = self.settled(share + NEARBY);
        let drift = |at: usize| (next[at] - now[at]) * f64x2::splat(rate / NEARBY);
        [now[0], now[1], drift(0), drift(1)]
    }

    /// Heave and pitch, and both wheels at rest with a share of the weight on the wing.
    fn settled(&self, share: f64) -> [f64x2; 2] {
        let carried = self.weight * (1.0 - share);
        let wheelbase = self.wheelbase();
        let nose = self.nose.settled(carried * -self.main.ahead / wheelbase);
        let main = self.main.settled(carried * self.nose.ahead / wheelbase);
        [self.on_legs([nose.0, main.0].into()), [nose.1, main.1].into()]
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
    fn on_legs(&self, over_legs: f64x2) -> f64x2 {
        let [nose, main] = over_legs.to_array();
        let pitch = (main - nose) / self.wheelbase();
        [main + self.main.ahead * pitch, pitch].into()
    }
}

/// Two values of nose and main gear, by leg.
fn by_leg(first: f64x2, second: f64x2) -> [(f64, f64); 2] {
    let ([nose, main], [nose_rate, main_rate]) = (first.to_array(), second.to_array());
    [(nose, nose_rate), (main, main_rate)]
}

pub(crate) fn lift_share_of(share: Ratio) -> Result<f64, Error> {
    setting("share of lift", share.si(), 0.0..=0.95, "")
}
