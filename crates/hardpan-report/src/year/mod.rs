//! The year of a flight as people and programs read it: text, JSON, a table of
//! values and a sheet to print.

mod csv;
mod json;
mod opened;
mod pdf;
mod text;

pub use csv::year_csv;
pub use json::{YEAR_FORMAT, YEAR_VERSION, year_json, year_schema};
pub use opened::{hour_codes, hour_figure_text, hour_json, hour_text};
pub use pdf::year_pdf;
pub use text::year_text;

use crate::Produced;
use crate::measure::{at_most_text, quantity_text};
use crate::wrap::plain;
use hardpan_assess::{HourState, Largest, MonthMass, YearMonth, YearSheet, YearWeek};
use hardpan_quantity::{Amount, UnitSystem, tell};

/// Short names of the months.
const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// What the masses of a month are.
const MONTHS_LEGEND: &str = "Landing from, take-off from: the largest mass of the hour that allows \
                             least, by daylight; the others allow that or more. None: in some \
                             hours no mass holds; not known: in some it is not known. Then the \
                             mass is that of the other hours, and a day is looked at by itself. A \
                             dash: nothing is asked for.";

/// The year of a flight in one system of units.
#[derive(Debug, Clone, PartialEq)]
pub struct YearReport {
    units: UnitSystem,
    produced: Produced,
    sheet: YearSheet,
}

impl YearReport {
    /// The year in one system of units.
    #[must_use]
    pub fn new(sheet: &YearSheet, units: UnitSystem, produced: Produced) -> Self {
        let produced = Produced {
            by: plain(&produced.by),
            at: plain(&produced.at),
            identifier: plain(&produced.identifier),
        };
        Self { units, produced, sheet: sheet.clone() }
    }

    /// What it is about.
    #[must_use]
    pub fn title(&self) -> String {
        let named = |name: &str, otherwise: &str| {
            if name.is_empty() { otherwise.to_owned() } else { plain(name) }
        };
        format!(
            "When {} works at {}",
            named(&self.sheet.aeroplane, "the aeroplane"),
            named(&self.sheet.strip, "the strip")
        )
    }

    /// The masses that are asked for.
    #[must_use]
    pub fn subtitle(&self) -> String {
        let masses = [("Landing", self.sheet.landing), ("take-off", self.sheet.take_off)];
        let named = masses.into_iter().filter_map(|(word, mass)| {
            Some(format!("{word} at {}", quantity_text(mass?, self.units)))
        });
        let words = named.collect::<Vec<_>>().join(", ");
        let mut letters = words.chars();
        letters
            .next()
            .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }

    /// How many hours of the year work, in one sentence.
    #[must_use]
    pub fn counted(&self) -> String {
        let hours = || self.sheet.weeks.iter().flat_map(|week| &week.hours);
        let share = |count: usize| 100.0 * count as f64 / hours().count().max(1) as f64;
        let count = |of: fn(&HourState) -> bool| hours().filter(|hour| of(&hour.state)).count();
        format!(
            "Of all hours of the year the masses work in {:.0} %; {:.0} % are dark, in {:.0} % a \
             limit does not hold, {:.0} % are not known.",
            share(count(|state| *state == HourState::Works)),
            share(count(|state| *state == HourState::Dark)),
            share(count(|state| matches!(state, HourState::TooHeavy(..)))),
            share(count(|state| matches!(state, HourState::NotKnown(_)))),
        )
    }

    /// Month by month: name, daylight, temperatures, working hours a day, and the
    /// largest landing and take-off mass of its worst hour.
    #[must_use]
    pub fn month_rows(&self) -> Vec<[String; 6]> {
        self.sheet.months.iter().map(|month| self.month_row(month)).collect()
    }

    /// What the masses of a month are.
    #[must_use]
    pub const fn months_legend() -> &'static str {
        MONTHS_LEGEND
    }

    /// The weeks and hours themselves.
    #[must_use]
    pub const fn sheet(&self) -> &YearSheet {
        &self.sheet
    }

    fn month_row(&self, month: &YearMonth) -> [String; 6] {
        let minutes = (month.daylight * 1440.0).round() as u32;
        let (cold, warm) = month.temperatures;
        let mass = |month: &MonthMass| {
            let none = (month.none_holds > 0.0).then(|| "none".to_owned());
            let unknown = (month.not_known > 0.0).then(|| "not known".to_owned());
            let not_all = none.is_some() || unknown.is_some();
            let most = month.least.map(|mass| {
                let mass = at_most_text(mass, self.units);
                if not_all { format!("else {mass}") } else { mass }
            });
            let words: Vec<String> = [none, unknown, most].into_iter().flatten().collect();
            if words.is_empty() { "–".to_owned() } else { words.join(", ") }
        };
        [
            MONTHS[usize::try_from(month.month - 1).unwrap_or(0).min(11)].to_owned(),
            format!("{} h {:02} min", minutes / 60, minutes % 60),
            format!(
                "{} to {}",
                Amount::from(cold).show(self.units),
                Amount::from(warm).show(self.units)
            ),
            format!("{:.1}", month.working_hours),
            mass(&month.masses.0),
            mass(&month.masses.1),
        ]
    }

    /// What limits in some hour: code and words, in the order of codes.
    #[must_use]
    pub fn limits(&self) -> Vec<(String, String)> {
        let mut found: Vec<(String, String)> = Vec::new();
        for hour in self.sheet.weeks.iter().flat_map(|week| &week.hours) {
            let row = match &hour.state {
                HourState::TooHeavy(code, title) => {
                    ((*code).to_owned(), plain(&tell(title, self.units)))
                }
                HourState::NotKnown(why) => ("?".to_owned(), (*why).to_owned()),
                HourState::Works | HourState::Dark => continue,
            };
            if !found.contains(&row) {
                found.push(row);
            }
        }
        found.sort();
        found
    }
}

/// Weeks in which all hours are as in the first, one after the other.
#[must_use]
pub fn alike_weeks(weeks: &[YearWeek]) -> Vec<&[YearWeek]> {
    weeks
        .chunk_by(|a, b| {
            let states = |week: &YearWeek| -> Vec<char> {
                week.hours.iter().map(|hour| hour_sign(&hour.state)).collect()
            };
            a.season == b.season && states(a) == states(b)
        })
        .collect()
}

/// One sign an hour.
#[must_use]
pub fn hour_sign(state: &HourState) -> char {
    match state {
        HourState::Works => '=',
        HourState::Dark => '·',
        HourState::TooHeavy(..) => 'x',
        HourState::NotKnown(_) => '?',
    }
}

/// The state in a word.
#[must_use]
pub fn hour_word(state: &HourState) -> &'static str {
    match state {
        HourState::Works => "works",
        HourState::Dark => "dark",
        HourState::TooHeavy(..) => "too heavy",
        HourState::NotKnown(_) => "not known",
    }
}

/// The largest mass of an hour in words; `told` tells a mass.
#[must_use]
pub fn largest_word(
    largest: Largest,
    told: impl FnOnce(hardpan_quantity::Mass) -> String,
) -> String {
    match largest {
        Largest::Mass(mass) => told(mass),
        Largest::NoneHolds => "none holds".to_owned(),
        Largest::NotKnown => "not known".to_owned(),
    }
}
