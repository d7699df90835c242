//! What does layered response say of weak ground under stronger?
//!
//! A leg on one stronger layer over weak ground → the greatest vertical strain
//! at the top of the weak ground, and the strain that a published criterion
//! allows there for a number of coverages. The criterion is for paved airfields
//! and stands beside the empirical methods, not in their place.
//! Numbers: `validation/cases/ground/strain-at-the-weak-layer.toml`.

use crate::LegGeometry;
use crate::elastic::layered::{CircularLoad, ElasticLayer, GroundPlace, LayeredGround, Side};
use crate::formulas::{argument, kernel};
use crate::wheel::equivalent_wheel::{SPACING, TANDEM, WHEELS, geometry_of};
use crate::wheel::tyre::contact_radius;
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Dimension, Length, Pressure, Quantity};

/// Poisson's ratio of the stronger layer, gravel. Common practice, no source.
pub const POISSON_ABOVE: f64 = 0.35;
/// Poisson's ratio of the weak ground, soil that is not drained. Common practice, no
/// source.
pub const POISSON_BELOW: f64 = 0.45;
/// Steps from the middle of a leg to its outer wheel, in which it is looked at.
const STEPS: u32 = 8;

/// Strain at the top of the weak ground.
pub static STRAIN_UNDER_LEG: Formula = Formula {
    name: "strain-under-leg",
    computes: "greatest vertical strain at the top of weak ground under a stronger layer and all \
               wheels of a leg",
    expression: "two bonded linear elastic layers, E1 with Poisson's ratio 0.35 and thickness h \
                 over E2 with 0.45, N circles of area P/(N p) at spacing s, tandem s_t; greatest \
                 strain under and between the wheels",
    arguments: &[
        argument("leg_load", "P", Dimension::Force, 1.0, 5e6),
        WHEELS,
        SPACING,
        TANDEM,
        argument("pressure", "p", Dimension::Pressure, 5e4, 2.5e6),
        argument("thickness", "h", Dimension::Length, 1e-3, 20.0),
        argument("stiffness_above", "E1", Dimension::Pressure, 1e5, 1e12),
        argument("stiffness_below", "E2", Dimension::Pressure, 1e5, 1e12),
    ],
    result: Dimension::Ratio,
    source: Source::new("BURMISTER-1945", "theory of layered systems", Tier::Derived),
    scatter: "exact for linear elastic layers; stiffness from a bearing ratio holds within half \
              to double",
    evaluate: kernel!(|load, wheels, spacing, tandem, pressure, thickness, above, below| {
        geometry_of(wheels, spacing, tandem)
            .and_then(|leg| greatest_strain(&leg, load, pressure, thickness, [above, below]))
            .unwrap_or(f64::NAN)
    }),
};

/// Stiffness of unbound gravel over soil.
pub static STIFFNESS_OF_GRAVEL_OVER_SOIL: Formula = Formula {
    name: "stiffness-of-gravel-over-soil",
    computes: "stiffness that unbound gravel reaches over soil of a stiffness",
    expression: "E1 = E2 min(max(0.2 h^0.45, 2), 4); h in mm",
    arguments: &[
        argument("stiffness_below", "E2", Dimension::Pressure, 1e6, 1e9),
        argument("thickness", "h", Dimension::Length, 0.01, 20.0).printed_in("mm"),
    ],
    result: Dimension::Pressure,
    source: Source::new("DORMAN-METCALF-1965", "modular ratio of unbound layers", Tier::Memory),
    scatter: "the ratio of 2 to 4 is what can be compacted over soil so soft",
    evaluate: kernel!(|below, thickness| {
        below * (0.2 * (thickness * 1e3).powf(0.45)).clamp(2.0, 4.0)
    }),
};

/// Strain allowed at the top of the subgrade.
pub static STRAIN_ALLOWED: Formula = Formula {
    name: "strain-allowed-at-subgrade",
    computes: "vertical strain at the top of a subgrade that a paved airfield bears for a number \
               of coverages",
    expression: "C = 10000 (A/e)^B, A = 0.000247 + 0.000245 log10 E, B = 0.0658 E^0.559; E in \
                 psi, solved for e",
    arguments: &[
        argument("stiffness_below", "E", Dimension::Pressure, 1e7, 2.5e8).printed_in("psi"),
        argument("coverages", "C", Dimension::Coefficient, 1.0, 1e6),
    ],
    result: Dimension::Ratio,
    source: Source::new("TM-5-825-2-1", "subgrade strain criterion", Tier::Memory),
    scatter: "one in ten in strain is one in three in coverages",
    evaluate: kernel!(|below, coverages| {
        let psi = below / hardpan_quantity::psi(1.0).si();
        let allowed = 0.000_247 + 0.000_245 * psi.log10();
        allowed * (coverages / 10_000.0).powf(-1.0 / (0.0658 * psi.powf(0.559)))
    }),
};

fn greatest_strain(
    leg: &LegGeometry,
    load: f64,
    pressure: f64,
    thickness: f64,
    [above, below]: [f64; 2],
) -> Option<f64> {
    let layer = |thickness: Option<f64>, stiffness, poisson| ElasticLayer {
        thickness: thickness.map(Length::from_si),
        stiffness: Pressure::from_si(stiffness),
        poisson,
    };
    let layers = [layer(Some(thickness), above, POISSON_ABOVE), layer(None, below, POISSON_BELOW)];
    let ground = LayeredGround::new(&layers).ok()?;
    let radius = contact_radius(load / f64::from(leg.wheels()), pressure);
    let loads: Vec<CircularLoad> = leg
        .places()
        .iter()
        .map(|[x, y]| CircularLoad {
            x: Length::from_si(*x),
            y: Length::from_si(*y),
            pressure: Pressure::from_si(pressure),
            radius: Length::from_si(radius),
        })
        .collect();
    let mut greatest: Option<f64> = None;
    for [x, y] in looked_at(leg) {
        let place = GroundPlace {
            x: Length::from_si(x),
            y: Length::from_si(y),
            depth: Length::from_si(thickness),
            side: Side::Below,
        };
        let strain = ground.response(&loads, &place).ok()?.strain[2].si();
        greatest = Some(greatest.map_or(strain, |most| most.max(strain)));
    }
    greatest
}

/// Places of one quarter of a leg, from its middle to its outer wheel.
fn looked_at(leg: &LegGeometry) -> Vec<[f64; 2]> {
    let [across, along] = leg.half_extents();
    let shares = |extent: f64| {
        let steps = if extent > 0.0 { STEPS } else { 0 };
        (0..=steps).map(move |step| extent * f64::from(step) / f64::from(STEPS))
    };
    shares(along).flat_map(|y| shares(across).map(move |x| [x, y])).collect()
}
