//! The levels under nose and main gear, asked side by side.

use crate::profile::Profile;
use crate::ride::Lanes;
use crate::ride::whole::steps_and_rests;
use wide::{CmpGe, CmpLt, f64x2};

/// Levels under nose and main gear, in this order.
#[derive(Clone, Copy)]
pub(super) struct Roads<'a> {
    levels: [&'a [f64]; 2],
    begin: f64x2,
    per_metre: f64x2,
    /// Index of the last level.
    last: f64x2,
}

impl<'a> Roads<'a> {
    pub(super) fn of(lanes: Lanes<'a>) -> Self {
        let profiles = [lanes.nose, lanes.main];
        let each = |value: fn(&Profile) -> f64| f64x2::from(profiles.map(value));
        Self {
            levels: profiles.map(Profile::elevations_m),
            begin: each(|profile| profile.station_m(0)),
            per_metre: each(|profile| 1.0 / profile.spacing_m()),
            last: each(|profile| profile.elevations_m().len().saturating_sub(1) as f64),
        }
    }

    /// Levels and slopes at a station for each, straight between the levels and
    /// level beyond them.
    #[inline(always)]
    pub(super) fn at(&self, stations: f64x2) -> (f64x2, f64x2) {
        let at = (stations - self.begin) * self.per_metre;
        let within = at.cmp_ge(f64x2::ZERO) & at.cmp_lt(self.last);
        if within.all() {
            let (steps, rests) = steps_and_rests(at);
            if let (Some([a, b]), Some([c, d])) = (self.ends(0, steps[0]), self.ends(1, steps[1])) {
                let (low, high) = (f64x2::from([*a, *c]), f64x2::from([*b, *d]));
                let rise = high - low;
                return (low + rise * rests, rise * self.per_metre);
            }
        }
        self.one_by_one(at)
    }

    /// The levels at both ends of a step.
    #[inline(always)]
    fn ends(&self, road: usize, step: usize) -> Option<&[f64; 2]> {
        self.levels[road].get(step..)?.first_chunk()
    }

    #[cold]
    fn one_by_one(&self, at: f64x2) -> (f64x2, f64x2) {
        let (at, last, per_metre) =
            (at.to_array(), self.last.to_array(), self.per_metre.to_array());
        let one = |road: usize| {
            let (at, levels) = (at[road], self.levels[road]);
            if at >= 0.0
                && at < last[road]
                && let Some([a, b]) = self.ends(road, at as usize)
            {
                return (a + (b - a) * at.fract(), (b - a) * per_metre[road]);
            }
            let end = if at < 0.0 { levels.first() } else { levels.last() };
            (end.copied().unwrap_or(0.0), 0.0)
        };
        let [nose, main] = [one(0), one(1)];
        ([nose.0, main.0].into(), [nose.1, main.1].into())
    }
}
