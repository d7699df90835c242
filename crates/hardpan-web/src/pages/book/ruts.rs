//! Passes over each stretch and the ruts found there, beside what the rut law
//! foretells for a flight.

use super::opened::{Entries, figures};
use super::{Asked, Shown, shown};
use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::routes::{Room, Shared};
use crate::sheet::findings::whole;
use crate::shelf::{Entry as Listed, EntryKind, RutsOfBook};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{Answered, Openings};
use hardpan_book::{
    Audit, DamagePlaces, Entry, MeasuredRuts, PassCoverages, StretchPasses, current, damage_places,
    measured_ruts, passes_by_stretch, tails,
};
use hardpan_model::FigureBasis;
use hardpan_quantity::{Length, UnitSystem, counted, metres, millimetres, percent};
use hardpan_report::{Meant, Report, glued, quantity_text, stretch_text};
use maud::{Markup, html};
use std::sync::Arc;

/// Code of the rule that holds the law to what was measured.
const RULE: &str = "G55";

/// Keys of the page: the long names of the options of `hardpan book FILE passes`, `strip`
/// by its name, and `flight` by its slug.
const OWN: [&str; 3] = ["strip", "flight", "tail"];

/// What the page tells.
struct Told {
    strip: String,
    measured: MeasuredRuts,
    stretches: Vec<StretchPasses>,
    damage: DamagePlaces,
    flights: Vec<Listed>,
    flight: Option<String>,
    /// Aeroplanes of the movements over the strip.
    tails: Vec<String>,
    report: Option<Result<(Report, Openings), Trouble>>,
    /// Coverages of one pass by the gear of the flight that was chosen.
    of_one: Option<Result<PassCoverages, Trouble>>,
}

pub(crate) async fn ruts(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let asked = Asked::read(query.as_deref(), &OWN)?;
        let shown = shown(&room, &slug).await?;
        shown.must_know(asked.strip.as_deref())?;
        let told = tell(&room, &shown, &asked).await?;
        Ok(page(&shown, &told, &asked).into_response())
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.page())
}

/// The strip that was asked for, or that of the flight, or the first.
fn strip_of(shown: &Shown, asked: &Asked, flight: Option<&Listed>, listed: &[Listed]) -> String {
    let file = flight.and_then(|one| one.names.iter().find(|(kind, _)| *kind == "strip"));
    let of_flight = file.and_then(|(_, file)| {
        let is_it = |one: &&Listed| one.kind == EntryKind::Strip && one.file == *file;
        listed.iter().find(is_it)?.name.clone()
    });
    let named = asked.strip.clone().or(of_flight);
    named.or_else(|| shown.strips.first().cloned()).unwrap_or_default()
}

async fn tell(room: &Room, shown: &Shown, asked: &Asked) -> Result<Told, Trouble> {
    let listed = room.entries().await?;
    let chosen = match &asked.flight {
        Some(slug) => Some(room.entry(EntryKind::Flight, slug).await?),
        None => None,
    };
    let strip = strip_of(shown, asked, chosen.as_ref(), &listed);
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
    let stretches = passes_by_stretch(&standing, &strip, None, end)
        .map_err(|error| Trouble::Query(format!("{error}.")))?;
    let damage = damage_places(&standing, &strip, None, end, percent(90.0))
        .map_err(|error| Trouble::Query(format!("{error}.")))?;
    if let Some(other) = chosen.as_ref().filter(|one| !flights.contains(one)) {
        let said = format!("flight: {} does not go to {strip}.", other.title());
        return Err(Trouble::Query(said));
    }
    let of_one = match &chosen {
        Some(one) => Some(super::grading::of_gear(room, &one.file, shown, &asked.tails).await),
        None => None,
    };
    let report = match chosen.as_ref().filter(|_| measured.places > 0) {
        Some(one) => Some(foretold(room, &one.file, of_book(shown, &measured), asked.units).await),
        None => None,
    };
    let (tails, flight) = (tails(&standing, Some(&strip)), chosen.map(|one| one.slug));
    Ok(Told { strip, measured, stretches, damage, flights, flight, tails, report, of_one })
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
    ruts: RutsOfBook,
    units: UnitSystem,
) -> Result<(Report, Openings), Trouble> {
    let (shelf, file) = (Arc::clone(&room.shelf), file.to_owned());
    let _slot = room.desk.slot().await;
    let work = move || {
        let opened = shelf.flight_with_ruts(&file, &ruts).map_err(Trouble::Refused)?;
        let produced = shelf.produced(&opened.identifier);
        let answered = Answered::of(opened.value);
        let found = answered.whole();
        Ok((Report::new(&found, units, produced), answered.openings(&found)))
    };
    blocking(work).await?
}

/// The ruts as a file, each row with its entry.
fn of_book(shown: &Shown, measured: &MeasuredRuts) -> RutsOfBook {
    let row = |id: &i64| {
        let entry = shown.entries.iter().find(|entry| entry.id == *id);
        (*id, entry.map_or_else(String::new, recorded))
    };
    RutsOfBook {
        book: shown.file.clone(),
        text: measured.text.clone(),
        rows: measured.entries.iter().map(row).collect(),
    }
}

/// Who recorded an entry, and when.
fn recorded(entry: &Entry) -> String {
    let Audit { by, at } = &entry.audit;
    let first = entry.first.as_ref().map_or_else(String::new, |first| format!(", {first}"));
    format!("recorded by {by}, {}{first}", at.strftime("%Y-%m-%d %H:%MZ"))
}

fn page(shown: &Shown, told: &Told, asked: &Asked) -> Html<String> {
    let entries = Entries::of(shown, asked.units);
    let body = html! {
        main.plain.book-page.compare {
            h1 { "Passes and ruts of " (told.strip) }
            h2 { "Passes over each stretch since it was mended" }
            p.note { "In each lane of the wheels. A movement that does not state the stretch it \
                      rolled over is counted everywhere." }
            @if told.stretches.is_empty() { p { "No station of the strip is recorded." } }
            @else { (stretches(told, asked.units)) }
            (choose(shown, told, asked))
            (coverages_note(told))
            (entries.how("the passes, ruts and coverages", &opened_stretches(told)))
            (super::grading::damage(&told.damage, asked.units, &entries))
            h2 { "Ruts measured" }
            @if told.measured.places == 0 { p { "No rut of the strip is recorded that a law can be held to." } }
            @else {
                (measured(&told.measured, asked.units))
                @let opened = told.measured.rows.iter().flat_map(|row| figures(row.opened()));
                (entries.how("the ruts and passes", &opened.collect::<Vec<_>>()))
            }
            @for why in &told.measured.left_out { p.note { "Left out: " (why) "." } }
            @if told.measured.places > 0 { (law(told)) }
        }
    };
    let crumbs = [("/".into(), "Flights".into()), (shown.address.clone(), shown.title.clone())];
    frame(&Page { title: "Passes and ruts", crumbs: &crumbs, head: html! {} }, &body)
}

/// Every figure of the stretches, opened.
fn opened_stretches(told: &Told) -> Vec<FigureBasis> {
    let of_one = told.of_one.as_ref().and_then(|one| one.as_ref().ok());
    let opened = |one: &StretchPasses| {
        let covered = of_one.into_iter().flat_map(|of_one| {
            figures(one.opened_passes(of_one)).into_iter().chain(one.opened_coverages(of_one))
        });
        figures(one.opened())
            .into_iter()
            .chain(covered)
            .chain(one.opened_ruts())
            .collect::<Vec<_>>()
    };
    told.stretches.iter().flat_map(opened).collect()
}

/// The flight whose gear and passes are held against what the book tells.
fn choose(shown: &Shown, told: &Told, asked: &Asked) -> Markup {
    html! {
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
                @if !told.tails.is_empty() { (with_its_gear(told, asked)) }
                button type="submit" { "Tell coverages, and hold the law to the ruts" }
            }
        }
    }
}

/// The aeroplanes of the book, for the reader to say which have the gear of the flight's.
fn with_its_gear(told: &Told, asked: &Asked) -> Markup {
    let of_one = told.of_one.as_ref().and_then(|one| one.as_ref().ok());
    let is_one = |tail: &String| {
        asked.tails.contains(tail) || of_one.is_some_and(|one| one.tails.contains(tail))
    };
    html! {
        fieldset.tails {
            legend { "aeroplanes of the book with its gear" }
            @for tail in &told.tails {
                label { input type="checkbox" name="tail" value=(tail) checked[is_one(tail)];
                    " " (tail) }
            }
        }
    }
}

/// Coverages of one pass, or why they are not known.
fn coverages_note(told: &Told) -> Markup {
    html! {
        @match &told.of_one {
            None => {},
            Some(Err(trouble)) => { p.wrong role="alert" { (trouble.sentence()) } },
            Some(Ok(of_one)) => {
                p.note { "One pass of " (of_one.tails.join(", ")) " covers the busiest point of "
                    @for (index, of) in of_one.lanes.iter().enumerate() {
                        @if index > 0 { ", " } (of.lane.word()) " " (format!("{:.3}", of.coverages)) " times"
                    }
                    ": normal wander over all tracks of the leg, at the full width of the tyres." }
            },
        }
    }
}

fn law(told: &Told) -> Markup {
    html! {
        h2 { "Foretold and measured" }
        @if told.report.is_none() { p { "Choose a flight above." } }
        @match &told.report {
            None => {},
            Some(Err(trouble)) => { p.wrong role="alert" { (trouble.sentence()) } (trouble.details()) },
            Some(Ok((report, openings))) => {
                p { "For the passes of " strong { (report.title) } }
                (whole(report, openings, &Meant::of_codes(report, &[RULE], false)))
            },
        }
    }
}

fn stretches(told: &Told, units: UnitSystem) -> Markup {
    let of_one = told.of_one.as_ref().and_then(|one| one.as_ref().ok());
    html! {
        div.scroll { table.compared {
            thead { tr {
                th scope="col" { "stretch" } th scope="col" { "passes" }
                @if let Some(of_one) = of_one {
                    @for of in &of_one.lanes { th scope="col" { "coverages, " (of.lane.word()) } }
                }
                th scope="col" { "mended" } th scope="col" { "last rut found" }
            } }
            tbody { @for one in &told.stretches { tr {
                th.day scope="row" { (stretch_text(one.from, one.to, units)) }
                td { (one.passes) @if one.everywhere > 0 {
                    " " span.file { "of these " (one.everywhere) " without a stretch" }
                } }
                @if let Some(of_one) = of_one { (covered(one, of_one)) }
                td.day { (one.since.map_or_else(|| "not recorded".to_owned(), |day| day.to_string())) }
                td { @for rut in &one.ruts {
                    (rut.lane) " " strong { (glued(&quantity_text(rut.depth, units))) } ", "
                    span.day { (rut.date) } " "
                } }
            } } }
        } }
    }
}

/// Coverages of a stretch by lane; of aeroplanes with another gear they are not known.
fn covered(one: &StretchPasses, of_one: &PassCoverages) -> Markup {
    let found = one.coverages(of_one);
    html! {
        @for (_, count) in &found.lanes {
            td { (format!("{count:.1}")) @if found.others > 0 {
                " " span.file { "and those of " (counted(found.others, "pass", "passes")) " of others" }
            } }
        }
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
                        (glued(&quantity_text(millimetres(rut), units)))
                    } }
                    td { (cells.get(4).copied().unwrap_or_default()) }
                }
            } }
        } }
    }
}
