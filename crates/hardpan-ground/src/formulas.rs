//! The catalogue of every published formula of this crate.

use hardpan_model::{Argument, Formula};
use hardpan_quantity::Dimension;

/// One argument of a catalogue entry, bounds in SI.
pub(crate) const fn argument(
    name: &'static str,
    symbol: &'static str,
    dimension: Dimension,
    minimum: f64,
    maximum: f64,
) -> Argument {
    Argument::new(name, symbol, dimension, minimum, maximum)
}

/// A kernel of named arguments as a function of a slice; NaN for a wrong
/// number of values, which `Formula::value` refuses beforehand.
macro_rules! kernel {
    (|$($name:ident),+| $body:expr) => {
        |values: &[f64]| match *values {
            [$($name),+] => $body,
            _ => f64::NAN,
        }
    };
}
pub(crate) use kernel;

/// All formulas, in the order of the method.
pub static FORMULAS: &[&Formula] = &[
    &crate::sounding::penetrometer::CBR_WEBSTER_1992,
    &crate::sounding::penetrometer::CBR_LEAN_CLAY_WEBSTER_1994,
    &crate::sounding::penetrometer::CBR_FAT_CLAY_WEBSTER_1994,
    &crate::sounding::penetrometer_rivals::CBR_TRL,
    &crate::sounding::penetrometer_rivals::CBR_KLEYN_1975,
    &crate::sounding::penetrometer_rivals::CBR_LIVNEH_1987,
    &crate::sounding::penetrometer_rivals::CBR_HARISON_1987,
    &crate::sounding::strength_tests::CBR_FROM_STIFFNESS_HEUKELOM_1962,
    &crate::sounding::strength_tests::CBR_FROM_STIFFNESS_TRL,
    &crate::sounding::between::DEVIATION_BETWEEN_SOUNDINGS,
    &crate::sounding::between::DEVIATION_BESIDE_SOUNDING,
    &crate::wheel::tyre::TYRE_LOAD,
    &crate::wheel::tyre::FOOTPRINT_AREA,
    &crate::wheel::tyre::FOOTPRINT_LENGTH,
    &crate::wheel::tyre::FOOTPRINT_WIDTH,
    &crate::wheel::tyre::PRESSURE_AT_RATED_DEFLECTION,
    &crate::wheel::tyre::DEFLECTION_OF_SECTION,
    &crate::wheel::tyre::CONTACT_AREA,
    &crate::wheel::gas_law::TYRE_PRESSURE_GAS_LAW,
    &crate::wheel::coverages::CONTACT_WIDTH,
    &crate::wheel::coverages::PASSES_PER_COVERAGE,
    &crate::wheel::equivalent_wheel::EQUIVALENT_SINGLE_WHEEL,
    &crate::demand::unsurfaced::HAMMITT_COVER,
    &crate::demand::unsurfaced::HAMMITT_BEARING,
    &crate::demand::leg_bearing::LEG_BEARING,
    &crate::demand::surface_shear::UNDRAINED_STRENGTH,
    &crate::demand::surface_shear::INCLINED_BEARING,
    &crate::pavement::flexible::FLEXIBLE_COVER_ROOT,
    &crate::pavement::flexible::FLEXIBLE_COVER_CUBIC,
    &crate::pavement::flexible::SINGLE_WHEEL_FACTOR,
    &crate::pavement::classification_number::FLEXIBLE_ACN_1983,
    &crate::pavement::classification_number::FLEXIBLE_ACN_2007,
    &crate::rut::barber::BARBER_RUT,
    &crate::rut::calibration::CALIBRATED_RUT,
    &crate::rut::calibration::PASSES_TO_RUT,
    &crate::rut::giroud_han::GIROUD_HAN_THICKNESS,
    &crate::rut::giroud_han::GIROUD_HAN_RUT,
    &crate::rut::rolling::ROLLING_OF_RUTTING,
    &crate::elastic::stiffness::STIFFNESS_HEUKELOM_1962,
    &crate::elastic::stiffness::STIFFNESS_TRL,
    &crate::elastic::stiffness::EQUIVALENT_THICKNESS_ODEMARK,
    &crate::elastic::one_circle::CIRCLE_VERTICAL_STRESS,
    &crate::elastic::one_circle::CIRCLE_RADIAL_STRESS,
    &crate::elastic::one_circle::CIRCLE_CENTRE_DEFLECTION,
    &crate::elastic::one_circle::CIRCLE_VERTICAL_STRESS_ANYWHERE,
    &crate::elastic::one_circle::CIRCLE_DEFLECTION_ANYWHERE,
    &crate::elastic::one_circle::CIRCLE_EDGE_SURFACE_DEFLECTION,
    &crate::elastic::one_circle::CIRCLE_RIGID_DEFLECTION,
    &crate::elastic::layered_formulas::LAYERED_VERTICAL_STRESS,
    &crate::elastic::layered_formulas::LAYERED_RADIAL_STRESS_ABOVE,
    &crate::elastic::layered_formulas::LAYERED_RADIAL_STRESS_BELOW,
    &crate::elastic::layered_formulas::LAYERED_VERTICAL_STRAIN_BELOW,
    &crate::elastic::layered_formulas::LAYERED_RADIAL_STRAIN_ABOVE,
    &crate::elastic::layered_formulas::LAYERED_DEFLECTION,
    &crate::elastic::strain::STIFFNESS_OF_GRAVEL_OVER_SOIL,
    &crate::elastic::strain::STRAIN_UNDER_LEG,
    &crate::elastic::strain::STRAIN_ALLOWED,
    &crate::weather::frost::FROST_DEPTH_STEFAN,
    &crate::weather::frost::FROST_DEPTH_BERGGREN,
    &crate::weather::frost::THERMAL_RATIO,
    &crate::weather::frost::FUSION_PARAMETER,
    &crate::weather::frost::BERGGREN_LAMBDA_ALDRICH,
    &crate::weather::frost::BERGGREN_LAMBDA_EXACT,
    &crate::weather::sheet_flow::SHEET_FLOW_DEPTH_MANNING,
    &crate::weather::sheet_flow::SHEET_FLOW_DEPTH_GALLAWAY,
    &crate::weather::sheet_flow::SHEET_FLOW_DEPTH_RRL,
    &crate::weather::sheet_flow::SHEET_FLOW_DEPTH_IZZARD,
    &crate::weather::sheet_flow::SHEET_FLOW_TIME_IZZARD,
];
