//! Sentences of findings in the reader's units.

use hardpan_assess::{Assessment, Opening, StripDossier};
use hardpan_model::{FigureBasis, Finding, Step};
use hardpan_quantity::{UnitSystem, tell};

/// The assessment with every sentence in one system of units.
pub(crate) fn assessment(assessment: &Assessment, system: UnitSystem) -> Assessment {
    let mut told = assessment.clone();
    told.findings.iter_mut().for_each(|one| finding(one, system));
    let answer = &mut told.answer;
    let lists = answer.conditions.iter_mut().chain(&mut answer.missing);
    let masses = [&mut told.take_off_mass, &mut told.landing_mass].into_iter().flatten();
    let limits = masses.flat_map(|mass| &mut mass.limits).map(|limit| &mut limit.title);
    let lines = told.card_lines.iter_mut().map(|line| &mut line.text);
    let turns = told.turning.points.iter_mut().filter_map(|point| point.turn.as_mut());
    let states = told.turning.states.iter_mut().filter_map(|state| state.governed_by.as_mut());
    let said = told.account.iter_mut().map(|line| &mut line.said);
    let figures = told.figures.iter_mut().flat_map(|figure| {
        let sentences = figure.basis.steps.iter_mut().flat_map(sentences);
        std::iter::once(&mut figure.name).chain(sentences)
    });
    let labels = told.sketch.marks.iter_mut().map(|mark| &mut mark.label);
    let sentences = [&mut answer.sentence, &mut told.tyre.because].into_iter();
    sentences
        .chain(lists)
        .chain(limits)
        .chain(lines)
        .chain(turns.map(|turn| &mut turn.title))
        .chain(states.map(|(_, title)| title))
        .chain(labels)
        .chain(said)
        .chain(figures)
        .for_each(|text| in_units(text, system));
    told
}

/// The dossier of a strip with every sentence in one system of units.
pub(crate) fn dossier(dossier: &StripDossier, system: UnitSystem) -> StripDossier {
    let mut told = dossier.clone();
    told.findings.iter_mut().for_each(|one| finding(one, system));
    let missing = told.missing.iter_mut().flat_map(|(what, how)| [what, how]);
    let lines = told.lines.iter_mut().flat_map(|line| {
        [
            line.index.as_mut().err(),
            line.spectrum.as_mut().err(),
            line.washboard.as_mut().err(),
            line.irregularities.as_mut().err(),
        ]
    });
    let parts = [
        told.repairs.as_mut().err(),
        told.irregularities.as_mut().err(),
        told.deviations.as_mut().err(),
        told.ponds.as_mut().err(),
        told.water.as_mut().err(),
        told.ride.as_mut().and_then(|ride| ride.as_mut().err()),
        Some(&mut told.sentence),
    ];
    let reasons = lines.chain(parts).flatten();
    missing.chain(reasons).for_each(|text| in_units(text, system));
    told
}

/// A finding with every sentence in one system of units.
fn finding(finding: &mut Finding, system: UnitSystem) {
    let needs = finding.needs.iter_mut().flat_map(|need| [&mut need.what, &mut need.how]);
    let caveats = finding.caveats.iter_mut().map(|caveat| &mut caveat.text);
    let steps = finding.basis.steps.iter_mut();
    [&mut finding.title, &mut finding.because]
        .into_iter()
        .chain(&mut finding.instruction)
        .chain(needs)
        .chain(caveats)
        .chain(steps.flat_map(sentences))
        .for_each(|text| in_units(text, system));
}

/// What a figure opens to with every sentence in one system of units.
pub(crate) fn opening(opening: &Opening, system: UnitSystem) -> Opening {
    let mut told = opening.clone();
    let further = told.further.iter_mut().flat_map(|part| {
        std::iter::once(&mut part.of).chain(part.steps.iter_mut().flat_map(sentences))
    });
    let own = told.own.iter_mut().flat_map(sentences);
    own.chain(further).for_each(|text| in_units(text, system));
    told
}

/// A figure with every sentence in one system of units.
pub(crate) fn figure(figure: &FigureBasis, system: UnitSystem) -> FigureBasis {
    let mut told = figure.clone();
    let steps = told.basis.steps.iter_mut().flat_map(sentences);
    std::iter::once(&mut told.name).chain(steps).for_each(|text| in_units(text, system));
    told
}

/// What a step says in words.
fn sentences(step: &mut Step) -> impl Iterator<Item = &mut String> {
    let Step { computes, expression, inputs, .. } = step;
    [computes, expression].into_iter().chain(inputs.iter_mut().map(|input| &mut input.name))
}

fn in_units(text: &mut String, system: UnitSystem) {
    *text = tell(text, system);
}
