//! The weeks of the year in which a strip carries a mass.

mod support;

use hardpan_assess::{CarryingWeeks, WeekFrost, bearing_curves, carrying_weeks};
use hardpan_quantity::{Quantity, UnitSystem, kilograms};
use hardpan_report::weeks_text;
use snapbox::cmd::{Command, cargo_bin};
use support::{Change, change, changed_files, flight};

fn weeks(changes: &[Change], mass_kg: Option<f64>) -> CarryingWeeks {
    carrying_weeks(&flight(changes), mass_kg.map(kilograms)).expect("the demo has everything")
}

fn answers(weeks: &CarryingWeeks) -> Vec<Option<bool>> {
    let movement = &weeks.movements[0];
    movement.weeks.iter().map(|week| movement.carried(week)).collect()
}

/// Every day of the year stands in one week, and weeks have seven days.
#[test]
fn exact_the_weeks_make_a_year() {
    let found = weeks(&[], None);
    let days = &found.movements[0].weeks;
    let at = |index: usize| format!("{} to {}", days[index].from, days[index].to);
    assert_eq!(days.len(), 52);
    assert_eq!(at(0), "01-01 to 01-07");
    // 57th to 63rd day of a year, 29 February beside 28 February.
    assert_eq!(at(8), "02-26 to 03-04");
    assert_eq!(at(51), "12-24 to 12-31");
}

/// A week counts by its worst day: whole weeks in the season of full strength
/// only are carried, those that no season covers are not known.
#[test]
fn exact_a_week_is_as_weak_as_its_weakest_day() {
    let found = weeks(&[], None);
    let movement = &found.movements[0];
    for week in &movement.weeks {
        let whole = |from: &str, to: &str| {
            week.from.to_string().as_str() >= from && week.to.to_string().as_str() <= to
        };
        let share = week.ground.as_ref().map(|ground| ground.share.si());
        let wanted = if whole("05-21", "10-15") {
            Some(1.0)
        } else if whole("04-01", "10-15") {
            Some(0.6)
        } else {
            None
        };
        assert_eq!(share, wanted, "{} to {}", week.from, week.to);
        assert!(share.is_some() || movement.carried(week).is_none());
    }
}

/// Frost of the demo thaws from above from the end of February on: in a season of
/// full strength such a week is not known, with frost below or none it is.
#[test]
fn a_week_of_unknown_thaw_is_not_counted_by_its_season() {
    let head = "# Strength by season as a share";
    let winter = "[[season]]\nname = \"winter\"\nfrom = \"10-16\"\nto = \"03-31\"\n\
                  strength = \"100 %\"\nsource = \"Nobody (invented)\"\n\n\
                  # Strength by season as a share";
    let found = weeks(&[change("strip.toml", head, winter)], None);
    let movement = &found.movements[0];
    let mut unknown = 0;
    for week in movement.weeks.iter().filter(|week| week.ground.is_some()) {
        let ground = week.ground.as_ref().expect("stated");
        let thaws = matches!(week.frost, Some(WeekFrost::Thawing(..)));
        let begins = week.from.to_string();
        let in_winter = begins.as_str() <= "03-31" || begins.as_str() >= "10-16";
        assert_eq!(ground.is_known, !(thaws && in_winter), "{}", week.from);
        assert_eq!(movement.carried(week).is_some(), ground.is_known, "{}", week.from);
        unknown += usize::from(!ground.is_known);
    }
    assert!(unknown >= 4, "{unknown} weeks thaw over frost at full strength");
}

#[test]
fn weaker_ground_or_more_mass_never_carries_more() {
    let found = weeks(&[], None);
    for movement in &found.movements {
        for week in &movement.weeks {
            for other in &movement.weeks {
                let (Some(a), Some(b)) = (&week.ground, &other.ground) else { continue };
                assert!(a.share > b.share || a.largest <= b.largest);
            }
        }
    }
    let rank = |answer: &Option<bool>| answer.map_or(0, u8::from);
    let (light, heavy) =
        (answers(&weeks(&[], Some(32_000.0))), answers(&weeks(&[], Some(51_000.0))));
    assert!(light.iter().zip(&heavy).all(|(light, heavy)| rank(light) >= rank(heavy)));
    assert_ne!(light, heavy);
}

/// At full strength the main wheels carry no more than the curve of mass
/// against pressure says at the same pressure and passes.
#[test]
fn consistent_with_the_curves_at_full_strength() {
    let flight = flight(&[]);
    let passes = flight.passes.as_ref().expect("stated").value;
    let curves = bearing_curves(&flight, &[passes]).expect("known");
    let found = weeks(&[], None);
    for (movement, curves) in found.movements.iter().zip(&curves.movements) {
        let full = movement.weeks.iter().filter_map(|week| week.ground.as_ref());
        let full = full.filter(|ground| ground.share.si() == 1.0).find_map(|ground| ground.largest);
        let points = &curves.curves[0].by_pressure;
        let below = points.iter().rfind(|point| point.at <= movement.pressures.0).expect("a row");
        assert!(full <= below.largest, "{full:?} {below:?}");
    }
}

#[test]
fn without_seasons_nothing_is_assumed() {
    let text = support::demo_text("strip.toml");
    let from = text.find("[[season]]").expect("seasons");
    let none = change("strip.toml", &text[from..], "");
    let why = carrying_weeks(&flight(&[none]), None).expect_err("no season is stated");
    assert!(why.needs.iter().any(|need| need.what.contains("[[season]]")), "{why:?}");
}

#[test]
fn both_unit_systems_show_no_unit_of_the_other() {
    let found = weeks(&[], None);
    for (system, own, other) in
        [(UnitSystem::Metric, " kPa", " psi"), (UnitSystem::Imperial, " psi", " kPa")]
    {
        let text = weeks_text(&found, system, hardpan_report::TextStyle::default());
        assert!(text.contains(own) && !text.contains(other), "{text}");
        assert!(text.trim_end().ends_with("Absence of data is never a pass."));
    }
}

fn hardpan() -> Command {
    Command::new(cargo_bin!("hardpan")).env("NO_COLOR", "1")
}

#[test]
fn the_command_writes_json_that_fits_its_schema() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in changed_files(&[]) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let flight = folder.path().join("flight.toml");
    let output = hardpan()
        .arg("weeks")
        .arg(&flight)
        .args(["--mass", "40 t", "--json"])
        .output()
        .expect("it runs");
    let document: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let schema = hardpan().args(["schema", "weeks"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let errors: Vec<String> =
        validator.iter_errors(&document).map(|error| error.to_string()).collect();
    assert!(errors.is_empty(), "{errors:?}");
    assert_eq!(document["movements"][0]["weeks"].as_array().map(Vec::len), Some(52));
    assert_eq!(document["movements"][0]["mass_kg"], 40_000.0);
    for wrong in ["0 t", "-3 t", "40 psi", "much"] {
        let output = hardpan().arg("weeks").arg(&flight).arg(format!("--mass={wrong}")).output();
        assert_eq!(output.expect("it runs").status.code(), Some(2), "{wrong}");
    }
}
