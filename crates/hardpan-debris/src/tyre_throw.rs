//! How a rolling tyre throws the stones it meets, and what it takes for them to
//! reach the aeroplane.

use crate::error::{Error, number, within};
use hardpan_quantity::{
    Angle, Length, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2, Speed, metres, metres_per_second,
    ratio,
};

/// `V √(2d/R − (d/R)²)`: speed at which the tread comes down on a stone of
/// height d; NaN when the stone is higher than the axle.
pub(crate) fn descent_speed_kernel(speed: f64, stone: f64, radius: f64) -> f64 {
    let share = stone / radius;
    speed * (2.0 * share - share * share).sqrt()
}

/// `√(2 g h)`: upward speed needed to reach a height without drag.
pub(crate) fn speed_to_reach(height: f64, gravity: f64) -> f64 {
    (2.0 * gravity * height).sqrt()
}

/// Distance behind the wheel at which a stone first reaches a height, without
/// drag: `(V − v_x) (v_z − √(v_z² − 2 g h))/g`; NaN when it does not.
pub(crate) fn strike_distance(
    ground: f64,
    forward: f64,
    upward: f64,
    height: f64,
    gravity: f64,
) -> f64 {
    let rise = (upward - (upward * upward - 2.0 * gravity * height).sqrt()) / gravity;
    (ground - forward) * rise
}

/// `2 E/d²`: secant stiffness of a tyre that gives a stone the energy E over d.
pub(crate) fn secant_stiffness(energy: f64, diameter: f64) -> f64 {
    2.0 * energy / (diameter * diameter)
}

/// `n · 2 d · e · s`: loose stones under the edges of tyres, each edge as wide as
/// two stones.
pub(crate) fn edge_stones(loose: f64, stone: f64, edges: f64, rolled: f64) -> f64 {
    loose * 2.0 * stone * edges * rolled
}

/// Loose stones that come under the edges of tyres. That an edge throws from a
/// band of two stones' width is a judgement.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn stones_under_edges(
    loose_per_square_metre: f64,
    stone: Length,
    edges: u32,
    rolled: Length,
) -> Result<f64, Error> {
    let count = hardpan_quantity::Dimension::Count;
    let loose = number("loose stones on a square metre", loose_per_square_metre, 0.0..=1e6, count)?;
    let stone = within("stone diameter", stone, 1e-4..=0.5)?;
    let edges = number("edges of tyres", f64::from(edges), 1.0..=256.0, count)?;
    let rolled = within("distance rolled", rolled, 0.0..=40_000.0)?;
    Ok(edge_stones(loose, stone, edges, rolled))
}

/// Speed at which the tread of a rolling tyre comes down on a stone, and the
/// angle from the lowest point at which they meet.
///
/// # Errors
/// [`Error`] for values out of range or a stone higher than half the radius.
pub fn descent_speed(
    ground_speed: Speed,
    stone: Length,
    tyre_radius: Length,
) -> Result<(Speed, Angle), Error> {
    let speed = within("ground speed", ground_speed, 0.0..=200.0)?;
    let radius = within("tyre radius", tyre_radius, 0.05..=1.5)?;
    let stone = within("stone height", stone, 0.0..=0.5 * radius)?;
    let angle = Angle::from_si((1.0 - stone / radius).acos());
    Ok((metres_per_second(descent_speed_kernel(speed, stone, radius)), angle))
}

/// Sideways launch speed of a stone under the edge of a tyre: a share of the
/// descent speed. The share is not published; 50 % within 20 % to 100 % is a
/// judgement of low confidence.
///
/// # Errors
/// As [`descent_speed`], or a share outside 0 to 200 %.
pub fn edge_launch_speed(
    ground_speed: Speed,
    stone: Length,
    tyre_radius: Length,
    share: Ratio,
) -> Result<Speed, Error> {
    let share = within("share of the descent speed", share, 0.0..=2.0)?;
    Ok(descent_speed(ground_speed, stone, tyre_radius)?.0 * share)
}

/// Upward speed that a stone needs to reach a height, without drag.
///
/// # Errors
/// [`Error`] for a height outside 0 to 50 m.
pub fn launch_speed_to_reach(height: Length) -> Result<Speed, Error> {
    let height = within("height", height, 0.0..=50.0)?;
    Ok(metres_per_second(speed_to_reach(height, STANDARD_GRAVITY_M_PER_S2)))
}

/// Greatest forward ground speed of a stone that was stuck in the tread: twice
/// that of the wheel, at its top.
///
/// # Errors
/// [`Error`] for a speed outside 0 to 200 m/s.
pub fn tread_carry_speed(ground_speed: Speed) -> Result<Speed, Error> {
    within("ground speed", ground_speed, 0.0..=200.0)?;
    Ok(2.0 * ground_speed)
}

/// Stretch behind the nose wheel and width to each side within which stones
/// from a nose wheel were found to strike a high-wing transport. Source:
/// [NGUYEN-2016].
#[must_use]
pub fn published_envelope() -> ((Length, Length), Length) {
    ((metres(3.0), metres(18.0)), metres(2.0))
}

/// Sideways share of the ground speed that puts a stone at `sideways` when it
/// is `aft` of the wheel.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn sideways_share(sideways: Length, aft: Length) -> Result<Ratio, Error> {
    let sideways = within("distance to the side", sideways, 0.0..=100.0)?;
    let aft = within("distance behind the wheel", aft, 0.1..=500.0)?;
    Ok(ratio(sideways / aft))
}
