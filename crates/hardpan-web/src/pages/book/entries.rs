//! Records from programs and from the field log: JSON in, JSON out, each under a
//! mark of the sender's, so that one sent twice is recorded once.

use super::post::LONGEST;
use crate::account::{sender, visitor};
use crate::desk::blocking;
use crate::routes::{Room, Shared};
use crate::shelf::{EntryKind, Shelf};
use crate::trouble::Trouble;
use axum::body::Bytes;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use hardpan_book::{Audit, Book, BookError, Entry, Fields, Kind, Once, Record, conflict, current};
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

/// Entries kept for the next reader.
const KEPT: usize = 48;

/// Header that carries the token of `/api/session`.
pub(crate) const TOKEN: &str = "x-hardpan-token";

/// What is sent.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Sent {
    mark: String,
    record: String,
    fields: Fields,
    #[serde(default)]
    by: String,
    /// Record it although something stands against it.
    #[serde(default)]
    anyway: bool,
}

/// Why nothing was recorded.
pub(crate) struct Refused {
    pub(crate) status: StatusCode,
    pub(crate) said: String,
    /// Values that are wrong, and what is wrong with each.
    mistakes: Vec<(&'static str, String)>,
}

impl Refused {
    /// As programs are told.
    pub(crate) fn answer(&self) -> Response {
        let mistakes: Vec<Value> = self
            .mistakes
            .iter()
            .map(|(name, what)| json!({ "key": name, "message": what }))
            .collect();
        answer(self.status, &json!({ "error": self.said, "mistakes": mistakes }))
    }
}

pub(crate) fn refused(status: StatusCode, said: impl Into<String>) -> Refused {
    Refused { status, said: said.into(), mistakes: Vec::new() }
}

pub(crate) fn answer(status: StatusCode, body: &Value) -> Response {
    let kind = [(header::CONTENT_TYPE, "application/json")];
    (status, kind, format!("{body:#}\n")).into_response()
}

/// Who is signed in, and what their requests that record must carry.
pub(crate) async fn session() -> Response {
    let visitor = visitor();
    let account = visitor.as_ref().and_then(|visitor| visitor.account.as_ref());
    let body = json!({
        "account": account.map(|(name, _)| name),
        "role": account.map(|(_, role)| role.word()),
        "token": visitor.as_ref().map(|visitor| &visitor.token),
    });
    answer(StatusCode::OK, &body)
}

/// One entry of a book: an assessment as it was frozen, anything else by its values.
/// An entry never changes, so that it is read again only when the file was touched.
pub(crate) async fn one(
    State(room): Shared,
    Path((slug, text)): Path<(String, String)>,
) -> Response {
    let found = async {
        let id = number(&text).map_err(Trouble::NotFound)?;
        let book = room.entry(EntryKind::Book, &slug).await?;
        let (shelf, desk) = (Arc::clone(&room.shelf), Arc::clone(&room.stored));
        blocking(move || stored(&*shelf, &desk, &book.file, id)).await?
    };
    let kind = [(header::CONTENT_TYPE, "application/json")];
    match found.await {
        Ok(text) => (StatusCode::OK, kind, text.to_string()).into_response(),
        Err(trouble) => Trouble::json(&trouble),
    }
}

/// The number of an entry in an address.
pub(super) fn number(text: &str) -> Result<i64, String> {
    text.parse().map_err(|_| {
        let read: String = text.chars().take(40).collect();
        format!("There is no entry “{read}”: entries have whole numbers, such as 12.")
    })
}

/// Entries that were asked for last: file, number, mark of the file, and text.
pub(crate) type Stored = Mutex<VecDeque<(String, i64, String, Arc<str>)>>;

fn stored(shelf: &dyn Shelf, kept: &Stored, file: &str, id: i64) -> Result<Arc<str>, Trouble> {
    let open = || kept.lock().unwrap_or_else(PoisonError::into_inner);
    let mark = shelf.mark_of(&[file.to_owned()]);
    let is_it = |one: &&(String, i64, String, Arc<str>)| {
        one.0 == file && one.1 == id && Some(&one.2) == mark.as_ref()
    };
    if let Some(known) = open().iter().find(is_it) {
        return Ok(Arc::clone(&known.3));
    }
    let told = |error: BookError| Trouble::Broken(format!("The book cannot be read: {error}."));
    let entries = Book::open(std::path::Path::new(file)).and_then(|book| book.entries());
    let entries = entries.map_err(told)?;
    let entry = entries.iter().find(|entry| entry.id == id);
    let entry = entry.ok_or_else(|| {
        Trouble::NotFound(format!("The book has no entry {id}; it has {}.", entries.len()))
    })?;
    let text: Arc<str> = match &entry.record {
        Record::Assessment(one) => one.json.as_str().into(),
        other => format!("{:#}\n", values(entry, other)).into(),
    };
    if let Some(mark) = mark {
        let mut open = open();
        open.push_front((file.to_owned(), id, mark, Arc::clone(&text)));
        open.truncate(KEPT);
    }
    Ok(text)
}

fn values(entry: &Entry, record: &Record) -> Value {
    json!({
        "entry": entry.id,
        "kind": record.kind().word(),
        "recorded_at": entry.audit.at.to_string(),
        "recorded_by": entry.audit.by,
        "first_by": entry.first.as_ref().map(|first| &first.by),
        "first_at": entry.first.as_ref().and_then(|first| first.at).map(|at| at.to_string()),
        "supersedes": entry.supersedes,
        "why": entry.why,
        "fields": record.fields(),
    })
}

/// Record one thing in a book.
pub(crate) async fn record(
    State(room): Shared,
    Path(slug): Path<String>,
    headers: HeaderMap,
    body: Bytes,
) -> Response {
    match take(&room, &slug, &headers, &body).await {
        Ok((once, kind)) => {
            let (status, is_known) = match once {
                Once::New(_) => (StatusCode::CREATED, false),
                Once::Known(_) => (StatusCode::OK, true),
            };
            let body = json!({ "entry": once.entry().id, "kind": kind.word(), "known": is_known });
            answer(status, &body)
        }
        Err(refused) => refused.answer(),
    }
}

async fn take(
    room: &Room,
    slug: &str,
    headers: &HeaderMap,
    body: &[u8],
) -> Result<(Once, Kind), Refused> {
    let given = headers.get(TOKEN).and_then(|value| value.to_str().ok()).unwrap_or_default();
    let Some(sender) = sender(given) else {
        let said = "The header x-hardpan-token does not carry the token of /api/session. Nothing \
                    was recorded.";
        return Err(refused(StatusCode::FORBIDDEN, said));
    };
    let mut sent: Sent = serde_json::from_slice(body).map_err(|error| {
        let said = format!("This is no record as /api/openapi.json describes it: {error}.");
        refused(StatusCode::BAD_REQUEST, said)
    })?;
    let kind = Kind::of_word(&sent.record).filter(|kind| super::form::KINDS.contains(kind));
    let Some(kind) = kind else {
        return Err(refused(StatusCode::BAD_REQUEST, super::form::no_such_kind()));
    };
    if let Some((name, role)) = sender.account {
        if !role.may_record(kind) {
            let said = format!(
                "A {} may not record {}. Nothing was recorded.",
                role.word(),
                kind.with_article()
            );
            return Err(refused(StatusCode::FORBIDDEN, said));
        }
        sent.by = name;
    }
    let unfit = |said: String| refused(StatusCode::UNPROCESSABLE_ENTITY, said);
    if sent.by.trim().is_empty() || sent.by.chars().count() > LONGEST {
        return Err(unfit("Say who records it.".to_owned()));
    }
    if let Some((name, _)) = sent.fields.iter().find(|(_, one)| one.chars().count() > LONGEST) {
        return Err(unfit(format!("{name} has over {LONGEST} characters.")));
    }
    let at = room.shelf.now();
    let record = Record::from_fields_at(kind, &sent.fields, at).map_err(|wrong| every(&wrong))?;
    let entry = room.entry(EntryKind::Book, slug).await;
    let entry = entry.map_err(|trouble| refused(trouble.status(), trouble.sentence()))?;
    let audit = Audit { by: sent.by, at };
    let written = blocking(move || {
        let path = std::path::Path::new(&entry.file);
        write(path, &sent.mark, record, audit, sent.anyway)
    });
    let written = written.await.map_err(|trouble| refused(trouble.status(), trouble.sentence()))?;
    written.map(|once| (once, kind))
}

/// Everything that is wrong with a record.
pub(super) fn every(wrong: &[BookError]) -> Refused {
    let words: Vec<String> = wrong.iter().map(super::form::in_words).collect();
    let mistakes = wrong.iter().filter_map(|error| match error {
        BookError::Value { field, what, .. } => Some((*field, what.clone())),
        _ => None,
    });
    Refused {
        mistakes: mistakes.collect(),
        ..refused(StatusCode::UNPROCESSABLE_ENTITY, format!("{}.", words.join("; ")))
    }
}

fn write(
    path: &std::path::Path,
    mark: &str,
    record: Record,
    audit: Audit,
    anyway: bool,
) -> Result<Once, Refused> {
    let told = |error: BookError| {
        let status = match error {
            BookError::Value { .. } | BookError::NotSaid { .. } => StatusCode::UNPROCESSABLE_ENTITY,
            BookError::Mark { .. } => StatusCode::CONFLICT,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        };
        refused(status, format!("{}.", super::form::in_words(&error)))
    };
    let mut book = Book::open(path).map_err(told)?;
    let entries = book.entries().map_err(told)?;
    let is_sent = entries.iter().any(|entry| entry.mark.as_deref() == Some(mark));
    if !anyway
        && !is_sent
        && let Some(why) = conflict(&current(&entries), &record)
    {
        return Err(refused(StatusCode::CONFLICT, format!("Look first: {why}.")));
    }
    book.add_once(mark, record, audit).map_err(told)
}
