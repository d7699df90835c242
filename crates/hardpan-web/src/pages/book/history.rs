//! What was recorded, the newest first, with who recorded it and what took its
//! place.

use hardpan_book::{Entry, Record};
use maud::{Markup, html};
use std::collections::BTreeMap;

/// Entries that are shown.
const MOST: usize = 200;

/// Entries of a strip, and those without one.
pub(super) fn history(entries: &[Entry], strip: &str, fresh: Option<&str>) -> Markup {
    let taken: BTreeMap<i64, &Entry> =
        entries.iter().filter_map(|entry| Some((entry.supersedes?, entry))).collect();
    let of_strip = |entry: &&Entry| entry.record.strip().is_none_or(|own| own == strip);
    let mine: Vec<&Entry> = entries.iter().rev().filter(of_strip).collect();
    html! {
        section aria-labelledby="history-name" {
            h2 #history-name { "History" }
            p.note { (entries.len()) " entries in the book, each as it was written" }
            @if mine.is_empty() { p { "Nothing is recorded of this strip." } }
            ol.history reversed {
                @for entry in mine.iter().take(MOST) {
                    (show(entry, taken.get(&entry.id).copied(), fresh))
                }
            }
            @if mine.len() > MOST {
                p.note { (mine.len() - MOST) " older ones: " code { "hardpan book FILE list KIND" } }
            }
        }
    }
}

fn show(entry: &Entry, taken_by: Option<&Entry>, fresh: Option<&str>) -> Markup {
    let number = entry.id.to_string();
    let class = match (taken_by, fresh == Some(number.as_str())) {
        (Some(_), _) => "superseded",
        (None, true) => "fresh",
        (None, false) => "",
    };
    html! {
        li id={ "entry-" (number) } value=(number) class=(class) {
            p.what {
                strong { (entry.record.kind().word()) } " " (values(&entry.record))
                @if class == "fresh" { " " em { "recorded just now" } }
            }
            p.audit {
                "by " (entry.audit.by) ", " (entry.audit.at.strftime("%Y-%m-%d %H:%MZ"))
                @if let (Some(old), Some(why)) = (entry.supersedes, &entry.why) {
                    "; in the place of entry " (old) ": " (why)
                }
                @if let Some(by) = taken_by {
                    "; " strong { "no longer stands" } ", see entry " (by.id)
                }
            }
        }
    }
}

/// The values in words; the text of a frozen assessment is long and left out.
fn values(record: &Record) -> String {
    let fields = record.fields();
    let shown = record.kind().fields().iter().filter(|name| !["strip", "json"].contains(*name));
    let told = shown.filter_map(|name| {
        let value = fields.get(*name)?;
        Some(format!("{} {value}", name.replace('_', " ")))
    });
    told.collect::<Vec<_>>().join(", ")
}
