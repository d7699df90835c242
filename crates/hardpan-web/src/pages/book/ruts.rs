//! Passes over each stretch and the ruts found there, beside what the rut law
//! foretells for a flight.

use super::{Asked, Shown, shown};
use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::sheet::findings::of_code;
use crate::shelf::{Entry as Listed, EntryKind};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::assess;
use hardpan_book::{
    DamagePlaces, Entry, MeasuredRuts, StretchPasses, current, damage_places, measured_ruts,
    passes_by_stretch,
};
use hardpan_quantity::{Length, UnitSystem, metres, millimetres, percent};
use hardpan_report::{Report, quantity_text, stretch_text};
use maud::{Markup, html};
use std::sync::Arc;

/// Code of the rule that holds the law to what was measured.
const RULE: &str = "G55";
/// Length of a stretch, metres.
const STEP_METRES: f64 = 100.0;

/// What the page tells.
struct Told {
    strip: String,
    measured: MeasuredRuts,
    stretches: Vec<StretchPasses>,
    damage: DamagePlaces,
    flights: Vec<Listed>,
    flight: Option<String>,
    report: Option<Result<Report, Trouble>>,
}

pub(crate) async fn ruts(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let asked = Asked::read(query.as_deref());
    let answer = async {
        let (_, own) = Query::read_with(
            query.as_deref(),
            &["flight", "strip", "within", "surveyed", "entry", "by"],
        )?;
        let shown = shown(&room, &slug).await?;
        let flight = own.get("flight").cloned();
        let told = tell(&room, &shown, &asked, flight).await?;
        Ok(page(&shown, &told, &asked).into_response())
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.page())
}

async fn tell(
    room: &Room,
    shown: &Shown,
    asked: &Asked,
    flight: Option<String>,
) -> Result<Told, Trouble> {
    let strip = asked.strip.clone().or_else(|| shown.strips.first().cloned()).unwrap_or_default();
    let listed = room.entries().await?;
    let files: Vec<&Listed> = listed
        .iter()
        .filter(|one| one.kind == EntryKind::Strip && one.name.as_deref() == Some(&*strip))
        .collect();
    let is_here = |one: &&Listed| {
        one.kind == EntryKind::Flight
            && one.names.iter().any(|(kind, file)| {
                *kind == "strip" && files.iter().any(|strip| strip.file == *file)
            })
    };
    let flights: Vec<Listed> = listed.iter().filter(is_here).cloned().collect();
    let end = match files.first() {
        Some(one) => length(room, &one.file).await?,
        None => None,
    };
    let standing: Vec<&Entry> = current(&shown.entries);
    let measured = measured_ruts(&standing, &strip);
    let stretches = passes_by_stretch(&standing, &strip, metres(STEP_METRES), end)
        .map_err(|error| Trouble::Query(format!("{error}.")))?;
    let damage = damage_places(&standing, &strip, metres(STEP_METRES), end, percent(90.0))
        .map_err(|error| Trouble::Query(format!("{error}.")))?;
    let chosen = flights.iter().find(|one| Some(&one.slug) == flight.as_ref()).cloned();
    let report = match chosen.filter(|_| measured.places > 0) {
        Some(one) => Some(foretold(room, &one.file, &measured.text, asked.units).await),
        None => None,
    };
    Ok(Told { strip, measured, stretches, damage, flights, flight, report })
}

async fn length(room: &Room, file: &str) -> Result<Option<Length>, Trouble> {
    let (shelf, file) = (Arc::clone(&room.shelf), file.to_owned());
    let read = blocking(move || shelf.strip(&file)).await?;
    Ok(read.ok().and_then(|opened| opened.value.length).map(|given| given.value))
}

/// The flight assessed with the ruts of the book as those of its strip.
async fn foretold(
    room: &Room,
    file: &str,
    ruts: &str,
    units: UnitSystem,
) -> Result<Report, Trouble> {
    let (shelf, file, ruts) = (Arc::clone(&room.shelf), file.to_owned(), ruts.to_owned());
    let _slot = room.desk.slot().await;
    let work = move || {
        let opened = shelf.flight_with_ruts(&file, &ruts).map_err(Trouble::Refused)?;
        let produced = shelf.produced(&opened.identifier);
        Ok(Report::new(&assess(&opened.value), units, produced))
    };
    blocking(work).await?
}

fn page(shown: &Shown, told: &Told, asked: &Asked) -> Html<String> {
    let body = html! {
        main.plain.book-page.compare {
            h1 { "Passes and ruts of " (told.strip) }
            h2 { "Passes over each stretch since it was mended" }
            p.note { "In each lane of the wheels. A movement that does not state the stretch it \
                      rolled over is counted everywhere." }
            @if told.stretches.is_empty() { p { "No station of the strip is recorded." } }
            @else { (stretches(&told.stretches, asked.units)) }
            (super::grading::damage(&told.damage, asked.units))
            h2 { "Ruts measured" }
            @if told.measured.places == 0 { p { "No rut of the strip is recorded that a law can be held to." } }
            @else { (measured(&told.measured, asked.units)) }
            @for why in &told.measured.left_out { p.note { "Left out: " (why) "." } }
            @if told.measured.places > 0 { (law(shown, told, asked)) }
        }
    };
    let crumbs = [("/".into(), "Flights".into()), (shown.address.clone(), shown.title.clone())];
    frame(&Page { title: "Passes and ruts", crumbs: &crumbs, head: html! {} }, &body)
}

fn law(shown: &Shown, told: &Told, asked: &Asked) -> Markup {
    html! {
        h2 { "Foretold and measured" }
        @if told.flights.is_empty() {
            p { "No flight file of this strip stands beside the book." }
        } @else {
            form.choose method="get" action={ (shown.address) "/ruts" } {
                (super::units_kept(asked.units))
                input type="hidden" name="strip" value=(told.strip);
                div.field {
                    label for="flight" { "for the passes of" }
                    select #flight name="flight" {
                        @for one in &told.flights {
                            option value=(one.slug) selected[told.flight.as_ref() == Some(&one.slug)] {
                                (one.title())
                            }
                        }
                    }
                }
                button type="submit" { "Hold the law to the ruts" }
            }
        }
        @match &told.report {
            None => {},
            Some(Err(trouble)) => { p.wrong role="alert" { (trouble.sentence()) } (trouble.details()) },
            Some(Ok(report)) => {
                p { "For the passes of " strong { (report.title) } }
                (of_code(report, RULE))
            },
        }
    }
}

fn stretches(all: &[StretchPasses], units: UnitSystem) -> Markup {
    html! {
        div.scroll { table.compared {
            thead { tr { @for name in ["stretch", "passes", "mended", "last rut found"] {
                th scope="col" { (name) }
            } } }
            tbody { @for one in all { tr {
                th scope="row" { (stretch_text(one.from, one.to, units)) }
                td { (one.passes) @if one.everywhere > 0 {
                    " " span.file { "of these " (one.everywhere) " without a stretch" }
                } }
                td { (one.since.map_or_else(|| "not recorded".to_owned(), |day| day.to_string())) }
                td { @for (lane, rut, day) in &one.ruts {
                    (lane) " " strong { (quantity_text(*rut, units)) } ", " (day) " "
                } }
            } } }
        } }
    }
}

/// The file of measured ruts as a table.
fn measured(ruts: &MeasuredRuts, units: UnitSystem) -> Markup {
    let number = |text: Option<&&str>| text.and_then(|text| text.parse::<f64>().ok());
    html! {
        div.scroll { table.compared {
            thead { tr { @for name in ["station", "lane", "day", "rut", "passes until then"] {
                th scope="col" { (name) }
            } } }
            tbody { @for line in ruts.text.lines().skip(1) {
                @let cells: Vec<&str> = line.split(',').collect();
                tr {
                    th scope="row" { @if let Some(at) = number(cells.first()) {
                        (stretch_text(metres(at), metres(at), units))
                    } }
                    td { (cells.get(1).copied().unwrap_or_default()) }
                    td { (cells.get(2).copied().unwrap_or_default()) }
                    td { @if let Some(rut) = number(cells.get(3)) {
                        (quantity_text(millimetres(rut), units))
                    } }
                    td { (cells.get(4).copied().unwrap_or_default()) }
                }
            } }
        } }
    }
}
