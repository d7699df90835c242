//! One entry: its values, who recorded it, what took its place, and the forms that correct
//! it or take it back.

use super::entries::number;
use super::form::{self, Filled, Mistake};
use super::mending::{Change, Mending, Unmended, may_mend, mend};
use super::{Shown, shown, units_kept};
use crate::account::sender;
use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::trouble::Trouble;
use axum::body::Bytes;
use axum::extract::{Path, RawQuery, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use hardpan_book::{Entry, Fields, Kind, Record};
use hardpan_quantity::UnitSystem;
use maud::{Markup, html};

/// Values that are no words for people; programs are given them.
pub(super) const NOT_FOR_PEOPLE: [&str; 6] =
    ["json", "inputs", "files", "versions", "digest", "bytes"];

/// What was sent, and why nothing was recorded.
struct Unfit {
    is_withdrawal: bool,
    fields: Fields,
    why: String,
    by: String,
    wrong: Vec<Mistake>,
    status: StatusCode,
}

pub(crate) async fn entry(
    State(room): Shared,
    Path((slug, id)): Path<(String, String)>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let query = Query::of_units(query.as_deref())?;
        let id = number(&id).map_err(Trouble::NotFound)?;
        page(&room, (&slug, id), query.units, None).await
    };
    answer.await.unwrap_or_else(|trouble: Trouble| trouble.page())
}

/// Correct an entry by a form of its page.
pub(crate) async fn correct(
    State(room): Shared,
    Path((slug, id)): Path<(String, String)>,
    body: Bytes,
) -> Response {
    take(&room, (&slug, &id), &body, Change::Correction).await
}

/// Take an entry back by a form of its page.
pub(crate) async fn withdraw(
    State(room): Shared,
    Path((slug, id)): Path<(String, String)>,
    body: Bytes,
) -> Response {
    take(&room, (&slug, &id), &body, |_| Change::Withdrawal).await
}

async fn take(
    room: &Room,
    (slug, id): (&str, &str),
    body: &[u8],
    change: impl FnOnce(Fields) -> Change,
) -> Response {
    let Ok(id) = number(id) else {
        return Trouble::NotFound("There is no such entry.".to_owned()).page();
    };
    // A blank value is one that is no longer stated.
    let pairs = form_urlencoded::parse(body);
    let mut fields: Fields =
        pairs.map(|(name, text)| (name.into_owned(), text.trim().to_owned())).collect();
    let mut value = |name: &str| fields.remove(name).unwrap_or_default();
    let (token, why, own) = (value("token"), value("why"), value(form::BY));
    let units = match &*value("units") {
        "imperial" => UnitSystem::Imperial,
        _ => UnitSystem::Metric,
    };
    let Some(sender) = sender(&token) else {
        let said = "This form is not of the page that runs now; open the entry again. Nothing was \
                    recorded.";
        return (StatusCode::FORBIDDEN, said).into_response();
    };
    let (by, role) = sender.account.map_or((own, None), |(name, role)| (name, Some(role)));
    let change = change(fields.clone());
    let is_withdrawal = matches!(change, Change::Withdrawal);
    let mending = Mending { change, why: why.clone(), by: by.clone(), role };
    let (status, wrong) = match mend(room, slug, id, mending).await {
        Ok(entry) => {
            let units = if units == UnitSystem::Imperial { "?units=imperial" } else { "" };
            let now = if is_withdrawal { id } else { entry };
            let to = format!("/books/{slug}/entries/{now}{units}");
            return (StatusCode::SEE_OTHER, [(header::LOCATION, to)]).into_response();
        }
        Err(Unmended::Refused(status @ (StatusCode::FORBIDDEN | StatusCode::NOT_FOUND), said)) => {
            return (status, said).into_response();
        }
        Err(Unmended::Refused(status, what)) => (status, vec![Mistake { name: None, what }]),
        Err(Unmended::Wrong(wrong)) => {
            (StatusCode::UNPROCESSABLE_ENTITY, wrong.iter().map(Mistake::told).collect())
        }
    };
    let unfit = Unfit { is_withdrawal, fields, why, by, wrong, status };
    let shown = page(room, (slug, id), units, Some(&unfit)).await;
    shown.unwrap_or_else(|trouble| trouble.page())
}

async fn page(
    room: &Room,
    (slug, id): (&str, i64),
    units: UnitSystem,
    unfit: Option<&Unfit>,
) -> Result<Response, Trouble> {
    let shown = shown(room, slug).await?;
    let entry = shown.entries.iter().find(|entry| entry.id == id).ok_or_else(|| {
        let count = shown.entries.len();
        Trouble::NotFound(format!("The book has no entry {id}; it has {count}."))
    })?;
    let next = shown.entries.iter().find(|entry| entry.supersedes == Some(id));
    let role = shown.author.as_ref().map(|(_, role)| *role);
    let may = entry.record.kind() != Kind::Withdrawal
        && role.is_none_or(|role| may_mend(role, &shown.entries, entry));
    let title = format!("Entry {id} of {}", shown.title);
    let body = html! {
        main.plain.book-page {
            h1 { (title) }
            (told(&shown, entry, next, units))
            @if next.is_some() {
                @for one in unfit.iter().flat_map(|unfit| &unfit.wrong) {
                    p.wrong role="alert" { "Not recorded. " (one.what) }
                }
            } @else if may {
                (forms(&shown, entry, units, unfit))
            }
        }
    };
    let crumbs = [("/".into(), "Flights".into()), (shown.address.clone(), shown.title.clone())];
    let other = if units == UnitSystem::Imperial { "metric" } else { "imperial" };
    let links = html! {
        a href={ (address(&shown, id)) "?units=" (other) } { "in " (other) " units" }
        a href={ "/api" (address(&shown, id)) } { "JSON" }
    };
    let status = unfit.map_or(StatusCode::OK, |unfit| unfit.status);
    let page = Page { title: &title, crumbs: &crumbs, head: links };
    Ok((status, frame(&page, &body)).into_response())
}

fn address(shown: &Shown, id: i64) -> String {
    format!("{}/entries/{id}", shown.address)
}

/// What the entry tells, and what was before and after it.
fn told(shown: &Shown, entry: &Entry, next: Option<&Entry>, units: UnitSystem) -> Markup {
    let (kind, fields) = (entry.record.kind(), entry.record.fields());
    let names = kind.fields().iter().filter(|name| !NOT_FOR_PEOPLE.contains(*name));
    let values = names.filter_map(|name| Some((*name, fields.get(*name)?)));
    html! {
        table.compared {
            tbody {
                tr { th scope="row" { "kind" } td { (kind.word()) } }
                @for (name, text) in values { tr {
                    th scope="row" { (form::label(kind, name)) }
                    td { (super::history::told(name, text, units)) }
                } }
                tr { th scope="row" { "recorded" } td {
                    (entry.audit.at.strftime("%Y-%m-%d %H:%MZ")) ", " (entry.audit.by)
                    @if let Some(first) = &entry.first { "; " (first) }
                } }
                @if let (Some(old), Some(why)) = (entry.supersedes, &entry.why) {
                    tr { th scope="row" { "in the place of" } td {
                        a href=(address(shown, old)) { "entry " (old) } ": " (why)
                    } }
                }
            }
        }
        @match next {
            Some(next) => p.lead role="status" {
                strong { "No longer stands" } ", since " (next.audit.by)
                @if next.record.kind() == Kind::Withdrawal { " withdrew it" } @else { " corrected it" }
                ": " (next.why.as_deref().unwrap_or_default()) ". "
                a href=(address(shown, next.id)) { "Entry " (next.id) }
            },
            None => (super::pictures::of_entry(&shown.address, &shown.entries, entry, units)),
        }
        @if let Record::Assessment(_) = &entry.record {
            p { "It can be made again, and compared bit for bit: "
                code { "hardpan book FILE again " (entry.id) } }
        }
    }
}

fn forms(shown: &Shown, entry: &Entry, units: UnitSystem, unfit: Option<&Unfit>) -> Markup {
    let kind = entry.record.kind();
    let of = |is_withdrawal: bool| unfit.filter(|one| one.is_withdrawal == is_withdrawal);
    let own = entry.record.fields();
    let filled = |unfit: Option<&'_ Unfit>| {
        let author = shown.author.as_ref().map(|(name, _)| name.clone());
        author.unwrap_or_else(|| unfit.map(|unfit| unfit.by.clone()).unwrap_or_default())
    };
    let (correction, withdrawal) = (of(false), of(true));
    let correcting = Filled {
        fields: correction.map_or(&own, |unfit| &unfit.fields),
        by: &filled(correction),
        is_signed_in: shown.author.is_some(),
        units,
        wrong: correction.map_or(&[], |unfit| &unfit.wrong),
    };
    let nothing = Fields::new();
    let withdrawing = Filled {
        fields: &nothing,
        by: &filled(withdrawal),
        wrong: withdrawal.map_or(&[], |unfit| &unfit.wrong),
        ..correcting
    };
    html! {
        @if form::KINDS.contains(&kind) {
            details.log #correct open[correction.is_some()] {
                summary { "Correct this entry" }
                p.note { "Another entry takes its place; this one stays readable." }
                form method="post" action={ (address(shown, entry.id)) "/correct#correct" }
                    autocomplete="off" novalidate {
                    input type="hidden" name="token" value=(shown.token);
                    (units_kept(units))
                    (form::correction(kind, &correcting, correction.map_or("", |one| &one.why)))
                    button type="submit" { "Record the correction" }
                }
            }
        }
        details.log #withdraw open[withdrawal.is_some()] {
            summary { "Withdraw this entry" }
            p.note { "It counts no more, with nothing in its place, and stays readable." }
            form method="post" action={ (address(shown, entry.id)) "/withdraw#withdraw" }
                autocomplete="off" novalidate {
                input type="hidden" name="token" value=(shown.token);
                (units_kept(units))
                (form::withdrawal(kind, &withdrawing, withdrawal.map_or("", |one| &one.why)))
                button type="submit" { "Withdraw it" }
            }
        }
    }
}
