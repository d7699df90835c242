//! Ruts that were measured, each beside that of the law at the same place
//! after the same passes.

use crate::ground::loads::brought;
use crate::ground::two_layers::layers_over;
use crate::ground::{LegKind, STEP_M, StationLoads};
use crate::measured::{Known, Measured, Unavailable};
use hardpan_ground::{
    BARBER_RUT, LegGeometry, PointJudgement, equivalent_single_wheel, judge_point,
};
use hardpan_model::{Flight, MeasuredRut, Need};
use hardpan_quantity::{Amount, BearingRatio, Force, Length, Mass, Quantity};
use std::sync::Arc;

/// What the law gives where a rut was measured, and what it was asked with.
pub(crate) struct LawThere {
    /// Greatest load of a main leg there.
    pub(crate) load: Force,
    /// Equivalent single wheel of it.
    pub(crate) single: Force,
    /// Thickness over the layer that is used most.
    pub(crate) thickness: Length,
    /// Mean bearing ratios above and below.
    pub(crate) above: BearingRatio,
    pub(crate) below: BearingRatio,
    pub(crate) rut: Length,
}

/// What the law gives where a rut was measured, with the strength that is most
/// likely there and the loads that this aeroplane brings there at that mass.
pub(crate) fn of_law(flight: &Flight, measured: &Measured, rut: &MeasuredRut) -> Known<Length> {
    Ok(law_there(flight, measured, rut)?.rut)
}

/// The same with what the law was asked with.
pub(crate) fn law_there(
    flight: &Flight,
    measured: &Measured,
    rut: &MeasuredRut,
) -> Known<LawThere> {
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let index = (rut.station.value.si() / STEP_M).round().max(0.0) as usize;
    let beyond = || refused("it lies beyond the end of the strip");
    let point = ground.point(rut.lane, index).ok_or_else(beyond)?;
    let loads = loads(flight, measured, rut.mass.value);
    let loads = loads.as_ref().as_ref().map_err(Clone::clone)?;
    let load = loads.main.get(index).copied().ok_or_else(beyond)?;
    let (_, per_pass) = ground.coverages(LegKind::Main);
    let (pressure, passes) = (rut.pressure.value, rut.passes.value);
    let table = ground.requirement_after(LegKind::Main, pressure, passes * per_pass)?;
    let demand = match judge_point(point, &table, load) {
        PointJudgement::Known(demand) => demand,
        PointJudgement::Unknown(unknown) => {
            return Err(Unavailable {
                because: "the ground is not known deep or densely enough there".to_owned(),
                needs: vec![unknown.need()],
            });
        }
    };
    let above = layers_over(point, &demand)?;
    let geometry = LegGeometry::of_leg(LegKind::Main.leg(flight), LegKind::Main.key())?;
    let single = equivalent_single_wheel(&geometry, load, pressure, demand.depth)?;
    let rut = BARBER_RUT.value(&[
        single.into(),
        pressure.into(),
        Amount::coefficient(passes),
        demand.depth.into(),
        above.into(),
        demand.available.into(),
    ]);
    let rut = rut.map_err(|error| refused(&format!("the law does not hold there: {error}")))?;
    Ok(LawThere {
        load,
        single,
        thickness: demand.depth,
        above,
        below: demand.available,
        rut: Length::from_si(rut.si),
    })
}

fn refused(because: &str) -> Unavailable {
    Unavailable { because: because.to_owned(), needs: Vec::new() }
}

/// Loads that the movement planned brings at a mass, the take-off where there
/// is one.
fn loads(flight: &Flight, measured: &Measured, mass: Mass) -> Arc<Known<StationLoads>> {
    let missing = || {
        let what = "flight: centre_of_gravity of the movement planned".to_owned();
        let need = Need { what, how: "it sets the load of the legs".to_owned() };
        Arc::new(Err(Unavailable::missing("the load on the wheels", vec![need])))
    };
    if let (Some(plan), Some(runs)) = (&flight.take_off, &measured.take_off_runs) {
        let Some(centre) = &plan.centre_of_gravity else { return missing() };
        return brought(flight, measured, runs, (mass, centre.value));
    }
    match (&flight.landing, &measured.landing_runs) {
        (Some(plan), Some(runs)) => match &plan.centre_of_gravity {
            Some(centre) => brought(flight, measured, runs, (mass, centre.value)),
            None => missing(),
        },
        _ => missing(),
    }
}
