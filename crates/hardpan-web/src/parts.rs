//! Forms with files: their parts are taken one after the other, in bounds, from a
//! sender who is not waited for for ever.

use axum::body::Bytes;
use axum::extract::Multipart;
use axum::extract::multipart::{Field, MultipartError, MultipartRejection};
use axum::http::{HeaderMap, StatusCode, header};
use std::time::Duration;

/// Most bytes of a value beside a file.
const LONGEST: usize = 400;
/// Longest silence of a sender.
const SILENCE: Duration = Duration::from_secs(30);

/// Why a part was not taken.
pub(crate) struct Unsent {
    pub(crate) status: StatusCode,
    pub(crate) said: String,
}

fn unsent(status: StatusCode, said: impl Into<String>) -> Unsent {
    Unsent { status, said: said.into() }
}

/// Whether a form says that it has more bytes than are taken.
pub(crate) fn says_over(headers: &HeaderMap, most: u64) -> bool {
    let length = headers.get(header::CONTENT_LENGTH).and_then(|value| value.to_str().ok());
    length.and_then(|text| text.parse::<u64>().ok()).is_some_and(|length| length > most)
}

/// The parts of what was sent.
pub(crate) fn parts(body: Result<Multipart, MultipartRejection>) -> Result<Multipart, Unsent> {
    body.map_err(|error| {
        unsent(StatusCode::BAD_REQUEST, format!("This is no form with a file: {error}."))
    })
}

async fn patient<T>(
    work: impl Future<Output = Result<Option<T>, MultipartError>>,
) -> Result<Option<T>, Unsent> {
    let silent = |_| {
        let said = format!("Nothing arrived for {} s. Nothing was kept.", SILENCE.as_secs());
        unsent(StatusCode::REQUEST_TIMEOUT, said)
    };
    tokio::time::timeout(SILENCE, work).await.map_err(silent)?.map_err(|error| {
        let said = format!("The file did not arrive whole: {error}. Nothing was kept.");
        unsent(StatusCode::BAD_REQUEST, said)
    })
}

/// The next part.
pub(crate) async fn next(body: &mut Multipart) -> Result<Option<Field<'_>>, Unsent> {
    patient(body.next_field()).await
}

/// The next bytes of a part.
pub(crate) async fn bytes(part: &mut Field<'_>) -> Result<Option<Bytes>, Unsent> {
    patient(part.chunk()).await
}

/// All of a part that has no more bytes than this.
pub(crate) async fn whole(part: &mut Field<'_>, most: usize) -> Result<Vec<u8>, Unsent> {
    let mut all = Vec::new();
    while let Some(bytes) = patient(part.chunk()).await? {
        all.extend_from_slice(&bytes);
        if all.len() > most {
            let said = match most / 1024 / 1024 {
                0 => format!("A value beside the file has over {most} bytes."),
                mega => format!("The file has over {mega} MiB. Nothing was kept."),
            };
            return Err(unsent(StatusCode::PAYLOAD_TOO_LARGE, said));
        }
    }
    Ok(all)
}

/// A value beside a file.
pub(crate) async fn value(mut part: Field<'_>) -> Result<String, Unsent> {
    String::from_utf8(whole(&mut part, LONGEST).await?)
        .map_err(|_| unsent(StatusCode::BAD_REQUEST, "A value beside the file is no text."))
}
