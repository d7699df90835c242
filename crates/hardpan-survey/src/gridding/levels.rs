//! How sure a level is: scatter of the points about the plane of their cell.

use super::cell::{CellLevel, PLANE_POINTS};
use super::settings::Layout;

/// Points of a cell whose errors are credited as independent: those of one
/// pass move together, so that more points do not help on and on. Source:
/// judgement.
const INDEPENDENT_MOST: f64 = 25.0;
/// Points that scatter by more than this reach the clip of their cell, 0.3 m, at
/// five deviations or fewer.
const CLIPPED_M: f64 = 0.06;
/// One normal error in a hundred is greater, in deviations, either way.
const NORMAL_HUNDREDTH: f64 = 2.576;
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
/// object in them. Where points scatter so much that the clip of a cell cuts
/// into them, their spread says too little, and the scatter of the levels about
/// their neighbours counts if it is greater. None for fewer than thirty cells.
pub(crate) fn noise(layout: &Layout, levels: &[Option<CellLevel>]) -> Option<(f64, f64)> {
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
    let level = point / n.min(INDEPENDENT_MOST).sqrt();
    let clipped = point > CLIPPED_M;
    let seen = if clipped { scatter(layout, levels) } else { None };
    Some((point, seen.map_or(level, |seen| level.max(seen))))
}

/// Scatter of the levels about the mean of the two beside them along the strip:
/// by the greater of their middle and their hundredth, so that long tails count.
fn scatter(layout: &Layout, levels: &[Option<CellLevel>]) -> Option<f64> {
    let across = layout.offsets;
    let level = |at: usize| levels.get(at).copied().flatten().map(|level| level.elevation_m);
    let mut errors: Vec<f64> = (across..levels.len().saturating_sub(across))
        .filter_map(|at| {
            let beside = 0.5 * (level(at - across)? + level(at + across)?);
            Some((level(at)? - beside).abs() / 1.5_f64.sqrt())
        })
        .collect();
    if errors.len() < CELLS_LEAST {
        return None;
    }
    errors.sort_by(f64::total_cmp);
    let at = |share: f64| errors.get((share * (errors.len() - 1) as f64) as usize).copied();
    Some((1.4826 * at(0.5)?).max(at(0.99)? / NORMAL_HUNDREDTH))
}
