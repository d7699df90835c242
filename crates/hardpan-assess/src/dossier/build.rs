//! The one entry: a strip in, its dossier out.

use super::findings::Judged;
use super::{
    StripDossier, deviations, facts, findings, lines, places, sections, strength, summary,
};
use crate::answer::verdict;
use hardpan_model::{Finding, Strip, Verdict, Weight};
use hardpan_quantity::Length;
use hardpan_surface::{DetailRules, EvennessRules};

/// Judge a strip by itself. `track` is the distance between the main wheels of
/// an aeroplane that is to use it, so that its lanes are looked for in the
/// survey; without it no lane is.
///
/// Whatever the files do not show is *unproven* or says why; nothing fails.
/// Same strip, same bits.
#[must_use]
pub fn dossier(strip: &Strip, track: Option<Length>) -> StripDossier {
    let rules = EvennessRules::default();
    let Judged { findings, left, shape } = findings::of(strip, track);
    let detail = shape.detail.as_ref().map_err(|why| why.because.clone());
    let surface = shape.surface.as_ref().ok();
    let lines = lines::of(strip, &rules, detail.as_ref().copied());
    let soundings = strength::columns(&strip.soundings);
    let ponds = match &detail {
        Ok(detail) => detail
            .ponds
            .as_ref()
            .map(|ponds| ponds.iter().map(places::pond).collect())
            .map_err(ToString::to_string),
        Err(why) => Err(why.clone()),
    };
    let places = places::worst(surface, &ponds, &lines, &soundings);
    let designator = |end: &hardpan_model::StripEnd| {
        end.designator.as_ref().map_or_else(String::new, |given| given.value.clone())
    };
    let mut dossier = StripDossier {
        name: strip
            .name
            .as_ref()
            .map_or_else(|| "strip without a name".to_owned(), |name| name.value.clone()),
        designators: (designator(&strip.low_end), designator(&strip.high_end)),
        length: strip.length.as_ref().map(|given| given.value),
        width: strip.width.as_ref().map(|given| given.value),
        verdict: verdict(&findings),
        sentence: sentence(&findings),
        summary: Vec::new(),
        left_to_flights: left,
        places,
        facts: facts::strip(strip),
        survey: facts::survey(strip),
        missing: facts::missing(&findings, &ponds, &lines),
        sections: sections::of(strip, &rules, surface),
        crossfall: sections::crossfall(surface),
        deviations: deviations::map(strip, &rules),
        water: deviations::water(strip, &DetailRules::default()),
        sources: facts::sources(&findings),
        ponds,
        lines,
        soundings,
        findings,
    };
    dossier.summary = summary::of(&dossier, surface);
    dossier
}

fn sentence(findings: &[Finding]) -> String {
    let count = |wanted: Verdict| {
        let safety = findings.iter().filter(|finding| finding.weight == Weight::Safety);
        safety.filter(|finding| finding.verdict == wanted).count()
    };
    let checks = |count: usize| match count {
        1 => "one check".to_owned(),
        count => format!("{count} checks"),
    };
    let (failed, unproven) = (count(Verdict::Fail), count(Verdict::Unproven));
    match (failed, unproven) {
        (0, 0) => "Every check of the strip alone holds; a flight is assessed on top of it.".into(),
        (0, unproven) => format!("Not shown to hold: {} unproven.", checks(unproven)),
        (failed, 0) => format!("Does not hold: {} failed.", checks(failed)),
        (failed, unproven) => {
            format!("Does not hold: {} failed, {} unproven.", checks(failed), checks(unproven))
        }
    }
}
