//! Invented findings of every kind.

use hardpan_model::{
    Basis, BasisInput, Bound, Caveat, Finding, InputFrom, Lane, Limit, Mark, Need, Origin, Phase,
    Place, Source, Step, Tier, Verdict, Weight,
};
use hardpan_quantity::{
    Amount, Dimension, bearing_percent, kilonewtons, kilopascals, knots, metres, millimetres,
    millimetres_per_blow, tonnes,
};

/// Findings of the strip that is usable with conditions.
pub(crate) fn conditional() -> Vec<Finding> {
    vec![
        evenness(),
        ride(),
        ground(Verdict::Conditional, 9.1, 8.8),
        ruts(),
        tyre(),
        take_off_run(),
        accelerate_stop(),
        landing(),
        crosswind(),
        tailwind(),
        stones(),
        equipment(),
        structure(),
        survey_age(),
    ]
}

/// The same with a failing ground.
pub(crate) fn failing() -> Vec<Finding> {
    let mut findings = conditional();
    if let Some(entry) = findings.get_mut(2) {
        *entry = ground(Verdict::Fail, 9.1, 10.4);
        entry.because = "The ground carries 31.5 t here; 43.2 t is planned.".to_owned();
    }
    findings
}

/// The same without soundings on part of the strip.
pub(crate) fn unproven() -> Vec<Finding> {
    let mut findings = conditional();
    if let Some(entry) = findings.get_mut(2) {
        *entry = ground(Verdict::Unproven, 9.1, 8.8);
        entry.value = None;
        entry.place = Some(place(1200.0, 1980.0, None));
        entry.basis = Basis::default();
        entry.because = "No sounding lies within 150 m of 1200–1980 m.".to_owned();
        entry.needs = vec![Need {
            what: "soundings.csv: rows at 1200–1980 m".to_owned(),
            how: "one penetrometer test every 100 m on all three lanes".to_owned(),
        }];
    }
    findings
}

fn finding(code: &'static str, title: &str, phase: Phase, because: &str) -> Finding {
    Finding {
        code,
        title: title.to_owned(),
        phase,
        weight: Weight::Safety,
        verdict: Verdict::Pass,
        value: None,
        limit: None,
        place: None,
        because: because.to_owned(),
        instruction: None,
        mark: Mark::PlanningOnly,
        needs: Vec::new(),
        caveats: Vec::new(),
        basis: Basis::default(),
    }
}

fn at_most(finding: &mut Finding, value: impl Into<Amount>, limit: impl Into<Amount>) {
    finding.value = Some(value.into());
    finding.limit = Some(Limit { bound: Bound::AtMost, amount: limit.into() });
}

fn at_least(finding: &mut Finding, value: impl Into<Amount>, limit: impl Into<Amount>) {
    finding.value = Some(value.into());
    finding.limit = Some(Limit { bound: Bound::AtLeast, amount: limit.into() });
}

fn place(from: f64, to: f64, lane: Option<Lane>) -> Place {
    Place { from: metres(from), to: metres(to), lane }
}

fn origin(file: &str, line: u32, column: u32, key: &str) -> Origin {
    Origin { file: file.into(), line, column, key: key.into() }
}

fn evenness() -> Finding {
    let because = "The largest gap under the straightedge is within the limit.";
    let mut finding = finding("R10", "evenness under a straightedge", Phase::Always, because);
    at_most(&mut finding, millimetres(46.0), millimetres(60.0));
    finding.place = Some(place(910.0, 910.0, Some(Lane::Nose)));
    finding.mark = Mark::Measured;
    finding
}

fn ride() -> Finding {
    let because = "The load on the nose leg over the bump stays under its limit at 111 kt.";
    let mut finding = finding("R20", "nose leg load over the bump", Phase::TakeOff, because);
    at_most(&mut finding, kilonewtons(71.4), kilonewtons(88.0));
    finding.place = Some(place(900.0, 925.0, Some(Lane::Nose)));
    finding
}

fn ground(verdict: Verdict, value: f64, limit: f64) -> Finding {
    let because = "It holds while nobody stops or turns there.";
    let mut finding = finding("G20", "ground strength", Phase::TakeOff, because);
    finding.verdict = verdict;
    at_least(&mut finding, bearing_percent(value), bearing_percent(limit));
    finding.place = Some(place(600.0, 690.0, Some(Lane::Left)));
    finding.instruction = Some("Do not stop or turn at 600–690 m.".to_owned());
    finding.caveats.push(Caveat { text: "One sounding stands for 90 m of the lane.".to_owned() });
    finding.basis = ground_basis(value, limit);
    finding
}

fn ground_basis(value: f64, limit: f64) -> Basis {
    let penetrometer = Source::new("ASTM-D6951", "section 10", Tier::Secondary);
    let judged = Source::new("", "one standard deviation below the mean", Tier::Judgement);
    Basis {
        steps: vec![
            Step {
                computes: "bearing ratio from the penetration rate".to_owned(),
                formula: Some("cbr-webster-1992"),
                expression: "CBR = 292 / DN^1.12".to_owned(),
                source: penetrometer,
                inputs: vec![
                    BasisInput::new(
                        "penetration rate",
                        millimetres_per_blow(17.2),
                        InputFrom::File {
                            origin: origin("kettle-flat/soundings.csv", 41, 12, "depth"),
                            source: Some("strip crew, test 7".to_owned()),
                        },
                    )
                    .under("DN"),
                ],
                result: bearing_percent(12.1).into(),
            },
            Step {
                computes: "bearing ratio to decide on".to_owned(),
                formula: None,
                expression: "mean less one standard deviation".to_owned(),
                source: judged,
                inputs: vec![
                    BasisInput::new("mean", bearing_percent(12.1), InputFrom::Step(0)),
                    BasisInput::new(
                        "standard deviation",
                        bearing_percent(3.0),
                        InputFrom::Constant(judged),
                    ),
                    BasisInput::new(
                        "bearing ratio needed",
                        bearing_percent(limit),
                        InputFrom::Computed("required strength by station".to_owned()),
                    ),
                ],
                result: bearing_percent(value).into(),
            },
        ],
    }
}

fn ruts() -> Finding {
    let because = "Expected rut after this movement.";
    let mut finding = finding("G30", "rut depth after one more pass", Phase::Always, because);
    finding.weight = Weight::Advice;
    at_most(&mut finding, millimetres(38.0), millimetres(50.0));
    finding.place = Some(place(600.0, 690.0, Some(Lane::Left)));
    finding
}

fn tyre() -> Finding {
    let because = "The pressure set lies within the approved range.";
    let mut finding = finding("T10", "main tyre pressure", Phase::Always, because);
    at_most(&mut finding, kilopascals(560.0), kilopascals(620.0));
    finding.mark = Mark::Approved;
    finding
}

fn take_off_run() -> Finding {
    let because = "The run needed, with its factor, is within the run available.";
    let mut finding = finding("F10", "take-off run", Phase::TakeOff, because);
    at_most(&mut finding, metres(1390.0), metres(1980.0));
    finding
}

fn accelerate_stop() -> Finding {
    let because = "The distance needed is within the distance available.";
    let mut finding = finding("F20", "accelerate-stop distance", Phase::TakeOff, because);
    at_most(&mut finding, metres(1865.0), metres(1980.0));
    finding
}

fn landing() -> Finding {
    let because = "The distance needed, with its factor, is within the distance available.";
    let mut finding = finding("F30", "landing distance", Phase::Landing, because);
    at_most(&mut finding, metres(1655.0), metres(1920.0));
    finding
}

fn crosswind() -> Finding {
    let because = "The wind across is under the approved limit.";
    let mut finding = finding("W10", "crosswind", Phase::Landing, because);
    at_most(&mut finding, knots(9.0), knots(15.0));
    finding.mark = Mark::Approved;
    finding
}

fn tailwind() -> Finding {
    let because = "The wind from behind is under the approved limit.";
    let mut finding = finding("W20", "tailwind, landing 07", Phase::Landing, because);
    at_most(&mut finding, knots(3.0), knots(10.0));
    finding.mark = Mark::Approved;
    finding
}

fn stones() -> Finding {
    let because = "Loose stones lie where thrust is set; sweep them or start beyond them.";
    let mut finding = finding("D10", "stones lifted by the inlets", Phase::TakeOff, because);
    finding.verdict = Verdict::Conditional;
    finding.place = Some(place(1310.0, 1370.0, None));
    finding
}

fn equipment() -> Finding {
    let because = "Deflector and dissipators are fitted, working and inspected.";
    let mut finding = finding("E10", "protective equipment", Phase::Always, because);
    finding.mark = Mark::Approved;
    finding
}

fn structure() -> Finding {
    let because = "The planned mass is under the structural limit.";
    let mut finding = finding("M10", "take-off mass, structure", Phase::TakeOff, because);
    at_most(&mut finding, tonnes(43.2), tonnes(52.0));
    finding.mark = Mark::Approved;
    finding
}

fn survey_age() -> Finding {
    let because = "The survey has no stated date; say when it was made.";
    let mut finding = finding("S10", "age of the survey", Phase::Always, because);
    finding.weight = Weight::Advice;
    finding.verdict = Verdict::Unproven;
    let year = Amount::new(Dimension::Time, 365.0 * 86_400.0);
    finding.limit = Some(Limit { bound: Bound::AtMost, amount: year });
    finding.needs = vec![Need {
        what: "strip.toml: survey.date".to_owned(),
        how: "from the surveyor's sheet".to_owned(),
    }];
    finding
}
