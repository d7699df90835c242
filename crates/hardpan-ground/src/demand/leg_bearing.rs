//! The strength that ground at a depth must have under a whole leg, as one
//! formula: equivalent single wheel and coverages in one step.

use crate::demand::unsurfaced::{
    FEWEST_COVERAGES, MOST_COVERAGES, STRENGTH_PA, cover_term, factor,
};
use crate::formulas::{argument, kernel};
use crate::wheel::equivalent_loads::resistance_at;
use crate::wheel::equivalent_wheel::{SPACING, TANDEM, WHEELS, geometry_of};
use crate::wheel::tyre::contact_area;
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

/// Bearing ratio that ground under a cover needs below a leg.
pub static LEG_BEARING: Formula = Formula {
    name: "unsurfaced-bearing-ratio-under-leg",
    computes: "bearing ratio that ground under a cover needs below a leg of one or more wheels",
    expression: "CBR = ESWL / (8.1 [(t / (0.176 log10 C + 0.120))^2 + A/pi]), A = (P_leg/N)/p, \
                 ESWL of N wheels at spacing s, tandem s_t, by equal deflection at depth t; t in, \
                 ESWL lbf, A in^2; where a wider contact circle would ask for more, up to circles \
                 that touch, that one counts, so that more pressure never asks for less",
    arguments: &[
        argument("leg_load", "P_leg", Dimension::Force, 1.0, 2e6).printed_in("lbf"),
        WHEELS,
        SPACING,
        TANDEM,
        argument("pressure", "p", Dimension::Pressure, 5e4, 2.5e6).printed_in("psi"),
        argument("cover", "t", Dimension::Length, 0.1, 6.0).printed_in("in"),
        argument("coverages", "C", Dimension::Coefficient, FEWEST_COVERAGES, MOST_COVERAGES),
    ],
    result: Dimension::BearingRatio,
    source: Source::new("HAMMITT-1970", "thickness by coverages", Tier::Memory),
    scatter: "not published; read with the scatter of the bearing ratio itself",
    evaluate: kernel!(|leg_load, wheels, spacing, tandem, pressure, cover, coverages| {
        needed(leg_load, [wheels, spacing, tandem], pressure, cover, coverages)
    }),
};

fn needed(leg_load: f64, leg: [f64; 3], pressure: f64, cover: f64, coverages: f64) -> f64 {
    let [wheels, spacing, tandem] = leg;
    geometry_of(wheels, spacing, tandem).map_or(f64::NAN, |geometry| {
        let wheel = leg_load / wheels;
        let square = contact_area(wheel, pressure) / PI;
        let cover_term = cover_term(cover, factor(coverages));
        wheel / (STRENGTH_PA * resistance_at(&geometry, cover, cover_term, square))
    })
}
