//! Keys of `[survey_info]` that go with some surveys and not with others.

use crate::diagnose::mistake::Mistake;
use crate::strip::ends::length;
use crate::table::cursor::{Entry, Table};
use crate::table::plausible;
use hardpan_model::Given;
use hardpan_quantity::Length;
use hardpan_survey::{CloudUnit, GridSettings, GroundUse};

const GROUNDS: [(&str, GroundUse); 3] = [
    ("as marked", GroundUse::AsMarked),
    ("marked only", GroundUse::Marked),
    ("filtered", GroundUse::Filtered),
];
const AXES: [(&str, AxisUse); 2] =
    [("thresholds", AxisUse::Thresholds), ("fitted", AxisUse::Fitted)];

fn units() -> [(&'static str, CloudUnit); 3] {
    CloudUnit::ALL.map(|unit| (unit.word(), unit))
}

/// What the axis of a survey is laid along.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
enum AxisUse {
    /// Both thresholds.
    #[default]
    Thresholds,
    /// The survey itself.
    Fitted,
}

/// What a survey file is, as far as its keys go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum SurveyKind {
    /// A table of levels by station and offset.
    Levels,
    /// Single positions of a satellite receiver.
    Positions,
    /// A point cloud.
    Cloud,
    /// A grid of levels.
    Grid,
}

impl SurveyKind {
    /// What the ending of the path tells; a table may still hold positions.
    pub(super) fn of(entry: &Entry<'_>) -> Self {
        let ending = entry.value.as_str().and_then(|path| path.trim().rsplit_once('.'));
        match ending.map(|(_, ending)| ending.to_ascii_lowercase()).as_deref() {
            Some("las" | "laz") => Self::Cloud,
            Some("asc" | "tif" | "tiff") => Self::Grid,
            _ => Self::Levels,
        }
    }
}

/// The keys with which kinds they go, and how those are called.
const KEYS: [(&str, &[SurveyKind], &str); 6] = [
    ("cell_length", &[SurveyKind::Cloud], "a point cloud"),
    ("cell_width", &[SurveyKind::Cloud], "a point cloud"),
    ("ground", &[SurveyKind::Cloud], "a point cloud"),
    ("horizontal_unit", &[SurveyKind::Cloud, SurveyKind::Grid], "a point cloud or a grid"),
    ("vertical_unit", &[SurveyKind::Cloud, SurveyKind::Grid], "a point cloud or a grid"),
    (
        "axis",
        &[SurveyKind::Positions, SurveyKind::Cloud, SurveyKind::Grid],
        "a table of positions, a point cloud or a grid",
    ),
];

/// What is said of the survey beside its file and its date.
#[derive(Default)]
pub(super) struct SurveyKeys {
    cell_length: Option<Given<Length>>,
    cell_width: Option<Given<Length>>,
    pub(super) horizontal_unit: Option<Given<CloudUnit>>,
    pub(super) vertical_unit: Option<Given<CloudUnit>>,
    ground: Option<Given<GroundUse>>,
    axis: Option<Given<AxisUse>>,
    /// Keys that stand in the file, and where.
    standing: Vec<(&'static str, String, std::ops::Range<usize>)>,
}

impl SurveyKeys {
    pub(super) fn read(t: &mut Table<'_>) -> Self {
        let keys = Self {
            cell_length: length(t, "cell_length", plausible::CLOUD_CELL).0,
            cell_width: length(t, "cell_width", plausible::CLOUD_CELL).0,
            horizontal_unit: word(t, "horizontal_unit", &units()),
            vertical_unit: word(t, "vertical_unit", &units()),
            ground: word(t, "ground", &GROUNDS),
            axis: word(t, "axis", &AXES),
            standing: Vec::new(),
        };
        let standing = KEYS.iter().filter(|(key, ..)| t.has(key));
        let standing = standing.map(|(key, ..)| (*key, t.path_of(key), t.span_of(key))).collect();
        Self { standing, ..keys }
    }

    /// Name the keys that do not go with the kind of the survey.
    pub(super) fn of_other_kinds(&self, t: &Table<'_>, kind: SurveyKind) {
        for (key, path, span) in &self.standing {
            let Some((_, kinds, with)) = KEYS.iter().find(|(name, ..)| name == key) else {
                continue;
            };
            if !kinds.contains(&kind) {
                let mistake = Mistake::OtherSurvey { key: path.clone(), with: (*with).to_owned() };
                t.page().report(span.clone(), &mistake);
            }
        }
    }

    /// Whether the axis is laid along the survey itself.
    pub(super) fn is_fitted(&self) -> bool {
        self.axis.as_ref().is_some_and(|given| given.value == AxisUse::Fitted)
    }

    pub(super) fn cells(&self) -> GridSettings {
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

fn word<T: Copy>(
    t: &mut Table<'_>,
    key: &'static str,
    words: &[(&'static str, T)],
) -> Option<Given<T>> {
    let entry = t.alternative(key)?;
    let value = t.word_of(&entry, words)?;
    Some(t.given(&entry, value))
}
