//! Coverages that one pass makes of each wheel lane, for who counts passes.

use super::strength_finding::wander_input;
use super::{LegKind, wheel_wander};
use crate::draft::{given, given_as, plain_step};
use crate::measured::{Known, Unavailable};
use hardpan_ground::LegGeometry;
use hardpan_model::{Flight, Given, Lane, Need, Step};
use hardpan_quantity::{Amount, Length};

/// Coverages that one pass of the flight's aeroplane makes of the busiest point of
/// each lane, at the full section width of its tyres, with the wander that the strip
/// states or channelised traffic has.
///
/// # Errors
/// [`Unavailable`] with what the aeroplane file must state.
pub fn coverages_of_one_pass(flight: &Flight) -> Known<[(Lane, f64, Step); 3]> {
    let Some(track) = &flight.aeroplane.gear.track else {
        let how = "between the main legs".to_owned();
        let need = Need { what: "aeroplane: gear.track".to_owned(), how };
        return Err(Unavailable::missing("coverages", vec![need]));
    };
    let of = |kind| {
        let geometry = LegGeometry::of_leg(LegKind::leg(kind, flight), kind.key())?;
        let one = of_one_pass(flight, kind, track.value, &geometry)?;
        Ok::<_, Unavailable>((one, step(flight, kind, track, one)))
    };
    let (main, nose) = (of(LegKind::Main)?, of(LegKind::Nose)?);
    let lane = |lane: Lane, (one, step): &(f64, Step)| (lane, *one, step.clone());
    Ok([lane(Lane::Left, &main), lane(Lane::Nose, &nose), lane(Lane::Right, &main)])
}

/// How the coverages of one pass came about.
fn step(flight: &Flight, kind: LegKind, track: &Given<Length>, one: f64) -> Step {
    let leg = kind.leg(flight);
    let of_leg = [
        leg.tyre.width.as_ref().map(|width| given("section width of a tyre", width)),
        leg.wheels.as_ref().map(|wheels| {
            given_as("wheels of a leg", wheels, Amount::count(f64::from(wheels.value)))
        }),
        leg.spacing.as_ref().map(|spacing| given("wheel spacing", spacing)),
        matches!(kind, LegKind::Main).then(|| given("gear track", track)),
    ];
    let inputs = of_leg.into_iter().flatten().chain([wander_input(flight)]).collect();
    plain_step(
        "coverages of one pass at the busiest point",
        "greatest over y of the sum over the tyre tracks of Φ((y − track + width/2)/wander) − \
         Φ((y − track − width/2)/wander); Φ is the normal distribution",
        hardpan_ground::PASSES_PER_COVERAGE.source,
        inputs,
        Amount::coefficient(one),
    )
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
