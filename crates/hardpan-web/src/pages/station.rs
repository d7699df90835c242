//! What stands at a station of the strip of a flight, each reading opened. The sheet asks
//! for it when it is wanted.

use crate::desk::{Judged, blocking};
use crate::page::{Page, frame};
use crate::query::{Own, Query};
use crate::routes::{Room, Shared};
use crate::sheet::findings::bases_down;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{CAUTION, Reading, readings_at};
use hardpan_quantity::{Length, Quantity as _, UnitSystem, parse};
use hardpan_report::quantity_text;
use maud::{Markup, html};

/// Keys of the page besides those of the flight.
pub(crate) const OWN: [&str; 1] = ["at"];

/// The address of a station, without the station itself.
pub(crate) fn address(slug: &str, query: &Query) -> String {
    let mut out = form_urlencoded::Serializer::new(String::new());
    if query.units == UnitSystem::Imperial {
        out.append_pair("units", "imperial");
    }
    for (key, value) in &query.changes {
        out.append_pair(key, value);
    }
    let kept = out.finish();
    let and = if kept.is_empty() { "" } else { "&" };
    format!("/flights/{slug}/station?{kept}{and}at=")
}

/// The station that an address asks for.
pub(crate) fn asked(judged: &Judged, own: &Own) -> Result<Length, Trouble> {
    let text = own.one("at")?.ok_or_else(|| {
        Trouble::Query("at: name a station of the strip, such as at=640 m.".to_owned())
    })?;
    let station: Length = parse(text).map_err(|error| Trouble::Query(format!("at: {error}.")))?;
    let length = judged.assessment.sketch.length;
    if station.si() < 0.0 || length.is_some_and(|length| station > length) {
        return Err(Trouble::NotFound(format!("at: {text} does not lie on the strip.")));
    }
    Ok(station)
}

pub(crate) async fn station(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    match opened(&room, &slug, query.as_deref()).await {
        Ok(page) => page.into_response(),
        Err(trouble) => Trouble::page(&trouble),
    }
}

async fn opened(room: &Room, slug: &str, query: Option<&str>) -> Result<Html<String>, Trouble> {
    let (query, own) = Query::read_with(query, &OWN)?;
    let judged = room.judge(slug, &query).await;
    let judged = judged.map_err(|trouble| trouble.also_known(&OWN))?;
    let station = asked(&judged, &own)?;
    let _slot = room.desk.slot().await;
    let read = blocking(move || readings_at(&judged.flight, &judged.assessment, station)).await?;
    Ok(page(slug, &query, station, &read))
}

fn page(slug: &str, query: &Query, station: Length, readings: &[Reading]) -> Html<String> {
    let title = format!("At station {}", quantity_text(station, query.units));
    let body = html! {
        main.plain {
            h1 { (title) }
            @if !query.changes.is_empty() {
                p.changed { "With changes that no file has: " (query.words()) }
            }
            @for reading in readings { (one(reading, query.units)) }
            p.caution { (CAUTION) }
        }
    };
    let crumbs = [
        ("/".into(), "Flights".into()),
        (format!("/flights/{slug}{}#section", query.text()), "The flight".to_owned()),
    ];
    let json = format!("/api{}{}+m", address(slug, query), station.si());
    let head = html! { a href=(json) { "JSON" } };
    frame(&Page { title: &title, crumbs: &crumbs, head }, &body)
}

fn one(reading: &Reading, units: UnitSystem) -> Markup {
    html! {
        section id={ "reading-" (reading.id) } {
            h2 { (reading.name) }
            @if let Some(none) = &reading.none { p { (none) } }
            section.findings { (bases_down(&reading.figures, &reading.openings, units)) }
        }
    }
}
