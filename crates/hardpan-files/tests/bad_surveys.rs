//! Surveys as they come from the field when something went wrong, and the exact
//! words for each.

use hardpan_files::{Memory, read_strip, render};
use hardpan_quantity::metres;
use hardpan_survey::made::{Compression, MadeStrip};

/// A strip of 120 m that lies 72 m to the east and 96 m to the north.
const STRIP: &str = r#"kind = "strip"
length = "120 m"
width = "10 m"
survey = "FILE"
[survey_info]
date = 2026-05-01
[low_end]
easting = "500000 m"
northing = "4100000 m"
[high_end]
easting = "500072 m"
northing = "4100096 m"
"#;

fn cloud(compression: Compression) -> Vec<u8> {
    let strip = MadeStrip {
        length: metres(120.0),
        width: metres(14.0),
        density: 10.0,
        ..MadeStrip::default()
    };
    strip.bytes(compression).expect("memory takes all bytes")
}

/// What is told of a strip file that names these bytes; it gives no strip.
fn told(text: &str, file: &str, bytes: Vec<u8>) -> String {
    let files = Memory::default().with("strip.toml", text).with(file, bytes);
    let reading = read_strip(&files, "strip.toml");
    assert!(reading.value.is_none(), "{file} is taken");
    render(&reading.diagnostics, &reading.sources, false)
}

fn told_of(file: &str, bytes: Vec<u8>) -> String {
    told(&STRIP.replace("FILE", file), file, bytes)
}

#[test]
fn a_cloud_cut_short() {
    for (file, compression) in [("cut.las", Compression::Las), ("cut.laz", Compression::Laz)] {
        let mut bytes = cloud(compression);
        bytes.truncate(bytes.len() / 2);
        insta::assert_snapshot!(file, told_of(file, bytes));
    }
}

/// The frame of the cloud is on the globe, in degrees.
#[test]
fn a_cloud_in_degrees() {
    let mut bytes = cloud(Compression::Las);
    let at = bytes.windows(7).position(|part| part == b"PROJCS[").expect("a plane frame");
    bytes[at..at + 7].copy_from_slice(b"GEOGCS[");
    insta::assert_snapshot!(told_of("degrees.las", bytes));
}

/// The thresholds stand in the next zone.
#[test]
fn a_cloud_in_another_frame() {
    let text = STRIP.replace("FILE", "zone.laz");
    let text = text.replace("500000 m", "742800 m").replace("500072 m", "742872 m");
    insta::assert_snapshot!(told(&text, "zone.laz", cloud(Compression::Laz)));
}

#[test]
fn heights_in_feet_of_a_cloud_in_metres() {
    let text = STRIP.replace("FILE", "feet.laz");
    let text = text.replace("[low_end]", "vertical_unit = \"ft\"\n[low_end]");
    insta::assert_snapshot!(told(&text, "feet.laz", cloud(Compression::Laz)));
}

fn levels(rows: &str) -> Vec<u8> {
    format!("station_m,offset_m,elevation_m\n{rows}").into_bytes()
}

/// From the third row on somebody wrote feet.
#[test]
fn two_units_in_one_column() {
    let rows = "0,0,284.1\n5,0,284.2\n10,0,932.4\n15,0,932.8\n";
    insta::assert_snapshot!(told_of("mixed.csv", levels(rows)));
}

/// One of three lines was levelled in feet.
#[test]
fn a_line_in_another_unit() {
    let rows = "0,-4,284.1\n5,-4,284.2\n0,0,932.1\n5,0,932.4\n0,4,284.1\n5,4,284.2\n";
    insta::assert_snapshot!(told_of("line.csv", levels(rows)));
}

#[test]
fn rows_out_of_order() {
    let rows = "0,0,284.1\n10,0,284.2\n5,0,284.2\n15,0,284.3\n";
    insta::assert_snapshot!(told_of("order.csv", levels(rows)));
}

#[test]
fn levels_beyond_the_strip() {
    let rows = "0,0,284.1\n60,0,284.2\n120,0,284.2\n180,0,284.3\n";
    insta::assert_snapshot!(told_of("beyond.csv", levels(rows)));
}
