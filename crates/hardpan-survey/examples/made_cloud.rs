//! Made clouds for demonstration:
//!
//! ```text
//! cargo run --release -p hardpan-survey --example made_cloud -- write OUT.laz POINTS_PER_M2 [LENGTH_M] [SEED]
//! cargo run -p hardpan-survey --example made_cloud -- surveys examples/05-two-surveys-of-one-strip
//! ```
//!
//! `surveys` makes the surveys of the example, always the same bits.

use hardpan_quantity::{Quantity, degrees, metres};
use hardpan_survey::made::{Compression, MadeStrip};
use hardpan_survey::{Geographic, GlobeAxis};
use std::error::Error;
use std::fmt::Write as _;
use std::fs::File;
use std::io::BufWriter;
use std::path::Path;

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let number = |at: usize, usual: f64| -> Result<f64, Box<dyn Error>> {
        words.get(at).map_or(Ok(usual), |word| Ok(word.parse()?))
    };
    match words.first().map(String::as_str) {
        Some("write") => {
            let path = words.get(1).ok_or("where to write?")?;
            let strip = MadeStrip {
                density: number(2, 50.0)?,
                length: metres(number(3, 2000.0)?),
                seed: number(4, 1.0)? as u64,
                ..MadeStrip::default()
            };
            let laz = path.ends_with(".laz");
            let compression = if laz { Compression::Laz } else { Compression::Las };
            strip.write(BufWriter::new(File::create(path)?), compression)?;
            println!("{} points written to {path}", strip.points());
        }
        Some("surveys") => surveys(Path::new(words.get(1).ok_or("into which folder?")?))?,
        _ => return Err("write or surveys?".into()),
    }
    Ok(())
}

/// One strip of 500 m, scanned with a hole in it, and walked in three lines.
fn surveys(folder: &Path) -> Result<(), Box<dyn Error>> {
    let strip = MadeStrip {
        length: metres(500.0),
        width: metres(16.0),
        density: 4.5,
        bumps: vec![(310.0, 24.0, 0.05)],
        holes: vec![(118.0, 131.0, -8.0, 3.0)],
        noise: metres(0.012),
        plants: 0.0,
        seed: 5,
        ..MadeStrip::default()
    };
    let cloud = File::create(folder.join("scan.laz"))?;
    strip.write(BufWriter::new(cloud), Compression::Laz)?;
    let end = |latitude, longitude| Geographic {
        latitude: degrees(latitude),
        longitude: degrees(longitude),
    };
    let (low, high) = (end(-30.0, -20.0), end(-29.996_391_7, -19.996_891));
    let axis = GlobeAxis::between(low, high, metres(240.0))?;
    let mut text = String::from("latitude_deg,longitude_deg,height_m\n");
    for (line, offset) in [-4.0, 0.0, 4.0].into_iter().enumerate() {
        for step in 0..=250_u32 {
            let there = if line == 1 { 250 - step } else { step };
            // Even numbers from -1 to 1 without a pattern over a few steps.
            let even = |by: f64| (f64::from(there + 997 * line as u32) * by).fract() * 2.0 - 1.0;
            let station = metres(2.0 * f64::from(there));
            let place = axis.place(station, metres(offset + 0.15 * even(0.754_877)))?;
            let height = strip.ground(station, metres(offset)).si() + 0.025 * even(0.618_034);
            let (latitude, longitude) = (place.latitude.si(), place.longitude.si());
            let (latitude, longitude) = (latitude.to_degrees(), longitude.to_degrees());
            writeln!(text, "{latitude:.8},{longitude:.8},{height:.3}")?;
        }
    }
    std::fs::write(folder.join("walk.csv"), text)?;
    Ok(())
}
