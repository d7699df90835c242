//! Levels that were laid on the strip from something that is no table of
//! levels, and why there are none.

use crate::diagnose::mistake::Mistake;
use crate::table::cursor::{Entry, Table};
use hardpan_model::{AxisFrom, Given, SurveyFrom, SurveyLine};
use hardpan_quantity::{Length, Quantity};
use hardpan_survey::{Error, FittedAxis};
use std::fmt::Write as _;
use std::sync::Arc;

/// Lines, the noise of a level, and what became of the points.
pub(super) struct Laid {
    pub(super) file: Arc<str>,
    pub(super) lines: Vec<SurveyLine>,
    pub(super) noise: Option<Given<Length>>,
    pub(super) from: SurveyFrom,
}

/// How a fitted axis was laid.
pub(super) fn along(fitted: &FittedAxis) -> AxisFrom {
    AxisFrom::Fitted { bearing: fitted.axis.grid_bearing(), spread: fitted.spread }
}

/// Note why a file gives no levels.
pub(super) fn no_levels(t: &Table<'_>, entry: &Entry<'_>, path: &str, error: &Error) {
    let (path, reason) = (path.to_owned(), error.to_string());
    let mistake = Mistake::NoLevels { path, reason, advice: advice(error) };
    t.page().report(entry.span.clone(), &mistake);
}

/// The greater of what the surveyor states and what the points show.
pub(super) fn stricter(
    stated: Option<Given<Length>>,
    computed: Option<Given<Length>>,
) -> Option<Given<Length>> {
    match (stated, computed) {
        (Some(stated), Some(computed)) if stated.value >= computed.value => Some(stated),
        (stated, computed) => computed.or(stated),
    }
}

/// Levels as rows, to a thousandth of a millimetre.
pub(super) fn as_rows(lines: &[SurveyLine]) -> String {
    let mut text = String::from("station_m,offset_m,elevation_m\n");
    for line in lines {
        for point in &line.points {
            let place = (point.station.si(), line.offset.si(), point.elevation.si());
            // Writing to a string does not fail.
            let _ = writeln!(text, "{:.6},{:.6},{:.6}", place.0, place.1, place.2);
        }
    }
    text
}

/// The way out of each error of a survey.
fn advice(error: &Error) -> String {
    let text = match error {
        Error::UnitUnknown { which } => {
            return format!(
                "ask the surveyor and write `{which}_unit` under [survey_info]: \"m\", \"ft\" or \"ftUS\""
            );
        }
        Error::UnitsDisagree { which, .. } => {
            return format!(
                "ask the surveyor; put `survey_info.{which}_unit` right or leave it out"
            );
        }
        Error::OffTheStrip { .. }
        | Error::CoordinateOutOfRange { .. }
        | Error::ThresholdsApart { .. } => {
            "check the coordinates of both ends against the frame of the survey"
        }
        Error::OffTheGlobe { .. } | Error::FarFromTheStrip { .. } | Error::Projection { .. } => {
            "check latitudes and longitudes: degrees with decimals, north and east positive"
        }
        Error::NotInLines { .. } => {
            "walk lines along the strip or take cross-sections at the same offsets; points all over the strip belong into a point cloud"
        }
        Error::CoveredWidth { .. } | Error::WideCloud { .. } => {
            "have the survey cut along the edges of the strip, or give the coordinates of both ends"
        }
        Error::ThresholdAside { .. } => {
            "check the coordinates of the threshold, or give those of both ends"
        }
        Error::TwoUnits { .. } => {
            "have the pieces of the survey put together again, all in one unit and over one datum"
        }
        Error::NoAxis { .. } | Error::AxisSpread { .. } => {
            "give the coordinates of both ends, or walk both edges over the whole length"
        }
        Error::FittedSpan { .. } => "give the coordinates of one end, or check `length`",
        Error::TooManyCells { .. } | Error::SettingOutOfRange { .. } | Error::TooSparse { .. } => {
            "state `cell_length` and `cell_width` under [survey_info] to suit the survey"
        }
        Error::NoGroundPoint { .. } => {
            "write `ground = \"filtered\"` under [survey_info], or have the ground classified"
        }
        Error::NotPlane => "ask the surveyor for the survey in the plane frame of the thresholds",
        _ => "copy the file again from where it came, or ask the surveyor for it as LAS 1.4",
    };
    text.to_owned()
}
