//! Everything that the record tells of a strip, as JSON.

use crate::counts::day_of;
use crate::due::is_near;
use crate::opened::{Opened, opened_due, opened_months};
use crate::rate::DamageRate;
use crate::{
    BookError, DamagePlaces, Entry, Grading, GradingDue, GradingLimits, NameOf, PassCoverages,
    State, StretchPasses, current, damage_places, damage_rate, due_dates, grading,
    movements_by_month, must_know, passes_by_stretch, passes_since_repair, status,
};
use hardpan_model::{FigureBasis, Lane};
use hardpan_quantity::{Length, Quantity as _, Ratio, Time, seconds};
use jiff::Timestamp;
use serde_json::{Value, json};

/// What is asked of a strip.
#[derive(Debug, Clone, Copy)]
pub struct Question<'q> {
    /// Which strip.
    pub strip: &'q str,
    /// The moment of asking.
    pub now: Timestamp,
    /// Longest time since the last inspection; no state but closed is told without it.
    pub inspected: Option<Time>,
    /// Greatest age of a survey.
    pub surveyed: Option<Time>,
    /// Depths at which it is graded.
    pub limits: GradingLimits,
    /// Length of a stretch; chosen by the length of the strip where none is asked for.
    pub step: Option<Length>,
    /// Length of the strip, if its file is known.
    pub end: Option<Length>,
    /// Confidence of the damage rates.
    pub confidence: Ratio,
    /// Coverages of one pass, if the gear of an aeroplane is known.
    pub coverages: Option<&'q PassCoverages>,
    /// What an opened figure looks like in JSON.
    pub figure: FigureShape,
}

/// What an opened figure looks like in JSON.
pub type FigureShape = fn(&FigureBasis) -> Value;

/// State, passes, grading, damage and what is due, superseded entries left out.
///
/// # Errors
/// [`BookError`] for a strip that the book does not know, or for a step or a confidence
/// that cannot be used.
pub fn told_of_strip(entries: &[Entry], asked: &Question<'_>) -> Result<Value, BookError> {
    let standing = known(entries, asked)?;
    let strip = asked.strip;
    let longest = asked.inspected.unwrap_or_else(|| seconds(0.0));
    let found = status(&standing, strip, asked.now, longest, asked.surveyed);
    let ahead = json!(found.ahead);
    // That it is closed rests on no age of an inspection.
    let is_told = asked.inspected.is_some() || found.state == State::Closed;
    let found = is_told.then_some(found);
    let mut all = json!({
        "strip": strip,
        "state": found.as_ref().map(|found| found.state.words()),
        "open": found.as_ref().map(|found| found.state == State::Open),
        "ahead": ahead,
        "reasons": found.as_ref().map(|found| &found.reasons),
        "months": months_value(&standing, asked),
        "damage": damage_value(&standing, asked)?,
        "grading": grading_value(&grading(&standing, strip, asked.now, &asked.limits)?, asked.figure),
        "due": due_value(&standing, asked.now, None, asked.figure),
    });
    passes_into(&mut all, &standing, asked)?;
    Ok(all)
}

/// Passes since the strip was mended, as a whole and by stretch.
///
/// # Errors
/// As [`told_of_strip`].
pub fn told_of_passes(entries: &[Entry], asked: &Question<'_>) -> Result<Value, BookError> {
    let mut all = json!({ "strip": asked.strip });
    passes_into(&mut all, &known(entries, asked)?, asked)?;
    Ok(all)
}

/// By when a strip must be graded.
///
/// # Errors
/// As [`told_of_strip`].
pub fn told_of_grading(entries: &[Entry], asked: &Question<'_>) -> Result<Value, BookError> {
    let found = grading(&known(entries, asked)?, asked.strip, asked.now, &asked.limits)?;
    let mut all = grading_value(&found, asked.figure);
    all["strip"] = json!(asked.strip);
    Ok(all)
}

/// How often damage is done on a strip, by stretch and by zone.
///
/// # Errors
/// As [`told_of_strip`].
pub fn told_of_damage(entries: &[Entry], asked: &Question<'_>) -> Result<Value, BookError> {
    let mut all = damage_value(&known(entries, asked)?, asked)?;
    all["strip"] = json!(asked.strip);
    Ok(all)
}

/// What must be looked at or measured again, seen from a moment; what is due later than
/// `within` is left out.
#[must_use]
pub fn told_of_due(
    entries: &[Entry],
    now: Timestamp,
    within: Option<Time>,
    figure: FigureShape,
) -> Value {
    let standing = current(entries);
    json!({ "from": day_of(now).to_string(), "due": due_value(&standing, now, within, figure) })
}

/// Figures opened, each under the name of the value that it opens.
fn basis_value(opened: Opened, figure: FigureShape) -> Value {
    let named = opened.into_iter().map(|(key, basis)| (key.to_owned(), figure(&basis)));
    Value::Object(named.collect())
}

/// The entries that stand, of which one must be of the strip.
fn known<'e>(entries: &'e [Entry], asked: &Question<'_>) -> Result<Vec<&'e Entry>, BookError> {
    let standing = current(entries);
    must_know(&standing, NameOf::Strip, asked.strip)?;
    Ok(standing)
}

fn passes_into(
    all: &mut Value,
    standing: &[&Entry],
    asked: &Question<'_>,
) -> Result<(), BookError> {
    let strip = asked.strip;
    let passes = passes_since_repair(standing, strip);
    let stretches = passes_by_stretch(standing, strip, asked.step, asked.end)?;
    let stretches = stretches.iter().map(|one| {
        let ruts = one.ruts.iter().zip(one.opened_ruts()).map(|(rut, opened)| {
            json!({
                "lane": rut.lane, "depth_m": rut.depth.si(), "date": rut.date.to_string(),
                "basis": basis_value(vec![("depth_m", opened)], asked.figure),
            })
        });
        json!({
            "from_m": one.from.si(), "to_m": one.to.si(), "passes": one.passes,
            "without_stretch": one.everywhere, "mended": one.since.map(|day| day.to_string()),
            "ruts": ruts.collect::<Vec<_>>(),
            "coverages": asked.coverages.map(|of_one| coverages_value(one, of_one, asked.figure)),
            "basis": basis_value(one.opened(), asked.figure),
        })
    });
    all["stretches"] = stretches.collect();
    all["passes"] = json!(passes.count);
    all["mended"] = json!(passes.since.map(|day| day.to_string()));
    all["basis"] = basis_value(passes.opened(), asked.figure);
    Ok(())
}

fn months_value(standing: &[&Entry], asked: &Question<'_>) -> Value {
    let mut opened = opened_months(standing, asked.strip);
    let months = movements_by_month(standing, asked.strip).into_iter();
    let month = |(month, (down, up)): (String, (usize, usize))| {
        let basis = basis_value(opened.remove(&month).unwrap_or_default(), asked.figure);
        json!({ "month": month, "landings": down, "take_offs": up, "basis": basis })
    };
    months.map(month).collect()
}

fn damage_value(standing: &[&Entry], asked: &Question<'_>) -> Result<Value, BookError> {
    let strip = asked.strip;
    let places = damage_places(standing, strip, asked.step, asked.end, asked.confidence)?;
    let rate = damage_rate(standing, strip, asked.confidence)?;
    let mut damage = rate_value(&rate, "", asked.figure);
    damage["confidence"] = json!(asked.confidence.si());
    places_into(&mut damage, &places, asked.figure);
    Ok(damage)
}

fn due_value(
    standing: &[&Entry],
    now: Timestamp,
    within: Option<Time>,
    figure: FigureShape,
) -> Value {
    let today = day_of(now);
    let due = due_dates(standing).into_iter().map(|one| (one.days_left(today), one));
    let near = due.filter(|(days, _)| is_near(*days, within));
    near.map(|(days, one)| {
        let date = one.date.map(|day| day.to_string());
        let basis = basis_value(opened_due(&one, today), figure);
        json!({
            "subject": one.subject, "what": one.what, "date": date, "days_left": days,
            "basis": basis,
        })
    })
    .collect()
}

fn coverages_value(one: &StretchPasses, of_one: &PassCoverages, figure: FigureShape) -> Value {
    let found = one.coverages(of_one);
    let lanes = found.lanes.iter().zip(one.opened_coverages(of_one));
    let lane = |((lane, count), opened): (&(Lane, f64), FigureBasis)| {
        let basis = basis_value(vec![("coverages", opened)], figure);
        json!({ "lane": lane.word(), "coverages": count, "basis": basis })
    };
    let lanes: Vec<Value> = lanes.map(lane).collect();
    json!({
        "lanes": lanes, "passes": found.passes, "passes_of_others": found.others,
        "basis": basis_value(one.opened_passes(of_one), figure),
    })
}

fn rate_value(rate: &DamageRate, of: &str, figure: FigureShape) -> Value {
    json!({
        "reports": rate.reports,
        "movements": rate.movements,
        "per_1000": rate.rate,
        "lower": rate.limits.map(|limits| limits.lower),
        "upper": rate.limits.map(|limits| limits.upper),
        "basis": basis_value(rate.opened(of), figure),
    })
}

fn places_into(damage: &mut Value, places: &DamagePlaces, figure: FigureShape) {
    let stretches = places.stretches.iter().map(|one| {
        let place = format!("station {:.0} to {:.0} m", one.from.si(), one.to.si());
        let mut value = rate_value(&one.rate, &place, figure);
        value["from_m"] = json!(one.from.si());
        value["to_m"] = json!(one.to.si());
        value
    });
    damage["stretches"] = stretches.collect();
    damage["without_station"] = json!(places.without_station);
    if let Some(basis) = damage["basis"].as_object_mut() {
        let without = places.opened().into_iter();
        basis.extend(without.map(|(key, opened)| (key.to_owned(), figure(&opened))));
    }
    let zones = places.zones.iter().map(|(zone, rate)| {
        let mut value = rate_value(rate, &format!("zone {zone}"), figure);
        value["zone"] = json!(zone);
        value
    });
    damage["zones"] = zones.collect();
}

fn grading_value(found: &Grading, figure: FigureShape) -> Value {
    let passes = found.passes.as_ref().map(|one| {
        json!({
            "movements": one.movements, "days": one.days, "per_week": one.mean,
            "lower": one.lower, "upper": one.upper,
            "basis": basis_value(one.opened(), figure),
        })
    });
    let place = |one: &GradingDue| {
        let [left, fewest, most] = one.passes_left;
        let [day, earliest, latest] = one.days.map(|day| day.map(|day| day.to_string()));
        json!({
            "place": one.place(), "what": one.what, "lane": one.lane,
            "from_m": one.stretch.map(|(from, _)| from.si()),
            "to_m": one.stretch.map(|(_, to)| to.si()),
            "inspections": one.inspections,
            "last_m": one.last.0.si(), "last_date": one.last.1.to_string(),
            "growth_m_per_1000_passes": one.growth.si(), "limit_m": one.limit.si(),
            "passes_left": left, "passes_left_fewest": fewest, "passes_left_most": most,
            "day": day, "earliest": earliest, "latest": latest,
            "basis": basis_value(one.opened(found.passes.as_ref()), figure),
        })
    };
    json!({
        "passes_per_week": passes,
        "places": found.places.iter().map(place).collect::<Vec<_>>(),
        "not_told": found.not_told,
    })
}
