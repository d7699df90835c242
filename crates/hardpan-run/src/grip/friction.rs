//! Rolling and braking coefficient of the strip on the day, with their basis.
//!
//! What the user states for the state of the surface wins, then what was fitted to
//! the operator's charts. Otherwise published rows are taken as planning values, with a credited value on the safe side.
//! Frozen and thawing ground, and rolling on wet dirt, have no published value:
//! they are needs until the user states them.

use super::fitted::{Of, fitted_value};
use super::friction_table::{BrakingRow, RollingRow, braking_row, rolling_row};
use crate::entry::{coefficient, kernel};
use crate::need::Needs;
use hardpan_model::{
    Aeroplane, BasisInput, Formula, Given, InputFrom, Mark, Need, Source, Step, Strip, SurfaceKind,
    SurfaceState, Tier,
};
use hardpan_quantity::{Amount, Dimension, Quantity, Ratio, ratio};

/// Share of a planning braking coefficient that is credited: the printed range
/// 0.3 to 0.5 about 0.4 on dry pavement, taken over to surfaces without one.
const CREDITED_BRAKING: f64 = 0.75;

/// One coefficient with its basis.
#[derive(Debug, Clone, PartialEq)]
pub struct Coefficient {
    /// Best estimate.
    pub value: Ratio,
    /// On the safe side of the scatter: above for rolling, below for braking;
    /// the value itself where the user states it.
    pub credited: Ratio,
    /// Stated by the user, or planning only.
    pub mark: Mark,
    /// Spread, in words.
    pub scatter: String,
    /// How it came about.
    pub step: Step,
}

/// Friction of the strip on the day.
#[derive(Debug, Clone, PartialEq)]
pub struct Friction {
    /// Rolling resistance coefficient.
    pub rolling: Coefficient,
    /// Braking coefficient that the aeroplane reaches, anti-skid included.
    pub braking: Coefficient,
}

/// Friction of a strip in a state, for an aeroplane.
///
/// # Errors
/// A [`Need`] for each of rolling and braking that is neither stated nor
/// published for the surface and its state.
pub fn friction(
    strip: &Strip,
    aeroplane: &Aeroplane,
    state: SurfaceState,
) -> Result<Friction, Vec<Need>> {
    let mut needs = Needs::default();
    let kind = strip.surface.as_ref().map(|given| given.value);
    let stated = strip
        .friction
        .iter()
        .rev()
        .find(|friction| friction.state == state && friction.between.is_none());
    let fitted = aeroplane.fitted.iter().flat_map(|fitted| &fitted.friction);
    let fitted = fitted.rev().find(|on| Some(on.surface) == kind && on.state == state);
    let rolling = match (stated.and_then(|friction| friction.rolling.as_ref()), fitted) {
        (Some(given), _) => user_value(&mut needs, given, "rolling", state),
        (None, Some(on)) => Some(fitted_value(on, Of::Rolling)),
        (None, None) => planned_rolling(&mut needs, kind, state),
    };
    let braking = match (stated.and_then(|friction| friction.braking.as_ref()), fitted) {
        (Some(given), _) => user_value(&mut needs, given, "braking", state),
        (None, Some(on)) => Some(fitted_value(on, Of::Braking)),
        (None, None) => planned_braking(&mut needs, kind, state, aeroplane),
    };
    needs.finish_with(rolling.zip(braking), |(rolling, braking)| Friction { rolling, braking })
}

fn key(what: &str, state: SurfaceState) -> String {
    format!("strip: friction \"{}\": {what}", state.word())
}

fn user_value(
    needs: &mut Needs,
    given: &Given<Ratio>,
    what: &str,
    state: SurfaceState,
) -> Option<Coefficient> {
    let why = "friction coefficients lie between 0 and 1";
    let value = needs.quantity(&key(what, state), Some(given), 0.0..=1.0, why);
    value.is_finite().then(|| Coefficient {
        value: ratio(value),
        credited: ratio(value),
        mark: Mark::Measured,
        scatter: "as the source that the user states".to_owned(),
        step: Step {
            computes: format!("{what} coefficient, {}", state.word()),
            formula: None,
            expression: "as stated".to_owned(),
            source: Source::new("", "stated by the user", Tier::Approved),
            inputs: vec![from_file(what, Amount::coefficient(value), given)],
            result: Amount::coefficient(value),
        },
    })
}

pub(super) fn from_file<T>(name: &str, amount: Amount, given: &Given<T>) -> BasisInput {
    let source = given.source.as_deref().map(str::to_owned);
    BasisInput::new(name, amount, InputFrom::File { origin: given.origin.clone(), source })
}

fn constant(name: &str, amount: Amount, source: Source) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Constant(source))
}

fn surface_needed(needs: &mut Needs, kind: Option<SurfaceKind>) -> Option<SurfaceKind> {
    if kind.is_none() {
        needs.add("strip: surface", "friction depends on what the strip is made of".to_owned());
    }
    kind
}

fn no_row(needs: &mut Needs, what: &str, kind: SurfaceKind, state: SurfaceState) {
    needs.add(
        &key(what, state),
        format!("no published value for {} {}; state a measured one", state.word(), kind.word()),
    );
}

fn planned_rolling(
    needs: &mut Needs,
    kind: Option<SurfaceKind>,
    state: SurfaceState,
) -> Option<Coefficient> {
    let kind = surface_needed(needs, kind)?;
    let Some(RollingRow { name, value, scatter, source }) = rolling_row(kind, state) else {
        no_row(needs, "rolling", kind, state);
        return None;
    };
    Some(Coefficient {
        value: ratio(value),
        credited: ratio(value + scatter),
        mark: Mark::PlanningOnly,
        scatter: format!("± {scatter}, judged from the spread of the printed rows"),
        step: Step {
            computes: format!("rolling coefficient, {} {}", state.word(), kind.word()),
            formula: None,
            expression: format!("row `{name}`"),
            source,
            inputs: vec![constant("row", Amount::coefficient(value), source)],
            result: Amount::coefficient(value),
        },
    })
}

fn planned_braking(
    needs: &mut Needs,
    kind: Option<SurfaceKind>,
    state: SurfaceState,
    aeroplane: &Aeroplane,
) -> Option<Coefficient> {
    let kind = surface_needed(needs, kind)?;
    let Some(row) = braking_row(kind, state) else {
        no_row(needs, "braking", kind, state);
        return None;
    };
    let own = aeroplane.brakes.paved_dry_coefficient.as_ref();
    let why = "planning values of braking rest on the aeroplane's own on dry pavement";
    let paved = needs.coefficient("aeroplane: brakes.paved_dry_coefficient", own, 0.05..=0.8, why);
    let own = own.filter(|_| paved.is_finite())?;
    let own_input = from_file("own coefficient on dry pavement", Amount::coefficient(paved), own);
    let (value, formula, expression, source, inputs) = match row {
        BrakingRow::Coefficient { name, value, source } => (
            value.min(paved),
            None,
            format!("row `{name}`, at most the aeroplane's own coefficient on dry pavement"),
            source,
            vec![constant("row", Amount::coefficient(value), source), own_input],
        ),
        BrakingRow::Readings { name, surface, asphalt_dry, source } => (
            braking_from_readings(paved, surface, asphalt_dry),
            Some(BRAKING_FROM_READINGS.name),
            format!("own coefficient x reading `{name}` / reading `asphalt, dry`"),
            source,
            vec![
                own_input,
                constant("reading", Amount::coefficient(surface), source),
                constant("reading on dry asphalt", Amount::coefficient(asphalt_dry), source),
            ],
        ),
    };
    Some(Coefficient {
        value: ratio(value),
        credited: Ratio::from_si(CREDITED_BRAKING * value),
        mark: Mark::PlanningOnly,
        scatter: "± 25 %, judged from the printed range on dry pavement".to_owned(),
        step: Step {
            computes: format!("braking coefficient, {} {}", state.word(), kind.word()),
            formula,
            expression,
            source,
            inputs,
            result: Amount::coefficient(value),
        },
    })
}

fn braking_from_readings(paved: f64, surface: f64, asphalt: f64) -> f64 {
    paved * surface / asphalt
}

/// Braking coefficient scaled by decelerometer readings.
pub(crate) static BRAKING_FROM_READINGS: Formula = Formula {
    name: "braking-from-readings",
    computes: "planning value of the braking coefficient on a surface without one of its own",
    expression: "mu = mu_paved x reading / reading on the pavement that mu_paved holds for",
    arguments: &[
        coefficient("paved_coefficient", "mu_paved", 0.0, 1.0),
        coefficient("surface_reading", "RCR", 0.0, 40.0),
        coefficient("paved_reading", "RCR_paved", 1.0, 40.0),
    ],
    result: Dimension::Coefficient,
    source: Source::new("USAF-AFI-11-2-2012", "table 5.5; use as a ratio is ours", Tier::Judgement),
    scatter: "not published; 25 % either way is assumed",
    evaluate: kernel!(braking_from_readings, paved, surface, asphalt),
};
