//! W30: where rain stands and how deep it runs off in the wheel lanes.

use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{Draft, beside, constant, given, need, plain_step};
use crate::measure::shape_rules;
use crate::measured::Known;
use crate::rule::Rule;
use crate::shape::levels::{ends, survey};
use crate::shape::survey_noise::noise_of_ponds;
use hardpan_ground::SHEET_FLOW_DEPTH_MANNING;
use hardpan_model::{
    BasisInput, Finding, Given, Mark, Phase, Source, Step, SurfaceKind, SurfaceState, Tier,
};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, millimetres, ratio, seconds};
use hardpan_surface::{CrossSection, Crossfall, Pond};

pub(super) const RULE: Rule = Rule {
    code: "W30",
    name: "Water after rain",
    checks: "The deepest depression that would hold water in a wheel lane, from the survey; and \
             the depth of rain running off across the lanes at the rate of the day.",
    why: "Standing water softens the ground and hides ruts before anybody sees it from the \
          cockpit; the survey shows where to look.",
    limit: "A surface is contaminated by more than 3 mm of water; ponds are shown from 10 mm on.",
    applies: "Three survey lines or more, quiet enough to show 10 mm. Advice: W10 judges what was \
              seen on the day.",
    source: Source::new("", "more than 3 mm of water contaminates a runway", Tier::Memory),
    judge,
};

/// Manning's roughness of the surface, the rough end of its range.
const SOIL_ROUGHNESS: f64 = 0.10;
const GRASS_ROUGHNESS: f64 = 0.80;
/// Share of stations whose crossfall may be flatter than the one counted.
const FLAT_SHARE: f64 = 0.05;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    vec![ponds(context), run_off(context)]
}

/// Whether any wheel runs through a pond.
pub(super) fn in_lane(context: &Context<'_>, pond: &Pond) -> bool {
    let rules = shape_rules(context.flight).evenness;
    let reach = rules.wheel_reach;
    let lanes = rules.wheel_offsets;
    lanes.is_empty()
        || lanes.iter().any(|lane| *lane >= pond.left - reach && *lane <= pond.right + reach)
}

fn ponds(context: &Context<'_>) -> Finding {
    let draft =
        Draft::new(&RULE, "depressions that hold water in the lanes", Phase::Always).advice();
    let found = match &context.measured.shape.ponds {
        Ok(found) => found,
        Err(why) => return draft.unavailable(why),
    };
    let least = shape_rules(context.flight).detail.pond_depth;
    let survey = context.flight.strip.survey.as_ref();
    let floor = survey.and_then(|survey| noise_of_ponds(survey, least));
    let deepest = found.iter().find(|pond| in_lane(context, pond));
    let Some(floor) = floor.filter(|floor| floor.share_of_limit.si() <= 1.0) else {
        let how = need(
            "strip: survey_info.level_noise",
            &format!("stated, and small against {}", shown_from()),
        );
        return draft.unproven("survey noise alone would look like ponds", [how]);
    };
    let value = deepest.map_or(millimetres(0.0), |pond| pond.depth);
    let draft = draft.value(value).step(plain_step(
        "greatest depth of a filled depression in a lane",
        "depth of the ground under the brim, filled over all surveyed lines",
        Source::new("BARNES-2014", "priority flood", Tier::Memory),
        depression_inputs(context, found, deepest, floor.false_worst),
        value,
    ));
    let Some(pond) = deepest else {
        return draft.pass(format!("none is deeper than {} in a lane", shown_from()));
    };
    let words = format!(
        "{} and {} when full, offset {} to {}",
        Amount::from(pond.area).told(),
        Amount::from(pond.volume).told(),
        Amount::from(pond.left).told_signed(),
        Amount::from(pond.right).told_signed()
    );
    let draft = draft.place(pond.from, pond.to, None);
    let day = &context.flight.day;
    let wet = day.surface_state.as_ref().is_some_and(|state| state.value == SurfaceState::Wet)
        || day.rain.as_ref().is_some_and(|rain| rain.value.si() > 0.0);
    if wet {
        draft.conditional(format!("{words}; look there before the movement"))
    } else {
        draft.pass(format!("{words}; look there after rain"))
    }
}

/// Levels at the deepest depression, and what was counted and found.
fn depression_inputs(
    context: &Context<'_>,
    found: &[Pond],
    deepest: Option<&Pond>,
    noise: Length,
) -> Vec<BasisInput> {
    let levels = deepest.map(|pond| ends(context, (pond.from, pond.to), pond.left));
    let count = Amount::count(found.len() as f64);
    survey(context)
        .into_iter()
        .chain(levels.into_iter().flatten())
        .chain([
            beside("depressions deeper than 10 mm", count, "counted over all lines"),
            beside("depth that noise alone would show", noise, "of the noise stated"),
        ])
        .collect()
}

/// The flattest crossfall that 95 % of the stations reach, and whether most
/// stations are crowned.
fn typical(falls: &[Crossfall]) -> Option<(Ratio, bool)> {
    let mut slopes: Vec<f64> = falls
        .iter()
        .map(|fall| match (fall.form, fall.left, fall.right) {
            (Some(CrossSection::Crowned), Some(left), Some(right)) => left.min(right).si().abs(),
            _ => fall.across.si().abs(),
        })
        .collect();
    slopes.sort_by(f64::total_cmp);
    let slope = *slopes.get((slopes.len() as f64 * FLAT_SHARE) as usize)?;
    let crowned = falls.iter().filter(|fall| fall.form == Some(CrossSection::Crowned)).count();
    Some((ratio(slope), 2 * crowned > falls.len()))
}

fn run_off(context: &Context<'_>) -> Finding {
    let draft = Draft::new(&RULE, "rain running off over the lanes", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .at_most(millimetres(3.0));
    let flight = context.flight;
    let Some(rain) = &flight.day.rain else {
        let wanted = need("day: rain_in_an_hour", "depth of rain that falls in an hour, or zero");
        return draft.unproven("nobody says how hard it rains", [wanted]);
    };
    let falls = context.measured.shape.surface.as_ref().map(|report| report.crossfall.as_slice());
    let falls = match falls {
        Ok(falls) => falls,
        Err(why) => return draft.unavailable(why),
    };
    let (Some((slope, crowned)), Some(width), Some(track)) =
        (typical(falls), &flight.strip.width, &flight.aeroplane.gear.track)
    else {
        let wanted = need(
            "strip: survey across the width, width; aeroplane: gear.track",
            "how far rain runs before it leaves the lanes, and how steeply",
        );
        return draft.unproven("the way of the water is not known", [wanted]);
    };
    let half_track = 0.5 * track.value;
    let way = if crowned { half_track } else { 0.5 * width.value + half_track };
    let grass = flight.strip.surface.as_ref().is_none_or(|kind| kind.value == SurfaceKind::Grass);
    let roughness = if grass { GRASS_ROUGHNESS } else { SOIL_ROUGHNESS };
    let [rate, depth] = match sheet_flow(rain, way, slope, roughness) {
        Ok([rate, mut depth]) => {
            depth.inputs.push(given("width", width));
            depth.inputs.push(given("track", track));
            depth.inputs.extend(survey(context));
            [rate, depth]
        }
        Err(why) if rain.value.si() > 0.0 => {
            let wanted = need("strip: survey", "a crossfall of at least 0.1 %, or a drier day");
            return draft.unproven(why.because, [wanted]);
        }
        Err(_) => return dry(draft, rain),
    };
    draft
        .value(depth.result)
        .caveat(format!("spread of the relation: {}", SHEET_FLOW_DEPTH_MANNING.scatter))
        .steps([rate, depth])
        .judged("rain runs off thinner than that", "water deeper than that covers the lanes")
}

/// Rate of the rain, and the depth of its sheet flow at the end of the way.
fn sheet_flow(rain: &Given<Length>, way: Length, slope: Ratio, roughness: f64) -> Known<[Step; 2]> {
    let rate = plain_step(
        "rate of the rain",
        "rain of an hour / 1 h",
        RULE.source,
        vec![given("rain in an hour", rain)],
        rain.value / seconds(3600.0),
    );
    let source = SHEET_FLOW_DEPTH_MANNING.source;
    let inputs = vec![
        beside("flow_length", way, "half the track of a crowned strip, else with half the width"),
        BasisInput::new("rain", rate.result, hardpan_model::InputFrom::Step(0)),
        beside("slope", slope, "crossfall that 95 % of the stations reach"),
        constant("roughness", Amount::coefficient(roughness), source),
    ];
    Ok([rate, by_formula(SHEET_FLOW_DEPTH_MANNING.name, inputs)?])
}

/// No rain, no sheet flow.
fn dry(draft: Draft, rain: &Given<Length>) -> Finding {
    let none = millimetres(0.0);
    let step = plain_step(
        "depth of sheet flow at the far lane",
        "none without rain",
        RULE.source,
        vec![given("rain in an hour", rain)],
        none,
    );
    draft.value(none).step(step).pass("it does not rain")
}

/// The depth from which ponds are shown, in words.
fn shown_from() -> String {
    Amount::from(millimetres(10.0)).told()
}
