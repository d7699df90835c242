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
    /// Its place among the flights as the caller gave them, from 0.
    pub given: usize,
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
    /// negative when the plan is too heavy; none as long as the largest or the planned
    /// mass of a movement is not known.
    pub spare: Option<Mass>,
    /// Why it stands where it does.
    pub reason: Phrase,
}

/// Rank flights, the best first: by verdict, then by the mass that is to spare
/// over the plan. Flights that are equal keep their order.
#[must_use]
pub fn rank(flights: &[(String, Flight)]) -> Vec<Ranked> {
    let each = flights.iter().enumerate();
    let mut ranked: Vec<Ranked> =
        each.map(|(given, (name, flight))| one(given, name, flight)).collect();
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

fn one(given: usize, name: &str, flight: &Flight) -> Ranked {
    let core = Core::tried(flight, &Standing::of(flight), &[]);
    let (take_off_mass, landing_mass) = (core.take_off_mass.clone(), core.landing_mass.clone());
    let spare = spare(&[&take_off_mass, &landing_mass]);
    let (reason, spare) = (reason(&core, spare), spare.map(|(spare, _)| spare));
    let identity = crate::figures::identity(flight);
    Ranked {
        given,
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

/// The least that a movement has to spare, and which one. A movement whose largest
/// mass or planned mass is not known has nothing that could be told to be to spare, so
/// that the flight has neither.
fn spare<'a>(answers: &[&'a Option<MassAnswer>; 2]) -> Option<(Mass, &'a MassAnswer)> {
    let planned = answers.iter().filter_map(|answer| answer.as_ref());
    let spares: Option<Vec<_>> =
        planned.map(|answer| Some((answer.largest? - answer.planned?, answer))).collect();
    spares?.into_iter().min_by(|a, b| a.0.si().total_cmp(&b.0.si()))
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

#[cfg(test)]
mod tests {
    use super::{Ranked, order, spare};
    use crate::assessment::MassAnswer;
    use hardpan_model::Verdict;
    use hardpan_quantity::{Quantity as _, kilograms};

    /// A movement by its planned and its largest mass, kilograms.
    fn movement(planned: Option<f64>, largest: Option<f64>) -> Option<MassAnswer> {
        let (planned, largest) = (planned.map(kilograms), largest.map(kilograms));
        Some(MassAnswer { planned, largest, load: None, limits: Vec::new() })
    }

    fn spared(take_off: &Option<MassAnswer>, landing: &Option<MassAnswer>) -> Option<f64> {
        spare(&[take_off, landing]).map(|(spare, _)| spare.si())
    }

    #[test]
    fn the_movement_that_is_limited_most_tells_what_is_to_spare() {
        let light = movement(Some(40_000.0), Some(41_060.0));
        let heavy = movement(Some(39_000.0), Some(38_500.0));
        assert_eq!(spared(&light, &None), Some(1_060.0));
        assert_eq!(spared(&None, &light), Some(1_060.0));
        assert_eq!(spared(&light, &heavy), Some(-500.0));
        assert_eq!(spared(&heavy, &light), Some(-500.0));
        assert_eq!(spared(&None, &None), None);
    }

    #[test]
    fn a_movement_without_a_largest_mass_leaves_nothing_to_spare() {
        let good = movement(Some(40_000.0), Some(41_060.0));
        for unknown in
            [movement(Some(39_000.0), None), movement(None, Some(42_000.0)), movement(None, None)]
        {
            assert_eq!(spared(&good, &unknown), None, "{unknown:?}");
            assert_eq!(spared(&unknown, &good), None, "{unknown:?}");
        }
    }

    #[test]
    fn what_has_nothing_to_spare_stands_last_of_its_verdict() {
        let one = |name: &str, verdict, spare: Option<f64>| Ranked {
            given: 0,
            name: name.to_owned(),
            aeroplane: String::new(),
            strip: String::new(),
            directions: String::new(),
            verdict,
            take_off_mass: None,
            landing_mass: None,
            spare: spare.map(kilograms),
            reason: "made by hand".into(),
        };
        let mut ranked = [
            one("fails with spare mass", Verdict::Fail, Some(5_000.0)),
            one("not known", Verdict::Pass, None),
            one("too heavy", Verdict::Pass, Some(-500.0)),
            one("light", Verdict::Pass, Some(1_060.0)),
        ];
        ranked.sort_by(order);
        let names = ranked.map(|one| one.name);
        assert_eq!(names, ["light", "too heavy", "not known", "fails with spare mass"]);
    }
}
