//! D25: the vortex while taxiing, into the wind and with the wind behind.

use crate::context::Context;
use crate::draft::{Draft, computed, constant, given, need, plain_step};
use crate::measured::{Known, Unavailable};
use crate::propeller_vortex::{SINK_DISC, propeller, propeller_inputs, static_thrust};
use crate::rule::Rule;
use crate::stones::stones_per_square_metre;
use crate::vortex::{
    BOUNDARY, FOOTPRINT_OVER_DIAMETER, engines, inlet, inlet_inputs, is_propeller,
};
use hardpan_debris::{Air, Assurance, RunWind, stones_met};
use hardpan_model::{
    BasisInput, Direction, Finding, Flight, Given, Mark, Patch, Phase, Source, Tier,
};
use hardpan_quantity::{Amount, Force, Length, Quantity, Ratio, Speed, knots, metres, ratio};
use hardpan_run::WindComponents;

pub(super) const RULE: Rule = Rule {
    code: "D25",
    name: "Vortex while taxiing",
    checks: "The greatest share of take-off thrust at which no vortex is expected under inlets or \
             propellers while rolling at 10 kt along the strip either way in the wind of the day, \
             against the thrust used to taxi; and the counted stones on the ground taxied over.",
    why: "Break-away and turns with the wind behind are where a taxiing aeroplane lifts most: its \
          own speed and the wind cancel.",
    limit: "None that fails by itself: it becomes an instruction with its thrust. Approved taxi \
            thrust binds over it.",
    applies: "Flights that state the taxi thrust. Screening: the boundaries of D10 and D15; 10 kt \
              of taxi speed is judgement. Standing, or with the wind behind as fast as the taxi \
              speed, no thrust is free of a vortex.",
    source: BOUNDARY,
    judge,
};

const TAXI_SPEED_KT: f64 = 10.0;
const TAXI_SPEED: Source = Source::new("", "taxi speed taken", Tier::Judgement);

/// Greatest share of take-off thrust without a vortex, each way.
struct Shares {
    up: (Speed, Ratio),
    down: (Speed, Ratio),
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
    let Some(taxi) = &context.flight.aeroplane.engines.taxi_share else {
        return vec![draft.unproven(
            "the thrust used to taxi is not known",
            [need("aeroplane: engines.taxi_share", "share of static take-off thrust")],
        )];
    };
    vec![match shares(context) {
        Ok(found) => told(context.flight, draft, taxi, &found),
        Err(why) => draft.unavailable(&why),
    }]
}

fn shares(context: &Context<'_>) -> Known<Shares> {
    let flight = context.flight;
    let air = context.measured.air.as_ref().map_err(Clone::clone)?;
    let air = Air { pressure: air.pressure(), temperature: air.temperature() };
    let refused = |error| Unavailable::refused("the vortex while taxiing", &error);
    let rolling = knots(TAXI_SPEED_KT);
    let headwind = |direction| {
        let wind = WindComponents::at(&flight.strip, &flight.day, direction);
        wind.map(|wind| wind.headwind)
            .map_err(|needs| Unavailable::missing("the wind along the strip", needs))
    };
    let (up, down) = (headwind(Direction::Up)?, headwind(Direction::Down)?);
    let wind = |headwind| RunWind { headwind, crosswind: knots(0.0) };
    if is_propeller(flight) {
        let propeller = propeller(flight)?;
        let run = context.measured.take_off.as_ref();
        let missing = || Unavailable::missing("the thrust of a propeller", Vec::new());
        let run = run.ok_or_else(missing)?.as_ref().map_err(Clone::clone)?;
        let full: Force = static_thrust(flight, run)?;
        let share = |headwind| {
            let most = propeller.greatest_thrust(&air, rolling, &wind(headwind), Assurance::Off);
            most.map(|most| ratio((most.si() / full.si()).min(1.0))).map_err(refused)
        };
        return Ok(Shares {
            up: (up, share(up)?),
            down: (down, share(down)?),
            footprint: FOOTPRINT_OVER_DIAMETER * propeller.diameter,
            source: SINK_DISC,
            inputs: propeller_inputs(flight),
        });
    }
    let inlet = inlet(flight)?;
    let share = |headwind| {
        inlet.greatest_share(&air, rolling, &wind(headwind), Assurance::Off).map_err(refused)
    };
    Ok(Shares {
        up: (up, share(up)?),
        down: (down, share(down)?),
        footprint: FOOTPRINT_OVER_DIAMETER * inlet.diameter,
        source: BOUNDARY,
        inputs: inlet_inputs(flight),
    })
}

fn told(flight: &Flight, draft: Draft, taxi: &Given<Ratio>, found: &Shares) -> Finding {
    let (into, behind) =
        if found.up.0 >= found.down.0 { (found.up, found.down) } else { (found.down, found.up) };
    let mut inputs = found.inputs.clone();
    inputs.push(given("taxi thrust", taxi));
    inputs.push(constant("taxi speed", knots(TAXI_SPEED_KT), TAXI_SPEED));
    inputs.push(computed("headwind one way, the least that is sure", into.0, "wind of the day"));
    inputs.push(computed("headwind the other way", behind.0, "wind of the day"));
    inputs.push(computed("greatest share the one way", into.1, "the boundary at 80 % of its risk"));
    let mut draft = draft.value(behind.1).step(plain_step(
        "greatest share of take-off thrust without a vortex, the worse way",
        "0.8 of the boundary at taxi speed + headwind, no less than nothing",
        found.source,
        inputs,
        behind.1,
    ));
    let [into_text, behind_text] = [into.1, behind.1].map(whole_percent);
    if taxi.value <= behind.1 {
        return draft.pass(format!(
            "rolling at {TAXI_SPEED_KT:.0} kt no vortex is expected at taxi thrust either way"
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
    let least = flight.aeroplane.engines.idle_share.as_ref().map_or(ratio(0.01), |idle| idle.value);
    let behind_text = if behind.1 < least {
        "with it behind none is free of a vortex, so taxi over swept ground".to_owned()
    } else {
        format!("no more than {behind_text} with it behind")
    };
    draft
        .instruct(format!(
            "taxi at {TAXI_SPEED_KT:.0} kt or more: no more than {into_text} of take-off thrust \
             into the wind; {behind_text}; break away and turn on swept ground"
        ))
        .conditional(format!("at taxi thrust a vortex may stand with the wind behind{stones}"))
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

fn whole_percent(share: Ratio) -> String {
    Amount::from(ratio((share.si() * 100.0).floor() / 100.0)).show(Default::default())
}
