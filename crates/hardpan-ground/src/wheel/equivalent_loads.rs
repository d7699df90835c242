//! The equivalent single wheel of one leg as a table, so that a strip is
//! judged without searching again at every point.

use crate::wheel::equivalent_wheel::deflection_ratio;
use crate::wheel::tyre::contact_radius;
use crate::{Error, LegGeometry, error::positive};
use hardpan_quantity::{Force, Length, Pressure, Quantity};

/// Greatest depth of the table, metres.
pub(crate) const DEEPEST_M: f64 = 6.0;
const SHALLOWEST_M: f64 = 0.1;
const DEPTHS: usize = 48;
/// Contact circles of the table: none, then areas doubling up to circles that
/// touch each other.
const CIRCLES: usize = 9;

/// The deflection ratio of one leg by depth and contact area, tabulated.
///
/// Contact circles reach at most to their neighbours': a larger circle has the
/// ratio of one that touches. Depths above 0.1 m and below 6 m count as those.
#[derive(Debug, Clone, PartialEq)]
pub struct EquivalentLoads {
    leg: LegGeometry,
    circles: Circles,
    /// Ratio of each circle by depth; empty for a single wheel.
    ratios: Vec<[f64; CIRCLES]>,
}

impl EquivalentLoads {
    /// The table of a leg; some milliseconds for several wheels, at once for one.
    #[must_use]
    pub fn new(leg: LegGeometry) -> Self {
        let circles = Circles::of(&leg);
        let ratios = match leg.wheels() {
            1 => Vec::new(),
            _ => (0..DEPTHS).map(|row| circles.ratios(&leg, depth_at(row))).collect(),
        };
        Self { leg, circles, ratios }
    }

    /// The leg.
    #[must_use]
    pub const fn leg(&self) -> &LegGeometry {
        &self.leg
    }

    /// [`equivalent_single_wheel`](crate::equivalent_single_wheel) of the leg from
    /// the table: linear between its depths and circles.
    ///
    /// # Errors
    /// [`Error::NotPositive`] for a load, pressure or depth that is not above zero.
    pub fn single_wheel(
        &self,
        leg_load: Force,
        pressure: Pressure,
        depth: Length,
    ) -> Result<Force, Error> {
        let load = positive("load of the leg", "N", leg_load.si())?;
        let wheel = load / f64::from(self.leg.wheels());
        let radius = contact_radius(wheel, positive("pressure of the tyres", "Pa", pressure.si())?);
        let depth = positive("depth", "m", depth.si())?;
        let ratio = self
            .ratios_at(depth)
            .map_or(1.0, |ratios| self.circles.ratio(&ratios, radius * radius));
        Ok(Force::from_si(wheel * ratio))
    }

    /// The tabulated ratios above and below a depth, with the share of the lower:
    /// linear in its logarithm.
    fn rows_at(&self, depth: f64) -> Option<(&[f64; CIRCLES], &[f64; CIRCLES], f64)> {
        let span = (DEEPEST_M / SHALLOWEST_M).ln();
        let depth = depth.clamp(SHALLOWEST_M, DEEPEST_M);
        let at = (depth / SHALLOWEST_M).ln() / span * (DEPTHS - 1) as f64;
        let row = (at as usize).min(DEPTHS - 2);
        let share = (at - row as f64).clamp(0.0, 1.0);
        Some((self.ratios.get(row)?, self.ratios.get(row + 1)?, share))
    }

    /// Ratios of all circles at a depth.
    fn ratios_at(&self, depth: f64) -> Option<[f64; CIRCLES]> {
        let (upper, lower, share) = self.rows_at(depth)?;
        Some(std::array::from_fn(|k| between(upper[k], lower[k], share)))
    }

    /// [`Circles::resistance`] at a depth.
    pub(crate) fn resistance(&self, depth: f64, c: f64, square: f64) -> f64 {
        match self.rows_at(depth) {
            Some((upper, lower, share)) => {
                self.circles.resistance(|k| between(upper[k], lower[k], share), c, square)
            }
            None => c + square,
        }
    }
}

fn between(upper: f64, lower: f64, share: f64) -> f64 {
    upper * (1.0 - share) + lower * share
}

/// Contact circles for which ratios are found.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Circles {
    /// Square of the radius of each, rising from zero, square metres.
    squares: [f64; CIRCLES],
}

impl Circles {
    fn of(leg: &LegGeometry) -> Self {
        let touching = 0.5 * leg.least_spacing().unwrap_or(1.0);
        let squares = std::array::from_fn(|circle| match circle {
            0 => 0.0,
            _ => (touching * touching) / 2f64.powi((CIRCLES - 1 - circle) as i32),
        });
        Self { squares }
    }

    fn ratios(&self, leg: &LegGeometry, depth: f64) -> [f64; CIRCLES] {
        let least = self.squares[CIRCLES - 1] / 1024.0;
        self.squares.map(|square| deflection_ratio(leg, square.max(least).sqrt(), depth))
    }

    /// The ratio of a circle of a squared radius, linear between circles.
    fn ratio(&self, ratios: &[f64; CIRCLES], square: f64) -> f64 {
        let last = CIRCLES - 1;
        let after = self.squares.partition_point(|&one| one <= square).clamp(1, last);
        let (low, high) = (self.squares[after - 1], self.squares[after]);
        let share = ((square - low) / (high - low)).clamp(0.0, 1.0);
        ratios[after - 1] + (ratios[after] - ratios[after - 1]) * share
    }

    /// `(c + a^2) / ratio`, with `c` the square of cover over factor and `a^2`
    /// the square of the contact radius: the wheel load over this is what the
    /// ground must resist.
    ///
    /// Where that would fall with a growing circle, so that more pressure would
    /// seem to help, the least value of any larger circle is taken; between
    /// circles it is linear in `a^2`. More load, more pressure and more
    /// coverages therefore never ask for less.
    fn resistance(&self, ratio: impl Fn(usize) -> f64, c: f64, square: f64) -> f64 {
        let value = |circle: usize| (c + self.squares[circle]) / ratio(circle);
        let last = CIRCLES - 1;
        if square >= self.squares[last] {
            return value(last) + (square - self.squares[last]) / ratio(last);
        }
        let after = self.squares.partition_point(|&one| one <= square).clamp(1, last);
        let (low, high) = (self.squares[after - 1], self.squares[after]);
        let above = (after..CIRCLES).map(value).fold(f64::INFINITY, f64::min);
        let below = value(after - 1).min(above);
        below + (above - below) * (square - low) / (high - low)
    }
}

/// [`EquivalentLoads::resistance`] of one leg at one depth, without a table.
pub(crate) fn resistance_at(leg: &LegGeometry, depth: f64, c: f64, square: f64) -> f64 {
    if leg.wheels() == 1 {
        return c + square;
    }
    let circles = Circles::of(leg);
    let ratios = circles.ratios(leg, depth);
    circles.resistance(|circle| ratios[circle], c, square)
}

fn depth_at(row: usize) -> f64 {
    SHALLOWEST_M * (DEEPEST_M / SHALLOWEST_M).powf(row as f64 / (DEPTHS - 1) as f64)
}
