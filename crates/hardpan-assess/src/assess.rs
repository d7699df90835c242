//! The one public entry: a flight in, its assessment out.

pub(crate) mod account;
pub(crate) mod answered;
pub(crate) mod confidence;
pub(crate) mod figure_basis;
mod nothing_planned;
pub(crate) mod opening;
mod pressure_table;
pub(crate) mod year;

use self::account::account;
use self::answered::Answered;
use self::figure_basis::figure_bases;
use crate::answer::{answer, verdict};
use crate::assessment::{Assessment, HandlingTable, MassAnswer, TyreAnswer};
use crate::card_lines::card_lines;
use crate::context::Context;
use crate::figures::{day, distances, identity, speeds};
use crate::masses::{Again, Wanted, both_masses};
use crate::measure::{Standing, measure};
use crate::measured::{Known, Measured};
use crate::movements::decision_speeds::decision_picture;
use crate::movements::obstacles::climb_picture;
use crate::repairs::Gravel;
use crate::rides::Asked;
use crate::rules::RULES;
use crate::sketch::sketch;
use crate::stones::Stones;
use crate::stones::stone_picture::picture;
use crate::stones::technique::compared;
use crate::turning::Turning;
use hardpan_model::{Finding, Flight, Verdict, Weight};
use pressure_table::tyre_answer;
use rayon::prelude::*;

/// Assess a flight.
///
/// Runs every measure in order, judges every rule, searches the largest masses
/// and the tyre pressure, and tries what would help. Whatever is missing makes
/// findings *unproven*; nothing here fails. Same flight, same bits.
#[must_use]
pub fn assess(flight: &Flight) -> Assessment {
    Answered::of(flight.clone()).whole()
}

/// The answer to a flight with every finding and largest mass, the same as
/// [`assess`] gives, and sooner, as nothing is tried: without what would turn it or
/// help, without the account in words and without the bases of single figures.
#[must_use]
pub fn answer_alone(flight: &Flight) -> Assessment {
    let (_, core) = Core::afresh(flight, flight);
    answered(flight, &core)
}

fn explained(flight: &Flight, core: &Core, mut found: Assessment) -> Assessment {
    found.account = account(&found);
    found.figures = figure_bases(flight, &core.measured, &found);
    found
}

fn answered(flight: &Flight, core: &Core) -> Assessment {
    let (decision, sketch) = rayon::join(
        || decision_picture(flight, &core.measured),
        || sketch(flight, &core.measured, &core.findings),
    );
    Assessment {
        decision,
        sketch,
        identity: identity(flight),
        answer: answer(&core.findings, sentence(core)),
        tyre: core.tyre.clone(),
        speeds: speeds(&core.measured),
        distances: distances(&core.findings),
        day: day(flight, &core.measured),
        remedies: Vec::new(),
        turning: Turning::default(),
        account: Vec::new(),
        figures: Vec::new(),
        card_lines: card_lines(flight, &core.findings),
        climb: climb_picture(flight, &core.measured),
        stones: core.thrown.stones.as_ref().and_then(|stones| stones.as_ref().ok()).map(picture),
        handling: core.thrown.handling.as_ref().and_then(|one| one.as_ref().ok()).cloned(),
        take_off_mass: core.take_off_mass.clone(),
        landing_mass: core.landing_mass.clone(),
        findings: core.findings.clone(),
    }
}

/// How many limits on a mass are named: the one that sets it and the next two.
const LIMITS: usize = 3;
/// The rule of the ride, which is dear to judge.
const RIDE: &str = "R70";

/// What a fresh assessment of a changed flight needs to show.
pub(crate) struct Core {
    pub(crate) measured: Measured,
    pub(crate) findings: Vec<Finding>,
    pub(crate) verdict: Verdict,
    pub(crate) take_off_mass: Option<MassAnswer>,
    pub(crate) landing_mass: Option<MassAnswer>,
    thrown: Thrown,
    /// Empty where the verdict alone was asked for.
    tyre: TyreAnswer,
}

/// What thrown stones do; nothing where the verdict alone was asked for.
#[derive(Default)]
struct Thrown {
    stones: Option<Known<Stones>>,
    handling: Option<Known<HandlingTable>>,
}

/// What goes before the shape of the strip is asked for.
struct Begun {
    measured: Measured,
    thrown: Thrown,
    tyre: TyreAnswer,
}

impl Begun {
    fn of(flight: &Flight, standing: &Standing) -> Self {
        let measured = measure(flight, standing, &[]);
        let ride = || measured.rides(flight).is_ok();
        let thrown = || {
            let stones = Stones::of(flight, &measured);
            let context = Context::tried(flight, &measured, Asked::Whole);
            let handling = compared(&Context { stones: stones.as_ref(), ..context });
            Thrown { stones, handling }
        };
        let beside = || rayon::join(thrown, || tyre_answer(flight, &measured));
        // Nothing that asks for the ride may begin before it is ridden.
        let ((thrown, tyre), _) = rayon::join(beside, ride);
        Self { measured, thrown, tyre }
    }
}

impl Core {
    /// Measure and judge a flight on the strip as it stands; each mass with its
    /// first few limits.
    fn of(flight: &Flight, standing: &Standing) -> Self {
        Self::finished(flight, standing, Begun::of(flight, standing))
    }

    /// The same with nothing known of the strip, and the strip as `of_strip` has it,
    /// which may leave out of the flight what is no matter to the strip.
    fn afresh(flight: &Flight, of_strip: &Flight) -> (Standing, Self) {
        let (standing, begun) = Standing::beside(of_strip, |strip| Begun::of(flight, strip));
        let core = Self::finished(flight, &standing, begun);
        (standing, core)
    }

    fn finished(flight: &Flight, standing: &Standing, begun: Begun) -> Self {
        let Begun { measured, thrown, tyre } = begun;
        let measured = Measured { shape: standing.shape.clone(), ..measured };
        let again = |flight: &Flight| measure(flight, &standing.riding_afresh(), &[]);
        let asked = (LIMITS, Asked::Whole, Some::<Again<'_>>(&again));
        Self { tyre, ..Self::judged(flight, measured, thrown, asked) }
    }

    /// The same of the flight as planned for its verdict and masses alone: stones are
    /// not thrown, because what they do is advice.
    pub(crate) fn planned(flight: &Flight, standing: &Standing) -> Self {
        let measured = measure(flight, standing, &[]);
        let again = |flight: &Flight| measure(flight, &standing.riding_afresh(), &[]);
        let asked = (LIMITS, Asked::Verdict, Some::<Again<'_>>(&again));
        Self::judged(flight, measured, Thrown::default(), asked)
    }

    /// The same of a changed flight with gravel laid, with the first limit on each mass;
    /// nothing of the ride of another flight is kept.
    pub(crate) fn tried(flight: &Flight, standing: &Standing, gravel: &[Gravel]) -> Self {
        let again = |flight: &Flight| measure(flight, &standing.riding_afresh(), gravel);
        let asked = (1, Asked::Verdict, Some::<Again<'_>>(&again));
        Self::judged(flight, again(flight), Thrown::default(), asked)
    }

    /// A change of the flight that this is of, to sift: verdict and masses are no worse
    /// than [`Self::tried`] finds them. The ride of the plan is kept, and left out of the
    /// masses, where it neither fails nor sets a mass.
    pub(crate) fn sifted(&self, flight: &Flight, standing: &Standing, gravel: &[Gravel]) -> Self {
        if self.turns_on_the_ride() {
            return Self::tried(flight, standing, gravel);
        }
        let measured = measure(flight, standing, gravel);
        Self::judged(flight, measured, Thrown::default(), (1, Asked::Verdict, None))
    }

    /// Whether the ride is among what fails, lacks data or sets a mass.
    pub(crate) fn turns_on_the_ride(&self) -> bool {
        let is_bad = |one: &Finding| {
            one.weight == Weight::Safety && one.verdict >= Verdict::Unproven && one.code == RIDE
        };
        let masses = [&self.take_off_mass, &self.landing_mass];
        let mut set_by = masses.into_iter().flatten().filter_map(MassAnswer::set_by);
        self.findings.iter().any(is_bad) || set_by.any(|limit| limit.code == RIDE)
    }

    fn judged(
        flight: &Flight,
        measured: Measured,
        thrown: Thrown,
        (limits, asked, again): (usize, Asked, Option<Again<'_>>),
    ) -> Self {
        let context = Context {
            stones: thrown.stones.as_ref(),
            handling: thrown.handling.as_ref(),
            ..Context::tried(flight, &measured, asked)
        };
        let wanted = Wanted::first(limits);
        let masses = || both_masses(flight, &measured, (wanted, again));
        // The masses take longest: what else there is goes beside them.
        let ([take_off_mass, landing_mass], findings) = rayon::join(masses, || judge(&context));
        Self {
            verdict: verdict(&findings),
            take_off_mass,
            landing_mass,
            findings,
            measured,
            thrown,
            tyre: TyreAnswer::default(),
        }
    }
}

/// Rules that only ever advise: they cannot turn an answer.
pub(crate) const ADVISORY: [&str; 25] = [
    "D10", "D15", "D20", "D25", "D40", "D50", "D55", "D70", "D80", "G26", "G40", "G50", "G52",
    "G60", "R20", "R30", "R50", "R60", "R80", "R90", "S40", "S45", "T20", "W30", "W40",
];

/// The findings of every rule; without stones where a change is only tried.
pub(crate) fn judge(context: &Context<'_>) -> Vec<Finding> {
    let judged: Vec<Vec<Finding>> = RULES.par_iter().map(|rule| (rule.judge)(context)).collect();
    let mut findings: Vec<Finding> = judged.into_iter().flatten().collect();
    debug_assert!(
        findings.iter().all(|finding| {
            finding.weight == Weight::Advice || !ADVISORY.contains(&finding.code)
        })
    );
    if context.flight.landing.is_none() && context.flight.take_off.is_none() {
        findings.push(nothing_planned::finding());
    }
    findings
}

/// Verdict of the whole, and code and title of the first finding that has it: as
/// [`judge`] would give them, but no rule is asked once the answer is known.
pub(crate) fn judge_the_whole(context: &Context<'_>) -> (Verdict, Option<(&'static str, String)>) {
    let named = |finding: &Finding| (finding.code, finding.title.clone());
    let mut findings: Vec<Finding> = Vec::new();
    for rule in RULES.iter().filter(|rule| !ADVISORY.contains(&rule.code)) {
        let found = (rule.judge)(context);
        let fails = |finding: &&Finding| {
            finding.weight == Weight::Safety && finding.verdict == Verdict::Fail
        };
        if let Some(worst) = found.iter().find(fails) {
            return (Verdict::Fail, Some(named(worst)));
        }
        findings.extend(found);
    }
    if context.flight.landing.is_none() && context.flight.take_off.is_none() {
        findings.push(nothing_planned::finding());
    }
    let whole = verdict(&findings);
    let gives = |finding: &&Finding| finding.weight == Weight::Safety && finding.verdict == whole;
    (whole, findings.iter().find(gives).map(named))
}

fn sentence(core: &Core) -> String {
    let limited = [("landing", &core.landing_mass), ("take-off", &core.take_off_mass)]
        .into_iter()
        .filter_map(|(word, mass)| {
            let mass = mass.as_ref()?;
            let limit = mass.set_by()?;
            Some(format!("{word} mass is limited by {} ({})", limit.title, limit.code))
        })
        .collect::<Vec<_>>()
        .join("; ");
    let checks = |wanted: Verdict| {
        let safety =
            |finding: &&Finding| finding.verdict == wanted && finding.weight == Weight::Safety;
        match core.findings.iter().filter(safety).count() {
            1 => "one check".to_owned(),
            count => format!("{count} checks"),
        }
    };
    let opening = match core.verdict {
        Verdict::Pass => "Usable as planned".to_owned(),
        Verdict::Conditional => "Usable as planned while the conditions are kept".to_owned(),
        Verdict::Unproven => {
            format!("Not shown to be usable: {} unproven", checks(Verdict::Unproven))
        }
        Verdict::Fail => format!("Not usable as planned: {} failed", checks(Verdict::Fail)),
    };
    if limited.is_empty() { format!("{opening}.") } else { format!("{opening}; {limited}.") }
}
