//! The calendar on the page: every hour opens, to the figures that the calendar itself
//! tells and down to the lines of the files.

use super::{Served, get, json, status};
use serde_json::Value;

const MASSES: &str = "landing=38+t&take-off=40+t";

fn address(cell: &str) -> String {
    let address = cell.split("href=\"").nth(1).and_then(|rest| rest.split('"').next());
    address.expect("the hour is linked").replace("&amp;", "&")
}

fn opened(served: &Served, address: &str) -> String {
    let answer = get(served, address);
    assert_eq!(status(&answer), "200", "{address}: {}", answer.1);
    assert!(answer.1.contains("Planning aid only"), "the caution stands in {address}");
    answer.1
}

/// An hour of the calendar's document: its largest masses, kilograms.
fn told(sheet: &Value, address: &str) -> [Option<f64>; 2] {
    let of = |key: &str| {
        let text = address.split(['?', '&']).find_map(|part| part.strip_prefix(key));
        text.unwrap_or_else(|| panic!("{key} in {address}"))
    };
    let (month, day) = of("from=").split_once('-').expect("month and day");
    let from = format!("{month:0>2}-{day:0>2}");
    let weeks = sheet["weeks"].as_array().expect("weeks");
    let week = weeks.iter().find(|week| week["from"] == from.as_str());
    let hour: usize = of("hour=").parse().expect("an hour");
    let hour = &week.unwrap_or_else(|| panic!("a week from {from}"))["hours"][hour];
    ["landing_mass", "take_off_mass"].map(|key| hour[key]["value"].as_f64())
}

#[test]
fn every_hour_of_the_calendar_opens_to_its_basis() {
    let served = Served::demo();
    let (_, page) = get(&served, &format!("/flights/demo.flight/year?{MASSES}"));
    let table = page.split("table class=\"year\"").nth(1).expect("the calendar");
    let table = table.split("</table>").next().expect("it ends");
    let cells: Vec<&str> = table.split("<td class=\"").skip(1).collect();
    assert!(cells.len() >= 24 && cells.len().is_multiple_of(24), "{} hours", cells.len());
    for cell in &cells {
        assert!(address(cell).contains("landing=38"), "{}", address(cell));
    }
    let sheet = json(&get(&served, &format!("/api/flights/demo.flight/year?{MASSES}")));
    let first = |class: &str| cells.iter().find(|cell| cell.starts_with(class));
    for (class, word) in [("works", "works"), ("heavy\" title=\"F50", "too heavy")] {
        let cell = first(class).unwrap_or_else(|| panic!("an hour of the class {class}"));
        let hour = opened(&served, &address(cell));
        assert!(hour.contains(&format!("<strong>{word}</strong>")), "{hour}");
        for (name, mass) in ["landing", "take-off"].iter().zip(told(&sheet, &address(cell))) {
            let mass = mass.unwrap_or_else(|| panic!("a largest {name} mass in {class}"));
            let shown = hour.split(&format!("Largest {name} mass: <strong>")).nth(1);
            let shown = shown.and_then(|rest| rest.split("kg</strong>, by ").next());
            let digits: String =
                shown.expect("a mass").chars().filter(char::is_ascii_digit).collect();
            assert_eq!(digits.parse(), Ok(mass), "{name}");
        }
        let sets = hour.split("What sets the largest masses").nth(1).expect("what sets them");
        let sets = sets.split("The same at the masses").next().expect("it ends");
        assert!(sets.contains("class=\"steps\""), "{sets}");
        let reckoned = hour.split("What the hour is reckoned with").nth(1).expect("its warmth");
        for measured in ["strip.toml", "climate.monthly_mean", "strength", "latitude"] {
            assert!(reckoned.contains(measured), "{measured}");
        }
    }
    for (class, word) in [("dark", "dark"), ("unknown", "not known")] {
        let cell = first(class).unwrap_or_else(|| panic!("an hour of the class {class}"));
        let hour = opened(&served, &address(cell));
        assert!(hour.contains(&format!("<strong>{word}</strong>")), "{hour}");
        assert!(hour.contains("sin h = sin φ sin δ") && hour.contains("No mass is worked out"));
    }
}

/// In spring the ground sets the masses; what it rests on is the soundings.
#[test]
fn an_hour_that_the_ground_limits_opens_down_to_the_soundings() {
    let served = Served::demo();
    let hour = opened(&served, "/flights/demo.flight/year/hour?from=4-16&hour=20");
    assert!(hour.contains("(G20)"), "{hour}");
    let sets = hour.split("What sets the largest masses").nth(1).expect("what sets them");
    let sets = sets.split("The same at the masses").next().expect("it ends");
    assert!(sets.contains("soundings.csv"), "{sets}");
}

#[test]
fn an_hour_that_the_calendar_has_not_is_refused() {
    let served = Served::demo();
    for (query, code) in [
        ("from=6-18&hour=24", "404"),
        ("from=13-1&hour=1", "404"),
        ("from=june&hour=1", "400"),
        ("from=6-18&hour=-1", "400"),
        ("hour=1", "400"),
    ] {
        let path = format!("/flights/demo.flight/year/hour?{query}");
        assert_eq!(status(&get(&served, &path)), code, "{query}");
    }
}

/// The calendar by a load is the calendar by the mass that the load makes.
#[test]
fn a_load_is_asked_for_in_place_of_a_mass() {
    let served = Served::demo();
    let by_load = json(&get(&served, "/api/flights/demo.flight/year?landing.load=6+t"));
    let landing = by_load["landing_mass"]["value"].as_f64().expect("a mass");
    let (_, page) = get(&served, "/flights/demo.flight/year?landing.load=6+t&temperature=20+degC");
    let form = page.split("Show for these").next().and_then(|rest| rest.rsplit("<form").next());
    let form = form.expect("a form");
    for said in [
        "name=\"landing\"",
        "name=\"take-off\"",
        "name=\"take_off.load\"",
        "name=\"landing.load\" type=\"text\" value=\"6 t\"",
        "type=\"hidden\" name=\"temperature\" value=\"20 degC\"",
    ] {
        assert!(form.contains(said), "{said}: {form}");
    }
    assert_eq!(form.matches("name=\"landing.load\"").count(), 1, "{form}");
    let asked = format!("/api/flights/demo.flight/year?landing={landing}+kg");
    let by_mass = json(&get(&served, &asked));
    assert_eq!(
        (&by_mass["landing_mass"], &by_mass["weeks"]),
        (&by_load["landing_mass"], &by_load["weeks"])
    );
    let hour = "/flights/demo.flight/year/hour?landing.load=6+t&from=6-18&hour=12";
    assert_eq!(status(&get(&served, hour)), "200");
    for address in ["year", "year/hour"] {
        let both = "landing.load=6+t&landing=38+t&from=6-18&hour=12";
        let both = if address == "year" { "landing.load=6+t&landing=38+t" } else { both };
        let answer = get(&served, &format!("/flights/demo.flight/{address}?{both}"));
        assert_eq!(status(&answer), "400", "{}", answer.1);
        assert!(answer.1.contains("state one of them"), "{}", answer.1);
    }
    let out = std::process::Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .args(["year", "demo/flight.toml", "--landing", "38 t", "--change", "landing.load=6 t"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."))
        .output()
        .expect("it runs");
    assert_eq!(out.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&out.stderr).contains("state one of them"));
}
