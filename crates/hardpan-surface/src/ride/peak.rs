//! The greatest value of a motion that is known at moments only.

/// Share of the greatest so far from which a crest between moments is looked at.
const NEAR: f64 = 0.9;

/// Keeps the greatest value: the crest of the parabola through three moments
/// where the middle one stands highest.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Peak {
    most: f64,
    at: f64,
    before: f64,
    last: f64,
    last_at: f64,
    step: f64,
}

impl Peak {
    /// Nothing above zero yet, at a station.
    pub(crate) fn new(at: f64) -> Self {
        Self { most: 0.0, at, before: f64::NAN, last: f64::NAN, last_at: at, step: 0.0 }
    }

    /// A value at a station, the time `gone` after the one before.
    pub(crate) fn note(&mut self, value: f64, at: f64, gone: f64) {
        if self.last >= self.before && self.last > value && self.last > NEAR * self.most {
            let crest = self.crest(value, gone);
            if crest > self.most {
                (self.most, self.at) = (crest, self.last_at);
            }
        }
        if value > self.most {
            (self.most, self.at) = (value, at);
        }
        (self.before, self.last, self.last_at, self.step) = (self.last, value, at, gone);
    }

    /// Top of the parabola through the last two values and the next.
    fn crest(&self, next: f64, after: f64) -> f64 {
        let (back, ahead) = (self.before - self.last, next - self.last);
        let (p, q) = (self.step, after);
        let scale = p * q * (p + q);
        let curve = (back * q + ahead * p) / scale;
        let slope = (ahead * p * p - back * q * q) / scale;
        if curve < 0.0 { self.last - slope * slope / (4.0 * curve) } else { self.last }
    }

    /// The greatest value and its station.
    pub(crate) fn greatest(&self) -> (f64, f64) {
        (self.most, self.at)
    }
}

#[cfg(test)]
mod tests {
    use super::Peak;

    #[test]
    fn a_crest_between_uneven_moments_of_a_parabola_is_found_exactly() {
        let mut peak = Peak::new(0.0);
        let mut before = 0.0;
        for time in [0.0, 0.3, 0.55, 0.9, 1.3, 1.4_f64] {
            peak.note(2.0 - 3.0 * (time - 0.63).powi(2), time, time - before);
            before = time;
        }
        assert!((peak.greatest().0 - 2.0).abs() < 1e-12);
        assert_eq!(peak.greatest().1, 0.55);
    }
}
