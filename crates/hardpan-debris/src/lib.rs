//! MEASURE: what loose stones and dust can do to an aeroplane along its run:
//! inlet and propeller vortices, stones thrown by tyres, blast, dust, reverse
//! thrust and clearances. Every figure carries how sure its weakest input is.

mod blast;
mod catalogue;
mod clearance;
mod damage;
mod dust;
mod error;
mod inlet_flow;
mod propeller;
mod reverse;
mod run;
mod stagnation;
mod stone;
mod stone_table;
mod throw;
mod thrown;
mod tyre_throw;
mod vortex;

pub use blast::{ErosionSurface, Jet, JetPath, blast_pressure, missile_speed};
pub use catalogue::FORMULAS;
pub use clearance::{
    BodyPoint, Drops, FailedLegs, NoseOrTail, Stance, axle_drop, cable_margin, cable_wave_speed,
    propeller_clearance_rule, push_over_edge,
};
pub use damage::{DAMAGE_BAND_TIER, DamageBand, Laminate, perforation_energy};
pub use dust::{
    AIR_VISCOSITY_PA_S, Grain, clearing_time, cloud_share, cloud_time, largest_stone_rolled,
};
pub use error::Error;
pub use inlet_flow::{Air, flow_in_air, inlet_velocity, part_thrust_flow, specific_thrust};
pub use propeller::{PROPELLER_VORTEX_TIER, Propeller, Slipstream, slipstream, static_thrust};
pub use reverse::{Efflux, REVERSE_TIER, captured_stream_radius};
pub use run::{
    PropellerVortexPoint, ScheduleRow, VortexPoint, propeller_vortex_along, rolling_schedule,
    static_share, straight_schedule, stretches, vortex_along,
};
pub use stagnation::{Bounds, WindSide, bounds, dissipator_strength, ground_inflow, stones_met};
pub use stone::{Flight, Launch, Stone, Strike};
pub use stone_table::{StoneRow, stone_table};
pub use throw::{Surface, THROW_TIER, Throw, Tyre};
pub use thrown::{Crossing, Hits, SPEED_CLASSES, StonePath, Thrown};
pub use tyre_throw::{
    descent_speed, edge_launch_speed, launch_speed_to_reach, published_envelope, sideways_share,
    stones_under_edges, tread_carry_speed,
};
pub use vortex::{Assurance, Inlet, RunWind, VORTEX_TIER, VortexState, critical_ratio};
