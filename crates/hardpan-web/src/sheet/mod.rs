//! The sheet of a flight: the answer in sight, values to change, the section
//! along the strip, and everything behind it.

mod answer;
mod bench;
pub(crate) mod findings;
mod steps;
mod tables;

use crate::by_the_book::{self, Said};
use crate::desk::{Judged, Wanted};
use crate::page::{Page, frame, verdict_mark};
use crate::pages::station;
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::section::section;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{Html, IntoResponse, Response};
use findings::Opened;
use hardpan_report::Report;
use maud::{Markup, html};
use steps::Way;

/// The sheet of a flight. Where only values stated again are refused, the sheet
/// comes without an answer, so that none for other values can be taken for it.
pub(crate) async fn answer_page(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
    headers: HeaderMap,
) -> Response {
    let query = match Query::read(query.as_deref()) {
        Ok(query) => query,
        Err(trouble) => return trouble.page(),
    };
    let part = header(&headers, PART);
    let wanted = match part {
        "answer" | "sheet" | "bases" => Wanted::Answer,
        _ => Wanted::Whole,
    };
    let judged = match room.judge_for(&slug, &query, wanted).await {
        Ok(judged) => judged,
        Err(trouble) => return refused(&room, &slug, &query, &trouble).await,
    };
    let strip = judged.flight.strip.name.as_ref().map(|name| name.value.as_str());
    let books = match by_the_book::said_of(&room, strip).await {
        Ok(said) => by_the_books(&judged, &said),
        Err(trouble) => return trouble.page(),
    };
    match part {
        "answer" => answer_alone(&slug, &judged, &query, &books),
        "sheet" => sheet(&slug, &judged, &query, (Opened::Only(&open(&headers)), &books)),
        "bases" => bases_alone(&slug, &judged, &query),
        "advice" => advice_alone(&slug, &judged, &query, &books),
        _ => sheet(&slug, &judged, &query, (Opened::Each, &books)),
    }
    .into_response()
}

/// The rule of the state of a strip.
const STATE: &str = "S70";

/// Header by which the script of the sheet asks for the answer and the sheet at once,
/// then for what every check opens to, last for what takes longest.
const PART: &str = "x-hardpan-part";
/// Header that names the checks that stand open, by number.
const OPEN: &str = "x-hardpan-open";

fn header<'a>(headers: &'a HeaderMap, name: &str) -> &'a str {
    headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or_default()
}

fn open(headers: &HeaderMap) -> Vec<usize> {
    header(headers, OPEN).split(',').filter_map(|number| number.trim().parse().ok()).collect()
}

/// What must be seen first: the answer, the values, and the links that go with it.
fn answer_alone(slug: &str, judged: &Judged, query: &Query, books: &Markup) -> Html<String> {
    let report = judged.report(query);
    let address = address(slug);
    let body = html! {
        main.sheet {
            (answer::answer(judged, &report, query, books))
            (bench::bench(&address, judged, query, &[]))
        }
    };
    let page = Page { title: &report.title, crumbs: &crumbs(), head: links(&address, query) };
    frame(&page, &body)
}

/// Every check with what it opens to.
fn bases_alone(slug: &str, judged: &Judged, query: &Query) -> Html<String> {
    let report = judged.report(query);
    let way = Way { slug, query };
    let body = html! { main.sheet { (findings::findings(&report, Opened::Each, &way)) } };
    frame(&Page { title: &report.title, crumbs: &crumbs(), head: html! {} }, &body)
}

/// What comes last: what was tried, and the figures that rest on it.
fn advice_alone(slug: &str, judged: &Judged, query: &Query, books: &Markup) -> Html<String> {
    let report = judged.report(query);
    let address = address(slug);
    let body = html! {
        main.sheet {
            (answer::answer(judged, &report, query, books))
            (tables::advice(judged, &report))
            (findings::figures(&report, &Way { slug, query }))
        }
    };
    let page = Page { title: &report.title, crumbs: &crumbs(), head: links(&address, query) };
    frame(&page, &body)
}

async fn refused(room: &Room, slug: &str, query: &Query, trouble: &Trouble) -> Response {
    let places = match trouble {
        Trouble::Refused(refusal) if refusal.places.iter().all(|place| place.key.is_some()) => {
            &refusal.places
        }
        _ => return trouble.page(),
    };
    let Ok(judged) = room.judge(slug, &query.unchanged()).await else { return trouble.page() };
    let report = judged.report(query);
    let body = html! {
        main.sheet {
            (bench::bench(&address(slug), &judged, query, places))
            section.answer.unanswered #answer role="alert" {
                h1 { "Not answered" }
                p { "A value cannot be used, so that there is no answer for it. " (trouble.sentence()) }
                (trouble.details())
            }
        }
    };
    let page = Page { title: &report.title, crumbs: &crumbs(), head: html! {} };
    (StatusCode::UNPROCESSABLE_ENTITY, frame(&page, &body)).into_response()
}

fn address(slug: &str) -> String {
    format!("/flights/{slug}")
}

fn crumbs() -> [(String, String); 1] {
    [("/".to_owned(), "Flights".to_owned())]
}

/// What the books say of the strip, at the time of the flight and now.
fn by_the_books(judged: &Judged, said: &[Said]) -> Markup {
    let records = judged.flight.strip_records.iter();
    let findings = judged.assessment.findings.iter().filter(|finding| finding.code == STATE);
    let then: Vec<_> = records.zip(findings).collect();
    html! {
        @for (record, finding) in then {
            p.by-book {
                (verdict_mark(finding.verdict)) " At the time of the flight, by the book "
                @match said.iter().find(|one| one.file() == &*record.book) {
                    Some(one) => a href=(one.address) { (one.book) },
                    None => (record.book),
                }
                ": " (finding.because) "."
            }
        }
        (by_the_book::paragraphs(said))
    }
}

fn sheet(
    slug: &str,
    judged: &Judged,
    query: &Query,
    (with, books): (Opened<'_>, &Markup),
) -> Html<String> {
    let report = judged.report(query);
    let address = address(slug);
    let body = html! {
        main.sheet {
            h1.unseen { (report.title) }
            (answer::answer(judged, &report, query, books))
            (bench::bench(&address, judged, query, &[]))
            div #rest {
                @if !judged.warnings.is_empty() {
                    details.warnings {
                        summary { "Warnings in the files" }
                        pre.mistakes tabindex="0" { (judged.warnings) }
                    }
                }
                (section(judged, &report, &station::address(slug, query)))
                (rest(slug, judged, (&report, with), query))
            }
        }
    };
    let page = Page { title: &report.title, crumbs: &crumbs(), head: links(&address, query) };
    frame(&page, &body)
}

/// Links of the head; the script keeps their queries in step with the sheet.
fn links(address: &str, query: &Query) -> Markup {
    let asked = query.text();
    let other = query.in_other_units();
    html! {
        a data-query="other" href={ (address) (other.text()) } {
            "in " (other.units_word()) " units"
        }
        a.strong data-query="same" href={ (address) "/card.pdf" (asked) } { "Crew card, PDF" }
        a data-query="same" href={ (address) "/figure.svg" (asked) } { "Figure, SVG" }
        a data-query="same" href={ (address) "/runs.svg" (asked) } { "Runs, SVG" }
        a data-query="same" href={ "/api" (address) (asked) } { "JSON" }
    }
}

fn rest(
    slug: &str,
    judged: &Judged,
    (report, with): (&Report, Opened<'_>),
    query: &Query,
) -> Markup {
    let (address, asked, way) = (address(slug), query.text(), Way { slug, query });
    html! {
        (tables::conditions(report))
        div.tables.by-sight { (tables::tables(report)) }
        (tables::advice(judged, report))
        (findings::findings(report, with, &way))
        (findings::figures(report, &way))
        @if report.assessment().stones.is_some() {
            section aria-labelledby="stones-name" {
                h2 #stones-name { "Thrown stones at the aeroplane" }
                figure.drawing {
                    img src={ (address) "/stones.svg" (asked) } loading="lazy"
                        alt="Paths of thrown stones at the aeroplane, from the side and from above";
                }
            }
        }
        @if report.assessment().climb.is_some() {
            section aria-labelledby="climb-name" {
                h2 #climb-name { "Over the obstacles with one engine out" }
                figure.drawing {
                    img src={ (address) "/climb.svg" (asked) } loading="lazy"
                        alt="The path after take-off with one engine out over the obstacles ahead";
                }
            }
        }
        (tables::handling(report))
        section aria-labelledby="more-name" {
            h2 #more-name { "More from these figures" }
            ul {
                li { a href={ (address) "/confidence" (asked) } {
                    "How sure this is: what is uncertain, and which measurement would help"
                } }
                li { a href={ (address) "/remedies" (asked) } {
                    "What would help: lists of changes, the shortest and the cheapest, and repairs"
                } }
                li { a href={ (address) "/masses" (asked) } { "Largest masses over a range of days" } }
                li { a href={ (address) "/year" (asked) } { "Calendar: days and hours of the year at which these masses work" } }
                li { a href={ (address) "/keep" (asked) } {
                    "Keep this assessment in a book, with all that it was made from"
                } }
                li { a href={ (address) "/lesson" (asked) } { "Lesson for a trainee" } ", as "
                    a href={ (address) "/lesson.pdf" (asked) } { "PDF" } ", and "
                    a href={ (address) "/handout.pdf" (asked) } { "PDF without answers" } }
                li { "For programs: " @for name in ["confidence", "remedies", "weeks", "bearing"] {
                    a href={ "/api" (address) "/" (name) (asked) } { (name) } " "
                } }
            }
        }
        p.produced {
            (report.basis.line()) ". " (report.produced.by) ", " (report.produced.at) ", inputs "
            code { (report.produced.identifier) }
            ". Assessed in " (format!("{:.2} s", judged.took.as_secs_f64()))
        }
    }
}
