//! Figures of a run at a station, down to the run itself.

use super::{Reading, told};
use crate::assessment::Assessment;
use crate::draft::{derived, plain_step};
use crate::run_basis::MOTION;
use hardpan_model::{BasisInput, FigureBasis, InputFrom, RunPoint, RunTrace, Step};
use hardpan_quantity::{Amount, Length, Quantity};

/// A figure of a point of a run.
type Figure = fn(&RunPoint) -> Amount;

/// Figures by the beginning of their names.
const FIGURES: [(&str, &str, Figure); 5] = [
    ("speed", "ground speed", |point| point.ground_speed.into()),
    ("thrust", "thrust", |point| point.thrust.into()),
    ("friction", "drag of the wheels over their load", |point| {
        Amount::coefficient(point.friction.si())
    }),
    ("load", "load on a main leg", |point| point.main_leg_load.into()),
    ("height", "height", |point| point.height.into()),
];

/// The rules whose distance is that of a run.
const RULES: [(&str, &str); 3] =
    [("landing", "F50"), ("take-off", "F10"), ("rejected take-off", "F20")];

pub(super) fn readings(
    found: &Assessment,
    index: usize,
    (name, run): &(String, RunTrace),
    station: Length,
) -> Vec<Reading> {
    let piece = run.points.windows(2).find_map(|pair| {
        let [from, to] = pair else { return None };
        let share = (station - from.station).si() / (to.station - from.station).si();
        (0.0..=1.0).contains(&share).then_some((from, to, share))
    });
    let run_step = run_step(found, name);
    let reading = |(id, words, figure): (&str, &str, Figure)| {
        let name = format!("{name}, {words}");
        let opened = piece.map(|(from, to, share)| {
            let (a, b) = (figure(from), figure(to));
            let amount = Amount::new(a.dimension, a.si + share * (b.si - a.si));
            let name = format!("{name} at {}", told(station));
            let first = run_step.len();
            let of = |words: String, amount: Amount, symbol: &'static str| {
                let from = match first.checked_sub(1) {
                    Some(last) => InputFrom::Step(last),
                    None => InputFrom::Computed("the run, integrated by station".to_owned()),
                };
                BasisInput::new(&words, amount, from).under(symbol)
            };
            let at = |point: &RunPoint| {
                let time = Amount::from(point.time).told();
                format!("{words} after {time}, at {}", told(point.station))
            };
            let asked = InputFrom::Computed("the station asked for".to_owned());
            let inputs = vec![
                of(at(from), a, "a"),
                of(at(to), b, "b"),
                of("station of the step before".to_owned(), from.station.into(), "A"),
                of("station of the step after".to_owned(), to.station.into(), "B"),
                BasisInput::new("station", station, asked).under("s"),
            ];
            let rule = "a + (s − A) × (b − a) / (B − A)";
            let between = derived("straight between two steps of the run");
            let last = plain_step(&name, rule, between, inputs, amount);
            FigureBasis::new(name, amount, run_step.iter().cloned().chain([last]).collect())
        });
        let figures = opened.into_iter().collect();
        Reading::new(&format!("{id}-{index}"), &name, figures, "the run does not go there")
    };
    FIGURES.into_iter().map(reading).collect()
}

/// The step of the run by which a distance was judged: everything that went into it.
fn run_step(found: &Assessment, name: &str) -> Vec<Step> {
    let rule = RULES.iter().find(|(run, _)| *run == name).map(|(_, code)| *code);
    let of_rule = found.findings.iter().filter(|finding| Some(finding.code) == rule);
    let mut steps = of_rule.flat_map(|finding| &finding.basis.steps);
    let step = steps.find(|step| step.source == MOTION).cloned();
    step.map(|step| alone(step, rule.unwrap_or_default())).into_iter().collect()
}

/// A step of a rule without the steps before it, to which it may refer.
fn alone(mut step: Step, rule: &str) -> Step {
    for input in &mut step.inputs {
        if matches!(input.from, InputFrom::Step(_)) {
            input.from = InputFrom::Computed(rule.to_owned());
        }
    }
    step
}
