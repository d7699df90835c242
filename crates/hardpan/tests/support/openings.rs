//! What the figures of flights open to: each finding and figure with every step down
//! to the files, and how its text tells them.

use hardpan_assess::{Answered, Opening, Openings, formulas};
use hardpan_files::{Disk, read_flight};
use hardpan_model::{Flight, Step};
use hardpan_quantity::UnitSystem;
use hardpan_report::{OpenedStep, Produced, Report, explain, explain_figure};
use std::path::PathBuf;

const EXAMPLES: [&str; 3] = ["02-short-grass-strip", "03-missing-data", "04-dirt-strip-turboprop"];
const LABELS: [&str; 5] = ["formula", "rule", "numbers", "source", "with"];
/// Wide enough that no line is broken.
const WIDTH: usize = 100_000;

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

/// Every step of every finding and figure of a flight, as the text tells it.
pub(crate) fn every_step(flight: &Flight, units: UnitSystem) -> Vec<Told> {
    let begun = Answered::of(flight.clone());
    let found = begun.whole();
    let openings: Openings = begun.openings(&found);
    let report = Report::new(&found, units, Produced::default());
    let catalogue = formulas();
    let mut all = Vec::new();
    for (index, finding) in found.findings.iter().enumerate() {
        let opening = openings.of_finding(index).expect("a finding");
        let text = explain(&report, index, &opening, &catalogue, WIDTH).expect("a finding");
        all.extend(told(&finding.title, opening, &text));
    }
    for (index, figure) in openings.figures().iter().enumerate() {
        let opening = openings.of_figure(index).expect("a figure");
        let text = explain_figure(&report, index, &opening, &catalogue, WIDTH).expect("a figure");
        all.extend(told(&figure.name, opening, &text));
    }
    all
}

fn told(of: &str, opening: Opening, text: &str) -> Vec<Told> {
    let further = opening.further.into_iter().flat_map(|one| one.steps);
    let steps: Vec<Step> = opening.own.into_iter().chain(further).collect();
    let shown = shown(text);
    assert_eq!(steps.len(), shown.len(), "{of}: steps and their text\n{text}");
    let told = |(step, shown)| Told { of: of.to_owned(), step, shown };
    steps.into_iter().zip(shown).map(told).collect()
}

/// The steps of a text, in its order.
fn shown(text: &str) -> Vec<OpenedStep> {
    let mut steps: Vec<OpenedStep> = Vec::new();
    for line in text.lines() {
        let title = || {
            let (number, title) = line.strip_prefix("  ")?.split_once(". ")?;
            (number.parse::<usize>().ok()? == steps.len() + 1).then(|| title.to_owned())
        };
        let labelled = || {
            let line = line.strip_prefix("     ")?;
            let label = LABELS.into_iter().find(|label| line.starts_with(label))?;
            Some((label, line.get(label.len()..)?.trim_start().to_owned()))
        };
        if let Some(title) = title() {
            steps.push(OpenedStep { title, lines: Vec::new() });
        } else if let (Some(labelled), Some(step)) = (labelled(), steps.last_mut()) {
            step.lines.push(labelled);
        }
    }
    steps
}
