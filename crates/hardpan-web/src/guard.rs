//! What every request must be and what every answer says: only this machine by
//! its own name, no other site, nothing from elsewhere in a page.

use crate::api::{as_documented, is_of_programs};
use crate::routes::Room;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::sync::Arc;

/// What a page may load and do.
const POLICY: &str = "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; img-src 'self' \
    data:; font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; \
    frame-ancestors 'none'";

/// For a year a browser asks this name in no other way than encrypted. Other names under
/// it are left alone: they are none of this page's.
const ONLY_ENCRYPTED: &str = "max-age=31536000";

/// Names under which this machine knows itself.
const NAMES: [&str; 3] = ["localhost", "127.0.0.1", "[::1]"];

/// Refuse what does not come from a page of ours or from the address line, and
/// put the rules of the house on every answer.
pub(crate) async fn guard(State(room): State<Arc<Room>>, request: Request, next: Next) -> Response {
    let is_guarded = room.gate.is_some();
    let writes = !matches!(*request.method(), Method::GET | Method::HEAD);
    // A browser that keeps it for this machine would ask its other pages so too.
    let is_encrypted_elsewhere = is_guarded && !is_to_own(request.headers());
    let of_programs = is_of_programs(request.uri().path()).then(|| request.method().clone());
    let mut response = match refusal(request.headers(), writes, is_guarded) {
        Some(refused) => refused.into_response(),
        None => next.run(request).await,
    };
    if let Some(method) = of_programs {
        response = as_documented(&method, response).await;
    }
    let headers = response.headers_mut();
    for (name, value) in rules() {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if is_encrypted_elsewhere {
        headers.insert(header::STRICT_TRANSPORT_SECURITY, HeaderValue::from_static(ONLY_ENCRYPTED));
    }
    headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    response
}

fn rules() -> [(HeaderName, &'static str); 6] {
    [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "same-origin"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
        (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    ]
}

/// With accounts, a name that leads here is no danger: another site has neither
/// this certificate nor the cookie of a session.
fn refusal(
    headers: &HeaderMap,
    writes: bool,
    is_guarded: bool,
) -> Option<(StatusCode, &'static str)> {
    if !is_guarded && !is_to_own(headers) {
        let said = "This page answers to localhost, 127.0.0.1 and [::1] only: another name that \
                    leads here may belong to a site that wants to read your flights.\n";
        return Some((StatusCode::MISDIRECTED_REQUEST, said));
    }
    let word = |name: &str| headers.get(name).and_then(|value| value.to_str().ok());
    let is_foreign = word("sec-fetch-site") == Some("cross-site");
    if is_foreign && word("sec-fetch-mode") != Some("navigate") {
        return Some((StatusCode::FORBIDDEN, "Another site may not read these pages.\n"));
    }
    let scheme = if is_guarded { "https://" } else { "http://" };
    if writes && !is_from_here(headers, scheme) {
        let said = "Only a form of these pages may record anything. Nothing was recorded.\n";
        return Some((StatusCode::FORBIDDEN, said));
    }
    None
}

/// Whether a request comes from a page of the very address that it goes to.
fn is_from_here(headers: &HeaderMap, scheme: &str) -> bool {
    let word = |name| headers.get(name).and_then(|value| value.to_str().ok());
    let (host, origin) = (word(header::HOST), word(header::ORIGIN));
    host.is_some_and(|host| origin.and_then(|o| o.strip_prefix(scheme)) == Some(host))
}

/// Whether a request is to this machine by one of its own names.
fn is_to_own(headers: &HeaderMap) -> bool {
    headers.get(header::HOST).is_some_and(|host| host.to_str().is_ok_and(is_own))
}

/// Whether a host is this machine by one of its own names, at any port.
fn is_own(host: &str) -> bool {
    NAMES.iter().any(|name| {
        host.to_ascii_lowercase().strip_prefix(name).is_some_and(|rest| {
            rest.is_empty()
                || rest.strip_prefix(':').is_some_and(|port| {
                    !port.is_empty() && port.chars().all(|c| c.is_ascii_digit())
                })
        })
    })
}

#[cfg(test)]
mod tests {
    use super::is_own;

    #[test]
    fn only_this_machine_is_its_own_host() {
        for own in ["localhost", "LOCALHOST:8642", "127.0.0.1:1", "[::1]:8642", "[::1]"] {
            assert!(is_own(own), "{own}");
        }
        for other in [
            "",
            "example.org",
            "localhost.example.org",
            "127.0.0.1.example.org",
            "localhost:",
            "localhost:80@example.org",
            "127.0.0.2",
            "[::2]",
            "xlocalhost",
        ] {
            assert!(!is_own(other), "{other}");
        }
    }
}
