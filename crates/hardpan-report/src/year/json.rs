//! The year for a program: versioned, in SI units, with its schema.

use super::{YearReport, hour_word, largest_word};
use crate::json::{ProducedJson, Quantity};
use hardpan_assess::{CAUTION, HourState, Largest, YearHour, YearMonth, YearWeek};
use hardpan_quantity::Quantity as Typed;
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const YEAR_FORMAT: &str = "hardpan-year";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const YEAR_VERSION: u32 = 1;

/// The days and hours of the year at which masses work.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan year")]
struct Document {
    /// Always `hardpan-year`.
    #[schemars(extend("const" = YEAR_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = YEAR_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// Name of the strip.
    strip: String,
    /// Name of the aeroplane.
    aeroplane: String,
    /// Landing mass asked for; null where no landing is planned.
    landing_mass: Option<Quantity>,
    /// Take-off mass asked for; likewise.
    take_off_mass: Option<Quantity>,
    /// 52 weeks from 1 January.
    weeks: Vec<WeekJson>,
    /// Twelve months.
    months: Vec<MonthJson>,
    /// What the reader must know.
    caveats: Vec<String>,
}

/// Seven days of every year.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Week")]
struct WeekJson {
    /// First day, month and day.
    from: String,
    /// Last day.
    to: String,
    /// The weakest season in it; null where a day lies in none.
    season: Option<String>,
    /// Share of the strength sounded.
    strength: Option<f64>,
    /// 24 hours, UTC.
    hours: Vec<HourJson>,
}

/// One hour of the days of a week.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Hour")]
struct HourJson {
    /// `works`, `dark`, `too heavy` or `not known`.
    state: &'static str,
    /// Code of the rule that does not hold.
    code: Option<&'static str>,
    /// What it is, or why it is not known.
    why: Option<String>,
    /// Temperature reckoned with.
    temperature: Quantity,
    /// Largest landing mass.
    landing_mass: Option<Quantity>,
    /// Largest take-off mass.
    take_off_mass: Option<Quantity>,
    /// Why there is no largest landing mass: `none holds` or `not known`; null where there
    /// is one, in the dark, and where no landing is planned.
    landing_without: Option<String>,
    /// Why there is no largest take-off mass; likewise.
    take_off_without: Option<String>,
}

/// One month.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Month")]
struct MonthJson {
    /// 1 to 12.
    month: i8,
    /// Daylight on its 15th, hours.
    daylight_hours: f64,
    /// Coldest hour reckoned with.
    coldest: Quantity,
    /// Warmest hour reckoned with.
    warmest: Quantity,
    /// Hours of a mean day at which the masses work.
    working_hours: f64,
    /// Least of the largest landing masses by day, over the hours that have one.
    landing_mass: Option<Quantity>,
    /// Least of the largest take-off masses by day; likewise.
    take_off_mass: Option<Quantity>,
    /// Hours of a mean day in which no landing mass holds.
    landing_none_holds_hours: f64,
    /// Hours of a mean day by light in which the landing mass is not known.
    landing_not_known_hours: f64,
    /// Hours of a mean day in which no take-off mass holds.
    take_off_none_holds_hours: f64,
    /// Hours of a mean day by light in which the take-off mass is not known.
    take_off_not_known_hours: f64,
}

fn week(week: &YearWeek) -> WeekJson {
    WeekJson {
        from: week.from.to_string(),
        to: week.to.to_string(),
        season: week.season.as_ref().map(|(name, _)| name.clone()),
        strength: week.season.as_ref().map(|(_, share)| share.si()),
        hours: week.hours.iter().map(hour).collect(),
    }
}

fn hour(hour: &YearHour) -> HourJson {
    let (code, why) = match &hour.state {
        HourState::TooHeavy(code, title) => (Some(*code), Some(title.clone())),
        HourState::NotKnown(why) => (None, Some((*why).to_owned())),
        HourState::Works | HourState::Dark => (None, None),
    };
    HourJson {
        state: hour_word(&hour.state),
        code,
        why,
        temperature: Quantity::of(hour.temperature),
        landing_mass: hour.landing.and_then(Largest::mass).map(Quantity::of),
        take_off_mass: hour.take_off.and_then(Largest::mass).map(Quantity::of),
        landing_without: hour.landing.and_then(without),
        take_off_without: hour.take_off.and_then(without),
    }
}

/// Why there is no mass.
pub(super) fn without(largest: Largest) -> Option<String> {
    largest.mass().is_none().then(|| largest_word(largest, |_| String::new()))
}

fn month(month: &YearMonth) -> MonthJson {
    MonthJson {
        month: month.month,
        daylight_hours: 24.0 * month.daylight,
        coldest: Quantity::of(month.temperatures.0),
        warmest: Quantity::of(month.temperatures.1),
        working_hours: month.working_hours,
        landing_mass: month.masses.0.least.map(Quantity::of),
        take_off_mass: month.masses.1.least.map(Quantity::of),
        landing_none_holds_hours: month.masses.0.none_holds,
        landing_not_known_hours: month.masses.0.not_known,
        take_off_none_holds_hours: month.masses.1.none_holds,
        take_off_not_known_hours: month.masses.1.not_known,
    }
}

/// The year as the text of a JSON file.
#[must_use]
pub fn year_json(report: &YearReport) -> String {
    let sheet = &report.sheet;
    let document = Document {
        format: YEAR_FORMAT,
        version: YEAR_VERSION,
        produced: ProducedJson::of(&report.produced),
        caution: CAUTION,
        strip: sheet.strip.clone(),
        aeroplane: sheet.aeroplane.clone(),
        landing_mass: sheet.landing.map(Quantity::of),
        take_off_mass: sheet.take_off.map(Quantity::of),
        weeks: sheet.weeks.iter().map(week).collect(),
        months: sheet.months.iter().map(month).collect(),
        caveats: sheet.caveats.clone(),
    };
    let text = serde_json::to_string_pretty(&document)
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// Its schema as the text of a file.
#[must_use]
pub fn year_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    let schema = settings.into_generator().into_root_schema_for::<Document>();
    format!("{:#}\n", schema.to_value())
}
