//! Washboard: runs of short waves of like length, with their extent and height.

use crate::error::{Error, setting};
use crate::profile::Profile;
use hardpan_quantity::{Length, Quantity, inches, metres};

/// How bad a corrugation is under a 10 ft edge on a runway.
/// Source: [TM-5-826-6].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CorrugationSeverity {
    /// Below 1/4 in.
    Low,
    /// 1/4 in to 1/2 in.
    Medium,
    /// Above 1/2 in.
    High,
}

/// One run of waves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corrugation {
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Mean wavelength.
    pub wavelength: Length,
    /// Mean height from trough to crest.
    pub height: Length,
    /// Greatest height from trough to crest.
    pub greatest: Length,
    /// Waves in the run.
    pub waves: usize,
}

impl Corrugation {
    /// Severity of the greatest height.
    #[must_use]
    pub fn severity(&self) -> CorrugationSeverity {
        if self.greatest < inches(0.25) {
            CorrugationSeverity::Low
        } else if self.greatest <= inches(0.5) {
            CorrugationSeverity::Medium
        } else {
            CorrugationSeverity::High
        }
    }
}

/// What counts as a corrugation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CorrugationRules {
    /// Shortest wave.
    pub shortest: Length,
    /// Longest wave.
    pub longest: Length,
    /// Least height of a wave.
    pub least_height: Length,
    /// Least number of waves in a row.
    pub waves: usize,
    /// Greatest factor between a wave and the mean of its run.
    pub likeness: f64,
}

impl Default for CorrugationRules {
    /// Five waves or more of 0.3 m to 3 m, 5 mm high, within half as long or
    /// short again as their mean. Judgement.
    fn default() -> Self {
        Self {
            shortest: metres(0.3),
            longest: metres(3.0),
            least_height: metres(0.005),
            waves: 5,
            likeness: 1.5,
        }
    }
}

#[derive(Debug, Clone, Copy)]
struct Wave {
    from: f64,
    to: f64,
    height: f64,
}

impl Wave {
    fn length(&self) -> f64 {
        self.to - self.from
    }
}

/// Runs of like waves by rising station. A wave runs from one rise through the
/// local mean to the next; the local mean is taken over the longest wave.
///
/// # Errors
/// [`Error`] when the profile has fewer than four samples to the shortest wave
/// or is shorter than twice the longest, or for rules out of range.
pub fn corrugations(
    profile: &Profile,
    rules: &CorrugationRules,
) -> Result<Vec<Corrugation>, Error> {
    let shortest = setting("shortest wave", rules.shortest.si(), 0.05..=50.0, "m")?;
    let longest = setting("longest wave", rules.longest.si(), shortest..=50.0, "m")?;
    let least = setting("least height of a wave", rules.least_height.si(), 0.0..=1.0, "m")?;
    setting("likeness of waves", rules.likeness, 1.0..=5.0, "")?;
    setting("sample spacing for waves", profile.spacing_m(), 1e-3..=0.25 * shortest + 1e-9, "m")?;
    if profile.length_m() < 2.0 * longest {
        return Err(Error::TooShort {
            method: "a search for corrugation",
            length_m: profile.length_m(),
            needed_m: 2.0 * longest,
        });
    }
    let fits = |wave: &Wave| (shortest..=longest).contains(&wave.length()) && wave.height >= least;
    let mut found = Vec::new();
    let mut run: Vec<Wave> = Vec::new();
    for wave in waves(profile, longest) {
        let like = mean_length(&run).is_none_or(|mean| {
            wave.length() <= mean * rules.likeness && wave.length() >= mean / rules.likeness
        });
        if !(fits(&wave) && like) {
            found.extend(closed(&run, rules.waves));
            run.clear();
        }
        if fits(&wave) {
            run.push(wave);
        }
    }
    found.extend(closed(&run, rules.waves));
    Ok(found)
}

fn mean_length(run: &[Wave]) -> Option<f64> {
    let (first, last) = (run.first()?, run.last()?);
    Some((last.to - first.from) / run.len() as f64)
}

fn closed(run: &[Wave], least: usize) -> Option<Corrugation> {
    let (first, last) = (run.first()?, run.last()?);
    if run.len() < least.max(1) {
        return None;
    }
    let sum: f64 = run.iter().map(|wave| wave.height).sum();
    Some(Corrugation {
        from: metres(first.from),
        to: metres(last.to),
        wavelength: metres(mean_length(run)?),
        height: metres(sum / run.len() as f64),
        greatest: metres(run.iter().fold(0.0, |most: f64, wave| most.max(wave.height))),
        waves: run.len(),
    })
}

/// Waves between rises through the local mean.
fn waves(profile: &Profile, window: f64) -> Vec<Wave> {
    let off = off_local_mean(profile, window);
    let mut rises = Vec::new();
    for (index, pair) in off.windows(2).enumerate() {
        if let [a, b] = pair
            && *a < 0.0
            && *b >= 0.0
        {
            rises.push((index, profile.station_m(index) + profile.spacing_m() * a / (a - b)));
        }
    }
    rises
        .windows(2)
        .filter_map(|pair| {
            let ((first, from), (last, to)) = (pair.first().copied()?, pair.get(1).copied()?);
            let levels = off.get(first..=last)?;
            let crest = levels.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let trough = levels.iter().copied().fold(f64::INFINITY, f64::min);
            Some(Wave { from, to, height: crest - trough })
        })
        .collect()
}

fn off_local_mean(profile: &Profile, window: f64) -> Vec<f64> {
    let z = profile.elevations_m();
    let half = profile.intervals(0.5 * window, 1);
    let mut sums = vec![0.0];
    let base = z.first().copied().unwrap_or(0.0);
    let mut sum = 0.0;
    for level in z {
        sum += level - base;
        sums.push(sum);
    }
    z.iter()
        .enumerate()
        .map(|(index, level)| {
            let reach = half.min(index).min(z.len() - 1 - index);
            let (from, to) = (index - reach, index + reach + 1);
            let sum = sums.get(to).copied().unwrap_or(0.0) - sums.get(from).copied().unwrap_or(0.0);
            level - base - sum / (to - from) as f64
        })
        .collect()
}
