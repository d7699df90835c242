//! Surveys and soundings, row by row.

use hardpan_files::{Memory, Reading, read_strip};
use hardpan_model::{Hammer, SoilClass, StrengthFigure, Strip};
use hardpan_quantity::Quantity;
use proptest::prelude::*;
use rstest::rstest;

const SURVEY: &str = "station_m,offset_m,elevation_m\n";
const SOUNDINGS: &str = "station_m,offset_m,date,hammer,soil,blows,depth_mm,note\n";

fn survey(text: &str) -> Reading<Strip> {
    let strip = "kind = \"strip\"\nlength = \"1800 m\"\nsurvey = \"t.csv\"\n";
    read_strip(
        &Memory::default().with("s.toml", strip).with("t.csv", text.as_bytes().to_vec()),
        "s.toml",
    )
}

fn soundings(rows: &str) -> Reading<Strip> {
    let strip = "kind = \"strip\"\nlength = \"1800 m\"\n\
                 soundings = { value = \"t.csv\", source = \"Sheet 4\" }\n";
    let text = format!("{SOUNDINGS}{rows}");
    read_strip(&Memory::default().with("s.toml", strip).with("t.csv", text), "s.toml")
}

/// Code, line and column of each diagnostic.
fn places<T>(reading: &Reading<T>) -> Vec<(&'static str, u32, u32)> {
    reading.diagnostics.iter().map(|one| (one.code, one.line, one.column)).collect()
}

#[test]
fn lines_come_by_offset_and_points_by_station() {
    let rows = "0,2.6,10\n5,2.6,11\n0,-2.6,10.5\n5,-2.6,10.25\n0,0,12\n10,2.6,9\n";
    let strip = survey(&format!("{SURVEY}{rows}")).value.expect("nothing is wrong");
    let survey = strip.survey.expect("named");
    assert_eq!(&*survey.file, "t.csv");
    let offsets: Vec<f64> = survey.lines.iter().map(|line| line.offset.si()).collect();
    assert_eq!(offsets, [-2.6, 0.0, 2.6]);
    let last: Vec<(f64, f64, u32)> = survey.lines[2]
        .points
        .iter()
        .map(|point| (point.station.si(), point.elevation.si(), point.line))
        .collect();
    assert_eq!(last, [(0.0, 10.0, 2), (5.0, 11.0, 3), (10.0, 9.0, 7)]);
}

#[rstest]
#[case::feet("station_ft,offset_ft,elevation_ft\n100,0,1000\n", 30.48, 304.8)]
#[case::mixed("station_m,offset_m,elevation_ft\n30.48,0,1000\n", 30.48, 304.8)]
#[case::any_order("elevation_m,station_m,offset_m\n304.8,30.48,0\n", 30.48, 304.8)]
#[case::semicolons("station_m;offset_m;elevation_m\n30.48;0;304.8\n", 30.48, 304.8)]
#[case::tabs("station_m\toffset_m\televation_m\n30.48\t0\t304.8\n", 30.48, 304.8)]
#[case::capitals("Station_m, Offset_m, Elevation_m\n 30.48 , 0 , 304.8 \n", 30.48, 304.8)]
#[case::quotes(
    "\"station_m\",\"offset_m\",\"elevation_m\"\n\"30.48\",\"0\",\"304.8\"\n",
    30.48,
    304.8
)]
#[case::remarks(
    "# by hand\n\nstation_m,offset_m,elevation_m\n# first\n30.48,0,3.048e2\n,,\n",
    30.48,
    304.8
)]
fn forms_of_a_survey(#[case] text: &str, #[case] station: f64, #[case] elevation: f64) {
    let reading = survey(text);
    assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    let survey = reading.value.and_then(|strip| strip.survey).expect("named");
    let point = survey.lines[0].points[0];
    assert!((point.station.si() - station).abs() < 1e-9);
    assert!((point.elevation.si() - elevation).abs() < 1e-9);
}

#[rstest]
#[case("0,0,10\n5,0,x\n", &[("E508", 3, 5)])]
#[case("0,0,10\n5,0,1,5\n", &[("E506", 3, 1)])]
#[case("0,0,10\n5,0,inf\n6,0,NaN\n", &[("E508", 3, 5), ("E508", 4, 5)])]
#[case("0,0,10\n-5,0,10\n", &[("E306", 3, 1)])]
#[case("0,0,10\n5,500,10\n", &[("E306", 3, 3)])]
#[case("0,0,10\n5,0,1e300\n", &[("E306", 3, 5)])]
#[case("0,0,10\n5,0,\n", &[("E507", 3, 5)])]
#[case("0,0,10\n5,0,10\n5,0,10\n", &[("E510", 4, 1)])]
#[case("0,0,10\n5,0,10\n4,0,10\n6,0,10\n", &[("E509", 4, 1)])]
#[case("0,0,10\n1800,0,10\n1800.5,0,10\n1900,0,10\n", &[("E406", 5, 1)])]
#[case("0,0,10\n1800.005,0,10\n", &[])]
#[case("5 m,0,10\n", &[("E508", 2, 1)])]
#[case("\u{661},0,10\n", &[("E508", 2, 1)])]
#[case("0,0,10\nö,0,ä\n", &[("E508", 3, 1), ("E508", 3, 5)])]
fn mistakes_of_a_survey_have_a_line_and_a_column(
    #[case] rows: &str,
    #[case] expected: &[(&str, u32, u32)],
) {
    let reading = survey(&format!("{SURVEY}{rows}"));
    assert_eq!(places(&reading), expected, "{:#?}", reading.diagnostics);
    assert_eq!(reading.value.is_some(), expected.is_empty());
}

#[test]
fn a_test_with_a_surface_row_and_refusal() {
    let rows = "20,-2.6,2026-05-20,8 kg,CL,0,0,\n20,-2.6,2026-05-20,8 kg,CL,5,26,\n\
                20,-2.6,2026-05-20,8 kg,CL,4,61,\n20,-2.6,2026-05-20,8 kg,CL,20,61,refusal\n\
                85,0,,4.6kg,,3,40,\n";
    let reading = soundings(rows);
    assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    let strip = reading.value.expect("nothing is wrong");
    let [first, second] = &strip.soundings[..] else {
        panic!("{:#?}", strip.soundings);
    };
    let readings: Vec<(u32, f64, u32)> = first
        .readings
        .iter()
        .map(|one| (one.blows, (one.depth.si() * 1e6).round(), one.line))
        .collect();
    assert_eq!(
        readings,
        [(5, 26_000.0, 3), (4, 61_000.0, 4)],
        "rows that say nothing are left out"
    );
    assert!(first.refusal && !second.refusal);
    assert_eq!((first.station.value.si(), first.offset.si()), (20.0, -2.6));
    assert_eq!((first.station.origin.line, first.station.origin.column), (2, 1));
    assert_eq!(first.station.source.as_deref(), Some("Sheet 4"));
    assert_eq!(first.soil.as_ref().map(|soil| soil.value), Some(SoilClass::LeanClay));
    assert_eq!(
        first.date.as_ref().map(|date| date.value.to_string()).as_deref(),
        Some("2026-05-20")
    );
    assert_eq!(second.hammer.value, Hammer::Light);
    assert!(second.date.is_none() && second.soil.is_none(), "an empty cell stays empty");
}

#[rstest]
#[case("9,0,2026-05-20,8 kg,CL,5,0,\n", "E556")]
#[case("9,0,2026-05-20,8 kg,CL,5,-10,\n", "E306")]
#[case("9,0,2026-05-20,8 kg,CL,-5,10,\n", "E306")]
#[case("9,0,2026-05-20,8 kg,CL,2.5,10,\n", "E508")]
#[case("9,0,2026-05-20,8 kg,CL,5000,10,\n", "E306")]
#[case("9,0,2026-05-20,10 kg,CL,5,10,\n", "E307")]
#[case("9,0,2026-05-20,,CL,5,10,\n", "E507")]
#[case("9,0,2026-05-20,8 kg,clay,5,10,\n", "E307")]
#[case("9,0,20.05.2026,8 kg,CL,5,10,\n", "E308")]
#[case("9,0,2026-02-30,8 kg,CL,5,10,\n", "E308")]
#[case("9,0,2026-05-20,8 kg,CL,5,10,stone\n", "E307")]
#[case("1900,0,2026-05-20,8 kg,CL,5,10,\n", "E406")]
#[case("9,0,2026-05-20,8 kg,CL,5,10,\n9,0,2026-05-20,8 kg,CL,0,20,\n", "E512")]
#[case("9,0,2026-05-20,8 kg,CL,5,10,\n9,0,2026-05-20,8 kg,CL,5,10,\n", "E511")]
#[case("9,0,2026-05-20,8 kg,CL,5,10,\n9,0,2026-05-20,8 kg,CL,0,0,\n", "E511")]
#[case("9,0,2026-05-20,8 kg,CL,5,10,refusal\n9,0,2026-05-20,8 kg,CL,5,20,\n", "E515")]
fn mistakes_of_a_sounding(#[case] rows: &str, #[case] code: &str) {
    let reading = soundings(rows);
    let codes: Vec<&str> = reading.diagnostics.iter().map(|one| one.code).collect();
    assert_eq!(codes, [code], "{:#?}", reading.diagnostics);
    assert!(reading.value.is_none());
}

#[test]
fn one_station_may_be_tested_on_two_days() {
    let rows = "9,0,2025-05-20,8 kg,CL,5,10,\n9,0,2026-05-20,8 kg,CL,5,10,\n";
    assert_eq!(soundings(rows).value.expect("nothing is wrong").soundings.len(), 2);
}

proptest! {
    /// What is written is read: every point, in its line, at its station.
    #[test]
    fn prop_survey_keeps_every_point(
        steps in prop::collection::vec(1_u32..500, 1..60),
        offsets in prop::collection::btree_set(-2000_i32..2000, 1..5),
        level in -40_000_i32..500_000,
    ) {
        let mut text = SURVEY.to_owned();
        let mut station = 0_u32;
        let mut stations = Vec::new();
        for step in &steps {
            for offset in &offsets {
                let (metres, across) = (f64::from(station) / 100.0, f64::from(*offset) / 100.0);
                text.push_str(&format!("{metres},{across},{}\n", f64::from(level) / 100.0));
            }
            stations.push(f64::from(station) / 100.0);
            station += step;
        }
        let survey = survey(&text).value.and_then(|strip| strip.survey).expect("nothing is wrong");
        prop_assert_eq!(survey.lines.len(), offsets.len());
        for (line, offset) in survey.lines.iter().zip(&offsets) {
            prop_assert_eq!(line.offset.si(), f64::from(*offset) / 100.0);
            let read: Vec<f64> = line.points.iter().map(|point| point.station.si()).collect();
            prop_assert_eq!(&read, &stations);
        }
    }

    /// The order of whole lines does not matter.
    #[test]
    fn prop_order_of_lines_does_not_matter(turn in 0_usize..3) {
        let mut lines = ["0,-2,1\n5,-2,2\n", "0,0,1\n5,0,2\n", "0,2,1\n5,2,2\n"];
        lines.rotate_left(turn);
        let read = survey(&format!("{SURVEY}{}", lines.concat())).value.and_then(|s| s.survey);
        let offsets: Vec<f64> =
            read.expect("nothing is wrong").lines.iter().map(|line| line.offset.si()).collect();
        prop_assert_eq!(offsets, vec![-2.0, 0.0, 2.0]);
    }
}

const TESTS: &str = "station_m,offset_m,date,test,from_in,to_in,cbr_percent,modulus_psi,index,\
                     moisture_percent,state\n";

fn strength_tests(rows: &str) -> Reading<Strip> {
    let strip = "kind = \"strip\"\nlength = \"1800 m\"\nstrength_tests = \"t.csv\"\n";
    let text = format!("{TESTS}{rows}");
    read_strip(&Memory::default().with("s.toml", strip).with("t.csv", text), "s.toml")
}

#[test]
fn strength_tests_keep_unit_depth_and_place() {
    let rows = "100,-2,2026-05-01,field CBR,4,10,12,,,9.5,dry\n200,0,,plate,0,20,,8000,,,\n";
    let reading = strength_tests(rows);
    assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    let tests = reading.value.expect("nothing is wrong").strength_tests;
    assert_eq!(tests.len(), 2);
    assert!((tests[0].top.si() - 0.1016).abs() < 1e-12);
    assert!((tests[0].bottom.si() - 0.254).abs() < 1e-12);
    assert_eq!(tests[0].moisture.as_ref().map(|one| one.value.si()), Some(0.095));
    let StrengthFigure::Modulus(modulus) = tests[1].figure.value else {
        panic!("{:?}", tests[1].figure);
    };
    assert!((modulus.si() - 55.158_058e6).abs() < 10.0, "8000 psi is 55.158 MPa");
    assert_eq!((tests[1].date.is_none(), tests[1].figure.origin.line), (true, 3));
}

#[rstest]
#[case::unknown_test("100,0,,feild CBR,4,10,12,,,,\n", &[("E307", 2, 8)])]
#[case::no_figure("100,0,,field CBR,4,10,,,,,\n", &[("E507", 2, 23)])]
#[case::figure_of_another("100,0,,plate,4,10,12,5000,,,\n", &[("E508", 2, 19)])]
#[case::upside_down("100,0,,plate,10,4,,5000,,,\n", &[("E401", 2, 17)])]
#[case::state("100,0,,plate,0,4,,5000,,,damp\n", &[("E307", 2, 26)])]
fn strength_tests_say_what_is_wrong(#[case] rows: &str, #[case] wanted: &[(&str, u32, u32)]) {
    assert_eq!(places(&strength_tests(rows)), wanted);
}

fn ruts(rows: &str) -> Reading<Strip> {
    let strip = "kind = \"strip\"\nlength = \"1800 m\"\nruts = \"r.csv\"\n";
    let text = format!("station_ft,lane,date,rut_in,passes,mass_lb,pressure_psi\n{rows}");
    read_strip(&Memory::default().with("s.toml", strip).with("r.csv", text), "s.toml")
}

#[test]
fn ruts_keep_units_lane_and_place() {
    let reading =
        ruts("1000,left main,2026-05-01,1.5,120,88000,100\n2000,right main,,0,5,9e4,90\n");
    assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    let ruts = reading.value.expect("nothing is wrong").ruts;
    assert_eq!((ruts.len(), ruts[0].lane), (2, hardpan_model::Lane::Left));
    assert!((ruts[0].station.value.si() - 304.8).abs() < 1e-9);
    assert!((ruts[0].depth.value.si() - 0.0381).abs() < 1e-12);
    assert!((ruts[0].mass.value.si() - 39_916.1).abs() < 0.1, "88 000 lb");
    assert!((ruts[0].pressure.value.si() - 689_475.7).abs() < 0.1, "100 psi");
    assert_eq!((ruts[1].date.is_none(), ruts[1].depth.origin.line), (true, 3));
}

#[rstest]
#[case::lane("1000,nose,,1,5,88000,100\n", &[("E307", 2, 6)])]
#[case::no_depth("1000,left main,,,5,88000,100\n", &[("E507", 2, 17)])]
#[case::too_deep("1000,left main,,40,5,88000,100\n", &[("E306", 2, 17)])]
#[case::no_passes("1000,left main,,1,0,88000,100\n", &[("E306", 2, 19)])]
fn ruts_say_what_is_wrong(#[case] rows: &str, #[case] wanted: &[(&str, u32, u32)]) {
    assert_eq!(places(&ruts(rows)), wanted);
}
