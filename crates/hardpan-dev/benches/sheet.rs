//! How long a sheet of 20 by 20 days takes with every limit and the best flap, for
//! the flight of the demo: against 2 s on two cores, and against an assessment of
//! each place by itself in the same run. A number sets another side of the sheet:
//!
//! ```sh
//! cargo bench -p hardpan-dev --bench sheet -- 20
//! ```
#![allow(missing_docs)]

use hardpan_assess::{FlapsTried, SheetAxes, answer_alone, mass_sheet};
use hardpan_files::{Disk, read_flight};
use hardpan_quantity::{celsius, knots};
use std::hint::black_box;
use std::time::Instant;

/// That of the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// What a sheet of one movement is held to, s.
const HELD: f64 = 2.0;
/// Assessments from which the time of one is taken.
const ALONE: u32 = 5;

fn main() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/flight.toml");
    let flight = read_flight(&Disk::default(), path).value.expect("the demo reads");
    let side = std::env::args().find_map(|word| word.parse::<u32>().ok()).unwrap_or(20);
    let axes = SheetAxes {
        temperatures: (0..side).map(|n| celsius(-20.0 + 2.6 * f64::from(n))).collect(),
        headwinds: (0..side).map(|n| knots(-5.0 + 1.2 * f64::from(n))).collect(),
        flaps: FlapsTried::Best,
        ..SheetAxes::default()
    };
    let begin = Instant::now();
    for _ in 0..ALONE {
        black_box(answer_alone(black_box(&flight)));
    }
    let alone = begin.elapsed().as_secs_f64() / f64::from(ALONE);
    println!("one assessment without remedies: {alone:.3} s");
    for movement in ["take-off", "landing", "both"] {
        let mut planned = flight.clone();
        match movement {
            "take-off" => planned.landing = None,
            "landing" => planned.take_off = None,
            _ => {}
        }
        let begin = Instant::now();
        let sheet = mass_sheet(&planned, &axes, |_, _| ());
        let cells = sheet.panels.iter().flat_map(|panel| panel.rows.iter().flatten());
        let found = cells.clone().filter(|cell| cell.mass.is_some()).count();
        let seconds = begin.elapsed().as_secs_f64();
        let places = cells.count();
        let share = seconds / HELD;
        let faster = places as f64 * alone / seconds;
        println!(
            "{movement}: {places} places, {found} with a mass, {seconds:.2} s, {share:.2} of the \
             {HELD} s held to; {faster:.0} times as fast as an assessment of each place"
        );
    }
}
