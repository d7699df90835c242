//! Stones thrown by the edges of rolling tyres, in numbers: which share of them
//! reaches which surface of the aeroplane, and how hard.
//!
//! A low-discrepancy sequence stands for chance, so that the same input gives
//! the same bits. That edges throw sideways, in proportion to the speed at which
//! the tread comes down, is published [NGUYEN-LOFTING]; the proportion, the
//! directions and the drag are ranges of judgement.

use crate::error::{Error, within};
use crate::stone::{Motion, State, impact_energy};
use crate::thrown::{Crossing, Hits, StonePath, Thrown};
use crate::tyre_throw::{descent_speed_kernel, speed_to_reach};
use hardpan_model::Tier;
use hardpan_quantity::{Density, Length, Quantity, STANDARD_GRAVITY_M_PER_S2, Speed};
use std::f64::consts::FRAC_PI_2;

/// The weakest source behind shares and energies.
pub const THROW_TIER: Tier = Tier::Judgement;

/// Launch speed over the descent speed of the tread, least and greatest. Judgement.
const LAUNCH_SHARE: (f64, f64) = (0.2, 1.0);
/// Greatest elevation of the launch, a bounce on the ground included. Judgement:
/// flatter launches would put most strikes outside the width of [NGUYEN-2016].
const STEEPEST: f64 = FRAC_PI_2;
/// Greatest angle between the launch and the axle. Judgement.
const FROM_AXLE: f64 = 35.0 / 180.0 * std::f64::consts::PI;
/// Drag coefficient of natural gravel, least and greatest.
const DRAG: (f64, f64) = (0.7, 1.4);
/// Density of the stones: common rock, kg/m³.
pub(crate) const ROCK: f64 = 2650.0;
/// Time step, s: between two of them a path leaves the straight line by 2 mm.
pub(crate) const STEP_S: f64 = 0.04;
pub(crate) const MOST_STEPS: u32 = 250;

/// One tyre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tyre {
    /// Distance aft of the nose wheel.
    pub aft: Length,
    /// Distance to the right of the centre line.
    pub right: Length,
    /// Radius.
    pub radius: Length,
    /// Width of the tread between the edges that throw.
    pub width: Length,
}

/// A level surface that stones from below can meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// Foremost edge, aft of the nose wheel.
    pub from: Length,
    /// Aftmost edge.
    pub to: Length,
    /// Left edge, right of the centre line.
    pub left: Length,
    /// Right edge, right of the centre line.
    pub right: Length,
    /// Height over the ground.
    pub height: Length,
}

/// Stones of one size under the tyres of one run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Throw<'a> {
    /// Tyres, each with two edges that throw alike.
    pub tyres: &'a [Tyre],
    /// Diameter of the stones.
    pub stone: Length,
    /// Density of the air.
    pub air: Density,
    /// Greatest ground speed of the run, which has constant acceleration.
    pub fastest: Speed,
    /// Which of many equally even draws is made; the same seed draws the same.
    pub seed: u64,
}

/// A surface in metres.
#[derive(Debug, Clone, Copy)]
struct Plate {
    from: f64,
    to: f64,
    left: f64,
    right: f64,
    height: f64,
}

/// The two edges of a tyre in metres.
#[derive(Debug, Clone, Copy)]
struct Edges {
    aft: f64,
    left: f64,
    right: f64,
    radius: f64,
}

impl Throw<'_> {
    /// Where `stones` thrown meet the surfaces from below, each path to its end
    /// as if no surface stopped it.
    ///
    /// # Errors
    /// [`Error`] for values out of range, no tyre, or no or over ten million stones.
    pub fn thrown(&self, surfaces: &[Surface], stones: u32) -> Result<Thrown, Error> {
        let fastest = within("ground speed", self.fastest, 0.0..=200.0)?;
        let stone = within("stone diameter", self.stone, 1e-4..=0.3)?;
        let air = within("air density", self.air, 0.3..=2.0)?;
        let count = hardpan_quantity::Dimension::Count;
        crate::error::number("stones thrown", f64::from(stones), 1.0..=1e7, count)?;
        let tyres =
            self.tyres.iter().map(|tyre| checked(tyre, stone)).collect::<Result<Vec<_>, _>>()?;
        crate::error::number("tyres", tyres.len() as f64, 1.0..=128.0, count)?;
        let plates = surfaces.iter().map(Surface::checked).collect::<Result<Vec<_>, _>>()?;
        let lowest = plates.iter().map(|plate| plate.height).fold(f64::INFINITY, f64::min);
        let needed = speed_to_reach(lowest, STANDARD_GRAVITY_M_PER_S2);
        let aftmost = plates.iter().map(|plate| plate.to).fold(0.0, f64::max);
        let start = shift(self.seed);
        let mut paths = Vec::new();
        for index in 0..stones {
            let [a, speed, share, rise, turn, drag] = point(index, &start);
            let ground = fastest * speed.sqrt();
            let edge = a * 2.0 * tyres.len() as f64;
            let which = (edge * 0.5) as usize;
            let Some(tyre) = tyres.get(which) else { continue };
            let side = if (edge as u64).is_multiple_of(2) { -1.0 } else { 1.0 };
            let launch = Launched { ground, side, share, rise, turn };
            if launch.speed(tyre, stone) < needed {
                continue;
            }
            let motion = Motion::of(stone, ROCK, air, DRAG.0 + drag * (DRAG.1 - DRAG.0), 0.0);
            let start = launch.state(tyre, stone);
            if start[5] < needed {
                continue;
            }
            let crossings = crossed(&motion, start, ground, &plates, aftmost, stone);
            if !crossings.is_empty() {
                paths.push(StonePath { tyre: which, ground, start, motion, crossings });
            }
        }
        Ok(Thrown { stones, stone, fastest, paths, surfaces: surfaces.len() })
    }

    /// What comes to each surface when `stones` are thrown. A stone ends at the
    /// first surface that it meets from below.
    ///
    /// # Errors
    /// As [`Throw::thrown`].
    pub fn hits(&self, surfaces: &[Surface], stones: u32) -> Result<Vec<Hits>, Error> {
        Ok(self.thrown(surfaces, stones)?.hits(|_| true))
    }
}

/// A launch drawn from the unit cube.
struct Launched {
    ground: f64,
    side: f64,
    share: f64,
    rise: f64,
    turn: f64,
}

impl Launched {
    fn speed(&self, tyre: &Edges, stone: f64) -> f64 {
        let share = LAUNCH_SHARE.0 + self.share * (LAUNCH_SHARE.1 - LAUNCH_SHARE.0);
        share * descent_speed_kernel(self.ground, stone, tyre.radius)
    }

    /// Position aft, right and up, and velocity in the frame of the ground.
    fn state(&self, tyre: &Edges, stone: f64) -> State {
        let speed = self.speed(tyre, stone);
        let (rise, turn) = (self.rise * STEEPEST, (2.0 * self.turn - 1.0) * FROM_AXLE);
        let level = speed * rise.cos();
        let right = if self.side < 0.0 { tyre.left } else { tyre.right };
        [
            tyre.aft,
            right,
            0.0,
            level * turn.sin(),
            self.side * level * turn.cos(),
            speed * rise.sin(),
        ]
    }
}

/// The surfaces that a stone meets from below, in the order of its path;
/// positions are in the frame of the aeroplane, velocities of the ground.
fn crossed(
    motion: &Motion,
    start: State,
    ground: f64,
    plates: &[Plate],
    aftmost: f64,
    stone: f64,
) -> Vec<Crossing> {
    let mut state = start;
    let mut found = Vec::new();
    let heights = || plates.iter().map(|plate| plate.height);
    let (lowest, highest) =
        (heights().fold(f64::INFINITY, f64::min), heights().fold(0.0, f64::max));
    for _ in 0..MOST_STEPS {
        let next = carried(motion, &state, ground, STEP_S);
        let mut met: Vec<(f64, Crossing)> = Vec::new();
        let reached = if next[2] >= lowest { plates } else { &[] };
        for (surface, plate) in reached.iter().enumerate() {
            if !(state[2] < plate.height && next[2] >= plate.height) {
                continue;
            }
            let share = (plate.height - state[2]) / (next[2] - state[2]);
            let aft = state[0] + share * (next[0] - state[0]);
            let right = state[1] + share * (next[1] - state[1]);
            let inside = (plate.from..=plate.to).contains(&aft)
                && (plate.left..=plate.right).contains(&right);
            if inside {
                let closing = (next[3] - ground).hypot(next[4]).hypot(next[5]);
                let energy = impact_energy(stone, ROCK, closing);
                let at = [aft, right, plate.height];
                met.push((share, Crossing { surface, at, closing, energy }));
            }
        }
        met.sort_by(|a, b| a.0.total_cmp(&b.0));
        found.extend(met.into_iter().map(|(_, crossing)| crossing));
        // Over the highest surface it meets none from below before it falls.
        if next[5] <= 0.0 || next[2] >= highest || next[0] > aftmost || !next[2].is_finite() {
            break;
        }
        state = next;
    }
    found
}

/// The state a step later, carried aft as the aeroplane runs over it.
pub(crate) fn carried(motion: &Motion, state: &State, ground: f64, dt: f64) -> State {
    let mut next = motion.short_step(state, dt);
    next[0] = state[0] + dt * ground - (next[0] - state[0]);
    next
}

fn checked(tyre: &Tyre, stone: f64) -> Result<Edges, Error> {
    let aft = within("distance aft of the nose wheel", tyre.aft, -30.0..=100.0)?;
    let right = within("distance from the centre line", tyre.right, -50.0..=50.0)?;
    let radius = within("tyre radius", tyre.radius, 0.05..=1.5)?;
    let half = 0.5 * within("tyre width", tyre.width, 0.0..=1.5)?;
    within("stone diameter", Length::from_si(stone), 0.0..=0.5 * radius)?;
    Ok(Edges { aft, left: right - half, right: right + half, radius })
}

impl Surface {
    fn checked(&self) -> Result<Plate, Error> {
        let from = within("foremost edge of a surface", self.from, -50.0..=150.0)?;
        let to = within("aftmost edge of a surface", self.to, from..=150.0)?;
        let left = within("left edge of a surface", self.left, -60.0..=60.0)?;
        let right = within("right edge of a surface", self.right, left..=60.0)?;
        let height = within("height of a surface", self.height, 0.01..=30.0)?;
        Ok(Plate { from, to, left, right, height })
    }
}

/// Points that fill the unit cube of six dimensions evenly: multiples of the
/// powers of the inverse root of `x⁷ = x + 1`, their whole parts left out.
fn point(index: u32, start: &[f64; 6]) -> [f64; 6] {
    const ROOT: f64 = 1.112_775_684_278_705_5;
    let mut step = 1.0;
    start.map(|start| {
        step /= ROOT;
        (start + f64::from(index) * step).fract()
    })
}

/// Where the points begin: the middle of the cube for seed 0, elsewhere by a
/// counter whose bits are mixed.
fn shift(seed: u64) -> [f64; 6] {
    let mut counter = seed;
    std::array::from_fn(|_| {
        if seed == 0 {
            return 0.5;
        }
        counter = counter.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = counter;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((bits ^ (bits >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    })
}

#[cfg(test)]
mod tests {
    use super::{point, shift};

    #[test]
    fn the_root_solves_its_equation() {
        let root: f64 = 1.112_775_684_278_705_5;
        assert!((root.powi(7) - root - 1.0).abs() < 1e-13);
    }

    #[test]
    fn points_fill_the_cube_evenly() {
        let count = 32_768;
        for seed in [0, 1, u64::MAX] {
            let mut sums = [0.0; 6];
            for index in 0..count {
                let point = point(index, &shift(seed));
                assert!(point.iter().all(|x| (0.0..1.0).contains(x)), "{point:?}");
                point.iter().zip(&mut sums).for_each(|(x, sum)| *sum += x);
            }
            for sum in sums {
                assert!((sum / f64::from(count) - 0.5).abs() < 2e-3, "{sum}");
            }
        }
    }
}
