//! Signing in and out.

use super::door::{COOKIE, Peer, Refused, sender};
use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::Shared;
use axum::body::Bytes;
use axum::extract::{ConnectInfo, RawQuery, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use maud::html;

/// Longest name, in characters.
const LONGEST: usize = 80;

/// The page that asks for name and password.
pub(crate) async fn form(State(room): Shared, RawQuery(query): RawQuery) -> Response {
    if let Err(trouble) = Query::only(query.as_deref(), &["to"]) {
        return trouble.page();
    }
    if room.gate.is_none() {
        return Redirect::to("/").into_response();
    }
    let to = value(query.unwrap_or_default().as_bytes(), "to");
    page(&to, None).into_response()
}

/// Take name and password.
pub(crate) async fn sign_in(
    State(room): Shared,
    ConnectInfo(peer): ConnectInfo<Peer>,
    body: Bytes,
) -> Response {
    let Some(gate) = &room.gate else { return Redirect::to("/").into_response() };
    let name: String = value(&body, "name").trim().chars().take(LONGEST).collect();
    let to = value(&body, "to");
    match gate.enter(&name, value(&body, "password"), peer).await {
        Ok(secret) => {
            let kept = format!("{COOKIE}={secret}; Path=/; Secure; HttpOnly; SameSite=Strict");
            (StatusCode::SEE_OTHER, [(header::LOCATION, inside(&to)), (header::SET_COOKIE, kept)])
                .into_response()
        }
        Err(Refused::Wrong) => {
            let said = "Name and password do not fit.";
            (StatusCode::FORBIDDEN, page(&to, Some(said))).into_response()
        }
        Err(Refused::Wait(wait)) => {
            let seconds = wait.as_secs() + 1;
            let said = format!("Too many wrong passwords: wait {seconds} s before the next.");
            let after = [(header::RETRY_AFTER, seconds.to_string())];
            (StatusCode::TOO_MANY_REQUESTS, after, page(&to, Some(&said))).into_response()
        }
        Err(Refused::Broken) => {
            let said = "Signing in broke off inside the program; try again.";
            (StatusCode::INTERNAL_SERVER_ERROR, page(&to, Some(said))).into_response()
        }
    }
}

/// End the session.
pub(crate) async fn sign_out(State(room): Shared, headers: HeaderMap, body: Bytes) -> Response {
    let is_own = sender(&value(&body, "token")).is_some();
    if let Some(gate) = room.gate.as_ref().filter(|_| is_own) {
        gate.leave(&headers);
    }
    let gone = format!("{COOKIE}=; Path=/; Secure; HttpOnly; SameSite=Strict; Max-Age=0");
    (StatusCode::SEE_OTHER, [(header::LOCATION, "/sign-in".to_owned()), (header::SET_COOKIE, gone)])
        .into_response()
}

fn value(body: &[u8], name: &str) -> String {
    let mut pairs = form_urlencoded::parse(body);
    pairs.find(|(key, _)| key == name).map(|(_, value)| value.into_owned()).unwrap_or_default()
}

/// A place on these pages; anything that leads elsewhere becomes the start page.
fn inside(to: &str) -> String {
    let is_plain = to.chars().all(|c| c.is_ascii_graphic() && c != '\\');
    let is_inside = to.starts_with('/') && !to.starts_with("//") && is_plain;
    if is_inside { to.to_owned() } else { "/".to_owned() }
}

fn page(to: &str, refused: Option<&str>) -> axum::response::Html<String> {
    let body = html! {
        main.plain {
            h1 { "Sign in" }
            form.log method="post" action="/sign-in" {
                @if let Some(refused) = refused { p.wrong role="alert" { (refused) } }
                input type="hidden" name="to" value=(inside(to));
                div.entries {
                    div.field {
                        label for="name" { "name" }
                        input #name name="name" type="text" required maxlength="80"
                            autocomplete="username";
                    }
                    div.field {
                        label for="password" { "password" }
                        input #password name="password" type="password" required maxlength="200"
                            autocomplete="current-password";
                    }
                }
                button type="submit" { "Sign in" }
            }
        }
    };
    frame(&Page { title: "Sign in", crumbs: &[], head: html! {} }, &body)
}

#[cfg(test)]
mod tests {
    use super::inside;

    #[test]
    fn nobody_is_led_elsewhere() {
        assert_eq!(
            inside("/flights/demo.flight?units=imperial"),
            "/flights/demo.flight?units=imperial"
        );
        for to in ["", "//example.org", "https://example.org", "/\\example.org", "/a\r\nb"] {
            assert_eq!(inside(to), "/", "{to}");
        }
    }
}
