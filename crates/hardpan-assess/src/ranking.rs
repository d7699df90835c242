//! Several flights side by side: ends of a strip, aeroplanes, strips.

use crate::assess::Core;
use crate::assessment::MassAnswer;
use crate::draft::{computed, derived, given, plain_step};
use crate::measure::Standing;
use crate::phrase::Phrase;
use hardpan_model::{
    BasisInput, Direction, FigureBasis, Finding, Flight, InputFrom, Step, Verdict, Weight,
};
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
    /// Code of the check that the reason names; none where it names none.
    pub reason_of: Option<&'static str>,
    /// What is told here alone, opened: the masses planned, and what is to spare. The
    /// largest masses open in the assessment of the flight, under [`figure_names`].
    pub figures: Vec<FigureBasis>,
}

/// Names under which the assessment of a flight opens the largest mass of a movement and
/// the load that it leaves.
#[must_use]
pub fn figure_names(movement: &str) -> [String; 2] {
    [format!("largest {movement} mass"), format!("load at the largest {movement} mass")]
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

/// The values of a flight that a choice of its ends states again, by the keys of the files.
#[must_use]
pub fn ends_stated(flight: &Flight, choice: &Flight) -> Vec<(String, String)> {
    let landing = |of: &Flight| Some(of.landing.as_ref()?.direction.as_ref()?.value);
    let take_off = |of: &Flight| Some(of.take_off.as_ref()?.direction.as_ref()?.value);
    let both = [
        ("landing.direction", landing(flight), landing(choice)),
        ("take_off.direction", take_off(flight), take_off(choice)),
    ];
    let stated = |(key, planned, chosen): (&str, Option<Direction>, Option<Direction>)| {
        let chosen = chosen.filter(|_| planned != chosen)?;
        let (end, word) = match chosen {
            Direction::Up => (&flight.strip.low_end, "up"),
            Direction::Down => (&flight.strip.high_end, "down"),
        };
        let word = end.designator.as_ref().map_or(word, |given| given.value.as_str());
        Some((key.to_owned(), word.to_owned()))
    };
    both.into_iter().filter_map(stated).collect()
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
    let (reason, reason_of) = reason(&core, spare);
    let spare = spare.map(|(spare, _)| spare);
    let figures = figures(flight, &[&take_off_mass, &landing_mass], spare);
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
        reason_of,
        figures,
    }
}

/// The planned masses, and what is to spare over them, opened.
fn figures(
    flight: &Flight,
    [take_off, landing]: &[&Option<MassAnswer>; 2],
    spare: Option<Mass>,
) -> Vec<FigureBasis> {
    let masses = [
        ("take-off", flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref()), take_off),
        ("landing", flight.landing.as_ref().and_then(|plan| plan.mass.as_ref()), landing),
    ];
    let mut all = Vec::new();
    let mut steps: Vec<Step> = Vec::new();
    for (movement, planned, answer) in masses {
        let Some(planned) = planned else { continue };
        let name = format!("planned {movement} mass");
        let stated = vec![given("mass", planned)];
        let step = plain_step(&name, "as stated", derived("plan"), stated, planned.value);
        all.push(FigureBasis::new(name, planned.value, vec![step]));
        let Some(largest) = answer.as_ref().and_then(|answer| answer.largest) else { continue };
        let [name, _] = figure_names(movement);
        let inputs = vec![
            computed(&name, largest, &name).under("L"),
            given("planned mass", planned).under("P"),
        ];
        let over = derived("mass over the plan");
        let name = format!("to spare, {movement}");
        steps.push(plain_step(&name, "L − P", over, inputs, largest - planned.value));
    }
    if let Some(spare) = spare {
        let inputs = steps
            .iter()
            .enumerate()
            .map(|(at, step)| BasisInput::new(&step.computes, step.result, InputFrom::Step(at)));
        let inputs = inputs.collect();
        let least = derived("the movement that is limited most");
        let name = "mass to spare over the plan";
        steps.push(plain_step(name, "the least of the movements", least, inputs, spare));
        all.push(FigureBasis::new(name, spare, steps));
    }
    all
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

/// Why a flight stands where it does, and the code of the check that is named.
fn reason(core: &Core, spare: Option<(Mass, &MassAnswer)>) -> (Phrase, Option<&'static str>) {
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
                let said = format!("{} {}: {}{more}", first.code, first.title, first.because);
                (said.into(), Some(first.code))
            }
            None => ("nothing was judged".into(), None),
        };
    }
    match spare {
        Some((spare, answer)) => match answer.set_by() {
            Some(limit) => {
                let said = format!("{{}} to spare, then {} {} limits", limit.code, limit.title);
                (Phrase::new(said, [spare.into()]), Some(limit.code))
            }
            None => (Phrase::new("{} to spare", [spare.into()]), None),
        },
        None => ("no largest mass was found".into(), None),
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
        Some(MassAnswer { largest, ..MassAnswer::none(planned) })
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
            reason_of: None,
            figures: Vec::new(),
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
