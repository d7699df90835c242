//! The smooth grade that was designed, apart from the unevenness on it.
//!
//! A legal vertical curve shows on a long chord (60 mm on 60 m at a radius of
//! 7 500 m), so chord deviations are reported with the grade left in and with
//! it removed.

use crate::error::{Error, setting};
use crate::profile::Profile;
use hardpan_quantity::{Length, Quantity};

/// The design grade under a profile: the smoothest line near it.
///
/// Minimises `Σ (z − g)² + κ Σ (second difference of g)²`, with κ such that a
/// wave of `half_wavelength` keeps half its height: a wave of length λ keeps
/// `1 / (1 + (half_wavelength / λ)⁴)` of it. Straight grades pass unchanged, up
/// to the ends of the profile. Source: [WHITTAKER-1923].
///
/// # Errors
/// [`Error`] when the wavelength is shorter than eight or longer than 10 000 sample intervals.
pub fn design_grade(profile: &Profile, half_wavelength: Length) -> Result<Profile, Error> {
    let spacing = profile.spacing_m();
    let range = 8.0 * spacing..=10_000.0 * spacing;
    let wavelength = setting("wavelength of the design grade", half_wavelength.si(), range, "m")?;
    let per_wave = wavelength / spacing;
    let stiffness = (2.0 * (std::f64::consts::PI / per_wave).sin()).powi(-4);
    Ok(profile.with_elevations(smooth(profile.elevations_m(), stiffness)))
}

/// A profile less its design grade.
///
/// # Errors
/// As [`design_grade`].
pub fn without_design_grade(profile: &Profile, half_wavelength: Length) -> Result<Profile, Error> {
    let grade = design_grade(profile, half_wavelength)?;
    let left = profile.elevations_m().iter().zip(grade.elevations_m()).map(|(z, g)| z - g);
    Ok(profile.with_elevations(left.collect()))
}

/// Solves `(I + κ DᵀD) g = z` for second differences D by the factors L D Lᵀ of
/// the five-banded matrix.
fn smooth(z: &[f64], stiffness: f64) -> Vec<f64> {
    let n = z.len();
    if n < 3 {
        return z.to_vec();
    }
    let line = straight_line(z);
    let (diagonal, first, second) = bands(n, stiffness);
    let mut d = vec![1.0; n];
    let (mut l1, mut l2) = (vec![0.0; n], vec![0.0; n]);
    let mut y = vec![0.0; n];
    for i in 0..n {
        let back = |values: &[f64], steps: usize| {
            i.checked_sub(steps).and_then(|at| values.get(at)).copied().unwrap_or(0.0)
        };
        let at = |values: &[f64]| values.get(i).copied().unwrap_or(0.0);
        let (d1, d2) = (back(&d, 1), back(&d, 2));
        let (u1, u2) = (back(&l1, 1), back(&l2, 2));
        let pivot = at(&diagonal) - d1 * u1 * u1 - d2 * u2 * u2;
        let next1 = (at(&first) - d1 * u1 * back(&l2, 1)) / pivot;
        let next2 = at(&second) / pivot;
        let forward = at(z) - line(i) - u1 * back(&y, 1) - u2 * back(&y, 2);
        set(&mut d, i, pivot);
        set(&mut l1, i, next1);
        set(&mut l2, i, next2);
        set(&mut y, i, forward);
    }
    for i in (0..n).rev() {
        let at = |values: &[f64], at: usize| values.get(at).copied().unwrap_or(0.0);
        let value = at(&y, i) / at(&d, i) - at(&l1, i) * at(&y, i + 1) - at(&l2, i) * at(&y, i + 2);
        set(&mut y, i, value);
    }
    y.iter().enumerate().map(|(index, value)| value + line(index)).collect()
}

/// The least-squares straight line through the levels, by index.
fn straight_line(z: &[f64]) -> impl Fn(usize) -> f64 {
    let n = z.len() as f64;
    let middle = 0.5 * (n - 1.0);
    let mean = z.iter().sum::<f64>() / n;
    let moment: f64 = z.iter().enumerate().map(|(i, level)| (i as f64 - middle) * level).sum();
    let slope = moment / (n * (n * n - 1.0) / 12.0);
    move |index| mean + slope * (index as f64 - middle)
}

fn set(values: &mut [f64], at: usize, value: f64) {
    if let Some(slot) = values.get_mut(at) {
        *slot = value;
    }
}

/// Diagonal, first and second upper band of `I + κ DᵀD`.
fn bands(n: usize, stiffness: f64) -> (Vec<f64>, Vec<f64>, Vec<f64>) {
    let (mut diagonal, mut first, mut second) = (vec![1.0; n], vec![0.0; n], vec![0.0; n]);
    for row in 0..n - 2 {
        for (at, weight) in [1.0, -2.0, 1.0].into_iter().enumerate() {
            add(&mut diagonal, row + at, stiffness * weight * weight);
        }
        add(&mut first, row, -2.0 * stiffness);
        add(&mut first, row + 1, -2.0 * stiffness);
        add(&mut second, row, stiffness);
    }
    (diagonal, first, second)
}

fn add(values: &mut [f64], at: usize, value: f64) {
    if let Some(slot) = values.get_mut(at) {
        *slot += value;
    }
}
