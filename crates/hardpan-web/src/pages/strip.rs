//! A strip by itself: its surveyor's summary, figures, checks and dossier.

use crate::by_the_book::{self, Said};
use crate::desk::blocking;
use crate::page::{Page, frame, verdict_mark};
use crate::query::{Own, Query};
use crate::routes::{Room, Shared, file};
use crate::sheet::findings;
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{AskedError, dossier, dossier_of_flight, flight_over, wheel_track};
use hardpan_report::{DossierReport, Produced, dossier_json, dossier_pdf};
use maud::html;
use std::sync::Arc;

/// Keys of a strip: the long names of the options of `hardpan strip`; `flight` is a slug.
const OWN: [&str; 3] = ["track", "flight", "dated"];

/// What an address asks of a strip.
pub(crate) struct Asked {
    query: Query,
    own: Own,
}

impl Asked {
    pub(crate) fn read(text: Option<&str>) -> Result<Self, Trouble> {
        let (query, own) = Query::of_own(text, &OWN)?;
        Ok(Self { query, own })
    }

    fn text(&self) -> String {
        self.query.text_with(&self.own)
    }
}

/// The name of a strip file and its dossier, worked out afresh.
async fn report(
    room: &Room,
    slug: &str,
    asked: &Asked,
) -> Result<(Option<String>, DossierReport), Trouble> {
    let entry = room.entry(EntryKind::Strip, slug).await?;
    let wrong = |error: AskedError| Trouble::Query(format!("{error}."));
    let track = asked.own.one("track")?.map(wheel_track).transpose().map_err(wrong)?;
    let flight = match asked.own.one("flight")? {
        Some(_) if track.is_some() => {
            let said = "track and flight: the flight tells its track itself; name one of them.";
            return Err(Trouble::Query(said.to_owned()));
        }
        Some(slug) => Some(room.entry(EntryKind::Flight, slug).await?),
        None => None,
    };
    let dated = asked.own.one("dated")?.map(str::to_owned);
    let (shelf, units) = (Arc::clone(&room.shelf), asked.query.units);
    let work = move || {
        let opened = shelf.strip(&entry.file).map_err(Trouble::Refused)?;
        let judged = match flight {
            Some(flight) => {
                let flight = shelf.flight(&flight.file, &[]).map_err(Trouble::Refused)?.value;
                dossier_of_flight(&flight_over(flight, &opened.value).map_err(wrong)?)
            }
            None => dossier(&opened.value, track),
        };
        let produced = shelf.produced(&opened.identifier);
        let at = dated.unwrap_or(produced.at);
        let name = opened.value.name.as_ref().map(|name| name.value.clone());
        Ok((name, DossierReport::new(&judged, units, Produced { at, ..produced })))
    };
    blocking(work).await?
}

async fn made(
    room: &Room,
    slug: &str,
    query: Option<String>,
    make: impl FnOnce(&DossierReport, &Asked) -> Result<Response, Trouble> + Send + 'static,
) -> Response {
    let answer = async {
        let asked = Asked::read(query.as_deref())?;
        let (_, report) = report(room, slug, &asked).await?;
        blocking(move || make(&report, &asked)).await?
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.page())
}

pub(crate) async fn strip(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let address = format!("/strips/{slug}");
    let answer = async {
        let asked = Asked::read(query.as_deref())?;
        let (name, report) = report(&room, &slug, &asked).await?;
        let said = by_the_book::said_of(&room, name.as_deref()).await?;
        blocking(move || page(&report, &address, &asked, &said).into_response()).await
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.page())
}

pub(crate) async fn dossier_file(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let name = format!("{slug}-dossier.pdf");
    made(&room, &slug, query, move |report, _| {
        let pdf = dossier_pdf(report)
            .map_err(|error| Trouble::Broken(format!("The dossier cannot be made: {error}.")))?;
        Ok(file("application/pdf", &name, pdf))
    })
    .await
}

pub(crate) async fn figure(
    State(room): Shared,
    Path((slug, name)): Path<(String, String)>,
    RawQuery(query): RawQuery,
) -> Response {
    made(&room, &slug, query, move |report, _| {
        let wanted = name.strip_suffix(".svg");
        let figure = report.figures().iter().find(|figure| Some(figure.name) == wanted);
        let figure = figure
            .ok_or_else(|| Trouble::NotFound("The strip has no figure of that name.".to_owned()))?;
        Ok(file("image/svg+xml", &name, figure.svg.clone()))
    })
    .await
}

/// The dossier as JSON.
pub(crate) async fn json(room: &Room, slug: &str, asked: &Asked) -> Result<String, Trouble> {
    let (_, report) = report(room, slug, asked).await?;
    blocking(move || dossier_json(&report)).await
}

/// The strip of an address as a query of the plan.
fn slug_pair(address: &str) -> String {
    let slug = address.rsplit('/').next().unwrap_or_default();
    format!("strip={slug}")
}

fn page(report: &DossierReport, address: &str, asked: &Asked, said: &[Said]) -> Html<String> {
    let other = asked.query.in_other_units();
    let (other_text, asked) = (other.text_with(&asked.own), asked.text());
    let body = html! {
        main.plain.strip-page {
            h1 { (report.title()) " " (verdict_mark(report.verdict())) }
            (by_the_book::paragraphs(said))
            ul.summary { @for line in report.summary() { li { (line) } } }
            p.caution { (report.caution()) }
            @for figure in report.figures() {
                figure.drawing {
                    figcaption { (figure.title) }
                    img src={ (address) "/figures/" (figure.name) ".svg" (asked) }
                        alt=(figure.words) loading="lazy";
                }
            }
            @if !report.missing().is_empty() {
                h2 { "What is missing" }
                dl.needs {
                    @for (what, how) in report.missing() { dt { (what) } dd { (how) } }
                }
            }
            h2 { "Every check" }
            (findings::plain_rows(report))
        }
    };
    let head = html! {
        a href={ (address) (other_text) } { "in " (other.units_word()) " units" }
        a href={ "/plan?" (slug_pair(address)) } { "Plan a flight here" }
        a href={ (address) "/bring" } { "Bring a survey" }
        a href={ (address) "/dossier.pdf" (asked) } { "Dossier, PDF" }
        a href={ "/api" (address) (asked) } { "JSON" }
    };
    frame(&Page { title: report.title(), crumbs: &[("/".into(), "Flights".into())], head }, &body)
}
