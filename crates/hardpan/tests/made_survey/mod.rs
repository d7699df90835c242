//! Surveys of a strip like that of the demo, made for the pages of decisions:
//! a point cloud, or positions walked in lines.

use hardpan_quantity::{Quantity, degrees, metres};
use hardpan_survey::made::{Compression, MadeStrip};
use hardpan_survey::{Geographic, GlobeAxis};
use std::fmt::Write as _;

/// Ends of the walked strip, somewhere in an ocean; 1980.0 m apart.
const LOW: (f64, f64) = (-30.0, -20.0);
const HIGH: (f64, f64) = (-29.993_308_7, -19.980_975);

/// Bytes of a file by its ending, as lines `what: value` say.
pub(crate) fn of(file: &str, said: &[String]) -> Vec<u8> {
    let mut strip = MadeStrip {
        length: metres(1980.0),
        width: metres(26.0),
        density: 6.0,
        gradient: 0.006,
        crossfall: 0.012,
        bumps: vec![(910.0, 30.0, 0.05)],
        noise: metres(0.003),
        plants: 0.0,
        ..MadeStrip::default()
    };
    for line in said {
        let (what, value) = line.split_once(':').expect("`what: value`");
        let numbers: Vec<f64> =
            value.split_whitespace().map(|word| word.parse().expect("a number")).collect();
        match (what.trim(), numbers.as_slice()) {
            ("hole", [from, to, left, right]) => strip.holes.push((*from, *to, *left, *right)),
            ("noise in metres", [noise]) => strip.noise = metres(*noise),
            other => panic!("no part of a made survey: {other:?}"),
        }
    }
    if file.ends_with(".csv") {
        return walked(&strip).into_bytes();
    }
    strip.bytes(Compression::Las).expect("memory takes all bytes")
}

/// A position each two metres along five lines.
fn walked(strip: &MadeStrip) -> String {
    let at = |(latitude, longitude): (f64, f64)| Geographic {
        latitude: degrees(latitude),
        longitude: degrees(longitude),
    };
    let axis = GlobeAxis::between(at(LOW), at(HIGH), metres(284.0)).expect("an axis");
    let mut text = String::from("latitude_deg,longitude_deg,height_m\n");
    for (line, offset) in [-15.0, -2.6, 0.0, 2.6, 15.0].into_iter().enumerate() {
        for step in 0..=990_u32 {
            let (station, offset) = (metres(2.0 * f64::from(step)), metres(offset));
            let place = axis.place(station, offset).expect("near the strip");
            // Even numbers from -1 to 1 without a pattern over a few steps.
            let even = (f64::from(step * 7 + 3 * line as u32) * 0.618_034).fract() * 2.0 - 1.0;
            let height = strip.ground(station, offset).si() + 1.7 * strip.noise.si() * even;
            let (latitude, longitude) = (place.latitude.si(), place.longitude.si());
            let (latitude, longitude) = (latitude.to_degrees(), longitude.to_degrees());
            writeln!(text, "{latitude:.9},{longitude:.9},{height:.4}").expect("memory");
        }
    }
    text
}
