//! What the other commands answer about a flight, under the names of the commands.

use crate::desk::{Judged, blocking};
use crate::pages::{basis, station, year_hour};
use crate::query::{Own, Query};
use crate::routes::{Room, Shared};
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::Response;
use hardpan_assess::{
    CURVE_PASSES, FEWEST_DRAWS, Sampling, Unavailable, bearing_curves, carrying_weeks, confidence,
    draws_in_full, readings_at, ways_out, year_sheet,
};
use hardpan_quantity::{Mass, Quantity as _, parse};
use hardpan_report::{
    ConfidenceReport, Lesson, YearReport, bearing_json, confidence_json, hour_json,
    no_bearing_text, readings_json, ways_json, weeks_json, year_json,
};
use serde_json::json;

/// Width of a reason in characters.
const WIDTH: usize = 100;
/// Most draws that one address may ask for.
pub(super) const MOST_DRAWS: u32 = 1024;

/// A question about a flight.
struct Question {
    name: &'static str,
    /// Keys of its own.
    keys: &'static [&'static str],
    answer: fn(&Judged, &Query, &Own) -> Result<String, Trouble>,
}

const QUESTIONS: [Question; 9] = [
    Question { name: "confidence", keys: &["draws", "in-full", "seed"], answer: sure },
    Question { name: "remedies", keys: &[], answer: remedies },
    Question { name: "year", keys: &["landing", "take-off"], answer: year },
    Question { name: "hour", keys: &year_hour::OWN, answer: hour },
    Question { name: "weeks", keys: &["mass"], answer: weeks },
    Question { name: "bearing", keys: &["passes"], answer: bearing },
    Question { name: "lesson", keys: &["without-answers"], answer: lesson },
    Question { name: "explain", keys: &basis::OWN, answer: basis::json },
    Question { name: "station", keys: &station::OWN, answer: at_station },
];

/// The answer to a question about a flight, as JSON.
pub(super) async fn ask(
    State(room): Shared,
    Path((slug, name)): Path<(String, String)>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = answer(&room, &slug, &name, query.as_deref()).await;
    answer.map_or_else(|trouble| trouble.json(), super::document)
}

async fn answer(
    room: &Room,
    slug: &str,
    name: &str,
    query: Option<&str>,
) -> Result<String, Trouble> {
    let question = QUESTIONS.iter().find(|one| one.name == name);
    let question = question.ok_or_else(|| {
        let known: Vec<&str> = QUESTIONS.iter().map(|one| one.name).collect();
        Trouble::NotFound(format!("A flight has no {name}; it has masses, {}.", known.join(", ")))
    })?;
    let (query, own) = Query::read_with(query, question.keys)?;
    let judged = room.judge(slug, &query).await;
    let judged = judged.map_err(|trouble| trouble.also_known(question.keys))?;
    let work = question.answer;
    let _slot = room.desk.slot().await;
    blocking(move || work(&judged, &query, &own)).await?
}

/// Why something is not known, with what would supply it.
pub(crate) fn missing(why: &Unavailable) -> Trouble {
    let style = hardpan_report::TextStyle { width: WIDTH, colour: false };
    let text = no_bearing_text(why, style);
    Trouble::Missing(text.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// A mass of an address.
fn mass(own: &Own, key: &str) -> Result<Option<Mass>, Trouble> {
    let Some(text) = own.one(key)? else { return Ok(None) };
    let read: Mass = parse(text).map_err(|error| Trouble::Query(format!("{key}: {error}.")))?;
    if read.si() > 0.0 {
        return Ok(Some(read));
    }
    Err(Trouble::Query(format!("{key}: {text} is no mass above zero.")))
}

/// Masses of the calendar: landing and take-off, each as a mass or as the load that makes
/// it, and not as both.
pub(crate) fn masses(own: &Own, query: &Query) -> Result<(Option<Mass>, Option<Mass>), Trouble> {
    let of = |key: &str, load: &str| match (mass(own, key)?, query.change(load)) {
        (Some(_), Some(_)) => Err(Trouble::Query(format!(
            "{key} and {load}: a mass and the load that makes it are both stated; state one of \
             them."
        ))),
        (asked, _) => Ok(asked),
    };
    Ok((of("landing", "landing.load")?, of("take-off", "take_off.load")?))
}

fn number<T: std::str::FromStr>(own: &Own, key: &str, default: T) -> Result<T, Trouble> {
    let Some(text) = own.one(key)? else { return Ok(default) };
    text.parse().map_err(|_| Trouble::Query(format!("{key}: {text} is no whole number.")))
}

fn sure(judged: &Judged, query: &Query, own: &Own) -> Result<String, Trouble> {
    let draws = number(own, "draws", FEWEST_DRAWS)?;
    let in_full = number(own, "in-full", draws_in_full(draws))?;
    for (key, number) in [("draws", draws), ("in-full", in_full)] {
        if !(FEWEST_DRAWS..=MOST_DRAWS).contains(&number) {
            let said = format!("{key}: {number} is not between {FEWEST_DRAWS} and {MOST_DRAWS}.");
            return Err(Trouble::Query(said));
        }
    }
    let seed = number(own, "seed", 1)?;
    let sampling = Sampling { draws, in_full, seed, threads: 1 };
    let found = confidence(&judged.flight, sampling, |_, _| {});
    Ok(confidence_json(&ConfidenceReport::new(&found, query.units, judged.produced.clone())))
}

fn remedies(judged: &Judged, _: &Query, _: &Own) -> Result<String, Trouble> {
    Ok(ways_json(&ways_out(&judged.flight, |_| {}), &judged.produced))
}

fn year(judged: &Judged, query: &Query, own: &Own) -> Result<String, Trouble> {
    let masses = masses(own, query)?;
    let sheet = year_sheet(&judged.flight, masses, |_, _| {}).map_err(|why| missing(&why))?;
    Ok(year_json(&YearReport::new(&sheet, query.units, judged.produced.clone())))
}

fn hour(judged: &Judged, query: &Query, own: &Own) -> Result<String, Trouble> {
    let (from, hour) = year_hour::spot(own)?;
    let found = hardpan_assess::year_hour(&judged.flight, masses(own, query)?, from, hour);
    let found = found.map_err(|why| missing(&why))?.ok_or_else(|| {
        Trouble::NotFound(
            "No week of the calendar begins on that day and has that hour.".to_owned(),
        )
    })?;
    Ok(hour_json(&found, hour))
}

fn weeks(judged: &Judged, _: &Query, own: &Own) -> Result<String, Trouble> {
    let weeks = carrying_weeks(&judged.flight, mass(own, "mass")?).map_err(|why| missing(&why))?;
    Ok(weeks_json(&weeks, &judged.produced))
}

fn bearing(judged: &Judged, _: &Query, own: &Own) -> Result<String, Trouble> {
    let passes = match own.one("passes")? {
        None => CURVE_PASSES.to_vec(),
        Some(text) => passes(text)?,
    };
    let curves = bearing_curves(&judged.flight, &passes).map_err(|why| missing(&why))?;
    Ok(bearing_json(&curves, &judged.produced))
}

fn at_station(judged: &Judged, _: &Query, own: &Own) -> Result<String, Trouble> {
    let station = station::asked(judged, own)?;
    Ok(readings_json(&readings_at(&judged.flight, &judged.assessment, station), station))
}

/// One to six rising numbers of passes, between commas.
fn passes(text: &str) -> Result<Vec<f64>, Trouble> {
    let said = || Trouble::Query("passes: name 1 to 6 numbers from 1 to 1000000.".to_owned());
    let read: Result<Vec<f64>, _> = text.split(',').map(|one| one.trim().parse()).collect();
    let mut read: Vec<f64> = read.map_err(|_| said())?;
    if read.is_empty() || read.len() > 6 || read.iter().any(|one| !(1.0..=1e6).contains(one)) {
        return Err(said());
    }
    read.sort_by(f64::total_cmp);
    read.dedup();
    Ok(read)
}

fn lesson(judged: &Judged, query: &Query, own: &Own) -> Result<String, Trouble> {
    let with_answers = !own.is_asked("without-answers")?;
    let lesson = Lesson::new(&judged.report(query), with_answers);
    let chapters: Vec<_> = lesson
        .chapters()
        .iter()
        .map(|chapter| {
            let questions = chapter.questions.iter();
            let questions: Vec<_> = questions
                .map(|(asks, answer, see)| json!({ "asks": asks, "answer": answer, "see": see }))
                .collect();
            json!({
                "title": chapter.title,
                "principle": chapter.principle,
                "rules": chapter.rules.iter().map(|(code, ..)| code).collect::<Vec<_>>(),
                "questions": questions,
            })
        })
        .collect();
    let body = json!({
        "title": lesson.title(),
        "caution": hardpan_assess::CAUTION,
        "chapters": chapters,
    });
    Ok(format!("{body:#}\n"))
}
