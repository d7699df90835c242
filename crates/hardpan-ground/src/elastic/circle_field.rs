//! The full response of a uniform half space to one circle, anywhere, in
//! closed form.
//!
//! With `q` the pressure and the integrals `I(p, q; k)` of the elliptic
//! module, tension positive:
//!
//! ```text
//! sz  = -q a [I(1,0;0) + z I(1,0;1)]        t = -q a z I(1,1;1)
//! sr  = -q a [I(1,0;0) - z I(1,0;1) - ((1-2 nu) I(1,1;-1) - z I(1,1;0))/r]
//! st  = -q a [2 nu I(1,0;0) + ((1-2 nu) I(1,1;-1) - z I(1,1;0))/r]
//! w   =  q a (1+nu)/E [2 (1-nu) I(1,0;-1) + z I(1,0;0)]
//! u   = -q a (1+nu)/E [(1-2 nu) I(1,1;-1) - z I(1,1;0)]
//! ```

use crate::elastic::elliptic::BesselIntegrals;
use crate::elastic::field::Field;

/// Distance under which a place counts as on the axis, over the radius.
pub(crate) const AXIS_SHARE: f64 = 1e-5;

/// Elastic constants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Material {
    pub(crate) stiffness: f64,
    pub(crate) poisson: f64,
}

/// Response to a unit pressure on a circle of radius `a`.
pub(crate) fn circle_field(material: Material, a: f64, r: f64, z: f64) -> Field {
    if r < AXIS_SHARE * a {
        return axis_field(material, a, z);
    }
    let Material { stiffness, poisson } = material;
    let i = BesselIntegrals::at(a, r, z);
    let compliance = a * (1.0 + poisson) / stiffness;
    let outward = (1.0 - 2.0 * poisson) * i.i11m - z * i.i110;
    Field {
        vertical: -a * (i.i100 + i.z_i101),
        radial: -a * (i.i100 - i.z_i101 - outward / r),
        tangential: -a * (2.0 * poisson * i.i100 + outward / r),
        shear: -a * i.z_i111,
        down: compliance * (2.0 * (1.0 - poisson) * i.i10m + z * i.i100),
        outward: -compliance * outward,
    }
}

fn axis_field(material: Material, a: f64, z: f64) -> Field {
    let poisson = material.poisson;
    let slant = a.hypot(z);
    let cosine = z / slant;
    let side = -0.5 * (1.0 + 2.0 * poisson - 2.0 * (1.0 + poisson) * cosine + cosine.powi(3));
    Field {
        vertical: -(1.0 - cosine.powi(3)),
        radial: side,
        tangential: side,
        shear: 0.0,
        down: centre_deflection(material, a, z),
        outward: 0.0,
    }
}

/// Deflection under the centre for a unit pressure, with `R - z` written as
/// `a^2 / (R + z)` to keep its digits.
pub(crate) fn centre_deflection(material: Material, a: f64, z: f64) -> f64 {
    let Material { stiffness, poisson } = material;
    let slant = a.hypot(z);
    (1.0 + poisson) / stiffness * (a * a / slant + (1.0 - 2.0 * poisson) * a * a / (slant + z))
}
