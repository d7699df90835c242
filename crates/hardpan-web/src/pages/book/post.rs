//! Recording: a form of ours, sent by our own page, written whole or not at all.

use super::form::{BY, Mistake};
use super::{Asked, Refused, page, shown};
use crate::account::sender;
use crate::desk::blocking;
use crate::routes::{Room, Shared};
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::body::Bytes;
use axum::extract::{Path, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use hardpan_book::{Audit, Book, Fields, Kind, Record};
use hardpan_quantity::UnitSystem;
use jiff::Timestamp;

/// Longest value, in characters.
pub(super) const LONGEST: usize = 400;

/// What a form sends.
struct Sent {
    token: String,
    kind: Option<Kind>,
    by: String,
    units: UnitSystem,
    fields: Fields,
}

impl Sent {
    fn read(body: &[u8]) -> Self {
        let mut sent = Self {
            token: String::new(),
            kind: None,
            by: String::new(),
            units: UnitSystem::Metric,
            fields: Fields::new(),
        };
        for (key, value) in form_urlencoded::parse(body) {
            let value = value.trim().to_owned();
            match &*key {
                "token" => sent.token = value,
                "record" => sent.kind = Kind::of_word(&value),
                "by" => sent.by = value,
                "units" if value == "imperial" => sent.units = UnitSystem::Imperial,
                key if !value.is_empty() => {
                    sent.fields.insert(key.to_owned(), value);
                }
                _ => {}
            }
        }
        sent
    }

    /// The record, or everything that is wrong with it.
    fn record(&self, kind: Kind, at: Timestamp) -> Result<Record, Vec<Mistake>> {
        let long = self.fields.iter().filter(|(_, value)| value.chars().count() > LONGEST);
        let over = format!("has over {LONGEST} characters");
        let mut wrong: Vec<Mistake> =
            long.map(|(name, _)| Mistake::of(kind, name, &over)).collect();
        if self.by.is_empty() || self.by.chars().count() > LONGEST {
            wrong.push(Mistake::of(kind, BY, "say who records it"));
        }
        let mut fields = self.fields.clone();
        // Every form says which strip its page shows; not every record has one.
        if !kind.fields().contains(&"strip") {
            fields.remove("strip");
        }
        match Record::from_fields_at(kind, &fields, at) {
            Ok(record) if wrong.is_empty() => Ok(record),
            Ok(_) => Err(wrong),
            Err(errors) => {
                wrong.extend(errors.iter().map(Mistake::told));
                Err(wrong)
            }
        }
    }
}

/// Record what a form of this page holds.
pub(crate) async fn add(State(room): Shared, Path(slug): Path<String>, body: Bytes) -> Response {
    let mut sent = Sent::read(&body);
    let Some(sender) = sender(&sent.token) else {
        let said = "This form is not of the page that runs now; open the book again. Nothing was \
                    recorded.";
        return (StatusCode::FORBIDDEN, said).into_response();
    };
    let Some(kind) = sent.kind.filter(|kind| super::form::KINDS.contains(kind)) else {
        return Trouble::Query(super::form::no_such_kind()).page();
    };
    if let Some((name, role)) = sender.account {
        if !role.may_record(kind) {
            let said = format!(
                "A {} may not record {}. Nothing was recorded.",
                role.word(),
                kind.with_article()
            );
            return (StatusCode::FORBIDDEN, said).into_response();
        }
        sent.by = name;
    }
    match write(&room, &slug, kind, &sent).await {
        Ok(Ok(entry)) => {
            let mut query = form_urlencoded::Serializer::new(String::new());
            let strip = sent.fields.get("strip").map_or("", String::as_str);
            query.append_pair("strip", strip).append_pair("by", &sent.by);
            query.append_pair("entry", &entry.to_string());
            if sent.units == UnitSystem::Imperial {
                query.append_pair("units", "imperial");
            }
            let to = format!("/books/{slug}?{}#entry-{entry}", query.finish());
            (StatusCode::SEE_OTHER, [(header::LOCATION, to)]).into_response()
        }
        Ok(Err(wrong)) => again(&room, &slug, kind, sent, wrong).await,
        Err(trouble) => trouble.page(),
    }
}

/// The page with the form as it was sent, and why it was refused.
async fn again(room: &Room, slug: &str, kind: Kind, sent: Sent, wrong: Vec<Mistake>) -> Response {
    let strip = sent.fields.get("strip").cloned();
    let asked = Asked { strip, by: sent.by, ..Asked::new(sent.units) };
    match shown(room, slug).await {
        Ok(shown) => {
            let refused = Refused { kind, fields: sent.fields, wrong };
            (StatusCode::UNPROCESSABLE_ENTITY, page(&shown, &asked, Some(&refused))).into_response()
        }
        Err(trouble) => trouble.page(),
    }
}

async fn write(
    room: &Room,
    slug: &str,
    kind: Kind,
    sent: &Sent,
) -> Result<Result<i64, Vec<Mistake>>, Trouble> {
    let entry = room.entry(EntryKind::Book, slug).await?;
    let at = room.shelf.now();
    let record = match sent.record(kind, at) {
        Ok(record) => record,
        Err(wrong) => return Ok(Err(wrong)),
    };
    let audit = Audit { by: sent.by.clone(), at };
    blocking(move || {
        let written = Book::open(std::path::Path::new(&entry.file))
            .and_then(|mut book| book.add(record, audit));
        written.map(|entry| entry.id).map_err(|error| vec![Mistake::told(&error)])
    })
    .await
}
