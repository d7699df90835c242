//! Obstacles and areas by longitude and latitude. The places of
//! `data/places.geojson` were laid off along the geodesic by an independent
//! library, [PROJ-9] `geod`, at whole stations and offsets.

use hardpan_files::{Memory, Reading, axis_on_globe, read_strip, render};
use hardpan_model::{AreaKind, AreaOutline, AxisPoint, ObstacleTop, Strip};
use hardpan_quantity::{Length, Quantity, feet, metres, millimetres};
use rstest::rstest;

const PLACES: &str = include_str!("data/places.geojson");
const STRIP: &str = "kind = \"strip\"\nlength = \"1957 m\"\nplaces = \"p.geojson\"\n\
    [low_end]\nlatitude = \"52.1 deg\"\nlongitude = \"-1.3 deg\"\n\
    [high_end]\nlatitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n";

fn read(strip: &str, places: &str) -> Reading<Strip> {
    let files = Memory::default().with("strip.toml", strip).with("p.geojson", places);
    read_strip(&files, "strip.toml")
}

fn told(reading: &Reading<Strip>) -> String {
    render(&reading.diagnostics, &reading.sources, false)
}

fn sound(places: &str) -> Strip {
    let reading = read(STRIP, places);
    let text = told(&reading);
    reading.value.unwrap_or_else(|| panic!("{text}"))
}

/// Places were printed to 1e-9 degrees, which is 0.1 mm.
fn near(found: Length, wanted_m: f64) {
    assert!((found.si() - wanted_m).abs() < 2e-3, "{} is not {wanted_m}", found.si());
}

#[test]
fn obstacles_lie_at_their_stations() {
    let obstacles = sound(PLACES).obstacles.expect("two of them");
    assert_eq!(obstacles.len(), 2);
    near(obstacles[0].station.value, -320.0);
    near(obstacles[0].offset.value, 12.0);
    assert_eq!(obstacles[0].top.value, ObstacleTop::OverThreshold(metres(14.0)));
    assert_eq!(obstacles[0].name.as_ref().expect("a name").value, "row of poplars");
    assert_eq!(obstacles[0].station.origin.line, 2);
    near(obstacles[1].station.value, 2150.0);
    assert_eq!(obstacles[1].top.value, ObstacleTop::OverSea(feet(980.0)));
}

#[test]
fn areas_have_their_outlines() {
    let areas = sound(PLACES).areas;
    let kinds: Vec<AreaKind> = areas.iter().map(|area| area.kind.value).collect();
    assert_eq!(kinds, [AreaKind::Soft, AreaKind::Rutted, AreaKind::Rutted]);
    let AreaOutline::Polygon(corners) = &areas[0].outline else { panic!("{areas:?}") };
    assert_eq!(corners.len(), 4);
    for (station, offset) in [(640.0, -9.0), (700.0, -9.0), (700.0, 2.0), (640.0, 2.0)] {
        let met = |corner: &AxisPoint| {
            (corner.station.si() - station).abs() < 2e-3
                && (corner.offset.si() - offset).abs() < 2e-3
        };
        assert!(corners.iter().any(met), "{station} {offset}: {corners:?}");
    }
    assert_eq!(areas[0].reported_on.as_ref().expect("a date").value.to_string(), "2026-05-18");
    assert_eq!(areas[0].kind.origin.line, 4);
    assert_eq!(areas[0].depth, None);
    assert_eq!(areas[1].depth.as_ref().expect("a depth").value, millimetres(40.0));
}

#[test]
fn places_join_those_of_the_strip_file() {
    let more = "[[obstacle]]\nstation = \"-50 m\"\noffset = \"5 m\"\nheight = \"2 m\"\n\
                [[area]]\nkind = \"wet\"\nfrom = \"10 m\"\nto = \"20 m\"\n";
    let strip = read(&format!("{STRIP}{more}"), PLACES).value.expect("sound");
    assert_eq!((strip.obstacles.map(|all| all.len()), strip.areas.len()), (Some(3), 4));
}

/// A file of areas says nothing of obstacles: nobody looked.
#[test]
fn areas_alone_are_no_word_of_obstacles() {
    let areas: Vec<&str> = PLACES.lines().filter(|line| !line.contains("obstacle")).collect();
    assert_eq!(sound(&areas.join("\n")).obstacles, None);
}

#[test]
fn a_place_goes_there_and_back() {
    let strip = sound(PLACES);
    let axis = axis_on_globe(&strip).expect("both ends").expect("an axis");
    let place = axis.place(metres(700.0), metres(-9.0)).expect("near");
    let (station, offset) = axis.locate(place).expect("near");
    near(station, 700.0);
    near(offset, -9.0);
}

#[rstest]
#[case::no_kind("\"kind\": \"soft\"", "\"kind\": \"boggy\"", "E448", "what it is")]
#[case::no_height("\"height_m\": 14", "\"height\": 14", "E448", "no height")]
#[case::a_word_for_a_height("\"height_m\": 14", "\"height_m\": \"tall\"", "E448", "not a number")]
#[case::too_high("\"height_m\": 14", "\"height_m\": 14000", "E448", "14000")]
#[case::feet_for_metres("\"height_m\": 14", "\"height_m\": 400", "E448", "in feet")]
#[case::a_word_for_a_depth("\"depth_mm\": 40", "\"depth_mm\": \"deep\"", "E448", "not a number")]
#[case::too_deep("\"depth_mm\": 40", "\"depth_mm\": 4000", "E448", "4")]
#[case::two_heights("\"height_m\": 14", "\"height_m\": 14, \"elevation_m\": 298", "E448", "both")]
#[case::no_date("2026-05-18", "18 May", "E448", "not a date")]
#[case::a_line(
    "\"Polygon\", \"coordinates\": [[",
    "\"MultiPoint\", \"coordinates\": [",
    "E447",
    "GeoJSON"
)]
#[case::exchanged("[-1.", "[-181.", "E448", "longitude")]
#[case::cut_short("]}}\n]}", "", "E447", "GeoJSON")]
#[case::other("FeatureCollection", "Collection", "E447", "GeoJSON")]
fn what_is_wrong_with_a_place_is_told(
    #[case] from: &str,
    #[case] to: &str,
    #[case] code: &str,
    #[case] word: &str,
) {
    assert!(PLACES.contains(from), "{from}");
    let reading = read(STRIP, &PLACES.replacen(from, to, 1));
    let one = reading.diagnostics.first().expect("a word");
    assert_eq!((one.code, &*one.file), (code, "p.geojson"), "{}", told(&reading));
    assert!(told(&reading).contains(word), "{}", told(&reading));
    assert!(reading.value.is_none());
}

#[test]
fn ends_by_easting_alone_lay_no_places() {
    let text = STRIP.replace("latitude = \"52.1064 deg\"\nlongitude = \"-1.2734 deg\"\n", "");
    let reading = read(&text, PLACES);
    assert_eq!(reading.diagnostics[0].code, "E441", "{}", told(&reading));
}

#[test]
fn a_point_for_an_area_and_no_place_at_all_are_told() {
    let point = r#"{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"kind":"wet"},"geometry":{"type":"Point","coordinates":[-1.29,52.1]}},
{"type":"Feature","properties":{"kind":"obstacle","height_m":3},"geometry":null}]}"#;
    let reading = read(STRIP, point);
    let lines: Vec<u32> = reading.diagnostics.iter().map(|one| one.line).collect();
    assert_eq!(lines, [2, 3], "{}", told(&reading));
}
