//! The sheet for a program: versioned, in SI units, with its schema.

use super::{MASSES_LEAVE_OUT, MassesReport};
use crate::json::{ProducedJson, Quantity, VerdictJson};
use hardpan_assess::{CAUTION, MassCell, MassPanel};
use schemars::JsonSchema;
use serde::Serialize;

/// Name of the format, as it stands in `format`.
pub const MASSES_FORMAT: &str = "hardpan-masses";

/// Version of the format, as it stands in `version`. It rises when a key
/// changes its meaning or goes; new keys alone do not raise it.
pub const MASSES_VERSION: u32 = 1;

/// Largest masses of one flight over a range of days.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "hardpan masses")]
struct Document {
    /// Always `hardpan-masses`.
    #[schemars(extend("const" = MASSES_FORMAT))]
    format: &'static str,
    /// Version of this format.
    #[schemars(extend("const" = MASSES_VERSION))]
    version: u32,
    /// What produced the document.
    produced: ProducedJson,
    /// What every reader must know.
    caution: &'static str,
    /// What the sheet leaves out.
    left_out: &'static str,
    /// Name of the flight.
    flight: String,
    /// Name of the aeroplane.
    aeroplane: String,
    /// Name of the strip.
    strip: String,
    /// Ends in use.
    directions: String,
    /// Outside temperatures, one for each row.
    temperatures: Vec<Quantity>,
    /// Headwinds along the movement, one for each column; tailwinds are negative.
    headwinds: Vec<Quantity>,
    /// One panel for each movement, state and pressure.
    panels: Vec<PanelJson>,
}

/// One movement at one pressure in one state of the surface.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Panel")]
struct PanelJson {
    /// `take-off` or `landing`.
    movement: &'static str,
    /// State of the surface; null when nobody stated it.
    surface_state: Option<&'static str>,
    /// Main tyre pressure; null where the least that each mass allows is set.
    main_tyre_pressure: Option<Quantity>,
    /// Air pressure reduced to sea level; null when nobody stated it.
    sea_level_pressure: Option<Quantity>,
    /// Mass planned.
    planned: Option<Quantity>,
    /// By temperature, then by wind.
    rows: Vec<Vec<CellJson>>,
}

/// The largest mass in one place.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cell")]
struct CellJson {
    /// Largest mass at which every safety check holds; null if none does or if
    /// something is missing.
    mass: Option<Quantity>,
    /// Verdict at that mass; without a mass, why there is none.
    verdict: VerdictJson,
    /// Code of the check that limits, fails or is unproven.
    code: Option<&'static str>,
    /// What it checks.
    check: Option<String>,
    /// Flap setting that it is for.
    flap: Option<String>,
    /// Decision speed at that mass; null for a landing or without a mass.
    decision_speed: Option<Quantity>,
}

fn document(report: &MassesReport) -> Document {
    let sheet = &report.sheet;
    Document {
        format: MASSES_FORMAT,
        version: MASSES_VERSION,
        produced: ProducedJson::of(&report.produced),
        caution: CAUTION,
        left_out: MASSES_LEAVE_OUT,
        flight: sheet.identity.flight.clone(),
        aeroplane: sheet.identity.aeroplane.clone(),
        strip: sheet.identity.strip.clone(),
        directions: sheet.identity.directions.clone(),
        temperatures: sheet.temperatures.iter().map(|one| Quantity::of(*one)).collect(),
        headwinds: sheet.headwinds.iter().map(|one| Quantity::of(*one)).collect(),
        panels: sheet.panels.iter().map(panel).collect(),
    }
}

fn panel(panel: &MassPanel) -> PanelJson {
    PanelJson {
        movement: panel.movement.word(),
        surface_state: panel.state.map(hardpan_model::SurfaceState::word),
        main_tyre_pressure: panel.pressure.map(Quantity::of),
        sea_level_pressure: panel.air_pressure.map(Quantity::of),
        planned: panel.planned.map(Quantity::of),
        rows: panel.rows.iter().map(|row| row.iter().map(cell).collect()).collect(),
    }
}

fn cell(cell: &MassCell) -> CellJson {
    CellJson {
        mass: cell.mass.map(Quantity::of),
        verdict: cell.verdict.into(),
        code: cell.by.as_ref().map(|(code, _)| *code),
        check: cell.by.as_ref().map(|(_, title)| title.clone()),
        flap: cell.flap.clone(),
        decision_speed: cell.decision.map(Quantity::of),
    }
}

/// The sheet as the text of a JSON file.
#[must_use]
pub fn masses_json(report: &MassesReport) -> String {
    let text = serde_json::to_string_pretty(&document(report))
        .expect("the document is made of structs, strings and numbers, which always serialise");
    text + "\n"
}

/// Its schema as the text of a file.
#[must_use]
pub fn masses_schema() -> String {
    let settings = schemars::generate::SchemaSettings::draft2020_12().for_serialize();
    let schema = settings.into_generator().into_root_schema_for::<Document>();
    format!("{:#}\n", schema.to_value())
}
