//! A strip by itself: its surveyor's summary, figures, checks and dossier.

use crate::by_the_book::{self, Said};
use crate::desk::blocking;
use crate::page::{Page, frame, verdict_mark};
use crate::query::Query;
use crate::routes::{Room, Shared, file};
use crate::sheet::findings;
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::dossier;
use hardpan_report::{DossierReport, dossier_json, dossier_pdf};
use maud::html;
use std::sync::Arc;

/// The name of a strip file and its dossier, worked out afresh.
async fn report(
    room: &Room,
    slug: &str,
    query: &Query,
) -> Result<(Option<String>, DossierReport), Trouble> {
    let entry = room.entry(EntryKind::Strip, slug).await?;
    let (shelf, units) = (Arc::clone(&room.shelf), query.units);
    let work = move || {
        let opened = shelf.strip(&entry.file).map_err(Trouble::Refused)?;
        let produced = shelf.produced(&opened.identifier);
        let name = opened.value.name.as_ref().map(|name| name.value.clone());
        Ok((name, DossierReport::new(&dossier(&opened.value, None), units, produced)))
    };
    blocking(work).await?
}

async fn made(
    room: &Room,
    slug: &str,
    query: Option<String>,
    make: impl FnOnce(&DossierReport, &Query) -> Result<Response, Trouble> + Send + 'static,
) -> Response {
    let answer = async {
        let query = Query::read(query.as_deref())?;
        let (_, report) = report(room, slug, &query).await?;
        blocking(move || make(&report, &query)).await?
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
        let query = Query::read(query.as_deref())?;
        let (name, report) = report(&room, &slug, &query).await?;
        let said = by_the_book::said_of(&room, name.as_deref()).await?;
        blocking(move || page(&report, &address, &query, &said).into_response()).await
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
pub(crate) async fn json(room: &Room, slug: &str, query: &Query) -> Result<String, Trouble> {
    let (_, report) = report(room, slug, query).await?;
    blocking(move || dossier_json(&report)).await
}

/// The strip of an address as a query of the plan.
fn slug_pair(address: &str) -> String {
    let slug = address.rsplit('/').next().unwrap_or_default();
    format!("strip={slug}")
}

fn page(report: &DossierReport, address: &str, query: &Query, said: &[Said]) -> Html<String> {
    let asked = query.unchanged().text();
    let other = query.unchanged().in_other_units();
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
        a href={ (address) (other.text()) } { "in " (other.units_word()) " units" }
        a href={ "/plan?" (slug_pair(address)) } { "Plan a flight here" }
        a href={ (address) "/bring" } { "Bring a survey" }
        a href={ (address) "/dossier.pdf" (asked) } { "Dossier, PDF" }
        a href={ "/api" (address) (asked) } { "JSON" }
    };
    frame(&Page { title: report.title(), crumbs: &[("/".into(), "Flights".into())], head }, &body)
}
