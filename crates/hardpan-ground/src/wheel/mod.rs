//! From the aeroplane to loads, tyres, coverages and equivalent wheels.

pub(crate) mod coverages;
pub(crate) mod equivalent_loads;
pub(crate) mod equivalent_wheel;
pub(crate) mod gas_law;
pub(crate) mod half_space;
mod leg_geometry;
pub(crate) mod tyre;
mod tyre_chart;
mod wheel_load;

pub use coverages::{
    CHANNELISED_WANDER_M, CHANNELISED_WANDER_SOURCE, CONTACT_WIDTH, PASSES_PER_COVERAGE,
    coverages_per_pass, main_gear_tracks, tyre_contact_width,
};
pub use equivalent_loads::EquivalentLoads;
pub use equivalent_wheel::{EQUIVALENT_SINGLE_WHEEL, equivalent_single_wheel};
pub use gas_law::{TYRE_PRESSURE_GAS_LAW, TyreAir, gauge_pressure_there};
pub use leg_geometry::LegGeometry;
pub use tyre::{
    CONTACT_AREA, DEFLECTION_OF_SECTION, FOOTPRINT_AREA, FOOTPRINT_LENGTH, FOOTPRINT_WIDTH,
    LEAST_PRESSURE_SHARE, LEAST_PRESSURE_SOURCE, PRESSURE_AT_RATED_DEFLECTION, TYRE_LOAD, TyreSize,
    deflection, minimum_pressure, tyre_contact_area,
};
pub use tyre_chart::{chart_mass, chart_pressure, load_table_pressure};
pub use wheel_load::{GearArms, LegLoads, leg_loads};
