//! A survey of single positions on the globe: the lines that come of it.

use crate::diagnose::page::Page;
use crate::rows::jumps::report_jumps;
use crate::rows::positions::{Position, positions};
use crate::strip::ends::{Ends, Lacking, Threshold};
use crate::strip::laid::{Laid, no_levels};
use crate::strip::survey_keys::SurveyKeys;
use crate::table::cursor::{Entry, Table};
use hardpan_model::{AxisFrom, Given, PositionFacts, SurveyFrom};
use hardpan_quantity::{Angle, Length, Quantity, metres};
use hardpan_survey::{
    AxisStart, Error, Geographic, GlobeAxis, LEAST_NOISE_M, LocalPlane, PlacedPoint, PlanePoint,
    WalkedLines, fitted_axis, walked_lines,
};

/// What the positions are laid on.
pub(super) struct OnGlobe<'g> {
    pub(super) ends: &'g Ends<'g>,
    pub(super) keys: &'g SurveyKeys,
    pub(super) bearing: Option<&'g Given<Angle>>,
    pub(super) elevation: Option<Length>,
}

/// An axis and how it was laid.
struct Axis {
    axis: GlobeAxis,
    from: AxisFrom,
}

/// The lines of the positions in a table; mistakes in rows stand in the table,
/// others at the entry that names it.
pub(super) fn laid(
    t: &Table<'_>,
    page: &Page<'_>,
    entry: &Entry<'_>,
    on: &OnGlobe<'_>,
    stated_noise: Option<Given<Length>>,
) -> Option<Laid> {
    let found = positions(page)?;
    if found.is_empty() {
        return None;
    }
    let path = page.file.to_string();
    let axis = on.axis(t, entry, &found)?;
    let length = on.ends.length?;
    let lines = axis.and_then(|axis| {
        let placed = axis.placed(&found)?;
        Ok((axis.from, walked_lines(&placed, length)?))
    });
    match lines {
        Ok((from, walked)) => {
            report_jumps(page, &walked.lines);
            let noise = noise(t, entry, &walked, stated_noise);
            let facts = facts(from, found.len(), &walked);
            let from = SurveyFrom::Positions(facts);
            Some(Laid { file: page.file.clone(), lines: walked.lines, noise: Some(noise), from })
        }
        Err(error) => {
            no_levels(t, entry, &path, &error);
            None
        }
    }
}

fn noise(
    t: &Table<'_>,
    entry: &Entry<'_>,
    walked: &WalkedLines,
    stated: Option<Given<Length>>,
) -> Given<Length> {
    let value = walked.level_noise(stated.as_ref().map(|given| given.value));
    match stated {
        Some(given) if given.value >= value => given,
        _ => Given {
            value,
            origin: t.page().origin(entry.span.start, &entry.path),
            source: Some(
                "positions of a satellite receiver: their scatter, at least 10 mm, and their wander across"
                    .into(),
            ),
        },
    }
}

fn facts(axis: AxisFrom, positions: usize, walked: &WalkedLines) -> PositionFacts {
    let left_out = walked.beyond + walked.between;
    PositionFacts {
        axis,
        positions: positions as u64,
        used: positions.saturating_sub(left_out) as u64,
        beyond: walked.beyond as u64,
        between: walked.between as u64,
        scatter: walked.scatter,
        wander: walked.wander,
        least: metres(LEAST_NOISE_M),
    }
}

impl Axis {
    fn placed(&self, found: &[Position]) -> Result<Vec<PlacedPoint>, Error> {
        let each = found.iter().map(|position| {
            let (station, offset) = self.axis.locate(position.place)?;
            Ok(PlacedPoint { station, offset, height: position.height, line: position.line })
        });
        each.collect()
    }
}

impl OnGlobe<'_> {
    /// None when something is missing or does not agree; it is noted then.
    fn axis(
        &self,
        t: &Table<'_>,
        entry: &Entry<'_>,
        found: &[Position],
    ) -> Option<Result<Axis, Error>> {
        let lacking = Lacking { t, entry, what: "the survey is a table of positions" };
        lacking.unless(t.has("length"), "length", "\"1980 m\"");
        let (low, high) = (self.ends.low, self.ends.high);
        if self.keys.is_fitted() {
            let told = low.has_place() || high.has_place() || t.has("bearing");
            lacking.unless(told, "low_end.latitude", "\"52.1000 deg\" and its longitude");
            return self.fitted(found);
        }
        let ends = [
            (low, "low_end.latitude", "\"52.1000 deg\""),
            (high, "high_end.latitude", "\"52.1064 deg\""),
        ];
        for (end, key, example) in ends {
            lacking.unless(end.has_place(), key, example);
        }
        let height = self.elevation.unwrap_or_else(|| mean_height(found));
        let laid = self.ends.globe_axis(t.page(), self.bearing, height)?;
        let from = AxisFrom::Thresholds;
        Some(laid.map(|axis| Axis { axis, from }))
    }

    fn fitted(&self, found: &[Position]) -> Option<Result<Axis, Error>> {
        let length = self.ends.length?;
        let place = Threshold::place;
        let start = match (place(self.ends.low), place(self.ends.high), self.bearing) {
            (Some(low), ..) => Start::Low(low),
            (None, Some(high), _) => Start::High(high),
            (None, None, Some(bearing)) => Start::Bearing(bearing.value),
            (None, None, None) => return None,
        };
        let height = self.elevation.unwrap_or_else(|| mean_height(found));
        Some(along(found, height, length, start))
    }
}

enum Start {
    Low(Geographic),
    High(Geographic),
    Bearing(Angle),
}

fn along(found: &[Position], height: Length, length: Length, start: Start) -> Result<Axis, Error> {
    let (Some(first), Some(last)) = (found.first(), found.last()) else {
        return Err(Error::NoPoint);
    };
    let middle = found.get(found.len() / 2).unwrap_or(last);
    let plane = LocalPlane::centred(first.place, middle.place, height)?;
    let points: Result<Vec<PlanePoint>, Error> =
        found.iter().map(|position| plane.project(position.place)).collect();
    let start = match start {
        Start::Low(place) => AxisStart::Low(plane.project(place)?),
        Start::High(place) => AxisStart::High(plane.project(place)?),
        Start::Bearing(bearing) => AxisStart::Bearing(bearing),
    };
    let fit = fitted_axis(&points?, length, start)?;
    let from = AxisFrom::Fitted { bearing: fit.axis.grid_bearing(), spread: fit.spread };
    Ok(Axis { axis: GlobeAxis::laid(plane, fit.axis), from })
}

fn mean_height(found: &[Position]) -> Length {
    let sum: f64 = found.iter().map(|position| position.height.si()).sum();
    metres(sum / found.len().max(1) as f64)
}
