//! What would turn the answer turns it: each figure assessed on both sides.

mod support;

use hardpan_assess::{TurningPoint, assess};
use hardpan_model::{Flight, Verdict};
use hardpan_quantity::{Pressure, Temperature};
use support::{change, flight};

fn at(mut flight: Flight, point: &TurningPoint, beyond: bool) -> Option<Verdict> {
    let amount = if beyond { point.beyond } else { point.holds_to };
    let day = &mut flight.day;
    match point.what {
        "temperature" => {
            let value: Temperature = amount.get()?;
            day.temperature = day.temperature.take().map(|given| given.map(|_| value));
        }
        "air pressure" => {
            let value: Pressure = amount.get()?;
            let given = day.sea_level_pressure.take();
            day.sea_level_pressure = given.map(|given| given.map(|_| value));
        }
        _ => return None,
    }
    Some(assess(&flight).answer.verdict)
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
