//! Limits and handling by phase, for the card.

use crate::assessment::{CardLine, CardLineKind};
use hardpan_model::{Finding, Flight, Mark, Phase, Verdict};

/// Every line of the card, by phase: limits first, then what was computed,
/// then the operator's words.
pub(crate) fn card_lines(flight: &Flight, findings: &[Finding]) -> Vec<CardLine> {
    let mut lines: Vec<CardLine> =
        findings.iter().filter(|finding| is_for_crew(finding)).filter_map(from_finding).collect();
    lines.extend(flight.aeroplane.handling.iter().map(|handling| {
        CardLine {
            phase: handling.phase,
            kind: CardLineKind::Handling,
            text: handling.say.value.clone(),
            amount: None,
            source: handling
                .say
                .source
                .as_deref()
                .map_or_else(|| handling.say.origin.to_string(), str::to_owned),
        }
    }));
    lines.retain(|line| is_flown(flight, line.phase));
    lines.sort_by_key(|line| (position(line.phase), rank(line.kind)));
    lines
}

/// What the crew must hold or know: conditions, and approved limits that were checked.
fn is_for_crew(finding: &Finding) -> bool {
    finding.instruction.is_some()
        && (finding.verdict == Verdict::Conditional || finding.mark == Mark::Approved)
}

fn from_finding(finding: &Finding) -> Option<CardLine> {
    let kind = match finding.mark {
        Mark::Approved => CardLineKind::Limit,
        Mark::Measured | Mark::PlanningOnly => CardLineKind::Computed,
    };
    let amount = match finding.mark {
        Mark::Approved => finding.limit.map(|limit| limit.amount),
        Mark::Measured | Mark::PlanningOnly => None,
    };
    Some(CardLine {
        phase: finding.phase,
        kind,
        text: finding.instruction.clone()?,
        amount,
        source: finding.code.to_owned(),
    })
}

fn is_flown(flight: &Flight, phase: Phase) -> bool {
    match phase {
        Phase::Landing | Phase::AfterLanding => flight.landing.is_some(),
        Phase::BeforeBrakeRelease | Phase::TakeOff | Phase::Climb => flight.take_off.is_some(),
        Phase::Taxi | Phase::Always => true,
    }
}

fn position(phase: Phase) -> usize {
    Phase::ALL.iter().position(|one| *one == phase).unwrap_or(Phase::ALL.len())
}

fn rank(kind: CardLineKind) -> usize {
    match kind {
        CardLineKind::Limit => 0,
        CardLineKind::Computed => 1,
        CardLineKind::Handling => 2,
    }
}
