//! Which single wheel sinks the ground at a depth as far as the whole leg?
//!
//! Equivalent single wheel load by equal deflection: at the depth, the most
//! that all wheels of the leg together sink the half space anywhere in plan,
//! over what one wheel sinks it under its own centre, both on circles of one
//! tyre's contact area.
//! Numbers: `validation/cases/ground/equivalent-wheel.toml`.

use crate::formulas::{argument, kernel};
use crate::wheel::half_space::{centre_deflection_factor, deflection_factor};
use crate::wheel::tyre::contact_radius;
use crate::{Error, LegGeometry, error::positive};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Dimension, Force, Length, Pressure, Quantity};

pub(crate) const WHEELS: Argument = argument("wheels", "N", Dimension::Count, 1.0, 12.0);
pub(crate) const SPACING: Argument = argument("wheel_spacing", "s", Dimension::Length, 0.0, 5.0);
pub(crate) const TANDEM: Argument = argument("tandem_spacing", "s_t", Dimension::Length, 0.0, 5.0);

/// Equivalent single wheel load of a leg at a depth.
pub static EQUIVALENT_SINGLE_WHEEL: Formula = Formula {
    name: "equivalent-single-wheel-load",
    computes: "single wheel load that deflects a half space at a depth as far as all wheels of a leg",
    expression: "ESWL = P max(sum of w_i(r_i, z)) / w(0, z), Boussinesq deflection under uniform \
                 circles of area P/p, nu = 0.5, of N wheels at spacing s, tandem s_t; a spacing \
                 of 0 stands for none",
    arguments: &[
        argument("wheel_load", "P", Dimension::Force, 1.0, 1e6),
        argument("pressure", "p", Dimension::Pressure, 5e4, 2.5e6),
        WHEELS,
        SPACING,
        TANDEM,
        argument("depth", "z", Dimension::Length, 0.0, 20.0),
    ],
    result: Dimension::Force,
    source: Source::new(
        "WES-S-77-1",
        "equivalent single wheel load by equal deflection",
        Tier::Memory,
    ),
    scatter: "exact for a uniform half space; layered ground spreads the load further",
    evaluate: kernel!(|load, pressure, wheels, spacing, tandem, depth| geometry_of(
        wheels, spacing, tandem
    )
    .map_or(f64::NAN, |leg| {
        load * deflection_ratio(&leg, contact_radius(load, pressure), depth)
    })),
};

/// A leg from the plain numbers of a formula; a spacing of zero stands for none.
pub(crate) fn geometry_of(wheels: f64, spacing: f64, tandem: f64) -> Option<LegGeometry> {
    let some = |value: f64| (value > 0.0).then(|| Length::from_si(value));
    let whole = wheels.fract() == 0.0 && (1.0..=12.0).contains(&wheels);
    whole.then(|| LegGeometry::of_wheels(wheels as u32, some(spacing), some(tandem)).ok()).flatten()
}

/// Grid points along each axis of the first search in plan.
const COARSE: u32 = 8;
/// Last step of the search, as a share of the leg's half extents: the crest within
/// it is that of the parabola through three places.
const LAST_STEP: f64 = 1.0 / 128.0;

/// Greatest deflection of all wheels of a leg at a depth over that of one
/// wheel under its centre: from 1 to the number of wheels.
pub(crate) fn deflection_ratio(leg: &LegGeometry, radius: f64, depth: f64) -> f64 {
    let places = leg.places();
    if places.len() == 1 {
        return 1.0;
    }
    let together = |[x, y]: [f64; 2]| -> f64 {
        places
            .iter()
            .map(|place| deflection_factor(radius, (place[0] - x).hypot(place[1] - y), depth))
            .sum()
    };
    let [across, along] = leg.half_extents();
    let steps = |extent: f64| if extent > 0.0 { COARSE } else { 0 };
    let mut best_at = [across, along];
    let mut best = together(best_at);
    for row in 0..=steps(along) {
        for column in 0..=steps(across) {
            let share = |index: u32| f64::from(index) / f64::from(COARSE);
            let at = [across * share(column), along * share(row)];
            let value = together(at);
            if value > best {
                (best_at, best) = (at, value);
            }
        }
    }
    let mut step = 0.5 / f64::from(COARSE);
    let beside = |[x, y]: [f64; 2], by: [f64; 2]| [x + by[0] * across, y + by[1] * along];
    while step > LAST_STEP {
        let moves = [[step, 0.0], [-step, 0.0], [0.0, step], [0.0, -step]];
        let better = moves
            .into_iter()
            .filter(|[dx, dy]| dx * across != 0.0 || dy * along != 0.0)
            .map(|by| (beside(best_at, by), together(beside(best_at, by))))
            .find(|(_, value)| *value > best * (1.0 + 1e-13));
        match better {
            Some((at, value)) => (best_at, best) = (at, value),
            None => step *= 0.5,
        }
    }
    let crest = |by: [f64; 2]| {
        let [ahead, behind] = [by, by.map(|step| -step)].map(|by| together(beside(best_at, by)));
        over_crest(ahead - best, behind - best)
    };
    let step = 2.0 * step;
    best += crest([step, 0.0]) + crest([0.0, step]);
    best / centre_deflection_factor(radius, depth)
}

/// How far the top of the parabola through three even places stands over the middle
/// one, from what the others stand over it.
fn over_crest(ahead: f64, behind: f64) -> f64 {
    let bend = -(ahead + behind);
    if bend > 0.0 { (ahead - behind).powi(2) / (8.0 * bend) } else { 0.0 }
}

/// Equivalent single wheel load of a leg at a depth, by search.
///
/// # Errors
/// [`Error::NotPositive`] for a load, pressure or depth that is not above zero.
pub fn equivalent_single_wheel(
    leg: &LegGeometry,
    leg_load: Force,
    pressure: Pressure,
    depth: Length,
) -> Result<Force, Error> {
    let wheel = positive("load of the leg", "N", leg_load.si())? / f64::from(leg.wheels());
    let pressure = positive("pressure of the tyres", "Pa", pressure.si())?;
    let depth = positive("depth", "m", depth.si())?;
    let radius = contact_radius(wheel, pressure);
    Ok(Force::from_si(wheel * deflection_ratio(leg, radius, depth)))
}
