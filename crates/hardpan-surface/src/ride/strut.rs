//! What carries the aeroplane: a plain spring and damper, or an oleo-pneumatic
//! strut over a tyre in the form of [NACA-1154].

use crate::error::{Error, setting};
use hardpan_quantity::{Area, Force, Length, Mass, Pressure, Quantity, Speed, Volume};

/// Extension over which a strut's preload is taken up: it stands in for the
/// rigid stop, short against any stroke.
pub(crate) const STOP_M: f64 = 2e-4;
/// Fastest motion of the wheels on that stop in a ride, 1/s: well above wheel
/// hop, so that the ride does not feel it, and slow enough to follow.
const STOP_RATE: f64 = 300.0;
/// Gas volume below which a strut counts as bottomed, share of the extended one.
const BOTTOM_SHARE: f64 = 0.05;

/// A leg's support, for all wheels of the nose or of the main gear together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Support {
    /// Linear spring and damper between body and ground.
    Spring {
        /// A force and the deflection that it causes.
        stiffness: (Force, Length),
        /// A force and the rate of deflection at which the damper gives it.
        damping: (Force, Speed),
    },
    /// Oleo-pneumatic strut over a tyre.
    Oleo(Oleo),
}

/// An oleo-pneumatic strut and its tyre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Oleo {
    /// Pneumatic area.
    pub piston_area: Area,
    /// Gas pressure fully extended, absolute less ambient as the maker states it.
    pub preload: Pressure,
    /// Gas volume fully extended.
    pub gas_volume: Volume,
    /// Polytropic exponent, 1 to 1.4.
    pub polytropic: f64,
    /// A force and the stroke rate at which the oil gives it; it grows with the
    /// square of the rate.
    pub damping: (Force, Speed),
    /// Mass that moves with the wheels.
    pub unsprung: Mass,
    /// A tyre load and the deflection that it causes.
    pub tyre: (Force, Length),
    /// Power of the tyre's load by deflection: 1 for a linear tyre.
    pub tyre_exponent: f64,
}

/// Plain SI values of a support.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Law {
    Spring { stiffness: f64, damping: f64 },
    Oleo(OleoLaw),
}

/// Plain SI values of an oleo.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OleoLaw {
    pub(crate) area: f64,
    pub(crate) preload: f64,
    pub(crate) volume: f64,
    pub(crate) polytropic: f64,
    pub(crate) damping: f64,
    pub(crate) unsprung: f64,
    pub(crate) tyre: f64,
    pub(crate) tyre_exponent: f64,
    /// Extension over which the preload is taken up.
    pub(crate) stop: f64,
}

impl Support {
    pub(crate) fn law(&self) -> Result<Law, Error> {
        let per = |name, pair: (Force, f64)| -> Result<f64, Error> {
            let force = setting("force of a support", pair.0.si(), 0.0..=1e8, "N")?;
            let by = setting(name, pair.1, 1e-6..=1e3, "")?;
            Ok(force / by)
        };
        match self {
            Self::Spring { stiffness, damping } => Ok(Law::Spring {
                stiffness: per("deflection of a support", (stiffness.0, stiffness.1.si()))?,
                damping: per("rate of a damper", (damping.0, damping.1.si()))?,
            }),
            Self::Oleo(oleo) => {
                let rate = setting("rate of a damper", oleo.damping.1.si(), 1e-6..=1e3, "m/s")?;
                let exponent = setting("exponent of a tyre", oleo.tyre_exponent, 0.5..=3.0, "")?;
                let deflection =
                    setting("deflection of a tyre", oleo.tyre.1.si(), 1e-4..=2.0, "m")?;
                Ok(Law::Oleo(OleoLaw {
                    area: setting("pneumatic area", oleo.piston_area.si(), 1e-5..=1.0, "m2")?,
                    preload: setting("preload pressure", oleo.preload.si(), 1e3..=5e7, "Pa")?,
                    volume: setting("gas volume", oleo.gas_volume.si(), 1e-7..=1.0, "m3")?,
                    polytropic: setting("polytropic exponent", oleo.polytropic, 1.0..=1.4, "")?,
                    damping: setting("force of a damper", oleo.damping.0.si(), 0.0..=1e9, "N")?
                        / (rate * rate),
                    unsprung: setting("unsprung mass", oleo.unsprung.si(), 0.1..=1e5, "kg")?,
                    tyre: setting("tyre load", oleo.tyre.0.si(), 1.0..=1e8, "N")?
                        / deflection.powf(exponent),
                    tyre_exponent: exponent,
                    stop: STOP_M,
                }))
            }
        }
    }
}

impl OleoLaw {
    /// The same strut on a stop soft enough for a long ride.
    pub(crate) fn for_a_ride(self) -> Self {
        let soft = self.preload * self.area / (self.unsprung * STOP_RATE * STOP_RATE);
        Self { stop: soft.max(STOP_M), ..self }
    }

    /// `p A (v/(v − A s))^n`: force of the gas at a stroke; below zero stroke the
    /// preload is let off over the length of the stop.
    pub(crate) fn gas_force(&self, stroke: f64) -> f64 {
        let preload = self.preload * self.area;
        if stroke < 0.0 {
            return preload * (1.0 + stroke / self.stop);
        }
        let left = (1.0 - self.area * stroke / self.volume).max(BOTTOM_SHARE);
        preload * left.powf(-self.polytropic)
    }

    /// Slope of the gas force with the stroke.
    pub(crate) fn gas_slope(&self, stroke: f64) -> f64 {
        if stroke < 0.0 {
            return self.preload * self.area / self.stop;
        }
        let gone = self.area * stroke / self.volume;
        self.polytropic * self.gas_force(stroke) * self.area / self.volume / (1.0 - gone)
    }

    /// Force of gas and oil.
    pub(crate) fn force(&self, stroke: f64, rate: f64) -> f64 {
        let stop = if stroke < 0.0 { self.stop_damping() * rate } else { 0.0 };
        self.gas_force(stroke) + self.damping * rate * rate.abs() + stop
    }

    /// Critical damping of the wheels on the stop, so that it does not ring.
    pub(crate) fn stop_damping(&self) -> f64 {
        2.0 * (self.unsprung * self.preload * self.area / self.stop).sqrt()
    }

    /// `m z^r`: force of the tyre; none when it leaves the ground.
    pub(crate) fn tyre_force(&self, deflection: f64) -> f64 {
        if deflection > 0.0 { self.tyre * deflection.powf(self.tyre_exponent) } else { 0.0 }
    }

    /// Slope of the tyre force with the deflection.
    pub(crate) fn tyre_slope(&self, deflection: f64) -> f64 {
        if deflection > 0.0 {
            self.tyre_exponent * self.tyre_force(deflection) / deflection
        } else {
            0.0
        }
    }

    /// Stroke that carries a static load.
    pub(crate) fn static_stroke(&self, load: f64) -> f64 {
        let preload = self.preload * self.area;
        if load <= preload {
            return self.stop * (load / preload - 1.0);
        }
        self.volume / self.area * (1.0 - (preload / load).powf(1.0 / self.polytropic))
    }

    /// Deflection of the tyre that carries a static load.
    pub(crate) fn static_deflection(&self, load: f64) -> f64 {
        (load.max(0.0) / self.tyre).powf(1.0 / self.tyre_exponent)
    }

    /// Stroke at which the strut counts as bottomed.
    pub(crate) fn bottom(&self) -> f64 {
        self.volume / self.area * (1.0 - BOTTOM_SHARE)
    }

    /// Fastest rate of change that an integration must follow, 1/s.
    pub(crate) fn fastest(&self) -> f64 {
        let stop = self.preload * self.area / self.stop;
        (stop / self.unsprung).sqrt() * 2.5
    }
}

/// Greatest tyre load, strut load and stroke in a drop of one leg with the lift
/// equal to the weight: `(tyre, strut, stroke)`; NaN for a strut that would need
/// steps shorter than 1 µs.
pub(crate) fn drop(law: &OleoLaw, upper: f64, speed: f64) -> (f64, f64, f64) {
    const GRAVITY: f64 = hardpan_quantity::STANDARD_GRAVITY_M_PER_S2;
    let rate = |s: [f64; 4]| {
        let [body, wheel, body_rate, wheel_rate] = s;
        let strut = law.force(body - wheel, body_rate - wheel_rate);
        let tyre = law.tyre_force(wheel);
        // Lift equals the whole weight, so the upper mass carries that of the wheels too.
        let lift = (upper + law.unsprung) * GRAVITY;
        let up = (upper * GRAVITY - lift - strut) / upper;
        let down = (law.unsprung * GRAVITY + strut - tyre) / law.unsprung;
        [body_rate, wheel_rate, up, down]
    };
    let slack = law.static_stroke(-law.unsprung * GRAVITY);
    let mut state = [slack, 0.0, speed, speed];
    let step = 0.1 / law.fastest();
    if !(1e-6..=1e-2).contains(&step) {
        return (f64::NAN, f64::NAN, f64::NAN);
    }
    let mut most = (0.0_f64, 0.0_f64, 0.0_f64);
    for _ in 0..(0.4 / step) as usize {
        state = runge_kutta(state, step, &rate);
        let [body, wheel, body_rate, wheel_rate] = state;
        most.0 = most.0.max(law.tyre_force(wheel));
        most.1 = most.1.max(law.force(body - wheel, body_rate - wheel_rate));
        most.2 = most.2.max(body - wheel);
    }
    most
}

/// One classical fourth-order step.
pub(crate) fn runge_kutta<const N: usize>(
    state: [f64; N],
    step: f64,
    rate: &impl Fn([f64; N]) -> [f64; N],
) -> [f64; N] {
    let along = |slope: &[f64; N], by: f64| {
        let mut moved = state;
        moved.iter_mut().zip(slope).for_each(|(value, rate)| *value += by * rate);
        moved
    };
    let k1 = rate(state);
    let k2 = rate(along(&k1, 0.5 * step));
    let k3 = rate(along(&k2, 0.5 * step));
    let k4 = rate(along(&k3, step));
    let mut next = state;
    for (((value, (a, b)), c), d) in next.iter_mut().zip(k1.iter().zip(&k2)).zip(&k3).zip(&k4) {
        *value += step * (a + 2.0 * b + 2.0 * c + d) / 6.0;
    }
    next
}
