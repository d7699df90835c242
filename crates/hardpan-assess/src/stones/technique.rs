//! The stones that a flight meets, by how the crew handles the aeroplane.

use crate::assessment::{HandlingRow, HandlingTable};
use crate::context::Context;
use crate::draft::need;
use crate::measured::{Known, Unavailable};
use crate::stones::Stones;
use crate::stones::rolled::{Rolled, thrown_at_airframe};
use crate::stones::stone_geometry::FlapPlace;
use crate::stones::suction::{Suction, swallowed};
use hardpan_model::{DamageRecord, FlapsWhileTaxiing, Flight, ReverseUse, ZonePart};
use hardpan_quantity::{Quantity, Ratio, ratio};

/// Confidence of the limits on a rate.
const CONFIDENCE: f64 = 0.90;
/// Share of a count below which a difference is lost in the ranges of the
/// launch. Judgement.
const TELLING: f64 = 0.10;
/// Movements that a rate is told for.
const PER_MOVEMENTS: f64 = 1000.0;

/// One way to handle the aeroplane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Choice {
    pub(crate) thrust: Thrust,
    pub(crate) flaps: FlapPlace,
    pub(crate) reverse: ReverseUse,
    pub(crate) taxi_thrust: Option<Ratio>,
    /// The deflector that is taken off, or all.
    pub(crate) off: Off,
}

/// When thrust is set for the take-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Thrust {
    Planned,
    AtBrakeRelease,
}

/// Which deflectors are taken off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Off {
    None,
    One(usize),
    All,
}

/// What one way of handling meets.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Met {
    /// Stones under tyre edges that reach the airframe if every one is thrown.
    thrown: f64,
    /// Stones under an inlet vortex; none for propellers.
    swallowed: Option<f64>,
}

impl Met {
    /// On one count fewer by a difference that tells, and on none more.
    fn beats(&self, other: &Self) -> bool {
        let fewer = |a: f64, b: f64| a < b * (1.0 - TELLING);
        let pair = |met: &Self| (met.thrown, met.swallowed.unwrap_or(0.0));
        let ((a, b), (c, d)) = (pair(self), pair(other));
        !fewer(c, a) && !fewer(d, b) && (fewer(a, c) || fewer(b, d))
    }
}

/// The comparison of handling; none while no stones are thrown.
pub(crate) fn compared(context: &Context<'_>) -> Option<Known<HandlingTable>> {
    let stones = match context.stones? {
        Ok(stones) => stones,
        Err(why) => return Some(Err(why.clone())),
    };
    Some(table(context, stones))
}

fn table(context: &Context<'_>, stones: &Stones) -> Known<HandlingTable> {
    let flight = context.flight;
    let rolled = Rolled::of(context)?;
    let suction = Suction::of(context)?;
    let met = |choice: &Choice| -> Known<Met> {
        Ok(Met {
            thrown: thrown_at_airframe(context, stones, &rolled, choice)?,
            swallowed: suction
                .as_ref()
                .map(|suction| swallowed(context, suction, choice))
                .transpose()?,
        })
    };
    let planned = as_planned(flight);
    let base = met(&planned)?;
    let mut best = planned;
    let mut rows = vec![("as planned".to_owned(), planned, base, false)];
    for (name, choice, is_crews) in others(flight, stones, &planned) {
        let found = met(&choice)?;
        // How thrust is set is the manual's to say: compared, and never advised.
        if is_crews && choice.thrust == planned.thrust && found.beats(&base) {
            best = with_change(best, &planned, &choice);
        }
        rows.push((name, choice, found, is_crews));
    }
    let row = |name: String, met: &Met, is_crews| HandlingRow {
        name,
        thrown: (base.thrown > 0.0).then(|| ratio(met.thrown / base.thrown)),
        swallowed: met.swallowed,
        strikes: flight.damage_record.as_ref().and_then(|record| {
            let share = (base.thrown > 0.0).then(|| met.thrown / base.thrown)?;
            strikes(record, share)
        }),
        is_crews,
    };
    let all: Vec<HandlingRow> =
        rows.iter().map(|(name, _, met, is_crews)| row(name.clone(), met, *is_crews)).collect();
    let worst =
        rows.iter().filter(|(.., is_crews)| *is_crews).filter(|(_, _, met, _)| base.beats(met));
    let worst = worst.map(|(name, _, met, _)| row(name.clone(), met, true)).reduce(worse);
    let best = match best == planned {
        true => None,
        false => Some(row(words(&planned, &best), &met(&best)?, true)),
    };
    Ok(HandlingTable { rows: all, best, worst, reach: base.thrown })
}

fn worse(a: HandlingRow, b: HandlingRow) -> HandlingRow {
    let key = |row: &HandlingRow| {
        (row.swallowed.unwrap_or(0.0), row.thrown.map_or(0.0, |share| share.si()))
    };
    if key(&b) > key(&a) { b } else { a }
}

/// Reverse thrust that is to be used after touchdown, where it is said.
fn reverse(flight: &Flight) -> Option<ReverseUse> {
    flight.landing.as_ref()?.reverse.as_ref().map(|given| given.value)
}

/// The handling that the files state; what they leave out counts as it is least kind.
fn as_planned(flight: &Flight) -> Choice {
    let technique = &flight.technique;
    let flaps = technique.flaps_while_taxiing.as_ref().map(|given| given.value);
    Choice {
        thrust: Thrust::Planned,
        flaps: match flaps {
            Some(FlapsWhileTaxiing::Up) => FlapPlace::Up,
            Some(FlapsWhileTaxiing::Down) | None => FlapPlace::Down,
        },
        reverse: reverse(flight).unwrap_or(ReverseUse::Full),
        taxi_thrust: technique.taxi_thrust.as_ref().map(|given| given.value),
        off: Off::None,
    }
}

/// Every single change worth comparing, and whether it is the crew's to make.
fn others(flight: &Flight, stones: &Stones, planned: &Choice) -> Vec<(String, Choice, bool)> {
    let mut all = Vec::new();
    let mut crews = |choice: Choice| all.push((words(planned, &choice), choice, true));
    if flight.take_off.as_ref().is_some_and(|plan| !plan.thrust.is_empty()) {
        crews(Choice { thrust: Thrust::AtBrakeRelease, ..*planned });
    }
    let is_flap =
        |zone: &hardpan_model::Zone| zone.part == Some(ZonePart::Flap) && zone.height_up.is_some();
    let taxis = flight.technique.taxi_speed.is_some() && flight.taxi != Some(Vec::new());
    if taxis && stones.geometry.zones.iter().any(is_flap) {
        let flaps = match planned.flaps {
            FlapPlace::Up => FlapPlace::Down,
            FlapPlace::Down => FlapPlace::Up,
        };
        crews(Choice { flaps, ..*planned });
    }
    if reverse(flight).is_some() {
        let reverse = match planned.reverse {
            ReverseUse::None | ReverseUse::Idle => ReverseUse::Full,
            ReverseUse::Full => ReverseUse::Idle,
        };
        crews(Choice { reverse, ..*planned });
    }
    let idle = flight.aeroplane.engines.idle_share.as_ref().map(|given| given.value);
    if let (true, Some(thrust), Some(idle)) = (taxis, planned.taxi_thrust, idle)
        && idle < thrust
    {
        crews(Choice { taxi_thrust: Some(idle), ..*planned });
    }
    let working = |index: &usize| stones.geometry.is_working(*index);
    let guards: Vec<usize> = (0..stones.geometry.guards.len()).filter(working).collect();
    for index in &guards {
        let name = stones.geometry.guards.get(*index).map(|guard| guard.zone.name.value.as_str());
        let choice = Choice { off: Off::One(*index), ..*planned };
        all.push((format!("without {}", name.unwrap_or("deflector")), choice, false));
    }
    if guards.len() > 1 {
        let choice = Choice { off: Off::All, ..*planned };
        all.push(("without any deflector".to_owned(), choice, false));
    }
    all
}

/// The best so far with what one choice changes of the plan.
fn with_change(best: Choice, planned: &Choice, choice: &Choice) -> Choice {
    Choice {
        thrust: if choice.thrust == planned.thrust { best.thrust } else { choice.thrust },
        flaps: if choice.flaps == planned.flaps { best.flaps } else { choice.flaps },
        reverse: if choice.reverse == planned.reverse { best.reverse } else { choice.reverse },
        taxi_thrust: if choice.taxi_thrust == planned.taxi_thrust {
            best.taxi_thrust
        } else {
            choice.taxi_thrust
        },
        off: best.off,
    }
}

/// What a choice changes of the plan, in words.
fn words(planned: &Choice, choice: &Choice) -> String {
    let mut parts = Vec::new();
    if choice.thrust != planned.thrust {
        parts.push("full thrust at brake release");
    }
    if choice.flaps != planned.flaps {
        parts.push(match choice.flaps {
            FlapPlace::Up => "flaps up while taxiing",
            FlapPlace::Down => "flaps down while taxiing",
        });
    }
    if choice.reverse != planned.reverse {
        parts.push(match choice.reverse {
            ReverseUse::None | ReverseUse::Idle => "no more than idle reverse",
            ReverseUse::Full => "full reverse",
        });
    }
    if choice.taxi_thrust != planned.taxi_thrust {
        parts.push("idle thrust while taxiing");
    }
    parts.join(", ")
}

/// Strikes for each 1,000 movements by the log, if the movements so far were as
/// the one planned, and their exact limits [GARWOOD-1936].
fn strikes(record: &DamageRecord, share: f64) -> Option<[f64; 3]> {
    let scale = PER_MOVEMENTS / f64::from(record.movements.value) * share;
    let (low, high) = hardpan_math::poisson_limits(record.strikes.value, CONFIDENCE)?;
    let mean = f64::from(record.strikes.value);
    Some([low, mean, high].map(|count| count * scale))
}

/// What is missing while nobody counted the stones of a patch.
pub(crate) fn not_counted() -> Unavailable {
    Unavailable::missing(
        "the stones that handling meets",
        vec![need(
            "day: loose_material: stones_per_square_metre, largest_stone",
            "count and measure them on a square metre of each patch",
        )],
    )
}
