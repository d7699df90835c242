//! G55: ruts that were measured, and the rut law held to them.

use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{Draft, computed, constant, given_as, plain_step};
use crate::ground::held_to_ruts::{Ahead, HeldToRuts, STAYS_UNDER, ahead, limit};
use crate::ground::strength_finding::stretch;
use crate::ground::two_layers::from_step;
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use hardpan_ground::{BARBER_RUT, CALIBRATED_RUT, PASSES_TO_RUT, POSTERIOR_SOURCE, RutCalibration};
use hardpan_model::{BasisInput, Finding, Mark, MeasuredRut, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Quantity, counted};

pub(super) const RULE: Rule = Rule {
    code: "G55",
    name: "Measured ruts",
    checks: "The deepest rut measured on the strip; the law of Barber, Odom and Patrick held to \
             all of them, as a factor with its posterior; and with it the rut after the passes of \
             the flight at the worst place, and the passes until the limit.",
    why: "No law of ruts knows this ground; its own ruts do.",
    limit: "3 in, the greatest depression that a published rule for unpaved surfaces allows. The \
            rut after the passes is the one that 95 in 100 such places stay under.",
    applies: "Strips with a file of measured ruts. A rut over the limit bears on safety, the rest \
              is advice. The prior is flat in the logarithms of factor and spread: no spread of \
              the law is published. The factor counts from 3 ruts on.",
    source: Source::new(
        "CFR-14-139-307",
        "holes or depressions at most 3 in deep",
        Tier::Published,
    ),
    judge,
};

/// Where the probability of a rut comes from.
const CHOSEN: Source = Source::new("", "19 in 20, chosen for planning", Tier::CommonPractice);
/// Where the number of ruts comes from.
const HELD: Source = Source::new("", "ruts that the law is held to, listed above", Tier::Derived);
/// Probability of the interval of the factor.
const INTERVAL: f64 = 0.90;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let ruts = &context.flight.strip.ruts;
    if ruts.is_empty() {
        return Vec::new();
    }
    let calibrated = HeldToRuts::of(context, ruts);
    let mut findings: Vec<Finding> = deepest(ruts).into_iter().collect();
    findings.push(factor(&calibrated));
    findings.extend(forecast(context, &calibrated));
    findings
}

fn deepest(ruts: &[MeasuredRut]) -> Option<Finding> {
    let depth = |rut: &MeasuredRut| rut.depth.value.si();
    let deepest = ruts.iter().max_by(|a, b| depth(a).total_cmp(&depth(b)))?;
    let (station, value) = (deepest.station.value, deepest.depth.value);
    let draft = Draft::new(&RULE, "deepest rut measured", Phase::Always)
        .at_most(limit())
        .value(value)
        .place(station, station, Some(deepest.lane))
        .step(plain_step(
            "deepest rut measured",
            "greatest of the ruts of the file",
            RULE.source,
            vec![given_as("rut", &deepest.depth, value.into())],
            value,
        ));
    let passes = Amount::count(deepest.passes.value).show(Default::default());
    let passes = counted(passes, "pass", "passes");
    let when = deepest
        .date
        .as_ref()
        .map_or("on a day not stated".to_owned(), |date| format!("on {}", date.value));
    let told = format!("measured {when} after {passes}");
    Some(if value > limit() {
        draft.instruct("Fill and compact the rut before it is used.").fail(told)
    } else {
        draft.advice().pass(told)
    })
}

/// Mean and deviation of the logarithms.
fn logarithms(calibrated: &HeldToRuts<'_>, found: &RutCalibration) -> [Step; 2] {
    let inputs = calibrated.used.iter().flat_map(|(rut, law)| {
        let at = Amount::from(rut.station.value).told();
        [
            given_as(&format!("rut at {at}"), &rut.depth, rut.depth.value.into()).under("rut"),
            computed(&format!("rut of the law at {at}"), *law, "law at the measured ruts")
                .under("law"),
        ]
    });
    let inputs: Vec<BasisInput> = inputs.collect();
    let step = |computes, expression, inputs, value| {
        plain_step(computes, expression, POSTERIOR_SOURCE, inputs, Amount::coefficient(value))
    };
    [
        step("mean of the logarithms", "mean of ln(rut / law)", inputs.clone(), found.mean_log()),
        step(
            "deviation of the logarithms",
            "standard deviation of ln(rut / law); divided by one fewer than there are",
            inputs,
            found.deviation_log(),
        ),
    ]
}

fn advice(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always).advice().mark(Mark::PlanningOnly)
}

fn factor(calibrated: &HeldToRuts<'_>) -> Finding {
    let mut draft = advice("measured ruts over those of the law");
    if !calibrated.aside.is_empty() {
        draft = draft.caveat(format!("set aside: {}", calibrated.aside.join("; ")));
    }
    let found = match &calibrated.found {
        Ok(found) => found,
        Err(why) => return draft.unavailable(why),
    };
    let Some((low, high)) = found.factor_interval(INTERVAL) else {
        return draft.unproven("the ruts have no spread", []);
    };
    let [mean, deviation] = logarithms(calibrated, found);
    draft
        .value(Amount::coefficient(found.factor()))
        .step(mean)
        .step(deviation)
        .step(plain_step(
            "factor on the law",
            "exp(mean)",
            POSTERIOR_SOURCE,
            vec![from_step("mean", Amount::coefficient(found.mean_log()), 0).under("mean")],
            Amount::coefficient(found.factor()),
        ))
        .pass(format!(
            "of {} ruts; between {low:.2} and {high:.2} with 90 in 100, and one rut by itself \
             scatters by a factor of {:.2}",
            found.size(),
            found.deviation_log().exp()
        ))
}

/// The rut after the passes of the flight, and the passes until the limit.
fn forecast(context: &Context<'_>, calibrated: &HeldToRuts<'_>) -> [Finding; 2] {
    let rut = advice("rut after the passes, by the measured ruts").at_most(limit());
    let left = advice("passes until the ruts reach the limit");
    let (found, ahead) = match (&calibrated.found, ahead(context, calibrated.so_far())) {
        (Ok(found), Ok(ahead)) => (found, ahead),
        (Err(why), _) => return [rut.unavailable(why), left.unavailable(why)],
        (_, Err(why)) => return [rut.unavailable(&why), left.unavailable(&why)],
    };
    let placed = |draft: Draft| {
        let (from, to) = match &context.measured.ground {
            Ok(ground) => stretch(ground, ahead.place.worst, ahead.place.station),
            Err(_) => (ahead.place.station, ahead.place.station),
        };
        draft.place(from, to, Some(ahead.place.worst.lane))
    };
    let steps = match steps(&ahead, calibrated, found) {
        Ok(steps) => steps,
        Err(why) => return [rut.unavailable(&why), left.unavailable(&why)],
    };
    let (so_far, asked) = (calibrated.so_far(), ahead.passes - calibrated.so_far());
    let told = format!(
        "{} so far and {} more",
        counted(Amount::count(so_far).show(Default::default()), "pass", "passes"),
        Amount::count(asked).show(Default::default())
    );
    let deep = steps.last().map_or(Amount::coefficient(f64::NAN), |step| step.result);
    let rut = placed(rut).value(deep).steps(steps.clone()).judged(&told, &told);
    let arguments = [deep, Amount::coefficient(ahead.passes), limit().into()];
    let until = match PASSES_TO_RUT.value(&arguments) {
        Ok(until) => until,
        Err(error) => return [rut, left.unproven(error.to_string(), [])],
    };
    let remaining = Amount::count((until.si - so_far).floor().max(0.0));
    let last = steps.len() - 1;
    let left = placed(left)
        .at_least(Amount::count(asked))
        .value(remaining)
        .steps(steps)
        .step(Step {
            computes: "passes at the limit".to_owned(),
            ..catalogued(
                &PASSES_TO_RUT,
                vec![
                    from_step("rut", deep, last),
                    computed(
                        "passes",
                        Amount::coefficient(ahead.passes),
                        "passes so far and asked for",
                    ),
                    constant("limit", limit(), RULE.source),
                ],
                until,
            )
        })
        .step(plain_step(
            "passes left",
            "passes at the limit − passes so far, rounded down",
            POSTERIOR_SOURCE,
            vec![
                from_step("passes at the limit", until, last + 1).under("passes at the limit"),
                computed("passes so far", Amount::count(so_far), "passes so far and asked for")
                    .under("passes so far"),
            ],
            remaining,
        ))
        .judged(&told, "fewer than the flight asks for: mend the ground before");
    [rut, left]
}

/// The steps to the rut after all passes; the last gives it.
fn steps(
    ahead: &Ahead<'_>,
    calibrated: &HeldToRuts<'_>,
    found: &RutCalibration,
) -> Known<Vec<Step>> {
    let place = &ahead.place;
    let inputs = vec![
        from_step("load", ahead.single, ahead.load.len() - 1),
        computed("pressure", place.pressure, "T10"),
        computed("passes", Amount::coefficient(ahead.passes), "passes so far and asked for"),
        computed("thickness", place.thickness, "top of the governing layer of G20"),
        computed("bearing_ratio_above", place.above, "soundings of the strip"),
        computed("bearing_ratio_below", place.below, "soundings of the strip"),
    ];
    let refused = |error| Unavailable::refused("the rut", &error);
    let law: Amount = ahead.law()?.into();
    let mut steps = ahead.load.clone();
    let first = steps.len();
    steps.push(catalogued(&BARBER_RUT, inputs, law));
    let [mean, deviation] = logarithms(calibrated, found);
    let (m, d) = (mean.result, deviation.result);
    steps.extend([mean, deviation]);
    let inputs = vec![
        from_step("rut_of_law", law, first),
        from_step("mean_log", m, first + 1),
        from_step("deviation_log", d, first + 2),
        constant("ruts", Amount::count(found.size() as f64), HELD),
        constant("probability", Amount::coefficient(STAYS_UNDER), CHOSEN),
    ];
    let amounts: Vec<Amount> = inputs.iter().map(|input| input.amount).collect();
    let deep = CALIBRATED_RUT.value(&amounts).map_err(refused)?;
    steps.push(catalogued(&CALIBRATED_RUT, inputs, deep));
    Ok(steps)
}
