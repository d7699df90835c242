//! The strip by itself, as people and programs read it: one value in their
//! units, then text, JSON, figures and a typeset dossier.

mod data;
mod evenness_json;
mod evenness_rows;
mod json;
mod pdf;
mod places;
mod ride_json;
mod ride_rows;
mod rows;
mod text;

pub use json::{DOSSIER_FORMAT, DOSSIER_VERSION, dossier_json, dossier_schema};
pub use pdf::dossier_pdf;
pub use places::{OnGlobe, dossier_places};
pub(crate) use rows::{index_number, index_unit};
pub use text::dossier_text;

use crate::explain::{OpenedStep, opened_steps};
use crate::figure::{StripFigure, strip_figures};
use crate::report::Needed;
use crate::told;
use crate::wrap::plain;
use crate::{FindingRow, Produced};
use evenness_rows::{EdgeRow, LengthRow};
use hardpan_assess::{CAUTION, StripDossier};
use hardpan_model::{Formula, Verdict};
use hardpan_quantity::UnitSystem;
use ride_rows::RideTables;
use rows::{FactRow, IndexTable, PlaceRow, RepairRow, SoundingRow, SpectrumRow};

/// Everything that is told of a strip, in the reader's units.
#[derive(Debug, Clone, PartialEq)]
pub struct DossierReport {
    units: UnitSystem,
    produced: Produced,
    title: String,
    summary: Vec<String>,
    findings: Vec<FindingRow>,
    left_to_flights: String,
    places: Vec<PlaceRow>,
    repairs: Vec<RepairRow>,
    volumes: String,
    facts: Vec<FactRow>,
    survey: Vec<FactRow>,
    missing: Vec<(String, String)>,
    index: IndexTable,
    spectra: Vec<SpectrumRow>,
    ponds: Vec<PlaceRow>,
    washboard: Vec<PlaceRow>,
    irregularities: Vec<PlaceRow>,
    edges: Vec<EdgeRow>,
    lengths: Vec<LengthRow>,
    ride: RideTables,
    soundings: Vec<SoundingRow>,
    sources: Vec<String>,
    figures: Vec<StripFigure>,
    dossier: StripDossier,
}

impl DossierReport {
    /// The dossier of a strip in one system of units. `produced.at` is the
    /// date that the caller wants on it, or empty: there is no clock here.
    #[must_use]
    pub fn new(dossier: &StripDossier, units: UnitSystem, produced: Produced) -> Self {
        let told = told::dossier(dossier, units);
        let dossier = &told;
        let findings = dossier
            .findings
            .iter()
            .map(|finding| FindingRow::new(finding, units, &Needed::default()));
        let summary = dossier.summary.iter().map(|said| plain(&said.show(units)));
        let plain_pair = |(what, how): &(String, String)| (plain(what), plain(how));
        let of_lines = |pick: rows::Pick| rows::of_lines(dossier, pick, units);
        Self {
            units,
            produced: Produced {
                by: plain(&produced.by),
                at: plain(&produced.at),
                identifier: plain(&produced.identifier),
            },
            title: plain(&dossier.name),
            summary: summary.chain(rows::index_sentence(dossier, units)).collect(),
            findings: findings.collect(),
            left_to_flights: rows::left_to_flights(dossier),
            places: rows::places(&dossier.places, units),
            repairs: rows::repairs(dossier, units),
            volumes: rows::volumes(dossier, units),
            facts: rows::facts(&dossier.facts, units),
            survey: rows::facts(&dossier.survey, units),
            missing: dossier.missing.iter().map(plain_pair).collect(),
            index: rows::index_table(dossier, units),
            spectra: rows::spectra(dossier, units),
            ponds: rows::places(dossier.ponds.as_ref().map_or(&[], Vec::as_slice), units),
            washboard: of_lines(|line| &line.washboard),
            irregularities: of_lines(|line| &line.irregularities),
            edges: evenness_rows::edges(dossier, units),
            lengths: evenness_rows::lengths(dossier, units),
            ride: ride_rows::of(dossier, units),
            soundings: rows::soundings(dossier, units),
            sources: dossier.sources.iter().map(|source| plain(source)).collect(),
            figures: strip_figures(dossier, units),
            dossier: dossier.clone(),
        }
    }

    /// The figures, in the order of the dossier.
    #[must_use]
    pub fn figures(&self) -> &[StripFigure] {
        &self.figures
    }

    /// Name of the strip.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.title
    }

    /// Verdict of the strip by itself.
    #[must_use]
    pub const fn verdict(&self) -> Verdict {
        self.dossier.verdict
    }

    /// The surveyor's summary, one sentence a line.
    #[must_use]
    pub fn summary(&self) -> &[String] {
        &self.summary
    }

    /// Every check of the strip by itself.
    #[must_use]
    pub fn findings(&self) -> &[FindingRow] {
        &self.findings
    }

    /// The steps behind the finding at `index`, in the order of computation; none
    /// when there is no such finding. For `formulas` see [`crate::explain`].
    #[must_use]
    pub fn opened(&self, index: usize, formulas: &[&Formula]) -> Option<Vec<OpenedStep>> {
        let finding = self.dossier.findings.get(index)?;
        Some(opened_steps(&finding.basis.steps, formulas, self.units, &Needed::default()))
    }

    /// What is missing, and how to supply it.
    #[must_use]
    pub fn missing(&self) -> &[(String, String)] {
        &self.missing
    }

    /// The standing caution, and what a strip by itself does not tell.
    #[must_use]
    pub fn caution(&self) -> String {
        format!(
            "{CAUTION} A strip that holds by itself is not yet fit for any aeroplane: assess the \
             flight."
        )
    }
}
