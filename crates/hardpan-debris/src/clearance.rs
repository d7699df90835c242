//! How near propellers, pods and belly come to the ground with tyres flat,
//! struts bottomed or wheels in ruts, and over an arrester cable.

use crate::error::{Error, within};
use hardpan_quantity::{Force, Length, Ratio, Speed, inches, metres, metres_per_second, ratio};

/// Where the three ground contacts stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stance {
    /// Nose wheel to main wheels.
    pub wheelbase: Length,
    /// Left to right main wheels.
    pub track: Length,
}

/// How far the axle of each leg comes down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drops {
    /// Nose.
    pub nose: Length,
    /// Left main.
    pub left: Length,
    /// Right main.
    pub right: Length,
}

/// How far a leg comes down when its tyres are flat and its strut bottomed; one
/// leg at a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FailedLegs {
    /// The nose leg.
    pub nose: Length,
    /// A main leg.
    pub main: Length,
}

/// A point of the airframe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BodyPoint {
    /// Distance aft of the nose wheel.
    pub aft: Length,
    /// Distance to the right of the centre line, negative to the left.
    pub right: Length,
    /// Height over level ground, gear statically deflected.
    pub height: Length,
}

/// `D_n (1 − x/B) + x/B [(D_l + D_r)/2 + (D_r − D_l) y/T]`: lowering of a point.
pub(crate) fn lowering(
    wheelbase: f64,
    track: f64,
    aft: f64,
    right: f64,
    nose: f64,
    left_drop: f64,
    right_drop: f64,
) -> f64 {
    let share = aft / wheelbase;
    let mains = 0.5 * (left_drop + right_drop) + (right_drop - left_drop) * right / track;
    nose * (1.0 - share) + share * mains
}

/// `√(F/m)`: speed of a wave along a cable.
pub(crate) fn cable_wave(tension: f64, mass_per_m: f64) -> f64 {
    (tension / mass_per_m).sqrt()
}

/// `√(2 R h − h²)/(R − h)`: push over weight that climbs an edge with a rigid wheel.
pub(crate) fn edge_push(radius: f64, edge: f64) -> f64 {
    (2.0 * radius * edge - edge * edge).sqrt() / (radius - edge)
}

/// How far an axle comes down: loaded radius less flat radius, the stroke left
/// to the bottom of the strut, and the sinkage or rut under the wheel.
///
/// # Errors
/// [`Error`] for values out of range, or a flat radius above the loaded one.
pub fn axle_drop(
    loaded_radius: Length,
    flat_radius: Length,
    stroke_left: Length,
    sinkage: Length,
) -> Result<Length, Error> {
    let loaded = within("loaded tyre radius", loaded_radius, 0.05..=1.5)?;
    within("flat tyre radius", flat_radius, 0.0..=loaded)?;
    within("stroke left", stroke_left, 0.0..=1.5)?;
    within("sinkage or rut depth", sinkage, 0.0..=1.5)?;
    Ok(loaded_radius - flat_radius + stroke_left + sinkage)
}

/// Least distance between a propeller and the ground, gear statically deflected.
/// Source: [CFR-14-25-925].
#[must_use]
pub fn propeller_clearance_rule(nose_wheel: NoseOrTail) -> Length {
    match nose_wheel {
        NoseOrTail::NoseWheel => inches(7.0),
        NoseOrTail::TailWheel => inches(9.0),
    }
}

/// Arrangement of the gear.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NoseOrTail {
    /// Nose wheel.
    NoseWheel,
    /// Tail wheel.
    TailWheel,
}

impl Stance {
    /// How far a point comes down when the axles do; a point outboard of a wheel
    /// comes down more than its axle. Small angles.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn lowering(&self, point: &BodyPoint, drops: &Drops) -> Result<Length, Error> {
        let wheelbase = within("wheelbase", self.wheelbase, 0.5..=60.0)?;
        let track = within("track", self.track, 0.3..=25.0)?;
        let aft = within("distance aft of the nose wheel", point.aft, -30.0..=100.0)?;
        let right = within("distance from the centre line", point.right, -50.0..=50.0)?;
        let drop = |name, value| within(name, value, -1.0..=3.0);
        let nose = drop("drop of the nose axle", drops.nose)?;
        let left_drop = drop("drop of the left axle", drops.left)?;
        let right_drop = drop("drop of the right axle", drops.right)?;
        Ok(metres(lowering(wheelbase, track, aft, right, nose, left_drop, right_drop)))
    }

    /// Least clearance of a point that may stand on either side: wheels in a rut
    /// of a depth, all or any one of them; one leg down by what its flat tyre and
    /// its strut take, if they fail; the ground raised under the point by a bump.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn least_clearance(
        &self,
        point: &BodyPoint,
        rut: Length,
        bump: Length,
        failed: Option<FailedLegs>,
    ) -> Result<Length, Error> {
        let none = metres(0.0);
        let even = |drop: Length| Drops { nose: drop, left: drop, right: drop };
        let mut cases = vec![even(none), even(rut)];
        for rest in [none, rut] {
            let failing = failed.unwrap_or(FailedLegs { nose: none, main: none });
            cases.push(Drops { nose: rut + failing.nose, ..even(rest) });
            cases.push(Drops { left: rut + failing.main, ..even(rest) });
            cases.push(Drops { right: rut + failing.main, ..even(rest) });
        }
        let other = BodyPoint { right: -point.right, ..*point };
        let mut least: Option<Length> = None;
        for drops in &cases {
            for side in [point, &other] {
                let clearance = self.clearance(side, drops, bump)?;
                least = Some(least.map_or(clearance, |least| least.min(clearance)));
            }
        }
        Ok(least.unwrap_or(point.height))
    }

    /// Clearance of a point with the axles down and the ground raised under it
    /// by `bumps`; not positive means that it touches.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn clearance(
        &self,
        point: &BodyPoint,
        drops: &Drops,
        bumps: Length,
    ) -> Result<Length, Error> {
        within("height of the point", point.height, 0.0..=30.0)?;
        within("bumps under the point", bumps, 0.0..=3.0)?;
        Ok(point.height - self.lowering(point, drops)? - bumps)
    }
}

/// Margin of a low point over an arrester cable: its height less the cable's top
/// and its bounce. 90 mm and 150 mm are planning values (the bounce is a judgement).
///
/// # Errors
/// [`Error`] for values out of range.
pub fn cable_margin(height: Length, cable_top: Length, bounce: Length) -> Result<Length, Error> {
    within("height of the low point", height, 0.0..=10.0)?;
    within("top of the cable", cable_top, 0.0..=1.0)?;
    within("bounce of the cable", bounce, 0.0..=2.0)?;
    Ok(height - cable_top - bounce)
}

/// Speed of the kink that a wheel drives along an arrester cable; crossing near
/// it keeps the kink with the wheel.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn cable_wave_speed(tension: Force, kilograms_per_metre: f64) -> Result<Speed, Error> {
    use hardpan_quantity::Dimension::Coefficient;
    let tension = within("tension of the cable", tension, 1.0..=1e6)?;
    let mass = crate::error::number(
        "mass of a metre of cable",
        kilograms_per_metre,
        0.1..=50.0,
        Coefficient,
    )?;
    Ok(metres_per_second(cable_wave(tension, mass)))
}

/// Push over wheel load that climbs an edge with a rigid wheel from rest.
///
/// # Errors
/// [`Error`] for values out of range or an edge above 90 % of the radius.
pub fn push_over_edge(wheel_radius: Length, edge: Length) -> Result<Ratio, Error> {
    let radius = within("wheel radius", wheel_radius, 0.05..=1.5)?;
    let edge = within("height of the edge", edge, 0.0..=0.9 * radius)?;
    Ok(ratio(edge_push(radius, edge)))
}
