//! What would turn the answer turns it: each figure assessed on both sides.

mod support;

use hardpan_assess::{TurningPoint, assess};
use hardpan_model::{Flight, SurfaceState, Verdict, Wind};
use hardpan_quantity::{Angle, Pressure, Quantity, Speed, Temperature, tonnes};
use support::{at_masses, change, flight, rougher};

/// Course of both movements of the demo, down the strip.
fn course() -> f64 {
    68.0_f64.to_radians() + std::f64::consts::PI
}

/// Headwind, and crosswind from the right, m/s.
fn components(wind: &Wind) -> (f64, f64) {
    let off = wind.from.expect("stated").si() - course();
    (wind.speed.si() * off.cos(), wind.speed.si() * off.sin())
}

fn blown(wind: Wind, along: f64, across: f64) -> Wind {
    let from = course() + across.atan2(along);
    Wind {
        from: Some(Angle::from_si(from.rem_euclid(std::f64::consts::TAU))),
        speed: Speed::from_si(across.hypot(along)),
        ..wind
    }
}

fn at(mut flight: Flight, point: &TurningPoint, beyond: bool) -> Option<Verdict> {
    let amount = if beyond { point.beyond } else { point.holds_to };
    let day = &mut flight.day;
    match point.what {
        "temperature" | "temperature, colder" => {
            let value: Temperature = amount.get()?;
            day.temperature = day.temperature.take().map(|given| given.map(|_| value));
        }
        "air pressure" => {
            let value: Pressure = amount.get()?;
            let given = day.sea_level_pressure.take();
            day.sea_level_pressure = given.map(|given| given.map(|_| value));
        }
        "landing mass" => {
            let plan = flight.landing.as_mut()?;
            plan.mass = plan.mass.take().map(|given| given.map(|_| amount.get().expect("a mass")));
        }
        "take-off mass" => {
            let plan = flight.take_off.as_mut()?;
            plan.mass = plan.mass.take().map(|given| given.map(|_| amount.get().expect("a mass")));
        }
        "rain of an hour" if amount.si > 0.0 => {
            let fallen = amount.get()?;
            day.rain = day.rain.take().map(|given| given.map(|_| fallen));
            let state = day.surface_state.take();
            day.surface_state = state.map(|given| given.map(|_| SurfaceState::Wet));
        }
        "rain of an hour" => {}
        "wind along the strip" => {
            day.wind = day.wind.take().map(|given| {
                given.map(|wind| {
                    let (_, across) = components(&wind);
                    blown(wind, amount.si, across)
                })
            });
        }
        "crosswind" | "crosswind from the other side" => {
            let turned = if point.what == "crosswind" { 1.0 } else { -1.0 };
            day.wind = day.wind.take().map(|given| {
                given.map(|wind| {
                    let (along, across) = components(&wind);
                    // What stands at a limit does not pass it by rounding.
                    let size = amount.si * (1.0 - 1e-9);
                    blown(wind, along, turned * size.copysign(across))
                })
            });
        }
        _ => return None,
    }
    Some(assess(&flight).answer.verdict)
}

/// Closed form: what the ground needs does not depend on its strength, so that
/// the share of its strength that just holds is the utilisation of G20.
#[test]
fn the_strength_that_just_holds_is_the_utilisation() {
    let found = assess(&flight(&[]));
    let used = found.findings.iter().find(|one| one.code == "G20").and_then(|one| one.value);
    let used = used.expect("judged").si;
    let point = |what: &str| found.turning.points.iter().find(|point| point.what == what);
    let all = point("strength of the ground").expect("moved");
    assert!(all.holds_to.si >= used && all.beyond.si < used, "{all:?} at {used}");
    let place = point("weakest place").expect("moved");
    let (holds, beyond) = (place.holds_to.si / place.now.si, place.beyond.si / place.now.si);
    assert!(holds >= used - 1e-9 && beyond < used, "{place:?} at {used}");
}

#[test]
fn prop_each_turning_point_holds_on_its_near_side_and_turns_beyond() {
    let mut turned = 0;
    for mass in ["40.4 t", "41.4 t"] {
        let changes = [change("flight.toml", "mass = \"40.4 t\"", &format!("mass = \"{mass}\""))];
        let flight = flight(&changes);
        let planned = assess(&flight);
        for point in planned.turning.points.iter().filter(|point| point.turn.is_some()) {
            let Some(near) = at(flight.clone(), point, false) else { continue };
            assert_eq!(near, planned.answer.verdict, "{} at {mass}", point.what);
            let far = at(flight.clone(), point, true);
            let turn = point.turn.as_ref().map(|turn| turn.verdict);
            assert_eq!(far, turn, "{} at {mass}", point.what);
            turned += 1;
        }
    }
    assert!(turned > 0, "no figure of the day turned the answer");
}

/// Where the ride alone fails, what would turn it is judged on rides of its own.
#[test]
fn the_ride_that_fails_is_ridden_again_for_each_step() {
    let flight = at_masses(rougher(flight(&[]), 1.3), tonnes(41.2), tonnes(40.4));
    let planned = assess(&flight);
    assert_eq!(planned.answer.verdict, Verdict::Fail);
    let points = &planned.turning.points;
    assert!(points.iter().any(|point| point.what == "landing mass"), "{points:?}");
    for point in points {
        let Some(near) = at(flight.clone(), point, false) else { continue };
        assert!(near < Verdict::Fail, "{}", point.what);
        assert_eq!(at(flight.clone(), point, true), Some(Verdict::Fail), "{}", point.what);
    }
}

#[test]
fn a_crosswind_is_tried_from_both_sides() {
    let found = assess(&flight(&[]));
    let points = &found.turning.points;
    let point = |what: &str| points.iter().find(|point| point.what == what).expect("moved");
    let (near, other) = (point("crosswind"), point("crosswind from the other side"));
    assert_eq!(near.now.si, -other.now.si);
    assert!(other.holds_to.si > 0.0, "{other:?}");
}
