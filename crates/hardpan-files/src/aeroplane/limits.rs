//! `[[equipment]]`, `[[limit]]` and `[[handling]]` of an aeroplane.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::nearest;
use crate::strip::states;
use crate::table::cursor::{Entry, Table};
use crate::table::plausible::{self, ANYTHING};
use hardpan_model::{ApprovedLimit, Bound, Equipment, Given, Handling, Phase, SurfaceKind};
use hardpan_quantity::{Amount, Dimension, ParseError, parse_amount};
use toml::de::DeValue;

/// Kinds tried in turn for a limit whose kind is not known beforehand.
const KINDS: [Dimension; 18] = [
    Dimension::Speed,
    Dimension::Mass,
    Dimension::Length,
    Dimension::Pressure,
    Dimension::AirPressure,
    Dimension::Temperature,
    Dimension::Ratio,
    Dimension::Angle,
    Dimension::Time,
    Dimension::Force,
    Dimension::Power,
    Dimension::Energy,
    Dimension::Torque,
    Dimension::MassFlow,
    Dimension::Area,
    Dimension::Acceleration,
    Dimension::Density,
    Dimension::PenetrationRate,
];

pub(crate) fn surfaces() -> [(&'static str, SurfaceKind); 3] {
    SurfaceKind::ALL.map(|surface| (surface.word(), surface))
}

fn phases() -> [(&'static str, Phase); 7] {
    Phase::ALL.map(|phase| (phase.word(), phase))
}

pub(crate) fn equipment(t: &mut Table<'_>) -> Option<Equipment> {
    let name = t.text("name");
    let required_on = t.words("required_on", &surfaces());
    let fitted = t.flag("fitted");
    let serviceable = t.flag("serviceable");
    let inspected_on = t.date("inspected_on");
    let inspect_every = t.quantity("inspect_every", plausible::INSPECTION);
    if !t.has("name") {
        t.lacks("name", "\"nose gear deflector\"");
    }
    Some(Equipment { name: name?, required_on, fitted, serviceable, inspected_on, inspect_every })
}

pub(crate) fn handling(t: &mut Table<'_>) -> Option<Handling> {
    let phase = t.word("phase", &phases());
    let say = t.text("say");
    if !t.has("phase") {
        t.lacks("phase", "\"landing\"");
    }
    if !t.has("say") {
        t.lacks("say", "\"what the crew does\"");
    }
    Some(Handling { phase: phase?.value, say: say? })
}

pub(crate) fn limit(t: &mut Table<'_>) -> Option<ApprovedLimit> {
    let phase = t.word("phase", &phases());
    let quantity = t.text("quantity");
    let at_most = t.alternative("at_most");
    let at_least = t.alternative("at_least");
    let surface = t.word("surface", &surfaces());
    let state = t.word("surface_state", &states());
    let when = t.text("when");
    if !t.has("phase") {
        t.lacks("phase", "\"take-off\"");
    }
    if !t.has("quantity") {
        t.lacks("quantity", "\"crosswind\"");
    }
    let (bound, entry) = match (at_most, at_least) {
        (Some(entry), None) => (Bound::AtMost, entry),
        (None, Some(entry)) => (Bound::AtLeast, entry),
        (Some(_), Some(entry)) => {
            t.page().report(entry.span, &Mistake::BothBounds {});
            return None;
        }
        (None, None) => {
            t.lacks("at_most", "\"20 kt\" (or at_least)");
            return None;
        }
    };
    let quantity = quantity?;
    let value = limit_value(t, &quantity.value, &entry);
    check_quantity(t, &quantity, bound);
    let (phase, value) = (phase?.value, value?);
    Some(ApprovedLimit { phase, quantity, bound, value, surface, state, when })
}

/// The kind of a limit that the assessment checks.
pub(crate) fn kind_of_checked(quantity: &str) -> Option<Dimension> {
    match quantity {
        "crosswind" | "tailwind" => Some(Dimension::Speed),
        "take-off mass" | "landing mass" => Some(Dimension::Mass),
        "main tyre pressure" | "nose tyre pressure" => Some(Dimension::Pressure),
        "outside temperature" => Some(Dimension::Temperature),
        "pressure altitude" | "surfacing thickness" | "strip width" | "loose material depth" => {
            Some(Dimension::Length)
        }
        "runway slope" => Some(Dimension::Ratio),
        _ => None,
    }
}

/// The side on which a checked limit makes sense, where there is only one.
fn side_of_checked(quantity: &str) -> Option<Bound> {
    match quantity {
        "crosswind" | "tailwind" | "loose material depth" => Some(Bound::AtMost),
        "surfacing thickness" | "strip width" => Some(Bound::AtLeast),
        _ => None,
    }
}

fn limit_value(t: &Table<'_>, quantity: &str, entry: &Entry<'_>) -> Option<Given<Amount>> {
    let amount = match (kind_of_checked(quantity), entry.value) {
        (Some(kind), DeValue::String(text)) => match any_amount(text) {
            Some(other) if parse_amount(text, kind).is_err() => {
                let (is, wanted) = (other.dimension.with_article(), kind.with_article());
                let mistake = Mistake::LimitKind { quantity: quantity.to_owned(), is, wanted };
                t.page().report(entry.span.clone(), &mistake);
                None
            }
            _ => t.amount_of(entry, kind, ANYTHING),
        },
        (Some(kind), _) => t.amount_of(entry, kind, ANYTHING),
        (None, DeValue::String(text)) => {
            any_amount(text).or_else(|| t.amount_of(entry, likely_kind(text), ANYTHING))
        }
        (None, _) => t.number_of(entry, ANYTHING).map(Amount::coefficient),
    };
    amount.map(|amount| t.given(entry, amount))
}

fn any_amount(text: &str) -> Option<Amount> {
    KINDS.iter().find_map(|kind| parse_amount(text, *kind).ok())
}

/// A kind that an amount of no known kind is best compared with in a message.
fn likely_kind(text: &str) -> Dimension {
    match parse_amount(text, Dimension::Coefficient) {
        Err(ParseError::UnwantedUnit { unit, .. }) if unit.to_lowercase().starts_with('k') => {
            Dimension::Speed
        }
        _ => Dimension::Length,
    }
}

fn check_quantity(t: &Table<'_>, quantity: &Given<String>, bound: Bound) {
    let name = quantity.value.as_str();
    if ApprovedLimit::CHECKED.contains(&name) {
        if side_of_checked(name).is_some_and(|side| side != bound) {
            let side = if bound == Bound::AtMost { "at_least" } else { "at_most" };
            let mistake = Mistake::LimitSide { quantity: name.to_owned(), side: side.to_owned() };
            t.page().report(t.span(), &mistake);
        }
    } else if let Some(near) = nearest(name, ApprovedLimit::CHECKED) {
        let mistake =
            Mistake::NearlyChecked { quantity: name.to_owned(), nearest: near.to_owned() };
        t.page().report(t.span_of("quantity"), &mistake);
    }
}
