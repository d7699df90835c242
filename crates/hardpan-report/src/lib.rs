//! WRITE: one [`Report`] value, and what is made of it: terminal text, the
//! opened basis of a figure, JSON, SVG figures and the crew card; and
//! the same of a strip by itself, with its dossier; and the lesson of a flight.
//!
//! Nothing is computed here beyond units, rounding and places on paper; there
//! is no clock, no environment and no file.

mod bearing;
mod candidate;
mod card;
mod confidence;
mod dossier;
mod explain;
mod figure;
mod json;
mod lesson;
mod measure;
mod readings;
mod report;
mod rule;
mod sheet;
mod text;
mod told;
mod typeset;
mod ways;
mod weeks;
mod wrap;
mod year;

pub use bearing::*;
pub use card::{card_page_count, card_pdf, card_texts};
pub use confidence::*;
pub use dossier::{
    DOSSIER_FORMAT, DOSSIER_VERSION, DossierReport, OnGlobe, dossier_json, dossier_pdf,
    dossier_places, dossier_schema, dossier_text,
};
pub use explain::*;
pub use figure::{
    Scale, StripFigure, bearing_figure, climb_figure, decision_figure, event_label, event_word,
    mark_label, mark_word, masses_figure, runs_figure, stone_figure, strip_figure, strip_figures,
    strip_sketch,
};
pub use json::*;
pub use lesson::{Lesson, LessonChapter, lesson_pdf, lesson_text};
pub use measure::*;
pub use report::{
    AnswerBlock, BasisCount, DayLine, DistanceLine, FindingRow, HandlingLine, MassBlock, MassLine,
    PhaseBlock, PressureLine, Produced, RemedyLine, Report, Row, SpeedLine, StateLine, StonesLine,
    TurningLine, TyreBlock, verdict_symbol,
};
pub use rule::{RuleSection, RuleText, rule_text, rules_json};
pub use sheet::{
    MASSES_FORMAT, MASSES_LEAVE_OUT, MASSES_VERSION, MassesReport, masses_csv, masses_json,
    masses_pdf, masses_schema, masses_text,
};
pub use text::{TextStyle, calibration_text, comparison, text};
pub use typeset::{TypesetError, glued, typefaces};
pub use weeks::{WEEKS_FORMAT, WEEKS_VERSION, weeks_json, weeks_schema, weeks_text};
pub use {candidate::Candidate, readings::*};
pub use {ways::*, year::*};
