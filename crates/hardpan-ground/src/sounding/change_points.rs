//! Where does the penetration rate of a sounding change?
//!
//! Rows of one sounding → ranges of rows, each one stratum. The partition is
//! the one that minimises the squared deviation of the logarithm of the rate
//! from the mean of its stratum, weighted by thickness, plus a penalty for each
//! stratum: exact by dynamic programming, so that a thin weak seam between
//! strong layers is not lost as it may be when cutting in two again and again.

use std::ops::Range;

/// Least thickness of a stratum; also the thickness that counts as one
/// independent reading. Judgement.
const LEAST_THICKNESS_M: f64 = 0.050;
/// Standard deviation of the logarithm of the rate within one stratum, over
/// [`LEAST_THICKNESS_M`]. Judgement.
const DEVIATION: f64 = 0.25;

/// One row of a sounding: depths and rate in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Interval {
    /// Depth above.
    pub(crate) top: f64,
    /// Depth below.
    pub(crate) bottom: f64,
    /// Rate for the 8 kg hammer, above zero.
    pub(crate) rate: f64,
}

impl Interval {
    pub(crate) fn thickness(&self) -> f64 {
        self.bottom - self.top
    }
}

/// Running sums over rows, so that the cost of any range takes four subtractions.
struct Sums {
    rows: Vec<[f64; 3]>,
}

impl Sums {
    fn of(intervals: &[Interval]) -> Self {
        let mut sum = [0.0; 3];
        let mut rows = vec![sum];
        for interval in intervals {
            let (weight, log) = (interval.thickness(), interval.rate.ln());
            sum = [sum[0] + weight, sum[1] + weight * log, sum[2] + weight * log * log];
            rows.push(sum);
        }
        Self { rows }
    }

    fn thickness(&self, from: usize, to: usize) -> f64 {
        self.rows[to][0] - self.rows[from][0]
    }

    fn cost(&self, from: usize, to: usize) -> f64 {
        let [weight, first, second] = [0, 1, 2].map(|k| self.rows[to][k] - self.rows[from][k]);
        ((second - first * first / weight) / (DEVIATION * DEVIATION * LEAST_THICKNESS_M)).max(0.0)
    }
}

/// Ranges of rows, one for each stratum, covering all rows; none for no row.
///
/// The penalty for a stratum is `2 ln(depth / 50 mm)`, at least that of 100 mm:
/// the Bayesian information criterion with a depth and a mean for each stratum.
pub(crate) fn change_points(intervals: &[Interval]) -> Vec<Range<usize>> {
    let count = intervals.len();
    if count == 0 {
        return Vec::new();
    }
    let sums = Sums::of(intervals);
    let penalty = 2.0 * (sums.thickness(0, count) / LEAST_THICKNESS_M).max(2.0).ln();
    let mut best = vec![f64::INFINITY; count + 1];
    let mut start = vec![0; count + 1];
    best[0] = 0.0;
    for to in 1..=count {
        for from in 0..to {
            if sums.thickness(from, to) < LEAST_THICKNESS_M - 1e-9 {
                break;
            }
            let cost = best[from] + sums.cost(from, to) + penalty;
            if cost < best[to] {
                best[to] = cost;
                start[to] = from;
            }
        }
    }
    if !best[count].is_finite() {
        return std::iter::once(0..count).collect();
    }
    let mut ranges = Vec::new();
    let mut to = count;
    while to > 0 {
        ranges.push(start[to]..to);
        to = start[to];
    }
    ranges.reverse();
    ranges
}
