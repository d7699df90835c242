//! The rules, one a file, in the order of their codes.
//!
//! Written by `cargo dev generate` from the files of this folder.

mod a10_mass;
mod a15_zero_fuel;
mod a20_balance;
mod d10_inlet_vortex;
mod d15_propeller_vortex;
mod d20_vortex_along_the_run;
mod d25_vortex_while_taxiing;
mod d30_rolling_take_off;
mod d40_reverse_thrust;
mod d50_blast;
mod d55_dust;
mod d60_clearances;
mod d65_arrester_cable;
mod d70_thrown_stones;
mod d80_stones_by_handling;
mod e10_protective_equipment;
mod f10_take_off_distance;
mod f15_approved_charts;
mod f20_accelerate_stop;
mod f25_thrust_setting;
mod f30_crosswind_limit;
mod f35_ground_control;
mod f37_room_to_swing;
mod f40_climb;
mod f45_obstacles;
mod f50_landing_distance;
mod f52_long_touchdown;
mod f54_hydroplaning;
mod f57_go_around;
mod f60_brake_energy;
mod f65_brakes_between;
mod g10_surfacing;
mod g20_strength_main;
mod g22_braking_zones;
mod g24_turning_places;
mod g26_balance_range;
mod g28_crosswind;
mod g30_strength_nose;
mod g40_passes_left;
mod g50_ruts;
mod g52_ruts_along;
mod g55_measured_ruts;
mod g60_layered_strain;
mod g70_strength_number;
mod l10_limits_checked;
mod l20_limits_to_hold;
mod r10_evenness;
mod r20_slope;
mod r30_crossfall;
mod r40_single_irregularities;
mod r50_roughness;
mod r60_washboard;
mod r70_ride;
mod r80_curves_and_sight;
mod r90_graded_strip;
mod s10_survey;
mod s20_soundings;
mod s30_day_reports;
mod s35_rain_on_a_dry_surface;
mod s40_characteristic_strength;
mod s45_between_soundings;
mod s50_reported_areas;
mod s60_state_when_tested;
mod s65_season;
mod s70_state_by_the_book;
mod s80_daylight;
mod t10_tyre_pressure;
mod t20_tyre_deflection;
mod t30_tyre_speed;
mod t40_tyre_temperature;
mod w10_standing_water;
mod w20_loose_material;
mod w30_water_after_rain;
mod w40_water_in_ruts;

use crate::rule::Rule;

/// Every rule.
pub(crate) static RULES: &[Rule] = &[
    a10_mass::RULE,
    a15_zero_fuel::RULE,
    a20_balance::RULE,
    d10_inlet_vortex::RULE,
    d15_propeller_vortex::RULE,
    d20_vortex_along_the_run::RULE,
    d25_vortex_while_taxiing::RULE,
    d30_rolling_take_off::RULE,
    d40_reverse_thrust::RULE,
    d50_blast::RULE,
    d55_dust::RULE,
    d60_clearances::RULE,
    d65_arrester_cable::RULE,
    d70_thrown_stones::RULE,
    d80_stones_by_handling::RULE,
    e10_protective_equipment::RULE,
    f10_take_off_distance::RULE,
    f15_approved_charts::RULE,
    f20_accelerate_stop::RULE,
    f25_thrust_setting::RULE,
    f30_crosswind_limit::RULE,
    f35_ground_control::RULE,
    f37_room_to_swing::RULE,
    f40_climb::RULE,
    f45_obstacles::RULE,
    f50_landing_distance::RULE,
    f52_long_touchdown::RULE,
    f54_hydroplaning::RULE,
    f57_go_around::RULE,
    f60_brake_energy::RULE,
    f65_brakes_between::RULE,
    g10_surfacing::RULE,
    g20_strength_main::RULE,
    g22_braking_zones::RULE,
    g24_turning_places::RULE,
    g26_balance_range::RULE,
    g28_crosswind::RULE,
    g30_strength_nose::RULE,
    g40_passes_left::RULE,
    g50_ruts::RULE,
    g52_ruts_along::RULE,
    g55_measured_ruts::RULE,
    g60_layered_strain::RULE,
    g70_strength_number::RULE,
    l10_limits_checked::RULE,
    l20_limits_to_hold::RULE,
    r10_evenness::RULE,
    r20_slope::RULE,
    r30_crossfall::RULE,
    r40_single_irregularities::RULE,
    r50_roughness::RULE,
    r60_washboard::RULE,
    r70_ride::RULE,
    r80_curves_and_sight::RULE,
    r90_graded_strip::RULE,
    s10_survey::RULE,
    s20_soundings::RULE,
    s30_day_reports::RULE,
    s35_rain_on_a_dry_surface::RULE,
    s40_characteristic_strength::RULE,
    s45_between_soundings::RULE,
    s50_reported_areas::RULE,
    s60_state_when_tested::RULE,
    s65_season::RULE,
    s70_state_by_the_book::RULE,
    s80_daylight::RULE,
    t10_tyre_pressure::RULE,
    t20_tyre_deflection::RULE,
    t30_tyre_speed::RULE,
    t40_tyre_temperature::RULE,
    w10_standing_water::RULE,
    w20_loose_material::RULE,
    w30_water_after_rain::RULE,
    w40_water_in_ruts::RULE,
];
