//! Why this crate gives no answer: all wording in one place.

use hardpan_model::{FormulaError, Need};

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A sounding without a reading.
    #[error("the sounding at station {station_m} m (line {line}) has no reading")]
    SoundingEmpty {
        /// Station of the sounding, metres.
        station_m: f64,
        /// Line of its first row.
        line: u32,
    },
    /// A sounding without a blow.
    #[error(
        "the sounding at station {station_m} m (line {line}) has no blow: the cone only sank, so \
         it gives no strength"
    )]
    SoundingNoBlows {
        /// Station of the sounding, metres.
        station_m: f64,
        /// Line of its first row.
        line: u32,
    },
    /// A reading that does not lie below the one before.
    #[error(
        "the reading on line {line} of the sounding at station {station_m} m is at {depth_mm} mm, \
         which is not below the one before at {before_mm} mm"
    )]
    SoundingDepth {
        /// Station of the sounding, metres.
        station_m: f64,
        /// Line of the reading.
        line: u32,
        /// Its depth, millimetres.
        depth_mm: f64,
        /// Depth of the reading before, millimetres.
        before_mm: f64,
    },
    /// A reading deeper than any such test goes.
    #[error(
        "the reading on line {line} of the sounding at station {station_m} m is at {depth_mm} mm; \
         such a test ends above {limit_mm} mm"
    )]
    SoundingTooDeep {
        /// Station of the sounding, metres.
        station_m: f64,
        /// Line of the reading.
        line: u32,
        /// Its depth, millimetres.
        depth_mm: f64,
        /// Deepest depth accepted, millimetres.
        limit_mm: f64,
    },
    /// A sounding whose place is not a number.
    #[error("sounding {number} (line {line}) has a station or offset that is not finite")]
    SoundingPlace {
        /// Position among the soundings, counted from 1.
        number: usize,
        /// Line of its first row.
        line: u32,
    },
    /// A quantity that must be above zero and finite.
    #[error("{what} is {value} {unit}; it must be above zero and finite")]
    NotPositive {
        /// What it is.
        what: &'static str,
        /// Its value.
        value: f64,
        /// Unit of the value.
        unit: &'static str,
    },
    /// A quantity outside the range for which the method holds.
    #[error("{what} is {value} {unit}, outside {minimum} to {maximum} {unit}")]
    OutOfRange {
        /// What it is.
        what: &'static str,
        /// Its value.
        value: f64,
        /// Least allowed.
        minimum: f64,
        /// Greatest allowed.
        maximum: f64,
        /// Unit of the three.
        unit: &'static str,
    },
    /// More stations than can be of use.
    #[error("{wanted} stations are asked for; at most {limit} are computed")]
    TooManyStations {
        /// Number asked for.
        wanted: f64,
        /// Number allowed.
        limit: usize,
    },
    /// A sample without values.
    #[error("there is no bearing ratio to characterise")]
    NoValues,
    /// Data of the aeroplane or flight that are missing.
    #[error("missing: {}", listed(needs))]
    Missing {
        /// Everything that is missing, at once.
        needs: Vec<Need>,
    },
    /// Centre of gravity not ahead of the main gear.
    #[error(
        "the centre of gravity at {centre_percent} % of the chord is not ahead of the main gear \
         at {gear_percent} %"
    )]
    CentreBehindGear {
        /// Centre of gravity, per cent of the chord.
        centre_percent: f64,
        /// Main gear, per cent of the chord.
        gear_percent: f64,
    },
    /// A leg that the method does not cover.
    #[error(
        "a leg of {wheels} wheels in rows of {abreast} is not covered; 1 to {limit} wheels are"
    )]
    LegNotCovered {
        /// Wheels of the leg.
        wheels: u32,
        /// Wheels side by side.
        abreast: u32,
        /// Most wheels covered.
        limit: u32,
    },
    /// More load than the tyre is rated for.
    #[error("the tyre carries {load_kn} kN, more than its rated {rated_kn} kN")]
    TyreOverloaded {
        /// Load on the tyre, kilonewtons.
        load_kn: f64,
        /// Rated load, kilonewtons.
        rated_kn: f64,
    },
    /// A chart that cannot be read.
    #[error(
        "row {row} of the tyre chart does not have more mass and at least the pressure of the row before"
    )]
    ChartNotRising {
        /// Row, counted from 1.
        row: usize,
    },
    /// A chart without rows.
    #[error("the tyre chart has no row")]
    ChartEmpty,
    /// A mass or pressure that the chart does not reach.
    #[error(
        "{what} {value} {unit} is outside the tyre chart, which runs from {low} to {high} {unit}"
    )]
    ChartOutside {
        /// Mass or pressure.
        what: &'static str,
        /// The value.
        value: f64,
        /// First value of the chart.
        low: f64,
        /// Last value of the chart.
        high: f64,
        /// Unit of the three.
        unit: &'static str,
    },
    /// The equation has no solution in the range searched.
    #[error("{what} has no solution between {low} and {high} {unit}")]
    NoSolution {
        /// What was solved for.
        what: &'static str,
        /// Lower end of the search.
        low: f64,
        /// Upper end of the search.
        high: f64,
        /// Unit of both.
        unit: &'static str,
    },
    /// A formula refused its arguments.
    #[error(transparent)]
    Formula(#[from] FormulaError),
}

fn listed(needs: &[Need]) -> String {
    let names: Vec<&str> = needs.iter().map(|need| need.what.as_str()).collect();
    names.join(", ")
}

/// The SI value if it is above zero and finite.
pub(crate) fn positive(what: &'static str, unit: &'static str, value: f64) -> Result<f64, Error> {
    if value > 0.0 && value.is_finite() {
        Ok(value)
    } else {
        Err(Error::NotPositive { what, value, unit })
    }
}

/// The SI value if it lies within the bounds.
pub(crate) fn within(
    what: &'static str,
    unit: &'static str,
    value: f64,
    minimum: f64,
    maximum: f64,
) -> Result<f64, Error> {
    if value >= minimum && value <= maximum {
        Ok(value)
    } else {
        Err(Error::OutOfRange { what, value, minimum, maximum, unit })
    }
}
