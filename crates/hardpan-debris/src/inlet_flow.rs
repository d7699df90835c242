//! From the air that an engine swallows to the mean velocity in its inlet:
//! one-dimensional compressible flow of air, γ = 1.4.

use crate::error::{Error, within};
use hardpan_math::bracketed_root;
use hardpan_quantity::{
    Length, MassFlow, Pressure, Quantity, Ratio, Speed, Temperature, kelvins, metres_per_second,
    pascals,
};

/// Specific gas constant of air, J/(kg K). Source: [ISO-2533].
pub(crate) const GAS_CONSTANT: f64 = 287.052_87;
pub(crate) const HEAT_RATIO: f64 = 1.4;

/// Total pressure and temperature of the air before the inlet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Total pressure; that of the still air when standing.
    pub pressure: Pressure,
    /// Total temperature; that of the still air when standing.
    pub temperature: Temperature,
}

impl Air {
    /// Standard sea level: 101 325 Pa, 288.15 K. Source: [ISO-2533].
    #[must_use]
    pub fn standard() -> Self {
        Self { pressure: pascals(101_325.0), temperature: kelvins(288.15) }
    }

    pub(crate) fn checked(&self) -> Result<(f64, f64), Error> {
        Ok((
            within("air pressure", self.pressure, 20e3..=120e3)?,
            within("air temperature", self.temperature, 180.0..=340.0)?,
        ))
    }

    pub(crate) fn density(&self) -> Result<f64, Error> {
        let (pressure, temperature) = self.checked()?;
        Ok(pressure / (GAS_CONSTANT * temperature))
    }
}

/// No less than a Mach number up to 1 over its flow function: `(1 + 0.2)³` where the
/// inlet chokes, and more than rounding takes.
const CHOKED: f64 = 1.728 * (1.0 + 1e-9);

/// `M / (1 + 0.2 M²)³`: mass flow over its value for M → 0 per unit of M.
pub(crate) fn flow_function(mach: f64) -> f64 {
    mach / (1.0 + 0.2 * mach * mach).powi(3)
}

/// Mass flux in kg/(s m²): `p0 √(γ / R T0) M / (1 + 0.2 M²)³`.
pub(crate) fn mass_flux(mach: f64, pressure: f64, temperature: f64) -> f64 {
    mass_flux_at_rest(pressure, temperature) * flow_function(mach)
}

/// The same over the flow function.
fn mass_flux_at_rest(pressure: f64, temperature: f64) -> f64 {
    pressure * (HEAT_RATIO / (GAS_CONSTANT * temperature)).sqrt()
}

/// Air speed in m/s at a Mach number and total temperature.
pub(crate) fn velocity(mach: f64, temperature: f64) -> f64 {
    mach * (HEAT_RATIO * GAS_CONSTANT * temperature / (1.0 + 0.2 * mach * mach)).sqrt()
}

/// Mach number below 1 that passes a mass flux; NaN when choked.
pub(crate) fn mach_of_flux(flux: f64, pressure: f64, temperature: f64) -> f64 {
    let wanted = flux / mass_flux_at_rest(pressure, temperature);
    let excess = |mach: f64| flow_function(mach) - wanted;
    // Up to 1 the Mach number lies between its function and that times the most.
    let most = (CHOKED * wanted).clamp(0.0, 1.0);
    bracketed_root(excess, wanted.max(0.0), most, 1e-13).unwrap_or(f64::NAN)
}

/// Inlet velocity in m/s from mass flow, diameter and total conditions; NaN when choked.
pub(crate) fn inlet_velocity_kernel(
    flow: f64,
    diameter: f64,
    pressure: f64,
    temperature: f64,
) -> f64 {
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    velocity(mach_of_flux(flow / area, pressure, temperature), temperature)
}

/// Mass flow in kg/s that gives an inlet velocity, the inverse of the above.
pub(crate) fn flow_of_velocity(speed: f64, diameter: f64, pressure: f64, temperature: f64) -> f64 {
    let sound_squared = HEAT_RATIO * GAS_CONSTANT * temperature;
    let square = speed * speed / (sound_squared - 0.2 * speed * speed);
    let mach = if square >= 0.0 { square.sqrt().min(1.0) } else { 1.0 };
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    mass_flux(mach, pressure, temperature) * area
}

/// Mean velocity in the inlet at the area of its inner diameter.
///
/// # Errors
/// [`Error`] for a flow or diameter out of range, or more air than the inlet
/// passes when choked.
pub fn inlet_velocity(flow: MassFlow, diameter: Length, air: &Air) -> Result<Speed, Error> {
    let (pressure, temperature) = air.checked()?;
    let flow = within("air mass flow", flow, 0.0..=5_000.0)?;
    let diameter = within("inlet diameter", diameter, 0.05..=6.0)?;
    let speed = inlet_velocity_kernel(flow, diameter, pressure, temperature);
    if speed.is_finite() {
        return Ok(metres_per_second(speed));
    }
    let area = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    let choked_kg_per_s = mass_flux(1.0, pressure, temperature) * area;
    Err(Error::Choked { flow_kg_per_s: flow, choked_kg_per_s })
}

/// `W_max √(F/F_max)`: mass flow at part thrust, for a jet speed that falls in
/// proportion to the flow.
pub(crate) fn part_thrust_flow_kernel(full_flow: f64, share: f64) -> f64 {
    full_flow * share.sqrt()
}

/// Mass flow at a share of the static take-off thrust.
///
/// # Errors
/// [`Error`] for a flow out of range or a share outside 0 to 110 %.
pub fn part_thrust_flow(full_flow: MassFlow, share: Ratio) -> Result<MassFlow, Error> {
    let flow = within("air mass flow", full_flow, 0.0..=5_000.0)?;
    let share = within("share of take-off thrust", share, 0.0..=1.1)?;
    Ok(MassFlow::from_si(part_thrust_flow_kernel(flow, share)))
}

/// Mass flow of a turbofan at static take-off thrust in other air: the same
/// corrected flow, `W p0/p_ref √(T_ref/T0)`.
///
/// # Errors
/// [`Error`] for a flow or air out of range.
pub fn flow_in_air(standard_flow: MassFlow, air: &Air) -> Result<MassFlow, Error> {
    let (pressure, temperature) = air.checked()?;
    let flow = within("air mass flow", standard_flow, 0.0..=5_000.0)?;
    Ok(MassFlow::from_si(corrected_flow(flow, pressure, temperature)))
}

pub(crate) fn corrected_flow(standard_flow: f64, pressure: f64, temperature: f64) -> f64 {
    standard_flow * (pressure / 101_325.0) * (288.15 / temperature).sqrt()
}

/// Static take-off thrust for each unit of air flow, least and greatest by
/// bypass ratio, m/s. From memory of published engine data; a planning value
/// only where the flow itself is not known. Between rows the wider bounds of
/// both neighbours hold.
const SPECIFIC_THRUST: [(f64, f64, f64); 6] = [
    (0.0, 600.0, 750.0),
    (1.0, 430.0, 500.0),
    (3.5, 330.0, 400.0),
    (5.5, 300.0, 340.0),
    (8.5, 260.0, 290.0),
    (11.0, 220.0, 260.0),
];

/// Least and greatest static take-off thrust for each unit of air flow, for a
/// bypass ratio. From memory.
///
/// # Errors
/// [`Error`] for a bypass ratio outside 0 to 12.
pub fn specific_thrust(bypass_ratio: f64) -> Result<(Speed, Speed), Error> {
    use hardpan_quantity::Dimension;
    let ratio =
        crate::error::number("bypass ratio", bypass_ratio, 0.0..=12.0, Dimension::Coefficient)?;
    let after = SPECIFIC_THRUST.partition_point(|row| row.0 <= ratio);
    let near = SPECIFIC_THRUST.iter().skip(after.saturating_sub(1)).take(2);
    let exact = SPECIFIC_THRUST.iter().find(|row| row.0 == ratio);
    let (least, greatest) = match exact {
        Some(row) => (row.1, row.2),
        None => {
            near.fold((f64::INFINITY, 0.0), |(low, high), row| (row.1.min(low), row.2.max(high)))
        }
    };
    Ok((metres_per_second(least), metres_per_second(greatest)))
}
