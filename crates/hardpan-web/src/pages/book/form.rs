//! The forms of the book: what is asked, in which words, with which example.

use crate::page::sentence;
use hardpan_book::{BookError, Fields, Kind};
use hardpan_quantity::{UnitSystem, counted};
use maud::{Markup, html};

/// What is asked of one value.
pub(super) struct Asked {
    pub(super) name: &'static str,
    label: &'static str,
    example: &'static str,
    is_needed: bool,
    /// What may be chosen; empty for a text.
    choices: &'static [&'static str],
}

const fn needed(name: &'static str, label: &'static str, example: &'static str) -> Asked {
    Asked { name, label, example, is_needed: true, choices: &[] }
}

const fn maybe(name: &'static str, label: &'static str, example: &'static str) -> Asked {
    Asked { name, label, example, is_needed: false, choices: &[] }
}

const fn choice(
    name: &'static str,
    label: &'static str,
    is_needed: bool,
    choices: &'static [&'static str],
) -> Asked {
    Asked { name, label, example: "", is_needed, choices }
}

/// Name of the value that says who records.
pub(super) const BY: &str = "by";

const STATION: &str = "640 m";
const DAY: &str = "2026-06-18";
const MOMENT: &str = "2026-06-18T15:00:00Z";

/// The strip of an entry; the form that records takes that of its page.
const STRIP: Asked = needed("strip", "strip", "North");

/// Kinds that the page records, in the order of their use.
pub(crate) const KINDS: [Kind; 7] = [
    Kind::Movement,
    Kind::Inspection,
    Kind::Damage,
    Kind::Repair,
    Kind::Closure,
    Kind::Equipment,
    Kind::Survey,
];

const MOVEMENT: &[Asked] = &[
    choice("kind", "landing or take-off", true, &["landing", "take-off"]),
    needed("tail", "aeroplane", "101"),
    needed("at", "when, UTC", MOMENT),
    needed("mass", "mass", "39.6 t"),
    maybe("pressure", "main tyre pressure", "100 psi"),
    maybe("direction", "runway", "25"),
    maybe("rolled_from", "rolled from station", "1900 m"),
    maybe("rolled_to", "rolled to station", "700 m"),
    maybe("remarks", "remarks", ""),
];

const INSPECTION: &[Asked] = &[
    needed("at", "when, UTC", MOMENT),
    needed("rut", "deepest rut (0 if none)", "12 mm"),
    maybe("rut_station", "station of the rut", STATION),
    choice("rut_lane", "lane of the rut", false, &["left main", "nose", "right main"]),
    needed("water", "deepest water (0 if none)", "0 mm"),
    maybe("water_station", "station of the water", STATION),
    maybe("loose", "deepest loose material", "20 mm"),
    maybe("loose_station", "station of the loose material", STATION),
    maybe("photos", "names of photographs", "rut-640.jpg"),
    maybe("remarks", "remarks", ""),
];

const DAMAGE: &[Asked] = &[
    needed("tail", "aeroplane", "101"),
    needed("date", "day", DAY),
    needed("zone", "where on the aeroplane", "left inboard flap"),
    choice("phase", "phase", true, &["landing", "taxi", "take-off", "not known"]),
    maybe("size", "greatest extent", "30 mm"),
    maybe("stone", "size of the stone, if found", "25 mm"),
    maybe("station", "station, if known", STATION),
    maybe("photos", "names of photographs", "flap-left.jpg"),
    maybe("remarks", "remarks", ""),
];

const REPAIR: &[Asked] = &[
    needed("date", "day", DAY),
    needed("from", "from station", "600 m"),
    needed("to", "to station", "690 m"),
    needed("what", "what was done", "100 mm of gravel laid and compacted"),
];

const CLOSURE: &[Asked] = &[
    choice("action", "closed or reopened", true, &["closed", "reopened"]),
    needed("from", "from when on, UTC", MOMENT),
    needed("reason", "why", "soft after rain"),
];

const EQUIPMENT: &[Asked] = &[
    needed("tail", "aeroplane", "101"),
    needed("item", "piece of equipment", "nose gear deflector"),
    choice("state", "its state", true, &["serviceable", "unserviceable", "removed"]),
    needed("at", "when, UTC", MOMENT),
    maybe("due", "to be looked at again by", DAY),
    maybe("remarks", "remarks", ""),
];

const SURVEY: &[Asked] = &[
    choice("what", "what was measured", true, &["levels", "soundings", "strength tests", "ruts"]),
    needed("date", "day", DAY),
    needed("file", "file that holds it", "survey.csv"),
    maybe("digest", "SHA-256 of the file", ""),
    maybe("due", "to be measured again by", DAY),
    maybe("remarks", "remarks", ""),
];

/// What a kind of record asks, apart from the strip and who records it.
pub(super) const fn asked(kind: Kind) -> &'static [Asked] {
    match kind {
        Kind::Movement => MOVEMENT,
        Kind::Inspection => INSPECTION,
        Kind::Damage => DAMAGE,
        Kind::Repair => REPAIR,
        Kind::Closure => CLOSURE,
        Kind::Equipment => EQUIPMENT,
        Kind::Survey => SURVEY,
        _ => &[],
    }
}

/// What a form holds: what was written before it was refused, or suggestions.
#[derive(Clone, Copy)]
pub(super) struct Filled<'a> {
    pub(super) fields: &'a Fields,
    pub(super) by: &'a str,
    /// Whether that is the account, which cannot be changed.
    pub(super) is_signed_in: bool,
    pub(super) units: UnitSystem,
    /// Why it was refused; nothing if it was not.
    pub(super) wrong: &'a [Mistake],
}

/// Something that stands against a record.
pub(super) struct Mistake {
    /// The value of the form that is wrong, if it is one.
    pub(super) name: Option<String>,
    /// What is wrong with it; else a sentence.
    pub(super) what: String,
}

impl Mistake {
    /// Something wrong with a value, beside it if the form has it.
    pub(super) fn of(kind: Kind, name: &str, what: &str) -> Self {
        if name == BY || asked(kind).iter().any(|one| one.name == name) {
            return Self { name: Some(name.to_owned()), what: what.to_owned() };
        }
        Self { name: None, what: format!("{kind}, {}: {what}.", label(kind, name)) }
    }

    pub(super) fn told(error: &BookError) -> Self {
        match error {
            BookError::Value { kind, field, what } => Self::of(*kind, field, what),
            other => Self { name: None, what: format!("{other}.") },
        }
    }
}

/// The form of a kind.
pub(super) fn form(
    address: &str,
    token: &str,
    strip: &str,
    kind: Kind,
    filled: &Filled<'_>,
) -> Markup {
    let word = kind.word();
    let open = !filled.wrong.is_empty();
    html! {
        details.log id={ "log-" (word) } open[open] {
            summary { "Log " (kind.with_article()) }
            // The book tells every mistake at once, a browser the first of some.
            form method="post" action={ (address) "/add#log-" (word) } autocomplete="off"
                novalidate {
                input type="hidden" name="token" value=(token);
                input type="hidden" name="record" value=(word);
                input type="hidden" name="strip" value=(strip);
                (super::units_kept(filled.units))
                @if open { (refusal(kind, filled.wrong)) }
                div.entries {
                    @for one in asked(kind) { (field(word, one, filled.fields, filled.wrong)) }
                    (by(word, filled))
                }
                button type="submit" { "Record " (kind.with_article()) }
            }
        }
    }
}

/// What is asked to correct an entry: its values as they stand, why, and who.
pub(super) fn correction(kind: Kind, filled: &Filled<'_>, why: &str) -> Markup {
    let word = kind.word();
    html! {
        @if !filled.wrong.is_empty() { (refusal(kind, filled.wrong)) }
        div.entries {
            @if kind.fields().contains(&"strip") { (field(word, &STRIP, filled.fields, &[])) }
            @for one in asked(kind) { (field(word, one, filled.fields, filled.wrong)) }
            (reason(word, "why it is corrected", why))
            (by(word, filled))
        }
    }
}

/// What is asked to take an entry back: why, and who.
pub(super) fn withdrawal(kind: Kind, filled: &Filled<'_>, why: &str) -> Markup {
    html! {
        @if !filled.wrong.is_empty() { (refusal(kind, filled.wrong)) }
        div.entries {
            (reason("withdrawal", "why it is taken back", why))
            (by("withdrawal", filled))
        }
    }
}

fn reason(word: &str, label: &str, why: &str) -> Markup {
    let id = format!("{word}-why");
    html! {
        div.field {
            label for=(id) { (label) }
            input #(id) name="why" type="text" value=(why) required maxlength="400";
        }
    }
}

/// What is wrong, with the way to each value.
fn refusal(kind: Kind, wrong: &[Mistake]) -> Markup {
    let is_wrong = |name: &str| wrong.iter().any(|one| one.name.as_deref() == Some(name));
    let names = asked(kind).iter().map(|one| one.name).chain([BY]);
    let names: Vec<&str> = names.filter(|name| is_wrong(name)).collect();
    html! {
        p.wrong role="alert" {
            "Not recorded."
            @for one in wrong.iter().filter(|one| one.name.is_none()) { " " (one.what) }
            @if !names.is_empty() {
                " " (counted(names.len(), "value", "values")) " cannot be used: "
                @for (index, name) in names.iter().enumerate() {
                    @if index > 0 { ", " }
                    a href={ "#" (kind) "-" (name) } { (label(kind, name)) }
                }
                "."
            }
        }
    }
}

/// What is said of a kind of record that no form has.
pub(super) fn no_such_kind() -> String {
    let known: Vec<&str> = KINDS.iter().map(|kind| kind.word()).collect();
    format!("There is no such kind of record; the book takes {}.", known.join(", "))
}

fn by(word: &str, filled: &Filled<'_>) -> Markup {
    let id = format!("{word}-{BY}");
    let (is_wrong, help) = marked(&id, BY, filled.wrong);
    html! {
        div.field {
            label for=(id) { "recorded by" }
            input #(id) name=(BY) type="text" value=(filled.by) required maxlength="80"
                readonly[filled.is_signed_in] aria-invalid=[is_wrong]
                aria-describedby=[help.as_deref()];
            (said(&id, BY, filled.wrong))
        }
    }
}

/// How a control says that its value is wrong, and where that is told.
fn marked(id: &str, name: &str, wrong: &[Mistake]) -> (Option<&'static str>, Option<String>) {
    let is_wrong = wrong.iter().any(|one| one.name.as_deref() == Some(name));
    is_wrong.then(|| ("true", format!("{id}-wrong"))).unzip()
}

/// What is wrong with a value, beside it.
fn said(id: &str, name: &str, wrong: &[Mistake]) -> Markup {
    let mine: Vec<String> = wrong
        .iter()
        .filter(|one| one.name.as_deref() == Some(name))
        .map(|one| sentence(&one.what))
        .collect();
    html! {
        @if !mine.is_empty() { p.wrong id={ (id) "-wrong" } { (mine.join(" ")) } }
    }
}

/// What a kind asks, empty.
pub(super) fn fields(kind: Kind) -> Markup {
    let nothing = Fields::new();
    html! { @for one in asked(kind) { (field(kind.word(), one, &nothing, &[])) } }
}

/// A value of a record in the words of its form.
pub(super) fn label(kind: Kind, name: &str) -> String {
    if name == BY {
        return "recorded by".to_owned();
    }
    let found = asked(kind).iter().find(|one| one.name == name);
    let label = found.map_or(name, |one| one.label.split(" (").next().unwrap_or(one.label));
    label.replace('_', " ")
}

/// An error about a value of a record, with the words of its form.
pub(super) fn in_words(error: &BookError) -> String {
    match error {
        BookError::Value { kind, field, what } => {
            format!("{kind}, {}: {what}", label(*kind, field))
        }
        other => other.to_string(),
    }
}

/// The form of a value, so that a browser without a connection can say what is
/// wrong; the book itself decides.
fn pattern(asked: &Asked) -> Option<(&'static str, &'static str)> {
    match asked.example {
        MOMENT => Some((
            r"\s*[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}.*(Z|[+\-][0-9]{2}:?[0-9]{2})\s*",
            "day and time, such as 2026-06-18T15:00:00Z",
        )),
        DAY => Some((r"\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*", "a day, such as 2026-06-18")),
        example
            if example.starts_with(|c: char| c.is_ascii_digit())
                && example.contains(' ')
                && example.len() < 8 =>
        {
            Some((
                r"\s*[0-9][0-9.,]*\s*[^0-9\s.,].*",
                "a number with its unit, such as 12 mm or 40 t",
            ))
        }
        _ => None,
    }
}

/// The depth that a place belongs to.
fn belongs_to(name: &str) -> Option<&'static str> {
    match name {
        "rut_station" | "rut_lane" => Some("rut"),
        "water_station" => Some("water"),
        "loose_station" => Some("loose"),
        _ => None,
    }
}

fn field(word: &str, asked: &Asked, fields: &Fields, wrong: &[Mistake]) -> Markup {
    let id = format!("{word}-{}", asked.name);
    let value = fields.get(asked.name).map_or("", String::as_str);
    let with = belongs_to(asked.name);
    let (form, example) = pattern(asked).unzip();
    let (is_wrong, help) = marked(&id, asked.name, wrong);
    html! {
        div.field {
            label for=(id) { (asked.label) @if !asked.is_needed { span.may { " (may be empty)" } } }
            @if asked.choices.is_empty() {
                input #(id) name=(asked.name) type="text" value=(value) required[asked.is_needed]
                    placeholder=(asked.example) maxlength="400" data-with=[with]
                    pattern=[form] title=[example] aria-invalid=[is_wrong]
                    aria-describedby=[help.as_deref()];
            } @else {
                select #(id) name=(asked.name) required[asked.is_needed] data-with=[with]
                    aria-invalid=[is_wrong] aria-describedby=[help.as_deref()] {
                    option value="" selected[value.is_empty()] {}
                    @for choice in asked.choices {
                        option value=(choice) selected[*choice == value] { (choice) }
                    }
                }
            }
            (said(&id, asked.name, wrong))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{KINDS, asked};
    use hardpan_book::{Fields, Record};

    #[test]
    fn every_form_asks_what_its_record_holds() {
        for kind in KINDS {
            let mut named: Vec<&str> = asked(kind).iter().map(|one| one.name).collect();
            named.extend(kind.fields().iter().filter(|name| **name == "strip"));
            named.sort_unstable();
            let mut known = kind.fields().to_vec();
            known.sort_unstable();
            assert_eq!(named, known, "{kind}");
        }
    }

    #[test]
    fn examples_and_choices_can_be_recorded() {
        for kind in KINDS {
            let mut fields = Fields::new();
            if kind.fields().contains(&"strip") {
                fields.insert("strip".to_owned(), "North".to_owned());
            }
            for one in asked(kind) {
                let text = one.choices.first().copied().unwrap_or(one.example);
                if !text.is_empty() {
                    fields.insert(one.name.to_owned(), text.to_owned());
                }
            }
            Record::from_fields(kind, &fields).unwrap_or_else(|error| panic!("{kind}: {error}"));
            for one in asked(kind) {
                for choice in one.choices {
                    let changed = fields.iter().map(|(k, v)| (k.clone(), v.clone()));
                    let mut changed: Fields = changed.collect();
                    changed.insert(one.name.to_owned(), (*choice).to_owned());
                    Record::from_fields(kind, &changed)
                        .unwrap_or_else(|error| panic!("{kind} {choice}: {error}"));
                }
            }
        }
    }
}
