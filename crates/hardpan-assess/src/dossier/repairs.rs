//! What to cut and fill.

use super::{Shown, StripRepair};
use crate::shape::StripShape;
use hardpan_surface::Repair;

/// Every repair of a shape, by rising station.
pub(super) fn of(shape: &StripShape) -> Shown<Vec<StripRepair>> {
    match &shape.repairs {
        Ok(repairs) => Ok(repairs.iter().map(repair).collect()),
        Err(why) => Err(why.because.clone()),
    }
}

fn repair(repair: &Repair) -> StripRepair {
    StripRepair {
        action: repair.action.word(),
        from: repair.from,
        to: repair.to,
        offsets: (repair.left, repair.right),
        greatest: repair.greatest,
        volume: repair.volume,
        checks: repair.checks.clone(),
    }
}
