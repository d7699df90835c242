//! D70: where thrown stones strike the aeroplane, and how hard.

use crate::context::Context;
use crate::draft::{Draft, computed, constant, given, need, plain_step};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::throws::{STONES, Strike, largest_stone, strikes};
use hardpan_debris::{DamageBand, THROW_TIER};
use hardpan_model::{Finding, Mark, Phase, Source};
use hardpan_quantity::{Amount, Quantity};

pub(super) const RULE: Rule = Rule {
    code: "D70",
    name: "Thrown stones",
    checks: "For each zone of the aeroplane file the share of the stones thrown by tyre edges \
             that reach it, with and without its deflectors, and the greatest energy at which \
             they do, for the largest loose stone seen on the day.",
    why: "The aeroplane runs into stones that its own tyres threw up: they hit at about the \
          speed over the ground.",
    limit: "None: energies are shown with screening bands of 2 J, 10 J and 50 J. No rate of \
            damage is published, and none is given.",
    applies: "Every flight over ground with loose stones. Screening: that edges throw sideways \
              is published; how fast, how steeply and with what drag are ranges of judgement. \
              Wakes and wind are left out.",
    source: DRAWN,
    judge,
};

const DRAWN: Source =
    Source::new("NGUYEN-LOFTING", "launch by tyre edges, with judged ranges", THROW_TIER);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    if flight.landing.is_none() && flight.take_off.is_none() {
        return Vec::new();
    }
    let draft = || draft("stones on the airframe");
    let Some(patches) = &flight.day.loose_material else {
        return vec![draft().unproven(
            "nobody says whether loose stones lie on the strip",
            [need("day: loose_material", "\"none\" when it was looked for, or each patch")],
        )];
    };
    if patches.is_empty() {
        return vec![draft().pass("no loose stones were seen")];
    }
    let found: Known<Vec<Strike>> = largest_stone(patches)
        .ok_or_else(|| {
            let wanted = need("day: loose_material: largest_stone", "in each patch, measured");
            Unavailable::missing("the energy of thrown stones", vec![wanted])
        })
        .and_then(|stone| strikes(context, stone));
    match found {
        Err(why) => vec![draft().unavailable(&why)],
        Ok(found) => {
            let first = first_to_look_at(&found);
            found.iter().map(|strike| on_zone(context, strike, &first)).collect()
        }
    }
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; the launch of stones rests on judgement")
}

/// Names of the zones that a puncturing stone can reach, hardest struck first.
fn first_to_look_at(found: &[Strike]) -> Vec<String> {
    let mut struck: Vec<&Strike> =
        found.iter().filter(|strike| strike.band >= DamageBand::Puncture).collect();
    struck.sort_by(|a, b| b.with.greatest.partial_cmp(&a.with.greatest).unwrap_or(a.order(b)));
    struck.iter().map(|strike| strike.zone.name.value.clone()).collect()
}

fn on_zone(context: &Context<'_>, strike: &Strike, first: &[String]) -> Finding {
    let zone = &strike.zone;
    let shown = |amount: Amount| amount.show(Default::default());
    let (with, without) = (strike.with.share.into(), strike.without.share.into());
    let mut inputs = vec![
        given("first place", &zone.from),
        given("last place", &zone.to),
        given("height", &zone.height),
        given("width", &zone.width),
        computed("greatest ground speed", strike.fastest, "the runs"),
        constant("stones drawn", Amount::count(f64::from(STONES)), DRAWN),
        computed("share that reaches it", with, "the draw"),
        computed("share without deflectors", without, "the draw"),
    ];
    inputs.extend(strike.stone_input(context.flight));
    let energy = Amount::from(strike.with.greatest);
    let draft = draft(&format!("stones on {}", zone.name.value)).value(energy).step(plain_step(
        "greatest energy of a stone that reaches it",
        "½ m V², V relative to the aeroplane; launched at 0.2 to 1 of the tread's descent, \
         0° to 90° up, within 35° of the axle, drag coefficient 0.7 to 1.4",
        DRAWN,
        inputs,
        energy,
    ));
    let shares = match (strike.is_guarded, strike.with.share.si() > 0.0) {
        (false, false) => "no stone drawn reaches it".to_owned(),
        (true, false) => {
            format!("no stone drawn reaches it; {} do without deflectors", shown(without))
        }
        (true, true) => format!(
            "{} of the stones thrown reach it, {} without deflectors",
            shown(with),
            shown(without)
        ),
        (false, true) => format!("{} of the stones thrown reach it", shown(with)),
    };
    let what = match strike.band {
        DamageBand::Paint if energy.si <= 0.0 => return draft.pass(shares),
        DamageBand::Paint => {
            return draft.pass(format!("{shares}, with at most {}", shown(energy)));
        }
        DamageBand::Dents => "enough to dent thin skin and break lamps",
        DamageBand::Puncture => "enough to puncture thin skin or harm a laminate",
        DamageBand::BeyondDesign => "beyond the traditional design case of 50 J",
    };
    let draft = match first.first() {
        Some(name) if *name == zone.name.value => draft.instruct(format!(
            "after each movement look for stone damage first at: {}",
            first.join(", ")
        )),
        _ => draft,
    };
    draft.conditional(format!("{shares}, with at most {}: {what}", shown(energy)))
}
