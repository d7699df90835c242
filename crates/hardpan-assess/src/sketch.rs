//! The strip on its station axis, for pictures.

use crate::assessment::{Sketch, SketchMark, SketchMarkKind, StrengthSample};
use crate::ground::LegKind;
use crate::ground::strength_finding::credited_and_needed;
use crate::measured::Measured;
use hardpan_ground::judge_point;
use hardpan_model::{Finding, Flight, Lane, Patch, RunTrace, Verdict};
use hardpan_quantity::{Amount, Length, Quantity};
use hardpan_surface::{Event, EventKind, SurfaceReport};

/// The strip with its marks and runs.
pub(crate) fn sketch(flight: &Flight, measured: &Measured, findings: &[Finding]) -> Sketch {
    let strip = &flight.strip;
    let designator = |end: &hardpan_model::StripEnd| {
        end.designator.as_ref().map_or_else(String::new, |given| given.value.clone())
    };
    let mut marks = Vec::new();
    marks.extend(soft(findings));
    marks.extend(measured.shape.surface.iter().flat_map(uneven));
    marks.extend(unknown(measured));
    let day = &flight.day;
    marks.extend(patches(day.standing_water.as_deref(), SketchMarkKind::Water, "water", true));
    marks.extend(patches(day.loose_material.as_deref(), SketchMarkKind::Loose, "loose", false));
    Sketch {
        length: strip.length.as_ref().map(|given| given.value),
        width: strip.width.as_ref().map(|given| given.value),
        designators: (designator(&strip.low_end), designator(&strip.high_end)),
        profile: measured.profile.clone().unwrap_or_default(),
        strength: strength(measured),
        marks,
        runs: runs(measured),
    }
}

/// The weakest place under the main wheels, and every one that does not hold.
fn soft(findings: &[Finding]) -> Vec<SketchMark> {
    findings
        .iter()
        .filter(|finding| finding.code == "G20" || finding.code == "G30")
        .filter(|finding| finding.code == "G20" || finding.verdict == Verdict::Fail)
        .filter_map(|finding| {
            let place = finding.place?;
            finding.value?;
            Some(SketchMark {
                kind: SketchMarkKind::Soft,
                from: place.from,
                to: place.to,
                label: if finding.verdict == Verdict::Fail { "too soft" } else { "softest" }
                    .to_owned(),
                amount: finding.value,
                over: finding.verdict == Verdict::Fail,
            })
        })
        .collect()
}

/// The worst bump and rut of each chord, and every one over its limit, once
/// for places that overlap.
fn uneven(report: &SurfaceReport) -> Vec<SketchMark> {
    let mut marks: Vec<SketchMark> = Vec::new();
    let worst = report.edges.iter().flat_map(|edge| {
        let over = edge.exceedances().map(|(event, _)| *event);
        let worst = [edge.worst_bump, edge.worst_rut].into_iter().flatten().map(|(event, _)| event);
        over.chain(worst).map(|event| (event, edge.is_surely_over(&event)))
    });
    let mut events: Vec<(Event, bool)> = worst.collect();
    events.sort_by(|a, b| b.0.height.si().total_cmp(&a.0.height.si()));
    for (event, over) in events {
        let kind = match event.kind {
            EventKind::Bump => SketchMarkKind::Bump,
            EventKind::Rut => SketchMarkKind::Rut,
        };
        let known = marks
            .iter()
            .any(|mark| mark.kind == kind && event.from <= mark.to && event.to >= mark.from);
        if !known {
            marks.push(SketchMark {
                kind,
                from: event.from,
                to: event.to,
                label: if event.kind == EventKind::Bump { "bump" } else { "rut" }.to_owned(),
                amount: Some(event.height.into()),
                over,
            });
        }
    }
    marks
}

/// Stretches where no sounding reaches.
fn unknown(measured: &Measured) -> Vec<SketchMark> {
    let Ok(ground) = &measured.ground else { return Vec::new() };
    let Some(lane) = ground.lanes.first() else { return Vec::new() };
    lane.points
        .chunk_by(|a, b| a.layers.is_empty() == b.layers.is_empty())
        .filter(|run| run.first().is_some_and(|point| point.layers.is_empty()))
        .filter_map(|run| Some((run.first()?.station, run.last()?.station)))
        .map(|(from, to)| SketchMark {
            kind: SketchMarkKind::Unknown,
            from,
            to,
            label: "not sounded".to_owned(),
            amount: None,
            over: true,
        })
        .collect()
}

fn patches(
    patches: Option<&[Patch]>,
    kind: SketchMarkKind,
    label: &str,
    over: bool,
) -> Vec<SketchMark> {
    let mark = |patch: &Patch| SketchMark {
        kind,
        from: patch.from.value,
        to: patch.to,
        label: label.to_owned(),
        amount: Some(Amount::from(patch.depth.value)),
        over,
    };
    patches.unwrap_or_default().iter().map(mark).collect()
}

/// The weaker of both main lanes by station.
fn strength(measured: &Measured) -> Vec<StrengthSample> {
    let (Ok(ground), Ok((_, table)), Ok(loads)) =
        (&measured.ground, &measured.main_carried, &measured.loads)
    else {
        return Vec::new();
    };
    let loads = loads.of(LegKind::Main);
    let sample = |(index, station): (usize, Length)| {
        let worst = [Lane::Left, Lane::Right]
            .into_iter()
            .filter_map(|lane| ground.point(lane, index))
            .zip(loads.get(index).into_iter().cycle())
            .map(|(point, load)| credited_and_needed(&judge_point(point, table, *load)))
            .reduce(|a, b| {
                let badness = |one: &(_, _, Option<f64>)| one.2.unwrap_or(f64::INFINITY);
                if badness(&b) > badness(&a) { b } else { a }
            });
        let (available, needed, utilisation) = worst.unwrap_or((None, None, None));
        StrengthSample { station, available, needed, utilisation }
    };
    ground.stations().into_iter().enumerate().map(sample).collect()
}

fn runs(measured: &Measured) -> Vec<(String, RunTrace)> {
    let take_off = measured.take_off.as_ref().and_then(|run| run.as_ref().ok());
    let landing = measured.landing.as_ref().and_then(|run| run.as_ref().ok());
    let named = [
        ("landing", landing.and_then(|run| run.trace.clone())),
        ("take-off", take_off.and_then(|run| run.trace.clone())),
        ("rejected take-off", take_off.and_then(|run| run.rejected_trace.clone())),
    ];
    named.into_iter().filter_map(|(name, trace)| Some((name.to_owned(), trace?))).collect()
}
