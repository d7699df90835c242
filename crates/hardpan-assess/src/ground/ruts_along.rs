//! Ruts stretch by stretch along the main lanes, and the passes that each has
//! left.

use crate::context::Context;
use crate::ground::rut_drag::CLEARLY_STRONGER;
use crate::ground::two_layers::layers_over;
use crate::ground::{Ground, LegKind};
use crate::measured::{Known, Unavailable};
use hardpan_ground::{
    BARBER_RUT, LegGeometry, PASSES_TO_RUT, PointDemand, PointJudgement, equivalent_single_wheel,
    judge_point, penetrometer,
};
use hardpan_model::{Lane, StrengthPoint};
use hardpan_quantity::{Amount, BearingRatio, Force, Length, Pressure, Quantity};

/// A stretch of a main lane that rests on the same soundings.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct RutStretch {
    pub(crate) lane: Lane,
    pub(crate) from: Length,
    pub(crate) to: Length,
    /// Greatest load of a leg there.
    pub(crate) leg: Force,
    /// Single wheel that stands for the leg at the bottom of the upper layer.
    pub(crate) single: Force,
    pub(crate) pressure: Pressure,
    /// Thickness over the layer that is used most.
    pub(crate) thickness: Length,
    /// Strengths credited above and below.
    pub(crate) above: BearingRatio,
    pub(crate) below: BearingRatio,
}

impl RutStretch {
    /// Rut after a number of passes; none outside the law.
    pub(crate) fn after(&self, passes: f64) -> Option<Length> {
        let rut = BARBER_RUT.value(&[
            self.single.into(),
            self.pressure.into(),
            Amount::coefficient(passes),
            self.thickness.into(),
            self.above.into(),
            self.below.into(),
        ]);
        rut.ok().map(|rut| Length::from_si(rut.si))
    }

    /// Passes until the ruts reach a depth.
    pub(crate) fn passes_to(&self, limit: Length) -> Option<f64> {
        let one = self.after(1.0)?;
        let until = PASSES_TO_RUT.value(&[one.into(), Amount::coefficient(1.0), limit.into()]);
        until.ok().map(|until| until.si.floor())
    }
}

/// The stretches for which the law can speak, and how many there are in all.
pub(crate) fn ruts_along(context: &Context<'_>) -> Known<(Vec<RutStretch>, usize)> {
    let measured = context.measured;
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let (_, table) = measured.main_carried.as_ref().map_err(Clone::clone)?;
    let loads = measured.loads.as_ref().map_err(Clone::clone)?;
    let geometry = LegGeometry::of_leg(LegKind::Main.leg(context.flight), LegKind::Main.key())?;
    let pressure = table.pressure();
    let mut told = Vec::new();
    let runs = runs(ground);
    let all = runs.len();
    for (lane, run) in runs {
        let used_most = run
            .iter()
            .filter_map(|(index, point)| {
                let load = *loads.of(LegKind::Main).get(*index)?;
                match judge_point(point, table, load) {
                    PointJudgement::Known(demand) => Some((*point, demand, load)),
                    PointJudgement::Unknown(_) => None,
                }
            })
            .max_by(|(_, a, _), (_, b, _)| a.utilisation.si().total_cmp(&b.utilisation.si()));
        let (Some((point, demand, leg)), Some(first), Some(last)) =
            (used_most, run.first(), run.last())
        else {
            continue;
        };
        let found = stretch(point, &demand, (leg, pressure), &geometry);
        if let Ok(found) = found
            && found.after(1.0).is_some()
        {
            let (from, to) = (first.1.station, last.1.station);
            told.push(RutStretch { lane, from, to, ..found });
        }
    }
    if told.is_empty() {
        let because = "nowhere along the main lanes does a stronger layer lie over a weaker one \
                       as the law has it";
        return Err(Unavailable { because: because.to_owned(), needs: Vec::new() });
    }
    Ok((told, all))
}

fn stretch(
    point: &StrengthPoint,
    demand: &PointDemand,
    (leg, pressure): (Force, Pressure),
    geometry: &LegGeometry,
) -> Known<RutStretch> {
    let above = layers_over(point, demand)?;
    if above.percent() < CLEARLY_STRONGER * demand.available.percent() {
        let because = "the layer over the one used most is not clearly the stronger".to_owned();
        return Err(Unavailable { because, needs: Vec::new() });
    }
    Ok(RutStretch {
        lane: Lane::Left,
        from: point.station,
        to: point.station,
        leg,
        single: equivalent_single_wheel(geometry, leg, pressure, demand.depth)?,
        pressure,
        thickness: demand.depth,
        above: penetrometer::credited(above),
        below: penetrometer::credited(demand.available),
    })
}

type Run<'a> = (Lane, Vec<(usize, &'a StrengthPoint)>);

/// Neighbouring points that rest on the same soundings and tests.
fn runs(ground: &Ground) -> Vec<Run<'_>> {
    let mut runs: Vec<Run<'_>> = Vec::new();
    for (lane, index, point) in ground.points(LegKind::Main) {
        let same = runs.last().is_some_and(|(before, run)| {
            *before == lane
                && run.last().is_some_and(|(_, last)| {
                    last.soundings == point.soundings && last.strength_tests == point.strength_tests
                })
        });
        match runs.last_mut() {
            Some((_, run)) if same => run.push((index, point)),
            _ => runs.push((lane, vec![(index, point)])),
        }
    }
    runs
}
