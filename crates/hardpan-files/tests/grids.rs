//! A grid named by a strip file: levels and gaps, or a sentence.

use hardpan_files::{Memory, Reading, read_strip, render};
use hardpan_model::{AxisFrom, GridFacts, Strip, SurveyFrom};
use hardpan_quantity::{Length, Quantity};
use rstest::rstest;
use std::fmt::Write as _;

/// A strip to the east through the middle of the grids, from 500010 m.
const STRIP: &str = r#"kind = "strip"
length = "100 m"
width = "20 m"
survey = "GRID"
[survey_info]
level_noise = "3 mm"
UNITS[low_end]
easting = "500010 m"
northing = "4100050 m"
[high_end]
easting = "500110 m"
northing = "4100050 m"
"#;
const METRES: &str = "horizontal_unit = \"m\"\nvertical_unit = \"m\"\n";

/// 60 columns by 50 rows of 2 m; the north-west corner at 500000 m, 4100100 m.
/// Levels rise by 10 mm a metre to the east and 20 mm a metre to the south.
fn text() -> String {
    let mut text = String::from(
        "ncols 60\nnrows 50\nxllcorner 500000\nyllcorner 4100000\ncellsize 2\nNODATA_value -9999\n",
    );
    for row in 0..50 {
        for column in 0..60 {
            let hole = (28..32).contains(&column) && (24..26).contains(&row);
            let level = if hole { -9999.0 } else { truth(f64::from(column), f64::from(row)) };
            write!(text, "{level} ").expect("memory");
        }
        text.push('\n');
    }
    text
}

fn truth(column: f64, row: f64) -> f64 {
    240.0 + 0.005 * (2.0 * (2.0 * column + 1.0)) + 0.01 * (2.0 * (2.0 * row + 1.0))
}

fn read(name: &str, units: &str, grid: impl Into<Vec<u8>>) -> Reading<Strip> {
    let strip = STRIP.replace("GRID", name).replace("UNITS", units);
    read_strip(&Memory::default().with("strip.toml", strip).with(name, grid), "strip.toml")
}

fn told(reading: &Reading<Strip>) -> String {
    render(&reading.diagnostics, &reading.sources, false)
}

fn sound(reading: Reading<Strip>) -> (Strip, GridFacts) {
    let text = told(&reading);
    let strip = reading.value.unwrap_or_else(|| panic!("{text}"));
    match &strip.survey_from {
        Some(SurveyFrom::Grid(facts)) => (strip.clone(), facts.clone()),
        other => panic!("{other:?}"),
    }
}

fn outside(file: &str) -> Vec<u8> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../hardpan-survey/tests/data/grids/");
    std::fs::read(format!("{folder}{file}")).expect("the file stands in the tree")
}

/// Every level of a plane is met between the cells as well.
fn on_the_plane(strip: &Strip, within_m: f64) {
    let survey = strip.survey.as_ref().expect("a survey");
    assert!(survey.lines.len() >= 9);
    for line in &survey.lines {
        assert!(line.points.len() > 40, "{}", line.points.len());
        for point in &line.points {
            // To the east the right of the axis is south.
            let (east, south) = (10.0 + point.station.si(), 50.0 + line.offset.si());
            let wanted = 240.0 + 0.01 * east + 0.02 * south;
            let miss = point.elevation.si() - wanted;
            assert!(miss.abs() < within_m, "{miss} at {}", point.station.si());
        }
    }
}

#[test]
fn text_gives_levels_and_gaps() {
    let (strip, facts) = sound(read("grid.asc", METRES, text()));
    on_the_plane(&strip, 1e-9);
    assert_eq!((facts.columns, facts.rows, facts.cell.si()), (60, 50, 2.0));
    assert!(facts.unsurveyed > 0);
    let centre = strip.survey.expect("a survey");
    let centre = centre.lines.into_iter().find(|line| line.offset.si() == 0.0).expect("a line");
    let inside = |station: Length| (45.5..54.5).contains(&station.si());
    assert_eq!(centre.points.iter().filter(|point| inside(point.station)).count(), 0);
}

// Written by tifffile 2026.3.3, an independent library: the same plane as
// floats in metres with one hole, as whole feet in tiles, and with places in
// the middle of cells.
#[rstest]
#[case("metres-float.tif", 2.0, 2e-5)]
#[case("middle.tif", 2.0, 1e-9)]
#[case("feet-tiled.tif", 2.0, 0.153)]
fn images_give_the_levels_that_were_written(
    #[case] file: &str,
    #[case] cell_m: f64,
    #[case] within_m: f64,
) {
    let (strip, facts) = sound(read("grid.tif", "", outside(file)));
    on_the_plane(&strip, within_m);
    assert!((facts.cell.si() - cell_m).abs() < 1e-9);
    assert_eq!((facts.columns, facts.rows), (60, 50));
}

/// The cell of column 20 and row 10, 41 m east and 21 m south of the corner, has
/// no level: a strip over its middle has none nearer than 2 m.
#[test]
fn a_hole_of_an_image_stays_a_gap() {
    let over = |file: &str| {
        let strip =
            STRIP.replace("GRID", "g.tif").replace("UNITS", "").replace("4100050", "4100079");
        let files = Memory::default().with("s.toml", strip).with("g.tif", outside(file));
        sound(read_strip(&files, "s.toml"))
    };
    assert_eq!(over("middle.tif").1.unsurveyed, 0);
    let (strip, facts) = over("metres-float.tif");
    assert!(facts.unsurveyed > 0);
    let lines = strip.survey.expect("a survey").lines;
    let centre = lines.iter().find(|line| line.offset.si() == 0.0).expect("a line");
    let near = |at: f64| centre.points.iter().any(|point| (point.station.si() - at).abs() < 0.1);
    assert!(!near(30.0) && !near(32.0) && near(28.0) && near(34.0));
}

#[test]
fn noise_of_a_grid_is_that_which_is_stated() {
    let (strip, _) = sound(read("grid.tif", "", outside("middle.tif")));
    let noise = strip.survey.and_then(|survey| survey.level_noise).expect("as stated");
    assert!((noise.value.si() - 0.003).abs() < 1e-12);
}

#[rstest]
#[case::no_units("no-units.tif", "", "horizontal unit")]
#[case::other_units("metres-float.tif", "vertical_unit = \"ft\"\n", "one of them is wrong")]
#[case::mixed_units("feet-tiled.tif", "horizontal_unit = \"m\"\n", "one of them is wrong")]
#[case::degrees("degrees.tif", "", "plane frame")]
#[case::nowhere("nowhere.tif", METRES, "where it lies")]
#[case::colour("colour.tif", METRES, "band")]
fn what_an_image_lacks_is_told(#[case] file: &str, #[case] units: &str, #[case] word: &str) {
    let reading = read("grid.tif", units, outside(file));
    assert_eq!(reading.diagnostics[0].code, "E440");
    assert!(told(&reading).contains(word), "{}", told(&reading));
}

#[test]
fn units_of_text_are_never_guessed() {
    let reading = read("grid.asc", "horizontal_unit = \"m\"\n", text());
    assert!(told(&reading).contains("vertical_unit"), "{}", told(&reading));
}

#[test]
fn a_grid_elsewhere_is_told_where_it_lies() {
    let elsewhere = text().replace("xllcorner 500000", "xllcorner 700000");
    let reading = read("grid.asc", METRES, elsewhere);
    assert!(told(&reading).contains("no point lies on the strip"), "{}", told(&reading));
}

#[rstest]
#[case::cut_short(|text: &str| text[..text.len() / 2].to_owned(), "ends after")]
#[case::too_many(|text: &str| format!("{text} 1"), "more levels")]
#[case::no_cellsize(|text: &str| text.replace("cellsize 2\n", ""), "cellsize")]
#[case::twice(|text: &str| text.replace("nrows", "ncols"), "twice")]
#[case::a_word(|text: &str| text.replacen("240.03 ", "2x40 ", 1), "no number")]
#[case::unknown(|text: &str| text.replace("cellsize", "cellwidth"), "no key")]
#[case::huge(|text: &str| text.replace("ncols 60", "ncols 19000000"), "cells")]
fn broken_text_is_told_at_its_place(#[case] spoil: fn(&str) -> String, #[case] word: &str) {
    let reading = read("grid.asc", METRES, spoil(&text()));
    assert_eq!(reading.diagnostics[0].code, "E446", "{}", told(&reading));
    assert_eq!(&*reading.diagnostics[0].file, "grid.asc");
    assert!(told(&reading).contains(word), "{}", told(&reading));
}

#[test]
fn an_image_cut_anywhere_is_an_error() {
    let whole = outside("metres-float.tif");
    for share in 0..40 {
        let reading = read("grid.tif", "", whole[..whole.len() * share / 40].to_vec());
        assert!(reading.value.is_none(), "{share}");
    }
}

/// The east half of the grid in feet: pieces were put together.
#[test]
fn a_grid_in_two_units_is_told() {
    let text = text();
    let (head, levels) = text.split_at(text.match_indices('\n').nth(5).expect("six keys").0 + 1);
    let row = |row: &str| {
        let levels = row.split_whitespace().enumerate().map(|(column, level)| {
            let level: f64 = level.parse().expect("a number");
            if column < 30 || level < 0.0 { level } else { level / 0.3048 }
        });
        levels.map(|level| level.to_string()).collect::<Vec<_>>().join(" ") + "\n"
    };
    let mixed: String = levels.lines().map(row).collect();
    let reading = read("grid.asc", METRES, format!("{head}{mixed}"));
    assert!(reading.value.is_none());
    let words = "pieces in metres and in feet were put together";
    assert!(told(&reading).contains(words), "{}", told(&reading));
}

/// A grid cut to the strip carries its axis: cells within 11 m of a line to the
/// east-north-east, 110 m long.
fn cut_to_a_strip() -> (String, (f64, f64), (f64, f64)) {
    let (low, high) = ((500_008.0, 4_100_032.0), (500_112.0, 4_100_067.0));
    let (east, north) = (high.0 - low.0, high.1 - low.1);
    let length = f64::hypot(east, north);
    let mut text = String::from(
        "ncols 120\nnrows 100\nxllcorner 500000\nyllcorner 4100000\ncellsize 1\nNODATA_value -9999\n",
    );
    for row in 0..100 {
        for column in 0..120 {
            let (e, n) = (500_000.5 + f64::from(column), 4_100_099.5 - f64::from(row));
            let along = ((e - low.0) * east + (n - low.1) * north) / length;
            let across = ((e - low.0) * north - (n - low.1) * east) / length;
            let inside = (0.0..=length).contains(&along) && across.abs() <= 11.0;
            let level = if inside { 240.0 + 0.01 * along } else { -9999.0 };
            write!(text, "{level:.3} ").expect("memory");
        }
        text.push('\n');
    }
    (text, low, high)
}

const ALONG: &str = "kind = \"strip\"\nlength = \"109.73 m\"\nwidth = \"22 m\"\nbearing = \"73 deg\"\n\
    survey = \"grid.asc\"\n[survey_info]\nlevel_noise = \"3 mm\"\naxis = \"fitted\"\n\
    horizontal_unit = \"m\"\nvertical_unit = \"m\"\n";

#[rstest]
#[case::low("[low_end]\neasting = \"500008 m\"\nnorthing = \"4100032 m\"\n")]
#[case::high("[high_end]\neasting = \"500112 m\"\nnorthing = \"4100067 m\"\n")]
#[case::neither("")]
fn an_axis_is_laid_along_a_grid_cut_to_the_strip(#[case] end: &str) {
    let (grid, low, high) = cut_to_a_strip();
    let strip = format!("{ALONG}{end}");
    let files = Memory::default().with("strip.toml", strip).with("grid.asc", grid);
    let (strip, facts) = sound(read_strip(&files, "strip.toml"));
    let AxisFrom::Fitted { bearing, spread } = facts.axis else { panic!("{facts:?}") };
    let wanted = (high.0 - low.0).atan2(high.1 - low.1);
    // A cell of 1 m at the edges of 110 m.
    assert!((bearing.si() - wanted).abs() < 0.006, "{} {wanted}", bearing.si());
    assert!(spread.si() < 0.5);
    let lines = strip.survey.expect("a survey").lines;
    let centre = lines.iter().find(|line| line.offset.si() == 0.0).expect("a line");
    for point in &centre.points {
        let miss = point.elevation.si() - 240.0 - 0.01 * point.station.si();
        assert!(miss.abs() < 0.015, "{miss} at {}", point.station.si());
    }
}

#[test]
fn an_axis_is_not_laid_along_a_grid_that_covers_more() {
    let reading = read("grid.asc", &format!("{METRES}axis = \"fitted\"\n"), text());
    assert!(reading.value.is_none());
    let told = told(&reading);
    assert!(told.contains("the survey covers 98 m across"), "{told}");
    assert!(told.contains("have the survey cut along the edges of the strip"), "{told}");
}
