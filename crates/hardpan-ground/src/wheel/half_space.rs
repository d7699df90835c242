//! How far does a half space sink under one loaded circle?
//!
//! Vertical deflection at any point under a uniform circle on an
//! incompressible half space (Poisson's ratio 0.5), in closed form. The point
//! load solution of Boussinesq integrates radially by hand; around the rim it
//! leaves complete elliptic integrals `K` and `E`:
//!
//! ```text
//! w = 3 q / (2 pi E) [ (2 a^2 - A) K / sqrt(A + B) + sqrt(A + B) E ]
//! ```
//!
//! with `A = a^2 + r^2 + z^2`, `B = 2 a r`, `k^2 = 2 B / (A + B)`.
//! Numbers: `validation/cases/ground/half-space.toml`.

use std::f64::consts::PI;

/// Complete elliptic integrals of the first and second kind for a
/// complementary parameter `1 - k^2` above zero and at most one, by the
/// arithmetic-geometric mean. Source: [AS-1964] 17.6.
pub(crate) fn complete_elliptic(complement: f64) -> (f64, f64) {
    let (mut a, mut b) = (1.0, complement.sqrt());
    let mut power = 0.5;
    let mut sum = 0.5 * (1.0 - complement);
    for _ in 0..32 {
        let half_difference = 0.5 * (a - b);
        let mean = 0.5 * (a + b);
        // What is left after this mean is the square of it: below rounding.
        if half_difference.abs() <= 1e-9 * a {
            a = mean;
            break;
        }
        (a, b) = (mean, (a * b).sqrt());
        power *= 2.0;
        sum += power * half_difference * half_difference;
    }
    let first = PI / (2.0 * a);
    (first, first * (1.0 - sum))
}

/// `w E / (q a)` at distance `r` and depth `z`, for a circle of radius `a`
/// above zero; `r` and `z` not below zero, metres.
pub(crate) fn deflection_factor(radius: f64, distance: f64, depth: f64) -> f64 {
    let sum = radius * radius + distance * distance + depth * depth;
    let double = 2.0 * radius * distance;
    let complement = ((radius - distance).powi(2) + depth * depth) / (sum + double);
    let root = (sum + double).sqrt();
    let bracket = if complement > 0.0 {
        let (first, second) = complete_elliptic(complement);
        (2.0 * radius * radius - sum) * first / root + root * second
    } else {
        root
    };
    1.5 * bracket / (PI * radius)
}

/// The same under the centre of the circle, `1.5 / sqrt(1 + (z/a)^2)`.
pub(crate) fn centre_deflection_factor(radius: f64, depth: f64) -> f64 {
    1.5 / (depth / radius).hypot(1.0)
}
