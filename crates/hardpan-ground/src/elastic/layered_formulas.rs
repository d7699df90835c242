//! The layered solution as formulas of one circle on two layers and a half
//! space, so that published tables can be held against it.

use crate::elastic::field::GroundResponse;
use crate::elastic::layered::{CircularLoad, ElasticLayer, GroundPlace, LayeredGround, Side};
use crate::elastic::one_circle::{DEPTH, DISTANCE, PRESSURE, RADIUS};
use crate::formulas::argument;
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Dimension, Length, Pressure, Quantity};

const fn thickness(name: &'static str, symbol: &'static str) -> Argument {
    argument(name, symbol, Dimension::Length, 1e-3, 100.0)
}

const fn stiffness(name: &'static str, symbol: &'static str) -> Argument {
    argument(name, symbol, Dimension::Pressure, 1e3, 1e13)
}

const fn poisson(name: &'static str, symbol: &'static str) -> Argument {
    argument(name, symbol, Dimension::Coefficient, 0.0, 0.5)
}

const ARGUMENTS: &[Argument] = &[
    PRESSURE,
    RADIUS,
    DISTANCE,
    DEPTH,
    thickness("thickness_1", "h1"),
    stiffness("stiffness_1", "E1"),
    poisson("poisson_ratio_1", "nu1"),
    thickness("thickness_2", "h2"),
    stiffness("stiffness_2", "E2"),
    poisson("poisson_ratio_2", "nu2"),
    stiffness("stiffness_3", "E3"),
    poisson("poisson_ratio_3", "nu3"),
];

const fn formula(
    name: &'static str,
    computes: &'static str,
    result: Dimension,
    evaluate: fn(&[f64]) -> f64,
) -> Formula {
    Formula {
        name,
        computes,
        expression: "bonded linear elastic layers on a half space under a uniform circle, Hankel \
                     integral of Burmister's solution; compression positive",
        arguments: ARGUMENTS,
        result,
        source: Source::new("BURMISTER-1945", "theory of layered systems", Tier::Derived),
        scatter: "exact for linear elastic layers; real gravel takes no tension",
        evaluate,
    }
}

/// Vertical stress.
pub static LAYERED_VERTICAL_STRESS: Formula = formula(
    "layered-vertical-stress",
    "vertical stress in layered elastic ground",
    Dimension::Pressure,
    |values| at(values, Side::Below, |response| response.stress[2].si()),
);

/// Radial stress at the bottom of the layer above an interface.
pub static LAYERED_RADIAL_STRESS_ABOVE: Formula = formula(
    "layered-radial-stress-above",
    "radial stress in layered elastic ground, above the interface",
    Dimension::Pressure,
    |values| at(values, Side::Above, |response| response.stress[0].si()),
);

/// Radial stress at the top of the layer below an interface.
pub static LAYERED_RADIAL_STRESS_BELOW: Formula = formula(
    "layered-radial-stress-below",
    "radial stress in layered elastic ground, below the interface",
    Dimension::Pressure,
    |values| at(values, Side::Below, |response| response.stress[0].si()),
);

/// Vertical strain at the top of the layer below an interface.
pub static LAYERED_VERTICAL_STRAIN_BELOW: Formula = formula(
    "layered-vertical-strain-below",
    "vertical strain in layered elastic ground, below the interface",
    Dimension::Coefficient,
    |values| at(values, Side::Below, |response| response.strain[2].si()),
);

/// Radial strain at the bottom of the layer above an interface.
pub static LAYERED_RADIAL_STRAIN_ABOVE: Formula = formula(
    "layered-radial-strain-above",
    "radial strain in layered elastic ground, above the interface",
    Dimension::Coefficient,
    |values| at(values, Side::Above, |response| response.strain[0].si()),
);

/// Deflection.
pub static LAYERED_DEFLECTION: Formula = formula(
    "layered-deflection",
    "deflection of layered elastic ground",
    Dimension::Length,
    |values| at(values, Side::Below, |response| response.deflection.si()),
);

fn at(values: &[f64], side: Side, value: fn(&GroundResponse) -> f64) -> f64 {
    let &[q, a, r, z, h1, e1, nu1, h2, e2, nu2, e3, nu3] = values else {
        return f64::NAN;
    };
    let layer = |thickness: Option<f64>, stiffness, poisson| ElasticLayer {
        thickness: thickness.map(Length::from_si),
        stiffness: Pressure::from_si(stiffness),
        poisson,
    };
    let layers = [layer(Some(h1), e1, nu1), layer(Some(h2), e2, nu2), layer(None, e3, nu3)];
    let origin = Length::from_si(0.0);
    let load = CircularLoad {
        x: origin,
        y: origin,
        pressure: Pressure::from_si(q),
        radius: Length::from_si(a),
    };
    let place = GroundPlace { x: Length::from_si(r), y: origin, depth: Length::from_si(z), side };
    LayeredGround::new(&layers)
        .and_then(|ground| ground.response(&[load], &place))
        .map_or(f64::NAN, |response| value(&response))
}
