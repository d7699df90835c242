//! Bringing a survey: the file is taken in bounded parts, read apart as if the strip
//! named it, and kept beside the strip only when it can be read.

use crate::account::{sender, visitor};
use crate::desk::blocking;
use crate::page::{Page, frame, verdict_mark};
use crate::parts::{self, Unsent};
use crate::routes::{Room, Shared};
use crate::shelf::{Bringing, Brought, Entry, EntryKind, Refusal};
use crate::trouble::Trouble;
use axum::extract::multipart::{Field, MultipartRejection};
use axum::extract::{Multipart, Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{StripDossier, dossier};
use hardpan_book::{Audit, Book, Fields, Kind, Record};
use hardpan_model::Verdict;
use hardpan_quantity::counted;
use maud::{Markup, html};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Most bytes of one file. Larger scans are laid beside the strip by hand.
const MOST: u64 = 512 * 1024 * 1024;
/// What may be brought, with the endings of its files.
const KINDS: [(&str, &str); 5] = [
    ("levels", ".csv, .las, .laz, .asc, .tif"),
    ("soundings", ".csv"),
    ("strength tests", ".csv"),
    ("ruts", ".csv"),
    ("places", ".geojson"),
];

/// Why a file was not taken, and with which status.
struct Refused {
    status: StatusCode,
    said: String,
    mistakes: Option<Refusal>,
}

fn refused(status: StatusCode, said: impl Into<String>) -> Refused {
    Refused { status, said: said.into(), mistakes: None }
}

impl From<Unsent> for Refused {
    fn from(Unsent { status, said }: Unsent) -> Self {
        refused(status, said)
    }
}

/// A file that was taken, and what it makes of the strip.
struct Taken {
    brought: Brought,
    before: Option<StripDossier>,
    recorded: Option<i64>,
}

pub(crate) async fn form(State(room): Shared, Path(slug): Path<String>) -> Response {
    match entries(&room, &slug).await {
        Ok((strip, _))
            if !visitor().and_then(|one| one.account).is_none_or(|(_, role)| role.may_bring()) =>
        {
            let said = html! { p { "Your account reads strips and brings no surveys." } };
            page(&slug, &strip, &said).into_response()
        }
        Ok((strip, books)) => page(&slug, &strip, &asks(&slug, &books, None)).into_response(),
        Err(trouble) => trouble.page(),
    }
}

async fn entries(room: &Room, slug: &str) -> Result<(Entry, Vec<Entry>), Trouble> {
    let strip = room.entry(EntryKind::Strip, slug).await?;
    let all = room.entries().await?.into_iter();
    Ok((strip, all.filter(|entry| entry.kind == EntryKind::Book).collect()))
}

pub(crate) async fn bring(
    State(room): Shared,
    Path(slug): Path<String>,
    headers: HeaderMap,
    body: Result<Multipart, MultipartRejection>,
) -> Response {
    let (strip, books) = match entries(&room, &slug).await {
        Ok(found) => found,
        Err(trouble) => return trouble.page(),
    };
    match take(&room, &strip, &books, &headers, body).await {
        Ok(taken) => page(&slug, &strip, &told(&slug, &taken)).into_response(),
        Err(why) => {
            let body = asks(&slug, &books, Some(&why));
            (why.status, page(&slug, &strip, &body)).into_response()
        }
    }
}

async fn take(
    room: &Room,
    strip: &Entry,
    books: &[Entry],
    headers: &HeaderMap,
    body: Result<Multipart, MultipartRejection>,
) -> Result<Taken, Refused> {
    if parts::says_over(headers, MOST) {
        return Err(too_large());
    }
    let mut body = parts::parts(body)?;
    let _slot = room.bringing.try_acquire().map_err(|_| {
        let said = "Two files are being brought already; try again in a minute.";
        refused(StatusCode::SERVICE_UNAVAILABLE, said)
    })?;
    let mut values = BTreeMap::new();
    while let Some(part) = parts::next(&mut body).await? {
        let name = part.name().unwrap_or_default().to_owned();
        if name != "file" {
            let text = parts::value(part).await?;
            values.insert(name, text);
            continue;
        }
        // The values come first, so that nobody sends a file who may not.
        let author = allowed(&values)?;
        let given = part.file_name().unwrap_or_default().to_owned();
        let value = |name: &str| values.get(name).map_or("", |text: &String| text.trim());
        let kept = record(value("what"), value("date"), strip)?;
        let book = book(books, value("book"))?;
        let by = author.unwrap_or_else(|| value("by").to_owned());
        if book.is_some() && by.is_empty() {
            return Err(refused(StatusCode::UNPROCESSABLE_ENTITY, "Say who records it."));
        }
        let bringing = Bringing {
            strip: strip.file.clone(),
            what: value("what").to_owned(),
            name: given,
            date: value("date").to_owned(),
        };
        let brought = stream(room, &bringing, part).await?;
        let recorded = match (book, kept) {
            (Some(book), Some(fields)) => Some(log(room, book, fields, &brought, by).await?),
            _ => None,
        };
        return judged(room, strip, brought, recorded).await;
    }
    Err(refused(StatusCode::UNPROCESSABLE_ENTITY, "No file was sent: choose one."))
}

/// The book that is to record it; none where none is chosen.
fn book<'b>(books: &'b [Entry], slug: &str) -> Result<Option<&'b Entry>, Refused> {
    let known = books.iter().find(|book| book.slug == slug);
    if slug.is_empty() || known.is_some() {
        return Ok(known);
    }
    let said = format!("There is no book {slug} any more; choose another. Nothing was kept.");
    Err(refused(StatusCode::UNPROCESSABLE_ENTITY, said))
}

fn too_large() -> Refused {
    let said = format!(
        "The file has over {} MB. Thin it out, or lay it beside the strip by hand.",
        MOST / 1024 / 1024
    );
    refused(StatusCode::PAYLOAD_TOO_LARGE, said)
}

/// Who brings it, where accounts are kept.
fn allowed(values: &BTreeMap<String, String>) -> Result<Option<String>, Refused> {
    let Some(sender) = sender(values.get("token").map_or("", String::as_str)) else {
        let said = "This form is not of the page that runs now; open it again. Nothing was kept.";
        return Err(refused(StatusCode::FORBIDDEN, said));
    };
    let Some((name, role)) = sender.account else { return Ok(None) };
    if role.may_bring() {
        return Ok(Some(name));
    }
    let said = format!("A {} may not bring surveys. Nothing was kept.", role.word());
    Err(refused(StatusCode::FORBIDDEN, said))
}

/// What the book would record of it, looked at before the file is taken.
fn record(what: &str, date: &str, strip: &Entry) -> Result<Option<Fields>, Refused> {
    if !KINDS.iter().any(|(kind, _)| *kind == what) {
        return Err(refused(StatusCode::UNPROCESSABLE_ENTITY, "Say what was measured."));
    }
    let text = |text: &str| text.to_owned();
    let mut fields = Fields::new();
    fields.insert(text("strip"), text(strip.title()));
    fields.insert(text("what"), text(if what == "places" { "levels" } else { what }));
    fields.insert(text("date"), text(date));
    fields.insert(text("file"), text("to be named"));
    if let Err(error) = Record::from_fields(Kind::Survey, &fields) {
        return Err(refused(StatusCode::UNPROCESSABLE_ENTITY, format!("{error}.")));
    }
    Ok((what != "places").then_some(fields))
}

/// Take the file part by part.
async fn stream(room: &Room, bringing: &Bringing, mut part: Field<'_>) -> Result<Brought, Refused> {
    let unfit = |refusal: Refusal| {
        let said = if refusal.places.is_empty() {
            refusal.text.clone()
        } else {
            let mistakes = counted(refusal.places.len(), "mistake", "mistakes");
            format!("The file cannot be used: {mistakes}. Nothing was kept.")
        };
        Refused { status: StatusCode::UNPROCESSABLE_ENTITY, said, mistakes: Some(refusal) }
    };
    let (shelf, wanted) = (Arc::clone(&room.shelf), bringing.clone());
    let begun = blocking(move || shelf.receive(&wanted)).await.map_err(off)?;
    let mut receiver = begun.map_err(unfit)?;
    let mut size = 0;
    while let Some(bytes) = parts::bytes(&mut part).await? {
        size += bytes.len() as u64;
        if size > MOST {
            return Err(too_large());
        }
        let step = blocking(move || receiver.take(&bytes).map(|()| receiver));
        receiver = step.await.map_err(off)?.map_err(unfit)?;
    }
    if size == 0 {
        return Err(refused(StatusCode::UNPROCESSABLE_ENTITY, "The file is empty."));
    }
    blocking(move || receiver.finish()).await.map_err(off)?.map_err(unfit)
}

fn off(trouble: Trouble) -> Refused {
    refused(trouble.status(), trouble.sentence())
}

async fn log(
    room: &Room,
    book: &Entry,
    mut fields: Fields,
    brought: &Brought,
    by: String,
) -> Result<i64, Refused> {
    fields.insert("file".to_owned(), brought.name.clone());
    fields.insert("digest".to_owned(), brought.digest.clone());
    let (file, audit) = (book.file.clone(), Audit { by, at: room.shelf.now() });
    let written = blocking(move || {
        let record = Record::from_fields(Kind::Survey, &fields)?;
        Book::open(std::path::Path::new(&file))?.add(record, audit)
    });
    let written = written.await.map_err(off)?;
    written.map(|entry| entry.id).map_err(|error| {
        let said = format!(
            "The file is kept as {}, and the book has no word of it: {error}.",
            brought.name
        );
        refused(StatusCode::UNPROCESSABLE_ENTITY, said)
    })
}

async fn judged(
    room: &Room,
    strip: &Entry,
    brought: Brought,
    recorded: Option<i64>,
) -> Result<Taken, Refused> {
    let (shelf, file) = (Arc::clone(&room.shelf), strip.file.clone());
    let work = move || {
        let before = shelf.strip(&file).ok().map(|opened| dossier(&opened.value, None));
        Taken { brought, before, recorded }
    };
    let _slot = room.desk.slot().await;
    blocking(work).await.map_err(off)
}

fn page(slug: &str, strip: &Entry, body: &Markup) -> Html<String> {
    let body = html! {
        main.plain.bring-page { h1 { "Bring a survey of " (strip.title()) } (body) }
    };
    let crumbs =
        [("/".into(), "Flights".into()), (format!("/strips/{slug}"), strip.title().to_owned())];
    frame(&Page { title: "Bring a survey", crumbs: &crumbs, head: html! {} }, &body)
}

fn asks(slug: &str, books: &[Entry], why: Option<&Refused>) -> Markup {
    let token = visitor().map_or_else(String::new, |visitor| visitor.token);
    html! {
        @if let Some(why) = why {
            p.wrong role="alert" { (why.said) }
            @if let Some(mistakes) = &why.mistakes {
                @if !mistakes.places.is_empty() {
                    ul.mistake-list { @for place in mistakes.places.iter().take(50) { li {
                        @if place.line > 0 { "Line " (place.line) ", column " (place.column) ": " }
                        (place.message) ". " (place.hint)
                    } } }
                    details { summary { "With the lines of the file" }
                        pre.mistakes tabindex="0" { (mistakes.text) } }
                }
            }
        }
        p { "The file is read as if the strip named it. It is kept beside the strip only if it can \
             be used; the strip file stays as it is and is told what to say." }
        form.log.bring method="post" action={ "/strips/" (slug) "/bring" }
            enctype="multipart/form-data" data-most=(MOST) {
            input type="hidden" name="token" value=(token);
            div.entries {
                div.field {
                    label for="what" { "what was measured" }
                    select #what name="what" required {
                        option value="" {}
                        @for (kind, endings) in KINDS { option value=(kind) { (kind) " (" (endings) ")" } }
                    }
                }
                div.field {
                    label for="date" { "on which day" }
                    input #date name="date" type="text" required placeholder="2026-06-18"
                        pattern="[0-9]{4}-[0-9]{2}-[0-9]{2}" title="a day, such as 2026-06-18";
                }
                @if !books.is_empty() {
                    div.field {
                        label for="book" { "recorded in the book" }
                        select #book name="book" {
                            option value="" { "not recorded" }
                            @for book in books { option value=(book.slug) { (book.title()) } }
                        }
                    }
                    div.field {
                        label for="by" { "recorded by" }
                        input #by name="by" type="text" maxlength="80";
                    }
                }
                div.field {
                    label for="file" { "file, at most " (MOST / 1024 / 1024) " MB" }
                    input #file name="file" type="file" required;
                }
            }
            p.bring-state role="status" {}
            progress.bring-share max="1" value="0" hidden {}
            button type="submit" { "Bring it" }
        }
    }
}

fn told(slug: &str, taken: &Taken) -> Markup {
    let changed = changed(taken);
    html! {
        p.lead role="status" { "Kept as " code { (taken.brought.name) } ": it can be used." }
        @if let Some(entry) = taken.recorded { p { "Recorded as entry " (entry) " of the book." } }
        @if !taken.brought.warnings.is_empty() {
            details open { summary { "Warnings" }
                pre.mistakes tabindex="0" { (taken.brought.warnings) } }
        }
        h2 { "What it makes of the strip" }
        p {
            @if let Some(before) = &taken.before { (verdict_mark(before.verdict)) " before, " }
            (verdict_mark(taken.brought.verdict)) " with it."
        }
        @if changed.is_empty() { p { "No check changes its verdict." } }
        @else {
            table.compared {
                thead { tr { th scope="col" { "check" } th scope="col" { "before" } th scope="col" { "with it" } } }
                tbody { @for (code, title, before, after) in &changed { tr {
                    th scope="row" { (code) " " (title) }
                    td { @if let Some(one) = before { (verdict_mark(*one)) } @else { "–" } }
                    td { @if let Some(one) = after { (verdict_mark(*one)) } @else { "–" } }
                } } }
            }
        }
        h2 { "To use it" }
        p { "The strip file is not touched. Where it says what was measured, let it say:" }
        pre tabindex="0" { (taken.brought.says) }
        p { a href={ "/strips/" (slug) } { "To the strip" } ", " a href={ "/strips/" (slug) "/bring" } { "another file" } }
    }
}

type Changed = (&'static str, String, Option<Verdict>, Option<Verdict>);

/// Checks whose worst verdict changes.
fn changed(taken: &Taken) -> Vec<Changed> {
    let before = taken.before.iter().flat_map(|before| &before.findings);
    let before = worst(before.map(|one| (one.code, one.title.as_str(), one.verdict)));
    let after = taken.brought.checks.iter();
    let after = worst(after.map(|one| (one.code, one.title.as_str(), one.verdict)));
    let codes: std::collections::BTreeSet<&'static str> =
        before.keys().chain(after.keys()).copied().collect();
    let one = |code| {
        let (old, new) = (before.get(code), after.get(code));
        let title = new.or(old).map_or_else(String::new, |(_, title)| (*title).to_owned());
        (code, title, old.map(|one| one.0), new.map(|one| one.0))
    };
    codes.into_iter().map(one).filter(|(_, _, old, new)| old != new).collect()
}

/// The worst verdict of each rule, with the title of its check.
fn worst<'t>(
    checks: impl Iterator<Item = (&'static str, &'t str, Verdict)>,
) -> BTreeMap<&'static str, (Verdict, &'t str)> {
    let mut found = BTreeMap::new();
    for (code, title, verdict) in checks {
        let kept = found.entry(code).or_insert((verdict, title));
        if verdict > kept.0 {
            *kept = (verdict, title);
        }
    }
    found
}
