//! Rules of which only what they are held to is found in a draw.

use super::{Found, Left, context, judge, left_of, named, of_margin, worse};
use crate::assess::confidence::draw::Drawn;
use crate::assess::confidence::trial::{Named, movements, planned};
use crate::ground::LegKind;
use crate::ground::held_to_ruts::{STAYS_UNDER, left, limit};
use crate::ground::lee_leg::{moved_load, stated};
use crate::ground::ruts_along::ruts_along;
use crate::ground::strain_response::Strains;
use crate::ground::two_layers::two_layers;
use crate::measure::heavier_mass;
use crate::measured::Known;
use crate::tyres::least;
use hardpan_ground::DEFLECTION_OF_SECTION;
use hardpan_model::Weight;
use hardpan_quantity::{Amount, Force, Length, Pressure, Quantity};

/// The lightest mass of the aeroplane, where it is stated.
pub(super) fn lightest(drawn: &Drawn) -> Found {
    let Some(least) = &drawn.flight.aeroplane.mass.minimum else { return Vec::new() };
    let of = |moving| {
        let margin = planned(&drawn.flight, moving).map(|mass| (mass / least.value).si().ln());
        let known = (Some(moving), margin.is_some());
        (named("A10", "lightest mass", known, Weight::Safety), of_margin(margin))
    };
    movements(&drawn.flight).into_iter().map(of).collect()
}

/// As many passes are left as are asked for where the ground carries these.
pub(super) fn passes_left(drawn: &Drawn) -> Found {
    let left = [LegKind::Main, LegKind::Nose].map(|kind| {
        let measured = &drawn.measured;
        let (ground, loads) = (measured.ground.as_ref().ok()?, measured.loads.as_ref().ok()?);
        let tyre = match kind {
            LegKind::Main => &measured.main_tyre,
            LegKind::Nose => &measured.nose_tyre,
        };
        let table = ground.requirement(kind, tyre.as_ref().ok()?.set).ok()?;
        Some(-ground.most_used(kind, &table, loads.of(kind))?.ln())
    });
    let [main, nose] = left;
    let margin = main.zip(nose).map(|(main, nose)| main.min(nose));
    let known = (None, margin.is_some());
    vec![(
        named("G40", "passes left at the planned load", known, Weight::Advice),
        of_margin(margin),
    )]
}

/// A tyre set elsewhere, against all that bounds it at the strip.
pub(super) fn on_arrival(drawn: &Drawn) -> Found {
    if drawn.flight.tyres_set.is_none() {
        return Vec::new();
    }
    let legs = [LegKind::Main, LegKind::Nose];
    let findings = legs.into_iter().zip(judge(drawn, &["T40"]));
    let given = findings.filter(|(kind, _)| {
        let tyre = match kind {
            LegKind::Main => &drawn.measured.main_tyre,
            LegKind::Nose => &drawn.measured.nose_tyre,
        };
        tyre.as_ref().is_ok_and(|tyre| tyre.given.is_some())
    });
    let left = given.map(|(kind, finding)| {
        let margin = finding.value.and_then(|arrived| between_bounds(drawn, kind, arrived));
        let known = (None, margin.is_some());
        (named("T40", finding.title, known, finding.weight), of_margin(margin))
    });
    left.collect()
}

fn between_bounds(drawn: &Drawn, kind: LegKind, arrived: Amount) -> Option<f64> {
    let Drawn { flight, measured, .. } = drawn;
    let (pressure, mass) = (arrived.get::<Pressure>()?, heavier_mass(flight)?);
    let (standing, loads) = (measured.standing.as_ref().ok()?, measured.loads.as_ref().ok()?);
    let (standing, moved) = match kind {
        LegKind::Main if stated(&flight.aeroplane.gear) => {
            (standing.main_leg, moved_load(flight, measured, mass).ok()?.result.get()?)
        }
        LegKind::Main => (standing.main_leg, Force::from_si(0.0)),
        LegKind::Nose => (standing.nose_leg, Force::from_si(0.0)),
    };
    let least = least(flight, kind, mass, standing).ok()?.pressure;
    let above = (pressure / least).si().ln();
    let highest = kind.leg(flight).tyre.maximum_pressure.as_ref();
    let below = highest.map(|highest| (highest.value / pressure).si().ln());
    let ground = measured.ground.as_ref().ok()?;
    let table = ground.requirement(kind, pressure).ok()?;
    let everywhere = vec![loads.greatest(kind) + moved; ground.stations().len()];
    let carried = -ground.most_used(kind, &table, &everywhere)?.ln();
    Some(below.into_iter().fold(above.min(carried), f64::min))
}

/// Water that was seen: wheels that do not come there do not ride on it.
pub(super) fn over_water(drawn: &Drawn) -> Found {
    let Some(patches) = &drawn.flight.day.standing_water else { return Vec::new() };
    let findings = judge(drawn, &["F54"]);
    let is_run = findings.iter().all(|finding| finding.place.is_some());
    let over = patches.iter().map(|patch| {
        let there = findings.iter().filter(|finding| {
            finding
                .place
                .is_some_and(|place| (place.from, place.to) == (patch.from.value, patch.to))
        });
        let worst = there.map(left_of).reduce(worse);
        let left = if is_run { worst.unwrap_or((Some(true), None)) } else { (None, None) };
        let at = Amount::from(patch.from.value).told();
        let title = format!("hydroplaning over the water at station {at}");
        (named("F54", title, (None, left.0.is_some()), Weight::Safety), left)
    });
    over.collect()
}

/// Tyres whose flange is stated: the rim bears where the section is used up.
pub(super) fn deflections(drawn: &Drawn) -> Found {
    let legs = [LegKind::Main, LegKind::Nose].into_iter().zip(judge(drawn, &["T20"]));
    let flanged = legs.filter(|(kind, _)| kind.leg(&drawn.flight).tyre.flange_diameter.is_some());
    let left = flanged.map(|(_, finding)| {
        let mut steps = finding.basis.steps.iter();
        let used = steps.find(|step| step.formula == Some(DEFLECTION_OF_SECTION.name));
        let margin = used.map(|step| -step.result.si.ln());
        (named("T20", finding.title, (None, margin.is_some()), Weight::Advice), of_margin(margin))
    });
    left.collect()
}

/// The deepest rut along the strip; where it is over its limit, the limit is reached
/// before the passes asked for are made.
pub(super) fn along_the_strip(drawn: &Drawn) -> Found {
    let deepest = || {
        let (stretches, _) = ruts_along(&context(drawn)).ok()?;
        let passes = drawn.flight.passes.as_ref()?.value;
        stretches.iter().filter_map(|one| one.after(passes)).reduce(Length::max)
    };
    let deepest = deepest().map(|rut| rut * drawn.laws.ruts);
    let margin = deepest.map(|rut| (limit() / rut).si().ln());
    let known = (None, margin.is_some());
    vec![(named("G52", "ruts along the strip", known, Weight::Advice), of_margin(margin))]
}

/// The rut of the worst place by the ruts that were measured, whose own spread is drawn
/// in place of that of the law. It is over its limit where the limit is reached before
/// the passes asked for are made.
pub(super) fn by_measured_ruts(drawn: &Drawn) -> Found {
    let under = drawn.laws.rut_under.unwrap_or(STAYS_UNDER);
    let margin = left(&context(drawn), under).ok();
    let known = (None, margin.is_some());
    let titles =
        ["rut after the passes, by the measured ruts", "passes until the ruts reach the limit"];
    let of = |title| (named("G55", title, known, Weight::Advice), of_margin(margin));
    titles.map(of).into()
}

pub(super) fn strain(drawn: &Drawn, strains: &Strains) -> (Named, Left) {
    let margin = strained(drawn, strains).ok().map(|left| left - drawn.laws.strain.ln());
    let known = (None, margin.is_some());
    (named("G60", "strain at the top of the weak layer", known, Weight::Advice), of_margin(margin))
}

fn strained(drawn: &Drawn, strains: &Strains) -> Known<f64> {
    let context = context(drawn);
    let place = two_layers(&context)?;
    let (_, table) = drawn.measured.main_carried.as_ref().map_err(Clone::clone)?;
    strains.left(&place, table.coverages())
}
