//! The year of a flight: each hour borne out by assessing its day, daylight by
//! the sun, and what nobody states not known.

mod support;

use hardpan_assess::{HourState, Largest, YearSheet, assess, year_sheet};
use hardpan_model::{Flight, Given, SurfaceState, Verdict, Wind};
use hardpan_quantity::{Mass, Quantity, Speed, celsius, hectopascals, tonnes};
use snapbox::cmd::{Command, cargo_bin};
use support::{changed_files, flight};

fn sheet(flight: &Flight, landing: f64, take_off: f64) -> YearSheet {
    year_sheet(flight, (Some(tonnes(landing)), Some(tonnes(take_off))), |_, _| ())
        .expect("the demo states what is needed")
}

fn count(sheet: &YearSheet, of: impl Fn(&HourState) -> bool) -> usize {
    sheet.weeks.iter().flat_map(|week| &week.hours).filter(|hour| of(&hour.state)).count()
}

#[test]
fn heavier_never_works_in_more_hours_and_daylight_does_not_depend_on_mass() {
    let flight = flight(&[]);
    let [light, planned, heavy] =
        [(36.0, 36.0), (39.6, 40.4), (42.0, 43.0)].map(|(l, t)| sheet(&flight, l, t));
    let works = |sheet: &YearSheet| count(sheet, |state| *state == HourState::Works);
    assert!(works(&light) >= works(&planned) && works(&planned) >= works(&heavy));
    assert!(works(&light) > works(&heavy) && works(&light) > 0);
    let dark = |sheet: &YearSheet| count(sheet, |state| *state == HourState::Dark);
    assert_eq!(dark(&light), dark(&heavy));
    assert!(dark(&light) > 0);
}

/// In an hour that works, an assessment of the masses in calm air at that hour's
/// temperature fails none of the limits on mass; in one that is too heavy, the
/// limit that is named fails.
#[test]
fn an_hour_is_borne_out_by_assessing_it() {
    let flight = flight(&[]);
    let found = sheet(&flight, 39.6, 41.9);
    let mut tried = (0, 0);
    let summer = found
        .weeks
        .iter()
        .filter(|week| week.season.as_ref().is_some_and(|(_, share)| share.si() >= 1.0));
    for hour in summer.flat_map(|week| &week.hours).step_by(7) {
        let mut day = flight.clone();
        let at = |given: &mut Option<Given<Mass>>, mass| {
            *given = given.take().map(|given| given.map(|_| mass));
        };
        at(&mut day.landing.as_mut().expect("planned").mass, tonnes(39.6));
        at(&mut day.take_off.as_mut().expect("planned").mass, tonnes(41.9));
        let up = ((hour.temperature.si() - celsius(0.0).si()) / 2.0).ceil() * 2.0;
        day.day.temperature = Some(Given::stated("temperature", celsius(up)));
        day.day.sea_level_pressure = Some(Given::stated("pressure", hectopascals(1013.25)));
        let calm = Wind { from: None, speed: Speed::from_si(0.0), gust: None, between: None };
        day.day.wind = Some(Given::stated("wind", calm));
        assert_eq!(day.day.surface_state.as_ref().map(|one| one.value), Some(SurfaceState::Dry));
        let fresh = assess(&day);
        let fails = |code: &str| {
            fresh.findings.iter().any(|one| one.code == code && one.verdict == Verdict::Fail)
        };
        match &hour.state {
            HourState::Works => {
                for code in ["A10", "G20", "G30", "F10", "F20", "F50", "F60", "T10"] {
                    assert!(!fails(code), "{code} fails at {up} °C");
                }
                tried.0 += 1;
            }
            HourState::TooHeavy(code, _) => {
                assert!(fails(code), "{code} holds at {up} °C");
                tried.1 += 1;
            }
            HourState::Dark | HourState::NotKnown(_) => {}
        }
        if tried.0 + tried.1 > 8 {
            break;
        }
    }
    assert!(tried.0 + tried.1 > 0, "{tried:?}");
}

/// The demo states no season for winter: nothing is known then, whatever the mass.
#[test]
fn a_season_that_nobody_states_is_not_known() {
    let found = sheet(&flight(&[]), 31.0, 31.0);
    let january = found.weeks.first().expect("52 weeks");
    assert!(january.season.is_none());
    assert!(
        january
            .hours
            .iter()
            .all(|hour| { matches!(hour.state, HourState::Dark | HourState::NotKnown(_)) })
    );
    assert!(january.hours.iter().any(|hour| matches!(hour.state, HourState::NotKnown(_))));
    assert_eq!(found.weeks.len(), 52);
    assert!(found.weeks.iter().all(|week| week.hours.len() == 24));
}

/// In the thaw the ground of the demo has 60 % of its strength, which carries nothing, in
/// the first weeks of May; in winter nobody states its strength. The two are told apart.
#[test]
fn no_mass_and_no_knowledge_are_told_apart() {
    let flight = flight(&[]);
    let found = sheet(&flight, 39.6, 40.4);
    let week = |month| found.weeks.iter().find(|week| week.from.month == month).expect("a week");
    let by_day = |month| {
        let mut hours = week(month).hours.iter();
        hours.find(|hour| hour.state != HourState::Dark).expect("an hour by day")
    };
    let (thaw, winter) = (by_day(5), by_day(1));
    assert_eq!((thaw.landing, thaw.take_off), (Some(Largest::NoneHolds), Some(Largest::NoneHolds)));
    assert!(matches!(thaw.state, HourState::TooHeavy(..)), "{:?}", thaw.state);
    assert_eq!(winter.landing, Some(Largest::NotKnown));
    let (may, january) = (found.months[4].masses.0, found.months[0].masses.0);
    assert!(may.none_holds > 0.0 && may.not_known == 0.0 && may.least.is_some(), "{may:?}");
    assert!(january.not_known > 0.0 && january.least.is_none(), "{january:?}");
    let report = hardpan_report::YearReport::new(&found, Default::default(), Default::default());
    let rows = report.month_rows();
    assert!(rows[4][4].starts_with("none, else ") && rows[4][5].starts_with("none, else "));
    assert_eq!((rows[0][4].as_str(), rows[0][5].as_str()), ("not known", "not known"));
    let csv = hardpan_report::year_csv(&report);
    for (month, words) in [(5, "none holds,none holds"), (1, "not known,not known")] {
        let from = week(month).from.to_string();
        let of = |line: &&str| line.starts_with(&from) && !line.contains(",dark,");
        let line = csv.lines().find(of).expect("an hour by day");
        assert!(line.ends_with(words), "{line}");
    }
    let json: serde_json::Value =
        serde_json::from_str(&hardpan_report::year_json(&report)).expect("JSON");
    assert!(json["months"][4]["landing_none_holds_hours"].as_f64() > Some(0.0));
    assert_eq!(json["months"][4]["landing_not_known_hours"], 0.0);
}

#[test]
fn days_are_longer_in_june_and_warmer_in_july() {
    let found = sheet(&flight(&[]), 36.0, 36.0);
    let month = |at: usize| found.months[at - 1];
    assert!(month(6).daylight > month(3).daylight && month(3).daylight > month(12).daylight);
    // Around the equinox a day is about half of 24 hours, wherever one is.
    assert!((month(3).daylight - 0.5).abs() < 0.02);
    assert!(month(7).temperatures.1 > month(1).temperatures.1);
}

#[test]
fn without_a_climate_the_year_is_told_to_lack_it() {
    let mut flight = flight(&[]);
    flight.strip.climate = None;
    let why = year_sheet(&flight, (None, None), |_, _| ()).expect_err("no climate");
    assert!(why.needs.iter().any(|need| need.what == "strip: [climate]"), "{why:?}");
}

#[test]
fn the_command_writes_text_csv_json_that_fits_its_schema_and_a_sheet() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in changed_files(&[]) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let hardpan = || Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1");
    let path = folder.path().join("flight.toml").to_string_lossy().into_owned();
    let page = folder.path().join("year.pdf").to_string_lossy().into_owned();
    let run = |more: &[&str]| {
        let all = [&["year", path.as_str()], more].concat();
        hardpan().args(all).output().expect("it runs")
    };
    let json = run(&["--json", "--sheet", &page]);
    assert_eq!(json.status.code(), Some(0));
    let document: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
    let schema = hardpan().args(["schema", "year"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let faults: Vec<String> = validator.iter_errors(&document).map(|e| e.to_string()).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    assert!(std::fs::read(&page).expect("written").starts_with(b"%PDF"));
    let text = run(&["--units", "imperial", "--landing", "80000 lb"]);
    let text = String::from_utf8_lossy(&text.stdout).into_owned();
    for wanted in ["By month", "lb", "°F", "Absence of data is never a pass."] {
        assert!(text.contains(wanted), "{wanted} is not in\n{text}");
    }
    assert!(text.contains("Landing from, take-off from: the largest mass of the hour"), "{text}");
    let load = [("landing.load".to_owned(), "6 t".to_owned())];
    let loaded = hardpan_files::change_flight(flight(&[]), &load).value.expect("it is taken");
    let mass = loaded.landing.and_then(|plan| plan.mass).expect("a sum").value;
    let text = run(&["--change", "landing.load=6 t"]).stdout;
    let told = format!("Landing at {}", hardpan_report::quantity_text(mass, Default::default()));
    assert!(String::from_utf8_lossy(&text).contains(&told), "{told}");
    let csv = String::from_utf8_lossy(&run(&["--csv"]).stdout).into_owned();
    let rows = csv.lines().filter(|line| !line.starts_with('#')).count();
    assert_eq!(rows, 1 + 52 * 24);
    assert_eq!(run(&["--landing", "-3 t"]).status.code(), Some(2));
}

/// An hour of the calendar opens to the files: the same masses, and how they came about.
#[test]
fn an_hour_opens_to_its_normals_and_to_what_sets_its_masses() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in changed_files(&[]) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let hardpan = || Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1");
    let path = folder.path().join("flight.toml").to_string_lossy().into_owned();
    let run = |more: &[&str]| {
        let all = [&["year", path.as_str()], more].concat();
        hardpan().args(all).output().expect("it runs")
    };
    let may = sheet(&flight(&[]), 39.6, 40.4);
    let may = may.weeks.iter().find(|week| week.from.month == 5).expect("a week").from;
    let thaw = run(&["--open", &format!("5-{} 18", may.day)]).stdout;
    let thaw = String::from_utf8_lossy(&thaw).into_owned();
    assert!(thaw.contains("Largest landing mass: none holds"), "{thaw}");
    let said = run(&["--open", "6-18 18"]).stdout;
    let said = String::from_utf8_lossy(&said).into_owned();
    for words in
        ["climate.monthly_mean", "cos(2π (hour", "Largest landing mass:", "Planning aid only"]
    {
        assert!(said.contains(words), "{words}: {said}");
    }
    let json = |arguments: &[&str]| -> serde_json::Value {
        let out = run(&[arguments, &["--json"]].concat());
        serde_json::from_slice(&out.stdout).expect("JSON")
    };
    let (hour, year) = (json(&["--open", "6-18 18"]), json(&[]));
    let weeks = year["weeks"].as_array().expect("weeks");
    let from = hour["from"].as_str().expect("a day");
    let week = weeks.iter().find(|week| week["from"] == from).expect("the week");
    let told = &week["hours"][18];
    assert_eq!(told["state"], hour["state"]);
    for (key, movement) in [("landing_mass", "landing"), ("take_off_mass", "take-off")] {
        let mass = &hour["masses"][movement];
        assert_eq!(told[key]["value"], mass["largest_kg"], "{movement}");
        let by = mass["by"].as_str().expect("a check sets it");
        let findings = hour["at_the_largest_masses"]["findings"].as_array().expect("checks");
        let sets = findings.iter().find(|one| one["code"] == by).expect("the check");
        assert!(!sets["basis"].as_array().is_none_or(Vec::is_empty), "{by}");
    }
    let reckoned = hour["reckoned"].as_array().expect("figures");
    for figure in reckoned {
        let last = figure["basis"].as_array().and_then(|steps| steps.last()).expect("a step");
        assert_eq!(last["result"], figure["value"], "{figure:#}");
    }
    // The warmest of the hour by hand: mean + range / 2 cos(…) + 1.645 deviations.
    let warmth = reckoned.iter().find(|one| one["name"] == "temperature reckoned with");
    let step = &warmth.expect("its warmth")["basis"][2];
    let of = |name: &str| {
        let inputs = step["inputs"].as_array().expect("inputs");
        let input = inputs.iter().find(|input| input["name"] == name);
        input.map(|input| input["value"]["value"].as_f64().expect("a number"))
    };
    let [mean, range, at] = ["mean", "range", "hour UTC"].map(|name| of(name).expect(name));
    let longitude = of("longitude").expect("longitude").to_degrees();
    let spread = of("standard deviation of a day in kelvins").unwrap_or(0.0);
    let turn = std::f64::consts::TAU * (at + longitude / 15.0 - 15.0) / 24.0;
    let by_hand = mean + range / 2.0 * turn.cos() + 1.645 * spread;
    let found = step["result"]["value"].as_f64().expect("kelvins");
    assert!((by_hand - found).abs() < 1e-6, "{by_hand} {found}");
    for wrong in ["13-1 4", "6-18 24", "june", "2-30 1"] {
        assert_eq!(run(&["--open", wrong]).status.code(), Some(2), "{wrong}");
    }
}
