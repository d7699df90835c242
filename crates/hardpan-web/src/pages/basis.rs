//! One figure or check of a flight, opened at an address of its own.

use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::Shared;
use crate::sheet::findings::{named_figures, of_code};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::CAUTION;
use hardpan_quantity::UnitSystem;
use hardpan_report::Report;
use maud::html;

/// Keys of the page besides those of the flight: code of a check or name of a figure, as
/// `hardpan explain` takes it.
const OWN: [&str; 1] = ["figure"];

/// The address of a figure of a flight with values stated again.
pub(super) fn address(slug: &str, query: &Query, figure: &str) -> String {
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
        let said = "figure: name a figure or the code of a check, such as figure=V1.";
        let figure = own.one("figure")?.ok_or_else(|| Trouble::Query(said.to_owned()))?;
        let judged = room.judge(&slug, &query).await;
        let judged = judged.map_err(|trouble| trouble.also_known(&OWN))?;
        page(&slug, &query, figure, &judged.report(&query))
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.page(), IntoResponse::into_response)
}

fn page(slug: &str, query: &Query, figure: &str, report: &Report) -> Result<Html<String>, Trouble> {
    let is_check = report.findings.iter().any(|row| row.code.eq_ignore_ascii_case(figure));
    let figures = named_figures(report, figure);
    if !is_check && figures.is_none() {
        let said = format!("The assessment has no figure and no check `{figure}`.");
        return Err(Trouble::NotFound(said));
    }
    let code = figure.to_ascii_uppercase();
    let body = html! {
        main.plain {
            h1 { (figure) }
            @if !query.changes.is_empty() {
                p.changed { "With changes that no file has: " (query.words()) }
            }
            @if is_check { (of_code(report, &code)) }
            @if let Some(figures) = figures { (figures) }
            p.caution { (CAUTION) }
        }
    };
    let crumbs = [
        ("/".into(), "Flights".into()),
        (format!("/flights/{slug}{}", query.text()), report.title.clone()),
    ];
    Ok(frame(&Page { title: figure, crumbs: &crumbs, head: html! {} }, &body))
}
