//! How a jet fades behind the aeroplane and what it does to the ground.

use crate::error::{Error, number, within};
use hardpan_quantity::{
    Density, Dimension, Force, Length, Pressure, Quantity, Ratio, Speed, kilometres_per_hour,
    metres, metres_per_second, pascals, ratio,
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

/// `B D U_j/U`: distance at which the centre-line speed of a jet falls to U.
pub(crate) fn jet_reach(speed: f64, diameter: f64, lowest: f64, decay: f64) -> f64 {
    decay * diameter * speed / lowest
}

/// `√(4 F/(π ρ))/U`: diameter of a jet of air with the momentum of a thrust.
pub(crate) fn momentum_diameter(thrust: f64, speed: f64, air: f64) -> f64 {
    (4.0 * thrust / (std::f64::consts::PI * air)).sqrt() / speed
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

impl JetPath {
    /// Constant of the decay over the distance in diameters.
    #[must_use]
    pub const fn decay(self) -> f64 {
        match self {
            Self::Free => 6.2,
            Self::AlongGround => 6.0,
        }
    }
}

impl Jet {
    /// Greatest speed at a distance behind the nozzle.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn speed_at(&self, distance: Length, path: JetPath) -> Result<Speed, Error> {
        let (speed, equal) = self.checked()?;
        let distance = within("distance behind the nozzle", distance, 0.1..=5_000.0)?;
        Ok(metres_per_second(jet_speed(speed, equal, distance, path.decay())))
    }

    /// Distance behind the nozzle at which the greatest speed falls to another;
    /// nothing for a jet that is no faster.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn reach(&self, lowest: Speed, path: JetPath) -> Result<Length, Error> {
        let (speed, equal) = self.checked()?;
        let lowest = within("speed at the end of the reach", lowest, 0.5..=340.0)?;
        if speed <= lowest {
            return Ok(metres(0.0));
        }
        Ok(metres(jet_reach(speed, equal, lowest, path.decay())))
    }

    /// A jet of air with the momentum of a thrust: what counts far behind.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn of_thrust(thrust: Force, speed: Speed, air: Density, count: u32) -> Result<Self, Error> {
        let force = within("thrust of one engine", thrust, 1.0..=1e6)?;
        let jet = within("jet speed", speed, 1.0..=1_000.0)?;
        let air = within("air density", air, 0.3..=2.0)?;
        let diameter = metres(momentum_diameter(force, jet, air));
        Ok(Self { diameter, speed, density_ratio: ratio(1.0), count })
    }

    /// Jet speed and the diameter of one equal jet of air for all.
    fn checked(&self) -> Result<(f64, f64), Error> {
        let diameter = within("nozzle diameter", self.diameter, 0.01..=6.0)?;
        let speed = within("jet speed", self.speed, 0.0..=1_000.0)?;
        let density = within("density of the jet over the air's", self.density_ratio, 0.1..=2.0)?;
        let count = number("merging jets", f64::from(self.count), 1.0..=8.0, Dimension::Count)?;
        Ok((speed, equal_diameter(diameter, density, count)))
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
