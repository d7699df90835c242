//! The strip for a person at a terminal: what a surveyor says first.

use super::DossierReport;
use super::rows::{FactRow, PlaceRow};
use crate::report::verdict_symbol;
use crate::text::{Paint, TextStyle, table_text, verdict_text};
use crate::wrap::{entry, hanging, sentence};
use hardpan_model::Verdict;

/// The dossier as terminal text; ends with a line feed. Widths under 40
/// columns are treated as 40.
#[must_use]
pub fn dossier_text(report: &DossierReport, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let sections = [
        Some(answer(report, &paint)),
        Some(checks(report, &paint)),
        reasons(report, &paint),
        places(report, &paint),
        Some(repairs(report, &paint)),
        edges(report, &paint),
        lengths(report, &paint),
        index(report, &paint),
        list("Where the shape would hold water", &report.ponds, &paint),
        list("Washboard", &report.washboard, &paint),
        ride(report, &paint),
        soundings(report, &paint),
        Some(facts("Strip", &report.facts, &paint)),
        Some(facts("Survey and soundings", &report.survey, &paint)),
        missing(report, &paint),
    ];
    let mut out = sections.into_iter().flatten().collect::<Vec<String>>().join("\n");
    out.push('\n');
    out.push_str(&hanging(&report.caution(), paint.width(), ""));
    out
}

fn answer(report: &DossierReport, paint: &Paint) -> String {
    let dossier = &report.dossier;
    let mut out = paint.answer(dossier.verdict, &format!("{}. {}", report.title, dossier.sentence));
    out.push('\n');
    for said in &report.summary {
        out.push_str(&hanging(said, paint.width(), "  "));
    }
    out
}

fn checks(report: &DossierReport, paint: &Paint) -> String {
    let mut out = paint.heading("Checks of the strip alone");
    let header = ["Verdict", "Code", "Check", "Value", "Limit", "Place"];
    let mut table = paint.table(&header, &[3, 4]);
    for row in &report.findings {
        let or_dash = |text: &Option<String>| text.clone().unwrap_or_else(|| "–".to_owned());
        table.add_row([
            verdict_text(row.verdict),
            row.code.to_owned(),
            row.title.clone(),
            or_dash(&row.value),
            or_dash(&row.limit_short),
            or_dash(&row.place_text).replace('\u{a0}', " "),
        ]);
    }
    out.push_str(&paint.verdicts(&table_text(&table)));
    if !report.left_to_flights.is_empty() {
        out.push_str(&hanging(&report.left_to_flights, paint.width(), "  "));
    }
    out
}

fn reasons(report: &DossierReport, paint: &Paint) -> Option<String> {
    let rows: Vec<_> = report.findings.iter().filter(|row| row.verdict != Verdict::Pass).collect();
    if rows.is_empty() {
        return None;
    }
    let mut out = paint.heading("Why");
    for row in rows {
        let label = format!("{} {:<4}", verdict_symbol(row.verdict), row.code);
        let said = [Some(row.because.as_str()), row.instruction.as_deref()];
        let said: Vec<String> = said.into_iter().flatten().map(sentence).collect();
        out.push_str(&entry(&label, &said.join(" "), 6, paint.width()));
    }
    Some(out)
}

fn places(report: &DossierReport, paint: &Paint) -> Option<String> {
    if report.places.is_empty() {
        return None;
    }
    let mut out = paint.heading("Worst places");
    let mut table = paint
        .table(&["  No.", "What", "Stations", "Offset", "Figure", "Limit", "More"], &[0, 3, 4, 5]);
    for row in &report.places {
        let over = if row.over { "✗ " } else { "" };
        table.add_row([
            format!("  {over}{}", row.number),
            row.what.to_owned(),
            row.stretch.replace('\u{a0}', " "),
            row.offset.replace('\u{a0}', " "),
            row.size.clone(),
            row.limit.clone(),
            row.words.clone(),
        ]);
    }
    out.push_str(&table_text(&table));
    Some(out)
}

fn repairs(report: &DossierReport, paint: &Paint) -> String {
    let mut out = paint.heading("To cut and to fill");
    if !report.repairs.is_empty() {
        let header = ["  What", "Stations", "Offsets", "At most", "Volume", "Limit passed of"];
        let mut table = paint.table(&header, &[3, 4]);
        for row in &report.repairs {
            table.add_row([
                format!("  {}", row.action),
                row.stretch.replace('\u{a0}', " "),
                row.offsets.replace('\u{a0}', " "),
                row.greatest.clone(),
                row.volume.clone(),
                row.checks.clone(),
            ]);
        }
        out.push_str(&table_text(&table));
    }
    out.push_str(&hanging(&report.volumes, paint.width(), "  "));
    out
}

fn list(title: &str, rows: &[PlaceRow], paint: &Paint) -> Option<String> {
    if rows.is_empty() {
        return None;
    }
    let mut out = paint.heading(title);
    for row in rows {
        let line = format!("{}, offset {}: {}; {}", row.stretch, row.offset, row.size, row.words);
        out.push_str(&hanging(&line, paint.width(), "  · "));
    }
    Some(out)
}

fn index(report: &DossierReport, paint: &Paint) -> Option<String> {
    let index = &report.index;
    let mut out = paint.heading(&format!("Roughness index by 100 m, {}", index.unit));
    if !index.rows.is_empty() {
        let offsets = index.lines.iter().map(|offset| format!("offset {offset}"));
        let header: Vec<String> = std::iter::once("  Stations".to_owned()).chain(offsets).collect();
        let names: Vec<&str> = header.iter().map(String::as_str).collect();
        let right: Vec<usize> = (1..names.len()).collect();
        let mut table = paint.table(&names, &right);
        for (stretch, values) in &index.rows {
            let first = format!("  {}", stretch.replace('\u{a0}', " "));
            table.add_row(std::iter::once(first).chain(values.iter().cloned()));
        }
        out.push_str(&table_text(&table));
    }
    if !index.note.is_empty() {
        out.push_str(&hanging(&index.note, paint.width(), "  "));
    }
    for row in &report.spectra {
        let line = format!(
            "offset {}: class {} of [ISO-8608], {} × 10⁻⁶ m³ at 10 m, exponent {}",
            row.offset, row.class, row.density, row.exponent
        );
        out.push_str(&hanging(&line, paint.width(), "  spectrum "));
    }
    Some(out)
}

fn edges(report: &DossierReport, paint: &Paint) -> Option<String> {
    if report.edges.is_empty() {
        return None;
    }
    let mut out = paint.heading("Under each chord and straightedge, the worst of all lines");
    let header = ["Verdict", "Edge", "Limit", "Greatest bump", "Greatest rut", "Lines whole"];
    let mut table = paint.table(&header, &[2, 5]);
    for row in &report.edges {
        table.add_row([
            row.verdict.clone(),
            row.name.clone(),
            row.limit.clone(),
            row.bump.replace('\u{a0}', " "),
            row.rut.replace('\u{a0}', " "),
            row.lines.clone(),
        ]);
    }
    out.push_str(&paint.verdicts(&table_text(&table)));
    Some(out)
}

fn lengths(report: &DossierReport, paint: &Paint) -> Option<String> {
    if report.lengths.is_empty() {
        return None;
    }
    let title = "Single irregularities by length, beside the table for paved runways (from memory)";
    let mut out = paint.heading(title);
    let header = ["  Length", "At most", "For a time", "Found", "Place", "Stands"];
    let mut table = paint.table(&header, &[1, 2]);
    for row in &report.lengths {
        table.add_row([
            format!("  {}", row.length),
            row.most.clone(),
            row.for_a_time.clone(),
            row.found.clone(),
            row.place.replace('\u{a0}', " "),
            row.grade.to_owned(),
        ]);
    }
    out.push_str(&table_text(&table));
    Some(out)
}

fn ride(report: &DossierReport, paint: &Paint) -> Option<String> {
    let ride = &report.ride;
    if !ride.wanted {
        return None;
    }
    let mut out = paint.heading("Ride of the aeroplane over the strip");
    if !ride.unknown.is_empty() {
        out.push_str(&hanging(&ride.unknown, paint.width(), "  "));
        return Some(out);
    }
    out.push_str(&hanging(&ride.about, paint.width(), "  "));
    let header =
        ["  Run", "Speed", "Lane", "Cockpit", "Centre", "Gear, nose / main", "Station", "More"];
    let mut table = paint.table(&header, &[1, 3, 4, 5, 6]);
    for row in ride.runs.iter().chain(&ride.by_speed) {
        table.add_row([
            format!("  {}", row.run),
            row.speed.clone(),
            row.lane.to_owned(),
            format!("{}{}", if row.over { "✗ " } else { "" }, row.cockpit),
            row.centre.clone(),
            row.gear.clone(),
            row.station.replace('\u{a0}', " "),
            row.notes.clone(),
        ]);
    }
    out.push_str(&table_text(&table));
    out.push_str(&paint.heading("Height of 1-cosine waves that brings the limit to the cockpit"));
    let header = ["  Wave length", "Speed", "Single bump", "Single dip", "Each of three in a row"];
    let mut table = paint.table(&header, &[0, 1, 2, 3, 4]);
    for row in &ride.waves {
        table.add_row([
            format!("  {}", row.length),
            row.speed.clone(),
            row.bump.clone(),
            row.dip.clone(),
            row.row.clone(),
        ]);
    }
    out.push_str(&table_text(&table));
    Some(out)
}

fn soundings(report: &DossierReport, paint: &Paint) -> Option<String> {
    if report.soundings.is_empty() {
        return None;
    }
    let mut out = paint.heading("Soundings, credited bearing ratios");
    let header =
        ["  Station", "Offset", "Date", "Surfacing", "Under it", "Weakest", "Depth reached"];
    let mut table = paint.table(&header, &[0, 1, 3, 4, 5]);
    for row in &report.soundings {
        table.add_row([
            format!("  {}", row.station.replace('\u{a0}', " ")),
            row.offset.replace('\u{a0}', " "),
            row.date.clone(),
            row.surfacing.clone(),
            row.under.clone(),
            row.weakest.clone(),
            row.depth.clone(),
        ]);
    }
    out.push_str(&table_text(&table));
    Some(out)
}

fn facts(title: &str, facts: &[FactRow], paint: &Paint) -> String {
    let mut out = paint.heading(title);
    for fact in facts {
        let source =
            if fact.source.is_empty() { String::new() } else { format!(" ({})", fact.source) };
        out.push_str(&hanging(
            &format!("{}: {}{source}", fact.label, fact.value),
            paint.width(),
            "  ",
        ));
    }
    out
}

fn missing(report: &DossierReport, paint: &Paint) -> Option<String> {
    if report.missing.is_empty() {
        return None;
    }
    let mut out = paint.heading("What is missing, or would show more");
    for (what, how) in &report.missing {
        let line = if how.is_empty() { what.clone() } else { format!("{what}: {how}") };
        out.push_str(&hanging(&line, paint.width(), "  ? "));
    }
    Some(out)
}
