//! What a survey says, by station.

use crate::chord::EventKind;
use crate::crossfall::Crossfall;
use crate::event::Event;
use crate::noise::NoiseFloor;
use crate::profile::Stretch;
use crate::rules::{EdgeRule, HOLES};
use crate::slope::{Gradient, SlopeAt};
use hardpan_model::{Caveat, Need, Verdict};
use hardpan_quantity::Length;

/// Everything that the survey says.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceReport {
    /// One entry for each chord or straightedge of the rules, in their order.
    pub edges: Vec<EdgeReport>,
    /// One entry for each survey line, in the order of the survey.
    pub slopes: Vec<LineSlopes>,
    /// Crossfall by station.
    pub crossfall: Vec<Crossfall>,
    /// What is missing for the survey as a whole.
    pub needs: Vec<Need>,
    /// What the reader must know.
    pub caveats: Vec<Caveat>,
}

/// Whether the design grade is left in the profile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grade {
    /// The profile as surveyed.
    LeftIn,
    /// Less the smooth grade of [`design_grade`](crate::design_grade).
    Removed,
}

/// What one chord or straightedge shows on the whole strip.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeReport {
    /// The rule.
    pub rule: EdgeRule,
    /// By survey line.
    pub lines: Vec<EdgeLine>,
    /// Largest bump of all lines, with the grade left in or removed, whichever is larger.
    pub worst_bump: Option<(Event, Grade)>,
    /// Largest rut of all lines, likewise.
    pub worst_rut: Option<(Event, Grade)>,
    /// Noise of the least certain line.
    pub noise: Option<NoiseFloor>,
    /// Least height that is over the limit whatever the noise: the limit itself
    /// in a quiet survey.
    pub sure_from: Length,
    /// Pass, fail, or unproven with the needs that say why.
    pub verdict: Verdict,
    /// What is missing to prove it.
    pub needs: Vec<Need>,
}

/// What one chord or straightedge shows along one line.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeLine {
    /// Offset of the line.
    pub offset: Length,
    /// Events with the grade left in, by falling height.
    pub grade_left_in: Vec<Event>,
    /// Events with the design grade removed, by falling height.
    pub grade_removed: Vec<Event>,
    /// Stretches on which the edge was laid.
    pub surveyed: Vec<Stretch>,
    /// Stretches of the strip where the survey is too sparse or too short for
    /// this check.
    pub unsurveyed: Vec<Stretch>,
    /// What survey noise alone would show; none when the noise is not stated.
    pub noise: Option<NoiseFloor>,
}

/// Slopes along one line.
#[derive(Debug, Clone, PartialEq)]
pub struct LineSlopes {
    /// Offset of the line.
    pub offset: Length,
    /// Gradient of the whole line.
    pub gradient: Gradient,
    /// Local slopes by station.
    pub local: Vec<SlopeAt>,
    /// Changes of slope by station.
    pub changes: Vec<SlopeAt>,
}

impl EdgeReport {
    /// Whether the edge could be laid anywhere at all: then a report without an
    /// event tells of plane ground.
    #[must_use]
    pub fn is_laid(&self) -> bool {
        self.lines.iter().any(|line| !line.surveyed.is_empty())
    }

    /// Whether it is the edge that looks for holes, whatever the chords say.
    #[must_use]
    pub fn looks_for_holes(&self) -> bool {
        self.rule.name == HOLES
    }

    /// The larger of the largest bump and the largest rut.
    #[must_use]
    pub fn worst(&self) -> Option<(Event, Grade)> {
        match (self.worst_bump, self.worst_rut) {
            (Some(bump), Some(rut)) if rut.0.height > bump.0.height => Some(rut),
            (Some(bump), _) => Some(bump),
            (None, rut) => rut,
        }
    }

    /// Whether an event is over the limit and cannot be noise.
    #[must_use]
    pub fn is_surely_over(&self, event: &Event) -> bool {
        event.exceeds && event.height >= self.sure_from
    }

    /// All events that are surely over the limit, with the grade left in or
    /// removed.
    pub fn exceedances(&self) -> impl Iterator<Item = (&Event, Grade)> {
        self.lines.iter().flat_map(|line| {
            let left_in = line.grade_left_in.iter().map(|event| (event, Grade::LeftIn));
            let removed = line.grade_removed.iter().map(|event| (event, Grade::Removed));
            left_in.chain(removed).filter(|(event, _)| self.is_surely_over(event))
        })
    }
}

impl EdgeLine {
    pub(crate) fn worst(&self, kind: EventKind) -> Option<(Event, Grade)> {
        let left_in = self.grade_left_in.iter().map(|event| (*event, Grade::LeftIn));
        let removed = self.grade_removed.iter().map(|event| (*event, Grade::Removed));
        left_in
            .chain(removed)
            .filter(|(event, _)| event.kind == kind)
            .reduce(|most, next| if next.0.height > most.0.height { next } else { most })
    }
}

impl LineSlopes {
    /// The local slope of greatest size.
    #[must_use]
    pub fn steepest(&self) -> Option<SlopeAt> {
        greatest(&self.local)
    }

    /// The change of slope of greatest size.
    #[must_use]
    pub fn greatest_change(&self) -> Option<SlopeAt> {
        greatest(&self.changes)
    }
}

fn greatest(slopes: &[SlopeAt]) -> Option<SlopeAt> {
    slopes
        .iter()
        .copied()
        .reduce(|most, next| if next.value.abs() > most.value.abs() { next } else { most })
}
