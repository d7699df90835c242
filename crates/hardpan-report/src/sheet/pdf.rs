//! The sheet as pages to print.

use super::{MASSES_LEAVE_OUT, MassesReport};
use crate::typeset::{TypesetError, TypesetWorld, compile, pdf, printable};
use hardpan_assess::{CAUTION, MassCell};
use hardpan_model::Verdict;
use serde::Serialize;

const TEMPLATE: &str = include_str!("../../assets/masses.typ");

/// Everything on the page, as strings.
#[derive(Debug, Serialize)]
struct PageData {
    title: String,
    subtitle: String,
    caution: String,
    left_out: String,
    produced: String,
    winds: Vec<String>,
    panels: Vec<PanelData>,
    codes: Vec<(String, String)>,
}

#[derive(Debug, Serialize)]
struct PanelData {
    title: String,
    rows: Vec<RowData>,
}

#[derive(Debug, Serialize)]
struct RowData {
    temperature: String,
    cells: Vec<CellData>,
}

#[derive(Debug, Serialize)]
struct CellData {
    kind: &'static str,
    mass: String,
    code: String,
}

/// The sheet as a tagged PDF of as many A4 pages as it takes. The same report
/// gives the same bytes.
///
/// # Errors
/// [`TypesetError`] when it cannot be typeset or written.
pub fn masses_pdf(report: &MassesReport) -> Result<Vec<u8>, TypesetError> {
    let world = TypesetWorld::new(TEMPLATE, &data(report), [])?;
    pdf(&compile(&world)?, &report.produced.by)
}

fn data(report: &MassesReport) -> PageData {
    let produced = &report.produced;
    let panel = |panel: &hardpan_assess::MassPanel| PanelData {
        title: printable(&report.panel_title(panel)),
        rows: report
            .temperatures()
            .iter()
            .zip(&panel.rows)
            .map(|(temperature, row)| RowData {
                temperature: printable(temperature),
                cells: row.iter().map(|cell| cell_data(report, cell)).collect(),
            })
            .collect(),
    };
    let codes = report.codes();
    PageData {
        title: printable(&report.title()),
        subtitle: printable(&report.subtitle()),
        caution: CAUTION.to_owned(),
        left_out: MASSES_LEAVE_OUT.to_owned(),
        produced: printable(&format!(
            "{} · {} · {}",
            produced.by, produced.at, produced.identifier
        )),
        winds: report.winds().iter().map(|wind| printable(wind)).collect(),
        panels: report.sheet.panels.iter().map(panel).collect(),
        codes: codes
            .into_iter()
            .map(|(code, title)| (code.to_owned(), printable(&title)))
            .collect(),
    }
}

fn cell_data(report: &MassesReport, cell: &MassCell) -> CellData {
    let kind = match (cell.mass, cell.verdict) {
        (Some(_), _) => "mass",
        (None, Verdict::Unproven) => "unproven",
        (None, _) => "none",
    };
    CellData { kind, mass: printable(&report.mass(cell)), code: printable(&report.by(cell)) }
}
