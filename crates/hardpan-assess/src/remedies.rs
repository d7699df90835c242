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
use crate::ground::lee_leg::{moved_load, stated};
use crate::masses::mass_search::STEP_KG;
use crate::measure::{Standing, heavier_mass};
use crate::phrase::Phrase;
use crate::repairs::Gravel;
use crate::turning::GivenUp;
use crate::tyres::{highest, least};
use hardpan_ground::needed_thickness;
use hardpan_model::{Flight, Lane, Verdict, Weight};
use hardpan_quantity::{BearingRatio, Length, Mass, Pressure, Quantity, kilograms, millimetres};
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

/// What is done and what it brings, with what an assessment then says.
fn remedy(before: &Core, after: &Core, (action, effect): (Phrase, Phrase)) -> Remedy {
    let (mends, left) = (mended(before, after), failing(after));
    Remedy { action, effect, verdict_after: after.verdict, mends, left }
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
    let effect = match [&after.landing_mass, &after.take_off_mass].into_iter().all(holds) {
        true => "the masses then hold".into(),
        false => "the masses do not hold yet".into(),
    };
    let found = remedy(core, &after, (action, effect));
    (!found.mends.is_empty()).then_some(found)
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
    let action = Phrase::new(
        format!("set the {} tyres to {{}}", leg.word()),
        [set_after(leg, &after)?.into()],
    );
    let effect = "the ground and the tyre then carry the load".into();
    let found = remedy(core, &after, (action, effect));
    (!found.mends.is_empty()).then_some(found)
}

/// The pressure of a kind of tyre after a change.
fn set_after(leg: LegKind, after: &Core) -> Option<Pressure> {
    let tyre = match leg {
        LegKind::Main => &after.measured.main_tyre,
        LegKind::Nose => &after.measured.nose_tyre,
    };
    tyre.as_ref().ok().map(|tyre| tyre.set)
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
        let after = core.sifted(&changed, standing, &[]);
        let beats = best.as_ref().is_none_or(|best| after.verdict < best.verdict_after);
        if !(beats && betters(core, &after)) {
            continue;
        }
        let after = Core::tried(&changed, standing, &[]);
        if betters(core, &after) {
            let action = format!("{word} in the other direction").into();
            best = Some(remedy(core, &after, (action, brings(core, &after))));
        }
    }
    best
}

/// Whether the verdict is better, or alike with more mass allowed.
fn betters(before: &Core, after: &Core) -> bool {
    after.verdict < before.verdict
        || (after.verdict == before.verdict && is_worth(&gains(before, after)))
}

/// How much more each movement may weigh, by its name; less is negative.
fn gains(before: &Core, after: &Core) -> Vec<(&'static str, Mass)> {
    let pairs = [
        ("landing", &before.landing_mass, &after.landing_mass),
        ("take-off", &before.take_off_mass, &after.take_off_mass),
    ];
    let gain = |before: &Option<MassAnswer>, after: &Option<MassAnswer>| {
        Some(after.as_ref()?.largest? - before.as_ref()?.largest?)
    };
    pairs.into_iter().filter_map(|(name, one, other)| Some((name, gain(one, other)?))).collect()
}

/// Whether one movement may weigh more by what is worth naming, and none less by it.
fn is_worth(gains: &[(&str, Mass)]) -> bool {
    gains.iter().any(|(_, gain)| gain.si() >= WORTH_KG)
        && gains.iter().all(|(_, gain)| gain.si() > -WORTH_KG)
}

/// What a change brings: of each movement what it may weigh more, or that checks hold.
fn brings(before: &Core, after: &Core) -> Phrase {
    let gains = gains(before, after);
    if !is_worth(&gains) {
        return match failing(after).is_empty() {
            true => "the checks that failed then hold".into(),
            false => "some of the checks that failed then hold".into(),
        };
    }
    let told = gains.iter().filter(|(_, gain)| gain.si().abs() >= STEP_KG / 2.0);
    let part = |(name, gain): &(&str, Mass)| {
        let does = if gain.si() < 0.0 { "lowers" } else { "raises" };
        let amount = kilograms(gain.si().abs());
        Phrase::new(format!("{does} the largest {name} mass by {{}}"), [amount.into()])
    };
    Phrase::joined(&told.map(part).collect::<Vec<_>>(), " and ")
}

/// Lay gravel over the stretches that set the mass, enough for the next limit.
fn gravel(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    let amounts = amounts_of_gravel(flight, core).into_iter();
    let tried = amounts.map(|laid| (Core::tried(flight, standing, &laid), laid));
    let gained = |after: &Core| gains(core, after).iter().map(|(_, gain)| gain.si()).sum::<f64>();
    let (after, laid) = tried.min_by(|(one, _), (other, _)| {
        one.verdict.cmp(&other.verdict).then(gained(other).total_cmp(&gained(one)))
    })?;
    let action = changes::gravel(flight, laid).action;
    let found = remedy(core, &after, (action, brings(core, &after)));
    (is_worth(&gains(core, &after)) || !found.mends.is_empty()).then_some(found)
}

/// Gravel for the masses that the next limits allow, where the ground sets one: on the
/// least pressure of the tyres, and where the ride counts on the highest as well, since
/// firm ground lets them be set so and they then ride otherwise.
fn amounts_of_gravel(flight: &Flight, core: &Core) -> Vec<Vec<Gravel>> {
    let answers = [&core.take_off_mass, &core.landing_mass];
    let wanted = answers.into_iter().flatten().filter_map(wanted_of_ground).reduce(Mass::max);
    let Some((wanted, planned)) = wanted.zip(heavier_mass(flight)) else { return Vec::new() };
    let laid = |tyres| gravel_for(flight, core, (wanted.max(planned), tyres));
    let firmer = core.turns_on_the_ride().then(|| laid(Tyres::AtMost)).flatten();
    let mut amounts: Vec<Vec<Gravel>> = laid(Tyres::AtLeast).into_iter().chain(firmer).collect();
    amounts.dedup();
    amounts
}

/// How far the tyres are pumped up where the crew does not state it.
#[derive(Clone, Copy)]
enum Tyres {
    AtLeast,
    AtMost,
}

/// The mass of a movement that the ground is to carry where it sets the largest: what
/// the next limit allows.
fn wanted_of_ground(answer: &MassAnswer) -> Option<Mass> {
    let is_ground = |limit: &MassLimit| MAIN_GROUND.contains(&limit.code);
    answer.set_by().filter(|limit| is_ground(limit))?;
    let mut others = answer.limits.iter().filter(|limit| !is_ground(limit));
    match others.find_map(|limit| limit.mass) {
        Some(next) => Some(next),
        None => Some(answer.planned?.max(answer.largest? * ENOUGH)),
    }
}

/// Gravel that carries the worst load of the plan as it is at another mass of the
/// heavier movement, on the tyres as it then has them: each stretch that needs some,
/// with the thickness that its weakest place needs. None where none is needed, none
/// would do, or no tyre bears it.
fn gravel_for(flight: &Flight, core: &Core, (mass, tyres): (Mass, Tyres)) -> Option<Vec<Gravel>> {
    let ground = core.measured.ground.as_ref().ok()?;
    let (worst, _) = core.measured.main_carried.as_ref().ok()?;
    let heavier = mass.si() / heavier_mass(flight)?.si();
    let leg = core.measured.standing.as_ref().ok()?.main_leg * heavier;
    let least = least(flight, LegKind::Main, mass, leg);
    let pressure = match (LegKind::Main.given(flight), tyres) {
        (Some(given), _) => given.value,
        (None, Tyres::AtLeast) => least.ok()?.pressure,
        (None, Tyres::AtMost) => highest(LegKind::Main.leg(flight), LegKind::Main.key()).ok()?,
    };
    let table = &ground.requirement(LegKind::Main, pressure).ok()?;
    let mut wanted = worst.load * heavier;
    if stated(&flight.aeroplane.gear) {
        wanted += moved_load(flight, &core.measured, mass).ok()?.result.get()?;
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
