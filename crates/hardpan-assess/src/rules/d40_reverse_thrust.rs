//! D40: the airspeed by which reverse thrust must be down, and stowed.

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, computed, constant, derived, given, need, plain_step};
use crate::ground::two_layers::from_step;
use crate::jet::reverse_front::{Front, GREATEST_CONSTANT, SHEET, front, moved_of, under_reverse};
use crate::measured::{Known, Unavailable};
use crate::movements::reverse_credit;
use crate::rule::Rule;
use crate::vortex::is_propeller;
use hardpan_debris::REVERSE_TIER;
use hardpan_model::{Finding, Given, Mark, Phase, ReverseUse, RunTrace, Source, Step, Tier};
use hardpan_quantity::{Amount, Length, Quantity, Speed, knots};

pub(super) const RULE: Rule = Rule {
    code: "D40",
    name: "Reverse thrust",
    checks: "The airspeed at which the lowest lobe of the reversed efflux, and the dust and stones \
             in the sheet that it drives along the ground, reach the point under the inlet lip; \
             held against the approved speed by which reverse is stowed. What the sheet lifts and \
             moves there, and the counted stones, by station and size, over which this landing \
             would use reverse.",
    why: "Below that speed the engine breathes its own efflux and what it tore from the ground; a \
          propeller in reverse flies into its own dust.",
    limit: "The approved speed, which binds; a computed speed above it is held instead. Without an \
            approved speed 60 kt, practice without a source, or the computed speed if that is \
            higher.",
    applies: "Landings that state whether reverse is used. Screening: the reach of a sheet against \
              the stream is from memory at even odds (constant 0.5 to 1.0; 1.0 is held), the \
              efflux at idle goes with the root of the thrust; the sheet is taken at rest, and \
              stones lie singly on firm ground. Propellers: practice only.",
    source: PRACTICE,
    judge,
};

const PRACTICE: Source =
    Source::new("", "reach of the sheet with its greatest constant; 60 kt", REVERSE_TIER);
const FLOOR: Source = Source::new("", "out of reverse below this", Tier::CommonPractice);
const LEAST_CONSTANT: f64 = 0.5;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(landing) = &context.flight.landing else { return Vec::new() };
    let draft = || {
        Draft::new(&RULE, "reverse thrust", Phase::Landing)
            .advice()
            .mark(Mark::PlanningOnly)
            .caveat("screening only; airspeeds, not ground speeds")
    };
    let draft = || match reverse_credit::in_landing(context.flight).is_counted() {
        true => {
            draft().caveat("the landing distance counts it: without it the figure does not hold")
        }
        false => draft(),
    };
    vec![match &landing.reverse {
        None => draft().unproven(
            "whether reverse thrust is to be used is not stated",
            [need("flight: landing.reverse", "none, idle or full")],
        ),
        Some(given) if given.value == ReverseUse::None => draft()
            .instruct("no reverse thrust on this strip: forward idle to the end of the roll")
            .conditional("no reverse thrust is planned, and none is counted in the distances"),
        Some(given) if is_propeller(context.flight) => propellers(context, draft(), given.value),
        Some(given) => match lobes(context, given.value) {
            Ok(found) => told(context, draft(), &found),
            Err(why) => draft().unavailable(&why),
        },
    }]
}

/// Speeds by which reverse must be down, as computed.
struct Cut {
    /// At the thrust that is planned.
    now: Speed,
    /// The same with the least constant.
    low: Speed,
    /// At reverse idle.
    at_idle: Speed,
    used: ReverseUse,
    front: Known<Front>,
    steps: Vec<Step>,
}

fn lobes(context: &Context<'_>, used: ReverseUse) -> Known<Cut> {
    let engines = &context.flight.aeroplane.engines;
    let reverse = &engines.reverse;
    let (Some(diameter), Some(speed), Some(ahead), Some(idle)) = (
        &reverse.efflux_diameter,
        &reverse.efflux_speed,
        &reverse.lip_distance,
        &engines.idle_share,
    ) else {
        let wanted = need(
            "aeroplane: engines.idle_share; engines.reverse: efflux_diameter, efflux_speed, \
             lip_distance",
            "from the engine's manual and the drawing of the reverser",
        );
        return Err(Unavailable::missing("the reach of the reversed efflux", vec![wanted]));
    };
    let share = idle.value.si().sqrt();
    let full = given("efflux speed at full reverse", speed);
    let at_idle: Speed = share * speed.value;
    let quiet = from_step("efflux speed at reverse idle", at_idle, 0);
    let cut = |k: f64, efflux: &hardpan_model::BasisInput| {
        by_formula(
            "reverse-cut-off-speed",
            vec![
                constant("constant of the sheet", Amount::coefficient(k), SHEET),
                given("diameter of the lobe", diameter),
                efflux.clone(),
                given("strike point to lip", ahead),
            ],
        )
    };
    let planned = if used == ReverseUse::Full { &full } else { &quiet };
    let steps = vec![
        plain_step(
            "efflux speed at reverse idle",
            "full × √(share)",
            derived("thrust grows with the square of the speed"),
            vec![full.clone().under("full"), given("share of thrust at idle", idle).under("share")],
            at_idle,
        ),
        cut(GREATEST_CONSTANT, planned)?,
        cut(LEAST_CONSTANT, planned)?,
        cut(GREATEST_CONSTANT, &quiet)?,
    ];
    let [now, low, at_idle] = [1, 2, 3]
        .map(|at: usize| steps.get(at).map_or_else(|| Ok(Speed::default()), result_of::<Speed>));
    let efflux = if used == ReverseUse::Full { speed.value } else { share * speed.value };
    let front = front(context, diameter, efflux, ahead);
    Ok(Cut { now: now?, low: low?, at_idle: at_idle?, used, front, steps })
}

fn told(context: &Context<'_>, draft: Draft, cut: &Cut) -> Finding {
    let reverse = &context.flight.aeroplane.engines.reverse;
    let stow = held(&reverse.stowed_by, cut.at_idle);
    let idle = held(&reverse.idle_by, cut.now).max(stow);
    let sure = match cut.used {
        ReverseUse::Full => idle,
        ReverseUse::Idle | ReverseUse::None => stow,
    };
    let handling = match cut.used {
        ReverseUse::Full => format!("reverse idle by {}, stowed by {}", shown(idle), shown(stow)),
        _ => format!("reverse no higher than idle, stowed by {}", shown(stow)),
    };
    let mut inputs = vec![computed("reach with the greatest constant", cut.now, "the step above")];
    inputs.extend(reverse.idle_by.as_ref().map(|value| given("approved, idle by", value)));
    inputs.extend(reverse.stowed_by.as_ref().map(|value| given("approved, stowed by", value)));
    if reverse.stowed_by.is_none() {
        inputs.push(constant("practice", knots(60.0), FLOOR));
    }
    let mut draft = draft.steps(cut.steps.clone()).value(sure).step(plain_step(
        "airspeed by which reverse must be down",
        "the greatest of reach, approved speed and, without one, 60 kt",
        PRACTICE,
        inputs,
        sure,
    ));
    let place = station_at(context, sure);
    if let Some(station) = place {
        draft = draft.place(station, station, None);
    }
    let approved = match (&reverse.stowed_by, cut.used) {
        (Some(given), _) if given.value >= stow => "the approved speed is the higher and binds",
        (Some(_), _) => "that is above the approved speed: the higher is held",
        (None, _) => "no approved speed is entered",
    };
    let place = place.map_or_else(String::new, |station| {
        format!("; in this landing that is at station {}", Amount::from(station).told())
    });
    let mut moved = String::new();
    if let Ok(front) = &cut.front {
        draft = draft.steps(front.steps.clone());
        moved = ahead(front);
    }
    let (avoid, stones) = stones(context, stow, cut.front.as_ref().ok().map(|front| front.moves));
    draft.instruct(format!("{handling}{avoid}")).conditional(format!(
        "the efflux and what it lifts reach the inlet below {} to {} at this thrust, below {} at \
         reverse idle{moved}; {approved}{place}{stones}",
        shown(cut.low),
        shown(cut.now),
        shown(cut.at_idle)
    ))
}

/// What the sheet lifts and moves, in words.
fn ahead(front: &Front) -> String {
    let dust = front.dust_to.map_or_else(
        || "; how far ahead it lifts dust is not known".to_owned(),
        |far| format!("; at rest it lifts the dust to {} ahead", length(far)),
    );
    format!("{dust} and moves single stones to {} under the lip", length(front.moves))
}

/// Where reverse meets counted stones: for the crew, and why.
fn stones(context: &Context<'_>, stow: Speed, moves: Option<Length>) -> (String, String) {
    let met = under_reverse(context, stow);
    let mut places = Vec::new();
    let mut whys = Vec::new();
    for patch in met {
        let place = Amount::from(patch.from.value).told_to(patch.to.into());
        let of = match moves.map(|moves| moved_of(patch, moves)) {
            Some(Ok(None)) => continue,
            Some(Ok(Some(size))) => format!("stones to {} at stations {place}", length(size)),
            Some(Err(())) | None => format!("loose stones at stations {place}"),
        };
        places.push(place);
        whys.push(of);
    }
    if places.is_empty() {
        return (String::new(), String::new());
    }
    (
        format!("; no reverse over the loose stones at stations {}", places.join(", ")),
        format!("; before it is stowed this landing rolls over what it moves: {}", whys.join(", ")),
    )
}

fn length(length: Length) -> String {
    Amount::from(length).told()
}

/// The approved speed or, without one, practice; the computed one if higher.
fn held(approved: &Option<Given<Speed>>, reach: Speed) -> Speed {
    approved.as_ref().map_or(knots(60.0), |given| given.value).max(reach)
}

fn propellers(context: &Context<'_>, draft: Draft, used: ReverseUse) -> Finding {
    let reverse = &context.flight.aeroplane.engines.reverse;
    let approved = reverse.stowed_by.as_ref();
    let stow = held(&reverse.stowed_by, Speed::default());
    let input = match approved {
        Some(value) => given("approved, out of reverse by", value),
        None => constant("practice", knots(60.0), FLOOR),
    };
    let power = match used {
        ReverseUse::Full => "reverse",
        ReverseUse::Idle | ReverseUse::None => "reverse no deeper than ground idle",
    };
    let why = match approved {
        Some(_) => "the approved speed binds; slower, the propellers fly into their own dust",
        None => "no approved speed is entered: practice without a source is held",
    };
    let (source, mark) = match approved {
        Some(_) => (Source::new("", "approved manual, as entered", Tier::Approved), Mark::Approved),
        None => (FLOOR, Mark::PlanningOnly),
    };
    let (avoid, stones) = stones(context, stow, None);
    let avoid = avoid.trim_start_matches("; ");
    let first = if avoid.is_empty() { String::new() } else { format!("{avoid}; ") };
    // The card adds the figure of an approved limit by itself.
    let say = match approved {
        Some(_) => format!("{first}{power}: propellers out of reverse by"),
        None => format!("{first}{power}: propellers out of reverse by {}", shown(stow)),
    };
    let draft = draft.mark(mark).at_least(stow).instruct(say).step(plain_step(
        "airspeed out of reverse",
        "as entered",
        source,
        vec![input],
        stow,
    ));
    draft.value(stow).conditional(format!("{why}{stones}"))
}

/// Where the planned landing has slowed to an airspeed.
fn station_at(context: &Context<'_>, airspeed: Speed) -> Option<Length> {
    let run = context.measured.landing.as_ref()?.as_ref().ok()?;
    let trace: &RunTrace = run.trace.as_ref()?;
    let rolling = trace.points.iter().filter(|point| point.height <= Length::default());
    let mut slow = rolling.skip_while(|point| point.airspeed > airspeed);
    slow.next().map(|point| point.station)
}

fn shown(speed: Speed) -> String {
    let knots = speed.si() / hardpan_quantity::knots(1.0).si();
    format!("{:.0} kt", knots.ceil())
}
