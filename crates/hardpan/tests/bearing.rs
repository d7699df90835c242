//! Mass against tyre pressure by numbers of passes: the same judgement as the
//! assessment, in order, and honest about what is not known.

mod support;

use hardpan_assess::{BearingCurves, CURVE_PASSES, StoppedBy, bearing_curves};
use hardpan_quantity::{Quantity, UnitSystem};
use hardpan_report::{bearing_figure, bearing_text};
use snapbox::cmd::{Command, cargo_bin};
use support::{assessed, change, changed_files, flight};

fn curves(passes: &[f64]) -> BearingCurves {
    bearing_curves(&flight(&[]), passes).expect("the demo has everything")
}

#[test]
fn consistent_with_the_pressure_table_of_the_assessment() {
    let assessment = assessed(&[]);
    let found = curves(&[60.0]);
    let take_off = &found.movements[0];
    let tyre = take_off.tyre.as_ref().expect("known");
    let mut compared = 0;
    for row in &assessment.tyre.table {
        let same = |at: f64| (at - row.pressure.si()).abs() < 1.0;
        let points = take_off.curves[0].by_pressure.iter();
        for (point, tyre) in points.zip(tyre).filter(|(point, _)| same(point.at.si())) {
            assert_eq!(point.largest, row.ground);
            assert_eq!(tyre.1, row.tyre);
            compared += 1;
        }
    }
    assert!(compared >= 8, "{compared}");
}

#[test]
fn more_pressure_or_more_passes_never_carry_more() {
    let found = curves(&CURVE_PASSES);
    assert_eq!(found.movements.len(), 2);
    for movement in &found.movements {
        for curve in &movement.curves {
            let falls = curve.by_pressure.windows(2).all(|pair| pair[1].largest <= pair[0].largest);
            assert!(falls, "{}", curve.passes);
            let falls = curve.by_mass.windows(2).all(|pair| pair[1].largest <= pair[0].largest);
            assert!(falls, "{}", curve.passes);
        }
        for pair in movement.curves.windows(2) {
            let both = pair[0].by_pressure.iter().zip(&pair[1].by_pressure);
            assert!(both.clone().count() > 8);
            for (fewer, more) in both {
                assert!(more.largest <= fewer.largest);
            }
        }
    }
}

#[test]
fn exact_the_two_tables_are_inverse_to_each_other_and_a_place_gives_beyond() {
    let found = curves(&[100.0]);
    let curve = &found.movements[0].curves[0];
    let mut inside = 0;
    for point in &curve.by_mass {
        let Some(pressure) = point.largest.filter(|_| point.stops != StoppedBy::End) else {
            continue;
        };
        let low = curve.by_pressure.iter().rfind(|row| row.at <= pressure).expect("a row");
        let high = curve.by_pressure.iter().find(|row| row.at >= pressure).expect("a row");
        assert!(low.largest.is_some_and(|mass| mass.si() >= point.at.si() - 10.0));
        assert!(high.largest.is_none_or(|mass| mass.si() <= point.at.si() + 10.0));
        let StoppedBy::Ground(place) = &point.stops else { panic!("{:?}", point.stops) };
        assert!((545.0..=725.0).contains(&place.station.si()), "{place:?}");
        assert!(place.depth.is_some());
        inside += 1;
    }
    assert!(inside >= 2);
}

#[test]
fn both_unit_systems_show_no_unit_of_the_other() {
    let found = curves(&CURVE_PASSES);
    for (system, own, other) in
        [(UnitSystem::Metric, " kPa", " psi"), (UnitSystem::Imperial, " psi", " kPa")]
    {
        let text = bearing_text(&found, system, hardpan_report::TextStyle::default());
        assert!(text.contains(own) && !text.contains(other), "{text}");
        assert!(text.trim_end().ends_with("Absence of data is never a pass."));
        let svg = bearing_figure(&found, system);
        assert!(svg.starts_with("<svg") && svg.contains("planning only"));
        assert!(svg.contains("Absence of data is never a pass."));
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
    let output = hardpan().arg("bearing").arg(&flight).arg("--json").output().expect("it runs");
    let document: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let schema = hardpan().args(["schema", "bearing"]).output().expect("it runs");
    let schema: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let errors: Vec<String> =
        validator.iter_errors(&document).map(|error| error.to_string()).collect();
    assert!(errors.is_empty(), "{errors:?}");
    assert_eq!(document["movements"][0]["curves"].as_array().map(Vec::len), Some(4));
    for wrong in ["0", "2,many", "1,2,3,4,5,6,7", "1e9"] {
        let output = hardpan().arg("bearing").arg(&flight).args(["--passes", wrong]).output();
        assert_eq!(output.expect("it runs").status.code(), Some(2), "{wrong}");
    }
}

#[test]
fn what_is_missing_is_listed_and_nothing_is_drawn() {
    let folder = tempfile::tempdir().expect("a folder");
    let changes = [change("aeroplane.toml", "maximum_take_off = \"52 t\"\n", "")];
    for (name, text) in changed_files(&changes) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let flight = folder.path().join("flight.toml");
    let figure = folder.path().join("bearing.svg");
    let output =
        hardpan().arg("bearing").arg(&flight).arg("--figure").arg(&figure).output().expect("runs");
    assert_eq!(output.status.code(), Some(3));
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(told.contains("mass.maximum_take_off"), "{told}");
    assert!(!figure.exists());
}
