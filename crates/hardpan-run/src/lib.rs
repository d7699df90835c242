//! Air, wind, friction, take-off, rejected take-off and landing by station, on
//! wheel brakes and counted reverse thrust. [`RunModel`] gathers what a run needs of an
//! aeroplane and lists what is missing; [`Situation`] adds the day; [`FORMULAS`] lists all.

mod air;
mod catalogue;
mod decision;
mod decision_sweep;
mod engine;
mod entry;
mod error;
mod final_climb;
mod fit;
mod go_around;
mod grip;
mod held;
mod landing;
mod motion;
mod need;
mod published;
mod regulation;
mod reverse;
mod run_model;
mod situation;
mod speeds;
mod take_off;

pub use air::sun::{day_length, is_daylight, sun_elevation};
pub use air::{Air, wind::WindComponents};
pub use catalogue::FORMULAS;
pub use decision::{Decision, DecisionChoice, DecisionRange};
pub use decision_sweep::{AtDecision, decision_sweep};
pub use engine::{schedule::ThrustSchedule, thrust::FullThrust};
pub use error::{Error, GroundFault};
pub use final_climb::FinalClimbModel;
pub use fit::{CalibratedConstant, Calibration, ChartResiduals, Residuals, WorstPoint, calibrate};
pub use go_around::{ClimbAtSpeed, GoAround, GoAroundModel};
pub use grip::{
    Coefficient, Friction, anti_skid_efficiency, friction, hydroplaning_speed,
    spin_up_hydroplaning_speed,
};
pub use held::{CrosswindHeld, SideGrip, crosswind_held, steering_needs};
pub use landing::{LandingPlan, LandingRun, landing};
pub use motion::airborne::ClimbForces;
pub use motion::climb::{ClimbFigures, EngineOutClimb};
pub use motion::ground::Ground;
pub use motion::net_path::{ClimbPath, OBSTACLE_CORRIDOR, PathKind, obstacle_half_width};
pub use regulation::{
    FINAL_OVER_STALL, LIFT_OFF_OVER_UNSTICK, REFERENCE_OVER_STALL, ROTATION_OVER_CONTROL,
    SAFETY_OVER_CONTROL, SAFETY_OVER_STALL, all_engines_rule_factor, approach_climb_gradient,
    engine_out_gradients, final_climb_gradient, landing_climb_gradient, landing_factor,
    net_gradient_reduction,
};
pub use reverse::ReverseThrust;
pub use run_model::RunModel;
pub use situation::Situation;
pub use speeds::{BoundedSpeed, SpeedBound};
pub use take_off::{Available, CarriedOn, TakeOffPlan, TakeOffRun, TakeOffSpeeds, take_off};
