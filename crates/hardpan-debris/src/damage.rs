//! What a strike may do: screening thresholds, none of them an allowance.

use crate::error::{Error, within};
use hardpan_model::Tier;
use hardpan_quantity::{
    Energy, Force, Length, Pressure, Quantity, Speed, metres_per_second, newtons,
};

/// Screening bands of impact energy. Judgement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DamageBand {
    /// Below 2 J: paint and minor.
    Paint,
    /// 2 J to 10 J: dents in thin skin, antennas, lamps.
    Dents,
    /// 10 J to 50 J: puncture of thin skin, damage to laminates.
    Puncture,
    /// Above 50 J: beyond the traditional design case of [IMPERIAL-DEBRIS].
    BeyondDesign,
}

/// How sure the bands are.
pub const DAMAGE_BAND_TIER: Tier = Tier::Judgement;

impl DamageBand {
    /// The band of an impact energy.
    ///
    /// # Errors
    /// [`Error`] for an energy that is not between 0 and 10 MJ.
    pub fn of(energy: Energy) -> Result<Self, Error> {
        let joules = within("impact energy", energy, 0.0..=1e7)?;
        Ok(match joules {
            _ if joules < 2.0 => Self::Paint,
            _ if joules < 10.0 => Self::Dents,
            _ if joules <= 50.0 => Self::Puncture,
            _ => Self::BeyondDesign,
        })
    }
}

/// `π d C_s t²/cos²θ`: energy to shear a plug out of a plate.
pub(crate) fn plug_energy(diameter: f64, strength: f64, thickness: f64, obliquity: f64) -> f64 {
    let along = obliquity.cos();
    std::f64::consts::PI * diameter * strength * thickness * thickness / (along * along)
}

/// `√(E ln(a/r)/(π σ t))`: depth of a dent in a plastic membrane.
pub(crate) fn dent_depth(energy: f64, flow_stress: f64, thickness: f64, span_ratio: f64) -> f64 {
    (energy * span_ratio.ln() / (std::f64::consts::PI * flow_stress * thickness)).sqrt()
}

/// `√(8 π² E h³ G/(9 (1 − ν²)))`: load that delaminates a laminate.
pub(crate) fn delamination_load(
    stiffness: f64,
    thickness: f64,
    toughness: f64,
    poisson: f64,
) -> f64 {
    let pi = std::f64::consts::PI;
    let squared = 8.0 * pi * pi * stiffness * thickness.powi(3) * toughness
        / (9.0 * (1.0 - poisson * poisson));
    squared.sqrt()
}

/// `1.213 P_c/(8 √(m D))`: speed of a small hard mass that reaches the dynamic
/// delamination load, m the laminate's mass for each square metre, D its
/// bending stiffness.
pub(crate) fn small_mass_threshold(
    stiffness: f64,
    thickness: f64,
    toughness: f64,
    poisson: f64,
    density: f64,
) -> f64 {
    let load = delamination_load(stiffness, thickness, toughness, poisson);
    let bending = stiffness * thickness.powi(3) / (12.0 * (1.0 - poisson * poisson));
    1.213 * load / (8.0 * (density * thickness * bending).sqrt())
}

/// Energy at which a blunt stone perforates a metal plate, by plug shear: a
/// lower bound on thin skin, which dishes first.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn perforation_energy(
    stone: Length,
    shear_strength: Pressure,
    thickness: Length,
) -> Result<Energy, Error> {
    let diameter = within("stone diameter", stone, 1e-4..=0.5)?;
    let strength = within("shear strength", shear_strength, 1e6..=2e9)?;
    let thickness = within("plate thickness", thickness, 1e-4..=0.05)?;
    Ok(Energy::from_si(plug_energy(diameter, strength, thickness, 0.0)))
}

/// A laminate for the delamination screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Laminate {
    /// In-plane stiffness.
    pub stiffness: Pressure,
    /// Thickness.
    pub thickness: Length,
    /// Energy to open one square metre of it in shear, J/m².
    pub toughness_j_per_m2: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Density.
    pub density: hardpan_quantity::Density,
}

impl Laminate {
    fn values(&self) -> Result<(f64, f64, f64, f64, f64), Error> {
        use hardpan_quantity::Dimension::Coefficient;
        Ok((
            within("laminate stiffness", self.stiffness, 1e9..=1e12)?,
            within("laminate thickness", self.thickness, 1e-4..=0.1)?,
            crate::error::number(
                "laminate toughness",
                self.toughness_j_per_m2,
                1.0..=1e5,
                Coefficient,
            )?,
            crate::error::number("Poisson's ratio", self.poisson, 0.0..=0.5, Coefficient)?,
            within("laminate density", self.density, 500.0..=5_000.0)?,
        ))
    }

    /// Static load that delaminates it.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn delamination_load(&self) -> Result<Force, Error> {
        let (stiffness, thickness, toughness, poisson, _) = self.values()?;
        Ok(newtons(delamination_load(stiffness, thickness, toughness, poisson)))
    }

    /// Speed of a small hard stone that delaminates it. Only for stones lighter
    /// than about a quarter of the laminate that the bending wave reaches; a
    /// softer contact needs more.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn small_mass_speed(&self) -> Result<Speed, Error> {
        let (stiffness, thickness, toughness, poisson, density) = self.values()?;
        let speed = small_mass_threshold(stiffness, thickness, toughness, poisson, density);
        Ok(metres_per_second(speed))
    }
}
