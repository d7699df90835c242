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

/// No more than the law of its shear strength is published for.
fn within_law(credited: BearingRatio) -> BearingRatio {
    let most = UNDRAINED_STRENGTH.arguments.first().map(|argument| argument.maximum);
    most.filter(|most| *most < credited.si()).map_or(credited, BearingRatio::from_si)
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
    let counted = within_law(credited);
    let shear = surface_shear(pressure, share, counted);
    let factor = shear.bearing.si() / shear.strength.si().max(f64::MIN_POSITIVE);
    let slides = (shear.drag.si() / shear.strength.si()).min(1.0);
    let on_area = plain_step(
        &format!("{push} on the contact area"),
        &format!("tyre pressure × share; the share of the load that the {push} is"),
        derived("load over contact area is the tyre pressure"),
        vec![
            computed("tyre pressure", pressure, "T10").under("tyre pressure"),
            from_step(&format!("{push} over load"), share, 0).under("share"),
        ],
        shear.drag,
    );
    let by = "soundings of the strip";
    let bearing_ratio = match counted < credited {
        true => vec![
            beside("bearing_ratio", counted, "no more than the law is published for"),
            computed("credited", credited, by),
        ],
        false => vec![computed("bearing_ratio", credited, by)],
    };
    let strength = Step {
        computes: "shear strength of the upper 150 mm".to_owned(),
        ..catalogued(&UNDRAINED_STRENGTH, bearing_ratio, shear.strength)
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
    let used = used_step(push, pressure, (&shear, bearing.as_ref().map(|_| factor)));
    let steps = [share_step, on_area, strength].into_iter().chain(bearing).chain([used]);
    (shear, steps.collect())
}

/// The strength used by the push, and by the load beside it where the top bears any.
fn used_step(
    push: &str,
    pressure: Pressure,
    (shear, factor): (&SurfaceShear, Option<f64>),
) -> Step {
    let pushed = from_step(push, shear.drag, 1).under("push");
    let strength = from_step("shear strength", shear.strength, 2).under("strength");
    let mut inputs = vec![pushed, strength];
    if let Some(factor) = factor {
        inputs.push(computed("tyre pressure", pressure, "T10").under("pressure"));
        inputs.push(from_step("factor", Amount::coefficient(factor), 3).under("factor"));
    }
    let rule = match factor {
        Some(_) => "greater of push / strength and pressure / (factor × strength)",
        None => "push / strength; nothing is left to bear the load",
    };
    plain_step(
        "strength used",
        rule,
        derived("a ratio of the steps above"),
        inputs,
        shear.utilisation,
    )
}
