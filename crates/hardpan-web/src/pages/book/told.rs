//! What a book tells of a strip, one question at a time, as `grading`, `damage`, `passes`
//! and `due` of the command do with `--json`.

use super::grading::of_gear;
use super::{Shown, shown};
use crate::desk::blocking;
use crate::query::{Own, Query};
use crate::routes::{Room, Shared};
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use hardpan_book::{
    BookError, GradingLimits, NameOf, Question, current, must_know, names_of, told_of_damage,
    told_of_due, told_of_grading, told_of_passes,
};
use hardpan_quantity::{Length, Quantity, Time, parse, percent};
use hardpan_report::figure_json;
use serde_json::Value;
use std::sync::Arc;

/// A quantity above zero.
fn quantity<T: Quantity + Copy>(own: &Own, key: &str) -> Result<Option<T>, Trouble> {
    let Some(text) = own.one(key)? else { return Ok(None) };
    let read: T = parse(text).map_err(|error| Trouble::Query(format!("{key}: {error}.")))?;
    if read.si() > 0.0 {
        return Ok(Some(read));
    }
    Err(Trouble::Query(format!("{key}: {text} is not above 0.")))
}

fn read(query: Option<&str>, keys: &[&str]) -> Result<Own, Trouble> {
    Ok(Query::of_own(query, keys)?.1)
}

pub(crate) async fn grading(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let told = async {
        let own = read(query.as_deref(), &["strip", "rut", "loose"])?;
        let shown = shown(&room, &slug).await?;
        let usual = GradingLimits::default();
        let rut = quantity(&own, "rut")?.unwrap_or(usual.rut);
        let limits = GradingLimits { rut, loose: quantity(&own, "loose")? };
        let strip = strip_of(&shown, &own)?;
        let asked = Question { limits, ..question(&shown, &strip) };
        told_of_grading(&shown.entries, &asked).map_err(trouble)
    };
    answer(told.await)
}

pub(crate) async fn damage(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let told = async {
        let own = read(query.as_deref(), &["strip", "step"])?;
        let shown = shown(&room, &slug).await?;
        let strip = strip_of(&shown, &own)?;
        let (step, end) = (quantity(&own, "step")?, length(&room, &shown, &strip).await?);
        let asked = Question { step, end, ..question(&shown, &strip) };
        told_of_damage(&shown.entries, &asked).map_err(trouble)
    };
    answer(told.await)
}

pub(crate) async fn passes(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let told = async {
        let own = read(query.as_deref(), &["strip", "step", "flight", "tail"])?;
        let shown = shown(&room, &slug).await?;
        let strip = strip_of(&shown, &own)?;
        let (step, end) = (quantity(&own, "step")?, length(&room, &shown, &strip).await?);
        let tails = own.all("tail");
        for tail in &tails {
            must_know(&current(&shown.entries), NameOf::Tail, tail).map_err(trouble)?;
        }
        let of_one = match own.one("flight")? {
            Some(slug) => {
                let flight = room.entry(EntryKind::Flight, slug).await?;
                Some(of_gear(&room, &flight.file, &shown, &tails).await?)
            }
            None => None,
        };
        let asked = Question { step, end, coverages: of_one.as_ref(), ..question(&shown, &strip) };
        told_of_passes(&shown.entries, &asked).map_err(trouble)
    };
    answer(told.await)
}

pub(crate) async fn due(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let told = async {
        let own = read(query.as_deref(), &["within"])?;
        let within: Option<Time> = quantity(&own, "within")?;
        let shown = shown(&room, &slug).await?;
        Ok(told_of_due(&shown.entries, shown.now, within, figure_json))
    };
    answer(told.await)
}

/// The strip that is asked for, or the first that the book knows.
fn strip_of(shown: &Shown, own: &Own) -> Result<String, Trouble> {
    let first = || names_of(&current(&shown.entries), NameOf::Strip).into_iter().next();
    Ok(own.one("strip")?.map(str::to_owned).or_else(first).unwrap_or_default())
}

fn question<'q>(shown: &Shown, strip: &'q str) -> Question<'q> {
    Question {
        strip,
        now: shown.now,
        inspected: None,
        surveyed: None,
        limits: GradingLimits::default(),
        step: None,
        end: None,
        confidence: percent(90.0),
        coverages: None,
        figure: figure_json,
    }
}

/// The length of a strip by its file beside the book.
async fn length(room: &Room, shown: &Shown, strip: &str) -> Result<Option<Length>, Trouble> {
    let ground = shown.grounds.iter().find(|ground| ground.name.as_deref() == Some(strip));
    let Some(file) = ground.map(|ground| ground.file.clone()) else { return Ok(None) };
    let shelf = Arc::clone(&room.shelf);
    let read = blocking(move || shelf.strip(&file)).await?;
    Ok(read.ok().and_then(|opened| opened.value.length).map(|given| given.value))
}

/// Why a book cannot tell.
pub(super) fn trouble(error: BookError) -> Trouble {
    let said = format!("{}.", crate::page::sentence(&error.to_string()).trim_end_matches('.'));
    match error {
        BookError::NoSuchName { .. } => Trouble::NotFound(said),
        _ => Trouble::Query(said),
    }
}

fn answer(told: Result<Value, Trouble>) -> Response {
    match told {
        Ok(mut value) => {
            value["caution"] = hardpan_assess::CAUTION.into();
            let kind = [(header::CONTENT_TYPE, "application/json")];
            (kind, format!("{value:#}\n")).into_response()
        }
        Err(trouble) => trouble.json(),
    }
}
