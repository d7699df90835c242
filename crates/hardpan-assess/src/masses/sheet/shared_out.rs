//! The rows of a sheet shared out over the processors.

use super::cell::{Neighbour, best_cell};
use super::{FlapsTried, MassCell, Planned, on_a_day};
use crate::measure::Standing;
use hardpan_model::Flight;
use hardpan_quantity::{Speed, Temperature};
use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Sender, channel};
use std::thread::{available_parallelism, scope};

/// Most threads.
const MOST_THREADS: usize = 16;

/// Every place of a sheet, by panel, then temperature, then wind.
#[derive(Clone, Copy)]
pub(super) struct Places<'a> {
    pub(super) flight: &'a Flight,
    pub(super) panels: &'a [Planned],
    pub(super) temperatures: &'a [Temperature],
    pub(super) headwinds: &'a [Speed],
    pub(super) flaps: FlapsTried,
}

impl Places<'_> {
    fn rows(&self) -> usize {
        self.panels.len() * self.temperatures.len()
    }

    /// One row, each place looked for from the one before; none when nobody
    /// listens any more.
    fn row(
        &self,
        row: usize,
        standing: &Standing,
        found: &Sender<(usize, MassCell)>,
    ) -> Option<()> {
        let (panel, temperature) = (row / self.temperatures.len(), row % self.temperatures.len());
        let Planned { movement, alone, .. } = &self.panels[panel];
        let mut near = Neighbour::default();
        for (column, headwind) in self.headwinds.iter().enumerate() {
            let day = on_a_day(alone, *movement, self.temperatures[temperature], *headwind);
            let tried = (*movement, self.flaps);
            let cell = best_cell(&day, &standing.with_no_runs(), tried, &near);
            near = near.after(&cell);
            found.send((row * self.headwinds.len() + column, cell)).ok()?;
        }
        Some(())
    }
}

/// What stands in every place; `done` is called on the caller's thread.
pub(super) fn found_by_all(
    places: &Places<'_>,
    done: &mut impl FnMut(usize, usize),
) -> Vec<MassCell> {
    let every = places.rows() * places.headwinds.len();
    let mut cells: Vec<Option<MassCell>> = vec![None; every];
    let threads = available_parallelism().map_or(1, NonZero::get).min(MOST_THREADS);
    let next = AtomicUsize::new(0);
    let standing = Standing::of(places.flight);
    scope(|scope| {
        let (found, finds) = channel();
        for _ in 0..threads.min(places.rows()) {
            let (found, next, standing) = (found.clone(), &next, &standing);
            scope.spawn(move || {
                loop {
                    let row = next.fetch_add(1, Ordering::Relaxed);
                    if row >= places.rows() || places.row(row, standing, &found).is_none() {
                        break;
                    }
                }
            });
        }
        drop(found);
        for (count, (index, cell)) in finds.iter().enumerate() {
            cells[index] = Some(cell);
            done(count + 1, every);
        }
    });
    cells.into_iter().flatten().collect()
}
