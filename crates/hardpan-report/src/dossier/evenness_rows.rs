//! What chords, straightedges and the table of irregularities show, in the
//! reader's units.

use crate::measure::{offset_text, quantity_text, stretch_text};
use crate::report::verdict_symbol;
use crate::wrap::plain;
use hardpan_assess::{StripDossier, StripPlace, evenness_shape as shape};
use hardpan_quantity::{Amount, UnitSystem};
use serde::Serialize;

/// One chord or straightedge over all lines.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct EdgeRow {
    pub(super) verdict: String,
    pub(super) name: String,
    pub(super) limit: String,
    pub(super) bump: String,
    pub(super) rut: String,
    pub(super) lines: String,
}

/// One length of the table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct LengthRow {
    pub(super) length: String,
    pub(super) most: String,
    pub(super) for_a_time: String,
    pub(super) found: String,
    pub(super) place: String,
    pub(super) grade: &'static str,
}

pub(super) fn edges(dossier: &StripDossier, units: UnitSystem) -> Vec<EdgeRow> {
    dossier.edges.iter().map(|edge| row(edge, units)).collect()
}

fn row(edge: &shape::EdgeShape, units: UnitSystem) -> EdgeRow {
    let told = |pick: fn(&shape::EdgeLineShape) -> &Option<StripPlace>| {
        let all = edge.lines.iter().filter_map(|line| pick(line).as_ref());
        let worst = all.reduce(|most, next| if next.size.si > most.size.si { next } else { most });
        worst.map_or_else(
            || "–".to_owned(),
            |place| {
                format!(
                    "{}, {}, offset {}",
                    place.size.show(units),
                    stretch_text(place.from, place.to, units),
                    offset_text(place.offsets.0, units)
                )
            },
        )
    };
    let whole = edge.lines.iter().filter(|line| line.whole).count();
    EdgeRow {
        verdict: format!("{} {}", verdict_symbol(edge.verdict), edge.verdict.word()),
        name: match edge.name.as_str() {
            "chord-100-ft" => "100 ft chord".to_owned(),
            "chord-200-ft" => "200 ft chord".to_owned(),
            "depression-3-in" => "3 m straightedge, for holes".to_owned(),
            given => plain(given),
        },
        limit: Amount::from(edge.limit).show(units),
        bump: told(|line| &line.bump),
        rut: told(|line| &line.rut),
        lines: format!("{whole} of {}", edge.lines.len()),
    }
}

pub(super) fn lengths(dossier: &StripDossier, units: UnitSystem) -> Vec<LengthRow> {
    let rows = dossier.irregularities.as_ref().map_or(&[][..], Vec::as_slice);
    rows.iter().map(|one| length(one, units)).collect()
}

fn length(one: &shape::IrregularityRow, units: UnitSystem) -> LengthRow {
    let (found, place) = match &one.found {
        None => ("–".to_owned(), "–".to_owned()),
        Some((event, offset)) => {
            let kind = match event.kind {
                shape::Kind::Bump => "bump",
                shape::Kind::Rut => "dip",
            };
            let height = quantity_text(event.height, units);
            let place = format!(
                "{}, offset {}",
                stretch_text(event.station, event.station, units),
                offset_text(*offset, units)
            );
            (format!("{kind} {height} over {}", quantity_text(event.length, units)), place)
        }
    };
    LengthRow {
        length: format!("up to {}", quantity_text(one.length, units)),
        most: quantity_text(one.most, units),
        for_a_time: quantity_text(one.for_a_time, units),
        found,
        place,
        grade: one.grade,
    }
}

/// Why the table is not known; empty when it is.
pub(super) fn lengths_unknown(dossier: &StripDossier) -> String {
    match &dossier.irregularities {
        Ok(_) => String::new(),
        Err(why) => format!("Not known: {}.", plain(why)),
    }
}
