//! What would turn the answer, or raise the largest mass, each tried afresh.

mod changes;
mod cost;
mod opened;
mod take_off_changes;
mod ways;

pub use ways::{TradePoint, WayOut, WaysOut, ways_out};

use crate::assess::Core;
use crate::assessment::{MassAnswer, MassLimit, Remedy};
use crate::ground::LegKind;
use crate::ground::lee_leg::{heaviest, moved_load, stated};
use crate::measure::Standing;
use crate::phrase::Phrase;
use crate::repairs::Gravel;
use crate::turning::GivenUp;
use hardpan_ground::needed_thickness;
use hardpan_model::{Flight, Lane, Verdict, Weight};
use hardpan_quantity::{BearingRatio, Force, Length, Mass, Quantity, kilograms, millimetres};
use rayon::prelude::*;

/// Stretches of gravel nearer than this are laid as one.
const APART_M: f64 = 60.0;
/// How far over the largest mass gravel is laid for where no other limit is near.
const ENOUGH: f64 = 1.05;
/// Gravel is laid in whole steps.
const GRAVEL_STEP_MM: f64 = 10.0;
/// A remedy that brings less than this is not worth naming.
const WORTH_KG: f64 = 100.0;
/// Round figure to which a lighter mass is proposed.
const MASS_STEP_KG: f64 = 100.0;
/// Checks of the ground under the main wheels that more gravel mends.
const MAIN_GROUND: [&str; 2] = ["G20", "G28"];

/// One kind of help, tried on a flight.
type Try = fn(&Flight, &Standing, &Core) -> Option<Remedy>;

/// Everything that helps, what turns the answer first.
pub(crate) fn remedies(
    flight: &Flight,
    standing: &Standing,
    core: &Core,
    is_given_up: GivenUp<'_>,
) -> Vec<Remedy> {
    let tries: [Try; 5] =
        [lighter, other_main_pressure, other_nose_pressure, other_direction, gravel];
    let wanted = tries.into_par_iter().filter(|_| !is_given_up());
    let tried = wanted.filter_map(|tried| tried(flight, standing, core));
    let mut remedies: Vec<Remedy> = tried.collect();
    remedies.sort_by_key(|remedy| remedy.verdict_after);
    remedies
}

fn failing(core: &Core) -> Vec<&'static str> {
    let bad = core
        .findings
        .iter()
        .filter(|finding| finding.verdict == Verdict::Fail && finding.weight == Weight::Safety);
    let mut codes: Vec<&'static str> = bad.map(|finding| finding.code).collect();
    codes.dedup();
    codes
}

/// Findings that fail before and no longer do after.
fn mended(before: &Core, after: &Core) -> Vec<&'static str> {
    let left = failing(after);
    failing(before).into_iter().filter(|code| !left.contains(code)).collect()
}

/// Fly at the largest mass that holds, where the planned one does not.
fn lighter(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    let (changed, action, _) = lighter_masses(flight, core)?;
    let after = Core::tried(&changed, standing, &[]);
    let mends = mended(core, &after);
    (!mends.is_empty()).then(|| Remedy {
        action,
        effect: match [&after.landing_mass, &after.take_off_mass].into_iter().all(holds) {
            true => "the masses then hold".into(),
            false => "the masses do not hold yet".into(),
        },
        verdict_after: after.verdict,
        mends,
    })
}

/// Whether a planned mass is no more than the largest.
fn holds(answer: &Option<MassAnswer>) -> bool {
    let both = answer.as_ref().and_then(|answer| Some((answer.planned?, answer.largest)));
    both.is_none_or(|(planned, largest)| largest.is_some_and(|largest| planned <= largest))
}

/// The flight at the largest masses that hold, in words, and the load that is
/// left behind; none where the planned masses hold.
fn lighter_masses(flight: &Flight, core: &Core) -> Option<(Flight, Phrase, Mass)> {
    let lower = |mass: &Option<MassAnswer>| {
        let mass = mass.as_ref()?;
        let (planned, largest) = (mass.planned?, mass.largest?);
        (planned > largest).then(|| (rounded_down(largest), planned - rounded_down(largest)))
    };
    let (landing, take_off) = (lower(&core.landing_mass), lower(&core.take_off_mass));
    if landing.is_none() && take_off.is_none() {
        return None;
    }
    let mut changed = flight.clone();
    let (mut parts, mut amounts, mut left) = (Vec::new(), Vec::new(), kilograms(0.0));
    if let (Some((mass, less)), Some(plan)) = (landing, changed.landing.as_mut()) {
        ways::at_mass(&mut plan.mass, mass);
        parts.push("land at no more than {}");
        amounts.push(mass.into());
        left += less;
    }
    if let (Some((mass, less)), Some(plan)) = (take_off, changed.take_off.as_mut()) {
        ways::at_mass(&mut plan.mass, mass);
        parts.push("take off at no more than {}");
        amounts.push(mass.into());
        left += less;
    }
    Some((changed, Phrase::new(parts.join(" and "), amounts), left))
}

fn rounded_down(mass: Mass) -> Mass {
    kilograms((mass.si() / MASS_STEP_KG).floor() * MASS_STEP_KG)
}

fn other_main_pressure(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    other_pressure(flight, standing, core, (LegKind::Main, &["G20", "G28", "T10"]))
}

fn other_nose_pressure(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    other_pressure(flight, standing, core, (LegKind::Nose, &["G30", "T10"]))
}

/// Let the pressure of a leg be chosen instead of the one that the crew states, where
/// one of the checks that rest on it fails.
fn other_pressure(
    flight: &Flight,
    standing: &Standing,
    core: &Core,
    (leg, on_it): (LegKind, &[&str]),
) -> Option<Remedy> {
    leg.given(flight)?;
    if !failing(core).iter().any(|code| on_it.contains(code)) {
        return None;
    }
    let mut changed = flight.clone();
    *leg.given_mut(&mut changed) = None;
    let after = Core::tried(&changed, standing, &[]);
    let mends = mended(core, &after);
    let tyre = match leg {
        LegKind::Main => after.measured.main_tyre.as_ref(),
        LegKind::Nose => after.measured.nose_tyre.as_ref(),
    };
    let set = tyre.ok()?.set;
    (!mends.is_empty()).then(|| Remedy {
        action: Phrase::new(format!("set the {} tyres to {{}}", leg.word()), [set.into()]),
        effect: "the ground and the tyre then carry the load".into(),
        verdict_after: after.verdict,
        mends,
    })
}

/// Move the other way, where that turns the answer or carries more.
fn other_direction(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    let mut best: Option<Remedy> = None;
    for (word, landing, take_off) in
        [("take off", false, true), ("land", true, false), ("land and take off", true, true)]
    {
        let mut changed = flight.clone();
        let planned =
            (changed.landing.is_some() || !landing) && (changed.take_off.is_some() || !take_off);
        if !planned {
            continue;
        }
        changes::turned(&mut changed, landing, take_off);
        let after = Core::tried(&changed, standing, &[]);
        let beats = best.as_ref().is_none_or(|best| after.verdict < best.verdict_after);
        if !(beats && betters(core, &after)) {
            continue;
        }
        let after = Core::tried(&changed, &standing.riding_afresh(), &[]);
        if betters(core, &after) {
            best = Some(Remedy {
                action: format!("{word} in the other direction").into(),
                effect: gain_words(gain(core, &after)),
                verdict_after: after.verdict,
                mends: mended(core, &after),
            });
        }
    }
    best
}

/// Whether the verdict is better, or alike with more mass allowed.
fn betters(before: &Core, after: &Core) -> bool {
    after.verdict < before.verdict
        || (after.verdict == before.verdict
            && gain(before, after).is_some_and(|gain| gain.si() >= WORTH_KG))
}

/// How much more the weaker of the movements may weigh.
fn gain(before: &Core, after: &Core) -> Option<Mass> {
    let pairs = [
        (&before.landing_mass, &after.landing_mass),
        (&before.take_off_mass, &after.take_off_mass),
    ];
    let gains = pairs
        .into_iter()
        .filter_map(|(before, after)| Some(after.as_ref()?.largest? - before.as_ref()?.largest?));
    let all: Vec<Mass> = gains.collect();
    let worst = all.iter().copied().reduce(Mass::min)?;
    let best = all.iter().copied().reduce(Mass::max)?;
    (worst.si() > -WORTH_KG).then_some(best)
}

fn gain_words(gain: Option<Mass>) -> Phrase {
    match gain {
        Some(gain) if gain.si() >= WORTH_KG => {
            Phrase::new("raises the largest mass by {}", [rounded_down(gain).into()])
        }
        _ => "the checks that failed then hold".into(),
    }
}

/// Lay gravel over the stretches that set the mass, enough for the next limit.
fn gravel(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    let laid = stretches_of_gravel(flight, core)?;
    let after = Core::tried(flight, standing, &laid);
    let gain = gain(core, &after).filter(|gain| gain.si() >= WORTH_KG);
    let mends = mended(core, &after);
    (gain.is_some() || !mends.is_empty()).then(|| Remedy {
        action: changes::gravel(flight, laid).action,
        effect: gain_words(gain),
        verdict_after: after.verdict,
        mends,
    })
}

/// Gravel for the mass that the next limit allows, where the ground sets it.
fn stretches_of_gravel(flight: &Flight, core: &Core) -> Option<Vec<Gravel>> {
    let answers = [&core.take_off_mass, &core.landing_mass];
    let limited = answers
        .into_iter()
        .flatten()
        .find(|answer| answer.set_by().is_some_and(|limit| MAIN_GROUND.contains(&limit.code)))?;
    let planned = limited.planned?;
    let other = |limit: &&MassLimit| !MAIN_GROUND.contains(&limit.code) && limit.mass.is_some();
    let next = limited.limits.iter().find(other);
    let wanted = match next.and_then(|limit| limit.mass) {
        Some(next) => next.max(planned),
        None => planned.max(limited.largest? * ENOUGH),
    };
    gravel_for(flight, core, wanted.si() / planned.si())
}

/// Gravel that carries the worst load of the plan times a ratio: each stretch
/// that needs some, with the thickness that its weakest place needs. None where
/// none is needed or none would do.
fn gravel_for(flight: &Flight, core: &Core, heavier: f64) -> Option<Vec<Gravel>> {
    let ground = core.measured.ground.as_ref().ok()?;
    let (worst, table) = core.measured.main_carried.as_ref().ok()?;
    let mut wanted = Force::from_si(worst.load.si() * heavier);
    if stated(&flight.aeroplane.gear) {
        let planned = heaviest(flight).ok()?;
        let moved = moved_load(flight, &core.measured, planned * heavier).ok()?;
        wanted += moved.result.get()?;
    }
    let length = flight.strip.length.as_ref().map(|length| length.value);
    let mut needed: Vec<(Length, Length, BearingRatio)> = Vec::new();
    for lane in ground.lanes.iter().filter(|lane| lane.lane != Lane::Nose) {
        for point in &lane.points {
            let Some(layer) = needed_thickness(point, table, wanted) else { continue };
            if layer.thickness.si() > 0.0 {
                needed.push((point.station, layer.thickness, layer.bearing_ratio));
            }
        }
    }
    needed.sort_by(|a, b| a.0.si().total_cmp(&b.0.si()));
    let mut laid: Vec<Gravel> = Vec::new();
    for (station, thickness, bearing_ratio) in needed {
        match laid.last_mut() {
            Some(last) if (station - last.to).si() <= APART_M => {
                last.to = station;
                last.thickness = last.thickness.max(thickness);
                if bearing_ratio > last.bearing_ratio {
                    last.bearing_ratio = bearing_ratio;
                }
            }
            _ => laid.push(Gravel { from: station, to: station, thickness, bearing_ratio }),
        }
    }
    for one in &mut laid {
        let steps = (one.thickness.si() * 1e3 / GRAVEL_STEP_MM).ceil();
        one.thickness = millimetres(steps * GRAVEL_STEP_MM);
        one.to = length.map_or(one.to, |end| one.to.min(end));
    }
    (!laid.is_empty()).then_some(laid)
}
