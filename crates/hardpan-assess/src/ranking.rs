//! Several flights side by side: ends of a strip, aeroplanes, strips.

use crate::assess::Core;
use crate::assessment::MassAnswer;
use crate::measure::Standing;
use crate::phrase::Phrase;
use hardpan_model::{Direction, Finding, Flight, Verdict, Weight};
use hardpan_quantity::{Mass, Quantity, counted};
use std::cmp::Ordering;

/// One of the flights that are compared.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranked {
    /// Its name, as the caller gave it.
    pub name: String,
    /// Name of the aeroplane.
    pub aeroplane: String,
    /// Name of the strip.
    pub strip: String,
    /// Designators of the ends in use, such as `landing 07, take-off 25`.
    pub directions: String,
    /// Verdict of the whole.
    pub verdict: Verdict,
    /// Largest take-off mass, if a take-off is planned.
    pub take_off_mass: Option<MassAnswer>,
    /// Largest landing mass, if a landing is planned.
    pub landing_mass: Option<MassAnswer>,
    /// How much more than planned the movement that is limited most may weigh;
    /// negative when the plan is too heavy.
    pub spare: Option<Mass>,
    /// Why it stands where it does.
    pub reason: Phrase,
}

/// Rank flights, the best first: by verdict, then by the mass that is to spare
/// over the plan. Flights that are equal keep their order.
#[must_use]
pub fn rank(flights: &[(String, Flight)]) -> Vec<Ranked> {
    let mut ranked: Vec<Ranked> = flights.iter().map(|(name, flight)| one(name, flight)).collect();
    ranked.sort_by(order);
    ranked
}

/// The flight with its movements over every choice of ends, as it stands first.
#[must_use]
pub fn both_ends(flight: &Flight) -> Vec<Flight> {
    let turned = |landing: bool, take_off: bool| {
        let mut changed = flight.clone();
        if let (true, Some(plan)) = (landing, changed.landing.as_mut()) {
            plan.direction = plan.direction.take().map(|given| given.map(other));
        }
        if let (true, Some(plan)) = (take_off, changed.take_off.as_mut()) {
            plan.direction = plan.direction.take().map(|given| given.map(other));
        }
        changed
    };
    let mut choices: Vec<Flight> = Vec::new();
    for (landing, take_off) in [(false, false), (true, true), (true, false), (false, true)] {
        let choice = turned(landing, take_off);
        if !choices.contains(&choice) {
            choices.push(choice);
        }
    }
    choices
}

fn other(direction: Direction) -> Direction {
    match direction {
        Direction::Up => Direction::Down,
        Direction::Down => Direction::Up,
    }
}

fn one(name: &str, flight: &Flight) -> Ranked {
    let core = Core::tried(flight, &Standing::of(flight), &[]);
    let (take_off_mass, landing_mass) = (core.take_off_mass.clone(), core.landing_mass.clone());
    let spare = spare(&[&take_off_mass, &landing_mass]);
    let (reason, spare) = (reason(&core, spare), spare.map(|(spare, _)| spare));
    let identity = crate::figures::identity(flight);
    Ranked {
        name: name.to_owned(),
        aeroplane: identity.aeroplane,
        strip: identity.strip,
        directions: identity.directions,
        verdict: core.verdict,
        take_off_mass,
        landing_mass,
        spare,
        reason,
    }
}

/// The least that a movement has to spare, and which one.
fn spare<'a>(answers: &[&'a Option<MassAnswer>; 2]) -> Option<(Mass, &'a MassAnswer)> {
    let spares = answers.iter().filter_map(|answer| {
        let answer = answer.as_ref()?;
        Some((answer.largest? - answer.planned?, answer))
    });
    spares.min_by(|a, b| a.0.si().total_cmp(&b.0.si()))
}

fn reason(core: &Core, spare: Option<(Mass, &MassAnswer)>) -> Phrase {
    if core.verdict >= Verdict::Unproven {
        let gives = |finding: &&Finding| {
            finding.weight == Weight::Safety && finding.verdict == core.verdict
        };
        let bad: Vec<&Finding> = core.findings.iter().filter(gives).collect();
        let more = match bad.len() {
            0 | 1 => String::new(),
            count => format!("; {}", counted(count - 1, "more check", "more checks")),
        };
        return match bad.first() {
            Some(first) => {
                format!("{} {}: {}{more}", first.code, first.title, first.because).into()
            }
            None => "nothing was judged".into(),
        };
    }
    match spare {
        Some((spare, answer)) => match answer.set_by() {
            Some(limit) => Phrase::new(
                format!("{{}} to spare, then {} {} limits", limit.code, limit.title),
                [spare.into()],
            ),
            None => Phrase::new("{} to spare", [spare.into()]),
        },
        None => "no largest mass was found".into(),
    }
}

fn order(a: &Ranked, b: &Ranked) -> Ordering {
    let spare = |one: &Ranked| one.spare.map_or(f64::NEG_INFINITY, |spare| spare.si());
    a.verdict.cmp(&b.verdict).then_with(|| spare(b).total_cmp(&spare(a)))
}
