//! Frost, thaw and rain: how deep the ground freezes or thaws, and how deep
//! water stands on the surface.

pub(crate) mod frost;
mod frost_year;
pub(crate) mod sheet_flow;
mod surface_factor;

pub use frost::{
    BERGGREN_LAMBDA_ALDRICH, BERGGREN_LAMBDA_EXACT, FROST_DEPTH_BERGGREN, FROST_DEPTH_STEFAN,
    FUSION_PARAMETER, THERMAL_RATIO,
};
pub use frost_year::{AirRecord, FrostClimate, FrostState, frost_year};
pub use sheet_flow::{
    SHEET_FLOW_DEPTH_GALLAWAY, SHEET_FLOW_DEPTH_IZZARD, SHEET_FLOW_DEPTH_MANNING,
    SHEET_FLOW_DEPTH_RRL, SHEET_FLOW_TIME_IZZARD,
};
pub use surface_factor::{
    FrostGroup, SURFACE_FACTORS, SurfaceFactor, THAW_STRENGTH_SOURCE, thaw_strength_index,
};
