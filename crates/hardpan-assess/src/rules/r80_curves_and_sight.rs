//! R80: slopes, vertical curves and sight along the centre line, beside the
//! civil design norm.

use crate::context::Context;
use crate::draft::{Draft, beside, constant, given, need, plain_step};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::shape::code::{code_letter, code_number};
use crate::shape::levels::{ends, survey};
use crate::shape::survey_noise::{SurveyNoise, judged_over_noise};
use hardpan_model::{BasisInput, Finding, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, metres, ratio};
use hardpan_surface::{
    CodeNumber, Profile, SlopeAt, VerticalCurve, design_grade, sight_clearance, vertical_curves,
};

pub(super) const RULE: Rule = Rule {
    code: "R80",
    name: "Slopes, curves and sight",
    checks: "Along the centre line: the steepest 30 m, of the whole and of the end quarters; the \
             sharpest change of slope in 30 m; the distance between changes; and whether points \
             half a runway apart see each other.",
    why: "A sharp crest unloads the wheels at speed, a sharp sag loads the gear, changes close \
          together do both in turn, and a crest hides an obstacle until too late.",
    limit: "By code number and code letter: as the strip file states them, else from the length \
            of the strip and the wing span.",
    applies: "Advice; every flight with a survey of the centre line. Curves are \
              those of the smooth design grade: single bumps are judged by R10 and R40. What noise \
              of the survey may have made is unproven.",
    source: Source::new("ICAO-ANNEX-14", "3.1.14 to 3.1.18", Tier::Secondary),
    judge,
};

/// Share of the limit in 30 m above which a curve counts as one: judgement.
const CURVE_SHARE: f64 = 0.5;
/// Wavelength of which the grade keeps half: of a bump of 30 m it keeps 0.4 %,
/// of a curve of 100 m, half a wave of 200 m, 88 %. Judgement.
const GRADE_M: f64 = 120.0;
/// Length that the grade is averaged over.
const AVERAGE_M: f64 = 30.0;
/// Standard deviations that the worst of a strip's curves reaches by noise: judgement.
const WORST_NOISE: f64 = 4.0;

/// How far noise alone goes.
const NOISE: &str = "of the noise stated, where the worst of all places counts";

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = |title: &str| Draft::new(&RULE, title, Phase::Always).advice();
    let Some(length) = &context.flight.strip.length else {
        let wanted = need("strip: length", "the code number is taken from it");
        return vec![draft("slopes and curves").unproven("the length is not known", [wanted])];
    };
    let profile = match &context.measured.profile {
        Ok(profile) => profile,
        Err(why) => return vec![draft("slopes and curves").unavailable(why)],
    };
    let Some((code, _)) = code_number(&context.flight.strip) else {
        let wanted = need("strip: reference_code", "number and letter, such as 2B");
        return vec![draft("slopes and curves").unproven("the code is not known", [wanted])];
    };
    let mut findings = slopes(context, code, length.value);
    match curves(context, profile, code) {
        Ok((grade, curves)) => {
            let (sharp, apart) = ("sharpest vertical curve", "distance between slope changes");
            findings.push(sharpest(context, draft(sharp), (&grade, &curves), code));
            findings.push(spacing(context, draft(apart), &curves, code));
        }
        Err(why) => findings.push(draft("vertical curves").unavailable(&why)),
    }
    findings.push(sight(context, draft("sight over half the strip"), profile, length.value));
    findings
}

/// Steepest 30 m of the whole and, where the code bounds them, of the end quarters.
fn slopes(context: &Context<'_>, code: CodeNumber, length: Length) -> Vec<Finding> {
    let draft = |title: &str| Draft::new(&RULE, title, Phase::Always).advice();
    let local = match context.measured.centre_slopes() {
        Ok(line) => &line.local,
        Err(why) => return vec![draft("steepest slope").unavailable(&why)],
    };
    let noise = match SurveyNoise::of(&context.flight.strip) {
        Ok(noise) => noise.steepest_slope(metres(AVERAGE_M), local.len()),
        Err(why) => return vec![draft("steepest slope").unavailable(&why)],
    };
    let quarter = 0.25 * length;
    let at_ends = |slope: &SlopeAt| {
        slope.to <= quarter + metres(1.0) || slope.from >= 3.0 * quarter - metres(1.0)
    };
    let whole = ("steepest slope", code.any_slope(), false);
    let ends = (code == CodeNumber::Four).then(|| code.end_quarter_slope()).flatten();
    let ends = ends.map(|limit| ("steepest slope, end quarters", limit, true));
    [Some(whole), ends]
        .into_iter()
        .flatten()
        .map(|(title, limit, only_ends)| {
            let counted = local.iter().filter(|slope| !only_ends || at_ends(slope));
            let steepest = counted
                .copied()
                .reduce(|most, next| if next.value.abs() > most.value.abs() { next } else { most });
            let Some(steepest) = steepest else {
                let levels = need(
                    "strip: survey",
                    &format!("levels at least every {}", Amount::from(metres(30.0)).told()),
                );
                return draft(title).unproven("no 30 m of the centre line are levelled", [levels]);
            };
            let draft = draft(title)
                .value(steepest.value.abs())
                .at_most(limit.value)
                .place(steepest.from, steepest.to, None)
                .step(plain_step(
                    "steepest slope over 30 m",
                    "|far − near| / length; the greatest of all",
                    limit.source,
                    slope_levels(context, &steepest)
                        .into_iter()
                        .chain([
                            beside("slope", steepest.value, "between the two levels"),
                            beside("slope that noise alone shows", noise, NOISE),
                        ])
                        .collect(),
                    steepest.value.abs(),
                ));
            let floor = (noise.into(), limit.value.into());
            judged_over_noise(draft, floor, "within the civil norm", "over the civil norm")
        })
        .collect()
}

/// The levels at both ends of a slope, and the length between them.
fn slope_levels(context: &Context<'_>, slope: &SlopeAt) -> Vec<BasisInput> {
    let length = beside("length", slope.to - slope.from, "between those levels").under("length");
    let levels = centre_levels(context, (slope.from, slope.to)).into_iter();
    let symbols = [Some("near"), Some("far"), None];
    let named = levels.zip(symbols).map(|(level, symbol)| BasisInput { symbol, ..level });
    named.chain([length]).collect()
}

/// Stations and levels of a smooth grade.
type Grade = Vec<(Length, Length)>;

/// The curves, unless survey noise alone would make one.
fn curves(
    context: &Context<'_>,
    profile: &[(Length, Length)],
    code: CodeNumber,
) -> Known<(Grade, Vec<VerticalCurve>)> {
    let limit = code.slope_change_per_30_m().value;
    let survey = context.flight.strip.survey.as_ref();
    let noise = survey.and_then(|survey| survey.level_noise.as_ref());
    let wanted = |how: &str| need("strip: survey_info.level_noise", how);
    let Some(noise) = noise else {
        let how = vec![wanted("as the surveyor states it")];
        return Err(Unavailable::missing("the change of slope", how));
    };
    let levels = survey.and_then(|survey| survey.lines.iter().map(|line| line.points.len()).max());
    let span = profile.first().zip(profile.last()).map_or(0.0, |(a, b)| (b.0 - a.0).si());
    let per_average = AVERAGE_M * levels.unwrap_or(0) as f64 / span.max(1.0);
    let level = noise.value.si() / per_average.max(1.0).sqrt();
    let false_change = WORST_NOISE * level * 6.0_f64.sqrt() / AVERAGE_M;
    if false_change > CURVE_SHARE * limit.si() {
        return Err(Unavailable {
            because: format!(
                "survey noise alone bends the grade by {} in 30 m; the norm allows {}",
                Amount::from(ratio(false_change)).told(),
                Amount::from(limit).told()
            ),
            needs: vec![wanted("less noise, or more levels to average")],
        });
    }
    let grade = even(profile).and_then(|profile| design_grade(&profile, metres(GRADE_M)));
    let grade: Grade = grade.map_err(Unavailable::from)?.levels().collect();
    let curves = vertical_curves(&grade, CURVE_SHARE * limit).map_err(Unavailable::from)?;
    Ok((grade, curves))
}

/// Where the slope changes most along a curve: the grade there, before and after.
fn bent(grade: &Grade, curve: &VerticalCurve) -> Option<Vec<BasisInput>> {
    let base = metres(BASE_M);
    let change = |(before, there, after): (Length, Length, Length)| {
        ((after - there) - (there - before)).abs().si()
    };
    let along = grade.iter().map(|point| point.0);
    let along = along.filter(|station| (curve.from..=curve.to).contains(station));
    let levels = along.filter_map(|at| {
        Some((level_of(grade, at - base)?, level_of(grade, at)?, level_of(grade, at + base)?))
    });
    let (before, there, after) = levels.max_by(|a, b| change(*a).total_cmp(&change(*b)))?;
    let by = "the levels of the centre line, smoothed to the grade where it bends most";
    let level = |name: &str, level, symbol| beside(name, level, by).under(symbol);
    Some(vec![
        level("grade 30 m before", before, "before"),
        level("grade there", there, "there"),
        level("grade 30 m after", after, "after"),
        constant("length of each slope", base, SLOPES).under("length"),
    ])
}

/// A grade at a station, linear between its points.
fn level_of(grade: &Grade, station: Length) -> Option<Length> {
    let after = grade.partition_point(|point| point.0 < station);
    let next = grade.get(after)?;
    let Some(before) = after.checked_sub(1).and_then(|at| grade.get(at)) else {
        return (next.0 == station).then_some(next.1);
    };
    let share = (station - before.0).si() / (next.0 - before.0).si();
    Some(before.1 + share * (next.1 - before.1))
}

const BASE_M: f64 = 30.0;
const SLOPES: Source = Source::new("ICAO-ANNEX-14", "3.1.16, change in 30 m", Tier::Secondary);

fn sharpest(
    context: &Context<'_>,
    draft: Draft,
    (grade, curves): (&Grade, &[VerticalCurve]),
    code: CodeNumber,
) -> Finding {
    let limit = code.slope_change_per_30_m();
    let draft = draft.at_most(limit.value);
    let worst = curves
        .iter()
        .copied()
        .reduce(|most, next| if next.per_30_m > most.per_30_m { next } else { most });
    let none = ratio(0.0);
    let step = |value: Ratio, curve: Option<VerticalCurve>| {
        let radius = curve
            .map(|curve| beside("radius", curve.radius, "length of the curve over its change"));
        let levels = match curve {
            Some(curve) => centre_levels(context, (curve.from, curve.to)),
            None => survey(context),
        };
        let bent = curve.and_then(|curve| bent(grade, &curve));
        let rule = match bent {
            Some(_) => {
                "|(after − there) / length − (there − before) / length|; radius = 30 m / change"
            }
            None => "no change that counts",
        };
        let inputs = bent.into_iter().flatten().chain(levels).chain(radius).collect();
        plain_step("greatest change of slope in 30 m", rule, limit.source, inputs, value)
    };
    match worst {
        None => draft.value(none).step(step(none, None)).pass("no curve is sharp enough to count"),
        Some(curve) => {
            let radius = Amount::from(curve.radius).told();
            let least = Amount::from(code.vertical_radius().value).told();
            let form = if curve.change.si() < 0.0 { "crest" } else { "sag" };
            draft
                .value(curve.per_30_m)
                .place(curve.from, curve.to, None)
                .step(step(curve.per_30_m, Some(curve)))
                .judged(
                    format!("a {form} of radius {radius}; the norm is {least} or more"),
                    format!("a {form} of radius {radius}, sharper than the norm of {least}"),
                )
        }
    }
}

fn spacing(
    context: &Context<'_>,
    draft: Draft,
    curves: &[VerticalCurve],
    code: CodeNumber,
) -> Finding {
    let per_change = code.distance_per_change();
    let pairs = curves.windows(2).filter_map(|pair| {
        let [a, b] = pair else { return None };
        let needed = (per_change.value * (a.change.abs() + b.change.abs())).max(metres(45.0));
        Some((a.middle(), b.middle(), b.middle() - a.middle(), needed))
    });
    let tightest =
        pairs.reduce(|most, next| if (next.2 - next.3) < (most.2 - most.3) { next } else { most });
    let Some((from, to, distance, needed)) = tightest else {
        return draft.pass("there are not two slope changes that count");
    };
    draft
        .value(distance)
        .at_least(needed)
        .place(from, to, None)
        .step(plain_step(
            "distance between two slope changes",
            "from middle to middle; at least K (|Δg1| + |Δg2|) and 45 m",
            per_change.source,
            centre_levels(context, (from, to))
                .into_iter()
                .chain([constant("K", per_change.value, per_change.source)])
                .collect(),
            distance,
        ))
        .judged("within the civil norm", "closer together than the civil norm")
}

const OVER_CHORD: &str = "greatest height of the levels over every chord of that distance";

fn sight(
    context: &Context<'_>,
    draft: Draft,
    profile: &[(Length, Length)],
    length: Length,
) -> Finding {
    let (letter, by) = match code_letter(context.flight) {
        Ok(known) => known,
        Err((why, wanted)) => return draft.unproven(why, wanted),
    };
    let height = letter.sight_height();
    let clearance =
        even(profile).and_then(|profile| sight_clearance(&profile, 0.5 * length, height.value));
    match clearance {
        Err(error) => draft.unavailable(&Unavailable::from(error)),
        Ok(clearance) => draft
            .value(clearance)
            .at_least(metres(0.0))
            .step(plain_step(
                "least clearance of the line of sight over the ground",
                "eyes − ground; the ground where it stands highest over a chord of half the strip",
                height.source,
                std::iter::once(by)
                    .chain(survey(context))
                    .chain([
                        constant("height of the eyes", height.value, height.source).under("eyes"),
                        beside("ground over the chord", height.value - clearance, OVER_CHORD)
                            .under("ground"),
                        beside("distance", 0.5 * length, "half the length of the strip"),
                    ])
                    .collect(),
                clearance,
            ))
            .judged("both ends of every half see each other", "a crest hides what is beyond it"),
    }
}

/// The levels at both ends of a stretch of the line nearest to the centre.
fn centre_levels(context: &Context<'_>, stretch: (Length, Length)) -> Vec<BasisInput> {
    let levels = ends(context, stretch, metres(0.0));
    let noise = context.flight.strip.survey.as_ref().and_then(|one| one.level_noise.as_ref());
    levels.into_iter().chain(noise.map(|noise| given("noise of one level", noise))).collect()
}

/// The grade on even stations, without its last uneven step.
fn even(grade: &[(Length, Length)]) -> Result<Profile, hardpan_surface::Error> {
    let first = grade.first().map_or(metres(0.0), |point| point.0);
    let step = grade.get(1).map_or(metres(5.0), |next| next.0 - first);
    let on_step = |point: &&(Length, Length)| {
        let steps = (point.0 - first).si() / step.si();
        (steps - steps.round()).abs() < 1e-6
    };
    let levels: Vec<Length> = grade.iter().filter(on_step).map(|point| point.1).collect();
    Profile::evenly_spaced(metres(0.0), first, step, &levels)
}
