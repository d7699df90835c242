//! The levels of a strip and what is known of them.

use super::accumulator::{Counts, Reach};
use super::cell::{Cell, CellLevel};
use super::holes::{Hole, holes, largest};
use super::levels::noise;
use super::morphology::objects;
use super::settings::{GridSettings, Layout};
use crate::Error;
use hardpan_model::{AxisFrom, CloudFacts, GroundFrom, SurveyLine, SurveyPoint};
use hardpan_quantity::{Quantity, metres};

/// Below this share of cells with a level nothing can be said of a strip.
const LEAST_COVERED: f64 = 0.1;

/// Survey lines along the strip and the facts of their making.
#[derive(Debug, Clone, PartialEq)]
pub struct Gridded {
    /// Lines by rising offset; a cell without a level is a gap in its line.
    pub lines: Vec<SurveyLine>,
    /// What became of the points.
    pub facts: CloudFacts,
}

impl Gridded {
    pub(crate) fn new(
        settings: &GridSettings,
        layout: Layout,
        cells: Vec<Cell>,
        ground: GroundFrom,
        counts: Counts,
        reach: Reach,
    ) -> Result<Self, Error> {
        let found: Vec<Option<CellLevel>> = cells
            .iter()
            .map(|cell| cell.level(settings.least_points, layout.length_m, layout.width_m))
            .collect();
        let used: u64 = cells.iter().map(|cell| u64::from(cell.used)).sum();
        let rejected: u64 = cells.iter().map(|cell| u64::from(cell.rejected)).sum();
        drop(cells);
        let noise = noise(&layout, &found);
        let mut levels: Vec<Option<f64>> =
            found.into_iter().map(|level| level.map(|level| level.elevation_m)).collect();
        let objects = match ground {
            GroundFrom::Filter => {
                let standing = objects(&layout, &levels);
                cut(&mut levels, &standing)
            }
            GroundFrom::Classes => 0,
        };
        let measured = count(&levels);
        covered(&layout, measured, used, counts, reach)?;
        let (filled, left) = fill(&layout, &mut levels, settings.largest_filled.si());
        let facts = CloudFacts {
            axis: AxisFrom::Thresholds,
            ground,
            points: counts.points,
            used,
            off_strip: counts.off_strip,
            excluded: counts.excluded,
            rejected: counts.not_finite + rejected,
            cell_length: settings.cell_length,
            cell_width: settings.cell_width,
            cells: layout.cells() as u64,
            measured,
            filled,
            objects,
            unsurveyed: layout.cells() as u64 - count(&levels),
            holes: largest(&layout, left),
            point_noise: noise.map(|(point, _)| metres(point)),
            level_noise: noise.map(|(_, level)| metres(level)),
        };
        Ok(Self { lines: lines(&layout, &levels), facts })
    }
}

fn count(levels: &[Option<f64>]) -> u64 {
    levels.iter().flatten().count() as u64
}

fn cut(levels: &mut [Option<f64>], objects: &[bool]) -> u64 {
    let mut cut = 0;
    for (level, _) in levels.iter_mut().zip(objects).filter(|(_, object)| **object) {
        *level = None;
        cut += 1;
    }
    cut
}

fn covered(
    layout: &Layout,
    measured: u64,
    used: u64,
    counts: Counts,
    reach: Reach,
) -> Result<(), Error> {
    if used == 0 {
        let lies = counts.points > counts.excluded && reach.station.0.is_finite();
        return Err(if lies {
            Error::OffTheStrip {
                from_m: reach.station.0,
                to_m: reach.station.1,
                left_m: reach.offset.0,
                right_m: reach.offset.1,
                length_m: layout.station_m(layout.stations.saturating_sub(1)),
            }
        } else {
            Error::NoGroundPoint { points: counts.points }
        });
    }
    let share = measured as f64 / layout.cells().max(1) as f64;
    if share < LEAST_COVERED {
        return Err(Error::TooSparse {
            covered_percent: 100.0 * share,
            points: used,
            cell_length_m: layout.length_m,
            cell_width_m: layout.width_m,
        });
    }
    Ok(())
}

/// Fills what may be filled; gives the count and the holes that are left.
fn fill(layout: &Layout, levels: &mut [Option<f64>], largest_m: f64) -> (u64, Vec<Hole>) {
    let (small, left): (Vec<Hole>, Vec<Hole>) =
        holes(layout, levels).into_iter().partition(|hole| hole.may_be_filled(layout, largest_m));
    let measured = levels.to_vec();
    let mut filled = 0;
    for (index, level) in small.iter().flat_map(|hole| hole.filled(layout, &measured)) {
        if let (Some(place), Some(level)) = (levels.get_mut(index), level) {
            *place = Some(level);
            filled += 1;
        }
    }
    (filled, left)
}

fn lines(layout: &Layout, levels: &[Option<f64>]) -> Vec<SurveyLine> {
    let line = |across: usize| SurveyLine {
        offset: metres(layout.offset_m(across)),
        points: (0..layout.stations)
            .filter_map(|along| {
                let level = levels.get(along * layout.offsets + across).copied().flatten()?;
                Some(SurveyPoint {
                    station: metres(layout.station_m(along)),
                    elevation: metres(level),
                    line: 0,
                })
            })
            .collect(),
    };
    (0..layout.offsets).map(line).filter(|line| !line.points.is_empty()).collect()
}
