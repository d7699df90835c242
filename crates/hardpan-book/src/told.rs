//! Everything that the record tells of a strip, as JSON.

use crate::rate::DamageRate;
use crate::{
    BookError, DamagePlaces, Entry, Grading, GradingDue, GradingLimits, PassCoverages, State,
    StretchCoverages, current, damage_places, damage_rate, due_dates, grading, movements_by_month,
    passes_by_stretch, passes_since_repair, status,
};
use hardpan_quantity::{Length, Quantity as _, Ratio, Time};
use jiff::Timestamp;
use serde_json::{Value, json};

/// What is asked of a strip.
#[derive(Debug, Clone, Copy)]
pub struct Question<'q> {
    /// Which strip.
    pub strip: &'q str,
    /// The moment of asking.
    pub now: Timestamp,
    /// Longest time since the last inspection; no state is told without it.
    pub inspected: Option<Time>,
    /// Greatest age of a survey.
    pub surveyed: Option<Time>,
    /// Depths at which it is graded.
    pub limits: GradingLimits,
    /// Length of a stretch.
    pub step: Length,
    /// Length of the strip, if its file is known.
    pub end: Option<Length>,
    /// Confidence of the damage rates.
    pub confidence: Ratio,
    /// Coverages of one pass, if the gear of an aeroplane is known.
    pub coverages: Option<&'q PassCoverages>,
}

/// State, passes, grading, damage and what is due, superseded entries left out.
///
/// # Errors
/// [`BookError`] for a step or a confidence that cannot be used.
pub fn told_of_strip(entries: &[Entry], asked: &Question<'_>) -> Result<Value, BookError> {
    let standing = current(entries);
    let strip = asked.strip;
    let found =
        asked.inspected.map(|longest| status(&standing, strip, asked.now, longest, asked.surveyed));
    let passes = passes_since_repair(&standing, strip);
    let stretches = passes_by_stretch(&standing, strip, asked.step, asked.end)?;
    let stretches = stretches.iter().map(|one| {
        let ruts = one.ruts.iter().map(|(lane, depth, day)| {
            json!({ "lane": lane, "depth_m": depth.si(), "date": day.to_string() })
        });
        json!({
            "from_m": one.from.si(), "to_m": one.to.si(), "passes": one.passes,
            "without_stretch": one.everywhere, "mended": one.since.map(|day| day.to_string()),
            "ruts": ruts.collect::<Vec<_>>(),
            "coverages": asked.coverages.map(|of_one| coverages_value(&one.coverages(of_one))),
        })
    });
    let months = movements_by_month(&standing, strip)
        .into_iter()
        .map(|(month, (down, up))| json!({ "month": month, "landings": down, "take_offs": up }));
    let places = damage_places(&standing, strip, asked.step, asked.end, asked.confidence)?;
    let mut damage = rate_value(&damage_rate(&standing, strip, asked.confidence)?);
    damage["confidence"] = json!(asked.confidence.si());
    places_into(&mut damage, &places);
    let due = due_dates(&standing).into_iter().map(|one| {
        json!({
            "subject": one.subject, "what": one.what,
            "date": one.date.map(|day| day.to_string()),
        })
    });
    Ok(json!({
        "strip": strip,
        "state": found.as_ref().map(|found| found.state.words()),
        "open": found.as_ref().map(|found| found.state == State::Open),
        "reasons": found.map(|found| found.reasons),
        "passes": passes.count,
        "mended": passes.since.map(|day| day.to_string()),
        "stretches": stretches.collect::<Vec<_>>(),
        "months": months.collect::<Vec<_>>(),
        "damage": damage,
        "grading": grading_value(&grading(&standing, strip, asked.now, &asked.limits)?),
        "due": due.collect::<Vec<_>>(),
    }))
}

fn coverages_value(found: &StretchCoverages) -> Value {
    let lanes = found.lanes.map(|(lane, count)| json!({ "lane": lane.word(), "coverages": count }));
    json!({ "lanes": lanes, "passes": found.passes, "passes_of_others": found.others })
}

fn rate_value(rate: &DamageRate) -> Value {
    json!({
        "reports": rate.reports,
        "movements": rate.movements,
        "per_1000": rate.rate,
        "lower": rate.limits.map(|limits| limits.lower),
        "upper": rate.limits.map(|limits| limits.upper),
    })
}

fn places_into(damage: &mut Value, places: &DamagePlaces) {
    let stretches = places.stretches.iter().map(|one| {
        let mut value = rate_value(&one.rate);
        value["from_m"] = json!(one.from.si());
        value["to_m"] = json!(one.to.si());
        value
    });
    damage["stretches"] = stretches.collect();
    damage["without_station"] = json!(places.without_station);
    let zones = places.zones.iter().map(|(zone, rate)| {
        let mut value = rate_value(rate);
        value["zone"] = json!(zone);
        value
    });
    damage["zones"] = zones.collect();
}

fn grading_value(found: &Grading) -> Value {
    let passes = found.passes.map(|one| {
        json!({
            "movements": one.movements, "days": one.days, "per_week": one.mean,
            "lower": one.lower, "upper": one.upper,
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
        })
    };
    json!({
        "passes_per_week": passes,
        "places": found.places.iter().map(place).collect::<Vec<_>>(),
        "not_told": found.not_told,
    })
}
