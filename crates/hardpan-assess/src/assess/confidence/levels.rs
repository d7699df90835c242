//! What the noise of the survey moves: the ride of each run, bumps and ruts under
//! each chord, slopes, clearances and how rain runs off.

use crate::assess::ADVISORY;
use crate::measured::Measured;
use hardpan_ground::SHEET_FLOW_DEPTH_MANNING;
use hardpan_math::largest_holding;
use hardpan_model::{Bound, Finding, Flight, Step};
use hardpan_quantity::{Amount, Dimension, Length, Quantity};
use hardpan_surface::{EdgeReport, cockpit_limit};

/// Both ends of a chord and the point under it err each by one deviation: their
/// deviation together is at most the root of two of it, at either end.
const OF_A_CHORD: f64 = std::f64::consts::SQRT_2;

/// How far the crossfall is looked for either way, as the logarithm of a factor.
const FURTHEST: f64 = 5.0;

/// A limit on a figure that the levels move, in SI units.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LevelLimit {
    pub(super) code: &'static str,
    pub(super) title: String,
    /// Whether it only advises.
    pub(super) advises: bool,
    found: f64,
    /// What one deviation of the levels adds.
    noise: f64,
    limit: f64,
}

impl LevelLimit {
    /// What is left of the limit with the levels so many deviations off.
    pub(super) fn left(&self, deviations: f64) -> f64 {
        self.limit - (self.found + self.noise * deviations)
    }
}

/// Every such limit whose noise is known, by the measures and by what was found.
pub(super) fn level_limits(
    flight: &Flight,
    measured: &Measured,
    found: &[Finding],
) -> Vec<LevelLimit> {
    let mut limits = rides(flight, measured);
    limits.extend(chords(flight, measured));
    let survey = flight.strip.survey.as_ref();
    if let Some(noise) = survey.and_then(|survey| survey.level_noise.as_ref()) {
        let of_a_chord = OF_A_CHORD * noise.value.si();
        limits.extend(found.iter().filter_map(by_noise_alone));
        limits.extend(found.iter().filter_map(|one| irregularity(one, of_a_chord)));
        limits.extend(found.iter().filter_map(|one| gradient(flight, one, of_a_chord)));
        limits.extend(run_off(found));
    }
    limits
}

/// Codes of rules that write down what noise alone shows of their figure.
const BY_NOISE_ALONE: [&str; 4] = ["D60", "R30", "R80", "R90"];

/// A figure of which a rule tells what noise alone shows: the greatest of it stands
/// for one deviation, which errs on the safe side.
fn by_noise_alone(found: &Finding) -> Option<LevelLimit> {
    let meant = BY_NOISE_ALONE.contains(&found.code);
    let noise = noise_alone(found).filter(|_| meant)?;
    held(found, noise.si).filter(|_| noise.dimension == found.value.map_or(noise, |v| v).dimension)
}

fn noise_alone(found: &Finding) -> Option<Amount> {
    let inputs = found.basis.steps.iter().flat_map(|step| &step.inputs);
    let mut noise = inputs.filter(|input| input.name.contains("noise alone"));
    noise.next().map(|input| input.amount)
}

/// A finding held to its limit, with what one deviation adds.
fn held(found: &Finding, noise: f64) -> Option<LevelLimit> {
    let (value, limit) = (found.value?, found.limit?);
    let sign = match limit.bound {
        Bound::AtMost => 1.0,
        Bound::AtLeast => -1.0,
    };
    Some(LevelLimit {
        code: found.code,
        title: found.title.clone(),
        advises: ADVISORY.contains(&found.code),
        found: sign * value.si,
        noise,
        limit: sign * limit.amount.si,
    })
}

/// The worst single irregularity, over the height that is acceptable at its length.
fn irregularity(found: &Finding, of_a_chord: f64) -> Option<LevelLimit> {
    if found.code != "R40" || found.value?.dimension != Dimension::Ratio {
        return None;
    }
    let inputs = found.basis.steps.iter().flat_map(|step| &step.inputs);
    let height = inputs.filter(|input| input.name == "height").find_map(|one| one.amount.get())?;
    let height: Length = height;
    let limit = held(found, of_a_chord * found.value?.si / height.si())?;
    Some(LevelLimit { advises: true, ..limit })
}

/// The gradient between the highest and the lowest level.
fn gradient(flight: &Flight, found: &Finding, of_two: f64) -> Option<LevelLimit> {
    let length = flight.strip.length.as_ref()?.value.si();
    (found.code == "R20").then(|| held(found, of_two / length))?
}

/// Rain runs off deeper the flatter the strip is: held to the crossfall at which it
/// is as deep as is allowed. What noise alone takes from the crossfall of R30 stands
/// for one deviation.
fn run_off(found: &[Finding]) -> Option<LevelLimit> {
    let flow = |step: &&Step| step.formula == Some(SHEET_FLOW_DEPTH_MANNING.name);
    let rain =
        found.iter().find(|one| one.code == "W30" && one.basis.steps.iter().any(|s| flow(&s)))?;
    let limit = rain.limit?.amount.si;
    let step = rain.basis.steps.iter().find(flow)?;
    let at = step.inputs.iter().position(|input| input.name == "slope")?;
    let slope = step.inputs[at].amount.si;
    let bounds = SHEET_FLOW_DEPTH_MANNING.arguments.iter().find(|one| one.name == "slope")?;
    let depth = |slope: f64| {
        let inputs = step.inputs.iter().take(SHEET_FLOW_DEPTH_MANNING.arguments.len());
        let mut values: Vec<Amount> = inputs.map(|input| input.amount).collect();
        values[at].si = slope.clamp(bounds.minimum, bounds.maximum);
        Some(SHEET_FLOW_DEPTH_MANNING.value(&values).ok()?.si)
    };
    let drains = |flatter: f64| depth(slope * (-flatter).exp()).is_some_and(|deep| deep <= limit);
    let flatter = largest_holding(drains, -FURTHEST, FURTHEST, 1e-9)?;
    let fall = found.iter().filter(|one| one.code == "R30").find_map(noise_alone)?;
    Some(LevelLimit {
        code: rain.code,
        title: rain.title.clone(),
        advises: true,
        found: slope * (-flatter).exp(),
        noise: fall.si,
        limit: slope,
    })
}

/// The worst ride of each run that was ridden. The greatest that noise alone shows
/// stands for one deviation, which errs on the safe side.
fn rides(flight: &Flight, measured: &Measured) -> Vec<LevelLimit> {
    let Ok(rides) = measured.rides(flight) else { return Vec::new() };
    let Some(noise) = rides.noise else { return Vec::new() };
    let mut limits: Vec<LevelLimit> = Vec::new();
    for ride in &rides.all {
        let title = format!("ride at the cockpit, {}", ride.run);
        let found = ride.worst.si();
        match limits.iter_mut().find(|limit| limit.title == title) {
            Some(limit) => limit.found = limit.found.max(found),
            None => limits.push(LevelLimit {
                code: "R70",
                title,
                advises: false,
                found,
                noise: noise.si(),
                limit: cockpit_limit().si(),
            }),
        }
    }
    limits
}

/// The worst bump or rut under each chord that R10 judges, and the worst hole of R40.
fn chords(flight: &Flight, measured: &Measured) -> Vec<LevelLimit> {
    let Ok(report) = &measured.shape.surface else { return Vec::new() };
    let survey = flight.strip.survey.as_ref();
    let Some(noise) = survey.and_then(|survey| survey.level_noise.as_ref()) else {
        return Vec::new();
    };
    report.edges.iter().filter_map(|edge| chord(edge, noise.value)).collect()
}

fn chord(edge: &EdgeReport, noise: Length) -> Option<LevelLimit> {
    let (event, _) = edge.worst()?;
    let (code, title) = match edge.looks_for_holes() {
        true => ("R40", "holes and depressions".to_owned()),
        false => ("R10", format!("bumps and ruts, {}", edge.rule.told())),
    };
    Some(LevelLimit {
        code,
        title,
        advises: false,
        found: event.height.si(),
        noise: OF_A_CHORD * noise.si(),
        limit: edge.rule.limit.si(),
    })
}

#[cfg(test)]
mod tests {
    use super::{LevelLimit, OF_A_CHORD};

    /// By definition: the error of z(x + tL) - (1 - t) z(x) - t z(x + L) has the
    /// variance 1 + (1 - t)² + t² of one level's, from 3/2 in the middle to 2.
    #[test]
    fn no_place_under_a_chord_errs_by_more() {
        for step in 0..=100 {
            let t = f64::from(step) / 100.0;
            let variance: f64 = 1.0 + (1.0 - t) * (1.0 - t) + t * t;
            assert!((1.5..=OF_A_CHORD * OF_A_CHORD + 1e-12).contains(&variance));
        }
    }

    #[test]
    fn higher_levels_leave_less() {
        let limit = LevelLimit {
            code: "R10",
            title: String::new(),
            advises: false,
            found: 0.060,
            noise: 0.003,
            limit: 0.0762,
        };
        assert!((limit.left(0.0) - 0.0162).abs() < 1e-12);
        assert!((limit.left(5.4)).abs() < 1e-12);
        assert!(limit.left(6.0) < 0.0 && limit.left(-2.0) > limit.left(0.0));
    }
}
