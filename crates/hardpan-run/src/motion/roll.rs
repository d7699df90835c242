//! The forces on an aeroplane that rolls, and how they share the wheels' load.
//!
//! Lift takes load off all wheels. The braked main wheels give the braking
//! coefficient times the load that is really on them, which is less by what
//! braking moves to the nose; nose wheels roll. The moments about the main
//! wheels give, with the height `h` of the centre of gravity and its distance
//! `e` ahead of the main gear on a wheelbase `l`:
//!
//! ```text
//! N_nose (l - (mu_nose - mu_main) h) = (W - L) (e + mu_main h)
//! ```

use crate::engine::schedule::ThrustSchedule;
use crate::engine::thrust::Thrust;
use crate::grip::contaminant::Wading;
use crate::grip::wet_paved::WetCurve;
use crate::motion::ground::Local;
use hardpan_quantity::STANDARD_GRAVITY_M_PER_S2 as GRAVITY;

/// How the wheels carry load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wheels {
    /// Distance of the centre of gravity ahead of the main gear over wheelbase.
    pub(crate) nose_share: f64,
    /// Height of the centre of gravity over wheelbase.
    pub(crate) height: f64,
    /// Share of the main wheels that have brakes.
    pub(crate) braked_share: f64,
}

/// What the brakes do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Brakes {
    /// Off.
    Off,
    /// On, at the coefficient of the ground.
    Ground,
    /// On, at the coefficient of wet pavement at the speed.
    WetPaved(WetCurve),
}

/// One configuration on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Roll {
    pub(crate) mass: f64,
    /// Half the density times the wing area, kg/m.
    pub(crate) half_density_area: f64,
    pub(crate) lift: f64,
    pub(crate) drag: f64,
    pub(crate) thrust: Thrust,
    pub(crate) schedule: ThrustSchedule,
    pub(crate) headwind: f64,
    pub(crate) wheels: Wheels,
    pub(crate) brakes: Brakes,
    /// Greatest rolling coefficient that counts.
    pub(crate) rolling_limit: f64,
    /// Deceleration that automatic brakes hold where the wheels could do more;
    /// infinite without them.
    pub(crate) brake_target: f64,
    /// Greatest force of all brakes, whatever the grip; infinite where it is not
    /// stated.
    pub(crate) brake_force: f64,
    /// What standing water drags at; none in a stop, where it is no brake.
    pub(crate) wading: Option<Wading>,
}

/// Rolling coefficient that a stop may count on, the least that is printed for
/// pavement: soft ground may slow the aeroplane, but it is no brake.
/// Source: [RAYMER-2018] table 17.1, icy pavement.
pub(crate) const ROLLING_CREDIT_IN_A_STOP: f64 = 0.02;

/// The forces at one moment, N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Forces {
    pub(crate) thrust: f64,
    pub(crate) lift: f64,
    pub(crate) drag: f64,
    pub(crate) rolling: f64,
    pub(crate) braking: f64,
    pub(crate) nose: f64,
    pub(crate) main: f64,
    pub(crate) net: f64,
}

impl Roll {
    /// Coefficient of all wheels together on the load that they share, and the
    /// brakes' part of it; for brakes that follow the ground.
    #[inline]
    pub(crate) fn resistance(&self, local: &Local) -> (f64, f64) {
        let unbraked = local.rolling.min(self.rolling_limit);
        if self.brakes == Brakes::Off {
            return (unbraked, 0.0);
        }
        let share = self.wheels.braked_share;
        let along_main = share * local.braking + (1.0 - share) * unbraked;
        let (nose, main) = self.wheels.split(1.0, unbraked, along_main);
        let braking = share * local.braking * main;
        (braking + unbraked * (nose + (1.0 - share) * main), braking)
    }

    /// Drag in the water that is there over the square of the ground speed.
    #[inline]
    pub(crate) fn wading_drag(&self, local: &Local) -> f64 {
        match &self.wading {
            Some(wading) if local.water > 0.0 => wading.drag(local.water),
            _ => 0.0,
        }
    }

    /// Net force and braking force at a ground speed, N; as [`Self::forces`].
    #[inline]
    pub(crate) fn pull(&self, speed: f64, local: &Local) -> (f64, f64) {
        if self.brakes != Brakes::Off {
            let forces = self.forces(speed, *local);
            return (forces.net, forces.braking);
        }
        let weight = self.mass * GRAVITY;
        let airspeed = speed + self.headwind;
        let forward = airspeed.max(0.0);
        let lift = self.lift * self.half_density_area * forward * forward;
        let drag = self.drag * self.half_density_area * airspeed * airspeed.abs();
        let thrust = self.schedule.share_si(speed) * self.thrust.at(airspeed);
        let rolling = local.rolling.min(self.rolling_limit) * (weight - lift).max(0.0);
        let water = self.wading_drag(local) * speed * speed;
        (thrust - drag - rolling - water - weight * local.grade, 0.0)
    }

    /// Forces at a ground speed on the ground that is there.
    #[inline]
    pub(crate) fn forces(&self, speed: f64, local: Local) -> Forces {
        let weight = self.mass * GRAVITY;
        let airspeed = speed + self.headwind;
        let forward = airspeed.max(0.0);
        let lift = self.lift * self.half_density_area * forward * forward;
        let drag = self.drag * self.half_density_area * airspeed * airspeed.abs();
        let thrust = self.schedule.share_si(speed) * self.thrust.at(airspeed);
        let load = (weight - lift).max(0.0);
        let unbraked = local.rolling.min(self.rolling_limit);
        let braked = match self.brakes {
            Brakes::Off => unbraked,
            Brakes::Ground => local.braking,
            Brakes::WetPaved(curve) => curve.coefficient(speed),
        };
        let share = if self.brakes == Brakes::Off { 0.0 } else { self.wheels.braked_share };
        let along_main = share * braked + (1.0 - share) * unbraked;
        let (mut nose, mut main) = self.wheels.split(load, unbraked, along_main);
        let mut braking = share * braked * main;
        if braking > self.brake_force {
            braking = self.brake_force;
            (nose, main) = self.wheels.split_by(load, unbraked, (1.0 - share) * unbraked, braking);
        }
        let rolling = unbraked * (nose + (1.0 - share) * main);
        let rolling = rolling + self.wading_drag(&local) * speed * speed;
        let net = thrust - drag - rolling - braking - weight * local.grade;
        // Automatic brakes give up what goes beyond their target.
        let given_up = (-self.mass * self.brake_target - net).clamp(0.0, braking);
        let (net, braking) = (net + given_up, braking - given_up);
        Forces { thrust, lift, drag, rolling, braking, nose, main, net }
    }
}

impl Wheels {
    /// Every wheel alike: no load on the nose, all main wheels braked.
    pub(crate) const ALIKE: Self = Self { nose_share: 0.0, height: 0.0, braked_share: 1.0 };

    /// Load on nose and main wheels for coefficients of nose and main wheels.
    #[inline]
    fn split(&self, load: f64, along_nose: f64, along_main: f64) -> (f64, f64) {
        self.split_by(load, along_nose, along_main, 0.0)
    }

    /// The same with a force of the brakes besides that no coefficient tells.
    #[inline]
    fn split_by(&self, load: f64, along_nose: f64, along_main: f64, braking: f64) -> (f64, f64) {
        let moment = load * (self.nose_share + along_main * self.height) + braking * self.height;
        let arm = 1.0 + (along_main - along_nose) * self.height;
        let nose = if arm == 1.0 { moment } else { moment / arm.max(f64::MIN_POSITIVE) };
        let nose = nose.clamp(0.0, load);
        (nose, load - nose)
    }
}
