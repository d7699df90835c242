//! G24: where the aeroplane turns, apart from where it rolls straight.

use crate::context::Context;
use crate::draft::{Draft, computed, derived, given, gravity, need, plain_step};
use crate::ground::LegKind;
use crate::ground::judged::{moved, turned};
use crate::ground::top_shear::{shear_steps, weakest_top};
use crate::rule::Rule;
use hardpan_ground::PointJudgement;
use hardpan_model::{Finding, Mark, Phase, Source, Step, SurfaceKind, Tier, TurningPlace};
use hardpan_quantity::{Amount, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2, percent};

pub(super) const RULE: Rule = Rule {
    code: "G24",
    name: "Turning places",
    checks: "At the worst of the turning places of the strip: the ground under the outer main leg, \
             with the load that turning moves to it; and on dirt and grass the shear of the upper \
             150 mm that the side force of the turn and the tyre pressure ask for, main and nose.",
    why: "A turn loads the outer wheels more, twists bogies and nose wheels, and tears a surface \
          that carries the aeroplane straight.",
    limit: "As G20, with the outer leg's static load and W (v²/g r) h / track on top; the shear \
            as G22, every wheel pushing outward with v²/g r of its load. Scrub has no published \
            law and is left to inspection: the findings are conditional at best.",
    applies: "Strips that state `turning`. Advice where none is stated: an aeroplane that \
              backtracks turns somewhere.",
    source: Source::new("TINGLE-GROGAN-1999", "abstract: braking and turning", Tier::Published),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let places = &context.flight.strip.turning;
    if places.is_empty() {
        let draft =
            Draft::new(&RULE, "turning places", Phase::Taxi).advice().mark(Mark::PlanningOnly);
        return vec![draft.unproven(
            "the strip does not say where aeroplanes turn",
            [need("strip: [[turning]]", "stations and radius of each turning place")],
        )];
    }
    let ground = worst(places.iter().map(|place| check(context, place)));
    let surface = worst(places.iter().flat_map(|place| surface(context, place)));
    ground.into_iter().chain(surface).collect()
}

/// The worst of the findings.
fn worst(findings: impl Iterator<Item = Finding>) -> Option<Finding> {
    let value = |finding: &Finding| finding.value.map_or(0.0, |value| value.si);
    let worse =
        |a: &Finding, b: &Finding| a.verdict.cmp(&b.verdict).then(value(a).total_cmp(&value(b)));
    findings.max_by(worse)
}

/// Side force of the turn over the weight, with how it came about.
fn side_force(place: &TurningPlace) -> Option<(Step, Ratio)> {
    let (radius, speed) = (place.radius.as_ref()?, place.speed.as_ref()?);
    let share = speed.value.si().powi(2) / (STANDARD_GRAVITY_M_PER_S2 * radius.value.si());
    let share = share.is_finite().then(|| Ratio::from_si(share))?;
    let step = plain_step(
        "side force over load of every wheel",
        "v² / (g × r)",
        derived("a steady turn on level ground; each leg holds the mass above it"),
        vec![
            given("speed", speed).under("v"),
            gravity().under("g"),
            given("radius", radius).under("r"),
        ],
        share,
    );
    Some((step, share))
}

/// The top of the ground under the main and the nose wheels in a turn; nothing
/// on gravel, of which no law was read, nor where the turn is not stated.
fn surface(context: &Context<'_>, place: &TurningPlace) -> Vec<Finding> {
    let kind = context.flight.strip.surface.as_ref().map(|surface| surface.value);
    if !matches!(kind, Some(SurfaceKind::Dirt | SurfaceKind::Grass)) {
        return Vec::new();
    }
    let Some((step, share)) = side_force(place) else { return Vec::new() };
    let both = [LegKind::Main, LegKind::Nose];
    both.map(|leg| sheared(context, place, leg, (step.clone(), share))).into()
}

fn sheared(
    context: &Context<'_>,
    place: &TurningPlace,
    leg: LegKind,
    share: (Step, Ratio),
) -> Finding {
    let at = Amount::from(place.from.value).told();
    let over = (place.from.value, place.to);
    let draft = Draft::new(&RULE, format!("surface of turning place at station {at}"), Phase::Taxi)
        .mark(Mark::PlanningOnly)
        .place(over.0, over.1, None)
        .at_most(percent(100.0));
    let tyre = match leg {
        LegKind::Main => &context.measured.main_tyre,
        LegKind::Nose => &context.measured.nose_tyre,
    };
    let found = tyre
        .as_ref()
        .map_err(Clone::clone)
        .and_then(|tyre| Ok((tyre.set, weakest_top(context, leg, over, "turned")?)));
    let (pressure, (lane, mean)) = match found {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let (shear, steps) = shear_steps("side force", share, pressure, mean);
    let draft = draft.place(over.0, over.1, Some(lane)).value(shear.utilisation).steps(steps);
    let wheels = leg.word();
    if shear.utilisation.si() > 1.0 {
        return draft.fail(format!(
            "the top of the ground gives way under the {wheels} wheels in the turn at this tyre \
             pressure"
        ));
    }
    draft.conditional(format!(
        "carries the side force of the {wheels} wheels; a wheel that is turned where it stands \
         may still tear the top: look there afterwards"
    ))
}

fn check(context: &Context<'_>, place: &TurningPlace) -> Finding {
    let title = format!("turning place at station {}", Amount::from(place.from.value).told());
    let draft = Draft::new(&RULE, title, Phase::Taxi)
        .mark(Mark::PlanningOnly)
        .place(place.from.value, place.to, None)
        .at_most(percent(100.0));
    let Some(share) = moved(context, place) else {
        let aeroplane = &context.flight.aeroplane;
        let rows = [
            (place.radius.is_none(), "strip: turning.radius", "of the path of the outer wheels"),
            (place.speed.is_none(), "strip: turning.speed", "greatest speed of the turn"),
            (
                aeroplane.balance.centre_of_gravity_height.is_none(),
                "aeroplane: balance.centre_of_gravity_height",
                "over the ground",
            ),
            (aeroplane.gear.track.is_none(), "aeroplane: gear.track", "between the main legs"),
        ];
        let needs = rows.iter().filter(|row| row.0).map(|row| need(row.1, row.2));
        return draft.unproven("the load that the turn moves to the outer leg is not known", needs);
    };
    match turned(context, place, share) {
        Ok(found) => {
            let mut inputs = vec![
                computed("static load of the leg", found.standing, "moments about the main gear")
                    .under("static load"),
                computed("weight", found.weight, "the heavier planned movement").under("W"),
                gravity().under("g"),
            ];
            let aeroplane = &context.flight.aeroplane;
            let height = aeroplane.balance.centre_of_gravity_height.iter();
            let named = |one, name: &str, symbol| given(name, one).under(symbol);
            inputs.extend(height.map(|one| named(one, "height of the centre of gravity", "h")));
            inputs.extend(aeroplane.gear.track.iter().map(|one| named(one, "track", "track")));
            inputs.extend(place.radius.iter().map(|one| named(one, "radius", "r")));
            inputs.extend(place.speed.iter().map(|one| given("speed", one).under("v")));
            let draft = draft.step(plain_step(
                "load of the outer leg",
                "static load + W × v² / (g × r) × h / track",
                derived("moments about the inner wheels, all side force at the ground"),
                inputs,
                found.load,
            ));
            finish(draft, &found.worst.judgement, place)
        }
        Err(why) => draft.unavailable(&why),
    }
}

fn finish(draft: Draft, judgement: &PointJudgement, place: &TurningPlace) -> Finding {
    let demand = match judgement {
        PointJudgement::Known(demand) => demand,
        PointJudgement::Unknown(unknown) => {
            return draft.unproven(
                "part of the turning place is not known deep or densely enough",
                [unknown.need()],
            );
        }
    };
    let draft = draft.value(demand.utilisation).step(plain_step(
        "strength used",
        "needed / credited; as in G20",
        derived("a ratio of two bearing ratios"),
        vec![
            computed("needed", demand.needed, "the ground of the turning place").under("needed"),
            computed("credited", demand.credited, "the ground of the turning place")
                .under("credited"),
        ],
        demand.utilisation,
    ));
    if !demand.holds() {
        return draft.fail("the ground is too weak for the outer leg in a turn");
    }
    let told = place.speed.as_ref().map(|one| Amount::from(one.value).told());
    let speed = told.unwrap_or_else(|| "the speed stated".to_owned());
    draft.instruct(format!("turn wide at no more than {speed}")).conditional(
        "carries the outer leg; the scrub of the wheels has no published law: never \
                      turn about a locked wheel",
    )
}
