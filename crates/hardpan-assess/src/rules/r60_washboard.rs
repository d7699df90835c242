//! R60: washboard.

use crate::context::Context;
use crate::draft::{Draft, beside, need, plain_step};
use crate::rule::Rule;
use crate::shape::levels::survey;
use crate::shape::survey_refusal::told;
use hardpan_model::{Finding, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity, inches, millimetres};
use hardpan_surface::{Corrugation, CorrugationSeverity};

pub(super) const RULE: Rule = Rule {
    code: "R60",
    name: "Washboard",
    checks: "Runs of five short waves or more of like length, 0.3 m to 3 m, on every line: \
             wavelength, height, extent; the highest is shown.",
    why: "Waves that repeat shake wheels, gear and instruments though each passes alone, lengthen \
          the stop, and grow with every braking.",
    limit: "None is published for unpaved strips. Severity under a 10 ft edge on runways: low \
            below 1/4 in, medium to 1/2 in, high above.",
    applies: "Levels at least every 75 mm, with a noise of at most 1.5 mm. Advice.",
    source: Source::new("TM-5-826-6", "corrugation, runways", Tier::Published),
    judge,
};

/// Trough to crest that noise makes of a wave, in standard deviations: judgement.
const NOISE_WAVE: f64 = 4.0;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "washboard", Phase::Always).advice();
    let detail = match &context.measured.shape.detail {
        Ok(detail) => detail,
        Err(why) => return vec![draft.unavailable(why)],
    };
    let seen: Vec<(Length, &Vec<Corrugation>)> = detail
        .lines
        .iter()
        .filter_map(|line| Some((line.offset, line.corrugation.as_ref().ok()?)))
        .collect();
    let dense = need(
        "strip: survey",
        &format!(
            "levels at least every {} where washboard is seen",
            Amount::from(millimetres(75.0)).told()
        ),
    );
    if seen.is_empty() {
        let why = detail.lines.iter().find_map(|line| line.corrugation.as_ref().err());
        let why = why.map_or_else(|| "there is no line".to_owned(), told);
        return vec![draft.unproven(why, [dense])];
    }
    let surveyed = context.flight.strip.survey.as_ref();
    let noise = surveyed.and_then(|survey| survey.level_noise.as_ref());
    let quiet = noise.is_some_and(|noise| NOISE_WAVE * noise.value.si() <= inches(0.25).si());
    if !quiet {
        let how = need("strip: survey_info.level_noise", "at most 1.5 mm: a straightedge reading");
        return vec![draft.unproven("survey noise alone would look like washboard", [how])];
    }
    let runs = seen.iter().flat_map(|(offset, runs)| runs.iter().map(move |run| (*offset, run)));
    let worst =
        runs.reduce(|most, next| if next.1.greatest > most.1.greatest { next } else { most });
    let step = |height: Length, waves: usize| {
        plain_step(
            "greatest height from trough to crest",
            "max over runs of five like waves or more",
            RULE.source,
            survey(context)
                .into_iter()
                .chain([beside("waves in the run", Amount::count(waves as f64), "counted there")])
                .collect(),
            height,
        )
    };
    let unseen = detail.lines.len() - seen.len();
    let not_all = || {
        format!(
            "none over that on {} of {} lines; the others are too sparse to show it",
            seen.len(),
            detail.lines.len()
        )
    };
    let Some((offset, run)) = worst else {
        let none = millimetres(0.0);
        let draft = draft.value(none).step(step(none, 0));
        return vec![match unseen {
            0 => draft.pass("none was found on any line"),
            _ => draft.unproven(not_all(), [dense]),
        }];
    };
    let severity = match run.severity() {
        CorrugationSeverity::Low => "low",
        CorrugationSeverity::Medium => "medium",
        CorrugationSeverity::High => "high",
    };
    let shown = |length: Length| Amount::from(length).told();
    let words = format!(
        "{severity} severity: {} waves of {} on the line at offset {}",
        run.waves,
        shown(run.wavelength),
        Amount::from(offset).told_signed()
    );
    let draft =
        draft.value(run.greatest).place(run.from, run.to, None).step(step(run.greatest, run.waves));
    vec![match run.severity() {
        CorrugationSeverity::High => draft.conditional(format!("{words}; grade it")),
        _ if unseen > 0 => draft.unproven(format!("{words}; {}", not_all()), [dense]),
        _ => draft.pass(words),
    }]
}
