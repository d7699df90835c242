//! Flights side by side: the best first, with why each stands where it does.

use super::basis::address;
use crate::desk::blocking;
use crate::page::{Page, frame, verdict_mark};
use crate::query::{Own, Query};
use crate::routes::{Room, Shared};
use crate::sheet::findings::bases;
use crate::shelf::{Entry, EntryKind};
use crate::trouble::Trouble;
use axum::extract::{RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{MassAnswer, Ranked, both_ends, ends_stated, figure_names, rank};
use hardpan_model::Flight;
use hardpan_quantity::UnitSystem;
use hardpan_report::{Candidate, at_most_text, comparison_json, glued, quantity_text};
use maud::{Markup, html};
use std::sync::Arc;

/// Most flights at once; each is assessed afresh.
const MOST: usize = 6;

/// Keys of a comparison besides values of the flights: the long names of the options of
/// `hardpan compare`, and a slug for each flight.
const OWN: [&str; 2] = ["flight", "both-ends"];

/// What is compared.
struct Asked {
    slugs: Vec<String>,
    /// Every choice of ends for landing and take-off.
    ends: bool,
    /// Units, and values stated again for every flight.
    query: Query,
    own: Own,
}

impl Asked {
    fn read(text: Option<&str>) -> Result<Self, Trouble> {
        let (query, own) = Query::read_with(text, &OWN)?;
        Ok(Self { slugs: own.all("flight"), ends: own.is_asked("both-ends")?, query, own })
    }
}

/// A choice in its place, and the flight with the values stated again that make it.
struct Place {
    ranked: Ranked,
    slug: String,
    query: Query,
}

pub(crate) async fn compare(State(room): Shared, RawQuery(query): RawQuery) -> Response {
    let answer = async {
        let asked = Asked::read(query.as_deref())?;
        let (places, _) = ranked(&room, &asked, "choose them on the start page").await?;
        Ok(page(&places, &asked))
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.page(), IntoResponse::into_response)
}

/// The ranking as JSON.
pub(crate) async fn json(room: &Room, query: Option<&str>) -> Result<String, Trouble> {
    let way_out = "each as flight=SLUG; /api/entries lists them";
    let (places, identifier) = ranked(room, &Asked::read(query)?, way_out).await?;
    let mut candidates = vec![Candidate::default(); places.len()];
    for place in &places {
        if let Some(given) = candidates.get_mut(place.ranked.given) {
            let (flight, changes) = (place.slug.clone(), place.query.changes.clone());
            *given = Candidate { flight, changes };
        }
    }
    let ranked: Vec<Ranked> = places.into_iter().map(|one| one.ranked).collect();
    Ok(comparison_json(&ranked, &candidates, &room.shelf.produced(&identifier)))
}

/// The flights asked for, the best first, and what identifies their inputs.
async fn ranked(
    room: &Room,
    asked: &Asked,
    way_out: &str,
) -> Result<(Vec<Place>, String), Trouble> {
    if asked.slugs.is_empty() || asked.slugs.len() > MOST {
        let said = format!("Name one to {MOST} flights: {way_out}.");
        return Err(Trouble::Query(said));
    }
    let mut files = Vec::new();
    for slug in &asked.slugs {
        files.push(room.entry(EntryKind::Flight, slug).await?);
    }
    let (shelf, ends, query) = (Arc::clone(&room.shelf), asked.ends, asked.query.clone());
    let _slot = room.desk.slot().await;
    let ranked = blocking(move || {
        let mut identifiers: Vec<String> = Vec::new();
        let (flights, made_by) = flights(&files, ends, &query, |file| {
            let opened = shelf.flight(file, &query.changes).map_err(Trouble::Refused)?;
            identifiers.push(opened.identifier);
            Ok(opened.value)
        })?;
        let place = |ranked: Ranked| {
            let (slug, query) = made_by.get(ranked.given)?.clone();
            Some(Place { ranked, slug, query })
        };
        let places: Vec<Place> = rank(&flights).into_iter().filter_map(place).collect();
        Ok((places, identifiers.join(" ")))
    });
    let ranked: Result<_, Trouble> = ranked.await?;
    ranked.map_err(|trouble| trouble.also_known(&OWN))
}

/// Flights with their names, and what makes each: its slug and the values stated again.
type Choices = (Vec<(String, Flight)>, Vec<(String, Query)>);

fn flights(
    files: &[Entry],
    ends: bool,
    query: &Query,
    mut open: impl FnMut(&str) -> Result<Flight, Trouble>,
) -> Result<Choices, Trouble> {
    let (mut flights, mut made_by) = (Vec::new(), Vec::new());
    for entry in files {
        let flight = open(&entry.file)?;
        let choices = if ends { both_ends(&flight) } else { vec![flight.clone()] };
        for choice in choices {
            made_by.push((entry.slug.clone(), over(&flight, &choice, query)));
            // A name that says what was stated again.
            let name = choice.name.as_ref().map_or(entry.title(), |name| name.value.as_str());
            flights.push((name.to_owned(), choice));
        }
    }
    Ok((flights, made_by))
}

/// The query by which the sheet of a flight shows a choice of its ends.
fn over(flight: &Flight, choice: &Flight, query: &Query) -> Query {
    let mut query = query.clone();
    for (key, word) in ends_stated(flight, choice) {
        query.changes.retain(|(known, _)| *known != key);
        query.changes.push((key, word));
    }
    query
}

fn page(places: &[Place], asked: &Asked) -> Html<String> {
    let units = asked.query.units;
    let body = html! {
        main.plain.compare {
            h1 { "Compared, the best first" }
            p.lead { "By verdict, then by the mass to spare over the plan. Each opens to its sheet." }
            @if !asked.query.changes.is_empty() {
                p.changed { "With changes that no file has: " (asked.query.words()) }
            }
            div.scroll { table.compared {
                thead { tr {
                    th scope="col" { "" } th scope="col" { "flight" } th scope="col" { "verdict" }
                    th scope="col" { "take-off mass" } th scope="col" { "landing mass" }
                    th scope="col" { "to spare" } th scope="col" { "why it stands here" }
                } }
                tbody { @for (index, place) in places.iter().enumerate() {
                    (row(index + 1, place, units))
                } }
            } }
        }
    };
    let crumbs = [("/".into(), "Flights".into())];
    let other = asked.query.in_other_units();
    let head = html! {
        a href={ "/compare" (other.text_with(&asked.own)) } { "in " (other.units_word()) " units" }
        a href={ "/api/compare" (asked.query.text_with(&asked.own)) } { "JSON" }
    };
    frame(&Page { title: "Compared", crumbs: &crumbs, head }, &body)
}

fn row(number: usize, place: &Place, units: UnitSystem) -> Markup {
    let one = &place.ranked;
    let sheet = format!("/flights/{}{}", place.slug, place.query.text());
    html! { tr {
        td { (number) }
        th scope="row" { a href=(sheet) { (one.name) } span.file { (one.directions) } }
        td { (verdict_mark(one.verdict)) }
        td { (mass(place, "take-off", one.take_off_mass.as_ref(), units)) }
        td { (mass(place, "landing", one.landing_mass.as_ref(), units)) }
        td {
            (one.spare.map_or_else(|| "–".to_owned(), |m| glued(&quantity_text(m, units))))
            @if !one.figures.is_empty() {
                details.how {
                    summary { "How" }
                    section.findings { (bases(&one.figures, units)) }
                }
            }
        }
        td {
            (glued(&one.reason.show(units)))
            @if let Some(code) = one.reason_of {
                " " a href=(address(&place.slug, &place.query, code)) { (code) " opened" }
            }
        }
    } }
}

fn mass(place: &Place, movement: &str, answer: Option<&MassAnswer>, units: UnitSystem) -> Markup {
    let text = |mass| glued(&quantity_text(mass, units));
    let [largest_name, load_name] = figure_names(movement);
    let opens = |name: &str| address(&place.slug, &place.query, name);
    html! {
        @match answer {
            None => "–",
            Some(answer) => {
                (answer.planned.map_or_else(|| "not stated".to_owned(), text))
                span.file {
                    @match answer.largest {
                        Some(largest) => {
                            "at most " a href=(opens(&largest_name)) {
                                (glued(&at_most_text(largest, units)))
                            }
                        }
                        None => "no largest mass found",
                    }
                    @if let Some(load) = answer.load {
                        ", " a href=(opens(&load_name)) { (glued(&at_most_text(load, units))) }
                        " of it load"
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
                label { input type="checkbox" name="both-ends" value="yes" checked; " every choice of ends" }
                button type="submit" { "Rank them" }
                p.note { "Each is assessed afresh, which takes a moment for each." }
            }
        }
    }
}
