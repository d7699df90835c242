//! G22: where the wheels are braked, apart from where they roll.

use crate::context::Context;
use crate::draft::{Draft, beside, derived, plain_step};
use crate::ground::LegKind;
use crate::ground::top_shear::{shear_steps, weakest_top};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::run_basis::by_station;
use hardpan_model::{Finding, Mark, Phase, RunTrace, Source, Step, SurfaceKind, Tier};
use hardpan_quantity::{Amount, Force, Length, Quantity, Ratio, percent, ratio};

pub(super) const RULE: Rule = Rule {
    code: "G22",
    name: "Braking zones",
    checks: "Where the landing and the rejected take-off brake: the drag of a braked wheel, as a \
             share of the load on it, and on dirt and grass the shear of the upper 150 mm that \
             drag and tyre pressure ask for.",
    why: "Flights on unpaved strips broke surfaces where they braked that carried the same wheels \
          rolling: vertical load alone is not conservative there.",
    limit: "Shear and inclined bearing of ground with one undrained strength of 30 kPa for each \
            CBR credited, at most 100 %. For gravel no law was read: the finding is conditional.",
    applies: "Flights whose runs brake. Plane strain, uniform tyre pressure. Scrub of bogies and \
              of turned nose wheels is not counted.",
    source: Source::new("TINGLE-GROGAN-1999", "abstract: braking and turning", Tier::Published),
    judge,
};

/// The heaviest braking of one run and the stretch over which it brakes.
struct Braking {
    from: Length,
    to: Length,
    /// Drag over load of a braked wheel.
    share: Ratio,
    force: Force,
    on_wheels: Force,
}

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let measured = context.measured;
    let landing = measured.landing.as_ref().map(|run| {
        let trace = run.as_ref().map(|run| run.trace.clone()).map_err(Clone::clone);
        check(context, Phase::Landing, "braking on landing", trace)
    });
    let take_off = measured.take_off.as_ref().map(|run| {
        let trace = run.as_ref().map(|run| run.rejected_trace.clone()).map_err(Clone::clone);
        check(context, Phase::TakeOff, "braking of a rejected take-off", trace)
    });
    landing.into_iter().chain(take_off).collect()
}

fn check(
    context: &Context<'_>,
    phase: Phase,
    title: &str,
    trace: Known<Option<RunTrace>>,
) -> Finding {
    let draft = Draft::new(&RULE, title, phase).mark(Mark::PlanningOnly);
    let trace = match trace {
        Ok(trace) => trace,
        Err(why) => return draft.unavailable(&why),
    };
    let braking = match trace.as_ref().map(|trace| heaviest(context, trace)) {
        Some(Ok(Some(braking))) => braking,
        Some(Err(why)) => return draft.unavailable(&why),
        Some(Ok(None)) | None => {
            return draft.unproven("the run does not show where it brakes", []);
        }
    };
    let draft = draft.place(braking.from, braking.to, None);
    match &context.flight.strip.surface {
        Some(surface) if surface.value == SurfaceKind::Gravel => gravel(context, draft, &braking),
        Some(_) => sheared(draft, context, &braking),
        None => draft.unproven(
            "the material of the surface is not stated",
            [crate::draft::need("strip: surface", "gravel, dirt or grass")],
        ),
    }
}

fn heaviest(context: &Context<'_>, trace: &RunTrace) -> Known<Option<Braking>> {
    let main = &context.flight.aeroplane.gear.main;
    let (Some(legs), Some(wheels)) = (&main.legs, &main.wheels) else {
        return Err(Unavailable::missing(
            "the drag of the braked wheels",
            vec![crate::draft::need("aeroplane: gear.main.legs, gear.main.wheels", "of each leg")],
        ));
    };
    let all = f64::from(legs.value.max(1)) * f64::from(wheels.value.max(1));
    let braked = context.flight.aeroplane.brakes.wheels.as_ref();
    let braked = braked.map_or(all, |wheels| f64::from(wheels.value)).clamp(1.0, all);
    let mut worst: Option<Braking> = None;
    for point in &trace.points {
        let on_wheels = point.main_leg_load * f64::from(legs.value.max(1)) * (braked / all);
        if point.braking.si() <= 1.0 || on_wheels.si() <= 1.0 {
            continue;
        }
        let share = ratio(point.braking.si() / on_wheels.si());
        let (force, station) = (point.braking, point.station);
        worst = Some(match worst {
            None => Braking { from: station, to: station, share, force, on_wheels },
            Some(before) => {
                let heavier = share > before.share;
                let (force, on_wheels, share) = if heavier {
                    (force, on_wheels, share)
                } else {
                    (before.force, before.on_wheels, before.share)
                };
                let from = if station < before.from { station } else { before.from };
                let to = if station > before.to { station } else { before.to };
                Braking { from, to, share, force, on_wheels }
            }
        });
    }
    Ok(worst)
}

fn share_step(context: &Context<'_>, braking: &Braking) -> Step {
    let runs = [true, false].map(|landing| by_station(context.measured, landing));
    plain_step(
        "drag over load of the braked wheels",
        "braking force / load on the braked wheels; the greatest along the run",
        derived("a ratio of two forces of the run"),
        [
            beside("braking force", braking.force, "where the share is the greatest")
                .under("braking force"),
            beside(
                "load on the braked wheels",
                braking.on_wheels,
                "where the share is the greatest",
            )
            .under("load on the braked wheels"),
        ]
        .into_iter()
        .chain(runs.into_iter().flatten())
        .collect(),
        braking.share,
    )
}

fn handling(braking: &Braking) -> String {
    let stretch = Amount::from(braking.from).told_to(braking.to.into());
    format!("brake gently at {stretch}")
}

fn gravel(context: &Context<'_>, draft: Draft, braking: &Braking) -> Finding {
    let draft = draft.step(share_step(context, braking));
    draft.value(braking.share).instruct(handling(braking)).conditional(
        "no law for the shear of gravel under braked wheels was read; the strength check of G20 \
         is for rolling wheels; look for torn or shoved surface there afterwards",
    )
}

fn sheared(draft: Draft, context: &Context<'_>, braking: &Braking) -> Finding {
    let pressure = match &context.measured.main_tyre {
        Ok(tyre) => tyre.set,
        Err(why) => return draft.unavailable(why),
    };
    let over = (braking.from, braking.to);
    let (lane, mean) = match weakest_top(context, LegKind::Main, over, "braked") {
        Ok(weakest) => weakest,
        Err(why) => return draft.unavailable(&why),
    };
    let (shear, steps) =
        shear_steps("drag", (share_step(context, braking), braking.share), pressure, mean);
    let draft = draft
        .place(braking.from, braking.to, Some(lane))
        .value(shear.utilisation)
        .at_most(percent(100.0))
        .steps(steps);
    if shear.utilisation.si() > 1.0 {
        return draft.instruct(handling(braking)).fail(
            "the top of the ground gives way under wheels braked so hard at this tyre pressure",
        );
    }
    draft.instruct(handling(braking)).conditional(
        "the law is for ground of one strength; a sod or a loose top may still tear: look there \
                      afterwards",
    )
}
