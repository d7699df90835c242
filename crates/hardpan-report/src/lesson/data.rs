//! What the template of the lesson prints: strings only.

use super::worked::Worked;
use super::{Chapter, Lesson, Picture};
use crate::report::verdict_symbol;
use crate::typeset::printable;
use serde::Serialize;

/// Everything in the lesson.
#[derive(Debug, Serialize)]
pub(super) struct LessonData {
    title: String,
    answer: String,
    description: String,
    kind: &'static str,
    caution: &'static str,
    produced: String,
    identity: Vec<(&'static str, String)>,
    conditions: Vec<String>,
    missing: Vec<String>,
    chapters: Vec<ChapterData>,
    answers: Vec<AnswerData>,
}

#[derive(Debug, Serialize)]
struct ChapterData {
    title: &'static str,
    principle: &'static str,
    rules: Vec<(&'static str, String, String)>,
    findings: Vec<FindingData>,
    worked: Option<WorkedData>,
    picture: Option<PictureData>,
    questions: Vec<QuestionData>,
}

#[derive(Debug, Serialize)]
struct FindingData {
    symbol: &'static str,
    verdict: &'static str,
    code: &'static str,
    title: String,
    value: String,
    limit: String,
    place: String,
    because: String,
}

#[derive(Debug, Serialize)]
struct WorkedData {
    code: &'static str,
    computes: String,
    expression: String,
    numbers: String,
    inputs: Vec<(String, String)>,
    source: String,
}

#[derive(Debug, Serialize)]
struct PictureData {
    file: &'static str,
    words: String,
}

#[derive(Debug, Serialize)]
struct QuestionData {
    number: usize,
    asks: String,
}

#[derive(Debug, Serialize)]
struct AnswerData {
    number: usize,
    answer: String,
    see: String,
}

impl LessonData {
    pub(super) fn new(lesson: &Lesson) -> Self {
        let report = &lesson.report;
        let produced = [&report.produced.at, &report.produced.by, &report.produced.identifier];
        let produced = produced.into_iter().filter(|part| !part.is_empty()).map(|p| printable(p));
        let lines = |texts: &[String]| texts.iter().map(|text| printable(text)).collect();
        let mut number = 0;
        Self {
            title: printable(&lesson.title()),
            answer: printable(&lesson.answer()),
            description: lesson.answer(),
            kind: report.answer.verdict.word(),
            caution: report.caution,
            produced: produced.collect::<Vec<_>>().join(" · "),
            identity: report
                .identity
                .iter()
                .map(|row| (row.label, printable(&row.value)))
                .collect(),
            conditions: lines(&report.answer.conditions),
            missing: lines(&report.answer.missing),
            chapters: lesson.chapters.iter().map(|one| chapter(one, lesson, &mut number)).collect(),
            answers: if lesson.with_answers { answers(lesson) } else { Vec::new() },
        }
    }
}

fn chapter(chapter: &Chapter, lesson: &Lesson, number: &mut usize) -> ChapterData {
    let questions = chapter.questions.iter().map(|question| {
        *number += 1;
        QuestionData { number: *number, asks: printable(&question.asks) }
    });
    ChapterData {
        title: chapter.title,
        principle: chapter.principle,
        rules: chapter
            .rules
            .iter()
            .map(|(code, name, why)| (*code, printable(name), printable(why)))
            .collect(),
        findings: chapter.findings.iter().map(finding).collect(),
        worked: chapter.worked.as_ref().map(worked),
        picture: chapter.picture.map(|picture| drawn(picture, lesson)),
        questions: questions.collect(),
    }
}

fn drawn(picture: Picture, lesson: &Lesson) -> PictureData {
    let words = match picture {
        Picture::Strip => crate::figure::describe(&lesson.report),
        Picture::Runs => {
            "Speed, thrust, friction and wheel load of each run by station.".to_owned()
        }
        Picture::Stones => {
            "Stones thrown at the aeroplane, from the side and from above.".to_owned()
        }
    };
    PictureData { file: picture.file(), words }
}

fn finding(row: &crate::FindingRow) -> FindingData {
    let text = |text: &Option<String>| text.as_deref().map_or_else(|| "–".to_owned(), printable);
    FindingData {
        symbol: verdict_symbol(row.verdict),
        verdict: row.verdict.word(),
        code: row.code,
        title: printable(&row.title),
        value: text(&row.value),
        limit: text(&row.limit_short),
        place: text(&row.place_text),
        because: printable(&row.because),
    }
}

fn worked(worked: &Worked) -> WorkedData {
    let inputs = worked.inputs.iter();
    WorkedData {
        code: worked.code,
        computes: printable(&worked.computes),
        expression: printable(&worked.expression),
        numbers: printable(&worked.numbers),
        inputs: inputs.map(|(told, from)| (printable(told), printable(from))).collect(),
        source: printable(&worked.source),
    }
}

fn answers(lesson: &Lesson) -> Vec<AnswerData> {
    let all = lesson.chapters.iter().flat_map(|chapter| &chapter.questions);
    all.enumerate()
        .map(|(index, question)| AnswerData {
            number: index + 1,
            answer: printable(&question.answer),
            see: printable(&question.see),
        })
        .collect()
}
