//! R90: slopes of the graded ground beside the running surface.

use crate::context::Context;
use crate::draft::{Draft, beside, need, plain_step};
use crate::rule::Rule;
use crate::shape::code::code_number;
use crate::shape::running_surface::half_width;
use crate::shape::survey_noise::{SurveyNoise, judged_over_noise};
use hardpan_model::{BasisInput, Finding, Phase, Source, Strip, Survey, Tier};
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};
use hardpan_surface::{
    CodeNumber, EvennessRules, GradedSide, SlopeAcross, SlopeAt, graded_sides, local_slopes,
};

pub(super) const RULE: Rule = Rule {
    code: "R90",
    name: "Graded strip",
    checks: "The ground beside the running surface, where it is surveyed: how far out, the slope \
             of the first 3 m beyond the edges, the slopes across further out, and the steepest \
             30 m along.",
    why: "An aeroplane that leaves the runway runs over it; and a bank at the edge, as a grader \
          leaves it, dams the water that should run off.",
    limit: "By code number: graded to 30 m from the centre line for 1, 40 m for 2, 75 m for 3 and \
            4 (non-instrument); the first 3 m fall, by at most 5 %; across at most 3 % for 1 and 2, \
            2.5 % for 3 and 4; along at most 2 %, 2 %, 1.75 % and 1.5 %.",
    applies: "Advice; surveys with lines beyond the edge of the running surface, whose width is \
              stated. Slopes across are those that 95 % of the stations keep.",
    source: Source::new("ICAO-ANNEX-14", "3.4.9, 3.4.13, 3.4.15", Tier::Secondary),
    judge,
};

/// Share of the stations that may be out of a limit: judgement.
const SHARE: f64 = 0.05;

/// How far noise alone goes.
const NOISE: &str = "of the noise stated, where the worst of all places counts";

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let strip = &context.flight.strip;
    let (Some(survey), Some(half)) = (&strip.survey, half_width(strip)) else { return Vec::new() };
    if survey.lines.iter().all(|line| line.offset.abs() <= half) {
        return Vec::new();
    }
    let Some((code, by)) = code_number(strip) else {
        let wanted = need("strip: reference_code", "number and letter, such as 2B");
        return vec![draft("ground beside the runway").unproven("the code is not known", [wanted])];
    };
    let noise = match SurveyNoise::of(strip) {
        Ok(noise) => noise,
        Err(why) => return vec![draft("ground beside the runway").unavailable(&why)],
    };
    let by: Vec<BasisInput> =
        std::iter::once(by).chain(crate::shape::levels::survey(context)).collect();
    match sides(strip, survey, code) {
        Ok(sides) => vec![
            extent(code, &by, &sides),
            at_the_edge(code, (&by, noise), &sides),
            across(code, (&by, noise), &sides),
            along(code, (&by, noise), survey, half),
        ],
        Err(error) => vec![draft("ground beside the runway").unproven(error.to_string(), [])],
    }
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always).advice()
}

type Sides = [Option<GradedSide>; 2];

fn sides(
    strip: &Strip,
    survey: &Survey,
    code: CodeNumber,
) -> Result<Sides, hardpan_surface::Error> {
    let rules = EvennessRules::default();
    let width = strip.width.as_ref().map_or(metres(0.0), |width| width.value);
    let every = (rules.crossfall_step, rules.slope_interval);
    graded_sides(survey, width, code.graded_half_width().value, every)
}

fn extent(code: CodeNumber, by: &[BasisInput], sides: &Sides) -> Finding {
    let norm = code.graded_half_width();
    let out = |side: &Option<GradedSide>| side.as_ref().map_or(metres(0.0), |side| side.outermost);
    let [left, right] = [out(&sides[0]), out(&sides[1])];
    let least = left.min(right);
    let draft = draft("graded ground surveyed, from the centre line")
        .value(least)
        .at_least(norm.value)
        .step(plain_step(
            "lesser distance from the centre line to an outermost line",
            "min over both sides",
            norm.source,
            by.iter()
                .cloned()
                .chain([
                    beside("left", left, "offset of the outermost line"),
                    beside("right", right, "offset of the outermost line"),
                ])
                .collect(),
            least,
        ));
    if least + metres(1.0) >= norm.value {
        draft.pass("both sides are surveyed as far as the norm grades them")
    } else {
        let wanted = need("strip: survey", "lines on both sides as far out as the graded strip");
        draft.unproven("a side is not surveyed as far as the norm grades it", [wanted])
    }
}

/// Value that all but a twentieth of the slopes reach, from below.
fn reached(slopes: &[&SlopeAcross], size: impl Fn(&SlopeAcross) -> f64) -> Option<f64> {
    let mut sizes: Vec<f64> = slopes.iter().map(|slope| size(slope)).collect();
    sizes.sort_by(f64::total_cmp);
    sizes.get((sizes.len() as f64 * SHARE) as usize).copied()
}

/// Stations and offsets of the slopes that are out of a limit, in words.
fn placed(draft: Draft, out: &[&&SlopeAcross]) -> (Draft, String) {
    let (Some(first), Some(last)) = (
        out.iter().min_by(|a, b| a.station.si().total_cmp(&b.station.si())),
        out.iter().max_by(|a, b| a.station.si().total_cmp(&b.station.si())),
    ) else {
        return (draft, String::new());
    };
    let left = out.iter().any(|slope| slope.offsets.1.si() < 0.0);
    let right = out.iter().any(|slope| slope.offsets.1.si() > 0.0);
    let side = match (left, right) {
        (true, true) => "on both sides",
        (true, false) => "on the left",
        _ => "on the right",
    };
    (draft.place(first.station, last.station, None), format!(", {side}"))
}

fn at_the_edge(
    code: CodeNumber,
    (by, noise): (&[BasisInput], SurveyNoise),
    sides: &Sides,
) -> Finding {
    let norm = code.graded_fall_at_edge();
    let draft = draft("first 3 m beyond the edges");
    let slopes: Vec<&SlopeAcross> = sides.iter().flatten().flat_map(|side| &side.first).collect();
    let (Some(least), Some(most)) = (
        reached(&slopes, |slope| slope.fall.si()),
        reached(&slopes, |slope| -slope.fall.si()).map(|fall| -fall),
    ) else {
        let lines = need("strip: survey", "a line on each edge and one 3 m beyond it");
        return draft.unproven("no lines lie at an edge and 3 m beyond it", [lines]);
    };
    let rises = least < 0.0;
    let value = ratio(if rises { least } else { most });
    let out: Vec<&&SlopeAcross> = slopes
        .iter()
        .filter(|slope| if rises { slope.fall.si() < 0.0 } else { slope.fall > norm.value })
        .collect();
    let (draft, side) = placed(draft, &out);
    let draft =
        if rises { draft.at_least(ratio(0.0)) } else { draft.at_most(norm.value) }.value(value);
    let noise = noise_of(noise, &slopes);
    let draft = draft.step(plain_step(
        "fall of the first 3 m that 95 % of the stations reach, or stay under",
        "(level at the edge − level beyond) / distance",
        norm.source,
        by.iter()
            .cloned()
            .chain([
                beside("least fall", ratio(least), "between the levels of two lines"),
                beside("fall that noise alone shows", noise, NOISE),
            ])
            .collect(),
        value,
    ));
    let broken = if rises {
        format!("the ground rises beyond the edge and dams the water{side}")
    } else {
        format!("the ground falls away more steeply than the civil norm{side}")
    };
    let holds = "the ground falls away from the edges, within the civil norm";
    judged_over_noise(draft, (noise.into(), norm.value.into()), holds, broken)
}

fn across(code: CodeNumber, (by, noise): (&[BasisInput], SurveyNoise), sides: &Sides) -> Finding {
    let norm = code.graded_slope_across();
    let draft = draft("slope across the graded ground").at_most(norm.value);
    let slopes: Vec<&SlopeAcross> = sides.iter().flatten().flat_map(|side| &side.beyond).collect();
    let Some(steepest) = reached(&slopes, |slope| -slope.fall.abs().si()).map(|size| -size) else {
        let lines = need("strip: survey", "two lines or more beyond the first 3 m of a side");
        return draft.unproven("no two lines lie beyond the first 3 m", [lines]);
    };
    let out: Vec<&&SlopeAcross> =
        slopes.iter().filter(|slope| slope.fall.abs() > norm.value).collect();
    let (draft, side) = placed(draft, &out);
    let noise = noise_of(noise, &slopes);
    let draft = draft.value(ratio(steepest)).step(plain_step(
        "slope across that 95 % of the stations stay under",
        "|level − level of the next line| / distance",
        norm.source,
        by.iter().cloned().chain([beside("slope that noise alone shows", noise, NOISE)]).collect(),
        ratio(steepest),
    ));
    let floor = (noise.into(), norm.value.into());
    judged_over_noise(draft, floor, "within the civil norm", format!("over the civil norm{side}"))
}

/// What noise alone shows between the two nearest lines, at one station in twenty.
fn noise_of(noise: SurveyNoise, slopes: &[&SlopeAcross]) -> Ratio {
    let apart = slopes.iter().map(|slope| (slope.offsets.1 - slope.offsets.0).abs().si());
    noise.twentieth_slope(metres(apart.fold(f64::INFINITY, f64::min)))
}

fn along(
    code: CodeNumber,
    (by, noise): (&[BasisInput], SurveyNoise),
    survey: &Survey,
    half: Length,
) -> Finding {
    let norm = code.graded_slope_along();
    let draft = draft("slope along the graded ground").at_most(norm.value);
    let rules = EvennessRules::default();
    let reach = code.graded_half_width().value + metres(1.0);
    let outside = survey.lines.iter().filter(|line| (half..=reach).contains(&line.offset.abs()));
    let slopes: Vec<SlopeAt> = outside
        .flat_map(|line| {
            local_slopes(line, rules.slope_base, rules.slope_interval).unwrap_or_default()
        })
        .collect();
    let noise = noise.steepest_slope(rules.slope_base, slopes.len());
    let size = |slope: &SlopeAt| -> Ratio { slope.value.abs() };
    let steepest =
        slopes.into_iter().reduce(|most, next| if size(&next) > size(&most) { next } else { most });
    let Some(steepest) = steepest else {
        let levels = need("strip: survey", "levels at least every 30 m beside the runway");
        return draft.unproven("no 30 m beside the runway are levelled", [levels]);
    };
    let value = size(&steepest);
    let draft = draft.value(value).place(steepest.from, steepest.to, None).step(plain_step(
        "steepest slope over 30 m beside the runway",
        "max |z(x + 30 m) − z(x)| / 30 m",
        norm.source,
        by.iter().cloned().chain([beside("slope that noise alone shows", noise, NOISE)]).collect(),
        value,
    ));
    let floor = (noise.into(), norm.value.into());
    judged_over_noise(draft, floor, "within the civil norm", "over the civil norm")
}
