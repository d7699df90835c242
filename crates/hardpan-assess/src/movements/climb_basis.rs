//! A climb gradient as a step of a basis.

use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{beside, computed, given};
use hardpan_model::{Given, Step};
use hardpan_quantity::{Amount, Mass, Quantity, Ratio, Speed};
use hardpan_run::ClimbForces;

/// A climb at a speed.
pub(crate) struct Climbing<'a> {
    pub(crate) name: &'static str,
    pub(crate) mass: &'a Given<Mass>,
    pub(crate) true_airspeed: Speed,
    /// Name of the figure that gives the speed.
    pub(crate) speed_of: &'static str,
    pub(crate) forces: ClimbForces,
    pub(crate) gradient: Ratio,
}

/// How a gross gradient came about; none where a figure of the aeroplane is missing.
pub(crate) fn gradient_step(
    context: &Context<'_>,
    climb: &Climbing<'_>,
    how: &str,
) -> Option<Step> {
    let area = context.flight.aeroplane.wing.area.as_ref()?;
    let density = context.measured.air.as_ref().ok()?.density();
    let coefficient = |value: Ratio| Amount::coefficient(value.si());
    let inputs = vec![
        given(climb.name, climb.mass),
        given("wing area", area),
        computed("air density", density, "air of the day"),
        computed("true airspeed", climb.true_airspeed, climb.speed_of),
        beside("thrust of the engines that run", climb.forces.thrust, "by the air and that speed"),
        beside(
            "drag at zero lift",
            coefficient(climb.forces.drag_zero_lift),
            "of the flap, with gear and engine out as they hang out",
        ),
        beside(
            "induced drag factor",
            coefficient(climb.forces.induced_factor),
            "of the flap, out of ground effect",
        ),
    ];
    let step = by_formula("climb-gradient", inputs).ok()?;
    let computes = format!("gross climb gradient, {how}");
    Some(Step { computes, result: climb.gradient.into(), ..step })
}
