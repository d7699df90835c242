//! Every address, and what answers it.

use crate::account::{self, Gate, admit};
use crate::desk::{Desk, Judged, Wanted, blocking};
use crate::guard::guard;
use crate::query::{Query, without_keys};
use crate::shelf::{Entry, EntryKind, Shelf};
use crate::trouble::Trouble;
use crate::{api, pages, sheet};
use axum::Router;
use axum::extract::{DefaultBodyLimit, Path, RawQuery, State};
use axum::http::{HeaderValue, StatusCode, Uri, header};
use axum::middleware::{from_fn, from_fn_with_state};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use hardpan_report::{
    Lesson, card_pdf, climb_figure, lesson_pdf, runs_figure, stone_figure, strip_figure,
};
use std::sync::Arc;
use tokio::sync::Semaphore;

/// Largest form that is taken, bytes.
const LARGEST_FORM: usize = 64 * 1024;

/// Surveys on their way at the same time.
const BROUGHT_AT_ONCE: usize = 2;

/// Pictures on their way at the same time.
const PICTURES_AT_ONCE: usize = 4;

/// What the pages share.
pub(crate) struct Room {
    pub(crate) shelf: Arc<dyn Shelf>,
    pub(crate) desk: Desk,
    /// Entries of books that were asked for last.
    pub(crate) stored: Arc<pages::book::entries::Stored>,
    /// Surveys that may be on their way at the same time.
    pub(crate) bringing: Semaphore,
    /// Pictures that may be on their way at the same time.
    pub(crate) picturing: Semaphore,
    /// What every form of this process carries; no other site can read it.
    pub(crate) token: String,
    /// Who may sign in, where other machines can reach the page.
    pub(crate) gate: Option<Gate>,
}

impl Room {
    pub(crate) fn new(shelf: Arc<dyn Shelf>, token: String, gate: Option<Gate>) -> Self {
        Self {
            desk: Desk::new(Arc::clone(&shelf)),
            stored: Arc::default(),
            bringing: Semaphore::new(BROUGHT_AT_ONCE),
            picturing: Semaphore::new(PICTURES_AT_ONCE),
            shelf,
            token,
            gate,
        }
    }

    /// Everything on the shelf.
    pub(crate) async fn entries(&self) -> Result<Vec<Entry>, Trouble> {
        let shelf = Arc::clone(&self.shelf);
        blocking(move || shelf.entries()).await
    }

    /// The entry of an address. Only what is listed can be opened.
    pub(crate) async fn entry(&self, kind: EntryKind, slug: &str) -> Result<Entry, Trouble> {
        let found = self.entries().await?.into_iter().find(|e| e.kind == kind && e.slug == slug);
        found.ok_or(Trouble::NotListed(kind))
    }

    /// A flight and its assessment.
    pub(crate) async fn judge(&self, slug: &str, query: &Query) -> Result<Arc<Judged>, Trouble> {
        self.judge_for(slug, query, Wanted::Whole).await
    }

    /// The same, as far as it is wanted.
    pub(crate) async fn judge_for(
        &self,
        slug: &str,
        query: &Query,
        wanted: Wanted,
    ) -> Result<Arc<Judged>, Trouble> {
        let entry = self.entry(EntryKind::Flight, slug).await?;
        self.desk.judge(&entry.file, query, wanted).await
    }
}

pub(crate) type Shared = State<Arc<Room>>;

/// All addresses.
pub(crate) fn router(room: Arc<Room>) -> Router {
    Router::new()
        .merge(keyed())
        .merge(keyless())
        .merge(api::router())
        .fallback(nothing)
        .layer(DefaultBodyLimit::max(LARGEST_FORM))
        .layer(from_fn_with_state(Arc::clone(&room), admit))
        .layer(from_fn_with_state(Arc::clone(&room), guard))
        .with_state(room)
}

/// Addresses that know keys behind the question mark, and refuse others.
fn keyed() -> Router<Arc<Room>> {
    Router::new()
        .route("/flights/{slug}", get(sheet::answer_page))
        .route("/flights/{slug}/card.pdf", get(card))
        .route("/flights/{slug}/figure.svg", get(figure))
        .route("/flights/{slug}/runs.svg", get(runs))
        .route("/flights/{slug}/stones.svg", get(stones))
        .route("/flights/{slug}/climb.svg", get(climb))
        .route("/flights/{slug}/lesson.pdf", get(lesson))
        .route("/flights/{slug}/handout.pdf", get(handout))
        .route("/flights/{slug}/masses", get(pages::masses::masses))
        .route("/flights/{slug}/masses/place", get(pages::mass_place::place))
        .route("/flights/{slug}/year/hour", get(pages::year_hour::hour))
        .route("/flights/{slug}/year", get(pages::year::year))
        .route("/flights/{slug}/lesson", get(pages::lesson::lesson))
        .route("/flights/{slug}/basis", get(pages::basis::basis))
        .route("/flights/{slug}/station", get(pages::station::station))
        .route("/flights/{slug}/confidence", get(pages::certainty::sure))
        .route("/flights/{slug}/remedies", get(pages::certainty::help))
        .route("/flights/{slug}/keep", get(pages::keep::form).post(pages::keep::keep))
        .route("/plan", get(pages::plan::form))
        .route("/strips/{slug}", get(pages::strip::strip))
        .route("/strips/{slug}/dossier.pdf", get(pages::strip::dossier_file))
        .route("/strips/{slug}/figures/{name}", get(pages::strip::figure))
        .route("/books/{slug}", get(pages::book::book))
        .route("/books/{slug}/import", get(pages::book::import::form))
        .route("/books/{slug}/ruts", get(pages::book::ruts))
        .route("/books/{slug}/map", get(pages::book::export::map))
        .route("/books/{slug}/field", get(pages::book::field))
        .route("/sign-in", get(account::form))
        .route("/compare", get(pages::compare::compare))
}

/// Addresses that know none but the units; no form is sent with any.
fn keyless() -> Router<Arc<Room>> {
    Router::new()
        .route("/", get(pages::start::start))
        .route("/plan", post(pages::plan::keep))
        .route("/aeroplanes/{slug}", get(pages::aeroplane::aeroplane))
        .route(
            "/strips/{slug}/bring",
            // A survey is large: its page counts the bytes itself.
            get(pages::bring::form).post(pages::bring::bring).layer(DefaultBodyLimit::disable()),
        )
        .route("/books/{slug}/add", post(pages::book::add))
        .route(
            "/books/{slug}/import",
            // A whole book is large: its page counts the bytes itself.
            post(pages::book::import::take_over).layer(DefaultBodyLimit::disable()),
        )
        .route("/books/{slug}/kept", get(pages::book::kept))
        .route("/books/{slug}/entries/{id}", get(pages::book::single::entry))
        .route("/books/{slug}/entries/{id}/correct", post(pages::book::single::correct))
        .route("/books/{slug}/entries/{id}/withdraw", post(pages::book::single::withdraw))
        .route(
            "/books/{slug}/entries/{id}/picture",
            get(pages::book::picture_form::form)
                .post(pages::book::picture_form::add)
                .layer(DefaultBodyLimit::disable()),
        )
        .route("/books/{slug}/pictures/{digest}", get(pages::book::pictures::picture))
        .route("/worker.js", get(worker))
        .route("/sign-in", post(account::sign_in))
        .route("/sign-out", post(account::sign_out))
        .route("/assets/{name}", get(asset))
        .route_layer(from_fn(without_keys))
}

async fn nothing(uri: Uri) -> Response {
    if api::is_of_programs(uri.path()) {
        return api::no_such_address();
    }
    Trouble::NotFound("Nothing has this address.".to_owned()).page()
}

/// A file of a kind, shown in the browser under a name to save it by.
pub(crate) fn file(kind: &'static str, name: &str, bytes: impl Into<Vec<u8>>) -> Response {
    named(kind, ("inline", name), bytes.into())
}

/// A file of a kind, for the browser to save under a name.
pub(crate) fn saved(kind: &'static str, name: &str, text: String) -> Response {
    named(kind, ("attachment", name), text.into_bytes())
}

fn named(kind: &'static str, (how, name): (&str, &str), bytes: Vec<u8>) -> Response {
    let kind = (header::CONTENT_TYPE, HeaderValue::from_static(kind));
    let mut response = ([kind], bytes).into_response();
    if let Ok(value) = HeaderValue::from_str(&format!("{how}; filename=\"{name}\"")) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, value);
    }
    response
}

async fn made(
    room: &Room,
    slug: &str,
    query: Option<String>,
    make: impl FnOnce(&Judged, &Query) -> Result<Response, Trouble> + Send + 'static,
) -> Response {
    let answer = async {
        let query = Query::read(query.as_deref())?;
        let judged = room.judge(slug, &query).await?;
        blocking(move || make(&judged, &query)).await?
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.page())
}

async fn card(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let name = format!("{slug}-card.pdf");
    made(&room, &slug, query, move |judged, query| {
        let pdf = card_pdf(&judged.report(query))
            .map_err(|error| Trouble::Broken(format!("The card cannot be made: {error}.")))?;
        Ok(file("application/pdf", &name, pdf))
    })
    .await
}

async fn figure(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let name = format!("{slug}-figure.svg");
    made(&room, &slug, query, move |judged, query| {
        Ok(file("image/svg+xml", &name, strip_figure(&judged.report(query))))
    })
    .await
}

async fn runs(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let name = format!("{slug}-runs.svg");
    made(&room, &slug, query, move |judged, query| {
        Ok(file("image/svg+xml", &name, runs_figure(&judged.report(query))))
    })
    .await
}

async fn stones(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let name = format!("{slug}-stones.svg");
    made(&room, &slug, query, move |judged, query| {
        Ok(file("image/svg+xml", &name, stone_figure(&judged.report(query))))
    })
    .await
}

async fn climb(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let name = format!("{slug}-climb.svg");
    made(&room, &slug, query, move |judged, query| {
        Ok(file("image/svg+xml", &name, climb_figure(&judged.report(query))))
    })
    .await
}

async fn lesson(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    taught(&room, &slug, query, true).await
}

async fn handout(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    taught(&room, &slug, query, false).await
}

async fn taught(room: &Room, slug: &str, query: Option<String>, with_answers: bool) -> Response {
    let name = format!("{slug}-{}.pdf", if with_answers { "lesson" } else { "handout" });
    made(room, slug, query, move |judged, query| {
        let pdf = lesson_pdf(&Lesson::new(&judged.report(query), with_answers))
            .map_err(|error| Trouble::Broken(format!("The lesson cannot be made: {error}.")))?;
        Ok(file("application/pdf", &name, pdf))
    })
    .await
}

/// Files of the pages themselves.
const ASSETS: [(&str, &str, &[u8]); 4] = [
    ("page.css", "text/css; charset=utf-8", include_bytes!("../assets/page.css")),
    ("page.js", "text/javascript; charset=utf-8", include_bytes!("../assets/page.js")),
    ("field.js", "text/javascript; charset=utf-8", include_bytes!("../assets/field.js")),
    ("mark.svg", "image/svg+xml", include_bytes!("../assets/mark.svg")),
];

/// The worker of the field log; it stands at the root to serve every page.
async fn worker() -> Response {
    let kind = (header::CONTENT_TYPE, "text/javascript; charset=utf-8");
    let kept = (header::CACHE_CONTROL, "no-cache");
    ([kind, kept], include_bytes!("../assets/worker.js")).into_response()
}

async fn asset(Path(name): Path<String>) -> Response {
    let own = ASSETS.iter().find(|(own, ..)| *own == name).map(|(_, kind, bytes)| (*kind, *bytes));
    let faces = hardpan_report::typefaces();
    let face = faces.into_iter().find(|(face, _)| *face == name).map(|(_, b)| ("font/otf", b));
    match own.or(face) {
        Some((kind, bytes)) => {
            let kept = (header::CACHE_CONTROL, "no-cache");
            ([(header::CONTENT_TYPE, kind), kept], bytes).into_response()
        }
        None => (StatusCode::NOT_FOUND, "Nothing has this address.\n").into_response(),
    }
}
