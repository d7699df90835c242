//! What stands on the ground and covers whole cells: bushes, vehicles, markers.

use super::settings::Layout;

/// Largest half-window: objects up to about twice as wide are found.
const WINDOW_MOST_M: f64 = 4.0;
/// Slope that ground on a strip does not exceed between windows.
const SLOPE: f64 = 0.06;
/// Height over the opened surface that is always ground, and the most that may
/// count as ground at the largest window. A bump that a wheel could still roll
/// over stays in the survey; what is taken out is left unsurveyed, not level.
const HEIGHT_LEAST_M: f64 = 0.25;
const HEIGHT_MOST_M: f64 = 0.60;

/// Cells that stand above the ground, by progressive morphological filter.
///
/// ```text
/// w₁ = 1 m, wₖ₊₁ = 2 wₖ
/// opened: greatest within wₖ of the least within wₖ
/// object where z − opened > dhₖ = min(s (wₖ − wₖ₋₁) + dh₀, dh_max)
///                                                 [ZHANG-2003] equations 4 to 7
/// ```
///
/// | symbol | argument | meaning                      | unit | valid |
/// |--------|----------|------------------------------|------|-------|
/// | z      | `levels` | level of each cell, or none  | m    | –     |
///
/// Windows are half-widths in metres here, since cells need not be square, and
/// the values of s, dh₀ and dh_max are judgement for a strip. Cells without a
/// level take no part.
pub(crate) fn objects(layout: &Layout, levels: &[Option<f64>]) -> Vec<bool> {
    let mut surface = levels.to_vec();
    let mut found = vec![false; levels.len()];
    let (mut window, mut before) = (1.0, 0.0);
    while window <= WINDOW_MOST_M {
        let least = passed(layout, &surface, window, f64::min);
        let opened = passed(layout, &least, window, f64::max);
        let allowed = (SLOPE * (window - before) + HEIGHT_LEAST_M).min(HEIGHT_MOST_M);
        for ((object, level), ground) in found.iter_mut().zip(&surface).zip(&opened) {
            if let (Some(level), Some(ground)) = (level, ground) {
                *object |= level - ground > allowed;
            }
        }
        surface = opened;
        before = window;
        window *= 2.0;
    }
    found
}

/// The least or greatest level within `window` of each cell: first along, then
/// across. A cell without a level stays without.
fn passed(
    layout: &Layout,
    levels: &[Option<f64>],
    window: f64,
    pick: fn(f64, f64) -> f64,
) -> Vec<Option<f64>> {
    let along = (window / layout.length_m).round() as usize;
    let across = (window / layout.width_m).round() as usize;
    let once = swept(layout, levels, pick, |a, b| {
        (a.saturating_sub(along)..=(a + along).min(layout.stations - 1))
            .map(move |near| near * layout.offsets + b)
    });
    let twice = swept(layout, &once, pick, |a, b| {
        (b.saturating_sub(across)..=(b + across).min(layout.offsets - 1))
            .map(move |near| a * layout.offsets + near)
    });
    twice.into_iter().zip(levels).map(|(value, own)| own.and(value)).collect()
}

fn swept<I: Iterator<Item = usize>>(
    layout: &Layout,
    levels: &[Option<f64>],
    pick: fn(f64, f64) -> f64,
    near: impl Fn(usize, usize) -> I,
) -> Vec<Option<f64>> {
    let mut out = Vec::with_capacity(levels.len());
    for along in 0..layout.stations {
        for across in 0..layout.offsets {
            let found = near(along, across).filter_map(|at| levels.get(at).copied().flatten());
            out.push(found.reduce(pick));
        }
    }
    out
}
