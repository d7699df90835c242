//! Cells without a level: small holes are filled from their neighbours, larger
//! ones stay unsurveyed.

use super::settings::Layout;
use hardpan_model::Hole as Unsurveyed;
use hardpan_quantity::metres;
use spade::{DelaunayTriangulation, HasPosition, Point2, Triangulation};

/// Cells around a hole whose levels carry the surface across it.
const RING: usize = 2;
/// How many of the largest holes are told.
const TOLD: usize = 5;

/// Cells of one hole, joined by their sides.
#[derive(Debug, Clone)]
pub(crate) struct Hole {
    cells: Vec<usize>,
    along: (usize, usize),
    across: (usize, usize),
}

/// The holes of a grid in the order of their first cells.
pub(crate) fn holes(layout: &Layout, levels: &[Option<f64>]) -> Vec<Hole> {
    let mut seen: Vec<bool> = levels.iter().map(Option::is_some).collect();
    let mut found = Vec::new();
    for start in 0..levels.len() {
        if seen.get(start).copied().unwrap_or(true) {
            continue;
        }
        found.push(spread(layout, &mut seen, start));
    }
    found
}

fn spread(layout: &Layout, seen: &mut [bool], start: usize) -> Hole {
    let (a, b) = (start / layout.offsets, start % layout.offsets);
    let mut hole = Hole { cells: Vec::new(), along: (a, a), across: (b, b) };
    let mut ahead = vec![start];
    while let Some(index) = ahead.pop() {
        match seen.get_mut(index) {
            Some(seen) if !*seen => *seen = true,
            _ => continue,
        }
        hole.cells.push(index);
        let (a, b) = (index / layout.offsets, index % layout.offsets);
        hole.along = (hole.along.0.min(a), hole.along.1.max(a));
        hole.across = (hole.across.0.min(b), hole.across.1.max(b));
        if a > 0 {
            ahead.push(index - layout.offsets);
        }
        if a + 1 < layout.stations {
            ahead.push(index + layout.offsets);
        }
        if b > 0 {
            ahead.push(index - 1);
        }
        if b + 1 < layout.offsets {
            ahead.push(index + 1);
        }
    }
    hole
}

impl Hole {
    /// Small, and with levels on all sides: nothing is carried beyond them.
    pub(crate) fn may_be_filled(&self, layout: &Layout, largest_m: f64) -> bool {
        let long = (self.along.1 - self.along.0 + 1) as f64 * layout.length_m;
        let wide = (self.across.1 - self.across.0 + 1) as f64 * layout.width_m;
        let within = self.along.0 > 0
            && self.along.1 + 1 < layout.stations
            && self.across.0 > 0
            && self.across.1 + 1 < layout.offsets;
        within && long.max(wide) <= largest_m + 1e-9
    }

    fn area(&self, layout: &Layout) -> Unsurveyed {
        let (long, wide) = (0.5 * layout.length_m, 0.5 * layout.width_m);
        Unsurveyed {
            from: metres((layout.station_m(self.along.0) - long).max(0.0)),
            to: metres(layout.station_m(self.along.1) + long),
            left: metres(layout.offset_m(self.across.0) - wide),
            right: metres(layout.offset_m(self.across.1) + wide),
        }
    }

    /// Levels of its cells from the measured cells around it; none for a cell
    /// that those do not enclose.
    pub(crate) fn filled(
        &self,
        layout: &Layout,
        levels: &[Option<f64>],
    ) -> Vec<(usize, Option<f64>)> {
        let mut around = DelaunayTriangulation::<Knot>::new();
        for a in self.along.0.saturating_sub(RING)..=(self.along.1 + RING).min(layout.stations - 1)
        {
            for b in
                self.across.0.saturating_sub(RING)..=(self.across.1 + RING).min(layout.offsets - 1)
            {
                if let Some(Some(level)) = levels.get(a * layout.offsets + b) {
                    let place = Point2::new(layout.station_m(a), layout.offset_m(b));
                    // Places are finite and bounded, so that none is refused.
                    let _ = around.insert(Knot { place, level: *level });
                }
            }
        }
        let surface = around.natural_neighbor();
        self.cells
            .iter()
            .map(|&index| {
                let (a, b) = (index / layout.offsets, index % layout.offsets);
                let place = Point2::new(layout.station_m(a), layout.offset_m(b));
                let level = surface.interpolate(|knot| knot.data().level, place);
                (index, level.filter(|level| level.is_finite()))
            })
            .collect()
    }
}

/// The largest holes, by falling count of cells.
pub(crate) fn largest(layout: &Layout, mut holes: Vec<Hole>) -> Vec<Unsurveyed> {
    holes.sort_by_key(|hole| std::cmp::Reverse(hole.cells.len()));
    holes.iter().take(TOLD).map(|hole| hole.area(layout)).collect()
}

#[derive(Debug, Clone, Copy)]
struct Knot {
    place: Point2<f64>,
    level: f64,
}

impl HasPosition for Knot {
    type Scalar = f64;

    fn position(&self) -> Point2<f64> {
        self.place
    }
}
