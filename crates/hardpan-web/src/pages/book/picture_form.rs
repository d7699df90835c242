//! A picture of an entry by a plain form, for a browser that runs no script.

use super::entries::{Refused, refused};
use super::pictures::{allowed, finish};
use crate::account::{Role, secret, sender, visitor};
use crate::page::{Page, frame};
use crate::parts::{self, Unsent};
use crate::routes::{Room, Shared};
use crate::trouble::Trouble;
use axum::extract::multipart::MultipartRejection;
use axum::extract::{Multipart, Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use hardpan_book::{Entry, LARGEST_PICTURE, Once, PICTURED, newest_of};
use maud::{Markup, html};
use std::collections::BTreeMap;

/// Most bytes of a form about its picture.
const BESIDE: u64 = 16 * 1024;

impl From<Unsent> for Refused {
    fn from(Unsent { status, said }: Unsent) -> Self {
        refused(status, said)
    }
}

/// Whether a picture of an entry may be added.
pub(super) fn is_offered(entry: &Entry, role: Option<Role>) -> bool {
    let kind = entry.record.kind();
    PICTURED.contains(&kind) && role.is_none_or(|role| role.may_record(kind))
}

pub(crate) async fn form(State(room): Shared, Path((slug, id)): Path<(String, i64)>) -> Response {
    page(&room, (&slug, id), None).await
}

/// Take a picture that the form sends.
pub(crate) async fn add(
    State(room): Shared,
    Path((slug, id)): Path<(String, i64)>,
    headers: HeaderMap,
    body: Result<Multipart, MultipartRejection>,
) -> Response {
    match take(&room, (&slug, id), &headers, body).await {
        Ok(_) => {
            let to = format!("/books/{slug}?entry={id}#entry-{id}");
            (StatusCode::SEE_OTHER, [(header::LOCATION, to)]).into_response()
        }
        Err(why) => page(&room, (&slug, id), Some(&why)).await,
    }
}

async fn take(
    room: &Room,
    (slug, id): (&str, i64),
    headers: &HeaderMap,
    body: Result<Multipart, MultipartRejection>,
) -> Result<Once, Refused> {
    if parts::says_over(headers, LARGEST_PICTURE as u64 + BESIDE) {
        let said = format!("The picture has over {} MiB.", LARGEST_PICTURE / 1024 / 1024);
        return Err(refused(StatusCode::PAYLOAD_TOO_LARGE, said));
    }
    let mut body = parts::parts(body)?;
    let _slot = room.picturing.acquire().await;
    let mut said = BTreeMap::new();
    while let Some(mut part) = parts::next(&mut body).await? {
        let name = part.name().unwrap_or_default().to_owned();
        if name != "picture" {
            said.insert(name, parts::value(part).await?);
            continue;
        }
        // The values come first, so that nobody sends a picture who may not.
        let Some(sender) = sender(said.get("token").map_or("", String::as_str)) else {
            let said = "This form is not of the page that runs now; open it again. Nothing was \
                        kept.";
            return Err(refused(StatusCode::FORBIDDEN, said));
        };
        let role = allowed(sender, &mut said)?;
        if let Some(file) = part.file_name().filter(|name| !name.is_empty()) {
            said.insert("file".to_owned(), file.to_owned());
        }
        let content = parts::whole(&mut part, LARGEST_PICTURE).await?;
        if content.is_empty() {
            break;
        }
        return finish(room, (slug, id), role, said, content).await;
    }
    Err(refused(StatusCode::UNPROCESSABLE_ENTITY, "No picture was sent: choose one."))
}

async fn page(room: &Room, (slug, id): (&str, i64), why: Option<&Refused>) -> Response {
    let shown = match super::shown(room, slug).await {
        Ok(shown) => shown,
        Err(trouble) => return trouble.page(),
    };
    let role = shown.author.as_ref().map(|(_, role)| *role);
    let entry = newest_of(&shown.entries, id).filter(|entry| is_offered(entry, role));
    let Some(entry) = entry else {
        let said = "There is no such entry, or none that you may add a picture to.";
        return Trouble::NotFound(said.to_owned()).page();
    };
    // A form that is sent twice records its picture once.
    let Ok(mark) = secret() else {
        return Trouble::Broken("The system gives no random number.".to_owned()).page();
    };
    let title = format!("A picture of entry {}", entry.id);
    let body = html! {
        main.plain {
            h1 { (title) }
            p { strong { (entry.record.kind()) } " of " (entry.record.strip().unwrap_or_default())
                ", by " (entry.audit.by) }
            @if let Some(why) = why { p.wrong role="alert" { (why.said) } }
            (asks(slug, entry.id, &mark, shown.author.is_none()))
        }
    };
    let crumbs = [("/".into(), "Flights".into()), (shown.address.clone(), shown.title.clone())];
    let status = why.map_or(StatusCode::OK, |why| why.status);
    let page = Page { title: &title, crumbs: &crumbs, head: html! {} };
    (status, frame(&page, &body)).into_response()
}

fn asks(slug: &str, id: i64, mark: &str, is_nameless: bool) -> Markup {
    let token = visitor().map_or_else(String::new, |visitor| visitor.token);
    html! {
        form.log.choose method="post" action={ "/books/" (slug) "/entries/" (id) "/picture" }
            enctype="multipart/form-data" {
            input type="hidden" name="token" value=(token);
            input type="hidden" name="mark" value=(mark);
            div.field {
                label for="shown" { "what it shows" }
                input #shown name="shown" type="text" maxlength="400" required;
            }
            @if is_nameless {
                div.field {
                    label for="by" { "recorded by" }
                    input #by name="by" type="text" maxlength="80" required;
                }
            }
            div.field {
                label for="picture" { "JPEG, PNG or WebP, at most " (LARGEST_PICTURE / 1024 / 1024)
                    " MiB" }
                input #picture name="picture" type="file" required
                    accept="image/jpeg,image/png,image/webp";
            }
            button type="submit" { "Keep it" }
        }
        p.note { "What a camera wrote into it of place, time and owner is taken out." }
    }
}
