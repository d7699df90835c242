//! Cross-sections along the strip.

use super::{CrossfallAt, SectionShape};
use hardpan_model::Strip;
use hardpan_quantity::{Length, Quantity, metres};
use hardpan_surface::{CrossSection, EvennessRules, SurfaceReport, elevation_at};

/// Sections shown.
const COUNT: usize = 9;

/// Sections evenly along the strip, both ends included, wherever two lines or
/// more have a level.
pub(super) fn of(
    strip: &Strip,
    rules: &EvennessRules,
    report: Option<&SurfaceReport>,
) -> Vec<SectionShape> {
    let (Some(survey), Some(report)) = (&strip.survey, report) else { return Vec::new() };
    let (Some(first), Some(last)) = (report.crossfall.first(), report.crossfall.last()) else {
        return Vec::new();
    };
    let span = last.station - first.station;
    let wanted = (0..COUNT).map(|at| first.station + span * (at as f64 / (COUNT - 1) as f64));
    let mut lines: Vec<_> = survey.lines.iter().collect();
    lines.sort_by(|a, b| a.offset.si().total_cmp(&b.offset.si()));
    let mut found: Vec<SectionShape> = Vec::new();
    for station in wanted {
        let nearest = report.crossfall.iter().min_by(|a, b| {
            (a.station - station).abs().si().total_cmp(&(b.station - station).abs().si())
        });
        let Some(fall) = nearest else { continue };
        if found.last().is_some_and(|before| before.station == fall.station) {
            continue;
        }
        let levels: Vec<(Length, Length)> = lines
            .iter()
            .filter_map(|line| {
                let level = elevation_at(line, fall.station, rules.slope_interval).ok()??;
                Some((line.offset, level))
            })
            .collect();
        if levels.len() > 1 {
            let form = fall.form.map(word);
            found.push(SectionShape { station: fall.station, levels, form });
        }
    }
    found
}

const fn word(form: CrossSection) -> &'static str {
    match form {
        CrossSection::Crowned => "crowned",
        CrossSection::OneSided => "one-sided",
        CrossSection::Dished => "dished",
        CrossSection::Level => "level",
    }
}

/// Crossfall by station, at most one for every ten metres.
pub(super) fn crossfall(report: Option<&SurfaceReport>) -> Vec<CrossfallAt> {
    let all = report.map_or(&[][..], |report| report.crossfall.as_slice());
    let mut last = metres(f64::NEG_INFINITY);
    let mut shown = Vec::new();
    for fall in all {
        if fall.station - last >= metres(9.99) {
            last = fall.station;
            shown.push(CrossfallAt {
                station: fall.station,
                left: fall.left,
                right: fall.right,
                across: fall.across,
            });
        }
    }
    shown
}
