//! The weeks for a program: versioned, in SI units, with their schema.

use super::answer_word;
use crate::Produced;
use crate::bearing::{MARK, stops_word};
use crate::json::{ProducedJson, finite};
use hardpan_assess::{CAUTION, CarryingWeeks, MovementWeeks, StoppedBy, Week, WeekFrost};
use hardpan_quantity::Quantity;
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const WEEKS_FORMAT: &str = "hardpan-weeks";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const WEEKS_VERSION: u32 = 1;

/// The weeks of the year in which a strip carries a mass.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan weeks")]
struct Document {
    /// Always `hardpan-weeks`.
    #[schemars(extend("const" = WEEKS_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = WEEKS_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// Name of the strip.
    strip: String,
    /// Name of the aeroplane.
    aeroplane: String,
    /// What the figures may be used for.
    mark: &'static str,
    /// What the reader must know of these figures.
    caveats: Vec<String>,
    /// Each movement planned.
    movements: Vec<MovementJson>,
}

/// The weeks of one movement.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Movement")]
struct MovementJson {
    /// `take-off` or `landing`.
    movement: &'static str,
    /// The mass asked for, kilograms.
    mass_kg: Option<f64>,
    /// Main tyre pressure, pascals.
    main_pressure_pa: Option<f64>,
    /// Nose tyre pressure, pascals.
    nose_pressure_pa: Option<f64>,
    /// 52 weeks from 1 January.
    weeks: Vec<WeekJson>,
}

/// One week.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Week")]
struct WeekJson {
    /// First day, month-day.
    from: String,
    /// Last day, month-day.
    to: String,
    /// `carried`, `not carried` or `not known`.
    answer: &'static str,
    /// The weakest season of its days; null when a day lies in none.
    season: Option<String>,
    /// Share of the strength sounded.
    share: Option<f64>,
    /// Depth to which the ground has thawed over frost, metres.
    thawed_to_m: Option<f64>,
    /// Depth to which it is frozen, metres; 0 without frost, null when not known.
    frozen_to_m: Option<f64>,
    /// Largest mass, kilograms; null when none or not known.
    largest_mass_kg: Option<f64>,
    /// Share of the strength sounded while the surface is wet; null when the
    /// strip does not say.
    wet_share: Option<f64>,
    /// Largest mass then, kilograms; null when none or not known.
    wet_largest_mass_kg: Option<f64>,
    /// `ground`, `not known deep enough`, `end` of the range, or `run`.
    stops: Option<&'static str>,
    /// Lane of the place that gives first.
    lane: Option<&'static str>,
    /// Its station, metres.
    station_m: Option<f64>,
}

/// The weeks as the text of a file, with a line feed at its end.
#[must_use]
pub fn weeks_json(weeks: &CarryingWeeks, produced: &Produced) -> String {
    let document = Document {
        format: WEEKS_FORMAT,
        version: WEEKS_VERSION,
        produced: ProducedJson::of(produced),
        caution: CAUTION,
        strip: weeks.strip.clone(),
        aeroplane: weeks.aeroplane.clone(),
        mark: MARK,
        caveats: weeks.caveats.clone(),
        movements: weeks.movements.iter().map(movement).collect(),
    };
    let text = serde_json::to_string_pretty(&document)
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// The JSON schema of [`weeks_json`], as the text of a file.
#[must_use]
pub fn weeks_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    format!("{:#}\n", settings.into_generator().into_root_schema_for::<Document>().to_value())
}

fn movement(one: &MovementWeeks) -> MovementJson {
    MovementJson {
        movement: one.movement,
        mass_kg: finite(one.mass.si()),
        main_pressure_pa: finite(one.pressures.0.si()),
        nose_pressure_pa: finite(one.pressures.1.si()),
        weeks: one.weeks.iter().map(|week| week_json(one, week)).collect(),
    }
}

fn week_json(movement: &MovementWeeks, week: &Week) -> WeekJson {
    let ground = week.ground.as_ref();
    let place = ground.and_then(|ground| match &ground.stops {
        StoppedBy::Ground(place) => Some(place),
        StoppedBy::End | StoppedBy::Run(_) => None,
    });
    WeekJson {
        from: week.from.to_string(),
        to: week.to.to_string(),
        answer: answer_word(movement.carried(week)),
        season: ground.map(|ground| ground.season.clone()),
        thawed_to_m: match week.frost {
            Some(WeekFrost::Thawing(depth, _)) => finite(depth.si()),
            _ => None,
        },
        frozen_to_m: match week.frost {
            Some(WeekFrost::Thawing(_, depth) | WeekFrost::Frozen(depth)) => finite(depth.si()),
            Some(WeekFrost::Thawed) => Some(0.0),
            Some(WeekFrost::NotKnown) | None => None,
        },
        share: ground.and_then(|ground| finite(ground.share.si())),
        largest_mass_kg: ground
            .and_then(|ground| ground.largest)
            .and_then(|mass| finite(mass.si())),
        wet_share: ground
            .and_then(|ground| ground.wet.as_ref())
            .and_then(|wet| finite(wet.share.si())),
        wet_largest_mass_kg: ground
            .and_then(|ground| ground.wet.as_ref()?.largest)
            .and_then(|mass| finite(mass.si())),
        stops: ground.map(|ground| stops_word(&ground.stops)),
        lane: place.map(|place| place.lane.word()),
        station_m: place.and_then(|place| finite(place.station.si())),
    }
}
