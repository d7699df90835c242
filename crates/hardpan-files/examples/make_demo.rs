//! Makes the surveys, soundings and charts of the demo and of the examples from the
//! numbers below, always the same bits. All of it is invented.
//!
//!     cargo run -p hardpan-files --example make_demo -- .
//!
//! The argument is the top folder of the repository.

use std::f64::consts::PI;
use std::fmt::Write as _;
use std::path::Path;

/// A strip of gravel: one long bump, one dip in a wheel lane, one soft patch.
const GRAVEL: Ground = Ground {
    seed: 20_260_618,
    length: 1980.0,
    step: 2.5,
    offsets: &[-15.0, -2.6, 0.0, 2.6, 15.0],
    elevation: 284.0,
    mean_slope: 0.0018,
    swell: 1.6,
    crown: 0.018,
    texture: 0.0015,
    waves: 0.0015,
    bumps: &[
        Bump { at: 910.0, over: 30.0, height: 0.055, offset: None },
        Bump { at: 1380.0, over: 8.0, height: -0.035, offset: Some(2.6) },
    ],
    date: "2026-05-20",
    soil: "other",
    surfacing: (4.0, 6.0),
    thickness: (0.180, 0.220),
    subgrade: (12.0, 17.3),
    soft: Some(Soft { from: 600.0, to: 690.0, thickness: 0.160, subgrade: (19.0, 21.0) }),
    spacing: (62.0, 88.0),
    lanes: &[-2.6, 2.6, 0.0],
    depth: 0.850,
};

/// A short strip of turf on loam.
const GRASS: Ground = Ground {
    seed: 11,
    length: 1100.0,
    step: 5.0,
    offsets: &[-2.0, 0.0, 2.0],
    elevation: 61.0,
    mean_slope: -0.0025,
    swell: 0.7,
    crown: 0.012,
    texture: 0.003,
    waves: 0.003,
    bumps: &[Bump { at: 430.0, over: 40.0, height: 0.045, offset: None }],
    date: "2026-04-14",
    soil: "other",
    surfacing: (11.0, 14.0),
    thickness: (0.120, 0.150),
    subgrade: (14.0, 19.0),
    soft: None,
    spacing: (70.0, 90.0),
    lanes: &[-2.0, 2.0],
    depth: 0.700,
};

/// A long strip of compacted dirt.
const DIRT: Ground = Ground {
    seed: 303,
    length: 1900.0,
    step: 2.5,
    offsets: &[-12.0, -2.05, 0.0, 2.05, 12.0],
    elevation: 410.0,
    mean_slope: 0.001,
    swell: 0.6,
    crown: 0.02,
    texture: 0.002,
    waves: 0.002,
    bumps: &[
        Bump { at: 700.0, over: 40.0, height: 0.03, offset: None },
        Bump { at: 1210.0, over: 12.0, height: -0.03, offset: Some(-2.05) },
    ],
    date: "2026-07-15",
    soil: "other",
    surfacing: (5.0, 7.0),
    thickness: (0.250, 0.300),
    subgrade: (9.0, 12.0),
    soft: None,
    spacing: (60.0, 75.0),
    lanes: &[-2.05, 2.05, 0.0],
    depth: 0.800,
};

/// An approved chart of a distance for one flap setting, invented: how far at
/// 40 t, sea level, 15 degrees and no wind, and what changes it.
struct Manual {
    file: &'static str,
    distance: f64,
    /// Exponent of mass.
    mass: f64,
    /// Shares for 1000 ft, one degree, one knot ahead and one from behind.
    shares: [f64; 4],
}

const TAKE_OFF_SHARES: [f64; 4] = [0.06, 0.006, 0.008, 0.03];
const MANUALS: [Manual; 5] = [
    Manual { file: "take_off_15", distance: 1760.0, mass: 2.0, shares: TAKE_OFF_SHARES },
    Manual { file: "take_off_25", distance: 1670.0, mass: 2.0, shares: TAKE_OFF_SHARES },
    Manual { file: "stop_15", distance: 1610.0, mass: 1.5, shares: TAKE_OFF_SHARES },
    Manual { file: "stop_25", distance: 1540.0, mass: 1.5, shares: TAKE_OFF_SHARES },
    Manual { file: "landing_40", distance: 1150.0, mass: 1.0, shares: [0.025, 0.003, 0.006, 0.02] },
];

/// Rows of a chart over its whole grid, to whole metres.
fn chart(manual: &Manual) -> String {
    let mut out =
        String::from("mass_t,pressure_altitude_ft,temperature_c,headwind_kt,distance_m\n");
    let [altitude_share, temperature_share, head, tail] = manual.shares;
    for mass in [30.0, 34.0, 38.0, 42.0, 46.0, 52.0_f64] {
        for altitude in [-1000.0, 2000.0, 5000.0] {
            for temperature in [-40.0, 15.0, 50.0] {
                for wind in [-15.0, 0.0, 30.0] {
                    let wind_share = if wind < 0.0 { -tail * wind } else { -head * wind };
                    let distance = manual.distance
                        * (mass / 40.0).powf(manual.mass)
                        * (1.0 + altitude_share * altitude / 1000.0)
                        * (1.0 + temperature_share * (temperature - 15.0))
                        * (1.0 + wind_share);
                    let distance = distance.round();
                    let _ = writeln!(out, "{mass},{altitude},{temperature},{wind},{distance}");
                }
            }
        }
    }
    out
}

/// What a strip is made from. Lengths in metres, penetration in mm per blow.
struct Ground {
    seed: u64,
    length: f64,
    step: f64,
    offsets: &'static [f64],
    elevation: f64,
    mean_slope: f64,
    /// Height of one long swell over the whole strip.
    swell: f64,
    crown: f64,
    /// Standard deviation of the texture from point to point.
    texture: f64,
    /// Standard deviation of the unevenness that fades over ten metres.
    waves: f64,
    bumps: &'static [Bump],
    date: &'static str,
    soil: &'static str,
    surfacing: (f64, f64),
    thickness: (f64, f64),
    subgrade: (f64, f64),
    soft: Option<Soft>,
    spacing: (f64, f64),
    lanes: &'static [f64],
    depth: f64,
}

/// A rounded bump, or a dip where the height is negative.
struct Bump {
    at: f64,
    over: f64,
    height: f64,
    /// The one line it lies on; all lines when none.
    offset: Option<f64>,
}

/// A stretch of weaker ground.
struct Soft {
    from: f64,
    to: f64,
    thickness: f64,
    subgrade: (f64, f64),
}

/// A stream of even numbers, SplitMix64.
struct Dice(u64);

impl Dice {
    fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, (low, high): (f64, f64)) -> f64 {
        low + (high - low) * self.even()
    }

    /// Nearly normal, by the sum of twelve even numbers.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even()).sum::<f64>() - 6.0
    }
}

fn survey(ground: &Ground) -> String {
    let mut out = String::from("station_m,offset_m,elevation_m\n");
    for (index, offset) in ground.offsets.iter().enumerate() {
        let mut dice = Dice(ground.seed + index as u64 * 1000);
        let fade = (-ground.step / 10.0).exp();
        let mut wave = 0.0;
        let count = (ground.length / ground.step).round() as u32;
        for point in 0..=count {
            let station = f64::from(point) * ground.step;
            wave = wave * fade + ground.waves * (1.0 - fade * fade).sqrt() * dice.normal();
            let level = shape(ground, station, *offset) + wave + ground.texture * dice.normal();
            let _ = writeln!(out, "{station},{offset},{level:.3}");
        }
    }
    out
}

fn shape(ground: &Ground, station: f64, offset: f64) -> f64 {
    let swell = ground.swell * (1.0 - (2.0 * PI * station / ground.length).cos()) / 2.0;
    let bumps: f64 = ground
        .bumps
        .iter()
        .filter(|bump| bump.offset.is_none_or(|only| only == offset))
        .filter(|bump| (station - bump.at).abs() < bump.over / 2.0)
        .map(|bump| bump.height * (1.0 + (2.0 * PI * (station - bump.at) / bump.over).cos()) / 2.0)
        .sum();
    ground.elevation + ground.mean_slope * station + swell - ground.crown * offset.abs() + bumps
}

fn soundings(ground: &Ground) -> String {
    let mut dice = Dice(ground.seed ^ 0xd1ce);
    let mut out = String::from("station_m,offset_m,date,hammer,soil,blows,depth_mm,note\n");
    let mut station: f64 = 20.0;
    let mut turn = 0;
    while station < ground.length - 5.0 {
        let lane = ground.lanes[turn % ground.lanes.len()];
        sounding(ground, &mut dice, station.round(), lane, &mut out);
        let soft =
            ground.soft.as_ref().is_some_and(|soft| (soft.from - 70.0..soft.to).contains(&station));
        station += if soft { 25.0 } else { dice.between(ground.spacing) };
        turn += 1;
    }
    out
}

fn sounding(ground: &Ground, dice: &mut Dice, station: f64, offset: f64, out: &mut String) {
    let soft = ground.soft.as_ref().filter(|soft| (soft.from..=soft.to).contains(&station));
    let thickness = soft.map_or_else(|| dice.between(ground.thickness), |soft| soft.thickness);
    let upper = dice.between(ground.surfacing);
    let lower = dice.between(soft.map_or(ground.subgrade, |soft| soft.subgrade));
    let head = format!("{station},{offset},{},8 kg,{}", ground.date, ground.soil);
    let _ = writeln!(out, "{head},0,0,");
    let (mut depth, mut last) = (0.0_f64, 0.0_f64);
    while depth < ground.depth {
        let rate =
            if depth < thickness { upper } else { lower } * (1.0 + 0.06 * dice.normal()).max(0.6);
        let blows = if depth < thickness { 5.0 } else { (50.0 / rate).round().max(1.0) };
        depth += blows * rate / 1000.0;
        let shown = (depth * 1000.0).round();
        if shown > last {
            let _ = writeln!(out, "{head},{blows},{shown},");
            last = shown;
        }
    }
}

fn write(top: &Path, folder: &str, ground: &Ground) -> std::io::Result<()> {
    let folder = top.join(folder);
    std::fs::write(folder.join("survey.csv"), survey(ground))?;
    std::fs::write(folder.join("soundings.csv"), soundings(ground))
}

fn main() -> std::io::Result<()> {
    let top = std::env::args().nth(1).unwrap_or_else(|| ".".to_owned());
    let top = Path::new(&top);
    write(top, "demo", &GRAVEL)?;
    for manual in &MANUALS {
        std::fs::write(top.join(format!("demo/{}.csv", manual.file)), chart(manual))?;
    }
    write(top, "examples/02-short-grass-strip", &GRASS)?;
    write(top, "examples/04-dirt-strip-turboprop", &DIRT)
}
