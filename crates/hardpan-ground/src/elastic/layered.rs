//! How do several wheels stress and deflect layered elastic ground?
//!
//! Layers, bonded and uniform in plan, on a half space; circles of uniform
//! pressure; places → [`GroundResponse`] by superposition. Linear: the tension
//! that it shows at the base of gravel cannot exist there and is a warning,
//! not a strength check. Numbers: `validation/cases/ground/jones-1962.toml`
//! and its neighbours.

use crate::Error;
use crate::elastic::circle_field::{Material, circle_field};
use crate::elastic::field::{Field, GroundResponse, Sum};
use crate::elastic::layer_modes::ModeLayer;
use crate::elastic::spectrum::{Spectrum, Spot};
use crate::error::{positive, within};
use hardpan_quantity::{Length, Pressure, Quantity};

/// Most layers, half space included.
const MOST_LAYERS: usize = 64;

/// One elastic layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElasticLayer {
    /// Thickness; none for the half space at the bottom.
    pub thickness: Option<Length>,
    /// Stiffness (Young's modulus).
    pub stiffness: Pressure,
    /// Poisson's ratio, 0 to 0.5.
    pub poisson: f64,
}

/// A circle of uniform pressure on the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircularLoad {
    /// Place of its centre along x.
    pub x: Length,
    /// Place of its centre along y.
    pub y: Length,
    /// Pressure.
    pub pressure: Pressure,
    /// Radius.
    pub radius: Length,
}

/// Which layer is meant at an interface.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The layer above.
    Above,
    /// The layer below.
    Below,
}

/// A place in the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundPlace {
    /// Along x.
    pub x: Length,
    /// Along y.
    pub y: Length,
    /// Below the surface.
    pub depth: Length,
    /// Which layer is meant where the depth is that of an interface.
    pub side: Side,
}

/// Elastic layers on a half space.
#[derive(Debug, Clone, PartialEq)]
pub struct LayeredGround {
    materials: Vec<Material>,
    /// Depth of the top of each layer, metres.
    tops: Vec<f64>,
}

impl LayeredGround {
    /// Ground from its layers, from the surface down; the last has no
    /// thickness and reaches down without end.
    ///
    /// # Errors
    /// [`Error::NotPositive`] and [`Error::OutOfRange`] for constants outside
    /// their ranges, a thickness that is missing above the last layer or given
    /// there, or more than 64 layers.
    pub fn new(layers: &[ElasticLayer]) -> Result<Self, Error> {
        within("number of layers", "", layers.len() as f64, 1.0, MOST_LAYERS as f64)?;
        let mut ground = Self { materials: Vec::new(), tops: vec![0.0] };
        let mut depth = 0.0;
        for (index, layer) in layers.iter().enumerate() {
            let stiffness = within("stiffness of a layer", "Pa", layer.stiffness.si(), 1e3, 1e13)?;
            let poisson = within("Poisson's ratio", "", layer.poisson, 0.0, 0.5)?;
            ground.materials.push(Material { stiffness, poisson });
            let last = index + 1 == layers.len();
            match layer.thickness {
                None if last => {}
                Some(thickness) if !last => {
                    depth += within("thickness of a layer", "m", thickness.si(), 1e-3, 1e3)?;
                    ground.tops.push(depth);
                }
                given => {
                    let value = given.map_or(0.0, |thickness| thickness.si());
                    let what = "thickness, wanted above the half space and only there,";
                    return Err(Error::NotPositive { what, value, unit: "m" });
                }
            }
        }
        Ok(ground)
    }

    /// Response at a place to all loads together.
    ///
    /// # Errors
    /// [`Error::NotPositive`] and [`Error::OutOfRange`] for a load or place
    /// that is not finite, above the surface or more than 1 km away.
    pub fn response(
        &self,
        loads: &[CircularLoad],
        place: &GroundPlace,
    ) -> Result<GroundResponse, Error> {
        let depth = within("depth", "m", place.depth.si(), 0.0, 1e3)?;
        let layer = self.layer_at(depth, place.side);
        let below_top = depth - self.tops.get(layer).copied().unwrap_or(0.0);
        let spectrum = Spectrum::at(&self.mode_layers(), &Spot { layer, below_top, depth });
        let mut sum = Sum::default();
        for load in loads {
            let pressure = within("contact pressure", "Pa", load.pressure.si(), 0.0, 1e9)?;
            let radius = within("contact radius", "m", load.radius.si(), 1e-3, 10.0)?;
            let [x, y] = [place.x.si() - load.x.si(), place.y.si() - load.y.si()];
            let distance = within("distance from a load", "m", x.hypot(y), 0.0, 1e3)?;
            let mut field = spectrum.under(radius, distance);
            if layer == 0
                && let Some(&material) = self.materials.first()
            {
                field = field.plus(circle_field(material, radius, distance, depth));
            }
            let (cosine, sine) =
                if distance > 0.0 { (x / distance, y / distance) } else { (1.0, 0.0) };
            sum.add(&scaled(field, pressure), cosine, sine);
        }
        let material = self.materials.get(layer).ok_or(Error::NoSolution {
            what: "layer at the depth",
            low: 0.0,
            high: depth,
            unit: "m",
        })?;
        Ok(sum.response(material.stiffness, material.poisson))
    }

    fn layer_at(&self, depth: f64, side: Side) -> usize {
        let reached = self.tops.partition_point(|&top| match side {
            Side::Above => top < depth - 1e-9,
            Side::Below => top <= depth + 1e-9,
        });
        reached.saturating_sub(1)
    }

    fn mode_layers(&self) -> Vec<ModeLayer> {
        let bottoms = self.tops.iter().skip(1).copied().chain(std::iter::once(f64::INFINITY));
        self.materials
            .iter()
            .zip(self.tops.iter().zip(bottoms))
            .map(|(material, (top, bottom))| ModeLayer {
                poisson: material.poisson,
                shear: material.stiffness / (2.0 * (1.0 + material.poisson)),
                thickness: bottom - top,
            })
            .collect()
    }
}

fn scaled(field: Field, pressure: f64) -> Field {
    Field {
        vertical: field.vertical * pressure,
        radial: field.radial * pressure,
        tangential: field.tangential * pressure,
        shear: field.shear * pressure,
        down: field.down * pressure,
        outward: field.outward * pressure,
    }
}

/// Radius from load and pressure, for wheels given by their load.
impl CircularLoad {
    /// A wheel at a place from its load and tyre pressure.
    ///
    /// # Errors
    /// [`Error::NotPositive`] for a load or pressure that is not above zero.
    pub fn wheel(
        x: Length,
        y: Length,
        load: hardpan_quantity::Force,
        pressure: Pressure,
    ) -> Result<Self, Error> {
        let load = positive("load of a wheel", "N", load.si())?;
        let contact = positive("pressure of the tyre", "Pa", pressure.si())?;
        let radius = crate::wheel::tyre::contact_radius(load, contact);
        Ok(Self { x, y, pressure, radius: Length::from_si(radius) })
    }
}
