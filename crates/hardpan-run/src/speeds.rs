//! The speeds to be flown: the aeroplane's own ratios or the minimum of the
//! rule, whichever is greater, and which of them it was.

use crate::Air;
use crate::motion::polar::speed_for_lift;
use crate::regulation::{
    LIFT_OFF_OVER_UNSTICK, REFERENCE_OVER_STALL, ROTATION_OVER_CONTROL, SAFETY_OVER_CONTROL,
    SAFETY_OVER_STALL,
};
use crate::run_model::RunModel;
use hardpan_quantity::{Quantity, Speed};

/// What set a speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum SpeedBound {
    /// The ratio of the aeroplane's file.
    AeroplaneFile,
    /// 1.13 VSR for V2, 1.23 VSR0 for VREF.
    StallMargin,
    /// 1.05 VMCA for VR, 1.10 VMCA for V2.
    ControlMargin,
    /// 1.10 VMU for lift-off.
    UnstickMargin,
    /// VMCL for VREF.
    ControlInApproach,
    /// The speed that must come before it: VR for lift-off, lift-off for V2.
    SpeedBefore,
    /// The published minimum control speed on the ground.
    PublishedControl,
    /// Rudder against an engine failure and the wind of the day.
    RudderBalance,
    /// The lowest decision speed, for VR.
    LowestDecision,
}

impl SpeedBound {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::AeroplaneFile => "ratio of the aeroplane",
            Self::StallMargin => "margin over the reference stall speed",
            Self::ControlMargin => "margin over the minimum control speed in the air",
            Self::UnstickMargin => "margin over the minimum unstick speed",
            Self::ControlInApproach => "minimum control speed in the approach",
            Self::SpeedBefore => "the speed before it",
            Self::PublishedControl => "published minimum control speed on the ground",
            Self::RudderBalance => "balance of the rudder in the wind of the day",
            Self::LowestDecision => "lowest decision speed",
        }
    }
}

/// One speed and what set it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoundedSpeed {
    /// Calibrated airspeed.
    pub calibrated: Speed,
    /// True airspeed.
    pub true_airspeed: Speed,
    /// What set it.
    pub bound: SpeedBound,
}

/// A true airspeed, m/s, and what set it.
pub(crate) type Bounded = (f64, SpeedBound);

/// Speeds of a take-off, true airspeeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct TakeOffSpeedsSi {
    pub(crate) stall: f64,
    pub(crate) rotation: Bounded,
    pub(crate) lift_off: Bounded,
    pub(crate) safety: Bounded,
    /// Lowest speed of control on the ground.
    pub(crate) control_ground: Option<Bounded>,
}

impl BoundedSpeed {
    pub(crate) fn new(air: &Air, (speed, bound): Bounded) -> Self {
        Self {
            calibrated: Speed::from_si(air.calibrated_si(speed)),
            true_airspeed: Speed::from_si(speed),
            bound,
        }
    }
}

fn greatest(first: Bounded, others: impl IntoIterator<Item = Bounded>) -> Bounded {
    others.into_iter().fold(first, |best, next| if next.0 > best.0 { next } else { best })
}

impl TakeOffSpeedsSi {
    /// Speeds at a mass; `lowest_decision` lifts VR when V1 cannot be lower.
    pub(crate) fn new(
        model: &RunModel,
        mass: f64,
        air: &Air,
        lowest_decision: Option<f64>,
    ) -> Self {
        let figures = &model.speeds;
        let stall = speed_for_lift(mass, model.area, air.density, model.lift_maximum);
        let own = |ratio: f64| (ratio * stall, SpeedBound::AeroplaneFile);
        let control = figures.control.map(|control| air.true_si(control.air));
        let over_control =
            |factor: f64| control.map(|speed| (factor * speed, SpeedBound::ControlMargin));
        let decision = lowest_decision.map(|speed| (speed, SpeedBound::LowestDecision));
        let rotation = greatest(
            own(figures.rotation),
            over_control(ROTATION_OVER_CONTROL).into_iter().chain(decision),
        );
        let over_unstick = figures
            .unstick
            .map(|ratio| (LIFT_OFF_OVER_UNSTICK * ratio * stall, SpeedBound::UnstickMargin));
        let before_lift_off = [(rotation.0, SpeedBound::SpeedBefore)];
        let lift_off =
            greatest(own(figures.lift_off), over_unstick.into_iter().chain(before_lift_off));
        let margins = [
            (SAFETY_OVER_STALL * stall, SpeedBound::StallMargin),
            (lift_off.0, SpeedBound::SpeedBefore),
        ];
        let safety = greatest(
            own(figures.safety),
            over_control(SAFETY_OVER_CONTROL).into_iter().chain(margins),
        );
        let published = |control| (air.true_si(control), SpeedBound::PublishedControl);
        let control_ground = figures.control.map(|control| published(control.ground));
        Self { stall, rotation, lift_off, safety, control_ground }
    }
}

/// Reference stall speed and landing reference speed, true airspeeds.
pub(crate) fn landing_speeds(model: &RunModel, mass: f64, air: &Air) -> (f64, Bounded) {
    let stall = speed_for_lift(mass, model.area, air.density, model.lift_maximum);
    let control = model.speeds.control_in_approach;
    let control = control.map(|speed| (air.true_si(speed), SpeedBound::ControlInApproach));
    let margin = [(REFERENCE_OVER_STALL * stall, SpeedBound::StallMargin)];
    let reference = greatest(
        (model.speeds.reference * stall, SpeedBound::AeroplaneFile),
        margin.into_iter().chain(control),
    );
    (stall, reference)
}
