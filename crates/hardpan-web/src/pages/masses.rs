//! Largest masses of a flight over a range of days.

use super::mass_place::{Spot, flaps, of_panel};
use crate::desk::{Judged, blocking};
use crate::page::{Page, frame};
use crate::query::{Own, Query};
use crate::routes::{Room, Shared};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{
    AxesAsked, CAUTION, FlapsTried, MassCell, MassPanel, MassSheet, SheetAxes, mass_sheet,
};
use hardpan_quantity::{Amount, Quantity, Speed, UnitSystem};
use hardpan_report::{
    MASSES_LEAVE_OUT, MassesReport, at_most_text, glued, masses_json, quantity_text, verdict_symbol,
};
use maud::{Markup, html};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Most places of one sheet; each is worked out by itself.
const MOST: usize = 120;
/// What is suggested, as in `hardpan masses`.
const TEMPERATURES: &str = "-20 degC, -10 degC, 0 degC, 10 degC, 20 degC, 30 degC";
const HEADWINDS: &str = "-5 kt, 0 kt, 10 kt, 20 kt";

/// Keys of the sheet: the long names of the options of `hardpan masses`.
const OWN: [&str; 6] =
    ["temperatures", "headwinds", "pressures", "states", "air-pressures", "best-flap"];

/// What an address asks.
struct Asked {
    query: Query,
    own: Own,
}

impl Asked {
    fn read(text: Option<&str>) -> Result<Self, Trouble> {
        let (query, own) = Query::read_with(text, &OWN)?;
        Ok(Self { query, own })
    }

    fn text(&self, key: &str) -> Result<&str, Trouble> {
        Ok(self.own.one(key)?.unwrap_or_default())
    }

    /// What is varied.
    fn axes(&self) -> Result<SheetAxes, Trouble> {
        let list = |key: &str| {
            let parts = self.text(key)?.split(',').map(str::trim);
            Ok::<_, Trouble>(parts.filter(|one| !one.is_empty()).map(str::to_owned).collect())
        };
        let asked = AxesAsked {
            temperatures: list("temperatures")?,
            headwinds: list("headwinds")?,
            pressures: list("pressures")?,
            states: list("states")?,
            air_pressures: list("air-pressures")?,
            flaps: flaps(&self.own)?,
        };
        asked.read(MOST).map_err(|error| Trouble::Query(format!("{error}.")))
    }
}

/// The sheet as JSON, over the temperatures and headwinds of `hardpan masses` where none
/// are named.
pub(crate) async fn json(room: &Room, slug: &str, query: Option<&str>) -> Result<String, Trouble> {
    let asked = Asked::read(query)?;
    let axes = asked.axes()?;
    let judged = judged(room, slug, &asked).await?;
    let _slot = room.desk.slot().await;
    let units = asked.query.units;
    blocking(move || {
        let sheet = mass_sheet(&judged.flight, &axes, |_, _| {});
        masses_json(&MassesReport::new(&sheet, units, judged.produced.clone()))
    })
    .await
}

async fn judged(room: &Room, slug: &str, asked: &Asked) -> Result<Arc<Judged>, Trouble> {
    room.judge(slug, &asked.query).await.map_err(|trouble| trouble.also_known(&OWN))
}

/// What the page shows below its form.
enum Below {
    /// Nothing was asked for yet.
    Nothing,
    /// What was asked for cannot be used.
    Wrong(String),
    /// The sheet, with what was varied.
    Sheet(Box<(MassSheet, SheetAxes)>),
}

pub(crate) async fn masses(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let asked = Asked::read(query.as_deref())?;
        let judged = judged(&room, &slug, &asked).await?;
        if asked.own.pairs().is_empty() {
            return Ok((StatusCode::OK, page(&slug, &judged, &asked, &Below::Nothing)));
        }
        let axes = match asked.axes() {
            Err(why) => {
                let page = page(&slug, &judged, &asked, &Below::Wrong(why.sentence()));
                return Ok((StatusCode::UNPROCESSABLE_ENTITY, page));
            }
            Ok(axes) => axes,
        };
        let slot = room.desk.slot().await;
        let flown = Arc::clone(&judged);
        let work = move || (mass_sheet(&flown.flight, &axes, |_, _| {}), axes);
        let found = Below::Sheet(Box::new(blocking(work).await?));
        drop(slot);
        Ok((StatusCode::OK, page(&slug, &judged, &asked, &found)))
    };
    match answer.await {
        Ok(answer) => answer.into_response(),
        Err(trouble) => Trouble::page(&trouble),
    }
}

fn page(slug: &str, judged: &Judged, asked: &Asked, below: &Below) -> Html<String> {
    let report = judged.report(&asked.query);
    let sheet_of_flight = format!("/flights/{slug}{}", asked.query.text());
    let body = html! {
        main.plain.compare {
            h1 { "Largest masses over a range of days" }
            @if !asked.query.changes.is_empty() {
                p.changed { "With changes that no file has: " (asked.query.words()) }
            }
            (form(slug, asked, below))
            @if let Below::Sheet(found) = below {
                (shown(&found.0, &found.1, slug, &asked.query))
            }
            p.caution { (CAUTION) }
        }
    };
    let crumbs = [("/".into(), "Flights".into()), (sheet_of_flight, report.title.clone())];
    frame(&Page { title: "Largest masses", crumbs: &crumbs, head: html! {} }, &body)
}

fn form(slug: &str, asked: &Asked, below: &Below) -> Markup {
    let is_new = asked.own.pairs().is_empty();
    let fields = [
        ("temperatures", "outside temperatures", TEMPERATURES, ""),
        ("headwinds", "headwinds, negative from behind", HEADWINDS, ""),
        ("pressures", "main tyre pressures", "", "80 psi, 100 psi"),
        ("states", "states of the surface", "", "dry, wet"),
        ("air-pressures", "air pressures at sea level", "", "990 hPa, 1013 hPa"),
    ];
    html! {
        form.masses-form method="get" action={ "/flights/" (slug) "/masses" } {
            @if asked.query.units == UnitSystem::Imperial {
                input type="hidden" name="units" value="imperial";
            }
            @for (key, value) in &asked.query.changes {
                input type="hidden" name=(key) value=(value);
            }
            @if let Below::Wrong(wrong) = below { p.wrong role="alert" { (wrong) } }
            @for (key, label, suggested, example) in fields {
                div.field {
                    label for=(key) { (label)
                        @if suggested.is_empty() { span.may { " (as the flight has it if empty)" } } }
                    input #(key) name=(key) type="text" size="46" maxlength="400" placeholder=(example)
                        value=(if is_new { suggested } else { asked.text(key).unwrap_or_default() });
                }
            }
            label { input type="checkbox" name="best-flap" value="yes"
                checked[asked.text("best-flap").is_ok_and(|text| text == "yes")];
                " in each place the flap with the largest mass" }
            button type="submit" { "Work out" }
            p.note { "Each place is worked out by itself, which takes a while; at most "
                (MOST) " at once." }
        }
    }
}

fn shown(sheet: &MassSheet, axes: &SheetAxes, slug: &str, query: &Query) -> Markup {
    let cells = sheet.panels.iter().flat_map(|panel| &panel.rows).flatten();
    let codes: BTreeMap<&str, &str> =
        cells.filter_map(|cell| cell.by.as_ref()).map(|(code, title)| (*code, &**title)).collect();
    html! {
        @for panel in &sheet.panels {
            (one(sheet, panel, &of_panel(axes, panel), slug, query))
        }
        @if !codes.is_empty() {
            h2 { "What limits, fails or is unproven" }
            dl.needs { @for (code, title) in codes { dt { (code) } dd { (title) } } }
        }
        p {
            "Each place opens to its basis. " (MASSES_LEAVE_OUT)
        }
    }
}

fn one(
    sheet: &MassSheet,
    panel: &MassPanel,
    stated: &[(&'static str, String)],
    slug: &str,
    query: &Query,
) -> Markup {
    let units = query.units;
    let movement = panel.movement;
    let state = panel.state.map_or("state not stated", hardpan_model::SurfaceState::word);
    let planned = panel.planned.map(|mass| quantity_text(mass, units));
    let is_best = sheet.flaps == FlapsTried::Best;
    html! {
        section.sheet-table {
            h2 { "Largest " (panel.movement.word()) " mass" }
            p.note {
                (state)
                @if let Some(pressure) = panel.pressure {
                    ", main tyres " (quantity_text(pressure, units))
                } @else { ", main tyres at the least that each mass allows" }
                @if let Some(pressure) = panel.air_pressure {
                    ", air pressure " (Amount::air_pressure(pressure).show(units))
                }
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
                        @let spot = Spot {
                            movement, temperature: *temperature, headwind: *headwind,
                            flaps: sheet.flaps,
                        };
                        td {
                            a href=(spot.address(slug, query, stated)) { (cell_text(cell, units)) }
                            @if let Some(flap) = cell.flap.as_ref().filter(|_| is_best) {
                                " " span.of { "flap " (flap) }
                            }
                        }
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
