//! One place of the tables of masses, opened to its basis.

use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::query::{Own, Query};
use crate::routes::Shared;
use crate::sheet::findings::whole;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{
    Answered, CAUTION, FlapsTried, MassCell, MassPanel, Openings, SheetAxes, SheetMovement,
    flight_of_place, mass_sheet,
};
use hardpan_model::Flight;
use hardpan_quantity::{Pressure, Quantity, Speed, Temperature, UnitSystem, parse};
use hardpan_report::{Meant, Report, at_most_text, quantity_text, verdict_symbol};
use maud::{Markup, html};

const KEYS: [&str; 4] = ["movement", "temperature", "headwind", "best-flap"];

/// A place of the tables.
#[derive(Clone, Copy)]
pub(super) struct Spot {
    pub(super) movement: SheetMovement,
    pub(super) temperature: Temperature,
    pub(super) headwind: Speed,
    pub(super) flaps: FlapsTried,
}

/// Which flap settings an address asks for.
pub(super) fn flaps(own: &Own) -> Result<FlapsTried, Trouble> {
    Ok(if own.is_asked("best-flap")? { FlapsTried::Best } else { FlapsTried::AsPlanned })
}

impl Spot {
    /// Its address in a panel of the sheet: what the panel varies stands there as values
    /// of the flight stated again.
    pub(super) fn address(
        &self,
        slug: &str,
        query: &Query,
        stated: &[(&'static str, String)],
    ) -> String {
        let mut out = form_urlencoded::Serializer::new(String::new());
        if query.units == UnitSystem::Imperial {
            out.append_pair("units", "imperial");
        }
        let is_kept = |key: &str| stated.iter().all(|(other, _)| *other != key);
        for (key, value) in query.changes.iter().filter(|(key, _)| is_kept(key)) {
            out.append_pair(key, value);
        }
        for (key, value) in stated {
            out.append_pair(key, value);
        }
        out.append_pair("movement", self.movement.word());
        out.append_pair("temperature", &format!("{} K", self.temperature.si()));
        out.append_pair("headwind", &format!("{} m/s", self.headwind.si()));
        if self.flaps == FlapsTried::Best {
            out.append_pair("best-flap", "yes");
        }
        format!("/flights/{slug}/masses/place?{}", out.finish())
    }

    fn read(own: &Own) -> Result<Self, Trouble> {
        fn of<Q: Quantity>(own: &Own, key: &str) -> Result<Q, Trouble> {
            let text = own.one(key)?.unwrap_or_default();
            parse::<Q>(text).map_err(|error| Trouble::Query(format!("{key}: {error}.")))
        }
        let both = [SheetMovement::TakeOff, SheetMovement::Landing];
        let word = own.one("movement")?.unwrap_or_default();
        let movement = both
            .into_iter()
            .find(|one| one.word() == word)
            .ok_or_else(|| Trouble::Query("movement: name `take-off` or `landing`.".to_owned()))?;
        let (temperature, headwind) = (of(own, "temperature")?, of(own, "headwind")?);
        Ok(Self { movement, temperature, headwind, flaps: flaps(own)? })
    }

    /// What stands in it, worked out anew.
    fn cell(&self, flight: &Flight) -> Option<MassCell> {
        let axes = SheetAxes {
            temperatures: vec![self.temperature],
            headwinds: vec![self.headwind],
            flaps: self.flaps,
            ..SheetAxes::default()
        };
        let sheet = mass_sheet(flight, &axes, |_, _| {});
        let mut panels = sheet.panels.into_iter();
        let panel = panels.find(|panel| panel.movement == self.movement)?;
        panel.rows.into_iter().flatten().next()
    }
}

/// What a panel has that the sheet varies from panel to panel, as values of the flight.
pub(super) fn of_panel(axes: &SheetAxes, panel: &MassPanel) -> Vec<(&'static str, String)> {
    let pressure = |one: Option<Pressure>| one.map(|one| format!("{:.4} kPa", one.si() * 1e-3));
    let all = [
        ("surface_state", axes.states.len(), panel.state.map(|state| state.word().to_owned())),
        ("main_tyre_pressure", axes.pressures.len(), pressure(panel.pressure)),
        ("sea_level_pressure", axes.air_pressures.len(), pressure(panel.air_pressure)),
    ];
    let varied = all.into_iter().filter(|(_, asked, _)| *asked > 0);
    varied.filter_map(|(key, _, text)| Some((key, text?))).collect()
}

pub(crate) async fn place(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let (query, own) = Query::read_with(query.as_deref(), &KEYS)?;
        let spot = Spot::read(&own)?;
        let judged = room.judge(&slug, &query).await?;
        let units = query.units;
        let slot = room.desk.slot().await;
        let found = blocking(move || {
            let cell = spot.cell(&judged.flight).ok_or_else(|| {
                let word = spot.movement.word();
                Trouble::Query(format!("movement: the flight plans no {word}."))
            })?;
            let day = (spot.temperature, spot.headwind);
            let flown = flight_of_place(&judged.flight, spot.movement, day, &cell);
            let answered = Answered::of(flown);
            let found = answered.whole();
            let openings = answered.openings(&found);
            let report = Report::new(&found, units, judged.produced.clone());
            Ok::<_, Trouble>((cell, report, openings))
        });
        let (cell, report, openings) = found.await??;
        drop(slot);
        Ok(page(&slug, &query, spot, (&cell, &report, &openings)))
    };
    match answer.await {
        Ok(page) => page.into_response(),
        Err(trouble) => Trouble::page(&trouble),
    }
}

fn page(
    slug: &str,
    query: &Query,
    spot: Spot,
    (cell, report, openings): (&MassCell, &Report, &Openings),
) -> Html<String> {
    let units = query.units;
    let every_figure = Meant::of_codes(report, &[], true);
    let title = format!("Largest {} mass", spot.movement.word());
    let body = html! {
        main.plain {
            h1 { (title) }
            p { "At " (quantity_text(spot.temperature, units)) ", wind "
                (super::masses::wind_text(spot.headwind, units))
                @if let Some(flap) = &cell.flap { ", flap " (flap) } "." }
            (told(cell, units))
            @if let Some((code, what)) = &cell.by {
                h2 { (code) " " (what) }
                p.note { "As it comes out at " @if cell.mass.is_some() { "this mass." }
                    @else { "the lightest mass that was tried." } }
                (whole(report, openings, &Meant::of_codes(report, &[*code], false)))
            }
            h2 { "Every other figure" }
            (whole(report, openings, &every_figure))
            p.caution { (CAUTION) }
        }
    };
    let crumbs = [
        ("/".into(), "Flights".into()),
        (format!("/flights/{slug}{}", query.text()), report.title.clone()),
        (format!("/flights/{slug}/masses{}", query.text()), "Largest masses".to_owned()),
    ];
    frame(&Page { title: &title, crumbs: &crumbs, head: html! {} }, &body)
}

fn told(cell: &MassCell, units: UnitSystem) -> Markup {
    html! {
        p.lead { @match cell.mass {
            Some(mass) => strong { (at_most_text(mass, units)) },
            None => { (verdict_symbol(cell.verdict)) " " (cell.verdict.word()) ": no mass holds, or \
                       it is not known" },
        } }
    }
}
