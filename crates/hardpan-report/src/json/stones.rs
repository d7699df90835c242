//! Thrown stones, and handling compared by the stones that it meets.

use super::quantity::{Quantity, finite};
use hardpan_assess::{HandlingRow, HandlingTable, PathEnd, StonePicture, ZoneUse};
use hardpan_quantity::{Length, Quantity as _};
use schemars::JsonSchema;
use serde::Serialize;

/// Stones thrown at the aeroplane.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Stones")]
pub(super) struct StonesJson {
    /// Diameter of the stones.
    stone: Quantity,
    /// Greatest ground speed at which they are thrown.
    fastest: Quantity,
    /// Parts of the airframe, then deflectors.
    zones: Vec<StoneZoneJson>,
    /// Some of the paths that would strike without deflectors.
    paths: Vec<StonePathJson>,
}

/// A part of the airframe or a deflector; the keys of the other kind are null.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "StoneZone")]
struct StoneZoneJson {
    /// Name.
    name: String,
    /// Share of all stones thrown that reach the part.
    share: Option<f64>,
    /// The same without deflectors.
    share_without_deflectors: Option<f64>,
    /// Of those that reach it, from the nose tyres.
    from_nose_tyres: Option<f64>,
    /// Greatest energy.
    greatest_energy: Option<Quantity>,
    /// Screening band of that energy.
    band: Option<String>,
    /// Whether the deflector is fitted and works.
    works: Option<bool>,
    /// Of the strikes without deflectors, those that it stops by itself.
    stops: Option<f64>,
}

/// One path of a stone.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "StonePath")]
struct StonePathJson {
    /// Whether it strikes; if not, a deflector stops it.
    strikes: bool,
    /// Whether a nose tyre threw it.
    from_nose_tyre: bool,
    /// Points: metres aft of the nose wheels, right of the centre line, over the ground.
    points_m: Vec<[Option<f64>; 3]>,
}

/// Handling compared by the stones that it meets.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Handling")]
pub(super) struct HandlingJson {
    /// The handling planned, then each single change of it.
    rows: Vec<HandlingRowJson>,
    /// What the crew could choose and meets fewest; null if that is the plan.
    best: Option<HandlingRowJson>,
}

/// One way to handle the aeroplane.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "HandlingRow")]
struct HandlingRowJson {
    /// In words.
    name: String,
    /// Stones thrown at the airframe over those of the plan.
    thrown_over_planned: Option<f64>,
    /// Loose stones under an inlet vortex.
    stones_under_vortex: Option<f64>,
    /// Strikes for each 1,000 movements by the damage record: lower limit, mean,
    /// upper limit, at 90 % confidence.
    strikes_per_1000_movements: Option<[Option<f64>; 3]>,
    /// Whether it is the crew's to choose.
    crew_chooses: bool,
}

pub(super) fn stones(picture: &StonePicture) -> StonesJson {
    let paths = picture.paths.iter().map(|path| StonePathJson {
        strikes: path.end == PathEnd::Strike,
        from_nose_tyre: path.from_nose,
        points_m: path.points.iter().map(|point| point.map(metres)).collect(),
    });
    StonesJson {
        stone: Quantity::of(picture.stone),
        fastest: Quantity::of(picture.fastest),
        zones: picture.zones.iter().map(|zone| stone_zone(&zone.name, zone.does)).collect(),
        paths: paths.collect(),
    }
}

fn metres(place: Length) -> Option<f64> {
    finite((place.si() * 1e4).round() / 1e4)
}

fn stone_zone(name: &str, does: ZoneUse) -> StoneZoneJson {
    let empty = StoneZoneJson {
        name: name.to_owned(),
        share: None,
        share_without_deflectors: None,
        from_nose_tyres: None,
        greatest_energy: None,
        band: None,
        works: None,
        stops: None,
    };
    match does {
        ZoneUse::Airframe { share, bare, nose, greatest, band } => StoneZoneJson {
            share: finite(share.si()),
            share_without_deflectors: finite(bare.si()),
            from_nose_tyres: finite(nose.si()),
            greatest_energy: Some(Quantity::of(greatest)),
            band: Some(band.to_owned()),
            ..empty
        },
        ZoneUse::Deflector { works, stops } => {
            StoneZoneJson { works: Some(works), stops: finite(stops.si()), ..empty }
        }
    }
}

pub(super) fn handling(table: &HandlingTable) -> HandlingJson {
    HandlingJson {
        rows: table.rows.iter().map(handling_row).collect(),
        best: table.best.as_ref().map(handling_row),
    }
}

fn handling_row(row: &HandlingRow) -> HandlingRowJson {
    HandlingRowJson {
        name: row.name.clone(),
        thrown_over_planned: row.thrown.and_then(|share| finite(share.si())),
        stones_under_vortex: row.swallowed.and_then(finite),
        strikes_per_1000_movements: row.strikes.map(|limits| limits.map(finite)),
        crew_chooses: row.is_crews,
    }
}
