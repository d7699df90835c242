//! Samples that no sane flight gives.

use super::conditional;
use super::flight::card_line;
use super::strip::mark;
use hardpan_assess::{
    Answer, Assessment, CardLineKind, DayFigures, DistanceRow, Identity, MassAnswer, Sketch,
    SketchMarkKind, SpeedRow, StrengthSample, TyreAnswer,
};
use hardpan_model::{Phase, Place, Verdict};
use hardpan_quantity::{Amount, bearing_percent, knots, metres, percent, tonnes};

/// Everything absurdly long and wide.
pub(crate) fn overlong(verdict: Verdict) -> Assessment {
    let mut assessment = conditional();
    assessment.answer.verdict = verdict;
    let long = "WWWW immoderately prolix clause about nothing in particular, ".repeat(40);
    let unbroken = "W".repeat(900);
    assessment.answer.sentence = unbroken.clone();
    assessment.answer.conditions = (0..30).map(|n| format!("{n}: {unbroken}")).collect();
    assessment.answer.missing = (0..30).map(|n| format!("{n}: {unbroken}")).collect();
    let identity = &mut assessment.identity;
    for field in [&mut identity.flight, &mut identity.strip, &mut identity.aeroplane] {
        *field = unbroken.clone();
    }
    for field in [&mut identity.validity, &mut identity.directions, &mut identity.surface] {
        *field = long.clone();
    }
    for phase in Phase::ALL {
        for kind in [CardLineKind::Limit, CardLineKind::Computed, CardLineKind::Handling] {
            for _ in 0..3 {
                let line = card_line(phase, kind, &unbroken, Some(knots(60.0).into()), &unbroken);
                assessment.card_lines.push(line);
            }
        }
    }
    for n in 0..80 {
        let station = f64::from(n) * 24.0;
        let kind = SketchMarkKind::Soft;
        let entry = mark(kind, station, station + 9.0, &long, Some(percent(3.0).into()), true);
        assessment.sketch.marks.push(entry);
        assessment.day.rows.push((long.clone(), Amount::count(f64::from(n))));
        assessment.speeds.push(SpeedRow::new("Vlong", "a speed of no use", knots(99.0)));
        assessment.distances.push(DistanceRow {
            code: "F99",
            name: long.clone(),
            needed: metres(1500.0),
            available: None,
        });
    }
    for mass in [&mut assessment.take_off_mass, &mut assessment.landing_mass].into_iter().flatten()
    {
        for entry in &mut mass.limits {
            entry.title = unbroken.clone();
        }
    }
    for finding in &mut assessment.findings {
        finding.title = unbroken.clone();
    }
    assessment.tyre.because = unbroken;
    assessment
}

/// Numbers that are none, wherever a number may stand.
pub(crate) fn not_finite() -> Assessment {
    let mut assessment = conditional();
    for (index, value) in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY].into_iter().enumerate() {
        let station = metres(value);
        let sketch = &mut assessment.sketch;
        sketch.profile.push((station, station));
        sketch.profile.push((metres(100.0), station));
        sketch.marks.push(mark(SketchMarkKind::Soft, value, value, "soft", None, true));
        sketch.strength.push(StrengthSample {
            station,
            available: Some(bearing_percent(value)),
            needed: Some(bearing_percent(value)),
            utilisation: Some(value),
        });
        for point in sketch.runs.iter_mut().flat_map(|(_, run)| &mut run.points).take(1 + index) {
            point.station = station;
            point.ground_speed = knots(value);
        }
        if let Some(finding) = assessment.findings.get_mut(index) {
            finding.value = Some(station.into());
            finding.place = Some(Place { from: station, to: station, lane: None });
        }
        assessment.speeds.push(SpeedRow::new("V", "no speed", knots(value)));
        assessment.day.rows.push(("nothing".to_owned(), Amount::from(station)));
    }
    assessment.sketch.length = Some(metres(f64::NAN));
    assessment.take_off_mass = Some(MassAnswer {
        planned: Some(tonnes(f64::NAN)),
        largest: Some(tonnes(f64::INFINITY)),
        load: Some(tonnes(f64::NAN)),
        limits: Vec::new(),
        unknown: None,
    });
    for row in &mut assessment.distances {
        row.available = Some(metres(0.0));
    }
    assessment
}

/// An assessment with nothing in it.
pub(crate) fn empty() -> Assessment {
    Assessment {
        identity: Identity::default(),
        answer: Answer {
            verdict: Verdict::Unproven,
            sentence: String::new(),
            governing: None,
            conditions: Vec::new(),
            missing: Vec::new(),
        },
        findings: Vec::new(),
        take_off_mass: None,
        landing_mass: None,
        tyre: TyreAnswer::default(),
        speeds: Vec::new(),
        distances: Vec::new(),
        day: DayFigures::default(),
        turning: hardpan_assess::Turning::default(),
        account: Vec::new(),
        figures: Vec::new(),
        remedies: Vec::new(),
        card_lines: Vec::new(),
        sketch: Sketch::default(),
        climb: None,
        decision: None,
        stones: None,
        handling: None,
    }
}
