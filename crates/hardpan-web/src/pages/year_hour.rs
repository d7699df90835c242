//! One hour of the calendar, opened to its basis.

use crate::api::{masses as asked_masses, missing};
use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::query::{Own, Query};
use crate::routes::Shared;
use crate::sheet::findings::{bases, whole};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{AssessedHour, CAUTION, HourState, OpenedHour, year_hour};
use hardpan_model::MonthDay;
use hardpan_quantity::{Amount, UnitSystem, hectopascals};
use hardpan_report::{
    Meant, Report, at_most_text, hour_codes, hour_word, largest_word, quantity_text,
};
use maud::{Markup, html};

/// Keys of the page besides those of the flight.
pub(crate) const OWN: [&str; 4] = ["landing", "take-off", "from", "hour"];

/// The address of an hour, with the masses that the calendar was asked for.
pub(super) fn address(slug: &str, query: &Query, own: &Own, from: MonthDay, hour: usize) -> String {
    let mut out = form_urlencoded::Serializer::new(String::new());
    if query.units == UnitSystem::Imperial {
        out.append_pair("units", "imperial");
    }
    for (key, value) in query.changes.iter().chain(own.pairs()) {
        out.append_pair(key, value);
    }
    out.append_pair("from", &format!("{}-{}", from.month, from.day));
    out.append_pair("hour", &hour.to_string());
    format!("/flights/{slug}/year/hour?{}", out.finish())
}

pub(crate) fn spot(own: &Own) -> Result<(MonthDay, u8), Trouble> {
    let said = || {
        Trouble::Query(
            "from and hour: name month and day such as 6-18, and an hour, 0 to 23.".to_owned(),
        )
    };
    let text = |key: &str| own.one(key)?.ok_or_else(said);
    let (month, day) = text("from")?.split_once('-').ok_or_else(said)?;
    let day = MonthDay {
        month: month.parse().map_err(|_| said())?,
        day: day.parse().map_err(|_| said())?,
    };
    Ok((day, text("hour")?.parse().map_err(|_| said())?))
}

/// An hour, and the reports of its masses asked for and of its largest.
struct Opened {
    found: OpenedHour,
    asked: Option<Report>,
    largest: Option<Report>,
}

pub(crate) async fn hour(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let (query, own) = Query::read_with(query.as_deref(), &OWN)?;
        let masses = asked_masses(&own, &query)?;
        let (from, hour) = spot(&own)?;
        let judged = room.judge(&slug, &query).await.map_err(|trouble| trouble.also_known(&OWN))?;
        let slot = room.desk.slot().await;
        let units = query.units;
        let found = blocking(move || {
            let found = year_hour(&judged.flight, masses, from, hour);
            let found = found.map_err(|why| missing(&why))?.ok_or_else(|| {
                Trouble::NotFound("No week of the calendar has that day and hour.".to_owned())
            })?;
            let report = |of: &Option<AssessedHour>| {
                of.as_ref().map(|one| Report::new(&one.found, units, judged.produced.clone()))
            };
            let (asked, largest) = (report(&found.asked), report(&found.largest));
            Ok::<_, Trouble>(Opened { found, asked, largest })
        });
        let opened = found.await??;
        drop(slot);
        Ok(page(&slug, &query, hour, &opened))
    };
    match answer.await {
        Ok(page) => page.into_response(),
        Err(trouble) => Trouble::page(&trouble),
    }
}

fn page(slug: &str, query: &Query, hour: u8, opened: &Opened) -> Html<String> {
    let found = &opened.found;
    let (from, to) = found.days;
    let title = format!("{from} to {to}, {hour:02} UTC");
    let body = html! {
        main.plain {
            h1 { (title) }
            p.lead { strong { (hour_word(&found.hour.state)) }
                @match &found.hour.state {
                    HourState::NotKnown(why) => { ": " (why) },
                    HourState::TooHeavy(code, what) => { ": " (what) " (" (code) ")" },
                    _ => {},
                }
            }
            (masses(found, query.units))
            h2 { "What the hour is reckoned with" }
            p { "Calm air at " (Amount::air_pressure(hectopascals(1013.25)).show(query.units))
                ", and the state of the surface of the day file." }
            section.findings { (bases(&found.reckoned, query.units)) }
            @if let (Some(asked), Some(largest)) = (&opened.asked, &opened.largest) {
                (limits(found, asked, largest))
            } @else { p { "No mass is worked out for it." } }
            p.caution { (CAUTION) }
        }
    };
    let crumbs = [
        ("/".into(), "Flights".into()),
        (format!("/flights/{slug}{}", query.text()), "The flight".to_owned()),
        (format!("/flights/{slug}/year{}", query.text()), "Calendar".to_owned()),
    ];
    frame(&Page { title: &title, crumbs: &crumbs, head: html! {} }, &body)
}

/// Each movement with its largest mass and what sets it.
fn masses(found: &OpenedHour, units: UnitSystem) -> Markup {
    html! {
        @for (name, answer) in found.limits() {
            p { "Largest " (name) " mass: "
                strong { (largest_word(answer.most(), |mass| at_most_text(mass, units))) }
                @if let Some(limit) = answer.set_by() {
                    ", by " (limit.title) " (" (limit.code) ")"
                }
                @if let Some(mass) = answer.planned {
                    ". Asked for: " (quantity_text(mass, units))
                } "." }
        }
    }
}

/// What sets the masses, at the largest masses and at those asked for, and every other
/// figure of these.
fn limits(found: &OpenedHour, asked: &Report, largest: &Report) -> Markup {
    let set = found.limits().filter_map(|(_, answer)| answer.set_by());
    let codes: Vec<&str> = set.map(|limit| limit.code).collect();
    let heavy: Vec<&str> = hour_codes(found).into_iter().collect();
    let opened = |of: &Option<AssessedHour>, report: &Report, codes: &[&str]| {
        let meant = Meant::of_codes(report, codes, false);
        of.as_ref().map(|one| whole(report, &one.openings, &meant))
    };
    let every_figure = Meant::of_codes(asked, &[], true);
    html! {
        h2 { "What sets the largest masses" }
        p.note { "As it comes out at these masses; where none holds, at the mass asked for. Every \
                  strength of the ground is already the share above of what was sounded." }
        @if let Some(opened) = opened(&found.largest, largest, &codes) { (opened) }
        h2 { "The same at the masses asked for" }
        @if let Some(opened) = opened(&found.asked, asked, &heavy) { (opened) }
        h2 { "Every other figure" }
        @if let Some(one) = &found.asked { (whole(asked, &one.openings, &every_figure)) }
    }
}
