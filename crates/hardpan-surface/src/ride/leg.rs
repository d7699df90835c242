//! One leg of a ride: a spring, or a strut over a tyre, with what it does at a
//! moment.

use crate::error::Error;
use crate::ride::curve::Curve;
use crate::ride::strut::{Law, OleoLaw, Support};
use hardpan_quantity::STANDARD_GRAVITY_M_PER_S2;

/// Deflection up to which a tyre is tabulated, as a multiple of the standing one.
const TABULATED: f64 = 4.0;

/// Load that stands well off the stop, over the preload.
const OFF_STOP: f64 = 1.1;

pub(crate) struct Leg {
    law: Carrying,
    /// Ahead of the centre of gravity; negative behind.
    pub(crate) ahead: f64,
    load: f64,
    pub(super) stroke: f64,
    pub(super) deflection: f64,
    /// Load on the ground when the wing carries nothing.
    pub(crate) standing: f64,
}

enum Carrying {
    Spring { stiffness: f64, damping: f64 },
    Oleo(Box<Struck>),
}

/// A strut and its tyre, ready to be asked often.
pub(super) struct Struck {
    pub(super) law: OleoLaw,
    pub(super) gas: Curve,
    pub(super) tyre: Curve,
    /// Deflection below which the tyre's curve is not smooth.
    pub(super) tyre_start: f64,
    stop_damping: f64,
    pub(super) bottom: f64,
    /// Wheels on tyre and gas about the standing stroke, 1/s.
    hop: f64,
    /// One over the unsprung mass, 1/kg.
    pub(super) by_unsprung: f64,
    /// How fast the oil works for each m/s of the stroke's rate, 1/m.
    oil: f64,
}

/// What one leg does at a moment.
pub(crate) struct Push {
    pub(crate) on_body: f64,
    pub(crate) on_ground: f64,
    pub(crate) wheel_acceleration: f64,
    pub(crate) bottomed: bool,
}

impl Struck {
    fn new(law: OleoLaw, stroke: f64, deflection: f64) -> Self {
        let bottom = law.bottom();
        let gas = Curve::new(bottom, |stroke| (law.gas_force(stroke), law.gas_slope(stroke)));
        let last = TABULATED * deflection.max(1e-4);
        let tyre = Curve::new(last, |squash| (law.tyre_force(squash), law.tyre_slope(squash)));
        let stiffness = law.tyre_slope(deflection) + law.gas_slope(stroke.max(0.0));
        Self {
            gas,
            tyre,
            tyre_start: 0.02 * last,
            stop_damping: law.stop_damping(),
            bottom,
            hop: (stiffness / law.unsprung).sqrt(),
            by_unsprung: 1.0 / law.unsprung,
            oil: 2.0 * law.damping / law.unsprung,
            law,
        }
    }

    #[inline(always)]
    fn strut(&self, stroke: f64, rate: f64) -> f64 {
        let oil = self.law.damping * rate * rate.abs();
        if stroke < 0.0 {
            return self.law.gas_force(stroke) + oil + self.stop_damping * rate;
        }
        self.gas.at(stroke).unwrap_or_else(|| self.law.gas_force(stroke)) + oil
    }

    #[inline(always)]
    fn tyre(&self, squash: f64) -> f64 {
        if squash < self.tyre_start {
            return self.law.tyre_force(squash);
        }
        self.tyre.at(squash).unwrap_or_else(|| self.law.tyre_force(squash))
    }

    /// Where the curves, rather than the laws, carry a load: within rounding, so
    /// that nothing moves on level ground.
    fn stroke_under(&self, load: f64, near: f64) -> f64 {
        (0..2).fold(near, |stroke, _| {
            stroke + (load - self.strut(stroke, 0.0)) / self.law.gas_slope(stroke)
        })
    }

    fn deflection_under(&self, load: f64, near: f64) -> f64 {
        (0..2).fold(near, |squash, _| {
            let slope = self.law.tyre_slope(squash);
            if slope > 0.0 { squash + (load - self.tyre(squash)) / slope } else { squash }
        })
    }

    /// How fast it changes at a stroke and a rate of it; on the stop and near
    /// the bottom as fast as it can.
    fn pace(&self, stroke: f64, rate: f64, soon: f64) -> f64 {
        let next = stroke + soon * rate;
        if stroke.min(next) < 0.0 || stroke.max(next) > 0.9 * self.bottom {
            return f64::INFINITY;
        }
        self.hop + self.oil * rate.abs()
    }
}

impl Leg {
    /// A leg that carries `load` of a body of `mass` now, and `standing` without
    /// lift.
    pub(crate) fn new(
        support: &Support,
        ahead: f64,
        load: f64,
        standing: f64,
    ) -> Result<Self, Error> {
        match support.law()? {
            Law::Spring { stiffness, damping } => Ok(Self {
                law: Carrying::Spring { stiffness, damping },
                ahead,
                load,
                stroke: 0.0,
                deflection: 0.0,
                standing,
            }),
            Law::Oleo(oleo) => {
                let oleo = oleo.for_a_ride();
                let wheels = oleo.unsprung * STANDARD_GRAVITY_M_PER_S2;
                let stroke = oleo.static_stroke(load);
                let deflection = oleo.static_deflection(load + wheels);
                let usual = oleo.static_deflection(standing + wheels);
                let struck = Struck::new(oleo, stroke, usual);
                Ok(Self {
                    ahead,
                    load,
                    stroke: struck.stroke_under(load, stroke),
                    deflection: struck.deflection_under(load + wheels, deflection),
                    standing: standing + wheels,
                    law: Carrying::Oleo(Box::new(struck)),
                })
            }
        }
    }

    /// What it does under a body and a wheel with their rates, over the ground.
    #[inline(always)]
    pub(crate) fn push(&self, body: (f64, f64), wheel: (f64, f64), ground: (f64, f64)) -> Push {
        match &self.law {
            Carrying::Spring { stiffness, damping } => {
                let change = stiffness * (ground.0 - body.0) + damping * (ground.1 - body.1);
                let force = (self.load + change).max(0.0);
                Push { on_body: force, on_ground: force, wheel_acceleration: 0.0, bottomed: false }
            }
            Carrying::Oleo(struck) => {
                let stroke = self.stroke + wheel.0 - body.0;
                let rate = wheel.1 - body.1;
                let strut = struck.strut(stroke, rate);
                let tyre = struck.tyre(self.deflection + ground.0 - wheel.0);
                let lifted = (tyre - strut) * struck.by_unsprung;
                Push {
                    on_body: strut,
                    on_ground: tyre,
                    wheel_acceleration: lifted - STANDARD_GRAVITY_M_PER_S2,
                    bottomed: stroke >= struck.bottom,
                }
            }
        }
    }

    /// How fast it changes under a body and a wheel with their rates, 1/s: an
    /// integration must follow it. `soon` is how far ahead the step looks.
    pub(crate) fn pace(&self, body: (f64, f64), wheel: (f64, f64), soon: f64) -> f64 {
        match &self.law {
            Carrying::Spring { .. } => 0.0,
            Carrying::Oleo(struck) => {
                struck.pace(self.stroke + wheel.0 - body.0, wheel.1 - body.1, soon)
            }
        }
    }

    /// Load of the body at which it stands well off the stop.
    pub(crate) fn stands_off_at(&self) -> f64 {
        match &self.law {
            Carrying::Spring { .. } => 0.0,
            Carrying::Oleo(struck) => OFF_STOP * struck.law.gas_force(0.0),
        }
    }

    /// Height of the body and of the wheel at rest on level ground under another
    /// load than that of the beginning.
    pub(crate) fn settled(&self, load: f64) -> (f64, f64) {
        match &self.law {
            Carrying::Spring { stiffness, .. } => ((self.load - load) / stiffness, 0.0),
            Carrying::Oleo(struck) => {
                let law = &struck.law;
                let below = load + law.unsprung * STANDARD_GRAVITY_M_PER_S2;
                let stroke = struck.stroke_under(load, law.static_stroke(load));
                let deflection = struck.deflection_under(below, law.static_deflection(below));
                let wheel = self.deflection - deflection;
                (self.stroke + wheel - stroke, wheel)
            }
        }
    }

    pub(crate) fn is_spring(&self) -> bool {
        self.struck().is_none()
    }

    pub(super) fn struck(&self) -> Option<&Struck> {
        match &self.law {
            Carrying::Spring { .. } => None,
            Carrying::Oleo(struck) => Some(struck),
        }
    }

    /// Fastest rate of change that an even step must follow, 1/s.
    pub(crate) fn fastest(&self, mass: f64) -> f64 {
        match &self.law {
            Carrying::Spring { stiffness, damping } => (stiffness / mass).sqrt() + damping / mass,
            Carrying::Oleo(struck) => struck.law.fastest(),
        }
    }
}
