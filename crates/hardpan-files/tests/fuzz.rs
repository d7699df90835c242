//! A short run of the fuzz targets on the stable toolchain: seeded random
//! bytes, and the demo files broken in many ways. The same targets stand in
//! `fuzz/` for long runs.

use hardpan_files::fuzz_entry::{
    fuzz_aeroplane, fuzz_any, fuzz_changes, fuzz_chart, fuzz_cloud, fuzz_day, fuzz_flight,
    fuzz_grid, fuzz_metar, fuzz_places, fuzz_positions, fuzz_ruts, fuzz_soundings,
    fuzz_strength_tests, fuzz_strip, fuzz_survey, fuzz_temperatures,
};
use rstest::rstest;
use std::time::{Duration, Instant};

/// Inputs for each target and kind of input; raise it for a longer run.
const ROUNDS: u64 = 150;
/// One input never takes this long, not even on a busy machine.
const ONE: Duration = Duration::from_secs(5);

/// A stream of even numbers, SplitMix64.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.roll() % (end.max(1) as u64)).expect("below a usize")
    }
}

const WORDS: [&str; 30] = [
    "99999999999999999999999999999",
    "-1",
    "1e309",
    "nan",
    "-inf",
    "0x7fffffffffffffff",
    "\u{feff}",
    "ö€𝄞",
    "\u{202e}",
    "\0",
    "\r",
    "\r\n",
    "\n\n",
    "\"",
    "'''",
    "\"\"\"",
    "[[",
    "]]",
    "{",
    "}",
    ",",
    ";",
    "=",
    "#",
    "\\u0000",
    "9999-99-99",
    "kind",
    " = \"\"",
    "M00/M00",
    "VRB",
];

fn broken(text: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = text.to_vec();
    for _ in 0..=dice.below(4) {
        let at = dice.below(bytes.len() + 1).min(bytes.len());
        let span = at..(at + dice.below(40)).min(bytes.len());
        match dice.below(8) {
            0 => drop(bytes.drain(span)),
            1 => bytes.truncate(at),
            2 => drop(bytes.splice(at..at, WORDS[dice.below(WORDS.len())].bytes())),
            3 => drop(bytes.splice(span, WORDS[dice.below(WORDS.len())].bytes())),
            4 => {
                let other = dice.below(bytes.len());
                if at < bytes.len() {
                    bytes.swap(at, other);
                }
            }
            5 => {
                let copy = bytes[span.clone()].repeat(1 + dice.below(30));
                drop(bytes.splice(at..at, copy));
            }
            6 => {
                if let Some(byte) = bytes.get_mut(at) {
                    *byte ^= 1 << dice.below(8);
                }
            }
            _ => bytes.rotate_left(at),
        }
    }
    bytes
}

fn noise(dice: &mut Dice) -> Vec<u8> {
    let length = dice.below(600);
    let plain = dice.below(2) == 0;
    let byte = |dice: &mut Dice| {
        let byte = (dice.roll() & 0xff) as u8;
        if plain { b' ' + byte % 95 } else { byte }
    };
    (0..length).map(|_| byte(dice)).collect()
}

fn run(target: fn(&[u8]), seed: u64, text: &[u8]) {
    let mut dice = Dice(seed);
    for round in 0..ROUNDS {
        for input in [broken(text, &mut dice), noise(&mut dice)] {
            let begun = Instant::now();
            target(&input);
            let taken = begun.elapsed();
            assert!(taken < ONE, "round {round} of seed {seed} took {taken:?}");
        }
    }
}

const METAR: &str = "METAR COR XXHP 251200Z AUTO 27025G40KT 350V060 0800NE R07/P1500U +TSRA \
                     VV/// M02/M05 Q0998 BECMG 30045KT RMK T01391106";

#[rstest]
#[case::aeroplane(fuzz_aeroplane, 1, include_str!("../../../demo/aeroplane.toml"))]
#[case::strip(fuzz_strip, 2, include_str!("../../../demo/strip.toml"))]
#[case::loose_stones(fuzz_strip, 10, include_str!("../../../examples/04-dirt-strip-turboprop/strip.toml"))]
#[case::day(fuzz_day, 3, include_str!("../../../demo/day.toml"))]
#[case::flight(fuzz_flight, 4, include_str!("../../../demo/flight.toml"))]
#[case::soundings(fuzz_soundings, 5, include_str!("../../../demo/soundings.csv"))]
#[case::strength_tests(fuzz_strength_tests, 9, include_str!("../../../demo/strength_tests.csv"))]
#[case::chart(fuzz_chart, 10, include_str!("../../../demo/stop_25.csv"))]
#[case::temperatures(fuzz_temperatures, 12, "date,mean_c\n2026-01-01,-4.5\n2026-01-02,-3\n")]
#[case::ruts(fuzz_ruts, 12, include_str!("../../../demo/ruts.csv"))]
#[case::metar(fuzz_metar, 6, METAR)]
#[case::changes(fuzz_changes, 11, "landing.mass=39.6 t")]
#[case::any(fuzz_any, 7, include_str!("../../../demo/aeroplane.toml"))]
fn no_input_panics_or_hangs(#[case] target: fn(&[u8]), #[case] seed: u64, #[case] text: &str) {
    let text: String = text.lines().take(300).flat_map(|line| [line, "\n"]).collect();
    run(target, seed, text.as_bytes());
}

#[test]
fn no_survey_panics_or_hangs() {
    let survey = include_str!("../../../demo/survey.csv");
    let text: String = survey.lines().step_by(20).flat_map(|line| [line, "\n"]).collect();
    run(fuzz_survey, 8, text.as_bytes());
}

#[test]
fn no_positions_panic_or_hang() {
    let mut text = String::from("latitude_deg,longitude_deg,height_m\n");
    for row in 0..60 {
        let (lat, lon) = (52.1 + 1e-4 * f64::from(row), -1.3 + 4.5e-4 * f64::from(row));
        text.push_str(&format!("{lat:.9},{lon:.9},100.{row}\n"));
    }
    run(fuzz_positions, 10, text.as_bytes());
}

#[test]
fn no_places_panic_or_hang() {
    run(fuzz_places, 11, include_bytes!("data/places.geojson"));
}

/// Small grids of an independent writer, and one as text.
#[rstest]
#[case("metres-float.tif", 31)]
#[case("feet-tiled.tif", 32)]
#[case("middle.tif", 33)]
fn no_grid_panics_or_hangs(#[case] file: &str, #[case] seed: u64) {
    let path = format!("{}/../hardpan-survey/tests/data/grids/{file}", env!("CARGO_MANIFEST_DIR"));
    run(fuzz_grid, seed, &std::fs::read(path).expect("the file stands in the tree"));
    let mut text = String::from("ncols 9\nnrows 8\nxllcorner 499990\nyllcorner 4099990\n");
    text.push_str("cellsize 20\nnodata_value -9999\n");
    (0..72).for_each(|level| text.push_str(&format!("24{}.{level} ", level % 3)));
    run(fuzz_grid, seed + 10, text.as_bytes());
}

/// Small files of an independent reader.
#[rstest]
#[case("simple.las", 21)]
#[case("simple.laz", 22)]
#[case("simple1_3.las", 23)]
#[case("test1_4.las", 24)]
#[case("simple1_4.las", 25)]
fn no_cloud_panics_or_hangs(#[case] file: &str, #[case] seed: u64) {
    let path = format!("{}/../hardpan-survey/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    run(fuzz_cloud, seed, &std::fs::read(path).expect("the file stands in the tree"));
}
