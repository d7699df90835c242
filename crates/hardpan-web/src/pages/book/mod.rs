//! The book of a strip: its state, what was recorded, and forms to record more.

pub(crate) mod entries;
pub(crate) mod export;
mod field;
mod form;
mod grading;
mod history;
pub(crate) mod import;
mod kept;
pub(crate) mod mending;
mod opened;
pub(crate) mod picture_form;
pub(crate) mod pictures;
mod post;
mod ruts;
pub(crate) mod single;
pub(crate) mod told;

pub(crate) use field::field;
pub(crate) use form::KINDS;
pub(crate) use grading::json as status_json;
pub(crate) use kept::{json as kept_json, kept};
pub(crate) use post::add;
pub(crate) use ruts::ruts;

use crate::account::{Role, visitor};
use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::shelf::{Entry as Listed, EntryKind};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use form::{Filled, Mistake};
use hardpan_book::{
    Book, Entry, Fields, GradingLimits, Kind, Status, current, damage_rate, due_dates,
    movements_by_month, opened_due, opened_months, passes_since_repair, status,
};
use hardpan_quantity::{
    Length, ParseError, Quantity as _, Time, UnitSystem, counted, parse, percent, seconds,
};
use jiff::Timestamp;
use jiff::tz::Offset;
use maud::{Markup, html};
use opened::{Entries, figures};
use std::collections::BTreeSet;

/// Keys of the page of a book: the long names of the options of `hardpan book`, and who
/// recorded which entry just now.
const OWN: [&str; 7] =
    ["strip", "inspected-within", "surveyed-within", "rut", "loose", "by", "entry"];

/// What an address asks of a book.
#[derive(Debug, Clone)]
pub(super) struct Asked {
    units: UnitSystem,
    strip: Option<String>,
    /// Longest time since the last inspection, as text.
    within: Option<String>,
    /// Greatest age of a survey, as text.
    surveyed: Option<String>,
    /// Depth of a rut at which the strip is graded, as text.
    rut: Option<String>,
    /// Depth of loose material at which it is graded, as text.
    loose: Option<String>,
    /// The flight whose gear turns passes into coverages.
    flight: Option<String>,
    /// Aeroplanes of the book with that gear.
    tails: Vec<String>,
    by: String,
    /// The entry that was just recorded.
    entry: Option<String>,
}

impl Asked {
    const fn new(units: UnitSystem) -> Self {
        Self {
            units,
            strip: None,
            within: None,
            surveyed: None,
            rut: None,
            loose: None,
            flight: None,
            tails: Vec::new(),
            by: String::new(),
            entry: None,
        }
    }

    /// Depths at which the strip is graded; a rut of 3 in where none is asked for.
    fn limits(&self) -> Result<GradingLimits, String> {
        let depth = |name: &str, text: Option<&str>| {
            let Some(text) = text else { return Ok(None) };
            match parse::<Length>(text) {
                Ok(depth) if depth.si() > 0.0 => Ok(Some(depth)),
                Ok(_) => Err(format!("{name}: {text} is not above 0.")),
                Err(error) => Err(format!("{name}: {error}.")),
            }
        };
        let usual = GradingLimits::default();
        let rut = depth("graded at a rut of", self.rut.as_deref())?;
        let loose = depth("graded at loose material of", self.loose.as_deref())?;
        Ok(GradingLimits { rut: rut.unwrap_or(usual.rut), loose })
    }

    /// The same in the other units, with their word.
    fn in_other_units(&self) -> (String, &'static str) {
        let mut out = form_urlencoded::Serializer::new(String::new());
        let word = match self.units {
            UnitSystem::Metric => "imperial",
            UnitSystem::Imperial => "metric",
        };
        out.append_pair("units", word);
        let asked = [
            ("strip", &self.strip),
            ("inspected-within", &self.within),
            ("surveyed-within", &self.surveyed),
            ("rut", &self.rut),
            ("loose", &self.loose),
            ("entry", &self.entry),
        ];
        for (key, value) in asked {
            value.as_ref().map(|value| out.append_pair(key, value));
        }
        (format!("?{}", out.finish()), word)
    }

    /// Read a query whose keys must be among these.
    fn read(query: Option<&str>, keys: &[&str]) -> Result<Self, Trouble> {
        let (query, own) = Query::of_own(query, keys)?;
        let text = |key: &str| Ok::<_, Trouble>(own.one(key)?.map(str::to_owned));
        Ok(Self {
            units: query.units,
            strip: text("strip")?,
            within: text("inspected-within")?,
            surveyed: text("surveyed-within")?,
            rut: text("rut")?,
            loose: text("loose")?,
            flight: text("flight")?,
            tails: own.all("tail"),
            by: text("by")?.unwrap_or_default(),
            entry: text("entry")?,
        })
    }
}

/// A book as the page shows it.
pub(super) struct Shown {
    title: String,
    /// Its file, as the shelf lists it.
    file: String,
    address: String,
    token: String,
    /// Name and role of who is signed in.
    author: Option<(String, Role)>,
    now: Timestamp,
    entries: Vec<Entry>,
    /// Strips of the book and of the strip files beside it.
    strips: BTreeSet<String>,
    /// The strip files beside it.
    grounds: Vec<Listed>,
}

impl Shown {
    /// That the book, or a strip file beside it, has the strip that is asked for.
    fn must_know(&self, strip: Option<&str>) -> Result<(), Trouble> {
        let Some(strip) = strip.filter(|strip| !self.strips.contains(*strip)) else {
            return Ok(());
        };
        let known = match self.strips.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
            [] => "there is none in either".to_owned(),
            names => format!("there is {}", names.join(", ")),
        };
        let said = format!(
            "Neither the book {} nor a strip file beside it knows a strip `{strip}`; {known}.",
            self.title
        );
        Err(Trouble::NotFound(said))
    }

    /// Kinds that who asks may record.
    fn recordable(&self) -> impl Iterator<Item = Kind> {
        let role = self.author.as_ref().map(|(_, role)| *role);
        form::KINDS.into_iter().filter(move |kind| role.is_none_or(|role| role.may_record(*kind)))
    }
}

/// Read and check a whole book.
pub(super) async fn shown(room: &Room, slug: &str) -> Result<Shown, Trouble> {
    let entries = room.entries().await?;
    let book = entries.iter().find(|entry| entry.kind == EntryKind::Book && entry.slug == slug);
    let book = book.cloned().ok_or(Trouble::NotListed(EntryKind::Book))?;
    let file = book.file.clone();
    let kept = blocking(move || {
        let path = std::path::Path::new(&file);
        Book::open(path).and_then(|book| book.verify_entries()).map_err(|error| error.to_string())
    });
    let kept =
        kept.await?.map_err(|why| Trouble::Broken(format!("The book cannot be read: {why}.")))?;
    let grounds = entries.iter().filter(|entry| entry.kind == EntryKind::Strip);
    let grounds: Vec<Listed> = grounds.cloned().collect();
    let of_files = grounds.iter().filter_map(|ground| ground.name.clone());
    let of_book = kept.iter().filter_map(|entry| entry.record.strip().map(str::to_owned));
    let visitor = visitor();
    Ok(Shown {
        title: book.title().to_owned(),
        file: book.file.clone(),
        address: format!("/books/{slug}"),
        token: visitor.as_ref().map_or_else(String::new, |visitor| visitor.token.clone()),
        author: visitor.and_then(|visitor| visitor.account),
        now: room.shelf.now(),
        strips: of_files.chain(of_book).collect(),
        grounds,
        entries: kept,
    })
}

pub(crate) async fn book(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let asked = Asked::read(query.as_deref(), &OWN)?;
        let shown = shown(&room, &slug).await?;
        shown.must_know(asked.strip.as_deref())?;
        Ok(page(&shown, &asked, None))
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.page(), IntoResponse::into_response)
}

/// What was written into a form that was refused.
pub(super) struct Refused {
    kind: Kind,
    fields: Fields,
    wrong: Vec<Mistake>,
}

/// The page of a book, with a form that was refused open again.
pub(super) fn page(shown: &Shown, asked: &Asked, refused: Option<&Refused>) -> Html<String> {
    let strip = asked.strip.clone().or_else(|| shown.strips.first().cloned());
    let body = html! {
        main.plain.book-page {
            h1 { "Book " (shown.title) }
            @match &strip {
                None => {
                    p { "The book holds nothing yet and no strip file stands beside it. Start \
                         with the command: " code { "hardpan book FILE add movement …" } }
                }
                Some(strip) => {
                    (choose(shown, asked, strip))
                    (state(shown, asked, strip))
                    section.log-part aria-labelledby="log-name" {
                        h2 #log-name { "Log" }
                        p { a href={ (shown.address) "/field" } { "Field log" }
                            ": works on a phone without a connection, takes pictures, and is sent later" }
                        @if shown.recordable().next().is_some() {
                            p { a href={ (shown.address) "/import" } { "Take over a file" }
                                ": CSV, the JSON of another book, or GeoJSON" }
                        }
                        @for kind in shown.recordable() { (log(shown, asked, strip, kind, refused)) }
                        @if shown.recordable().next().is_none() {
                            p { "Your account reads the book and records nothing." }
                        }
                    }
                    (export::offer(shown, Some(strip)))
                    (history::history(shown, strip, asked))
                }
            }
        }
    };
    let (other, word) = asked.in_other_units();
    let links = html! {
        a href={ (shown.address) (other) } { "in " (word) " units" }
        a href={ (shown.address) "/kept" } { "Versions" }
        @if strip.is_some() { a href="#files" { "As a file" } }
    };
    let page = Page { title: &shown.title, crumbs: &[("/".into(), "Flights".into())], head: links };
    frame(&page, &body)
}

fn choose(shown: &Shown, asked: &Asked, strip: &str) -> Markup {
    html! {
        form.choose method="get" action=(shown.address) {
            (units_kept(asked.units))
            div.field {
                label for="strip" { "strip" }
                select #strip name="strip" {
                    @for name in &shown.strips { option value=(name) selected[name == strip] { (name) } }
                }
            }
            div.field {
                label for="inspected-within" { "inspection no older than" }
                input #inspected-within name="inspected-within" type="text" placeholder="7 d" maxlength="20"
                    value=(asked.within.as_deref().unwrap_or_default());
            }
            div.field {
                label for="surveyed-within" { "survey no older than" }
                input #surveyed-within name="surveyed-within" type="text" placeholder="365 d" maxlength="20"
                    value=(asked.surveyed.as_deref().unwrap_or_default());
            }
            @for (name, label, example, value) in [
                ("rut", "graded at a rut of", "76 mm", &asked.rut),
                ("loose", "graded at loose material of", "none is published", &asked.loose),
            ] {
                div.field {
                    label for=(name) { (label) }
                    input #(name) name=(name) type="text" placeholder=(example) maxlength="20"
                        value=(value.as_deref().unwrap_or_default());
                }
            }
            button type="submit" { "Show" }
        }
    }
}

/// The reader's units, carried on by a form.
pub(super) fn units_kept(units: UnitSystem) -> Markup {
    html! {
        @if units == UnitSystem::Imperial { input type="hidden" name="units" value="imperial"; }
    }
}

fn log(shown: &Shown, asked: &Asked, strip: &str, kind: Kind, refused: Option<&Refused>) -> Markup {
    let mine = refused.filter(|refused| refused.kind == kind);
    let mut suggested = Fields::new();
    let moment = shown.now.strftime("%Y-%m-%dT%H:%M:00Z").to_string();
    for name in ["at", "date"] {
        if kind.fields().contains(&name) {
            let text =
                if name == "at" { moment.clone() } else { moment.chars().take(10).collect() };
            suggested.insert(name.to_owned(), text);
        }
    }
    let filled = Filled {
        fields: mine.map_or(&suggested, |refused| &refused.fields),
        by: shown.author.as_ref().map_or(&*asked.by, |(name, _)| name),
        is_signed_in: shown.author.is_some(),
        units: asked.units,
        wrong: mine.map_or(&[], |refused| &refused.wrong),
    };
    form::form(&shown.address, &shown.token, strip, kind, &filled)
}

/// The state of the strip, as far as the book tells.
fn state(shown: &Shown, asked: &Asked, strip: &str) -> Markup {
    let standing: Vec<&Entry> = current(&shown.entries);
    let longest = asked.within.as_deref().map(parse::<Time>);
    let surveyed = asked.surveyed.as_deref().map(parse::<Time>).transpose();
    let passes = passes_since_repair(&standing, strip);
    let since = passes.since.map_or_else(String::new, |day| format!(" since the repair of {day}"));
    let entries = Entries::of(shown, asked.units);
    html! {
        section.state aria-labelledby="state-name" {
            h2 #state-name { "State of " (strip) }
            @match longest.map(|longest| Ok::<_, ParseError>((longest?, surveyed?))) {
                None => {
                    @let found = status(&standing, strip, shown.now, seconds(0.0), None);
                    @if found.state == hardpan_book::State::Closed { (verdict(&found)) }
                    @else {
                        p { "State how old an inspection may be, and the book says whether the \
                             strip is open. Nothing is taken for granted." }
                        @if !found.ahead.is_empty() {
                            ul { @for ahead in &found.ahead { li { "Ahead: " (ahead) } } }
                        }
                    }
                },
                Some(Err(error)) => p.wrong role="alert" {
                    "inspection or survey no older than: " (error)
                },
                Some(Ok((longest, surveyed))) => {
                    (verdict(&status(&standing, strip, shown.now, longest, surveyed)))
                }
            }
            p { "Passes" (since) ": " strong { (passes.count) } " "
                a href={ (shown.address) "/ruts?" (ruts_of(strip, asked.units)) } {
                    "By stretch, with the ruts foretold and measured"
                } }
            (entries.how("the passes", &figures(passes.opened())))
            (damage(&standing, strip, &entries))
            (grading::due(&standing, strip, shown.now, asked, &entries))
            @let months = movements_by_month(&standing, strip);
            @if !months.is_empty() {
                table.months {
                    thead { tr { th scope="col" { "month" } th scope="col" { "landings" }
                        th scope="col" { "take-offs" } } }
                    tbody { @for (month, (landings, take_offs)) in &months { tr {
                        th scope="row" { (month) } td { (landings) } td { (take_offs) }
                    } } }
                }
                @let opened = opened_months(&standing, strip).into_values();
                (entries.how("the movements", &opened.flat_map(figures).collect::<Vec<_>>()))
            }
            (due(&standing, shown.now, &entries))
        }
    }
}

/// The query of the page of ruts.
fn ruts_of(strip: &str, units: UnitSystem) -> String {
    let mut out = form_urlencoded::Serializer::new(String::new());
    out.append_pair("strip", strip);
    if units == UnitSystem::Imperial {
        out.append_pair("units", "imperial");
    }
    out.finish()
}

/// Damage for each 1,000 movements with its interval.
fn damage(standing: &[&Entry], strip: &str, entries: &Entries<'_>) -> Markup {
    let rate = damage_rate(standing, strip, percent(90.0)).ok();
    html! {
        @if let Some((rate, mean, limits)) = rate.as_ref().and_then(|r| Some((r, r.rate?, r.limits?))) {
            p { "Damage: " (counted(rate.reports, "report", "reports")) " in "
                (counted(rate.movements, "movement", "movements")) ", "
                strong { (format!("{mean:.1}")) } " for each 1,000 (90 % interval "
                (format!("{:.1} to {:.1}", limits.lower, limits.upper)) ")" }
            (entries.how("the damage figures", &figures(rate.opened(""))))
        }
    }
}

/// What must be looked at again, the overdue first.
fn due(standing: &[&Entry], now: Timestamp, entries: &Entries<'_>) -> Markup {
    let today = Offset::UTC.to_datetime(now).date();
    let all = due_dates(standing);
    html! {
        @if !all.is_empty() {
            table.due {
                caption { "To be looked at again" }
                thead { tr { th scope="col" { "of" } th scope="col" { "what" }
                    th scope="col" { "by" } th scope="col" { "left" } } }
                tbody { @for one in &all { tr {
                    th scope="row" { (one.subject) }
                    td { (one.what) }
                    @match (one.date, one.days_left(today)) {
                        (Some(date), Some(days)) => {
                            td { (date) }
                            td { @if days < 0 { strong { "overdue, " (-days) "\u{a0}d" } }
                                @else { (days) "\u{a0}d" } }
                        }
                        _ => td colspan="2" { "no day is stated, so nobody knows" },
                    }
                } } }
            }
            @let opened = all.iter().flat_map(|one| figures(opened_due(one, today)));
            (entries.how("the days that are left", &opened.collect::<Vec<_>>()))
        }
    }
}

fn verdict(found: &Status) -> Markup {
    let (class, sign) = match found.state {
        hardpan_book::State::Open => ("pass", "✓"),
        hardpan_book::State::Restricted => ("conditional", "!"),
        hardpan_book::State::Closed => ("fail", "✗"),
        hardpan_book::State::NotKnown => ("unproven", "?"),
    };
    html! {
        p.state-word { span class={ "verdict v-" (class) } {
            span.sign aria-hidden="true" { (sign) } " " (found.state.words())
        } }
        ul {
            @for reason in &found.reasons { li { (reason) } }
            @for ahead in &found.ahead { li { "Ahead: " (ahead) } }
        }
    }
}
