//! From findings to the answer: the worst verdict, what governs, what to keep.

use crate::assessment::Answer;
use hardpan_model::{Finding, Mark, Verdict, Weight};

/// The answer that a set of findings gives; `sentence` is written by the caller.
pub(crate) fn answer(findings: &[Finding], sentence: String) -> Answer {
    let verdict = verdict(findings);
    Answer {
        verdict,
        sentence,
        governing: governing(findings),
        conditions: conditions(findings),
        missing: missing(findings),
    }
}

/// The worst verdict of the safety findings, no better than conditional when
/// one of them passes on a model alone.
pub(crate) fn verdict(findings: &[Finding]) -> Verdict {
    let safety = || findings.iter().filter(|finding| finding.weight == Weight::Safety);
    let worst = safety().map(|finding| finding.verdict).max();
    let planning = safety().any(|finding| finding.mark == Mark::PlanningOnly);
    match worst {
        None => Verdict::Unproven,
        Some(Verdict::Pass) if planning => Verdict::Conditional,
        Some(worst) => worst,
    }
}

/// The finding that governs: the first of the worst verdict; among findings
/// that hold, the one with the least margin as a share of its limit, the first
/// of those that read alike.
fn governing(findings: &[Finding]) -> Option<usize> {
    let safety =
        || findings.iter().enumerate().filter(|(_, finding)| finding.weight == Weight::Safety);
    let worst = safety().map(|(_, finding)| finding.verdict).max()?;
    if worst >= Verdict::Unproven {
        return safety().find(|(_, finding)| finding.verdict == worst).map(|(index, _)| index);
    }
    safety()
        .filter_map(|(index, finding)| Some((index, relative_margin(finding)?)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(index, _)| index)
}

/// Margins that differ by less than this share of the limit read alike.
const READS_ALIKE: f64 = 1e-3;

fn relative_margin(finding: &Finding) -> Option<f64> {
    let limit = finding.limit?.amount.si.abs();
    let share = (finding.margin()?.si / limit / READS_ALIKE).round();
    (limit > 0.0 && share.is_finite() && !is_clerical(finding)).then_some(share)
}

/// Ages of papers and inspections hold or do not; how nearly says nothing of
/// what limits the flight.
fn is_clerical(finding: &Finding) -> bool {
    finding.code.starts_with(['S', 'E'])
}

fn conditions(findings: &[Finding]) -> Vec<String> {
    let held = findings
        .iter()
        .filter(|finding| finding.verdict == Verdict::Conditional && !is_limit_to_hold(finding))
        .filter(|finding| finding.weight == Weight::Safety || finding.instruction.is_some())
        .map(|finding| match &finding.instruction {
            Some(instruction) => format!("{} ({})", instruction, finding.code),
            None => format!("{}: {} ({})", finding.title, finding.because, finding.code),
        });
    let approved = findings
        .iter()
        .filter(|finding| finding.verdict == Verdict::Conditional && is_limit_to_hold(finding))
        .count();
    let planning = findings
        .iter()
        .filter(|finding| finding.weight == Weight::Safety && finding.mark == Mark::PlanningOnly)
        .count();
    let mut all: Vec<String> = held.collect();
    match approved {
        0 => {}
        1 => all.push("hold the approved limit of the card in its phase (L20)".to_owned()),
        _ => all
            .push(format!("hold the {approved} approved limits of the card in their phases (L20)")),
    }
    match planning {
        0 => {}
        1 => all.push("confirm the figure marked planning only in the approved manual".to_owned()),
        _ => all.push(format!(
            "confirm the {planning} figures marked planning only in the approved manual"
        )),
    }
    all
}

/// Whether it is a limit of the operator's manual that the crew holds: all of them are
/// told as one condition, since the card lists each.
fn is_limit_to_hold(finding: &Finding) -> bool {
    finding.code == "L20"
}

fn missing(findings: &[Finding]) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let unproven = findings
        .iter()
        .filter(|finding| finding.verdict == Verdict::Unproven && finding.weight == Weight::Safety);
    for need in unproven.flat_map(|finding| &finding.needs) {
        let line = format!("{}: {}", need.what, need.how);
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}
