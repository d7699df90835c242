//! G50: ruts after the passes of the flight, by two laws side by side.

use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{Draft, computed, constant, given_as, plain_step};
use crate::ground::strength_finding::stretch;
use crate::ground::two_layers::{TwoLayers, from_step, passes_asked, two_layers};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use hardpan_ground::{
    BARBER_RUT, GIROUD_HAN_RUT, RutEstimate, RutForecast, RutLoading, rut_forecast,
};
use hardpan_model::{BasisInput, Finding, Formula, Given, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, BearingRatio, Force, Length, inches};
use std::f64::consts::PI;

pub(super) const RULE: Rule = Rule {
    code: "G50",
    name: "Ruts",
    checks: "Depth of the ruts at the worst place of the main lanes after the passes that the \
             flight asks for: the regression of Barber, Odom and Patrick, and the method of \
             Giroud and Han without reinforcement, each with the strength credited and with the \
             mean.",
    why: "Ruts hold water, pull at the wheels and grow with every pass.",
    limit: "3 in, the greatest depression that a published rule for unpaved surfaces allows. A \
            law outside its range says nothing.",
    applies: "Places where a stronger layer lies over a weaker one. Advice: G20 decides. Every \
              pass counts as one over the same track.",
    source: Source::new(
        "CFR-14-139-307",
        "holes or depressions at most 3 in deep",
        Tier::Published,
    ),
    judge,
};

const UNREINFORCED: Source = Source::new("GIROUD-HAN-2004", "no reinforcement", Tier::Memory);

/// What the two laws say for one place.
struct Ruts<'a> {
    place: TwoLayers<'a>,
    load: Force,
    steps: Vec<Step>,
    passes: &'a Given<f64>,
    credited: RutForecast,
    mean: RutForecast,
}

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let ruts = ruts(context);
    vec![barber(context, &ruts), giroud_han(context, &ruts)]
}

fn draft(law: &str, formula: &Formula) -> Draft {
    Draft::new(&RULE, format!("ruts by {law}"), Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .at_most(inches(3.0))
        .caveat(format!("spread of the law: {}", formula.scatter))
}

fn ruts<'a>(context: &Context<'a>) -> Known<Ruts<'a>> {
    let place = two_layers(context)?;
    let passes = passes_asked(context)?;
    let (load, steps) = place.equivalent(context)?;
    let forecast = |[above, below]: [BearingRatio; 2]| {
        rut_forecast(&RutLoading {
            load,
            pressure: place.pressure,
            passes: passes.value,
            thickness: place.thickness,
            above,
            below,
            over_laws: context.measured.ruts_over_laws,
        })
    };
    let credited = forecast(place.credited());
    let mean = forecast([place.above, place.below]);
    Ok(Ruts { place, load, steps, passes, credited, mean })
}

/// The deeper of the two laws' ruts at the strength credited, and where it lies.
pub(super) fn greatest_rut(context: &Context<'_>) -> Known<(Length, (Length, Length))> {
    let ruts = ruts(context)?;
    let held = |estimate: &RutEstimate| match *estimate {
        RutEstimate::Below(rut) | RutEstimate::About(rut) | RutEstimate::Above(rut) => rut,
    };
    let both = [
        ruts.credited.barber.as_ref().ok().copied(),
        ruts.credited.giroud_han.as_ref().ok().map(held),
    ];
    let outside = || Unavailable::refused("the ruts", &"neither law holds there");
    let rut = both.into_iter().flatten().reduce(Length::max).ok_or_else(outside)?;
    let ground = context.measured.ground.as_ref().map_err(Clone::clone)?;
    Ok((rut, stretch(ground, ruts.place.worst, ruts.place.station)))
}

fn barber(context: &Context<'_>, ruts: &Known<Ruts<'_>>) -> Finding {
    let draft = draft("Barber, Odom and Patrick", &BARBER_RUT);
    let ruts = match ruts {
        Ok(ruts) => ruts,
        Err(why) => return draft.unavailable(why),
    };
    let draft = at(draft, context, ruts);
    let rut = match &ruts.credited.barber {
        Ok(rut) => *rut,
        Err(error) => return draft.unproven(outside(&error.to_string()), []),
    };
    let mean = match &ruts.mean.barber {
        Ok(mean) => shown(*mean),
        Err(_) => "not known".to_owned(),
    };
    let beside = match &ruts.credited.giroud_han {
        Ok(estimate) => words(estimate),
        Err(_) => "outside its range".to_owned(),
    };
    let step = ruts.step(&BARBER_RUT, [], rut);
    draft.value(rut).steps(ruts.steps.clone()).step(step).judged(
        format!("at the mean strength {mean}; by Giroud and Han {beside}"),
        format!("deeper than allowed; at the mean strength {mean}; by Giroud and Han {beside}"),
    )
}

fn giroud_han(context: &Context<'_>, ruts: &Known<Ruts<'_>>) -> Finding {
    let draft = draft("Giroud and Han", &GIROUD_HAN_RUT);
    let ruts = match ruts {
        Ok(ruts) => ruts,
        Err(why) => return draft.unavailable(why),
    };
    let draft = at(draft, context, ruts);
    let estimate = match &ruts.credited.giroud_han {
        Ok(estimate) => estimate,
        Err(error) => return draft.unproven(outside(&error.to_string()), []),
    };
    let [above, below] = ruts.place.credited();
    let solved = GIROUD_HAN_RUT.value(&[
        ruts.load.into(),
        ruts.place.pressure.into(),
        Amount::coefficient(ruts.passes.value),
        ruts.place.thickness.into(),
        below.into(),
        above.into(),
        Amount::coefficient(0.0),
        Amount::coefficient(PI),
    ]);
    let mean = match &ruts.mean.giroud_han {
        Ok(estimate) => words(estimate),
        Err(_) => "outside its range".to_owned(),
    };
    let constants = [
        constant("aperture_stability", Amount::coefficient(0.0), UNREINFORCED),
        constant("bearing_capacity_factor", Amount::coefficient(PI), UNREINFORCED),
    ];
    let (RutEstimate::Below(rut) | RutEstimate::About(rut) | RutEstimate::Above(rut)) = *estimate;
    let draft = match solved {
        Ok(solved) => draft
            .steps(ruts.steps.clone())
            .step(ruts.step(&GIROUD_HAN_RUT, constants, solved))
            .step(plain_step(
                "rut as the law can tell it",
                "the solution, held to the 50 to 100 mm for which the law stands",
                GIROUD_HAN_RUT.source,
                vec![from_step("solution", solved, ruts.steps.len())],
                rut,
            )),
        Err(error) => return draft.unproven(outside(&error.to_string()), []),
    };
    draft.value(rut).judged(
        format!("{} at the strength credited; {mean} at the mean", words(estimate)),
        format!("{} at the strength credited; {mean} at the mean", words(estimate)),
    )
}

impl Ruts<'_> {
    /// The step of a law: the arguments in its order, with those of its own.
    fn step(
        &self,
        formula: &Formula,
        own: impl IntoIterator<Item = BasisInput>,
        rut: impl Into<Amount>,
    ) -> Step {
        let [above, below] = self.place.credited();
        let thickness =
            computed("thickness", self.place.thickness, "top of the governing layer of G20");
        let passes = given_as("passes", self.passes, Amount::coefficient(self.passes.value));
        let how = "soundings of the strip, mean of the law over its divisor";
        let strength = [
            ("bearing_ratio_above", computed("bearing_ratio_above", above, how)),
            ("bearing_ratio_below", computed("bearing_ratio_below", below, how)),
        ];
        let mut inputs = vec![
            from_step("load", self.load, self.steps.len() - 1),
            computed("pressure", self.place.pressure, "T10"),
            passes,
            thickness,
        ];
        let order = formula.arguments.iter();
        inputs.extend(order.filter_map(|argument| {
            strength.iter().find(|(name, _)| *name == argument.name).map(|(_, input)| input.clone())
        }));
        inputs.extend(own);
        Step { computes: "rut depth".to_owned(), ..catalogued(formula, inputs, rut) }
    }
}

fn at(draft: Draft, context: &Context<'_>, ruts: &Ruts<'_>) -> Draft {
    let (worst, station) = (ruts.place.worst, ruts.place.station);
    let (from, to) = match &context.measured.ground {
        Ok(ground) => stretch(ground, worst, station),
        Err(_) => (station, station),
    };
    draft.place(from, to, Some(worst.lane))
}

fn outside(error: &str) -> String {
    format!("the law does not hold there: {error}")
}

fn words(estimate: &RutEstimate) -> String {
    match *estimate {
        RutEstimate::Below(rut) => format!("less than {}", shown(rut)),
        RutEstimate::About(rut) => format!("about {}", shown(rut)),
        RutEstimate::Above(rut) => format!("more than {}", shown(rut)),
    }
}

fn shown(length: Length) -> String {
    Amount::from(length).told()
}
