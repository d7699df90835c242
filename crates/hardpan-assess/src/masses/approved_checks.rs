//! Approved limits on what no mass changes, beside those on the mass.

use super::Check;
use super::sheet::SheetMovement;
use crate::context::{Context, bounds_today};
use crate::measured::Measured;
use crate::rides::Asked;
use hardpan_model::{ApprovedLimit, Bound, Flight, Phase};

/// What no mass changes, and the title of the limit on it.
const FIXED: [(&str, &str); 7] = [
    ("crosswind", "approved crosswind limit"),
    ("tailwind", "approved tailwind limit"),
    ("outside temperature", "approved temperature limit"),
    ("pressure altitude", "approved altitude limit"),
    ("runway slope", "approved slope limit"),
    ("surfacing thickness", "approved surfacing limit"),
    ("strip width", "approved width limit"),
];

/// Approved limits on wind, air and strip of a movement: where one is not kept, no mass
/// is light enough. One whose value is not known is left to its finding.
pub(super) fn approved_checks<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    movement: SheetMovement,
) -> Vec<Check<'a>> {
    let phases: &[Phase] = match movement {
        SheetMovement::TakeOff => &[Phase::TakeOff, Phase::BeforeBrakeRelease, Phase::Always],
        SheetMovement::Landing => &[Phase::Landing, Phase::Always],
    };
    let context = Context::tried(flight, measured, Asked::Verdict);
    let limits = flight.aeroplane.limits.iter();
    let of_movement =
        limits.filter(|limit| phases.contains(&limit.phase) && bounds_today(flight, limit));
    let check = |limit: &ApprovedLimit| {
        let name = limit.quantity.value.as_str();
        let (_, title) = FIXED.into_iter().find(|(fixed, _)| *fixed == name)?;
        let found = context.quantity(name, phase_of(limit, movement))?.ok()?;
        let most = limit.value.value;
        let is_kept = found.dimension != most.dimension
            || match limit.bound {
                Bound::AtMost => found.si <= most.si,
                Bound::AtLeast => found.si >= most.si,
            };
        Some(Check::new("L10", title, move |_| Ok(is_kept)))
    };
    of_movement.filter_map(check).collect()
}

/// Winds of the other movement are no matter of this one.
const fn phase_of(limit: &ApprovedLimit, movement: SheetMovement) -> Phase {
    match (limit.phase, movement) {
        (Phase::Always, SheetMovement::TakeOff) => Phase::TakeOff,
        (Phase::Always, SheetMovement::Landing) => Phase::Landing,
        (phase, _) => phase,
    }
}
