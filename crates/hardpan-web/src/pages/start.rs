//! The start page: what there is in the folder.

use super::compare;
use crate::by_the_book::{Said, marks, said_of};
use crate::page::{Page, frame};
use crate::routes::{Room, Shared};
use crate::shelf::{Entry, EntryKind};
use crate::trouble::Trouble;
use axum::extract::State;
use axum::response::{Html, IntoResponse, Response};
use maud::{Markup, html};
use std::collections::BTreeMap;

pub(crate) async fn start(State(room): Shared) -> Response {
    match room.entries().await {
        Ok(entries) => match by_strip(&room, &entries).await {
            Ok(said) => page(&room.shelf.place(), &entries, &said).into_response(),
            Err(trouble) => Trouble::page(&trouble),
        },
        Err(trouble) => Trouble::page(&trouble),
    }
}

/// What the books say of the strip of each strip file.
type ByStrip = BTreeMap<String, Vec<Said>>;

async fn by_strip(room: &Room, entries: &[Entry]) -> Result<ByStrip, Trouble> {
    let mut all = ByStrip::new();
    if entries.iter().any(|entry| entry.kind == EntryKind::Book) {
        for strip in entries.iter().filter(|entry| entry.kind == EntryKind::Strip) {
            all.insert(strip.file.clone(), said_of(room, strip.name.as_deref()).await?);
        }
    }
    Ok(all)
}

/// What the books say of the strip of a file.
fn said<'s>(said: &'s ByStrip, file: &str) -> &'s [Said] {
    said.get(file).map(Vec::as_slice).unwrap_or_default()
}

fn page(place: &str, entries: &[Entry], by_strip: &ByStrip) -> Html<String> {
    let of = |kind: EntryKind| entries.iter().filter(move |entry| entry.kind == kind);
    let body = html! {
        main.plain.start {
            h1 { "May this flight use this strip today?" }
            p.lead {
                "Choose a flight: its sheet says whether, how heavy, at which tyre pressure and \
                 why, laid out along the strip. Then print the card."
            }
            p.place { "From " (place) }
            section aria-labelledby="flights" {
                h2 #flights { "Flights" }
                @if of(EntryKind::Flight).next().is_none() { (no_flights()) }
                p { a.act href="/plan" { "Plan a flight" } }
                ul.cards {
                    @for entry in of(EntryKind::Flight) { (flight(entry, entries, by_strip)) }
                }
                (compare::form(&of(EntryKind::Flight).collect::<Vec<_>>()))
            }
            section aria-labelledby="strips" {
                h2 #strips { "Strips" }
                @if of(EntryKind::Strip).next().is_none() {
                    p { "No strip file stands here." }
                }
                ul.rows {
                    @for entry in of(EntryKind::Strip) {
                        li { a href={ "/strips/" (entry.slug) } { (entry.title()) } " "
                            span.file { (entry.file) } (marks(said(by_strip, &entry.file))) }
                    }
                }
            }
            section aria-labelledby="aeroplanes" {
                h2 #aeroplanes { "Aeroplanes" }
                @if of(EntryKind::Aeroplane).next().is_none() {
                    p { "No aeroplane file stands here." }
                }
                ul.rows {
                    @for entry in of(EntryKind::Aeroplane) { (aeroplane(entry, entries)) }
                }
            }
            @if of(EntryKind::Book).next().is_some() {
                section aria-labelledby="books" {
                    h2 #books { "Books" }
                    ul.rows {
                        @for entry in of(EntryKind::Book) {
                            li { a href={ "/books/" (entry.slug) } { (entry.title()) } " "
                                a.flown href={ "/books/" (entry.slug) "/field" } { "Field log" }
                                span.file { (entry.file) } }
                        }
                    }
                }
            }
            p.more { "For programs: " a href="/api/openapi.json" { "the JSON interface" } }
        }
    };
    frame(&Page { title: "Flights", crumbs: &[], head: html! {} }, &body)
}

fn no_flights() -> Markup {
    html! {
        p {
            "No flight file stands here. " code { "hardpan new flight my-flight" }
            " writes commented starter files; serve their folder, or one above it."
        }
    }
}

/// The title of the entry that a flight names.
fn named<'a>(entry: &'a Entry, kind: &str, entries: &'a [Entry]) -> Option<&'a str> {
    let file = entry.names.iter().find(|(known, _)| *known == kind).map(|(_, file)| file)?;
    let found = entries.iter().find(|other| other.kind.word() == kind && other.file == *file);
    Some(found.map_or(file.as_str(), Entry::title))
}

fn flight(entry: &Entry, entries: &[Entry], by_strip: &ByStrip) -> Markup {
    let strip = entry.names.iter().find(|(kind, _)| *kind == "strip").map(|(_, file)| file);
    html! {
        li {
            a href={ "/flights/" (entry.slug) } {
                strong { (entry.title()) }
                span.ribbon-small aria-hidden="true" {}
                span.pair {
                    (named(entry, "aeroplane", entries).unwrap_or("no aeroplane named"))
                    " at " (named(entry, "strip", entries).unwrap_or("no strip named"))
                }
                span.file { (entry.file) }
            }
            @if let Some(strip) = strip { (marks(said(by_strip, strip))) }
        }
    }
}

fn aeroplane(entry: &Entry, entries: &[Entry]) -> Markup {
    let flown = entries.iter().filter(|flight| {
        flight.kind == EntryKind::Flight && flight.names.iter().any(|(_, file)| *file == entry.file)
    });
    let flown: Vec<&Entry> = flown.collect();
    html! {
        li {
            a href={ "/aeroplanes/" (entry.slug) } { (entry.title()) } " "
            span.file { (entry.file) }
            @if !flown.is_empty() {
                span.flown {
                    "flies "
                    @for (index, flight) in flown.iter().enumerate() {
                        @if index > 0 { ", " }
                        a href={ "/flights/" (flight.slug) } { (flight.title()) }
                    }
                }
            }
        }
    }
}
