//! Power spectral density of a profile, its class, and profiles made to order.
//!
//! One-sided, per cycle per metre; Welch's mean of half-overlapping Hann-windowed
//! segments, each less its straight line, with power correction [WELCH-1967].
//! Classes and reference 0.1 cycles per metre: [ISO-8608].

use crate::error::{Error, setting};
use crate::profile::Profile;
use hardpan_quantity::{Length, Quantity, Volume, metres};
use realfft::RealFftPlanner;
use std::f64::consts::TAU;

/// Reference wave number of the classes, cycles per metre.
pub(crate) const REFERENCE: f64 = 0.1;
/// Band that a fit is reported over, cycles per metre.
pub(crate) const BAND: (f64, f64) = (0.011, 2.83);

/// Density at one wavelength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpectralLine {
    /// Wavelength.
    pub wavelength: Length,
    /// Displacement density, m² per cycle per metre.
    pub density: Volume,
}

/// A straight line through the spectrum on log scales.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpectrumFit {
    /// Density at a wavelength of 10 m.
    pub at_ten_metres: Volume,
    /// How fast it falls with wave number; 2 for the classes.
    pub exponent: f64,
    /// Lines fitted.
    pub lines: usize,
}

/// Class of [ISO-8608] by density at a wavelength of 10 m.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RoughnessClass {
    /// Up to 32 × 10⁻⁶ m³.
    A,
    /// Up to 128 × 10⁻⁶ m³.
    B,
    /// Up to 512 × 10⁻⁶ m³.
    C,
    /// Up to 2 048 × 10⁻⁶ m³.
    D,
    /// Up to 8 192 × 10⁻⁶ m³.
    E,
    /// Up to 32 768 × 10⁻⁶ m³.
    F,
    /// Up to 131 072 × 10⁻⁶ m³.
    G,
    /// Above.
    H,
}

impl RoughnessClass {
    const ALL: [Self; 8] = [Self::A, Self::B, Self::C, Self::D, Self::E, Self::F, Self::G, Self::H];

    /// The class of a density at a wavelength of 10 m; none when it is not positive.
    #[must_use]
    pub fn of(at_ten_metres: Volume) -> Option<Self> {
        let density = at_ten_metres.si();
        if !(density > 0.0 && density.is_finite()) {
            return None;
        }
        let steps = (density / 32e-6).log(4.0).ceil().clamp(0.0, 7.0) as usize;
        Self::ALL.get(steps).copied()
    }

    /// The geometric mean density of the class at a wavelength of 10 m.
    #[must_use]
    pub fn mean(self) -> Volume {
        Volume::from_si(16e-6 * 4.0_f64.powi(self as i32))
    }
}

/// The spectrum of a profile from segments of about `segment` in length,
/// falling wavelengths.
///
/// # Errors
/// [`Error`] when the segment has fewer than 16 or more than a million
/// intervals, or is longer than the profile.
pub fn spectrum(profile: &Profile, segment: Length) -> Result<Vec<SpectralLine>, Error> {
    let spacing = profile.spacing_m();
    let range = 16.0 * spacing..=1e6 * spacing;
    let length = setting("segment of the spectrum", segment.si(), range, "m")?;
    let count = profile.intervals(length, 16) & !1;
    let z = profile.elevations_m();
    if z.len() < count {
        return Err(Error::TooShort {
            method: "the spectrum",
            length_m: profile.length_m(),
            needed_m: length,
        });
    }
    let window: Vec<f64> =
        (0..count).map(|i| 0.5 - 0.5 * (TAU * i as f64 / count as f64).cos()).collect();
    let power: f64 = window.iter().map(|weight| weight * weight).sum();
    let transform = RealFftPlanner::<f64>::new().plan_fft_forward(count);
    let mut sums = vec![0.0; count / 2 + 1];
    let mut segments = 0.0;
    let mut lines = transform.make_output_vec();
    for piece in z.windows(count).step_by(count / 2) {
        let mut input = detrended(piece);
        input.iter_mut().zip(&window).for_each(|(value, weight)| *value *= weight);
        if transform.process(&mut input, &mut lines).is_err() {
            continue;
        }
        sums.iter_mut().zip(&lines).for_each(|(sum, line)| *sum += line.norm_sqr());
        segments += 1.0;
    }
    let scale = 2.0 * spacing / (power * segments);
    let last = count / 2;
    Ok((1..last)
        .filter_map(|index| {
            let density = sums.get(index)? * scale;
            let wavelength = count as f64 * spacing / index as f64;
            Some(SpectralLine { wavelength: metres(wavelength), density: Volume::from_si(density) })
        })
        .collect())
}

fn detrended(piece: &[f64]) -> Vec<f64> {
    let n = piece.len() as f64;
    let middle = 0.5 * (n - 1.0);
    let mean = piece.iter().sum::<f64>() / n;
    let moment: f64 = piece.iter().enumerate().map(|(i, z)| (i as f64 - middle) * z).sum();
    let slope = moment / (n * (n * n - 1.0) / 12.0);
    piece.iter().enumerate().map(|(i, z)| z - mean - slope * (i as f64 - middle)).collect()
}

/// The least-squares line through the logarithms, each spectral line alike,
/// between two wavelengths.
///
/// # Errors
/// [`Error`] with fewer than three lines of positive density between them.
pub fn fit_spectrum(
    lines: &[SpectralLine],
    shortest: Length,
    longest: Length,
) -> Result<SpectrumFit, Error> {
    let points: Vec<(f64, f64)> = lines
        .iter()
        .filter(|line| line.wavelength >= shortest && line.wavelength <= longest)
        .filter(|line| line.density.si() > 0.0 && line.density.si().is_finite())
        .map(|line| ((1.0 / (REFERENCE * line.wavelength.si())).ln(), line.density.si().ln()))
        .collect();
    let n = points.len() as f64;
    setting("spectral lines to fit", n, 3.0..=1e7, "")?;
    let (mean_x, mean_y) =
        points.iter().fold((0.0, 0.0), |(x, y), point| (x + point.0 / n, y + point.1 / n));
    let (mut square, mut product) = (0.0, 0.0);
    for (x, y) in &points {
        square += (x - mean_x) * (x - mean_x);
        product += (x - mean_x) * (y - mean_y);
    }
    let slope = product / square;
    Ok(SpectrumFit {
        at_ten_metres: Volume::from_si((mean_y - slope * mean_x).exp()),
        exponent: -slope,
        lines: points.len(),
    })
}

/// `G (n/0.1)^−w`: density at a wave number.
pub(crate) fn density_at(at_reference: f64, exponent: f64, wave_number: f64) -> f64 {
    at_reference * (wave_number / REFERENCE).powf(-exponent)
}

/// `0.1 √(G (1/n1 − 1/n2))`: standard deviation of a profile of exponent 2 in a band.
pub(crate) fn deviation_in_band(at_reference: f64, low: f64, high: f64) -> f64 {
    REFERENCE * (at_reference * (1.0 / low - 1.0 / high)).sqrt()
}

/// A profile of a density at 10 m and exponent 2, between wavelengths of 0.35 m
/// and 91 m, with phases from a seed. It repeats after its length.
///
/// # Errors
/// [`Error`] for a density that is not between 0 and 1 m³, a spacing above
/// 0.175 m, or a length outside 100 m to 20 km.
pub fn made_profile(
    at_ten_metres: Volume,
    length: Length,
    spacing: Length,
    seed: u64,
) -> Result<Profile, Error> {
    let density = setting("density at 10 m", at_ten_metres.si(), 0.0..=1.0, "m3")?;
    let length = setting("length of the profile", length.si(), 100.0..=20_000.0, "m")?;
    let spacing = setting("spacing of the profile", spacing.si(), 0.01..=0.175, "m")?;
    let count = (length / spacing).round() as usize & !1;
    let step = 1.0 / (count as f64 * spacing);
    let inverse = RealFftPlanner::<f64>::new().plan_fft_inverse(count);
    let mut lines = inverse.make_input_vec();
    let mut state = seed;
    let last = lines.len().saturating_sub(1);
    for (index, line) in lines.iter_mut().enumerate().take(last).skip(1) {
        let wave_number = index as f64 * step;
        let phase = TAU * next_uniform(&mut state);
        if (BAND.0..=BAND.1).contains(&wave_number) {
            let size = (0.5 * density_at(density, 2.0, wave_number) * step).sqrt();
            line.re = size * phase.cos();
            line.im = size * phase.sin();
        }
    }
    let mut levels = inverse.make_output_vec();
    // A length mismatch is the only error and cannot be: both buffers are made by the plan.
    let _ = inverse.process(&mut lines, &mut levels);
    Profile::from_metres(0.0, 0.0, spacing, levels)
}

/// The levels that survey noise alone would show on the samples of a profile:
/// independent, nearly normal (the sum of twelve even numbers), from a seed.
///
/// # Errors
/// [`Error`] for a noise outside 0 to 10 m.
pub fn noise_profile(like: &Profile, level_noise: Length, seed: u64) -> Result<Profile, Error> {
    let sigma = setting("noise of a level", level_noise.si(), 0.0..=10.0, "m")?;
    let mut state = seed;
    let mut one = || (0..12).map(|_| next_uniform(&mut state)).sum::<f64>() - 6.0;
    Ok(like.with_elevations(like.elevations_m().iter().map(|_| sigma * one()).collect()))
}

/// The next number in 0..1 of a SplitMix64 sequence.
fn next_uniform(state: &mut u64) -> f64 {
    *state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut mixed = *state;
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
}
