//! The lesson of a flight, each answer closed until somebody opens it.

use crate::desk::blocking;
use crate::page::{Page, frame, verdict_mark};
use crate::query::Query;
use crate::routes::Shared;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::CAUTION;
use hardpan_report::{Lesson, LessonChapter};
use maud::{Markup, html};

pub(crate) async fn lesson(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let query = Query::read(query.as_deref())?;
        let judged = room.judge(&slug, &query).await?;
        let work = move || page(&slug, &Lesson::new(&judged.report(&query), true), &query);
        blocking(work).await
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.page(), IntoResponse::into_response)
}

fn page(slug: &str, lesson: &Lesson, query: &Query) -> Html<String> {
    let asked = query.text();
    let address = format!("/flights/{slug}");
    let body = html! {
        main.plain.lesson {
            h1 { (lesson.title()) }
            p.lead { "Read a principle, look at what this flight shows of it, answer the question, \
                      then open the answer." }
            p.caution { (CAUTION) }
            @for (index, chapter) in lesson.chapters().iter().enumerate() {
                section { h2 { (index + 1) ". " (chapter.title) } (told(chapter, &address, &asked)) }
            }
        }
    };
    let crumbs =
        [("/".into(), "Flights".into()), (format!("{address}{asked}"), "The flight".to_owned())];
    let head = html! {
        a href={ (address) "/lesson" (query.in_other_units().text()) } {
            "in " (query.in_other_units().units_word()) " units"
        }
        a.strong href={ (address) "/lesson.pdf" (asked) } { "With answers, PDF" }
        a href={ (address) "/handout.pdf" (asked) } { "Without answers, PDF" }
    };
    frame(&Page { title: "Lesson", crumbs: &crumbs, head }, &body)
}

fn told(chapter: &LessonChapter<'_>, address: &str, asked: &str) -> Markup {
    html! {
        p { (chapter.principle) }
        @if !chapter.rules.is_empty() {
            dl.needs { @for (code, name, why) in &chapter.rules {
                dt { (code) ", " (name) } dd { (why) }
            } }
        }
        @if !chapter.findings.is_empty() {
            ul.rows { @for row in &chapter.findings { li {
                (verdict_mark(row.verdict)) " " (row.code) " " (row.title)
                @if let Some(value) = &row.value { ": " strong { (value) } }
                @if let Some(limit) = &row.limit_short { ", " (limit) }
            } } }
        }
        @if let Some((title, lines)) = &chapter.worked {
            details.finding {
                summary { span.title { (title) } }
                div.opened { dl.needs { @for (label, text) in lines {
                    dt { (label) } dd { (text) }
                } } }
            }
        }
        @for (asks, answer, see) in &chapter.questions {
            details.question {
                summary { (asks) }
                p { (answer) @if !see.is_empty() {
                    " " a href={ (address) (asked) "#findings-name" } { "See " (see) }
                } }
            }
        }
    }
}
