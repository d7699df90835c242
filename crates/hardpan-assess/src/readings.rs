//! What stands at one station of the strip, each reading opened to what it came from.

mod ground;
mod level;
mod lying;
mod run;

use crate::assess::Core;
use crate::assess::opening::{Opening, Openings};
use crate::assessment::Assessment;
use crate::context::Context;
use crate::measure::Standing;
use crate::rides::Asked;
use hardpan_model::{FigureBasis, Flight};
use hardpan_quantity::{Amount, Length};

/// One reading along the strip.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Short name that is its own; that of a run ends with the number of the run.
    pub id: String,
    /// What is read, in words.
    pub name: String,
    /// Its figures; several where several things lie at the station.
    pub figures: Vec<FigureBasis>,
    /// What each of them opens to.
    pub openings: Vec<Opening>,
    /// Why there is no figure; none where there is one.
    pub none: Option<String>,
}

impl Reading {
    fn new(id: &str, name: &str, figures: Vec<FigureBasis>, none: &str) -> Self {
        let none = figures.is_empty().then(|| none.to_owned());
        Self { id: id.to_owned(), name: name.to_owned(), figures, openings: Vec::new(), none }
    }
}

/// Every reading at a station, in the order of the bands of the page: level, bearing ratio
/// available and needed, water, loose material, loose stones, what is marked, and the
/// figures of each run. `found` is the assessment of the flight.
#[must_use]
pub fn readings_at(flight: &Flight, found: &Assessment, station: Length) -> Vec<Reading> {
    let standing = Standing::of(flight);
    let core = Core::tried(flight, &standing, &[]);
    let mut all = vec![level::reading(flight, &found.sketch, station)];
    all.extend(ground::readings(flight, &core.measured, station));
    all.extend(lying::readings(flight, found, station));
    for (index, run) in found.sketch.runs.iter().enumerate() {
        all.extend(run::readings(found, index, run, station));
    }
    let context = Context::tried(flight, &core.measured, Asked::Whole);
    open(&mut all, Openings::of(found, &context, &standing), &context);
    all
}

/// Open each figure down to the files.
fn open(all: &mut [Reading], openings: Openings, context: &Context<'_>) {
    let figures: Vec<FigureBasis> = all.iter().flat_map(|one| one.figures.clone()).collect();
    let first = openings.figures().len();
    let openings = openings.with(&figures, context);
    let mut opened = (first..).map_while(|index| openings.of_figure(index));
    for reading in all {
        reading.openings = opened.by_ref().take(reading.figures.len()).collect();
    }
}

/// A place along the strip, in the words of sentences.
fn told(station: Length) -> String {
    Amount::from(station).told()
}
