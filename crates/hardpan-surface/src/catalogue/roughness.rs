//! Roughness index and spectrum.

use super::shapes;
use super::{argument, derived, kernel};
use crate::roughness_index::noise_index;
use crate::roughness_index::quarter_car::{QuarterCar, gain, sprung_displacement};
use crate::spectrum::{BAND, REFERENCE, density_at, deviation_in_band};
use hardpan_math::Quadrature;
use hardpan_model::{Argument, Formula, Source, Tier};
use std::num::NonZeroUsize;

use hardpan_quantity::Dimension::{Coefficient, Count, Length, Ratio, Volume};

const SPACING: Argument = argument("spacing", "dx", Length, 0.01, 2.5);
const WAVE: Argument = argument("wavelength", "λ", Length, 0.3, 500.0);
const AMPLITUDE: Argument = argument("amplitude", "a", Length, 0.0, 1.0);
const DENSITY: Argument = argument("density_at_10_m", "G, m³", Volume, 0.0, 1.0);
const INDEX: Source = Source::new("ASTM-E1926", "reference quarter car", Tier::Secondary);
const CLASSES: Source = Source::new("ISO-8608", "displacement spectrum", Tier::Memory);
const EXACT: &str = "exact for the reference quarter car";

fn transition(spacing: f64, row: f64, column: f64) -> f64 {
    QuarterCar::over(spacing).element(row, column)
}

/// Share of a sine that the 250 mm average leaves.
fn average(wavelength: f64) -> f64 {
    let turn = std::f64::consts::PI * 0.25 / wavelength;
    turn.sin() / turn
}

fn index_of_sine(amplitude: f64, wavelength: f64) -> f64 {
    4.0 * amplitude * gain(wavelength) / wavelength
}

fn averaged_index_of_sine(amplitude: f64, wavelength: f64) -> f64 {
    index_of_sine(amplitude, wavelength) * average(wavelength)
}

/// `√(2/π) 2π n0 √(G ∫|gain|² dn)` over the band, with the average.
fn index_of_density(density: f64) -> f64 {
    density_index(density, true)
}

fn plain_index_of_density(density: f64) -> f64 {
    density_index(density, false)
}

fn density_index(density: f64, averaged: bool) -> f64 {
    let Some(nodes) = NonZeroUsize::new(400) else { return f64::NAN };
    let square = |log_wave_number: f64| {
        let wavelength = (-log_wave_number).exp();
        let part = if averaged { gain(wavelength) * average(wavelength) } else { gain(wavelength) };
        part * part / wavelength
    };
    let sum = Quadrature::new(nodes).integrate(BAND.0.ln(), BAND.1.ln(), square);
    (2.0 / std::f64::consts::PI * density * sum).sqrt() * std::f64::consts::TAU * REFERENCE
}

/// State transition.
pub(crate) static TRANSITION: Formula = Formula {
    name: "quarter-car-transition",
    computes: "element of the state transition (columns 1 to 4) or input vector (column 5) of the quarter car over one interval",
    expression: "ST = exp(A dx/V), PR = A⁻¹ (ST − I) B",
    arguments: &[
        SPACING,
        argument("row", "1 to 4", Count, 1.0, 4.0),
        argument("column", "1 to 5", Count, 1.0, 5.0),
    ],
    result: Coefficient,
    source: INDEX,
    scatter: EXACT,
    evaluate: kernel!(transition, spacing, row, column),
};

/// Gain of the index.
pub(crate) static GAIN: Formula = Formula {
    name: "roughness-index-gain",
    computes: "answer of the roughness index to a slope of unit amplitude",
    expression: "|zs − zu|·ω/V over the slope, at 80 km/h",
    arguments: &[WAVE],
    result: Coefficient,
    source: INDEX,
    scatter: EXACT,
    evaluate: kernel!(gain, wave),
};

/// Index of a sine.
pub(crate) static INDEX_OF_SINE: Formula = Formula {
    name: "roughness-index-of-sine",
    computes: "roughness index of a sine without the 250 mm average",
    expression: "4 a G(λ)/λ",
    arguments: &[AMPLITUDE, WAVE],
    result: Ratio,
    source: derived("mean of a rectified sine, gain of the index"),
    scatter: EXACT,
    evaluate: kernel!(index_of_sine, amplitude, wave),
};

/// Averaged index of a sine.
pub(crate) static AVERAGED_INDEX_OF_SINE: Formula = Formula {
    name: "roughness-index-of-sine-averaged",
    computes: "roughness index of a sine with the 250 mm average",
    expression: "4 a G(λ)/λ sinc(0.25/λ)",
    arguments: &[AMPLITUDE, WAVE],
    result: Ratio,
    source: derived("mean of a rectified sine, gain of the index"),
    scatter: EXACT,
    evaluate: kernel!(averaged_index_of_sine, amplitude, wave),
};

/// Index of a sampled sine.
pub(crate) static INDEX_OF_SAMPLED_SINE: Formula = Formula {
    name: "roughness-index-of-sampled-sine",
    computes: "roughness index of a sampled sine over 1 000 m after 200 m",
    expression: "mean of |zs − zu| slopes, step by step",
    arguments: &[AMPLITUDE, WAVE, argument("spacing", "dx", Length, 0.01, 0.5)],
    result: Ratio,
    source: INDEX,
    scatter: "coarse samples lose short waves",
    evaluate: kernel!(shapes::index_of_sine, amplitude, wave, spacing),
};

/// Index of noise.
pub(crate) static NOISE_INDEX: Formula = Formula {
    name: "roughness-index-of-noise",
    computes: "roughness index that survey noise alone shows",
    expression: "√(2/π) σ √Σ h², h the answer to one false level",
    arguments: &[argument("level_noise", "σ", Length, 0.0, 1.0), SPACING],
    result: Ratio,
    source: derived("linear answer to independent errors"),
    scatter: "exact for independent errors; adds in quadrature",
    evaluate: kernel!(noise_index, noise, spacing),
};

/// Sprung displacement.
pub(crate) static SPRUNG: Formula = Formula {
    name: "quarter-car-sprung-displacement",
    computes: "displacement of the sprung mass over that of the road",
    expression: "|zs/y| at a frequency in Hz",
    arguments: &[argument("frequency", "f, Hz", Coefficient, 0.01, 100.0)],
    result: Coefficient,
    source: INDEX,
    scatter: EXACT,
    evaluate: kernel!(sprung_displacement, frequency),
};

/// Spectrum of the classes.
pub(crate) static DENSITY_AT: Formula = Formula {
    name: "spectrum-density",
    computes: "displacement density at a wave number",
    expression: "G (n/0.1)^−w",
    arguments: &[
        DENSITY,
        argument("exponent", "w", Coefficient, 1.0, 4.0),
        argument("wave_number", "n, 1/m", Coefficient, 1e-4, 100.0),
    ],
    result: Volume,
    source: CLASSES,
    scatter: "real spectra bend",
    evaluate: kernel!(density_at, density, exponent, number),
};

/// Deviation in a band.
pub(crate) static DEVIATION_IN_BAND: Formula = Formula {
    name: "spectrum-deviation-in-band",
    computes: "standard deviation of a profile of exponent 2 between two wave numbers",
    expression: "0.1 √(G (1/n1 − 1/n2))",
    arguments: &[
        DENSITY,
        argument("low", "n1, 1/m", Coefficient, 1e-4, 10.0),
        argument("high", "n2, 1/m", Coefficient, 1e-3, 100.0),
    ],
    result: Length,
    source: derived("integral of the spectrum"),
    scatter: "exact",
    evaluate: kernel!(deviation_in_band, density, low, high),
};

/// Index of a spectrum.
pub(crate) static INDEX_OF_DENSITY: Formula = Formula {
    name: "roughness-index-of-spectrum",
    computes: "roughness index of a Gaussian profile of exponent 2",
    expression: "√(2/π) 2π 0.1 √(G ∫|gain sinc|² dn), 0.011 to 2.83 per metre",
    arguments: &[DENSITY],
    result: Ratio,
    source: derived("mean of a rectified Gaussian"),
    scatter: "wrong where the exponent is not 2",
    evaluate: kernel!(index_of_density, density),
};

/// Plain index of a spectrum.
pub(crate) static PLAIN_INDEX_OF_DENSITY: Formula = Formula {
    name: "roughness-index-of-spectrum-plain",
    computes: "roughness index of a Gaussian profile of exponent 2 without the 250 mm average",
    expression: "√(2/π) 2π 0.1 √(G ∫|gain|² dn), 0.011 to 2.83 per metre",
    arguments: &[DENSITY],
    result: Ratio,
    source: derived("mean of a rectified Gaussian"),
    scatter: "wrong where the exponent is not 2",
    evaluate: kernel!(plain_index_of_density, density),
};
