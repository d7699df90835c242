//! The first step at which something turns.

/// The first step from 1 to `last` at which `turned` holds: steps of doubling
/// length until it does, then halving between. Where it turns to and fro, a
/// step is found at which it turns and before which it does not.
pub(super) fn first_step(last: usize, turned: impl Fn(usize) -> bool) -> Option<usize> {
    let (mut before, mut step) = (0, 1.min(last));
    while !turned(step) {
        if step == last {
            return None;
        }
        before = step;
        step = (2 * step).min(last);
    }
    while step - before > 1 {
        let middle = before + (step - before) / 2;
        if turned(middle) {
            step = middle;
        } else {
            before = middle;
        }
    }
    (step > 0).then_some(step)
}

#[cfg(test)]
mod tests {
    use super::first_step;
    use proptest::prelude::*;

    #[test]
    fn nothing_turns() {
        assert_eq!(first_step(40, |_| false), None);
        assert_eq!(first_step(0, |_| false), None);
    }

    proptest! {
        #[test]
        fn the_first_step_is_found(last in 1_usize..200, share in 0.0_f64..1.0) {
            let first = 1 + (share * (last - 1) as f64) as usize;
            prop_assert_eq!(first_step(last, |step| step >= first), Some(first));
        }
    }
}
