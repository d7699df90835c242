//! `[[chart]]` of an aeroplane: one approved performance chart.

use crate::aeroplane::limits::surfaces;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Files, Page};
use crate::rows::chart::{ChartRows, chart as rows_of};
use crate::strip::{load, path, states};
use crate::table::cursor::Table;
use hardpan_model::{Chart, ChartArgument, ChartFigure, ChartWind};

const WINDS: [(&str, ChartWind); 2] =
    [("reported", ChartWind::Reported), ("credited", ChartWind::Credited)];

pub(crate) fn chart(t: &mut Table<'_>, files: &mut Files<'_>) -> Option<Chart> {
    let gives = t.word("gives", &ChartFigure::ALL.map(|figure| (figure.word(), figure)));
    let entry = path(t, "file");
    let flap = t.text("flap");
    let surface = t.word("surface", &surfaces());
    let state = t.word("surface_state", &states());
    let bleeds = t.text("bleeds");
    let wind = t.word("wind", &WINDS);
    for (key, example) in [("gives", "\"take-off distance\""), ("file", "\"chart.csv\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    let (gives, entry) = (gives?, entry?);
    let (file, text) = load(t.page(), files, &entry)?;
    let page = Page::new(&file, &text);
    let read = rows_of(&page, gives.value);
    files.close(page);
    let ChartRows { arguments, values } = read?;
    let windy = arguments.iter().any(|(argument, _)| *argument == ChartArgument::Headwind);
    if windy && wind.is_none() {
        t.page().report(t.span(), &Mistake::ChartWindKind {});
        return None;
    }
    Some(Chart { gives, flap, surface, state, bleeds, wind, file, arguments, values })
}
