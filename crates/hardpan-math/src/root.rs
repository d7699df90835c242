//! Roots of a function of one variable between two bounds that are known.

use kurbo::common::solve_itp;

/// Why no root is given.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RootError {
    /// The function has the same sign at both bounds.
    #[error("no change of sign between {low} and {high}: values {at_low} and {at_high}")]
    NoBracket {
        /// Lower bound.
        low: f64,
        /// Upper bound.
        high: f64,
        /// Value at the lower bound.
        at_low: f64,
        /// Value at the upper bound.
        at_high: f64,
    },
    /// A bound or a value there is not finite, or the bounds are out of order.
    #[error("bounds {low} and {high} or the values there cannot be used")]
    Bounds {
        /// Lower bound.
        low: f64,
        /// Upper bound.
        high: f64,
    },
}

/// A root of `function` between `low` and `high`, to within `tolerance`.
///
/// # Errors
/// [`RootError`] when the bounds do not bracket a root or are not finite.
pub fn bracketed_root(
    mut function: impl FnMut(f64) -> f64,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Result<f64, RootError> {
    let (at_low, at_high) = (function(low), function(high));
    let usable = [low, high, at_low, at_high].iter().all(|value| value.is_finite());
    if !usable || low > high || tolerance <= 0.0 {
        return Err(RootError::Bounds { low, high });
    }
    if at_low == 0.0 {
        return Ok(low);
    }
    if at_high == 0.0 {
        return Ok(high);
    }
    if (at_low > 0.0) == (at_high > 0.0) {
        return Err(RootError::NoBracket { low, high, at_low, at_high });
    }
    let sign = if at_low < 0.0 { 1.0 } else { -1.0 };
    let k1 = 0.2 / (high - low);
    Ok(solve_itp(
        |x| sign * function(x),
        low,
        high,
        tolerance,
        1,
        k1,
        sign * at_low,
        sign * at_high,
    ))
}

/// Steps after which a bracket must have halved.
const PATIENCE: u32 = 4;
/// Tolerances over which a secant is trusted.
const CLOSE: f64 = 2000.0;
const MOST_STEPS: u32 = 200;

/// A root of a smooth function between two places where its values are known,
/// to within `tolerance`, in few evaluations; the last of them is at the root
/// that is given. Regula falsi after Anderson and Björck, halving when it stalls.
/// Where the function jumps the place is good to some thousand tolerances.
///
/// # Errors
/// As [`bracketed_root`]; also when a value on the way is not finite.
pub fn root_between(
    mut function: impl FnMut(f64) -> f64,
    (low, at_low): (f64, f64),
    (high, at_high): (f64, f64),
    tolerance: f64,
) -> Result<f64, RootError> {
    let usable = [low, high, at_low, at_high].iter().all(|value| value.is_finite());
    if !usable || low > high || tolerance <= 0.0 {
        return Err(RootError::Bounds { low, high });
    }
    if at_low == 0.0 {
        return Ok(low);
    }
    if at_high == 0.0 {
        return Ok(high);
    }
    if (at_low > 0.0) == (at_high > 0.0) {
        return Err(RootError::NoBracket { low, high, at_low, at_high });
    }
    // `near` is the place tried last, `far` the other end of the bracket.
    let (mut near, mut at_near, mut far, mut at_far) = (high, at_high, low, at_low);
    let (mut patience, mut to_halve) = (PATIENCE, high - low);
    for _ in 0..MOST_STEPS {
        let secant = near - at_near * (near - far) / (at_near - at_far);
        let tried = if patience == 0 { 0.5 * (near + far) } else { secant };
        let value = function(tried);
        if !value.is_finite() {
            return Err(RootError::Bounds { low, high });
        }
        let step = value * (tried - near) / (value - at_near);
        // A secant over a long way tells nothing of a function that jumps.
        let is_close = (tried - near).abs() <= CLOSE * tolerance && step.abs() <= tolerance;
        if value == 0.0 || is_close || (near - far).abs() <= tolerance {
            return Ok(tried);
        }
        if (value > 0.0) == (at_near > 0.0) {
            let kept = 1.0 - value / at_near;
            at_far *= if kept > 0.0 { kept } else { 0.5 };
        } else {
            (far, at_far) = (near, at_near);
        }
        (near, at_near) = (tried, value);
        patience = patience.saturating_sub(1);
        if (near - far).abs() <= 0.5 * to_halve {
            (patience, to_halve) = (PATIENCE, (near - far).abs());
        } else if patience == 0 && tried != secant {
            patience = PATIENCE;
        }
    }
    Ok(near)
}

/// The largest value in `low..=high` at which `holds` is true, to within
/// `tolerance` below, for a condition that once broken stays broken.
/// `None` when it does not hold at `low`.
pub fn largest_holding(
    mut holds: impl FnMut(f64) -> bool,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Option<f64> {
    if holds(high) {
        return Some(high);
    }
    if !holds(low) {
        return None;
    }
    let (mut good, mut bad) = (low, high);
    while bad - good > tolerance {
        let middle = 0.5 * (good + bad);
        if middle <= good || middle >= bad {
            break;
        }
        if holds(middle) { good = middle } else { bad = middle }
    }
    Some(good)
}
