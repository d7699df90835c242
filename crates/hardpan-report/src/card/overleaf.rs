//! The back of the card: limits and handling by phase, and whatever the front
//! had to cut of what the crew must do or know. Nothing is cut here; it takes
//! as many pages as it needs.

use super::lists::{self, Line, ListLine};
use crate::report::{HandlingLine, PhaseBlock};
use crate::typeset::printable;
use hardpan_assess::CardLineKind;
use serde::Serialize;

/// All that stands overleaf.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct OverleafData {
    points: f64,
    account: Vec<(&'static str, String)>,
    phases: Vec<Vec<PhaseData>>,
    conditions: Vec<Vec<ListLine>>,
    missing: Vec<Vec<ListLine>>,
}

/// One phase.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct PhaseData {
    phase: &'static str,
    lines: Vec<PhaseLine>,
}

/// One line of a phase.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct PhaseLine {
    kind: &'static str,
    text: String,
    source: String,
}

/// Lists that the front cut, to be told in full.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Uncut {
    pub(super) conditions: Vec<Line>,
    pub(super) missing: Vec<Line>,
}

impl OverleafData {
    pub(super) fn new(
        account: &[(&'static str, String)],
        phases: &[PhaseBlock],
        uncut: &Uncut,
        points: f64,
    ) -> Self {
        let phases: Vec<PhaseData> = phases.iter().map(phase).collect();
        let column = |lines: &[Line]| balanced(lists::all(lines), ListLine::height);
        Self {
            points,
            account: account.iter().map(|(asked, said)| (*asked, printable(said))).collect(),
            phases: balanced(phases, PhaseData::height),
            conditions: column(&uncut.conditions),
            missing: column(&uncut.missing),
        }
    }
}

/// Characters that stand on one line of a column, about.
const LINE: usize = 62;

impl ListLine {
    fn height(&self) -> usize {
        1 + self.characters() / LINE
    }
}

impl PhaseData {
    fn height(&self) -> usize {
        let of = |line: &PhaseLine| 1 + (line.text.len() + line.source.len()) / LINE;
        2 + self.lines.iter().map(of).sum::<usize>()
    }
}

/// Two columns of about the same height, in order.
fn balanced<T>(items: Vec<T>, height: impl Fn(&T) -> usize) -> Vec<Vec<T>> {
    let heights: Vec<usize> = items.iter().map(height).collect();
    let sum = |part: Option<&[usize]>| part.unwrap_or_default().iter().sum::<usize>();
    let taller = |at: &usize| sum(heights.get(..*at)).max(sum(heights.get(*at..)));
    let split = (0..=items.len()).min_by_key(taller).unwrap_or(0);
    let mut left = items;
    let right = left.split_off(split);
    vec![left, right]
}

fn phase(block: &PhaseBlock) -> PhaseData {
    let line = |line: &HandlingLine| PhaseLine {
        kind: match line.kind {
            CardLineKind::Limit => "limit",
            CardLineKind::Computed => "computed",
            CardLineKind::Handling => "handling",
        },
        text: printable(&line.text),
        source: printable(&line.source),
    };
    PhaseData { phase: block.phase, lines: block.lines.iter().map(line).collect() }
}

#[cfg(test)]
mod tests {
    use super::{OverleafData, Uncut};
    use crate::report::{HandlingLine, PhaseBlock};
    use hardpan_assess::CardLineKind;

    #[test]
    fn nothing_is_cut_and_nothing_is_left_out() {
        let text = |n: usize| format!("{n} {}", "hold what is approved ".repeat(60));
        let line = |n| HandlingLine {
            kind: CardLineKind::Computed,
            text: text(n),
            source: "D20".to_owned(),
        };
        let block = |phase| PhaseBlock { phase, lines: (0..40).map(line).collect() };
        let uncut = Uncut {
            conditions: (0..50).map(|n| ("!", text(n))).collect(),
            missing: (0..30).map(|n| ("?", text(n))).collect(),
        };
        let overleaf = OverleafData::new(&[], &[block("taxi"), block("landing")], &uncut, 9.0);
        let printed = serde_json::to_string(&overleaf).unwrap();
        let times = |n: usize| printed.matches(&format!("\"{}\"", text(n))).count();
        assert_eq!([times(5), times(35), times(45)], [4, 3, 1]);
    }
}
