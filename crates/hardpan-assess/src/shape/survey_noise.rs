//! What the noise of the survey does to a check. Where noise alone would show a
//! good share of what must be detected, the check neither passes nor fails on
//! it: only what is over the limit by more than noise would show fails.

use crate::draft::{Draft, need};
use crate::measured::{Known, Unavailable};
use hardpan_model::{Finding, Need, Strip, Survey};
use hardpan_quantity::{Amount, Length, Quantity, Ratio, metres, ratio};
use hardpan_surface::{NoiseFloor, noise_floor};

/// Greatest share of what must be detected that noise alone may show: judgement.
pub(crate) const NOISE_SHARE: f64 = 0.5;
/// By how much of what noise alone would show a value must be over its limit in
/// a noisy survey: levels of few points scatter more than the usual one.
/// Judgement.
pub(crate) const SURELY: f64 = 1.5;
/// What to do about it.
const QUIETER: &str = "levels with less noise, or more of them to average";

/// Noise of a survey: standard deviation of one level.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SurveyNoise {
    pub(crate) level: Length,
}

impl SurveyNoise {
    /// The noise of the survey, or that nobody states it.
    pub(crate) fn of(strip: &Strip) -> Known<Self> {
        let survey = strip.survey.as_ref();
        let level = survey.and_then(|survey| survey.level_noise.as_ref());
        let level = level.ok_or_else(|| Unavailable {
            because: "the survey does not state its noise".to_owned(),
            needs: vec![need(
                "strip: survey_info.level_noise",
                "standard deviation of one level, as the surveyor states it",
            )],
        })?;
        Ok(Self { level: level.value })
    }

    /// Standard deviation of the slope between two levels.
    pub(crate) fn of_slope(self, apart: Length) -> Ratio {
        ratio(std::f64::consts::SQRT_2 * self.level.si() / apart.si().abs().max(1e-6))
    }

    /// About the steepest of so many slopes between two levels of level ground:
    /// `σ √2 √(2 ln N) / apart`.
    pub(crate) fn steepest_slope(self, apart: Length, slopes: usize) -> Ratio {
        let worst = (2.0 * (slopes.max(2) as f64).ln()).sqrt();
        self.of_slope(apart) * worst
    }

    /// About the slope that one in twenty stations passes by noise, either way.
    pub(crate) fn twentieth_slope(self, apart: Length) -> Ratio {
        self.of_slope(apart) * TWENTIETH
    }
}

/// What noise alone shows of standing water of a depth; none where it is not
/// stated.
pub(crate) fn noise_of_ponds(survey: &Survey, depth: Length) -> Option<NoiseFloor> {
    let noise = survey.level_noise.as_ref()?.value;
    let levels = survey.lines.iter().map(|line| line.points.len()).sum();
    noise_floor(noise, levels, 1, depth).ok()
}

/// What noise alone shows of single irregularities somewhere on the strip.
#[derive(Debug, Clone, Copy)]
pub(crate) struct EventNoise {
    pub(crate) false_worst: Length,
}

/// Levels under the edge of a single irregularity, about: judgement.
const LEVELS_OF_AN_EVENT: usize = 10;

impl EventNoise {
    /// None where the noise of the survey is not stated.
    pub(crate) fn of(survey: &Survey) -> Option<Self> {
        let noise = survey.level_noise.as_ref()?.value;
        let levels = survey.lines.iter().map(|line| line.points.len()).sum();
        let floor = noise_floor(noise, levels, LEVELS_OF_AN_EVENT, metres(1.0)).ok()?;
        Some(Self { false_worst: floor.false_worst })
    }

    /// Whether it hides what must be seen.
    pub(crate) fn hides(self, acceptable: Length) -> bool {
        self.false_worst > NOISE_SHARE * acceptable
    }

    /// Least height that is over the acceptable one whatever the noise.
    pub(crate) fn sure_from(self, acceptable: Length) -> Length {
        if self.hides(acceptable) { acceptable + SURELY * self.false_worst } else { acceptable }
    }
}

/// Quantile of the normal law that one in twenty passes on one side.
const TWENTIETH: f64 = 1.645;

/// What to ask for where noise hides what must be seen.
pub(crate) fn quieter() -> Need {
    need("strip: survey", QUIETER)
}

/// Verdict on a draft with value and limit, where noise alone would show `floor`
/// and the check must detect `detects`.
pub(crate) fn judged_over_noise(
    draft: Draft,
    (floor, detects): (Amount, Amount),
    holds: impl Into<String>,
    broken: impl Into<String>,
) -> Finding {
    let over = draft.margin().map(|margin| -margin.si);
    let noisy = floor.si > NOISE_SHARE * detects.si.abs();
    match over {
        Some(over) if noisy && over <= SURELY * floor.si => {
            let shows = floor.told();
            let because = if over > 0.0 {
                format!(
                    "what is over the limit may be noise of the survey, which alone shows {shows}"
                )
            } else {
                format!("noise of the survey alone shows {shows}: too much to prove it")
            };
            draft.unproven(because, [quieter()])
        }
        _ => draft.judged(holds, broken),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::RULES;
    use hardpan_model::{Phase, Verdict};

    fn verdict(value: f64, floor: f64) -> Verdict {
        let draft =
            Draft::new(&RULES[0], "slope", Phase::Always).value(ratio(value)).at_most(ratio(0.02));
        let (floor, detects) = (ratio(floor).into(), ratio(0.02).into());
        judged_over_noise(draft, (floor, detects), "holds", "broken").verdict
    }

    #[test]
    fn a_quiet_survey_passes_and_fails_and_a_noisy_one_fails_only_what_is_sure() {
        assert_eq!(verdict(0.019, 0.009), Verdict::Pass);
        assert_eq!(verdict(0.021, 0.009), Verdict::Fail);
        assert_eq!(verdict(0.019, 0.012), Verdict::Unproven);
        assert_eq!(verdict(0.037, 0.012), Verdict::Unproven);
        assert_eq!(verdict(0.039, 0.012), Verdict::Fail);
    }

    /// Greatest of 100 normal numbers: 2.5 σ expected, √(2 ln 100) = 3.03 bounds it.
    #[test]
    fn slopes_of_noise_fall_with_the_distance() {
        let noise = SurveyNoise { level: metres(0.01) };
        let over_30 = noise.steepest_slope(metres(30.0), 100).si();
        assert!((over_30 - 0.01 * 2.0_f64.sqrt() * 3.034_854 / 30.0).abs() < 1e-8);
        assert!(noise.of_slope(metres(3.0)).si() > 9.9 * noise.of_slope(metres(30.0)).si());
    }
}
