//! Where water stands: depressions of the surveyed surface, filled to the brim
//! by the priority flood of [BARNES-2014].

use crate::error::{Error, setting};
use crate::slope::elevations_at;
use hardpan_model::Survey;
use hardpan_quantity::{Area, Length, Quantity, Volume, metres};
use std::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

/// `r − b S`: depth that a rut of half width b holds on a crossfall S along a
/// level lane; not below 0.
pub(crate) fn rut_storage(rut: f64, half_width: f64, crossfall: f64) -> f64 {
    (rut - half_width * crossfall.abs()).max(0.0)
}

/// One depression that holds water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pond {
    /// First station under water.
    pub from: Length,
    /// Last station under water.
    pub to: Length,
    /// Least offset under water.
    pub left: Length,
    /// Greatest offset under water.
    pub right: Length,
    /// Greatest depth.
    pub depth: Length,
    /// Station and offset of it.
    pub deepest: (Length, Length),
    /// Area under water.
    pub area: Area,
    /// Water held.
    pub volume: Volume,
}

/// Depth of standing water on every survey line.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterDepths {
    /// Stations by rising value.
    pub stations: Vec<Length>,
    /// Offset of each line from left to right, and the depth at each station;
    /// none where nothing was surveyed.
    pub lines: Vec<(Length, Vec<Option<Length>>)>,
}

/// Depth of water in every depression that the lines enclose, from which
/// [`ponds`] gathers its list.
///
/// # Errors
/// As [`ponds`].
pub fn water_depths(
    survey: &Survey,
    step: Length,
    longest_gap: Length,
) -> Result<WaterDepths, Error> {
    let step = setting("step of the ponds", step.si(), 0.1..=100.0, "m")?;
    let grid = Grid::of(survey, step, longest_gap)?;
    let depths = grid.depths();
    let width = grid.width();
    let line = |column: usize| {
        let cells = (column..grid.levels.len()).step_by(width);
        cells
            .map(|cell| grid.level(cell).and_then(|_| depths.get(cell).copied()).map(metres))
            .collect()
    };
    Ok(WaterDepths {
        stations: grid.stations.iter().copied().map(metres).collect(),
        lines: grid
            .offsets
            .iter()
            .enumerate()
            .map(|(column, offset)| (metres(*offset), line(column)))
            .collect(),
    })
}

/// Levels by station and line; none where nothing was surveyed.
struct Grid {
    stations: Vec<f64>,
    offsets: Vec<f64>,
    levels: Vec<Option<f64>>,
}

/// Depressions deeper than `least_depth`, by falling depth. Water runs off over
/// both ends, the outer lines and every stretch without a level, so that no
/// pond is claimed where nothing was measured.
///
/// # Errors
/// [`Error`] with fewer than three lines, for points out of range or order, or
/// for a step outside 0.1 m to 100 m.
pub fn ponds(
    survey: &Survey,
    step: Length,
    longest_gap: Length,
    least_depth: Length,
) -> Result<Vec<Pond>, Error> {
    let step = setting("step of the ponds", step.si(), 0.1..=100.0, "m")?;
    let least = setting("least depth of a pond", least_depth.si(), 1e-6..=10.0, "m")?;
    let grid = Grid::of(survey, step, longest_gap)?;
    let depths = grid.depths();
    let mut found = grid.gathered(&depths, least, step);
    found.sort_by(|a, b| {
        b.depth.si().total_cmp(&a.depth.si()).then(a.from.si().total_cmp(&b.from.si()))
    });
    Ok(found)
}

/// A cell that the flood has reached, the lowest water first.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Reached {
    water: f64,
    cell: usize,
}

impl Eq for Reached {}

impl PartialOrd for Reached {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Reached {
    fn cmp(&self, other: &Self) -> Ordering {
        self.water.total_cmp(&other.water).then(self.cell.cmp(&other.cell))
    }
}

impl Grid {
    fn of(survey: &Survey, step: f64, longest_gap: Length) -> Result<Self, Error> {
        let mut lines: Vec<_> = survey.lines.iter().collect();
        lines.sort_by(|a, b| a.offset.si().total_cmp(&b.offset.si()));
        lines.dedup_by(|a, b| a.offset == b.offset);
        if lines.len() < 3 {
            return Err(Error::TooFewLines { lines: lines.len(), needed: 3 });
        }
        let ends = lines.iter().filter_map(|line| {
            Some((line.points.first()?.station.si(), line.points.last()?.station.si()))
        });
        let (first, last) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (a, b)| {
            (low.min(a), high.max(b))
        });
        let count = ((last - first) / step + 1e-9).floor();
        let cells = (count + 1.0) * lines.len() as f64;
        setting("cells of the grid", if cells.is_finite() { cells } else { 0.0 }, 3.0..=4e7, "")?;
        let stations: Vec<f64> =
            (0..=count as usize).map(|index| first + index as f64 * step).collect();
        let mut by_line = Vec::new();
        for line in &lines {
            by_line.push(elevations_at(line, &stations, longest_gap)?);
        }
        let levels = (0..stations.len())
            .flat_map(|at| by_line.iter().map(move |line| line.get(at).copied().flatten()))
            .collect();
        let offsets = lines.iter().map(|line| line.offset.si()).collect();
        Ok(Self { stations, offsets, levels })
    }

    fn width(&self) -> usize {
        self.offsets.len()
    }

    fn level(&self, cell: usize) -> Option<f64> {
        self.levels.get(cell).copied().flatten()
    }

    /// The cells beside a cell, none beyond the grid.
    fn beside(&self, cell: usize) -> impl Iterator<Item = Option<usize>> + '_ {
        let (row, column) = ((cell / self.width()) as i64, (cell % self.width()) as i64);
        let around = [(-1, -1), (-1, 0), (-1, 1), (0, -1), (0, 1), (1, -1), (1, 0), (1, 1)];
        around.into_iter().map(move |(down, along)| {
            let row = usize::try_from(row + down).ok().filter(|row| *row < self.stations.len())?;
            let column = usize::try_from(column + along).ok().filter(|c| *c < self.width())?;
            Some(row * self.width() + column)
        })
    }

    /// Depth of standing water at each cell.
    fn depths(&self) -> Vec<f64> {
        let mut depths = vec![0.0; self.levels.len()];
        let mut seen = vec![false; self.levels.len()];
        let mut open = BinaryHeap::new();
        for cell in 0..self.levels.len() {
            let Some(level) = self.level(cell) else { continue };
            let runs_off =
                self.beside(cell).any(|next| next.is_none_or(|next| self.level(next).is_none()));
            if runs_off {
                visit(&mut seen, cell);
                open.push(Reverse(Reached { water: level, cell }));
            }
        }
        while let Some(Reverse(lowest)) = open.pop() {
            for next in self.beside(lowest.cell).flatten() {
                let Some(level) = self.level(next) else { continue };
                if !visit(&mut seen, next) {
                    continue;
                }
                let water = level.max(lowest.water);
                if let Some(depth) = depths.get_mut(next) {
                    *depth = water - level;
                }
                open.push(Reverse(Reached { water, cell: next }));
            }
        }
        depths
    }

    /// Connected cells deeper than `least` as ponds.
    fn gathered(&self, depths: &[f64], least: f64, step: f64) -> Vec<Pond> {
        let deep = |cell: usize| depths.get(cell).copied().filter(|depth| *depth > least);
        let mut seen = vec![false; depths.len()];
        let mut found = Vec::new();
        for start in 0..depths.len() {
            if deep(start).is_none() || !visit(&mut seen, start) {
                continue;
            }
            let mut cells = vec![start];
            let mut at = 0;
            while let Some(cell) = cells.get(at).copied() {
                at += 1;
                for next in self.beside(cell).flatten() {
                    if deep(next).is_some() && visit(&mut seen, next) {
                        cells.push(next);
                    }
                }
            }
            found.extend(self.pond(&cells, depths, step));
        }
        found
    }

    fn pond(&self, cells: &[usize], depths: &[f64], step: f64) -> Option<Pond> {
        let place = |cell: usize| {
            let station = self.stations.get(cell / self.width())?;
            Some((*station, *self.offsets.get(cell % self.width())?))
        };
        let depth = |cell: &usize| depths.get(*cell).copied().unwrap_or(0.0);
        let deepest = *cells.iter().max_by(|a, b| depth(a).total_cmp(&depth(b)))?;
        let places: Vec<(f64, f64)> = cells.iter().filter_map(|cell| place(*cell)).collect();
        let least =
            |pick: fn(&(f64, f64)) -> f64| places.iter().map(pick).fold(f64::INFINITY, f64::min);
        let most = |pick: fn(&(f64, f64)) -> f64| {
            places.iter().map(pick).fold(f64::NEG_INFINITY, f64::max)
        };
        let (station, offset) = place(deepest)?;
        let areas = cells.iter().map(|cell| step * self.breadth(cell % self.width()));
        let volume: f64 =
            cells.iter().zip(areas.clone()).map(|(cell, area)| depth(cell) * area).sum();
        Some(Pond {
            from: metres(least(|place| place.0)),
            to: metres(most(|place| place.0)),
            left: metres(least(|place| place.1)),
            right: metres(most(|place| place.1)),
            depth: metres(depth(&deepest)),
            deepest: (metres(station), metres(offset)),
            area: Area::from_si(areas.sum()),
            volume: Volume::from_si(volume),
        })
    }

    /// Breadth that a line stands for: half way to its neighbours.
    fn breadth(&self, column: usize) -> f64 {
        let at = |column: Option<usize>| column.and_then(|c| self.offsets.get(c)).copied();
        let Some(own) = at(Some(column)) else { return 0.0 };
        let left = at(column.checked_sub(1)).unwrap_or(own);
        let right = at(Some(column + 1)).unwrap_or(own);
        0.5 * (right - left)
    }
}

/// Marks a cell; false when it was marked before.
fn visit(seen: &mut [bool], cell: usize) -> bool {
    match seen.get_mut(cell) {
        Some(mark) if !*mark => {
            *mark = true;
            true
        }
        _ => false,
    }
}
