//! Planning a flight: which strip, which aeroplane, which masses, on which day. It
//! is kept as a flight file of its own; no file that stands is changed.

use crate::account::{sender, visitor};
use crate::desk::blocking;
use crate::page::{Page, frame};
use crate::query::Query;
use crate::routes::{Room, Shared};
use crate::shelf::{Entry, EntryKind, Plan, Refusal, RefusedPlace};
use crate::trouble::Trouble;
use axum::body::Bytes;
use axum::extract::{RawQuery, State};
use axum::http::{StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use hardpan_model::{Aeroplane, FieldRule, ReverseUse, Strip, SurfaceState};
use maud::{Markup, html};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Values that are suggested from the clock.
const NOW: [&str; 2] = ["day.date", "day.time_utc"];

/// Keys of the form: what is chosen first, and every value that is asked for then.
const KEYS: [&str; 33] = [
    "strip",
    "aeroplane",
    "name",
    "passes",
    "turn_round",
    "report_age",
    "survey_age",
    "landing.mass",
    "landing.centre_of_gravity",
    "landing.flap",
    "landing.direction",
    "landing.rule",
    "landing.reverse",
    "take_off.mass",
    "take_off.centre_of_gravity",
    "take_off.flap",
    "take_off.direction",
    "take_off.rule",
    "take_off.line_up",
    "main_tyre_pressure",
    "nose_tyre_pressure",
    "day.date",
    "day.time_utc",
    "day.wind.from",
    "day.wind.speed",
    "day.temperature",
    "day.sea_level_pressure",
    "day.surface_state",
    "day.rain_in_an_hour",
    "day.inspected",
    "day.standing_water",
    "day.loose_material",
    "day.metar",
];

/// One value that is asked for.
struct Field {
    key: &'static str,
    label: &'static str,
    example: String,
    choices: Vec<String>,
}

/// A strip and an aeroplane that fit together on a plan.
struct Pair {
    strip: (Entry, Strip),
    aeroplane: (Entry, Aeroplane),
}

type Sent = BTreeMap<String, String>;

fn read(text: &[u8]) -> Sent {
    let pairs = form_urlencoded::parse(text);
    let kept = pairs.map(|(key, value)| (key.into_owned(), value.trim().to_owned()));
    kept.filter(|(_, value)| !value.is_empty()).collect()
}

pub(crate) async fn form(State(room): Shared, RawQuery(query): RawQuery) -> Response {
    if let Err(trouble) = Query::only(query.as_deref(), &KEYS) {
        return trouble.page();
    }
    let sent = read(query.unwrap_or_default().as_bytes());
    match shown(&room, &sent, None).await {
        Ok(page) => page.into_response(),
        Err(trouble) => trouble.page(),
    }
}

/// Keep a plan, and go to its sheet.
pub(crate) async fn keep(State(room): Shared, body: Bytes) -> Response {
    let sent = read(&body);
    let Some(sender) = sender(sent.get("token").map_or("", String::as_str)) else {
        let said = "This form is not of the page that runs now; open it again. Nothing was kept.";
        return (StatusCode::FORBIDDEN, said).into_response();
    };
    if let Some((_, role)) = sender.account
        && !role.may_plan()
    {
        let said = format!("A {} may not plan a flight. Nothing was kept.", role.word());
        return (StatusCode::FORBIDDEN, said).into_response();
    }
    match write(&room, &sent).await {
        Ok(Ok(slug)) => (StatusCode::SEE_OTHER, [(header::LOCATION, format!("/flights/{slug}"))])
            .into_response(),
        Ok(Err(refusal)) => match shown(&room, &sent, Some(&refusal)).await {
            Ok(page) => (StatusCode::UNPROCESSABLE_ENTITY, page).into_response(),
            Err(trouble) => trouble.page(),
        },
        Err(trouble) => trouble.page(),
    }
}

async fn write(room: &Room, sent: &Sent) -> Result<Result<String, Refusal>, Trouble> {
    let chosen = |key: &str| sent.get(key).map_or("", String::as_str);
    let strip = room.entry(EntryKind::Strip, chosen("strip")).await?;
    let aeroplane = room.entry(EntryKind::Aeroplane, chosen("aeroplane")).await?;
    let values = sent
        .iter()
        .filter(|(key, _)| !["strip", "aeroplane", "token", "name"].contains(&key.as_str()));
    let plan = Plan {
        name: sent.get("name").cloned().unwrap_or_default(),
        strip: strip.file,
        aeroplane: aeroplane.file,
        values: values.map(|(key, value)| (key.clone(), value.clone())).collect(),
    };
    let shelf = Arc::clone(&room.shelf);
    let file = match blocking(move || shelf.plan(&plan)).await? {
        Ok(file) => file,
        Err(refusal) => return Ok(Err(refusal)),
    };
    let kept = room.entries().await?.into_iter().find(|entry| entry.file == file);
    kept.map(|entry| Ok(entry.slug)).ok_or_else(|| {
        Trouble::Broken("The plan was kept and cannot be found again; see the start page.".into())
    })
}

async fn shown(
    room: &Room,
    sent: &Sent,
    refused: Option<&Refusal>,
) -> Result<Html<String>, Trouble> {
    if !visitor().and_then(|one| one.account).is_none_or(|(_, role)| role.may_plan()) {
        return Ok(page(&html! { p { "Your account reads flights and plans none." } }));
    }
    let entries = room.entries().await?;
    let named = sent.get("strip").zip(sent.get("aeroplane"));
    let Some((strip, aeroplane)) = named else { return Ok(page(&choose(&entries, sent))) };
    let strip = room.entry(EntryKind::Strip, strip).await?;
    let aeroplane = room.entry(EntryKind::Aeroplane, aeroplane).await?;
    let shelf = Arc::clone(&room.shelf);
    let pair = blocking(move || {
        let ground = shelf.strip(&strip.file).map_err(Trouble::Refused)?.value;
        let tail = shelf.aeroplane(&aeroplane.file).map_err(Trouble::Refused)?.value;
        Ok::<_, Trouble>(Pair { strip: (strip, ground), aeroplane: (aeroplane, tail) })
    });
    let pair = pair.await??;
    let now = room.shelf.now().strftime("%Y-%m-%dT%H:%MZ").to_string();
    let token = visitor().map_or_else(String::new, |visitor| visitor.token);
    Ok(page(&whole(&pair, sent, &now, &token, refused)))
}

fn page(body: &Markup) -> Html<String> {
    let crumbs = [("/".into(), "Flights".into())];
    let body = html! { main.plain.plan { h1 { "Plan a flight" } (body) } };
    frame(&Page { title: "Plan a flight", crumbs: &crumbs, head: html! {} }, &body)
}

/// The first step: which strip and which aeroplane.
fn choose(entries: &[Entry], sent: &Sent) -> Markup {
    let of = |kind: EntryKind| entries.iter().filter(move |entry| entry.kind == kind);
    let select = |name: &str, kind: EntryKind| {
        html! {
            div.field {
                label for=(name) { (name) }
                select #(name) name=(name) required {
                    @for entry in of(kind) {
                        option value=(entry.slug) selected[sent.get(name) == Some(&entry.slug)] {
                            (entry.title())
                        }
                    }
                }
            }
        }
    };
    let is_possible =
        of(EntryKind::Strip).next().is_some() && of(EntryKind::Aeroplane).next().is_some();
    html! {
        @if is_possible {
            form.log method="get" action="/plan" {
                div.entries {
                    (select("strip", EntryKind::Strip))
                    (select("aeroplane", EntryKind::Aeroplane))
                }
                button type="submit" { "Go on" }
            }
        } @else {
            p { "A plan needs a strip file and an aeroplane file beside each other. "
                code { "hardpan new flight my-flight" } " writes commented ones." }
        }
    }
}

/// The second step: everything else.
fn whole(pair: &Pair, sent: &Sent, now: &str, token: &str, refused: Option<&Refusal>) -> Markup {
    let places = refused.map_or(&[][..], |refusal| &refusal.places);
    let elsewhere = places.iter().any(|place| place.key.is_none());
    html! {
        p.lead { (pair.aeroplane.0.title()) " at " (pair.strip.0.title()) ". "
            a href={ "/plan?strip=" (pair.strip.0.slug) } { "Choose others" } }
        @if refused.is_some() {
            p.wrong role="alert" { "Not kept: some values cannot be used. What is wrong stands \
                                    beside each." }
        }
        @if let (true, Some(refusal)) = (elsewhere, refused) {
            pre.mistakes tabindex="0" { (refusal.text) }
        }
        form.log.plan-form method="post" action="/plan" autocomplete="off" {
            input type="hidden" name="token" value=(token);
            input type="hidden" name="strip" value=(pair.strip.0.slug);
            input type="hidden" name="aeroplane" value=(pair.aeroplane.0.slug);
            @for (legend, note, fields) in groups(pair, now) {
                fieldset {
                    legend { (legend) }
                    @if !note.is_empty() { p.note { (note) } }
                    div.entries { @for one in &fields { (field(one, sent, places)) } }
                }
            }
            button type="submit" { "Assess it" }
        }
    }
}

fn one(key: &'static str, label: &'static str, example: &str) -> Field {
    Field { key, label, example: example.to_owned(), choices: Vec::new() }
}

fn of(key: &'static str, label: &'static str, choices: Vec<String>) -> Field {
    Field { key, label, example: String::new(), choices }
}

fn words(list: &[&str]) -> Vec<String> {
    list.iter().map(|word| (*word).to_owned()).collect()
}

/// The words that the files take.
fn words_of<T>(of: &[(&'static str, T)]) -> Vec<String> {
    of.iter().map(|(word, _)| (*word).to_owned()).collect()
}

type Group = (&'static str, &'static str, Vec<Field>);

fn groups(pair: &Pair, now: &str) -> [Group; 5] {
    let (strip, aeroplane) = (&pair.strip.1, &pair.aeroplane.1);
    let end = |end: &hardpan_model::StripEnd, otherwise: &str| {
        end.designator.as_ref().map_or_else(|| otherwise.to_owned(), |given| given.value.clone())
    };
    let ends = || vec![end(&strip.low_end, "up"), end(&strip.high_end, "down")];
    let flaps = || aeroplane.flaps.iter().map(|flap| flap.name.value.clone()).collect::<Vec<_>>();
    let none_planned = "Leave all of it empty where none is planned.";
    [
        (
            "Flight",
            "",
            vec![
                one("name", "name", "Supply flight"),
                one("passes", "passes until it is mended", "60"),
                one("turn_round", "time on the ground", "1 h"),
                one("report_age", "oldest weather report", "2 h"),
                one("survey_age", "oldest survey", "365 d"),
            ],
        ),
        (
            "Landing",
            none_planned,
            vec![
                one("landing.mass", "mass", "39 t"),
                one("landing.centre_of_gravity", "balance", "24 %"),
                of("landing.flap", "flap", flaps()),
                of("landing.direction", "runway", ends()),
                of("landing.rule", "field length rule", words_of(&FieldRule::OF_LANDING)),
                of("landing.reverse", "reverse thrust", words_of(&ReverseUse::WORDS)),
            ],
        ),
        (
            "Take-off",
            none_planned,
            vec![
                one("take_off.mass", "mass", "40 t"),
                one("take_off.centre_of_gravity", "balance", "23 %"),
                of("take_off.flap", "flap", flaps()),
                of("take_off.direction", "runway", ends()),
                of("take_off.rule", "field length rule", words_of(&FieldRule::OF_TAKE_OFF)),
                one("take_off.line_up", "lost by lining up", "30 m"),
            ],
        ),
        (
            "Tyres",
            "Empty: the lowest pressure allowed is looked for.",
            vec![
                one("main_tyre_pressure", "main", "100 psi"),
                one("nose_tyre_pressure", "nose", "80 psi"),
            ],
        ),
        (
            "Day",
            "What nobody looked at stays empty, and is unproven.",
            vec![
                one("day.date", "date", &now.chars().take(10).collect::<String>()),
                one("day.time_utc", "time, UTC", now),
                one("day.wind.from", "wind from", "250 deg"),
                one("day.wind.speed", "wind", "9 kt"),
                one("day.temperature", "temperature", "14 degC"),
                one("day.sea_level_pressure", "pressure", "1013 hPa"),
                of(
                    "day.surface_state",
                    "surface",
                    SurfaceState::ALL.map(|s| s.word().to_owned()).to_vec(),
                ),
                one("day.rain_in_an_hour", "rain in an hour", "0 mm"),
                of("day.inspected", "whole strip inspected today", words(&["true", "false"])),
                of("day.standing_water", "standing water", words(&["none"])),
                of("day.loose_material", "loose material", words(&["none"])),
                one(
                    "day.metar",
                    "or a weather report",
                    "METAR XXHP 181430Z 25009KT 9999 14/06 Q1013",
                ),
            ],
        ),
    ]
}

fn field(one: &Field, sent: &Sent, places: &[RefusedPlace]) -> Markup {
    // A first look suggests the present day; a form that comes back has its own.
    let is_fresh = !sent.contains_key("token");
    let suggested = (is_fresh && NOW.contains(&one.key)).then_some(one.example.as_str());
    let value = sent.get(one.key).map(String::as_str).or(suggested).unwrap_or_default();
    let mistake = places.iter().find(|place| place.key.as_deref() == Some(one.key));
    let help = mistake.map(|_| format!("wrong-{}", one.key));
    html! {
        div.field {
            label for=(one.key) { (one.label) }
            @if one.choices.is_empty() {
                input #(one.key) name=(one.key) type="text" value=(value)
                    placeholder=(one.example) required[one.key == "name"]
                    aria-invalid=[mistake.map(|_| "true")] aria-describedby=[help.as_deref()];
            } @else {
                select #(one.key) name=(one.key)
                    aria-invalid=[mistake.map(|_| "true")] aria-describedby=[help.as_deref()] {
                    option value="" selected[value.is_empty()] {}
                    @for choice in &one.choices {
                        option value=(choice) selected[choice == value] {
                            (match choice.as_str() { "true" => "yes", "false" => "no", other => other })
                        }
                    }
                }
            }
            @if let Some(mistake) = mistake {
                p.wrong id=[help] { (mistake.message) ". " (mistake.hint) }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{KEYS, Pair, groups};
    use crate::shelf::{Entry, EntryKind};
    use hardpan_model::{Aeroplane, Strip};

    #[test]
    fn the_keys_are_those_of_the_form() {
        let entry = |kind| Entry {
            slug: "a".to_owned(),
            kind,
            file: "a.toml".to_owned(),
            name: None,
            names: Vec::new(),
        };
        let pair = Pair {
            strip: (entry(EntryKind::Strip), Strip::default()),
            aeroplane: (entry(EntryKind::Aeroplane), Aeroplane::default()),
        };
        let groups = groups(&pair, "2026-06-18T15:00Z");
        let asked: Vec<&str> =
            groups.iter().flat_map(|(_, _, fields)| fields.iter().map(|one| one.key)).collect();
        assert_eq!(KEYS[2..], asked);
    }
}
