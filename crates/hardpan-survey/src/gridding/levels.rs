//! How sure a level is: scatter of the points about the plane of their cell.

use super::cell::{CellLevel, PLANE_POINTS};

/// Points of a cell whose errors are credited as independent: those of one
/// pass move together, so that more points do not help on and on. Source:
/// judgement.
const INDEPENDENT_MOST: f64 = 25.0;
/// Fewest cells from which a noise is told.
const CELLS_LEAST: usize = 30;

/// Noise of a point and of a level, both as standard deviations in metres.
///
/// ```text
/// σ_point = s_median / (1 − 2/9ν)^(3/2)     median of s² ≈ σ² (1 − 2/9ν)³
/// σ_level = σ_point / √min(n_median, 25)    [WILSON-HILFERTY-1931]
/// ```
///
/// | symbol | argument | meaning                               | unit | valid |
/// |--------|----------|---------------------------------------|------|-------|
/// | s²     | `levels` | variance about the plane, ν = n − 3   | m²   | n ≥ 8 |
///
/// The median over all cells is not moved by the few cells with a bump or an
/// object in them. None for fewer than thirty cells.
pub(crate) fn noise(levels: &[Option<CellLevel>]) -> Option<(f64, f64)> {
    let (mut spreads, mut points): (Vec<f64>, Vec<u32>) =
        levels.iter().flatten().filter_map(|level| Some((level.variance?, level.points))).unzip();
    if spreads.len() < CELLS_LEAST {
        return None;
    }
    spreads.sort_by(f64::total_cmp);
    points.sort_unstable();
    let variance = *spreads.get(spreads.len() / 2)?;
    let n = f64::from((*points.get(points.len() / 2)?).max(PLANE_POINTS));
    let point = (variance / (1.0 - 2.0 / (9.0 * (n - 3.0))).powi(3)).sqrt();
    Some((point, point / n.min(INDEPENDENT_MOST).sqrt()))
}
