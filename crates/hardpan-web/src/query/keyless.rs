//! Addresses without keys of their own.

use super::Query;
use crate::api::is_of_programs;
use axum::extract::Request;
use axum::middleware::Next;
use axum::response::Response;

/// Refuse keys at an address that has none: one that is dropped in silence may be
/// taken for one that was heeded.
pub(crate) async fn without_keys(request: Request, next: Next) -> Response {
    match Query::only(request.uri().query(), &[]) {
        Ok(()) => next.run(request).await,
        Err(trouble) if is_of_programs(request.uri().path()) => trouble.json(),
        Err(trouble) => trouble.page(),
    }
}
