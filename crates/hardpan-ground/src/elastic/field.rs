//! The response of the ground at one place: around one load in cylinder
//! coordinates, and summed over loads in strip coordinates.

use hardpan_quantity::{Length, Pressure, Quantity, Ratio};

/// Response around the axis of one load, SI, tension positive, depth downward.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Field {
    /// Vertical stress.
    pub(crate) vertical: f64,
    /// Radial stress.
    pub(crate) radial: f64,
    /// Tangential stress.
    pub(crate) tangential: f64,
    /// Shear stress in the radial plane.
    pub(crate) shear: f64,
    /// Downward displacement.
    pub(crate) down: f64,
    /// Outward displacement.
    pub(crate) outward: f64,
}

impl Field {
    /// Sum of two responses of the same axis.
    pub(crate) fn plus(self, other: Self) -> Self {
        Self {
            vertical: self.vertical + other.vertical,
            radial: self.radial + other.radial,
            tangential: self.tangential + other.tangential,
            shear: self.shear + other.shear,
            down: self.down + other.down,
            outward: self.outward + other.outward,
        }
    }
}

/// Sum over loads in strip coordinates, SI, tension positive.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Sum {
    /// Normal stresses along x, y, z.
    normal: [f64; 3],
    /// Shear stresses xy, xz, yz.
    shear: [f64; 3],
    down: f64,
    sideways: [f64; 2],
}

impl Sum {
    /// Add the field of a load from which the place lies in direction
    /// (`cosine`, `sine`).
    pub(crate) fn add(&mut self, field: &Field, cosine: f64, sine: f64) {
        let (cc, ss, cs) = (cosine * cosine, sine * sine, cosine * sine);
        self.normal[0] += field.radial * cc + field.tangential * ss;
        self.normal[1] += field.radial * ss + field.tangential * cc;
        self.normal[2] += field.vertical;
        self.shear[0] += (field.radial - field.tangential) * cs;
        self.shear[1] += field.shear * cosine;
        self.shear[2] += field.shear * sine;
        self.down += field.down;
        self.sideways[0] += field.outward * cosine;
        self.sideways[1] += field.outward * sine;
    }

    /// The response with strains by Hooke's law, compression positive.
    pub(crate) fn response(&self, stiffness: f64, poisson: f64) -> GroundResponse {
        let total: f64 = self.normal.iter().sum();
        let strain = self
            .normal
            .map(|stress| -((1.0 + poisson) * stress - poisson * total) / stiffness)
            .map(Ratio::from_si);
        GroundResponse {
            stress: self.normal.map(|stress| Pressure::from_si(-stress)),
            shear: self.shear.map(|stress| Pressure::from_si(-stress)),
            strain,
            deflection: Length::from_si(self.down),
            sideways: self.sideways.map(Length::from_si),
        }
    }
}

/// Response of the ground at one place to all loads; stresses and strains are
/// positive in compression, coordinates x, y, z (downward).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundResponse {
    /// Normal stresses along x, y, z.
    pub stress: [Pressure; 3],
    /// Shear stresses xy, xz, yz, positive with the same sign as compression.
    pub shear: [Pressure; 3],
    /// Normal strains along x, y, z.
    pub strain: [Ratio; 3],
    /// Downward displacement.
    pub deflection: Length,
    /// Displacements along x and y.
    pub sideways: [Length; 2],
}
