//! An aeroplane by itself: its masses, tyres, flaps, equipment and limits, and
//! what it flies.

use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::shelf::{Entry, EntryKind, Opened};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_model::{Aeroplane, Bound, Given, Leg};
use hardpan_quantity::{Quantity, UnitSystem};
use hardpan_report::{aeroplane_json, amount_text, glued, quantity_text};
use maud::{Markup, html};
use std::sync::Arc;

pub(crate) async fn aeroplane(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    match shown(&room, &slug, query.as_deref()).await {
        Ok(page) => page.into_response(),
        Err(trouble) => trouble.page(),
    }
}

async fn shown(room: &Room, slug: &str, query: Option<&str>) -> Result<Html<String>, Trouble> {
    let query = Query::of_units(query)?;
    let entry = room.entry(EntryKind::Aeroplane, slug).await?;
    let entries = room.entries().await?;
    let (shelf, file) = (Arc::clone(&room.shelf), entry.file.clone());
    let opened = blocking(move || shelf.aeroplane(&file)).await?.map_err(Trouble::Refused)?;
    Ok(page(&entry, &opened, &entries, &query))
}

/// What its file states, as JSON.
pub(crate) async fn json(room: &Room, slug: &str) -> Result<String, Trouble> {
    let entry = room.entry(EntryKind::Aeroplane, slug).await?;
    let shelf = Arc::clone(&room.shelf);
    let opened = blocking(move || shelf.aeroplane(&entry.file)).await?.map_err(Trouble::Refused)?;
    Ok(aeroplane_json(&opened.value, &room.shelf.produced(&opened.identifier)))
}

fn page(
    entry: &Entry,
    opened: &Opened<Aeroplane>,
    entries: &[Entry],
    query: &Query,
) -> Html<String> {
    let (one, units) = (&opened.value, query.units);
    let address = format!("/aeroplanes/{}", entry.slug);
    let body = html! {
        main.plain.strip-page {
            h1 { (entry.title()) }
            @if let Some(said) = &one.description { p.lead { (said.value) } }
            @if !opened.warnings.is_empty() {
                details.warnings { summary { "Warnings in the file" }
                    pre.mistakes tabindex="0" { (opened.warnings) } }
            }
            (flown(entry, entries))
            h2 { "Masses" }
            (table(&masses(one, units)))
            h2 { "Gear and tyres" }
            (table(&tyres(one, units)))
            (flaps(one))
            (equipment(one, units))
            (limits(one, units))
            (charts(one))
            @if !one.handling.is_empty() {
                h2 { "Handling" }
                ul { @for say in &one.handling {
                    li { strong { (say.phase.word()) } ": " (say.say.value) (source(&say.say)) }
                } }
            }
        }
    };
    let head = html! {
        a href={ (address) (query.in_other_units().text()) } {
            "in " (query.in_other_units().units_word()) " units"
        }
        a href={ "/api" (address) } { "JSON" }
        a.strong href={ "/plan?aeroplane=" (entry.slug) } { "Plan a flight with it" }
    };
    let crumbs = [("/".into(), "Flights".into())];
    frame(&Page { title: entry.title(), crumbs: &crumbs, head }, &body)
}

fn flown(entry: &Entry, entries: &[Entry]) -> Markup {
    let mine = |one: &&Entry| {
        one.kind == EntryKind::Flight && one.names.iter().any(|(_, file)| *file == entry.file)
    };
    let mine: Vec<&Entry> = entries.iter().filter(mine).collect();
    html! {
        @if !mine.is_empty() {
            p { "Flies "
                @for (index, flight) in mine.iter().enumerate() {
                    @if index > 0 { ", " }
                    a href={ "/flights/" (flight.slug) } { (flight.title()) }
                }
            }
        }
    }
}

/// A name, its value and where it comes from.
struct Line {
    name: &'static str,
    value: Option<String>,
    source: Option<String>,
}

fn line<Q: Quantity>(name: &'static str, given: Option<&Given<Q>>, units: UnitSystem) -> Line {
    Line {
        name,
        value: given.map(|given| glued(&quantity_text(given.value, units))),
        source: given.and_then(|given| given.source.as_ref().map(ToString::to_string)),
    }
}

fn table(lines: &[Line]) -> Markup {
    html! {
        table.compared { tbody { @for line in lines { tr {
            th scope="row" { (line.name) }
            td { (line.value.as_deref().unwrap_or("not stated")) }
            td.source { (line.source.as_deref().unwrap_or_default()) }
        } } } }
    }
}

fn source<T>(given: &Given<T>) -> Markup {
    html! { @if let Some(source) = &given.source { " " span.source { (source) } } }
}

fn masses(one: &Aeroplane, units: UnitSystem) -> Vec<Line> {
    vec![
        line("lightest", one.mass.minimum.as_ref(), units),
        line("largest take-off", one.mass.maximum_take_off.as_ref(), units),
        line("largest landing", one.mass.maximum_landing.as_ref(), units),
        line("largest without fuel", one.mass.maximum_zero_fuel.as_ref(), units),
        line("ready to fly, without load and fuel", one.mass.operating.as_ref(), units),
        line("balance forward", one.balance.forward_limit.as_ref(), units),
        line("balance aft", one.balance.aft_limit.as_ref(), units),
    ]
}

fn tyres(one: &Aeroplane, units: UnitSystem) -> Vec<Line> {
    let mut lines = vec![
        line("wheelbase", one.gear.wheelbase.as_ref(), units),
        line("track", one.gear.track.as_ref(), units),
    ];
    let names: [[&'static str; 3]; 2] = [
        ["main tyre, diameter", "main tyre, lowest pressure", "main tyre, highest pressure"],
        ["nose tyre, diameter", "nose tyre, lowest pressure", "nose tyre, highest pressure"],
    ];
    for (leg, names) in [&one.gear.main, &one.gear.nose].into_iter().zip(names) {
        lines.extend(of_leg(leg, names, units));
    }
    lines
}

fn of_leg(leg: &Leg, [diameter, low, high]: [&'static str; 3], units: UnitSystem) -> [Line; 3] {
    let tyre = &leg.tyre;
    [
        line(diameter, tyre.diameter.as_ref(), units),
        line(low, tyre.minimum_pressure.as_ref(), units),
        line(high, tyre.maximum_pressure.as_ref(), units),
    ]
}

fn flaps(one: &Aeroplane) -> Markup {
    let used = |given: Option<&Given<bool>>| given.is_some_and(|given| given.value);
    html! {
        @if !one.flaps.is_empty() {
            h2 { "Flaps" }
            ul.rows { @for flap in &one.flaps { li {
                strong { (flap.name.value) }
                @if used(flap.take_off.as_ref()) { " take-off" }
                @if used(flap.landing.as_ref()) { " landing" }
            } } }
        }
    }
}

fn equipment(one: &Aeroplane, units: UnitSystem) -> Markup {
    let word = |given: Option<&Given<bool>>, yes: &'static str, no: &'static str| match given {
        Some(given) if given.value => yes,
        Some(_) => no,
        None => "not stated",
    };
    html! {
        @if !one.equipment.is_empty() {
            h2 { "Protective equipment" }
            div.scroll { table.compared {
                thead { tr { @for name in ["piece", "fitted", "serviceable", "looked at", "every"] {
                    th scope="col" { (name) }
                } } }
                tbody { @for piece in &one.equipment { tr {
                    th scope="row" { (piece.name.value) }
                    td { (word(piece.fitted.as_ref(), "yes", "no")) }
                    td { (word(piece.serviceable.as_ref(), "yes", "no")) }
                    td { (piece.inspected_on.as_ref().map_or("not stated".to_owned(), |day| day.value.to_string())) }
                    td { (piece.inspect_every.as_ref().map_or("not stated".to_owned(), |every| quantity_text(every.value, units).replace(' ', "\u{a0}"))) }
                } } }
            } }
        }
    }
}

fn limits(one: &Aeroplane, units: UnitSystem) -> Markup {
    html! {
        @if !one.limits.is_empty() {
            h2 { "Approved limits" }
            div.scroll { table.compared {
                thead { tr { @for name in ["phase", "what", "limit", "holds", "from"] {
                    th scope="col" { (name) }
                } } }
                tbody { @for limit in &one.limits { tr {
                    td { (limit.phase.word()) }
                    th scope="row" { (limit.quantity.value.replace('_', " ")) }
                    td { (match limit.bound { Bound::AtMost => "at most ", Bound::AtLeast => "at least " })
                        (glued(&amount_text(limit.value.value, units))) }
                    td {
                        @match (&limit.surface, &limit.state) {
                            (None, None) => "everywhere",
                            (surface, state) => {
                                @if let Some(surface) = surface { (surface.value.word()) " " }
                                @if let Some(state) = state { (state.value.word()) }
                            }
                        }
                        @if let Some(when) = &limit.when { " " (when.value) }
                    }
                    td.source { (limit.value.source.as_deref().unwrap_or("not stated")) }
                } } }
            } }
        }
    }
}

fn charts(one: &Aeroplane) -> Markup {
    html! {
        @if !one.charts.is_empty() {
            h2 { "Approved charts" }
            ul.rows { @for chart in &one.charts { li {
                strong { (chart.gives.value.word()) }
                @if let Some(flap) = &chart.flap { ", flap " (flap.value) }
                @if let Some(surface) = &chart.surface { ", " (surface.value.word()) }
                @if let Some(state) = &chart.state { ", " (state.value.word()) }
                " " span.file { (chart.file) } (source(&chart.gives))
            } } }
        }
    }
}
