//! The same answers for programs, and the document that describes them.

mod commands;
mod description;
mod errors;

pub(crate) use commands::{masses, missing};
pub(crate) use errors::{as_documented, is_of_programs, no_such_address};

use crate::desk::blocking;
use crate::pages::{self, strip};
use crate::query::{Query, without_keys};
use crate::routes::{Room, Shared};
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::Router;
use axum::extract::{DefaultBodyLimit, Path, RawQuery, State};
use axum::http::header;
use axum::middleware::from_fn;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use description::description;
use serde_json::{Value, json};
use std::sync::Arc;

/// Addresses for programs, as the description names them.
mod address {
    pub(super) const DESCRIPTION: &str = "/api/openapi.json";
    pub(super) const ENTRIES: &str = "/api/entries";
    pub(super) const FLIGHT: &str = "/api/flights/{slug}";
    pub(super) const MASSES: &str = "/api/flights/{slug}/masses";
    pub(super) const AEROPLANE: &str = "/api/aeroplanes/{slug}";
    pub(super) const STRIP: &str = "/api/strips/{slug}";
    pub(super) const BOOK: &str = "/api/books/{slug}";
    pub(super) const LIST: &str = "/api/books/{slug}/list/{kind}";
    pub(super) const MAP: &str = "/api/books/{slug}/map";
    pub(super) const KEPT: &str = "/api/books/{slug}/kept";
    pub(super) const STATUS: &str = "/api/books/{slug}/status";
    pub(super) const GRADING: &str = "/api/books/{slug}/grading";
    pub(super) const DAMAGE: &str = "/api/books/{slug}/damage";
    pub(super) const PASSES: &str = "/api/books/{slug}/passes";
    pub(super) const DUE: &str = "/api/books/{slug}/due";
    pub(super) const RULES: &str = "/api/rules";
    pub(super) const SESSION: &str = "/api/session";
    pub(super) const RECORDS: &str = "/api/books/{slug}/entries";
    pub(super) const KEEP: &str = "/api/flights/{slug}/keep";
    pub(super) const COMMAND: &str = "/api/flights/{slug}/{command}";
    pub(super) const COMPARE: &str = "/api/compare";
    pub(super) const PICTURES: &str = "/api/books/{slug}/entries/{id}/pictures";
    pub(super) const IMPORT: &str = "/api/books/{slug}/import";
    pub(super) const CORRECT: &str = "/api/books/{slug}/entries/{id}/correct";
    pub(super) const WITHDRAW: &str = "/api/books/{slug}/entries/{id}/withdraw";
    pub(super) const STORED: &str = "/api/books/{slug}/entries/{id}";
}

pub(crate) fn router() -> Router<Arc<Room>> {
    let keyless = Router::new()
        .route(address::DESCRIPTION, get(describe))
        .route(address::ENTRIES, get(list))
        .route(address::AEROPLANE, get(tail))
        .route(address::BOOK, get(pages::book::export::json))
        .route(address::LIST, get(pages::book::export::csv))
        .route(address::KEPT, get(kept))
        .route(address::RULES, get(rule_list))
        .route(address::SESSION, get(pages::book::entries::session))
        .route(address::STORED, get(pages::book::entries::one))
        .route(address::CORRECT, post(pages::book::mending::correct_as_json))
        .route(address::WITHDRAW, post(pages::book::mending::withdraw_as_json))
        .route(address::RECORDS, post(pages::book::entries::record))
        .route(
            address::IMPORT,
            post(pages::book::import::take_over_as_json).layer(DefaultBodyLimit::disable()),
        )
        .route_layer(from_fn(without_keys));
    Router::new()
        .merge(keyless)
        .route(address::FLIGHT, get(assessment))
        .route(address::MASSES, get(largest))
        .route(address::STRIP, get(dossier))
        .route(address::MAP, get(pages::book::export::map_for_programs))
        .route(address::STATUS, get(told))
        .route(address::GRADING, get(pages::book::told::grading))
        .route(address::DAMAGE, get(pages::book::told::damage))
        .route(address::PASSES, get(pages::book::told::passes))
        .route(address::DUE, get(pages::book::told::due))
        .route(address::KEEP, post(pages::keep::keep_as_json))
        .route(address::COMMAND, get(commands::ask))
        .route(address::COMPARE, get(compared))
        // The page of pictures bounds the bytes itself.
        .route(
            address::PICTURES,
            post(pages::book::pictures::add).layer(DefaultBodyLimit::disable()),
        )
}

/// The description of the JSON interface, OpenAPI 3.1.
#[must_use]
pub fn openapi(changeable: &[&str]) -> Value {
    description(changeable)
}

fn document(text: String) -> Response {
    ([(header::CONTENT_TYPE, "application/json")], text).into_response()
}

async fn describe(State(room): Shared) -> Response {
    document(format!("{:#}\n", description(room.shelf.changeable())))
}

async fn list(State(room): Shared) -> Response {
    let entries = match room.entries().await {
        Ok(entries) => entries,
        Err(trouble) => return trouble.json(),
    };
    let rows = entries.iter().map(|entry| {
        let address = match entry.kind {
            EntryKind::Flight => format!("/api/flights/{}", entry.slug),
            EntryKind::Strip => format!("/api/strips/{}", entry.slug),
            EntryKind::Book => format!("/api/books/{}", entry.slug),
            EntryKind::Aeroplane => format!("/api/aeroplanes/{}", entry.slug),
        };
        json!({
            "kind": entry.kind.word(), "slug": entry.slug, "file": entry.file,
            "name": entry.name, "address": address,
        })
    });
    let rows: Vec<Value> = rows.collect();
    document(format!("{:#}\n", json!({ "caution": hardpan_assess::CAUTION, "entries": rows })))
}

async fn assessment(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let query = Query::read(query.as_deref())?;
        let judged = room.judge(&slug, &query).await?;
        blocking(move || judged.json(&query).to_owned()).await
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.json(), document)
}

async fn largest(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = pages::masses::json(&room, &slug, query.as_deref()).await;
    answer.map_or_else(|trouble| trouble.json(), document)
}

async fn tail(State(room): Shared, Path(slug): Path<String>) -> Response {
    pages::aeroplane::json(&room, &slug).await.map_or_else(|trouble| trouble.json(), document)
}

async fn dossier(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let asked = strip::Asked::read(query.as_deref())?;
        strip::json(&room, &slug, &asked).await
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.json(), document)
}

async fn told(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = pages::book::status_json(&room, &slug, query.as_deref()).await;
    answer.map_or_else(|trouble| trouble.json(), document)
}

async fn kept(State(room): Shared, Path(slug): Path<String>) -> Response {
    pages::book::kept_json(&room, &slug).await.map_or_else(|trouble| trouble.json(), document)
}

async fn compared(State(room): Shared, RawQuery(query): RawQuery) -> Response {
    let answer = pages::compare::json(&room, query.as_deref()).await;
    answer.map_or_else(|trouble| trouble.json(), document)
}

async fn rule_list() -> Response {
    document(hardpan_report::rules_json(hardpan_assess::rules()))
}
