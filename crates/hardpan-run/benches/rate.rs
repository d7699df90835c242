//! How many full take-offs a core computes in a second, on the ground of the
//! oracle's twin: all engines to the screen, the balanced decision speed
//! searched for, carried on and stopped. Read by `against_scipy.py`.
#![allow(missing_docs)]

#[path = "../tests/fixture/mod.rs"]
mod fixture;

use fixture::{ground_by, take_off_flap, twin};
use hardpan_model::{Direction, FieldRule};
use hardpan_quantity::{Quantity, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, Ground, RunModel, Situation, TakeOffPlan, WindComponents, take_off,
};
use std::hint::black_box;
use std::time::{Duration, Instant};

const LENGTH: f64 = 2500.0;
const LASTS: Duration = Duration::from_secs(3);

fn ground(patches: f64) -> Ground {
    let patch = |station: f64, centre: f64| (1.0 - (station - centre).abs() / 50.0).max(0.0);
    let condition = ground_by(LENGTH, 5.0, move |station| {
        let soft = 0.09 * patch(station, 600.0) + 0.05 * patch(station, 900.0);
        let loose = 0.15 * patch(station, 1000.0);
        (0.004 * station, 0.03 + patches * soft, 0.25 - patches * loose)
    });
    Ground::new(&condition, Direction::Up, metres(LENGTH)).expect("ground")
}

fn main() {
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("a model");
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: false,
    };
    for (name, patches) in [("patches", 1.0), ("even", 0.0)] {
        let ground = ground(patches);
        let situation = |mass: f64| Situation {
            mass: kilograms(mass),
            centre_of_gravity: percent(22.0),
            air: Air::standard(metres(300.0), 10.0).expect("air"),
            wind: WindComponents::stated(knots(6.0), knots(0.0)),
            ground: &ground,
        };
        let run = take_off(&model, &situation(42_000.0), &plan).expect("a take-off");
        let decision = run.decision.expect("two engines");
        let (begin, mut count) = (Instant::now(), 0_u32);
        while begin.elapsed() < LASTS {
            let run = take_off(&model, &situation(black_box(42_000.0)), &plan);
            black_box(run.is_ok());
            count += 1;
        }
        let each = begin.elapsed().as_secs_f64() / f64::from(count);
        println!(
            "{name} seconds {each:.9} rotation {:.6} screen {:.6} stop {:.6}",
            run.all_engines.rotation.si(),
            decision.carried_on.expect("it climbs").screen.si(),
            decision.stop.si()
        );
    }
}
