//! Published tables of frost: surface factors, and strength while thawing.

use hardpan_model::{Source, Tier};

/// Surface index over air index for one kind of surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceFactor {
    /// Surface, in words.
    pub surface: &'static str,
    /// Factor for freezing.
    pub freezing: f64,
    /// Least factor for thawing; none where the table has none.
    pub thawing: Option<f64>,
    /// Greatest factor for thawing, where the table gives a range.
    pub thawing_to: Option<f64>,
    /// Where it comes from.
    pub source: Source,
}

const TABLE: Source = Source::new("UFC-3-130-04", "table 4-1", Tier::Published);
const GRAVEL: Source = Source::new("JIPR-2021", "table 3", Tier::Published);

const fn row(
    surface: &'static str,
    freezing: f64,
    thawing: Option<f64>,
    thawing_to: Option<f64>,
    source: Source,
) -> SurfaceFactor {
    SurfaceFactor { surface, freezing, thawing, thawing_to, source }
}

/// Surface factors as published.
pub static SURFACE_FACTORS: &[SurfaceFactor] = &[
    row("snow", 1.0, None, None, TABLE),
    row("concrete", 0.75, Some(1.5), None, TABLE),
    row("bituminous", 0.7, Some(1.6), Some(2.0), TABLE),
    row("bare soil", 0.7, Some(1.4), Some(2.0), TABLE),
    row("turf", 0.5, Some(0.8), None, TABLE),
    row("shaded", 0.9, Some(1.0), None, TABLE),
    row("tree-covered", 0.3, Some(0.4), None, TABLE),
    row("maintained gravel fill", 0.95, Some(1.25), None, GRAVEL),
];

/// Frost groups of soils, by falling strength in thaw.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrostGroup {
    /// Gravelly soils, little frost-susceptible (S1) or frost-susceptible (F1).
    S1F1,
    /// Sandy soils (S2), and F2.
    S2F2,
    /// Frost-susceptible silts and clays (F3, F4).
    F3F4,
}

/// Where [`thaw_strength_index`] comes from.
pub const THAW_STRENGTH_SOURCE: Source =
    Source::new("UFC-3-260-02", "table 3-5, frost area soil support index", Tier::Published);

/// Frost area soil support index, used in place of a bearing ratio, per cent.
///
/// A weighted annual value: the spring minimum of the ground lies below it. A
/// natural bearing ratio below it governs.
#[must_use]
pub const fn thaw_strength_index(group: FrostGroup) -> f64 {
    match group {
        FrostGroup::S1F1 => 9.0,
        FrostGroup::S2F2 => 6.5,
        FrostGroup::F3F4 => 3.5,
    }
}
