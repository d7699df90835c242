//! The whole analysis of a scanned strip beside decoding its cloud alone, in one
//! run, and the memory that it takes:
//!
//! ```text
//! cargo bench -p hardpan-dev --bench whole_cloud              # 2 million points
//! cargo bench -p hardpan-dev --bench whole_cloud -- 20        # 20 million
//! cargo bench -p hardpan-dev --bench whole_cloud -- 100 0.05  # in cells of 0.05 m by 1 m
//! ```
//!
//! The cloud is made by a process of its own, so that the memory told is that
//! of the analysis. What has been measured stands in `docs/strip.md`.

use hardpan_assess::dossier;
use hardpan_files::{Disk, read_strip};
use hardpan_quantity::metres;
use hardpan_survey::made::{Compression, MadeStrip};
use std::error::Error;
use std::fs::File;
use std::io::{BufReader, BufWriter};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

const STRIP: &str = "kind = \"strip\"\nname = \"Made\"\nelevation = \"240 m\"\n\
    length = \"2000 m\"\nwidth = \"45 m\"\nbearing = \"37 deg\"\nsurface = \"gravel\"\n\
    survey = \"made.laz\"\n[survey_info]\ndate = 2026-06-03\ncell_length = \"CELL m\"\n\
    [low_end]\ndesignator = \"04\"\neasting = \"500000 m\"\nnorthing = \"4100000 m\"\n\
    [high_end]\ndesignator = \"22\"\neasting = \"501200 m\"\nnorthing = \"4101600 m\"\n";

/// Points decoded at once, as by the reading of a survey.
const BATCH: u64 = 50_000;
/// Times that each is done; the quickest counts.
const ROUNDS: usize = 2;

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    if let Some(("make", rest)) = words.split_first().map(|(first, rest)| (first.as_str(), rest)) {
        let (path, millions) = (rest.first().ok_or("where?")?, rest.get(1).ok_or("how many?")?);
        return make(Path::new(path), millions.parse()?);
    }
    let mut numbers = words.iter().filter_map(|word| word.parse::<f64>().ok());
    let (millions, cell) = (numbers.next().unwrap_or(2.0), numbers.next().unwrap_or(0.5));
    let folder = tempfile::tempdir()?;
    let strip = STRIP.replace("CELL", &cell.to_string());
    std::fs::write(folder.path().join("strip.toml"), strip)?;
    let cloud = folder.path().join("made.laz");
    let mut child = Command::new(std::env::current_exe()?);
    let made = child.arg("make").arg(&cloud).arg(millions.to_string()).status()?;
    if !made.success() {
        return Err("no cloud was made".into());
    }
    compare(&folder.path().join("strip.toml"), &cloud)
}

fn make(path: &Path, millions: f64) -> Result<(), Box<dyn Error>> {
    let usual = MadeStrip::default();
    let density = 1e6 * millions / (2000.0 * 45.0);
    let strip = MadeStrip { density, length: metres(2000.0), width: metres(45.0), ..usual };
    Ok(strip.write(BufWriter::new(File::create(path)?), Compression::Laz)?)
}

fn compare(strip: &Path, cloud: &Path) -> Result<(), Box<dyn Error>> {
    let before = peak_megabytes();
    let (mut read, mut judged, mut decoded) = (Vec::new(), Vec::new(), Vec::new());
    let (mut points, mut peak) = (0, None);
    for _ in 0..ROUNDS {
        let begun = Instant::now();
        let reading = read_strip(&Disk::default(), &strip.to_string_lossy());
        read.push(begun.elapsed());
        let whole = reading.value.ok_or_else(|| format!("{:?}", reading.diagnostics))?;
        let begun = Instant::now();
        let told = dossier(&whole, Some(metres(5.2)));
        judged.push(begun.elapsed());
        println!("{} findings, the worst {:?}", told.findings.len(), told.verdict);
        peak = peak.or_else(peak_megabytes);
        let begun = Instant::now();
        points = decode(cloud)?;
        decoded.push(begun.elapsed());
    }
    let least = |times: &[Duration]| times.iter().min().map_or(f64::NAN, Duration::as_secs_f64);
    let (read, judged, decoded) = (least(&read), least(&judged), least(&decoded));
    println!("{points} points");
    println!("baseline, bare decoding: {decoded:.2} s");
    println!("to survey lines: {read:.2} s, {:.2} of the baseline", read / decoded);
    println!("every measure and rule of the strip: {judged:.2} s");
    let whole = read + judged;
    println!("whole analysis: {whole:.2} s, {:.2} of the baseline", whole / decoded);
    if let (Some(before), Some(peak)) = (before, peak) {
        println!("peak memory: {peak:.0} MB, {before:.0} MB of it before reading");
    }
    Ok(())
}

fn decode(path: &Path) -> Result<u64, Box<dyn Error>> {
    let input = BufReader::with_capacity(1 << 18, File::open(path)?);
    let mut reader = las::Reader::new(input)?;
    let mut points = las::PointDataBuilder::new().for_header(reader.header()).build();
    let mut count = 0;
    loop {
        match reader.fill_points(BATCH, &mut points)? {
            0 => return Ok(count),
            decoded => count += decoded,
        }
    }
}

/// The greatest memory that the process has held, where the system tells.
fn peak_megabytes() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kilobytes: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes / 1024.0)
}
