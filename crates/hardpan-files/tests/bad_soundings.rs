//! Soundings that cannot be: each kind of mistake, where it is told, what was
//! read there, what was expected, and the way out.

use hardpan_files::{Diagnostic, Memory, Reading, Severity, read_strip};
use hardpan_model::Strip;
use rstest::rstest;

const HEADER: &str = "station_m,offset_m,date,hammer,soil,blows,depth_mm,note\n";
const FIRST: &str = "9,0,2026-05-20,8 kg,CL,5,40,\n";

fn read(text: &str) -> Reading<Strip> {
    let strip = "kind = \"strip\"\nlength = \"1800 m\"\nsoundings = \"t.csv\"\n";
    read_strip(&Memory::default().with("s.toml", strip).with("t.csv", text), "s.toml")
}

fn only(text: &str) -> Diagnostic {
    let reading = read(text);
    assert_eq!(reading.diagnostics.len(), 1, "{text}{:#?}", reading.diagnostics);
    reading.diagnostics.into_iter().next().expect("one")
}

/// One mistake: what stands in the rows, and what is told of it.
struct Told {
    place: (&'static str, u32, u32),
    read: &'static str,
    says: &'static str,
    expected: &'static str,
    way_out: &'static str,
}

#[rstest]
#[case::depth_below_zero("9,0,2026-05-20,8 kg,CL,5,-10,\n", Told {
    place: ("E306", 2, 26), read: "-10", says: "is -10, which cannot be right",
    expected: "0 m to 5.00 m", way_out: "check the number and its unit" })]
#[case::blows_below_zero("9,0,2026-05-20,8 kg,CL,-5,10,\n", Told {
    place: ("E306", 2, 24), read: "-5", says: "`blows` is -5, which cannot be right",
    expected: "0 to 1000", way_out: "check the number" })]
#[case::half_a_blow("9,0,2026-05-20,8 kg,CL,2.5,10,\n", Told {
    place: ("E508", 2, 24), read: "2.5", says: "`blows` is not a whole number",
    expected: "a whole number", way_out: "write digits" })]
#[case::no_blows("9,0,2026-05-20,8 kg,CL,0,40,\n", Told {
    place: ("E512", 2, 24), read: "0", says: "went to 40 mm without a blow",
    expected: "one blow or more for each depth", way_out: "write 1 blow" })]
#[case::blows_beyond_the_scale("9,0,2026-05-20,8 kg,CL,1001,40,\n", Told {
    place: ("E306", 2, 24), read: "1001", says: "is 1001, which cannot be right",
    expected: "0 to 1000", way_out: "check the number" })]
#[case::more_blows_than_a_number_holds("9,0,2026-05-20,8 kg,CL,99999999999,40,\n", Told {
    place: ("E306", 2, 24), read: "99999999999", says: "which cannot be right",
    expected: "0 to 1000", way_out: "check the number" })]
#[case::deeper_than_any_rod("9,0,2026-05-20,8 kg,CL,5,5001,\n", Told {
    place: ("E306", 2, 26), read: "5001", says: "`depth_mm` is 5001",
    expected: "to 5", way_out: "check the number and its unit" })]
#[case::hammer_not_stated("9,0,2026-05-20,,CL,5,40,\n", Told {
    place: ("E507", 2, 16), read: "", says: "the cell of `hammer` is empty",
    expected: "a value", way_out: "fill it in" })]
#[case::hammer_unknown("9,0,2026-05-20,10 kg,CL,5,40,\n", Told {
    place: ("E307", 2, 16), read: "10 kg", says: "a word not known here",
    expected: "one of 8 kg or 4.6 kg", way_out: "write" })]
#[case::hammer_without_its_unit("9,0,2026-05-20,8,CL,5,40,\n", Told {
    place: ("E307", 2, 16), read: "8", says: "`hammer` is `8`",
    expected: "one of 8 kg or 4.6 kg", way_out: "write" })]
#[case::a_unit_in_a_cell("9,0,2026-05-20,8 kg,CL,5,40 mm,\n", Told {
    place: ("E508", 2, 26), read: "40 mm", says: "`depth_mm` is not a number",
    expected: "a number", way_out: "no unit and no blanks" })]
#[case::a_comma_for_a_point("9,0,2026-05-20,8 kg,CL,5,40,5,\n", Told {
    place: ("E506", 2, 1), read: "9,0,2026-05-20,8 kg,CL,5,40,5,", says: "this row has 9 cells",
    expected: "8 cells", way_out: "a comma inside a number" })]
#[case::soil_unknown("9,0,2026-05-20,8 kg,clay,5,40,\n", Told {
    place: ("E307", 2, 21), read: "clay", says: "`soil` is `clay`",
    expected: "one of CL, CH or other", way_out: "write" })]
#[case::no_such_day("9,0,2026-02-30,8 kg,CL,5,40,\n", Told {
    place: ("E308", 2, 5), read: "2026-02-30", says: "`date` is not a date",
    expected: "year-month-day", way_out: "write 2026-05-01" })]
#[case::beyond_the_strip("1900,0,2026-05-20,8 kg,CL,5,40,\n", Told {
    place: ("E406", 2, 1), read: "1900", says: "1900 m",
    expected: "1800 m", way_out: "" })]
#[case::not_a_number("9,0,2026-05-20,8 kg,CL,5,NaN,\n", Told {
    place: ("E508", 2, 26), read: "NaN", says: "`depth_mm` is not a finite number",
    expected: "a finite number", way_out: "write digits" })]
#[case::a_word_for_refusal("9,0,2026-05-20,8 kg,CL,5,40,stone\n", Told {
    place: ("E307", 2, 29), read: "stone", says: "`note` is `stone`",
    expected: "one of refusal", way_out: "leave it empty" })]
#[case::blows_that_went_nowhere("9,0,2026-05-20,8 kg,CL,5,0,\n", Told {
    place: ("E556", 2, 26), read: "0", says: "5 blows and depth 0",
    expected: "the depth below the surface", way_out: "refusal" })]
#[case::refusal_at_the_surface("9,0,2026-05-20,8 kg,CL,20,0,refusal\n", Told {
    place: ("E555", 2, 1), read: "9,0,2026-05-20,8 kg,CL,20,0,refusal",
    says: "has no reading below the surface: it tells no strength",
    expected: "a row or more with blows", way_out: "sound again beside it" })]
#[case::the_surface_and_no_more("9,0,2026-05-20,8 kg,CL,0,0,\n", Told {
    place: ("E555", 2, 1), read: "9,0,2026-05-20,8 kg,CL,0,0,", says: "station 9 m, offset 0 m",
    expected: "the depth that they reached", way_out: "add its readings" })]
fn a_row_that_cannot_be(#[case] rows: &str, #[case] told: Told) {
    holds(&only(&format!("{HEADER}{rows}")), &told);
}

fn holds(found: &Diagnostic, told: &Told) {
    assert_eq!((found.code, found.line, found.column), told.place, "{found:#?}");
    assert_eq!(&*found.file, "t.csv");
    assert_eq!(found.severity, Severity::Error);
    assert_eq!(found.read, told.read);
    assert!(found.message.contains(told.says), "{}", found.message);
    assert!(found.expected.contains(told.expected), "{}", found.expected);
    assert!(!found.hint.is_empty() && found.hint.contains(told.way_out), "{}", found.hint);
}

#[rstest]
#[case::depth_goes_back("9,0,2026-05-20,8 kg,CL,5,30,\n", Told {
    place: ("E511", 3, 26), read: "30", says: "depth 30 mm on line 3 follows depth 40 mm on line 2",
    expected: "depths that rise", way_out: "in the order of depth" })]
#[case::depth_stays("9,0,2026-05-20,8 kg,CL,5,40,\n", Told {
    place: ("E511", 3, 26), read: "40", says: "depth 40 mm on line 3 follows depth 40 mm",
    expected: "depths that rise", way_out: "check the numbers" })]
#[case::sank_by_itself("9,0,2026-05-20,8 kg,CL,0,90,\n", Told {
    place: ("E512", 3, 24), read: "0", says: "went to 90 mm without a blow",
    expected: "one blow or more", way_out: "if the cone sank by itself" })]
#[case::another_hammer("9,0,2026-05-20,4.6 kg,CL,5,90,\n", Told {
    place: ("E514", 3, 16), read: "4.6 kg", says: "`hammer` changes inside one sounding",
    expected: "`8 kg`, as in the row above", way_out: "the same `hammer`" })]
#[case::another_soil("9,0,2026-05-20,8 kg,CH,5,90,\n", Told {
    place: ("E514", 3, 21), read: "CH", says: "`soil` changes inside one sounding",
    expected: "`CL`", way_out: "the same `soil`" })]
fn a_second_row_that_cannot_be(#[case] rows: &str, #[case] told: Told) {
    holds(&only(&format!("{HEADER}{FIRST}{rows}")), &told);
}

#[test]
fn nothing_follows_refusal() {
    let text = format!("{HEADER}9,0,2026-05-20,8 kg,CL,5,40,refusal\n{FIRST}");
    holds(
        &only(&text),
        &Told {
            place: ("E515", 3, 1),
            read: "9,0,2026-05-20,8 kg,CL,5,40,",
            says: "goes on after the cone met refusal",
            expected: "in the last row of the sounding only",
            way_out: "move the note to the last row",
        },
    );
}

#[test]
fn refusal_at_the_bottom_is_no_mistake() {
    let text = format!("{HEADER}{FIRST}9,0,2026-05-20,8 kg,CL,20,40,refusal\n");
    let reading = read(&text);
    assert!(reading.diagnostics.is_empty(), "{:#?}", reading.diagnostics);
    let strip = reading.value.expect("nothing is wrong");
    assert!(strip.soundings[0].refusal && strip.soundings[0].readings.len() == 1);
}

#[rstest]
#[case::two_units("station_m,offset_m,date,hammer,soil,blows,depth_mm,depth_in\n", "E505", 1, 52)]
#[case::no_unit("station_m,offset_m,date,hammer,soil,blows,depth\n", "E502", 1, 43)]
#[case::a_unit_of_something_else(
    "station_m,offset_m,date,hammer,soil,blows,depth_kg\n",
    "E502",
    1,
    43
)]
#[case::no_hammer("station_m,offset_m,date,soil,blows,depth_mm\n", "E504", 1, 1)]
#[case::no_names("9,0,5,40\n", "E501", 1, 1)]
#[case::blows_to_a_depth_by_another_name(
    "station_m,offset_m,date,hammer,soil,blow,depth_mm\n",
    "E503",
    1,
    37
)]
fn columns_that_cannot_be(
    #[case] header: &str,
    #[case] code: &str,
    #[case] line: u32,
    #[case] column: u32,
) {
    let found = only(&format!("{header}9,0,2026-05-20,8 kg,CL,5,40\n"));
    assert_eq!((found.code, found.line, found.column), (code, line, column), "{found:#?}");
    assert!(!found.message.is_empty() && !found.expected.is_empty() && !found.hint.is_empty());
}

#[test]
fn an_empty_file_and_one_without_rows_are_told() {
    let empty = only("");
    assert_eq!((empty.code, empty.severity), ("E104", Severity::Error));
    assert!(empty.expected.contains("station_m,offset_m,date,hammer,soil,blows,depth_mm"));
    let bare = only(HEADER);
    assert_eq!((bare.code, bare.line, bare.severity), ("E516", 1, Severity::Warning));
    assert!(bare.message.contains("it counts as no soundings"), "{}", bare.message);
    assert!(bare.hint.contains("unproven"), "{}", bare.hint);
}

#[test]
fn every_mistake_of_a_file_is_told_at_once() {
    let rows = "9,0,2026-05-20,8 kg,CL,-5,10,\n9,0,2026-05-20,10 kg,CL,5,20,\n\
                20,0,2026-05-20,8 kg,CL,5,x,\n30,0,2026-05-20,8 kg,CL,0,0,\n";
    let reading = read(&format!("{HEADER}{rows}"));
    let told: Vec<(&str, u32)> =
        reading.diagnostics.iter().map(|one| (one.code, one.line)).collect();
    assert_eq!(told, [("E306", 2), ("E307", 3), ("E508", 4)]);
}

/// Inches in a column of millimetres would make ground look 25 times as strong;
/// it is then known to a few centimetres only, so that nothing is carried by it.
#[test]
fn inches_in_a_column_of_millimetres_reach_nowhere() {
    let rows: String = (1..=30).map(|row| format!("9,0,2026-05-20,8 kg,CL,5,{row},\n")).collect();
    let strip = read(&format!("{HEADER}{rows}")).value.expect("it may be so");
    let deepest = strip.soundings[0].readings.last().expect("a reading").depth;
    assert!(hardpan_quantity::Quantity::si(deepest) < 0.1, "S20 and G20 need it deeper");
    let tall: String =
        (1..=30).map(|row| format!("9,0,2026-05-20,8 kg,CL,5,{},\n", row * 25)).collect();
    let header = HEADER.replace("depth_mm", "depth_in");
    let found = read(&format!("{header}{tall}"));
    assert!(found.diagnostics.iter().any(|one| one.code == "E306"), "millimetres as inches");
}
