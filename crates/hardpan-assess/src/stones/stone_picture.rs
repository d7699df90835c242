//! Stones thrown at the aeroplane, for pictures and programs.

use crate::ground::LegKind;
use crate::stones::Stones;
use crate::stones::stone_geometry::FlapPlace;
use hardpan_debris::{DamageBand, StonePath as Thrown};
use hardpan_model::Zone;
use hardpan_quantity::{Energy, Length, Quantity, Ratio, Speed, metres};

/// Paths that are shown.
const SHOWN: usize = 60;

/// Stones thrown at the parts of an aeroplane.
#[derive(Debug, Clone, PartialEq)]
pub struct StonePicture {
    /// Diameter of the stones.
    pub stone: Length,
    /// Greatest ground speed at which they are thrown.
    pub fastest: Speed,
    /// Parts of the airframe, then deflectors, each in the order of the file.
    pub zones: Vec<PictureZone>,
    /// Tyres: aft of the nose wheels, right of the centre line, radius, width.
    pub tyres: Vec<[Length; 4]>,
    /// Some of the paths that would strike without deflectors.
    pub paths: Vec<StonePath>,
}

/// What a zone does, with its figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ZoneUse {
    /// It is struck.
    Airframe {
        /// Share of all stones thrown that reach it.
        share: Ratio,
        /// The same without deflectors.
        bare: Ratio,
        /// Of those that reach it, from the nose tyres.
        nose: Ratio,
        /// Greatest energy.
        greatest: Energy,
        /// In words, by the screening bands.
        band: &'static str,
    },
    /// It stops stones.
    Deflector {
        /// Whether it is fitted and works.
        works: bool,
        /// Of the stones that would strike, those that it stops by itself.
        stops: Ratio,
    },
}

/// A zone of the aeroplane.
#[derive(Debug, Clone, PartialEq)]
pub struct PictureZone {
    /// Name.
    pub name: String,
    /// First and last place, aft of the nose wheels.
    pub along: (Length, Length),
    /// Left and right edge, right of the centre line; two where it stands on both sides.
    pub across: Vec<(Length, Length)>,
    /// Height over the ground.
    pub height: Length,
    /// What it does.
    pub does: ZoneUse,
}

/// How a path ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PathEnd {
    /// At a part of the airframe.
    Strike,
    /// At a deflector that works.
    Stopped,
}

/// One path.
#[derive(Debug, Clone, PartialEq)]
pub struct StonePath {
    /// Points aft of the nose wheels, right of the centre line, over the ground.
    pub points: Vec<[Length; 3]>,
    /// How it ends.
    pub end: PathEnd,
    /// Whether a nose tyre threw it.
    pub from_nose: bool,
}

/// The picture of thrown stones.
pub(crate) fn picture(stones: &Stones) -> StonePicture {
    let geometry = &stones.geometry;
    let parts = stones.strikes.iter().map(|strike| {
        let does = ZoneUse::Airframe {
            share: strike.with.share,
            bare: strike.without.share,
            nose: strike.nose,
            greatest: strike.with.greatest,
            band: band(strike.band),
        };
        zone(&strike.zone, does)
    });
    let guards = stones.stops.iter().map(|stop| {
        let does = ZoneUse::Deflector { works: stop.guard.is_working, stops: stop.of_strikes };
        zone(&stop.guard.zone, does)
    });
    StonePicture {
        stone: stones.stone.value,
        fastest: stones.fastest,
        zones: parts.chain(guards).collect(),
        tyres: geometry.tyres.iter().map(|t| [t.aft, t.right, t.radius, t.width]).collect(),
        paths: paths(stones),
    }
}

const fn band(band: DamageBand) -> &'static str {
    match band {
        DamageBand::Paint => "under 2 J",
        DamageBand::Dents => "2 J to 10 J",
        DamageBand::Puncture => "10 J to 50 J",
        DamageBand::BeyondDesign => "over 50 J",
    }
}

fn zone(zone: &Zone, does: ZoneUse) -> PictureZone {
    let half = 0.5 * zone.width.value;
    let offset = zone.offset.as_ref().map_or(metres(0.0), |offset| offset.value);
    let at = |middle: Length| (middle - half, middle + half);
    let across =
        if offset > metres(0.0) { vec![at(-offset), at(offset)] } else { vec![at(offset)] };
    PictureZone {
        name: zone.name.value.clone(),
        along: (zone.from.value, zone.to.value),
        across,
        height: zone.height.value,
        does,
    }
}

/// Paths that would strike, evenly taken from all of them in the order drawn.
fn paths(stones: &Stones) -> Vec<StonePath> {
    let geometry = &stones.geometry;
    let end = |path: &Thrown, guarded: &dyn Fn(usize) -> bool| {
        let end = path.end(|surface| geometry.stands(surface, FlapPlace::Down, guarded));
        end.copied()
    };
    let strikes = |path: &&Thrown| {
        end(path, &|_| false).is_some_and(|end| geometry.zone_of(end.surface()).is_some())
    };
    let all: Vec<&Thrown> = stones.thrown.paths().iter().filter(strikes).collect();
    let every = all.len().div_ceil(SHOWN).max(1);
    let shown = all.into_iter().step_by(every).filter_map(|path| {
        let end = end(path, &|guard| geometry.is_working(guard))?;
        let is_strike = geometry.zone_of(end.surface()).is_some();
        Some(StonePath {
            points: path.trail(&end),
            end: if is_strike { PathEnd::Strike } else { PathEnd::Stopped },
            from_nose: geometry.leg(path) == Some(LegKind::Nose),
        })
    });
    shown.filter(|path| path.points.iter().flatten().all(|place| place.si().is_finite())).collect()
}
