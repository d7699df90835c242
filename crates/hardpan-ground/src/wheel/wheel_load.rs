//! What load stands on each leg?
//!
//! Mass, centre of gravity on the chord and gear geometry → static load of a
//! main leg and of the nose leg, by moments about the main gear; with braking,
//! the load that the nose takes over. Everything missing is listed at once.

use crate::Error;
use crate::error::{positive, within};
use hardpan_model::{Balance, Gear, Given, Need};
use hardpan_quantity::{Force, Length, Mass, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2};

/// Static loads of one main leg and of one nose leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegLoads {
    /// Load of one main leg, the main legs sharing alike.
    pub main_leg: Force,
    /// Load of one nose leg.
    pub nose_leg: Force,
}

/// Lengths that share the weight between the legs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GearArms {
    chord: f64,
    main_gear_at: f64,
    wheelbase: f64,
    main_legs: f64,
    nose_legs: f64,
}

/// Collects every need before giving up.
struct Gather {
    needs: Vec<Need>,
}

impl Gather {
    fn take<T: Clone>(&mut self, given: &Option<Given<T>>, key: &str, how: &str) -> Option<T> {
        if given.is_none() {
            self.needs.push(Need { what: format!("aeroplane: {key}"), how: how.to_owned() });
        }
        given.as_ref().map(|given| given.value.clone())
    }
}

impl GearArms {
    /// The arms from the aeroplane's balance and gear.
    ///
    /// # Errors
    /// [`Error::Missing`] with all needs at once; [`Error::NotPositive`] for a
    /// length or number that is not above zero.
    pub fn of(balance: &Balance, gear: &Gear) -> Result<Self, Error> {
        let manual = "from the weight and balance manual";
        let mut gather = Gather { needs: Vec::new() };
        let chord = gather.take(&balance.mean_chord, "balance.mean_chord", manual);
        let main_gear_at = gather.take(&balance.main_gear_at, "balance.main_gear_at", manual);
        let wheelbase = gather.take(&gear.wheelbase, "gear.wheelbase", manual);
        let main_legs = gather.take(&gear.main.legs, "gear.main.legs", "number of main legs");
        let nose_legs = gather.take(&gear.nose.legs, "gear.nose.legs", "number of nose legs");
        let (Some(chord), Some(main_gear_at), Some(wheelbase), Some(main_legs), Some(nose_legs)) =
            (chord, main_gear_at, wheelbase, main_legs, nose_legs)
        else {
            return Err(Error::Missing { needs: gather.needs });
        };
        Ok(Self {
            chord: positive("mean chord", "m", chord.si())?,
            main_gear_at: within("main gear on the chord", "", main_gear_at.si(), -10.0, 10.0)?,
            wheelbase: positive("wheelbase", "m", wheelbase.si())?,
            main_legs: positive("number of main legs", "", f64::from(main_legs))?,
            nose_legs: positive("number of nose legs", "", f64::from(nose_legs))?,
        })
    }

    /// Static loads at a mass and centre of gravity.
    ///
    /// ```text
    /// N = W (x_main - x_cg) c / b,  M = (W - N) / legs
    /// ```
    ///
    /// # Errors
    /// As [`Self::braked`].
    pub fn standing(&self, mass: Mass, centre: Ratio) -> Result<LegLoads, Error> {
        self.braked(mass, centre, Length::from_si(0.0), Ratio::from_si(0.0))
    }

    /// Loads while the aeroplane slows down by `deceleration` (a share of g),
    /// with its centre of gravity at `height` over the ground, no lift.
    ///
    /// ```text
    /// N = W ((x_main - x_cg) c + (a/g) h) / b
    /// ```
    ///
    /// # Errors
    /// [`Error::NotPositive`] for a mass that is not above zero,
    /// [`Error::CentreBehindGear`] when the centre of gravity is not ahead of
    /// the main gear, [`Error::OutOfRange`] when it lies ahead of the nose gear,
    /// or height and deceleration lift the main wheels.
    pub fn braked(
        &self,
        mass: Mass,
        centre: Ratio,
        height: Length,
        deceleration: Ratio,
    ) -> Result<LegLoads, Error> {
        let weight = positive("mass", "kg", mass.si())? * STANDARD_GRAVITY_M_PER_S2;
        let height = within("height of the centre of gravity", "m", height.si(), 0.0, 20.0)?;
        let slowing = within("deceleration over g", "", deceleration.si(), 0.0, 1.5)?;
        let ahead = (self.main_gear_at - centre.si()) * self.chord;
        if ahead.is_nan() || ahead <= 0.0 {
            return Err(Error::CentreBehindGear {
                centre_percent: centre.si() * 1e2,
                gear_percent: self.main_gear_at * 1e2,
            });
        }
        let nose = within(
            "share of the weight on the nose gear",
            "",
            (ahead + slowing * height) / self.wheelbase,
            0.0,
            1.0,
        )?;
        Ok(LegLoads {
            main_leg: Force::from_si(weight * (1.0 - nose) / self.main_legs),
            nose_leg: Force::from_si(weight * nose / self.nose_legs),
        })
    }
}

/// Static leg loads of a flight: at the stated centre of gravity, or, where
/// none is stated, the main leg at the aft limit and the nose leg at the
/// forward limit, so that each is the heaviest it can be.
///
/// # Errors
/// [`Error::Missing`] with all needs at once, and as [`GearArms::standing`].
pub fn leg_loads(
    mass: Mass,
    centre: Option<Ratio>,
    balance: &Balance,
    gear: &Gear,
) -> Result<LegLoads, Error> {
    let arms = GearArms::of(balance, gear);
    let Some(centre) = centre else {
        let how = "or state the centre of gravity of the flight";
        let mut gather = Gather { needs: Vec::new() };
        let aft = gather.take(&balance.aft_limit, "balance.aft_limit", how);
        let forward = gather.take(&balance.forward_limit, "balance.forward_limit", how);
        return match (arms, aft, forward) {
            (Ok(arms), Some(aft), Some(forward)) => Ok(LegLoads {
                main_leg: arms.standing(mass, aft)?.main_leg,
                nose_leg: arms.standing(mass, forward)?.nose_leg,
            }),
            (Err(Error::Missing { mut needs }), ..) => {
                needs.append(&mut gather.needs);
                Err(Error::Missing { needs })
            }
            (Err(error), ..) => Err(error),
            (Ok(_), ..) => Err(Error::Missing { needs: gather.needs }),
        };
    };
    arms?.standing(mass, centre)
}
