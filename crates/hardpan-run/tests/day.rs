//! Air, wind and friction of the day: what counts, and what is asked for.

mod fixture;

use fixture::twin;
use hardpan_model::{
    Day, Direction, Given, Mark, Strip, SurfaceFriction, SurfaceKind, SurfaceState, Wind,
};
use hardpan_quantity::{
    Angle, Quantity, celsius, degrees, hectopascals, knots, metres, percent, ratio,
};
use hardpan_run::{Air, WindComponents, friction};
use rstest::rstest;

fn some<T>(value: T) -> Option<Given<T>> {
    Some(Given::stated("test", value))
}

fn strip(kind: SurfaceKind) -> Strip {
    Strip {
        elevation: some(metres(500.0)),
        bearing: some(degrees(70.0)),
        surface: some(kind),
        ..Strip::default()
    }
}

fn day(wind: Wind) -> Day {
    Day {
        wind: some(wind),
        temperature: some(celsius(15.0)),
        sea_level_pressure: some(hectopascals(1000.0)),
        ..Day::default()
    }
}

fn wind(from: Option<Angle>, speed: f64, gust: Option<f64>) -> Wind {
    Wind { from, speed: knots(speed), gust: gust.map(knots), between: None }
}

fn in_knots(speed: hardpan_quantity::Speed) -> f64 {
    speed.si() / knots(1.0).si()
}

#[test]
fn val_air_of_the_day_follows_elevation_and_setting() {
    // [ICAO-7488], computed apart: elevation 500 m, QNH 1000 hPa: 941.984 hPa, 610.88 m.
    let air = Air::at(&strip(SurfaceKind::Gravel), &day(wind(None, 0.0, None))).expect("air");
    assert!((air.pressure().si() - 94_198.4).abs() < 0.05);
    assert!((air.pressure_altitude().si() - 610.88).abs() < 0.005);
}

#[test]
fn missing_air_is_asked_for_all_at_once() {
    let needs = Air::at(&Strip::default(), &Day::default()).expect_err("nothing is known");
    assert_eq!(needs.len(), 3);
}

#[rstest]
// Direction of movement 070 and 250; expected headwind and credited headwind, crosswind.
#[case(wind(Some(degrees(70.0)), 20.0, None), Direction::Up, 20.0, 10.0, 0.0)]
#[case(wind(Some(degrees(70.0)), 20.0, None), Direction::Down, -20.0, -30.0, 0.0)]
#[case(wind(Some(degrees(160.0)), 10.0, Some(18.0)), Direction::Up, 0.0, 0.0, 18.0)]
#[case(wind(Some(degrees(250.0)), 10.0, Some(18.0)), Direction::Up, -18.0, -27.0, 0.0)]
#[case(wind(Some(degrees(70.0)), 10.0, Some(18.0)), Direction::Up, 10.0, 5.0, 0.0)]
#[case(wind(None, 5.0, None), Direction::Up, -5.0, -7.5, 5.0)]
#[case(wind(None, 0.0, None), Direction::Up, 0.0, 0.0, 0.0)]
fn exact_wind_components(
    #[case] wind: Wind,
    #[case] direction: Direction,
    #[case] headwind: f64,
    #[case] credited: f64,
    #[case] crosswind: f64,
) {
    let found = WindComponents::at(&strip(SurfaceKind::Gravel), &day(wind), direction);
    let found = found.expect("wind and bearing are known");
    assert!((in_knots(found.headwind) - headwind).abs() < 1e-9, "{found:?}");
    assert!((in_knots(found.credited) - credited).abs() < 1e-9, "{found:?}");
    assert!((in_knots(found.crosswind) - crosswind).abs() < 1e-9, "{found:?}");
}

#[test]
fn a_varying_direction_counts_as_its_worst() {
    let varying = Wind {
        between: Some((degrees(340.0), degrees(100.0))),
        ..wind(Some(degrees(40.0)), 12.0, None)
    };
    let strip = strip(SurfaceKind::Gravel);
    let found = WindComponents::at(&strip, &day(varying), Direction::Up).expect("wind");
    assert!(in_knots(found.headwind).abs() < 1e-9, "340 is abeam: {found:?}");
    assert!((in_knots(found.crosswind) - 12.0).abs() < 1e-9 && !found.steady);
    let across = Wind {
        between: Some((degrees(200.0), degrees(300.0))),
        ..wind(Some(degrees(250.0)), 12.0, None)
    };
    let found = WindComponents::at(&strip, &day(across), Direction::Up).expect("wind");
    assert!((in_knots(found.headwind) + 12.0).abs() < 1e-9, "250 is from behind: {found:?}");
}

#[test]
fn a_missing_bearing_or_wind_is_asked_for() {
    let needs = WindComponents::at(&Strip::default(), &Day::default(), Direction::Up);
    assert_eq!(needs.expect_err("nothing is known").len(), 2);
}

#[rstest]
// [RAYMER-2018] table 17.1, as quoted: rolling, brakes on.
#[case(SurfaceKind::Grass, SurfaceState::Dry, 0.05, 0.40)]
#[case(SurfaceKind::Grass, SurfaceState::Wet, 0.08, 0.20)]
#[case(SurfaceKind::Dirt, SurfaceState::Dry, 0.04, 0.30)]
// [USAF-AFI-11-2-2012] table 5.5: 16 and 5 of 23, times 0.40; rolling from memory.
#[case(SurfaceKind::Gravel, SurfaceState::Dry, 0.04, 0.40 * 16.0 / 23.0)]
#[case(SurfaceKind::Gravel, SurfaceState::Wet, 0.04, 0.40 * 5.0 / 23.0)]
fn val_planning_values(
    #[case] kind: SurfaceKind,
    #[case] state: SurfaceState,
    #[case] rolling: f64,
    #[case] braking: f64,
) {
    let found = friction(&strip(kind), &twin(), state).expect("published");
    assert!((found.rolling.value.si() - rolling).abs() < 1e-12);
    assert!((found.braking.value.si() - braking).abs() < 1e-12);
    assert!(found.rolling.credited > found.rolling.value);
    assert!(found.braking.credited < found.braking.value);
    assert_eq!(found.braking.mark, Mark::PlanningOnly);
}

#[rstest]
#[case(SurfaceKind::Gravel, SurfaceState::Frozen, 2)]
#[case(SurfaceKind::Grass, SurfaceState::Thawing, 2)]
#[case(SurfaceKind::Dirt, SurfaceState::Wet, 1)]
fn what_nobody_published_is_asked_for(
    #[case] kind: SurfaceKind,
    #[case] state: SurfaceState,
    #[case] count: usize,
) {
    let needs = friction(&strip(kind), &twin(), state).expect_err("unpublished");
    assert_eq!(needs.len(), count, "{needs:?}");
}

#[test]
fn stated_friction_wins_and_is_not_reduced() {
    let mut strip = strip(SurfaceKind::Gravel);
    strip.friction = vec![SurfaceFriction {
        state: SurfaceState::Thawing,
        rolling: some(percent(9.0)),
        over_ruts: None,
        braking: some(ratio(0.12)),
        between: None,
    }];
    let found = friction(&strip, &twin(), SurfaceState::Thawing).expect("stated");
    assert_eq!(found.rolling.value, found.rolling.credited);
    assert!((found.braking.credited.si() - 0.12).abs() < 1e-12);
    assert_eq!(found.braking.mark, Mark::Measured);
    let other = friction(&strip, &twin(), SurfaceState::Frozen);
    assert_eq!(other.expect_err("another state").len(), 2);
}

#[test]
fn a_weaker_aeroplane_brakes_no_better_on_turf_than_on_pavement() {
    let mut weak = twin();
    weak.brakes.paved_dry_coefficient = some(0.25);
    let found = friction(&strip(SurfaceKind::Grass), &weak, SurfaceState::Dry).expect("published");
    assert!((found.braking.value.si() - 0.25).abs() < 1e-12);
}
