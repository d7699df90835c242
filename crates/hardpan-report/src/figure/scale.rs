//! A straight scale from values to millimetres on paper, and its round ticks.

/// From a range of values to a range of places.
#[derive(Debug, Clone, Copy)]
pub struct Scale {
    from: (f64, f64),
    to: (f64, f64),
}

impl Scale {
    /// The scale on which `from` lies at `to`. A range of values that is empty
    /// or not finite is widened, so that every finite value has a place.
    #[must_use]
    pub fn new(from: (f64, f64), to: (f64, f64)) -> Self {
        let (low, high) = from;
        let usable = low.is_finite() && high.is_finite() && high - low > 1e-9;
        let from = if usable {
            from
        } else if low.is_finite() {
            (low - 0.5, low + 0.5)
        } else {
            (0.0, 1.0)
        };
        Self { from, to }
    }

    /// Place of a value.
    #[must_use]
    pub fn at(&self, value: f64) -> f64 {
        let share = (value - self.from.0) / (self.from.1 - self.from.0);
        self.to.0 + share * (self.to.1 - self.to.0)
    }

    /// Place of a value, held within the ends of the scale.
    pub(super) fn within(&self, value: f64) -> f64 {
        self.at(value.clamp(self.from.0, self.from.1))
    }

    pub(super) fn values(&self) -> (f64, f64) {
        self.from
    }

    pub(super) fn places(&self) -> (f64, f64) {
        self.to
    }

    /// Round values of a unit of the given size, about `wanted` of them, each
    /// as the number shown and the value in the scale's own terms.
    #[must_use]
    pub fn ticks(&self, unit: f64, wanted: usize) -> Vec<(f64, f64)> {
        let (low, high) = (self.from.0 / unit, self.from.1 / unit);
        let step = round_step((high - low) / wanted.max(1) as f64);
        let first = (low / step - 1e-6).ceil();
        let count = ((high / step + 1e-6).floor() - first).clamp(0.0, 60.0) as usize;
        (0..=count)
            .map(|index| (first + index as f64) * step)
            .filter(|shown| shown.is_finite())
            .map(|shown| (shown, shown * unit))
            .collect()
    }
}

/// The least of 1, 2, 5 times a power of ten that is not under `least`.
fn round_step(least: f64) -> f64 {
    if !least.is_finite() || least <= 0.0 {
        return 1.0;
    }
    let power = 10_f64.powi(least.log10().floor() as i32);
    let factor = [1.0, 2.0, 5.0].into_iter().find(|factor| factor * power >= least * 0.999_999);
    factor.unwrap_or(10.0) * power
}
