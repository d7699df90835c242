//! MEASURE: what loose stones and dust can do to an aeroplane along its run:
//! inlet and propeller vortices, stones thrown by tyres, blast, dust, reverse
//! thrust and clearances. Every figure carries how sure its weakest input is.

mod catalogue;
mod error;
mod inlet_flow;
mod propeller;
mod run;
mod stagnation;
mod vortex;

pub use catalogue::FORMULAS;
pub use error::Error;
pub use inlet_flow::{Air, flow_in_air, inlet_velocity, part_thrust_flow, specific_thrust};
pub use propeller::{PROPELLER_VORTEX_TIER, Propeller, Slipstream, slipstream, static_thrust};
pub use run::{ScheduleRow, VortexPoint, rolling_schedule, static_share, stretches, vortex_along};
pub use stagnation::{Bounds, WindSide, bounds, dissipator_strength, ground_inflow, stones_met};
pub use vortex::{Assurance, Inlet, RunWind, VORTEX_TIER, VortexState, critical_ratio};
