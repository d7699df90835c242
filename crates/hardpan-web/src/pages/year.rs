//! The calendar of a flight: the days and hours of the year at which its masses
//! work.

use super::year_hour::address;
use crate::api::{masses, missing};
use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::query::{Own, Query};
use crate::routes::{Room, Shared};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{HourState, YearHour, YearWeek, year_sheet};
use hardpan_model::MonthDay;
use hardpan_quantity::{Amount, UnitSystem};
use hardpan_report::{YearReport, alike_weeks, glued, hour_sign, hour_word, quantity_text};
use maud::{Markup, html};

/// Keys of the page besides those of the flight.
const OWN: [&str; 2] = ["landing", "take-off"];

pub(crate) async fn year(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    match report(&room, &slug, query.as_deref()).await {
        Ok((report, query, own)) => page(&slug, &report, &query, &own).into_response(),
        Err(trouble) => trouble.page(),
    }
}

async fn report(
    room: &Room,
    slug: &str,
    query: Option<&str>,
) -> Result<(YearReport, Query, Own), Trouble> {
    let (query, own) = Query::read_with(query, &OWN)?;
    let masses = masses(&own, &query)?;
    let judged = room.judge(slug, &query).await.map_err(|trouble| trouble.also_known(&OWN))?;
    let _slot = room.desk.slot().await;
    let units = query.units;
    let report = blocking(move || {
        let sheet = year_sheet(&judged.flight, masses, |_, _| {}).map_err(|why| missing(&why))?;
        Ok(YearReport::new(&sheet, units, judged.produced.clone()))
    });
    Ok((report.await??, query, own))
}

fn page(slug: &str, report: &YearReport, query: &Query, own: &Own) -> Html<String> {
    let place = |from, hour| address(slug, query, own, from, hour);
    let body = html! {
        main.plain.compare {
            h1 { (report.title()) }
            p.lead { (report.subtitle()) }
            p { (report.counted()) }
            (ask(slug, report, query, own))
            div.scroll tabindex="0" { table.year {
                caption { "Hours in UTC, each as its worst moment on the days of the weeks" }
                thead { tr {
                    th scope="col" { "days" }
                    @for hour in 0..24 { th scope="col" { (format!("{hour:02}")) } }
                    th scope="col" { "season" }
                } }
                tbody { @for weeks in alike_weeks(&report.sheet().weeks) {
                    (row(weeks, query, &place))
                } }
            } }
            p.note { "= works, · dark, x a limit does not hold, ? not known. Each hour \
                      opens to its basis." }
            (choose(slug, report, query, own))
            h2 { "By month" }
            div.scroll { table.compared {
                thead { tr {
                    @for name in ["month", "daylight", "temperatures", "hours a day",
                        "landing from", "take-off from"] { th scope="col" { (name) } }
                } }
                tbody { @for row in report.month_rows() { tr {
                    @for (index, cell) in row.iter().enumerate() {
                        @if index == 0 { th scope="row" { (cell) } } @else { td { (glued(cell)) } }
                    }
                } } }
            } }
            p.note { (YearReport::months_legend()) }
            @let limits = report.limits();
            @if !limits.is_empty() {
                h2 { "What limits" }
                dl.needs { @for (code, what) in &limits { dt { (code) } dd { (what) } } }
            }
            ul { @for caveat in &report.sheet().caveats { li { (caveat) } } }
        }
    };
    let asked = query.text();
    let crumbs = [
        ("/".into(), "Flights".into()),
        (format!("/flights/{slug}{asked}"), "The flight".to_owned()),
    ];
    let head = html! {
        a href={ "/flights/" (slug) "/year" (query.in_other_units().text_with(own)) } {
            "in " (query.in_other_units().units_word()) " units"
        }
        a href={ "/api/flights/" (slug) "/year" (query.text_with(own)) } { "JSON" }
    };
    frame(&Page { title: "Calendar", crumbs: &crumbs, head }, &body)
}

/// Masses to ask for, each as it is or by the load that makes it.
fn ask(slug: &str, report: &YearReport, query: &Query, own: &Own) -> Markup {
    let sheet = report.sheet();
    let movements = [
        ("landing", "landing.load", "landing", sheet.landing),
        ("take-off", "take_off.load", "take-off", sheet.take_off),
    ];
    let asked =
        |key: &str| own.pairs().iter().find(|(own, _)| own == key).map(|(_, value)| value.as_str());
    let field = |key: &str, label: String, value: Option<&str>, hint: &str| {
        html! {
            div.field {
                label for=(key) { (label) }
                input #(key) name=(key) type="text" value=(value.unwrap_or_default()) maxlength="40"
                    placeholder=(hint) autocomplete="off" spellcheck="false";
            }
        }
    };
    let is_kept = |key: &str| key != "landing.load" && key != "take_off.load";
    html! {
        form.choose method="get" action={ "/flights/" (slug) "/year" } {
            @if query.units == UnitSystem::Imperial {
                input type="hidden" name="units" value="imperial";
            }
            @for (key, value) in query.changes.iter().filter(|(key, _)| is_kept(key)) {
                input type="hidden" name=(key) value=(value);
            }
            @for (mass, load, word, reckoned) in movements {
                @if let Some(reckoned) = reckoned {
                    @let reckoned = quantity_text(reckoned, query.units);
                    (field(mass, format!("{word} mass"), asked(mass), &reckoned))
                    (field(load, format!("or load for {word}"), query.change(load), "6 t"))
                }
            }
            button type="submit" { "Show for these" }
            p.note { "A load makes the mass with the operating mass of the aeroplane file and the \
                      fuel of the flight file. Empty means as planned." }
        }
    }
}

/// The way to an hour by keys alone: the cells are too many to step through.
fn choose(slug: &str, report: &YearReport, query: &Query, own: &Own) -> Markup {
    html! {
        form.choose method="get" action={ "/flights/" (slug) "/year/hour" } {
            @if query.units == UnitSystem::Imperial {
                input type="hidden" name="units" value="imperial";
            }
            @for (key, value) in query.changes.iter().chain(own.pairs()) {
                input type="hidden" name=(key) value=(value);
            }
            div.field {
                label for="from" { "days" }
                select #from name="from" { @for week in &report.sheet().weeks {
                    option value={ (week.from.month) "-" (week.from.day) } {
                        (week.from) " to " (week.to)
                    }
                } }
            }
            div.field {
                label for="hour" { "hour, UTC" }
                input #hour name="hour" type="number" min="0" max="23" required value="12";
            }
            button type="submit" { "Open the hour" }
        }
    }
}

fn row(weeks: &[YearWeek], query: &Query, place: &dyn Fn(MonthDay, usize) -> String) -> Markup {
    let (Some(first), Some(last)) = (weeks.first(), weeks.last()) else { return html! {} };
    html! {
        tr {
            th scope="row" { (first.from) " to " (last.to) }
            @for (index, hour) in first.hours.iter().enumerate() {
                (cell(hour, &place(first.from, index)))
            }
            td {
                @match &first.season {
                    Some((name, share)) => { (name) ", " (glued(&Amount::from(*share).show(query.units))) }
                    None => "none stated",
                }
            }
        }
    }
}

fn cell(hour: &YearHour, address: &str) -> Markup {
    let (class, why) = match &hour.state {
        HourState::Works => ("works", None),
        HourState::Dark => ("dark", None),
        HourState::TooHeavy(code, _) => ("heavy", Some(*code)),
        HourState::NotKnown(why) => ("unknown", Some(*why)),
    };
    html! {
        td class=(class) title=[why] {
            a href=(address) tabindex="-1" {
                span aria-hidden="true" { (hour_sign(&hour.state)) }
                span.unseen { (hour_word(&hour.state)) }
            }
        }
    }
}
