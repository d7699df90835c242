//! How sure the level of a single position is.

use hardpan_model::SurveyLine;
use hardpan_quantity::Quantity;

/// No level of a single position is credited with less noise, whatever is
/// stated: receivers with corrections reach 10 mm to 20 mm. Common practice, no
/// source.
pub const LEAST_NOISE_M: f64 = 0.010;
/// Neighbours further away say nothing of a level between them.
const NEIGHBOUR_MOST_M: f64 = 5.0;
/// Fewest levels from which a scatter is told.
const LEVELS_LEAST: usize = 30;

/// Scatter of a level about the straight line through its neighbours, metres.
///
/// ```text
/// e = (z − (1 − t) z₋ − t z₊) / √(1 + (1 − t)² + t²)
/// σ = 1.4826 median |e|                [ROUSSEEUW-LEROY-1987] section 4.1
/// ```
///
/// | symbol | argument | meaning                               | unit | valid |
/// |--------|----------|---------------------------------------|------|-------|
/// | z      | `lines`  | level; z₋, z₊ its neighbours          | m    | –     |
/// | t      | `lines`  | place between them, 0 to 1            | –    | 0 – 1 |
///
/// Short bumps add to it, so that on rough ground it is an upper bound; errors
/// that last from one level to the next stay unseen. None for fewer than thirty
/// levels with neighbours within 5 m on both sides.
pub(super) fn scatter(lines: &[SurveyLine]) -> Option<f64> {
    let mut errors: Vec<f64> = Vec::new();
    for line in lines {
        for three in line.points.windows(3) {
            let [before, here, after] = three else { continue };
            let (low, at, high) = (before.station.si(), here.station.si(), after.station.si());
            let near = at - low <= NEIGHBOUR_MOST_M && high - at <= NEIGHBOUR_MOST_M;
            if !near || high <= low {
                continue;
            }
            let t = (at - low) / (high - low);
            let between = (1.0 - t) * before.elevation.si() + t * after.elevation.si();
            let unit = (1.0 + (1.0 - t).powi(2) + t * t).sqrt();
            errors.push((here.elevation.si() - between).abs() / unit);
        }
    }
    if errors.len() < LEVELS_LEAST {
        return None;
    }
    errors.sort_by(f64::total_cmp);
    errors.get(errors.len() / 2).map(|median| 1.4826 * median)
}
