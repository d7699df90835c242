//! What the figures of flights open to: each finding and figure with every step down
//! to the files, and how it is told.

use hardpan_assess::{Answered, Opening, formulas};
use hardpan_files::{Disk, read_flight};
use hardpan_model::{Flight, Step};
use hardpan_quantity::UnitSystem;
use hardpan_report::{OpenedStep, Produced, Report, opened_whole};
use std::path::PathBuf;

const EXAMPLES: [&str; 3] = ["02-short-grass-strip", "03-missing-data", "04-dirt-strip-turboprop"];

/// The flights of the examples.
pub(crate) fn examples() -> Vec<Flight> {
    let read = |folder: &&str| {
        let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(folder);
        let path = path.join("flight.toml");
        let reading = read_flight(&Disk::default(), path.to_str().expect("a path"));
        reading.value.expect("a flight")
    };
    EXAMPLES.iter().map(read).collect()
}

/// A step that a figure opens to.
pub(crate) struct Told {
    /// The figure.
    pub(crate) of: String,
    pub(crate) step: Step,
    pub(crate) shown: OpenedStep,
}

/// Every step of every finding and figure of a flight, as it is told.
pub(crate) fn every_step(flight: &Flight, units: UnitSystem) -> Vec<Told> {
    let begun = Answered::of(flight.clone());
    let found = begun.whole();
    let openings = begun.openings(&found);
    let report = Report::new(&found, units, Produced::default());
    let findings = found.findings.iter().enumerate().map(|(index, finding)| {
        (finding.title.clone(), openings.of_finding(index).expect("a finding"))
    });
    let figures =
        openings.figures().iter().enumerate().map(|(index, figure)| {
            (figure.name.clone(), openings.of_figure(index).expect("a figure"))
        });
    findings.chain(figures).flat_map(|(of, opening)| told(&of, opening, &report)).collect()
}

fn told(of: &str, opening: Opening, report: &Report) -> Vec<Told> {
    let whole = opened_whole(report, &opening, &formulas());
    let further = opening.further.into_iter().flat_map(|one| one.steps);
    let steps = opening.own.into_iter().chain(further);
    let shown = whole.own.into_iter().chain(whole.further.into_iter().flat_map(|one| one.1));
    let told = |(step, shown)| Told { of: of.to_owned(), step, shown };
    steps.zip(shown).map(told).collect()
}
