//! D25: the vortex while taxiing, into the wind and with the wind behind.

use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, given, need, plain_step};
use crate::measured::{Known, Unavailable};
use crate::propeller_vortex::{SINK_DISC, propeller, propeller_inputs, static_thrust};
use crate::rule::Rule;
use crate::stones::stones_per_square_metre;
use crate::vortex::flat_tyre::{inlet_on_flat_tyre, propeller_on_flat_tyre, with_flat_tyre};
use crate::vortex::{
    BOUNDARY, FOOTPRINT_OVER_DIAMETER, engines, inlet, inlet_inputs, is_propeller, taxi_thrust,
};
use hardpan_debris::{Air, Assurance, Inlet, Propeller, RunWind, VortexState, stones_met};
use hardpan_model::{
    BasisInput, Direction, Finding, Flight, Given, Mark, Patch, Phase, Source, Step, Tier,
};
use hardpan_quantity::{Amount, Force, Length, Quantity, Ratio, Speed, knots, metres, ratio};
use hardpan_run::WindComponents;

pub(super) const RULE: Rule = Rule {
    code: "D25",
    name: "Vortex while taxiing",
    checks: "The greatest share of take-off thrust at which no vortex is expected under inlets or \
             propellers while rolling at taxi speed along the strip either way in the wind of the \
             day, as the aeroplane stands and with the tyres of one leg flat; whether one is \
             expected at the thrust used to taxi; and the counted stones on the ground taxied \
             over.",
    why: "Break-away and turns with the wind behind are where a taxiing aeroplane lifts most: its \
          own speed and the wind cancel.",
    limit: "None that fails by itself: it becomes an instruction with its thrust. Approved taxi \
            thrust binds over it.",
    applies: "Flights that state the taxi thrust. Screening: the boundaries of D10 and D15; \
              without a taxi speed in the flight file 10 kt is taken, which is judgement. Standing, or with the wind behind as fast as the taxi \
              speed, no thrust is free of a vortex.",
    source: BOUNDARY,
    judge,
};

const TAXI_SPEED_KT: f64 = 10.0;
const TAXI_SPEED: Source = Source::new("", "taxi speed taken", Tier::Judgement);

/// What draws the air: an inlet, or a propeller with its static thrust.
enum Suction {
    Inlet(Inlet),
    Propeller(Propeller, Force),
}

impl Suction {
    /// Greatest share of take-off thrust without a vortex.
    fn greatest(&self, air: &Air, rolling: Speed, headwind: Speed) -> Known<Ratio> {
        let wind = RunWind { headwind, crosswind: knots(0.0) };
        match self {
            Self::Inlet(inlet) => inlet.greatest_share(air, rolling, &wind, Assurance::Off),
            Self::Propeller(propeller, full) => propeller
                .greatest_thrust(air, rolling, &wind, Assurance::Off)
                .map(|most| ratio((most.si() / full.si()).min(1.0))),
        }
        .map_err(|error| Unavailable::refused("the vortex while taxiing", &error))
    }

    /// Whether a vortex stands at a share of take-off thrust.
    fn state(
        &self,
        share: Ratio,
        air: &Air,
        rolling: Speed,
        headwind: Speed,
    ) -> Known<VortexState> {
        let wind = RunWind { headwind, crosswind: knots(0.0) };
        match self {
            Self::Inlet(inlet) => inlet.vortex(share, air, rolling, &wind),
            Self::Propeller(propeller, full) => {
                propeller.vortex(share.si() * *full, air, rolling, &wind)
            }
        }
        .map_err(|error| Unavailable::refused("the vortex while taxiing", &error))
    }
}

/// One way along the strip: the least sure headwind, the greatest share of
/// take-off thrust without a vortex, and what stands at taxi thrust.
#[derive(Clone, Copy)]
struct Way {
    headwind: Speed,
    most: Ratio,
    state: VortexState,
}

struct Found {
    into: Way,
    behind: Way,
    /// The share with the wind behind, with a flat tyre.
    flat: Known<(Ratio, Step)>,
    rolling: Speed,
    footprint: Length,
    source: Source,
    inputs: Vec<BasisInput>,
}

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "vortex while taxiing", Phase::Taxi)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; the boundaries are from memory or derived, with a judged band");
    if is_propeller(context.flight) && context.measured.take_off.is_none() {
        return Vec::new();
    }
    let Some(taxi) = taxi_thrust(context.flight) else {
        return vec![draft.unproven(
            "the thrust used to taxi is not known",
            [need(
                "flight: technique.taxi_thrust, or aeroplane: engines.taxi_share",
                "share of static take-off thrust",
            )],
        )];
    };
    vec![match found(context, taxi.value) {
        Ok(found) => told(context.flight, draft, taxi, found),
        Err(why) => draft.unavailable(&why),
    }]
}

fn found(context: &Context<'_>, taxi: Ratio) -> Known<Found> {
    let flight = context.flight;
    let air = context.measured.air.as_ref().map_err(Clone::clone)?;
    let air = Air { pressure: air.pressure(), temperature: air.temperature() };
    let stated = flight.technique.taxi_speed.as_ref().map(|given| given.value);
    let rolling = stated.unwrap_or(knots(TAXI_SPEED_KT));
    let (suction, lower, diameter, source, inputs) = if is_propeller(flight) {
        let run = context.measured.take_off.as_ref();
        let missing = || Unavailable::missing("the thrust of a propeller", Vec::new());
        let run = run.ok_or_else(missing)?.as_ref().map_err(Clone::clone)?;
        let (propeller, full) = (propeller(flight)?, static_thrust(flight, run)?);
        let lower = propeller_on_flat_tyre(flight)
            .map(|(lower, lowered)| (Suction::Propeller(lower, full), lowered));
        let inputs = propeller_inputs(flight);
        let diameter = propeller.diameter;
        (Suction::Propeller(propeller, full), lower, diameter, SINK_DISC, inputs)
    } else {
        let inlet = inlet(flight)?;
        let lower =
            inlet_on_flat_tyre(flight).map(|(lower, lowered)| (Suction::Inlet(lower), lowered));
        (Suction::Inlet(inlet), lower, inlet.diameter, BOUNDARY, inlet_inputs(flight))
    };
    let way = |direction| -> Known<Way> {
        let wind = WindComponents::at(&flight.strip, &flight.day, direction);
        let headwind = wind
            .map(|wind| wind.headwind)
            .map_err(|needs| Unavailable::missing("the wind along the strip", needs))?;
        let most = suction.greatest(&air, rolling, headwind)?;
        Ok(Way { headwind, most, state: suction.state(taxi, &air, rolling, headwind)? })
    };
    let (up, down) = (way(Direction::Up)?, way(Direction::Down)?);
    let (into, behind) = if up.headwind >= down.headwind { (up, down) } else { (down, up) };
    let flat = lower.and_then(|(suction, lowered)| {
        Ok((suction.greatest(&air, rolling, behind.headwind)?, lowered))
    });
    let footprint = FOOTPRINT_OVER_DIAMETER * diameter;
    Ok(Found { into, behind, flat, rolling, footprint, source, inputs })
}

fn told(flight: &Flight, draft: Draft, taxi: &Given<Ratio>, found: Found) -> Finding {
    let (into, behind) = (found.into, found.behind);
    let mut inputs = found.inputs;
    inputs.push(given("taxi thrust", taxi));
    inputs.push(match &flight.technique.taxi_speed {
        Some(speed) => given("taxi speed", speed),
        None => constant("taxi speed", found.rolling, TAXI_SPEED),
    });
    inputs.push(computed(
        "headwind one way, the least that is sure",
        into.headwind,
        "wind of the day",
    ));
    inputs.push(computed("headwind the other way", behind.headwind, "wind of the day"));
    let bound = "the boundary at 80 % of its risk";
    inputs.push(beside("greatest share the one way", into.most, bound));
    inputs.push(beside("of it to be set", whole(into.most), "in whole per cent, rounded down"));
    inputs.push(beside("the other way", whole(behind.most), "in whole per cent, rounded down"));
    let what = "greatest share of take-off thrust without a vortex, the worse way";
    let draft = draft.value(behind.most).step(plain_step(
        what,
        "share at which the velocity in the inlet stands at 0.8 of the boundary, in the wind of taxiing: \
         speed and headwind together, no less than nothing",
        found.source,
        inputs,
        behind.most,
    ));
    let (mut draft, flat) = with_flat_tyre(draft, what, found.source, found.flat);
    let least = flight.aeroplane.engines.idle_share.as_ref().map_or(ratio(0.01), |idle| idle.value);
    let flat = match flat {
        None => String::new(),
        Some(flat) if flat < least => "; with a flat tyre none is free of one".to_owned(),
        Some(flat) => format!("; with a flat tyre no more than {}", whole_percent(flat)),
    };
    let rolling = Amount::from(found.rolling).told();
    if taxi.value <= behind.most {
        return draft.pass(format!(
            "rolling at {rolling} no vortex is expected at taxi thrust either way{flat}"
        ));
    }
    let stones = match stones_taxied(flight, found.footprint) {
        Some((met, from, to)) if met > 0.0 => {
            draft = draft.place(from, to, None);
            format!("; {met:.0} loose stones lie on the ground that is taxied over")
        }
        Some(_) => "; no loose stones were seen where the aeroplane taxis".to_owned(),
        None => "; loose stones on that ground are not counted".to_owned(),
    };
    let behind_text = if behind.most < least {
        "with it behind none is free of a vortex, so taxi over swept ground".to_owned()
    } else {
        format!("no more than {} with it behind", whole_percent(behind.most))
    };
    draft
        .instruct(format!(
            "taxi at {rolling} or more: do not set more than {} of take-off thrust into the wind; \
             {behind_text}; break away and turn on swept ground",
            whole_percent(into.most)
        ))
        .conditional(format!(
            "at taxi thrust a vortex {} into the wind and {} with it behind{flat}{stones}",
            state_word(into.state),
            state_word(behind.state)
        ))
}

const fn state_word(state: VortexState) -> &'static str {
    match state {
        VortexState::Off => "is not expected",
        VortexState::Uncertain => "may stand",
        VortexState::On => "is expected",
    }
}

/// Loose stones under all engines on the stretches that are taxied over, and
/// where the first and the last of them lie; none where nothing is known.
fn stones_taxied(flight: &Flight, footprint: Length) -> Option<(f64, Length, Length)> {
    let patches = flight.day.loose_material.as_ref()?;
    let count = f64::from(engines(flight).ok()?);
    let (mut sum, mut from, mut to) = (0.0, metres(f64::MAX), metres(0.0));
    for patch in patches {
        let rolled = taxied(flight, patch);
        if rolled.si() <= 0.0 {
            continue;
        }
        let density = stones_per_square_metre(patch)?;
        sum += count * stones_met(density, footprint, rolled).ok()?;
        (from, to) = (from.min(patch.from.value), to.max(patch.to));
    }
    Some((sum.ceil(), from, to))
}

/// Ground of a patch that is taxied over; all of it where no stretch is stated.
fn taxied(flight: &Flight, patch: &Patch) -> Length {
    let (from, to) = (patch.from.value, patch.to);
    let Some(stretches) = &flight.taxi else { return to - from };
    stretches
        .iter()
        .map(|stretch| (stretch.to.min(to) - stretch.from.value.max(from)).max(metres(0.0)))
        .fold(metres(0.0), |sum, rolled| sum + rolled)
}

fn whole(share: Ratio) -> Ratio {
    ratio((share.si() * 100.0).floor() / 100.0)
}

fn whole_percent(share: Ratio) -> String {
    Amount::from(whole(share)).told()
}
