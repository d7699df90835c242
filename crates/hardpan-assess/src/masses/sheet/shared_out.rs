//! The places of a sheet shared out over the processors.

use super::cell::best_cell;
use super::{FlapsTried, MassCell, Planned, on_a_day};
use crate::measure::Standing;
use hardpan_model::Flight;
use hardpan_quantity::{Speed, Temperature};
use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::channel;
use std::thread::{available_parallelism, scope};

/// Places from which another thread, which measures the strip once more, pays.
const WORTH_A_THREAD: usize = 6;
/// Most threads: each holds the strip as measured.
const MOST_THREADS: usize = 16;

/// Every place of a sheet, by panel, then temperature, then wind.
#[derive(Clone, Copy)]
pub(super) struct Places<'a> {
    pub(super) flight: &'a Flight,
    pub(super) panels: &'a [Planned],
    pub(super) temperatures: &'a [Temperature],
    pub(super) headwinds: &'a [Speed],
}

impl Places<'_> {
    fn count(&self) -> usize {
        self.panels.len() * self.temperatures.len() * self.headwinds.len()
    }

    fn found(&self, index: usize, standing: &Standing, flaps: FlapsTried) -> MassCell {
        let (row, column) = (index / self.headwinds.len(), index % self.headwinds.len());
        let (panel, row) = (row / self.temperatures.len(), row % self.temperatures.len());
        let Planned { movement, alone, .. } = &self.panels[panel];
        let day = on_a_day(alone, *movement, self.temperatures[row], self.headwinds[column]);
        best_cell(&day, &standing.with_no_runs(), *movement, flaps)
    }
}

/// What stands in every place; `done` is called on the caller's thread.
pub(super) fn found_by_all(
    places: &Places<'_>,
    flaps: FlapsTried,
    done: &mut impl FnMut(usize, usize),
) -> Vec<MassCell> {
    let every = places.count();
    let mut cells: Vec<Option<MassCell>> = vec![None; every];
    let threads = available_parallelism().map_or(1, NonZero::get).min(MOST_THREADS);
    let threads = threads.min(every.div_ceil(WORTH_A_THREAD));
    let next = AtomicUsize::new(0);
    scope(|scope| {
        let (found, finds) = channel();
        for _ in 0..threads {
            let (found, next) = (found.clone(), &next);
            scope.spawn(move || {
                let standing = Standing::of(places.flight);
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    if index >= every {
                        break;
                    }
                    if found.send((index, places.found(index, &standing, flaps))).is_err() {
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
