//! The demo and the examples read without a word, and hold what they say.

use hardpan_files::{Disk, read_flight, render};
use hardpan_model::{Direction, Flight, SurfaceState};
use hardpan_quantity::Quantity;
use rstest::rstest;

fn read(flight: &str) -> Flight {
    let path = format!("{}/../../{flight}", env!("CARGO_MANIFEST_DIR"));
    let reading = read_flight(&Disk::default(), &path);
    let shown = render(&reading.diagnostics, &reading.sources, false);
    assert!(reading.diagnostics.is_empty(), "{shown}");
    reading.value.expect("nothing is wrong")
}

#[rstest]
#[case("demo/flight.toml")]
#[case("examples/02-short-grass-strip/flight.toml")]
#[case("examples/04-dirt-strip-turboprop/flight.toml")]
#[case("examples/03-missing-data/flight.toml")]
fn reads_without_a_word(#[case] flight: &str) {
    let flight = read(flight);
    assert!(flight.name.is_some_and(|name| name.value.contains("invented")));
}

#[test]
fn the_demo_holds_what_its_readme_says() {
    let flight = read("demo/flight.toml");
    let survey = flight.strip.survey.expect("named");
    let offsets: Vec<f64> = survey.lines.iter().map(|line| line.offset.si()).collect();
    assert_eq!(offsets, [-15.0, -2.6, 0.0, 2.6, 15.0]);
    assert!(survey.lines.iter().all(|line| line.points.len() == 793));
    assert!(flight.strip.soundings.len() > 25);
    let deepest =
        |index: usize| flight.strip.soundings[index].readings.last().map(|r| r.depth.si());
    assert!((0..flight.strip.soundings.len()).all(|index| deepest(index) >= Some(0.7)));
    assert_eq!(flight.day.surface_state.map(|state| state.value), Some(SurfaceState::Dry));
    assert_eq!(flight.day.standing_water, Some(Vec::new()));
    let landing = flight.landing.expect("planned");
    assert_eq!(landing.direction.map(|way| way.value), Some(Direction::Down));
    let wind = flight.day.wind.expect("reported");
    assert!((wind.value.speed.si() / (1852.0 / 3600.0) - 9.0).abs() < 1e-12);
    assert_eq!(wind.origin.line, 9, "{}", wind.origin);
    let observed = flight.day.observed_utc.expect("dated");
    assert_eq!(observed.value.to_string(), "2026-06-18T14:30:00");
}

#[test]
fn missing_data_stays_missing() {
    let flight = read("examples/03-missing-data/flight.toml");
    assert!(flight.strip.survey.is_none() && flight.strip.soundings.is_empty());
    assert!(flight.day.standing_water.is_none() && flight.day.wind.is_none());
    assert!(flight.take_off.is_none());
}
