//! The report: everything that people are told, in their units, in the order
//! in which they need it. Every renderer takes this one value.

mod blocks;
mod finding_row;
mod handling;
mod held;
mod needed;

pub use blocks::{
    DayLine, DistanceLine, MassBlock, MassLine, PressureLine, RemedyLine, SpeedLine, StateLine,
    StonesLine, TurningLine, TyreBlock,
};
pub use finding_row::FindingRow;
pub(crate) use finding_row::mark_word;
pub use handling::{HandlingLine, PhaseBlock};
pub(crate) use needed::Needed;

use crate::measure::place_text;
use crate::told;
use crate::wrap::plain;
use hardpan_assess::{Assessment, CAUTION};
use hardpan_model::{Mark, Verdict, Weight};
use hardpan_quantity::UnitSystem;

/// What produced the report and when, as the caller states it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Produced {
    /// Program and version.
    pub by: String,
    /// Time, in words.
    pub at: String,
    /// What identifies the inputs, such as a digest of the files.
    pub identifier: String,
}

/// A name and what stands beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Name.
    pub label: &'static str,
    /// What stands beside it; never empty.
    pub value: String,
}

/// The answer in short.
#[derive(Debug, Clone, PartialEq)]
pub struct AnswerBlock {
    /// Verdict of the whole.
    pub verdict: Verdict,
    /// One sentence.
    pub sentence: String,
    /// Index of the governing finding among the rows; always in range.
    pub governing: Option<usize>,
    /// What governs, in one line.
    pub governing_line: Option<String>,
    /// Conditions to be kept.
    pub conditions: Vec<String>,
    /// What is missing.
    pub missing: Vec<String>,
}

/// How many findings there are, and on what they rest.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct BasisCount {
    /// All findings.
    pub findings: usize,
    /// Those that bear on safety.
    pub safety: usize,
    /// Those on an approved figure.
    pub approved: usize,
    /// Those on a fact given or measured.
    pub measured: usize,
    /// Those on a model.
    pub planning_only: usize,
    /// Those that could not be shown.
    pub unproven: usize,
}

/// Everything that people are told, in their units.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Units in which the strings are written.
    pub units: UnitSystem,
    /// What produced it and when.
    pub produced: Produced,
    /// Title: flight and strip.
    pub title: String,
    /// Who, where, when.
    pub identity: Vec<Row>,
    /// The answer.
    pub answer: AnswerBlock,
    /// Why, in the order in which a captain asks: question and answer.
    pub account: Vec<(&'static str, String)>,
    /// Largest masses, take-off first.
    pub masses: Vec<MassBlock>,
    /// Tyre pressure.
    pub tyre: TyreBlock,
    /// Speeds in the order of use.
    pub speeds: Vec<SpeedLine>,
    /// Distances needed against available.
    pub distances: Vec<DistanceLine>,
    /// Air and wind.
    pub day: Vec<DayLine>,
    /// All findings.
    pub findings: Vec<FindingRow>,
    /// What on the day would turn the answer.
    pub turning: Vec<TurningLine>,
    /// The answer in the other states of the surface.
    pub states: Vec<StateLine>,
    /// Handling compared by the stones that it meets: as planned, each single
    /// change, and the best where it is another.
    pub stones_by_handling: Vec<StonesLine>,
    /// What would help.
    pub remedies: Vec<RemedyLine>,
    /// Limits and handling by phase.
    pub phases: Vec<PhaseBlock>,
    /// On what the answer rests.
    pub basis: BasisCount,
    /// The standing caution.
    pub caution: &'static str,
    pub(crate) assessment: Assessment,
}

impl Report {
    /// The report of an assessment in one system of units.
    #[must_use]
    pub fn new(assessment: &Assessment, units: UnitSystem, produced: Produced) -> Self {
        let told = told::assessment(assessment, units);
        let assessment = &told;
        let needed = Needed::of(assessment);
        let row = |finding| FindingRow::new(finding, units, &needed);
        let findings: Vec<FindingRow> = assessment.findings.iter().map(row).collect();
        Self {
            units,
            produced: Produced {
                by: plain(&produced.by),
                at: plain(&produced.at),
                identifier: plain(&produced.identifier),
            },
            title: title(assessment),
            identity: identity(assessment),
            answer: answer(assessment, &findings),
            masses: blocks::masses(assessment, units),
            account: assessment.account.iter().map(|one| (one.asked, plain(&one.said))).collect(),
            tyre: blocks::tyre(&assessment.tyre, units),
            speeds: blocks::speeds(assessment, units),
            distances: blocks::distances(assessment, units),
            day: blocks::day(assessment, units),
            turning: blocks::turning(assessment, units),
            states: blocks::states(assessment),
            stones_by_handling: blocks::stones_by_handling(assessment),
            remedies: blocks::remedies(assessment, units),
            phases: handling::phases(&assessment.card_lines),
            basis: count(assessment),
            findings,
            caution: CAUTION,
            assessment: assessment.clone(),
        }
    }

    /// The governing finding.
    #[must_use]
    pub fn governing(&self) -> Option<&FindingRow> {
        self.answer.governing.and_then(|index| self.findings.get(index))
    }

    /// The assessment that it tells of.
    #[must_use]
    pub const fn assessment(&self) -> &Assessment {
        &self.assessment
    }

    /// Whether an answer may be acted on at all: pass or conditional.
    #[must_use]
    pub const fn is_usable(&self) -> bool {
        matches!(self.answer.verdict, Verdict::Pass | Verdict::Conditional)
    }
}

/// The sign that goes with a verdict, so that the word does not stand alone.
#[must_use]
pub const fn verdict_symbol(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "✓",
        Verdict::Conditional => "!",
        Verdict::Unproven => "?",
        Verdict::Fail => "✗",
    }
}

fn title(assessment: &Assessment) -> String {
    let or_not_stated = |what: &str, text: &str| match plain(text) {
        text if text.is_empty() => format!("{what} not stated"),
        text => text,
    };
    let identity = &assessment.identity;
    let strip = or_not_stated("strip", &identity.strip);
    format!("{strip}: {}", or_not_stated("flight", &identity.flight))
}

fn identity(assessment: &Assessment) -> Vec<Row> {
    let identity = &assessment.identity;
    let time = readable_time(&identity.time_utc);
    let rows = [
        ("Flight", &identity.flight),
        ("Aeroplane", &identity.aeroplane),
        ("Strip", &identity.strip),
        ("Directions", &identity.directions),
        ("Surface", &identity.surface),
        ("Date", &identity.date),
        ("Time (UTC)", &time),
        ("Valid", &identity.validity),
    ];
    rows.into_iter()
        .map(|(label, value)| {
            let value = plain(value);
            let value = if value.is_empty() { "not stated".to_owned() } else { value };
            Row { label, value }
        })
        .collect()
}

/// Day and minute of a time in ISO form; any other text as it is.
fn readable_time(text: &str) -> String {
    match (text.get(..10), text.get(10..11), text.get(11..16)) {
        (Some(day), Some("T"), Some(minute)) => format!("{day} {minute}"),
        _ => text.to_owned(),
    }
}

fn answer(assessment: &Assessment, findings: &[FindingRow]) -> AnswerBlock {
    let answer = &assessment.answer;
    let governing = answer.governing.filter(|index| *index < findings.len());
    let line = governing.and_then(|index| findings.get(index)).map(FindingRow::line);
    let sentence = match plain(&answer.sentence) {
        sentence if sentence.is_empty() => format!("The answer is {}.", answer.verdict.word()),
        sentence => sentence,
    };
    AnswerBlock {
        verdict: answer.verdict,
        sentence,
        governing,
        governing_line: line,
        conditions: answer.conditions.iter().map(|line| plain(line)).collect(),
        missing: answer.missing.iter().map(|line| plain(line)).collect(),
    }
}

fn count(assessment: &Assessment) -> BasisCount {
    let mut count = BasisCount { findings: assessment.findings.len(), ..BasisCount::default() };
    for finding in &assessment.findings {
        count.safety += usize::from(finding.weight == Weight::Safety);
        count.unproven += usize::from(finding.verdict == Verdict::Unproven);
        match finding.mark {
            Mark::Approved => count.approved += 1,
            Mark::Measured => count.measured += 1,
            Mark::PlanningOnly => count.planning_only += 1,
        }
    }
    count
}

impl BasisCount {
    /// On what the answer rests, in one line.
    #[must_use]
    pub fn line(&self) -> String {
        format!(
            "{} findings, {} of them on safety: {} on approved figures, {} on measured facts, \
             {} planning only; {} unproven",
            self.findings,
            self.safety,
            self.approved,
            self.measured,
            self.planning_only,
            self.unproven
        )
    }
}

impl FindingRow {
    /// The finding in one line: what, where, value, limit, margin and what the
    /// figures may be used for.
    #[must_use]
    pub fn line(&self) -> String {
        let mut line = format!("{} {}", self.code, self.title);
        if let Some(place) = self.place.map(|place| place_text(place, self.units)) {
            line.push_str(&format!(" at {place}"));
        }
        let figures = [
            self.value.clone(),
            self.limit.clone(),
            self.margin.as_ref().map(|margin| format!("margin {margin}")),
        ];
        let figures: Vec<String> = figures.into_iter().flatten().collect();
        if !figures.is_empty() {
            line.push_str(&format!(": {} ({})", figures.join(", "), self.mark));
        }
        line
    }
}
