//! A largest mass down to the check that limits it: what the check gives at that mass,
//! and at the next that was tried.

use super::Openings;
use crate::assess::figure_basis::{FigureBasis, limit_name, of_step};
use crate::assess::judge;
use crate::assessment::{Assessment, MassAnswer, MassLimit};
use crate::context::Context;
use crate::draft::{beside, computed, constant, derived, given, plain_step};
use crate::masses::SheetMovement;
use crate::masses::mass_search::STEP_KG;
use crate::measure::{Standing, measure};
use crate::rides::Asked;
use hardpan_model::{Finding, Flight, Given, InputFrom, Origin, Source, Step, Tier, Verdict};
use hardpan_quantity::{Amount, Mass, kilograms};

const STEPS: Source = Source::new("", "steps of the search", Tier::Judgement);

/// The figures of both largest masses, each limit opened to its check.
pub(super) fn figures(
    flight: &Flight,
    standing: &Standing,
    found: &Assessment,
) -> Vec<FigureBasis> {
    let both = [
        (SheetMovement::TakeOff, &found.take_off_mass),
        (SheetMovement::Landing, &found.landing_mass),
    ];
    let mut all = Vec::new();
    for (movement, answer) in both {
        let Some(answer) = answer else { continue };
        let other = match movement {
            SheetMovement::TakeOff => &found.landing_mass,
            SheetMovement::Landing => &found.take_off_mass,
        };
        let search = Search { flight, standing, movement, other: other.as_ref() };
        all.extend(answer.limits.iter().filter_map(|limit| search.limit(limit)));
        all.extend(search.largest(answer));
    }
    all
}

/// The search of one movement, with what the other weighs beside it.
struct Search<'a> {
    flight: &'a Flight,
    standing: &'a Standing,
    movement: SheetMovement,
    other: Option<&'a MassAnswer>,
}

/// A check at a mass, down to the files.
struct Tried {
    value: Amount,
    limit: Option<Amount>,
    /// What is left to the limit.
    margin: Option<Amount>,
    /// Steps of the check, the one that gives its value among them, and all behind.
    steps: Vec<Step>,
    title: String,
    verdict: Verdict,
}

impl Search<'_> {
    fn name(&self) -> &'static str {
        name_of(self.movement)
    }

    /// The largest mass: the least of its limits, of which the first is opened.
    fn largest(&self, answer: &MassAnswer) -> Option<FigureBasis> {
        let largest = answer.largest?;
        let input = |(index, limit): (usize, &MassLimit)| {
            let (mass, name) = (limit.mass?, limit_name(self.name(), limit));
            Some(match index {
                0 => computed(&name, mass, &name),
                _ => beside(&name, mass, "a limit that is no lower, which opens by this name"),
            })
        };
        let inputs = answer.limits.iter().enumerate().filter_map(input).collect();
        let name = format!("largest {}", self.name());
        let rule = "the least of the limits, both movements beside each other";
        let step =
            plain_step(&name, rule, derived("every limit on the mass holds"), inputs, largest);
        Some(FigureBasis::new(name, largest, vec![step]))
    }

    /// One limit: the greatest mass tried at which its check holds.
    fn limit(&self, limit: &MassLimit) -> Option<FigureBasis> {
        let most = limit.mass?;
        let more: Mass = most + kilograms(STEP_KG);
        let over = self.tried(limit, more, None);
        let title = over.as_ref().filter(|one| one.verdict == Verdict::Fail);
        let title = title.map(|one| one.title.clone());
        let there = self.tried(limit, most, title.as_deref())?;
        let name = limit_name(self.name(), limit);
        let mut steps = self.masses(most);
        let first = steps.len();
        steps.extend(there.steps.into_iter().map(|step| self.on_the_mass(step, first)));
        let gives =
            |steps: &[Step], amount: Amount| steps.iter().rposition(|step| step.result == amount);
        let of = |steps: &[Step], name: &str, amount: Amount| match gives(steps, amount) {
            Some(at) => of_step(name, amount, at),
            None => beside(name, amount, "of the check"),
        };
        let mut inputs =
            vec![of_step("mass tried", most, 0), of(&steps, "value there", there.value)];
        inputs.extend(there.limit.map(|limit| of(&steps, "its limit", limit)));
        let at = Amount::from(more).told();
        inputs.push(constant("step of the search", kilograms(STEP_KG), STEPS));
        inputs.extend(over.iter().map(|over| {
            beside(&format!("value at {at}"), over.value, "the same steps at the next mass tried")
        }));
        inputs.extend(
            there.margin.map(|left| beside("left to its limit", left, "limit and value there")),
        );
        inputs.extend(over.as_ref().and_then(|over| over.margin).map(|left| {
            let over = Amount::new(left.dimension, -left.si);
            beside(&format!("over its limit at {at} by"), over, "limit and value at that mass")
        }));
        let rule = format!(
            "the greatest mass at which {} {} holds, tried afresh mass by mass in steps of 10 kg: \
             the next no longer holds",
            limit.code, there.title
        );
        steps.push(plain_step(&name, &rule, derived("search over mass"), inputs, most));
        Some(FigureBasis::new(name, most, steps))
    }

    /// The mass that is tried and that of the other movement, with what bounds them.
    fn masses(&self, most: Mass) -> Vec<Step> {
        let limits = &self.flight.aeroplane.mass;
        let range = |movement| {
            let structural = match movement {
                SheetMovement::TakeOff => limits.maximum_take_off.as_ref(),
                SheetMovement::Landing => limits.maximum_landing.as_ref(),
            };
            let named = [
                ("planned", mass_of(self.flight, movement)),
                ("structural limit", structural),
                ("lightest", limits.minimum.as_ref()),
            ];
            named.into_iter().filter_map(|(name, one)| Some(given(name, one?))).collect::<Vec<_>>()
        };
        let mut tried = range(self.movement);
        tried.push(constant("step of the search", kilograms(STEP_KG), STEPS));
        let source = derived("search over mass");
        let rule = "mass by mass from the lightest to beyond the structural limit";
        let name = format!("{} tried", self.name());
        let mut steps = vec![plain_step(&name, rule, source, tried, most)];
        let other = other_of(self.movement);
        if let Some(beside_it) = self.other_mass() {
            let rule = "its own largest mass, or as planned where it has none";
            let name = format!("{} beside it", name_of(other));
            steps.push(plain_step(&name, rule, source, range(other), beside_it));
        }
        steps
    }

    fn other_mass(&self) -> Option<Mass> {
        let planned = mass_of(self.flight, other_of(self.movement));
        self.other.and_then(|other| other.largest).or(planned.map(|planned| planned.value))
    }

    /// The check at a mass; the finding of a title, else the first that fails or belongs
    /// to the movement.
    fn tried(&self, limit: &MassLimit, mass: Mass, title: Option<&str>) -> Option<Tried> {
        let mut flight = self.flight.clone();
        set(&mut flight, self.movement, mass);
        if let Some(other) = self.other_mass() {
            set(&mut flight, other_of(self.movement), other);
        }
        let measured = measure(&flight, &self.standing.riding_afresh(), &[]);
        let context = Context::tried(&flight, &measured, Asked::Verdict);
        let findings = judge(&context);
        let index = chosen(&findings, limit, (self.name(), title))?;
        let finding = findings.get(index)?.clone();
        let found = Openings::of_findings(findings, &context);
        let opening = found.of_finding(index)?;
        let further = opening.further.into_iter().flat_map(|one| one.steps);
        Some(Tried {
            margin: finding.margin(),
            value: finding.value?,
            limit: finding.limit.map(|limit| limit.amount),
            steps: opening.own.into_iter().chain(further).collect(),
            title: finding.title,
            verdict: finding.verdict,
        })
    }

    /// A step of the check behind the steps of the masses: what stands in the flight
    /// file as a mass is the one tried.
    fn on_the_mass(&self, mut step: Step, first: usize) -> Step {
        let origins = [self.movement, other_of(self.movement)]
            .map(|movement| mass_of(self.flight, movement).map(|mass| &mass.origin));
        let of_mass = |origin: &Origin| origins.iter().position(|one| *one == Some(origin));
        for input in &mut step.inputs {
            let from = match &input.from {
                InputFrom::Step(at) => Some(at + first),
                InputFrom::File { origin, .. } => of_mass(origin).filter(|at| *at < first),
                _ => None,
            };
            input.from = from.map_or_else(|| input.from.clone(), InputFrom::Step);
        }
        step
    }
}

/// The finding that a limit stands for.
fn chosen(
    findings: &[Finding],
    limit: &MassLimit,
    (name, title): (&str, Option<&str>),
) -> Option<usize> {
    let movement = name.trim_end_matches(" mass");
    let of_code = || {
        let all = findings.iter().enumerate();
        all.filter(|(_, one)| one.code == limit.code && one.value.is_some())
    };
    let by = |meant: &dyn Fn(&Finding) -> bool| {
        of_code().find(|(_, one)| meant(one)).map(|(index, _)| index)
    };
    title
        .and_then(|title| by(&|one| one.title == title))
        .or_else(|| by(&|one| one.title == limit.title))
        .or_else(|| by(&|one| one.verdict == Verdict::Fail))
        .or_else(|| by(&|one| one.title.contains(movement)))
        .or_else(|| by(&|_| true))
}

const fn other_of(movement: SheetMovement) -> SheetMovement {
    match movement {
        SheetMovement::TakeOff => SheetMovement::Landing,
        SheetMovement::Landing => SheetMovement::TakeOff,
    }
}

const fn name_of(movement: SheetMovement) -> &'static str {
    match movement {
        SheetMovement::TakeOff => "take-off mass",
        SheetMovement::Landing => "landing mass",
    }
}

fn mass_of(flight: &Flight, movement: SheetMovement) -> Option<&Given<Mass>> {
    match movement {
        SheetMovement::TakeOff => flight.take_off.as_ref()?.mass.as_ref(),
        SheetMovement::Landing => flight.landing.as_ref()?.mass.as_ref(),
    }
}

fn set(flight: &mut Flight, movement: SheetMovement, to: Mass) {
    let planned = match movement {
        SheetMovement::TakeOff => flight.take_off.as_mut().map(|plan| &mut plan.mass),
        SheetMovement::Landing => flight.landing.as_mut().map(|plan| &mut plan.mass),
    };
    if let Some(planned) = planned {
        *planned = planned.take().map(|given| given.map(|_| to));
    }
}
