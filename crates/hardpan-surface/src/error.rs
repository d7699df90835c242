//! Why a survey cannot be measured; all wording of this crate's errors.

/// Why no figure is given.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// The strip has no survey.
    #[error("the strip has no survey")]
    NoSurvey,
    /// The survey has no line.
    #[error("the survey has no line")]
    NoLine,
    /// The survey has too few lines.
    #[error(
        "the survey has {lines} lines at different offsets; {needed} are needed to tell where water stands"
    )]
    TooFewLines {
        /// Lines that it has.
        lines: usize,
        /// Lines needed.
        needed: usize,
    },
    /// No two levels of a line stand close enough together.
    #[error("the line at offset {offset_m} m nowhere has levels {interval_m} m apart or closer")]
    TooSparse {
        /// Offset of the line, metres.
        offset_m: f64,
        /// Distance needed, metres.
        interval_m: f64,
    },
    /// A line has too few points for a profile.
    #[error("the line at offset {offset_m} m has {points} points; a profile needs 2")]
    TooFewPoints {
        /// Offset of the line, metres.
        offset_m: f64,
        /// Points that it has.
        points: usize,
    },
    /// A level or its place is not finite or lies beyond any strip.
    #[error(
        "point {index} of the line at offset {offset_m} m has {name} {value_m} m, outside -{limit_m} m to {limit_m} m"
    )]
    PointOutOfRange {
        /// Offset of the line, metres.
        offset_m: f64,
        /// Position in the line, counted from 1.
        index: usize,
        /// What is out of range: station or elevation.
        name: &'static str,
        /// Its value, metres.
        value_m: f64,
        /// Greatest size accepted, metres.
        limit_m: f64,
    },
    /// A point does not follow the one before.
    #[error(
        "point {index} of the line at offset {offset_m} m, station {station_m} m, is not beyond the point before"
    )]
    NotRising {
        /// Offset of the line, metres.
        offset_m: f64,
        /// Position in the line, counted from 1.
        index: usize,
        /// Its station, metres.
        station_m: f64,
    },
    /// A setting is outside what the method can use.
    #[error("{name} is {value}, outside {minimum} to {maximum} {unit}")]
    SettingOutOfRange {
        /// Setting in words.
        name: &'static str,
        /// Its value.
        value: f64,
        /// Least allowed.
        minimum: f64,
        /// Greatest allowed.
        maximum: f64,
        /// Unit of the three values.
        unit: &'static str,
    },
    /// A profile is shorter than the method needs.
    #[error("the profile is {length_m} m long; {method} needs {needed_m} m")]
    TooShort {
        /// Method in words.
        method: &'static str,
        /// Length of the profile, metres.
        length_m: f64,
        /// Length needed, metres.
        needed_m: f64,
    },
    /// Part of the strip that the method needs has no survey.
    #[error(
        "stations {from_m} m to {to_m} m have no level; {method} accepts {accepted_m} m without one"
    )]
    Unsurveyed {
        /// Method in words.
        method: &'static str,
        /// First station without survey, metres.
        from_m: f64,
        /// Last station without survey, metres.
        to_m: f64,
        /// Longest stretch accepted, metres.
        accepted_m: f64,
    },
    /// Survey noise alone would show too much of the roughness index.
    #[error(
        "noise alone gives the line at offset {offset_m} m an index of {noise_per_km:.2} m/km of {index_per_km:.2} m/km found; at most {most_per_km:.2} m/km may be noise"
    )]
    TooNoisy {
        /// Offset of the line, metres.
        offset_m: f64,
        /// Index of noise alone, metres for each kilometre.
        noise_per_km: f64,
        /// Index found, metres for each kilometre.
        index_per_km: f64,
        /// Most of it that may be noise, metres for each kilometre.
        most_per_km: f64,
    },
    /// No line runs near the centre of the strip.
    #[error(
        "no survey line runs within {accepted_m} m of the centre line; the nearest is at {nearest_m} m"
    )]
    NoCentreLine {
        /// Greatest distance accepted, metres.
        accepted_m: f64,
        /// Offset of the nearest line, metres.
        nearest_m: f64,
    },
}

/// Refuses a setting that is not finite or outside its range.
pub(crate) fn setting(
    name: &'static str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    unit: &'static str,
) -> Result<f64, Error> {
    if range.contains(&value) {
        return Ok(value);
    }
    Err(Error::SettingOutOfRange {
        name,
        value,
        minimum: *range.start(),
        maximum: *range.end(),
        unit,
    })
}
