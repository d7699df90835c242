//! The point that stands highest over every chord from one sample, as the chord
//! grows: the upper hull of the samples so far (Andrew's monotone chain), on
//! which the furthest point moves little from one chord to the next.

/// Upper hull of the samples from the first on.
pub(crate) struct GrowingHull {
    sign: f64,
    /// Samples from the first, level, and the same count as a number.
    points: Vec<(f64, f64, usize)>,
    /// The corner that stood furthest over the chord before.
    furthest: usize,
    taken: usize,
}

impl GrowingHull {
    /// A hull of the levels, or of the levels upside down.
    pub(crate) fn new(upside_down: bool) -> Self {
        let sign = if upside_down { -1.0 } else { 1.0 };
        Self { sign, points: Vec::new(), furthest: 0, taken: 0 }
    }

    /// Begins again at a sample.
    pub(crate) fn begin(&mut self, level: f64) {
        self.points.clear();
        self.points.push((0.0, self.sign * level, 0));
        (self.furthest, self.taken) = (0, 0);
    }

    /// Takes the next sample: how far the profile stands over the chord from the
    /// first sample to it at most, and how many samples from the first. Nothing
    /// stands there where the height is 0.
    pub(crate) fn take(&mut self, level: f64) -> (f64, usize) {
        self.taken += 1;
        let new = (self.taken as f64, self.sign * level, self.taken);
        self.push(new);
        let Some(first) = self.points.first() else { return (0.0, 0) };
        let (run, rise, base) = (new.0, new.1 - first.1, first.1);
        let rises =
            |a: &(f64, f64, usize), b: &(f64, f64, usize)| (b.1 - a.1) * run > rise * (b.0 - a.0);
        let corners = self.points.as_slice();
        let mut at = self.furthest.min(corners.len() - 1);
        while let Some([a, b]) = corners.get(at..at + 2)
            && rises(a, b)
        {
            at += 1;
        }
        while let Some([a, b]) = at.checked_sub(1).and_then(|before| corners.get(before..=at))
            && !rises(a, b)
        {
            at -= 1;
        }
        self.furthest = at;
        match corners.get(at) {
            Some(corner) if corner.2 > 0 && corner.2 < self.taken => {
                ((corner.1 - (base + rise / run * corner.0)).max(0.0), corner.2)
            }
            _ => (0.0, 0),
        }
    }

    fn push(&mut self, new: (f64, f64, usize)) {
        while let [.., before, last] = self.points.as_slice() {
            if (last.1 - before.1) * (new.0 - last.0) > (new.1 - last.1) * (last.0 - before.0) {
                break;
            }
            self.points.pop();
        }
        self.points.push(new);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::straightedge::window_hull::highest_over_chord;

    /// The same as every sliding window shows.
    #[test]
    fn growing_and_sliding_chords_agree() {
        let level = |i: i32| {
            let x = f64::from(i);
            0.3 * (0.21 * x).sin() + 0.1 * (1.7 * x).cos() + 0.02 * f64::from(i * 37 % 11)
        };
        let z: Vec<f64> = (0..200).map(level).collect();
        for upside_down in [false, true] {
            let sign = if upside_down { -1.0 } else { 1.0 };
            let levels: Vec<f64> = z.iter().map(|level| sign * level).collect();
            let sliding: Vec<_> = (1..=60).map(|long| highest_over_chord(&levels, long)).collect();
            let mut hull = GrowingHull::new(upside_down);
            for left in 0..z.len() - 60 {
                hull.begin(z[left]);
                for (long, windows) in (1..=60).zip(&sliding) {
                    let (height, after) = hull.take(z[left + long]);
                    let (wanted, at) = windows[left];
                    assert!((height - wanted).abs() < 1e-12, "{left} {long}");
                    assert!(wanted == 0.0 || left + after == at, "{left} {long}");
                }
            }
        }
    }
}
