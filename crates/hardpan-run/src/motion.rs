//! The aeroplane in motion: ground, forces, integrator, air parts, traces.

pub(crate) mod airborne;
pub(crate) mod approach;
pub(crate) mod brake_energy;
pub(crate) mod climb;
pub(crate) mod departure;
pub(crate) mod ground;
pub(crate) mod integrate;
pub(crate) mod net_path;
pub(crate) mod parabola;
pub(crate) mod polar;
pub(crate) mod roll;
pub(crate) mod steering;
pub(crate) mod trace;
