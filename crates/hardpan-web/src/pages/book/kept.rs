//! The versions of aeroplanes, strips, days and flights that a book holds.

use super::{Shown, shown};
use crate::page::{Page, frame};
use crate::routes::{Room, Shared};
use crate::trouble::Trouble;
use axum::extract::{Path, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_book::{Holding, Kind, holdings, holdings_value};
use hardpan_quantity::counted;
use maud::{Markup, html};

/// Digits of a digest that are shown.
const DIGITS: usize = 12;

/// The headings, one for each kind.
const KINDS: [(Kind, &str); 4] = [
    (Kind::Aeroplane, "Aeroplanes"),
    (Kind::Strip, "Strips"),
    (Kind::Day, "Days"),
    (Kind::Flight, "Flights"),
];

pub(crate) async fn kept(State(room): Shared, Path(slug): Path<String>) -> Response {
    match shown(&room, &slug).await {
        Ok(shown) => page(&shown).into_response(),
        Err(trouble) => trouble.page(),
    }
}

/// The same as JSON.
pub(crate) async fn json(room: &Room, slug: &str) -> Result<String, Trouble> {
    let shown = shown(room, slug).await?;
    Ok(format!("{:#}\n", holdings_value(&shown.entries, hardpan_assess::CAUTION)))
}

fn page(shown: &Shown) -> Html<String> {
    let all = holdings(&shown.entries);
    let body = html! {
        main.plain.book-page.compare {
            h1 { "Versions in " (shown.title) }
            p.note { "Each with its files as they were read. A newer version takes the place of \
                      the older, which stays." }
            @for (kind, heading) in KINDS {
                @let mine: Vec<&Holding<'_>> =
                    all.iter().filter(|one| one.version.kind == kind).collect();
                h2 { (heading) }
                @if mine.is_empty() {
                    p { "None is kept. " code { "hardpan book FILE keep " (kind) ".toml" } }
                } @else { (table(shown, &mine)) }
            }
        }
    };
    let crumbs = [("/".into(), "Flights".into()), (shown.address.clone(), shown.title.clone())];
    let json = html! { a href={ "/api" (shown.address) "/kept" } { "JSON" } };
    frame(&Page { title: "Versions", crumbs: &crumbs, head: json }, &body)
}

fn table(shown: &Shown, all: &[&Holding<'_>]) -> Markup {
    html! {
        div.scroll { table.compared {
            thead { tr { @for name in ["name", "version", "kept", "file", "with it"] {
                th scope="col" { (name) }
            } } }
            tbody { @for one in all { tr {
                th scope="row" { (one.version.name) }
                td { a href={ "/api" (shown.address) "/entries/" (one.entry.id) } {
                        (one.version.digest.chars().take(DIGITS).collect::<String>()) }
                    @if let Some(by) = one.superseded_by { " " strong { "superseded" } " by entry " (by) }
                }
                td { (one.entry.audit.at.strftime("%Y-%m-%d %H:%MZ")) ", " (one.entry.audit.by) }
                td { (one.version.file) ", " (counted(one.version.files().len(), "file", "files")) }
                td { (with_it(one)) }
            } } }
        } }
    }
}

/// Equipment of an aeroplane, surveys of a strip, and the assessments made from it.
fn with_it(one: &Holding<'_>) -> Markup {
    let is_bare = one.version.kind == Kind::Aeroplane && one.equipment.is_empty();
    html! {
        @if is_bare { p { "The state of its equipment is not recorded." } }
        @if one.superseded_by.is_none() {
            @for piece in &one.equipment { p {
                (piece.item) ": " strong { (piece.state) }
                @if let Some(day) = piece.due { ", due " (day) }
            } }
            @for (entry, survey) in &one.surveys {
                p { (survey.what) " of " (survey.date) ", entry " (entry) }
            }
        }
        @if !one.assessments.is_empty() {
            @let all: Vec<String> = one.assessments.iter().map(ToString::to_string).collect();
            @let word = if all.len() == 1 { "assessment: entry " } else { "assessments: entries " };
            p { (word) (all.join(", ")) }
        }
    }
}
