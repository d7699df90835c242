//! An entry is corrected or taken back: another takes its place, and it stays readable.

use super::entries::{Refused, TOKEN, answer, every, number, refused};
use super::post::LONGEST;
use crate::account::{Role, Visitor, sender};
use crate::desk::blocking;
use crate::routes::{Room, Shared};
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::body::Bytes;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use hardpan_book::{Audit, Book, BookError, Entry, Fields, Kind, Record, Withdrawal};
use serde::Deserialize;
use serde_json::json;

/// What takes the place of an entry.
#[derive(Debug, Clone)]
pub(super) enum Change {
    /// The same with these values; a blank one is no longer stated.
    Correction(Fields),
    /// Nothing.
    Withdrawal,
}

/// What somebody asks for.
#[derive(Debug, Clone)]
pub(super) struct Mending {
    pub(super) change: Change,
    pub(super) why: String,
    pub(super) by: String,
    pub(super) role: Option<Role>,
}

/// Why nothing took the place of an entry.
#[derive(Debug)]
pub(super) enum Unmended {
    /// There is no such book or entry, or who asks may not.
    Refused(StatusCode, String),
    /// Values are wrong.
    Wrong(Vec<BookError>),
}

impl Unmended {
    fn of_book(error: BookError) -> Self {
        let status = match error {
            BookError::Value { .. } | BookError::NotSaid { .. } => {
                return Self::Wrong(vec![error]);
            }
            BookError::Superseded { .. } | BookError::OtherKind { .. } => StatusCode::CONFLICT,
            BookError::NoEntry { .. } => StatusCode::NOT_FOUND,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        };
        Self::Refused(status, format!("{error}."))
    }
}

fn unfit(said: impl Into<String>) -> Unmended {
    Unmended::Refused(StatusCode::UNPROCESSABLE_ENTITY, said.into())
}

/// Put something in the place of an entry; gives the number of what is recorded.
pub(super) async fn mend(
    room: &Room,
    slug: &str,
    id: i64,
    mending: Mending,
) -> Result<i64, Unmended> {
    if mending.by.trim().is_empty() || mending.by.chars().count() > LONGEST {
        return Err(unfit("Say who records it."));
    }
    if mending.why.trim().is_empty() || mending.why.chars().count() > LONGEST {
        return Err(unfit(format!("Say why, in {LONGEST} characters at most.")));
    }
    let trouble = |one: Trouble| Unmended::Refused(one.status(), one.sentence());
    let book = room.entry(EntryKind::Book, slug).await.map_err(trouble)?;
    let at = room.shelf.now();
    blocking(move || {
        let mut book = Book::open(std::path::Path::new(&book.file)).map_err(Unmended::of_book)?;
        let entries = book.entries().map_err(Unmended::of_book)?;
        let audit = Audit { by: mending.by.clone(), at };
        let record = successor(&entries, id, &mending, &audit)?;
        let added = book.correct(id, record, mending.why.trim(), audit);
        added.map(|entry| entry.id).map_err(Unmended::of_book)
    })
    .await
    .map_err(trouble)?
}

/// The record that takes the place of an entry.
fn successor(
    entries: &[Entry],
    id: i64,
    mending: &Mending,
    audit: &Audit,
) -> Result<Record, Unmended> {
    let old = entries.iter().find(|entry| entry.id == id);
    let old = old.ok_or_else(|| {
        let said = format!("The book has no entry {id}; it has {}.", entries.len());
        Unmended::Refused(StatusCode::NOT_FOUND, said)
    })?;
    let kind = old.record.kind();
    if !mending.role.is_none_or(|role| may_mend(role, entries, old)) {
        let word = mending.role.map_or("", Role::word);
        let said =
            format!("A {word} may not record {}. Nothing was recorded.", kind.with_article());
        return Err(Unmended::Refused(StatusCode::FORBIDDEN, said));
    }
    if let Some(next) = entries.iter().find(|entry| entry.supersedes == Some(id)) {
        return Err(Unmended::of_book(BookError::Superseded { id, by: next.id }));
    }
    let fields = match &mending.change {
        Change::Withdrawal => return Ok(Record::Withdrawal(Withdrawal {})),
        Change::Correction(_) if !super::form::KINDS.contains(&kind) => {
            let said = format!(
                "Entry {id} is {}, which is not corrected here: withdraw it, and record it anew.",
                kind.with_article()
            );
            return Err(Unmended::Refused(StatusCode::CONFLICT, said));
        }
        Change::Correction(fields) => corrected(old.record.fields(), fields)?,
    };
    let record = Record::from_fields_at(kind, &fields, audit.at).map_err(Unmended::Wrong)?;
    if record == old.record {
        return Err(unfit(format!("No value differs from those of entry {id}.")));
    }
    Ok(record)
}

/// The values of an entry with those that change. A form shows a text in one line: one
/// that is the same but for that is not touched.
fn corrected(mut fields: Fields, changed: &Fields) -> Result<Fields, Unmended> {
    let plain = |text: &str| text.replace(['\r', '\n'], "").trim().to_owned();
    for (name, text) in changed {
        if fields.get(name).is_some_and(|old| plain(old) == plain(text)) {
            continue;
        }
        if text.chars().count() > LONGEST {
            return Err(unfit(format!("{name} has over {LONGEST} characters.")));
        }
        if text.trim().is_empty() {
            fields.remove(name);
        } else {
            fields.insert(name.clone(), text.clone());
        }
    }
    Ok(fields)
}

/// Whether a role may put something in the place of an entry: who may record its kind,
/// or what a picture shows something of.
pub(super) fn may_mend(role: Role, entries: &[Entry], entry: &Entry) -> bool {
    let kind = match &entry.record {
        Record::Picture(picture) => entries
            .iter()
            .find(|owner| owner.id == picture.of_entry)
            .map_or(Kind::Picture, |owner| owner.record.kind()),
        record => record.kind(),
    };
    role.may_record(kind) || (kind == Kind::Assessment && role.may_keep())
}

/// A correction that a program sends.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Correction {
    fields: Fields,
    why: String,
    #[serde(default)]
    by: String,
}

/// A withdrawal that a program sends.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Withdrawn {
    why: String,
    #[serde(default)]
    by: String,
}

/// Correct an entry.
pub(crate) async fn correct_as_json(
    State(room): Shared,
    Path((slug, id)): Path<(String, String)>,
    headers: HeaderMap,
    body: Bytes,
) -> Response {
    let read = || {
        let sent: Correction = serde_json::from_slice(&body)?;
        Ok((Change::Correction(sent.fields), sent.why, sent.by))
    };
    as_json(&room, (&slug, &id), &headers, read).await
}

/// Take an entry back.
pub(crate) async fn withdraw_as_json(
    State(room): Shared,
    Path((slug, id)): Path<(String, String)>,
    headers: HeaderMap,
    body: Bytes,
) -> Response {
    let read = || {
        let sent: Withdrawn = serde_json::from_slice(&body)?;
        Ok((Change::Withdrawal, sent.why, sent.by))
    };
    as_json(&room, (&slug, &id), &headers, read).await
}

async fn as_json(
    room: &Room,
    (slug, id): (&str, &str),
    headers: &HeaderMap,
    read: impl FnOnce() -> Result<(Change, String, String), serde_json::Error>,
) -> Response {
    let answered = async {
        let by = allowed(headers)?;
        let id = number(id).map_err(|said| refused(StatusCode::NOT_FOUND, said))?;
        let (change, why, own) = read().map_err(|error| {
            let said = format!("This is nothing as /api/openapi.json describes it: {error}.");
            refused(StatusCode::BAD_REQUEST, said)
        })?;
        let (by, role) = by.account.map_or((own, None), |(name, role)| (name, Some(role)));
        let mended = mend(room, slug, id, Mending { change, why, by, role }).await;
        mended.map(|entry| (id, entry)).map_err(|why| match why {
            Unmended::Refused(status, said) => refused(status, said),
            Unmended::Wrong(wrong) => every(&wrong),
        })
    };
    match answered.await {
        Ok((id, entry)) => {
            answer(StatusCode::CREATED, &json!({ "entry": entry, "supersedes": id }))
        }
        Err(why) => why.answer(),
    }
}

/// Who sends it, if the header carries the token of the session.
fn allowed(headers: &HeaderMap) -> Result<Visitor, Refused> {
    let given = headers.get(TOKEN).and_then(|value| value.to_str().ok()).unwrap_or_default();
    sender(given).ok_or_else(|| {
        let said = "The header x-hardpan-token does not carry the token of /api/session. Nothing \
                    was recorded.";
        refused(StatusCode::FORBIDDEN, said)
    })
}
