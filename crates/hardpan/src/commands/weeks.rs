//! `hardpan weeks`: the weeks of the year in which a strip carries a mass.

use super::{assess, reading};
use crate::arguments::Changes;
use crate::failure::Failure;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::carrying_weeks;
use hardpan_quantity::{Mass, Quantity, UnitSystem, parse};
use hardpan_report::{TextStyle, no_bearing_text, weeks_json, weeks_text};
use std::path::Path;

/// Exit code where inputs are missing.
const UNPROVEN: u8 = 3;

/// Find the weeks of a flight file.
pub(crate) fn run(
    path: &Path,
    change: &Changes,
    mass: Option<&str>,
    json: bool,
    system: UnitSystem,
) -> Result<u8, Failure> {
    let mass = mass.map(asked).transpose()?;
    let (flight, identifier) = assess::read(path, change)?;
    let progress = Progress::start("searching what the ground carries");
    let weeks = carrying_weeks(&flight, mass);
    drop(progress);
    let style = TextStyle { width: screen::width(), colour: screen::colour() };
    let weeks = match weeks {
        Ok(weeks) => weeks,
        Err(why) => {
            screen::note(&no_bearing_text(&why, style));
            return Ok(UNPROVEN);
        }
    };
    if json {
        screen::say(&weeks_json(&weeks, &reading::produced(&identifier)));
    } else {
        screen::say(&weeks_text(&weeks, system, style));
    }
    Ok(0)
}

fn asked(text: &str) -> Result<Mass, Failure> {
    let refused = |what: String| Failure::Argument { what: format!("--mass: {what}") };
    let mass: Mass = parse(text).map_err(|error| refused(error.to_string()))?;
    if mass.si() > 0.0 { Ok(mass) } else { Err(refused(format!("{text} is no mass above zero"))) }
}
