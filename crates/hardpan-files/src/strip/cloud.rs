//! A survey that is a point cloud: the levels that come of it.

use crate::diagnose::page::Files;
use crate::paths::beside;
use crate::strip::ends::{Ends, Lacking};
use crate::strip::laid::{Laid, as_rows, no_levels, stricter};
use crate::strip::survey_keys::SurveyKeys;
use crate::table::cursor::{Entry, Table};
use hardpan_model::{CloudFacts, Given, SurveyFrom};
use hardpan_quantity::Length;
use hardpan_survey::{CloudRequest, Gridded, read_cloud};
use std::sync::Arc;
use toml::de::DeValue;

/// The levels of the cloud that an entry names; mistakes stand at the entry.
pub(super) fn cloud(
    t: &Table<'_>,
    files: &mut Files<'_>,
    entry: &Entry<'_>,
    (ends, keys): (&Ends<'_>, &SurveyKeys),
    stated_noise: Option<Given<Length>>,
) -> Option<Laid> {
    let DeValue::String(named) = entry.value else {
        return None;
    };
    let path = beside(&t.page().file, named);
    let lacking = Lacking { t, entry, what: "the survey is a point cloud" };
    let (axis, strip_length, strip_width) = match ends.plane_axis(&lacking)? {
        Ok(laid) => laid,
        Err(error) => {
            no_levels(t, entry, &path, &error);
            return None;
        }
    };
    let request = CloudRequest {
        axis,
        strip_length,
        strip_width,
        settings: keys.cells(),
        horizontal_unit: keys.horizontal_unit.as_ref().map(|unit| unit.value),
        vertical_unit: keys.vertical_unit.as_ref().map(|unit| unit.value),
    };
    let input = files.open(&path, t.page(), entry.span.clone())?;
    match read_cloud(input, &request, &mut |share| files.told(&path, share)) {
        Ok(Gridded { lines, facts }) => {
            let noise = stricter(stated_noise, computed_noise(t, entry, &facts));
            let file: Arc<str> = path.into();
            files.keep_levels(&file, as_rows(&lines));
            Some(Laid { file, lines, noise, from: SurveyFrom::Cloud(Box::new(facts)) })
        }
        Err(error) => {
            no_levels(t, entry, &path, &error);
            None
        }
    }
}

fn computed_noise(t: &Table<'_>, entry: &Entry<'_>, facts: &CloudFacts) -> Option<Given<Length>> {
    let noise = facts.level_noise?;
    let source = Some("scatter of the points of the cloud about the ground of their cells".into());
    Some(Given { value: noise, origin: t.page().origin(entry.span.start, &entry.path), source })
}
