//! Invented assessments to write out: nothing here is a real strip, aeroplane,
//! operator or result.

mod findings;
mod flight;
mod odd;
mod runs;
mod strip;

use flight::{
    card_lines, day, distances, landing_mass, limit, remedies, speeds, take_off_mass, turning, tyre,
};
use hardpan_assess::{
    AccountLine, Answer, Assessment, Identity, MassAnswer, SketchMarkKind, TyreAnswer,
};
use hardpan_model::Verdict;
use hardpan_quantity::{bearing_percent, metres, tonnes};
use hardpan_report::{Produced, Report};
use strip::{mark, sketch};

pub(crate) use hardpan_quantity::UnitSystem;
pub(crate) use odd::{empty, not_finite, overlong};

/// A report of an assessment, with a fixed time and identifier.
pub(crate) fn report(assessment: &Assessment, units: UnitSystem) -> Report {
    let produced = Produced {
        by: "hardpan 0.1.0".to_owned(),
        at: "2031-06-14 03:05 UTC".to_owned(),
        identifier: "7f3c-91ab-20de".to_owned(),
    };
    Report::new(assessment, units, produced)
}

/// A gravel strip with one soft place: usable with conditions.
pub(crate) fn conditional() -> Assessment {
    Assessment {
        identity: identity(),
        answer: Answer {
            verdict: Verdict::Conditional,
            sentence: "Usable with conditions: take-off up to 44.1 t, landing up to 46.3 t, main \
                       tyres at 560 kPa."
                .to_owned(),
            governing: Some(2),
            conditions: vec![
                "Keep off 600–690 m when taxiing; no turns there, no stop there.".to_owned(),
                "Sweep the loose gravel at 1310–1370 m, or begin the take-off run after it."
                    .to_owned(),
                "Dissipators on from before start until after gear retraction.".to_owned(),
            ],
            missing: Vec::new(),
        },
        findings: findings::conditional(),
        take_off_mass: Some(take_off_mass()),
        landing_mass: Some(landing_mass()),
        tyre: tyre(),
        speeds: speeds(),
        distances: distances(),
        day: day(),
        turning: turning(),
        account: account(),
        figures: Vec::new(),
        remedies: remedies(),
        card_lines: card_lines(),
        sketch: sketch(),
        climb: None,
        decision: None,
        stones: None,
        handling: None,
    }
}

fn account() -> Vec<AccountLine> {
    let line = |asked, said: &str| AccountLine { asked, said: said.to_owned() };
    vec![
        line("Can I go?", "Yes, while every condition is kept."),
        line("How heavy?", "Take off at no more than the mass of the card."),
        line("What would change it?", "A tailwind, or rain."),
    ]
}

/// The same flight on softer ground: not usable.
pub(crate) fn failing() -> Assessment {
    let mut assessment = conditional();
    assessment.answer = Answer {
        verdict: Verdict::Fail,
        sentence: "Not usable at 43.2 t: the ground at 600–690 m carries 31.5 t at any pressure \
                   that the tyres allow."
            .to_owned(),
        governing: Some(2),
        conditions: Vec::new(),
        missing: Vec::new(),
    };
    assessment.account[0].said = "No, not as planned: the ground is too weak.".to_owned();
    assessment.findings = findings::failing();
    if let Some(mass) = &mut assessment.take_off_mass {
        mass.largest = Some(tonnes(31.5));
        if let Some(limit) = mass.limits.first_mut() {
            limit.mass = Some(tonnes(31.5));
        }
    }
    for sample in &mut assessment.sketch.strength {
        sample.needed = Some(bearing_percent(10.4));
    }
    assessment
}

/// The same flight without soundings: nothing can be shown.
pub(crate) fn unproven() -> Assessment {
    let mut assessment = conditional();
    assessment.answer = Answer {
        verdict: Verdict::Unproven,
        sentence: "Not shown to be usable: the ground at 1200–1980 m has not been \
                   sounded."
            .to_owned(),
        governing: Some(2),
        conditions: Vec::new(),
        missing: vec![
            "Soundings at 1200–1980 m, on all three lanes, every 100 m.".to_owned(),
            "aeroplane: mass.maximum_landing, from the approved manual.".to_owned(),
        ],
    };
    assessment.account[0].said = "That cannot be shown: soundings are missing.".to_owned();
    assessment.findings = findings::unproven();
    assessment.take_off_mass = Some(MassAnswer {
        planned: Some(tonnes(43.2)),
        largest: None,
        load: None,
        limits: Vec::new(),
        unknown: Some(limit("G20", "ground strength", None)),
    });
    assessment.landing_mass = None;
    assessment.tyre = TyreAnswer::default();
    for sample in &mut assessment.sketch.strength {
        if sample.station > metres(1200.0) {
            sample.available = None;
        }
    }
    let unknown = mark(SketchMarkKind::Unknown, 1200.0, 1980.0, "not sounded", None, true);
    assessment.sketch.marks.push(unknown);
    assessment
}

fn identity() -> Identity {
    Identity {
        flight: "Supply 14, inbound and out".to_owned(),
        aeroplane: "ZZ-ABC, twin turbofan".to_owned(),
        strip: "Kettle Flat".to_owned(),
        surface: "gravel, dry".to_owned(),
        date: "2031-06-14".to_owned(),
        time_utc: "2031-06-14T05:40Z".to_owned(),
        validity: "until 2031-06-14 11:40 UTC, or until rain falls".to_owned(),
        directions: "landing 07, take-off 25".to_owned(),
    }
}
