//! Clearance of the aeroplane's low points on the strip as it is: wheels in
//! its ruts, bumps under the point, and with a leg down.

use crate::context::Context;
use crate::draft::{computed, given, need};
use crate::measured::{Known, Unavailable};
use hardpan_debris::{BodyPoint, FailedLegs, Stance, axle_drop};
use hardpan_model::{BasisInput, Cable, Carrier, ClearancePoint, Flight, Leg, LowPart};
use hardpan_quantity::{Length, metres};

/// Deepest rut and highest bump of the survey, by the shortest edge
/// that the survey serves.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ground {
    pub(crate) rut: Length,
    pub(crate) bump: Length,
    /// What noise of the survey alone shows of both together somewhere on the
    /// strip.
    pub(crate) noise: Length,
}

impl Ground {
    /// Level ground.
    pub(crate) fn level() -> Self {
        Self { rut: metres(0.0), bump: metres(0.0), noise: metres(0.0) }
    }

    /// What was measured at a cable; none unless both rut and bump were.
    pub(crate) fn at(cable: &Cable) -> Option<Self> {
        let (rut, bump) = (cable.rut.as_ref()?.value, cable.bump.as_ref()?.value);
        Some(Self { rut, bump, noise: metres(0.0) })
    }

    /// What the survey found.
    pub(crate) fn surveyed(context: &Context<'_>) -> Known<Self> {
        let report = context.measured.shape.surface.as_ref().map_err(Clone::clone)?;
        let served = report.edges.iter().filter(|edge| edge.worst().is_some());
        let shortest = served.reduce(|a, b| if b.rule.length < a.rule.length { b } else { a });
        let edge = shortest.ok_or_else(|| {
            let wanted = need("strip: survey", "levels along each wheel lane, close together");
            Unavailable::missing("ruts and bumps of the strip", vec![wanted])
        })?;
        let height = |found: &Option<(hardpan_surface::Event, hardpan_surface::Grade)>| {
            found.as_ref().map_or(metres(0.0), |(event, _)| event.height)
        };
        // A noise that nobody states is unproven by R10; contact stays contact.
        let noise = edge.noise.map_or(metres(0.0), |noise| 2.0 * noise.false_worst);
        Ok(Self { rut: height(&edge.worst_rut), bump: height(&edge.worst_bump), noise })
    }

    pub(crate) fn inputs(&self) -> [BasisInput; 3] {
        [
            computed("deepest rut", self.rut, "survey of ruts and bumps, R10"),
            computed("highest bump", self.bump, "survey of ruts and bumps, R10"),
            computed("of both that noise alone shows", self.noise, "survey of ruts and bumps"),
        ]
    }
}

/// How far a leg comes down: by its flat tyres, and with its strut as well.
#[derive(Debug, Clone, Copy)]
struct LegDown {
    tyres: Length,
    all: Length,
}

fn leg_down(leg: &Leg, name: &str) -> Known<LegDown> {
    let Some(stroke) = &leg.stroke_left else {
        let wanted = need(
            &format!(
                "aeroplane: gear.{name}.stroke_left, gear.{name}.tyre.loaded_radius, flat_radius"
            ),
            "from the maintenance manual",
        );
        return Err(Unavailable::missing("a flat tyre and a bottomed strut", vec![wanted]));
    };
    Ok(LegDown {
        tyres: tyres_down(leg, name, metres(0.0))?,
        all: tyres_down(leg, name, stroke.value)?,
    })
}

/// How far the axle comes down with flat tyres and a stroke of its strut.
fn tyres_down(leg: &Leg, name: &str, stroke: Length) -> Known<Length> {
    let (Some(loaded), Some(flat)) = (&leg.tyre.loaded_radius, &leg.tyre.flat_radius) else {
        let wanted = need(
            &format!("aeroplane: gear.{name}.tyre.loaded_radius, flat_radius"),
            "from the maintenance manual",
        );
        return Err(Unavailable::missing("a flat tyre", vec![wanted]));
    };
    axle_drop(loaded.value, flat.value, stroke, metres(0.0))
        .map_err(|error| Unavailable::refused("how far a leg comes down", &error))
}

/// The least height of an inlet's centre or a propeller's axis with the tyres
/// of any one leg flat, struts at their static stroke. It stands where the low
/// points of its kind do.
pub(crate) fn height_on_flat_tyre(flight: &Flight, height: Length, part: LowPart) -> Known<Length> {
    let gear = &flight.aeroplane.gear;
    let places: Vec<&ClearancePoint> =
        flight.aeroplane.clearances.iter().filter(|point| point.part == part).collect();
    let (Some(wheelbase), Some(track), false) = (&gear.wheelbase, &gear.track, places.is_empty())
    else {
        let what = match part {
            LowPart::Propeller => "propeller",
            _ => "pod",
        };
        let wanted = need(
            &format!("aeroplane: gear.wheelbase, track; [[clearance]] what = \"{what}\""),
            "where it stands, from the drawing",
        );
        return Err(Unavailable::missing("the height with a flat tyre", vec![wanted]));
    };
    let stance = Stance { wheelbase: wheelbase.value, track: track.value };
    let flat = FailedLegs {
        nose: tyres_down(&gear.nose, "nose", metres(0.0))?,
        main: tyres_down(&gear.main, "main", metres(0.0))?,
    };
    let mut least = height;
    for place in places {
        let right = place.offset.as_ref().map_or(metres(0.0), |offset| offset.value);
        let point = BodyPoint { aft: place.aft.value, right, height };
        let none = metres(0.0);
        let lowered = stance
            .least_clearance(&point, none, none, Some(flat))
            .map_err(|error| Unavailable::refused("the height with a flat tyre", &error))?;
        least = least.min(lowered);
    }
    Ok(least)
}

/// Whether the wheels stand as they should.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wheels {
    /// Tyres inflated, struts at their static stroke.
    Sound,
    /// All tyres of any one leg flat and its strut bottomed.
    OneLegDown,
}

/// Least clearance of a point.
pub(crate) fn clearance(
    flight: &Flight,
    point: &ClearancePoint,
    ground: Ground,
    wheels: Wheels,
) -> Known<Length> {
    let gear = &flight.aeroplane.gear;
    let legs = match wheels {
        Wheels::Sound => None,
        Wheels::OneLegDown => Some((leg_down(&gear.nose, "nose")?, leg_down(&gear.main, "main")?)),
    };
    let on_leg = |tyres: Option<Length>| {
        point.height.value - ground.rut - ground.bump - tyres.unwrap_or(metres(0.0))
    };
    match point.carrier {
        Carrier::NoseLeg => Ok(on_leg(legs.map(|legs| legs.0.tyres))),
        Carrier::MainLeg => Ok(on_leg(legs.map(|legs| legs.1.tyres))),
        Carrier::Airframe => {
            let (Some(wheelbase), Some(track)) = (&gear.wheelbase, &gear.track) else {
                let wanted = need("aeroplane: gear.wheelbase, track", "from the drawing");
                return Err(Unavailable::missing("clearances", vec![wanted]));
            };
            let stance = Stance { wheelbase: wheelbase.value, track: track.value };
            let body = BodyPoint {
                aft: point.aft.value,
                right: point.offset.as_ref().map_or(metres(0.0), |offset| offset.value),
                height: point.height.value,
            };
            let failed = legs.map(|(nose, main)| FailedLegs { nose: nose.all, main: main.all });
            stance
                .least_clearance(&body, ground.rut, ground.bump, failed)
                .map_err(|error| Unavailable::refused("clearances", &error))
        }
    }
}

/// What the file says of gear and point, as inputs.
pub(crate) fn inputs(flight: &Flight, point: &ClearancePoint) -> Vec<BasisInput> {
    let gear = &flight.aeroplane.gear;
    let of_leg = |leg: &Leg, name: &str| {
        let tyre = &leg.tyre;
        [
            tyre.loaded_radius.as_ref().map(|value| given(&format!("{name} loaded radius"), value)),
            tyre.flat_radius.as_ref().map(|value| given(&format!("{name} flat radius"), value)),
            leg.stroke_left.as_ref().map(|value| given(&format!("{name} stroke left"), value)),
        ]
    };
    let mut rows = vec![
        Some(given("height of the point", &point.height)),
        Some(given("aft of the nose wheels", &point.aft)),
        point.offset.as_ref().map(|value| given("off the centre line", value)),
        gear.wheelbase.as_ref().map(|value| given("wheelbase", value)),
        gear.track.as_ref().map(|value| given("track", value)),
    ];
    rows.extend(of_leg(&gear.nose, "nose"));
    rows.extend(of_leg(&gear.main, "main"));
    rows.into_iter().flatten().collect()
}
