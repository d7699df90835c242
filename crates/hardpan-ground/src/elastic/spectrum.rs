//! From modes back to the ground: the integral over wave numbers.
//!
//! Gauss–Legendre panels of at most one period of the product of Bessel
//! functions and of six decay lengths, finer towards zero wave number, up to
//! where the kernel has faded below the rounding of the result. In the first
//! layer only what the layers below add is integrated; it fades at least as
//! `exp(-m h)`, so that the surface needs no extrapolation.

use crate::elastic::circle_field::AXIS_SHARE;
use crate::elastic::field::Field;
use crate::elastic::layer_modes::{Amplitudes, ModeLayer, down_modes, up_modes};
use hardpan_math::Quadrature;
use std::f64::consts::PI;
use std::num::NonZeroUsize;
use std::sync::LazyLock;

static RULE: LazyLock<Quadrature> =
    LazyLock::new(|| Quadrature::new(NonZeroUsize::MIN.saturating_add(11)));
/// Decay lengths after which the kernel is dropped.
const FADED: f64 = 38.0;
/// Most panels of one integral.
const MOST_PANELS: usize = 20_000;

/// Where a response is wanted: in which layer and how deep in it, SI.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spot {
    pub(crate) layer: usize,
    /// Depth below the layer's top.
    pub(crate) below_top: f64,
    /// Depth below the surface.
    pub(crate) depth: f64,
    pub(crate) distance: f64,
}

/// Response to a unit pressure on a circle at a spot; in the first layer
/// without that of a half space of its material.
pub(crate) fn integrate(layers: &[ModeLayer], radius: f64, spot: &Spot) -> Field {
    let (Some(first), Some(layer)) = (layers.first(), layers.get(spot.layer)) else {
        return Field::default();
    };
    if first.thickness.is_infinite() {
        return Field::default();
    }
    let decay = if spot.layer == 0 { 2.0 * first.thickness - spot.depth } else { spot.depth };
    let height = layer.thickness - spot.below_top;
    let mut amplitudes = Amplitudes::default();
    let mut sum = Field::default();
    let on_axis = spot.distance < AXIS_SHARE * radius;
    for (from, to) in panels(layers, radius, spot.distance, decay) {
        for (m, weight) in RULE.nodes(from, to) {
            amplitudes.solve(layers, m);
            let kernel = kernel(layer, &amplitudes, m, spot, height);
            let load = weight * radius * libm::j1(m * radius);
            let x = m * spot.distance;
            let (even, odd, slope) = if on_axis {
                (1.0, 0.0, 0.5)
            } else {
                let odd = libm::j1(x);
                (libm::j0(x), odd, odd / x)
            };
            let both = kernel.even_part;
            sum.vertical += load * kernel.vertical * even;
            sum.shear += load * kernel.shear * odd;
            sum.radial += load * ((both + kernel.outward) * even - kernel.outward * slope);
            sum.tangential += load * (both * even + kernel.outward * slope);
            let compliance = load / (2.0 * layer.shear * m);
            sum.down += compliance * kernel.down * even;
            sum.outward += compliance * kernel.outward * odd;
        }
    }
    sum
}

/// Kernel values at one wave number.
struct Kernel {
    down: f64,
    outward: f64,
    vertical: f64,
    shear: f64,
    /// `2 nu` times the amplitudes of the second modes, common to radial and
    /// tangential stress.
    even_part: f64,
}

fn kernel(layer: &ModeLayer, amplitudes: &Amplitudes, m: f64, spot: &Spot, height: f64) -> Kernel {
    let zeta = m * spot.below_top;
    let fade_down = (-zeta).exp();
    let modes = down_modes(layer.poisson, zeta);
    let down = amplitudes.down[spot.layer].map(|amplitude| amplitude * fade_down);
    let mut state = modes.map(|row| row[0] * down[0] + row[1] * down[1]);
    let mut second = down[1];
    if height.is_finite() {
        let eta = m * height;
        let fade_up = (-eta).exp();
        let up = amplitudes.up[spot.layer].map(|amplitude| amplitude * fade_up);
        for (value, row) in state.iter_mut().zip(up_modes(layer.poisson, eta)) {
            *value += row[0] * up[0] + row[1] * up[1];
        }
        second += up[1];
    }
    let [down, outward, vertical, shear] = state;
    Kernel { down, outward, vertical, shear, even_part: 2.0 * layer.poisson * second }
}

/// Panels from zero to where the kernel has faded.
fn panels(
    layers: &[ModeLayer],
    radius: f64,
    distance: f64,
    decay: f64,
) -> impl Iterator<Item = (f64, f64)> {
    let built: f64 =
        layers.iter().map(|layer| layer.thickness).filter(|thickness| thickness.is_finite()).sum();
    let end = FADED / decay;
    let wanted = (2.0 * PI / (radius + distance)).min(6.0 / decay);
    let count = (end / wanted).ceil().clamp(1.0, MOST_PANELS as f64);
    let width = end / count;
    let halvings = (3.0 * width * built).log2().ceil().clamp(0.0, 16.0) as i32;
    let first = width / 2f64.powi(halvings);
    let graded = (0..=halvings).map(move |step| match step {
        0 => (0.0, first),
        _ => (first * 2f64.powi(step - 1), first * 2f64.powi(step)),
    });
    let even = (1..count as u32).map(move |k| (f64::from(k) * width, f64::from(k + 1) * width));
    graded.chain(even)
}
