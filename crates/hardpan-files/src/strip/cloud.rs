//! A survey that is a point cloud: the levels that come of it.

use crate::diagnose::page::Files;
use crate::paths::beside;
use crate::strip::ends::{Ends, Lacking};
use crate::strip::laid::{Laid, along, as_rows, no_levels, stricter};
use crate::strip::survey_keys::SurveyKeys;
use crate::table::cursor::{Entry, Table};
use hardpan_model::{AxisFrom, CloudFacts, Given, SurveyFrom};
use hardpan_quantity::{Angle, Length};
use hardpan_survey::{
    CloudRequest, CloudUnit, Error, Gridded, cloud_footprint, covered_axis, read_cloud,
};
use std::sync::Arc;
use toml::de::DeValue;

/// The levels of the cloud that an entry names; mistakes stand at the entry.
pub(super) fn cloud(
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
    let lacking = Lacking { t, entry, what: "the survey is a point cloud" };
    let refused = |error: &Error| no_levels(t, entry, &path, error);
    let unit = |given: &Option<Given<CloudUnit>>| given.as_ref().map(|given| given.value);
    let (horizontal_unit, vertical_unit) = (unit(&keys.horizontal_unit), unit(&keys.vertical_unit));
    let (axis, from, strip_length, strip_width) = if keys.is_fitted() {
        let (start, length, width) = ends.plane_start(&lacking, bearing)?;
        let input = files.open(&path, t.page(), entry.span.clone())?;
        let half = &mut |share: f64| files.told(&path, 0.5 * share);
        let covered = cloud_footprint(input, (horizontal_unit, vertical_unit), half);
        let fitted = covered.and_then(|points| covered_axis(&points, (length, width), start));
        let fitted = fitted.inspect_err(refused).ok()?;
        (fitted.axis, along(&fitted), length, width)
    } else {
        let (axis, length, width) = ends.plane_axis(&lacking)?.inspect_err(refused).ok()?;
        (axis, AxisFrom::Thresholds, length, width)
    };
    let request = CloudRequest {
        axis,
        strip_length,
        strip_width,
        settings: keys.cells(),
        horizontal_unit,
        vertical_unit,
    };
    let input = files.open(&path, t.page(), entry.span.clone())?;
    let before = if keys.is_fitted() { 0.5 } else { 0.0 };
    let told = &mut |share: f64| files.told(&path, before + (1.0 - before) * share);
    match read_cloud(input, &request, told) {
        Ok(Gridded { lines, facts }) => {
            let facts = CloudFacts { axis: from, ..facts };
            let noise = stricter(stated_noise, computed_noise(t, entry, &facts));
            let file: Arc<str> = path.into();
            files.keep_levels(&file, as_rows(&lines));
            Some(Laid { file, lines, noise, from: SurveyFrom::Cloud(Box::new(facts)) })
        }
        Err(error) => {
            refused(&error);
            None
        }
    }
}

fn computed_noise(t: &Table<'_>, entry: &Entry<'_>, facts: &CloudFacts) -> Option<Given<Length>> {
    let noise = facts.level_noise?;
    let source = Some("scatter of the points of the cloud about the ground of their cells".into());
    Some(Given { value: noise, origin: t.page().origin(entry.span.start, &entry.path), source })
}
