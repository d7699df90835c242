//! Places on even scales as whole steps and the rest, without a conversion of integers:
//! a ride asks some millions of times.

use wide::f64x2;

/// One and a half times 2^52: a number added to it keeps its whole part alone.
const WHOLE: f64 = 6_755_399_441_055_744.0;

/// The step in which a number from 0 to 2^31 lies, and the rest of it: 0 to 1. A
/// whole number is the end of the step before it.
#[inline(always)]
pub(super) fn step_and_rest(along: f64) -> (usize, f64) {
    let shifted = (along - 0.5).max(0.0) + WHOLE;
    let step = shifted.to_bits() & 0x7fff_ffff;
    (step as usize, along - (shifted - WHOLE))
}

/// The same of two numbers.
#[inline(always)]
pub(super) fn steps_and_rests(along: f64x2) -> ([usize; 2], f64x2) {
    let whole = f64x2::splat(WHOLE);
    let shifted = (along - f64x2::HALF).fast_max(f64x2::ZERO) + whole;
    let steps = shifted.to_array().map(|shifted| (shifted.to_bits() & 0x7fff_ffff) as usize);
    (steps, along - (shifted - whole))
}

#[cfg(test)]
mod tests {
    use super::{step_and_rest, steps_and_rests};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn prop_step_and_rest_make_the_number(along in 0.0f64..2e9) {
            let (step, rest) = step_and_rest(along);
            prop_assert!((0.0..=1.0).contains(&rest));
            prop_assert_eq!(step as f64 + rest, along);
            let (steps, rests) = steps_and_rests([along, 0.0].into());
            prop_assert_eq!((steps, rests.to_array()), ([step, 0], [rest, 0.0]));
        }
    }

    #[test]
    fn a_whole_number_ends_a_step_or_begins_one() {
        for along in 0..2000 {
            let (step, rest) = step_and_rest(f64::from(along));
            assert!((step as f64 + rest - f64::from(along)).abs() < f64::EPSILON);
        }
    }
}
