//! A survey line as an evenly spaced profile, cut wherever levels stand too
//! far apart to say what lies between them.

use crate::error::{Error, setting};
use hardpan_model::SurveyLine;
use hardpan_quantity::{Length, Quantity, metres};

/// Stations beyond this are on no strip.
const STATION_LIMIT_M: f64 = 100_000.0;
/// Elevations beyond this are on no strip.
const ELEVATION_LIMIT_M: f64 = 10_000.0;
/// Most samples of one profile: 100 km at 50 mm.
const SAMPLE_LIMIT: usize = 2_000_000;
/// Two stations closer than this are the same place.
const SAME_PLACE_M: f64 = 1e-6;

/// A stretch of the strip, by station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
}

impl Stretch {
    /// Its length.
    #[must_use]
    pub fn length(self) -> Length {
        self.to - self.from
    }
}

/// Evenly spaced levels along one offset, without a gap.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    offset_m: f64,
    start_m: f64,
    spacing_m: f64,
    elevations_m: Vec<f64>,
}

/// One survey line cut into profiles, and the stretches between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Resampled {
    /// Profiles by rising station.
    pub profiles: Vec<Profile>,
    /// Stretches within the line whose levels stand too far apart.
    pub gaps: Vec<Stretch>,
}

impl Profile {
    /// A profile from levels that are evenly spaced already.
    ///
    /// # Errors
    /// [`Error`] for fewer than two levels, a spacing outside 1 mm to 1 km, or
    /// a station or elevation beyond ±100 km or ±10 km.
    pub fn evenly_spaced(
        offset: Length,
        start: Length,
        spacing: Length,
        elevations: &[Length],
    ) -> Result<Self, Error> {
        let elevations_m = elevations.iter().map(|elevation| elevation.si()).collect();
        Self::from_metres(offset.si(), start.si(), spacing.si(), elevations_m)
    }

    pub(crate) fn from_metres(
        offset_m: f64,
        start_m: f64,
        spacing_m: f64,
        elevations_m: Vec<f64>,
    ) -> Result<Self, Error> {
        setting("spacing of the profile", spacing_m, 1e-3..=1e3, "m")?;
        setting("offset of the profile", offset_m, -STATION_LIMIT_M..=STATION_LIMIT_M, "m")?;
        setting("first station of the profile", start_m, -STATION_LIMIT_M..=STATION_LIMIT_M, "m")?;
        if elevations_m.len() < 2 {
            return Err(Error::TooFewPoints { offset_m, points: elevations_m.len() });
        }
        setting("levels of the profile", elevations_m.len() as f64, 2.0..=SAMPLE_LIMIT as f64, "")?;
        for (index, elevation) in elevations_m.iter().enumerate() {
            in_range(offset_m, index, "elevation", *elevation, ELEVATION_LIMIT_M)?;
        }
        Ok(Self { offset_m, start_m, spacing_m, elevations_m })
    }

    /// Offset of the line.
    #[must_use]
    pub fn offset(&self) -> Length {
        metres(self.offset_m)
    }

    /// Distance between two levels.
    #[must_use]
    pub fn spacing(&self) -> Length {
        metres(self.spacing_m)
    }

    /// First and last station.
    #[must_use]
    pub fn stretch(&self) -> Stretch {
        Stretch {
            from: metres(self.start_m),
            to: metres(self.station_m(self.elevations_m.len().saturating_sub(1))),
        }
    }

    /// Levels by rising station.
    pub fn levels(&self) -> impl ExactSizeIterator<Item = (Length, Length)> + '_ {
        self.elevations_m
            .iter()
            .enumerate()
            .map(|(index, elevation)| (metres(self.station_m(index)), metres(*elevation)))
    }

    /// The profile as met when moving down the stations: place x stands at −x.
    #[must_use]
    pub fn turned(&self) -> Self {
        let last = self.station_m(self.elevations_m.len().saturating_sub(1));
        let elevations_m = self.elevations_m.iter().rev().copied().collect();
        Self { start_m: -last, elevations_m, ..self.clone() }
    }

    /// The part between two stations, out to the next whole sample; the whole
    /// where fewer than two samples would be left.
    #[must_use]
    pub fn between(&self, from: Length, to: Length) -> Self {
        let last = self.elevations_m.len().saturating_sub(1);
        let at = |station: Length| (station.si() - self.start_m) / self.spacing_m;
        let first = (at(from).floor().max(0.0) as usize).min(last);
        let end = (at(to).ceil().max(0.0) as usize).min(last);
        match self.elevations_m.get(first..=end) {
            Some(part) if part.len() > 1 => {
                Self { start_m: self.station_m(first), elevations_m: part.to_vec(), ..self.clone() }
            }
            _ => self.clone(),
        }
    }

    pub(crate) fn spacing_m(&self) -> f64 {
        self.spacing_m
    }

    pub(crate) fn station_m(&self, index: usize) -> f64 {
        self.start_m + index as f64 * self.spacing_m
    }

    pub(crate) fn elevations_m(&self) -> &[f64] {
        &self.elevations_m
    }

    pub(crate) fn length_m(&self) -> f64 {
        (self.elevations_m.len().saturating_sub(1)) as f64 * self.spacing_m
    }

    /// The same stations with other elevations, which must be as many and finite.
    pub(crate) fn with_elevations(&self, elevations_m: Vec<f64>) -> Self {
        Self { elevations_m, ..self.clone() }
    }

    /// How many intervals make up `length_m`, at least `least`.
    pub(crate) fn intervals(&self, length_m: f64, least: usize) -> usize {
        ((length_m / self.spacing_m).round() as usize).max(least)
    }
}

fn in_range(
    offset_m: f64,
    index: usize,
    name: &'static str,
    value_m: f64,
    limit_m: f64,
) -> Result<(), Error> {
    if value_m.abs() <= limit_m {
        return Ok(());
    }
    Err(Error::PointOutOfRange { offset_m, index: index + 1, name, value_m, limit_m })
}

/// Stations and elevations of a line in metres, once they are known to be
/// finite, in range and strictly rising.
///
/// # Errors
/// [`Error`] for the first point that is not.
pub(crate) fn checked_points(line: &SurveyLine) -> Result<Vec<(f64, f64)>, Error> {
    let offset_m =
        setting("offset of the line", line.offset.si(), -STATION_LIMIT_M..=STATION_LIMIT_M, "m")?;
    let mut points: Vec<(f64, f64)> = Vec::with_capacity(line.points.len());
    for (index, point) in line.points.iter().enumerate() {
        let (station, elevation) = (point.station.si(), point.elevation.si());
        in_range(offset_m, index, "station", station, STATION_LIMIT_M)?;
        in_range(offset_m, index, "elevation", elevation, ELEVATION_LIMIT_M)?;
        if points.last().is_some_and(|before| station - before.0 < SAME_PLACE_M) {
            return Err(Error::NotRising { offset_m, index: index + 1, station_m: station });
        }
        points.push((station, elevation));
    }
    Ok(points)
}

/// The spacing at which a line is resampled so that its levels fall on the
/// samples where they are evenly spaced: the median interval divided into
/// equal parts no longer than `at_most`, or several intervals when they are
/// shorter than 50 mm.
///
/// # Errors
/// [`Error`] when the line has fewer than two usable points or `at_most` is
/// outside 50 mm to 100 m.
pub fn natural_spacing(line: &SurveyLine, at_most: Length) -> Result<Length, Error> {
    const FINEST_M: f64 = 0.05;
    let at_most_m = setting("longest sample spacing", at_most.si(), FINEST_M..=100.0, "m")?;
    let points = checked_points(line)?;
    let mut intervals: Vec<f64> =
        points.windows(2).filter_map(|pair| Some(pair.get(1)?.0 - pair.first()?.0)).collect();
    intervals.sort_by(f64::total_cmp);
    let Some(median) = intervals.get(intervals.len() / 2) else {
        return Err(Error::TooFewPoints { offset_m: line.offset.si(), points: points.len() });
    };
    let tolerance = 1e-9;
    if *median < FINEST_M - tolerance {
        return Ok(metres(median * (FINEST_M / median - tolerance).ceil()));
    }
    Ok(metres(median / (median / at_most_m - tolerance).ceil().max(1.0)))
}

/// A line as evenly spaced profiles, linear between its levels, cut wherever
/// two levels stand further apart than `longest_gap`.
///
/// A stretch ends with the last whole sample interval, so up to one `spacing`
/// before its last level is left out. A stretch shorter than one interval has
/// no profile and counts as a gap.
///
/// # Errors
/// [`Error`] for points out of range or order, a spacing outside 1 mm to
/// 100 m, or a longest gap that is not positive.
pub fn resample(
    line: &SurveyLine,
    spacing: Length,
    longest_gap: Length,
) -> Result<Resampled, Error> {
    let spacing_m = setting("sample spacing", spacing.si(), 1e-3..=100.0, "m")?;
    let gap_m = setting("longest gap", longest_gap.si(), 1e-3..=STATION_LIMIT_M, "m")?;
    let points = checked_points(line)?;
    let mut profiles = Vec::new();
    for stretch in points.chunk_by(|a, b| b.0 - a.0 <= gap_m + SAME_PLACE_M) {
        let (Some(first), Some(last)) = (stretch.first(), stretch.last()) else { continue };
        let intervals = ((last.0 - first.0) / spacing_m + 1e-9).floor() as usize;
        if intervals >= 1 {
            let elevations = sampled(stretch, first.0, spacing_m, intervals);
            profiles.push(Profile::from_metres(line.offset.si(), first.0, spacing_m, elevations)?);
        }
    }
    let gaps = match (points.first(), points.last()) {
        (Some(first), Some(last)) => {
            let whole = Stretch { from: metres(first.0), to: metres(last.0) };
            outside(profiles.iter().map(Profile::stretch), whole, spacing_m)
        }
        _ => Vec::new(),
    };
    Ok(Resampled { profiles, gaps })
}

/// What is left of `whole` outside the rising `covered`, but for pieces not
/// longer than `shortest_m`.
pub(crate) fn outside(
    covered: impl Iterator<Item = Stretch>,
    whole: Stretch,
    shortest_m: f64,
) -> Vec<Stretch> {
    let mut from = whole.from;
    let mut left = Vec::new();
    for stretch in covered {
        left.push(Stretch { from, to: stretch.from.min(whole.to) });
        from = from.max(stretch.to);
    }
    left.push(Stretch { from, to: whole.to });
    left.retain(|stretch| stretch.length().si() > shortest_m + SAME_PLACE_M);
    left
}

fn sampled(points: &[(f64, f64)], start: f64, spacing: f64, intervals: usize) -> Vec<f64> {
    let mut ahead = points;
    (0..=intervals)
        .map(|index| {
            let station = start + index as f64 * spacing;
            while let [_, next, _, ..] = ahead
                && next.0 < station
                && let [_, tail @ ..] = ahead
            {
                ahead = tail;
            }
            match ahead {
                [a, b, ..] => {
                    let share = ((station - a.0) / (b.0 - a.0)).clamp(0.0, 1.0);
                    if share < 1.0 { a.1 + (b.1 - a.1) * share } else { b.1 }
                }
                [only] => only.1,
                [] => f64::NAN,
            }
        })
        .collect()
}
