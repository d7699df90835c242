//! The planned landing and take-off, ready to be run at any mass.

pub(crate) mod brake_heat;
pub(crate) mod charts;
pub(crate) mod climb_basis;
pub(crate) mod decision_speeds;
pub(crate) mod obstacles;
pub(crate) mod reverse_credit;
pub(crate) mod thrust_setting;

pub use decision_speeds::DecisionPicture;
pub use obstacles::{ClimbObstacle, ClimbPicture};

use crate::ground::rut_drag::RutDrag;
use crate::measured::{Known, Unavailable};
use crate::movements::brake_heat::BrakesBefore;
use hardpan_model::{
    Condition, DeclaredDistances, Direction, FlapSetting, Flight, Given, Landing, Need, StripEnd,
    TakeOff, ThrustRow,
};
use hardpan_quantity::{Length, Mass, Ratio, Speed, knots, metres};
use hardpan_run::{
    Air, AtDecision, Available, ClimbAtSpeed, CrosswindHeld, FinalClimbModel, GoAround,
    GoAroundModel, Ground, LandingPlan, LandingRun, RunModel, Situation, TakeOffPlan, TakeOffRun,
    ThrustSchedule, WindComponents, crosswind_held, decision_sweep, landing, take_off,
};
use std::sync::Arc;

/// What every movement needs.
#[derive(Debug, Clone)]
struct Movement {
    model: RunModel,
    ground: Ground,
    centre_of_gravity: Ratio,
    air: Air,
    wind: WindComponents,
}

/// A take-off at any mass.
#[derive(Debug, Clone)]
pub(crate) struct TakeOffCase {
    movement: Movement,
    plan: TakeOffPlan,
    /// The ground as it is dry, where a lower screen or reverse thrust counts on
    /// the wet strip.
    dry: Option<Ground>,
    ruts: Option<Arc<RutDrag>>,
    brakes: BrakesBefore,
    /// The final segment; none where its flap is not stated.
    final_climb: Option<Known<FinalClimbModel>>,
}

/// A landing at any mass.
#[derive(Debug, Clone)]
pub(crate) struct LandingCase {
    movement: Movement,
    plan: LandingPlan,
    go_around: Known<GoAroundModel>,
}

/// What is known of the day before a movement is prepared.
pub(crate) struct Surroundings<'a> {
    pub(crate) air: &'a Known<Air>,
    pub(crate) condition: &'a Known<Condition>,
    /// The same strip dry, where the flight asks for a lower screen as it is wet.
    pub(crate) dry: Option<&'a Known<Condition>>,
}

/// Standard deviations by which a late touchdown lies beyond the mean; one in
/// twenty lies farther. Source: normal distribution, 95 %.
pub(crate) const LATE: f64 = 1.645;

/// Collects everything that is missing.
#[derive(Default)]
struct Gather {
    needs: Vec<Need>,
}

impl Gather {
    fn take<T: Clone>(&mut self, given: Option<&Given<T>>, what: &str, how: &str) -> Option<T> {
        if given.is_none() {
            self.needs.push(Need { what: what.to_owned(), how: how.to_owned() });
        }
        given.map(|given| given.value.clone())
    }

    fn known<T: Clone>(&mut self, known: &Known<T>) -> Option<T> {
        match known {
            Ok(value) => Some(value.clone()),
            Err(why) => {
                self.needs.extend(why.needs.iter().cloned());
                None
            }
        }
    }

    fn prepared<T>(&mut self, made: Result<T, Vec<Need>>) -> Option<T> {
        made.map_err(|needs| self.needs.extend(needs)).ok()
    }
}

/// The end of the strip from which a direction starts.
pub(crate) fn start_end(flight: &Flight, direction: Direction) -> &StripEnd {
    match direction {
        Direction::Up => &flight.strip.low_end,
        Direction::Down => &flight.strip.high_end,
    }
}

/// Declared distances of a direction.
pub(crate) fn declared(flight: &Flight, direction: Direction) -> &DeclaredDistances {
    &start_end(flight, direction).declared
}

/// How far the threshold of the landing is laid up the strip.
pub(crate) fn displaced(flight: &Flight) -> Length {
    let laid = flight.landing.as_ref().and_then(|plan| plan.displaced_threshold.as_ref());
    laid.map_or(metres(0.0), |given| given.value)
}

fn flap<'a>(
    gather: &mut Gather,
    flight: &'a Flight,
    name: Option<&Given<String>>,
    key: &str,
) -> Option<&'a FlapSetting> {
    let name = gather.take(name, key, "name of a flap setting of the aeroplane file")?;
    let found = flight.aeroplane.flaps.iter().find(|flap| flap.name.value == name);
    if found.is_none() {
        gather.needs.push(Need {
            what: format!("aeroplane: flap \"{name}\""),
            how: "the flight names a setting that the aeroplane file does not describe".to_owned(),
        });
    }
    found
}

/// The thrust that the flight plans to set; full where it says nothing.
fn schedule(gather: &mut Gather, planned: &TakeOff) -> Option<ThrustSchedule> {
    let row = |row: &ThrustRow| (row.ground_speed.value, row.share.value);
    let rows: Vec<_> = planned.thrust.iter().map(row).collect();
    let refused = |error: hardpan_run::Error| Need {
        what: "flight: [[take_off.thrust]]".to_owned(),
        how: error.to_string(),
    };
    gather.prepared(ThrustSchedule::new(&rows).map_err(|error| vec![refused(error)]))
}

/// The wind that counts on the roll, where the day says how it falls towards the
/// ground: at the height of the wing.
fn near_ground(
    gather: &mut Gather,
    flight: &Flight,
    wind: WindComponents,
) -> Option<WindComponents> {
    let Some(exponent) = &flight.day.wind_gradient else { return Some(wind) };
    let height = flight.aeroplane.wing.height.as_ref();
    let height = gather.take(height, "aeroplane: wing.height", "the wind that the wing meets")?;
    let found = wind.near_ground(exponent.value, height).map_err(|error| {
        vec![Need { what: "day: wind_gradient".to_owned(), how: error.to_string() }]
    });
    gather.prepared(found)
}

impl Movement {
    fn gather(
        gather: &mut Gather,
        flight: &Flight,
        around: &Surroundings<'_>,
        direction: Option<Direction>,
        centre: Option<&Given<Ratio>>,
        (key, model): (&str, Option<RunModel>),
    ) -> Option<Self> {
        let centre = gather.take(centre, &format!("{key}.centre_of_gravity"), "on the mean chord");
        let length = gather.take(flight.strip.length.as_ref(), "strip: length", "running surface");
        let air = gather.known(around.air);
        let condition = gather.known(around.condition);
        let direction = direction?;
        let wind = gather.prepared(WindComponents::at(&flight.strip, &flight.day, direction));
        let wind = wind.and_then(|wind| near_ground(gather, flight, wind));
        let ground = Ground::new(&condition?, direction, length?).map_err(|error| {
            let how = error.to_string();
            gather.needs.push(Need { what: "strip: survey".to_owned(), how });
        });
        Some(Self {
            model: model?,
            ground: ground.ok()?,
            centre_of_gravity: centre?,
            air: air?,
            wind: wind?,
        })
    }

    fn displaced_by(mut self, distance: Length) -> Self {
        self.ground = self.ground.displaced_by(distance);
        self
    }

    fn crosswind_held(&self, mass: Mass, what: &str) -> Known<Option<CrosswindHeld>> {
        crosswind_held(&self.model, &self.situation(mass))
            .map_err(|error| Unavailable::refused(what, &error))
    }

    fn situation(&self, mass: Mass) -> Situation<'_> {
        Situation {
            mass,
            centre_of_gravity: self.centre_of_gravity,
            air: self.air,
            wind: self.wind,
            ground: &self.ground,
        }
    }
}

impl TakeOffCase {
    /// The take-off of a flight; none when none is planned.
    pub(crate) fn of(
        flight: &Flight,
        around: &Surroundings<'_>,
        ruts: Option<&Arc<RutDrag>>,
    ) -> Option<Known<Self>> {
        let planned = flight.take_off.as_ref()?;
        let mut gather = Gather::default();
        let key = "flight: take_off";
        let direction = planned.direction.as_ref();
        let direction =
            gather.take(direction, &format!("{key}.direction"), "designator of the runway");
        let flap = flap(&mut gather, flight, planned.flap.as_ref(), &format!("{key}.flap"));
        let model = flap
            .map(|flap| RunModel::for_take_off(&flight.aeroplane, flap))
            .and_then(|made| gather.prepared(made))
            .zip(schedule(&mut gather, planned))
            .map(|(model, schedule)| model.with_schedule(schedule))
            .and_then(|model| thrust_setting::applied(&mut gather, flight, around, model))
            .map(|model| match &planned.level_off {
                Some(height) => model.with_level_off(height.value),
                None => model,
            })
            .map(|model| reverse_credit::in_take_off(flight).applied(model));
        let rule = gather.take(
            planned.rule.as_ref(),
            &format!("{key}.rule"),
            "rule that the operator works under, such as \"large-take-off\"",
        );
        let centre = planned.centre_of_gravity.as_ref();
        let movement =
            Movement::gather(&mut gather, flight, around, direction, centre, (key, model));
        let available = direction.map(|direction| declared(flight, direction)).map(|declared| {
            let value = |given: &Option<Given<Length>>| given.as_ref().map(|given| given.value);
            Available {
                take_off_distance: value(&declared.take_off_distance),
                accelerate_stop: value(&declared.accelerate_stop),
            }
        });
        let line_up = planned.line_up.as_ref().map_or(metres(0.0), |given| given.value);
        let wet_screen = around.dry.and(planned.wet_screen.as_ref()).map(|given| given.value);
        let dry = around.dry.and_then(|dry| {
            let ground =
                Ground::new(&gather.known(dry)?, direction?, flight.strip.length.as_ref()?.value);
            gather.prepared(ground.map_err(|error| {
                vec![Need { what: "strip: survey".to_owned(), how: error.to_string() }]
            }))
        });
        let case = movement.zip(rule).zip(available).map(|((movement, rule), available)| Self {
            movement,
            plan: TakeOffPlan {
                rule,
                line_up,
                available,
                wet_screen,
                decision_speed: planned.decision_speed.as_ref().map(|given| given.value),
                brake_allowance: None,
                traces: false,
            },
            dry,
            ruts: ruts.cloned(),
            brakes: BrakesBefore::of(flight),
            final_climb: final_climb_model(flight, planned),
        });
        Some(finish(case, gather, "the take-off"))
    }

    /// The take-off at a mass.
    pub(crate) fn run(&self, mass: Mass, traces: bool) -> Known<TakeOffRun> {
        let brake_allowance = self.brakes.left(mass);
        let plan = TakeOffPlan { traces, brake_allowance, ..self.plan };
        let (model, situation) = (&self.movement.model, self.movement.situation(mass));
        let run = |model: &RunModel, situation: &Situation<'_>, plan: &TakeOffPlan| {
            take_off(model, situation, plan)
                .map_err(|error| Unavailable::refused("the take-off", &error))
        };
        let mut found = run(model, &situation, &plan)?;
        if let Some(ruts) = &self.ruts {
            let traces = [&mut found.trace, &mut found.rejected_trace];
            traces.into_iter().flatten().for_each(|trace| ruts.keep_on_main_legs(trace));
        }
        let Some(dry) = &self.dry else { return Ok(found) };
        let plan = TakeOffPlan { wet_screen: None, traces: false, ..plan };
        let situation = Situation { ground: dry, ..situation };
        Ok(found.no_shorter_than(&run(&model.clone().without_reverse(), &situation, &plan)?))
    }

    /// The greatest wind from the side that is held on the roll.
    pub(crate) fn crosswind_held(&self, mass: Mass) -> Known<Option<CrosswindHeld>> {
        self.movement.crosswind_held(mass, "the take-off")
    }

    /// The climb of the final segment; none where its flap is not stated.
    pub(crate) fn final_climb(&self, mass: Mass) -> Option<Known<Option<ClimbAtSpeed>>> {
        let model = self.final_climb.as_ref()?;
        Some(model.as_ref().map_err(Clone::clone).and_then(|model| {
            model
                .climb(&self.movement.situation(mass))
                .map_err(|error| Unavailable::refused("the final segment", &error))
        }))
    }

    /// Distances to go on and to stop over the range of decision speeds.
    pub(crate) fn sweep(&self, mass: Mass, steps: u32) -> Known<Vec<AtDecision>> {
        let situation = self.movement.situation(mass);
        decision_sweep(&self.movement.model, &situation, &self.plan, steps)
            .map_err(|error| Unavailable::refused("the take-off", &error))
    }

    /// Declared distances from brake release: take-off and accelerate-stop.
    pub(crate) fn available(&self) -> [Option<Length>; 2] {
        let from_release = |declared: Option<Length>| Some(declared? - self.plan.line_up);
        let available = &self.plan.available;
        [from_release(available.take_off_distance), from_release(available.accelerate_stop)]
    }

    /// The same take-off with full thrust from brake release on.
    pub(crate) fn at_full_thrust(&self) -> Self {
        self.with_schedule(ThrustSchedule::full())
    }

    /// The same take-off with another schedule of thrust.
    pub(crate) fn with_schedule(&self, schedule: ThrustSchedule) -> Self {
        let mut case = self.clone();
        case.movement.model = case.movement.model.with_schedule(schedule);
        case
    }

    /// Take-off distance available from brake release.
    pub(crate) fn distance_available(&self) -> Option<Length> {
        Some(self.plan.available.take_off_distance? - self.plan.line_up)
    }

    /// Shares of static thrust in air of standard pressure: all that the engines
    /// give on the day, and what is set of it.
    pub(crate) fn thrust_shares(&self) -> [Ratio; 2] {
        let Movement { model, air, .. } = &self.movement;
        [model.full_share(air), model.set_share(air)]
    }

    /// Distance from the threshold to brake release.
    pub(crate) fn line_up(&self) -> Length {
        self.plan.line_up
    }
}

impl LandingCase {
    /// The landing of a flight; none when none is planned.
    pub(crate) fn of(flight: &Flight, around: &Surroundings<'_>) -> Option<Known<Self>> {
        let planned = flight.landing.as_ref()?;
        let mut gather = Gather::default();
        let key = "flight: landing";
        let direction = planned.direction.as_ref();
        let direction =
            gather.take(direction, &format!("{key}.direction"), "designator of the runway");
        let flap = flap(&mut gather, flight, planned.flap.as_ref(), &format!("{key}.flap"));
        let model = flap
            .map(|flap| RunModel::for_landing(&flight.aeroplane, flap))
            .and_then(|made| gather.prepared(made))
            .map(|model| reverse_credit::in_landing(flight).applied(model));
        let rule = gather.take(
            planned.rule.as_ref(),
            &format!("{key}.rule"),
            "rule that the operator works under, such as \"landing-60\"",
        );
        let state = gather.take(
            flight.day.surface_state.as_ref(),
            "day: surface_state",
            "dry, wet, frozen or thawing, as found on the day",
        );
        let centre = planned.centre_of_gravity.as_ref();
        let movement =
            Movement::gather(&mut gather, flight, around, direction, centre, (key, model));
        let movement = movement.map(|movement| movement.displaced_by(displaced(flight)));
        let speed_addition: Speed =
            planned.speed_addition.as_ref().map_or(knots(0.0), |given| given.value);
        let brake_target = planned.brake_target.as_ref().map(|given| given.value);
        let late_by = planned.touchdown_scatter.as_ref().map(|given| given.value * LATE);
        let case = movement.zip(rule).zip(state).map(|((movement, rule), state)| Self {
            movement,
            plan: LandingPlan {
                rule,
                own_factor: planned.factor.as_ref().map(|given| given.value),
                state,
                speed_addition,
                late_by,
                brake_target,
                traces: false,
            },
            go_around: go_around_model(flight, planned),
        });
        Some(finish(case, gather, "the landing"))
    }

    /// The landing at a mass.
    pub(crate) fn run(&self, mass: Mass, traces: bool) -> Known<LandingRun> {
        let plan = LandingPlan { traces, ..self.plan };
        landing(&self.movement.model, &self.movement.situation(mass), &plan)
            .map_err(|error| Unavailable::refused("the landing", &error))
    }

    /// The greatest wind from the side that is held on the roll.
    pub(crate) fn crosswind_held(&self, mass: Mass) -> Known<Option<CrosswindHeld>> {
        self.movement.crosswind_held(mass, "the landing")
    }

    /// The climb of a go-around at a mass.
    pub(crate) fn go_around(&self, mass: Mass) -> Known<GoAround> {
        let model = self.go_around.as_ref().map_err(Clone::clone)?;
        model
            .climb(&self.movement.situation(mass))
            .map_err(|error| Unavailable::refused("the go-around", &error))
    }
}

/// The final segment in the flap that the flight names.
fn final_climb_model(flight: &Flight, planned: &TakeOff) -> Option<Known<FinalClimbModel>> {
    planned.final_flap.as_ref()?;
    let mut gather = Gather::default();
    let flap =
        flap(&mut gather, flight, planned.final_flap.as_ref(), "flight: take_off.final_flap");
    let how = "maximum continuous thrust over that of the take-off";
    let share = flight.aeroplane.engines.continuous_share.as_ref();
    let share = gather.take(share, "aeroplane: engines.continuous_share", how);
    let least = metres(400.0 * 0.3048);
    let height = planned.level_off.as_ref().map_or(least, |given| given.value.max(least));
    let made = flap.zip(share).and_then(|(flap, share)| {
        gather.prepared(FinalClimbModel::new(&flight.aeroplane, flap, share, height))
    });
    Some(finish(made, gather, "the final segment"))
}

/// A go-around from the flap of the landing to the flap that the flight names.
fn go_around_model(flight: &Flight, planned: &Landing) -> Known<GoAroundModel> {
    let mut gather = Gather::default();
    let landing = flap(&mut gather, flight, planned.flap.as_ref(), "flight: landing.flap");
    let engines = flight.aeroplane.engines.count.as_ref().map(|given| given.value);
    let going_around = match engines {
        Some(1) => landing,
        _ => {
            let key = "flight: landing.go_around_flap";
            flap(&mut gather, flight, planned.go_around_flap.as_ref(), key)
        }
    };
    let made = going_around.zip(landing).and_then(|(going_around, landing)| {
        gather.prepared(GoAroundModel::new(&flight.aeroplane, going_around, landing))
    });
    finish(made, gather, "the go-around")
}

fn finish<T>(case: Option<T>, gather: Gather, what: &str) -> Known<T> {
    match case {
        Some(case) if gather.needs.is_empty() => Ok(case),
        _ => Err(Unavailable::missing(what, gather.needs)),
    }
}
