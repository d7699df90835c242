//! The strip and its survey as the files describe them, what is missing, and
//! the documents behind the limits.

use super::findings::is_of_a_flight;
use super::{LineShape, Shown, StripFact, StripPlace};
use crate::phrase::Phrase;
use hardpan_model::{
    AxisFrom, CloudFacts, Finding, Given, GridFacts, GroundFrom, PositionFacts, Strip, Survey,
    SurveyFrom,
};
use hardpan_quantity::{Amount, Length, Quantity};

fn source<T>(given: &Given<T>) -> String {
    match &given.source {
        Some(source) => source.to_string(),
        None => given.origin.to_string(),
    }
}

fn amount<T: Copy + Into<Amount>>(label: &'static str, given: &Option<Given<T>>) -> StripFact {
    match given {
        Some(given) => StripFact {
            label,
            value: Phrase::new("{}", [given.value.into()]),
            source: source(given),
        },
        None => not_stated(label),
    }
}

fn words<T>(
    label: &'static str,
    given: Option<&Given<T>>,
    say: impl Fn(&T) -> String,
) -> StripFact {
    match given {
        Some(given) => StripFact { label, value: say(&given.value).into(), source: source(given) },
        None => not_stated(label),
    }
}

fn not_stated(label: &'static str) -> StripFact {
    StripFact { label, value: "not stated".into(), source: String::new() }
}

fn counted(label: &'static str, value: impl Into<Phrase>) -> StripFact {
    StripFact { label, value: value.into(), source: String::new() }
}

/// The strip as its files describe it.
pub(super) fn strip(strip: &Strip) -> Vec<StripFact> {
    vec![
        amount("Length", &strip.length),
        amount("Width", &strip.width),
        words("Reference code", strip.reference_code.as_ref(), |code| {
            format!("{}{}", code.number, code.letter)
        }),
        amount("Elevation", &strip.elevation),
        amount("True bearing", &strip.bearing),
        words("Surface", strip.surface.as_ref(), |kind| kind.word().to_owned()),
        amount("Surfacing as built", &strip.surfacing_thickness),
    ]
}

/// How it was surveyed and sounded.
pub(super) fn survey(strip: &Strip) -> Vec<StripFact> {
    let mut facts = match &strip.survey {
        Some(survey) => surveyed(survey),
        None => vec![counted("Survey", "none")],
    };
    facts.extend(strip.survey_from.iter().flat_map(made_from));
    facts.push(match strip.soundings.len() {
        0 => counted("Soundings", "none"),
        count => counted("Soundings", count.to_string()),
    });
    facts.push(amount("Reach of a sounding", &strip.sounding_reach));
    facts
}

fn surveyed(survey: &Survey) -> Vec<StripFact> {
    let levels: usize = survey.lines.iter().map(|line| line.points.len()).sum();
    let mut intervals: Vec<f64> = survey
        .lines
        .iter()
        .flat_map(|line| line.points.windows(2))
        .filter_map(|pair| Some((pair.get(1)?.station - pair.first()?.station).si()))
        .collect();
    intervals.sort_by(f64::total_cmp);
    let at = |share: f64| {
        let index = (share * intervals.len().saturating_sub(1) as f64).round() as usize;
        intervals.get(index).copied().map(Length::from_si)
    };
    let offsets: Vec<f64> = survey.lines.iter().map(|line| line.offset.si()).collect();
    let low = offsets.iter().copied().reduce(f64::min).map(Length::from_si);
    let high = offsets.iter().copied().reduce(f64::max).map(Length::from_si);
    let mut facts = vec![
        counted("Survey file", survey.file.to_string()),
        words("Date of survey", survey.date.as_ref(), ToString::to_string),
        counted("Lines", survey.lines.len().to_string()),
        counted("Levels", levels.to_string()),
    ];
    if let (Some(low), Some(high)) = (low, high) {
        facts.push(counted("Offsets", Phrase::new("{} to {}", [low.into(), high.into()])));
    }
    if let (Some(middle), Some(most)) = (at(0.5), at(1.0)) {
        let value = Phrase::new("{} in the middle, {} at most", [middle.into(), most.into()]);
        facts.push(counted("Distance between levels", value));
    }
    facts.push(amount("Noise of one level, standard deviation", &survey.level_noise));
    facts
}

fn made_from(from: &SurveyFrom) -> Vec<StripFact> {
    match from {
        SurveyFrom::Cloud(facts) => cloud(facts),
        SurveyFrom::Positions(facts) => positions(facts),
        SurveyFrom::Grid(facts) => grid(facts),
    }
}

/// How the axis was laid.
fn axis(from: &AxisFrom, bearing_is: &str) -> StripFact {
    let words = match from {
        AxisFrom::Thresholds => "through both thresholds".into(),
        AxisFrom::Fitted { bearing, spread } => Phrase::new(
            format!("fitted to the survey: {bearing_is} {{}}, cross-sections {{}} off it"),
            [(*bearing).into(), (*spread).into()],
        ),
    };
    counted("Axis", words)
}

/// What became of single positions.
fn positions(facts: &PositionFacts) -> Vec<StripFact> {
    let one = |value: Length| Phrase::new("{}", [value.into()]);
    let scatter = facts.scatter.map_or_else(|| "levels too far apart to tell".into(), one);
    vec![
        axis(&facts.axis, "true bearing"),
        counted("Positions", facts.positions.to_string()),
        counted("Positions that made levels", facts.used.to_string()),
        counted("Positions beyond the ends", facts.beyond.to_string()),
        counted("Positions between the lines", facts.between.to_string()),
        counted("Scatter of a level about its neighbours", scatter),
        counted("Error by wandering across the crossfall", one(facts.wander)),
        counted("Least noise that a single position is credited with", one(facts.least)),
    ]
}

/// What a grid of levels holds of the strip.
fn grid(facts: &GridFacts) -> Vec<StripFact> {
    vec![
        axis(&facts.axis, "bearing from the north of the grid"),
        counted("Cells of the grid", format!("{} by {}", facts.columns, facts.rows)),
        counted("Size of a cell", Phrase::new("{}", [facts.cell.into()])),
        counted(
            "Places of the strip without a level",
            format!("{} of {}", facts.unsurveyed, facts.places),
        ),
    ]
}

/// What became of the points of a cloud.
fn cloud(cloud: &CloudFacts) -> Vec<StripFact> {
    let ground = match cloud.ground {
        GroundFrom::Classes => "points that the file marks as ground",
        GroundFrom::Filter => "a filter over all points",
    };
    let left_out = cloud.excluded + cloud.rejected;
    let mut facts = vec![
        axis(&cloud.axis, "bearing from the north of its frame"),
        counted("Points of the cloud", cloud.points.to_string()),
        counted("Points that made levels", cloud.used.to_string()),
        counted("Points off the strip", cloud.off_strip.to_string()),
        counted("Points left out as no ground", left_out.to_string()),
        counted("Ground told by", ground),
        counted(
            "Cells of the cloud",
            Phrase::new("{} by {}", [cloud.cell_length.into(), cloud.cell_width.into()]),
        ),
        counted(
            "Cells with a level of their own",
            format!("{} of {}", cloud.measured, cloud.cells),
        ),
        counted("Cells filled from their neighbours", cloud.filled.to_string()),
        counted("Cells without a level", cloud.unsurveyed.to_string()),
        counted("Cells taken out under objects", cloud.objects.to_string()),
    ];
    if let Some(hole) = cloud.holes.first() {
        let edges = [hole.from.into(), hole.to.into(), hole.left.into(), hole.right.into()];
        let value = Phrase::new("stations {} to {}, offsets {} to {}", edges);
        facts.push(counted("Largest part without a level", value));
    }
    if let Some(noise) = cloud.point_noise {
        let label = "Noise of one point, standard deviation";
        facts.push(counted(label, Phrase::new("{}", [noise.into()])));
    }
    facts
}

/// What is missing: the needs of the findings, and what the survey is too
/// sparse, too short or too noisy to show.
pub(super) fn missing(
    findings: &[Finding],
    ponds: &Shown<Vec<StripPlace>>,
    lines: &[LineShape],
) -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> = Vec::new();
    let mut add = |what: String, how: String| {
        if !all.iter().any(|known| known.0 == what && known.1 == how) {
            all.push((what, how));
        }
    };
    let needs = findings.iter().flat_map(|finding| &finding.needs);
    for need in needs.filter(|need| !is_of_a_flight(&need.what)) {
        add(need.what.clone(), need.how.clone());
    }
    if let Err(why) = ponds {
        add("standing water by the shape".to_owned(), why.clone());
    }
    if lines.is_empty() {
        return all;
    }
    type Why = fn(&LineShape) -> Option<&String>;
    let reasons: [(&str, Why); 3] = [
        ("roughness index", |line| line.index.as_ref().err()),
        ("power spectrum", |line| line.spectrum.as_ref().err()),
        ("washboard", |line| line.washboard.as_ref().err()),
    ];
    for (what, why) in reasons {
        let told: Vec<&String> = lines.iter().filter_map(why).collect();
        if let Some(first) = told.first() {
            let count = format!("{what}, {} of {} lines", told.len(), lines.len());
            add(count, (*first).clone());
        }
    }
    all
}

/// The documents behind the limits and methods of the findings.
pub(super) fn sources(findings: &[Finding]) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for finding in findings {
        for step in &finding.basis.steps {
            let line = format!("{} {}: {}", finding.code, finding.title, step.source);
            if !all.contains(&line) {
                all.push(line);
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use hardpan_model::Hole;
    use hardpan_quantity::metres;

    #[test]
    fn a_cloud_tells_its_points_cells_and_largest_hole() {
        let hole =
            Hole { from: metres(40.0), to: metres(46.0), left: metres(-4.0), right: metres(4.0) };
        let cloud = CloudFacts {
            axis: AxisFrom::Thresholds,
            ground: GroundFrom::Classes,
            points: 1065,
            used: 200,
            off_strip: 60,
            excluded: 789,
            rejected: 16,
            cell_length: metres(0.5),
            cell_width: metres(1.0),
            cells: 100,
            measured: 80,
            filled: 4,
            objects: 2,
            unsurveyed: 16,
            holes: vec![hole],
            point_noise: None,
            level_noise: None,
        };
        let facts = survey(&Strip {
            survey_from: Some(SurveyFrom::Cloud(Box::new(cloud))),
            ..Strip::default()
        });
        let value = |label: &str| {
            let fact = facts.iter().find(|fact| fact.label == label).expect("a fact");
            fact.value.clone()
        };
        assert_eq!(value("Points left out as no ground"), "805".into());
        assert_eq!(value("Cells with a level of their own"), "80 of 100".into());
        let edges = [hole.from, hole.to, hole.left, hole.right].map(Amount::from);
        let told = Phrase::new("stations {} to {}, offsets {} to {}", edges);
        assert_eq!(value("Largest part without a level"), told);
    }
}
