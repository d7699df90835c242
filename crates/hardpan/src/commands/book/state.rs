//! The state of a strip: open or not, grading and damage.

use super::passes::{end_of, length, must_know_all};
use super::{Form, document};
use crate::failure::Failure;
use hardpan_book::{
    Book, DamageRate, Entry, GradingDue, GradingLimits, NameOf, PassCoverages, Question, current,
    damage_places, damage_rate, grading as graded, metres_text, movements_by_month, must_know,
    passes_since_repair, told_of_damage, told_of_grading, told_of_strip,
};
use hardpan_quantity::{Length, Quantity as _, Ratio, Time, counted, parse, percent};
use hardpan_report::figure_json;
use jiff::Timestamp;
use std::fmt::Write as _;
use std::path::Path;

/// Confidence of the damage rates.
fn confidence() -> Ratio {
    percent(90.0)
}

fn time(option: &str, text: &str) -> Result<Time, Failure> {
    parse(text).map_err(|error| Failure::Argument { what: format!("{option}: {error}") })
}

/// Longest time since an inspection, and greatest age of a survey.
type Within<'a> = (&'a str, Option<&'a str>);

fn times((within, surveyed): Within<'_>) -> Result<(Time, Option<Time>), Failure> {
    let surveyed = surveyed.map(|text| time("--surveyed-within", text)).transpose()?;
    Ok((time("--inspected-within", within)?, surveyed))
}

/// All that the record tells of a strip, as JSON.
pub(super) fn told(
    path: &Path,
    strip: &str,
    within: Within<'_>,
    (of_one, tails): (Option<PassCoverages>, &[String]),
) -> Result<String, Failure> {
    let (longest, surveyed) = times(within)?;
    let asked = Question {
        inspected: Some(longest),
        surveyed,
        coverages: of_one.as_ref(),
        ..question(strip)
    };
    let entries = Book::open(path)?.entries()?;
    must_know_all(&current(&entries), tails)?;
    Ok(document(told_of_strip(&entries, &asked)?))
}

/// What is asked of a strip now, where nothing else is said.
pub(super) fn question(strip: &str) -> Question<'_> {
    Question {
        strip,
        now: Timestamp::now(),
        inspected: None,
        surveyed: None,
        limits: GradingLimits::default(),
        step: None,
        end: None,
        confidence: confidence(),
        coverages: None,
        figure: figure_json,
    }
}

/// Whether a strip is open, and what the record tells of it.
pub(super) fn status(path: &Path, strip: &str, within: Within<'_>) -> Result<String, Failure> {
    let (longest, surveyed) = times(within)?;
    let entries = Book::open(path)?.entries()?;
    let now = Timestamp::now();
    let standing: Vec<&Entry> = current(&entries);
    must_know(&standing, NameOf::Strip, strip)?;
    let found = hardpan_book::status(&standing, strip, now, longest, surveyed);
    let mut text = format!("{strip}: {}\n", found.state.words());
    for reason in &found.reasons {
        let _ = writeln!(text, "  {reason}");
    }
    for ahead in &found.ahead {
        let _ = writeln!(text, "  ahead: {ahead}");
    }
    let passes = passes_since_repair(&standing, strip);
    let since =
        passes.since.map_or_else(String::new, |date| format!(" since the repair of {date}"));
    let _ = writeln!(text, "  passes{since}: {}", passes.count);
    let rate = damage_rate(&standing, strip, confidence())?;
    if rate.movements > 0 {
        let _ = writeln!(text, "  damage: {}", rate_text(&rate));
    }
    let found = graded(&standing, strip, now, &GradingLimits::default())?;
    match found.places.first() {
        Some(one) => {
            let _ = writeln!(text, "  grading: {}", due_text(one));
        }
        None => text.push_str("  grading: no day can be told; `grading` says why\n"),
    }
    for (month, (landings, take_offs)) in movements_by_month(&standing, strip) {
        let landings = counted(landings, "landing", "landings");
        let take_offs = counted(take_offs, "take-off", "take-offs");
        let _ = writeln!(text, "  {month}: {landings}, {take_offs}");
    }
    Ok(text)
}

fn rate_text(rate: &DamageRate) -> String {
    let counts = format!(
        "{} in {}",
        counted(rate.reports, "report", "reports"),
        counted(rate.movements, "movement", "movements")
    );
    match (rate.rate, rate.limits) {
        (Some(mean), Some(limits)) => format!(
            "{counts}, {mean:.1} for each 1,000 (90 % interval {:.1} to {:.1})",
            limits.lower, limits.upper
        ),
        _ => format!("{counts}, so that no rate can be told"),
    }
}

fn millimetres_text(depth: Length) -> String {
    format!("{:.0} mm", depth.si() * 1e3)
}

/// By when a place must be graded.
fn due_text(one: &GradingDue) -> String {
    let found = format!(
        "{}: {} on {}, {:.1} mm more in each 1,000 passes, {} is the limit",
        one.place(),
        millimetres_text(one.last.0),
        one.last.1,
        one.growth.si() * 1e3,
        millimetres_text(one.limit)
    );
    let [day, earliest, latest] = one.days;
    let left = one.passes_left[0]
        .map_or_else(String::new, |left| counted(format!("{left:.0}"), "pass, ", "passes, "));
    let earliest =
        earliest.map_or("earliest day not known".to_owned(), |day| format!("earliest {day}"));
    let latest = latest.map_or("no latest day".to_owned(), |day| format!("latest {day}"));
    match day {
        Some(day) => format!("{found}; {left}due {day} ({earliest}, {latest})"),
        None => format!("{found}; {left}no day can be told ({earliest}, {latest})"),
    }
}

/// By when ruts and loose material meet their limits.
pub(super) fn grading(
    path: &Path,
    strip: &str,
    (rut, loose): (&str, Option<&str>),
    form: Form,
) -> Result<String, Failure> {
    let loose = loose.map(|text| length("--loose", text)).transpose()?;
    let limits = GradingLimits { rut: length("--rut", rut)?, loose };
    let entries = Book::open(path)?.entries()?;
    if form == Form::Json {
        let asked = Question { limits, ..question(strip) };
        return Ok(document(told_of_grading(&entries, &asked)?));
    }
    let standing = current(&entries);
    must_know(&standing, NameOf::Strip, strip)?;
    let found = graded(&standing, strip, Timestamp::now(), &limits)?;
    if form == Form::Csv {
        return Ok(grading_table(&found.places));
    }
    let mut text = format!("grading of {strip}\n");
    match found.passes {
        Some(one) => {
            let _ = writeln!(
                text,
                "  {} in {:.0} d, {:.1} a week (95 % interval {:.1} to {:.1})",
                counted(one.movements, "pass", "passes"),
                one.days,
                one.mean,
                one.lower,
                one.upper
            );
        }
        None => text.push_str("  no movement is recorded, so that no day can be told\n"),
    }
    for one in &found.places {
        let _ = writeln!(text, "  {}", due_text(one));
    }
    for why in &found.not_told {
        let _ = writeln!(text, "  not told: {why}");
    }
    Ok(text)
}

fn grading_table(places: &[GradingDue]) -> String {
    let mut text = String::from(
        "what,lane,from_m,to_m,inspections,last_mm,last_date,growth_mm_per_1000_passes,limit_mm,\
         passes_left,passes_left_fewest,passes_left_most,day,earliest,latest\n",
    );
    for one in places {
        let station = |end: Option<Length>| end.map_or_else(String::new, metres_text);
        let passes =
            one.passes_left.map(|left| left.map_or_else(String::new, |n| format!("{n:.0}")));
        let days = one.days.map(|day| day.map_or_else(String::new, |day| day.to_string()));
        let _ = writeln!(
            text,
            "{},{},{},{},{},{:.1},{},{:.2},{:.1},{},{}",
            one.what,
            one.lane.as_deref().unwrap_or_default().replace([',', '"', '\n'], " "),
            station(one.stretch.map(|(from, _)| from)),
            station(one.stretch.map(|(_, to)| to)),
            one.inspections,
            one.last.0.si() * 1e3,
            one.last.1,
            one.growth.si() * 1e3,
            one.limit.si() * 1e3,
            passes.join(","),
            days.join(",")
        );
    }
    text
}

/// How often damage is done, by stretch and by zone.
pub(super) fn damage(
    path: &Path,
    strip: &str,
    (step, file): (Option<&str>, Option<&Path>),
    form: Form,
) -> Result<String, Failure> {
    let step = step.map(|text| length("--step", text)).transpose()?;
    let end = end_of(file)?;
    let entries = Book::open(path)?.entries()?;
    if form == Form::Json {
        let asked = Question { step, end, ..question(strip) };
        return Ok(document(told_of_damage(&entries, &asked)?));
    }
    let standing = current(&entries);
    must_know(&standing, NameOf::Strip, strip)?;
    let found = damage_places(&standing, strip, step, end, confidence())?;
    if form == Form::Csv {
        let mut text = String::from("from_m,to_m,zone,reports,movements,per_1000,lower,upper\n");
        for one in &found.stretches {
            let (from, to) = (metres_text(one.from), metres_text(one.to));
            let _ = writeln!(text, "{from},{to},,{}", rate_cells(&one.rate));
        }
        for (zone, rate) in &found.zones {
            let zone = zone.replace(['"', '\n'], " ");
            let _ = writeln!(text, ",,\"{zone}\",{}", rate_cells(rate));
        }
        return Ok(text);
    }
    let all = damage_rate(&standing, strip, confidence())?;
    let mut text = format!("damage at {strip}: {}\n", rate_text(&all));
    for one in &found.stretches {
        let (from, to) = (one.from.si(), one.to.si());
        let _ = writeln!(text, "  {from:.0} to {to:.0} m: {}", rate_text(&one.rate));
    }
    if found.without_station > 0 {
        let reports = counted(found.without_station, "report states", "reports state");
        let _ = writeln!(text, "  {reports} no station");
    }
    for (zone, rate) in &found.zones {
        let _ = writeln!(text, "  {zone}: {}", rate_text(rate));
    }
    Ok(text)
}

fn rate_cells(rate: &DamageRate) -> String {
    let number = |value: Option<f64>| value.map_or_else(String::new, |value| format!("{value:.3}"));
    format!(
        "{},{},{},{},{}",
        rate.reports,
        rate.movements,
        number(rate.rate),
        number(rate.limits.map(|limits| limits.lower)),
        number(rate.limits.map(|limits| limits.upper))
    )
}
