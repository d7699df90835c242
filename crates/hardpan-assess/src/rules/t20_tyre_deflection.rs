//! T20: how far the tyres deflect, against their rating.

use crate::by_formula::{by_formula, catalogued, result_of};
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, derived, given, given_as, need, plain_step};
use crate::ground::LegKind;
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::tyres::wheel_load;
use hardpan_ground::{
    DEFLECTION_OF_SECTION, FOOTPRINT_AREA, FOOTPRINT_LENGTH, FOOTPRINT_WIDTH, TYRE_LOAD, TyreSize,
    deflection,
};
use hardpan_model::{Finding, Given, Mark, Need, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Area, Force, Length, Pressure};

pub(super) const RULE: Rule = Rule {
    code: "T20",
    name: "Tyre deflection",
    checks: "Deflection of the tyres at the pressure set and the greatest load that comes to \
             them, over that at rated load and pressure, and in per cent of the section above the \
             flange; their footprint and the mean pressure in it.",
    why: "A tyre run soft for the sake of the ground flexes more and runs hotter; the chart that \
          allows it is the only permission.",
    limit: "None is published: T10 decides by the approved chart or the rating.",
    applies: "Tyres of stated size and rating. Advice.",
    source: Source::new("SMILEY-HORNE-1958", "vertical load and deflection", Tier::Memory),
    judge,
};

/// Shape coefficient of the tyres, and why.
const PROFILE: f64 = 0.03;
const PROFILE_SOURCE: Source =
    Source::new("SMILEY-HORNE-1958", "C_z of tyres of types III and VII", Tier::Memory);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    [LegKind::Main, LegKind::Nose].map(|leg| check(context, leg)).to_vec()
}

/// What is known of a tyre and its load.
struct Tyre<'a> {
    diameter: &'a Given<Length>,
    flange: Option<&'a Given<Length>>,
    width: &'a Given<Length>,
    rated_load: &'a Given<Force>,
    rated_pressure: &'a Given<Pressure>,
    set: Pressure,
    leg_load: Force,
    wheel_load: Force,
}

fn check(context: &Context<'_>, leg: LegKind) -> Finding {
    let draft = Draft::new(&RULE, format!("{} tyre deflection", leg.word()), Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat(format!("spread of the relation: {}", TYRE_LOAD.scatter));
    let found = tyre(context, leg).and_then(|tyre| {
        let (set, rated) = tyre.deflections()?;
        Ok((tyre, set, rated))
    });
    let (tyre, set, rated) = match found {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let share = set / rated;
    let width = Amount::from(set / tyre.width.value).told();
    let [set_shown, rated_shown] = [set, rated].map(|one| Amount::from(one).told());
    let told = format!(
        "{set_shown}, {width} of the width of the tyre; {rated_shown} at rated load and pressure"
    );
    let draft = draft.value(share).steps(tyre.steps(context, leg, set, rated));
    let (draft, told) = match tyre.of_section(set, rated) {
        Ok(steps) => {
            let [now, as_rated] = &steps;
            let bears = now.result.si >= 1.0;
            let (now, as_rated) = (now.result.told(), as_rated.result.told());
            let draft = draft.steps(steps);
            if bears {
                return draft.fail(format!(
                    "{told}; that is {now} of the section above the flange: the rim bears"
                ));
            }
            (draft, format!("{told}; {now} of the section above the flange, {as_rated} as rated"))
        }
        Err(_) => (draft, told),
    };
    match tyre.footprint(set) {
        Ok((steps, footprint)) => draft.steps(steps).pass(format!("{told}; {footprint}")),
        Err(_) => draft.pass(told),
    }
}

fn tyre<'a>(context: &Context<'a>, leg: LegKind) -> Known<Tyre<'a>> {
    let measured = context.measured;
    let flight: &'a hardpan_model::Flight = context.flight;
    let data = &leg.leg(flight).tyre;
    let (Some(diameter), Some(width), Some(rated_load), Some(rated_pressure)) =
        (&data.diameter, &data.width, &data.rated_load, &data.rated_pressure)
    else {
        let missing = [
            (data.diameter.is_none(), "diameter"),
            (data.width.is_none(), "width"),
            (data.rated_load.is_none(), "rated_load"),
            (data.rated_pressure.is_none(), "rated_pressure"),
        ];
        let needs: Vec<Need> = missing
            .iter()
            .filter(|(gone, _)| *gone)
            .map(|(_, key)| {
                need(&format!("aeroplane: {}.tyre.{key}", leg.key()), "from the tyre maker")
            })
            .collect();
        return Err(Unavailable::missing("the deflection of the tyre", needs));
    };
    let set = match leg {
        LegKind::Main => &measured.main_tyre,
        LegKind::Nose => &measured.nose_tyre,
    };
    let leg_load = measured.loads.as_ref().map_err(Clone::clone)?.greatest(leg);
    let wheel_load = wheel_load(leg.leg(flight), leg_load)
        .ok_or_else(|| Unavailable::missing("the load of one wheel", Vec::new()))?;
    Ok(Tyre {
        diameter,
        flange: data.flange_diameter.as_ref(),
        width,
        rated_load,
        rated_pressure,
        set: set.as_ref().map_err(Clone::clone)?.set,
        leg_load,
        wheel_load,
    })
}

impl Tyre<'_> {
    /// Deflection at the pressure set, and at rated load and pressure.
    fn deflections(&self) -> Known<(Length, Length)> {
        let size = TyreSize {
            diameter: self.diameter.value,
            width: self.width.value,
            rated_pressure: self.rated_pressure.value,
            profile_coefficient: PROFILE,
        };
        let set = deflection(&size, self.wheel_load, self.set)?;
        Ok((set, deflection(&size, self.rated_load.value, self.rated_pressure.value)?))
    }

    /// Deflection as set and as rated over the section above the flange.
    fn of_section(&self, set: Length, rated: Length) -> Known<[Step; 2]> {
        let flange = self.flange.ok_or_else(|| {
            Unavailable::missing("the section of the tyre above the flange", Vec::new())
        })?;
        let step = |deflection: Length, by: &str| {
            let inputs = vec![
                given("tyre_diameter", self.diameter),
                given("flange_diameter", flange),
                computed("deflection", deflection, by),
            ];
            by_formula(DEFLECTION_OF_SECTION.name, inputs)
        };
        Ok([step(set, "found for step 2")?, step(rated, "found for step 3")?])
    }

    /// The footprint at a deflection and the mean pressure in it, and what to say of
    /// them.
    fn footprint(&self, set: Length) -> Known<(Vec<Step>, String)> {
        let (width, diameter) =
            (given("tyre_width", self.width), given("tyre_diameter", self.diameter));
        let deep = || computed("deflection", set, "found for step 2");
        let length = by_formula(FOOTPRINT_LENGTH.name, vec![diameter.clone(), deep()])?;
        let across = by_formula(FOOTPRINT_WIDTH.name, vec![width.clone(), deep()])?;
        let area = by_formula(FOOTPRINT_AREA.name, vec![width, diameter, deep()])?;
        let mean = self.wheel_load / result_of::<Area>(&area)?;
        let told = format!(
            "its footprint is {} long and {} wide, {} in all, under {} in the mean",
            length.result.told(),
            across.result.told(),
            area.result.told(),
            Amount::from(mean).told(),
        );
        let load = computed("load of one wheel", self.wheel_load, "step 1");
        let area_input = computed("footprint area", area.result, "the step before");
        let pressed = plain_step(
            "mean contact pressure",
            "load / footprint area",
            derived("load over area"),
            vec![load.under("load"), area_input.under("footprint area")],
            mean,
        );
        Ok((vec![length, across, area, pressed], told))
    }

    fn steps(&self, context: &Context<'_>, leg: LegKind, set: Length, rated: Length) -> Vec<Step> {
        let count = |wheels: &Given<u32>| Amount::count(f64::from(wheels.value));
        let wheels = leg.leg(context.flight).wheels.iter();
        let wheels = wheels.map(|wheels| given_as("wheels", wheels, count(wheels)).under("wheels"));
        let greatest = "loads of the legs: greatest of the planned runs and of standing";
        let leg = computed("load of the leg", self.leg_load, greatest).under("load of the leg");
        let load = std::iter::once(leg).chain(wheels);
        let from = "found so that the load is the wanted one";
        let law = |computes: &str, pressure, deflection: Length, load: Force| {
            let inputs = vec![
                pressure,
                given("rated_pressure", self.rated_pressure),
                given("tyre_width", self.width),
                given("tyre_diameter", self.diameter),
                beside("deflection", deflection, from),
                constant("profile_coefficient", Amount::coefficient(PROFILE), PROFILE_SOURCE),
            ];
            Step { computes: computes.to_owned(), ..catalogued(&TYRE_LOAD, inputs, load) }
        };
        vec![
            plain_step(
                "load of one wheel",
                "load of the leg / wheels",
                derived("wheels of a leg carry alike"),
                load.collect(),
                self.wheel_load,
            ),
            law(
                "load at the pressure set",
                computed("pressure", self.set, "T10"),
                set,
                self.wheel_load,
            ),
            law(
                "load as rated",
                given("pressure", self.rated_pressure),
                rated,
                self.rated_load.value,
            ),
            plain_step(
                "deflection against the rated one",
                "deflection at the pressure set / deflection as rated",
                derived("a ratio of the two above"),
                vec![
                    computed("deflection at the pressure set", set, "step 2")
                        .under("deflection at the pressure set"),
                    computed("deflection as rated", rated, "step 3").under("deflection as rated"),
                ],
                set / rated,
            ),
        ]
    }
}
