//! Stresses, strains and deflections of elastic ground, uniform or layered.

mod circle_field;
mod elliptic;
mod field;
mod layer_modes;
mod layered;
pub(crate) mod layered_formulas;
pub(crate) mod one_circle;
mod spectrum;
pub(crate) mod stiffness;
pub(crate) mod strain;

pub use field::GroundResponse;
pub use layered::{CircularLoad, ElasticLayer, GroundPlace, LayeredGround, Side};
pub use layered_formulas::{
    LAYERED_DEFLECTION, LAYERED_RADIAL_STRAIN_ABOVE, LAYERED_RADIAL_STRESS_ABOVE,
    LAYERED_RADIAL_STRESS_BELOW, LAYERED_VERTICAL_STRAIN_BELOW, LAYERED_VERTICAL_STRESS,
};
pub use one_circle::{
    CIRCLE_CENTRE_DEFLECTION, CIRCLE_DEFLECTION_ANYWHERE, CIRCLE_EDGE_SURFACE_DEFLECTION,
    CIRCLE_RADIAL_STRESS, CIRCLE_RIGID_DEFLECTION, CIRCLE_VERTICAL_STRESS,
    CIRCLE_VERTICAL_STRESS_ANYWHERE,
};
pub use stiffness::{EQUIVALENT_THICKNESS_ODEMARK, STIFFNESS_HEUKELOM_1962, STIFFNESS_TRL};
pub use strain::{
    POISSON_ABOVE, POISSON_BELOW, STIFFNESS_OF_GRAVEL_OVER_SOIL, STRAIN_ALLOWED, STRAIN_UNDER_LEG,
};
