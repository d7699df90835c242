//! R30: crossfall that drains the strip, is not too steep, and has a form that
//! sheds water.

use crate::context::Context;
use crate::draft::{Draft, beside, need, plain_step};
use crate::measured::Known;
use crate::rule::Rule;
use crate::shape::code::code_letter;
use crate::shape::levels::survey;
use crate::shape::running_surface::running_surface;
use crate::shape::survey_noise::{SURELY, SurveyNoise, judged_over_noise, quieter};
use hardpan_model::{BasisInput, Finding, Need, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, metres, ratio};
use hardpan_surface::{CrossSection, Crossfall};

pub(super) const RULE: Rule = Rule {
    code: "R30",
    name: "Crossfall",
    checks: "The fall from the centre towards each edge, or from edge to edge, by station: the \
             fall that 95 % of the stations reach, the slope between neighbouring lines that they \
             stay under, and the share of stations that rise to both edges.",
    why: "Where the surface is flat or dished, rain stands and softens the ground; where it is \
          steep, wheels drift downhill and rain cuts gullies.",
    limit: "At least 1 %; at most 2 % for code letters A and B, 1.5 % for C to F; no more than one \
            station in twenty dished (judgement). The letter is that of `reference_code`, else by \
            the span.",
    applies: "Advice; every flight with at least two survey lines on the running surface whose \
              noise is stated. What that noise may have made is unproven. Water seen on the day is \
              judged by W10.",
    source: Source::new("ICAO-ANNEX-14", "3.1.19", Tier::Secondary),
    judge,
};

/// Share of stations that may be out of the limit before it is called over, or
/// without a known fall before nothing is called proven.
const SHARE: f64 = 0.05;
/// Share of the greatest crossfall that noise may show between two lines before
/// what is over may be noise. Source: judgement.
const NOISE_SHARE: f64 = 0.25;
/// Least fall.
const LEAST: f64 = 0.01;

/// How far noise alone goes.
const NOISE: &str = "of the noise stated, where the worst of all places counts";

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = |title: &str| Draft::new(&RULE, title, Phase::Always).advice();
    let Ok(report) = &context.measured.shape.surface else {
        let wanted = need("strip: survey", "cross-sections");
        return vec![draft("crossfall").unproven("there is no survey", [wanted])];
    };
    let falls = report.crossfall.as_slice();
    if falls.is_empty() {
        let why = "there are fewer than two survey lines side by side";
        return vec![draft("crossfall").unproven(why, [lines()])];
    }
    let mut findings = vec![
        flattest(context, draft("crossfall").at_least(ratio(LEAST)), falls),
        steepest(context, draft("steepest crossfall"), falls),
    ];
    if falls.iter().any(|fall| fall.form.is_some()) {
        findings.push(dished(context, draft("cross-sections that rise to both edges"), falls));
    }
    findings
}

/// The value that all but a twentieth of the stations reach, and from where to
/// where stations lie that pass `out`.
fn reached(values: &[(Length, f64)], out: impl Fn(f64) -> bool) -> Option<(f64, Option<Stretch>)> {
    let mut sorted: Vec<f64> = values.iter().map(|value| value.1).collect();
    sorted.sort_by(f64::total_cmp);
    let typical = *sorted.get((sorted.len() as f64 * SHARE) as usize)?;
    let mut over = values.iter().filter(|value| out(value.1)).map(|value| value.0);
    let first = over.next();
    Some((typical, first.map(|from| (from, over.last().unwrap_or(from)))))
}

type Stretch = (Length, Length);

fn placed(draft: Draft, stretch: Option<Stretch>) -> Draft {
    match stretch {
        Some((from, to)) => draft.place(from, to, None),
        None => draft,
    }
}

fn stations(context: &Context<'_>, known: usize) -> Vec<BasisInput> {
    let known = Amount::count(known as f64);
    let counted = beside("stations measured", known, "counted in the survey");
    survey(context).into_iter().chain([counted]).collect()
}

fn flattest(context: &Context<'_>, draft: Draft, falls: &[Crossfall]) -> Finding {
    let known: Vec<(Length, f64)> =
        falls.iter().filter_map(|fall| Some((fall.station, drained(fall)?.si()))).collect();
    let Some((typical, flat)) = reached(&known, |fall| fall < LEAST) else {
        let why = "no level near the centre tells a crown from a flat strip";
        return draft.unproven(why, [lines()]);
    };
    if typical >= LEAST && unknown(context, falls, known.len()) > SHARE {
        return with_holes(context, draft.value(ratio(typical)), falls, known.len());
    }
    let noise = match noise_of_fall(context) {
        Ok(noise) => noise,
        Err(why) => return draft.value(ratio(typical)).unavailable(&why),
    };
    let draft = placed(draft, flat).value(ratio(typical)).step(plain_step(
        "crossfall that 95 % of the stations reach",
        "fall from the centre to the lower edge over the distance, reached by 95 of 100 stations",
        RULE.source,
        stations(context, known.len())
            .into_iter()
            .chain([beside("fall that noise alone takes from one in twenty", noise, NOISE)])
            .collect(),
        ratio(typical),
    ));
    judged_over_noise(
        draft,
        (noise.into(), ratio(LEAST).into()),
        "the strip sheds water",
        "too flat to shed water; look for ponds after rain",
    )
}

/// What noise alone does to the fall from the centre to the nearer of the two
/// outermost lines, at one station in twenty.
fn noise_of_fall(context: &Context<'_>) -> Known<Ratio> {
    let noise = SurveyNoise::of(&context.flight.strip)?;
    let strip = running_surface(&context.flight.strip);
    let lines = strip.survey.iter().flat_map(|survey| &survey.lines);
    let reach = lines.fold((0.0_f64, 0.0_f64), |(left, right), line| {
        (left.min(line.offset.si()), right.max(line.offset.si()))
    });
    let nearer = match (-reach.0, reach.1) {
        (left, right) if left > 0.0 && right > 0.0 => left.min(right),
        (left, right) => left.max(right),
    };
    Ok(noise.twentieth_slope(metres(nearer)))
}

fn steepest(context: &Context<'_>, draft: Draft, falls: &[Crossfall]) -> Finding {
    let (letter, by) = match code_letter(context.flight) {
        Ok(known) => known,
        Err((why, wanted)) => return draft.unproven(why, wanted),
    };
    let (_, greatest) = letter.crossfall().value;
    // Downwards, so that the twentieth left out is the steepest.
    let steep: Vec<(Length, f64)> =
        falls.iter().map(|fall| (fall.station, -fall.steepest.si())).collect();
    let Some((typical, over)) = reached(&steep, |fall| -fall > greatest.si()) else {
        return draft.unproven("no station is measured", []);
    };
    let typical = ratio(-typical);
    if typical <= greatest && unknown(context, falls, falls.len()) > SHARE {
        return with_holes(context, draft.at_most(greatest).value(typical), falls, falls.len());
    }
    let noise = match noise_of_slope(context) {
        Ok(noise) => noise,
        Err(why) => return draft.at_most(greatest).value(typical).unavailable(&why),
    };
    let draft = draft.step(plain_step(
        "crossfall that 95 % of the stations stay under",
        "steepest slope between two lines side by side, not reached by 95 of 100 stations",
        letter.crossfall().source,
        std::iter::once(by).chain(stations(context, falls.len())).collect(),
        typical,
    ));
    let noisy = noise.si() > NOISE_SHARE * greatest.si();
    if typical > greatest && noisy && typical <= greatest + noise * SURELY {
        let wanted = need("strip: survey", "levels with less noise, or lines farther apart");
        return draft
            .at_most(greatest)
            .value(typical)
            .unproven("what is over the limit may be noise of the survey", [wanted]);
    }
    placed(draft.at_most(greatest), over).value(typical).judged(
        "within the civil norm",
        "steeper than the civil norm: wheels drift downhill in a crosswind",
    )
}

/// What noise alone shows of the slope between the two nearest lines, where the
/// steepest of a station counts and one station in twenty may be steeper.
fn noise_of_slope(context: &Context<'_>) -> Known<Ratio> {
    let noise = SurveyNoise::of(&context.flight.strip)?;
    let strip = running_surface(&context.flight.strip);
    let lines = strip.survey.iter().flat_map(|survey| &survey.lines);
    let mut offsets: Vec<f64> = lines.map(|line| line.offset.si()).collect();
    offsets.sort_by(f64::total_cmp);
    let apart = offsets.windows(2).filter_map(|pair| Some(pair.get(1)? - pair.first()?));
    let nearest = apart.filter(|gap| *gap > 0.0).fold(f64::INFINITY, f64::min);
    let counted = 20 * offsets.len().saturating_sub(1);
    Ok(noise.steepest_slope(metres(nearest), counted))
}

fn dished(context: &Context<'_>, draft: Draft, falls: &[Crossfall]) -> Finding {
    let is_dished = |fall: &&Crossfall| fall.form == Some(CrossSection::Dished);
    let with_form = falls.iter().filter(|fall| fall.form.is_some()).count();
    let share = ratio(falls.iter().filter(is_dished).count() as f64 / with_form.max(1) as f64);
    let draft = draft.at_most(ratio(SHARE));
    if share.si() <= SHARE && unknown(context, falls, with_form) > SHARE {
        return with_holes(context, draft.value(share), falls, with_form);
    }
    let noise = match noise_of_fall(context) {
        Ok(noise) => noise,
        Err(why) => return draft.value(share).unavailable(&why),
    };
    let surely = |fall: &&Crossfall| {
        let rises = |side: Option<Ratio>| side.is_some_and(|side| -side.si() > 0.001 + noise.si());
        is_dished(fall) && rises(fall.left) && rises(fall.right)
    };
    let surely = falls.iter().filter(surely).count() as f64 / with_form.max(1) as f64;
    if surely <= SHARE && (share.si() > SHARE || noise.si() > LEAST) {
        let why = format!(
            "noise of the survey alone tilts a side by {}: too much to tell a level section from a \
             dished one",
            Amount::from(noise).told()
        );
        return draft.value(share).unproven(why, [quieter()]);
    }
    let mut at = falls.iter().filter(is_dished).map(|fall| fall.station);
    let first = at.next();
    placed(draft, first.map(|from| (from, at.next_back().unwrap_or(from))))
        .value(share)
        .step(plain_step(
            "share of the stations that rise to both edges",
            "both sides rise by more than 0.1 %",
            Source::new("", "a crown or a fall to one side drains", Tier::CommonPractice),
            stations(context, with_form),
            share,
        ))
        .judged("the surface is crowned or falls to one side", "water stays in the middle there")
}

fn lines() -> Need {
    need("strip: survey", "lines at both edges and at the centre, over the whole length")
}

/// A value within its limit while too much of the strip is not known.
fn with_holes(context: &Context<'_>, draft: Draft, falls: &[Crossfall], known: usize) -> Finding {
    let why = format!(
        "{:.0} % of the strip shows no crossfall: no levels, or none near the centre to tell a \
         crown from a flat strip",
        100.0 * unknown(context, falls, known)
    );
    draft.unproven(why, [lines()])
}

/// Share of the stations that a survey of the whole strip would show and this
/// one does not.
fn unknown(context: &Context<'_>, falls: &[Crossfall], known: usize) -> f64 {
    let steps = falls.windows(2).filter_map(|pair| match pair {
        [one, next] => Some((next.station - one.station).si()),
        _ => None,
    });
    let step = steps.fold(f64::INFINITY, f64::min);
    let counted = falls.len() as f64;
    let expected = match &context.flight.strip.length {
        Some(length) if step.is_finite() && step > 0.0 => {
            ((length.value.si() / step + 1e-9).floor() + 1.0).max(counted)
        }
        _ => counted.max(1.0),
    };
    1.0 - known as f64 / expected
}

/// The fall that drains a station: the lesser of both sides for a crown, or the
/// slope from edge to edge. Edges at one height with no level between them to
/// the centre tell nothing: the strip may be crowned, flat or dished.
pub(super) fn drained(fall: &Crossfall) -> Option<Ratio> {
    let across = fall.across.abs();
    match (fall.left, fall.right) {
        (Some(left), Some(right)) => Some(left.min(right).max(across)),
        (Some(side), None) | (None, Some(side)) => Some(side.abs().max(across)),
        (None, None) => (across.si() >= LEAST).then_some(across),
    }
}
