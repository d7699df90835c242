//! What would the lanes be, were the soundings other than they are?
//!
//! [`StrengthAlong`] and a factor for each sounding → `Vec<StrengthLane>`. The
//! soundings that bear on each point are looked up once, so that thousands of
//! variations cost little more than the layers themselves.

use crate::Error;
use crate::sounding::along::{Found, Growth, Sounded, found, strength_along, weaker_by_depth};
use crate::sounding::penetrometer::GREATEST_PERCENT;
use hardpan_model::{Lane, StrengthLane, Strip};
use hardpan_quantity::{BearingRatio, Length, Quantity};

/// Strength along the lanes, ready to be varied by sounding.
pub struct StrengthAlong {
    lanes: Vec<StrengthLane>,
    found: Found,
    /// Soundings and tests that bear on the ground together, each row once.
    sets: Vec<Set>,
    /// Which set each point of each lane rests on.
    of_point: Vec<Vec<usize>>,
    /// Length over which the ground is alike, metres.
    correlation: Option<f64>,
}

#[derive(PartialEq)]
struct Set {
    soundings: Vec<usize>,
    tests: Vec<usize>,
    known_to: Length,
    /// Distances to what lies beside, where the ground counts by them.
    away: Vec<Length>,
}

impl StrengthAlong {
    /// Strength along the lanes, as [`strength_along`] gives it.
    ///
    /// # Errors
    /// As [`strength_along`].
    pub fn new(
        strip: &Strip,
        lanes: &[(Lane, Length)],
        step: Length,
        length: Length,
    ) -> Result<Self, Error> {
        let lanes = strength_along(strip, lanes, step, length)?;
        let found = found(strip)?;
        let correlation = strip.sounding_rules.correlation_length.as_ref();
        let correlation = correlation.map(|length| length.value.si());
        let mut sets: Vec<Set> = Vec::new();
        let of_point = lanes
            .iter()
            .map(|lane| {
                let set = |point: &hardpan_model::StrengthPoint| {
                    let set = Set {
                        soundings: point.soundings.clone(),
                        tests: point.strength_tests.clone(),
                        known_to: point.known_to,
                        away: correlation.map_or_else(Vec::new, |_| point.away.clone()),
                    };
                    sets.iter().position(|known| *known == set).unwrap_or_else(|| {
                        sets.push(set);
                        sets.len() - 1
                    })
                };
                lane.points.iter().map(set).collect()
            })
            .collect();
        Ok(Self { lanes, found, sets, of_point, correlation })
    }

    /// The lanes as they are.
    #[must_use]
    pub fn lanes(&self) -> &[StrengthLane] {
        &self.lanes
    }

    /// The lanes if every layer of each sounding had its bearing ratio times the
    /// factor of that sounding, at most CBR 100, and every strength test times
    /// that of the tests. A sounding without a factor keeps its strength.
    #[must_use]
    pub fn varied(&self, factors: &[f64], of_tests: f64) -> Vec<StrengthLane> {
        let changed = |sounded: &Sounded, factor: f64| {
            let mut sounded = sounded.clone();
            for layer in &mut sounded.layers {
                layer.percent = (layer.percent * factor).min(GREATEST_PERCENT);
            }
            sounded
        };
        let layers: Vec<Vec<(Length, BearingRatio)>> = self
            .sets
            .iter()
            .map(|set| {
                let soundings = set.soundings.iter().filter_map(|at| {
                    let factor = factors.get(*at).copied().unwrap_or(1.0);
                    self.found.soundings.get(*at).map(|one| changed(one, factor))
                });
                let soundings: Vec<Sounded> = soundings.collect();
                let tests = self.found.tested();
                let tests = tests
                    .filter(|one| one.tests.iter().all(|test| set.tests.contains(test)))
                    .map(|one| changed(one, of_tests));
                let mut tests: Vec<Sounded> = tests.collect();
                tests.sort_by(|a, b| a.station.total_cmp(&b.station));
                let beside: Vec<&Sounded> =
                    if soundings.is_empty() { &tests } else { &soundings }.iter().collect();
                let away: Vec<f64> = set.away.iter().map(|away| away.si()).collect();
                let growth = Growth::at(&beside, self.found.scatter, &away, self.correlation);
                let used: Vec<&Sounded> = soundings.iter().chain(&tests).collect();
                weaker_by_depth(&used, set.known_to.si(), &growth)
            })
            .collect();
        let mut lanes = self.lanes.clone();
        for (lane, sets) in lanes.iter_mut().zip(&self.of_point) {
            for (point, set) in lane.points.iter_mut().zip(sets) {
                point.layers.clone_from(&layers[*set]);
            }
        }
        lanes
    }
}
