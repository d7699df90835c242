//! One figure or check of a flight, opened down to the files at an address of its own, for
//! people and for programs.

use crate::desk::{Judged, blocking};
use crate::page::{Page, frame};
use crate::query::{Own, Query};
use crate::routes::Shared;
use crate::sheet::findings::whole;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::CAUTION;
use hardpan_quantity::UnitSystem;
use hardpan_report::{Meant, Report, names_json, opened_json};
use maud::html;

/// Keys of the page besides those of the flight: code of a check or name of a figure, as
/// `hardpan explain` takes it.
pub(crate) const OWN: [&str; 1] = ["figure"];

/// The address of a figure of a flight with values stated again.
pub(crate) fn address(slug: &str, query: &Query, figure: &str) -> String {
    let mut out = form_urlencoded::Serializer::new(String::new());
    if query.units == UnitSystem::Imperial {
        out.append_pair("units", "imperial");
    }
    for (key, value) in &query.changes {
        out.append_pair(key, value);
    }
    out.append_pair("figure", figure);
    format!("/flights/{slug}/basis?{}", out.finish())
}

pub(crate) async fn basis(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let (query, own) = Query::read_with(query.as_deref(), &OWN)?;
        let judged = room.judge(&slug, &query).await;
        let judged = judged.map_err(|trouble| trouble.also_known(&OWN))?;
        let said = "figure: name a figure or the code of a check, such as figure=V1.";
        let figure = own.one("figure")?.ok_or_else(|| Trouble::Query(said.to_owned()))?.to_owned();
        let _slot = room.desk.slot().await;
        blocking(move || page(&slug, &query, &figure, &judged)).await?
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.page(), IntoResponse::into_response)
}

/// What some words mean of a report.
fn meant(report: &Report, words: &str) -> Result<Meant, Trouble> {
    let meant = Meant::by(report, words);
    if meant.is_empty() {
        let said = format!("The assessment has no figure and no check `{words}`.");
        return Err(Trouble::NotFound(said));
    }
    Ok(meant)
}

/// The same for programs; the names of what can be opened where no figure is named.
pub(crate) fn json(judged: &Judged, query: &Query, own: &Own) -> Result<String, Trouble> {
    let report = judged.report(query);
    let Some(figure) = own.one("figure")? else { return Ok(names_json(&report)) };
    let meant = meant(&report, figure)?;
    Ok(opened_json(&report, judged.openings(), &meant))
}

fn page(slug: &str, query: &Query, figure: &str, judged: &Judged) -> Result<Html<String>, Trouble> {
    let report = judged.report(query);
    let meant = meant(&report, figure)?;
    let body = html! {
        main.plain {
            h1 { (figure) }
            @if !query.changes.is_empty() {
                p.changed { "With changes that no file has: " (query.words()) }
            }
            h2 { "Down to the files" }
            (whole(&report, judged.openings(), &meant))
            p.caution { (CAUTION) }
        }
    };
    let crumbs = [
        ("/".into(), "Flights".into()),
        (format!("/flights/{slug}{}", query.text()), report.title.clone()),
    ];
    let json = address(slug, query, figure).replacen("/basis?", "/explain?", 1);
    let head = html! { a href={ "/api" (json) } { "JSON" } };
    Ok(frame(&Page { title: figure, crumbs: &crumbs, head }, &body))
}
