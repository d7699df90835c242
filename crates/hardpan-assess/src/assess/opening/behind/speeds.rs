//! The speeds of the rule as true airspeeds, and what set each.

use super::figure;
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{computed, constant, derived, given, given_as, plain_step};
use crate::run_basis::setting;
use hardpan_model::{BasisInput, FlapSetting, Given, Source, Step, TakeOff, Tier};
use hardpan_quantity::{Amount, Mass, Quantity, Ratio, Speed};
use hardpan_run::{
    FINAL_OVER_STALL, LIFT_OFF_OVER_UNSTICK, REFERENCE_OVER_STALL, ROTATION_OVER_CONTROL,
    SAFETY_OVER_CONTROL, SAFETY_OVER_STALL,
};

/// Name of the figure that holds them.
pub(in crate::assess) const NAME: &str = "speeds of the rule";
/// Speeds are alike that differ by less than this share.
const ALIKE: f64 = 1e-9;
const TAKE_OFF: Source = Source::new("CFR-25-107", "(b), (e)", Tier::Published);
const LANDING: Source = Source::new("CFR-25-125", "(b)(2)", Tier::Published);
const FINAL: Source = Source::new("CFR-25-107", "(g)", Tier::Memory);

pub(super) fn figures(context: &Context<'_>) -> Option<FigureBasis> {
    let flight = context.flight;
    let ratios = &flight.aeroplane.speeds;
    let mut steps = Vec::new();
    if let (Some(plan), Some(Ok(run))) = (&flight.landing, &context.measured.landing) {
        let of = Stalling::new(context, plan.mass.as_ref(), plan.flap.as_ref());
        let ways = Ways { ratio: ratios.reference.as_ref(), ..Ways::of_landing(context) };
        steps.extend(of.into_iter().flat_map(|of| of.speed(run.reference.true_airspeed, &ways)));
    }
    if let (Some(plan), Some(Ok(run))) = (&flight.take_off, &context.measured.take_off) {
        let of = Stalling::new(context, plan.mass.as_ref(), plan.flap.as_ref());
        let speeds = &run.speeds;
        let all = [
            (speeds.rotation.true_airspeed, ratios.rotation.as_ref(), ROTATION_OVER_CONTROL),
            (speeds.lift_off.true_airspeed, ratios.lift_off.as_ref(), ROTATION_OVER_CONTROL),
            (speeds.safety.true_airspeed, ratios.safety.as_ref(), SAFETY_OVER_CONTROL),
        ];
        for (speed, ratio, over_control) in all {
            let ways = Ways { ratio, over_control, ..Ways::of_take_off(context) };
            let base = steps.len();
            let found = of.iter().flat_map(|of| of.speed(speed, &ways)).collect();
            steps.extend(super::after(base, found));
        }
        let last = final_segment(context, plan);
        steps.extend(super::after(steps.len(), last));
    }
    figure(NAME, steps)
}

/// Steps to the true airspeed of a climb in a flap; the last gives it.
pub(super) fn climbing(
    context: &Context<'_>,
    (mass, flap): (Option<&Given<Mass>>, Option<&Given<String>>),
    speed: Speed,
) -> Vec<Step> {
    let ratio = context.flight.aeroplane.speeds.reference.as_ref();
    let ways = Ways { ratio, ..Ways::of_landing(context) };
    let of = Stalling::new(context, mass, flap);
    of.map_or_else(Vec::new, |of| of.speed(speed, &ways))
}

/// The same of the final segment, flown at its margin over the stall.
fn final_segment(context: &Context<'_>, plan: &TakeOff) -> Vec<Step> {
    let case = context.measured.take_off_case.as_ref().and_then(|case| case.as_ref().ok());
    let mass = plan.mass.as_ref();
    let climb = case.zip(mass).and_then(|(case, mass)| case.final_climb(mass.value));
    let Some(Ok(Some(climb))) = climb else { return Vec::new() };
    let ways = Ways { margin: (FINAL_OVER_STALL, FINAL), ..Ways::of_landing(context) };
    let of = Stalling::new(context, mass, plan.final_flap.as_ref());
    of.map_or_else(Vec::new, |of| of.speed(climb.true_airspeed, &ways))
}

/// A flap at a mass, with the step of its stall speed.
struct Stalling<'a> {
    context: &'a Context<'a>,
    stall: Step,
}

/// What may set a speed.
struct Ways<'a> {
    /// Ratio of the aeroplane's file to the stall speed.
    ratio: Option<&'a Given<Ratio>>,
    /// Margin of the rule over the stall speed.
    margin: (f64, Source),
    /// Minimum control speed that counts, calibrated, and the margin over it.
    control: Option<&'a Given<Speed>>,
    over_control: f64,
    source: Source,
}

impl<'a> Ways<'a> {
    fn of_landing(context: &'a Context<'_>) -> Self {
        Self {
            ratio: None,
            margin: (REFERENCE_OVER_STALL, LANDING),
            control: context.flight.aeroplane.speeds.minimum_control_approach.as_ref(),
            over_control: 1.0,
            source: LANDING,
        }
    }

    fn of_take_off(context: &'a Context<'_>) -> Self {
        Self {
            ratio: None,
            margin: (SAFETY_OVER_STALL, TAKE_OFF),
            control: context.flight.aeroplane.speeds.minimum_control_air.as_ref(),
            over_control: SAFETY_OVER_CONTROL,
            source: TAKE_OFF,
        }
    }
}

impl<'a> Stalling<'a> {
    fn new(
        context: &'a Context<'a>,
        mass: Option<&Given<Mass>>,
        flap: Option<&Given<String>>,
    ) -> Option<Self> {
        let flap = setting(&context.flight.aeroplane, flap)?;
        Some(Self { context, stall: stall(context, mass?, flap)? })
    }

    /// The steps to a true airspeed; the last gives it.
    fn speed(&self, speed: Speed, ways: &Ways<'_>) -> Vec<Step> {
        let by_stall = self.of_stall(speed, ways).map(|step| vec![self.stall.clone(), step]);
        by_stall.or_else(|| self.of_control(speed, ways)).unwrap_or_else(|| self.in_words(speed))
    }

    fn of_stall(&self, speed: Speed, ways: &Ways<'_>) -> Option<Step> {
        let stall = self.stall.result;
        let alike =
            |factor: f64| (factor * stall.si - Amount::from(speed).si).abs() <= ALIKE * stall.si;
        let unstick = self.context.flight.aeroplane.speeds.minimum_unstick.as_ref();
        let of = || of_step("stall speed", stall, 0).under("stall speed");
        let over = |name, factor, source| {
            constant(name, Amount::coefficient(factor), source).under("margin")
        };
        let (margin, source) = ways.margin;
        let (rule, inputs) = if let Some(ratio) = ways.ratio.filter(|one| alike(one.value.si())) {
            let ratio = given("ratio to the stall speed", ratio).under("ratio");
            ("ratio × stall speed; no margin of the rule asks for more", vec![ratio, of()])
        } else if alike(margin) {
            let margin = over("margin of the rule", margin, source);
            ("margin × stall speed; more than by the ratio of the file", vec![margin, of()])
        } else {
            let unstick = unstick.filter(|one| alike(LIFT_OFF_OVER_UNSTICK * one.value.si()))?;
            let ratio = given("unstick speed over stall speed", unstick).under("unstick ratio");
            let margin = over("margin over unstick", LIFT_OFF_OVER_UNSTICK, TAKE_OFF);
            ("margin × unstick ratio × stall speed", vec![margin, ratio, of()])
        };
        Some(plain_step("true airspeed", rule, derived("speeds of the rule"), inputs, speed))
    }

    /// Margin over the minimum control speed.
    fn of_control(&self, speed: Speed, ways: &Ways<'_>) -> Option<Vec<Step>> {
        let air = self.context.measured.air.as_ref().ok()?;
        let control = ways.control?;
        let inputs = vec![
            given("minimum control speed", control),
            computed("air pressure", Amount::air_pressure(air.pressure()), "air of the day"),
            computed("temperature", air.temperature(), "air of the day"),
        ];
        let of_control = by_formula("true-from-calibrated", inputs).ok()?;
        let wanted = Amount::from(speed).si;
        let factor = [ways.over_control, ROTATION_OVER_CONTROL]
            .into_iter()
            .find(|factor| (factor * of_control.result.si - wanted).abs() <= ALIKE * wanted)?;
        let inputs = vec![
            constant("margin", Amount::coefficient(factor), ways.source).under("margin"),
            of_step("minimum control speed", of_control.result, 0).under("control speed"),
        ];
        let rule = "margin × control speed; more than the stall speed asks for";
        let last = plain_step("true airspeed", rule, derived("speeds of the rule"), inputs, speed);
        Some(vec![of_control, last])
    }

    /// A speed that another speed lifts.
    fn in_words(&self, speed: Speed) -> Vec<Step> {
        let inputs = vec![of_step("stall speed", self.stall.result, 0)];
        let rule = "lifted to the speed that must come before it, or to the lowest decision speed";
        let last = plain_step("true airspeed", rule, derived("speeds of the rule"), inputs, speed);
        vec![self.stall.clone(), last]
    }
}

/// The stall speed in a flap setting at a mass.
fn stall(context: &Context<'_>, mass: &Given<Mass>, flap: &FlapSetting) -> Option<Step> {
    let air = context.measured.air.as_ref().ok()?;
    let lift = flap.lift_maximum.as_ref()?;
    let inputs: Vec<BasisInput> = vec![
        given("mass", mass),
        given("wing area", context.flight.aeroplane.wing.area.as_ref()?),
        computed("density", air.density(), "air of the day"),
        given_as("lift maximum", lift, Amount::coefficient(lift.value)),
    ];
    by_formula("stall-speed", inputs).ok()
}
