//! Weather reports, group by group.
//!
//! Expected values: [WMO-306] FM 15 as quoted by public training texts, and
//! [FMH-1] for remarks in tenths; conversions by definition (1 kt = 1852/3600 m/s,
//! 1 inHg = 3386.389 Pa).

use hardpan_files::{AnyFile, Memory, Reading, WeatherReport, read_any, read_day};
use hardpan_quantity::Quantity;
use rstest::rstest;

const KNOT: f64 = 1852.0 / 3600.0;

fn read(report: &str) -> Reading<WeatherReport> {
    let files = Memory::default().with("r.txt", report.as_bytes().to_vec());
    read_any(&files, "r.txt").map(|file| match file {
        AnyFile::Report(report) => *report,
        other => panic!("a {} is no report", other.word()),
    })
}

/// A report with one group in its place and the other two as usual.
fn with(wind: &str, temperature: &str, pressure: &str) -> Reading<WeatherReport> {
    read(&format!("METAR XXHP 251200Z {wind} 9999 FEW040 {temperature} {pressure}"))
}

fn codes<T>(reading: &Reading<T>) -> Vec<&'static str> {
    reading.diagnostics.iter().map(|one| one.code).collect()
}

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected}");
}

#[rstest]
#[case("27025G40KT", Some(270.0), 25.0, Some(40.0))]
#[case("VRB03KT", None, 3.0, None)]
#[case("00000KT", None, 0.0, None)]
#[case("18010MPS", Some(180.0), 19.44, None)]
#[case("36005KT", Some(0.0), 5.0, None)]
#[case("240102G120KT", Some(240.0), 102.0, Some(120.0))]
#[case("09020KMH", Some(90.0), 10.8, None)]
#[case("27025G//KT", Some(270.0), 25.0, None)]
fn val_wind(
    #[case] group: &str,
    #[case] from: Option<f64>,
    #[case] knots: f64,
    #[case] gust: Option<f64>,
) {
    let report = with(group, "14/06", "Q1013").value.expect("a sound report");
    let wind = report.wind.expect("a wind").value;
    // Half the last printed digit of 19.44 and 10.8.
    near(wind.speed.si() / KNOT, knots, 0.05);
    assert_eq!(wind.from.map(|from| from.si().to_degrees().round()), from);
    assert_eq!(wind.gust.map(|gust| (gust.si() / KNOT).round()), gust);
}

/// [WMO-306] code table 4678: what falls at the place, neither in the vicinity, nor before,
/// nor lifted off the ground.
#[rstest]
#[case("+RA", true)]
#[case("-DZ", true)]
#[case("TSGR", true)]
#[case("SHSNRA", true)]
#[case("FZRA", true)]
#[case("VCSH", false)]
#[case("RERA", false)]
#[case("BLSN", false)]
#[case("DRSN", false)]
#[case("BR", false)]
#[case("TS", false)]
fn val_what_falls(#[case] group: &str, #[case] falls: bool) {
    let text = format!("METAR XXHP 251200Z 27009KT 3000 {group} FEW040 14/06 Q1013 TEMPO RA");
    let report = read(&text).value.expect("a sound report");
    let told = report.precipitation.map(|given| given.value);
    assert_eq!(told, falls.then(|| group.to_owned()));
}

#[test]
fn val_varying_direction() {
    let report = with("02008KT 350V060", "14/06", "Q1013").value.expect("a sound report");
    let (from, to) = report.wind.and_then(|wind| wind.value.between).expect("two bounds");
    near(from.si().to_degrees(), 350.0, 1e-9);
    near(to.si().to_degrees(), 60.0, 1e-9);
}

#[rstest]
#[case("14/06", 14.0)]
#[case("M02/M05", -2.0)]
#[case("M00/M01", 0.0)]
#[case("00/M00", 0.0)]
#[case("30/", 30.0)]
#[case("08///", 8.0)]
#[case("21/20", 21.0)]
fn val_temperature(#[case] group: &str, #[case] celsius: f64) {
    let report = with("25009KT", group, "Q1013").value.expect("a sound report");
    near(report.temperature.expect("a temperature").value.si() - 273.15, celsius, 1e-9);
}

#[rstest]
#[case("14/11 Q1013 RMK T01391106", 13.9)]
#[case("M11/M15 Q1013 RMK AO2 SLP134 T11061150", -10.6)]
#[case("14/11 Q1013 RMK T0139", 13.9)]
fn val_tenths_from_the_remarks(#[case] rest: &str, #[case] celsius: f64) {
    let report = with("25009KT", rest, "").value.expect("a sound report");
    near(report.temperature.expect("a temperature").value.si() - 273.15, celsius, 1e-9);
}

#[rstest]
#[case("Q0998", 998.0)]
#[case("Q1013", 1013.0)]
#[case("A2992", 1013.21)]
#[case("A3010 Q1019", 1019.3)]
fn val_pressure(#[case] group: &str, #[case] hectopascals: f64) {
    let report = with("25009KT", "14/06", group).value.expect("a sound report");
    let pressure = report.sea_level_pressure.expect("a pressure").value.si() / 100.0;
    near(pressure, hectopascals, 0.05);
}

#[rstest]
#[case("/////KT", "14/06", "Q1013")]
#[case("///10KT", "14/06", "Q1013")]
#[case("25009KT", "/////", "Q1013")]
#[case("25009KT", "///06", "Q1013")]
#[case("25009KT", "14/06", "Q////")]
#[case("25009KT", "14/06", "A////")]
#[case("25009KT", "14/06", "")]
#[case("", "14/06", "Q1013")]
fn what_is_not_reported_is_missing_and_said(
    #[case] wind: &str,
    #[case] temperature: &str,
    #[case] pressure: &str,
) {
    let reading = with(wind, temperature, pressure);
    assert_eq!(codes(&reading), ["E604"], "{:#?}", reading.diagnostics);
    let report = reading.value.expect("a warning is no error");
    let here =
        [report.wind.is_some(), report.temperature.is_some(), report.sea_level_pressure.is_some()];
    assert_eq!(here.iter().filter(|is| **is).count(), 2);
}

#[rstest]
#[case("2502KT", "14/06", "Q1013")]
#[case("25O09KT", "14/06", "Q1013")]
#[case("37009KT", "14/06", "Q1013")]
#[case("25009G09KT", "14/06", "Q1013")]
#[case("250P99KT", "14/06", "Q1013")]
#[case("25009KTS", "14/06", "Q1013")]
#[case("25009KT", "1O/06", "Q1013")]
#[case("25009KT", "140/06", "Q1013")]
#[case("25009KT", "14/06", "Q101")]
#[case("25009KT", "14/06", "Q10133")]
#[case("25009KT", "14/06", "Q0101")]
#[case("25009KT", "14/06", "A9229")]
#[case("25009KT 26009KT", "14/06", "Q1013")]
#[case("25009KT", "14/06 15/06", "Q1013")]
#[case("25009KT 350V4O0", "14/06", "Q1013")]
fn a_group_that_is_wrong_gives_no_value_for_it(
    #[case] wind: &str,
    #[case] temperature: &str,
    #[case] pressure: &str,
) {
    let reading = with(wind, temperature, pressure);
    let plain = reading.diagnostics.iter().all(|one| matches!(one.code, "E602" | "E603" | "E604"));
    assert!(!reading.diagnostics.is_empty() && plain, "{:#?}", reading.diagnostics);
}

#[rstest]
#[case("METAR COR XXHP 251200Z AUTO 25009KT CAVOK 14/06 Q1013 NOSIG")]
#[case("SPECI XXHP 251200Z 25009KT 1 1/2SM -SHRA BR BKN008 OVC012CB 14/13 A2992")]
#[case("XXHP 251200Z 25009KT 0800NE R07/P1500U R25L/0600V1000FT +TSRA VCFG VV/// 14/13 Q1013=")]
#[case("METAR XXHP 251200Z 25009KT //// // ////// 14/13 Q1013 RERA WS R07 R07/290155 W15/S4")]
#[case("METAR XXHP 251200Z 25009KT M1/4SM FZFG SKC 14/13 A2992 BECMG 30045KT 0200 99/99")]
#[case("METAR XXHP\n  251200Z 25009KT\n  9999NDV NCD 14/06 Q1013\n")]
fn usual_reports_read_without_a_word(#[case] report: &str) {
    let reading = read(report);
    assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    let report = reading.value.expect("nothing is wrong");
    near(report.wind.expect("a wind").value.speed.si() / KNOT, 9.0, 1e-9);
    assert_eq!((report.day, report.hour, report.minute), (25, 12, 0));
}

#[rstest]
#[case("METAR 251200Z 25009KT", "E602")]
#[case("METAR XXHP 2512Z 25009KT", "E602")]
#[case("METAR XXHP 321200Z 25009KT", "E602")]
#[case("METAR XXHP 252460Z 25009KT", "E602")]
#[case("METAR", "E601")]
#[case("METAR xxhp 251200Z", "E602")]
fn a_head_that_is_wrong_gives_no_report(#[case] report: &str, #[case] code: &str) {
    let reading = read(report);
    assert!(reading.value.is_none());
    assert_eq!(codes(&reading), [code]);
}

#[rstest]
#[case("2026-06-18", "18", "2026-06-18T12:00:00")]
#[case("2026-06-18", "17", "2026-06-17T12:00:00")]
#[case("2026-07-01", "30", "2026-06-30T12:00:00")]
#[case("2026-12-31", "01", "2027-01-01T12:00:00")]
#[case("2026-03-01", "28", "2026-02-28T12:00:00")]
#[case("2028-03-01", "29", "2028-02-29T12:00:00")]
fn the_day_of_a_report_is_the_nearest_such_day(
    #[case] date: &str,
    #[case] day: &str,
    #[case] moment: &str,
) {
    let text = format!(
        "kind = \"day\"\ndate = {date}\nmetar = \"METAR XXHP {day}1200Z 25009KT 9999 14/06 Q1013\"\n"
    );
    let reading = read_day(&Memory::default().with("d.toml", text), "d.toml");
    let observed = reading.value.and_then(|day| day.observed_utc).expect("dated");
    assert_eq!(observed.value.to_string(), moment);
    assert_eq!(observed.source.as_deref(), Some(&*format!("weather report XXHP {day}1200Z")));
}

#[test]
fn a_report_in_a_day_file_points_at_its_group() {
    let text =
        "kind = \"day\"\ndate = 2026-06-18\nmetar = \"METAR XXHP 181200Z 2502KT 14/06 Q1013\"\n";
    let reading = read_day(&Memory::default().with("d.toml", text), "d.toml");
    let one = &reading.diagnostics[0];
    assert_eq!((one.line, one.column, one.read.as_str()), (3, 29, "2502KT"));
}

#[test]
fn keys_of_the_day_take_the_place_of_the_report() {
    let text = "kind = \"day\"\ndate = 2026-06-18\ntemperature = \"21 degC\"\n\
                metar = \"METAR XXHP 181200Z 25009KT 9999 14/06 Q1013\"\n\
                [wind]\nfrom = \"variable\"\nspeed = \"4 kt\"\n";
    let reading = read_day(&Memory::default().with("d.toml", text), "d.toml");
    assert_eq!(codes(&reading), ["E420", "E420"]);
    let day = reading.value.expect("a warning is no error");
    near(day.temperature.expect("given").value.si(), 294.15, 1e-9);
    let wind = day.wind.expect("given").value;
    assert!(wind.from.is_none());
    near(wind.speed.si() / KNOT, 4.0, 1e-9);
    assert!(day.sea_level_pressure.is_some(), "from the report");
}
