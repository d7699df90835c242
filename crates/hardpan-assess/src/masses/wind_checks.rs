//! Approved limits on the wind of a movement, beside those on its mass.

use super::Check;
use super::sheet::SheetMovement;
use crate::context::bounds_today;
use crate::measured::Known;
use hardpan_model::{Bound, Flight, Phase};
use hardpan_quantity::Speed;
use hardpan_run::WindComponents;

/// Approved limits on the wind of a movement: no mass is light enough for too
/// much of it.
pub(super) fn wind_checks<'a>(
    flight: &'a Flight,
    movement: SheetMovement,
    wind: Option<&'a Known<WindComponents>>,
) -> Vec<Check<'a>> {
    let Some(Ok(wind)) = wind else { return Vec::new() };
    let components = [
        ("crosswind", "approved crosswind limit", wind.crosswind),
        ("tailwind", "approved tailwind limit", -wind.headwind),
    ];
    let phases: &[Phase] = match movement {
        SheetMovement::TakeOff => &[Phase::TakeOff, Phase::BeforeBrakeRelease, Phase::Always],
        SheetMovement::Landing => &[Phase::Landing, Phase::Always],
    };
    let holds = |name: &str, component: Speed| {
        let of_it = flight.aeroplane.limits.iter().filter(|limit| {
            limit.quantity.value == name
                && limit.bound == Bound::AtMost
                && phases.contains(&limit.phase)
                && bounds_today(flight, limit)
        });
        let mut most = of_it.filter_map(|limit| limit.value.value.get::<Speed>());
        most.all(|most| component <= most)
    };
    let checks = components.into_iter().map(|(name, title, component)| {
        let holds = holds(name, component);
        Check::new("L10", title, move |_| Ok(holds))
    });
    checks.collect()
}
