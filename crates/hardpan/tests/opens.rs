//! Every figure opens down to measurements: no way down ends in words alone.

mod support;

use hardpan_assess::{Answered, Opening};
use hardpan_files::{Disk, read_flight};
use hardpan_model::{BasisInput, Flight, InputFrom};
use std::path::PathBuf;
use support::{change, flight};

/// Steps that rest on themselves.
fn circles(opening: &Opening) -> bool {
    let steps: Vec<_> =
        opening.own.iter().chain(opening.further.iter().flat_map(|one| &one.steps)).collect();
    let mut done = vec![false; steps.len()];
    for _ in 0..=steps.len() {
        for (at, step) in steps.iter().enumerate() {
            let known = step.inputs.iter().all(|input| match input.from {
                InputFrom::Step(other) => done[other],
                _ => true,
            });
            done[at] = known;
        }
    }
    done.iter().any(|done| !done)
}

fn is_from_outside(input: &BasisInput) -> bool {
    !matches!(input.from, InputFrom::Beside(_))
}

/// Ways down that end in nothing that can be looked up.
fn ends(name: &str, opening: &Opening) -> Vec<String> {
    let mut loose: Vec<String> = opening.loose_ends.clone();
    if opening.own.is_empty() {
        loose.push(format!("{name}: opens to nothing"));
    }
    if circles(opening) {
        loose.push(format!("{name}: rests on itself"));
    }
    let steps = opening.own.iter().chain(opening.further.iter().flat_map(|one| &one.steps));
    for step in steps {
        if step.inputs.is_empty() && step.source.key.is_empty() {
            loose.push(format!("{name}, {}: nothing goes in", step.computes));
        }
        for input in &step.inputs {
            let ends = match &input.from {
                InputFrom::File { origin, .. } => origin.line > 0,
                InputFrom::Constant(source) => !source.to_string().starts_with(source.tier.label()),
                InputFrom::Step(_) | InputFrom::Computed(_) => true,
                InputFrom::Beside(_) => step.inputs.iter().any(is_from_outside),
            };
            if !ends {
                loose.push(format!("{name}, {}: {} {:?}", step.computes, input.name, input.from));
            }
        }
    }
    loose
}

fn loose_ends(flight: &Flight) -> Vec<String> {
    let begun = Answered::of(flight.clone());
    let found = begun.whole();
    let openings = begun.openings(&found);
    let mut loose = Vec::new();
    for (index, finding) in found.findings.iter().enumerate() {
        let opening = openings.of_finding(index).expect("a finding");
        if finding.value.is_some() || !opening.own.is_empty() {
            loose.extend(ends(&format!("{} {}", finding.code, finding.title), &opening));
        }
    }
    for (index, figure) in openings.figures().iter().enumerate() {
        loose.extend(ends(&figure.name, &openings.of_figure(index).expect("a figure")));
    }
    loose.sort();
    loose.dedup();
    loose
}

#[test]
fn no_way_down_ends_in_words_alone() {
    let wet = change("day.toml", "surface_state = \"dry\"", "surface_state = \"wet\"");
    let heavy = change("flight.toml", "mass = \"40.4 t\"", "mass = \"44 t\"");
    let set = change("flight.toml", "passes = 60", "main_tyre_pressure = \"102 psi\"\npasses = 60");
    let mut flights: Vec<Flight> =
        [vec![], vec![wet], vec![heavy], vec![set]].iter().map(|one| flight(one)).collect();
    for folder in ["02-short-grass-strip", "03-missing-data", "04-dirt-strip-turboprop"] {
        let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(folder);
        let path = path.join("flight.toml");
        let reading = read_flight(&Disk::default(), path.to_str().expect("a path"));
        flights.push(reading.value.expect("a flight"));
    }
    let mut loose: Vec<String> = flights.iter().flat_map(loose_ends).collect();
    loose.sort();
    loose.dedup();
    assert!(loose.is_empty(), "{} ways down end in words:\n{}", loose.len(), loose.join("\n"));
}
