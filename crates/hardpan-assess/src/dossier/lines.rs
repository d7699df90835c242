//! Each survey line: levels, grade, roughness index, spectrum, washboard.

use super::{IndexSegment, LineShape, LineSpectrum, Shown, StripPlace, places};
use crate::shape::survey_noise::EventNoise;
use crate::shape::survey_refusal::told;
use hardpan_model::{Strip, SurveyLine};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, Volume, metres, ratio};
use hardpan_surface::{
    EvennessRules, LineDetail, Profile, RoughnessClass, RoughnessIndex, SpectralLine,
    SurfaceDetail, fit_spectrum, natural_spacing, resample, spectrum, without_design_grade,
};

/// Most levels of one line that a picture shows.
const MOST_LEVELS: usize = 1200;
/// Segment of a spectrum, metres.
const SEGMENT_M: f64 = 128.0;
/// Longest wavelength that a spectrum is fitted over, metres: a third of a
/// segment, so that three waves lie in it. Judgement.
const LONGEST_M: f64 = SEGMENT_M / 3.0;
/// Spectral lines that are averaged, and by how much their mean must stand over
/// the density of the noise, 2 σ² Δ: judgement.
const SMOOTHED: usize = 5;
const OVER_NOISE: f64 = 3.0;
/// Least band of wavelengths that a straight line is laid through: judgement.
const LEAST_BAND: f64 = 4.0;

/// Every line of the survey, from left to right.
pub(super) fn of(
    strip: &Strip,
    rules: &EvennessRules,
    detail: Result<&SurfaceDetail, &String>,
) -> Vec<LineShape> {
    let Some(survey) = &strip.survey else { return Vec::new() };
    let noise = EventNoise::of(survey);
    let level = survey.level_noise.as_ref().map(|given| given.value);
    let mut lines: Vec<LineShape> = survey
        .lines
        .iter()
        .enumerate()
        .map(|(at, line)| {
            let own = match &detail {
                Ok(detail) => detail.lines.get(at).ok_or_else(|| "not looked at".to_owned()),
                Err(why) => Err((*why).clone()),
            };
            shape(line, rules, own, (noise, level))
        })
        .collect();
    lines.sort_by(|a, b| a.offset.si().total_cmp(&b.offset.si()));
    lines
}

fn shape(
    line: &SurveyLine,
    rules: &EvennessRules,
    detail: Shown<&LineDetail>,
    (noise, level): (Option<EventNoise>, Option<Length>),
) -> LineShape {
    let offset = line.offset;
    LineShape {
        offset,
        levels: levels(line),
        grade: grade(line, rules),
        index: detail.clone().and_then(|detail| index(detail, level.is_some())),
        overall_index: detail.as_ref().ok().and_then(|detail| overall(detail)),
        spectrum: line_spectrum(line, level),
        washboard: list(detail.clone(), |detail| {
            let runs = detail.corrugation.as_ref().map_err(told)?;
            Ok(runs.iter().map(|run| places::washboard(run, offset)).collect())
        }),
        irregularities: list(detail, |detail| {
            let events = detail.irregularities.as_ref().map_err(told)?;
            Ok(events
                .worst
                .iter()
                .map(|event| places::irregularity(event, offset, noise))
                .collect())
        }),
    }
}

fn list(
    detail: Shown<&LineDetail>,
    pick: impl Fn(&LineDetail) -> Shown<Vec<StripPlace>>,
) -> Shown<Vec<StripPlace>> {
    detail.and_then(pick)
}

fn levels(line: &SurveyLine) -> Vec<(Length, Length)> {
    let every = line.points.len().div_ceil(MOST_LEVELS).max(1);
    line.points.iter().step_by(every).map(|point| (point.station, point.elevation)).collect()
}

fn index(detail: &LineDetail, noise_stated: bool) -> Shown<Vec<IndexSegment>> {
    let Some(found) = &detail.roughness else {
        return Err(if noise_stated {
            "not looked at"
        } else {
            "the noise of a level is not stated"
        }
        .to_owned());
    };
    let stretches = found.as_ref().map_err(told)?;
    let segments = stretches.iter().flat_map(|stretch| &stretch.segments);
    let segments: Vec<IndexSegment> = segments
        .map(|(at, index)| IndexSegment { from: at.from, to: at.to, index: *index })
        .collect();
    if segments.is_empty() {
        return Err("no gapless stretch of 100 m".to_owned());
    }
    Ok(segments)
}

/// The index of all stretches, each by its length.
fn overall(detail: &LineDetail) -> Option<Ratio> {
    let stretches = detail.roughness.as_ref()?.as_ref().ok()?;
    let length = |one: &RoughnessIndex| one.stretch.length().si();
    let whole: f64 = stretches.iter().map(length).sum();
    let sum: f64 = stretches.iter().map(|one| one.overall.si() * length(one)).sum();
    (whole > 0.0).then(|| ratio(sum / whole))
}

/// The longest gapless stretch of a line.
fn longest(line: &SurveyLine, interval: Length) -> Shown<Profile> {
    let spacing = natural_spacing(line, interval).map_err(|error| error.to_string())?;
    let pieces = resample(line, spacing, interval).map_err(|error| error.to_string())?.profiles;
    pieces
        .into_iter()
        .reduce(
            |most, next| {
                if next.stretch().length() > most.stretch().length() { next } else { most }
            },
        )
        .ok_or_else(|| format!("no levels {:.1} m apart or closer", interval.si()))
}

fn grade(line: &SurveyLine, rules: &EvennessRules) -> Vec<(Length, Length)> {
    let Ok(profile) = longest(line, rules.slope_interval) else { return Vec::new() };
    let Ok(bare) = without_design_grade(&profile, rules.design_wavelength) else {
        return Vec::new();
    };
    let every = profile.levels().count().div_ceil(MOST_LEVELS).max(1);
    profile
        .levels()
        .zip(bare.levels())
        .step_by(every)
        .map(|((station, level), (_, rest))| (station, level - rest))
        .collect()
}

/// The spectrum down to the wavelength where noise of the levels would draw it.
fn line_spectrum(line: &SurveyLine, noise: Option<Length>) -> Shown<LineSpectrum> {
    let noise = noise.ok_or_else(|| "the noise of a level is not stated".to_owned())?;
    let profile = longest(line, metres(5.0))?;
    let lines = spectrum(&profile, metres(SEGMENT_M)).map_err(|error| told(&error))?;
    let of_noise = 2.0 * noise.si() * noise.si() * profile.spacing().si();
    let clear = |some: &[SpectralLine]| {
        let mean = some.iter().map(|line| line.density.si()).sum::<f64>() / some.len() as f64;
        mean > OVER_NOISE * of_noise
    };
    let shown = lines.windows(SMOOTHED).take_while(|some| clear(some)).count();
    let lines = lines.get(..shown).unwrap_or_default();
    let last = lines.last().map_or(SEGMENT_M, |line| line.wavelength.si());
    let shortest = (4.0 * profile.spacing()).max(metres(last));
    let longest = metres(LONGEST_M);
    if shortest > longest / LEAST_BAND {
        return Err(format!(
            "noise of the survey alone would draw it below a wavelength of {}",
            Amount::from(metres(last)).told()
        ));
    }
    let fit = fit_spectrum(lines, shortest, longest).map_err(|error| told(&error))?;
    let class = RoughnessClass::of(fit.at_ten_metres)
        .ok_or_else(|| "the line is level: it has no class".to_owned())?;
    Ok(LineSpectrum {
        lines: lines.iter().map(|line| (line.wavelength, line.density)).collect(),
        at_ten_metres: fit.at_ten_metres,
        exponent: fit.exponent,
        class: letter(class),
        fitted: (shortest, longest),
    })
}

fn letter(class: RoughnessClass) -> char {
    match class {
        RoughnessClass::A => 'A',
        RoughnessClass::B => 'B',
        RoughnessClass::C => 'C',
        RoughnessClass::D => 'D',
        RoughnessClass::E => 'E',
        RoughnessClass::F => 'F',
        RoughnessClass::G => 'G',
        RoughnessClass::H => 'H',
    }
}

/// Upper bounds of the classes but the last, which has none: twice the
/// geometric mean.
pub(super) fn class_bounds() -> Vec<(char, Volume)> {
    use RoughnessClass as Class;
    [Class::A, Class::B, Class::C, Class::D, Class::E, Class::F, Class::G]
        .into_iter()
        .map(|class| (letter(class), 2.0 * class.mean()))
        .collect()
}
