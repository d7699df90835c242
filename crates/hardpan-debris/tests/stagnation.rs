//! The table of the sink disc against the flow field itself, integrated here:
//! a uniform sink over a disc normal to the axis at height H and its image
//! below the ground; the greatest ground speed toward it, in units of the
//! strength, is 1/K.

use approx::assert_relative_eq;
use hardpan_debris::FORMULAS;
use hardpan_quantity::Amount;

/// Ground velocity (along, across) of disc and image of unit diameter and unit
/// strength for each area, at a place on the ground.
fn ground_velocity(height: f64, x: f64, y: f64) -> (f64, f64) {
    const RINGS: usize = 60;
    const SPOKES: usize = 120;
    let (mut along, mut across) = (0.0, 0.0);
    for ring in 0..RINGS {
        let radius = 0.5 * (ring as f64 + 0.5) / RINGS as f64;
        for spoke in 0..SPOKES {
            let angle = std::f64::consts::TAU * (spoke as f64 + 0.5) / SPOKES as f64;
            let (side, up) = (radius * angle.cos(), height + radius * angle.sin());
            let area = radius * (0.5 / RINGS as f64) * std::f64::consts::TAU / SPOKES as f64;
            let distance = (x * x + (y - side) * (y - side) + up * up).sqrt();
            let pull = 2.0 * area / (4.0 * std::f64::consts::PI * distance.powi(3));
            along += pull * x;
            across += pull * (y - side);
        }
    }
    (along, across)
}

fn greatest(speed: impl Fn(f64) -> f64) -> f64 {
    (1..=600).map(|step| speed(f64::from(step) * 0.005)).fold(0.0, f64::max)
}

fn table(name: &str, height: f64) -> f64 {
    let formula = FORMULAS.iter().find(|formula| formula.name == name);
    let value = formula.and_then(|formula| formula.value(&[Amount::coefficient(height)]).ok());
    value.map_or(f64::NAN, |amount| amount.si)
}

#[test]
fn oracle_disc_strengths_are_those_of_the_flow() {
    for height in
        [0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.5, 1.75, 2.0, 2.5, 3.0]
    {
        let ahead = 1.0 / greatest(|x| ground_velocity(height, x, 0.0).0);
        assert_relative_eq!(
            table("ground-vortex-disc-bound-headwind", height),
            ahead,
            max_relative = 3e-3
        );
    }
    for height in [0.6, 0.7, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5, 3.0] {
        let across = 1.0 / greatest(|y| ground_velocity(height, 0.0, y).1);
        assert_relative_eq!(
            table("ground-vortex-disc-bound-crosswind", height),
            across,
            max_relative = 3e-3
        );
    }
}

#[test]
fn oracle_between_the_rows_within_one_per_cent() {
    for height in [0.575, 0.85, 1.4, 2.25, 2.75] {
        let ahead = 1.0 / greatest(|x| ground_velocity(height, x, 0.0).0);
        let value = table("ground-vortex-disc-bound-headwind", height);
        assert_relative_eq!(value, ahead, max_relative = 0.01);
    }
}
