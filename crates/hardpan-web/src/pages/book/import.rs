//! Records of a file into a book: CSV, the JSON of another book, or GeoJSON. All of it
//! is taken over, or nothing.

use super::entries::{TOKEN, answer};
use super::post::LONGEST;
use crate::account::{Role, sender, visitor};
use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::parts::{self, Unsent};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::shelf::{Entry, EntryKind, OffStrip};
use crate::trouble::Trouble;
use axum::extract::multipart::MultipartRejection;
use axum::extract::{Multipart, Path, RawQuery, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use hardpan_book::{
    Audit, Book, BookError, ImportError, Kind, LARGEST_PICTURE, Mistakes, OffGlobe, PictureFile,
    Place, Record, Taken, taken_of, text_of,
};
use jiff::Timestamp;
use maud::{Markup, html};
use serde_json::json;
use std::collections::BTreeMap;

/// Most bytes of the file.
const MOST: usize = 64 * 1024 * 1024;
/// Most bytes of its pictures together.
const MOST_PICTURES: usize = 64 * 1024 * 1024;
/// Kinds that CSV cannot hold.
const NOT_IN_CSV: [Kind; 2] = [Kind::Picture, Kind::Withdrawal];

const ONLY_READS: &str = "Your account reads the book and records nothing.";

/// Whether a role records anything.
fn records(role: Role) -> bool {
    Kind::ALL.iter().any(|kind| role.may_record(*kind))
}

/// Why nothing was taken over.
struct Refused {
    status: StatusCode,
    said: String,
    /// The places of the file that cannot be used, and what is wrong there.
    mistakes: Vec<(Place, String)>,
    /// Name of the file.
    file: String,
    /// How many mistakes there are besides.
    more: usize,
}

fn refused(status: StatusCode, said: impl Into<String>) -> Refused {
    Refused { status, said: said.into(), mistakes: Vec::new(), file: String::new(), more: 0 }
}

fn unfit(said: impl Into<String>) -> Refused {
    refused(StatusCode::UNPROCESSABLE_ENTITY, said)
}

impl From<Unsent> for Refused {
    fn from(Unsent { status, said }: Unsent) -> Self {
        refused(status, said)
    }
}

impl From<Trouble> for Refused {
    fn from(trouble: Trouble) -> Self {
        refused(trouble.status(), trouble.sentence())
    }
}

/// First and last number of what was recorded, and how many records stood there already.
#[derive(Clone, Copy)]
struct Recorded {
    entries: Option<(i64, i64)>,
    known: usize,
}

impl Recorded {
    /// As the form of the page says it in its address.
    fn of_query(query: &str) -> Option<Self> {
        let value = |name: &str| {
            let mut all = form_urlencoded::parse(query.as_bytes());
            all.find(|(key, _)| key == name).map(|(_, value)| value)
        };
        let entries = value("recorded").and_then(|value| {
            let (first, last) = value.split_once('-')?;
            Some((first.parse().ok()?, last.parse().ok()?))
        });
        let known = value("known").and_then(|value| value.parse().ok()).unwrap_or(0);
        (entries.is_some() || known > 0).then_some(Self { entries, known })
    }

    fn query(self) -> String {
        let recorded = self.entries.map(|(first, last)| format!("recorded={first}-{last}&"));
        format!("{}known={}", recorded.unwrap_or_default(), self.known)
    }

    fn count(self) -> i64 {
        self.entries.map_or(0, |(first, last)| last - first + 1)
    }
}

/// The form, or what it recorded.
pub(crate) async fn form(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    if let Err(trouble) = Query::only(query.as_deref(), &["recorded", "known"]) {
        return trouble.page();
    }
    let recorded = Recorded::of_query(&query.unwrap_or_default());
    let role = visitor().and_then(|one| one.account).map(|(_, role)| role);
    match entries(&room, &slug).await {
        Ok((book, _)) if !role.is_none_or(records) => {
            page(&slug, &book, &html! { p { (ONLY_READS) } })
        }
        Ok((book, strips)) => page(&slug, &book, &asks(&slug, &strips, recorded, None)),
        Err(trouble) => trouble.page(),
    }
}

async fn entries(room: &Room, slug: &str) -> Result<(Entry, Vec<Entry>), Trouble> {
    let book = room.entry(EntryKind::Book, slug).await?;
    let all = room.entries().await?.into_iter();
    Ok((book, all.filter(|entry| entry.kind == EntryKind::Strip).collect()))
}

/// Take over what the form of the page sends.
pub(crate) async fn take_over(
    State(room): Shared,
    Path(slug): Path<String>,
    headers: HeaderMap,
    body: Result<Multipart, MultipartRejection>,
) -> Response {
    let (book, strips) = match entries(&room, &slug).await {
        Ok(found) => found,
        Err(trouble) => return trouble.page(),
    };
    match take(&room, &book, &headers, None, body).await {
        Ok(recorded) => {
            let to = format!("/books/{slug}/import?{}", recorded.query());
            (StatusCode::SEE_OTHER, [(header::LOCATION, to)]).into_response()
        }
        Err(why) => {
            let body = asks(&slug, &strips, None, Some(&why));
            (why.status, page(&slug, &book, &body)).into_response()
        }
    }
}

/// Take over what a program sends.
pub(crate) async fn take_over_as_json(
    State(room): Shared,
    Path(slug): Path<String>,
    headers: HeaderMap,
    body: Result<Multipart, MultipartRejection>,
) -> Response {
    let token = headers.get(TOKEN).and_then(|value| value.to_str().ok()).unwrap_or_default();
    let taken = async {
        let book = room.entry(EntryKind::Book, &slug).await?;
        take(&room, &book, &headers, Some(token), body).await
    };
    match taken.await {
        Ok(recorded) => {
            let mut told = json!({ "count": recorded.count(), "known": recorded.known });
            let Some((first, last)) = recorded.entries else {
                return answer(StatusCode::OK, &told);
            };
            told["first"] = first.into();
            told["last"] = last.into();
            answer(StatusCode::CREATED, &told)
        }
        Err(Refused { status, said, mistakes, file, more }) => {
            let mistakes: Vec<_> = mistakes
                .into_iter()
                .map(|(at, message)| {
                    json!({ "file": file, "line": at.line, "column": at.column,
                        "message": message })
                })
                .collect();
            let mut told = json!({ "error": said, "mistakes": mistakes });
            if more > 0 {
                told["more"] = more.into();
            }
            answer(status, &told)
        }
    }
}

/// What was sent, once it has arrived.
struct Sent {
    name: String,
    text: String,
    pictures: Vec<PictureFile>,
    values: BTreeMap<String, String>,
    role: Option<Role>,
    by: String,
}

impl Sent {
    fn value(&self, name: &str) -> &str {
        self.values.get(name).map_or("", |text| text.trim())
    }
}

async fn take(
    room: &Room,
    book: &Entry,
    headers: &HeaderMap,
    token: Option<&str>,
    body: Result<Multipart, MultipartRejection>,
) -> Result<Recorded, Refused> {
    if parts::says_over(headers, (MOST + MOST_PICTURES) as u64) {
        return Err(refused(StatusCode::PAYLOAD_TOO_LARGE, too_large()));
    }
    let mut body = parts::parts(body)?;
    let _slot = room.bringing.try_acquire().map_err(|_| {
        let said = "Two files are being brought already; try again in a minute.";
        refused(StatusCode::SERVICE_UNAVAILABLE, said)
    })?;
    let sent = arrived(&mut body, token).await?;
    let kind = match sent.value("kind") {
        "" => None,
        word => Some(Kind::of_word(word).ok_or_else(|| unfit(format!("There is no {word}.")))?),
    };
    let off_strip = off_strip(room, sent.value("strip")).await?;
    let (file, at) = (book.file.clone(), room.shelf.now());
    blocking(move || record(&file, &sent, kind, off_strip.as_ref(), at)).await?
}

fn too_large() -> String {
    format!("The file has over {} MiB. Nothing was kept.", MOST / 1024 / 1024)
}

/// The values, then the file, then its pictures.
async fn arrived(body: &mut Multipart, token: Option<&str>) -> Result<Sent, Refused> {
    let mut values = BTreeMap::new();
    let mut sent: Option<Sent> = None;
    let mut room_left = MOST_PICTURES;
    while let Some(mut part) = parts::next(body).await? {
        let name = part.name().unwrap_or_default().to_owned();
        match (&*name, &mut sent) {
            ("file", Some(_)) => return Err(unfit("Two files were sent: send one.")),
            ("file", None) => {
                // The values come first, so that nobody sends a file who may not.
                let (role, by) = allowed(&values, token)?;
                let name = part.file_name().unwrap_or_default().to_owned();
                let bytes = parts::whole(&mut part, MOST).await?;
                let text = text_of(bytes).map_err(|wrong| misplaced(&name, &wrong))?;
                let (values, pictures) = (std::mem::take(&mut values), Vec::new());
                sent = Some(Sent { name, text, pictures, values, role, by });
            }
            ("picture", Some(sent)) => {
                let name = part.file_name().unwrap_or_default().to_owned();
                let most = LARGEST_PICTURE.min(room_left);
                let bytes = parts::whole(&mut part, most).await?;
                room_left = room_left.saturating_sub(bytes.len());
                // A form sends an empty file where none was chosen.
                if !bytes.is_empty() {
                    let picture = PictureFile::read(bytes);
                    let picture = picture.map_err(|error| unfit(format!("{name}: {error}.")))?;
                    sent.pictures.push(picture);
                }
            }
            _ => {
                values.insert(name, parts::value(part).await?);
            }
        }
    }
    sent.ok_or_else(|| unfit("No file was sent: choose one."))
}

/// Who takes over, and what they may.
fn allowed(
    values: &BTreeMap<String, String>,
    token: Option<&str>,
) -> Result<(Option<Role>, String), Refused> {
    let value = |name: &str| values.get(name).map_or("", |text| text.trim());
    let Some(sender) = sender(token.unwrap_or_else(|| value("token"))) else {
        let said = match token {
            Some(_) => {
                "The header x-hardpan-token does not carry the token of /api/session. Nothing \
                        was recorded."
            }
            None => {
                "This form is not of the page that runs now; open it again. Nothing was recorded."
            }
        };
        return Err(refused(StatusCode::FORBIDDEN, said));
    };
    if let Some((name, role)) = sender.account {
        if !records(role) {
            return Err(refused(StatusCode::FORBIDDEN, ONLY_READS));
        }
        return Ok((Some(role), name));
    }
    let by = value("by");
    if by.is_empty() || by.chars().count() > LONGEST {
        return Err(unfit("Say who takes it over."));
    }
    Ok((None, by.to_owned()))
}

/// Where the places of a map lie, if a strip is named.
async fn off_strip(room: &Room, slug: &str) -> Result<Option<OffStrip>, Refused> {
    if slug.is_empty() {
        return Ok(None);
    }
    let strip = room.entry(EntryKind::Strip, slug).await?;
    let shelf = std::sync::Arc::clone(&room.shelf);
    let found = blocking(move || shelf.off_globe(&strip.file)).await?;
    found.map(Some).map_err(|refusal| unfit(refusal.text))
}

fn record(
    file: &str,
    sent: &Sent,
    kind: Option<Kind>,
    off_strip: Option<&OffStrip>,
    at: Timestamp,
) -> Result<Recorded, Refused> {
    let name = &sent.name;
    let told = |error: ImportError| match error {
        ImportError::Book(error) => {
            let status = match error {
                BookError::Locked { .. } | BookError::Full { .. } | BookError::Database { .. } => {
                    StatusCode::INTERNAL_SERVER_ERROR
                }
                _ => StatusCode::UNPROCESSABLE_ENTITY,
            };
            refused(status, format!("{name}: {}. Nothing was recorded.", in_words(&error)))
        }
        ImportError::File(mistakes) => misplaced(name, &mistakes),
        other => unfit(format!("{name}: {other}. Nothing was recorded.")),
    };
    let off_strip = off_strip.map(|one| &**one as &OffGlobe<'_>);
    let taken =
        taken_of(&sent.text, kind, off_strip).map_err(|mistakes| misplaced(name, &mistakes))?;
    if let Some(role) = sent.role {
        may_record(role, &taken).map_err(|mistakes| Refused {
            status: StatusCode::FORBIDDEN,
            ..misplaced(name, &mistakes)
        })?;
    }
    let audit = Audit { by: sent.by.clone(), at };
    let mut book = Book::open(std::path::Path::new(file)).map_err(|error| told(error.into()))?;
    let over = book.take_over(taken, &sent.pictures, &audit).map_err(told)?;
    let ends = over.recorded.first().zip(over.recorded.last());
    let entries = ends.map(|(first, last)| (first.id, last.id));
    Ok(Recorded { entries, known: over.known.len() })
}

fn in_words(error: &BookError) -> String {
    super::form::in_words(error)
}

fn misplaced(name: &str, wrong: &Mistakes) -> Refused {
    // The file has the names of the values, and not the words of the forms.
    let told = wrong.told().iter().map(|mistake| (mistake.at, mistake.cause.to_string()));
    let mistakes: Vec<_> = told.collect();
    let said = match (mistakes.as_slice(), wrong.more()) {
        ([(at, what)], 0) => format!("{name}: {at}: {what}. Nothing was recorded."),
        _ => format!("{name} has {} mistakes. Nothing was recorded.", wrong.count()),
    };
    Refused { mistakes, file: name.to_owned(), more: wrong.more(), ..unfit(said) }
}

/// Whether somebody may record all of it; a picture is of the kind of its entry.
fn may_record(role: Role, taken: &[Taken]) -> Result<(), Mistakes> {
    let kind_of = |one: &Taken| match &one.record {
        Record::Picture(picture) => usize::try_from(picture.of_entry - 1)
            .ok()
            .and_then(|at| taken.get(at))
            .map_or(Kind::Picture, |owner| owner.record.kind()),
        record => record.kind(),
    };
    let kinds = taken.iter().map(|one| (one.at, kind_of(one)));
    let others = kinds.filter(|(_, kind)| !role.may_record(*kind));
    Mistakes::of_all(others.map(|(at, kind)| {
        (at, format!("a {} may not record {}", role.word(), kind.with_article()))
    }))
}

fn page(slug: &str, book: &Entry, body: &Markup) -> Response {
    let body = html! {
        main.plain { h1 { "Take over a file into the book " (book.title()) } (body) }
    };
    let crumbs =
        [("/".into(), "Flights".into()), (format!("/books/{slug}"), book.title().to_owned())];
    let page = Page { title: "Take over a file", crumbs: &crumbs, head: html! {} };
    let page: Html<String> = frame(&page, &body);
    page.into_response()
}

fn asks(slug: &str, strips: &[Entry], recorded: Option<Recorded>, why: Option<&Refused>) -> Markup {
    let visitor = visitor();
    let token = visitor.as_ref().map_or_else(String::new, |visitor| visitor.token.clone());
    let account = visitor.and_then(|visitor| visitor.account);
    html! {
        @if let Some(Recorded { entries, known }) = recorded {
            p.lead role="status" {
                @match entries {
                    Some((first, last)) if first < last => {
                        "Recorded as entries " (first) " to " (last) ". "
                    }
                    Some((first, _)) => { "Recorded as entry " (first) ". " }
                    None => { "Nothing was recorded. " }
                }
                @match known {
                    0 => {}
                    1 => { "One record stood in the book already, word for word. " }
                    known => { (known) " records stood in the book already, word for word. " }
                }
                a href={ "/books/" (slug) } { "To the book" }
            }
        }
        @if let Some(why) = why {
            div.wrong role="alert" {
                p { (why.said) }
                @if why.mistakes.len() > 1 {
                    ol.mistakes {
                        @for (at, what) in &why.mistakes { li { (why.file) ": " (at) ": " (what) } }
                    }
                }
                @if why.more > 0 { p { "And " (why.more) " more." } }
                @if !why.mistakes.is_empty() {
                    p { "Mend the file and take it over again." }
                }
            }
        }
        p { "All of a file is recorded, or nothing; what stands in the book word for word is left \
             out. Each entry keeps who first wrote it and when, \
             where the file says so, beside who takes it over." }
        form.log.choose method="post" action={ "/books/" (slug) "/import" }
            enctype="multipart/form-data" {
            input type="hidden" name="token" value=(token);
            @if account.is_none() {
                div.field {
                    label for="by" { "taken over by" }
                    input #by name="by" type="text" maxlength="80" required;
                }
            }
            div.field {
                label for="kind" { "the file is" }
                select #kind name="kind" {
                    option value="" { "JSON of another book, or GeoJSON" }
                    @for kind in Kind::ALL.iter().filter(|kind| !NOT_IN_CSV.contains(*kind)) {
                        option value=(kind) { "CSV, with " (kind.with_article()) " in each row" }
                    }
                }
            }
            @if !strips.is_empty() {
                div.field {
                    label for="strip" { "GeoJSON: its places lie on" }
                    select #strip name="strip" {
                        option value="" { "stations of the file" }
                        @for strip in strips { option value=(strip.slug) { (strip.title()) } }
                    }
                }
            }
            div.field {
                label for="file" { "file, at most " (MOST / 1024 / 1024) " MiB" }
                input #file name="file" type="file" required accept=".csv,.json,.geojson";
            }
            div.field {
                label for="picture" { "pictures of the other book" }
                input #picture name="picture" type="file" multiple
                    accept="image/jpeg,image/png,image/webp";
            }
            button type="submit" { "Take it over" }
        }
    }
}
