//! What would turn the answer, or raise the largest mass, each tried afresh.

use crate::assess::Core;
use crate::assessment::{MassAnswer, Remedy};
use crate::measure::Standing;
use crate::phrase::Phrase;
use crate::repairs::Gravel;
use hardpan_ground::needed_thickness;
use hardpan_model::{Direction, Flight, Given, Lane, Verdict, Weight};
use hardpan_quantity::{BearingRatio, Force, Length, Mass, Quantity, kilograms, millimetres};

/// Gravel is laid in whole steps.
const GRAVEL_STEP_MM: f64 = 10.0;
/// A remedy that brings less than this is not worth naming.
const WORTH_KG: f64 = 100.0;
/// Round figure to which a lighter mass is proposed.
const MASS_STEP_KG: f64 = 100.0;

/// Everything that helps, what turns the answer first.
pub(crate) fn remedies(flight: &Flight, standing: &Standing, core: &Core) -> Vec<Remedy> {
    let tried = [
        lighter(flight, standing, core),
        other_pressure(flight, standing, core),
        other_direction(flight, standing, core),
        gravel(flight, standing, core),
    ];
    let mut remedies: Vec<Remedy> = tried.into_iter().flatten().collect();
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
    let lower = |mass: &Option<MassAnswer>| {
        let mass = mass.as_ref()?;
        let (planned, largest) = (mass.planned?, mass.largest?);
        (planned > largest).then(|| rounded_down(largest))
    };
    let (landing, take_off) = (lower(&core.landing_mass), lower(&core.take_off_mass));
    if landing.is_none() && take_off.is_none() {
        return None;
    }
    let mut changed = flight.clone();
    let (mut parts, mut amounts) = (Vec::new(), Vec::new());
    if let (Some(mass), Some(plan)) = (landing, changed.landing.as_mut()) {
        plan.mass = plan.mass.clone().map(|given| given.map(|_| mass));
        parts.push("land at no more than {}");
        amounts.push(mass.into());
    }
    if let (Some(mass), Some(plan)) = (take_off, changed.take_off.as_mut()) {
        plan.mass = plan.mass.clone().map(|given| given.map(|_| mass));
        parts.push("take off at no more than {}");
        amounts.push(mass.into());
    }
    let after = Core::tried(&changed, standing, &[]);
    let mends = mended(core, &after);
    (!mends.is_empty()).then(|| Remedy {
        action: Phrase::new(parts.join(" and "), amounts),
        effect: "the masses then hold".into(),
        verdict_after: after.verdict,
        mends,
    })
}

fn rounded_down(mass: Mass) -> Mass {
    kilograms((mass.si() / MASS_STEP_KG).floor() * MASS_STEP_KG)
}

/// Let the pressure be chosen instead of the one that the crew states.
fn other_pressure(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    flight.main_tyre_pressure.as_ref()?;
    let bad = failing(core);
    if !bad.iter().any(|code| matches!(*code, "G20" | "T10")) {
        return None;
    }
    let mut changed = flight.clone();
    changed.main_tyre_pressure = None;
    let after = Core::tried(&changed, standing, &[]);
    let mends = mended(core, &after);
    let set = after.measured.main_tyre.as_ref().ok()?.set;
    (!mends.is_empty()).then(|| Remedy {
        action: Phrase::new("set the main tyres to {}", [set.into()]),
        effect: "the ground and the tyre then carry the load".into(),
        verdict_after: after.verdict,
        mends,
    })
}

/// Move the other way, where that turns the answer or carries more.
fn other_direction(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    let reversed = |given: Option<Given<Direction>>| {
        given.map(|given| {
            given.map(|direction| match direction {
                Direction::Up => Direction::Down,
                Direction::Down => Direction::Up,
            })
        })
    };
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
        if let (true, Some(plan)) = (landing, changed.landing.as_mut()) {
            plan.direction = reversed(plan.direction.take());
        }
        if let (true, Some(plan)) = (take_off, changed.take_off.as_mut()) {
            plan.direction = reversed(plan.direction.take());
        }
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

/// Lay gravel over the stretch that sets the mass, enough for the next limit.
fn gravel(flight: &Flight, standing: &Standing, core: &Core) -> Option<Remedy> {
    let answers = [&core.take_off_mass, &core.landing_mass];
    let limited = answers
        .into_iter()
        .flatten()
        .find(|answer| answer.set_by().is_some_and(|limit| limit.code == "G20"))?;
    let next =
        limited.limits.iter().find(|limit| limit.code != "G20" && limit.mass.is_some())?.mass?;
    let ground = core.measured.ground.as_ref().ok()?;
    let (worst, table) = core.measured.main_carried.as_ref().ok()?;
    let heavier = next.max(limited.planned?).si() / limited.planned?.si();
    let wanted = Force::from_si(worst.load.si() * heavier);
    let mut laid: Option<(Length, Length, Length, BearingRatio)> = None;
    for lane in ground.lanes.iter().filter(|lane| lane.lane != Lane::Nose) {
        for point in &lane.points {
            let Some(needed) = needed_thickness(point, table, wanted) else { continue };
            if needed.thickness.si() <= 0.0 {
                continue;
            }
            laid = Some(match laid {
                None => (point.station, point.station, needed.thickness, needed.bearing_ratio),
                Some((from, to, thickness, bearing)) => (
                    from.min(point.station),
                    to.max(point.station),
                    thickness.max(needed.thickness),
                    if needed.bearing_ratio > bearing { needed.bearing_ratio } else { bearing },
                ),
            });
        }
    }
    let (from, to, thickness, bearing_ratio) = laid?;
    let steps = (thickness.si() * 1e3 / GRAVEL_STEP_MM).ceil();
    let thickness = millimetres(steps * GRAVEL_STEP_MM);
    let after = Core::tried(flight, standing, &[Gravel { from, to, thickness, bearing_ratio }]);
    let gain = gain(core, &after).filter(|gain| gain.si() >= WORTH_KG);
    let mends = mended(core, &after);
    (gain.is_some() || !mends.is_empty()).then(|| Remedy {
        action: Phrase::new(
            "lay and compact {} of gravel of at least CBR {} from station {} to {}",
            [thickness.into(), bearing_ratio.into(), from.into(), to.into()],
        ),
        effect: gain_words(gain),
        verdict_after: after.verdict,
        mends,
    })
}
