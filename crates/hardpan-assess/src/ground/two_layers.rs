//! The worst place of the main lanes as one stronger layer over weaker ground,
//! for the laws that know two layers.

use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{computed, derived, need, plain_step, wheel_count, wheel_distance};
use crate::ground::strength_finding::load_steps;
use crate::ground::{LegKind, Worst};
use crate::measured::{Known, Unavailable};
use hardpan_ground::{
    EQUIVALENT_SINGLE_WHEEL, LegGeometry, PointDemand, PointJudgement, equivalent_single_wheel,
    penetrometer,
};
use hardpan_model::{BasisInput, Given, InputFrom, Step, StrengthPoint};
use hardpan_quantity::{Amount, BearingRatio, Force, Length, Pressure};

/// A stronger layer over weaker ground, and the leg upon it.
pub(crate) struct TwoLayers<'a> {
    pub(crate) worst: &'a Worst,
    pub(crate) station: Length,
    /// Thickness of all that lies over the governing layer.
    pub(crate) thickness: Length,
    /// Least mean bearing ratio over the governing layer.
    pub(crate) above: BearingRatio,
    /// Mean bearing ratio of the governing layer.
    pub(crate) below: BearingRatio,
    pub(crate) geometry: LegGeometry,
    pub(crate) pressure: Pressure,
}

/// The worst place of G20 as two layers.
pub(crate) fn two_layers<'a>(context: &Context<'a>) -> Known<TwoLayers<'a>> {
    let measured = context.measured;
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let (worst, table) = measured.main_carried.as_ref().map_err(Clone::clone)?;
    let demand = match &worst.judgement {
        PointJudgement::Known(demand) => demand,
        PointJudgement::Unknown(unknown) => {
            let because = "the ground is not known deep or densely enough at the worst place";
            return Err(Unavailable { because: because.to_owned(), needs: vec![unknown.need()] });
        }
    };
    let point = ground.point(worst.lane, worst.index);
    let point = point.ok_or_else(|| refused("the worst place has no layers"))?;
    let above = layers_over(point, demand)?;
    Ok(TwoLayers {
        worst,
        station: demand.station,
        thickness: demand.depth,
        above,
        below: demand.available,
        geometry: LegGeometry::of_leg(LegKind::Main.leg(context.flight), LegKind::Main.key())?,
        pressure: table.pressure(),
    })
}

/// Passes that the flight asks of the ground.
pub(crate) fn passes_asked<'a>(context: &Context<'a>) -> Known<&'a Given<f64>> {
    context.flight.passes.as_ref().ok_or_else(|| {
        let how = "how many passes the ground must carry before it is mended";
        Unavailable::missing("the ruts", vec![need("flight: passes", how)])
    })
}

fn refused(because: &str) -> Unavailable {
    Unavailable { because: because.to_owned(), needs: Vec::new() }
}

/// Least mean bearing ratio over the governing layer; refused unless it is the
/// stronger.
pub(crate) fn layers_over(point: &StrengthPoint, demand: &PointDemand) -> Known<BearingRatio> {
    let above = point
        .layers
        .iter()
        .filter(|(top, _)| *top < demand.depth)
        .map(|(_, bearing)| *bearing)
        .reduce(|least, next| if next < least { next } else { least })
        .ok_or_else(|| refused("the layer at the surface governs: no other layer lies over it"))?;
    if above <= demand.available {
        return Err(refused("the layer over the governing one is no stronger"));
    }
    Ok(above)
}

impl TwoLayers<'_> {
    /// Bearing ratios above and below that a decision may rest on.
    pub(crate) fn credited(&self) -> [BearingRatio; 2] {
        [penetrometer::credited(self.above), penetrometer::credited(self.below)]
    }

    /// Load of one wheel.
    pub(crate) fn wheel(&self) -> Force {
        self.worst.load / f64::from(self.geometry.wheels())
    }

    /// The single wheel that stands for the leg at the bottom of the upper
    /// layer, and the steps to it; the last gives it.
    pub(crate) fn equivalent(&self, context: &Context<'_>) -> Known<(Force, Vec<Step>)> {
        let (geometry, pressure) = (&self.geometry, self.pressure);
        let load = equivalent_single_wheel(geometry, self.worst.load, pressure, self.thickness)?;
        let mut steps = load_steps(context, LegKind::Main, self.worst);
        let leg = LegKind::Main.leg(context.flight);
        let wheels = wheel_count(leg.wheels.as_ref());
        steps.push(plain_step(
            "load of one wheel",
            "load of the leg / wheels",
            derived("wheels of a leg carry alike"),
            vec![
                from_step("load of the leg", self.worst.load, 0).under("load of the leg"),
                wheels.clone().under("wheels"),
            ],
            self.wheel(),
        ));
        let inputs = vec![
            from_step("wheel_load", self.wheel(), 1),
            computed("pressure", pressure, "T10"),
            wheels,
            wheel_distance("wheel_spacing", leg.spacing.as_ref()),
            wheel_distance("tandem_spacing", leg.tandem_spacing.as_ref()),
            computed("depth", self.thickness, "top of the governing layer of G20"),
        ];
        steps.push(Step {
            computes: "equivalent single wheel at the bottom of the upper layer".to_owned(),
            ..catalogued(&EQUIVALENT_SINGLE_WHEEL, inputs, load)
        });
        Ok((load, steps))
    }
}

/// An input that an earlier step of the same basis gave.
pub(crate) fn from_step(name: &str, amount: impl Into<Amount>, step: usize) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Step(step))
}
