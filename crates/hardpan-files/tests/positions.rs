//! Positions of a satellite receiver named by a strip file: lines, noise and
//! the axis, or a sentence.

use hardpan_files::{Memory, Reading, read_any, read_strip, render};
use hardpan_model::{AxisFrom, PositionFacts, Strip, SurveyFrom};
use hardpan_quantity::{Quantity, degrees, metres};
use hardpan_survey::{Geographic, LocalPlane, StationAxis};
use rstest::rstest;
use std::fmt::Write as _;

const STRIP: &str = r#"kind = "strip"
length = "1957 m"
width = "30 m"
bearing = "69 deg"
survey = "walk.csv"
[survey_info]
date = 2026-05-01
[low_end]
latitude = "52.1 deg"
longitude = "-1.3 deg"
[high_end]
latitude = "52.1064 deg"
longitude = "-1.2734 deg"
"#;

fn at(latitude: f64, longitude: f64) -> Geographic {
    Geographic { latitude: degrees(latitude), longitude: degrees(longitude) }
}

/// Rows of three lines, a position every 2 m, 100 m over the datum and rising
/// by 0.5 %, with a saw-tooth of 8 mm as noise.
fn walk() -> String {
    let (low, high) = (at(52.1, -1.3), at(52.1064, -1.2734));
    let plane = LocalPlane::centred(low, high, metres(100.0)).expect("a plane");
    let ends = [low, high].map(|end| plane.project(end).expect("a point"));
    let axis = StationAxis::between(ends[0], ends[1]).expect("an axis");
    let mut text = String::from("latitude_deg,longitude_deg,height_m\n");
    for offset in [-6.0, 0.0, 6.0] {
        for step in 0..=978_u32 {
            let station = 2.0 * f64::from(step);
            let place = plane.place(axis.point(metres(station), metres(offset))).expect("near");
            let noise = 0.008 * (f64::from(step % 3) - 1.0);
            let height = 100.0 + 0.005 * station + noise;
            let (lat, lon) = (place.latitude.si().to_degrees(), place.longitude.si().to_degrees());
            writeln!(text, "{lat:.9},{lon:.9},{height:.3}").expect("memory");
        }
    }
    text
}

fn read(strip: &str, walk: &str) -> Reading<Strip> {
    read_strip(&Memory::default().with("strip.toml", strip).with("walk.csv", walk), "strip.toml")
}

fn told(reading: &Reading<Strip>) -> String {
    render(&reading.diagnostics, &reading.sources, false)
}

fn sound(reading: Reading<Strip>) -> (Strip, PositionFacts) {
    let text = told(&reading);
    let strip = reading.value.unwrap_or_else(|| panic!("{text}"));
    match &strip.survey_from {
        Some(SurveyFrom::Positions(facts)) => (strip.clone(), facts.clone()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn positions_become_lines_on_the_axis() {
    let (strip, facts) = sound(read(STRIP, &walk()));
    let survey = strip.survey.expect("a survey");
    assert_eq!(facts.positions, 3 * 979);
    assert_eq!((facts.used, facts.beyond, facts.between), (3 * 979, 0, 0));
    assert_eq!(facts.axis, AxisFrom::Thresholds);
    let offsets: Vec<f64> = survey.lines.iter().map(|line| line.offset.si()).collect();
    for (found, walked) in offsets.iter().zip([-6.0, 0.0, 6.0]) {
        assert!((found - walked).abs() < 1e-3, "{offsets:?}");
    }
    let line = &survey.lines[1];
    assert_eq!(line.points.len(), 979);
    let tenth = &line.points[10];
    assert!((tenth.station.si() - 20.0).abs() < 1e-3, "{}", tenth.station.si());
    assert_eq!(tenth.line, 2 + 979 + 10);
    let noise = survey.level_noise.expect("a noise");
    assert!(noise.value.si() >= 0.010);
    assert!(noise.source.as_ref().is_some_and(|source| source.contains("satellite")));
}

#[test]
fn a_stated_noise_counts_where_it_is_greater() {
    let noisy = STRIP.replace("date = ", "level_noise = \"45 mm\"\ndate = ");
    let survey = sound(read(&noisy, &walk())).0.survey.expect("a survey");
    let noise = survey.level_noise.expect("a noise");
    assert!((noise.value.si() - 0.045).abs() < 1e-9);
    let proud = STRIP.replace("date = ", "level_noise = \"1 mm\"\ndate = ");
    let survey = sound(read(&proud, &walk())).0.survey.expect("a survey");
    assert!(survey.level_noise.expect("a noise").value.si() >= 0.010);
}

#[rstest]
#[case::low("[high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n", "")]
#[case::high("[low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n", "")]
#[case::neither(
    "[low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n",
    "[high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n"
)]
fn an_axis_is_laid_along_the_positions(#[case] end: &str, #[case] other: &str) {
    let text = STRIP.replace(end, "").replace("date = ", "axis = \"fitted\"\ndate = ");
    let text = if other.is_empty() { text } else { text.replace(other, "") };
    let (strip, facts) = sound(read(&text, &walk()));
    let AxisFrom::Fitted { bearing, spread } = facts.axis else { panic!("{facts:?}") };
    assert!((bearing.si().to_degrees() - 68.65).abs() < 0.05, "{}", bearing.si().to_degrees());
    assert!(spread.si() < 0.1);
    let lines = strip.survey.expect("a survey").lines;
    assert_eq!(lines.len(), 3);
    let first = lines[1].points[0];
    assert!(first.station.si() < 1.0 && lines[1].offset.si().abs() < 0.1);
    // The low end is the lower one: the stations count the right way.
    let last = lines[1].points.last().expect("points");
    assert!(last.elevation > first.elevation);
}

#[test]
fn an_axis_is_not_fitted_unasked() {
    let text = STRIP.replace("[high_end]\nlatitude = \"52.1064 deg\"\n", "[high_end]\n");
    let text = text.replace("longitude = \"-1.2734 deg\"\n", "");
    let reading = read(&text, &walk());
    assert_eq!(reading.diagnostics[0].code, "E441");
    assert!(told(&reading).contains("high_end.latitude"), "{}", told(&reading));
}

#[rstest]
#[case::ends_exchanged("bearing = \"69 deg\"", "bearing = \"249 deg\"", "E444", "exchanged")]
#[case::other_length("length = \"1957 m\"", "length = \"1857 m\"", "E443", "apart")]
#[case::exchanged_coordinates(
    "latitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"",
    "latitude = \"-1.3 deg\"\nlongitude = \"52.1 deg\"",
    "E440",
    "km"
)]
#[case::a_cell_on_positions("date = ", "cell_length = \"1 m\"\ndate = ", "E442", "point cloud")]
#[case::half_a_place("longitude = \"-1.3 deg\"\n", "", "E445", "low_end.longitude")]
fn what_does_not_agree_is_told(
    #[case] from: &str,
    #[case] to: &str,
    #[case] code: &str,
    #[case] word: &str,
) {
    let reading = read(&STRIP.replacen(from, to, 1), &walk());
    let one = reading.diagnostics.iter().find(|one| one.code == code);
    assert!(one.is_some(), "{}", told(&reading));
    assert!(told(&reading).contains(word), "{}", told(&reading));
}

#[rstest]
#[case::off_the_strip(|row: &str| row.replace("52.", "52.5"), "E440", "")]
#[case::elsewhere(|row: &str| row.replace("-1.", "-9."), "E440", "km from the strip")]
#[case::minutes(|row: &str| row.replace("52.1", "5206.1"), "E306", "cannot be right")]
#[case::no_height(|row: &str| row.rsplit_once(',').expect("a cell").0.to_owned() + ",", "E507", "empty")]
#[case::words(|row: &str| row.replace("52.", "N52."), "E508", "number")]
fn bad_rows_are_told(#[case] spoil: fn(&str) -> String, #[case] code: &str, #[case] word: &str) {
    let walk = walk();
    let (head, rows) = walk.split_once('\n').expect("a first line");
    let rows: Vec<String> = rows.lines().step_by(100).map(spoil).collect();
    let reading = read(STRIP, &format!("{head}\n{}\n", rows.join("\n")));
    assert!(reading.value.is_none());
    let one = reading.diagnostics.iter().find(|one| one.code == code);
    assert!(one.is_some(), "{}", told(&reading));
    assert!(told(&reading).contains(word), "{}", told(&reading));
}

/// Feet in a column of metres: the strip would stand at three times its height,
/// which nobody can see; but a column must state one of the two.
#[test]
fn a_height_without_a_unit_is_refused() {
    let reading = read(STRIP, &walk().replace("height_m", "height"));
    assert_eq!(reading.diagnostics[0].code, "E502", "{}", told(&reading));
    let feet = read(STRIP, &walk().replace("height_m", "height_ft"));
    let survey = feet.value.and_then(|strip| strip.survey).expect("a survey");
    assert!((survey.lines[0].points[0].elevation.si() - 100.0 * 0.3048).abs() < 0.02);
}

/// Half of the rows in feet, in a column that says metres: both rows are shown.
#[test]
fn heights_in_two_units_are_told() {
    let walk = walk();
    let (head, rows) = walk.split_once('\n').expect("a first line");
    let count = rows.lines().count();
    let in_feet = |(index, row): (usize, &str)| {
        let (place, height) = row.rsplit_once(',').expect("a height");
        let height: f64 = height.parse().expect("a number");
        let height = if 2 * index < count { height } else { height / 0.3048 };
        format!("{place},{height}")
    };
    let rows: Vec<String> = rows.lines().enumerate().map(in_feet).collect();
    let reading = read(STRIP, &format!("{head}\n{}\n", rows.join("\n")));
    assert!(reading.value.is_none());
    let one = reading.diagnostics.iter().find(|one| one.code == "E449");
    assert!(one.is_some(), "{}", told(&reading));
    assert!(told(&reading).contains("in the unit that the heading names"), "{}", told(&reading));
}

#[test]
fn order_of_the_rows_does_not_matter() {
    let walk = walk();
    let (head, rows) = walk.split_once('\n').expect("a first line");
    let mut turned: Vec<&str> = rows.lines().collect();
    turned.reverse();
    let turned = format!("{head}\n{}\n", turned.join("\n"));
    let levels = |text: &str| {
        let lines = sound(read(STRIP, text)).0.survey.expect("a survey").lines;
        let each = lines.into_iter().flat_map(|line| line.points);
        each.map(|point| (point.station.si(), point.elevation.si())).collect::<Vec<_>>()
    };
    assert_eq!(levels(&walk), levels(&turned));
}

#[test]
fn a_table_of_positions_is_known_by_itself() {
    let reading = read_any(&Memory::default().with("walk.csv", walk()), "walk.csv");
    assert_eq!(reading.value.expect("positions").word(), "positions");
}
