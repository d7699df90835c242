//! Who a request comes from, and whether it is let in.

use super::attempts::{Failures, Requests};
use super::session::Sessions;
use super::{Account, Role, password};
use crate::desk::blocking;
use crate::routes::Room;
use axum::extract::{ConnectInfo, Request, State};
use axum::http::{HeaderMap, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Redirect, Response};
use std::net::SocketAddr;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::Semaphore;

/// Name of the cookie that holds a session's secret. The prefix makes browsers
/// take it from this host over TLS only.
pub(super) const COOKIE: &str = "__Host-hardpan";

/// Passwords that are looked at at the same time; each takes 19 MiB.
const AT_ONCE: usize = 2;

/// Machine at the other end.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Peer(pub(crate) SocketAddr);

/// Who asks.
#[derive(Debug, Clone)]
pub(crate) struct Visitor {
    /// Name and role; none on this machine alone, where no accounts are kept.
    pub(crate) account: Option<(String, Role)>,
    /// What the forms of this visitor carry.
    pub(crate) token: String,
}

tokio::task_local! {
    static VISITOR: Visitor;
}

/// Who asks for what is being answered.
pub(crate) fn visitor() -> Option<Visitor> {
    VISITOR.try_with(Clone::clone).ok()
}

/// Who asks, if what was sent carries the token that their pages carry; no other
/// site can read it.
pub(crate) fn sender(token: &str) -> Option<Visitor> {
    visitor().filter(|visitor| is_same(token, &visitor.token))
}

/// Whether two tokens are the same, in a time that does not tell where they differ.
fn is_same(one: &str, other: &str) -> bool {
    let differ = one.bytes().zip(other.bytes()).fold(0, |seen, (a, b)| seen | (a ^ b));
    one.len() == other.len() && differ == 0
}

/// Accounts, sessions and attempts.
pub(crate) struct Gate {
    accounts: Vec<Account>,
    sessions: Mutex<Sessions>,
    failures: Mutex<Failures>,
    requests: Mutex<Requests>,
    looking: Semaphore,
}

/// Why nobody is signed in.
pub(super) enum Refused {
    /// Name and password do not fit.
    Wrong,
    /// Too many failures.
    Wait(Duration),
    /// The system gives no random numbers, or the work broke off.
    Broken,
}

fn open<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Gate {
    pub(crate) fn new(accounts: Vec<Account>) -> Self {
        Self {
            accounts,
            sessions: Mutex::default(),
            failures: Mutex::default(),
            requests: Mutex::default(),
            looking: Semaphore::new(AT_ONCE),
        }
    }

    /// Begin a session; gives its secret.
    pub(super) async fn enter(
        &self,
        name: &str,
        given: String,
        peer: Peer,
    ) -> Result<String, Refused> {
        let now = Instant::now();
        let keys = [format!("name {name}"), format!("machine {}", peer.0.ip())];
        let held = keys.iter().filter_map(|key| open(&self.failures).wait(key, now)).max();
        if let Some(wait) = held {
            return Err(Refused::Wait(wait));
        }
        let account = self.accounts.iter().find(|account| account.name == name);
        let hash = account.map(|account| account.hash.clone());
        let leave = self.looking.acquire().await.map_err(|_| Refused::Broken)?;
        let fits = blocking(move || password::is_of(&given, hash.as_deref())).await;
        drop(leave);
        let fits = fits.map_err(|_| Refused::Broken)?;
        let mut failures = open(&self.failures);
        match account.filter(|_| fits) {
            None => {
                keys.iter().for_each(|key| failures.failed(key, now));
                Err(Refused::Wrong)
            }
            Some(account) => {
                keys.iter().for_each(|key| failures.succeeded(key));
                let begun = open(&self.sessions).begin(&account.name, account.role, now);
                begun.map_err(|_| Refused::Broken)
            }
        }
    }

    pub(super) fn leave(&self, headers: &HeaderMap) {
        if let Some(secret) = cookie(headers) {
            open(&self.sessions).end(secret);
        }
    }

    fn visitor(&self, headers: &HeaderMap) -> Option<Visitor> {
        let session = open(&self.sessions).find(cookie(headers)?, Instant::now())?;
        Some(Visitor { account: Some((session.name, session.role)), token: session.token })
    }
}

/// The secret that a browser kept.
fn cookie(headers: &HeaderMap) -> Option<&str> {
    let all = headers.get_all(header::COOKIE).into_iter();
    let texts = all.filter_map(|value| value.to_str().ok()).flat_map(|text| text.split(';'));
    texts
        .filter_map(|one| one.trim().split_once('='))
        .find_map(|(name, value)| (name == COOKIE).then_some(value))
}

/// Let in whom the accounts allow; with none kept, whoever is on this machine.
pub(crate) async fn admit(
    State(room): State<Arc<Room>>,
    ConnectInfo(peer): ConnectInfo<Peer>,
    request: Request,
    next: Next,
) -> Response {
    let Some(gate) = &room.gate else {
        let visitor = Visitor { account: None, token: room.token.clone() };
        return VISITOR.scope(visitor, next.run(request)).await;
    };
    if !open(&gate.requests).may(peer.0.ip(), Instant::now()) {
        let said = "Too many requests in a row; wait some seconds.\n";
        return (StatusCode::TOO_MANY_REQUESTS, [(header::RETRY_AFTER, "5")], said).into_response();
    }
    let path = request.uri().path();
    if let Some(visitor) = gate.visitor(request.headers()) {
        return VISITOR.scope(visitor, next.run(request)).await;
    }
    if path == "/sign-in" || path == "/worker.js" || path.starts_with("/assets/") {
        return next.run(request).await;
    }
    if path.starts_with("/api/") || *request.method() != Method::GET {
        let said = "{\n  \"error\": \"Sign in first: /sign-in\",\n  \"mistakes\": []\n}\n";
        let kind = [(header::CONTENT_TYPE, "application/json")];
        return (StatusCode::UNAUTHORIZED, kind, said).into_response();
    }
    let wanted = request.uri().path_and_query().map_or("/", |wanted| wanted.as_str());
    let to: String =
        form_urlencoded::Serializer::new(String::new()).append_pair("to", wanted).finish();
    Redirect::to(&format!("/sign-in?{to}")).into_response()
}

#[cfg(test)]
mod tests {
    use super::{cookie, is_same};
    use axum::http::{HeaderMap, HeaderValue, header};

    #[test]
    fn the_secret_is_found_among_other_cookies() {
        let mut headers = HeaderMap::new();
        assert_eq!(cookie(&headers), None);
        let text = HeaderValue::from_static("a=1; __Host-hardpan=secret; b=2");
        headers.insert(header::COOKIE, text);
        assert_eq!(cookie(&headers), Some("secret"));
        headers.insert(header::COOKIE, HeaderValue::from_static("hardpan=secret"));
        assert_eq!(cookie(&headers), None);
    }

    #[test]
    fn a_token_is_the_same_only_whole() {
        assert!(is_same("abc", "abc"));
        for other in ["", "ab", "abcd", "abd"] {
            assert!(!is_same("abc", other));
        }
    }
}
