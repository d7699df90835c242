//! Flights side by side: the best first, with why each stands where it does.

use crate::desk::blocking;
use crate::page::{Page, frame, verdict_mark};
use crate::routes::{Room, Shared};
use crate::shelf::{Entry, EntryKind};
use crate::trouble::Trouble;
use axum::extract::{RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{MassAnswer, Ranked, both_ends, rank};
use hardpan_model::Flight;
use hardpan_quantity::UnitSystem;
use hardpan_report::{at_most_text, comparison_json, glued, quantity_text};
use maud::{Markup, html};
use std::sync::Arc;

/// Most flights at once; each is assessed afresh.
const MOST: usize = 6;

/// What is compared.
struct Asked {
    slugs: Vec<String>,
    /// Every choice of ends for landing and take-off.
    ends: bool,
    units: UnitSystem,
}

impl Asked {
    fn read(query: Option<&str>) -> Self {
        let mut asked = Self { slugs: Vec::new(), ends: false, units: UnitSystem::Metric };
        for (key, value) in form_urlencoded::parse(query.unwrap_or_default().as_bytes()) {
            match (&*key, &*value) {
                ("flight", slug) if !asked.slugs.iter().any(|known| known == slug) => {
                    asked.slugs.push(slug.to_owned());
                }
                ("ends", "both") => asked.ends = true,
                ("units", "imperial") => asked.units = UnitSystem::Imperial,
                _ => {}
            }
        }
        asked
    }
}

pub(crate) async fn compare(State(room): Shared, RawQuery(query): RawQuery) -> Response {
    let asked = Asked::read(query.as_deref());
    let address = query.map_or_else(String::new, |query| format!("?{query}"));
    match ranked(&room, &asked).await {
        Ok((ranked, _)) => page(&ranked, asked.units, &address).into_response(),
        Err(trouble) => Trouble::page(&trouble),
    }
}

/// The ranking as JSON.
pub(crate) async fn json(room: &Room, query: Option<&str>) -> Result<String, Trouble> {
    let (ranked, identifier) = ranked(room, &Asked::read(query)).await?;
    Ok(comparison_json(&ranked, &room.shelf.produced(&identifier)))
}

/// The flights asked for, the best first, and what identifies their inputs.
async fn ranked(room: &Room, asked: &Asked) -> Result<(Vec<Ranked>, String), Trouble> {
    if asked.slugs.is_empty() || asked.slugs.len() > MOST {
        let said = format!("Choose one to {MOST} flights on the start page.");
        return Err(Trouble::Query(said));
    }
    let mut files = Vec::new();
    for slug in &asked.slugs {
        files.push(room.entry(EntryKind::Flight, slug).await?);
    }
    let (shelf, ends) = (Arc::clone(&room.shelf), asked.ends);
    let _slot = room.desk.slot().await;
    let ranked = blocking(move || {
        let mut identifiers: Vec<String> = Vec::new();
        let flights = flights(&files, ends, |file| {
            let opened = shelf.flight(file, &[]).map_err(Trouble::Refused)?;
            identifiers.push(opened.identifier);
            Ok(opened.value)
        })?;
        Ok((rank(&flights), identifiers.join(" ")))
    });
    ranked.await?
}

fn flights(
    files: &[Entry],
    ends: bool,
    mut open: impl FnMut(&str) -> Result<Flight, Trouble>,
) -> Result<Vec<(String, Flight)>, Trouble> {
    let mut flights = Vec::new();
    for entry in files {
        let flight = open(&entry.file)?;
        let choices = if ends { both_ends(&flight) } else { vec![flight] };
        flights.extend(choices.into_iter().map(|choice| (entry.title().to_owned(), choice)));
    }
    Ok(flights)
}

fn page(ranked: &[Ranked], units: UnitSystem, asked: &str) -> Html<String> {
    let body = html! {
        main.plain.compare {
            h1 { "Compared, the best first" }
            p.lead { "By verdict, then by the mass to spare over the plan." }
            div.scroll { table.compared {
                thead { tr {
                    th scope="col" { "" } th scope="col" { "flight" } th scope="col" { "verdict" }
                    th scope="col" { "take-off mass" } th scope="col" { "landing mass" }
                    th scope="col" { "to spare" } th scope="col" { "why it stands here" }
                } }
                tbody { @for (index, one) in ranked.iter().enumerate() { tr {
                    td { (index + 1) }
                    th scope="row" { (one.name) span.file { (one.directions) } }
                    td { (verdict_mark(one.verdict)) }
                    td { (mass(one.take_off_mass.as_ref(), units)) }
                    td { (mass(one.landing_mass.as_ref(), units)) }
                    td { (one.spare.map_or_else(|| "–".to_owned(), |m| glued(&quantity_text(m, units)))) }
                    td { (glued(&one.reason.show(units))) }
                } } }
            } }
        }
    };
    let crumbs = [("/".into(), "Flights".into())];
    frame(
        &Page {
            title: "Compared",
            crumbs: &crumbs,
            head: html! {
                a href={ "/api/compare" (asked) } { "JSON" }
            },
        },
        &body,
    )
}

fn mass(answer: Option<&MassAnswer>, units: UnitSystem) -> Markup {
    let text = |mass| glued(&quantity_text(mass, units));
    html! {
        @match answer {
            None => "–",
            Some(answer) => {
                (answer.planned.map_or_else(|| "not stated".to_owned(), text))
                span.file {
                    @match answer.largest {
                        Some(largest) => { "at most " (glued(&at_most_text(largest, units))) }
                        None => "no largest mass found",
                    }
                }
            }
        }
    }
}

/// The form of the start page.
pub(crate) fn form(flights: &[&Entry]) -> Markup {
    html! {
        @if !flights.is_empty() {
            form.compare-form method="get" action="/compare" {
                fieldset {
                    legend { "Compare" }
                    @for (index, entry) in flights.iter().enumerate() {
                        label { input type="checkbox" name="flight" value=(entry.slug)
                            checked[index < MOST]; " " (entry.title()) }
                    }
                }
                label { input type="checkbox" name="ends" value="both" checked; " every choice of ends" }
                button type="submit" { "Rank them" }
                p.note { "Each is assessed afresh, which takes a moment for each." }
            }
        }
    }
}
