//! Errors of the addresses for programs: always the documented object, whoever refuses.

use crate::trouble::as_json;
use axum::body::to_bytes;
use axum::http::{Method, StatusCode, header};
use axum::response::Response;

/// Longest sentence of a refusal that is passed on, bytes.
const LONGEST: usize = 4096;

/// Whether an address is one for programs.
pub(crate) fn is_of_programs(path: &str) -> bool {
    path == "/api" || path.starts_with("/api/")
}

/// There is nothing at this address.
pub(crate) fn no_such_address() -> Response {
    let said = "Nothing has this address; /api/openapi.json lists those that there are.";
    as_json(StatusCode::NOT_FOUND, said, &[])
}

/// An answer to a program; a refusal that is no JSON yet becomes the documented object
/// with its sentence, and keeps its other headers.
pub(crate) async fn as_documented(method: &Method, response: Response) -> Response {
    let status = response.status();
    let kind = response.headers().get(header::CONTENT_TYPE);
    let is_json = kind.is_some_and(|kind| kind.as_bytes().starts_with(b"application/json"));
    if !(status.is_client_error() || status.is_server_error()) || is_json {
        return response;
    }
    let is_plain = kind.is_some_and(|kind| kind.as_bytes().starts_with(b"text/plain"));
    let (head, body) = response.into_parts();
    let text = match is_plain {
        true => to_bytes(body, LONGEST).await.unwrap_or_default(),
        false => Default::default(),
    };
    let text = String::from_utf8_lossy(&text).trim().to_owned();
    let said = match status {
        StatusCode::METHOD_NOT_ALLOWED => {
            format!("This address does not take {method}; /api/openapi.json says what it takes.")
        }
        _ if text.is_empty() => format!("There is no answer: {status}."),
        _ if text.ends_with('.') => text,
        _ => format!("{text}."),
    };
    let mut told = as_json(status, &said, &[]);
    for (name, value) in &head.headers {
        if *name != header::CONTENT_TYPE && *name != header::CONTENT_LENGTH {
            told.headers_mut().append(name, value.clone());
        }
    }
    told
}
