//! What the template of the dossier prints: strings only.

use super::DossierReport;
use super::evenness_rows::{EdgeRow, LengthRow, lengths_unknown};
use super::ride_rows::RideTables;
use super::rows::{FactRow, IndexTable, PlaceRow, RepairRow, SoundingRow, SpectrumRow};
use crate::FindingRow;
use crate::report::verdict_symbol;
use crate::typeset::printable;
use hardpan_assess::StripDossier;
use hardpan_model::Verdict;
use serde::Serialize;

/// Everything in the dossier.
#[derive(Debug, Serialize)]
pub(super) struct DossierData {
    title: String,
    kind: &'static str,
    symbol: &'static str,
    word: String,
    sentence: String,
    caution: String,
    produced: String,
    summary: Vec<String>,
    checks: Vec<CheckData>,
    left_to_flights: String,
    places: Vec<PlaceRow>,
    ponds: Vec<PlaceRow>,
    ponds_unknown: String,
    washboard: Vec<PlaceRow>,
    washboard_unknown: String,
    irregularities: Vec<PlaceRow>,
    repairs: Vec<RepairRow>,
    volumes: String,
    index: IndexTable,
    spectra: Vec<SpectrumRow>,
    edges: Vec<EdgeRow>,
    lengths: Vec<LengthRow>,
    lengths_unknown: String,
    ride: RideTables,
    soundings: Vec<SoundingRow>,
    facts: Vec<FactRow>,
    survey: Vec<FactRow>,
    missing: Vec<(String, String)>,
    sources: Vec<String>,
    figures: Vec<FigureData>,
}

#[derive(Debug, Serialize)]
struct CheckData {
    code: &'static str,
    title: String,
    verdict: &'static str,
    symbol: &'static str,
    value: String,
    limit: String,
    place: String,
    because: String,
}

#[derive(Debug, Serialize)]
struct FigureData {
    name: &'static str,
    title: &'static str,
    words: String,
}

impl DossierData {
    pub(super) fn new(report: &DossierReport) -> Self {
        let dossier = &report.dossier;
        let produced = &report.produced;
        let produced: Vec<String> = [&produced.at, &produced.by, &produced.identifier]
            .into_iter()
            .filter(|part| !part.is_empty())
            .map(|part| printable(part))
            .collect();
        let why = |why: Option<&String>| {
            why.map_or_else(String::new, |why| printable(&format!("Not known: {why}.")))
        };
        Self {
            title: printable(&report.title),
            kind: dossier.verdict.word(),
            symbol: verdict_symbol(dossier.verdict),
            word: dossier.verdict.word().to_uppercase(),
            sentence: printable(&dossier.sentence),
            caution: report.caution(),
            produced: produced.join(" · "),
            summary: report.summary.iter().map(|said| printable(said)).collect(),
            checks: report.findings.iter().map(check).collect(),
            left_to_flights: printable(&report.left_to_flights),
            places: report.places.iter().map(place).collect(),
            ponds: report.ponds.iter().map(place).collect(),
            ponds_unknown: why(dossier.ponds.as_ref().err()),
            washboard: report.washboard.iter().map(place).collect(),
            washboard_unknown: washboard_unknown(dossier),
            irregularities: report.irregularities.iter().map(place).collect(),
            repairs: report
                .repairs
                .iter()
                .map(|row| RepairRow { checks: printable(&row.checks), ..row.clone() })
                .collect(),
            volumes: printable(&report.volumes),
            index: IndexTable { note: printable(&report.index.note), ..report.index.clone() },
            spectra: report.spectra.clone(),
            edges: report
                .edges
                .iter()
                .map(|row| EdgeRow { name: printable(&row.name), ..row.clone() })
                .collect(),
            lengths: report.lengths.clone(),
            lengths_unknown: printable(&lengths_unknown(dossier)),
            ride: RideTables {
                unknown: printable(&report.ride.unknown),
                about: printable(&report.ride.about),
                ..report.ride.clone()
            },
            soundings: report
                .soundings
                .iter()
                .map(|row| SoundingRow { depth: printable(&row.depth), ..row.clone() })
                .collect(),
            facts: report.facts.iter().map(fact).collect(),
            survey: report.survey.iter().map(fact).collect(),
            missing: report
                .missing
                .iter()
                .map(|(what, how)| (printable(what), printable(how)))
                .collect(),
            sources: report.sources.iter().map(|source| printable(source)).collect(),
            figures: report
                .figures
                .iter()
                .map(|figure| FigureData {
                    name: figure.name,
                    title: figure.title,
                    words: printable(&figure.words),
                })
                .collect(),
        }
    }
}

/// On how many lines washboard could not be looked for, and why; empty when it
/// was looked for on all.
fn washboard_unknown(dossier: &StripDossier) -> String {
    let all = dossier.lines.len();
    let unknown: Vec<&String> =
        dossier.lines.iter().filter_map(|line| line.washboard.as_ref().err()).collect();
    match unknown.first() {
        _ if all == 0 => "Not known: the strip has no survey.".to_owned(),
        None => String::new(),
        Some(why) => printable(&format!("Not known on {} of {all} lines: {why}.", unknown.len())),
    }
}

fn check(row: &FindingRow) -> CheckData {
    let or_dash = |text: &Option<String>| printable(text.as_deref().unwrap_or("–"));
    CheckData {
        code: row.code,
        title: printable(&row.title),
        verdict: row.verdict.word(),
        symbol: verdict_symbol(row.verdict),
        value: or_dash(&row.value),
        limit: or_dash(&row.limit_short),
        place: or_dash(&row.place_text),
        because: if row.verdict == Verdict::Pass { String::new() } else { printable(&row.because) },
    }
}

fn place(row: &PlaceRow) -> PlaceRow {
    PlaceRow { words: printable(&row.words), ..row.clone() }
}

fn fact(row: &FactRow) -> FactRow {
    FactRow { label: row.label, value: printable(&row.value), source: printable(&row.source) }
}
