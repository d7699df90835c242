//! A survey that is a grid of levels: as text, or as an image with tags.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Files, Page};
use crate::paths::beside;
use crate::strip::ends::{Ends, Lacking};
use crate::strip::laid::{Laid, along, as_rows, no_levels};
use crate::strip::load;
use crate::strip::survey_keys::SurveyKeys;
use crate::table::cursor::{Entry, Table};
use hardpan_model::{AxisFrom, Given, GridFacts, SurveyFrom};
use hardpan_quantity::{Angle, Length};
use hardpan_survey::{
    CloudUnit, Error, Grid, GridUnits, SampledLines, ascii_grid, covered_axis, geotiff,
    sampled_lines,
};
use std::sync::Arc;
use toml::de::DeValue;

/// The levels of the grid that an entry names; mistakes in its text stand
/// there, others at the entry.
pub(super) fn grid(
    t: &Table<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
    (ends, keys, bearing): (&Ends<'_>, &SurveyKeys, Option<&Given<Angle>>),
    stated_noise: Option<Given<Length>>,
) -> Option<Laid> {
    let DeValue::String(named) = entry.value else {
        return None;
    };
    let path = beside(&t.page().file, named);
    let refused = |error: &Error| no_levels(t, entry, &path, error);
    let lacking = Lacking { t, entry, what: "the survey is a grid" };
    let (start, laid) = if keys.is_fitted() {
        (Some(ends.plane_start(&lacking, bearing)?), None)
    } else {
        (None, Some(ends.plane_axis(&lacking)?.inspect_err(refused).ok()?))
    };
    let is_text = path.to_ascii_lowercase().ends_with(".asc");
    let grid = if is_text {
        let units = stated_units(keys).inspect_err(refused).ok()?;
        text(t, files, entry, units)?
    } else {
        let input = files.open(&path, t.page(), entry.span.clone())?;
        let unit = |given: &Option<Given<CloudUnit>>| given.as_ref().map(|given| given.value);
        let (horizontal, vertical) = (unit(&keys.horizontal_unit), unit(&keys.vertical_unit));
        geotiff(input, horizontal, vertical).inspect_err(refused).ok()?
    };
    let (axis, from, length, width) = match (start, laid) {
        (Some((start, length, width)), _) => {
            let fitted = covered_axis(&grid.footprint(), (length, width), start);
            let fitted = fitted.inspect_err(refused).ok()?;
            (fitted.axis, along(&fitted), length, width)
        }
        (None, Some((axis, length, width))) => (axis, AxisFrom::Thresholds, length, width),
        (None, None) => return None,
    };
    let SampledLines { lines, places, missing } =
        sampled_lines(&grid, &axis, length, width).inspect_err(refused).ok()?;
    let file: Arc<str> = path.as_str().into();
    if !is_text {
        files.keep_levels(&file, as_rows(&lines));
    }
    let (columns, rows) = grid.size();
    let facts = GridFacts {
        axis: from,
        cell: grid.cell(),
        columns: columns as u64,
        rows: rows as u64,
        places: places as u64,
        unsurveyed: missing as u64,
    };
    Some(Laid { file, lines, noise: stated_noise, from: SurveyFrom::Grid(facts) })
}

/// Text says nothing of its units.
fn stated_units(keys: &SurveyKeys) -> Result<GridUnits, Error> {
    let metres = |given: &Option<Given<CloudUnit>>, which| {
        let unit = given.as_ref().ok_or(Error::UnitUnknown { which })?;
        Ok(unit.value.metres())
    };
    Ok(GridUnits {
        horizontal_m: metres(&keys.horizontal_unit, "horizontal")?,
        vertical_m: metres(&keys.vertical_unit, "vertical")?,
    })
}

fn text(t: &Table<'_>, files: &mut Files<'_>, entry: &Entry<'_>, units: GridUnits) -> Option<Grid> {
    let (file, text) = load(t.page(), files, entry)?;
    let page = Page::new(&file, &text);
    let grid = ascii_grid(&text, units).map_err(|error| {
        let mistake = Mistake::GridText { why: error.why.clone(), wanted: error.wanted.clone() };
        page.report(error.at..error.at + error.length, &mistake);
    });
    files.close(page);
    grid.ok()
}
