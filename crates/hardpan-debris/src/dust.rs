//! What an air stream picks up, and how long it stays in the air.

use crate::error::{Error, number, within};
use crate::stone::stopping_length;
use hardpan_math::bracketed_root;
use hardpan_quantity::{
    Density, Dimension, Length, Quantity, STANDARD_GRAVITY_M_PER_S2, Speed, Time, metres,
    metres_per_second, seconds,
};

/// `√(0.0123 (ρ_s/ρ g d + G/(ρ d)))`: threshold friction velocity of loose dry
/// spheres, G in kg/s² (3e-4; fitted between 1.65e-4 and 5e-4).
pub(crate) fn threshold_shao_lu(
    diameter: f64,
    grain: f64,
    air: f64,
    gravity: f64,
    cohesion: f64,
) -> f64 {
    (0.0123 * (grain / air * gravity * diameter + cohesion / (air * diameter))).sqrt()
}

/// `A √((ρ_s − ρ)/ρ g d)`: Bagnold's threshold, A = 0.1 by the stream alone.
pub(crate) fn threshold_bagnold(diameter: f64, grain: f64, air: f64, gravity: f64) -> f64 {
    0.1 * ((grain - air) / air * gravity * diameter).sqrt()
}

/// `u* √(2/C_f)`: speed of a sheet of air along the ground at a friction velocity.
pub(crate) fn sheet_speed(friction_velocity: f64, skin_friction: f64) -> f64 {
    friction_velocity * (2.0 / skin_friction).sqrt()
}

/// `u*/0.4 ln(z/z0)`, z0 = max(d/30, 10 µm): wind at a height.
pub(crate) fn wind_at_height(friction_velocity: f64, height: f64, grain: f64) -> f64 {
    friction_velocity / 0.4 * (height / (grain / 30.0).max(1e-5)).ln()
}

/// `√(4/3 f ρ_s/ρ g d/(C_d + f C_l))`: stream that rolls a single stone lying
/// proud on a hard flat surface, f = 0.5, C_d = 0.6, C_l = 0.2.
pub(crate) fn single_stone_threshold(diameter: f64, grain: f64, air: f64, gravity: f64) -> f64 {
    const FRICTION: f64 = 0.5;
    let resistance = 0.6 + FRICTION * 0.2;
    (4.0 / 3.0 * FRICTION * grain / air * gravity * diameter / resistance).sqrt()
}

/// `U² (C_d + f C_l)/(4/3 f ρ_s/ρ g)`: the largest single stone that a stream
/// rolls, the inverse of the above.
pub(crate) fn single_stone_size(speed: f64, grain: f64, air: f64, gravity: f64) -> f64 {
    let of_a_metre = single_stone_threshold(1.0, grain, air, gravity);
    (speed / of_a_metre).powi(2)
}

/// Speed of a stone after a distance in a steady stream, from rest:
/// `s/L = 1/(1 − β) − 1 + ln(1 − β)`, `β = v/U`, L the stopping length.
pub(crate) fn speed_in_stream(
    stream: f64,
    distance: f64,
    diameter: f64,
    grain: f64,
    air: f64,
    drag: f64,
) -> f64 {
    let lengths = distance / stopping_length(diameter, grain, air, drag);
    let gone = |share: f64| 1.0 / (1.0 - share) - 1.0 + (1.0 - share).ln() - lengths;
    stream * bracketed_root(gone, 0.0, 1.0 - 1e-12, 1e-14).unwrap_or(f64::NAN)
}

/// `(ρ_s − ρ) g d²/(18 µ)`: settling speed after Stokes.
pub(crate) fn settling_stokes(
    diameter: f64,
    grain: f64,
    air: f64,
    viscosity: f64,
    gravity: f64,
) -> f64 {
    (grain - air) * gravity * diameter * diameter / (18.0 * viscosity)
}

/// `R g d²/(C1 ν + √(0.75 C2 R g d³))`, `R = (ρ_s − ρ)/ρ`.
pub(crate) fn settling_ferguson_church(
    diameter: f64,
    grain: f64,
    air: f64,
    viscosity: f64,
    gravity: f64,
    c1: f64,
    c2: f64,
) -> f64 {
    let excess = (grain - air) / air * gravity;
    let slow = c1 * viscosity / air;
    let fast = (0.75 * c2 * excess * diameter.powi(3)).sqrt();
    excess * diameter * diameter / (slow + fast)
}

/// Drag coefficient of a particle after Haider and Levenspiel.
pub(crate) fn drag_haider_levenspiel(reynolds: f64, p: f64) -> f64 {
    let [a, b, c, d] = haider_levenspiel_constants(p);
    24.0 / reynolds * (1.0 + a * reynolds.powf(b)) + c / (1.0 + d / reynolds)
}

/// The four constants of the law for a sphericity.
pub(crate) fn haider_levenspiel_constants(p: f64) -> [f64; 4] {
    let p2 = p * p;
    let p3 = p2 * p;
    [
        (2.3288 - 6.4581 * p + 2.4486 * p2).exp(),
        0.0964 + 0.5565 * p,
        (4.905 - 13.8944 * p + 18.4222 * p2 - 10.2599 * p3).exp(),
        (1.4681 + 12.2584 * p - 20.7322 * p2 + 15.8855 * p3).exp(),
    ]
}

/// Settling speed at which weight and that drag balance.
pub(crate) fn settling_haider_levenspiel(
    diameter: f64,
    grain: f64,
    air: f64,
    viscosity: f64,
    gravity: f64,
    sphericity: f64,
) -> f64 {
    let weight = 4.0 / 3.0 * (grain - air) / air * gravity * diameter;
    let excess = |log_speed: f64| {
        let speed = log_speed.exp();
        let reynolds = air * speed * diameter / viscosity;
        (speed * speed * drag_haider_levenspiel(reynolds, sphericity) / weight).ln()
    };
    bracketed_root(excess, -25.0, 7.0, 1e-12).map_or(f64::NAN, f64::exp)
}

/// The explicit settling law of Haider and Levenspiel.
pub(crate) fn settling_explicit(
    diameter: f64,
    grain: f64,
    air: f64,
    viscosity: f64,
    gravity: f64,
    sphericity: f64,
) -> f64 {
    let excess = (grain - air) * gravity;
    let size = diameter * (air * excess / (viscosity * viscosity)).cbrt();
    let speed = 1.0 / (18.0 / (size * size) + (2.335 - 1.744 * sphericity) / size.sqrt());
    speed * (viscosity * excess / (air * air)).cbrt()
}

/// `k (s/12)^a (W/3)^0.45` in kg/m: dust raised by a vehicle, s the silt share, W tonnes.
pub(crate) fn vehicle_dust(k: f64, exponent: f64, silt: f64, mass: f64) -> f64 {
    const POUND_PER_MILE: f64 = 0.453_592_37 / 1_609.344;
    const SHORT_TON_KG: f64 = 907.184_74;
    let pounds = k * (silt / 0.12).powf(exponent) * (mass / SHORT_TON_KG / 3.0).powf(0.45);
    pounds * POUND_PER_MILE
}

/// Grain and air for the laws of this module.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grain {
    /// Diameter.
    pub diameter: Length,
    /// Density of the grain.
    pub density: Density,
    /// Density of the air.
    pub air_density: Density,
}

/// Dynamic viscosity of air near 15 °C, Pa s.
pub const AIR_VISCOSITY_PA_S: f64 = 1.789e-5;

impl Grain {
    fn checked(&self) -> Result<(f64, f64, f64), Error> {
        Ok((
            within("grain diameter", self.diameter, 1e-6..=0.2)?,
            within("grain density", self.density, 500.0..=9_000.0)?,
            within("air density", self.air_density, 0.3..=2.0)?,
        ))
    }

    /// Threshold friction velocity of loose, dry, bare grains.
    /// Source: [SHAO-LU-2000] eq. 22; fitted for 0.05 mm to 2 mm, extrapolated beyond.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn threshold_friction_velocity(&self) -> Result<Speed, Error> {
        let (diameter, grain, air) = self.checked()?;
        let gravity = STANDARD_GRAVITY_M_PER_S2;
        Ok(metres_per_second(threshold_shao_lu(diameter, grain, air, gravity, 3e-4)))
    }

    /// Stream along the ground that sets a bed of such grains moving, for a skin
    /// friction coefficient of 0.005 to 0.01 (judgement).
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn sheet_threshold(&self, skin_friction: f64) -> Result<Speed, Error> {
        let friction = number(
            "skin friction coefficient",
            skin_friction,
            1e-3..=0.05,
            Dimension::Coefficient,
        )?;
        let threshold = self.threshold_friction_velocity()?.si();
        Ok(metres_per_second(sheet_speed(threshold, friction)))
    }

    /// Stream that rolls a single stone lying proud on a hard flat surface: the
    /// rule for loose stones on a compacted strip.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn single_stone_threshold(&self) -> Result<Speed, Error> {
        let (diameter, grain, air) = self.checked()?;
        let gravity = STANDARD_GRAVITY_M_PER_S2;
        Ok(metres_per_second(single_stone_threshold(diameter, grain, air, gravity)))
    }

    /// Settling speed of a natural grain in still air near 15 °C.
    /// Source: [FERGUSON-CHURCH-2004] with C1 = 18, C2 = 1.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn settling_speed(&self) -> Result<Speed, Error> {
        let (diameter, grain, air) = self.checked()?;
        let gravity = STANDARD_GRAVITY_M_PER_S2;
        let speed =
            settling_ferguson_church(diameter, grain, air, AIR_VISCOSITY_PA_S, gravity, 18.0, 1.0);
        Ok(metres_per_second(speed))
    }

    /// Time to fall a height in still air, its start left out: good below about 0.5 mm.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn fall_time(&self, height: Length) -> Result<Time, Error> {
        let height = within("height", height, 0.0..=1_000.0)?;
        Ok(seconds(height / self.settling_speed()?.si()))
    }

    /// Distance that a wind carries it while it falls a height.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn drift(&self, height: Length, wind: Speed) -> Result<Length, Error> {
        within("wind", wind, 0.0..=60.0)?;
        Ok(self.fall_time(height)? * wind)
    }

    /// Speed that it reaches after a distance in a steady stream, from rest.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn speed_in_stream(
        &self,
        stream: Speed,
        distance: Length,
        drag: f64,
    ) -> Result<Speed, Error> {
        let (diameter, grain, air) = self.checked()?;
        let stream = within("speed of the stream", stream, 0.0..=700.0)?;
        let distance = within("distance", distance, 0.0..=1_000.0)?;
        let drag = number("drag coefficient", drag, 0.1..=10.0, Dimension::Coefficient)?;
        let speed = speed_in_stream(stream, distance, diameter, grain, air, drag);
        Ok(metres_per_second(speed))
    }
}

/// Share of a stirred dust cloud that is still in the air: `exp(−w t/z)`.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn cloud_share(settling: Speed, time: Time, cloud_height: Length) -> Result<f64, Error> {
    let settling = within("settling speed", settling, 0.0..=100.0)?;
    let time = within("time", time, 0.0..=1e6)?;
    let height = within("height of the cloud", cloud_height, 0.1..=10_000.0)?;
    Ok((-settling * time / height).exp())
}

/// `z/w ln(1/c)`: time after which a share c of a stirred cloud is in the air.
pub(crate) fn cloud_time_kernel(settling: f64, share: f64, height: f64) -> f64 {
    height / settling * (1.0 / share).ln()
}

/// `(b + c)/V`: time in which a crosswind clears a strip of half width b of a
/// cloud of half width c.
pub(crate) fn clearing_time_kernel(strip: f64, cloud: f64, wind: f64) -> f64 {
    (strip + cloud) / wind
}

/// Time after which no more than a share of a stirred dust cloud is in the air.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn cloud_time(settling: Speed, share: f64, cloud_height: Length) -> Result<Time, Error> {
    let settling = within("settling speed", settling, 1e-5..=100.0)?;
    let share = number("share in the air", share, 1e-4..=1.0, Dimension::Ratio)?;
    let height = within("height of the cloud", cloud_height, 0.1..=10_000.0)?;
    Ok(seconds(cloud_time_kernel(settling, share, height)))
}

/// The largest single stone, lying proud on a hard flat surface, that a stream
/// along the ground rolls.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn largest_stone_rolled(stream: Speed, stone: Density, air: Density) -> Result<Length, Error> {
    let stream = within("stream along the ground", stream, 0.0..=340.0)?;
    let stone = within("stone density", stone, 500.0..=9_000.0)?;
    let air = within("air density", air, 0.3..=2.0)?;
    Ok(metres(single_stone_size(stream, stone, air, STANDARD_GRAVITY_M_PER_S2)))
}

/// Time until a crosswind has carried a dust cloud off the strip.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn clearing_time(
    strip_half_width: Length,
    cloud_half_width: Length,
    crosswind: Speed,
) -> Result<Time, Error> {
    let strip = within("half width of the strip", strip_half_width, 0.0..=500.0)?;
    let cloud = within("half width of the cloud", cloud_half_width, 0.0..=500.0)?;
    let wind = within("crosswind", crosswind, 0.01..=60.0)?;
    Ok(seconds(clearing_time_kernel(strip, cloud, wind)))
}
