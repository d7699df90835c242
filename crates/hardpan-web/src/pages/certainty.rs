//! How sure an answer is, and what would help, as pages: what the sheet does not wait
//! for.

use crate::desk::{Judged, blocking};
use crate::page::{Page, frame, verdict_mark};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::sheet::findings::bases;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_assess::{CAUTION, Sampling, WayOut, WaysOut, confidence, draws_in_full, ways_out};
use hardpan_model::FigureBasis;
use hardpan_quantity::UnitSystem;
use hardpan_report::{
    ConfidenceReport, InputRows, SINGLES_HEADER, TRADE_HEADER, glued, ways_heading, ways_list,
    ways_opening, ways_singles, ways_trade,
};
use maud::{Markup, html};

/// Draws of the page; the command and the API take more.
const DRAWS: u32 = 512;
/// Seed of the draws: the same each time.
const SEED: u32 = 1;

pub(crate) async fn sure(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    answer(&room, &slug, query.as_deref(), sure_page).await
}

pub(crate) async fn help(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    answer(&room, &slug, query.as_deref(), help_page).await
}

/// What makes a page of a flight at an address.
type Make = fn(&str, &Judged, &Query) -> Html<String>;

async fn answer(room: &Room, slug: &str, query: Option<&str>, make: Make) -> Response {
    let made = async {
        let query = Query::read(query)?;
        let judged = room.judge(slug, &query).await?;
        let _slot = room.desk.slot().await;
        let slug = slug.to_owned();
        blocking(move || make(&slug, &judged, &query)).await
    };
    made.await.map_or_else(|trouble: Trouble| trouble.page(), IntoResponse::into_response)
}

fn sure_page(slug: &str, judged: &Judged, query: &Query) -> Html<String> {
    let sampling = Sampling { draws: DRAWS, in_full: draws_in_full(DRAWS), seed: SEED, threads: 1 };
    let found = confidence(&judged.flight, sampling, |_, _| {});
    let report = ConfidenceReport::new(&found, query.units, judged.produced.clone());
    let body = html! {
        main.plain.compare {
            h1 { (report.title()) }
            p.lead { (verdict_mark(report.verdict())) " " (report.sentence()) }
            p { (report.subtitle()) ". " (report.drawn()) }
            (missing(&report.missing()))
            h2 { "How likely each limit is exceeded as planned" }
            (limits(&report))
            h2 { "Largest masses" }
            @let header = ["movement", "planned", "assessed", &report.held_heading(),
                "middle draw", "nine draws in ten"];
            (table(&header, &report.mass_rows()))
            @for line in report.meant() { p.note { (line) } }
            h2 { "What is uncertain, and how much of the spread of mass it explains" }
            (inputs(&report.input_rows()))
            h2 { "What would make it surer" }
            @let help = report.help();
            @if help.is_empty() {
                p { "Nothing that was tried makes it surer by more than chance." }
            }
            ul { @for line in help { li { (line) } } }
            (opened(&report.opened(), query.units))
            h2 { "What no probability is told of, and why" }
            dl.needs { @for (rules, because) in report.without() { dt { (rules) } dd { (because) } } }
            p.note { (ConfidenceReport::left_alone()[1]) }
            p.caution { (CAUTION) }
        }
    };
    framed(("How sure", "confidence"), slug, query, &body)
}

fn limits(report: &ConfidenceReport) -> Markup {
    let rows: Vec<[String; 4]> = report
        .limits()
        .into_iter()
        .map(|row| [row.code.to_owned(), row.title, row.exceeded, row.at_most])
        .collect();
    html! {
        (table(&["code", "limit", "exceeded in", "at most"], &rows))
        @if let Some(never) = report.never() { p.note { (never) } }
        p.note { (ConfidenceReport::left_alone()[0]) }
    }
}

/// Every figure of the page down to what it came from.
fn opened(figures: &[FigureBasis], units: UnitSystem) -> Markup {
    html! {
        details.how {
            summary { "How these figures come about" }
            section.findings { (bases(figures, units)) }
        }
    }
}

fn missing(missing: &[(String, String)]) -> Markup {
    html! {
        @if !missing.is_empty() {
            h2 { "What is missing" }
            dl.needs { @for (what, how) in missing { dt { (what) } dd { (how) } } }
        }
    }
}

fn inputs(inputs: &InputRows) -> Markup {
    let header: Vec<&str> = inputs.header.iter().map(String::as_str).collect();
    html! {
        (table(&header, &inputs.rows))
        @if inputs.left > 0 {
            p.note { "and " (inputs.left) " more soundings that explain less than 1 % each" }
        }
    }
}

fn help_page(slug: &str, judged: &Judged, query: &Query) -> Html<String> {
    let found = ways_out(&judged.flight, |_| {});
    let is_both = found.shortest.is_some() && found.shortest == found.cheapest;
    let body = html! {
        main.plain.compare {
            h1 { "What would help: " (found.identity.aeroplane) " at " (found.identity.strip) }
            p.lead { (verdict_mark(found.verdict)) " " (ways_opening(&found)) }
            p { (found.identity.flight) "; " (found.identity.directions) }
            (way("shortest", found.shortest.as_ref(), &found, query))
            @if is_both { p { "It is also the cheapest." } } @else {
                (way("cheapest", found.cheapest.as_ref(), &found, query))
            }
            h2 { "Each change by itself" }
            @if found.singles.is_empty() { p { "No single change helps." } } @else {
                (table(&SINGLES_HEADER, &ways_singles(&found, query.units)))
            }
            @if found.trade.len() > 1 {
                h2 { "Mass against repair" }
                (table(&TRADE_HEADER, &ways_trade(&found, query.units)))
            }
            (opened(&found.opened(), query.units))
            ul { @for note in &found.notes { li { (note) } } }
            p.note { (found.tried) " lists of changes were assessed afresh." }
            p.caution { (CAUTION) }
        }
    };
    framed(("What would help", "remedies"), slug, query, &body)
}

fn way(word: &str, way: Option<&WayOut>, found: &WaysOut, query: &Query) -> Markup {
    let list = way.map(|way| (ways_heading(way, word), ways_list(found, way, query.units)));
    html! {
        @if let Some((title, (actions, then))) = list {
            h2 { (title) }
            ol { @for action in actions { li { (glued(&action)) } } }
            p { (glued(&then)) }
        }
    }
}

fn table<R: AsRef<[String]>>(header: &[&str], rows: &[R]) -> Markup {
    html! {
        div.scroll tabindex="0" { table.compared {
            thead { tr { @for name in header { th scope="col" { (name) } } } }
            tbody { @for row in rows { tr {
                @for (at, cell) in row.as_ref().iter().enumerate() {
                    @if at == 0 { th scope="row" { (glued(cell)) } } @else { td { (glued(cell)) } }
                }
            } } }
        } }
    }
}

fn framed((title, name): (&str, &str), slug: &str, query: &Query, body: &Markup) -> Html<String> {
    let (asked, other) = (query.text(), query.in_other_units());
    let crumbs = [
        ("/".into(), "Flights".into()),
        (format!("/flights/{slug}{asked}"), "The flight".to_owned()),
    ];
    let head = html! {
        a href={ "/flights/" (slug) "/" (name) (other.text()) } {
            "in " (other.units_word()) " units"
        }
        a href={ "/api/flights/" (slug) "/" (name) (asked) } { "JSON" }
    };
    frame(&Page { title, crumbs: &crumbs, head }, body)
}
