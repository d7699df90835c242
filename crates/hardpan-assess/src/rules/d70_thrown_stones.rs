//! D70: where thrown stones strike the aeroplane, and how hard.

use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, given, need, plain_step};
use crate::rule::Rule;
use crate::run_basis::RUNS;
use crate::stones::stone_geometry::STONES;
use crate::stones::{Stones, Stop, Strike};
use hardpan_debris::{DamageBand, THROW_TIER};
use hardpan_model::{BasisInput, Finding, Flight, Mark, Phase, Source, ZonePart};
use hardpan_quantity::{Amount, Quantity};

pub(super) const RULE: Rule = Rule {
    code: "D70",
    name: "Thrown stones",
    checks: "For each zone of the aeroplane file the share of the stones thrown by the edges of \
             the nose and main tyres that reach it, with and without its deflectors, and the \
             greatest energy at which they do, for the largest loose stone seen on the day; for \
             each deflector the share of the strikes that it stops by itself.",
    why: "The aeroplane runs into stones that its own tyres threw up: they hit at about the \
          speed over the ground.",
    limit: "None: energies are shown with screening bands of 2 J, 10 J and 50 J. No rate of \
            damage is published, and none is given.",
    applies: "Every flight over ground with loose stones. Screening: that edges throw sideways \
              is published; how fast, how steeply and with what drag are ranges of judgement. \
              Wakes and wind are left out.",
    source: DRAWN,
    judge,
};

const DRAWN: Source =
    Source::new("NGUYEN-LOFTING", "launch by tyre edges, with judged ranges", THROW_TIER);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    if flight.landing.is_none() && flight.take_off.is_none() {
        return Vec::new();
    }
    let draft = || draft("stones on the airframe");
    let Some(patches) = &flight.day.loose_material else {
        return vec![draft().unproven(
            "nobody says whether loose stones lie on the strip",
            [need("day: loose_material", "\"none\" when it was looked for, or each patch")],
        )];
    };
    if patches.is_empty() {
        return vec![draft().pass("no loose stones were seen")];
    }
    match context.stones {
        None => Vec::new(),
        Some(Err(why)) => vec![draft().unavailable(why)],
        Some(Ok(stones)) => {
            let first = first_to_look_at(&stones.strikes);
            let strikes = stones.strikes.iter();
            let on_zones = strikes.map(|strike| on_zone(context.flight, stones, strike, &first));
            on_zones.chain(stones.stops.iter().map(|stop| stopped(stones, stop))).collect()
        }
    }
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; the launch of stones rests on judgement")
}

/// Names of the zones that a puncturing stone can reach, hardest struck first.
fn first_to_look_at(found: &[Strike]) -> Vec<String> {
    let mut struck: Vec<&Strike> =
        found.iter().filter(|strike| strike.band >= DamageBand::Puncture).collect();
    struck.sort_by(|a, b| b.with.greatest.partial_cmp(&a.with.greatest).unwrap_or(a.order(b)));
    struck.iter().map(|strike| strike.zone.name.value.clone()).collect()
}

fn on_zone(flight: &Flight, stones: &Stones, strike: &Strike, first: &[String]) -> Finding {
    let zone = &strike.zone;
    let energy = Amount::from(strike.with.greatest);
    let draft = draft(&format!("stones on {}", zone.name.value)).value(energy).step(plain_step(
        "greatest energy of a stone that reaches it",
        "energy, relative to the aeroplane, of the worst of the stones drawn; launched at 0.2 to 1 of the tread's descent, \
         0° to 90° up, within 35° of the axle, drag coefficient 0.7 to 1.4",
        DRAWN,
        zone_inputs(flight, stones, strike),
        energy,
    ));
    let shares = shares(strike, stones.is_guarded());
    let what = match strike.band {
        DamageBand::Paint if energy.si <= 0.0 => return draft.pass(shares),
        _ if zone.part == Some(ZonePart::Inlet) => "swallowed by the engine",
        DamageBand::Paint => {
            return draft.pass(format!("{shares}, with at most {}", shown(energy)));
        }
        DamageBand::Dents => "enough to dent thin skin and break lamps",
        DamageBand::Puncture => "enough to puncture thin skin or harm a laminate",
        DamageBand::BeyondDesign => "beyond the traditional design case of 50 J",
    };
    let draft = match first.first() {
        Some(name) if *name == zone.name.value => draft.instruct(format!(
            "after each movement look for stone damage first at: {}",
            first.join(", ")
        )),
        _ => draft,
    };
    draft.conditional(format!("{shares}, with at most {}: {what}", shown(energy)))
}

fn shown(amount: impl Into<Amount>) -> String {
    amount.into().told()
}

fn zone_inputs(flight: &Flight, stones: &Stones, strike: &Strike) -> Vec<BasisInput> {
    let zone = &strike.zone;
    let mut inputs = vec![
        given("first place", &zone.from),
        given("last place", &zone.to),
        given("height", &zone.height),
        given("width", &zone.width),
        computed("greatest ground speed", stones.fastest, RUNS),
        constant("stones drawn", Amount::count(f64::from(STONES)), DRAWN),
        beside("share that reaches it", strike.with.share, "the draw"),
        beside("share without deflectors", strike.without.share, "the draw"),
        beside("of those that reach it, from the nose tyres", strike.nose, "the draw"),
    ];
    inputs.extend(zone.blade_speed.as_ref().map(|speed| given("speed of the blade", speed)));
    inputs.extend(stones.stone_inputs(flight));
    inputs
}

/// What reaches a part, in words.
fn shares(strike: &Strike, is_guarded: bool) -> String {
    let (with, without) = (strike.with.share, strike.without.share);
    if with.si() <= 0.0 {
        return if is_guarded && without.si() > 0.0 {
            format!("no stone drawn reaches it; {} do without deflectors", shown(without))
        } else {
            "no stone drawn reaches it".to_owned()
        };
    }
    let from = match strike.nose.si() {
        nose if nose >= 1.0 => " from the nose tyres".to_owned(),
        nose if nose <= 0.0 => " from the main tyres".to_owned(),
        nose => format!(", {:.0} in 100 of them from the nose tyres", nose * 100.0),
    };
    let bare =
        if is_guarded { format!("; {} without deflectors", shown(without)) } else { String::new() };
    format!("{} of the stones thrown reach it{from}{bare}", shown(with))
}

/// What one deflector stops by itself.
fn stopped(stones: &Stones, stop: &Stop) -> Finding {
    let zone = &stop.guard.zone;
    let draft = draft(&format!("stones stopped by {}", zone.name.value))
        .value(stop.of_strikes)
        .step(plain_step(
            "of the stones that would strike, those that it stops by itself",
            "paths that cross it before they strike, over all that strike without deflectors",
            DRAWN,
            vec![
                given("first place", &zone.from),
                given("last place", &zone.to),
                given("height", &zone.height),
                given("width", &zone.width),
                computed("greatest ground speed", stones.fastest, RUNS),
                constant("stones drawn", Amount::count(f64::from(STONES)), DRAWN),
                beside("share of all stones thrown", stop.share, "the draw"),
            ],
            stop.of_strikes,
        ));
    if stop.guard.is_working {
        draft.pass("by itself, of the stones that would strike the airframe without deflectors")
    } else {
        draft.conditional("it would, but it is not fitted or does not work: it stops none")
    }
}
