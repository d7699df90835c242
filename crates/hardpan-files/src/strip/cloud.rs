//! A survey that is a point cloud: what the strip file says of it, and the
//! levels that come of it.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Files;
use crate::paths::beside;
use crate::strip::checks::shown;
use crate::table::cursor::{Entry, Table};
use crate::table::plausible::{self, Bounds};
use hardpan_model::{CloudFacts, Given, SurveyLine};
use hardpan_quantity::{Dimension, Length, Quantity, metres};
use hardpan_survey::{
    CloudRequest, CloudUnit, Error, GridSettings, Gridded, GroundUse, PlanePoint, StationAxis,
    read_cloud,
};
use std::fmt::Write as _;
use std::ops::Range;
use std::sync::Arc;
use toml::de::DeValue;

/// Coordinates of thresholds and the length of the strip agree within this
/// share and this much: the scale of a projection and a tape lie inside.
/// Source: judgement.
const LENGTH_SHARE: f64 = 0.01;
const LENGTH_MORE_M: f64 = 5.0;

pub(crate) fn units() -> [(&'static str, CloudUnit); 3] {
    CloudUnit::ALL.map(|unit| (unit.word(), unit))
}

const GROUNDS: [(&str, GroundUse); 3] = [
    ("as marked", GroundUse::AsMarked),
    ("marked only", GroundUse::Marked),
    ("filtered", GroundUse::Filtered),
];

/// Keys of `[survey_info]` for a cloud.
#[derive(Default)]
pub(super) struct CloudKeys {
    cell_length: Option<Given<Length>>,
    cell_width: Option<Given<Length>>,
    horizontal_unit: Option<Given<CloudUnit>>,
    vertical_unit: Option<Given<CloudUnit>>,
    ground: Option<Given<GroundUse>>,
}

impl CloudKeys {
    pub(super) fn read(t: &mut Table<'_>, is_cloud: bool) -> Self {
        let keys = Self {
            cell_length: length(t, "cell_length", plausible::CLOUD_CELL).0,
            cell_width: length(t, "cell_width", plausible::CLOUD_CELL).0,
            horizontal_unit: word(t, "horizontal_unit", &units()),
            vertical_unit: word(t, "vertical_unit", &units()),
            ground: word(t, "ground", &GROUNDS),
        };
        let all = ["cell_length", "cell_width", "horizontal_unit", "vertical_unit", "ground"];
        for key in all.into_iter().filter(|key| !is_cloud && t.has(key)) {
            t.page().report(t.span_of(key), &Mistake::CloudOnly { key: t.path_of(key) });
        }
        keys
    }

    fn settings(&self) -> GridSettings {
        let usual = GridSettings::default();
        let or = |given: &Option<Given<Length>>, usual| given.as_ref().map_or(usual, |g| g.value);
        GridSettings {
            cell_length: or(&self.cell_length, usual.cell_length),
            cell_width: or(&self.cell_width, usual.cell_width),
            ground: self.ground.as_ref().map_or(usual.ground, |ground| ground.value),
            ..usual
        }
    }
}

/// The middle of a threshold in the frame of the cloud.
pub(super) struct Threshold {
    easting: (Option<Given<Length>>, bool),
    northing: (Option<Given<Length>>, bool),
}

impl Threshold {
    pub(super) fn read(t: &mut Table<'_>) -> Self {
        Self {
            easting: length(t, "easting", plausible::COORDINATE),
            northing: length(t, "northing", plausible::COORDINATE),
        }
    }

    fn point(&self) -> Option<PlanePoint> {
        let easting = self.easting.0.as_ref()?.value;
        let northing = self.northing.0.as_ref()?.value;
        Some(PlanePoint { easting, northing })
    }
}

/// A length that only a cloud needs, and whether the key stands in the file.
fn length(t: &mut Table<'_>, key: &'static str, bounds: Bounds) -> (Option<Given<Length>>, bool) {
    let Some(entry) = t.alternative(key) else {
        return (None, false);
    };
    let amount = t.amount_of(&entry, Dimension::Length, bounds);
    let given = amount.map(|amount| t.given(&entry, amount).map(|amount| metres(amount.si)));
    (given, true)
}

fn word<T: Copy>(
    t: &mut Table<'_>,
    key: &'static str,
    words: &[(&'static str, T)],
) -> Option<Given<T>> {
    let entry = t.alternative(key)?;
    let value = t.word_of(&entry, words)?;
    Some(t.given(&entry, value))
}

/// What a cloud is laid on.
pub(super) struct Ground<'g> {
    pub(super) length: Option<Length>,
    pub(super) width: Option<Length>,
    pub(super) low: &'g Threshold,
    pub(super) high: &'g Threshold,
    pub(super) keys: &'g CloudKeys,
}

/// Lines of a cloud, the noise of a level, and what became of its points.
pub(super) struct FromCloud {
    pub(super) file: Arc<str>,
    pub(super) lines: Vec<SurveyLine>,
    pub(super) noise: Option<Given<Length>>,
    pub(super) facts: CloudFacts,
}

/// Whether an entry names a point cloud.
pub(super) fn is_cloud(entry: &Entry<'_>) -> bool {
    let ending = entry.value.as_str().and_then(|path| path.trim().rsplit_once('.'));
    ending.is_some_and(|(_, ending)| {
        ending.eq_ignore_ascii_case("las") || ending.eq_ignore_ascii_case("laz")
    })
}

/// The levels of the cloud that an entry names; mistakes stand at the entry.
pub(super) fn cloud(
    t: &Table<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
    ground: &Ground<'_>,
    stated_noise: Option<Given<Length>>,
) -> Option<FromCloud> {
    let DeValue::String(named) = entry.value else {
        return None;
    };
    let request = request(t, entry, ground)?;
    let path = beside(&t.page().file, named);
    let input = files.open(&path, t.page(), entry.span.clone())?;
    match read_cloud(input, &request, &mut |_| ()) {
        Ok(Gridded { lines, facts }) => {
            let noise = stricter(stated_noise, computed_noise(t, entry, &facts));
            let file: Arc<str> = path.into();
            files.keep_levels(&file, levels(&lines));
            Some(FromCloud { file, lines, noise, facts })
        }
        Err(error) => {
            let advice = advice(&error);
            let mistake = Mistake::Cloud { path, reason: error.to_string(), advice };
            t.page().report(entry.span.clone(), &mistake);
            None
        }
    }
}

/// Levels as rows, to a thousandth of a millimetre.
fn levels(lines: &[SurveyLine]) -> String {
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

fn request(t: &Table<'_>, entry: &Entry<'_>, ground: &Ground<'_>) -> Option<CloudRequest> {
    let lacks = |stands: bool, key: &str, example: &str| {
        if !stands {
            let (key, example) = (key.to_owned(), example.to_owned());
            t.page().report(entry.span.clone(), &Mistake::CloudNeeds { key, example });
        }
    };
    lacks(t.has("length"), "length", "\"1980 m\"");
    lacks(t.has("width"), "width", "\"45 m\"");
    lacks(ground.low.easting.1, "low_end.easting", "\"500000 m\"");
    lacks(ground.low.northing.1, "low_end.northing", "\"4100000 m\"");
    lacks(ground.high.easting.1, "high_end.easting", "\"501836 m\"");
    lacks(ground.high.northing.1, "high_end.northing", "\"4100742 m\"");
    let (low, high) = (ground.low.point()?, ground.high.point()?);
    let (length, width) = (ground.length?, ground.width?);
    let axis = match StationAxis::between(low, high) {
        Ok(axis) => axis,
        Err(error) => {
            let (path, advice) = (shown_path(entry), advice(&error));
            let mistake = Mistake::Cloud { path, reason: error.to_string(), advice };
            t.page().report(entry.span.clone(), &mistake);
            return None;
        }
    };
    let apart = axis.length();
    let allowed = length * LENGTH_SHARE + metres(LENGTH_MORE_M);
    if apart > length + allowed || apart < length - allowed {
        let mistake = Mistake::AxisApart { apart: shown(apart), length: shown(length) };
        t.page().report(place_of(t, ground), &mistake);
        return None;
    }
    Some(CloudRequest {
        axis,
        strip_length: length,
        strip_width: width,
        settings: ground.keys.settings(),
        horizontal_unit: ground.keys.horizontal_unit.as_ref().map(|unit| unit.value),
        vertical_unit: ground.keys.vertical_unit.as_ref().map(|unit| unit.value),
    })
}

fn shown_path(entry: &Entry<'_>) -> String {
    entry.value.as_str().unwrap_or_default().to_owned()
}

fn place_of(t: &Table<'_>, ground: &Ground<'_>) -> Range<usize> {
    let easting = ground.high.easting.0.as_ref();
    easting.map_or(0..0, |easting| t.page().value_at(&easting.origin))
}

fn computed_noise(t: &Table<'_>, entry: &Entry<'_>, facts: &CloudFacts) -> Option<Given<Length>> {
    let noise = facts.level_noise?;
    let source = Some("scatter of the points of the cloud about the ground of their cells".into());
    Some(Given { value: noise, origin: t.page().origin(entry.span.start, &entry.path), source })
}

/// The greater of what the surveyor states and what the points show.
fn stricter(
    stated: Option<Given<Length>>,
    computed: Option<Given<Length>>,
) -> Option<Given<Length>> {
    match (stated, computed) {
        (Some(stated), Some(computed)) if stated.value >= computed.value => Some(stated),
        (stated, computed) => computed.or(stated),
    }
}

/// The way out of each error of a cloud.
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
            "check `easting` and `northing` of both ends against the frame of the cloud"
        }
        Error::TooManyCells { .. } | Error::SettingOutOfRange { .. } | Error::TooSparse { .. } => {
            "state `cell_length` and `cell_width` under [survey_info] to suit the survey"
        }
        Error::NoGroundPoint { .. } => {
            "write `ground = \"filtered\"` under [survey_info], or have the ground classified"
        }
        Error::NotPlane => "ask the surveyor for the cloud in the plane frame of the thresholds",
        _ => "copy the file again from where it came, or ask the surveyor for it as LAS 1.4",
    };
    text.to_owned()
}
