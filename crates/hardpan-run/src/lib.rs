//! The run: air of the day, wind along the strip, friction, take-off, rejected
//! take-off and landing by station, on wheel brakes alone.
//!
//! [`RunModel`] gathers what a run needs of an aeroplane and lists all that is
//! missing at once; [`Situation`] adds mass, air, wind and [`Ground`];
//! [`take_off`] and [`landing`] give distances, speeds, gradients, brake energy
//! and traces. Every published formula stands in [`FORMULAS`].

mod air;
mod airborne;
mod airspeed;
mod approach;
mod atmosphere;
mod brake_energy;
mod catalogue;
mod climb;
mod constant_field;
mod constant_roll;
mod decision;
mod departure;
mod entry;
mod error;
mod friction;
mod friction_table;
mod ground;
mod hydroplaning;
mod integrate;
mod landing;
mod need;
mod polar;
mod propeller;
mod regulation;
mod roll;
mod run_model;
mod situation;
mod speeds;
mod take_off;
mod thrust;
mod trace;
mod turbofan;
mod wet_paved;
mod wind;

pub use air::Air;
pub use catalogue::FORMULAS;
pub use climb::{ClimbFigures, EngineOutClimb};
pub use decision::{Decision, DecisionChoice, DecisionRange};
pub use error::{Error, GroundFault};
pub use friction::{Coefficient, Friction, friction};
pub use ground::Ground;
pub use hydroplaning::{hydroplaning_speed, spin_up_hydroplaning_speed};
pub use landing::{LandingPlan, LandingRun, landing};
pub use regulation::{
    all_engines_rule_factor, engine_out_gradients, landing_factor, net_gradient_reduction,
};
pub use run_model::RunModel;
pub use situation::Situation;
pub use speeds::{BoundedSpeed, SpeedBound};
pub use take_off::{Available, CarriedOn, TakeOffPlan, TakeOffRun, TakeOffSpeeds, take_off};
pub use wet_paved::anti_skid_efficiency;
pub use wind::WindComponents;
