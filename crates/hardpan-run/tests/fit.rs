//! Calibrating to charts: constants are found again from charts that were made
//! with others, and what cannot be fitted is said.

mod fixture;

use fixture::{even_ground, landing_flap, take_off_flap, twin};
use hardpan_model::{
    Aeroplane, Chart, ChartArgument, ChartFigure, ChartWind, Direction, FieldRule, Given, Strip,
    SurfaceKind, SurfaceState,
};
use hardpan_quantity::{Quantity, Temperature, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, Ground, LandingPlan, RunModel, Situation, TakeOffPlan, WindComponents,
    calibrate, friction, landing, take_off,
};

const MASSES: [f64; 3] = [36_000.0, 42_000.0, 48_000.0];
const TEMPERATURES: [f64; 3] = [268.15, 288.15, 308.15];
const HEADWINDS: [f64; 2] = [-2.5, 5.0];

fn given<T>(value: T) -> Option<Given<T>> {
    Some(Given::stated("test", value))
}

/// A chart that the runs of an aeroplane make, on dry gravel.
fn chart(aeroplane: &Aeroplane, gives: ChartFigure) -> Chart {
    let strip = Strip { surface: given(SurfaceKind::Gravel), ..Strip::default() };
    let found = friction(&strip, aeroplane, SurfaceState::Dry).expect("published");
    let condition = even_ground(6000.0, 0.0, found.rolling.value.si(), found.braking.value.si());
    let ground = Ground::new(&condition, Direction::Up, metres(6000.0)).expect("ground");
    let flap = if gives.is_of_take_off() { take_off_flap() } else { landing_flap() };
    let mut values = Vec::new();
    for mass in MASSES {
        for temperature in TEMPERATURES {
            for headwind in HEADWINDS {
                let standard = Air::standard(metres(0.0), 0.0).expect("air");
                let air = Air::new(standard.pressure(), Temperature::from_si(temperature));
                let wind = hardpan_quantity::metres_per_second(headwind);
                let situation = Situation {
                    mass: kilograms(mass),
                    centre_of_gravity: percent(21.0),
                    air: air.expect("air"),
                    wind: WindComponents::stated(wind, knots(0.0)),
                    ground: &ground,
                };
                values.push(distance(aeroplane, gives, &situation));
            }
        }
    }
    Chart {
        gives: Given::stated("test", gives),
        flap: Some(flap.name),
        surface: given(SurfaceKind::Gravel),
        state: given(SurfaceState::Dry),
        bleeds: None,
        wind: given(ChartWind::Reported),
        file: gives.word().into(),
        arguments: vec![
            (ChartArgument::Mass, MASSES.to_vec()),
            (ChartArgument::Temperature, TEMPERATURES.to_vec()),
            (ChartArgument::Headwind, HEADWINDS.to_vec()),
        ],
        values,
    }
}

fn distance(aeroplane: &Aeroplane, gives: ChartFigure, situation: &Situation) -> f64 {
    if gives == ChartFigure::LandingDistance {
        let model = RunModel::for_landing(aeroplane, &landing_flap()).expect("model");
        let plan = LandingPlan {
            own_factor: None,
            rule: FieldRule::LandingFifteenPercent,
            state: SurfaceState::Dry,
            speed_addition: knots(0.0),
            late_by: None,
            brake_target: None,
            traces: false,
        };
        return landing(&model, situation, &plan).expect("a landing").stop.si();
    }
    let model = RunModel::for_take_off(aeroplane, &take_off_flap()).expect("model");
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: false,
    };
    let run = take_off(&model, situation, &plan).expect("a take-off");
    let needed = match gives {
        ChartFigure::AccelerateStop => run.accelerate_stop_needed,
        _ => run.distance_needed,
    };
    needed.expect("it is carried on").si()
}

fn aeroplane() -> Aeroplane {
    Aeroplane { flaps: vec![take_off_flap(), landing_flap()], ..twin() }
}

fn with_charts_of(other: &Aeroplane) -> Aeroplane {
    let figures =
        [ChartFigure::TakeOffDistance, ChartFigure::AccelerateStop, ChartFigure::LandingDistance];
    Aeroplane { charts: figures.map(|gives| chart(other, gives)).to_vec(), ..aeroplane() }
}

#[test]
fn charts_of_the_model_itself_change_nothing() {
    let found = calibrate(&with_charts_of(&aeroplane())).expect("charts");
    for constant in &found.constants {
        let factor = constant.calibrated.si / constant.stated.si;
        assert!((factor - 1.0).abs() < 1e-3, "{constant:?}");
    }
    assert!(found.charts.iter().all(|chart| chart.after.root_mean_square < 1e-3));
}

#[test]
fn more_thrust_and_better_brakes_are_found_again() {
    let mut other = aeroplane();
    let thrust = other.engines.static_thrust.as_mut().expect("stated");
    thrust.value *= 1.08;
    other.brakes.paved_dry_coefficient = given(0.40 * 1.12);
    let found = calibrate(&with_charts_of(&other)).expect("charts");
    let factor = |name: &str| {
        let constant = found.constants.iter().find(|constant| constant.name.contains(name));
        constant.map(|constant| constant.calibrated.si / constant.stated.si).expect("a constant")
    };
    assert!((factor("static_thrust") - 1.08).abs() < 0.02, "{:?}", found.constants);
    assert!((factor("braking on dry gravel") - 1.12).abs() < 0.02, "{:?}", found.constants);
    for chart in &found.charts {
        assert!(chart.after.root_mean_square < 0.004, "{chart:?}");
        assert!(chart.after.root_mean_square < chart.before.root_mean_square, "{chart:?}");
        assert_eq!((chart.points, chart.without), (18, 0));
    }
}

#[test]
fn without_a_chart_of_a_distance_on_a_surface_a_chart_is_asked_for() {
    let mut aeroplane = with_charts_of(&aeroplane());
    for chart in &mut aeroplane.charts {
        chart.surface = None;
    }
    let needs = calibrate(&aeroplane).expect_err("nothing to fit");
    assert!(needs.iter().any(|need| need.what.contains("[[chart]]")), "{needs:?}");
}
