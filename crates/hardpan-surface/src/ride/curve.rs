//! A smooth law by cubics between even knots, for laws that a ride asks for a
//! hundred thousand times.

use crate::ride::whole::step_and_rest;

/// Pieces of a curve.
const PIECES: usize = 128;

/// A law from 0 to a last argument; beyond it the law itself is asked.
///
/// Between knots the cubic through both values and both slopes: against a power
/// law within 5e-5 of it where it bends most, and far closer elsewhere.
#[derive(Debug, Clone)]
pub(crate) struct Curve {
    /// Pieces for each unit of the argument.
    per_unit: f64,
    pieces: Box<[[f64; 4]; PIECES]>,
}

impl Curve {
    /// The curve of a law with its slope.
    pub(crate) fn new(last: f64, law: impl Fn(f64) -> (f64, f64)) -> Self {
        let each = last / PIECES as f64;
        let mut before = law(0.0);
        let mut pieces = Box::new([[0.0; 4]; PIECES]);
        for (piece, knot) in pieces.iter_mut().zip(1_u32..) {
            let next = law(each * f64::from(knot));
            let (p, q, rise) = (each * before.1, each * next.1, next.0 - before.0);
            *piece = [before.0, p, 3.0 * rise - 2.0 * p - q, p + q - 2.0 * rise];
            before = next;
        }
        Self { per_unit: 1.0 / each, pieces }
    }

    /// Place of the last knot, in pieces.
    pub(super) const LAST: f64 = PIECES as f64;

    /// Pieces for each unit of the argument.
    pub(super) fn per_unit(&self) -> f64 {
        self.per_unit
    }

    /// One piece, by the powers of the place along it.
    #[inline(always)]
    pub(super) fn piece(&self, piece: usize) -> Option<&[f64; 4]> {
        self.pieces.get(piece)
    }

    /// The law at an argument that is not negative; none beyond the last knot.
    #[inline(always)]
    pub(crate) fn at(&self, argument: f64) -> Option<f64> {
        let along = argument * self.per_unit;
        if along < Self::LAST {
            let (piece, along) = step_and_rest(along);
            let [a, b, c, d] = self.pieces.get(piece)?;
            return Some(a + along * (b + along * (c + along * d)));
        }
        None
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
