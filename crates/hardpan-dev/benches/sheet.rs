//! How long a sheet of 20 by 20 days takes with every limit and the best flap,
//! for the flight of the demo.
#![allow(missing_docs)]

use hardpan_assess::{FlapsTried, SheetAxes, mass_sheet};
use hardpan_files::{Disk, read_flight};
use hardpan_quantity::{celsius, knots};
use std::time::Instant;

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
        println!("{movement}: {} places, {found} with a mass, {seconds:.2} s", cells.count());
    }
}
