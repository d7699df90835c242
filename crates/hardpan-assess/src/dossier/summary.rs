//! What a surveyor says of the strip, in sentences.

use super::{PlaceKind, StripDossier, StripPlace, build};
use crate::phrase::Phrase;
use hardpan_quantity::{Amount, Length, Quantity, Ratio, ratio};
use hardpan_surface::{LineSlopes, SurfaceReport};

/// The sentences, most important first.
pub(super) fn of(dossier: &StripDossier, surface: Option<&SurfaceReport>) -> Vec<Phrase> {
    let mut said = Vec::new();
    said.extend(evenness(dossier));
    said.extend(ponds(dossier));
    said.extend(washboard(dossier));
    said.extend(ground(dossier));
    said.extend(surface.and_then(gradient));
    said.extend(crossfall(dossier));
    said.extend(not_shown(dossier));
    if surface.is_none() {
        said.push(
            "Nothing is known of the shape: the strip has no survey that can be used.".into(),
        );
    }
    said
}

/// What nobody may take for good because nothing is said against it.
fn not_shown(dossier: &StripDossier) -> Option<Phrase> {
    let open = build::not_shown(&dossier.findings);
    let named: Vec<String> =
        open.iter().map(|finding| format!("{} ({})", finding.title, finding.code)).collect();
    let words =
        format!("The files do not show, and so nobody may take for good: {}.", named.join(", "));
    (!named.is_empty()).then(|| words.into())
}

/// The mark of a station in a phrase; station 0 has no unit.
fn at(station: Length, amounts: &mut Vec<Amount>) -> &'static str {
    if station.si().abs() < 0.5 {
        return "0";
    }
    amounts.push(station.into());
    "{}"
}

fn first(places: &[StripPlace], kinds: &[PlaceKind]) -> Option<StripPlace> {
    places.iter().find(|place| kinds.contains(&place.kind)).cloned()
}

fn evenness(dossier: &StripDossier) -> Option<Phrase> {
    let worst = first(&dossier.places, &[PlaceKind::Bump, PlaceKind::Rut])?;
    let kind = worst.kind.word();
    let over = dossier
        .places
        .iter()
        .filter(|place| place.over && matches!(place.kind, PlaceKind::Bump | PlaceKind::Rut))
        .count();
    let limit = worst.limit.unwrap_or(worst.size);
    let mut amounts = vec![worst.size];
    let at = at(worst.worst, &mut amounts);
    amounts.push(limit);
    Some(Phrase::new(
        match over {
            0 => format!(
                "The most uneven place is a {kind} of {{}} at station {at}; {{}} are allowed there."
            ),
            1 => format!(
                "One place is over its limit of evenness: a {kind} of {{}} at station {at}, where \
                 {{}} are allowed."
            ),
            _ => format!(
                "{over} places are over a limit of evenness; the worst is a {kind} of {{}} at \
                 station {at}, where {{}} are allowed."
            ),
        },
        amounts,
    ))
}

fn ponds(dossier: &StripDossier) -> Option<Phrase> {
    match &dossier.ponds {
        Err(why) => Some(format!("Where water would stand is not shown: {why}.").into()),
        Ok(ponds) => match ponds.first() {
            None => Some("The shape holds no water between the lines surveyed.".into()),
            Some(deepest) => {
                let mut amounts = vec![deepest.size];
                let words = format!(
                    "The shape would hold water in {} {}; the deepest is {{}} at station {}.",
                    ponds.len(),
                    if ponds.len() == 1 { "place" } else { "places" },
                    at(deepest.worst, &mut amounts)
                );
                Some(Phrase::new(words, amounts))
            }
        },
    }
}

fn washboard(dossier: &StripDossier) -> Option<Phrase> {
    let lines = || dossier.lines.iter().map(|line| &line.washboard);
    let worst = lines()
        .flatten()
        .flatten()
        .reduce(|most, next| if next.size.si > most.size.si { next } else { most });
    if let Some(worst) = worst {
        let mut amounts = vec![worst.size];
        let from = at(worst.from, &mut amounts);
        let to = at(worst.to, &mut amounts);
        let words =
            format!("Washboard reaches {{}} from crest to trough, from station {from} to {to}.");
        return Some(Phrase::new(words, amounts));
    }
    let unknown = lines().find_map(|line| line.as_ref().err())?;
    Some(format!("Washboard is not shown: {unknown}.").into())
}

fn ground(dossier: &StripDossier) -> Vec<Phrase> {
    if dossier.soundings.is_empty() {
        return vec!["Nothing is known of the strength: the strip has no soundings.".into()];
    }
    let mut said = Vec::new();
    if let Some(thin) = first(&dossier.places, &[PlaceKind::Thin]) {
        let mut amounts = vec![thin.size];
        let words = format!(
            "The surfacing is thinnest, {{}}, at station {}.",
            at(thin.worst, &mut amounts)
        );
        said.push(Phrase::new(words, amounts));
    }
    if let Some(soft) = first(&dossier.places, &[PlaceKind::Soft]) {
        let mut amounts = Vec::new();
        let words = format!(
            "The ground under it is weakest at station {}: bearing ratio {{}}, credited. Whether \
             that carries an aeroplane, its assessment says.",
            at(soft.worst, &mut amounts)
        );
        amounts.push(soft.size);
        said.push(Phrase::new(words, amounts));
    }
    said
}

fn gradient(report: &SurfaceReport) -> Option<Phrase> {
    let size = |line: &LineSlopes| line.offset.si().abs();
    let centre = report.slopes.iter().min_by(|a, b| size(a).total_cmp(&size(b)))?;
    let steepest = centre.steepest()?;
    let mut amounts: Vec<Amount> = vec![
        centre.gradient.end_to_end.abs().into(),
        (steepest.to - steepest.from).into(),
        steepest.value.abs().into(),
    ];
    let words = format!(
        "From station 0 upwards the strip {} by {{}} from end to end; the steepest slope over {{}} \
         {} by {{}} from station {}.",
        way(centre.gradient.end_to_end),
        way(steepest.value),
        at(steepest.from, &mut amounts)
    );
    Some(Phrase::new(words, amounts))
}

fn way(slope: Ratio) -> &'static str {
    if slope.si() < 0.0 { "falls" } else { "rises" }
}

fn crossfall(dossier: &StripDossier) -> Option<Phrase> {
    let drained = |fall: &super::CrossfallAt| -> Ratio {
        match (fall.left, fall.right) {
            (Some(left), Some(right)) => left.min(right).max(fall.across.abs()),
            _ => fall.across.abs(),
        }
    };
    let flattest = dossier
        .crossfall
        .iter()
        .map(|fall| (fall.station, drained(fall)))
        .reduce(|least, next| if next.1 < least.1 { next } else { least })?;
    let steep = dossier.crossfall.iter().filter(|fall| drained(fall) >= ratio(0.01)).count();
    let mut amounts = vec![flattest.1.into()];
    let words = format!(
        "{:.0} % of the stations fall to a side by 1 % or more; the flattest falls by {{}}, at \
         station {}.",
        100.0 * steep as f64 / dossier.crossfall.len().max(1) as f64,
        at(flattest.0, &mut amounts)
    );
    Some(Phrase::new(words, amounts))
}
