//! One place of the sheet: the largest mass, judged afresh by every rule.

use super::{FlapsTried, MassCell, SheetMovement};
use crate::assess::judge_the_whole;
use crate::assessment::MassAnswer;
use crate::context::Context;
use crate::masses::mass_search::Grid;
use crate::masses::{BEYOND, Wanted, landing_mass, lightest, take_off_mass};
use crate::measure::{Standing, measure};
use crate::measured::Measured;
use crate::rides::Asked;
use hardpan_model::{FlapSetting, Flight, Given, Origin, Verdict};
use hardpan_quantity::{Mass, Speed};
use std::cmp::Ordering;

/// Verdict of the whole at a mass, and the first check that gives it.
type Judged = (Verdict, Option<(&'static str, String)>);

/// One flap setting with its search done and nothing judged yet.
struct Tried {
    flight: Flight,
    answer: Option<MassAnswer>,
}

impl Tried {
    fn largest(&self) -> Option<Mass> {
        self.answer.as_ref().and_then(|answer| answer.largest)
    }
}

/// The place found before, from which the next is looked for.
#[derive(Debug, Clone, Default)]
pub(super) struct Neighbour {
    mass: Option<Mass>,
    flap: Option<String>,
}

impl Neighbour {
    /// Where to look after a place was found.
    pub(super) fn after(self, cell: &MassCell) -> Self {
        match cell.mass {
            Some(mass) => Self { mass: Some(mass), flap: cell.flap.clone() },
            None => self,
        }
    }
}

/// The one movement of a flight, its largest mass looked for flap by flap.
struct Place<'a> {
    flight: &'a Flight,
    standing: &'a Standing,
    movement: SheetMovement,
    maximum: Mass,
}

/// The largest mass of the one movement of a flight, with the flap planned or
/// the one that the aeroplane file allows and that carries most; looked for from
/// a mass nearby.
pub(super) fn best_cell(
    flight: &Flight,
    standing: &Standing,
    (movement, flaps): (SheetMovement, FlapsTried),
    near: &Neighbour,
) -> MassCell {
    let maximum = match movement {
        SheetMovement::TakeOff => flight.aeroplane.mass.maximum_take_off.as_ref(),
        SheetMovement::Landing => flight.aeroplane.mass.maximum_landing.as_ref(),
    };
    let Some(maximum) = maximum.map(|given| given.value) else {
        let by = Some(("A10", "structural limit not stated".to_owned()));
        let none = MassCell { by, flap: None, decision: None, ..unproven() };
        return MassCell { flap: flap_of(flight, movement), ..none };
    };
    let place = Place { flight, standing, movement, maximum };
    if flaps == FlapsTried::AsPlanned {
        return place.planned(near);
    }
    place.of_the_leading_flap(near).unwrap_or_else(|| place.of_every_flap(near))
}

impl Place<'_> {
    fn lightest(&self) -> Mass {
        lightest(self.flight, self.maximum).min(self.maximum)
    }

    fn search(&self, flight: Flight, (near, at_least): (Option<Mass>, Option<Mass>)) -> Tried {
        let first = at(&flight, self.movement, self.lightest());
        let wanted = Wanted { limits: 1, near, at_least };
        let measured = measure(&first, self.standing, &[]);
        let answer = searched(&first, &measured, self.movement, wanted);
        Tried { flight, answer }
    }

    fn with_flap(&self, flap: &FlapSetting, from: (Option<Mass>, Option<Mass>)) -> Tried {
        self.search(with_flap(self.flight, self.movement, &flap.name), from)
    }

    fn allowed(&self) -> Vec<&FlapSetting> {
        let allowed = self.flight.aeroplane.flaps.iter().filter(|flap| {
            let own = match self.movement {
                SheetMovement::TakeOff => flap.take_off.as_ref(),
                SheetMovement::Landing => flap.landing.as_ref(),
            };
            own.is_some_and(|allowed| allowed.value)
        });
        allowed.collect()
    }

    fn planned(&self, near: &Neighbour) -> MassCell {
        let tried = self.search(self.flight.clone(), (near.mass, None));
        self.judged(&tried)
    }

    /// The flap that led nearby, and any other that carries more: such a one must
    /// hold the next step above. None where every flap must be searched, because
    /// the whole does not hold what the limits do.
    fn of_the_leading_flap(&self, near: &Neighbour) -> Option<MassCell> {
        let flaps = self.allowed();
        let leads = |flap: &&FlapSetting| Some(&flap.name.value) == near.flap.as_ref();
        let first = flaps.iter().position(leads).unwrap_or(0);
        let mut leading = self.with_flap(flaps.get(first)?, (near.mass, None));
        let mut leads_at = first;
        let grid = Grid::new(self.lightest(), self.maximum * BEYOND);
        for (index, flap) in flaps.iter().enumerate().filter(|(index, _)| *index != first) {
            let most = leading.largest()?;
            // Of two that carry alike the first of the file is taken.
            let least = if index < leads_at { most } else { grid.next_above(most) };
            let other = self.with_flap(flap, (Some(least), Some(least)));
            if other.largest().is_some() {
                (leading, leads_at) = (other, index);
            }
        }
        let found = self.judged(&leading);
        (found.mass.is_some() && found.mass == leading.largest()).then_some(found)
    }

    fn of_every_flap(&self, near: &Neighbour) -> MassCell {
        let tried = self.allowed().into_iter().map(|flap| self.with_flap(flap, (near.mass, None)));
        let mut tried: Vec<Tried> = tried.filter(|tried| tried.largest().is_some()).collect();
        tried.sort_by(|a, b| b.largest().partial_cmp(&a.largest()).unwrap_or(Ordering::Equal));
        let mut best: Option<MassCell> = None;
        for one in &tried {
            // Judging can only lower a mass, so a flap with less is beaten already.
            if best.as_ref().is_some_and(|best| best.mass >= one.largest()) {
                break;
            }
            let found = self.judged(one);
            let is_more = best.as_ref().is_none_or(|best| found.mass > best.mass);
            if found.mass.is_some() && is_more {
                best = Some(found);
            }
        }
        best.unwrap_or_else(|| self.planned(near))
    }

    /// The largest mass found, judged by every rule, with its flap and decision speed.
    fn judged(&self, tried: &Tried) -> MassCell {
        let Self { standing, movement, .. } = *self;
        let (Tried { flight, answer }, lightest) = (tried, self.lightest());
        let set_by = answer.as_ref().and_then(MassAnswer::set_by);
        let by_limit = set_by.map(|limit| (limit.code, limit.title.clone()));
        let flap = flap_of(flight, movement);
        let found = |mass, verdict, by, decision| MassCell {
            mass,
            verdict,
            by,
            flap: flap.clone(),
            decision,
        };
        let judged = |mass: Mass| judged(&at(flight, movement, mass), standing);
        let Some(largest) = tried.largest() else {
            let ((verdict, by), _) = judged(lightest);
            return match verdict < Verdict::Unproven {
                true => found(None, Verdict::Fail, by_limit, None),
                false => found(None, verdict, by, None),
            };
        };
        let ((verdict, by), decision) = judged(largest);
        if verdict < Verdict::Unproven {
            return found(Some(largest), verdict, by_limit, decision);
        }
        let ((at_lightest, by_lightest), _) = judged(lightest);
        if at_lightest >= Verdict::Unproven {
            return found(None, at_lightest, by_lightest, None);
        }
        // A rule besides the limits on mass does not hold: look for where it does.
        let holds = |mass: Mass| judged(mass).0.0 < Verdict::Unproven;
        match Grid::new(lightest, largest).coarsely(&holds) {
            Some(mass) => {
                let ((verdict, _), decision) = judged(mass);
                found(Some(mass), verdict, by, decision)
            }
            None => found(None, verdict, by, None),
        }
    }
}

const fn unproven() -> MassCell {
    MassCell { mass: None, verdict: Verdict::Unproven, by: None, flap: None, decision: None }
}

pub(super) fn with_flap(flight: &Flight, movement: SheetMovement, name: &Given<String>) -> Flight {
    let mut with = flight.clone();
    match movement {
        SheetMovement::TakeOff => {
            with.take_off.iter_mut().for_each(|plan| plan.flap = Some(name.clone()));
        }
        SheetMovement::Landing => {
            with.landing.iter_mut().for_each(|plan| plan.flap = Some(name.clone()));
        }
    }
    with
}

fn flap_of(flight: &Flight, movement: SheetMovement) -> Option<String> {
    let flap = match movement {
        SheetMovement::TakeOff => flight.take_off.as_ref().and_then(|plan| plan.flap.as_ref()),
        SheetMovement::Landing => flight.landing.as_ref().and_then(|plan| plan.flap.as_ref()),
    };
    flap.map(|name| name.value.clone())
}

fn searched(
    flight: &Flight,
    measured: &Measured,
    movement: SheetMovement,
    wanted: Wanted,
) -> Option<MassAnswer> {
    match movement {
        SheetMovement::TakeOff => take_off_mass(flight, measured, wanted),
        SheetMovement::Landing => landing_mass(flight, measured, wanted),
    }
}

/// The verdict of the whole, and the decision speed of the take-off.
fn judged(flight: &Flight, standing: &Standing) -> (Judged, Option<Speed>) {
    let measured = measure(flight, &standing.riding_afresh(), &[]);
    let context = Context::tried(flight, &measured, Asked::Verdict);
    let decision = measured.take_off.as_ref().and_then(|run| run.as_ref().ok());
    let decision = decision.and_then(|run| run.decision.as_ref()).map(|decision| decision.speed);
    (judge_the_whole(&context), decision)
}

/// The flight at a mass.
pub(super) fn at(flight: &Flight, movement: SheetMovement, mass: Mass) -> Flight {
    let mut changed = flight.clone();
    let planned = match movement {
        SheetMovement::TakeOff => changed.take_off.as_mut().map(|plan| &mut plan.mass),
        SheetMovement::Landing => changed.landing.as_mut().map(|plan| &mut plan.mass),
    };
    if let Some(planned) = planned {
        let origin = planned.as_ref().map_or_else(
            || Origin {
                file: "the sheet of masses".into(),
                line: 0,
                column: 0,
                key: "mass".into(),
            },
            |given| given.origin.clone(),
        );
        *planned = Some(Given { value: mass, origin, source: None });
    }
    changed
}
