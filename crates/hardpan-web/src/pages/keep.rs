//! Keeping an assessment in a book, with all that it was made from: what is kept is what
//! was seen, or nothing is.

use crate::account::{Visitor, sender, visitor};
use crate::desk::{Judged, Wanted, blocking};
use crate::page::{Page, frame, verdict_mark};
use crate::pages::book::entries::{Refused, TOKEN, answer, refused};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::shelf::{Entry, EntryKind, Keeping, Kept};
use crate::trouble::Trouble;
use axum::body::Bytes;
use axum::extract::{Path, RawQuery, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use serde::Deserialize;
use serde_json::json;
use std::sync::Arc;

/// Longest name of who keeps it, in characters.
const LONGEST: usize = 400;

/// What is sent. The inputs are named, so that nothing is kept that nobody saw.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Sent {
    book: String,
    identifier: String,
    #[serde(default)]
    by: String,
}

pub(crate) async fn form(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let query = Query::read(query.as_deref())?;
        page(&room, &slug, &query, None).await
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.page())
}

/// The values that are stated again, and no other key.
fn stated(room: &Room, query: Option<&str>) -> Result<Query, Trouble> {
    Query::only(query, room.shelf.changeable())?;
    Query::read(query)
}

/// Keep what the form of the page shows.
pub(crate) async fn keep(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
    body: Bytes,
) -> Response {
    let query = match stated(&room, query.as_deref()) {
        Ok(query) => query,
        Err(trouble) => return trouble.page(),
    };
    let value = |name: &str| {
        let mut pairs = form_urlencoded::parse(&body);
        let found = pairs.find(|(key, _)| key == name);
        found.map(|(_, text)| text.trim().to_owned()).unwrap_or_default()
    };
    let sent = Sent { book: value("book"), identifier: value("identifier"), by: value("by") };
    let kept = match sender(&value("token")) {
        Some(sender) => take(&room, (&slug, &query), sender, sent).await,
        None => Err(refused(
            StatusCode::FORBIDDEN,
            "This form is not of the page that runs now; open it again. Nothing was kept.",
        )),
    };
    match kept {
        Ok((book, entry)) => {
            let to = format!("/books/{book}/entries/{entry}");
            (StatusCode::SEE_OTHER, [(header::LOCATION, to)]).into_response()
        }
        Err(why) => page(&room, &slug, &query, Some(&why))
            .await
            .unwrap_or_else(|trouble: Trouble| trouble.page()),
    }
}

/// Keep what a program read.
pub(crate) async fn keep_as_json(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
    headers: HeaderMap,
    body: Bytes,
) -> Response {
    let query = match stated(&room, query.as_deref()) {
        Ok(query) => query,
        Err(trouble) => return trouble.json(),
    };
    let kept = async {
        let given = headers.get(TOKEN).and_then(|value| value.to_str().ok()).unwrap_or_default();
        let sender = sender(given).ok_or_else(|| {
            let said = "The header x-hardpan-token does not carry the token of /api/session. \
                        Nothing was kept.";
            refused(StatusCode::FORBIDDEN, said)
        })?;
        let sent: Sent = serde_json::from_slice(&body).map_err(|error| {
            let said = format!("This is nothing as /api/openapi.json describes it: {error}.");
            refused(StatusCode::BAD_REQUEST, said)
        })?;
        take(&room, (&slug, &query), sender, sent).await
    };
    match kept.await {
        Ok((book, entry)) => {
            let address = format!("/api/books/{book}/entries/{entry}");
            answer(StatusCode::CREATED, &json!({ "entry": entry, "address": address }))
        }
        Err(why) => why.answer(),
    }
}

/// Keep it; gives the name of the book in addresses, and the number of the entry.
async fn take(
    room: &Room,
    (slug, query): (&str, &Query),
    sender: Visitor,
    sent: Sent,
) -> Result<(String, i64), Refused> {
    let unfit = |said: &str| refused(StatusCode::UNPROCESSABLE_ENTITY, said);
    let by = match sender.account {
        None => sent.by.trim().to_owned(),
        Some((name, role)) if role.may_keep() => name,
        Some((_, role)) => {
            let said = format!("A {} keeps no assessment. Nothing was kept.", role.word());
            return Err(refused(StatusCode::FORBIDDEN, said));
        }
    };
    if by.is_empty() || by.chars().count() > LONGEST {
        return Err(unfit("Say who keeps it."));
    }
    let off = |trouble: Trouble| refused(trouble.status(), trouble.sentence());
    let flight = room.entry(EntryKind::Flight, slug).await.map_err(off)?;
    let book = room.entry(EntryKind::Book, &sent.book).await.map_err(off)?;
    let keeping = Keeping {
        flight: flight.file,
        changes: query.changes.clone(),
        identifier: sent.identifier,
        book: book.file,
        by,
    };
    let _slot = room.desk.slot().await;
    let shelf = Arc::clone(&room.shelf);
    let kept = blocking(move || shelf.keep(&keeping)).await.map_err(off)?;
    match kept {
        Ok(Kept::As(entry)) => Ok((book.slug, entry)),
        Ok(Kept::Otherwise) => Err(refused(
            StatusCode::CONFLICT,
            "Nothing was kept: files, values or books are no longer as they were when this was \
             assessed. Look at the answer of now, and keep that.",
        )),
        Err(refusal) => {
            Err(unfit(&format!("Nothing was kept: {}.", refusal.text.trim().trim_end_matches('.'))))
        }
    }
}

async fn page(
    room: &Room,
    slug: &str,
    query: &Query,
    why: Option<&Refused>,
) -> Result<Response, Trouble> {
    let judged = room.judge_for(slug, query, Wanted::Answer).await?;
    let books = room.entries().await?.into_iter();
    let books: Vec<Entry> = books.filter(|entry| entry.kind == EntryKind::Book).collect();
    let address = format!("/flights/{slug}");
    let asked = query.text();
    let report = judged.report(query);
    let body = html! {
        main.plain {
            h1 { "Keep this assessment in a book" }
            @if let Some(why) = why { p.wrong role="alert" { (why.said) } }
            p.lead { (verdict_mark(report.answer.verdict)) " " (report.answer.sentence) }
            @if !query.changes.is_empty() {
                p { "With changes that no file has, which are kept with it: " (query.words()) "." }
            }
            p.note { "It is kept with the files that it was made from, what the books said of the \
                      strip, and the program, so that it can be made again and compared bit for \
                      bit. The versions of the aeroplane, the strip, the day and the flight are \
                      kept with it." }
            (asks(&format!("{address}/keep{asked}"), &judged, &books))
            p { a href={ (address) (asked) } { "To the sheet" } }
        }
    };
    let crumbs =
        [("/".into(), "Flights".into()), (format!("{address}{asked}"), report.title.clone())];
    let page = Page { title: "Keep this assessment", crumbs: &crumbs, head: html! {} };
    let status = why.map_or(StatusCode::OK, |why| why.status);
    Ok((status, frame(&page, &body)).into_response())
}

fn asks(to: &str, judged: &Judged, books: &[Entry]) -> Markup {
    let visitor = visitor();
    let token = visitor.as_ref().map_or_else(String::new, |visitor| visitor.token.clone());
    let account = visitor.and_then(|visitor| visitor.account);
    let may = account.as_ref().is_none_or(|(_, role)| role.may_keep());
    html! {
        @if !may {
            p { "Your account reads assessments and keeps none." }
        } @else if books.is_empty() {
            p { "No book stands beside the files. The first record makes one: "
                code { "hardpan book FILE add KIND NAME=VALUE … --by NAME" } }
        } @else {
            form.log method="post" action=(to) autocomplete="off" {
                input type="hidden" name="token" value=(token);
                input type="hidden" name="identifier" value=(judged.produced.identifier);
                div.entries {
                    div.field {
                        label for="book" { "book" }
                        select #book name="book" required {
                            @for book in books { option value=(book.slug) { (book.title()) } }
                        }
                    }
                    @if account.is_none() {
                        div.field {
                            label for="by" { "kept by" }
                            input #by name="by" type="text" required maxlength="80";
                        }
                    }
                }
                button type="submit" { "Keep it" }
            }
        }
        p.produced { "Inputs " code { (judged.produced.identifier) } }
    }
}
