//! How far may the ground between soundings lie from what they found?
//!
//! Distances to the soundings on either side and the correlation length of the
//! ground → the standard deviation of what lies between, as a share of that
//! from place to place: ordinary kriging with an exponential correlation, for
//! which no sounding beyond the two neighbours counts. None at a sounding.
//! Numbers: `validation/cases/ground/between-soundings.toml`.

use crate::formulas::{argument, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;

const fn distance(name: &'static str, symbol: &'static str) -> Argument {
    argument(name, symbol, Dimension::Length, 0.0, 10_000.0)
}

const CORRELATION: Argument =
    argument("correlation_length", "L", Dimension::Length, 0.1, 100_000.0);
const KRIGING: Source =
    Source::new("MATHERON-1963", "ordinary kriging, exponential correlation", Tier::Derived);

/// Between two soundings.
pub static DEVIATION_BETWEEN_SOUNDINGS: Formula = Formula {
    name: "deviation-between-soundings",
    computes: "standard deviation of the ground between two soundings over that from place to place",
    expression: "u^2 = 1 - (ra^2 + rb^2 - 2 r^2)/(1 - r^2) + (1 - wa - wb)^2 (1 + r)/2, \
                 ra = exp(-a/L), rb = exp(-b/L), r = ra rb, wa = ra (1 - rb^2)/(1 - r^2), \
                 wb = rb (1 - ra^2)/(1 - r^2)",
    arguments: &[distance("behind", "a"), distance("ahead", "b"), CORRELATION],
    result: Dimension::Ratio,
    source: KRIGING,
    scatter: "exact for ground that varies so; the correlation length decides",
    evaluate: kernel!(|behind, ahead, length| Between::at(behind, ahead, length).deviation),
};

/// Beyond the last sounding.
pub static DEVIATION_BESIDE_SOUNDING: Formula = Formula {
    name: "deviation-beside-a-sounding",
    computes: "standard deviation of the ground beside one sounding over that from place to place",
    expression: "u^2 = 2 (1 - exp(-a/L))",
    arguments: &[distance("distance", "a"), CORRELATION],
    result: Dimension::Ratio,
    source: KRIGING,
    scatter: "exact for ground that varies so; the correlation length decides",
    evaluate: kernel!(|distance, length| beside(distance, length)),
};

/// Share of the correlation that the reach of a sounding, its scale of
/// fluctuation, stands for: an exponential correlation has a scale of twice its
/// length.
pub const LENGTHS_IN_REACH: f64 = 2.0;

/// Where the correlation length comes from where the strip states none.
pub const DEFAULT_CORRELATION_SOURCE: Source = Source::new(
    "VANMARCKE-1977",
    "scale of fluctuation, twice the length of an exponential correlation; the reach of a \
     sounding is taken for it",
    Tier::Judgement,
);

/// Weight of the sounding behind, and the deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Between {
    pub(crate) weight_behind: f64,
    pub(crate) deviation: f64,
}

impl Between {
    /// At a distance from the sounding behind and from the one ahead.
    pub(crate) fn at(behind: f64, ahead: f64, length: f64) -> Self {
        let (by_behind, by_ahead) = ((-behind / length).exp(), (-ahead / length).exp());
        let both = by_behind * by_ahead;
        // 1 - both^2 without a difference of near numbers.
        let apart = -(-2.0 * (behind + ahead) / length).exp_m1();
        if apart < 1e-12 {
            return Self { weight_behind: 0.5, deviation: 0.0 };
        }
        let known = |own: f64, other: f64| own * (1.0 - other * other) / apart;
        let (from_behind, from_ahead) = (known(by_behind, by_ahead), known(by_ahead, by_behind));
        let rest = 1.0 - from_behind - from_ahead;
        let explained = (by_behind * by_behind + by_ahead * by_ahead - 2.0 * both * both) / apart;
        let variance = 1.0 - explained + rest * rest * (1.0 + both) / 2.0;
        Self { weight_behind: from_behind + rest / 2.0, deviation: variance.max(0.0).sqrt() }
    }
}

/// Deviation at a distance from the only sounding.
pub(crate) fn beside(distance: f64, length: f64) -> f64 {
    (-2.0 * (-distance / length).exp_m1()).max(0.0).sqrt()
}
