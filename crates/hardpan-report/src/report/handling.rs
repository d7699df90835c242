//! Limits and handling by phase, as the crew meets them.

use crate::wrap::plain;
use hardpan_assess::{CardLine, CardLineKind};
use hardpan_model::Phase;

/// The lines of one phase.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhaseBlock {
    /// Phase, in a word.
    pub phase: &'static str,
    /// Approved limits first, then computed ones, then the operator's words.
    pub lines: Vec<HandlingLine>,
}

/// One line of a phase.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HandlingLine {
    /// Kind.
    pub kind: CardLineKind,
    /// Text with its figure.
    pub text: String,
    /// Where it comes from.
    pub source: String,
}

impl HandlingLine {
    /// The kind in words.
    #[must_use]
    pub const fn kind_word(&self) -> &'static str {
        match self.kind {
            CardLineKind::Limit => "approved limit",
            CardLineKind::Computed => "computed, planning only",
            CardLineKind::Handling => "operator",
        }
    }

    /// The sign that stands before the line.
    #[must_use]
    pub const fn sign(&self) -> &'static str {
        match self.kind {
            CardLineKind::Limit => "■",
            CardLineKind::Computed => "◇",
            CardLineKind::Handling => "–",
        }
    }
}

/// The phases that have lines, in the order of the flight.
pub(crate) fn phases(lines: &[CardLine]) -> Vec<PhaseBlock> {
    Phase::ALL
        .into_iter()
        .map(|phase| block(phase, lines))
        .filter(|block| !block.lines.is_empty())
        .collect()
}

fn block(phase: Phase, lines: &[CardLine]) -> PhaseBlock {
    let kinds = [CardLineKind::Limit, CardLineKind::Computed, CardLineKind::Handling];
    let lines = kinds
        .into_iter()
        .flat_map(|kind| lines.iter().filter(move |line| line.phase == phase && line.kind == kind))
        .map(handling_line)
        .collect();
    PhaseBlock { phase: phase.word(), lines }
}

fn handling_line(line: &CardLine) -> HandlingLine {
    HandlingLine { kind: line.kind, text: plain(&line.text), source: plain(&line.source) }
}
