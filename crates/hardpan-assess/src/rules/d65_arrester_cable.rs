//! D65: whether, how fast and where an arrester cable may be crossed.

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, given, given_as, need, plain_step};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::run_basis::RUNS;
use crate::wheels_down::{Ground, Wheels, clearance};
use hardpan_debris::cable_margin;
use hardpan_model::{Cable, Finding, Mark, Phase, RunTrace, Source, Tier};
use hardpan_quantity::{Amount, Length, Speed, metres, millimetres};

pub(super) const RULE: Rule = Rule {
    code: "D65",
    name: "Arrester cable",
    checks: "Each cable that a run or the taxiing crosses: the lowest point of the aeroplane over \
             its top and its bounce, with sound wheels and with a leg down, in the rut and over \
             the bump measured there, or else the worst of the survey; and the speed of the \
             crossing against that of the wave in the cable.",
    why: "A raised cable strikes low parts, and one that a wheel has kicked meets the next wheel \
          and the belly.",
    limit: "Clear of the top of the cable with sound wheels. 50 mm over the bounce, and half the \
            speed of the wave, are judgement: beyond them the aeroplane crosses at walking pace.",
    applies: "Strips whose file lists cables. Screening: a bounce of 150 mm is judgement; no \
              published speed for crossing was found. Approved limits bind over it.",
    source: CROSSING,
    judge,
};

const CROSSING: Source =
    Source::new("", "clearance over the cable and half its wave speed", Tier::Judgement);
const BOUNCE_MM: f64 = 150.0;
const MARGIN_MM: f64 = 50.0;
const WAVE_SHARE: f64 = 0.5;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    if flight.landing.is_none() && flight.take_off.is_none() {
        return Vec::new();
    }
    flight.strip.cables.iter().map(|cable| judge_cable(context, cable)).collect()
}

fn draft(cable: &Cable) -> Draft {
    Draft::new(
        &RULE,
        format!("cable at station {}", Amount::from(cable.station.value).told()),
        Phase::Always,
    )
    .mark(Mark::PlanningOnly)
    .place(cable.station.value, cable.station.value, None)
    .caveat("screening only; how a cable bounces is judgement")
}

/// The lowest point: its name and its height, sound and with a leg down.
struct Lowest {
    name: String,
    sound: Length,
    leg_down: Known<Length>,
}

fn judge_cable(context: &Context<'_>, cable: &Cable) -> Finding {
    let draft = draft(cable);
    let speed = greatest_speed(context, cable.station.value);
    if matches!(speed, Ok(None)) && !is_taxied(context, cable.station.value) {
        return draft.advice().pass("no run and no taxiing crosses it");
    }
    match lowest(context, Ground::level()) {
        Ok(low) if low.sound <= cable.top.value => return lower(draft, cable, &low),
        _ => {}
    }
    let ground = Ground::at(cable).map_or_else(|| Ground::surveyed(context), Ok);
    let low = ground.and_then(|ground| lowest(context, ground));
    let found = low.and_then(|low| {
        let height = low.sound.max(metres(0.0));
        let margin = cable_margin(height, cable.top.value, millimetres(BOUNCE_MM))
            .map_err(|error| Unavailable::refused("the clearance over the cable", &error))?;
        Ok((low, margin))
    });
    match (found, speed) {
        (Err(why), _) | (_, Err(why)) => draft.advice().unavailable(&why),
        (Ok((low, margin)), Ok(speed)) => told(draft, cable, &low, margin, speed),
    }
}

fn told(
    draft: Draft,
    cable: &Cable,
    low: &Lowest,
    margin: Length,
    speed: Option<Speed>,
) -> Finding {
    let mut inputs = vec![
        given("top of the cable", &cable.top).under("top"),
        computed("height of the lowest point", low.sound, "D60, on the ground of the strip")
            .under("lowest point"),
        constant("bounce of the cable", millimetres(BOUNCE_MM), CROSSING).under("bounce"),
    ];
    inputs.extend(cable.rut.as_ref().map(|rut| given("rut at the cable", rut)));
    inputs.extend(cable.bump.as_ref().map(|bump| given("bump at the cable", bump)));
    inputs.extend(speed.map(|speed| computed("greatest ground speed there", speed, RUNS)));
    let leg_down = low.leg_down.as_ref().ok().map(|height| *height - cable.top.value);
    inputs.extend(
        leg_down
            .map(|over| beside("over the top with a leg down", over, "the same with a leg down")),
    );
    let mut draft = draft.value(margin).step(plain_step(
        "margin over the bounce",
        "lowest point − top − bounce",
        CROSSING,
        inputs,
        margin,
    ));
    let station = Amount::from(cable.station.value).told();
    if low.sound <= cable.top.value && Ground::at(cable).is_some() {
        return draft.fail(format!(
            "in the rut and over the bump measured there, {} comes down to the cable",
            low.name
        ));
    }
    if low.sound <= cable.top.value {
        let levels = need("strip: cable.rut, bump", "measured at the cable itself");
        return draft.unproven(
            format!(
                "over the worst rut and bump of the strip, wherever they are, {} comes down to \
                 the cable",
                low.name
            ),
            [levels],
        );
    }
    let wave = wave(cable).and_then(|step| Ok((result_of::<Speed>(&step)?, step)));
    let held = match &wave {
        Ok((wave, step)) => {
            draft = draft.step(step.clone());
            Some(WAVE_SHARE * *wave)
        }
        Err(_) => None,
    };
    let flat = match leg_down {
        Some(over) if over <= metres(0.0) => {
            format!("; with a leg down {} would catch it", low.name)
        }
        Some(_) => String::new(),
        None => "; with a leg down it is not known".to_owned(),
    };
    let crossing = format!(
        "cross the cable at station {station} at walking pace, wheels midway between its supports"
    );
    let walking = match speed {
        Some(_) => format!("{crossing}; do not land or take off over it"),
        None => crossing,
    };
    let draft = draft.advice();
    if margin < millimetres(MARGIN_MM) {
        return draft.instruct(walking).conditional(format!(
            "{} clears the top of the cable but not its bounce{flat}",
            low.name
        ));
    }
    match (held, speed) {
        (Some(held), Some(speed)) if speed <= held => draft
            .instruct(format!(
                "cross the cable at station {station} between its supports, no faster than {}",
                shown(held)
            ))
            .conditional(format!("the runs cross it at up to {}{flat}", shown(speed))),
        (None, Some(_)) => draft.instruct(walking).unproven(
            "how fast it may be crossed is not known without its tension and mass",
            [need("strip: cable.tension, kilograms_per_metre", "from the installation")],
        ),
        (_, None) => draft.instruct(walking).conditional(format!("only taxiing crosses it{flat}")),
        (Some(held), Some(speed)) => draft.instruct(walking).conditional(format!(
            "a run crosses it at {}, more than half the speed of its wave, {}{flat}",
            shown(speed),
            shown(held)
        )),
    }
}

fn wave(cable: &Cable) -> Known<hardpan_model::Step> {
    let (Some(tension), Some(mass)) = (&cable.tension, &cable.kilograms_per_metre) else {
        return Err(Unavailable::missing("the wave in the cable", Vec::new()));
    };
    let mass = given_as("mass of a metre", mass, Amount::coefficient(mass.value));
    by_formula("cable-wave-speed", vec![given("tension", tension), mass])
}

/// A point that is lower than the cable even on level ground.
fn lower(draft: Draft, cable: &Cable, low: &Lowest) -> Finding {
    let margin = low.sound - cable.top.value;
    let inputs = vec![
        given("top of the cable", &cable.top),
        computed("height of the lowest point", low.sound, "D60, on level ground"),
    ];
    let step = plain_step(
        "margin over the top",
        "height of the lowest point − top",
        CROSSING,
        inputs,
        margin,
    );
    draft.value(margin).step(step).fail(format!("{} is lower than the cable", low.name))
}

/// The lowest point of the aeroplane on that ground, as D60 has it.
fn lowest(context: &Context<'_>, ground: Ground) -> Known<Lowest> {
    let flight = context.flight;
    let mut lowest: Option<Lowest> = None;
    for point in &flight.aeroplane.clearances {
        let least = |wheels| clearance(flight, point, ground, wheels);
        let (sound, leg_down) = (least(Wheels::Sound)?, least(Wheels::OneLegDown));
        let known = lowest.take();
        lowest = Some(match known {
            Some(known) if known.sound <= sound => {
                Lowest { leg_down: known.leg_down.and_then(|a| Ok(a.min(leg_down?))), ..known }
            }
            other => Lowest {
                name: point.name.value.clone(),
                sound,
                leg_down: match other {
                    Some(other) => other.leg_down.and_then(|a| Ok(a.min(leg_down?))),
                    None => leg_down,
                },
            },
        });
    }
    lowest.ok_or_else(|| {
        let wanted = need("aeroplane: [[clearance]]", "the low points of the aeroplane");
        Unavailable::missing("the clearance over the cable", vec![wanted])
    })
}

/// Greatest ground speed at which a run on the ground crosses a station; none
/// where none does.
fn greatest_speed(context: &Context<'_>, station: Length) -> Known<Option<Speed>> {
    let measured = context.measured;
    let mut traces: Vec<RunTrace> = Vec::new();
    if let Some(run) = &measured.take_off {
        let run = run.as_ref().map_err(Clone::clone)?;
        traces.extend(run.trace.iter().chain(&run.rejected_trace).cloned());
    }
    if let Some(run) = &measured.landing {
        traces.extend(run.as_ref().map_err(Clone::clone)?.trace.clone());
    }
    let mut greatest: Option<Speed> = None;
    for trace in &traces {
        for pair in trace.points.windows(2) {
            let [a, b] = pair else { continue };
            let between =
                a.station.min(b.station) <= station && station <= a.station.max(b.station);
            if between && a.height <= metres(0.0) {
                let speed = a.ground_speed.max(b.ground_speed);
                greatest = Some(greatest.map_or(speed, |most| most.max(speed)));
            }
        }
    }
    Ok(greatest)
}

/// Whether the taxiing crosses a station; it does where no stretch is stated.
fn is_taxied(context: &Context<'_>, station: Length) -> bool {
    context.flight.taxi.as_ref().is_none_or(|stretches| {
        stretches.iter().any(|stretch| stretch.from.value <= station && station <= stretch.to)
    })
}

fn shown(speed: Speed) -> String {
    Amount::from(speed).told()
}
