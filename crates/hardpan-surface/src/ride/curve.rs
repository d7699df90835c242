//! A smooth law by cubics between even knots, for laws that a ride asks for a
//! hundred thousand times.

/// Pieces of a curve.
const PIECES: u32 = 128;

/// A law from 0 to a last argument; beyond it the law itself is asked.
///
/// Between knots the cubic through both values and both slopes: against a power
/// law within 5e-5 of it where it bends most, and far closer elsewhere.
#[derive(Debug, Clone)]
pub(crate) struct Curve {
    /// Pieces for each unit of the argument.
    per_unit: f64,
    pieces: Vec<[f64; 4]>,
}

impl Curve {
    /// The curve of a law with its slope.
    pub(crate) fn new(last: f64, law: impl Fn(f64) -> (f64, f64)) -> Self {
        let each = last / f64::from(PIECES);
        let knots: Vec<(f64, f64)> = (0..=PIECES).map(|knot| law(each * f64::from(knot))).collect();
        let pieces = knots.windows(2).filter_map(|pair| match pair {
            [(a, slope_a), (b, slope_b)] => {
                let (p, q, rise) = (each * slope_a, each * slope_b, b - a);
                Some([*a, p, 3.0 * rise - 2.0 * p - q, p + q - 2.0 * rise])
            }
            _ => None,
        });
        Self { per_unit: 1.0 / each, pieces: pieces.collect() }
    }

    /// The law at an argument that is not negative; none beyond the last knot.
    #[inline]
    pub(crate) fn at(&self, argument: f64) -> Option<f64> {
        let along = argument * self.per_unit;
        let piece = along as usize;
        let [a, b, c, d] = self.pieces.get(piece)?;
        let along = along - piece as f64;
        Some(a + along * (b + along * (c + along * d)))
    }
}

#[cfg(test)]
mod tests {
    use super::Curve;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn prop_follows_a_power_of_a_shrinking_volume(left in 0.05f64..1.0, power in 1.0f64..1.4) {
            let law = |gone: f64| {
                let left = 1.0 - gone;
                (left.powf(-power), power * left.powf(-power - 1.0))
            };
            let found = Curve::new(0.95, law).at(1.0 - left).unwrap_or(f64::NAN);
            prop_assert!((found / left.powf(-power) - 1.0).abs() < 5e-5);
        }
    }
}
