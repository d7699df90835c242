//! The one entry: a strip's survey and the rules give everything by station.

use crate::chord::EventKind;
use crate::crossfall::crossfalls;
use crate::design_grade::without_design_grade;
use crate::error::{Error, setting};
use crate::event::{Edge, Event, events};
use crate::noise::{NoiseFloor, noise_floor};
use crate::profile::{Profile, Stretch, natural_spacing, outside, resample};
use crate::report::{EdgeLine, EdgeReport, LineSlopes, SurfaceReport};
use crate::rules::{EdgeRule, EvennessRules};
use crate::slope::{gradient, local_slopes, slope_changes};
use hardpan_model::{Caveat, Need, Strip, Survey, SurveyLine, Verdict};
use hardpan_quantity::{Amount, Length, Quantity, metres};
use rayon::prelude::*;

/// Everything that the survey of a strip says, by station.
///
/// For each chord the larger of two readings decides: grade left in, and design
/// grade removed, because a crest adds to a bump and hides a rut. A check is
/// unproven where the survey leaves a stretch out, has no line near a wheel
/// path, does not state its noise, or is so noisy that noise alone would reach
/// the stated share of the limit. What is found over the limit fails all the
/// same, in so noisy a survey only if it is over by more than noise would show.
///
/// # Errors
/// [`Error`] without a survey or line, for points out of range or order, or for
/// settings outside what the methods can use.
pub fn measure(strip: &Strip, rules: &EvennessRules) -> Result<SurfaceReport, Error> {
    let survey = strip.survey.as_ref().ok_or(Error::NoSurvey)?;
    if survey.lines.is_empty() {
        return Err(Error::NoLine);
    }
    let length = match &strip.length {
        Some(given) => {
            Some(metres(setting("length of the strip", given.value.si(), 1.0..=100_000.0, "m")?))
        }
        None => None,
    };
    let needs = survey_needs(survey, length, rules);
    let edges = edge_reports(survey, length, rules, &needs)?;
    let mut slopes = Vec::new();
    let mut caveats = Vec::new();
    for line in &survey.lines {
        if line.points.len() < 2 {
            caveats.push(Caveat {
                text: format!(
                    "the line at offset {:.1} m has fewer than two levels and says nothing",
                    line.offset.si()
                ),
            });
            continue;
        }
        slopes.push(line_slopes(line, length, rules)?);
    }
    let crossfall = crossfalls(survey, rules.crossfall_step, rules.slope_interval)?;
    Ok(SurfaceReport { edges, slopes, crossfall, needs, caveats })
}

fn need(what: &str, how: String) -> Need {
    Need { what: what.to_owned(), how }
}

/// Least samples under a chord, so that none of its positions is far from one that is
/// looked at. Judgement.
const SAMPLES: f64 = 12.0;

/// By how much of what noise alone would show an event must be over the limit in
/// a noisy survey: levels of few points scatter more than the usual one. Source:
/// judgement.
const SURELY: f64 = 1.5;

/// Least height that is over the limit and not by noise: where noise alone would
/// reach the stated share of the limit, by more than noise alone would show.
fn sure_from(floor: Option<NoiseFloor>, rule: &EdgeRule, rules: &EvennessRules) -> Length {
    let noisy = floor.filter(|floor| floor.share_of_limit > rules.noise_share);
    rule.limit + noisy.map_or(metres(0.0), |floor| SURELY * floor.false_worst)
}

fn survey_needs(survey: &Survey, length: Option<Length>, rules: &EvennessRules) -> Vec<Need> {
    let mut needs = Vec::new();
    if length.is_none() {
        let how = "without it nobody can tell whether the survey reaches both ends";
        needs.push(need("strip: length", how.to_owned()));
    }
    if survey.level_noise.is_none() {
        let how = "standard deviation of one level, as the surveyor states it: without it nobody \
                   can tell a bump from an error of the survey";
        needs.push(need("strip: survey.level_noise", how.to_owned()));
    }
    for wheel in &rules.wheel_offsets {
        let nearest = survey
            .lines
            .iter()
            .map(|line| (line.offset - *wheel).abs().si())
            .fold(f64::INFINITY, f64::min);
        let reached = nearest <= rules.wheel_reach.si();
        if !reached {
            needs.push(need(
                "survey line along a wheel path",
                format!(
                    "wheels run at offset {:.1} m; no line lies within {:.1} m of it",
                    wheel.si(),
                    rules.wheel_reach.si()
                ),
            ));
        }
    }
    needs
}

/// What each rule says of every line.
fn edge_reports(
    survey: &Survey,
    length: Option<Length>,
    rules: &EvennessRules,
    survey_needs: &[Need],
) -> Result<Vec<EdgeReport>, Error> {
    let noise = survey.level_noise.as_ref().map(|given| given.value);
    let edge_lines = |line| edge_lines(line, length, noise, rules);
    let by_line: Vec<_> = survey.lines.par_iter().map(edge_lines).collect();
    let mut by_rule = vec![Vec::new(); rules.edges.len()];
    for line in by_line {
        for (lines, of_line) in by_rule.iter_mut().zip(line?) {
            lines.push(of_line);
        }
    }
    let reports = rules.edges.iter().zip(by_rule);
    Ok(reports.map(|(rule, lines)| edge_report(lines, rule, rules, survey_needs)).collect())
}

fn edge_report(
    lines: Vec<EdgeLine>,
    rule: &EdgeRule,
    rules: &EvennessRules,
    survey_needs: &[Need],
) -> EdgeReport {
    let worst = |kind| {
        lines
            .iter()
            .filter_map(|line| line.worst(kind))
            .reduce(|most, next| if next.0.height > most.0.height { next } else { most })
    };
    let (worst_bump, worst_rut) = (worst(EventKind::Bump), worst(EventKind::Rut));
    let floor = lines
        .iter()
        .filter_map(|line| line.noise)
        .reduce(|most, next| if next.false_worst > most.false_worst { next } else { most });
    let mut needs = survey_needs.to_vec();
    needs.extend(lines.iter().flat_map(|line| unsurveyed_needs(line, rule)));
    needs.extend(noise_need(floor, rule, rules));
    let sure_from = sure_from(floor, rule, rules);
    let surely_over = |event: &Event| event.exceeds && event.height >= sure_from;
    let exceeds =
        [worst_bump, worst_rut].into_iter().flatten().any(|(event, _)| surely_over(&event));
    let verdict = match (exceeds, needs.is_empty()) {
        (true, _) => Verdict::Fail,
        (false, false) => Verdict::Unproven,
        (false, true) => Verdict::Pass,
    };
    EdgeReport {
        rule: rule.clone(),
        lines,
        worst_bump,
        worst_rut,
        noise: floor,
        sure_from,
        verdict,
        needs,
    }
}

fn unsurveyed_needs<'a>(line: &'a EdgeLine, rule: &'a EdgeRule) -> impl Iterator<Item = Need> + 'a {
    line.unsurveyed.iter().map(|stretch| {
        need(
            "levels closer together",
            format!(
                "offset {}, stations {}: {} needs a level every {} over at least {}",
                Amount::from(line.offset).told_signed(),
                Amount::from(stretch.from).told_to(stretch.to.into()),
                rule.told(),
                Amount::from(rule.survey_interval).told(),
                Amount::from(rule.length).told()
            ),
        )
    })
}

fn noise_need(floor: Option<NoiseFloor>, rule: &EdgeRule, rules: &EvennessRules) -> Option<Need> {
    let floor = floor?;
    let quiet = floor.share_of_limit <= rules.noise_share;
    (!quiet).then(|| {
        need(
            "a survey with less noise",
            format!(
                "noise of {:.1} mm on a level alone shows a deviation of {:.0} mm somewhere; {} \
                 must detect {:.0} mm",
                floor.level.si() * 1e3,
                floor.false_worst.si() * 1e3,
                rule.told(),
                rule.limit.si() * 1e3
            ),
        )
    })
}

/// What each rule says of one line.
fn edge_lines(
    line: &SurveyLine,
    length: Option<Length>,
    noise: Option<Length>,
    rules: &EvennessRules,
) -> Result<Vec<EdgeLine>, Error> {
    let mut removed = Removed { wavelength: rules.design_wavelength, known: Vec::new() };
    let mut of_line = |rule| edge_line(line, (length, noise), (rule, rules), &mut removed);
    rules.edges.iter().map(&mut of_line).collect()
}

/// Profiles of one line, with what is left of each without its design grade: rules
/// that read the same profile share it.
struct Removed {
    wavelength: Length,
    known: Vec<(Profile, Profile)>,
}

impl Removed {
    fn of(&mut self, profile: &Profile) -> Result<Profile, Error> {
        if let Some((_, left)) = self.known.iter().find(|(known, _)| known == profile) {
            return Ok(left.clone());
        }
        let left = without_design_grade(profile, self.wavelength)?;
        self.known.push((profile.clone(), left.clone()));
        Ok(left)
    }
}

fn edge_line(
    line: &SurveyLine,
    (length, noise): (Option<Length>, Option<Length>),
    (rule, rules): (&EdgeRule, &EvennessRules),
    removed: &mut Removed,
) -> Result<EdgeLine, Error> {
    let mut found = EdgeLine {
        offset: line.offset,
        grade_left_in: Vec::new(),
        grade_removed: Vec::new(),
        surveyed: Vec::new(),
        unsurveyed: Vec::new(),
        noise: None,
    };
    if line.points.len() > 1 {
        let at_most = rules.spacing.min(rule.length / SAMPLES);
        let spacing = natural_spacing(line, at_most)?;
        for profile in resample(line, spacing, rule.survey_interval)?.profiles {
            if profile.length_m() + 0.5 * profile.spacing_m() < rule.length.si() {
                continue;
            }
            found.surveyed.push(profile.stretch());
            found.grade_left_in.extend(edge_events(&profile, rule, rules)?);
            if rule.edge != Edge::Straightedge {
                let left = removed.of(&profile)?;
                found.grade_removed.extend(edge_events(&left, rule, rules)?);
            }
        }
    }
    let by_height = |a: &Event, b: &Event| b.height.si().total_cmp(&a.height.si());
    found.grade_left_in.sort_by(by_height);
    found.grade_removed.sort_by(by_height);
    if let Some(noise) = noise {
        found.noise = Some(line_noise(line, noise, rule)?);
    }
    let ends = line.points.first().zip(line.points.last());
    let whole = length.map(|length| Stretch { from: metres(0.0), to: length });
    let surveyed = ends.map(|(a, b)| Stretch { from: a.station, to: b.station });
    if let Some(whole) = whole.or(surveyed) {
        let laid = found.surveyed.iter().copied();
        found.unsurveyed = outside(laid, whole, rule.survey_interval.si());
    }
    Ok(found)
}

fn edge_events(
    profile: &Profile,
    rule: &EdgeRule,
    rules: &EvennessRules,
) -> Result<Vec<Event>, Error> {
    events(profile, rule.edge, rule.length, rule.limit, rules.list_worst)
}

fn line_noise(line: &SurveyLine, noise: Length, rule: &EdgeRule) -> Result<NoiseFloor, Error> {
    let levels = line.points.len();
    let span = match (line.points.first(), line.points.last()) {
        (Some(first), Some(last)) => (last.station - first.station).si(),
        _ => 0.0,
    };
    let interval = span / levels.saturating_sub(1).max(1) as f64;
    let per_chord =
        if interval > 0.0 { (rule.length.si() / interval).clamp(1.0, 1e6) } else { 1.0 };
    noise_floor(noise, levels, per_chord as usize, rule.limit)
}

fn line_slopes(
    line: &SurveyLine,
    length: Option<Length>,
    rules: &EvennessRules,
) -> Result<LineSlopes, Error> {
    Ok(LineSlopes {
        offset: line.offset,
        gradient: gradient(line, length)?,
        local: local_slopes(line, rules.slope_base, rules.slope_interval)?,
        changes: slope_changes(line, rules.slope_base, rules.slope_interval)?,
    })
}
