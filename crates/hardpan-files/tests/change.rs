//! Values of a flight stated again: what is taken, what is refused, and that
//! every key that may be stated again is one of the format.

use hardpan_files::{CHANGEABLE, Disk, Memory, Reading, change_flight, glance, read_flight};
use hardpan_model::Flight;
use hardpan_quantity::{Quantity, celsius, degrees, hectopascals, knots, psi, tonnes};

fn demo() -> Flight {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/flight.toml");
    read_flight(&Disk::default(), path).value.expect("the demo can be read")
}

fn change(changes: &[(&str, &str)]) -> Reading<Flight> {
    let owned = |(key, value): &(&str, &str)| ((*key).to_owned(), (*value).to_owned());
    change_flight(demo(), &changes.iter().map(owned).collect::<Vec<_>>())
}

fn refusal(changes: &[(&str, &str)]) -> String {
    let reading = change(changes);
    assert!(reading.value.is_none(), "{changes:?} is taken");
    let said = |one: &hardpan_files::Diagnostic| {
        format!("{} {} {} {}\n", one.message, one.read, one.expected, one.hint)
    };
    reading.diagnostics.iter().map(said).collect()
}

#[test]
fn no_change_leaves_the_flight_alone() {
    assert_eq!(change(&[]).value, Some(demo()));
}

#[test]
fn every_changeable_key_is_taken() {
    let values = [
        "07", "38 t", "5.6 t", "25 %", "40", "07", "39 t", "7 t", "24 %", "15", "95 psi", "80 psi",
        "200 deg", "12 kt", "22 degC", "1002 hPa", "wet",
    ];
    let pairs: Vec<(&str, &str)> = CHANGEABLE.into_iter().zip(values).collect();
    let flight = change(&pairs).value.expect("each value is good");
    let landing = flight.landing.expect("a landing is planned");
    assert_eq!(landing.mass.expect("stated").value, tonnes(38.0));
    let take_off = flight.take_off.expect("a take-off is planned");
    assert_eq!(take_off.flap.expect("stated").value, "15");
    assert_eq!(flight.main_tyre_pressure.expect("stated").value, psi(95.0));
    let wind = flight.day.wind.expect("stated");
    assert_eq!(wind.value.from, Some(degrees(200.0)));
    assert_eq!(wind.value.speed, knots(12.0));
    assert_eq!(flight.day.temperature.expect("stated").value, celsius(22.0));
    assert_eq!(flight.day.sea_level_pressure.expect("stated").value, hectopascals(1002.0));
}

/// As a file writes it, for whom copies a line of one.
#[test]
fn one_pair_of_quotes_around_a_value_is_none_of_it() {
    for value in ["\"41.4 t\"", "'41.4 t'", " \"41.4 t\" "] {
        let flight = change(&[("take_off.mass", value)]).value.expect("the value is good");
        let mass = flight.take_off.and_then(|take_off| take_off.mass).expect("stated");
        assert_eq!(mass.value, tonnes(41.4), "{value}");
        let name = flight.name.expect("the flight has a name").value;
        assert!(name.ends_with("(changed: take-off mass 41.4 t)"), "{name}");
    }
    for value in ["\"41.4 t", "41.4 t'", "\"", "\"\"41.4 t\"\"", "\"41.4 t'"] {
        assert!(!refusal(&[("take_off.mass", value)]).is_empty(), "{value}");
    }
}

#[test]
fn a_changed_value_says_that_it_is_changed() {
    let flight = change(&[("take_off.mass", "38 t")]).value.expect("the value is good");
    let mass = flight.take_off.and_then(|take_off| take_off.mass).expect("stated");
    assert_eq!(mass.origin.to_string(), "changes:1:17 (take_off.mass)");
    assert_eq!(mass.source, None, "the load sheet did not state it");
    let name = change(&[("take_off.mass", "38 t")]).value.and_then(|flight| flight.name);
    let name = name.expect("the flight has a name").value;
    assert!(name.ends_with("(changed: take-off mass 38 t)"), "{name}");
}

#[test]
fn one_part_of_the_wind_keeps_the_other_and_drops_the_gust() {
    let flight = change(&[("wind.speed", "14 kt")]).value.expect("the value is good");
    let wind = flight.day.wind.expect("the report has one").value;
    assert_eq!((wind.from, wind.gust), (Some(degrees(250.0)), None));
}

#[test]
fn what_a_file_would_refuse_is_refused() {
    assert!(refusal(&[("landing.mass", "38")]).contains("unit"));
    assert!(refusal(&[("landing.mass", "9 kg")]).contains("9 kg"));
    assert!(refusal(&[("landing.flap", "39")]).contains("40"));
    assert!(refusal(&[("take_off.direction", "08")]).contains("07"));
    assert!(refusal(&[("temperature", "soft")]).contains("soft"));
    assert!(refusal(&[("strip.length", "9 km")]).contains("strip"));
    assert!(refusal(&[("landing.mass", "38 t"), ("landing.mass", "39 t")]).contains("twice"));
    let breaks_out = refusal(&[("temperature", "\"\nlanding.mass = \"1 t")]);
    assert!(breaks_out.contains("temperature"), "{breaks_out}");
}

#[test]
fn a_movement_that_is_not_planned_has_no_keys() {
    let changes = [("landing.mass".to_owned(), "38 t".to_owned())];
    let reading = change_flight(Flight { landing: None, ..demo() }, &changes);
    assert!(reading.value.is_none() && reading.errors() == 1);
}

#[test]
fn a_glance_tells_kind_name_and_named_files() {
    let text = "kind = \"flight\"\nname = { value = \"To North\", source = \"x\" }\n\
                strip = \"s.toml\"\n[landing]\nmass = 3\n";
    let seen = glance(&Memory::default().with("f.toml", text), "f.toml").expect("a kind");
    assert_eq!((seen.kind, seen.name.as_deref()), ("flight", Some("To North")));
    assert_eq!(seen.names, [("strip", "s.toml".to_owned())]);
    assert_eq!(glance(&Memory::default().with("f.toml", "a = 1"), "f.toml"), None);
    assert_eq!(glance(&Memory::default(), "f.toml"), None);
}

/// The demo states an operating mass of 27.8 t and a landing fuel of 4.6 t.
#[test]
fn a_load_stated_again_sums_the_mass() {
    let landing = change(&[("landing.load", "7 t")]).value.and_then(|flight| flight.landing);
    let mass = landing.expect("a landing is planned").mass.expect("it is the sum");
    assert!((mass.value.si() - 39_400.0).abs() < 1e-6, "{:?}", mass.value);
    assert_eq!(mass.origin.to_string(), "changes:1:16 (landing.load)");
}

#[test]
fn a_mass_stated_again_leaves_no_load_behind() {
    let flight = change_flight(
        change(&[("landing.load", "7 t")]).value.expect("the value is good"),
        &[("landing.mass".to_owned(), "38 t".to_owned())],
    );
    let landing = flight.value.and_then(|flight| flight.landing).expect("a landing is planned");
    assert_eq!((landing.mass.map(|mass| mass.value), landing.load), (Some(tonnes(38.0)), None));
}

#[test]
fn a_mass_that_is_not_the_sum_of_its_load_is_refused() {
    let said = refusal(&[("landing.mass", "40 t"), ("landing.load", "7 t")]);
    for part in ["landing.mass", "40000 kg", "operating mass 27800 kg", "39400 kg", "leave"] {
        assert!(said.contains(part), "{part}: {said}");
    }
}

#[test]
fn a_load_without_an_operating_mass_leaves_the_mass_unknown() {
    let mut flight = demo();
    flight.aeroplane.mass.operating = None;
    let changes = [("landing.load".to_owned(), "7 t".to_owned())];
    let flight = change_flight(flight, &changes).value.expect("the value is good");
    assert_eq!(flight.landing.expect("a landing is planned").mass, None);
}
