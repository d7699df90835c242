//! A book as a file, as `export`, `list` and `map` of the command write it: JSON of the
//! whole, CSV of one kind, GeoJSON of one strip.

use super::{Shown, shown};
use crate::desk::blocking;
use crate::query::Query;
use crate::routes::{Room, Shared, saved};
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::Response;
use hardpan_book::{Kind, csv_text, json_text};
use hardpan_quantity::{Length, Quantity as _, counted, parse};
use maud::{Markup, html};
use std::sync::Arc;

/// The whole book as JSON.
pub(crate) async fn json(State(room): Shared, Path(slug): Path<String>) -> Response {
    let answer = shown(&room, &slug).await.map(|shown| {
        saved(
            "application/json",
            &format!("{slug}.json"),
            json_text(&shown.entries, hardpan_assess::CAUTION),
        )
    });
    answer.unwrap_or_else(|trouble| trouble.json())
}

/// Every entry of a kind as CSV.
pub(crate) async fn csv(
    State(room): Shared,
    Path((slug, word)): Path<(String, String)>,
) -> Response {
    let answer = async {
        let kind = Kind::of_word(&word).ok_or_else(|| {
            let known: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
            let known = known.join(", ");
            Trouble::NotFound(format!("There is no such kind of record; a book holds {known}."))
        })?;
        let shown = shown(&room, &slug).await?;
        let text = csv_text(&shown.entries, kind)
            .map_err(|error| Trouble::Broken(format!("The list cannot be made: {error}.")))?;
        let name = format!("{slug}-{kind}.csv");
        Ok(saved("text/csv; charset=utf-8; header=present", &name, text))
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.json())
}

/// What the book tells of a strip as GeoJSON, for a program.
pub(crate) async fn map_for_programs(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    map_of(&room, &slug, query.as_deref()).await.unwrap_or_else(|trouble| trouble.json())
}

/// The same, asked for on the page of the book.
pub(crate) async fn map(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    map_of(&room, &slug, query.as_deref()).await.unwrap_or_else(|trouble| trouble.page())
}

async fn map_of(room: &Room, slug: &str, query: Option<&str>) -> Result<Response, Trouble> {
    let (_, own) = Query::of_own(query, &["strip", "lane"])?;
    let lane = own.one("lane")?.map(|text| {
        parse::<Length>(text).map_err(|error| error.to_string()).and_then(|lane| {
            if lane.si() > 0.0 { Ok(lane) } else { Err(format!("{text} is not above 0")) }
        })
    });
    let lane = lane.transpose().map_err(|why| Trouble::Query(format!("lane: {why}.")))?;
    let strip = room.entry(EntryKind::Strip, own.one("strip")?.unwrap_or_default()).await?;
    let shown = shown(room, slug).await?;
    let name = format!("{slug}-{}.geojson", strip.slug);
    let shelf = Arc::clone(&room.shelf);
    let made = blocking(move || shelf.map(&strip.file, &shown.entries, lane)).await?;
    let text = made.map_err(|refusal| match refusal.places.is_empty() {
        true => Trouble::Missing(refusal.text),
        false => Trouble::Refused(refusal),
    })?;
    Ok(saved("application/geo+json", &name, text))
}

/// The ways to take a book away.
pub(super) fn offer(shown: &Shown, strip: Option<&str>) -> Markup {
    let count = |kind: Kind| shown.entries.iter().filter(|one| one.record.kind() == kind).count();
    let kinds: Vec<(Kind, usize)> =
        Kind::ALL.iter().map(|kind| (*kind, count(*kind))).filter(|(_, many)| *many > 0).collect();
    let grounds: Vec<_> =
        shown.grounds.iter().filter(|ground| ground.name.as_deref() == strip).collect();
    html! {
        section.files-part aria-labelledby="files" {
            h2 #files { "The book as a file" }
            ul {
                li { a href={ "/api" (shown.address) } { "JSON" }
                    ": the whole book, as another book takes it over" }
                @if !kinds.is_empty() {
                    li { "CSV, one kind in each: "
                        @for (index, (kind, many)) in kinds.iter().enumerate() {
                            @if index > 0 { ", " }
                            a href={ "/api" (shown.address) "/list/" (kind) } { (kind) }
                            " (" (counted(many, "entry", "entries")) ")"
                        }
                    }
                }
                @if let Some(strip) = strip {
                    @for ground in &grounds {
                        li { a href={ (shown.address) "/map?strip=" (ground.slug) } { "GeoJSON" }
                            ": " (strip) " on a map, with what was found, damaged and mended" }
                    }
                    @if grounds.is_empty() {
                        li { "GeoJSON: a map needs the file of " (strip) " beside the book" }
                    }
                }
            }
        }
    }
}
