//! Every figure opens down to measurements: no way down ends in words alone.

mod support;

use hardpan_assess::{Answered, CardLineKind, Opening, Openings, formulas};
use hardpan_model::{BasisInput, Flight, InputFrom};
use hardpan_quantity::{Amount, UnitSystem, WITH_UNITS, tell, units_of};
use hardpan_report::{Produced, Report, card_texts, explain, explain_figure, stretch_text};
use std::collections::BTreeSet;
use support::openings::examples;
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
                InputFrom::Entries(entries) => !entries.is_empty(),
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
    flights.extend(examples());
    let mut loose: Vec<String> = flights.iter().flat_map(loose_ends).collect();
    loose.sort();
    loose.dedup();
    assert!(loose.is_empty(), "{} ways down end in words:\n{}", loose.len(), loose.join("\n"));
}

/// A number with a unit, as the card tells it: a stretch counts as one.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Told(String);

/// Units of what is told on a card.
fn units() -> Vec<&'static str> {
    let mut units: Vec<&str> = WITH_UNITS
        .iter()
        .flat_map(|dimension| units_of(*dimension))
        .map(|unit| unit.symbol)
        .filter(|symbol| !symbol.is_empty())
        .collect();
    units.sort_by_key(|symbol| std::cmp::Reverse(symbol.len()));
    units
}

/// Every number with a unit behind it in a text.
fn numbers(text: &str, units: &[&str]) -> Vec<Told> {
    let is_of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '\u{a0}' | '−' | '–');
    let text = text.replace('\u{200b}', "");
    let mut found = Vec::new();
    let mut rest = text.as_str();
    let mut before: Option<char> = None;
    while let Some(first) = rest.chars().next() {
        let starts =
            first.is_ascii_digit() && !before.is_some_and(|c| c.is_alphanumeric() || c == ':');
        if !starts {
            before = Some(first);
            rest = &rest[first.len_utf8()..];
            continue;
        }
        let end = rest.find(|c| !is_of_number(c)).unwrap_or(rest.len());
        let (number, after) = rest.split_at(end);
        let gap = number.ends_with('\u{a0}') || after.starts_with(' ');
        let unit_text = after.strip_prefix(' ').unwrap_or(after);
        let is_unit = |unit: &&&str| {
            unit_text
                .strip_prefix(**unit)
                .is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() || c == '/'))
        };
        let unit = units.iter().find(is_unit).filter(|unit| gap || **unit == "°");
        if let Some(unit) = unit {
            found.push(Told(format!("{} {unit}", number.trim_end_matches('\u{a0}'))));
        }
        before = number.chars().next_back();
        rest = after;
    }
    found
}

/// What opens of a report, by the numbers that it is told with: values, limits, margins
/// and places of findings, names and figures, and every step and input behind them.
fn opens(report: &Report, openings: &Openings, units: &[&str]) -> BTreeSet<Told> {
    let mut all = BTreeSet::new();
    let catalogue = formulas();
    let mut add = |text: &str| all.extend(numbers(text, units));
    for (index, row) in report.findings.iter().enumerate() {
        let facts = [&row.value, &row.limit, &row.margin, &row.place_text];
        facts.into_iter().flatten().for_each(|text| add(text.trim_start_matches('+')));
        let opening = openings.of_finding(index).expect("a finding");
        let head = Opening { own: Vec::new(), further: Vec::new(), ..opening.clone() };
        let text = |opening| explain(report, index, opening, &catalogue, 100_000);
        let bare = text(&head).expect("a finding");
        let whole = text(&opening).expect("a finding");
        whole.lines().filter(|line| !bare.contains(line)).for_each(&mut add);
    }
    for index in 0..openings.figures().len() {
        let opening = openings.of_figure(index).expect("a figure");
        let text = explain_figure(report, index, &opening, &catalogue, 100_000);
        add(&text.expect("a figure"));
    }
    all
}

/// Whether a number opens; a range does where both of its ends do.
fn is_open(opens: &BTreeSet<Told>, told: &Told) -> bool {
    let ends = || {
        let (from, to) = told.0.split_once('–')?;
        let (_, unit) = to.rsplit_once(' ')?;
        Some([format!("{from} {unit}"), to.to_owned()])
    };
    opens.contains(told)
        || ends().is_some_and(|ends| ends.into_iter().all(|end| opens.contains(&Told(end))))
}

/// What stands on the card and is no figure of the assessment: places along the strip
/// and its length, which are names of places and a word of the strip file; what the
/// operator wrote of handling, word for word; and what is to be measured or stated, which
/// the finding that lacks it opens to.
fn justified(flight: &Flight, report: &Report, units: &[&str]) -> BTreeSet<Told> {
    let found = report.assessment();
    let system = report.units;
    let mut all = BTreeSet::new();
    let mut add = |text: &str| all.extend(numbers(text, units));
    let places = found.findings.iter().filter_map(|one| one.place).map(|one| (one.from, one.to));
    let marks = found.sketch.marks.iter().map(|mark| (mark.from, mark.to));
    let length = flight.strip.length.as_ref().map(|one| (one.value, one.value));
    for (from, to) in places.chain(marks).chain(length) {
        add(&stretch_text(from, to, system));
        let (from, to) = (Amount::from(from), Amount::from(to));
        [from.told_to(to), from.told(), to.told()].iter().for_each(|one| add(&tell(one, system)));
    }
    let handling = found.card_lines.iter().filter(|line| line.kind == CardLineKind::Handling);
    handling.for_each(|line| add(&line.text));
    let needs = report.findings.iter().flat_map(|row| &row.needs);
    needs.for_each(|(what, how)| add(&format!("{what}: {how}")));
    all
}

/// Every number with a unit on the card opens.
#[test]
fn every_number_on_the_card_opens() {
    let wet = change("day.toml", "surface_state = \"dry\"", "surface_state = \"wet\"");
    let heavy = change("flight.toml", "mass = \"40.4 t\"", "mass = \"44 t\"");
    let mut flights: Vec<Flight> =
        [vec![], vec![wet], vec![heavy]].iter().map(|one| flight(one)).collect();
    flights.extend(examples());
    let units = units();
    let mut missing = BTreeSet::new();
    for flight in &flights {
        let begun = Answered::of(flight.clone());
        let found = begun.whole();
        let openings = begun.openings(&found);
        let reports = [UnitSystem::Metric, UnitSystem::Imperial]
            .map(|system| Report::new(&found, system, Produced::default()));
        let opens: BTreeSet<Told> = reports
            .iter()
            .flat_map(|report| {
                let justified = justified(flight, report, &units);
                opens(report, &openings, &units).into_iter().chain(justified)
            })
            .collect();
        for text in reports.iter().flat_map(card_texts) {
            let shut = numbers(&text, &units).into_iter().filter(|told| !is_open(&opens, told));
            missing.extend(shut.map(|told| format!("{} in: {text}", told.0)));
        }
    }
    let list: Vec<String> = missing.into_iter().collect();
    assert!(list.is_empty(), "{} numbers do not open:\n{}", list.len(), list.join("\n"));
}
