//! What each chord and straightedge shows, bumps and ruts apart, and the table
//! of single irregularities by their length.

use super::{Shown, StripPlace, places};
use crate::shape::survey_noise::EventNoise;
use crate::shape::survey_refusal::told;
use hardpan_model::Verdict;
use hardpan_quantity::Length;
use hardpan_surface::{
    EdgeReport, EvennessRules, Event, EventKind, IrregularityGrade, LineDetail, SingleEvent,
    SurfaceDetail, SurfaceReport, irregularity_grade,
};

pub use hardpan_surface::EventKind as Kind;

/// What one chord or straightedge shows.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeShape {
    /// Its permanent name, or the words of the limit that somebody sets.
    pub name: String,
    /// Its length.
    pub length: Length,
    /// Greatest height or depth allowed.
    pub limit: Length,
    /// Whether every surveyed line keeps the limit and is proven to.
    pub verdict: Verdict,
    /// By survey line.
    pub lines: Vec<EdgeLineShape>,
}

/// The worst on one line.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeLineShape {
    /// Offset of the line.
    pub offset: Length,
    /// Greatest bump; none where the ground nowhere stands over the edge.
    pub bump: Option<StripPlace>,
    /// Greatest rut.
    pub rut: Option<StripPlace>,
    /// Whether the edge could be laid along all of the line.
    pub whole: bool,
}

/// One row of the table of irregularities.
#[derive(Debug, Clone, PartialEq)]
pub struct IrregularityRow {
    /// Over this length, up to the next.
    pub over: Length,
    /// Length of the row.
    pub length: Length,
    /// Greatest height or depth of paved runways.
    pub most: Length,
    /// Accepted for a time.
    pub for_a_time: Length,
    /// The worst of that length, and its offset; none where there is none.
    pub found: Option<(SingleEvent, Length)>,
    /// How it stands in the table, in words.
    pub grade: &'static str,
}

/// Every edge of the report.
pub(super) fn edges(report: Option<&SurfaceReport>) -> Vec<EdgeShape> {
    report.into_iter().flat_map(|report| &report.edges).map(edge).collect()
}

fn edge(edge: &EdgeReport) -> EdgeShape {
    let limit = edge.rule.limit;
    let lines = edge.lines.iter().map(|line| {
        let worst = |kind: EventKind| {
            let all = line.grade_left_in.iter().chain(&line.grade_removed);
            let of_kind = all.filter(|event: &&Event| event.kind == kind);
            let worst =
                of_kind.reduce(|most, next| if next.height > most.height { next } else { most });
            worst.map(|event| places::chord_place(event, edge))
        };
        EdgeLineShape {
            offset: line.offset,
            bump: worst(EventKind::Bump),
            rut: worst(EventKind::Rut),
            whole: line.unsurveyed.is_empty() && !line.surveyed.is_empty(),
        }
    });
    EdgeShape {
        name: edge.rule.name.to_string(),
        length: edge.rule.length,
        limit,
        verdict: edge.verdict,
        lines: lines.collect(),
    }
}

/// The table over all lines, or why no line shows it.
pub(super) fn table(
    detail: Result<&SurfaceDetail, &String>,
    noise: Option<EventNoise>,
) -> Shown<Vec<IrregularityRow>> {
    let detail = detail.map_err(Clone::clone)?;
    let known = |line: &LineDetail| line.irregularities.as_ref().ok().map(|found| found.by_length);
    let lines: Vec<_> =
        detail.lines.iter().filter_map(|line| Some((line.offset, known(line)?))).collect();
    if lines.is_empty() {
        let why = detail.lines.iter().find_map(|line| line.irregularities.as_ref().err());
        return Err(why.map_or_else(|| "the survey has no line".to_owned(), told));
    }
    let mut over = hardpan_quantity::metres(0.0);
    let mut rows = Vec::new();
    for (row, (length, most, for_a_time)) in
        EvennessRules::irregularity_table().into_iter().enumerate()
    {
        let of_row =
            lines.iter().filter_map(|(offset, found)| Some(((*found.get(row)?)?, *offset)));
        let found =
            of_row.reduce(|most, next| if next.0.height > most.0.height { next } else { most });
        let grade = found.and_then(|(event, _)| {
            irregularity_grade(event.length.max(hardpan_quantity::metres(3.0)), event.height)
        });
        let sure = found.zip(noise).is_some_and(|((event, _), noise)| {
            event.height <= most || event.height >= noise.sure_from(most)
        });
        let grade = match grade {
            Some(_) if noise.is_none() => "noise not stated",
            Some(_) if !sure => "may be noise",
            Some(IrregularityGrade::Within) => "within",
            Some(IrregularityGrade::TemporarilyAccepted) => "for a time",
            Some(IrregularityGrade::Beyond) => "beyond both",
            None => "none",
        };
        rows.push(IrregularityRow { over, length, most, for_a_time, found, grade });
        over = length;
    }
    Ok(rows)
}
