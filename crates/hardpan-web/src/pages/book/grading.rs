//! By when a strip must be graded, and damage by place, for a reader and as JSON.

use super::opened::{Entries, figures};
use super::{Asked, Shown, shown};
use crate::desk::blocking;
use crate::routes::Room;
use crate::shelf::EntryKind;
use crate::trouble::Trouble;
use hardpan_assess::coverages_of_one_pass;
use hardpan_book::{
    DamagePlaces, DamageRate, Entry, GradingDue, LaneCoverage, PassCoverages, Question, current,
    grading, told_of_strip,
};
use hardpan_model::FigureBasis;
use hardpan_quantity::{Quantity as _, Time, UnitSystem, counted, parse, percent};
use hardpan_report::{figure_json, glued, quantity_text, stretch_text};
use jiff::Timestamp;
use maud::{Markup, html};
use std::sync::Arc;

/// Keys of the state of a strip: the long names of the options of `hardpan book`, `strip`
/// by its name, and `flight` by its slug.
const STATUS: [&str; 7] =
    ["strip", "inspected-within", "surveyed-within", "rut", "loose", "flight", "tail"];

/// All that the book tells of a strip, as JSON.
pub(crate) async fn json(room: &Room, slug: &str, query: Option<&str>) -> Result<String, Trouble> {
    let asked = Asked::read(query, &STATUS)?;
    let shown = shown(room, slug).await?;
    let of_one = match &asked.flight {
        Some(slug) => {
            let flight = room.entry(EntryKind::Flight, slug).await?;
            Some(of_gear(room, &flight.file, &shown, &asked.tails).await?)
        }
        None => None,
    };
    let strip = asked.strip.clone().or_else(|| shown.strips.first().cloned()).unwrap_or_default();
    let time = |name: &str, text: Option<&str>| {
        let read = text.map(parse::<Time>).transpose();
        read.map_err(|error| Trouble::Query(format!("{name}: {error}.")))
    };
    let question = Question {
        strip: &strip,
        now: shown.now,
        inspected: time("inspected-within", asked.within.as_deref())?,
        surveyed: time("surveyed-within", asked.surveyed.as_deref())?,
        limits: asked.limits().map_err(Trouble::Query)?,
        step: None,
        end: None,
        confidence: percent(90.0),
        coverages: of_one.as_ref(),
        figure: figure_json,
    };
    let mut value = told_of_strip(&shown.entries, &question).map_err(super::told::trouble)?;
    value["caution"] = hardpan_assess::CAUTION.into();
    Ok(format!("{value:#}\n"))
}

/// Coverages of one pass by the gear of a flight's aeroplane, for the aeroplanes of these
/// names; for that of its own name where none is given.
pub(super) async fn of_gear(
    room: &Room,
    file: &str,
    shown: &Shown,
    tails: &[String],
) -> Result<PassCoverages, Trouble> {
    let (shelf, file) = (Arc::clone(&room.shelf), file.to_owned());
    let read = blocking(move || shelf.flight(&file, &[])).await?;
    let flight = read.map_err(Trouble::Refused)?.value;
    let lanes = coverages_of_one_pass(&flight).map_err(|missing| {
        let needs: Vec<String> =
            missing.needs.iter().map(|need| format!("{} ({})", need.what, need.how)).collect();
        Trouble::Missing(format!("{}: {}.", missing.because, needs.join(", ")))
    })?;
    let lanes =
        lanes.map(|(lane, coverages, step)| LaneCoverage { lane, coverages, steps: vec![step] });
    let own = flight.aeroplane.name.as_ref().map_or("its aeroplane", |name| name.value.as_str());
    PassCoverages::of_aeroplanes(&current(&shown.entries), tails, own, lanes)
        .map_err(|error| Trouble::Missing(format!("{error}.")))
}

/// By when ruts meet their limit, the earliest first.
pub(super) fn due(
    standing: &[&Entry],
    strip: &str,
    now: Timestamp,
    asked: &Asked,
    entries: &Entries<'_>,
) -> Markup {
    let (limits, units) = (asked.limits(), asked.units);
    let limits = match limits {
        Ok(limits) => limits,
        Err(why) => return html! { p.wrong role="alert" { (why) } },
    };
    let found = grading(standing, strip, now, &limits);
    html! {
        @if let Ok(found) = found {
            @if !found.places.is_empty() {
                div.scroll { table.due {
                    caption { "Grading due" }
                    thead { tr { @for name in ["place", "last found", "passes left", "due", "between"] {
                        th scope="col" { (name) }
                    } } }
                    tbody { @for one in &found.places { (place(one, units)) } }
                } }
                p.note { "From a straight line through the ruts found since the place was mended \
                          and the passes of the last 91 days, each with 95 % limits." }
                @let week = found.passes.as_ref();
                @let of_week = week.into_iter().flat_map(|week| figures(week.opened()));
                @let of_places = found.places.iter().flat_map(|one| figures(one.opened(week)));
                (entries.how("the days of grading", &of_week.chain(of_places).collect::<Vec<_>>()))
            }
            @for why in &found.not_told { p.note { "Grading, not told: " (why) "." } }
        }
    }
}

fn place(one: &GradingDue, units: UnitSystem) -> Markup {
    let [day, earliest, latest] = one.days.map(|day| day.map(|day| day.to_string()));
    let where_it_is = match (&one.lane, one.stretch) {
        (lane, Some((from, to))) => {
            let lane = lane.as_deref().unwrap_or_default();
            format!("{} {lane} {}", one.what, stretch_text(from, to, units))
        }
        _ => format!("{}, deepest anywhere", one.what),
    };
    html! {
        tr {
            th scope="row" { (where_it_is) }
            td { (glued(&quantity_text(one.last.0, units))) ", " (one.last.1) }
            td { @match one.passes_left[0] {
                Some(left) => (format!("{left:.0}")),
                None => "does not grow",
            } }
            td { @match day { Some(day) => strong { (day) }, None => "cannot be told" } }
            td { (earliest.as_deref().unwrap_or("not known")) " and "
                (latest.as_deref().unwrap_or("no latest day")) }
        }
    }
}

/// Damage by stretch and by zone.
pub(super) fn damage(found: &DamagePlaces, units: UnitSystem, entries: &Entries<'_>) -> Markup {
    let is_any = found.stretches.iter().any(|one| one.rate.reports > 0);
    html! {
        h2 { "Damage by place" }
        @if !is_any { p { "No damage report states a station." } }
        @else {
            div.scroll { table.compared {
                thead { (headings("stretch")) }
                tbody { @for one in &found.stretches { tr {
                    th.day scope="row" { (stretch_text(one.from, one.to, units)) } (cells(&one.rate))
                } } }
            } }
        }
        @if found.without_station > 0 {
            p.note { (counted(found.without_station, "report states", "reports state")) " no station." }
        }
        @if !found.zones.is_empty() {
            div.scroll { table.compared {
                thead { (headings("zone")) }
                tbody { @for (zone, rate) in &found.zones { tr {
                    th scope="row" { (zone) } (cells(rate))
                } } }
            } }
        }
        (entries.how("the damage figures", &opened_damage(found)))
    }
}

/// Every rate by place, opened.
fn opened_damage(found: &DamagePlaces) -> Vec<FigureBasis> {
    let stretches = found.stretches.iter().flat_map(|one| {
        let place = format!("station {:.0} to {:.0} m", one.from.si(), one.to.si());
        figures(one.rate.opened(&place))
    });
    let zones =
        found.zones.iter().flat_map(|(zone, rate)| figures(rate.opened(&format!("zone {zone}"))));
    stretches.chain(zones).chain(figures(found.opened())).collect()
}

fn headings(first: &str) -> Markup {
    html! { tr {
        th scope="col" { (first) } th scope="col" { "reports" } th scope="col" { "movements" }
        th scope="col" { "for each 1,000" } th scope="col" { "90\u{a0}% interval" }
    } }
}

fn cells(rate: &DamageRate) -> Markup {
    html! {
        td { (rate.reports) }
        td { (rate.movements) }
        @match (rate.rate, rate.limits) {
            (Some(mean), Some(limits)) => {
                td { (format!("{mean:.1}")) }
                td { (format!("{:.1} to {:.1}", limits.lower, limits.upper)) }
            }
            _ => td colspan="2" { "no movement is recorded" },
        }
    }
}
