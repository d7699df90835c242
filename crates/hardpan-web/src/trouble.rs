//! What stands in the way of an answer, as a page or as JSON.

use crate::page::{Page, frame};
use crate::query::UNKNOWN_KEY;
use crate::shelf::{EntryKind, Refusal};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use serde_json::{Value, json};

/// What stands in the way of an answer.
#[derive(Debug, Clone)]
pub(crate) enum Trouble {
    /// Nothing has that address.
    NotFound(String),
    /// Nothing of that kind has that name.
    NotListed(EntryKind),
    /// The files or the changes cannot be used.
    Refused(Refusal),
    /// The query is not understood.
    Query(String),
    /// Something is not known; what is missing.
    Missing(String),
    /// The document cannot be made.
    Broken(String),
}

impl Trouble {
    pub(crate) const fn status(&self) -> StatusCode {
        match self {
            Self::NotFound(_) | Self::NotListed(_) => StatusCode::NOT_FOUND,
            Self::Refused(_) | Self::Missing(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Self::Query(_) => StatusCode::BAD_REQUEST,
            Self::Broken(_) => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }

    /// In one sentence.
    pub(crate) fn sentence(&self) -> String {
        match self {
            Self::NotFound(what) | Self::Query(what) | Self::Missing(what) | Self::Broken(what) => {
                what.clone()
            }
            Self::NotListed(kind) => not_listed(*kind, "the start page"),
            Self::Refused(refusal) => match refusal.places.len() {
                1 => "There is one mistake in the files or the values.".to_owned(),
                count => format!("There are {count} mistakes in the files or the values."),
            },
        }
    }

    /// As a page of its own.
    pub(crate) fn page(&self) -> Response {
        let body = html! {
            main.plain {
                h1 { "No answer" }
                p.lead { (self.sentence()) }
                (self.details())
                p { a href="/" { "To the flights, strips and aeroplanes" } }
            }
        };
        (self.status(), frame(&Page { title: "No answer", crumbs: &[], head: html! {} }, &body))
            .into_response()
    }

    /// Every mistake with the line that it stands in.
    pub(crate) fn details(&self) -> Markup {
        html! {
            @if let Self::Refused(refusal) = self {
                pre.mistakes tabindex="0" { (refusal.text) }
            }
        }
    }

    /// As JSON: a sentence, and every mistake by file, line and column.
    pub(crate) fn json(&self) -> Response {
        let places: Vec<Value> = match self {
            Self::Refused(refusal) => refusal
                .places
                .iter()
                .map(|place| {
                    json!({
                        "code": place.code, "file": place.file, "line": place.line,
                        "column": place.column, "key": place.key, "message": place.message,
                        "expected": place.expected, "hint": place.hint,
                    })
                })
                .collect(),
            _ => Vec::new(),
        };
        let said = match self {
            Self::NotListed(kind) => not_listed(*kind, "/api/entries"),
            other => other.sentence(),
        };
        as_json(self.status(), &said, &places)
    }

    /// The same where an address of a flight knows keys of its own: a key that nobody
    /// knows is told those too.
    pub(crate) fn also_known(mut self, own: &[&str]) -> Self {
        if let Self::Refused(refusal) = &mut self
            && !own.is_empty()
        {
            let more = format!("; this address knows {} besides", own.join(", "));
            for place in refusal.places.iter_mut().filter(|one| one.code == UNKNOWN_KEY) {
                place.hint.push_str(&more);
            }
        }
        self
    }
}

fn not_listed(kind: EntryKind, list: &str) -> String {
    format!("There is no {} of that name here; {list} lists them.", kind.word())
}

/// What programs are told when there is no answer.
pub(crate) fn as_json(status: StatusCode, said: &str, mistakes: &[Value]) -> Response {
    let body = json!({ "error": said, "mistakes": mistakes });
    let kind = [(header::CONTENT_TYPE, "application/json")];
    (status, kind, format!("{body:#}\n")).into_response()
}
