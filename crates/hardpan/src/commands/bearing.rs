//! `hardpan bearing`: what the ground carries, mass against tyre pressure.

use super::{assess, reading};
use crate::arguments::Changes;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::bearing_curves;
use hardpan_quantity::UnitSystem;
use hardpan_report::{TextStyle, bearing_figure, bearing_json, bearing_text, no_bearing_text};
use std::path::{Path, PathBuf};

/// Exit code where inputs are missing.
const UNPROVEN: u8 = 3;
/// Curves at most, as many as lines can be told apart.
const MOST: usize = 6;
/// Most passes of a curve.
const MOST_PASSES: f64 = 1e6;

/// What to make of the curves.
pub(crate) struct Wanted {
    pub(crate) change: Changes,
    pub(crate) passes: Vec<f64>,
    pub(crate) figure: Option<PathBuf>,
    pub(crate) json: bool,
    pub(crate) system: UnitSystem,
}

/// Compute the curves of a flight file.
pub(crate) fn run(path: &Path, wanted: &Wanted) -> Result<u8, Failure> {
    let passes = passes(&wanted.passes)?;
    let (flight, identifier) = assess::read(path, &wanted.change)?;
    let progress = Progress::start("searching what the ground carries");
    let curves = bearing_curves(&flight, &passes);
    drop(progress);
    let style = TextStyle { width: screen::width(), colour: screen::colour() };
    let curves = match curves {
        Ok(curves) => curves,
        Err(why) => {
            screen::note(&no_bearing_text(&why, style));
            return Ok(UNPROVEN);
        }
    };
    if wanted.json {
        screen::say(&bearing_json(&curves, &reading::produced(&identifier)));
    } else {
        screen::say(&bearing_text(&curves, wanted.system, style));
    }
    if let Some(path) = &wanted.figure {
        write_whole(path, bearing_figure(&curves, wanted.system).as_bytes())?;
        screen::note(&format!("figure written: {}\n", path.display()));
    }
    Ok(0)
}

/// Rising numbers of passes.
fn passes(given: &[f64]) -> Result<Vec<f64>, Failure> {
    let refused = |what: String| Err(Failure::Argument { what: format!("--passes: {what}") });
    if given.is_empty() || given.len() > MOST {
        return refused(format!("{} numbers, 1 to {MOST} are drawn", given.len()));
    }
    if let Some(out) = given.iter().find(|one| !(1.0..=MOST_PASSES).contains(*one)) {
        return refused(format!("{out} is outside 1 to {MOST_PASSES}"));
    }
    let mut passes = given.to_vec();
    passes.sort_by(f64::total_cmp);
    passes.dedup();
    Ok(passes)
}
