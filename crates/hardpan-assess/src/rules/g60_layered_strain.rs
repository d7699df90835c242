//! G60: the strain at the top of the weak layer, beside the empirical methods.

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, computed, constant, derived, plain_step, wheel_count, wheel_distance};
use crate::ground::LegKind;
use crate::ground::strain_response::STIFFEST_PERCENT;
use crate::ground::strength_finding::{load_steps, stretch};
use crate::ground::two_layers::{TwoLayers, from_step, two_layers};
use crate::measured::Known;
use crate::rule::Rule;
use hardpan_ground::{
    FLEXIBLE_COVER_CUBIC, FLEXIBLE_COVER_ROOT, PointJudgement, SINGLE_WHEEL_FACTOR,
    STIFFNESS_HEUKELOM_1962, STIFFNESS_OF_GRAVEL_OVER_SOIL, STIFFNESS_TRL, STRAIN_ALLOWED,
    STRAIN_UNDER_LEG,
};
use hardpan_model::{BasisInput, Finding, Flight, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, BearingRatio, Pressure, Quantity, bearing_percent};

pub(super) const RULE: Rule = Rule {
    code: "G60",
    name: "Strain at the weak layer",
    checks: "The vertical strain that all wheels of a main leg bring to the top of the weak layer \
             at the worst place, by layered elastic response, against the strain that a published \
             criterion allows there for the coverages; beside it the cover that the design equation \
             of paved airfields asks for over that layer, in both published forms.",
    why: "A second way to the same answer: where it and the empirical method of G20 part, the \
          place deserves a closer look.",
    limit: "Strain allowed by the criterion for paved airfields, which unpaved ground need not \
            meet. Stiffness from the strength credited, by the lower of two laws where \
            both hold, at most that of CBR 12; gravel at two to four times the soil under it.",
    applies: "Places where a stronger layer lies over a weaker one. Advice: G20 decides.",
    source: Source::new("TM-5-825-2-1", "subgrade strain criterion", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "strain at the top of the weak layer", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat(format!("spread: {}", STRAIN_UNDER_LEG.scatter));
    let place = match two_layers(context) {
        Ok(place) => place,
        Err(why) => return vec![draft.unavailable(&why)],
    };
    let (from, to) = match &context.measured.ground {
        Ok(ground) => stretch(ground, place.worst, place.station),
        Err(_) => (place.station, place.station),
    };
    let draft = draft.place(from, to, Some(place.worst.lane));
    let steps = match steps(context, &place) {
        Ok(steps) => steps,
        Err(why) => return vec![draft.unavailable(&why)],
    };
    let [.., strain, allowed] = steps.as_slice() else { return Vec::new() };
    let (strain, allowed) = (strain.result, allowed.result);
    let used = match &place.worst.judgement {
        PointJudgement::Known(demand) => Amount::from(demand.utilisation).told(),
        PointJudgement::Unknown(_) => "a share not known".to_owned(),
    };
    let draft = draft.value(strain).at_most(allowed).steps(steps);
    let draft = match design(context, &place) {
        Ok((steps, told)) => draft.steps(steps).caveat(told),
        Err(_) => draft,
    };
    if strain.si <= allowed.si {
        return vec![
            draft.pass(format!("within the criterion, as G20 uses {used} of the strength")),
        ];
    }
    vec![draft.conditional(format!(
        "beyond the criterion for paved airfields, while G20 uses {used} of the strength: look there \
         for ruts after the first passes"
    ))]
}

/// The steps to the strain and, last, to the strain allowed.
fn steps(context: &Context<'_>, place: &TwoLayers<'_>) -> Known<Vec<Step>> {
    let [_, below] = place.credited();
    let counted = bearing_percent(below.percent().min(STIFFEST_PERCENT));
    let mut steps = load_steps(context, LegKind::Main, place.worst);
    let load = steps.len() - 1;
    steps.push(plain_step(
        "bearing ratio of the weak layer counted",
        "least of credited and most; a clay that is stiffer counts as CBR 12",
        STIFFNESS_TRL.source,
        vec![
            computed("credited", below, "soundings of the strip").under("credited"),
            constant("most", bearing_percent(STIFFEST_PERCENT), STIFFNESS_TRL.source).under("most"),
        ],
        counted,
    ));
    steps.push(stiffness(counted, load + 1)?);
    let soft: Pressure = result_of(&steps[load + 2])?;
    steps.push(by_formula(
        STIFFNESS_OF_GRAVEL_OVER_SOIL.name,
        vec![
            from_step("stiffness_below", soft, load + 2),
            computed("thickness", place.thickness, "top of the governing layer of G20"),
        ],
    )?);
    let stiff: Pressure = result_of(&steps[load + 3])?;
    let mut inputs = vec![from_step("leg_load", place.worst.load, load)];
    inputs.extend(wheels(context.flight));
    inputs.extend([
        computed("pressure", place.pressure, "T10"),
        computed("thickness", place.thickness, "top of the governing layer of G20"),
        from_step("stiffness_above", stiff, load + 3),
        from_step("stiffness_below", soft, load + 2),
    ]);
    steps.push(by_formula(STRAIN_UNDER_LEG.name, inputs)?);
    let (_, table) = context.measured.main_carried.as_ref().map_err(Clone::clone)?;
    let coverages = Amount::coefficient(table.coverages());
    steps.push(by_formula(
        STRAIN_ALLOWED.name,
        vec![
            from_step("stiffness_below", soft, load + 2),
            computed("coverages", coverages, "wander of the wheels, as in G20"),
        ],
    )?);
    Ok(steps)
}

/// The steps of the design equation in both forms, and what to say of them.
fn design(context: &Context<'_>, place: &TwoLayers<'_>) -> Known<(Vec<Step>, String)> {
    let (single, mut steps) = place.equivalent(context)?;
    let (_, table) = context.measured.main_carried.as_ref().map_err(Clone::clone)?;
    let coverages = Amount::coefficient(table.coverages());
    let of_single = steps.len() - 1;
    let over_area = Pressure::from_si(place.pressure.si() * single.si() / place.wheel().si());
    steps.push(plain_step(
        "pressure of the equivalent wheel",
        "equivalent / (load / pressure); over the contact area of one tyre",
        derived("a force over an area"),
        vec![
            from_step("equivalent single wheel", single, of_single).under("equivalent"),
            computed("load of one wheel", place.wheel(), "the step of that name").under("load"),
            computed("tyre pressure", place.pressure, "T10").under("pressure"),
        ],
        over_area,
    ));
    let by = "wander of the wheels, as in G20";
    let factor = by_formula(SINGLE_WHEEL_FACTOR.name, vec![computed("coverages", coverages, by)])?;
    let alpha = factor.result;
    steps.push(factor);
    let [_, below] = place.credited();
    let cover = |name: &'static str| {
        by_formula(
            name,
            vec![
                from_step("load", single, of_single),
                from_step("pressure", over_area, of_single + 1),
                computed("bearing_ratio", below, "soundings of the strip"),
                from_step("load_repetition_factor", alpha, of_single + 2),
            ],
        )
    };
    let (root, cubic) = (cover(FLEXIBLE_COVER_ROOT.name)?, cover(FLEXIBLE_COVER_CUBIC.name)?);
    let told = format!(
        "over that layer the design equation of paved airfields asks for {} of cover in its \
         square-root form and {} in its cubic form; {} lie there",
        root.result.told(),
        cubic.result.told(),
        Amount::from(place.thickness).told(),
    );
    steps.extend([root, cubic]);
    Ok((steps, told))
}

/// The lower of two laws for the stiffness of soil.
fn stiffness(bearing: BearingRatio, step: usize) -> Known<Step> {
    let by = |name: &'static str| by_formula(name, vec![from_step("bearing_ratio", bearing, step)]);
    match (by(STIFFNESS_HEUKELOM_1962.name), by(STIFFNESS_TRL.name)) {
        (Ok(a), Ok(b)) => Ok(if a.result.si <= b.result.si { a } else { b }),
        (Ok(one), Err(_)) | (Err(_), Ok(one)) => Ok(one),
        (Err(why), Err(_)) => Err(why),
    }
}

fn wheels(flight: &Flight) -> [BasisInput; 3] {
    let leg = LegKind::Main.leg(flight);
    [
        wheel_count(leg.wheels.as_ref()),
        wheel_distance("wheel_spacing", leg.spacing.as_ref()),
        wheel_distance("tandem_spacing", leg.tandem_spacing.as_ref()),
    ]
}
