//! What is no figure of an assessment opens down to the files too: an hour of the calendar,
//! and readings along the strip.

mod support;

use hardpan_assess::{AssessedHour, Openings, assess, readings_at, year_hour};
use hardpan_model::MonthDay;
use hardpan_quantity::{metres, tonnes};
use support::{change, flight};

/// Ways down of an hour that end in words.
fn loose_ends(openings: &Openings, findings: usize) -> Vec<String> {
    let findings = (0..findings).filter_map(|index| openings.of_finding(index));
    let figures = (0..openings.figures().len()).filter_map(|index| openings.of_figure(index));
    findings.chain(figures).flat_map(|opening| opening.loose_ends).collect()
}

#[test]
fn an_hour_of_the_calendar_opens_down_to_the_files() {
    let wet = change("day.toml", "surface_state = \"dry\"", "surface_state = \"wet\"");
    let masses = (Some(tonnes(38.0)), Some(tonnes(40.0)));
    for changes in [vec![], vec![wet]] {
        let flight = flight(&changes);
        for (month, day, hour) in [(6, 18, 18), (7, 2, 10), (8, 27, 12)] {
            let found = year_hour(&flight, masses, MonthDay { month, day }, hour);
            let Some(found) = found.expect("a calendar") else { continue };
            for AssessedHour { found, openings } in
                [&found.asked, &found.largest].into_iter().flatten()
            {
                let mut loose = loose_ends(openings, found.findings.len());
                loose.sort();
                loose.dedup();
                assert!(loose.is_empty(), "{}: {}", loose.len(), loose.join("\n"));
            }
        }
    }
}

/// The station itself is asked for, and the profile has a point every so many metres:
/// nothing stands behind either.
const ASKED: [&str; 2] = ["the station asked for", "points of the profile"];

#[test]
fn a_reading_opens_down_to_the_files() {
    let flight = flight(&[]);
    let found = assess(&flight);
    for station in [0.0, 210.0, 640.0, 1333.0, 1700.0] {
        let readings = readings_at(&flight, &found, metres(station));
        let openings = readings.iter().flat_map(|reading| {
            assert_eq!(reading.openings.len(), reading.figures.len(), "{}", reading.name);
            &reading.openings
        });
        let loose = openings.flat_map(|opening| opening.loose_ends.clone());
        let mut loose: Vec<String> =
            loose.filter(|one| !ASKED.iter().any(|asked| one.contains(asked))).collect();
        loose.sort();
        loose.dedup();
        assert!(loose.is_empty(), "{station}: {}", loose.join("\n"));
    }
}
