//! What was recorded, the newest first, with who recorded it and what took its
//! place.

use super::picture_form::is_offered;
use super::single::NOT_FOR_PEOPLE;
use super::{Asked, Shown};
use hardpan_book::{Entry, Kind, Record};
use hardpan_quantity::{UnitSystem, counted};
use hardpan_report::{field_text, glued};
use maud::{Markup, html};
use std::collections::BTreeMap;

/// Entries that are shown.
const MOST: usize = 200;

/// Entries of a strip, and those without one.
pub(super) fn history(shown: &Shown, strip: &str, asked: &Asked) -> Markup {
    let entries = &shown.entries;
    let taken: BTreeMap<i64, &Entry> =
        entries.iter().filter_map(|entry| Some((entry.supersedes?, entry))).collect();
    let of_strip = |entry: &&Entry| entry.record.strip().is_none_or(|own| own == strip);
    let mine: Vec<&Entry> = entries.iter().rev().filter(of_strip).collect();
    html! {
        section aria-labelledby="history-name" {
            h2 #history-name { "History" }
            p.note { (counted(entries.len(), "entry", "entries")) " in the book, each as it was written; an entry opens to be corrected or withdrawn" }
            @if mine.is_empty() { p { "Nothing is recorded of this strip." } }
            ol.history reversed {
                @for entry in mine.iter().take(MOST) {
                    (show(shown, entry, taken.get(&entry.id).copied(), asked))
                }
            }
            @if mine.len() > MOST {
                p.note { (counted(mine.len() - MOST, "older one", "older ones")) ": " code { "hardpan book FILE list KIND" } }
            }
        }
    }
}

fn show(shown: &Shown, entry: &Entry, taken_by: Option<&Entry>, asked: &Asked) -> Markup {
    let number = entry.id.to_string();
    let units = asked.units;
    let address = format!("{}/entries/", shown.address);
    let class = match (taken_by, asked.entry.as_deref() == Some(number.as_str())) {
        (Some(_), _) => "superseded",
        (None, true) => "fresh",
        (None, false) => "",
    };
    html! {
        li id={ "entry-" (number) } value=(number) class=(class) {
            p.what {
                strong { (entry.record.kind().word()) } ". " (values(&entry.record, units))
                @if class == "fresh" { " " em { "recorded just now" } }
            }
            p.audit {
                a href={ (address) (number) } { "Entry " (number) } " by " (entry.audit.by) ", " (entry.audit.at.strftime("%Y-%m-%d %H:%MZ"))
                @if let Some(first) = &entry.first { ", " (first) }
                @if let (Some(old), Some(why)) = (entry.supersedes, &entry.why) {
                    "; in the place of " a href={ (address) (old) } { "entry " (old) } ": " (why)
                }
                @if let Some(by) = taken_by {
                    "; " strong { "no longer stands" } ", see "
                    a href={ (address) (by.id) } { "entry " (by.id) }
                }
            }
            @if taken_by.is_none() {
                (super::pictures::of_entry(&shown.address, &shown.entries, entry, units))
                @if is_offered(entry, shown.author.as_ref().map(|(_, role)| *role)) {
                    p.audit.add-picture { a href={ (shown.address) "/entries/" (number) "/picture" } {
                        "Add a picture" span.unseen { " of entry " (number) }
                    } }
                }
            }
        }
    }
}

/// The values in words; the text of a frozen assessment is long and left out.
fn values(record: &Record, units: UnitSystem) -> String {
    let fields = record.fields();
    let kind = record.kind();
    let shown = kind.fields().iter();
    let shown = shown.filter(|name| **name != "strip" && !NOT_FOR_PEOPLE.contains(*name));
    let told = shown.filter_map(|name| {
        let value = fields.get(*name)?;
        Some(named(kind, name, value, units))
    });
    told.collect::<Vec<_>>().join("; ")
}

/// A value of a record behind the words of its form.
pub(super) fn named(kind: Kind, name: &str, text: &str, units: UnitSystem) -> String {
    format!("{}: {}", super::form::label(kind, name), told(name, text, units))
}

/// A value of a record in the units of its reader; its number keeps to its unit.
pub(super) fn told(name: &str, text: &str, units: UnitSystem) -> String {
    let told = field_text(name, text, units);
    let is_amount = text.split_once(' ').is_some_and(|(number, _)| number.parse::<f64>().is_ok());
    if told == text && !is_amount { told } else { glued(&told) }
}

#[cfg(test)]
mod tests {
    use super::values;
    use hardpan_book::{Fields, Kind, Record};
    use hardpan_quantity::UnitSystem::{Imperial, Metric};
    use hardpan_report::field_text;

    #[test]
    fn a_value_is_told_in_the_units_of_its_reader() {
        for (name, stored, metric, imperial) in [
            ("rut", "0.0508 m", "51 mm", "2.0 in"),
            ("rut_station", "640 m", "640 m", "2100 ft"),
            ("from", "2026-06-18T15:00:00Z", "2026-06-18T15:00:00Z", "2026-06-18T15:00:00Z"),
            ("remarks", "30 m", "30 m", "30 m"),
        ] {
            let plain = |units| field_text(name, stored, units).replace('\u{a0}', " ");
            assert_eq!((plain(Metric).as_str(), plain(Imperial).as_str()), (metric, imperial));
        }
    }

    #[test]
    fn a_value_stands_behind_its_name_and_apart_from_the_next() {
        let stated =
            [("strip", "North"), ("date", "2026-06-10"), ("from", "500 m"), ("to", "700 m")];
        let stated = stated.into_iter().chain([("what", "gravel laid, compacted")]);
        let fields: Fields = stated.map(|(name, text)| (name.into(), text.into())).collect();
        let record = Record::from_fields(Kind::Repair, &fields).expect("a repair");
        assert_eq!(
            values(&record, Metric).replace('\u{a0}', " "),
            "day: 2026-06-10; from station: 500 m; to station: 700 m; what was done: gravel laid, \
             compacted"
        );
    }
}
