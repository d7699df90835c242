//! What the noise of the survey moves: the ride of each run, and bumps and ruts
//! under each chord.

use crate::measured::Measured;
use hardpan_model::Flight;
use hardpan_quantity::{Length, Quantity};
use hardpan_surface::{EdgeReport, cockpit_limit};

/// Both ends of a chord and the point under it err each by one deviation: their
/// deviation together is at most the root of two of it, at either end.
const OF_A_CHORD: f64 = std::f64::consts::SQRT_2;

/// A limit on a figure that the levels move, in SI units.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LevelLimit {
    pub(super) code: &'static str,
    pub(super) title: String,
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

/// Every such limit whose noise is known.
pub(super) fn level_limits(flight: &Flight, measured: &Measured) -> Vec<LevelLimit> {
    let mut limits = rides(flight, measured);
    limits.extend(chords(flight, measured));
    limits
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
                found,
                noise: noise.si(),
                limit: cockpit_limit().si(),
            }),
        }
    }
    limits
}

/// The worst bump or rut under each chord that R10 judges.
fn chords(flight: &Flight, measured: &Measured) -> Vec<LevelLimit> {
    let Ok(report) = &measured.shape.surface else { return Vec::new() };
    let survey = flight.strip.survey.as_ref();
    let Some(noise) = survey.and_then(|survey| survey.level_noise.as_ref()) else {
        return Vec::new();
    };
    let judged = report.edges.iter().filter(|edge| !edge.looks_for_holes());
    judged.filter_map(|edge| chord(edge, noise.value)).collect()
}

fn chord(edge: &EdgeReport, noise: Length) -> Option<LevelLimit> {
    let (event, _) = edge.worst()?;
    Some(LevelLimit {
        code: "R10",
        title: format!("bumps and ruts, {}", edge.rule.name),
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
            found: 0.060,
            noise: 0.003,
            limit: 0.0762,
        };
        assert!((limit.left(0.0) - 0.0162).abs() < 1e-12);
        assert!((limit.left(5.4)).abs() < 1e-12);
        assert!(limit.left(6.0) < 0.0 && limit.left(-2.0) > limit.left(0.0));
    }
}
