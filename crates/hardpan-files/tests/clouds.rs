//! A point cloud named by a strip file: levels, noise and gaps, or a sentence.

use hardpan_files::{Memory, Reading, read_strip, render};
use hardpan_model::Strip;
use hardpan_quantity::{Quantity, metres};
use hardpan_survey::made::{Compression, MadeStrip};
use rstest::rstest;

fn made(strip: &MadeStrip, compression: Compression) -> Vec<u8> {
    strip.bytes(compression).expect("memory takes all bytes")
}

fn short() -> MadeStrip {
    MadeStrip {
        length: metres(120.0),
        width: metres(14.0),
        density: 30.0,
        bumps: vec![(60.0, 12.0, 0.08)],
        noise: metres(0.01),
        plants: 0.0,
        holes: vec![(40.0, 46.0, -7.0, 7.0)],
        ..MadeStrip::default()
    }
}

/// The ends of a made strip of 120 m: 72 m east and 96 m north of each other.
const STRIP: &str = r#"kind = "strip"
length = "120 m"
width = "10 m"
survey = "strip.laz"
[survey_info]
date = 2026-05-01
[low_end]
easting = "500000 m"
northing = "4100000 m"
[high_end]
easting = "500072 m"
northing = "4100096 m"
"#;

fn read(text: &str, name: &str, cloud: Vec<u8>) -> Reading<Strip> {
    read_strip(&Memory::default().with("strip.toml", text).with(name, cloud), "strip.toml")
}

fn told(reading: &Reading<Strip>) -> String {
    render(&reading.diagnostics, &reading.sources, false)
}

#[test]
fn a_cloud_gives_lines_noise_and_gaps() {
    let made_strip = short();
    let reading = read(STRIP, "strip.laz", made(&made_strip, Compression::Laz));
    let strip = reading.value.as_ref().unwrap_or_else(|| panic!("{}", told(&reading)));
    let survey = strip.survey.as_ref().expect("a survey");
    assert_eq!(survey.lines.len(), 11);
    let noise = survey.level_noise.as_ref().expect("a noise");
    // About 15 points of 10 mm in a cell.
    assert!((0.0022..0.0031).contains(&noise.value.si()), "{}", noise.value.si());
    assert_eq!((&*noise.origin.file, noise.origin.line), ("strip.toml", 4));
    for line in &survey.lines {
        let inner = |from: f64, to: f64| {
            line.points.iter().filter(move |p| p.station.si() > from && p.station.si() < to)
        };
        assert_eq!(inner(40.6, 45.4).count(), 0, "a hole stays a gap");
        // Six deviations of a level of 2.6 mm, and the fall of a cell on the crown.
        let truth = |p: &hardpan_model::SurveyPoint| {
            (p.elevation - made_strip.ground(p.station, line.offset)).si().abs()
        };
        assert!(inner(1.0, 119.0).all(|p| truth(p) < 0.022), "{}", line.offset.si());
    }
    let facts = strip.survey_from.as_ref().and_then(|from| from.cloud()).expect("facts");
    assert!(facts.points > 40_000 && facts.unsurveyed >= 11 * 10);
}

/// What identifies the inputs of a report must differ for another cloud.
#[test]
fn another_cloud_is_another_input() {
    let of = |seed| {
        let strip = MadeStrip { density: 10.0, seed, ..short() };
        read(STRIP, "strip.laz", made(&strip, Compression::Laz)).sources
    };
    assert_eq!(of(1), of(1));
    assert_ne!(of(1), of(2));
}

#[test]
fn the_greater_noise_counts() {
    let stated = STRIP.replace("date = ", "level_noise = \"20 mm\"\ndate = ");
    let reading = read(&stated, "strip.laz", made(&short(), Compression::Laz));
    let survey = reading.value.and_then(|strip| strip.survey).expect("a survey");
    assert!((survey.level_noise.expect("a noise").value.si() - 0.020).abs() < 1e-12);
}

#[test]
fn a_plain_cloud_gives_the_same_lines() {
    let strip = MadeStrip { density: 10.0, ..short() };
    let laz = read(STRIP, "strip.laz", made(&strip, Compression::Laz));
    let text = STRIP.replace("strip.laz", "strip.LAS");
    let las = read(&text, "strip.LAS", made(&strip, Compression::Las));
    let lines = |reading: Reading<Strip>| {
        reading.value.and_then(|strip| strip.survey).expect("a survey").lines
    };
    assert_eq!(lines(laz), lines(las));
}

#[rstest]
#[case::cut_short(0.6, "copy")]
#[case::cut_in_the_header(0.001, "copy")]
fn a_cloud_cut_short_is_told_at_its_key(#[case] share: f64, #[case] advice: &str) {
    let mut cloud = made(&MadeStrip { density: 10.0, ..short() }, Compression::Laz);
    cloud.truncate((cloud.len() as f64 * share) as usize);
    let reading = read(STRIP, "strip.laz", cloud);
    let one = &reading.diagnostics[0];
    assert_eq!((one.code, one.line, one.column), ("E440", 4, 10));
    assert!(one.hint.contains(advice), "{}", told(&reading));
    assert!(reading.value.is_none());
}

/// A file from outside that states no unit.
#[test]
fn a_unit_that_nobody_states_is_asked_for() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../hardpan-survey/tests/data/simple.las");
    let cloud = std::fs::read(path).expect("the file stands in the tree");
    let reading = read(STRIP, "strip.laz", cloud.clone());
    let text = told(&reading);
    assert!(text.contains("horizontal unit") && text.contains("horizontal_unit"), "{text}");
    let units = "horizontal_unit = \"ft\"\nvertical_unit = \"ft\"\ndate = ";
    let stated = read(&STRIP.replace("date = ", units), "strip.laz", cloud);
    let text = told(&stated);
    assert!(text.contains("no point lies on the strip"), "{text}");
}

#[test]
fn a_unit_against_that_of_the_file_is_told() {
    let text = STRIP.replace("date = ", "vertical_unit = \"ft\"\ndate = ");
    let reading = read(&text, "strip.laz", made(&short(), Compression::Laz));
    assert!(told(&reading).contains("one of them is wrong"), "{}", told(&reading));
}

#[rstest]
#[case("length = \"120 m\"\n", "length")]
#[case("width = \"10 m\"\n", "width")]
#[case("easting = \"500000 m\"\n", "low_end.easting")]
#[case("northing = \"4100096 m\"\n", "high_end.northing")]
fn what_a_cloud_is_laid_on_must_be_stated(#[case] line: &str, #[case] key: &str) {
    let reading = read(&STRIP.replacen(line, "", 1), "strip.laz", Vec::new());
    let one = &reading.diagnostics[0];
    assert_eq!(one.code, "E441");
    assert!(one.message.contains(key), "{}", one.message);
}
