//! W40: water that ruts would hold where the wheels run.

use super::g50_ruts::greatest_rut;
use super::r30_crossfall::drained;
use super::w30_water_after_rain::in_lane;
use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, given, given_as, need, plain_step};
use crate::measured::{Known, Unavailable};
use crate::reported_area::{Stretch, overlap, stretch_of, wheel_band};
use crate::rule::Rule;
use crate::shape::levels::survey;
use hardpan_model::{
    Area, AreaKind, BasisInput, Finding, InputFrom, Mark, Phase, Source, Step, SurfaceState, Tier,
};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, metres, millimetres, ratio};

/// Water deeper than this contaminates a surface.
const CONTAMINATED_MM: f64 = 3.0;

pub(super) const RULE: Rule = Rule {
    code: "W40",
    name: "Water in ruts",
    checks: "How deep water would stand in the ruts: those that somebody measured \
             (`[[area]]` rutted, with its `depth`), and those that the passes of the flight would \
             make (G50). A depression of the survey under them adds its depth.",
    why: "A rut holds water in the very line of the wheels, softens the ground under them, and \
          throws it at engines and flaps.",
    limit: "A surface is contaminated by more than 3 mm of water.",
    applies: "Ruts that are known. Advice: W10 judges what was seen on the day, G50 and S50 the \
              ruts. On a dry day the figure tells what rain would leave and is held to nothing. A rut is taken as level \
              along its length, so that nothing drains through its end.",
    source: Source::new("", "more than 3 mm of water contaminates a runway", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let areas = context.flight.strip.areas.iter().enumerate();
    let rutted = areas.filter(|(_, area)| area.kind.value == AreaKind::Rutted);
    let mut findings: Vec<Finding> =
        rutted.filter_map(|(index, area)| reported(context, index, area)).collect();
    if let Ok((rut, stretch)) = greatest_rut(context) {
        let input = computed("rut", rut, "G50, at the strength credited");
        findings.push(finding(context, "water in the ruts of the passes planned", input, stretch));
    }
    findings
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .at_most(millimetres(CONTAMINATED_MM))
}

/// An area that is reported rutted; none where no wheel comes there.
fn reported(context: &Context<'_>, index: usize, area: &Area) -> Option<Finding> {
    let everywhere = (metres(f64::NEG_INFINITY), metres(f64::INFINITY));
    overlap(area, everywhere, wheel_band(context.flight))?;
    let title = match &area.name {
        Some(name) => format!("water in the ruts, {}", name.value),
        None => format!("water in the ruts of area {}", index + 1),
    };
    let stretch = stretch_of(area);
    Some(match &area.depth {
        Some(depth) => finding(context, &title, given("rut", depth), stretch),
        None => draft(&title).place(stretch.0, stretch.1, None).unproven(
            "nobody says how deep the ruts are",
            [need("strip: [[area]] depth", "greatest depth of the ruts under a straightedge")],
        ),
    })
}

fn finding(context: &Context<'_>, title: &str, rut: BasisInput, stretch: Stretch) -> Finding {
    let draft = draft(title).place(stretch.0, stretch.1, None);
    match in_rut(context, rut, stretch) {
        Ok((depth, step)) => with_pond(context, draft.step(step), depth, stretch),
        Err(why) => draft.unavailable(&why),
    }
}

/// Half the width of a rut: that of the tyre that made it.
fn half_width(context: &Context<'_>) -> Known<BasisInput> {
    let width = context.flight.aeroplane.gear.main.tyre.width.as_ref();
    let width = width.ok_or_else(|| {
        let how = "a rut is as wide as the tyre in it";
        Unavailable::missing("the water", vec![need("aeroplane: gear.main.tyre.width", how)])
    })?;
    Ok(given_as("half_width", width, (0.5 * width.value).into()))
}

/// The flattest fall that drains a station of a stretch, or the nearest to it.
fn flattest(context: &Context<'_>, (from, to): Stretch) -> Known<Ratio> {
    let report = context.measured.shape.surface.as_ref().map_err(Clone::clone)?;
    let falls = report.crossfall.as_slice();
    let inside =
        falls.iter().filter(|fall| (from..=to).contains(&fall.station)).filter_map(drained);
    let away = |station: Length| (station - 0.5 * (from + to)).abs().si();
    let nearest = falls
        .iter()
        .filter(|fall| drained(fall).is_some())
        .min_by(|a, b| away(a.station).total_cmp(&away(b.station)));
    inside.chain(nearest.and_then(drained)).reduce(Ratio::min).ok_or_else(|| {
        let lines = need("strip: survey", "lines side by side, for the crossfall");
        Unavailable::missing("the water", vec![lines])
    })
}

/// Water in a rut by itself.
fn in_rut(context: &Context<'_>, rut: BasisInput, stretch: Stretch) -> Known<(Length, Step)> {
    let half = half_width(context)?;
    let fall = ratio(flattest(context, stretch)?.si().clamp(0.0, 0.2));
    let fall = beside("crossfall", fall, "flattest of the stretch, by the levels of the survey");
    let mut step = by_formula("rut-water-depth", vec![rut, half, fall])?;
    step.inputs.extend(survey(context));
    Ok((result_of::<Length>(&step)?, step))
}

/// Water in a rut and in the depression that it runs through.
fn with_pond(context: &Context<'_>, draft: Draft, in_rut: Length, stretch: Stretch) -> Finding {
    let ponds = context.measured.shape.ponds.as_ref().map_or(&[][..], Vec::as_slice);
    let under = ponds
        .iter()
        .filter(|pond| pond.from <= stretch.1 && pond.to >= stretch.0 && in_lane(context, pond));
    let pond = under.map(|pond| pond.depth).fold(metres(0.0), Length::max);
    let depth = in_rut + pond;
    let draft = draft.value(depth).step(plain_step(
        "depth of water in the lane",
        "water in the rut + depression under it",
        RULE.source,
        vec![
            BasisInput::new("water in the rut", in_rut, InputFrom::Step(0))
                .under("water in the rut"),
            beside(
                "depression under it",
                pond,
                "depression of W30 there, by the levels of the survey",
            )
            .under("depression under it"),
            constant("contaminated from", Amount::from(millimetres(CONTAMINATED_MM)), RULE.source),
        ],
        depth,
    ));
    judged(context, draft, depth)
}

fn judged(context: &Context<'_>, draft: Draft, depth: Length) -> Finding {
    if depth <= millimetres(CONTAMINATED_MM) {
        return draft.pass("the ruts hold no more than that");
    }
    let day = &context.flight.day;
    let state = day.surface_state.as_ref().map(|state| state.value);
    let raining = day.rain.as_ref().is_some_and(|rain| rain.value.si() > 0.0);
    match state {
        Some(SurfaceState::Dry) if !raining => {
            let most = Amount::from(millimetres(CONTAMINATED_MM)).told();
            draft.held_to_nothing().pass(format!(
                "dry on the day; rain would leave that much in them, and more than {most} \
                 contaminates a surface"
            ))
        }
        None if !raining => draft
            .instruct("fill and roll the ruts, or look at them after rain")
            .conditional("rain would leave that much in them"),
        _ => {
            draft.judged("", "the ruts may hold that much: fill them, or look before the movement")
        }
    }
}
