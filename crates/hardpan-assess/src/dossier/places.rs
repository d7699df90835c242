//! The places worth naming, and which of them come first.

use super::{LineShape, PlaceKind, Shown, SoundingColumn, StripPlace};
use crate::phrase::Phrase;
use crate::shape::survey_noise::EventNoise;
use hardpan_quantity::{Amount, Length, Quantity, Ratio, inches, metres};
use hardpan_surface::{
    Corrugation, CorrugationSeverity, EdgeReport, Event, EventKind, Pond, SingleEvent,
    SurfaceReport,
};

/// Said of what is over a limit, yet no more than noise would show.
const MAY_BE_NOISE: &str = "; may be noise of the survey";
/// Most places that are numbered.
const MOST: usize = 12;
/// Most places of one kind inside their limit or without one.
const MOST_OF_A_KIND: usize = 3;

/// The worst places: those over a limit first, then by their share of it.
pub(super) fn worst(
    surface: Option<&SurfaceReport>,
    ponds: &Shown<Vec<StripPlace>>,
    lines: &[LineShape],
    soundings: &[SoundingColumn],
) -> Vec<StripPlace> {
    let mut all: Vec<StripPlace> = surface.map(uneven).unwrap_or_default();
    all.extend(ponds.iter().flatten().cloned());
    let shown = |pick: fn(&LineShape) -> &Shown<Vec<StripPlace>>| {
        lines.iter().filter_map(move |line| pick(line).as_ref().ok()).flatten().cloned()
    };
    all.extend(shown(|line| &line.washboard));
    all.extend(shown(|line| &line.irregularities).filter(|place| place.over));
    all.extend(ground(soundings));
    all.sort_by(|a, b| {
        b.over
            .cmp(&a.over)
            .then(weight(b).total_cmp(&weight(a)))
            .then(a.from.si().total_cmp(&b.from.si()))
    });
    let mut chosen: Vec<StripPlace> = Vec::new();
    for place in all {
        let same = |other: &&StripPlace| other.kind == place.kind;
        let overlaps = |other: &StripPlace| {
            is_alike(other.kind, place.kind) && place.from <= other.to && place.to >= other.from
        };
        let enough = !place.over && chosen.iter().filter(same).count() >= MOST_OF_A_KIND;
        if !enough && !chosen.iter().any(overlaps) {
            chosen.push(place);
        }
    }
    chosen.truncate(MOST);
    chosen
}

/// A chord and a curve by length see the same bump or rut.
fn is_alike(a: PlaceKind, b: PlaceKind) -> bool {
    use PlaceKind::{Bump, Irregularity, Rut};
    let uneven = |kind| matches!(kind, Bump | Rut | Irregularity);
    a == b || (uneven(a) && uneven(b) && (a == Irregularity || b == Irregularity))
}

/// Share of the limit; without a limit, the depth of water or the height of
/// waves over 3 in.
fn weight(place: &StripPlace) -> f64 {
    match &place.limit {
        Some(limit) if place.kind == PlaceKind::Thin => limit.si / place.size.si.max(1e-6),
        Some(limit) => place.size.si / limit.si.max(1e-9),
        None if place.kind == PlaceKind::Soft => 0.5,
        None => place.size.si / inches(3.0).si(),
    }
}

fn uneven(report: &SurfaceReport) -> Vec<StripPlace> {
    let events = report.edges.iter().flat_map(|edge| {
        let over = edge.exceedances().map(|(event, _)| *event);
        let worst = [edge.worst_bump, edge.worst_rut].into_iter().flatten().map(|(event, _)| event);
        over.chain(worst).map(move |event| chord_place(&event, edge)).collect::<Vec<_>>()
    });
    events.collect()
}

/// What an edge shows; over its limit only if it cannot be noise of the survey.
pub(super) fn chord_place(event: &Event, edge: &EdgeReport) -> StripPlace {
    let (kind, words) = match event.kind {
        EventKind::Bump => (PlaceKind::Bump, "over a chord of {}"),
        EventKind::Rut => (PlaceKind::Rut, "under a chord of {}"),
    };
    let over = edge.is_surely_over(event);
    let doubt = if event.exceeds && !over { MAY_BE_NOISE } else { "" };
    StripPlace {
        kind,
        from: event.from,
        to: event.to,
        worst: event.worst,
        offsets: (event.offset, event.offset),
        size: event.height.into(),
        limit: Some(edge.rule.limit.into()),
        over,
        words: Phrase::new(format!("{words}{doubt}"), [event.chord.into()]),
    }
}

/// A depression that holds water. There is no limit on what the shape could hold.
pub(super) fn pond(pond: &Pond) -> StripPlace {
    StripPlace {
        kind: PlaceKind::Pond,
        from: pond.from,
        to: pond.to,
        worst: pond.deepest.0,
        offsets: (pond.left, pond.right),
        size: pond.depth.into(),
        limit: None,
        over: false,
        words: Phrase::new(
            "would hold {} of water over {}",
            [pond.volume.into(), pond.area.into()],
        ),
    }
}

/// Short waves in a row.
pub(super) fn washboard(run: &Corrugation, offset: Length) -> StripPlace {
    let severity = match run.severity() {
        CorrugationSeverity::Low => "low",
        CorrugationSeverity::Medium => "medium",
        CorrugationSeverity::High => "high",
    };
    StripPlace {
        kind: PlaceKind::Washboard,
        from: run.from,
        to: run.to,
        worst: run.from,
        offsets: (offset, offset),
        size: run.greatest.into(),
        limit: None,
        over: false,
        words: Phrase::new(
            format!(
                "{} waves of {{}} from crest to crest, severity {severity} [TM-5-826-6]",
                run.waves
            ),
            [run.wavelength.into()],
        ),
    }
}

/// A single bump or rut against the curve by length, which is for paved
/// runways: over it is worth knowing and no failure.
pub(super) fn irregularity(
    event: &SingleEvent,
    offset: Length,
    noise: Option<EventNoise>,
) -> StripPlace {
    let share: Ratio = event.ratio;
    let acceptable = (share.si() > 0.0).then(|| event.height / share.si());
    let limit = acceptable.map(Amount::from);
    let sure = match (noise, acceptable) {
        (Some(noise), Some(acceptable)) => event.height >= noise.sure_from(acceptable),
        _ => true,
    };
    let doubt = match noise {
        _ if share.si() <= 1.0 => "",
        None => "; the survey states no noise",
        Some(_) if !sure => MAY_BE_NOISE,
        Some(_) => "",
    };
    let kind = match event.kind {
        EventKind::Bump => "a bump",
        EventKind::Rut => "a rut",
    };
    StripPlace {
        kind: PlaceKind::Irregularity,
        from: event.station - event.length,
        to: event.station + event.length,
        worst: event.station,
        offsets: (offset, offset),
        size: event.height.into(),
        limit,
        over: share.si() > 1.0 && sure,
        words: Phrase::new(
            format!("{kind} {{}} long; the limit is a curve for paved runways{doubt}"),
            [event.length.into()],
        ),
    }
}

/// The thinnest surfacing and the weakest ground.
fn ground(soundings: &[SoundingColumn]) -> Vec<StripPlace> {
    let known = || soundings.iter().filter_map(|one| Some((one, one.strata.as_ref().ok()?)));
    let place = |one: &SoundingColumn, kind, size: Amount, limit, words| StripPlace {
        kind,
        from: one.station,
        to: one.station,
        worst: one.station,
        offsets: (one.offset, one.offset),
        size,
        limit,
        over: false,
        words,
    };
    let thinnest = known()
        .filter_map(|(one, strata)| Some((one, strata.surfacing?)))
        .reduce(|least, next| if next.1 < least.1 { next } else { least });
    let softest = known()
        .map(|(one, strata)| (one, strata.under))
        .reduce(|least, next| if next.1 < least.1 { next } else { least });
    let thin = thinnest.map(|(one, thickness)| {
        let least = metres(0.1524);
        let words = "bottom of the surfacing, as the cone shows it".into();
        let place = place(one, PlaceKind::Thin, thickness.into(), Some(least.into()), words);
        StripPlace { over: thickness < least, ..place }
    });
    let soft = softest.map(|(one, ratio)| {
        let words = "credited bearing ratio under the surfacing".into();
        place(one, PlaceKind::Soft, ratio.into(), None, words)
    });
    thin.into_iter().chain(soft).collect()
}
