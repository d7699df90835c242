//! Largest masses of a flight over a range of days.

use super::mass_place::Spot;
use crate::desk::{Judged, blocking};
use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{CAUTION, MassCell, MassPanel, MassSheet, SheetAxes, mass_sheet};
use hardpan_quantity::{Quantity, Speed, Temperature, UnitSystem, parse};
use hardpan_report::{
    MassesReport, at_most_text, glued, masses_json, quantity_text, verdict_symbol,
};
use maud::{Markup, html};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Most places of one sheet; each is worked out by itself.
const MOST: usize = 120;
/// What is suggested, as in `hardpan masses`.
const TEMPERATURES: &str = "-20 degC, -10 degC, 0 degC, 10 degC, 20 degC, 30 degC";
const HEADWINDS: &str = "-5 kt, 0 kt, 10 kt, 20 kt";

/// What an address asks.
struct Asked {
    query: Query,
    temperatures: Option<String>,
    headwinds: Option<String>,
}

impl Asked {
    fn read(text: Option<&str>) -> Result<Self, Trouble> {
        let (mut temperatures, mut headwinds) = (None, None);
        let mut rest = form_urlencoded::Serializer::new(String::new());
        for (key, value) in form_urlencoded::parse(text.unwrap_or_default().as_bytes()) {
            let kept = || value.chars().take(400).collect::<String>();
            match &*key {
                "temperatures" => temperatures = Some(kept()),
                "headwinds" => headwinds = Some(kept()),
                _ => {
                    rest.append_pair(&key, &value);
                }
            }
        }
        let query = Query::read(Some(&rest.finish()))?;
        Ok(Self { query, temperatures, headwinds })
    }

    /// What is varied; none as long as nobody asks.
    fn axes(&self) -> Option<Result<SheetAxes, String>> {
        let (temperatures, headwinds) = (self.temperatures.as_ref()?, self.headwinds.as_ref()?);
        let axes = || {
            let axes = SheetAxes {
                temperatures: listed::<Temperature>("temperatures", temperatures)?,
                headwinds: listed::<Speed>("headwinds", headwinds)?,
                ..SheetAxes::default()
            };
            let places = 2 * axes.temperatures.len() * axes.headwinds.len();
            if places > MOST {
                return Err(format!("That would be {places} places; ask for at most {MOST}."));
            }
            Ok(axes)
        };
        Some(axes())
    }
}

/// Values between commas, in rising order, each once.
fn listed<Q: Quantity>(name: &str, text: &str) -> Result<Vec<Q>, String> {
    let parts = text.split(',').map(str::trim).filter(|part| !part.is_empty());
    let mut values = Vec::new();
    for part in parts {
        values.push(parse::<Q>(part).map_err(|error| format!("{name}: {error}."))?);
    }
    if values.is_empty() {
        return Err(format!("{name}: name at least one value with its unit."));
    }
    values.sort_by(|a: &Q, b| a.si().total_cmp(&b.si()));
    values.dedup_by(|a, b| a.si() == b.si());
    Ok(values)
}

/// The sheet as JSON; both lists must be named.
pub(crate) async fn json(room: &Room, slug: &str, query: Option<&str>) -> Result<String, Trouble> {
    let asked = Asked::read(query)?;
    let judged = room.judge(slug, &asked.query).await?;
    let axes = asked.axes().ok_or_else(|| {
        Trouble::Query("Name both temperatures and headwinds, each a list with units.".to_owned())
    })?;
    let axes = axes.map_err(Trouble::Query)?;
    let _slot = room.desk.slot().await;
    let units = asked.query.units;
    blocking(move || {
        let sheet = mass_sheet(&judged.flight, &axes, |_, _| {});
        masses_json(&MassesReport::new(&sheet, units, judged.produced.clone()))
    })
    .await
}

pub(crate) async fn masses(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let asked = Asked::read(query.as_deref())?;
        let judged = room.judge(&slug, &asked.query).await?;
        let axes = match asked.axes() {
            None => return Ok((StatusCode::OK, page(&slug, &judged, &asked, None, None))),
            Some(Err(why)) => {
                let page = page(&slug, &judged, &asked, None, Some(&why));
                return Ok((StatusCode::UNPROCESSABLE_ENTITY, page));
            }
            Some(Ok(axes)) => axes,
        };
        let slot = room.desk.slot().await;
        let flown = Arc::clone(&judged);
        let sheet = blocking(move || mass_sheet(&flown.flight, &axes, |_, _| {})).await?;
        drop(slot);
        Ok((StatusCode::OK, page(&slug, &judged, &asked, Some(&sheet), None)))
    };
    match answer.await {
        Ok(answer) => answer.into_response(),
        Err(trouble) => Trouble::page(&trouble),
    }
}

fn page(
    slug: &str,
    judged: &Judged,
    asked: &Asked,
    sheet: Option<&MassSheet>,
    wrong: Option<&str>,
) -> Html<String> {
    let report = judged.report(&asked.query);
    let sheet_of_flight = format!("/flights/{slug}{}", asked.query.text());
    let body = html! {
        main.plain.compare {
            h1 { "Largest masses over a range of days" }
            @if !asked.query.changes.is_empty() {
                p.changed { "With changes that no file has: " (asked.query.words()) }
            }
            (form(slug, asked, wrong))
            @if let Some(sheet) = sheet { (shown(sheet, slug, &asked.query)) }
            p.caution { (CAUTION) }
        }
    };
    let crumbs = [("/".into(), "Flights".into()), (sheet_of_flight, report.title.clone())];
    frame(&Page { title: "Largest masses", crumbs: &crumbs, head: html! {} }, &body)
}

fn form(slug: &str, asked: &Asked, wrong: Option<&str>) -> Markup {
    let fields = [
        ("temperatures", "outside temperatures", &asked.temperatures, TEMPERATURES),
        ("headwinds", "headwinds, negative from behind", &asked.headwinds, HEADWINDS),
    ];
    html! {
        form.masses-form method="get" action={ "/flights/" (slug) "/masses" } {
            @if asked.query.units == UnitSystem::Imperial {
                input type="hidden" name="units" value="imperial";
            }
            @for (key, value) in &asked.query.changes {
                input type="hidden" name=(key) value=(value);
            }
            @if let Some(wrong) = wrong { p.wrong role="alert" { (wrong) } }
            @for (key, label, stated, suggested) in fields {
                div.field {
                    label for=(key) { (label) }
                    input #(key) name=(key) type="text" size="46" maxlength="400" required
                        value=(stated.as_deref().unwrap_or(suggested));
                }
            }
            button type="submit" { "Work out" }
            p.note { "Each place is worked out by itself, which takes a while." }
        }
    }
}

fn shown(sheet: &MassSheet, slug: &str, query: &Query) -> Markup {
    let cells = sheet.panels.iter().flat_map(|panel| &panel.rows).flatten();
    let codes: BTreeMap<&str, &str> =
        cells.filter_map(|cell| cell.by.as_ref()).map(|(code, title)| (*code, &**title)).collect();
    html! {
        @for panel in &sheet.panels { (one(sheet, panel, slug, query)) }
        @if !codes.is_empty() {
            h2 { "What limits, fails or is unproven" }
            dl.needs { @for (code, title) in codes { dt { (code) } dd { (title) } } }
        }
        p {
            "Each place opens to its basis. Each movement stands by itself: tyres are set once for both, so that the two masses of a day need not hold together. The wind blows straight along the movement, without crosswind and gusts. Everything \
             else is as the flight has it: assess the flight itself before it goes."
        }
    }
}

fn one(sheet: &MassSheet, panel: &MassPanel, slug: &str, query: &Query) -> Markup {
    let units = query.units;
    let movement = panel.movement;
    let state = panel.state.map_or("state not stated", hardpan_model::SurfaceState::word);
    let planned = panel.planned.map(|mass| quantity_text(mass, units));
    html! {
        section.sheet-table {
            h2 { "Largest " (panel.movement.word()) " mass" }
            p.note {
                (state)
                @if let Some(pressure) = panel.pressure {
                    ", main tyres " (quantity_text(pressure, units))
                } @else { ", main tyres at the least that each mass allows" }
                @if let Some(planned) = planned { ", planned " (planned) }
            }
            div.scroll { table {
                thead { tr {
                    th scope="col" { "temperature" }
                    @for wind in &sheet.headwinds { th scope="col" { (glued(&wind_text(*wind, units))) } }
                } }
                tbody { @for (temperature, row) in sheet.temperatures.iter().zip(&panel.rows) { tr {
                    th scope="row" { (glued(&quantity_text(*temperature, units))) }
                    @for (cell, headwind) in row.iter().zip(&sheet.headwinds) {
                        @let spot = Spot { movement, temperature: *temperature, headwind: *headwind };
                        td { a href=(spot.address(slug, query)) { (cell_text(cell, units)) } }
                    }
                } } }
            } }
        }
    }
}

pub(super) fn wind_text(wind: Speed, units: UnitSystem) -> String {
    let size = quantity_text(Speed::from_si(wind.si().abs()), units);
    match wind.si() {
        si if si < 0.0 => format!("{size} from behind"),
        si if si > 0.0 => format!("{size} ahead"),
        _ => "calm".to_owned(),
    }
}

fn cell_text(cell: &MassCell, units: UnitSystem) -> Markup {
    let code = cell.by.as_ref().map_or("", |(code, _)| *code);
    html! {
        @match cell.mass {
            Some(mass) => strong { (glued(&at_most_text(mass, units))) },
            None => { (verdict_symbol(cell.verdict)) " " (cell.verdict.word()) }
        }
        " " span.of { (code) }
    }
}
