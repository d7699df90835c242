//! A briefing pack from one assessment: each principle with the figures of this
//! very flight, a worked line, and questions whose answers the assessment holds.

mod chapters;
mod data;
mod pdf;
mod questions;
mod text;
mod worked;

pub use pdf::lesson_pdf;
pub use text::lesson_text;

use crate::report::Report;
use crate::{FindingRow, verdict_symbol};
use chapters::{PLANS, Picture, Plan};
use hardpan_assess::{Rule, rules};
use hardpan_model::{Finding, Verdict, Weight};
use questions::Question;
use worked::Worked;

/// A lesson in the reader's units.
#[derive(Debug, Clone)]
pub struct Lesson {
    report: Report,
    chapters: Vec<Chapter>,
    with_answers: bool,
}

/// One principle and what this flight shows of it.
#[derive(Debug, Clone)]
struct Chapter {
    title: &'static str,
    principle: &'static str,
    picture: Option<Picture>,
    /// Rules at work, once each: code, name and why it matters.
    rules: Vec<(&'static str, &'static str, &'static str)>,
    findings: Vec<FindingRow>,
    worked: Option<Worked>,
    questions: Vec<Question>,
}

/// One chapter of a lesson in plain words.
#[derive(Debug, Clone)]
pub struct LessonChapter<'l> {
    /// What it is about.
    pub title: &'static str,
    /// The principle.
    pub principle: &'static str,
    /// Rules at work: code, name and why it matters.
    pub rules: Vec<(&'static str, &'static str, &'static str)>,
    /// What this flight shows of it.
    pub findings: Vec<FindingRow>,
    /// Title and labelled lines of the figure worked by hand.
    pub worked: Option<(String, Vec<(&'static str, String)>)>,
    /// Questions, each with its answer and the codes to look at.
    pub questions: Vec<(&'l str, &'l str, &'l str)>,
}

impl Lesson {
    /// The lesson of a report, with or without the answers at its end. The
    /// same report gives the same lesson.
    #[must_use]
    pub fn new(report: &Report, with_answers: bool) -> Self {
        let taught = PLANS.iter().filter_map(|plan| chapter(plan, report));
        let mut chapters: Vec<Chapter> = taught.collect();
        chapters.push(of_the_whole(report));
        chapters.retain(|chapter| !chapter.findings.is_empty() || !chapter.questions.is_empty());
        Self { report: report.clone(), chapters, with_answers }
    }

    /// Every question with its answer, in the order of the lesson.
    #[must_use]
    pub fn questions(&self) -> Vec<(&str, &str)> {
        let all = self.chapters.iter().flat_map(|chapter| &chapter.questions);
        all.map(|question| (question.asks.as_str(), question.answer.as_str())).collect()
    }

    /// Codes of the rules that the lesson explains.
    #[must_use]
    pub fn rules_taught(&self) -> Vec<&'static str> {
        self.chapters.iter().flat_map(|chapter| &chapter.rules).map(|(code, ..)| *code).collect()
    }

    /// Its chapters in plain words, for a page.
    #[must_use]
    pub fn chapters(&self) -> Vec<LessonChapter<'_>> {
        let mut told = Vec::new();
        for chapter in &self.chapters {
            let questions = chapter.questions.iter();
            let questions = questions
                .map(|one| (one.asks.as_str(), one.answer.as_str(), one.see.as_str()))
                .collect();
            told.push(LessonChapter {
                title: chapter.title,
                principle: chapter.principle,
                rules: chapter.rules.clone(),
                findings: chapter.findings.clone(),
                worked: chapter.worked.as_ref().map(|worked| (worked.title(), worked.lines())),
                questions,
            });
        }
        told
    }

    /// What it is called.
    #[must_use]
    pub fn title(&self) -> String {
        format!("Lesson: {}", self.report.title)
    }

    /// The answer of the flight in one line.
    fn answer(&self) -> String {
        let answer = &self.report.answer;
        let verdict = answer.verdict;
        format!(
            "{} {}. {}",
            verdict_symbol(verdict),
            verdict.word().to_uppercase(),
            answer.sentence
        )
    }
}

fn chapter(plan: &Plan, report: &Report) -> Option<Chapter> {
    let belongs = |code: &str| code.starts_with(|first| plan.letters.contains(first));
    let of_plan: Vec<usize> = (0..report.findings.len())
        .filter(|index| report.findings.get(*index).is_some_and(|row| belongs(row.code)))
        .collect();
    let findings: Vec<FindingRow> =
        of_plan.iter().filter_map(|index| report.findings.get(*index)).cloned().collect();
    if findings.is_empty() {
        return None;
    }
    let judged = |index: &usize| report.assessment.findings.get(*index);
    let worked = of_plan.iter().filter_map(judged).min_by(|a, b| closeness(a, b));
    let worked = worked.and_then(|finding| worked::worked(finding, report.units));
    let worked = worked.or_else(|| {
        of_plan.iter().filter_map(judged).find_map(|finding| worked::worked(finding, report.units))
    });
    Some(Chapter {
        title: plan.title,
        principle: plan.principle,
        picture: plan.picture.filter(|picture| is_drawn(*picture, report)),
        rules: rules_of(&findings),
        questions: questions::of_chapter(plan.letters, &of_plan, worked.as_ref(), report),
        findings,
        worked,
    })
}

/// What the assessment as a whole teaches.
fn of_the_whole(report: &Report) -> Chapter {
    Chapter {
        title: "The decision, and what would turn it",
        principle: "The worst finding on safety is the answer. Know which one it is, how far the \
                    day may move before another takes its place, and what would mend it.",
        picture: None,
        rules: Vec::new(),
        findings: Vec::new(),
        worked: None,
        questions: questions::of_the_whole(report),
    }
}

fn is_drawn(picture: Picture, report: &Report) -> bool {
    match picture {
        Picture::Strip => report.assessment.sketch.length.is_some(),
        Picture::Runs => !report.assessment.sketch.runs.is_empty(),
        Picture::Stones => report.assessment.stones.is_some(),
    }
}

/// Worst verdict on safety first, then the least margin for its limit.
fn closeness(a: &Finding, b: &Finding) -> std::cmp::Ordering {
    let key = |finding: &Finding| {
        let held_up = finding.weight == Weight::Safety && finding.verdict == Verdict::Fail;
        let share = match (finding.margin(), finding.limit) {
            (Some(margin), Some(limit)) if limit.amount.si.abs() > 0.0 => {
                margin.si / limit.amount.si.abs()
            }
            _ => f64::INFINITY,
        };
        (u8::from(!held_up), share)
    };
    let (first, second) = (key(a), key(b));
    first.0.cmp(&second.0).then(first.1.total_cmp(&second.1))
}

fn rules_of(findings: &[FindingRow]) -> Vec<(&'static str, &'static str, &'static str)> {
    let shown = |rule: &&Rule| findings.iter().any(|row| row.code == rule.code);
    rules().iter().filter(shown).map(|rule| (rule.code, rule.name, rule.why)).collect()
}

#[cfg(test)]
mod tests {
    use super::{PLANS, rules};

    #[test]
    fn every_rule_has_one_chapter() {
        for rule in rules() {
            let chapters = PLANS
                .iter()
                .filter(|plan| rule.code.starts_with(|first| plan.letters.contains(first)));
            assert_eq!(chapters.count(), 1, "{}", rule.code);
        }
    }
}
