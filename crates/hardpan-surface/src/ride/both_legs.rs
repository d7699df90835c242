//! Nose and main gear on struts, reckoned side by side: a ride asks both at every
//! stage, and one instruction does for two.

use crate::ride::curve::Curve;
use crate::ride::leg::Leg;
use crate::ride::whole::steps_and_rests;
use hardpan_quantity::STANDARD_GRAVITY_M_PER_S2;
use wide::{CmpGe, CmpLt, f64x2};

/// What nose and main gear do at a moment, in this order.
pub(super) struct Pushes {
    pub(super) on_body: f64x2,
    pub(super) on_ground: f64x2,
    /// Accelerations of the wheels.
    pub(super) wheels: f64x2,
    /// All bits set where a strut is at its bottom.
    pub(super) bottomed: f64x2,
}

/// Struts and tyres of nose and main gear, in this order.
pub(super) struct BothLegs {
    stroke: f64x2,
    deflection: f64x2,
    damping: f64x2,
    tyre_start: f64x2,
    by_unsprung: f64x2,
    bottom: f64x2,
    gas: [Curve; 2],
    gas_per_unit: f64x2,
    tyre: [Curve; 2],
    tyre_per_unit: f64x2,
}

impl BothLegs {
    /// None where a leg is a spring.
    pub(super) fn of(nose: &Leg, main: &Leg) -> Option<Self> {
        let (a, b) = (nose.struck()?, main.struck()?);
        Some(Self {
            stroke: [nose.stroke, main.stroke].into(),
            deflection: [nose.deflection, main.deflection].into(),
            damping: [a.law.damping, b.law.damping].into(),
            tyre_start: [a.tyre_start, b.tyre_start].into(),
            by_unsprung: [a.by_unsprung, b.by_unsprung].into(),
            bottom: [a.bottom, b.bottom].into(),
            gas: [a.gas.clone(), b.gas.clone()],
            gas_per_unit: [a.gas.per_unit(), b.gas.per_unit()].into(),
            tyre: [a.tyre.clone(), b.tyre.clone()],
            tyre_per_unit: [a.tyre.per_unit(), b.tyre.per_unit()].into(),
        })
    }

    /// What both do under a body and wheels with their rates, over the ground; none
    /// where one of them is beyond its curves.
    #[inline(always)]
    pub(super) fn push(
        &self,
        body: (f64x2, f64x2),
        wheels: (f64x2, f64x2),
        ground: f64x2,
    ) -> Option<Pushes> {
        let stroke = self.stroke + wheels.0 - body.0;
        let rate = wheels.1 - body.1;
        let squash = self.deflection + ground - wheels.0;
        let (gas_at, tyre_at) = (stroke * self.gas_per_unit, squash * self.tyre_per_unit);
        let last = f64x2::splat(Curve::LAST);
        let on_curves = stroke.cmp_ge(f64x2::ZERO)
            & gas_at.cmp_lt(last)
            & squash.cmp_ge(self.tyre_start)
            & tyre_at.cmp_lt(last);
        if !on_curves.all() {
            return None;
        }
        let strut = both(&self.gas, gas_at)? + self.damping * rate * rate.abs();
        let tyre = both(&self.tyre, tyre_at)?;
        let lifted = (tyre - strut) * self.by_unsprung - f64x2::splat(STANDARD_GRAVITY_M_PER_S2);
        let bottomed = stroke.cmp_ge(self.bottom);
        Some(Pushes { on_body: strut, on_ground: tyre, wheels: lifted, bottomed })
    }
}

/// Two curves, each at its own place.
#[inline(always)]
fn both([nose, main]: &[Curve; 2], along: f64x2) -> Option<f64x2> {
    let ([first, second], rest) = steps_and_rests(along);
    let (p, q) = (nose.piece(first)?, main.piece(second)?);
    let term = |power: usize| f64x2::from([p[power], q[power]]);
    Some(term(0) + rest * (term(1) + rest * (term(2) + rest * term(3))))
}
