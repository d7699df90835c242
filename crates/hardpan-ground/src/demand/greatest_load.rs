//! What the greatest of many loads asks of the ground, depth by depth, found once:
//! a point that is strong enough for it need not be asked about a lesser load.

use crate::RequirementTable;
use crate::demand::judge::{DEEP_ENOUGH_PERCENT, LEAST_KNOWN_DEPTH_M};
use crate::sounding::penetrometer::credited;
use hardpan_model::StrengthPoint;
use hardpan_quantity::{Force, Quantity};

/// More than rounding takes from a requirement that rises with the load.
const SURELY: f64 = 1.0 + 1e-9;

/// Depths at which the requirement is kept: it falls with depth, so that between two
/// the upper one asks no less.
const STEP_M: f64 = 0.025;
const STEPS: usize = 81;

/// The requirement of the greatest load by depth.
pub struct GreatestLoad<'a> {
    table: &'a RequirementTable,
    load: f64,
    /// What is needed from each step of depth down; NaN where nobody asked.
    known: [f64; STEPS],
}

impl<'a> GreatestLoad<'a> {
    /// Of the loads of one kind of leg; without bound where there is none.
    #[must_use]
    pub fn of(table: &'a RequirementTable, loads: &[Force]) -> Self {
        let greatest = loads.iter().map(|load| load.si()).reduce(f64::max);
        Self { table, load: greatest.unwrap_or(f64::INFINITY), known: [f64::NAN; STEPS] }
    }

    /// No less than is needed at a depth.
    fn needed(&mut self, depth: f64) -> f64 {
        let step = ((depth / STEP_M) as usize).min(STEPS - 1);
        let Some(known) = self.known.get_mut(step) else { return f64::INFINITY };
        if known.is_nan() {
            *known = SURELY * self.table.needed_si(STEP_M * step as f64, self.load);
        }
        *known
    }

    /// The most of its credited strength that a point may have to give under any of
    /// the loads, where it is known to carry them all; none where it is not.
    pub fn used_at_most(&mut self, point: &StrengthPoint) -> Option<f64> {
        let known_to = point.known_to.si();
        if point.layers.is_empty()
            || !(known_to >= LEAST_KNOWN_DEPTH_M && self.needed(known_to) <= DEEP_ENOUGH_PERCENT)
        {
            return None;
        }
        let mut most = 0.0_f64;
        for &(top, available) in &point.layers {
            let used = self.needed(top.si()) / credited(available).percent();
            if used.is_nan() || used > 1.0 {
                return None;
            }
            most = most.max(used);
        }
        Some(most)
    }
}
