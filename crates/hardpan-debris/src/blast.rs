//! How a jet fades behind the aeroplane and what it does to the ground.

use crate::error::{Error, number, within};
use hardpan_quantity::{
    Density, Dimension, Length, Pressure, Quantity, Ratio, Speed, kilometres_per_hour,
    metres_per_second, pascals,
};

/// A jet from one or more nozzles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Jet {
    /// Nozzle diameter of one engine.
    pub diameter: Length,
    /// Jet speed at the nozzle.
    pub speed: Speed,
    /// Density of the jet over that of the air.
    pub density_ratio: Ratio,
    /// Jets that merge.
    pub count: u32,
}

/// `D √(ρ_j/ρ_a) √n`: diameter of an equal jet of air.
pub(crate) fn equal_diameter(diameter: f64, density_ratio: f64, count: f64) -> f64 {
    diameter * (density_ratio * count).sqrt()
}

/// `min(1, B D/x) U_j`: centre-line speed of a jet, B = 6.2 free, 6 along the ground.
pub(crate) fn jet_speed(speed: f64, diameter: f64, distance: f64, decay: f64) -> f64 {
    speed * (decay * diameter / distance).min(1.0)
}

/// `0.00256 V²` in pounds for a square foot and miles an hour, in pascals.
pub(crate) fn blast_pressure_kernel(speed: f64) -> f64 {
    const MILE_PER_HOUR: f64 = 1_609.344 / 3_600.0;
    const POUND_PER_SQUARE_FOOT: f64 = 0.453_592_37 * 9.806_65 / (0.3048 * 0.3048);
    let mph = speed / MILE_PER_HOUR;
    0.002_56 * mph * mph * POUND_PER_SQUARE_FOOT
}

/// `√(2 q/ρ)`: speed of a dynamic pressure.
pub(crate) fn speed_of_pressure(pressure: f64, density: f64) -> f64 {
    (2.0 * pressure / density).sqrt()
}

/// Where the jet flows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum JetPath {
    /// Clear of the ground.
    Free,
    /// Attached to the ground.
    AlongGround,
}

impl Jet {
    /// Greatest speed at a distance behind the nozzle.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn speed_at(&self, distance: Length, path: JetPath) -> Result<Speed, Error> {
        let diameter = within("nozzle diameter", self.diameter, 0.01..=6.0)?;
        let speed = within("jet speed", self.speed, 0.0..=1_000.0)?;
        let density = within("density of the jet over the air's", self.density_ratio, 0.1..=2.0)?;
        let count = number("merging jets", f64::from(self.count), 1.0..=8.0, Dimension::Count)?;
        let distance = within("distance behind the nozzle", distance, 0.1..=5_000.0)?;
        let decay = match path {
            JetPath::Free => 6.2,
            JetPath::AlongGround => 6.0,
        };
        let equal = equal_diameter(diameter, density, count);
        Ok(metres_per_second(jet_speed(speed, equal, distance, decay)))
    }
}

/// Blast pressure of a speed. Source: [FAA-AC-150-5300-13] chapter 8.
///
/// # Errors
/// [`Error`] for a speed outside 0 to 340 m/s.
pub fn blast_pressure(speed: Speed) -> Result<Pressure, Error> {
    let speed = within("speed", speed, 0.0..=340.0)?;
    Ok(pascals(blast_pressure_kernel(speed)))
}

/// Speed above which loose objects become missiles: 48 km/h.
/// Source: [FAA-AC-150-5300-13] chapter 8; [UFC-3-260-01] attachment 8.
#[must_use]
pub fn missile_speed() -> Speed {
    kilometres_per_hour(48.0)
}

/// How a surface stood in downwash tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ErosionSurface {
    /// Dry loose sand, dust or grass: eroded at 144 Pa.
    LooseDry,
    /// Many natural firm surfaces: minor damage above 7.2 kPa.
    Firm,
}

impl ErosionSurface {
    /// Dynamic pressure of the stream at which it erodes.
    /// Source: [HILLER-1961], 3 and 150 pounds for a square foot.
    #[must_use]
    pub fn onset(self) -> Pressure {
        const POUND_PER_SQUARE_FOOT: f64 = 47.880_26;
        pascals(match self {
            Self::LooseDry => 3.0 * POUND_PER_SQUARE_FOOT,
            Self::Firm => 150.0 * POUND_PER_SQUARE_FOOT,
        })
    }

    /// Speed of the stream at which it erodes.
    ///
    /// # Errors
    /// [`Error`] for a density outside 0.3 to 2 kg/m³.
    pub fn onset_speed(self, air: Density) -> Result<Speed, Error> {
        let air = within("air density", air, 0.3..=2.0)?;
        Ok(metres_per_second(speed_of_pressure(self.onset().si(), air)))
    }
}
