//! What stands in the way of an answer, as a page or as JSON.

use crate::page::{Page, frame};
use crate::shelf::Refusal;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use serde_json::{Value, json};

/// What stands in the way of an answer.
#[derive(Debug, Clone)]
pub(crate) enum Trouble {
    /// Nothing has that address.
    NotFound(String),
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
            Self::NotFound(_) => StatusCode::NOT_FOUND,
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
        let body = json!({ "error": self.sentence(), "mistakes": places });
        let kind = [(header::CONTENT_TYPE, "application/json")];
        (self.status(), kind, format!("{body:#}\n")).into_response()
    }
}
