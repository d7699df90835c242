//! Flights side by side, the best first.

use super::paint::{Paint, TextStyle, table_text, verdict_text};
use crate::Candidate;
use crate::explain::opened_basis;
use crate::measure::{at_most_text, quantity_text};
use crate::wrap::{entry, hanging, plain};
use hardpan_assess::{CAUTION, MassAnswer, Ranked, figure_names};
use hardpan_model::FigureBasis;
use hardpan_quantity::UnitSystem;

const HEADER: [&str; 6] =
    ["Place", "Verdict", "Flight", "Ends", "Take-off, at most", "Landing, at most"];

/// The ranking as terminal text: a table, why each stands where it does, how the figures
/// are opened, and the caution. `candidates` are the flights as they were given.
#[must_use]
pub fn comparison(
    ranked: &[Ranked],
    candidates: &[Candidate],
    units: UnitSystem,
    style: TextStyle,
) -> String {
    let paint = Paint::new(style);
    let mut table = paint.table(&HEADER, &[0, 4, 5]);
    for (place, one) in ranked.iter().enumerate() {
        table.add_row([
            format!("{}", place + 1),
            verdict_text(one.verdict),
            format!("{}{}", plain(&one.name), apart(one, ranked)),
            plain(&one.directions),
            mass(one.take_off_mass.as_ref(), units),
            mass(one.landing_mass.as_ref(), units),
        ]);
    }
    let mut out = paint.heading("The best first: by verdict, then by the mass to spare");
    out.push_str(&paint.verdicts(&table_text(&table)));
    out.push('\n');
    out.push_str(&paint.heading("Why"));
    for (place, one) in ranked.iter().enumerate() {
        let label = format!("{}.", place + 1);
        out.push_str(&entry(&label, &plain(&one.reason.show(units)), 4, paint.width()));
    }
    out.push('\n');
    out.push_str(&paint.heading("Each figure opens by"));
    for (place, one) in ranked.iter().enumerate() {
        let Some(candidate) = candidates.get(one.given) else { continue };
        let label = format!("{}.", place + 1);
        for figure in opened_by(one) {
            out.push_str(&entry(&label, &plain(&candidate.explain(&figure)), 4, paint.width()));
        }
        for figure in &one.figures {
            out.push_str(&entry(&label, &told(figure, units), 4, paint.width()));
        }
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, paint.width(), ""));
    out
}

/// Names of the figures that open in the assessment of a flight, and of the check that
/// its reason names.
fn opened_by(one: &Ranked) -> Vec<String> {
    let masses = [("take-off", &one.take_off_mass), ("landing", &one.landing_mass)];
    let largest = masses.into_iter().filter_map(|(movement, answer)| {
        answer.as_ref()?.largest?;
        let [largest, load] = figure_names(movement);
        let load = answer.as_ref()?.load.map(|_| load);
        Some([Some(largest), load])
    });
    let reason = one.reason_of.map(str::to_owned);
    largest.flatten().chain([reason]).flatten().collect()
}

/// A figure with the numbers in place and the file and line of each, in one line.
fn told(figure: &FigureBasis, units: UnitSystem) -> String {
    let steps = opened_basis(figure, &[], units).into_iter().map(|step| {
        let inputs = step.lines.iter().filter(|(label, _)| *label == "with");
        let inputs: Vec<&str> = inputs.map(|(_, text)| text.as_str()).collect();
        format!("{} ({})", step.title, inputs.join("; "))
    });
    plain(&steps.collect::<Vec<_>>().join("; "))
}

/// What tells a flight apart: its aeroplane and its strip, each where not all have
/// the same.
fn apart(one: &Ranked, ranked: &[Ranked]) -> String {
    let differs =
        |name: fn(&Ranked) -> &String| ranked.iter().any(|other| name(other) != name(one));
    let aeroplane = differs(|one| &one.aeroplane).then_some(&one.aeroplane);
    let strip = differs(|one| &one.strip).then_some(&one.strip);
    aeroplane.into_iter().chain(strip).map(|name| format!(", {}", plain(name))).collect()
}

/// Largest mass, the load that it leaves, and the mass planned.
fn mass(answer: Option<&MassAnswer>, units: UnitSystem) -> String {
    let Some(answer) = answer else { return "not planned".to_owned() };
    let largest = answer.largest.map_or("none".to_owned(), |mass| at_most_text(mass, units));
    let load = answer.load.map(|load| format!("{} of it load", at_most_text(load, units)));
    let planned =
        answer.planned.map(|planned| format!("{} planned", quantity_text(planned, units)));
    let rest: Vec<String> = load.into_iter().chain(planned).collect();
    if rest.is_empty() { largest } else { format!("{largest} ({})", rest.join(", ")) }
}
