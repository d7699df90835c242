//! Levels of a table that lie far from their neighbours.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::strip::checks::place;
use hardpan_model::{SurveyLine, SurveyPoint};
use hardpan_survey::level_jumps;

/// Note each of them at the rows of both levels.
pub(crate) fn report_jumps(page: &Page<'_>, lines: &[SurveyLine]) {
    for jump in level_jumps(lines) {
        let (point, earlier) = (jump.point, jump.earlier);
        let (apart, away) = (place(jump.apart()), place(jump.away));
        let mistake = Mistake::LevelJump { apart, away, line: point.line, earlier: earlier.line };
        let whole =
            |point: &SurveyPoint| page.lines.line_span(page.text, page.lines.start(point.line));
        page.report_with(whole(&point), &mistake, whole(&earlier), "the other row");
    }
}
