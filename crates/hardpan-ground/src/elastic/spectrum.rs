//! From modes back to the ground: the integral over wave numbers.
//!
//! What the layers answer at a place depends on the wave number alone, not on
//! the load: it is solved once, on Gauss–Legendre panels of six decay lengths,
//! finer towards zero, up to where it has faded below the rounding of the
//! result. Each load then brings its Bessel functions. Where those turn faster
//! than a panel can follow, the answer, freed of its exponential, is read
//! between its nodes from its Legendre series. In the first layer only what the
//! layers below add is integrated; it fades at least as `exp(-m h)`, so that
//! the surface needs no extrapolation.

use crate::elastic::circle_field::AXIS_SHARE;
use crate::elastic::field::Field;
use crate::elastic::layer_modes::{Amplitudes, ModeLayer, down_modes, up_modes};
use hardpan_math::Quadrature;
use std::f64::consts::PI;
use std::num::NonZeroUsize;
use std::sync::LazyLock;

/// Nodes of a panel.
const NODES: usize = 12;
static RULE: LazyLock<Quadrature> =
    LazyLock::new(|| Quadrature::new(NonZeroUsize::MIN.saturating_add(NODES - 1)));
/// From values at the nodes of a panel to the Legendre series through them.
static SERIES: LazyLock<[[f64; NODES]; NODES]> = LazyLock::new(series_matrix);
/// Decay lengths after which the kernel is dropped.
const FADED: f64 = 30.0;
/// Decay lengths of a panel.
const PANEL_DECAYS: f64 = 6.0;
/// Each panel towards zero is shorter than the next by this.
const GRADING: f64 = 2.5;
/// Phase of the two Bessel functions together that one panel can follow.
const PHASE: f64 = 3.0 * PI;
/// Most parts of one panel.
const MOST_PARTS: u32 = 20_000;
/// Kinds of values of a kernel.
const KINDS: usize = 5;

/// Where a response is wanted: in which layer and how deep in it, SI.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spot {
    pub(crate) layer: usize,
    /// Depth below the layer's top.
    pub(crate) below_top: f64,
    /// Depth below the surface.
    pub(crate) depth: f64,
}

/// Down, outward, vertical, shear, and `2 nu` times the amplitudes of the
/// second modes, common to radial and tangential stress.
type Kernel = [f64; KINDS];

/// What the layers answer at a spot to a unit surface stress, by wave number;
/// in the first layer without the answer of a half space of its material.
#[derive(Debug, Clone, Default)]
pub(crate) struct Spectrum {
    panels: Vec<Panel>,
    /// Twice the shear stiffness at the spot.
    twice_shear: f64,
    /// Length by which the answer fades.
    decay: f64,
}

/// The kernel at the nodes of a range of wave numbers.
#[derive(Debug, Clone)]
struct Panel {
    from: f64,
    to: f64,
    kernels: [Kernel; NODES],
}

impl Spectrum {
    /// Solve the layers at a spot.
    pub(crate) fn at(layers: &[ModeLayer], spot: &Spot) -> Self {
        let (Some(first), Some(layer)) = (layers.first(), layers.get(spot.layer)) else {
            return Self::default();
        };
        if first.thickness.is_infinite() {
            return Self::default();
        }
        let decay = if spot.layer == 0 { 2.0 * first.thickness - spot.depth } else { spot.depth };
        let height = layer.thickness - spot.below_top;
        let mut amplitudes = Amplitudes::default();
        let panels = ranges(layers, decay)
            .map(|(from, to)| {
                let mut kernels = [[0.0; KINDS]; NODES];
                for (slot, (m, _)) in kernels.iter_mut().zip(RULE.nodes(from, to)) {
                    amplitudes.solve(layers, m);
                    *slot = kernel(layer, &amplitudes, m, spot, height);
                }
                Panel { from, to, kernels }
            })
            .collect();
        Self { panels, twice_shear: 2.0 * layer.shear, decay }
    }

    /// Response to a unit pressure on a circle at a distance from the spot.
    pub(crate) fn under(&self, radius: f64, distance: f64) -> Field {
        let mut sum = Circle {
            radius,
            distance,
            on_axis: distance < AXIS_SHARE * radius,
            twice_shear: self.twice_shear,
            field: Field::default(),
        };
        for panel in &self.panels {
            let phase = (panel.to - panel.from) * (radius + distance);
            let parts = (phase / PHASE).ceil().clamp(1.0, f64::from(MOST_PARTS)) as u32;
            if parts == 1 {
                for ((m, weight), kernel) in RULE.nodes(panel.from, panel.to).zip(&panel.kernels) {
                    sum.add(m, weight, kernel);
                }
            } else {
                self.in_parts(panel, parts, &mut sum);
            }
        }
        sum.field
    }

    /// Add a panel cut into parts, its kernel read from its Legendre series.
    fn in_parts(&self, panel: &Panel, parts: u32, sum: &mut Circle) {
        let mut freed = panel.kernels;
        for (kernel, (m, _)) in freed.iter_mut().zip(RULE.nodes(panel.from, panel.to)) {
            let growth = (m * self.decay).exp();
            kernel.iter_mut().for_each(|value| *value *= growth);
        }
        let series = SERIES.map(|row| {
            let mut total = [0.0; KINDS];
            for (share, kernel) in row.iter().zip(&freed) {
                for (sum, value) in total.iter_mut().zip(kernel) {
                    *sum += share * value;
                }
            }
            total
        });
        let (middle, half) = (0.5 * (panel.from + panel.to), 0.5 * (panel.to - panel.from));
        let width = 2.0 * half / f64::from(parts);
        for part in 0..parts {
            let from = panel.from + f64::from(part) * width;
            for (m, weight) in RULE.nodes(from, from + width) {
                let fade = (-m * self.decay).exp();
                let mut kernel = [0.0; KINDS];
                legendre((m - middle) / half, |order, value| {
                    for (sum, term) in kernel.iter_mut().zip(&series[order]) {
                        *sum += value * term;
                    }
                });
                sum.add(m, weight, &kernel.map(|value| fade * value));
            }
        }
    }
}

/// The integral for one circle, as it grows.
struct Circle {
    radius: f64,
    distance: f64,
    on_axis: bool,
    twice_shear: f64,
    field: Field,
}

impl Circle {
    fn add(&mut self, m: f64, weight: f64, kernel: &Kernel) {
        let &[down, outward, vertical, shear, both] = kernel;
        let load = weight * self.radius * libm::j1(m * self.radius);
        let x = m * self.distance;
        let (even, odd, slope) = if self.on_axis {
            (1.0, 0.0, 0.5)
        } else {
            let odd = libm::j1(x);
            (libm::j0(x), odd, odd / x)
        };
        let sum = &mut self.field;
        sum.vertical += load * vertical * even;
        sum.shear += load * shear * odd;
        sum.radial += load * ((both + outward) * even - outward * slope);
        sum.tangential += load * (both * even + outward * slope);
        let compliance = load / (self.twice_shear * m);
        sum.down += compliance * down * even;
        sum.outward += compliance * outward * odd;
    }
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
    [down, outward, vertical, shear, 2.0 * layer.poisson * second]
}

/// Legendre polynomials at a place from −1 to 1, by rising order.
fn legendre(x: f64, mut take: impl FnMut(usize, f64)) {
    let (mut before, mut value) = (0.0, 1.0);
    for order in 0..NODES {
        take(order, value);
        let n = order as f64;
        (before, value) = (value, ((2.0 * n + 1.0) * x * value - n * before) / (n + 1.0));
    }
}

fn series_matrix() -> [[f64; NODES]; NODES] {
    let mut matrix = [[0.0; NODES]; NODES];
    for (column, (x, weight)) in RULE.nodes(-1.0, 1.0).enumerate() {
        legendre(x, |order, value| {
            matrix[order][column] = (order as f64 + 0.5) * weight * value;
        });
    }
    matrix
}

/// Ranges from zero to where the kernel has faded.
fn ranges(layers: &[ModeLayer], decay: f64) -> impl Iterator<Item = (f64, f64)> {
    let built: f64 =
        layers.iter().map(|layer| layer.thickness).filter(|thickness| thickness.is_finite()).sum();
    let width = PANEL_DECAYS / decay;
    let count = (FADED / PANEL_DECAYS).ceil() as u32;
    let graded = (3.0 * width * built).log(GRADING).ceil().clamp(0.0, 16.0) as i32;
    let towards_zero = (0..=graded).map(move |step| {
        let to = width * GRADING.powi(step - graded);
        (if step == 0 { 0.0 } else { to / GRADING }, to)
    });
    let even = (1..count).map(move |k| (f64::from(k) * width, f64::from(k + 1) * width));
    towards_zero.chain(even)
}
