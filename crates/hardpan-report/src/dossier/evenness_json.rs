//! Chords, straightedges and the table of irregularities for a program.

use super::json::{PlaceJson, place};
use crate::json::{VerdictJson, finite};
use hardpan_assess::{StripDossier, evenness_shape as shape};
use hardpan_quantity::Quantity;
use schemars::JsonSchema;
use serde::Serialize;

/// What one chord or straightedge shows.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Edge")]
pub(super) struct EdgeJson {
    /// Its permanent name, or the words of the limit that somebody sets.
    name: String,
    /// Its length, metres.
    length_m: Option<f64>,
    /// Greatest height or depth allowed, metres.
    limit_m: Option<f64>,
    /// Whether every surveyed line keeps the limit and is proven to.
    verdict: VerdictJson,
    /// By survey line.
    lines: Vec<EdgeLineJson>,
}

/// The worst on one line; null where the ground nowhere stands off the edge.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "EdgeLine")]
struct EdgeLineJson {
    /// Offset of the line, metres.
    offset_m: Option<f64>,
    /// Greatest bump.
    bump: Option<PlaceJson>,
    /// Greatest rut.
    rut: Option<PlaceJson>,
    /// Whether the edge could be laid along all of the line.
    whole: bool,
}

/// One row of the table; null where no irregularity has such a length.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "IrregularityLength")]
pub(super) struct LengthJson {
    /// Over this length, metres.
    over_m: Option<f64>,
    /// Up to this length, metres.
    length_m: Option<f64>,
    /// Greatest height or depth of paved runways, metres.
    most_m: Option<f64>,
    /// Accepted for a time, metres.
    for_a_time_m: Option<f64>,
    /// Height found, metres.
    height_m: Option<f64>,
    /// Its length, metres.
    found_length_m: Option<f64>,
    /// Its station, metres.
    station_m: Option<f64>,
    /// Its offset, metres.
    offset_m: Option<f64>,
    /// How it stands: `within`, `for a time`, `beyond both` or `none`.
    grade: &'static str,
}

pub(super) fn edges(dossier: &StripDossier) -> Vec<EdgeJson> {
    dossier.edges.iter().map(edge).collect()
}

fn edge(edge: &shape::EdgeShape) -> EdgeJson {
    let line = |line: &shape::EdgeLineShape| EdgeLineJson {
        offset_m: finite(line.offset.si()),
        bump: line.bump.as_ref().map(place),
        rut: line.rut.as_ref().map(place),
        whole: line.whole,
    };
    EdgeJson {
        name: edge.name.clone(),
        length_m: finite(edge.length.si()),
        limit_m: finite(edge.limit.si()),
        verdict: edge.verdict.into(),
        lines: edge.lines.iter().map(line).collect(),
    }
}

pub(super) fn length(row: &shape::IrregularityRow) -> LengthJson {
    let found = row.found.as_ref();
    LengthJson {
        over_m: finite(row.over.si()),
        length_m: finite(row.length.si()),
        most_m: finite(row.most.si()),
        for_a_time_m: finite(row.for_a_time.si()),
        height_m: found.and_then(|(event, _)| finite(event.height.si())),
        found_length_m: found.and_then(|(event, _)| finite(event.length.si())),
        station_m: found.and_then(|(event, _)| finite(event.station.si())),
        offset_m: found.and_then(|(_, offset)| finite(offset.si())),
        grade: row.grade,
    }
}
