//! What else the survey shows, where it is dense enough: roughness index, single
//! irregularities and washboard. None of it has a limit for unpaved strips; it
//! tells the strip's keeper where and what to mend.

use crate::corrugation::{Corrugation, CorrugationRules, corrugations};
use crate::error::{Error, setting};
use crate::profile::{Profile, natural_spacing, resample};
use crate::roughness_index::{RoughnessIndex, line_index};
use crate::single_event::{SingleEvents, scan_single_events};
use crate::spectrum::{RoughnessClass, SpectrumFit, fit_spectrum, spectrum};
use hardpan_model::{Strip, SurveyLine};
use hardpan_quantity::{Length, Quantity, metres, millimetres};
use rayon::prelude::*;

/// How the detail is looked for.
#[derive(Debug, Clone, PartialEq)]
pub struct DetailRules {
    /// Longest edge of a single irregularity.
    pub longest_edge: Length,
    /// Longest distance between two levels for single irregularities.
    pub irregularity_interval: Length,
    /// Irregularities to list for each line.
    pub irregularities: usize,
    /// What counts as washboard.
    pub corrugation: CorrugationRules,
    /// Distance between the stations at which standing water is looked for.
    pub pond_step: Length,
    /// Longest distance between levels along a line for standing water.
    pub pond_interval: Length,
    /// Least depth of standing water.
    pub pond_depth: Length,
}

impl Default for DetailRules {
    /// Judgement, but for the edge of 120 m.
    fn default() -> Self {
        Self {
            longest_edge: metres(120.0),
            irregularity_interval: metres(1.0),
            irregularities: 5,
            corrugation: CorrugationRules::default(),
            pond_step: metres(1.0),
            pond_interval: metres(5.0),
            pond_depth: millimetres(10.0),
        }
    }
}

/// The detail of a strip. Every part that the survey cannot show says why.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceDetail {
    /// By survey line.
    pub lines: Vec<LineDetail>,
}

/// The detail of one line.
#[derive(Debug, Clone, PartialEq)]
pub struct LineDetail {
    /// Offset of the line.
    pub offset: Length,
    /// Roughness index of each gapless stretch; none when the survey does not
    /// state its noise.
    pub roughness: Option<Result<Vec<RoughnessIndex>, Error>>,
    /// Class of the spectrum, under the same condition.
    pub class: Option<Result<LineClass, Error>>,
    /// Worst single irregularities.
    pub irregularities: Result<SingleEvents, Error>,
    /// Washboard by station.
    pub corrugation: Result<Vec<Corrugation>, Error>,
}

/// The spectrum of one line in two numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineClass {
    /// Straight line through the spectrum.
    pub fit: SpectrumFit,
    /// Class of its density at a wavelength of 10 m.
    pub class: RoughnessClass,
}

/// Look for everything that the survey is dense enough to show.
///
/// # Errors
/// [`Error`] without a survey or line. What a single line cannot show stands in
/// its own part of the detail.
pub fn detail(strip: &Strip, rules: &DetailRules) -> Result<SurfaceDetail, Error> {
    let survey = strip.survey.as_ref().ok_or(Error::NoSurvey)?;
    if survey.lines.is_empty() {
        return Err(Error::NoLine);
    }
    let noise = survey.level_noise.as_ref().map(|given| given.value);
    let of_line = |line: &SurveyLine| LineDetail {
        offset: line.offset,
        roughness: noise.map(|noise| line_index(line, noise)),
        class: noise.map(|noise| line_class(line, noise)),
        irregularities: irregularities(line, rules),
        corrugation: washboard(line, &rules.corrugation),
    };
    Ok(SurfaceDetail { lines: survey.lines.par_iter().map(of_line).collect() })
}

fn profiles(line: &SurveyLine, spacing: Length, interval: Length) -> Result<Vec<Profile>, Error> {
    let found = resample(line, spacing, interval)?.profiles;
    if found.is_empty() {
        return Err(Error::TooSparse { offset_m: line.offset.si(), interval_m: interval.si() });
    }
    Ok(found)
}

/// Levels of a line for its spectrum.
const SPECTRUM_INTERVAL_M: f64 = 0.5;
/// Segment of the spectrum.
const SEGMENT_M: f64 = 100.0;

/// The class of the longest gapless stretch, of a line quiet enough for a
/// roughness index; fitted between four sample intervals and 30 m.
fn line_class(line: &SurveyLine, noise: Length) -> Result<LineClass, Error> {
    line_index(line, noise)?;
    let spacing = natural_spacing(line, metres(SPECTRUM_INTERVAL_M))?;
    let longest = profiles(line, spacing, metres(SPECTRUM_INTERVAL_M))?
        .into_iter()
        .reduce(|most, next| if next.length_m() > most.length_m() { next } else { most });
    let needed =
        |length_m: f64| Error::TooShort { method: "the spectrum", length_m, needed_m: SEGMENT_M };
    let profile = longest.ok_or_else(|| needed(0.0))?;
    let lines = spectrum(&profile, metres(SEGMENT_M))?;
    let fit = fit_spectrum(&lines, 4.0 * profile.spacing(), metres(30.0))?;
    let class = RoughnessClass::of(fit.at_ten_metres).ok_or_else(|| needed(profile.length_m()))?;
    Ok(LineClass { fit, class })
}

fn irregularities(line: &SurveyLine, rules: &DetailRules) -> Result<SingleEvents, Error> {
    let interval = rules.irregularity_interval;
    let spacing = natural_spacing(line, interval.min(metres(1.0)))?.max(metres(0.25));
    let mut found = SingleEvents { worst: Vec::new(), by_length: Default::default() };
    for profile in profiles(line, spacing, interval)? {
        if profile.length_m() >= 2.0 * profile.spacing_m() {
            found.join(scan_single_events(&profile, rules.longest_edge, rules.irregularities)?);
        }
    }
    found.worst.sort_by(|a, b| b.ratio.si().total_cmp(&a.ratio.si()));
    found.worst.truncate(rules.irregularities);
    Ok(found)
}

fn washboard(line: &SurveyLine, rules: &CorrugationRules) -> Result<Vec<Corrugation>, Error> {
    let shortest = setting("shortest wave", rules.shortest.si(), 0.2..=50.0, "m")?;
    let interval = metres(0.25 * shortest);
    let spacing = natural_spacing(line, interval)?;
    let mut found = Vec::new();
    for profile in profiles(line, spacing, interval)? {
        if profile.length_m() >= 2.0 * rules.longest.si() {
            found.extend(corrugations(&profile, rules)?);
        }
    }
    Ok(found)
}
