//! The paths of thrown stones, and what comes to each surface while some of the
//! surfaces stand in the way.

use crate::error::{Error, within};
use crate::stone::{Motion, State, impact_energy};
use crate::throw::{MOST_STEPS, ROCK, STEP_S, carried};
use hardpan_quantity::{Energy, Length, Quantity, Ratio, Speed, metres, metres_per_second, ratio};

/// Classes of ground speed, of equal width from standstill to the greatest.
pub const SPEED_CLASSES: usize = 20;

/// What comes to one surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hits {
    /// Share of the stones thrown by any edge.
    pub share: Ratio,
    /// Greatest energy of them.
    pub greatest: Energy,
}

/// All paths that meet a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Thrown {
    pub(crate) stones: u32,
    pub(crate) stone: f64,
    pub(crate) fastest: f64,
    pub(crate) paths: Vec<StonePath>,
    pub(crate) surfaces: usize,
}

/// One path in the frame of the aeroplane.
#[derive(Debug, Clone, PartialEq)]
pub struct StonePath {
    pub(crate) tyre: usize,
    pub(crate) ground: f64,
    pub(crate) start: State,
    pub(crate) motion: Motion,
    pub(crate) crossings: Vec<Crossing>,
}

/// Where a path meets a surface from below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    pub(crate) surface: usize,
    pub(crate) at: [f64; 3],
    pub(crate) closing: f64,
    pub(crate) energy: f64,
}

impl Crossing {
    /// Which surface, as counted where the stones were thrown.
    #[must_use]
    pub const fn surface(&self) -> usize {
        self.surface
    }

    /// Place aft of the nose wheel, right of the centre line and over the ground.
    #[must_use]
    pub fn at(&self) -> [Length; 3] {
        self.at.map(metres)
    }

    /// Energy relative to the aeroplane.
    #[must_use]
    pub fn energy(&self) -> Energy {
        Energy::from_si(self.energy)
    }
}

impl StonePath {
    /// Which tyre threw it, as counted where the stones were thrown.
    #[must_use]
    pub const fn tyre(&self) -> usize {
        self.tyre
    }

    /// Surfaces met, in the order of the path.
    #[must_use]
    pub fn crossings(&self) -> &[Crossing] {
        &self.crossings
    }

    /// The first surface met of those that stand.
    pub fn end(&self, stands: impl Fn(usize) -> bool) -> Option<&Crossing> {
        self.crossings.iter().find(|crossing| stands(crossing.surface))
    }

    /// Points of the path from the tyre to an end of it, aft of the nose wheel,
    /// right of the centre line and over the ground.
    #[must_use]
    pub fn trail(&self, end: &Crossing) -> Vec<[Length; 3]> {
        let mut state = self.start;
        let mut points = vec![[state[0], state[1], state[2]]];
        for _ in 0..MOST_STEPS {
            state = carried(&self.motion, &state, self.ground, STEP_S);
            if state[2] >= end.at[2] || state[5] <= 0.0 {
                break;
            }
            points.push([state[0], state[1], state[2]]);
        }
        points.push(end.at);
        points.into_iter().map(|point| point.map(metres)).collect()
    }
}

impl Thrown {
    /// Paths that meet a surface, in the order drawn.
    #[must_use]
    pub fn paths(&self) -> &[StonePath] {
        &self.paths
    }

    /// Stones drawn, those that meet nothing included.
    #[must_use]
    pub const fn stones(&self) -> u32 {
        self.stones
    }

    /// Share of all stones drawn whose path is wanted.
    pub fn share(&self, wanted: impl Fn(&StonePath) -> bool) -> Ratio {
        let count = self.paths.iter().filter(|path| wanted(path)).count();
        ratio(count as f64 / f64::from(self.stones))
    }

    /// What comes to each surface while those that stand stop stones.
    pub fn hits(&self, stands: impl Fn(usize) -> bool) -> Vec<Hits> {
        let mut met = vec![(0_u32, 0.0_f64); self.surfaces];
        for end in self.paths.iter().filter_map(|path| path.end(&stands)) {
            if let Some((hits, greatest)) = met.get_mut(end.surface) {
                *hits += 1;
                *greatest = greatest.max(end.energy);
            }
        }
        let hits = |(hits, greatest): (u32, f64)| Hits {
            share: ratio(f64::from(hits) / f64::from(self.stones)),
            greatest: Energy::from_si(greatest),
        };
        met.into_iter().map(hits).collect()
    }

    /// Energy of such a stone against a part that moves across its path, such
    /// as a propeller blade: `½ m (V² + U²)`.
    ///
    /// # Errors
    /// [`Error`] for a speed outside 0 to 400 m/s.
    pub fn energy_across(&self, end: &Crossing, across: Speed) -> Result<Energy, Error> {
        let across = within("speed of the blade", across, 0.0..=400.0)?;
        Ok(Energy::from_si(impact_energy(self.stone, ROCK, end.closing.hypot(across))))
    }

    /// Of the stones thrown in each class of ground speed the share whose path
    /// is wanted, with the greatest speed of the class; rising speed.
    pub fn share_by_speed(&self, wanted: impl Fn(&StonePath) -> bool) -> Vec<(Speed, Ratio)> {
        let classes = SPEED_CLASSES as f64;
        let mut counts = [0_u32; SPEED_CLASSES];
        for path in self.paths.iter().filter(|path| wanted(path)) {
            let class = (path.ground / self.fastest * classes) as usize;
            if let Some(count) = counts.get_mut(class.min(SPEED_CLASSES - 1)) {
                *count += 1;
            }
        }
        // The speed is the root of an evenly drawn number, so that the class
        // from a to b takes b² − a² of all stones.
        let rows = counts.into_iter().enumerate().map(|(class, count)| {
            let drawn = f64::from(self.stones) * (2 * class + 1) as f64 / (classes * classes);
            let top = self.fastest * (class + 1) as f64 / classes;
            (metres_per_second(top), ratio((f64::from(count) / drawn).min(1.0)))
        });
        rows.collect()
    }
}
