//! Pictures of what a book tells: taken in bounded, given out as nothing but a
//! picture, and shown with words for who cannot see them.

use super::entries::{Refused, TOKEN, answer, number, refused};
use super::post::LONGEST;
use crate::account::{Role, Visitor, sender};
use crate::desk::blocking;
use crate::query::Query;
use crate::routes::{Room, Shared, file};
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::body::{Body, to_bytes};
use axum::extract::{Path, RawQuery, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use hardpan_book::{
    Audit, Book, BookError, Entry, LARGEST_PICTURE, Once, PICTURED, PictureFile, Record, Shown,
    newest_of, pictures_of,
};
use hardpan_quantity::{UnitSystem, counted};
use maud::{Markup, html};
use serde_json::json;
use std::collections::BTreeMap;
use std::time::Duration;

/// What may be said of a picture in its address.
const SAID: [&str; 4] = ["mark", "shown", "file", "by"];
/// Longest time that a picture may be on its way.
const LONGEST_WAY: Duration = Duration::from_secs(120);

/// A picture by its digest.
pub(crate) async fn picture(
    State(room): Shared,
    Path((slug, digest)): Path<(String, String)>,
) -> Response {
    let found = async {
        let book = room.entry(EntryKind::Book, &slug).await?;
        let wanted = digest.clone();
        let read = blocking(move || {
            Book::open(std::path::Path::new(&book.file)).and_then(|book| book.picture(&wanted))
        });
        let told = |error: BookError| Trouble::Broken(format!("The book cannot be read: {error}."));
        let kept = read.await?.map_err(told)?.ok_or_else(|| {
            Trouble::NotFound("The book holds no picture of that digest.".to_owned())
        })?;
        // What an older book took in may hold where and when it was taken.
        let shown = blocking(move || PictureFile::received(kept.content).map(|one| one.content));
        let shown = shown
            .await?
            .map_err(|error| Trouble::Broken(format!("The picture cannot be shown: {error}.")))?;
        Ok((format!("{digest}.{}", kept.format.ending()), kept.format.media_type(), shown))
    };
    match found.await {
        Ok((name, kind, content)) => file(kind, &name, content),
        Err(trouble) => Trouble::page(&trouble),
    }
}

/// Take a picture of an entry: its bytes are the body, what is said of it the query.
pub(crate) async fn add(
    State(room): Shared,
    Path((slug, text)): Path<(String, String)>,
    RawQuery(query): RawQuery,
    headers: HeaderMap,
    body: Body,
) -> Response {
    if let Err(trouble) = Query::only(query.as_deref(), &SAID) {
        return trouble.json();
    }
    let said = query.unwrap_or_default();
    let said: BTreeMap<String, String> =
        form_urlencoded::parse(said.as_bytes()).into_owned().collect();
    let taken = match number(&text) {
        Err(why) => Err(refused(StatusCode::NOT_FOUND, why)),
        Ok(id) => take(&room, (&slug, id), said, &headers, body).await,
    };
    match taken {
        Ok(once) => {
            let (status, is_known) = match once {
                Once::New(_) => (StatusCode::CREATED, false),
                Once::Known(_) => (StatusCode::OK, true),
            };
            let digest = match &once.entry().record {
                Record::Picture(one) => Some(&one.digest),
                _ => None,
            };
            let told = json!({ "entry": once.entry().id, "known": is_known, "sha256": digest });
            answer(status, &told)
        }
        Err(refused) => refused.answer(),
    }
}

async fn take(
    room: &Room,
    (slug, id): (&str, i64),
    mut said: BTreeMap<String, String>,
    headers: &HeaderMap,
    body: Body,
) -> Result<Once, Refused> {
    let given = headers.get(TOKEN).and_then(|value| value.to_str().ok()).unwrap_or_default();
    let Some(sender) = sender(given) else {
        let said = "The header x-hardpan-token does not carry the token of /api/session. Nothing \
                    was kept.";
        return Err(refused(StatusCode::FORBIDDEN, said));
    };
    let role = allowed(sender, &mut said)?;
    let content = whole(room, body).await?;
    finish(room, (slug, id), role, said, content).await
}

/// What is said of a picture, by somebody who may record one.
pub(super) fn allowed(
    sender: Visitor,
    said: &mut BTreeMap<String, String>,
) -> Result<Option<Role>, Refused> {
    let role = sender.account.as_ref().map(|(_, role)| *role);
    if role.is_some_and(|role| !PICTURED.into_iter().any(|kind| role.may_record(kind))) {
        return Err(refused(
            StatusCode::FORBIDDEN,
            "Your account reads the book and records nothing.",
        ));
    }
    if let Some((name, _)) = sender.account {
        said.insert("by".to_owned(), name);
    }
    let unfit = |said: String| refused(StatusCode::UNPROCESSABLE_ENTITY, said);
    if let Some((name, _)) = said.iter().find(|(_, one)| one.chars().count() > LONGEST) {
        return Err(unfit(format!("{name} has over {LONGEST} characters.")));
    }
    for (name, wanted) in [
        ("mark", "Give it a mark of 8 to 64 letters, digits and hyphens."),
        ("shown", "Say what it shows."),
        ("by", "Say who records it."),
    ] {
        if said.get(name).is_none_or(|text| text.trim().is_empty()) {
            return Err(unfit(wanted.to_owned()));
        }
    }
    Ok(role)
}

/// Keep what has arrived.
pub(super) async fn finish(
    room: &Room,
    (slug, id): (&str, i64),
    role: Option<Role>,
    said: BTreeMap<String, String>,
    content: Vec<u8>,
) -> Result<Once, Refused> {
    let entry = room.entry(EntryKind::Book, slug).await;
    let entry = entry.map_err(|trouble| refused(trouble.status(), trouble.sentence()))?;
    let at = room.shelf.now();
    let kept = blocking(move || keep(&entry.file, id, role, &said, content, at));
    kept.await.map_err(|trouble| refused(trouble.status(), trouble.sentence()))?
}

/// The bytes, a few senders at a time, so that none fill the memory.
async fn whole(room: &Room, body: Body) -> Result<Vec<u8>, Refused> {
    let _slot = room.picturing.acquire().await;
    let late = |_| {
        let said = format!("It did not arrive within {} s.", LONGEST_WAY.as_secs());
        refused(StatusCode::REQUEST_TIMEOUT, said)
    };
    let arrived = tokio::time::timeout(LONGEST_WAY, to_bytes(body, LARGEST_PICTURE)).await;
    let bytes = arrived.map_err(late)?.map_err(|_| {
        let said = format!(
            "The picture has over {} MiB, or did not arrive whole. Nothing was kept.",
            LARGEST_PICTURE / 1024 / 1024
        );
        refused(StatusCode::PAYLOAD_TOO_LARGE, said)
    })?;
    Ok(bytes.to_vec())
}

fn keep(
    file: &str,
    id: i64,
    role: Option<Role>,
    said: &BTreeMap<String, String>,
    content: Vec<u8>,
    at: jiff::Timestamp,
) -> Result<Once, Refused> {
    let told = |error: BookError| {
        let status = match error {
            BookError::Value { .. } | BookError::NotSaid { .. } | BookError::Picture { .. } => {
                StatusCode::UNPROCESSABLE_ENTITY
            }
            BookError::NoEntry { .. } => StatusCode::NOT_FOUND,
            BookError::Mark { .. } => StatusCode::CONFLICT,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        };
        refused(status, format!("{}.", super::form::in_words(&error)))
    };
    let text = |name: &str| said.get(name).map_or("", |text| text.trim());
    let mut book = Book::open(std::path::Path::new(file)).map_err(told)?;
    let entries = book.entries().map_err(told)?;
    let owner = newest_of(&entries, id).ok_or_else(|| told(BookError::NoEntry { id }))?;
    let kind = owner.record.kind();
    if role.is_some_and(|role| !role.may_record(kind)) {
        let said =
            format!("Your account may not record {}, nor a picture of it.", kind.with_article());
        return Err(refused(StatusCode::FORBIDDEN, said));
    }
    let picture = PictureFile::received(content).map_err(told)?;
    let name = Some(text("file")).filter(|name| !name.is_empty());
    let shown = Shown { of_entry: id, what: text("shown"), file: name };
    let audit = Audit { by: text("by").to_owned(), at };
    book.add_picture(shown, picture, Some(text("mark")), audit).map_err(told)
}

/// The pictures of an entry, each with what it shows and where.
pub(super) fn of_entry(
    address: &str,
    entries: &[Entry],
    entry: &Entry,
    units: UnitSystem,
) -> Markup {
    let all = pictures_of(entries, entry.id);
    let place = place(&entry.record, units);
    html! {
        @if !all.is_empty() {
            details.pictures {
                summary { (counted(all.len(), "picture", "pictures")) }
                @for (own, one) in all {
                    @let source = format!("{address}/pictures/{}", one.digest);
                    figure {
                        a href=(source) {
                            img src=(source) width=(one.width) height=(one.height) loading="lazy"
                                decoding="async" alt={ (one.shown) "; " (place) };
                        }
                        figcaption { (one.shown) " " span.file { "entry " (own.id) ", by "
                            (own.audit.by) } }
                    }
                }
            }
        }
    }
}

/// Where a record says that it was found.
fn place(record: &Record, units: UnitSystem) -> String {
    let fields = record.fields();
    let named = [
        "rut_station",
        "rut_lane",
        "loose_station",
        "water_station",
        "zone",
        "station",
        "from",
        "to",
    ];
    let found = named.iter().filter_map(|name| {
        Some(super::history::named(record.kind(), name, fields.get(*name)?, units))
    });
    let strip = record.strip().unwrap_or_default();
    let parts = std::iter::once(format!("{} of {strip}", record.kind())).chain(found);
    parts.collect::<Vec<_>>().join("; ")
}
