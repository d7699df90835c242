//! A straight line through points, and where it meets a limit.

use hardpan_math::student_quantile;

/// Least-squares line `y = intercept + slope x` through points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Number of points, at least three.
    pub points: usize,
    /// Mean of x.
    pub middle: f64,
    /// Mean of y.
    pub height: f64,
    /// Slope.
    pub slope: f64,
    /// Intercept at x = 0.
    pub intercept: f64,
    /// Standard deviation of the points about the line.
    pub scatter: f64,
    /// Sum of squared distances of x from its mean.
    pub spread: f64,
}

/// Where a line meets a limit: the best value and the ends of its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Where the line itself does; none if it does not rise.
    pub best: Option<f64>,
    /// Where the upper edge of its band does.
    pub earliest: Option<f64>,
    /// Where the lower edge does; none if it never does.
    pub latest: Option<f64>,
}

/// Least squares [NIST-STRD], linear regression. None with fewer than three
/// points, with values that are no numbers, or when all x are the same.
#[must_use]
pub fn line_through(points: &[(f64, f64)]) -> Option<Line> {
    let count = u32::try_from(points.len()).ok().filter(|count| *count >= 3)?;
    let number = f64::from(count);
    let middle = points.iter().map(|(x, _)| x).sum::<f64>() / number;
    let height = points.iter().map(|(_, y)| y).sum::<f64>() / number;
    let spread = points.iter().map(|(x, _)| (x - middle).powi(2)).sum::<f64>();
    let both = points.iter().map(|(x, y)| (x - middle) * (y - height)).sum::<f64>();
    if !(spread > 0.0 && spread.is_finite() && both.is_finite()) {
        return None;
    }
    let slope = both / spread;
    let off = |(x, y): &(f64, f64)| (y - height - slope * (x - middle)).powi(2);
    let scatter = (points.iter().map(off).sum::<f64>() / (number - 2.0)).sqrt();
    let intercept = height - slope * middle;
    Some(Line { points: points.len(), middle, height, slope, intercept, scatter, spread })
}

impl Line {
    /// Standard deviations of the intercept and of the slope.
    #[must_use]
    pub fn deviations(&self) -> (f64, f64) {
        let of_slope = self.scatter / self.spread.sqrt();
        let share = 1.0 / self.points as f64 + self.middle * self.middle / self.spread;
        (self.scatter * share.sqrt(), of_slope)
    }

    /// Half the width of the band of the mean at `x` with a confidence.
    fn half_band(&self, x: f64, quantile: f64) -> f64 {
        let share = 1.0 / self.points as f64 + (x - self.middle).powi(2) / self.spread;
        quantile * self.scatter * share.sqrt()
    }

    /// Value of the line, and of its band's edges, at `x`. None for a confidence
    /// outside 0 to 1, ends out.
    #[must_use]
    pub fn band(&self, x: f64, confidence: f64) -> Option<(f64, f64, f64)> {
        let at = self.height + self.slope * (x - self.middle);
        let half = self.half_band(x, self.quantile(confidence)?);
        Some((at - half, at, at + half))
    }

    fn quantile(&self, confidence: f64) -> Option<f64> {
        student_quantile(self.points as f64 - 2.0, 0.5 + 0.5 * confidence)
    }

    /// Where the line and the edges of its band of the mean meet `limit`, to the
    /// right of `from`: the interval of a ratio [FIELLER-1954]. An edge that is
    /// above the limit at `from` meets it there.
    #[must_use]
    pub fn crossing(&self, limit: f64, from: f64, confidence: f64) -> Option<Crossing> {
        let quantile = self.quantile(confidence)?;
        let best = (self.slope > 0.0)
            .then(|| self.middle + (limit - self.height) / self.slope)
            .map(|at| at.max(from));
        let (low, _, high) = self.band(from, confidence)?;
        let up = limit - self.height;
        let squared = quantile * quantile * self.scatter * self.scatter;
        let lead = self.slope * self.slope - squared / self.spread;
        let rest = up * up - squared / self.points as f64;
        let under = (self.slope * up).powi(2) - lead * rest;
        let mut roots: Vec<f64> = if under < 0.0 || lead == 0.0 {
            Vec::new()
        } else {
            [-1.0, 1.0]
                .map(|sign| self.middle + (self.slope * up + sign * under.sqrt()) / lead)
                .into_iter()
                .filter(|at| *at > from)
                .collect()
        };
        roots.sort_by(f64::total_cmp);
        // Each root is a place where an edge of the band stands at the limit.
        let is_upper = |at: &f64| self.height + self.slope * (at - self.middle) <= limit;
        let earliest =
            if high >= limit { Some(from) } else { roots.iter().copied().find(is_upper) };
        let latest = if low >= limit {
            Some(from)
        } else {
            roots.iter().copied().find(|at| !is_upper(at)).or_else(|| {
                // Without scatter the edges are the line.
                best.filter(|_| self.scatter == 0.0)
            })
        };
        Some(Crossing { best, earliest, latest })
    }
}
