//! The dossier as a typeset PDF.

use super::DossierReport;
use super::data::DossierData;
use crate::typeset::{TypesetError, TypesetWorld, compile, pdf};

const TEMPLATE: &str = include_str!("../../assets/dossier.typ");

/// The dossier of a strip as a tagged PDF of as many A4 pages as it takes. The
/// same report gives the same bytes.
///
/// # Errors
/// [`TypesetError`] when it cannot be typeset or written.
pub fn dossier_pdf(report: &DossierReport) -> Result<Vec<u8>, TypesetError> {
    let pictures =
        report.figures.iter().map(|figure| (format!("{}.svg", figure.name), figure.svg.clone()));
    let world = TypesetWorld::new(TEMPLATE, &DossierData::new(report), pictures)?;
    pdf(&compile(&world)?, &report.produced.by)
}
