//! Files that are too large, too deep, too long or no text at all: a clear
//! word, quickly, and never a crash.

use hardpan_files::{
    Disk, FileReadError, FileSource, Memory, Reading, Severity, read_aeroplane, read_any,
    read_strip, render,
};
use rstest::rstest;
use std::time::{Duration, Instant};

/// Generous for a busy machine and an unoptimised build; a hang is far beyond.
const SOON: Duration = Duration::from_secs(20);

fn codes<T>(reading: &Reading<T>) -> Vec<&'static str> {
    reading.diagnostics.iter().map(|one| one.code).collect()
}

fn shown<T>(reading: &Reading<T>) -> String {
    render(&reading.diagnostics, &reading.sources, false)
}

#[test]
fn a_file_of_100_mb_is_refused_before_it_is_read() {
    let folder = tempfile::tempdir().expect("a folder for a test");
    let path = folder.path().join("garbage.toml");
    let file = std::fs::File::create(&path).expect("a file for a test");
    file.set_len(100 * 1024 * 1024).expect("a sparse file");
    let path = path.to_string_lossy();
    let limit = Disk::default().limit;
    let size = 100 * 1024 * 1024;
    assert_eq!(Disk::default().read(&path), Err(FileReadError::TooLarge { size, limit }));
    let reading = read_aeroplane(&Disk::default(), &path);
    assert_eq!(codes(&reading), ["E102"]);
    assert!(shown(&reading).contains("100 MB, at most 64 MB are read"), "{}", shown(&reading));
}

#[test]
fn a_folder_is_no_file() {
    let folder = tempfile::tempdir().expect("a folder for a test");
    let path = folder.path().to_string_lossy().into_owned();
    assert_eq!(Disk::default().read(&path), Err(FileReadError::NotAFile));
    assert_eq!(codes(&read_aeroplane(&Disk::default(), &path)), ["E101"]);
    let missing = format!("{path}/none.toml");
    assert_eq!(Disk::default().read(&missing), Err(FileReadError::NotFound));
}

#[test]
fn toml_above_1_mb_is_refused() {
    let text = format!("kind = \"aeroplane\"\nname = \"{}\"\n", "x".repeat(2 * 1024 * 1024));
    let reading = read_aeroplane(&Memory::default().with("a.toml", text), "a.toml");
    assert_eq!(codes(&reading), ["E102"]);
}

#[rstest]
#[case::arrays("x = ", "[", "")]
#[case::open_arrays("", "[", "")]
#[case::tables("x = ", "{ a = ", "")]
#[case::dotted_keys("", "a.", "b = 1")]
#[case::headers("[", "a.", "b]")]
#[case::quoted_keys("[", "\"a\".", "b]")]
#[case::lines_of_arrays("x = ", "[\n", "")]
#[case::lines_of_tables("x = ", "{ a =\n", "")]
#[case::closed_headers("", "[a]", "")]
#[case::array_headers("", "[[a]]\n", "")]
#[case::dotted_lines("", "a.b.c.d.e.f = 1\n", "")]
#[case::quotes("x = ", "\"", "")]
#[case::equals("", "=", "")]
#[case::lines_of_equals("", "=\n", "")]
#[case::braces("x = ", "{}", "")]
fn deep_nesting_neither_overflows_nor_hangs(
    #[case] head: &str,
    #[case] one: &str,
    #[case] tail: &str,
) {
    let begun = Instant::now();
    let text = format!("{head}{}{tail}", one.repeat(100_000.min(900_000 / one.len())));
    let files = Memory::default().with("a.toml", text.as_bytes().to_vec());
    for reading in
        [read_any(&files, "a.toml").map(|_| ()), read_aeroplane(&files, "a.toml").map(|_| ())]
    {
        assert!(reading.value.is_none());
        assert!(reading.diagnostics.len() <= 102, "{}", reading.diagnostics.len());
        assert!(!shown(&reading).is_empty());
    }
    assert!(begun.elapsed() < SOON, "{:?}", begun.elapsed());
}

#[rstest]
#[case::toml("x.toml")]
#[case::table("x.csv")]
#[case::report("x.txt")]
fn five_megabytes_of_garbage_in_one_line(#[case] path: &str) {
    let begun = Instant::now();
    for garbage in ["x", "1,", "\u{fffd}\"", "[", "station_m,offset_m,elevation_m;", " 25009KT"] {
        let text = garbage.repeat(5 * 1024 * 1024 / garbage.len());
        let reading = read_any(&Memory::default().with(path, text), path);
        assert!(reading.value.is_none(), "{garbage}");
        assert!(shown(&reading).len() < 100_000, "{garbage}");
    }
    assert!(begun.elapsed() < SOON * 3, "{:?}", begun.elapsed());
}

#[test]
fn a_line_of_100_000_columns_is_refused_and_one_of_4_000_is_shown() {
    let text = |blanks: usize| {
        format!("kind = \"aeroplane\"\nwing = {{ {}area = 92 }}\n", " ".repeat(blanks))
    };
    let reading = read_aeroplane(&Memory::default().with("a.toml", text(100_000)), "a.toml");
    assert_eq!(codes(&reading), ["E106"]);
    assert!(shown(&reading).contains("a.toml:2:1"), "{}", shown(&reading));
    let reading = read_aeroplane(&Memory::default().with("a.toml", text(4_000)), "a.toml");
    assert_eq!(codes(&reading), ["E301"]);
    assert!(shown(&reading).contains("a.toml:2:4017"), "{}", shown(&reading));
}

#[rstest]
#[case::flaps("[[flap]]\nname = \"a\"\n")]
#[case::unknown_keys("[[flap]]\nname = \"a\"\nlift_maximun = 2\n")]
#[case::nameless("[[equipment]]\n")]
#[case::chart("[[gear.main.tyre.chart]]\nmass = \"4 t\"\npressure = \"90 psi\"\n")]
fn a_long_list_of_mistakes_takes_no_age(#[case] entry: &str) {
    let begun = Instant::now();
    let text = format!("kind = \"aeroplane\"\n{}", entry.repeat(900_000 / entry.len()));
    let reading = read_aeroplane(&Memory::default().with("a.toml", text), "a.toml");
    assert_eq!(reading.diagnostics.len(), 101);
    assert!(begun.elapsed() < SOON, "{:?}", begun.elapsed());
}

#[test]
fn text_of_a_file_does_not_steer_the_terminal() {
    let aeroplane = "kind = \"aeroplane\"\n[[flap]]\nname = \"4\\u001b[31m0\"\n";
    let flight = "kind = \"flight\"\naeroplane = \"a.toml\"\n[landing]\nflap = \"4\\u001b[32m0\"\n";
    let files = Memory::default().with("a.toml", aeroplane).with("f.toml", flight);
    let reading = read_any(&files, "f.toml");
    assert_eq!(codes(&reading), ["E404"]);
    assert!(!shown(&reading).contains('\u{1b}'), "{:?}", shown(&reading));
    let text = "kind = \"aeroplane\" # \u{9b}31m \u{202e}\nname = \u{9b}\u{202e}\n";
    let reading = read_any(&Memory::default().with("a.toml", text), "a.toml");
    let steers = ['\u{1b}', '\u{9b}', '\u{202e}'];
    assert!(!shown(&reading).contains(steers), "{:?}", shown(&reading));
}

#[test]
fn a_line_too_long_for_a_row_is_refused() {
    let text = format!("station_m,offset_m,elevation_m\n0,0,{}\n", "1".repeat(10_000));
    let reading = read_any(&Memory::default().with("s.csv", text), "s.csv");
    assert_eq!(codes(&reading), ["E106"]);
    assert_eq!(reading.diagnostics[0].line, 2);
}

#[test]
fn more_mistakes_than_can_be_read_are_counted() {
    let rows = "x,0,1\n".repeat(500_000);
    let text = format!("station_m,offset_m,elevation_m\n{rows}");
    let begun = Instant::now();
    let reading = read_any(&Memory::default().with("s.csv", text), "s.csv");
    assert_eq!(reading.diagnostics.len(), 101);
    let last = reading.diagnostics.last().expect("101 of them");
    assert_eq!((last.code, last.severity), ("E108", Severity::Error));
    assert!(last.message.starts_with("499900 more mistakes"), "{}", last.message);
    assert!(begun.elapsed() < SOON, "{:?}", begun.elapsed());
}

#[rstest]
#[case::latin_1(b"kind = \"aeroplane\"\nname = \"Caf\xe9\"\n", 2, 12)]
#[case::utf_16(b"\xff\xfek\0i\0n\0d\0", 1, 1)]
#[case::zeroes(b"kind = \xc0\x80", 1, 8)]
fn bytes_that_are_no_text(#[case] bytes: &[u8], #[case] line: u32, #[case] column: u32) {
    let reading = read_aeroplane(&Memory::default().with("a.toml", bytes), "a.toml");
    assert_eq!(codes(&reading), ["E103"]);
    let one = &reading.diagnostics[0];
    assert_eq!((one.line, one.column), (line, column));
    assert!(shown(&reading).contains("CSV UTF-8"));
}

#[test]
fn a_byte_order_mark_and_line_ends_of_other_systems_are_read() {
    let strip = "\u{feff}kind = \"strip\"\r\nlength = \"100 m\"\r\nsurvey = \"s.csv\"\r\n";
    let survey = "\u{feff}station_m,offset_m,elevation_m\r\n0,0,1\r\n\r\n5,0,x\r\n";
    let files = Memory::default().with("d/strip.toml", strip).with("d/s.csv", survey);
    let reading = read_strip(&files, "d/strip.toml");
    assert_eq!(codes(&reading), ["E508"], "{}", shown(&reading));
    let one = &reading.diagnostics[0];
    assert_eq!((&*one.file, one.line, one.column, &*one.read), ("d/s.csv", 4, 5, "x"));
}
