//! Chords, straightedges and single irregularities.

use super::shapes;
use super::{argument, derived, kernel};
use crate::noise::{false_worst, offset_noise};
use crate::rules::irregularity_limits;
use crate::single_event::acceptable_height;
use hardpan_model::{Argument, Formula, Source, Tier};

use hardpan_quantity::Dimension::{Coefficient, Count, Length};

const CHORD: Argument = argument("chord", "L", Length, 0.1, 500.0);
const SPACING: Argument = argument("spacing", "dx", Length, 0.005, 2.0);
const HEIGHT: Argument = argument("height", "H", Length, -2.0, 2.0);
const BASE: Argument = argument("base", "b", Length, 0.1, 500.0);
const AMPLITUDE: Argument = argument("amplitude", "a", Length, 0.0, 2.0);
const WAVE: Argument = argument("wavelength", "λ", Length, 0.1, 500.0);
const NOISE: Argument = argument("level_noise", "σ", Length, 0.0, 10.0);
const WHICH: Argument = argument("which", "1 to 5", Count, 1.0, 5.0);
const EXACT: &str = "exact but for sampling";
const ANNEX: Source =
    Source::new("ICAO-ANNEX-14", "attachment A, section 5, table of irregularities", Tier::Memory);
const PAVED: &str = "paved runways, single irregularities";
const EDGES: Source = Source::new(
    "FAA-AC-150-5380-9",
    "definition of height and length of an irregularity",
    Tier::Secondary,
);

fn greatest_irregularity(length: f64) -> f64 {
    irregularity_limits(length).map_or(f64::NAN, |limits| limits.0)
}

fn irregularity_for_a_time(length: f64) -> f64 {
    irregularity_limits(length).map_or(f64::NAN, |limits| limits.1)
}

/// `A + B √L` in inches, A = 1.2, B = 0.023.
fn taxi_bump(length: f64) -> f64 {
    const INCH: f64 = 0.0254;
    (1.2 + 0.023 * (length / INCH).sqrt()) * INCH
}

/// Vertical curve under a chord.
pub(crate) static MID_CHORD_OF_CURVE: Formula = Formula {
    name: "mid-chord-offset-of-vertical-curve",
    computes: "offset at the middle of a chord on a vertical curve",
    expression: "d = L²/(8 R), by sliding the chord over the curve",
    arguments: &[argument("radius", "R", Length, 10.0, 1e6), CHORD, SPACING],
    result: Length,
    source: derived("geometry of the shape"),
    scatter: EXACT,
    evaluate: kernel!(shapes::mid_chord_of_curve, radius, chord, spacing),
};

/// Cosine bump under a chord.
pub(crate) static CHORD_OVER_COSINE: Formula = Formula {
    name: "chord-deviation-of-cosine-bump",
    computes: "greatest deviation under a chord over a 1-cosine bump or dip",
    expression: "max |z − chord|; H/2 (1 − cos πL/b) for L ≤ b",
    arguments: &[HEIGHT, BASE, CHORD, SPACING],
    result: Length,
    source: derived("geometry of the shape"),
    scatter: EXACT,
    evaluate: kernel!(shapes::chord_over_cosine, height, base, chord, spacing),
};

/// Sine under a chord.
pub(crate) static CHORD_OVER_SINE: Formula = Formula {
    name: "chord-deviation-of-sine",
    computes: "greatest deviation under a chord over a sine",
    expression: "max |z − chord|; a (1 − cos πL/λ) at mid-chord",
    arguments: &[AMPLITUDE, WAVE, CHORD, SPACING],
    result: Length,
    source: derived("geometry of the shape"),
    scatter: EXACT,
    evaluate: kernel!(shapes::chord_over_sine, amplitude, wave, chord, spacing),
};

/// Triangle under a chord.
pub(crate) static CHORD_OVER_TRIANGLE: Formula = Formula {
    name: "chord-deviation-of-triangle",
    computes: "greatest deviation under a chord over a triangular bump or dip",
    expression: "max |z − chord|",
    arguments: &[HEIGHT, BASE, CHORD, SPACING],
    result: Length,
    source: derived("geometry of the shape"),
    scatter: EXACT,
    evaluate: kernel!(shapes::chord_over_triangle, height, base, chord, spacing),
};

/// Triangle under a straightedge.
pub(crate) static STRAIGHTEDGE_OVER_TRIANGLE: Formula = Formula {
    name: "straightedge-gap-of-triangle",
    computes: "greatest gap under a straightedge over a triangular bump or dip",
    expression: "max (upper hull − z)",
    arguments: &[HEIGHT, BASE, argument("straightedge", "L", Length, 0.1, 50.0), SPACING],
    result: Length,
    source: derived("geometry of the shape"),
    scatter: EXACT,
    evaluate: kernel!(shapes::straightedge_over_triangle, height, base, edge, spacing),
};

/// Sine under a straightedge.
pub(crate) static STRAIGHTEDGE_OVER_SINE: Formula = Formula {
    name: "straightedge-gap-of-sine",
    computes: "greatest gap under a straightedge over a sine",
    expression: "max (upper hull − z)",
    arguments: &[AMPLITUDE, WAVE, argument("straightedge", "L", Length, 0.1, 50.0), SPACING],
    result: Length,
    source: derived("geometry of the shape"),
    scatter: EXACT,
    evaluate: kernel!(shapes::straightedge_over_sine, amplitude, wave, edge, spacing),
};

/// Noise of an offset.
pub(crate) static OFFSET_NOISE: Formula = Formula {
    name: "chord-offset-noise",
    computes: "standard deviation of an offset from a chord by survey noise",
    expression: "σ √(1 + t² + (1 − t)²)",
    arguments: &[NOISE, argument("share", "t", Coefficient, 0.0, 1.0)],
    result: Length,
    source: derived("independent errors of three levels"),
    scatter: "exact for independent errors",
    evaluate: kernel!(offset_noise, noise, share),
};

/// Worst of noise.
pub(crate) static FALSE_WORST: Formula = Formula {
    name: "chord-false-worst",
    computes: "greatest deviation that survey noise alone is expected to show",
    expression: "σ √1.5 √(2 ln N), N levels times levels under the chord",
    arguments: &[NOISE, argument("offsets", "N", Count, 1.0, 1e12)],
    result: Length,
    source: derived("greatest of N normal values"),
    scatter: "about 5 % of itself by chance",
    evaluate: kernel!(false_worst, noise, offsets),
};

/// Table of irregularities.
pub(crate) static IRREGULARITY: Formula = Formula {
    name: "irregularity-limit-annex-14",
    computes: "greatest height or depth of a single irregularity by its length",
    expression: "table of 9 lengths, straight between them",
    arguments: &[argument("length", "L", Length, 3.0, 60.0)],
    result: Length,
    source: ANNEX,
    scatter: PAVED,
    evaluate: kernel!(greatest_irregularity, length),
};

/// Table of irregularities for a time.
pub(crate) static IRREGULARITY_FOR_A_TIME: Formula = Formula {
    name: "irregularity-limit-annex-14-temporary",
    computes: "height or depth of a single irregularity accepted for a time",
    expression: "table of 9 lengths, straight between them",
    arguments: &[argument("length", "L", Length, 3.0, 60.0)],
    result: Length,
    source: ANNEX,
    scatter: PAVED,
    evaluate: kernel!(irregularity_for_a_time, length),
};

/// Acceptable height.
pub(crate) static ACCEPTABLE_HEIGHT: Formula = Formula {
    name: "single-irregularity-acceptable-height",
    computes: "acceptable height of a single irregularity by its length",
    expression: "H = 1.713187 + 0.800872 L − 0.031265 L² + 0.000549 L³ cm up to 20 m, 6.4 + 0.16 L beyond",
    arguments: &[argument("length", "L", Length, 0.0, 60.0)],
    result: Length,
    source: Source::new("FAA-AC-150-5380-9", "upper edge of acceptable", Tier::Memory),
    scatter: PAVED,
    evaluate: kernel!(acceptable_height, length),
};

/// Scan over a cosine bump.
pub(crate) static SINGLE_OF_COSINE: Formula = Formula {
    name: "single-irregularity-of-cosine-bump",
    computes: "worst single irregularity of a cosine bump: ratio, height, length, edge station, edge length",
    expression: "scan of all edges up to 120 m",
    arguments: &[HEIGHT, BASE, argument("spacing", "dx", Length, 0.25, 2.0), WHICH],
    result: Coefficient,
    source: EDGES,
    scatter: EXACT,
    evaluate: kernel!(shapes::single_event_of_cosine, height, base, spacing, which),
};

/// Scan over a ramp.
pub(crate) static SINGLE_OF_RAMP: Formula = Formula {
    name: "single-irregularity-of-ramp",
    computes: "worst single irregularity of a ramp: ratio, height, length, edge station, edge length",
    expression: "scan of all edges up to 120 m",
    arguments: &[HEIGHT, BASE, argument("spacing", "dx", Length, 0.25, 2.0), WHICH],
    result: Coefficient,
    source: EDGES,
    scatter: EXACT,
    evaluate: kernel!(shapes::single_event_of_ramp, height, base, spacing, which),
};

/// Scan over a step.
pub(crate) static SINGLE_OF_STEP: Formula = Formula {
    name: "single-irregularity-of-step",
    computes: "worst single irregularity of a step: ratio, height, length, edge station, edge length",
    expression: "scan of all edges up to 120 m",
    arguments: &[HEIGHT, argument("spacing", "dx", Length, 0.25, 2.0), WHICH],
    result: Coefficient,
    source: EDGES,
    scatter: "the ratio rests on the spacing: the length of a step is one interval",
    evaluate: kernel!(shapes::single_event_of_step, height, spacing, which),
};

/// Design bump.
pub(crate) static TAXI_BUMP: Formula = Formula {
    name: "taxi-bump-height",
    computes: "height of the 1-cosine bump of the taxi load rule by its length",
    expression: "H = 1.2 + 0.023 √L, inches",
    arguments: &[argument("length", "L", Length, 1.0, 200.0)],
    result: Length,
    source: Source::new("FAA-AC-25-491-1", "bump formula", Tier::Memory),
    scatter: "a design input, not a tolerance",
    evaluate: kernel!(taxi_bump, length),
};
