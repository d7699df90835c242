//! One row for each size of stone: what moves it, how it falls, how hard it hits.

use crate::damage::DamageBand;
use crate::dust::Grain;
use crate::error::Error;
use crate::stone::Stone;
use hardpan_quantity::{Density, Energy, Length, Mass, Speed};

/// What a stone of one size asks for and does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StoneRow {
    /// Diameter.
    pub diameter: Length,
    /// Mass.
    pub mass: Mass,
    /// Stream that rolls it when it lies proud on a hard surface.
    pub rolls_at: Speed,
    /// Speed at which it settles in still air, which an updraught must exceed to carry it up.
    pub carried_at: Speed,
    /// Energy at the speed of impact.
    pub energy: Energy,
    /// Screening band of that energy.
    pub band: DamageBand,
}

/// A row for each diameter, for a speed of impact: that of the aeroplane over
/// the ground for a stone nearly at rest, that of the blade for a propeller.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn stone_table(
    diameters: &[Length],
    stone_density: Density,
    air_density: Density,
    impact: Speed,
) -> Result<Vec<StoneRow>, Error> {
    diameters
        .iter()
        .map(|&diameter| {
            let stone = Stone { diameter, density: stone_density, drag: 1.0, lift: 0.0 };
            let grain = Grain { diameter, density: stone_density, air_density };
            let energy = stone.energy(impact)?;
            Ok(StoneRow {
                diameter,
                mass: stone.mass()?,
                rolls_at: grain.single_stone_threshold()?,
                carried_at: grain.settling_speed()?,
                energy,
                band: DamageBand::of(energy)?,
            })
        })
        .collect()
}
