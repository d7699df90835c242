//! Which survey lines lie on the running surface, and which beside it.

use hardpan_model::{Strip, Survey, SurveyLine};
use hardpan_quantity::{Length, metres};
use std::borrow::Cow;

/// A line this far beyond the edge still stands for the edge: judgement.
const BEYOND_EDGE_M: f64 = 0.5;

/// Distance from the centre line out to which a line counts as running surface;
/// none where the width is not known, so that every line counts.
pub(crate) fn half_width(strip: &Strip) -> Option<Length> {
    strip.width.as_ref().map(|width| 0.5 * width.value + metres(BEYOND_EDGE_M))
}

/// The strip with the lines of its running surface alone: a bank beside the
/// runway is no bump on it.
pub(crate) fn running_surface(strip: &Strip) -> Cow<'_, Strip> {
    let (Some(half), Some(survey)) = (half_width(strip), &strip.survey) else {
        return Cow::Borrowed(strip);
    };
    let on = |line: &&SurveyLine| line.offset.abs() <= half;
    if survey.lines.iter().all(|line| on(&line)) {
        return Cow::Borrowed(strip);
    }
    let lines = survey.lines.iter().filter(on).cloned().collect();
    let survey = Some(Survey {
        lines,
        file: survey.file.clone(),
        date: survey.date.clone(),
        level_noise: survey.level_noise.clone(),
    });
    Cow::Owned(Strip { survey, ..strip.clone() })
}
