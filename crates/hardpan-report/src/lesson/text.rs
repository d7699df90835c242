//! The lesson for a person at a terminal.

use super::worked::Worked;
use super::{Chapter, Lesson};
use crate::text::{Paint, TextStyle, table_text, verdict_text};
use crate::wrap::{entry, hanging, sentence};

const LABEL: usize = 9;

/// The lesson as terminal text; ends with a line feed. Widths under 40 columns
/// are treated as 40.
#[must_use]
pub fn lesson_text(lesson: &Lesson, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let width = paint.width();
    let mut out = paint.heading(&lesson.title());
    out.push_str(&paint.answer(lesson.report.answer.verdict, &lesson.report.answer.sentence));
    out.push('\n');
    out.push_str(&hanging(lesson.report.caution, width, ""));
    let mut number = 0;
    for (index, chapter) in lesson.chapters.iter().enumerate() {
        out.push('\n');
        out.push_str(&paint.heading(&format!("{}  {}", index + 1, chapter.title)));
        out.push_str(&chapter_text(chapter, &paint));
        for question in &chapter.questions {
            number += 1;
            out.push_str(&hanging(&question.asks, width, &format!("  Q{number}  ")));
        }
    }
    if lesson.with_answers {
        out.push('\n');
        out.push_str(&paint.heading("Answers"));
        let all = lesson.chapters.iter().flat_map(|chapter| &chapter.questions);
        for (index, question) in all.enumerate() {
            let see = if question.see.is_empty() {
                String::new()
            } else {
                format!(" ({})", question.see)
            };
            let answer = format!("{}{see}", question.answer);
            out.push_str(&hanging(&answer, width, &format!("  A{}  ", index + 1)));
        }
    }
    out
}

fn chapter_text(chapter: &Chapter, paint: &Paint) -> String {
    let width = paint.width();
    let mut out = hanging(chapter.principle, width, "  ");
    for (code, name, why) in &chapter.rules {
        out.push_str(&entry(code, &format!("{name}: {}", sentence(why)), 4, width));
    }
    if !chapter.findings.is_empty() {
        let header = ["  Verdict", "Code", "On this flight", "Value", "Limit", "Place"];
        let mut table = paint.table(&header, &[3, 4]);
        for row in &chapter.findings {
            let or_dash = |text: &Option<String>| text.clone().unwrap_or_else(|| "–".to_owned());
            table.add_row([
                format!("  {}", verdict_text(row.verdict)),
                row.code.to_owned(),
                row.title.clone(),
                or_dash(&row.value),
                or_dash(&row.limit_short),
                or_dash(&row.place_text).replace('\u{a0}', " "),
            ]);
        }
        out.push_str(&paint.verdicts(&table_text(&table)));
    }
    if let Some(worked) = &chapter.worked {
        out.push_str(&worked_text(worked, width));
    }
    out
}

fn worked_text(worked: &Worked, width: usize) -> String {
    let mut out = hanging(&worked.title(), width, "  ");
    for (label, text) in worked.lines() {
        out.push_str(&entry(label, &text, LABEL, width));
    }
    out
}
