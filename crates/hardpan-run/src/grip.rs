//! What the wheels meet: rolling and braking friction, water.

pub(crate) mod contaminant;
mod fitted;
pub(crate) mod friction;
mod friction_table;
pub(crate) mod hydroplaning;
pub(crate) mod wet_paved;

pub use friction::{Coefficient, Friction, friction};
pub use hydroplaning::{hydroplaning_speed, spin_up_hydroplaning_speed};
pub use wet_paved::anti_skid_efficiency;
