//! Strips that nobody built, for demonstration, tests and benches: a seeded
//! cloud whose true ground is known in closed form.

mod memory;

use crate::{Error, PlanePoint, StationAxis};
use hardpan_quantity::{Length, Quantity, metres};
use las::point::{Classification, Format};
use las::{Builder, Point, Transform, Vector, Writer};
use std::io::{Seek, Write};

/// Ground of the low threshold over the datum.
const DATUM_M: f64 = 240.0;

/// What is made.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeStrip {
    /// Length of the strip.
    pub length: Length,
    /// Width of the cloud.
    pub width: Length,
    /// Points of each square metre.
    pub density: f64,
    /// Slope along the strip.
    pub gradient: f64,
    /// Fall from the crown to both sides.
    pub crossfall: f64,
    /// Bumps as station, length and height, all in metres: one cosine wave each.
    pub bumps: Vec<(f64, f64, f64)>,
    /// Standard deviation of a point.
    pub noise: Length,
    /// Share of points in plants of up to a metre and a half.
    pub plants: f64,
    /// Areas without a point: from, to, left, right, in metres.
    pub holes: Vec<(f64, f64, f64, f64)>,
    /// Whether ground points are marked.
    pub classified: bool,
    /// Seed of all chance.
    pub seed: u64,
}

impl Default for MadeStrip {
    fn default() -> Self {
        Self {
            length: metres(2000.0),
            width: metres(45.0),
            density: 50.0,
            gradient: 0.008,
            crossfall: 0.02,
            bumps: vec![(640.0, 12.0, 0.06), (1_210.0, 30.0, 0.09)],
            noise: metres(0.015),
            plants: 0.02,
            holes: Vec::new(),
            classified: true,
            seed: 1,
        }
    }
}

impl MadeStrip {
    /// Its axis: from a round place, up to the right.
    ///
    /// # Errors
    /// [`Error`] for a length that is no strip's.
    pub fn axis(&self) -> Result<StationAxis, Error> {
        let (east, north) = (0.6 * self.length.si(), 0.8 * self.length.si());
        let low = PlanePoint { easting: metres(500_000.0), northing: metres(4_100_000.0) };
        let high = PlanePoint {
            easting: low.easting + metres(east),
            northing: low.northing + metres(north),
        };
        StationAxis::between(low, high)
    }

    /// The true ground at a station and offset.
    #[must_use]
    pub fn ground(&self, station: Length, offset: Length) -> Length {
        metres(self.ground_m(station.si(), offset.si()))
    }

    fn ground_m(&self, station: f64, offset: f64) -> f64 {
        let bump = |&(at, long, high): &(f64, f64, f64)| {
            let share = (station - at) / long;
            let inside = share.abs() < 0.5;
            if inside { 0.5 * high * (1.0 + (std::f64::consts::TAU * share).cos()) } else { 0.0 }
        };
        DATUM_M + self.gradient * station - self.crossfall * offset.abs()
            + self.bumps.iter().map(bump).sum::<f64>()
    }

    /// How many points are made before holes are cut.
    #[must_use]
    pub fn points(&self) -> u64 {
        (self.density * self.length.si() * self.width.si()).round().max(0.0) as u64
    }

    /// Hands over every point: easting, northing and height in metres, and class.
    ///
    /// # Errors
    /// [`Error`] as for [`axis`](Self::axis).
    pub fn each(&self, mut take: impl FnMut(f64, f64, f64, u8)) -> Result<(), Error> {
        let axis = self.axis()?;
        let mut dice = Dice(self.seed);
        let count = self.points();
        for index in 0..count {
            // A scanner moves up the strip and sweeps across it.
            let station = self.length.si() * (index as f64 + dice.share()) / count.max(1) as f64;
            let offset = self.width.si() * (dice.share() - 0.5);
            let normal = dice.normal();
            let (plant, high) = (dice.share() < self.plants, dice.share());
            let cut = self.holes.iter().any(|&(from, to, left, right)| {
                (from..to).contains(&station) && (left..right).contains(&offset)
            });
            if cut {
                continue;
            }
            let ground = self.ground_m(station, offset) + self.noise.si() * normal;
            let (height, class) = if plant { (ground + 0.1 + 1.4 * high, 3) } else { (ground, 2) };
            let place = axis.point(metres(station), metres(offset));
            let class = if self.classified { class } else { 1 };
            take(place.easting.si(), place.northing.si(), height, class);
        }
        Ok(())
    }

    /// The cloud that [`MadeStrip::write`] writes, in memory.
    ///
    /// # Errors
    /// [`Error::Refused`] where the writer refuses a byte.
    pub fn bytes(&self, compression: Compression) -> Result<Vec<u8>, Error> {
        let memory = memory::Shared::default();
        self.write(memory.clone(), compression)?;
        Ok(memory.bytes())
    }

    /// Writes a cloud of version 1.4 in metres, compressed if wanted.
    ///
    /// # Errors
    /// [`Error::Refused`] where the output refuses a byte.
    pub fn write(
        &self,
        out: impl Write + Seek + Send + Sync + 'static,
        compression: Compression,
    ) -> Result<(), Error> {
        let refused = |error: las::Error| Error::Refused { reason: error.to_string() };
        let mut builder = Builder::from((1, 4));
        let mut format = Format::new(6).map_err(refused)?;
        format.is_compressed = compression == Compression::Laz;
        builder.point_format = format;
        let transform = |offset| Transform { scale: 0.001, offset };
        builder.transforms =
            Vector { x: transform(500_000.0), y: transform(4_100_000.0), z: transform(0.0) };
        builder.date = None;
        builder.generating_software = "invented data".to_owned();
        let mut header = builder.into_header().map_err(refused)?;
        header.set_wkt_crs(FRAME.as_bytes().to_vec()).map_err(refused)?;
        let mut writer = Writer::new(out, header).map_err(refused)?;
        let mut outcome = Ok(());
        self.each(|x, y, z, class| {
            if outcome.is_err() {
                return;
            }
            let classification = match class {
                2 => Classification::Ground,
                3 => Classification::LowVegetation,
                _ => Classification::Unclassified,
            };
            let point = Point {
                x,
                y,
                z,
                return_number: 1,
                number_of_returns: 1,
                classification,
                gps_time: Some(0.0),
                ..Point::default()
            };
            outcome = writer.write_point(point).map_err(refused);
        })?;
        outcome?;
        writer.close().map_err(refused)
    }
}

/// Whether a made cloud is compressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Compression {
    /// Plain records.
    Las,
    /// Compressed records.
    Laz,
}

/// A frame that is nowhere, in metres, with its heights in metres.
const FRAME: &str = "COMPD_CS[\"invented\",PROJCS[\"invented plane\",GEOGCS[\"invented\",\
DATUM[\"invented\",SPHEROID[\"invented\",6378137,298.257223563]],PRIMEM[\"Greenwich\",0],\
UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],UNIT[\"metre\",1]],\
VERT_CS[\"invented height\",VERT_DATUM[\"invented\",2005],UNIT[\"metre\",1]]]";

/// A stream of even numbers, SplitMix64. Source: [STEELE-2014] figure 17.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Between 0 and 1, without 1.
    fn share(&mut self) -> f64 {
        (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Of the standard normal law, by the method of Box and Muller.
    fn normal(&mut self) -> f64 {
        let (radius, angle) = (1.0 - self.share(), self.share());
        (-2.0 * radius.ln()).sqrt() * (std::f64::consts::TAU * angle).cos()
    }
}
