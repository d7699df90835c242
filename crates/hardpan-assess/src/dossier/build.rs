//! The one entry: a strip in, its dossier out.

use super::findings::Judged;
use super::{
    Shown, StripDossier, deviations, evenness_shape, facts, findings, lines, places, repairs,
    sections, strength, summary,
};
use crate::answer::verdict;
use crate::shape::ShapeRules;
use crate::shape::running_surface::running_surface;
use crate::shape::survey_noise::{EventNoise, noise_of_ponds};
use hardpan_model::{Finding, Flight, Strip, Verdict, Weight};
use hardpan_quantity::{Amount, Length, Quantity};

/// Judge a strip by itself. `track` is the distance between the main wheels of
/// an aeroplane that is to use it, so that its lanes are looked for in the
/// survey; without it no lane is.
///
/// Whatever the files do not show is *unproven* or says why; nothing fails.
/// Same strip, same bits.
#[must_use]
pub fn dossier(strip: &Strip, track: Option<Length>) -> StripDossier {
    built(strip, track, findings::of(strip, track))
}

/// Judge the strip of a flight by itself, with wheels in the lanes of its
/// aeroplane, and tell besides how that aeroplane rides it on the planned
/// movements and at steady speeds.
#[must_use]
pub fn dossier_of_flight(flight: &Flight) -> StripDossier {
    let track = flight.aeroplane.gear.track.as_ref().map(|track| track.value);
    let (judged, ride) = findings::of_flight(flight);
    StripDossier { ride: Some(ride), ..built(&flight.strip, track, judged) }
}

fn built(strip: &Strip, track: Option<Length>, judged: Judged) -> StripDossier {
    let rules = ShapeRules::of(strip, track);
    let Judged { findings, left, shape } = judged;
    let surface = shape.surface.as_ref().ok();
    let detail = shape.detail.as_ref().map_err(|why| &why.because);
    let running = running_surface(strip);
    let lines = lines::of(&running, &rules.evenness, detail);
    let soundings = strength::columns(&strip.soundings);
    let quiet = quiet_enough(strip, rules.detail.pond_depth);
    let ponds = match (&quiet, &shape.ponds) {
        (Err(why), Ok(_)) => Err(why.clone()),
        (Ok(()), Ok(ponds)) => Ok(ponds.iter().map(places::pond).collect()),
        (_, Err(why)) => Err(why.because.clone()),
    };
    let noise = running.survey.as_ref().and_then(EventNoise::of);
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
        repairs: repairs::of(&shape),
        places,
        edges: evenness_shape::edges(surface),
        irregularities: evenness_shape::table(detail, noise),
        facts: facts::strip(strip),
        survey: facts::survey(strip),
        missing: facts::missing(&findings, &ponds, &lines),
        sections: sections::of(strip, &rules.evenness, surface),
        crossfall: sections::crossfall(surface),
        deviations: deviations::map(&running, &rules.evenness),
        water: quiet.and_then(|()| deviations::water(strip, &rules.detail)),
        sources: facts::sources(&findings),
        ride: None,
        ponds,
        lines,
        soundings,
        findings,
    };
    dossier.summary = summary::of(&dossier, surface);
    dossier
}

/// Whether noise of the survey leaves standing water to be seen.
fn quiet_enough(strip: &Strip, depth: Length) -> Shown<()> {
    let Some(survey) = &strip.survey else { return Ok(()) };
    match noise_of_ponds(survey, depth) {
        Some(floor) if floor.share_of_limit.si() <= 1.0 => Ok(()),
        Some(floor) => Err(format!(
            "noise of the survey alone shows {}, and water is shown from {} on",
            Amount::from(floor.false_worst).told(),
            Amount::from(depth).told()
        )),
        None => Err("the noise of a level is not stated".to_owned()),
    }
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
    let open = not_shown(findings);
    let besides = match open.len() {
        0 => String::new(),
        1 => format!("; one other is not shown ({})", codes(&open)),
        count => format!("; {count} others are not shown ({})", codes(&open)),
    };
    match (failed, unproven) {
        (0, 0) if open.is_empty() => {
            "Every check of the strip alone holds; a flight is assessed on top of it.".into()
        }
        (0, 0) => {
            format!("Every check on safety holds{besides}. A flight is assessed on top of it.")
        }
        (0, unproven) => format!("Not shown to hold: {} unproven{besides}.", checks(unproven)),
        (failed, 0) => format!("Does not hold: {} failed{besides}.", checks(failed)),
        (failed, unproven) => format!(
            "Does not hold: {} failed, {} unproven{besides}.",
            checks(failed),
            checks(unproven)
        ),
    }
}

/// Checks of advice that the files do not show: they leave the verdict alone,
/// because no limit could fail them, and are named beside it.
pub(super) fn not_shown(findings: &[Finding]) -> Vec<&Finding> {
    let advice = findings.iter().filter(|finding| finding.weight == Weight::Advice);
    advice.filter(|finding| finding.verdict == Verdict::Unproven).collect()
}

fn codes(findings: &[&Finding]) -> String {
    let mut codes: Vec<&str> = findings.iter().map(|finding| finding.code).collect();
    codes.dedup();
    codes.join(", ")
}
