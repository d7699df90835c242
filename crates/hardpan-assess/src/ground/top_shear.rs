//! The top of fine-grained ground under wheels that push along or across it.

use super::LegKind;
use super::two_layers::from_step;
use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{beside, computed, derived, need, plain_step};
use crate::measured::{Known, Unavailable};
use hardpan_ground::{
    INCLINED_BEARING, NOMINAL_COVER_M, SurfaceShear, UNDRAINED_STRENGTH, penetrometer,
    surface_shear,
};
use hardpan_model::{Lane, Step};
use hardpan_quantity::{Amount, BearingRatio, Length, Pressure, Quantity, Ratio};

/// The weakest of the upper ground in the lanes of a leg over a stretch, on which
/// something is done to the wheels.
pub(crate) fn weakest_top(
    context: &Context<'_>,
    leg: LegKind,
    (from, to): (Length, Length),
    done: &str,
) -> Known<(Lane, BearingRatio)> {
    let ground = context.measured.ground.as_ref().map_err(Clone::clone)?;
    let mut weakest: Option<(Lane, BearingRatio)> = None;
    for (lane, _, point) in ground.points(leg) {
        if point.station < from || point.station > to {
            continue;
        }
        let upper = point.layers.iter().filter(|(top, _)| top.si() < NOMINAL_COVER_M);
        let least = upper.map(|(_, bearing)| *bearing).reduce(|a, b| if b < a { b } else { a });
        let Some(least) = least else {
            let nearest = need(
                &format!("soundings: one at station {}", Amount::from(point.station).told()),
                &format!("the wheels are {done} there"),
            );
            return Err(Unavailable {
                because: format!(
                    "part of the ground on which the wheels are {done} is not sounded"
                ),
                needs: vec![nearest],
            });
        };
        if weakest.is_none_or(|(_, before)| least < before) {
            weakest = Some((lane, least));
        }
    }
    weakest.ok_or_else(|| Unavailable::missing("the strength of the ground there", Vec::new()))
}

/// What a wheel asks of the top that pushes at it with a share of its load, and
/// how that came about, the share first.
pub(crate) fn shear_steps(
    push: &str,
    (share_step, share): (Step, Ratio),
    pressure: Pressure,
    mean: BearingRatio,
) -> (SurfaceShear, Vec<Step>) {
    let credited = penetrometer::credited(mean);
    let shear = surface_shear(pressure, share, credited);
    let factor = shear.bearing.si() / shear.strength.si().max(f64::MIN_POSITIVE);
    let slides = (shear.drag.si() / shear.strength.si()).min(1.0);
    let on_area = plain_step(
        &format!("{push} on the contact area"),
        &format!("tyre pressure × {push} over load"),
        derived("load over contact area is the tyre pressure"),
        vec![
            computed("tyre pressure", pressure, "T10"),
            from_step(&format!("{push} over load"), share, 0),
        ],
        shear.drag,
    );
    let by = "soundings of the strip";
    let strength = Step {
        computes: "shear strength of the upper 150 mm".to_owned(),
        ..catalogued(
            &UNDRAINED_STRENGTH,
            vec![computed("bearing_ratio", credited, by)],
            shear.strength,
        )
    };
    let slides = beside(
        "drag_share",
        Amount::coefficient(slides),
        "the step of that push over the \
        one before it, at most 1",
    );
    let bearing = (shear.bearing.si() > 0.0).then(|| Step {
        computes: format!("vertical pressure over shear strength beside that {push}"),
        ..catalogued(
            &INCLINED_BEARING,
            vec![
                slides,
                from_step(push, shear.drag, 1),
                from_step("shear strength", shear.strength, 2),
            ],
            Amount::coefficient(factor),
        )
    });
    let used = plain_step(
        "strength used",
        &format!(
            "the greater of {push} / shear strength and tyre pressure / (factor × shear strength)"
        ),
        derived("a ratio of the steps above"),
        vec![from_step(push, shear.drag, 1), from_step("shear strength", shear.strength, 2)],
        shear.utilisation,
    );
    let steps = [share_step, on_area, strength].into_iter().chain(bearing).chain([used]);
    (shear, steps.collect())
}
