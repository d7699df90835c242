//! Largest mass of each movement, and the limits that set it.

mod answer;
mod approved_checks;
mod beside;
mod both;
mod chart_checks;
mod check;
mod first_limit;
mod ground_checks;
pub(crate) mod mass_search;
mod pressures;
mod ride_check;
mod same_strength;
pub(crate) mod sheet;
mod wind_checks;

pub(crate) use beside::Beside;
pub(crate) use both::both_masses;
pub(crate) use check::Check;
pub use sheet::{
    FlapsTried, MassCell, MassPanel, MassSheet, SheetAxes, SheetMovement, flight_of_place,
    mass_sheet,
};

use crate::assessment::MassAnswer;
use crate::context::bounds_today;
use crate::ground::LegKind;
use crate::ground::strength_number::classification;
use crate::masses::answer::answer;
use crate::masses::approved_checks::approved_checks;
use crate::masses::chart_checks::chart_checks;
use crate::masses::check::left;
use crate::masses::ground_checks::ground_checks;
use crate::masses::pressures::{least_and_most, pressure_at};
pub(crate) use crate::masses::ride_check::Again;
use crate::masses::same_strength::{names, once_each};
use crate::masses::wind_checks::held_check;
pub(crate) use crate::masses::wind_checks::{control_checks, held_by};
use crate::measured::{Known, Measured, Unavailable};
use crate::movements::brake_heat::{cooling_time, held_for, taxi_energy};
use crate::movements::obstacles::flown_over;
use crate::movements::{LandingCase, TakeOffCase, declared, displaced};
use crate::runs::Runs;
use hardpan_model::{Bound, DeclaredDistances, Direction, FieldRule, Flight, Given};
use hardpan_quantity::{Energy, Length, Mass, Quantity, Ratio, Speed, kilograms, ratio};
use hardpan_run::{DecisionRange, TakeOffRun};

/// How far above the structural limit other limits are looked for.
pub(crate) const BEYOND: f64 = 1.2;
/// Lightest mass searched, as a share of the maximum, when none is stated.
const LIGHTEST: f64 = 0.4;

/// How many limits are to be named, a mass that may lie near the answer, and one
/// below which the answer is of no use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wanted {
    pub(crate) limits: usize,
    pub(crate) near: Option<Mass>,
    pub(crate) at_least: Option<Mass>,
}

impl Wanted {
    /// The first so many limits.
    pub(crate) const fn first(limits: usize) -> Self {
        Self { limits, near: None, at_least: None }
    }
}

/// Largest take-off mass with the first limits on it; none when no take-off is
/// planned. The ride and the wind that is held from the side are not among them.
pub(crate) fn take_off_mass(
    flight: &Flight,
    measured: &Measured,
    wanted: Wanted,
) -> Option<MassAnswer> {
    of_movement(flight, measured, (SheetMovement::TakeOff, wanted), None)
}

/// Largest landing mass, likewise.
pub(crate) fn landing_mass(
    flight: &Flight,
    measured: &Measured,
    wanted: Wanted,
) -> Option<MassAnswer> {
    of_movement(flight, measured, (SheetMovement::Landing, wanted), None)
}

/// The same of either, with the wind that is held from the side.
fn largest_alone(
    flight: &Flight,
    measured: &Measured,
    of: (SheetMovement, Wanted),
) -> Option<MassAnswer> {
    of_movement(flight, measured, of, held_check(flight, measured, of.0))
}

fn of_movement<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    (movement, wanted): (SheetMovement, Wanted),
    more: Option<Check<'a>>,
) -> Option<MassAnswer> {
    let alone = Beside::default();
    let (mass, checks) = match movement {
        SheetMovement::TakeOff => {
            (&flight.take_off.as_ref()?.mass, take_off_limits(flight, measured, &alone)?)
        }
        SheetMovement::Landing => {
            (&flight.landing.as_ref()?.mass, landing_limits(flight, measured, &alone)?)
        }
    };
    let approved = approved_checks(flight, measured, movement);
    let checks: Vec<Check<'_>> = checks.into_iter().chain(approved).chain(more).collect();
    let planned = mass.as_ref().map(|mass| mass.value);
    let found = answer(flight, (planned, wanted), structural(flight, movement), checks);
    Some(with_load(flight, movement, found))
}

/// Every limit on the take-off mass that mass moves, beside the landing; none when no
/// take-off is planned.
pub(crate) fn take_off_limits<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    beside: &Beside,
) -> Option<Vec<Check<'a>>> {
    let plan = flight.take_off.as_ref()?;
    let case = measured.take_off_case.as_ref()?;
    let runs = measured.take_off_runs.as_deref()?;
    let centre = plan.centre_of_gravity.as_ref();
    let mut checks = weight_checks(flight, measured, SheetMovement::TakeOff, centre);
    checks.extend(number_check(flight, measured, (centre, *beside)));
    checks.extend(ground_checks(flight, measured, (centre, *beside), runs));
    let direction = plan.direction.as_ref().map(|given| given.value);
    checks.extend(take_off_checks(flight, case, direction, runs));
    checks.extend(chart_checks(flight, measured, true));
    checks.extend(obstacle_check(flight, measured, runs));
    checks.extend(hot_brakes_check(flight, measured, (runs, beside.brake_energy)));
    Some(checks)
}

/// The limits on a movement that the other has a part in.
pub(crate) fn joint_limits<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    movement: SheetMovement,
    beside: &Beside,
) -> Option<Vec<Check<'a>>> {
    let beside = *beside;
    let mut checks = Vec::new();
    match movement {
        SheetMovement::TakeOff => {
            let centre = flight.take_off.as_ref()?.centre_of_gravity.as_ref();
            let runs = measured.take_off_runs.as_deref()?;
            checks.extend(number_check(flight, measured, (centre, beside)));
            checks.extend(ground_checks(flight, measured, (centre, beside), runs));
            checks.extend(hot_brakes_check(flight, measured, (runs, beside.brake_energy)));
        }
        SheetMovement::Landing => {
            let centre = flight.landing.as_ref()?.centre_of_gravity.as_ref();
            let runs = measured.landing_runs.as_deref()?;
            checks.extend(number_check(flight, measured, (centre, beside)));
            checks.extend(ground_checks(flight, measured, (centre, beside), runs));
        }
    }
    Some(checks)
}

/// Every limit on the landing mass, likewise.
pub(crate) fn landing_limits<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    beside: &Beside,
) -> Option<Vec<Check<'a>>> {
    let plan = flight.landing.as_ref()?;
    let runs = measured.landing_runs.as_deref()?;
    let centre = plan.centre_of_gravity.as_ref();
    let mut checks = weight_checks(flight, measured, SheetMovement::Landing, centre);
    checks.extend(number_check(flight, measured, (centre, *beside)));
    checks.extend(ground_checks(flight, measured, (centre, *beside), runs));
    let direction = plan.direction.as_ref().map(|given| given.value);
    checks.extend(landing_checks(flight, direction, runs));
    checks.extend(approach_checks(
        flight,
        measured,
        direction.map(|way| declared(flight, way)),
        runs,
    ));
    checks.extend(chart_checks(flight, measured, false));
    Some(checks)
}

/// Structural and approved limits, and the tyre.
fn weight_checks<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    movement: SheetMovement,
    centre: Option<&'a Given<Ratio>>,
) -> Vec<Check<'a>> {
    let quantity = match movement {
        SheetMovement::TakeOff => "take-off mass",
        SheetMovement::Landing => "landing mass",
    };
    let structural = structural(flight, movement);
    let mut checks = vec![Check::at_most("A10", "structural limit", move |mass| {
        let most = structural.ok_or_else(|| missing("the structural limit"))?;
        Ok(Some((mass, most)))
    })];
    checks.extend(zero_fuel_check(flight, movement));
    for limit in &flight.aeroplane.limits {
        if limit.quantity.value == quantity
            && limit.bound == Bound::AtMost
            && bounds_today(flight, limit)
            && let Some(most) = limit.value.value.get::<Mass>()
        {
            let both = move |mass| Ok(Some((mass, most)));
            checks.push(Check::at_most("L10", "approved mass limit", both));
        }
    }
    for (title, kind) in
        [("main tyre pressure", LegKind::Main), ("nose tyre pressure", LegKind::Nose)]
    {
        checks.push(Check::at_most("T10", title, move |mass| {
            least_and_most(flight, measured, kind, mass, centre)
        }));
    }
    checks
}

/// The largest mass that the structure allows.
fn structural(flight: &Flight, movement: SheetMovement) -> Option<Mass> {
    let masses = &flight.aeroplane.mass;
    let given = match movement {
        SheetMovement::TakeOff => masses.maximum_take_off.as_ref(),
        SheetMovement::Landing => masses.maximum_landing.as_ref(),
    };
    given.map(|given| given.value)
}

/// The strength number that somebody published; none where nobody did.
fn number_check<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    (centre, beside): (Option<&'a Given<Ratio>>, Beside),
) -> Option<Check<'a>> {
    let number = flight.strip.strength.number.as_ref()?;
    Some(Check::at_most("G70", "published strength number", move |mass| {
        let set = pressure_at(flight, measured, (LegKind::Main, beside), mass, centre)?;
        let Some(pressure) = set else { return Ok(None) };
        let centre = centre.ok_or_else(|| missing("the centre of gravity"))?.value;
        let found = classification(flight, measured, mass, centre, pressure)?;
        Ok(Some((ratio(found.number), ratio(number.value))))
    }))
}

/// The structure without the fuel planned; none where it has no such limit.
fn zero_fuel_check(flight: &Flight, movement: SheetMovement) -> Option<Check<'_>> {
    let most = flight.aeroplane.mass.maximum_zero_fuel.as_ref()?.value;
    let fuel = fuel_aboard(flight, movement);
    Some(Check::at_most("A15", "mass without fuel", move |mass| {
        Ok(Some((mass - fuel.ok_or_else(|| missing("the fuel aboard"))?, most)))
    }))
}

/// Fuel aboard as planned; none where it is not stated.
fn fuel_aboard(flight: &Flight, movement: SheetMovement) -> Option<Mass> {
    let fuel = match movement {
        SheetMovement::TakeOff => &flight.options.take_off_fuel,
        SheetMovement::Landing => &flight.options.landing_fuel,
    };
    fuel.as_ref().map(|given| given.value)
}

/// The answer with the load that its mass leaves over operating mass and fuel, and with
/// each strength of the ground among its limits once.
fn with_load(flight: &Flight, movement: SheetMovement, answer: MassAnswer) -> MassAnswer {
    let operating = flight.aeroplane.mass.operating.as_ref().map(|given| given.value);
    let load =
        answer.largest.zip(operating).zip(fuel_aboard(flight, movement)).map(
            |((largest, operating), fuel)| kilograms((largest - operating - fuel).si().max(0.0)),
        );
    MassAnswer { load, limits: once_each(answer.limits, names), ..answer }
}

fn take_off_checks<'a>(
    flight: &'a Flight,
    case: &'a Known<TakeOffCase>,
    direction: Option<Direction>,
    runs: &'a Runs<TakeOffCase>,
) -> Vec<Check<'a>> {
    let declared = direction.map(|direction| declared(flight, direction));
    let line_up = case.as_ref().map_or(Length::default(), TakeOffCase::line_up);
    let available = move |given: Option<&Given<Length>>| {
        given.map(|given| given.value - line_up).ok_or_else(|| missing("the declared distance"))
    };
    let distance = declared.and_then(|declared| declared.take_off_distance.as_ref());
    let run_length = declared.and_then(|declared| declared.take_off_run.as_ref());
    let stop = declared.and_then(|declared| declared.accelerate_stop.as_ref());
    vec![
        Check::at_most("F10", "take-off distance", move |mass| {
            let most = available(distance)?;
            runs.at(mass, |run| Some((run.distance_needed?, most)))
        }),
        Check::at_most("F10", "take-off run", move |mass| {
            let most = available(run_length)?;
            runs.at(mass, |run| Some((run.run_needed?, most)))
        }),
        Check::new("F20", "accelerate-stop distance", move |mass| {
            let available = available(stop)?;
            runs.at(mass, |run| match &run.decision {
                None => true,
                Some(decision) => {
                    run.accelerate_stop_needed.is_some_and(|needed| needed <= available)
                        && decision.range != DecisionRange::Empty
                }
            })
        })
        .with_margin(move |mass| {
            let most = available(stop).ok()?;
            runs.at(mass, |run| {
                let decision = run.decision.as_ref()?;
                let is_open = decision.range != DecisionRange::Empty;
                is_open.then(|| left(run.accelerate_stop_needed?.si(), most.si()))?
            })
            .ok()?
        }),
        Check::new("F40", "climb with one engine out", move |mass| {
            let last = case.as_ref().map_err(Clone::clone)?.final_climb(mass).transpose()?;
            if last.is_none() && is_accounted(flight) {
                return Err(missing("the flap of the final segment"));
            }
            let last = last.flatten().is_none_or(|climb| climb.gradient >= climb.required);
            runs.at(mass, |run| {
                run.decision.is_none()
                    || last
                        && run.climb.engine_out.is_none_or(|climb| {
                            climb.gear_down >= climb.gear_down_required
                                && climb.gear_up >= climb.gear_up_required
                        })
            })
        })
        .with_margin(move |mass| {
            let last = case.as_ref().ok()?.final_climb(mass).and_then(Result::ok).flatten();
            let last = last.map(|climb| climb.gradient - climb.required);
            let first = runs.at(mass, |run| {
                run.decision.as_ref()?;
                let climb = run.climb.engine_out?;
                let down = climb.gear_down - climb.gear_down_required;
                Some(down.min(climb.gear_up - climb.gear_up_required))
            });
            first.ok()?.into_iter().chain(last).map(Quantity::si).reduce(f64::min)
        }),
        Check::at_most("F60", "brake energy", move |mass| {
            let most = brake_limit(flight)?;
            let taxi = taxi_energy(flight, mass).unwrap_or_default();
            runs.at(mass, |run| Some((run.brake_energy + taxi, most)))
        }),
        Check::at_most("T30", "tyre speed", move |mass| {
            let most = tyre_speed(flight)?;
            runs.at(mass, |run| Some((run.lift_off_ground_speed, most)))
        }),
    ]
}

/// Whether the take-off accounts for an engine failure.
fn is_accounted(flight: &Flight) -> bool {
    let rule = flight.take_off.as_ref().and_then(|plan| plan.rule.as_ref());
    rule.is_some_and(|rule| rule.value == FieldRule::LargeTakeOff)
}

/// The net path over the obstacles, where the rule asks for it.
fn obstacle_check<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    runs: &'a Runs<TakeOffCase>,
) -> Option<Check<'a>> {
    let rule = flight.take_off.as_ref()?.rule.as_ref()?;
    (rule.value == FieldRule::LargeTakeOff).then(|| {
        Check::new("F45", "obstacles under the net path", move |mass| {
            runs.at(mass, |run| flown_over(flight, measured, run).map(|flown| flown.clears()))?
        })
        .with_margin(move |mass| {
            let clear = |run: &TakeOffRun| flown_over(flight, measured, run).ok()?.to_spare();
            Some(runs.at(mass, clear).ok()??.si())
        })
    })
}

/// The brakes with the heat of the landing before the take-off: the planned one, or that
/// of another mass.
fn hot_brakes_check<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    (runs, of_landing): (&'a Runs<TakeOffCase>, Option<Energy>),
) -> Option<Check<'a>> {
    let planned = measured.landing.as_ref()?.as_ref().ok()?.brake_energy;
    let of_landing = of_landing.unwrap_or(planned);
    let limit = flight.aeroplane.brakes.energy_limit.as_ref()?.value;
    let both = move |mass| {
        let taxi = taxi_energy(flight, mass).unwrap_or_default();
        runs.at(mass, |run| of_landing + run.brake_energy + taxi)
    };
    let check = Check::new("F65", "brakes between landing and take-off", move |mass| {
        if both(mass)? <= limit {
            return Ok(true);
        }
        let (wait, _) = cooling_time(flight, of_landing)?;
        Ok(flight.turn_round.as_ref().is_none_or(|planned| held_for(wait) <= planned.value))
    });
    // Hot brakes that have cooled in time hold as cool ones do: the better counts.
    Some(check.with_margin(move |mass| {
        let hot = left(both(mass).ok()?.si(), limit.si())?;
        let planned = flight.turn_round.as_ref()?.value;
        match cooling_time(flight, of_landing) {
            Ok((wait, _)) => Some(left(held_for(wait).si(), planned.si())?.max(hot)),
            Err(_) => Some(hot).filter(|hot| *hot >= 0.0),
        }
    }))
}

fn landing_checks<'a>(
    flight: &'a Flight,
    direction: Option<Direction>,
    runs: &'a Runs<LandingCase>,
) -> Vec<Check<'a>> {
    let declared = direction.map(|direction| declared(flight, direction));
    let available = declared.and_then(|declared| declared.landing_distance.as_ref());
    let displaced = displaced(flight);
    vec![
        Check::at_most("F50", "landing distance", move |mass| {
            let most = available.ok_or_else(|| missing("the declared distance"))?.value - displaced;
            runs.at(mass, |run| Some((run.distance_needed, most)))
        }),
        Check::at_most("F60", "brake energy", move |mass| {
            let most = brake_limit(flight)?;
            runs.at(mass, |run| Some((run.brake_energy, most)))
        }),
        Check::at_most("T30", "tyre speed", move |mass| {
            let most = tyre_speed(flight)?;
            runs.at(mass, |run| Some((run.touchdown_ground_speed, most)))
        }),
    ]
}

/// What a landing that is long, or not made, asks for.
fn approach_checks<'a>(
    flight: &Flight,
    measured: &'a Measured,
    declared: Option<&'a DeclaredDistances>,
    runs: &'a Runs<LandingCase>,
) -> Vec<Check<'a>> {
    let available = declared.and_then(|declared| declared.landing_distance.as_ref());
    let displaced = displaced(flight);
    vec![
        Check::new("F52", "long touchdown", move |mass| {
            let available = available.ok_or_else(|| missing("the declared distance"))?;
            let available = available.value - displaced;
            runs.at(mass, |run| run.late_stop.is_none_or(|stop| stop <= available))
        })
        .with_margin(move |mass| {
            let most = available?.value - displaced;
            runs.at(mass, |run| left(run.late_stop?.si(), most.si())).ok()?
        }),
        Check::new("F57", "climb of a go-around", move |mass| {
            let case = measured.landing_case.as_ref();
            let case =
                case.ok_or_else(|| missing("the landing"))?.as_ref().map_err(Clone::clone)?;
            case.go_around(mass).map(|climb| climb.climbs())
        })
        .with_margin(move |mass| {
            let climb = measured.landing_case.as_ref()?.as_ref().ok()?.go_around(mass).ok()?;
            let climbs = climb.engine_out.into_iter().chain([climb.all_engines]);
            climbs.map(|one| (one.gradient - one.required).si()).reduce(f64::min)
        }),
    ]
}

fn brake_limit(flight: &Flight) -> Known<Energy> {
    let limit = flight.aeroplane.brakes.energy_limit.as_ref();
    limit.map(|given| given.value).ok_or_else(|| missing("the energy limit of the brakes"))
}

fn tyre_speed(flight: &Flight) -> Known<Speed> {
    let gear = &flight.aeroplane.gear;
    let rated = [&gear.main.tyre.rated_speed, &gear.nose.tyre.rated_speed];
    match rated {
        [Some(main), Some(nose)] => Ok(main.value.min(nose.value)),
        _ => Err(missing("the rated speed of the tyres")),
    }
}

/// A limit that cannot be searched because something is missing; the finding
/// of the rule lists what.
pub(crate) fn missing(what: &str) -> Unavailable {
    let need = hardpan_model::Need { what: what.to_owned(), how: "see the finding".to_owned() };
    Unavailable::missing(what, vec![need])
}

/// Lightest mass that is searched.
pub(crate) fn lightest(flight: &Flight, maximum: Mass) -> Mass {
    flight.aeroplane.mass.minimum.as_ref().map_or(maximum * LIGHTEST, |given| given.value)
}
