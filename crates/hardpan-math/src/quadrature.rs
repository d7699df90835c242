//! Gauss–Legendre quadrature over an interval.

use gauss_quad::GaussLegendre;

/// The error function.
#[must_use]
pub fn error_function(x: f64) -> f64 {
    libm::erf(x)
}

/// A rule with a fixed number of nodes, made once and used many times.
#[derive(Debug, Clone)]
pub struct Quadrature {
    rule: GaussLegendre,
}

impl Quadrature {
    /// A rule of `nodes` nodes, at least one.
    #[must_use]
    pub fn new(nodes: std::num::NonZeroUsize) -> Self {
        Self { rule: GaussLegendre::new(nodes) }
    }

    /// The integral of `function` from `from` to `to`.
    pub fn integrate(&self, from: f64, to: f64, function: impl FnMut(f64) -> f64) -> f64 {
        self.rule.integrate(from, to, function)
    }

    /// The nodes from `from` to `to` with their weights, for integrands of
    /// several values at once.
    pub fn nodes(&self, from: f64, to: f64) -> impl Iterator<Item = (f64, f64)> {
        let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
        self.rule.iter().map(move |(node, weight)| (middle + half * node, half * weight))
    }
}
