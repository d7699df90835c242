//! Coverages that one pass makes of each wheel lane, for who counts passes.

use super::{LegKind, wheel_wander};
use crate::measured::{Known, Unavailable};
use hardpan_ground::LegGeometry;
use hardpan_model::{Flight, Lane, Need};
use hardpan_quantity::Length;

/// Coverages that one pass of the flight's aeroplane makes of the busiest point of
/// each lane, at the full section width of its tyres, with the wander that the strip
/// states or channelised traffic has.
///
/// # Errors
/// [`Unavailable`] with what the aeroplane file must state.
pub fn coverages_of_one_pass(flight: &Flight) -> Known<[(Lane, f64); 3]> {
    let Some(track) = &flight.aeroplane.gear.track else {
        let how = "between the main legs".to_owned();
        let need = Need { what: "aeroplane: gear.track".to_owned(), how };
        return Err(Unavailable::missing("coverages", vec![need]));
    };
    let of = |kind| {
        let geometry = LegGeometry::of_leg(LegKind::leg(kind, flight), kind.key())?;
        of_one_pass(flight, kind, track.value, &geometry)
    };
    let (main, nose) = (of(LegKind::Main)?, of(LegKind::Nose)?);
    Ok([(Lane::Left, main), (Lane::Nose, nose), (Lane::Right, main)])
}

pub(super) fn of_one_pass(
    flight: &Flight,
    kind: LegKind,
    track: Length,
    geometry: &LegGeometry,
) -> Known<f64> {
    let (leg, key) = (kind.leg(flight), kind.key());
    let Some(width) = &leg.tyre.width else {
        return Err(Unavailable::missing(
            "the strength of the ground",
            vec![Need {
                what: format!("aeroplane: {key}.tyre.width"),
                how: "section width, from the tyre maker".to_owned(),
            }],
        ));
    };
    let tracks = match kind {
        LegKind::Main => hardpan_ground::main_gear_tracks(geometry, track),
        LegKind::Nose => geometry.tracks(),
    };
    Ok(hardpan_ground::coverages_per_pass(&tracks, width.value, wheel_wander(flight))?)
}
