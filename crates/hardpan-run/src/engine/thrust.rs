//! Thrust of the engines that run, against true airspeed.

use crate::engine::propeller::Propeller;
use hardpan_quantity::{Force, Quantity, Speed};

/// Thrust law with the air of the day already in it, for all running engines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Thrust {
    /// `c0 + c1 V + c2 V²`: turbofan, or a stated thrust.
    Polynomial([f64; 3]),
    /// Propellers.
    Propeller(Propeller),
}

impl Thrust {
    pub(crate) fn constant(force: f64) -> Self {
        Self::Polynomial([force, 0.0, 0.0])
    }

    /// Thrust at a true airspeed, N; a wind from behind counts as standstill.
    #[inline]
    pub(crate) fn at(&self, airspeed: f64) -> f64 {
        let speed = airspeed.max(0.0);
        match self {
            Self::Polynomial([c0, c1, c2]) => c0 + speed * (c1 + speed * c2),
            Self::Propeller(propeller) => propeller.thrust(speed),
        }
    }

    /// The same law for a share of the engines.
    pub(crate) fn share(&self, share: f64) -> Self {
        match self {
            Self::Polynomial([c0, c1, c2]) => {
                Self::Polynomial([c0 * share, c1 * share, c2 * share])
            }
            Self::Propeller(propeller) => Self::Propeller(propeller.share(share)),
        }
    }
}

/// Take-off thrust of all engines by airspeed, in the air of a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullThrust(pub(crate) Thrust);

impl FullThrust {
    /// Thrust of all engines at a true airspeed; a wind from behind counts as
    /// standstill.
    #[must_use]
    pub fn at(&self, airspeed: Speed) -> Force {
        Force::from_si(self.0.at(airspeed.si()))
    }
}
