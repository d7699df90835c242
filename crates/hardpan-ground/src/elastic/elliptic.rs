//! Complete elliptic integrals and the integrals of products of two Bessel
//! functions with a falling exponential that a uniform circle needs.
//!
//! `I(p, q; k)` stands for the integral over `m` from 0 to infinity of
//! `J_p(m a) J_q(m r) exp(-m z) m^k`. Closed forms follow from the field of a
//! circular current loop and the solid angle of a disc; the rest from Euler's
//! rule for homogeneous functions. Source: [EASON-1955]; derived here.

use std::f64::consts::{FRAC_PI_2, PI};

/// Bulirsch's complete elliptic integral with `kc` and `p` above zero:
/// the integral from 0 to pi/2 of `(a cos^2 + b sin^2) / ((cos^2 + p sin^2)
/// sqrt(cos^2 + kc^2 sin^2))`. Source: [BULIRSCH-1965].
pub(crate) fn complete(kc: f64, p: f64, a: f64, b: f64) -> f64 {
    let (mut qc, mut e, mut em) = (kc, kc, 1.0);
    let mut p = p.sqrt();
    let (mut a, mut b) = (a, b / p);
    for _ in 0..64 {
        let f = a;
        a += b / p;
        let mut g = e / p;
        b += f * g;
        b += b;
        p += g;
        g = em;
        em += qc;
        if (g - qc).abs() <= g * 1e-8 {
            break;
        }
        qc = 2.0 * e.sqrt();
        e = qc * em;
    }
    FRAC_PI_2 * (b + a * em) / (em * (em + p))
}

/// The integrals for one circle and place, `r` above zero.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BesselIntegrals {
    /// `I(1, 0; 0)`.
    pub(crate) i100: f64,
    /// `z I(1, 0; 1)`, zero on the surface.
    pub(crate) z_i101: f64,
    /// `I(1, 1; 0)`.
    pub(crate) i110: f64,
    /// `z I(1, 1; 1)`, zero on the surface.
    pub(crate) z_i111: f64,
    /// `I(1, 0; -1)`.
    pub(crate) i10m: f64,
    /// `I(1, 1; -1)`.
    pub(crate) i11m: f64,
}

impl BesselIntegrals {
    /// The integrals at distance `r` above zero and depth `z` not below zero,
    /// for a circle of radius `a` above zero.
    pub(crate) fn at(a: f64, r: f64, z: f64) -> Self {
        let (sum, gap) = (a + r, a - r);
        let far = (sum * sum + z * z).sqrt();
        let near_squared = gap * gap + z * z;
        let complement = (near_squared / (far * far)).max(1e-30);
        let kc = complement.sqrt();
        let first = complete(kc, 1.0, 1.0, 1.0);
        let second = complete(kc, 1.0, 1.0, complement);
        let i000 = first / FRAC_PI_2 / far;
        let i110 = loop_potential(first, second, 4.0 * a * r / (far * far)) / (PI * (a * r).sqrt());
        let i100 = solid_angle(a, r, z, far, kc, first) / (2.0 * PI * a);
        let i010 = solid_angle(r, a, z, far, kc, first) / (2.0 * PI * r);
        let (mut z_i101, mut z_i111) = (0.0, 0.0);
        if z > 0.0 {
            let square = a * a + r * r + z * z;
            let along = first + (a * a - r * r - z * z) / near_squared * second;
            let across = square / near_squared * second - first;
            z_i101 = z * along / (PI * a * far);
            z_i111 = z * z * across / (PI * a * r * far);
        }
        Self {
            i100,
            z_i101,
            i110,
            z_i111,
            i10m: a * i000 - r * i110 - z * i100,
            i11m: 0.5 * (a * i010 + r * i100 - z * i110),
        }
    }
}

/// `2 [(1 - k^2/2) K - E] / k` from `K`, `E` and `k^2`; a series where the
/// difference would lose its digits.
fn loop_potential(first: f64, second: f64, square: f64) -> f64 {
    if square > 0.05 {
        return 2.0 * ((1.0 - 0.5 * square) * first - second) / square.sqrt();
    }
    let (mut term, mut sum) = (1.0, 1.0);
    for n in 0..16 {
        let n = f64::from(n);
        term *= (1.5 + n) * (1.5 + n) / ((3.0 + n) * (1.0 + n)) * square;
        sum += term;
    }
    PI / 16.0 * square.powf(1.5) * sum
}

/// Solid angle of a disc of radius `a` seen from distance `r` off its axis and
/// `z` off its plane.
fn solid_angle(a: f64, r: f64, z: f64, far: f64, kc: f64, first: f64) -> f64 {
    let share = (a - r) / (a + r);
    if share.abs() < 1e-12 {
        return PI - 2.0 * z / far * first;
    }
    let inside = if a > r { 2.0 * PI } else { 0.0 };
    let part = 2.0 * z / far * (1.0 + share) * complete(kc, share * share, 1.0, share);
    inside - part
}
