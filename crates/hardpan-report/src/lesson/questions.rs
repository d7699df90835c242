//! Questions on this flight. Each answer is read off the assessment, never
//! written here.

use super::worked::Worked;
use crate::FindingRow;
use crate::measure::{amount_text, place_text};
use crate::report::Report;
use crate::wrap::{plain, sentence};
use hardpan_assess::PressureRow;
use hardpan_model::{Finding, Verdict, Weight};
use hardpan_quantity::{Mass, Pressure, Quantity};

/// Most questions of one kind about one chapter.
const OF_A_KIND: usize = 2;

/// One question with its answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Question {
    /// What is asked.
    pub(super) asks: String,
    /// The answer.
    pub(super) answer: String,
    /// What to open for more: codes of findings.
    pub(super) see: String,
}

/// Questions about the findings of one chapter.
pub(super) fn of_chapter(
    letters: &str,
    indices: &[usize],
    worked: Option<&Worked>,
    report: &Report,
) -> Vec<Question> {
    let both = |index: &usize| {
        Some((report.assessment.findings.get(*index)?, report.findings.get(*index)?))
    };
    let told: Vec<(&Finding, &FindingRow)> = indices.iter().filter_map(both).collect();
    let findings: Vec<&Finding> = told.iter().map(|(finding, _)| *finding).collect();
    let mut out: Vec<Question> = worked.map(by_hand).into_iter().collect();
    out.extend(unproven(&findings));
    out.extend(margins(&told));
    if letters.contains('T') {
        out.extend(pressure(report));
    }
    if letters.contains('D') {
        out.extend(handling(report));
    }
    out
}

/// Questions about the answer as a whole.
pub(super) fn of_the_whole(report: &Report) -> Vec<Question> {
    let mut out = Vec::new();
    let answer = &report.answer;
    if let Some(governs) = &answer.governing_line {
        let see = report.answer.governing.and_then(|index| report.findings.get(index));
        out.push(Question {
            asks: "Which finding governs the answer, and what does it rest on?".to_owned(),
            answer: sentence(governs),
            see: see.map_or_else(String::new, |row| row.code.to_owned()),
        });
    }
    out.extend(report.masses.iter().filter_map(mass));
    out.extend(report.turning.iter().map(|line| Question {
        asks: format!(
            "The plan has {} of {}. How far may it move, all else as planned, before the answer \
             turns, and what turns it?",
            line.what, line.now
        ),
        answer: sentence(&line.sentence),
        see: String::new(),
    }));
    out.extend(report.states.iter().map(|line| Question {
        asks: format!(
            "The surface is found {}. What is the answer, and what gives it?",
            line.state
        ),
        answer: match line.by.as_str() {
            "" => sentence(line.verdict.word()),
            by => format!("It is {}: {by}.", line.verdict.word()),
        },
        see: String::new(),
    }));
    out.extend(remedy(report));
    out
}

fn by_hand(worked: &Worked) -> Question {
    let inputs = worked.inputs.iter().map(|(told, _)| told.as_str());
    Question {
        asks: format!(
            "Work out by hand the {} with {}, from: {}.",
            worked.computes,
            worked.formula,
            inputs.collect::<Vec<_>>().join("; ")
        ),
        answer: format!("{}. Its spread: {}", worked.result, sentence(&worked.scatter)),
        see: worked.code.to_owned(),
    }
}

fn unproven(findings: &[&Finding]) -> Vec<Question> {
    let open = findings.iter().filter(|finding| {
        finding.verdict == Verdict::Unproven
            && finding.weight == Weight::Safety
            && !finding.needs.is_empty()
    });
    open.take(OF_A_KIND)
        .map(|finding| Question {
            asks: format!(
                "{} {} is unproven. What is missing, and how is it supplied?",
                finding.code,
                plain(&finding.title)
            ),
            answer: finding
                .needs
                .iter()
                .map(|need| sentence(&format!("{}: {}", plain(&need.what), plain(&need.how))))
                .collect::<Vec<_>>()
                .join(" "),
            see: finding.code.to_owned(),
        })
        .collect()
}

/// The findings nearest to their limits.
fn margins(told: &[(&Finding, &FindingRow)]) -> Vec<Question> {
    let mut held: Vec<(&Finding, &FindingRow, f64)> = told
        .iter()
        .filter_map(|(finding, row)| {
            let (margin, limit) = (finding.margin()?, finding.limit?);
            let share = margin.si / limit.amount.si.abs();
            share.is_finite().then_some((*finding, *row, share))
        })
        .collect();
    held.sort_by(|a, b| a.2.total_cmp(&b.2));
    held.into_iter().take(OF_A_KIND).filter_map(|(one, row, _)| margin(one, row)).collect()
}

fn margin(finding: &Finding, row: &FindingRow) -> Option<Question> {
    let left = finding.margin()?;
    let (value, limit, size) = (row.value.as_ref()?, row.limit.as_ref()?, row.margin.as_ref()?);
    let size = size.trim_start_matches(['+', '−']);
    let side = if left.si < 0.0 { "over the limit by" } else { "inside the limit by" };
    let place = finding.place.map(|place| place_text(place, row.units));
    let place = place.map(|place| format!(" The place is {place}."));
    Some(Question {
        asks: format!(
            "{} {}: the limit is {limit}. What is the figure of this flight, how far is it from \
             the limit, and where?",
            row.code, row.title
        ),
        answer: format!("{value}, {side} {size}.{}", place.unwrap_or_default()),
        see: row.code.to_owned(),
    })
}

/// The pressure set against another of the table.
fn pressure(report: &Report) -> Option<Question> {
    let tyre = &report.assessment.tyre;
    let set = tyre.set?;
    let nearest = nearest(&tyre.table, set)?;
    let other = farthest(&tyre.table, set)?;
    let (here, there) = (nearest.ground?, other.ground?);
    let units = report.units;
    let change = Mass::from_si((there.si() - here.si()).abs());
    let word = if there.si() < here.si() { "less" } else { "more" };
    let shown = |pressure: Pressure| amount_text(pressure.into(), units);
    let mass = |mass: Mass| amount_text(mass.into(), units);
    let tyres = match other.tyre {
        Some(tyre) => format!(" Tyre and chart would allow {}.", mass(tyre)),
        None => String::new(),
    };
    Some(Question {
        asks: format!(
            "The main tyres are set to {}. How much mass would the ground carry at {} against \
             {}, and what would tyre and chart allow there?",
            shown(set),
            shown(other.pressure),
            shown(nearest.pressure)
        ),
        answer: format!("{} against {}: {} {word}.{tyres}", mass(there), mass(here), mass(change)),
        see: "T10, G20".to_owned(),
    })
}

fn nearest(table: &[PressureRow], set: Pressure) -> Option<&PressureRow> {
    table.iter().min_by(|a, b| away(a, set).total_cmp(&away(b, set)))
}

fn farthest(table: &[PressureRow], set: Pressure) -> Option<&PressureRow> {
    table.iter().max_by(|a, b| away(a, set).total_cmp(&away(b, set)))
}

fn away(row: &PressureRow, set: Pressure) -> f64 {
    (row.pressure.si() - set.si()).abs()
}

fn handling(report: &Report) -> Option<Question> {
    let table = report.assessment.handling.as_ref()?;
    let ways: Vec<&str> = table.rows.iter().map(|row| row.name.as_str()).collect();
    if ways.len() < 2 {
        return None;
    }
    let thrown = |row: &hardpan_assess::HandlingRow| {
        row.thrown.map_or_else(String::new, |share| {
            format!(" It throws {:.2} times the stones of the plan.", share.si())
        })
    };
    let best = match &table.best {
        Some(row) => format!("Best: {}.{}", plain(&row.name), thrown(row)),
        None => "The plan is the best of those that are the crew's to choose.".to_owned(),
    };
    let worst = table
        .worst
        .as_ref()
        .map_or_else(String::new, |row| format!(" Worst: {}.{}", plain(&row.name), thrown(row)));
    Some(Question {
        asks: format!(
            "Which of these ways to handle the aeroplane meets fewest stones, and which most: {}?",
            ways.iter().map(|way| plain(way)).collect::<Vec<_>>().join("; ")
        ),
        answer: format!("{best}{worst}"),
        see: "D80".to_owned(),
    })
}

fn mass(block: &crate::MassBlock) -> Option<Question> {
    let first = block.limits.first()?;
    let largest = block.largest.as_deref()?;
    let next = block.limits.iter().find(|limit| limit.code != first.code);
    let next = next.map_or_else(String::new, |limit| {
        let mass = limit.mass.as_deref().unwrap_or("not known");
        format!(" Next would be {} {} at {mass}.", limit.code, limit.title)
    });
    Some(Question {
        asks: format!(
            "What sets the largest {}, and what would set it if that were mended?",
            block.name
        ),
        answer: format!("{} {}: {largest}.{next}", first.code, first.title),
        see: first.code.to_owned(),
    })
}

fn remedy(report: &Report) -> Option<Question> {
    let first = report.remedies.first()?;
    Some(Question {
        asks: "Which single change would help most, what would it bring, and what would the \
               answer be?"
            .to_owned(),
        answer: format!(
            "{} {} The answer would be {}.",
            sentence(&first.action),
            sentence(&first.effect),
            first.verdict_after.word()
        ),
        see: first.mends.clone(),
    })
}
