//! What the books on the shelf say of a strip, in words: closed, restricted, or due to be
//! graded.

use crate::desk::blocking;
use crate::routes::Room;
use crate::shelf::{EntryKind, Recorded};
use crate::trouble::Trouble;
use hardpan_model::{ClosedSpan, StripState, StripTold};
use jiff::tz::Offset;
use jiff::{Span, Timestamp};
use maud::{Markup, html};
use std::sync::Arc;

/// Grading that is due within so many days is told. Judgement.
const SOON_DAYS: i64 = 30;

/// What a book says of a strip now.
pub(crate) struct Said {
    /// Address of the page of the book at this strip.
    pub(crate) address: String,
    /// Name of the book.
    pub(crate) book: String,
    recorded: Recorded,
    now: Timestamp,
}

/// What each book on the shelf says of a strip now.
pub(crate) async fn said_of(room: &Room, strip: Option<&str>) -> Result<Vec<Said>, Trouble> {
    let Some(strip) = strip.map(str::to_owned) else { return Ok(Vec::new()) };
    let (shelf, now) = (Arc::clone(&room.shelf), room.shelf.now());
    let work = move || {
        let recorded = shelf.recorded(&strip, now);
        let entries = if recorded.is_empty() { Vec::new() } else { shelf.entries() };
        let said = recorded.into_iter().filter_map(|recorded| {
            let is_it = |entry: &&crate::shelf::Entry| {
                entry.kind == EntryKind::Book && entry.file == recorded.file
            };
            let entry = entries.iter().find(is_it)?;
            let query = form_urlencoded::Serializer::new(String::new())
                .append_pair("strip", &strip)
                .finish();
            let address = format!("/books/{}?{query}", entry.slug);
            Some(Said { address, book: entry.title().to_owned(), recorded, now })
        });
        said.collect()
    };
    blocking(work).await
}

impl Said {
    /// The book, as the shelf lists it.
    pub(crate) fn file(&self) -> &str {
        &self.recorded.file
    }

    fn state(&self) -> Option<&StripState> {
        match &self.recorded.told {
            StripTold::State(state) => Some(state),
            _ => None,
        }
    }

    /// The closures that are in force.
    fn closed(&self) -> Vec<&ClosedSpan> {
        let holds = |span: &&ClosedSpan| {
            span.from.value <= self.now
                && span.until.as_ref().is_none_or(|until| self.now < until.value)
        };
        self.state().map(|state| state.closures.iter().filter(holds).collect()).unwrap_or_default()
    }

    /// The word for it, with its verdict and sign, where something stands against use.
    fn word(&self) -> Option<(&'static str, &'static str, &'static str)> {
        if !self.closed().is_empty() {
            return Some(("closed", "fail", "✗"));
        }
        match &self.recorded.told {
            StripTold::Unreadable(_) => Some(("book cannot be read", "unproven", "?")),
            StripTold::State(state) if !state.restrictions.is_empty() => {
                Some(("restricted", "conditional", "!"))
            }
            _ if self.due().is_some() => Some(("grading due", "conditional", "!")),
            _ => None,
        }
    }

    fn due(&self) -> Option<String> {
        let (day, place) = self.recorded.due.as_ref()?;
        let today = Offset::UTC.to_datetime(self.now).date();
        let last = today.checked_add(Span::new().days(SOON_DAYS)).ok()?;
        (*day <= last).then(|| format!("grading due {day}: {place}"))
    }

    /// Everything that stands against use, a sentence each.
    fn reasons(&self) -> Vec<String> {
        let mut all: Vec<String> =
            self.closed().into_iter().map(|span| format!("closed {}", words(span))).collect();
        if let StripTold::Unreadable(why) = &self.recorded.told {
            all.push(format!("nobody knows whether the strip is closed: {why}"));
        }
        let held = self.state().into_iter().flat_map(|state| &state.restrictions);
        all.extend(held.map(|one| one.value.clone()));
        all.extend(self.due());
        let ahead = self.state().into_iter().flat_map(|state| &state.closures);
        let ahead = ahead.filter(|span| span.from.value > self.now);
        all.extend(ahead.map(|span| format!("closure ahead, {}", words(span))));
        all
    }

    /// When the strip was last inspected.
    fn seen(&self) -> String {
        let seen = self.state().and_then(|state| state.inspected.as_ref());
        seen.map_or_else(
            || "no inspection is recorded".to_owned(),
            |seen| format!("no closure is recorded; inspected {}", moment(seen.value)),
        )
    }
}

fn words(span: &ClosedSpan) -> String {
    let until = span
        .until
        .as_ref()
        .map_or_else(String::new, |until| format!(" until {}", moment(until.value)));
    format!("from {}{until}: {} ({})", moment(span.from.value), span.reason, span.by)
}

fn moment(at: Timestamp) -> String {
    at.strftime("%Y-%m-%d %H:%MZ").to_string()
}

/// One word for each book that holds something against a strip, for a list.
pub(crate) fn marks(said: &[Said]) -> Markup {
    html! {
        @for (one, (word, class, sign)) in said.iter().filter_map(|one| Some((one, one.word()?))) {
            " " a.by-book href=(one.address) title=(one.reasons().join("; ")) {
                span class={ "verdict v-" (class) } { span.sign aria-hidden="true" { (sign) } " " (word) }
            }
        }
    }
}

/// What each book says of a strip now.
pub(crate) fn paragraphs(said: &[Said]) -> Markup {
    html! {
        @for one in said {
            p.by-book {
                @if let Some((word, class, sign)) = one.word() {
                    span class={ "verdict v-" (class) } {
                        span.sign aria-hidden="true" { (sign) } " " (word) " now"
                    } " "
                }
                "By the book " a href=(one.address) { (one.book) } ": "
                @let reasons = one.reasons();
                @if reasons.is_empty() { (one.seen()) } @else { (reasons.join("; ")) }
                "."
            }
        }
    }
}
